// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/teas_points.h"

#include <assert.h>

size_t teas_points_add_bottle(struct teas_points *points, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < points->bottle_count; i++)
        if (bottle_ref_same(&points->bottles[i], bottle))
            return i;
    if (points->bottle_count < TEAS_BOTTLES_MAX)
        points->bottles[points->bottle_count++] = *bottle;
    return points->bottle_count - 1;
}

void teas_points_add_blend(struct teas_points *points, const struct blend *blend, const char *name) {
    assert(points->blend_count < TEAS_BLENDS_MAX && name);
    size_t i = points->blend_count++;
    for (size_t k = 0; k < blend->part_count; k++)
        points->parts[i][k] = teas_points_add_bottle(points, &blend->parts[k].bottle);
    points->blends[i] = blend;
    points->names[i] = name;
}

static enum status place(const struct blend *blend, enum teas_rule rule, struct teas_chart_point *point,
                         struct error *err) {
    size_t computed = 0;
    enum status status = teas_of_blend(blend, rule, &point->place, &computed, err);
    point->computed = rule == TEAS_MEAN_OF_FRACTIONS && computed > 0;
    return status;
}

static enum status place_bottle(const struct library *lib, enum teas_rule rule, const struct bottle_ref *bottle,
                                struct teas_chart_point *point, struct error *err) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend neat;
    *point = (struct teas_chart_point){.kind = TEAS_POINT_BOTTLE, .name = bottle_ref_id(bottle)};
    enum status status = blend_make(lib, &part, 1, &neat, err);
    return status == STATUS_OK ? place(&neat, rule, point, err) : status;
}

enum status teas_points_place(const struct library *lib, enum teas_rule rule, struct teas_points *points,
                              struct error *err) {
    enum status status = STATUS_OK;
    points->count = 0;
    for (size_t i = 0; i < points->bottle_count && status == STATUS_OK; i++)
        status = place_bottle(lib, rule, &points->bottles[i], &points->items[points->count++], err);
    for (size_t i = 0; i < points->blend_count && status == STATUS_OK; i++) {
        struct teas_chart_point *point = &points->items[points->count++];
        *point = (struct teas_chart_point){.kind = TEAS_POINT_BLEND,
                                           .name = points->names[i],
                                           .parts = points->parts[i],
                                           .part_count = points->blends[i]->part_count};
        status = place(points->blends[i], rule, point, err);
    }
    return status;
}
