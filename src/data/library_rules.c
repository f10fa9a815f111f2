// SPDX-License-Identifier: GPL-3.0-or-later
// What one row alone cannot show: ids that must exist, sums, sources.
#include "base/language.h"
#include "data/library_tables.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

// Rounded published fractions may miss 100 by a rounding each.
static const double teas_sum_tolerance = 1.5;
static const double composition_tolerance = 0.01;

enum { KEY_WORDS_BYTES = 256, VALUE_COLUMNS = 60 };

struct checking {
    const struct library *lib;
    const struct table_index *tables;
    const struct table_list *list;
    const struct row_index *index; // of the list
    const bool *references;        // by number
    struct fault_list *faults;
    size_t row;
};

// Where the value of a key (and of `inner` in that group) was written; the row itself when that row was written in
// another file or the key is absent.
static const struct yaml_node *node_of(const struct row_place *place, const char *key, const char *inner) {
    const struct yaml_node *at = place->node;
    const char *const path[] = {key, inner};
    for (size_t i = 0; i < 2 && path[i] && at->kind == YAML_MAP; i++) {
        const struct yaml_node *value = yaml_find(at, path[i]);
        at = value ? value : at;
    }
    return at;
}

// A row of several key fields is indexed as "acetone|eu|twa-8h|"; people read "acetone, eu, twa-8h".
static void key_words(const struct row_place *place, char words[KEY_WORDS_BYTES]) {
    size_t length = text_prefix(place->key, KEY_WORDS_BYTES / 4);
    size_t at = 0;
    for (size_t i = 0; i < length && at + 3 < KEY_WORDS_BYTES; i++) {
        if (place->key[i] == '|' && place->key[i + 1] != '|' && place->key[i + 1])
            words[at++] = ',', words[at++] = ' ';
        else if (place->key[i] != '|')
            words[at++] = place->key[i];
    }
    words[at] = '\0';
}

// "file:line:column: component 'acetone', cas: '67-64-2': rule". key, inner and value may be NULL.
static void complain(const struct checking *checking, const char *key, const char *inner, const char *value,
                     const char *rule) {
    const struct row_place *place = &checking->index->places[checking->row];
    char words[KEY_WORDS_BYTES];
    key_words(place, words);
    int shown = value ? (int)text_prefix(value, VALUE_COLUMNS) : 0;
    faults_add(checking->faults, place->file, node_of(place, key, inner), "%s '%s'%s%s%s%s%s%.*s%s: %s",
               say(checking->list->record->name), words, key ? ", " : "", key ? key : "", inner ? "." : "",
               inner ? inner : "", value ? ": '" : "", shown, value ? value : "", value ? "'" : "", say(rule));
}

static bool exists(const struct checking *checking, const struct record *record, const char *id) {
    return index_has(checking->tables, record, id);
}

// The words about an unknown id: the id of the row with that name, or the nearest ones.
static void unknown_component(const struct checking *checking, const char *key, const char *id) {
    const struct component *called = NULL;
    struct error err = {0};
    char rule[ERROR_TEXT_SIZE];
    if (library_component(checking->lib, id, &called, &err) == STATUS_OK)
        snprintf(rule, sizeof rule, say("an id is expected here; the id of this component is '%s'"), called->id);
    else
        snprintf(rule, sizeof rule, "%s", err.text);
    complain(checking, key, NULL, id, rule);
}

static void check_owner(const struct checking *checking, const char *key, const char *id) {
    if (!exists(checking, &component_record, id))
        unknown_component(checking, key, id);
}

// CAS numbers: two to seven digits, two digits, a check digit: the sum of i * digit_i counted from the right, modulo 10
// (CAS, "Check Digit Verification of CAS Registry Numbers").
static bool cas_is_right(const char *cas) {
    size_t first = strspn(cas, "0123456789");
    if (first < 2 || first > 7 || cas[first] != '-' || strspn(cas + first + 1, "0123456789") != 2 ||
        cas[first + 3] != '-' || strspn(cas + first + 4, "0123456789") != 1 || cas[first + 5])
        return false;
    int sum = (cas[first + 2] - '0') + 2 * (cas[first + 1] - '0');
    for (size_t i = 0; i < first; i++)
        sum += (int)(i + 3) * (cas[first - 1 - i] - '0');
    return sum % 10 == cas[first + 4] - '0';
}

static void check_component(const struct checking *checking, const void *row) {
    const struct component *component = row;
    if (component->cas && !cas_is_right(component->cas))
        complain(checking, "cas", NULL, component->cas,
                 "not a CAS number: digits-2 digits-check digit, and the check digit must fit");
    double sum = component->teas.fd + component->teas.fp + component->teas.fh;
    char value[40];
    snprintf(value, sizeof value, "%g", sum);
    if (!isnan(sum) && fabs(sum - 100) > teas_sum_tolerance)
        complain(checking, "teas", NULL, value, "the sum of fd, fp and fh must be 100");
}

static void check_properties(const struct checking *checking, const void *row) {
    const struct properties *properties = row;
    check_owner(checking, "id", properties->id);
    if (properties->antoine.t_max <= properties->antoine.t_min)
        complain(checking, "antoine", "t_max", NULL, "the curve ends (t_max) before it begins (t_min)");
    if (properties->upper_flammable_limit.value <= properties->lower_flammable_limit.value)
        complain(checking, "upper_flammable_limit", "value", NULL, "is not above the lower flammable limit");
}

// H with three digits, the first of them 2, 3 or 4 (physical, health, environment), and perhaps the letters of what is
// meant (H360FD, H350i); EUH with three digits and perhaps one letter. Reg. (EC) 1272/2008, Annex III (from memory).
static bool is_hazard_code(const char *code) {
    bool supplement = strncmp(code, "EUH", 3) == 0;
    const char *digits = code + (supplement ? 3 : 1);
    if (!supplement && (code[0] != 'H' || code[1] < '2' || code[1] > '4'))
        return false;
    return strspn(digits, "0123456789") == 3 && digits[3 + strspn(digits + 3, "FDfdiA")] == '\0';
}

static void check_hazard_codes(const struct checking *checking, const char *key, const struct text_list *codes) {
    for (size_t i = 0; i < codes->count; i++)
        if (!is_hazard_code(codes->items[i]))
            complain(checking, key, NULL, codes->items[i],
                     "not the code of a hazard statement, such as H225, H360FD or EUH066");
}

// 1, 2A, 2B or 3, and perhaps words in brackets: "1 (alcoholic beverages only)".
static bool is_iarc_group(const char *group) {
    static const char *const groups[] = {"1", "2A", "2B", "3"};
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        const char *rest = group + strlen(groups[i]);
        if (strncmp(group, groups[i], strlen(groups[i])) == 0 && (*rest == '\0' || strncmp(rest, " (", 2) == 0))
            return true;
    }
    return false;
}

static void check_hazard(const struct checking *checking, const void *row) {
    const struct hazard *hazard = row;
    const struct specific_limit *limits = hazard->specific_limits.items;
    check_owner(checking, "id", hazard->id);
    check_hazard_codes(checking, "h_statements", &hazard->h_statements);
    check_hazard_codes(checking, "h_unless_low_benzene", &hazard->h_unless_low_benzene);
    if (hazard->iarc_group && !is_iarc_group(hazard->iarc_group))
        complain(checking, "iarc_group", NULL, hazard->iarc_group,
                 "not a group of the IARC: 1, 2A, 2B or 3, and then what is meant, in brackets");
    for (size_t i = 0; i < hazard->pictograms.count; i++) {
        const char *picture = hazard->pictograms.items[i];
        if (strncmp(picture, "GHS0", 4) != 0 || picture[4] < '1' || picture[4] > '9' || picture[5])
            complain(checking, "pictograms", NULL, picture, "not a pictogram: GHS01 to GHS09");
    }
    for (size_t i = 0; i < hazard->specific_limits.count; i++)
        if (limits[i].below_percent <= limits[i].from_percent)
            complain(checking, "specific_limits", NULL, limits[i].code, "below_percent must lie above from_percent");
}

static void check_limit(const struct checking *checking, const void *row) {
    const struct limit *limit = row;
    if (checking->lib->loaded & TABLE_COMPONENTS)
        check_owner(checking, "component", limit->component);
    if (!exists(checking, &authority_record, limit->authority))
        complain(checking, "authority", NULL, limit->authority, "no authority has this id");
    if (isnan(limit->ppm) && isnan(limit->mg_m3))
        complain(checking, NULL, NULL, NULL, "a limit needs ppm or mg_m3");
}

static void check_vertices(const struct checking *checking, const struct teas_region *region) {
    if (region->vertices.count < 3)
        complain(checking, "regions", NULL, region->id, "a Teas area needs at least three corners");
    for (size_t i = 0; i < region->vertices.count; i++) {
        const double *corner = region->vertices.items + 3 * i;
        if (fabs(corner[0] + corner[1] + corner[2] - 100) > teas_sum_tolerance)
            complain(checking, "regions", NULL, region->id, "a corner of this Teas area does not add up to 100");
    }
}

// Parts by volume of components, under `key` or under `inner` in that group.
static void check_composition(const struct checking *checking, const char *key, const char *inner,
                              const struct record_list *composition) {
    const struct bottle_part *parts = composition->items;
    double sum = 0;
    for (size_t i = 0; i < composition->count; i++) {
        sum += parts[i].percent;
        if (checking->lib->loaded & TABLE_COMPONENTS)
            check_owner(checking, key, parts[i].component);
    }
    char value[40];
    snprintf(value, sizeof value, "%g", sum);
    if (fabs(sum - 100) > composition_tolerance)
        complain(checking, key, inner, value, "the parts must add up to 100 percent");
    if (composition->count > BOTTLE_PARTS_MAX)
        complain(checking, key, inner, NULL, "more components than a bottle may have (24)");
}

static const char *fault_of_film(const struct material *material) {
    const struct film_values *film = &material->film_model;
    bool network = !isnan(film->network_mol_m3), chains = !isnan(film->molar_volume_cm3_mol);
    int parts = !isnan(film->delta_d) + !isnan(film->delta_p) + !isnan(film->delta_h);
    if (network && chains)
        return N_("has a network and chains of a molar volume; keep one of the two");
    if (!network && !chains && (parts || film->tested || film->from.refs || !isnan(film->pigment)))
        return N_("needs network_mol_m3 or molar_volume_cm3_mol");
    if ((network && material->film != FILM_CROSS_LINKED) || (chains && material->film == FILM_CROSS_LINKED))
        return N_("disagrees with 'film': a cross-linked film has a network, the others have chains");
    if (parts != 0 && parts != 3)
        return N_("give all of delta_d, delta_p and delta_h, or none");
    if ((network || chains) && parts == 0 && isnan(material->sphere.r0))
        return N_("needs a centre (delta_d, delta_p, delta_h): the material has no sphere");
    if ((film->anchor_fails.count > 0) != (film->anchor_dissolves.count > 0))
        return N_("needs both anchor_fails and anchor_dissolves, or neither");
    if (film->anchor_fails.count > 0 && !chains)
        return N_("has an anchor, but only a film that can dissolve has one");
    if (film->hits_film > film->tested || film->hits_sphere > film->tested)
        return N_("has more hits than it was tested on");
    return NULL;
}

static void check_material(const struct checking *checking, const void *row) {
    const struct material *material = row;
    if (isnan(material->sphere.r0) && !material->no_region)
        complain(checking, NULL, NULL, NULL, "give a sphere, or no_region with the reason why there is none");
    if (!isnan(material->sphere.r0) && material->no_region)
        complain(checking, "no_region", NULL, NULL, "has a sphere as well; keep one of the two");
    if (material->substitute && !exists(checking, &material_record, material->substitute))
        complain(checking, "substitute", NULL, material->substitute, "no material has this id");
    for (size_t i = 0; (checking->lib->loaded & TABLE_COMPONENTS) && i < material->non_solvents.count; i++)
        check_owner(checking, "non_solvents", material->non_solvents.items[i]);
    const struct published_swelling *classes = material->swelling_classes.items;
    for (size_t i = 0; (checking->lib->loaded & TABLE_COMPONENTS) && i < material->swelling_classes.count; i++)
        check_owner(checking, "swelling_classes", classes[i].component);
    const char *fault = fault_of_film(material);
    if (fault)
        complain(checking, "film_model", NULL, NULL, fault);
    if (material->film_model.anchor_fails.count > 0)
        check_composition(checking, "film_model", "anchor_fails", &material->film_model.anchor_fails);
    if (material->film_model.anchor_dissolves.count > 0)
        check_composition(checking, "film_model", "anchor_dissolves", &material->film_model.anchor_dissolves);
    const struct teas_region *regions = material->regions.items;
    for (size_t i = 0; i < material->regions.count; i++)
        check_vertices(checking, &regions[i]);
}

static void check_bottle(const struct checking *checking, const void *row) {
    const struct bottle *bottle = row;
    check_composition(checking, "composition", NULL, &bottle->composition);
    if (exists(checking, &component_record, bottle->id))
        complain(checking, "id", NULL, bottle->id, "a component has the same id; a bottle needs its own");
}

static void check_shelf(const struct checking *checking, const void *row) {
    const struct shelf *shelf = row;
    for (size_t i = 0; i < shelf->bottles.count; i++)
        if (!exists(checking, &bottle_record, shelf->bottles.items[i]))
            check_owner(checking, "bottles", shelf->bottles.items[i]);
}

static void check_assignment(const struct checking *checking, const void *row) {
    if (checking->lib->loaded & TABLE_COMPONENTS)
        check_owner(checking, "component", ((const struct unifac_assignment *)row)->component);
}

static void check_pair(const struct checking *checking, const void *row) {
    const struct miscible_pair *pair = row;
    if (checking->lib->loaded & TABLE_COMPONENTS) {
        check_owner(checking, "first", pair->first);
        check_owner(checking, "second", pair->second);
    }
    if (strcmp(pair->first, pair->second) == 0)
        complain(checking, "second", NULL, pair->second, "a pair is of two different components");
    char other[ERROR_TEXT_SIZE];
    int length = snprintf(other, sizeof other, "%s|%s||", pair->second, pair->first);
    if (strcmp(pair->first, pair->second) < 0 && length > 0 && (size_t)length < sizeof other &&
        exists(checking, &miscible_pair_record, other))
        complain(checking, NULL, NULL, NULL, "the same pair stands in the other order as well");
}

// --- sources: every value of our own tables names how sure it is and where it comes from ---

// `group` is the key of the value the source belongs to, NULL for the row itself.
static void check_refs(const struct checking *checking, const struct provenance *from, const char *group) {
    const char *key = group ? group : "refs";
    const char *inner = group ? "refs" : NULL;
    for (size_t i = 0; i < from->ref_count; i++)
        if (!checking->references[from->refs[i]]) {
            char number[16];
            snprintf(number, sizeof number, "%d", from->refs[i]);
            complain(checking, key, inner, number, "no entry of references.yaml has this number");
        }
    if (!from->user && from->ref_count == 0)
        complain(checking, key, inner, NULL, "no source is given");
}

// A group that is absent has nothing to prove: no number of it is known.
static bool group_is_absent(const struct field *field, const void *value) {
    const struct field *fields = field->record->fields;
    for (size_t i = 0; i < field->record->field_count; i++) {
        const void *at = (const char *)value + fields[i].offset;
        if (fields[i].kind == FIELD_NUMBER && (fields[i].flags & FIELD_REQUIRED))
            return isnan(*(const double *)at);
        if (fields[i].kind == FIELD_INTEGER && *(const int *)at != 0)
            return false;
        if (fields[i].kind == FIELD_NUMBER && !isnan(*(const double *)at))
            return false;
    }
    return true;
}

static void check_group_refs(const struct checking *checking, const struct field *field, const void *value) {
    const struct field *fields = field->record->fields;
    if (group_is_absent(field, value))
        return;
    for (size_t i = 0; i < field->record->field_count; i++)
        if (fields[i].kind == FIELD_REFS)
            check_refs(checking, (const void *)((const char *)value + fields[i].offset), field->key);
}

static void check_sources(const struct checking *checking, const struct record *record, const void *row) {
    for (size_t i = 0; i < record->field_count; i++) {
        const struct field *field = &record->fields[i];
        const void *value = (const char *)row + field->offset;
        if (field->kind == FIELD_QUANTITY && !isnan(((const struct quantity *)value)->value))
            check_refs(checking, &((const struct quantity *)value)->from, field->key);
        else if (field->kind == FIELD_GROUP)
            check_group_refs(checking, field, value);
        else if (field->kind == FIELD_REFS)
            check_refs(checking, value, NULL);
    }
}

// --- all rows ---

static void check_sensitivity(const struct checking *checking, const void *row) {
    const struct sensitivity *sensitivity = row;
    for (size_t i = 0; i < sensitivity->families.count; i++)
        if (word_index(sensitivity->families.items[i], family_words) < 0)
            complain(checking, "families", NULL, sensitivity->families.items[i],
                     "no family of components has this name");
}

static void check_its_material(const struct checking *checking, const char *key, const char *id) {
    if (id && (checking->lib->loaded & TABLE_MATERIALS) && !exists(checking, &material_record, id))
        complain(checking, key, NULL, id, "no material has this id");
}

static void check_ageing_state(const struct checking *checking, const void *row) {
    const struct ageing_state *state = row;
    check_its_material(checking, "material", state->material);
    check_its_material(checking, "aged", state->aged);
}

static void check_threshold(const struct checking *checking, const void *row) {
    const struct lifting_threshold *threshold = row;
    check_its_material(checking, "material", threshold->material);
    if (threshold->to_percent < threshold->from_percent)
        complain(checking, "to_percent", NULL, NULL, "lies below from_percent");
}

static void check_removal(const struct checking *checking, const void *row) {
    check_its_material(checking, "material", ((const struct published_removal *)row)->material);
}

static void check_retained(const struct checking *checking, const void *row) {
    const struct retained_carrier *retained = row;
    check_its_material(checking, "material", retained->material);
    if (retained->carrier && (checking->lib->loaded & TABLE_COMPONENTS))
        check_owner(checking, "carrier", retained->carrier);
}

static void check_share(const struct checking *checking, const void *row) {
    if (checking->lib->loaded & TABLE_COMPONENTS)
        check_owner(checking, "component", ((const struct family_share *)row)->component);
}

static const struct {
    const struct record *record;
    void (*check)(const struct checking *checking, const void *row);
} row_checks[] = {
    {&component_record, check_component},
    {&properties_record, check_properties},
    {&hazard_record, check_hazard},
    {&limit_record, check_limit},
    {&material_record, check_material},
    {&bottle_record, check_bottle},
    {&shelf_record, check_shelf},
    {&sensitivity_record, check_sensitivity},
    {&unifac_assignment_record, check_assignment},
    {&miscible_pair_record, check_pair},
    {&ageing_state_record, check_ageing_state},
    {&lifting_threshold_record, check_threshold},
    {&published_removal_record, check_removal},
    {&retained_carrier_record, check_retained},
    {&family_share_record, check_share},
};

static void check_rows(struct checking *checking, const struct table_list *list) {
    for (size_t i = 0; i < sizeof row_checks / sizeof row_checks[0]; i++) {
        if (row_checks[i].record != list->record)
            continue;
        for (size_t row = 0; row < table_count(checking->lib, list); row++) {
            checking->row = row;
            row_checks[i].check(checking, (const char *)table_rows(checking->lib, list) + row * list->record->size);
        }
    }
}

static void check_row_sources(struct checking *checking, const struct table_list *list) {
    for (size_t row = 0; row < table_count(checking->lib, list); row++) {
        checking->row = row;
        check_sources(checking, list->record, (const char *)table_rows(checking->lib, list) + row * list->record->size);
    }
}

void library_cross_check(const struct library *lib, unsigned tables, struct fault_list *faults) {
    bool references[REFERENCE_MAX + 1] = {false};
    for (size_t i = 0; i < lib->reference_count; i++)
        references[lib->references[i].id] = true;
    for (size_t i = 0; i < library_list_count; i++) {
        struct checking checking = {.lib = lib,
                                    .tables = lib->index,
                                    .list = &library_lists[i],
                                    .index = &lib->index->rows[i],
                                    .references = references,
                                    .faults = faults};
        if (!(library_lists[i].table & tables))
            continue;
        check_rows(&checking, &library_lists[i]);
        if (lib->loaded & TABLE_REFERENCES)
            check_row_sources(&checking, &library_lists[i]);
    }
}
