// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_replace.h"

#include "cli/page_options.h"
#include "cli/teas_areas.h"
#include "cli/teas_points.h"

// The original is the first.
static const char *name_of(const struct replacing *replacing, const struct blend *blend, size_t i) {
    struct arena *arena = replacing->inv->arena;
    const char *notation = blend_notation(arena, blend);
    if (!notation)
        return NULL;
    if (i == 0)
        return arena_say(arena, "the original: %s", notation);
    return arena_say(arena, "%s (Ra %.1f)", notation, replacing->found.rows[i - 1].like.ra);
}

static enum status add_blends(const struct replacing *replacing, struct teas_points *points, struct error *err) {
    for (size_t i = 0; i <= replacing->found.count && i <= DRAWN_ROWS; i++) {
        const struct blend *blend = i ? &replacing->found.rows[i - 1].portrait.blend : &replacing->original;
        const char *name = name_of(replacing, blend, i);
        if (!name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        teas_points_add_blend(points, blend, name);
    }
    return STATUS_OK;
}

enum status draw_replacements(struct replacing *replacing, const char *path, struct error *err) {
    struct teas_points *points = arena_new(replacing->inv->arena, 1, sizeof *points);
    struct teas_areas *areas = arena_new(replacing->inv->arena, 1, sizeof *areas);
    struct teas_chart_input input = {0};
    enum teas_rule rule;
    if (!points || !areas)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = read_teas_rule(replacing->inv, &rule, err);
    if (status == STATUS_OK)
        status = read_teas_areas(replacing->inv, rule, areas, err);
    if (status == STATUS_OK)
        status = add_blends(replacing, points, err);
    if (status == STATUS_OK)
        status = teas_points_place(&replacing->inv->library, rule, points, err);
    if (status == STATUS_OK)
        status = page_options(replacing->inv, SHEET_HALF, &input.page, err);
    if (status != STATUS_OK)
        return status;
    input.rule = teas_rule_words(rule);
    input.areas = areas->items;
    input.area_count = areas->count;
    input.points = points->items;
    input.point_count = points->count;
    input.page.captions = areas->notes;
    input.page.caption_count = areas->note_count;
    return teas_chart_write(&input, path, NULL, err);
}
