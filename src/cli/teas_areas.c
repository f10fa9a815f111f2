// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/teas_areas.h"

#include "base/language.h"
#include "physics/blend.h"
#include "present/page.h"

enum { MATERIALS_MAX = 16 };

enum status read_teas_rule(const struct invocation *inv, enum teas_rule *ret, struct error *err) {
    static const char *const rules[] = {"fractions", "hansen", NULL};
    int rule = 0;
    enum status status = option_word(inv, "--rule", rules, 0, &rule, err);
    if (status == STATUS_OK)
        *ret = rule == 0 ? TEAS_MEAN_OF_FRACTIONS : TEAS_OF_MEAN_HANSEN;
    return status;
}

static bool note_missing(const struct invocation *inv, const struct material *material, struct teas_areas *areas) {
    page_paragraph_f(inv->talk, 0, 2, "note: no Teas area is known for %s%s%s", material->id,
                     material->substitute ? say("; the careful stand-in is ") : "",
                     material->substitute ? material->substitute : "");
    const char *note = arena_say(inv->arena, "No Teas area is known for %s.", material->id);
    if (note && areas->note_count < TEAS_AREA_NOTES_MAX)
        areas->notes[areas->note_count++] = note;
    return note != NULL;
}

// Areas are hulls of published fractions; beside points of the other rule they would mean nothing.
static enum status add_areas(const struct invocation *inv, const struct material *material, struct teas_areas *areas,
                             struct error *err) {
    const struct teas_region *regions = material->regions.items;
    if (material->regions.count == 0 && !note_missing(inv, material, areas))
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < material->regions.count; i++) {
        if (areas->count == AREA_STYLES)
            return error_set(err, STATUS_INPUT, "more than %d areas in one chart; name fewer with --material",
                             AREA_STYLES);
        const char *name = regions[i].legend
                               ? say(regions[i].legend)
                               : arena_printf(inv->arena, "%s: %s", say(material->name), say(regions[i].meaning));
        if (!name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        areas->items[areas->count++] = (struct teas_chart_area){.name = name,
                                                                .corners = regions[i].vertices.items,
                                                                .corner_count = regions[i].vertices.count,
                                                                .confidence = regions[i].confidence};
    }
    return STATUS_OK;
}

enum status read_teas_areas(const struct invocation *inv, enum teas_rule rule, struct teas_areas *ret,
                            struct error *err) {
    const char *list = option_value(inv, "--material");
    if (!list)
        return STATUS_OK;
    const struct material *materials[MATERIALS_MAX];
    size_t count = 0;
    enum status status = material_list_parse(&inv->library, list, materials, MATERIALS_MAX, &count, err);
    if (status == STATUS_OK && rule == TEAS_OF_MEAN_HANSEN)
        return error_set(err, STATUS_USAGE,
                         "--material with --rule hansen: the areas are drawn from published fractions, and one chart "
                         "never mixes the two rules; leave out one of the options");
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = add_areas(inv, materials[i], ret, err);
    return status;
}

enum teas_point_kind teas_kind_of_test(const struct case_test *test) {
    if (case_test_stops(test))
        return TEAS_POINT_TEST_STOP;
    if (test->result == RESULT_REMOVED)
        return TEAS_POINT_TEST_REMOVED;
    return test->result == RESULT_NONE ? TEAS_POINT_TEST_NONE : TEAS_POINT_TEST_PARTLY;
}
