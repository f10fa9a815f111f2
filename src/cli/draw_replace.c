// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_replace.h"

#include "base/language.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"
#include "present/chart/teas_chart.h"

#include <math.h>

enum { BLENDS = 1 + DRAWN_ROWS, BOTTLES = BLENDS * BLEND_BOTTLES_MAX };

struct drawing {
    struct replacing *replacing;
    enum teas_rule rule;
    struct teas_areas areas;
    struct bottle_ref bottles[BOTTLES];
    size_t bottle_count;
    const struct blend *blends[BLENDS]; // the original first
    size_t blend_count;
    struct teas_chart_point points[BOTTLES + BLENDS];
    size_t parts[BLENDS][BLEND_BOTTLES_MAX];
    size_t point_count;
};

static size_t bottle_index(struct drawing *drawing, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < drawing->bottle_count; i++)
        if (bottle_ref_same(&drawing->bottles[i], bottle))
            return i;
    drawing->bottles[drawing->bottle_count] = *bottle;
    return drawing->bottle_count++;
}

static void take_blend(struct drawing *drawing, const struct blend *blend) {
    for (size_t k = 0; k < blend->part_count; k++)
        drawing->parts[drawing->blend_count][k] = bottle_index(drawing, &blend->parts[k].bottle);
    drawing->blends[drawing->blend_count++] = blend;
}

static enum status place(const struct drawing *drawing, const struct blend *blend, struct teas_chart_point *point,
                         struct error *err) {
    size_t computed = 0;
    enum status status = teas_of_blend(blend, drawing->rule, &point->place, &computed, err);
    point->computed = drawing->rule == TEAS_MEAN_OF_FRACTIONS && computed > 0;
    return status;
}

static enum status add_bottles(struct drawing *drawing, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < drawing->bottle_count && status == STATUS_OK; i++) {
        struct blend_part part = {.bottle = drawing->bottles[i], .parts = 1};
        struct blend neat;
        struct teas_chart_point *point = &drawing->points[drawing->point_count++];
        *point = (struct teas_chart_point){.kind = TEAS_POINT_BOTTLE, .name = bottle_ref_id(&drawing->bottles[i])};
        status = blend_make(&drawing->replacing->inv->library, &part, 1, &neat, err);
        if (status == STATUS_OK)
            status = place(drawing, &neat, point, err);
    }
    return status;
}

static const char *name_of(const struct drawing *drawing, size_t i) {
    struct arena *arena = drawing->replacing->inv->arena;
    const char *notation = blend_notation(arena, drawing->blends[i]);
    if (!notation)
        return NULL;
    if (i == 0)
        return arena_printf(arena, say("the original: %s"), notation);
    return arena_printf(arena, say("%s (Ra %.1f)"), notation, drawing->replacing->found.rows[i - 1].like.ra);
}

static enum status add_blends(struct drawing *drawing, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < drawing->blend_count && status == STATUS_OK; i++) {
        struct teas_chart_point *point = &drawing->points[drawing->point_count++];
        *point = (struct teas_chart_point){.kind = TEAS_POINT_BLEND,
                                           .name = name_of(drawing, i),
                                           .parts = drawing->parts[i],
                                           .part_count = drawing->blends[i]->part_count};
        status = point->name ? place(drawing, drawing->blends[i], point, err)
                             : error_set(err, STATUS_MEMORY, "out of memory");
    }
    return status;
}

enum status draw_replacements(struct replacing *replacing, const char *path, struct error *err) {
    struct drawing *drawing = arena_new(replacing->inv->arena, 1, sizeof *drawing);
    struct teas_chart_input input = {0};
    if (!drawing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    drawing->replacing = replacing;
    take_blend(drawing, &replacing->original);
    for (size_t i = 0; i < replacing->found.count && i < DRAWN_ROWS; i++)
        take_blend(drawing, &replacing->found.rows[i].portrait.blend);
    enum status status = read_teas_rule(replacing->inv, &drawing->rule, err);
    if (status == STATUS_OK)
        status = read_teas_areas(replacing->inv, drawing->rule, &drawing->areas, err);
    if (status == STATUS_OK)
        status = add_bottles(drawing, err);
    if (status == STATUS_OK)
        status = add_blends(drawing, err);
    if (status == STATUS_OK)
        status = page_options(replacing->inv, SHEET_HALF, &input.page, err);
    if (status != STATUS_OK)
        return status;
    input.rule = teas_rule_words(drawing->rule);
    input.areas = drawing->areas.items;
    input.area_count = drawing->areas.count;
    input.points = drawing->points;
    input.point_count = drawing->point_count;
    input.page.captions = drawing->areas.notes;
    input.page.caption_count = drawing->areas.note_count;
    return teas_chart_write(&input, path, NULL, err);
}
