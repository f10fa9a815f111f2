// SPDX-License-Identifier: GPL-3.0-or-later
// Cases as evidence: what is a target, a passage, a site; and published removal series replayed as cases.
#include "csv.h"
#include "films.h"
#include "selection/belief_case.h"
#include "suite.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct library lib;
static struct unifac_table groups;
static struct arena arena;
static struct error err;
static const struct date as_of = {.year = 2026, .month = 1, .day = 1};

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_ALL, &groups);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &groups);
}

static void drop(void) {
    arena_release(&arena);
}

static struct casefile parse(struct text *bytes) {
    struct casefile file = {0};
    struct fault_list faults = {0};
    stop_unless(casefile_parse(&arena, "c.yaml", text_bytes(bytes), bytes->length, &lib, as_of, &file, &faults, &err),
                &err);
    ck_assert_msg(faults.count == 0, "%s", text_bytes(&faults.lines));
    faults_release(&faults);
    return file;
}

static void begin_case(struct text *out, const char *material) {
    text_printf(out,
                "mildsolve_case: 1\n"
                "object: {title: Invented, width_mm: 500, height_mm: 400, measured_from: lower left}\n"
                "layers:\n"
                "  - {id: varnish, kind: varnish, material: %s}\n"
                "  - {id: paint, kind: paint, material: linseed-oil-film-aged}\n"
                "passages:\n"
                "  - {id: sky, place: {x_mm: 0, y_mm: 200, width_mm: 500, height_mm: 200}}\n"
                "  - {id: field, place: {x_mm: 0, y_mm: 0, width_mm: 500, height_mm: 200}}\n"
                "goals: {remove: [varnish], spare: [paint]}\n"
                "tests:\n",
                material);
}

static void add_test(struct text *out, int number, const char *passage, double x_mm, double y_mm, const char *layer,
                     const char *blend, const char *result, const char *more) {
    text_printf(
        out,
        "  - {id: T%d, date: 2025-02-17, passage: %s, x_mm: %g, y_mm: %g, layer: %s, blend: %s, delivery: swab, "
        "contact_s: 20, rolls: 6, result: %s%s}\n",
        number, passage, x_mm, y_mm, layer, blend, result, more);
}

static struct belief_case learn(const struct casefile *file, enum belief_view view) {
    struct belief_materials materials;
    struct belief_case learnt;
    stop_unless(belief_case_materials(file, &groups, FILMS_TEMP_K, &materials, &err), &err);
    stop_unless(belief_case_learn(file, &materials, view, 2000, 1, NULL, &learnt, &err), &err);
    return learnt;
}

START_TEST(tests_become_evidence_about_the_right_things) {
    struct text bytes = {0};
    begin_case(&bytes, "dammar-aged");
    add_test(&bytes, 1, "sky", 100, 300, "varnish", "acetone", "removed", ", colour_on_swab: none");
    add_test(&bytes, 2, "sky", 112, 300, "varnish", "ethanol", "softened", ""); // 12 mm further: one site with T1
    add_test(&bytes, 3, "sky", 124, 300, "varnish", "ethanol", "softened", ""); // and so is the next in the row
    add_test(&bytes, 4, "sky", 300, 300, "varnish", "ethanol", "softened", "");
    add_test(&bytes, 5, "field", 124, 195, "paint", "acetone", "none", ", colour_on_swab: original");
    add_test(&bytes, 6, "field", 20, 20, "varnish", "acetone", "removed",
             ", withdrawn: true, withdrawn_on: 2025-02-18");
    struct casefile file = parse(&bytes);
    size_t sites[6];
    belief_case_sites(&file, sites);
    ck_assert_uint_eq(sites[0], sites[1]);
    ck_assert_uint_eq(sites[0], sites[2]);
    ck_assert_uint_ne(sites[0], sites[3]);
    ck_assert_uint_ne(sites[2], sites[4]);
    struct belief_case learnt = learn(&file, BELIEF_RED);
    ck_assert_uint_eq(learnt.count, 5);
    ck_assert_uint_eq(belief_tests(learnt.belief, 0), 4); // the varnish
    ck_assert_uint_eq(belief_tests(learnt.belief, 1), 2); // the paint: where somebody looked at the swab
    ck_assert_str_eq(belief_material(learnt.plan, 1)->id, "linseed-oil-film-young"); // the stand-in
    ck_assert_uint_eq(learnt.tests[4].target, BELIEF_NONE);
    ck_assert_uint_eq(learnt.tests[4].passage, belief_case_passage(&file, "field"));
    belief_case_release(&learnt);
    text_release(&bytes);
}
END_TEST

static struct casefile case_with_goals(struct text *bytes, const char *goals) {
    text_printf(bytes,
                "mildsolve_case: 1\n"
                "object: {title: Invented, width_mm: 500, height_mm: 400, measured_from: lower left}\n"
                "layers:\n"
                "  - {id: varnish, kind: varnish, material: dammar-aged}\n"
                "  - {id: paint, kind: paint, material: linseed-oil-film-aged}\n"
                "goals: {%s}\n",
                goals);
    return parse(bytes);
}

// What one is unsure of is spared. Old paint has no region: the young film stands in, and counts once.
START_TEST(the_goals_name_what_is_learnt_about) {
    struct text bytes = {0}, without = {0};
    struct belief_materials materials = {0};
    struct casefile file =
        case_with_goals(&bytes, "remove: [varnish], spare: [paint, linseed-oil-film-young], unsure: [alkyd-long-oil]");
    stop_unless(belief_case_materials(&file, &groups, FILMS_TEMP_K, &materials, &err), &err);
    ck_assert_uint_eq(materials.remove_count, 1);
    ck_assert_str_eq(materials.remove[0]->id, "dammar-aged");
    ck_assert_uint_eq(materials.spare_count, 2);
    ck_assert_str_eq(materials.spare[0]->id, "linseed-oil-film-young");
    ck_assert_str_eq(materials.spare[1]->id, "alkyd-long-oil");
    file = case_with_goals(&without, "spare: [paint]");
    ck_assert_int_eq(belief_case_materials(&file, &groups, FILMS_TEMP_K, &materials, &err), STATUS_NO_DATA);
    ck_assert_ptr_nonnull(strstr(err.text, "goals.remove names no layer or material"));
    text_release(&bytes);
    text_release(&without);
}
END_TEST

// --- published series, step by step ---

static struct csv steps, results;

static void step_blend(const char *series, int step, char *ret, size_t size) {
    for (size_t row = 0; row < steps.rows; row++) {
        if (strcmp(csv_text(&steps, row, "series"), series) != 0 || (int)csv_number(&steps, row, "step") != step)
            continue;
        struct text words = {0};
        for (int i = 1; i <= 3; i++) {
            char name[8], volume[8];
            snprintf(name, sizeof name, "comp%d", i), snprintf(volume, sizeof volume, "vol%d", i);
            if (csv_text(&steps, row, name)[0])
                text_printf(&words, "%s%s %s", i > 1 ? " + " : "", csv_text(&steps, row, name),
                            csv_text(&steps, row, volume));
        }
        snprintf(ret, size, "%s", text_bytes(&words));
        text_release(&words);
        return;
    }
    ck_abort_msg("%s has no step %d", series, step);
}

static double works_at(const struct belief_case *learnt, const struct belief *belief, const char *series, int step) {
    char notation[128];
    struct belief_liquid *liquid;
    struct belief_forecast forecast;
    step_blend(series, step, notation, sizeof notation);
    struct blend blend = tables_blend(&lib, notation);
    stop_unless(belief_liquid_make(learnt->plan, &blend, &liquid, &err), &err);
    belief_forecast(belief, liquid, 0, 0, 20, 6, &forecast);
    belief_liquid_release(liquid);
    return forecast.p_works;
}

// Only the first step that dissolves or acts is published. The steps before it are taken to have done what usually
// comes before: nothing, then a change of gloss two steps before, softening one step before.
static void replay(size_t row, enum belief_view view) {
    const char *material = csv_text(&results, row, "material"), *series = csv_text(&results, row, "series");
    int first = (int)csv_number(&results, row, "first_dissolving_step");
    struct text bytes = {0};
    begin_case(&bytes, material);
    for (int step = first > 5 ? first - 5 : 1; step <= first; step++) {
        char notation[128];
        step_blend(series, step, notation, sizeof notation);
        const char *word = step == first       ? "removed"
                           : step == first - 1 ? "softened"
                           : step == first - 2 ? "gloss change"
                                               : "none";
        add_test(&bytes, step, "sky", 20 + 12.0 * step, 300, "varnish", notation, word, "");
    }
    struct casefile file = parse(&bytes);
    struct belief_case learnt = learn(&file, view);
    double before = works_at(&learnt, learnt.prior, series, first),
           after = works_at(&learnt, learnt.belief, series, first);
    double weaker = first > 2 ? works_at(&learnt, learnt.belief, series, first - 2) : 0;
    struct belief_conflict conflict;
    stop_unless(belief_contradiction(learnt.belief, 0, &conflict, &err), &err);
    printf("by %s, %s, step %d of %s: works %.2f before, %.2f after; two steps weaker %.2f; p %.3f\n",
           belief_view_words[view], material, first, series, before, after, weaker, conflict.p_value);
    fflush(stdout);
    bool learnt_it = after > 0.5 && weaker < 0.5 && weaker < after - 0.2;
    ck_assert_msg(learnt_it || conflict.p_value < BELIEF_CONFLICT, "neither learnt nor warned of");
    belief_case_release(&learnt);
    text_release(&bytes);
    arena_release(&arena);
}

// After a published series has been played to its first dissolving step, the belief foretells that step, and not the
// one two steps weaker, whatever the tables said before.
START_TEST(published_series_are_learnt) {
    csv_read(reference_path("graded-solubility.csv"), &steps);
    csv_read(reference_path("graded-results.csv"), &results);
    size_t replayed = 0;
    for (size_t row = 0; row < results.rows; row++) {
        const struct material *material;
        const char *series = csv_text(&results, row, "series"),
                   *first = csv_text(&results, row, "first_dissolving_step");
        if (!series[0] || atoi(first) < 1 ||
            library_material(&lib, csv_text(&results, row, "material"), &material, NULL) != STATUS_OK)
            continue;
        if (isnan(material->sphere.r0))
            continue;
        replay(row, (enum belief_view)_i);
        replayed++;
    }
    ck_assert_uint_ge(replayed, 9);
    csv_release(&steps);
    csv_release(&results);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("belief_case");
    TCase *tests = tcase_create("belief_case");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_set_timeout(tests, 300);
    tcase_add_test(tests, tests_become_evidence_about_the_right_things);
    tcase_add_test(tests, the_goals_name_what_is_learnt_about);
    tcase_add_loop_test(tests, published_series_are_learnt, 0, 2);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
