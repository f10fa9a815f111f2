// SPDX-License-Identifier: GPL-3.0-or-later
// The tables as one: fresh, with the user's own on top, with names looked up, and short of memory.
#include "base/memory.h"
#include "data/library.h"
#include "folder.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct folder own;
static struct data_directory directories[2];

static void make_folder(void) {
    tables_with_folder(&own, directories);
}

static void remove_folder(void) {
    library_release(&lib);
    folder_remove(&own);
}

static void open_with_own(unsigned tables) {
    struct error err = {0};
    library_release(&lib);
    ck_assert_msg(library_open(&lib, directories, 2, tables, &err) == STATUS_OK, "%s", err.text);
}

static const struct component *component(const char *name) {
    return tables_component(&lib, name);
}

static const struct material *material(const char *name) {
    return tables_material(&lib, name);
}

// --- fresh ---

START_TEST(fresh_tables_hold_what_is_promised) {
    struct error err = {0};
    ck_assert_msg(library_open(&lib, directories, 1, TABLE_ALL, &err) == STATUS_OK, "%s", err.text);
    ck_assert_uint_eq(lib.loaded, TABLE_ALL);
    ck_assert_uint_eq(lib.component_count, 88);
    ck_assert_uint_eq(lib.properties_count, 88);
    ck_assert_uint_eq(lib.hazard_count, 88);
    ck_assert_uint_eq(lib.material_count, 36);
    ck_assert_ptr_nonnull(lib.version);
    for (size_t i = 0; i < lib.component_count; i++) {
        ck_assert_ptr_nonnull(lib.components[i].properties);
        ck_assert_ptr_nonnull(lib.components[i].hazard);
        ck_assert_str_eq(lib.components[i].properties->id, lib.components[i].id);
        ck_assert_str_eq(lib.components[i].hazard->id, lib.components[i].id);
        ck_assert(!lib.components[i].user && !lib.components[i].hansen.from.user);
    }
}
END_TEST

START_TEST(only_the_tables_asked_for_are_read) {
    struct error err = {0};
    ck_assert_int_eq(library_open(&lib, directories, 1, TABLE_MATERIALS, &err), STATUS_OK);
    ck_assert_uint_eq(lib.component_count, 0);
    ck_assert_uint_eq(lib.material_count, 36);
    library_release(&lib);
    // Hazards belong to components, which come along.
    ck_assert_int_eq(library_open(&lib, directories, 1, TABLE_HAZARDS, &err), STATUS_OK);
    ck_assert_uint_eq(lib.component_count, 88);
    ck_assert_uint_eq(lib.properties_count, 0);
    ck_assert_ptr_null(component("acetone")->properties);
    ck_assert_ptr_nonnull(component("acetone")->hazard);
}
END_TEST

START_TEST(the_first_directory_must_be_whole) {
    struct data_directory empty = {.path = own.path};
    struct error err = {0};
    ck_assert_int_eq(library_open(&lib, &empty, 1, TABLE_COMPONENTS, &err), STATUS_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(err.text, "components.yaml"));
    ck_assert_uint_eq(lib.component_count, 0);
}
END_TEST

// --- the user's own on top ---

START_TEST(a_group_of_the_users_replaces_ours_whole) {
    folder_write(&own, "components.yaml",
                 "table: components\n"
                 "components:\n"
                 "  - {id: acetone, hansen: {delta_d: 15.6, delta_p: 10.5, delta_h: 7.1, unit: MPa^0.5}}\n");
    open_with_own(TABLE_COMPONENTS);
    ck_assert_uint_eq(lib.component_count, 88);
    const struct component *acetone = component("acetone");
    ck_assert_double_eq(acetone->hansen.delta_p, 10.5);
    ck_assert(acetone->hansen.from.user);
    ck_assert_uint_eq(acetone->hansen.from.ref_count, 0); // our sources do not stand beside the user's value
    ck_assert_int_eq(acetone->hansen.from.sure, SURE_UNSTATED);
    ck_assert(!acetone->user);
    ck_assert_double_eq(acetone->teas.fd, 47); // untouched
    ck_assert(!acetone->teas.from.user);
    ck_assert_str_eq(acetone->cas, "67-64-1");
}
END_TEST

START_TEST(a_quantity_of_the_users_replaces_ours_whole) {
    folder_write(&own, "properties.yaml",
                 "table: properties\n"
                 "properties:\n"
                 "  - {id: toluene, flash_point: {value: 5, unit: degC, sure: checked, note: my bottle}}\n");
    open_with_own(TABLE_PROPERTIES);
    const struct properties *toluene = component("toluene")->properties;
    ck_assert_double_eq(toluene->flash_point.value, 5);
    ck_assert(toluene->flash_point.from.user);
    ck_assert_str_eq(toluene->flash_point.from.note, "my bottle");
    ck_assert_ptr_null(toluene->flash_point.cup); // ours said "closed": not of this value
    ck_assert(isfinite(toluene->density_20c.value) && !toluene->density_20c.from.user);
}
END_TEST

START_TEST(new_rows_are_the_users) {
    folder_write(&own, "components.yaml",
                 "table: components\n"
                 "components:\n"
                 "  - id: my-cut\n"
                 "    name: light cut of the workshop\n"
                 "    family: petroleum-cut\n"
                 "    synonyms: {de: [Werkstattbenzin]}\n"
                 "    hansen: {delta_d: 15.2, delta_p: 0, delta_h: 0, unit: MPa^0.5, refs: [5000]}\n");
    folder_write(&own, "properties.yaml",
                 "table: properties\nproperties:\n  - {id: my-cut, density_20c: {value: 0.7, unit: g/cm3}}\n");
    folder_write(&own, "references.yaml",
                 "table: references\nreferences:\n  - {id: 5000, cite: \"own notebook, p. 12\", seen: own}\n");
    open_with_own(TABLE_ALL);
    ck_assert_uint_eq(lib.component_count, 89);
    const struct component *cut = component("werkstattbenzin");
    ck_assert_str_eq(cut->id, "my-cut");
    ck_assert(cut->user && cut->hansen.from.user);
    ck_assert_double_eq(cut->properties->density_20c.value, 0.7);
    ck_assert(isnan(cut->properties->flash_point.value));
    ck_assert_ptr_null(cut->hazard);
    const struct reference *notebook = library_reference(&lib, 5000);
    ck_assert_ptr_nonnull(notebook);
    ck_assert(notebook->user);
    ck_assert(!library_reference(&lib, 1)->user);
    ck_assert_ptr_null(library_reference(&lib, 5001));
}
END_TEST

START_TEST(new_and_changed_materials) {
    folder_write(&own, "materials.yaml",
                 "table: materials\n"
                 "materials:\n"
                 "  - id: studio-varnish\n"
                 "    name: varnish of the old studio\n"
                 "    kind: natural-resin\n"
                 "    film: dissolves\n"
                 "    sphere: {delta_d: 17, delta_p: 6, delta_h: 8, r0: 7, unit: MPa^0.5}\n"
                 "  - id: hard-copal\n"
                 "    sphere: {delta_d: 18, delta_p: 9, delta_h: 9, r0: 5, unit: MPa^0.5}\n"
                 "  - {id: dammar-fresh, no_region: ours behaved otherwise}\n");
    open_with_own(TABLE_MATERIALS | TABLE_REFERENCES);
    ck_assert(material("studio-varnish")->user);
    // A sphere ends "no region is published", a reason without sphere ends the sphere.
    ck_assert_ptr_null(material("hard-copal")->no_region);
    ck_assert_double_eq(material("hard-copal")->sphere.r0, 5);
    ck_assert(material("hard-copal")->sphere.from.user && !material("hard-copal")->user);
    ck_assert(isnan(material("dammar-fresh")->sphere.r0));
    ck_assert_str_eq(material("dammar-fresh")->no_region, "ours behaved otherwise");
}
END_TEST

static void write_film(const char *material, const char *film) {
    char text[1000];
    snprintf(text, sizeof text, "table: materials\nmaterials:\n  - {id: %s, film_model: {rank_by: film, %s}}\n",
             material, film);
    folder_write(&own, "materials.yaml", text);
}

// A user's own pair of swab tests as the anchor of a film.
START_TEST(anchors_of_a_film) {
    static const char right[] =
        "anchor_fails: [{component: isooctane, percent: 60}, {component: ethanol, percent: 40}], "
        "anchor_dissolves: [{component: ethanol, percent: 100}]";
    static const struct {
        const char *material, *film, *rule;
    } wrong[] = {
        {"dammar-aged", "molar_volume_cm3_mol: 700, anchor_fails: [{component: toluene, percent: 100}]",
         "needs both anchor_fails and anchor_dissolves"},
        {"dammar-aged",
         "molar_volume_cm3_mol: 700, anchor_fails: [{component: toluene, percent: 100}], "
         "anchor_dissolves: [{component: toluene, percent: 40}, {component: acetone, percent: 50}]",
         "must add up to 100"},
        {"dammar-aged",
         "molar_volume_cm3_mol: 700, anchor_fails: [{component: tolueen, percent: 100}], "
         "anchor_dissolves: [{component: acetone, percent: 100}]",
         "toluene"},
        {"alkyd-long-oil",
         "network_mol_m3: 700, anchor_fails: [{component: toluene, percent: 100}], "
         "anchor_dissolves: [{component: acetone, percent: 100}]",
         "only a film that can dissolve"},
    };
    char film[500];
    snprintf(film, sizeof film, "molar_volume_cm3_mol: 700, %s", right);
    write_film("dammar-aged", film);
    open_with_own(TABLE_MATERIALS | TABLE_COMPONENTS | TABLE_REFERENCES);
    const struct film_values *model = &material("dammar-aged")->film_model;
    const struct bottle_part *fails = model->anchor_fails.items, *dissolves = model->anchor_dissolves.items;
    ck_assert_uint_eq(model->anchor_fails.count, 2);
    ck_assert_uint_eq(model->anchor_dissolves.count, 1);
    ck_assert_str_eq(fails[1].component, "ethanol");
    ck_assert_double_eq(fails[1].percent, 40);
    ck_assert_double_eq(dissolves[0].percent, 100);
    library_release(&lib);
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        struct error err = {0};
        write_film(wrong[i].material, wrong[i].film);
        ck_assert_int_eq(library_open(&lib, directories, 2, TABLE_MATERIALS | TABLE_COMPONENTS, &err), STATUS_INPUT);
        ck_assert_msg(strstr(err.text, wrong[i].rule) != NULL, "%s", err.text);
    }
}
END_TEST

START_TEST(values_of_the_users_own_end_the_surrogate) {
    ck_assert_int_eq(library_open(&lib, directories, 1, TABLE_COMPONENTS, NULL), STATUS_OK);
    ck_assert_str_eq(component("petroleum-ether-40-60")->surrogate, "n-hexane");
    folder_write(&own, "components.yaml",
                 "table: components\ncomponents:\n  - id: petroleum-ether-40-60\n"
                 "    hansen: {delta_d: 14.6, delta_p: 0, delta_h: 0, unit: MPa^0.5}\n");
    open_with_own(TABLE_COMPONENTS);
    ck_assert_ptr_null(component("petroleum-ether-40-60")->surrogate);
}
END_TEST

START_TEST(synonyms_given_replace_one_language) {
    folder_write(&own, "components.yaml",
                 "table: components\ncomponents:\n  - {id: acetone, synonyms: {it: [dimetilchetone]}}\n");
    open_with_own(TABLE_COMPONENTS);
    ck_assert_ptr_eq(component("dimetilchetone"), component("acetone"));
    ck_assert_ptr_eq(component("Aceton"), component("acetone"));
}
END_TEST

// Half of the user's limit and half of ours would be nobody's limit.
START_TEST(a_limit_of_the_users_replaces_ours_whole) {
    folder_write(&own, "limits.yaml",
                 "table: limits\nlimits:\n  - {component: acetone, authority: eu, kind: twa-8h, ppm: 250}\n");
    ck_assert_int_eq(library_open(&lib, directories, 1, TABLE_LIMITS, NULL), STATUS_OK);
    size_t rows = lib.limit_count;
    open_with_own(TABLE_LIMITS);
    ck_assert_uint_eq(lib.limit_count, rows);
    size_t found = 0;
    for (size_t i = 0; i < lib.limit_count; i++) {
        const struct limit *limit = &lib.limits[i];
        if (strcmp(limit->component, "acetone") != 0 || strcmp(limit->authority, "eu") != 0 ||
            limit->kind != LIMIT_TWA_8H)
            continue;
        found++;
        ck_assert_double_eq(limit->ppm, 250);
        ck_assert(isnan(limit->mg_m3));
        ck_assert(limit->from.user);
    }
    ck_assert_uint_eq(found, 1);
}
END_TEST

START_TEST(a_partial_row_keeps_the_rest) {
    folder_write(&own, "hazards.yaml", "table: hazards\nhazards:\n  - {id: toluene, gloves_resistant: [viton]}\n");
    open_with_own(TABLE_HAZARDS);
    const struct hazard *toluene = component("toluene")->hazard;
    ck_assert_uint_eq(toluene->gloves_resistant.count, 1);
    ck_assert_uint_gt(toluene->h_statements.count, 3);
    ck_assert_int_eq(toluene->reproductive_category, CATEGORY_2);
    // Only what was given is the user's; the row and its source stay ours.
    ck_assert(!toluene->from.user);
    ck_assert_uint_gt(toluene->from.ref_count, 0);
    ck_assert_uint_eq(toluene->yours.count, 1);
    ck_assert_str_eq(toluene->yours.items[0], "gloves_resistant");
    ck_assert_uint_eq(component("acetone")->hazard->yours.count, 0);
}
END_TEST

START_TEST(a_row_with_its_own_source_is_the_users) {
    folder_write(&own, "hazards.yaml",
                 "table: hazards\nhazards:\n  - {id: toluene, h_statements: [H225], sure: memory}\n"
                 "  - {id: acetone, iarc_group: \"3\"}\n");
    open_with_own(TABLE_HAZARDS);
    ck_assert(component("toluene")->hazard->from.user);
    ck_assert(!component("acetone")->hazard->from.user);
}
END_TEST

START_TEST(own_bottles_and_shelves) {
    folder_write(&own, "bottles.yaml",
                 "table: bottles\n"
                 "bottles:\n"
                 "  - id: my-spirit\n"
                 "    name: spirit of the workshop\n"
                 "    composition: [{component: ethanol, percent: 94}, {component: water, percent: 6}]\n"
                 "shelves:\n"
                 "  - {id: mine, name: my shelf, bottles: [my-spirit, acetone]}\n");
    open_with_own(TABLE_BOTTLES);
    struct bottle_ref ref;
    ck_assert_int_eq(library_bottle(&lib, "Spirit of the Workshop", &ref, NULL), STATUS_OK);
    ck_assert_str_eq(bottle_ref_id(&ref), "my-spirit");
    ck_assert_str_eq(bottle_ref_name(&ref), "spirit of the workshop");
    ck_assert(ref.bottle->user && !ref.component);
    const struct shelf *shelf;
    ck_assert_int_eq(library_shelf(&lib, "MINE", &shelf, NULL), STATUS_OK);
    ck_assert_uint_eq(shelf->bottles.count, 2);
    struct error err = {0};
    ck_assert_int_eq(library_shelf(&lib, "yours", &shelf, &err), STATUS_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(err.text, ", mine"));
}
END_TEST

// More rows than the first index of rows has room for.
START_TEST(many_rows_of_the_users) {
    static char bytes[64 * 1024];
    size_t at = (size_t)snprintf(bytes, sizeof bytes, "table: components\ncomponents:\n");
    for (int i = 0; i < 700; i++)
        at += (size_t)snprintf(bytes + at, sizeof bytes - at, "  - {id: own-%d, name: own %d, family: ester}\n", i, i);
    folder_write(&own, "components.yaml", bytes);
    folder_write(&own, "properties.yaml",
                 "table: properties\nproperties:\n  - {id: own-699, boiling_point: {value: 99, unit: degC}}\n"
                 "  - {id: acetone, boiling_point: {value: 56, unit: degC}}\n");
    open_with_own(TABLE_PROPERTIES | TABLE_REFERENCES);
    ck_assert_uint_eq(lib.component_count, 788);
    ck_assert_double_eq(component("own-699")->properties->boiling_point.value, 99);
    ck_assert_double_eq(component("acetone")->properties->boiling_point.value, 56);
    ck_assert_ptr_null(component("own-0")->properties);
}
END_TEST

// --- names ---

START_TEST(names_are_found_in_five_languages) {
    open_with_own(TABLE_COMPONENTS | TABLE_BOTTLES);
    static const char *const names[] = {"acetone", "ACETONE",      "propanone", "Aceton", "ACÉTONE",
                                        "acetona", "propan-2-one", "67-64-1",   "Azeton"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        ck_assert_str_eq(component(names[i])->id, "acetone");
    ck_assert_str_eq(component("alcol isopropilico")->id, "propan-2-ol");
    ck_assert_str_eq(component("acquaragia minerale")->id, "white-spirit");
    struct bottle_ref ref;
    ck_assert_int_eq(library_bottle(&lib, "alcool à 96", &ref, NULL), STATUS_OK);
    ck_assert_str_eq(bottle_ref_id(&ref), "ethanol-96");
    ck_assert_int_eq(library_bottle(&lib, "2-propanol", &ref, NULL), STATUS_OK);
    ck_assert_str_eq(bottle_ref_id(&ref), "propan-2-ol");
    ck_assert(library_knows_bottle(&lib, "2,2,4-trimethylpentane"));
    ck_assert(!library_knows_bottle(&lib, "2"));
}
END_TEST

START_TEST(unknown_names_bring_the_nearest) {
    static const struct {
        const char *name, *words;
    } cases[] = {{"aceton3", "nearest: acetone"},
                 {"tolune", "nearest: toluene"},
                 {"isopropanl", "propan-2-ol"},
                 {"zzzzzzzz", "`mildsolve solvents` lists them"},
                 {"", "`mildsolve solvents` lists them"}};
    open_with_own(TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_LIMITS);
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const struct component *untouched = NULL;
        struct bottle_ref ref;
        struct error err = {0};
        ck_assert_int_eq(library_component(&lib, cases[i].name, &untouched, &err), STATUS_UNKNOWN_NAME);
        ck_assert_ptr_null(untouched);
        ck_assert_msg(strstr(err.text, cases[i].words) != NULL, "%s: %s", cases[i].name, err.text);
        ck_assert_int_eq(library_bottle(&lib, cases[i].name, &ref, &err), STATUS_UNKNOWN_NAME);
        ck_assert_msg(strstr(err.text, cases[i].words) != NULL, "%s: %s", cases[i].name, err.text);
    }
    const struct material *found;
    struct error err = {0};
    ck_assert_int_eq(library_material(&lib, "damar-aged", &found, &err), STATUS_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(err.text, "dammar-aged"));
    const struct authority *authority;
    ck_assert_int_eq(library_authority(&lib, "EU", &authority, &err), STATUS_OK);
    ck_assert_int_eq(library_authority(&lib, "fr", &authority, &err), STATUS_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(err.text, "us-osha"));
}
END_TEST

START_TEST(a_name_of_two_rows_is_refused_and_an_id_wins) {
    folder_write(&own, "components.yaml",
                 "table: components\n"
                 "components:\n"
                 "  - {id: first, name: workshop thinner, family: ester, synonyms: {en: [toluene, third]}}\n"
                 "  - {id: second, name: Workshop Thinner, family: ester}\n"
                 "  - {id: third, name: third, family: ester}\n");
    folder_write(
        &own, "bottles.yaml",
        "table: bottles\n"
        "bottles:\n"
        "  - {id: b1, name: b one, synonyms: {en: [drum, propanone]}, composition: [{component: first, "
        "percent: 100}]}\n"
        "  - {id: b2, name: b two, synonyms: {de: [Drum]}, composition: [{component: first, percent: 100}]}\n");
    open_with_own(TABLE_COMPONENTS | TABLE_BOTTLES);
    struct error err = {0};
    const struct component *found;
    ck_assert_int_eq(library_component(&lib, "workshop thinner", &found, &err), STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(err.text, "first and second"));
    ck_assert_str_eq(component("toluene")->id, "toluene");
    ck_assert_str_eq(component("third")->id, "third");
    folder_write(
        &own, "materials.yaml",
        "table: materials\nmaterials:\n"
        "  - {id: m1, name: old gloss, kind: wax, film: dissolves, no_region: none}\n"
        "  - {id: m2, name: gloss, synonyms: {en: [Old Gloss]}, kind: wax, film: dissolves, no_region: none}\n");
    open_with_own(TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS);
    const struct material *gloss;
    ck_assert_int_eq(library_material(&lib, "old-gloss", &gloss, &err), STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(err.text, "m1 and m2"));
    struct bottle_ref ref;
    ck_assert_int_eq(library_bottle(&lib, "drum", &ref, &err), STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(err.text, "b1 and b2"));
    ck_assert_int_eq(library_bottle(&lib, "propanone", &ref, &err), STATUS_INPUT); // our acetone is called so too
    ck_assert_ptr_nonnull(strstr(err.text, "b1 and acetone"));
}
END_TEST

// --- doubt ---

START_TEST(doubt_falls_back_to_the_stated_default) {
    open_with_own(TABLE_UNCERTAINTY);
    // data/uncertainty.yaml: hansen, checked 0.4 MPa^0.5; molar_volume, memory 3 percent of the value.
    ck_assert_double_eq(library_uncertainty(&lib, "hansen", SURE_CHECKED, NAN, 18), 0.4);
    ck_assert_double_eq_tol(library_uncertainty(&lib, "molar_volume", SURE_MEMORY, NAN, 100), 3, 1e-12);
    ck_assert_double_eq_tol(library_uncertainty(&lib, "antoine", SURE_CHECKED, NAN, -2), 0.06, 1e-12);
    ck_assert_double_eq(library_uncertainty(&lib, "hansen", SURE_CHECKED, 1.5, 18), 1.5); // its own wins
    ck_assert(isnan(library_uncertainty(&lib, "hansen", SURE_UNSTATED, NAN, 18)));
    ck_assert(isnan(library_uncertainty(&lib, "charm", SURE_CHECKED, NAN, 18)));
}
END_TEST

START_TEST(statements_and_references_are_found) {
    open_with_own(TABLE_STATEMENTS | TABLE_REFERENCES);
    ck_assert_str_eq(library_statement(&lib, "H225")->en, "Highly flammable liquid and vapour.");
    ck_assert_ptr_null(library_statement(&lib, "H999"));
    ck_assert_ptr_nonnull(library_reference(&lib, 1));
    ck_assert_ptr_null(library_reference(&lib, 9999));
}
END_TEST

// --- short of memory: every allocation fails once, nothing is left behind, the next try works ---

static enum status open_short_of_memory(unsigned long n, unsigned tables, struct error *err) {
    struct library fresh;
    memory_fail_at(n);
    enum status status = library_open(&fresh, directories, 2, tables, err);
    memory_fail_at(0);
    if (status == STATUS_OK)
        ck_assert_uint_eq(fresh.component_count, 89);
    else
        ck_assert_uint_eq(fresh.component_count, 0);
    library_release(&fresh);
    return status;
}

START_TEST(every_failing_allocation_is_survived) {
    folder_write(&own, "components.yaml", "table: components\ncomponents:\n  - {id: my-cut, name: c, family: ester}\n");
    unsigned long before = memory_count();
    ck_assert_int_eq(open_short_of_memory(0, TABLE_COMPONENTS | TABLE_BOTTLES, NULL), STATUS_OK);
    unsigned long needed = memory_count() - before;
    ck_assert_uint_gt(needed, 5);
    for (unsigned long n = 1; n <= needed; n++) {
        struct error err = {0};
        enum status status = open_short_of_memory(n, TABLE_COMPONENTS | TABLE_BOTTLES, &err);
        ck_assert_msg(status == STATUS_MEMORY && err.text[0], "allocation %lu: %s, '%s'", n, status_name(status),
                      err.text);
    }
    ck_assert_int_eq(open_short_of_memory(needed + 1, TABLE_COMPONENTS | TABLE_BOTTLES, NULL), STATUS_OK);
}
END_TEST

START_TEST(check_survives_every_failing_allocation) {
    folder_write(&own, "components.yaml", "table: components\ncomponents:\n  - {id: my-cut, nam: c}\n");
    folder_write(&own, "stray.yaml", "table: components\n");
    unsigned long needed = 0;
    for (unsigned long n = 0; n == 0 || n <= needed; n++) {
        struct fault_list faults = {0};
        struct error err = {0};
        unsigned long before = memory_count();
        memory_fail_at(n);
        enum status status = library_check(directories, 2, &faults, &err);
        memory_fail_at(0);
        if (n == 0) {
            needed = memory_count() - before;
            ck_assert_uint_eq(faults.count, 4); // nam, name and family missing, stray.yaml
        }
        ck_assert_msg(n == 0 || status == STATUS_MEMORY || faults.lines.failed, "allocation %lu: %s, %zu faults", n,
                      status_name(status), faults.count);
        faults_release(&faults);
    }
    ck_assert_uint_gt(needed, 10);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("library");
    TCase *tests = tcase_create("tables");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, make_folder, remove_folder);
    tcase_add_test(tests, fresh_tables_hold_what_is_promised);
    tcase_add_test(tests, only_the_tables_asked_for_are_read);
    tcase_add_test(tests, the_first_directory_must_be_whole);
    tcase_add_test(tests, a_group_of_the_users_replaces_ours_whole);
    tcase_add_test(tests, a_quantity_of_the_users_replaces_ours_whole);
    tcase_add_test(tests, new_rows_are_the_users);
    tcase_add_test(tests, new_and_changed_materials);
    tcase_add_test(tests, anchors_of_a_film);
    tcase_add_test(tests, values_of_the_users_own_end_the_surrogate);
    tcase_add_test(tests, synonyms_given_replace_one_language);
    tcase_add_test(tests, a_limit_of_the_users_replaces_ours_whole);
    tcase_add_test(tests, a_partial_row_keeps_the_rest);
    tcase_add_test(tests, a_row_with_its_own_source_is_the_users);
    tcase_add_test(tests, own_bottles_and_shelves);
    tcase_add_test(tests, many_rows_of_the_users);
    tcase_add_test(tests, names_are_found_in_five_languages);
    tcase_add_test(tests, unknown_names_bring_the_nearest);
    tcase_add_test(tests, a_name_of_two_rows_is_refused_and_an_id_wins);
    tcase_add_test(tests, doubt_falls_back_to_the_stated_default);
    tcase_add_test(tests, statements_and_references_are_found);
    tcase_add_test(tests, every_failing_allocation_is_survived);
    tcase_add_test(tests, check_survives_every_failing_allocation);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
