// SPDX-License-Identifier: GPL-3.0-or-later
// Points: marks, error bars, numbers.
#include "present/chart/graph_panel_parts.h"

#include <math.h>

static const double bar_end = 2.2;     // half the length of the stroke at the end of an error bar
static const double weight_of_bar = 5; // pt of distance that a label is worth to keep off it
static const double weight_of_curve = 9;
static const double weight_of_limit = 12;
static const double weight_of_zone = 3;

enum { CROWD = 30 }; // with more points than that, the numbers are as small as may be

// --- error bars ---

static bool add_end(struct panel_state *state, struct spot at, bool level) {
    struct segment end = level ? (struct segment){{at.x, at.y - bar_end}, {at.x, at.y + bar_end}}
                               : (struct segment){{at.x - bar_end, at.y}, {at.x + bar_end, at.y}};
    return segment_list_add(state->arena, &state->layout->bars, end);
}

// From the point to one end of its bar. An end beyond the panel has no stroke: the bar goes on.
static bool add_half_bar(struct panel_state *state, struct spot from, struct spot to, bool level) {
    struct segment bar = {from, to};
    if (!clip_to_box(state->layout->plot, &bar))
        return true;
    bool whole = bar.to.x == to.x && bar.to.y == to.y;
    return segment_list_add(state->arena, &state->layout->bars, bar) && (!whole || add_end(state, to, level));
}

static double drawn_end(const struct panel_state *state, bool level, double value) {
    const struct graph_range *range = level ? &state->x : &state->y;
    struct box p = state->layout->plot;
    bool lowest = !(value > 0); // 0 on a logarithmic axis, or minus infinity
    if (graph_value_drawable(range->scale, value))
        return level ? panel_x(state, value) : panel_y(state, value);
    double beyond = 100; // pt: outside for certain
    if (level)
        return lowest ? p.x - beyond : p.x + p.width + beyond;
    return lowest ? p.y + p.height + beyond : p.y - beyond;
}

static bool add_bars(struct panel_state *state, const struct graph_point *point, struct spot at) {
    double xs[] = {point->x_low, point->x_high};
    double ys[] = {point->y_low, point->y_high};
    for (size_t i = 0; i < 2; i++)
        if (!isnan(xs[i]) && !add_half_bar(state, at, (struct spot){drawn_end(state, true, xs[i]), at.y}, true))
            return false;
    for (size_t i = 0; i < 2; i++)
        if (!isnan(ys[i]) && !add_half_bar(state, at, (struct spot){at.x, drawn_end(state, false, ys[i])}, false))
            return false;
    return true;
}

// --- marks ---

static bool add_point(struct panel_state *state, const struct graph_point *point) {
    struct panel_layout *layout = state->layout;
    bool drawable = graph_value_drawable(state->x.scale, point->x) && graph_value_drawable(state->y.scale, point->y);
    struct spot at = {NAN, NAN};
    if (drawable)
        at = (struct spot){panel_x(state, point->x), panel_y(state, point->y)};
    struct segment dot = {at, at};
    if (!drawable || !clip_to_box(layout->plot, &dot)) {
        layout->undrawn[layout->undrawn_count++] = point->number;
        return true;
    }
    layout->marks[layout->mark_count++] =
        (struct layout_mark){.kind = (int)point->mark.shape, .style = point->mark, .number = point->number, .at = at};
    return add_bars(state, point, at);
}

// --- numbers ---

static size_t add_lines(struct soft_line *lines, const struct segment_list *list, double weight) {
    for (size_t i = 0; i < list->count; i++)
        lines[i] = (struct soft_line){list->items[i], weight};
    return list->count;
}

static bool fill_lines(struct panel_state *state, struct label_field *field) {
    const struct panel_layout *layout = state->layout;
    size_t most = layout->bars.count + layout->limit_count + layout->zones.count;
    for (size_t i = 0; i < layout->run_count; i++)
        most += layout->runs[i].count;
    struct soft_line *lines = arena_new(state->arena, most, sizeof *lines);
    if (!lines)
        return false;
    size_t n = add_lines(lines, &layout->bars, weight_of_bar);
    for (size_t i = 0; i < layout->limit_count; i++)
        lines[n++] = (struct soft_line){layout->limits[i].line, weight_of_limit};
    n += add_lines(lines + n, &layout->zones, weight_of_zone);
    for (size_t i = 0; i < layout->run_count; i++)
        for (size_t k = 1; k < layout->runs[i].count; k++)
            lines[n++] = (struct soft_line){{layout->runs[i].spots[k - 1], layout->runs[i].spots[k]}, weight_of_curve};
    field->lines = lines;
    field->line_count = n;
    return true;
}

// Names of narrow zones that stand upright inside the panel.
static bool fill_taken(struct panel_state *state, struct label_field *field) {
    const struct layout_texts *names = &state->layout->zone_names;
    struct box *boxes = arena_new(state->arena, names->count, sizeof *boxes);
    if (!boxes)
        return false;
    for (size_t i = 0; i < names->count; i++)
        if (names->items[i].unit_y != 0)
            boxes[field->taken_count++] =
                (struct box){names->items[i].x - names->items[i].size, names->items[i].y - names->items[i].width,
                             1.2 * names->items[i].size, names->items[i].width};
    field->taken = boxes;
    return true;
}

bool panel_points(struct panel_state *state) {
    const struct graph_panel *panel = state->panel;
    struct panel_layout *layout = state->layout;
    layout->marks = arena_new(state->arena, panel->point_count, sizeof *layout->marks);
    layout->undrawn = arena_new(state->arena, panel->point_count, sizeof *layout->undrawn);
    if (!layout->marks || !layout->undrawn)
        return false;
    for (size_t i = 0; i < panel->point_count; i++)
        if (!add_point(state, &panel->points[i]))
            return false;
    struct label_field field = {.bounds = layout->plot, .mark_count = layout->mark_count};
    field.marks = mark_discs(state->arena, layout->marks, layout->mark_count);
    if (!field.marks || !fill_lines(state, &field) || !fill_taken(state, &field))
        return false;
    struct label_style style = {layout->mark_count > CROWD ? TEXT_SMALLEST : state->work->sizes.label, 0};
    return mark_labels_place(state->arena, state->work->metric, &field, layout->marks, layout->mark_count, &style,
                             &layout->labels, &layout->label_count);
}
