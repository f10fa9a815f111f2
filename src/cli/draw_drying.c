// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_drying.h"

#include "cli/common.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"

#include <math.h>
#include <stdlib.h>

struct drying_drawing {
    struct teas_areas areas;
    double evaporated[EVAPORATION_POINTS];
    struct teas places[EVAPORATION_POINTS];
    bool two[EVAPORATION_POINTS];
    double percent[BLEND_COMPONENTS_MAX][EVAPORATION_POINTS];
    const double *layers[BLEND_COMPONENTS_MAX];
    const char *names[BLEND_COMPONENTS_MAX];
};

struct lasting {
    size_t component;
    double share; // of the last of the liquid
};

static int by_share(const void *a, const void *b) {
    const struct lasting *x = a;
    const struct lasting *y = b;
    if (x->share < y->share || x->share > y->share)
        return x->share > y->share ? -1 : 1;
    return (x->component > y->component) - (x->component < y->component);
}

// The component that stays longest lies lowest.
static void fill_layers(const struct evaporation *path, struct drying_drawing *drawing) {
    const struct evaporation_point *last = &path->points[path->count - 1];
    struct lasting order[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < path->blend.count; i++)
        order[i] = (struct lasting){i, isnan(path->tail_phi[i]) ? last->phi[i] : path->tail_phi[i]};
    qsort(order, path->blend.count, sizeof order[0], by_share);
    for (size_t layer = 0; layer < path->blend.count; layer++) {
        size_t component = order[layer].component;
        for (size_t i = 0; i < path->count; i++)
            drawing->percent[layer][i] = 100 * path->points[i].phi[component];
        drawing->layers[layer] = drawing->percent[layer];
        drawing->names[layer] = path->blend.components[component]->id;
    }
}

static void fill_path(const struct evaporation *path, enum teas_rule rule, struct drying_drawing *drawing) {
    for (size_t i = 0; i < path->count; i++) {
        const struct evaporation_point *point = &path->points[i];
        drawing->evaporated[i] = point->evaporated;
        drawing->places[i] = rule == TEAS_MEAN_OF_FRACTIONS ? point->teas_fractions : point->teas_hansen;
        drawing->two[i] = point->verdict == PHASE_TWO;
    }
}

enum status drying_chart_of(struct invocation *inv, const struct evaporation *path, struct drying_chart_input *ret,
                            struct error *err) {
    struct drying_drawing *drawing = arena_new(inv->arena, 1, sizeof *drawing);
    const char *notation = blend_notation(inv->arena, &path->blend);
    struct drying_chart_input input = {.blend = notation};
    enum teas_rule rule = TEAS_MEAN_OF_FRACTIONS;
    if (!drawing || !notation)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (path->count < 2)
        return error_set(err, STATUS_NO_DATA, "the path ends where it begins; there is nothing to draw");
    enum status status = page_options(inv, SHEET_HALF, &input.page, err);
    if (status == STATUS_OK)
        status = read_teas_rule(inv, &rule, err);
    if (status == STATUS_OK && option_given(inv, "--material"))
        status = library_add(&inv->library, TABLE_MATERIALS, NULL, 0, err);
    if (status == STATUS_OK)
        status = read_teas_areas(inv, rule, &drawing->areas, err);
    if (status != STATUS_OK)
        return status;
    fill_path(path, rule, drawing);
    fill_layers(path, drawing);
    input.page.captions = drawing->areas.notes;
    input.page.caption_count = drawing->areas.note_count;
    input.rule = teas_rule_words(rule);
    input.models = path->sentence;
    input.evaporated = drawing->evaporated;
    input.places = drawing->places;
    input.two = drawing->two;
    input.count = path->count;
    input.names = drawing->names;
    input.volume_percent = drawing->layers;
    input.component_count = path->blend.count;
    input.areas = drawing->areas.items;
    input.area_count = drawing->areas.count;
    *ret = input;
    return STATUS_OK;
}

enum status draw_drying(struct invocation *inv, const struct evaporation *path, const char *file, struct error *err) {
    struct drying_chart_input input;
    enum status status = drying_chart_of(inv, path, &input, err);
    return status == STATUS_OK ? drying_chart_write(&input, file, err) : status;
}
