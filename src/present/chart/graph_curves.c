// SPDX-License-Identifier: GPL-3.0-or-later
// Lines, stacked bands, shaded stretches, limits.
#include "present/chart/graph_panel_parts.h"

#include <math.h>
#include <string.h>

static const double mark_distance = 46; // pt along a line between the marks on it
static const double window_hatch_spacing = 3;

// --- cutting to the panel ---

static bool clip_axis(double start, double step, double from, double to, double *low, double *high) {
    if (step == 0)
        return start >= from && start <= to;
    double a = (from - start) / step;
    double b = (to - start) / step;
    *low = fmax(*low, fmin(a, b));
    *high = fmin(*high, fmax(a, b));
    return *low <= *high;
}

bool clip_to_box(struct box box, struct segment *segment) {
    static const double slack = 1e-6; // pt: what lies on the edge is inside
    double low = 0;
    double high = 1;
    struct spot from = segment->from;
    double dx = segment->to.x - from.x;
    double dy = segment->to.y - from.y;
    if (!clip_axis(from.x, dx, box.x - slack, box.x + box.width + slack, &low, &high) ||
        !clip_axis(from.y, dy, box.y - slack, box.y + box.height + slack, &low, &high))
        return false;
    if (high < 1)
        segment->to = (struct spot){from.x + high * dx, from.y + high * dy};
    if (low > 0)
        segment->from = (struct spot){from.x + low * dx, from.y + low * dy};
    return true;
}

// --- lines ---

// The pieces of one line as they grow.
struct tracing {
    struct panel_state *state;
    size_t line;
    struct panel_run *run; // NULL = the pen is up
    size_t capacity;       // of its spots
};

static bool add_spot(struct tracing *tracing, struct spot at) {
    struct panel_run *run = tracing->run;
    if (run->count == tracing->capacity) {
        size_t capacity = tracing->capacity ? tracing->capacity * 2 : 16;
        struct spot *spots = arena_new(tracing->state->arena, capacity, sizeof *spots);
        if (!spots)
            return false;
        if (run->count)
            memcpy(spots, run->spots, run->count * sizeof *spots);
        run->spots = spots;
        tracing->capacity = capacity;
    }
    run->spots[run->count++] = at;
    return true;
}

static bool pen_down(struct tracing *tracing, struct spot at) {
    struct panel_layout *layout = tracing->state->layout;
    tracing->run = &layout->runs[layout->run_count++];
    *tracing->run = (struct panel_run){.style = tracing->state->panel->lines[tracing->line].style};
    tracing->capacity = 0;
    return add_spot(tracing, at);
}

static bool draw_to(struct tracing *tracing, struct spot from, struct spot to) {
    struct segment piece = {from, to};
    if (!clip_to_box(tracing->state->layout->plot, &piece)) {
        tracing->run = NULL;
        return true;
    }
    bool entered = piece.from.x != from.x || piece.from.y != from.y;
    if ((entered || !tracing->run) && !pen_down(tracing, piece.from))
        return false;
    if (!add_spot(tracing, piece.to))
        return false;
    tracing->state->ends[tracing->line] = piece.to;
    tracing->state->ended[tracing->line] = true;
    if (piece.to.x != to.x || piece.to.y != to.y)
        tracing->run = NULL;
    return true;
}

static bool both_drawable(const struct panel_state *state, const struct graph_line *line, size_t i) {
    return graph_value_drawable(state->x.scale, line->x[i]) && graph_value_drawable(state->y.scale, line->y[i]);
}

static struct spot spot_of(const struct panel_state *state, double x, double y) {
    return (struct spot){panel_x(state, x), panel_y(state, y)};
}

static bool trace_line(struct tracing *tracing, const struct graph_line *line) {
    struct panel_state *state = tracing->state;
    bool had = false;
    struct spot last = {0, 0};
    for (size_t i = 0; i < line->count; i++) {
        if (!both_drawable(state, line, i)) {
            had = false;
            tracing->run = NULL;
            continue;
        }
        struct spot now = spot_of(state, line->x[i], line->y[i]);
        struct spot corner = {now.x, last.y};
        if (had && line->steps && !draw_to(tracing, last, corner))
            return false;
        if (had && !draw_to(tracing, line->steps ? corner : last, now))
            return false;
        had = true;
        last = now;
    }
    return true;
}

// A lone value between two gaps would leave no trace: a mark shows it.
static bool lone(const struct panel_state *state, const struct graph_line *line, size_t i) {
    bool before = i > 0 && both_drawable(state, line, i - 1);
    bool after = i + 1 < line->count && both_drawable(state, line, i + 1);
    return both_drawable(state, line, i) && !before && !after;
}

static bool inside(struct box box, struct spot at) {
    struct segment dot = {at, at};
    return clip_to_box(box, &dot);
}

static void add_line_mark(struct panel_state *state, size_t style, struct spot at) {
    static const struct mark_style plain = {MARK_DISC, 1.6, INK_BLACK};
    struct line_style line = line_style(style);
    state->layout->line_marks[state->layout->line_mark_count++] =
        (struct layout_mark){.kind = (int)style, .style = line.marked ? line.mark : plain, .at = at};
}

static void mark_lone(struct panel_state *state, size_t index) {
    const struct graph_line *line = &state->panel->lines[index];
    for (size_t i = 0; i < line->count; i++) {
        if (!lone(state, line, i))
            continue;
        struct spot at = spot_of(state, line->x[i], line->y[i]);
        if (!inside(state->layout->plot, at))
            continue;
        add_line_mark(state, line->style, at);
        state->ends[index] = at;
        state->ended[index] = true;
    }
}

// Lines of one dash pattern have their marks at different places, so that they stay apart where they run together.
static double first_mark(size_t style) {
    return mark_distance * (0.25 + 0.125 * (double)(style % 7));
}

static size_t mark_run(struct panel_state *state, const struct panel_run *run, bool count_only) {
    size_t found = 0;
    double next = first_mark(run->style);
    double walked = 0;
    for (size_t i = 1; i < run->count; i++) {
        struct spot a = run->spots[i - 1];
        struct spot b = run->spots[i];
        double length = sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
        for (; next <= walked + length && length > 0; next += mark_distance) {
            double t = (next - walked) / length;
            found++;
            if (!count_only)
                add_line_mark(state, run->style, (struct spot){a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        }
        walked += length;
    }
    return found;
}

static bool mark_lines(struct panel_state *state) {
    struct panel_layout *layout = state->layout;
    size_t most = 0;
    for (size_t i = 0; i < layout->run_count; i++)
        if (line_style(layout->runs[i].style).marked)
            most += mark_run(state, &layout->runs[i], true);
    for (size_t i = 0; i < state->panel->line_count; i++)
        for (size_t k = 0; k < state->panel->lines[i].count; k++)
            most += lone(state, &state->panel->lines[i], k);
    layout->line_marks = arena_new(state->arena, most, sizeof *layout->line_marks);
    if (!layout->line_marks)
        return false;
    for (size_t i = 0; i < layout->run_count; i++)
        if (line_style(layout->runs[i].style).marked)
            mark_run(state, &layout->runs[i], false);
    for (size_t i = 0; i < state->panel->line_count; i++)
        mark_lone(state, i);
    return true;
}

bool panel_curves(struct panel_state *state) {
    const struct graph_panel *panel = state->panel;
    size_t most = 0;
    for (size_t i = 0; i < panel->line_count; i++)
        most += 2 * panel->lines[i].count;
    state->layout->runs = arena_new(state->arena, most, sizeof *state->layout->runs);
    if (!state->layout->runs)
        return false;
    for (size_t i = 0; i < panel->line_count; i++) {
        struct tracing tracing = {state, i, NULL, 0};
        if (!trace_line(&tracing, &panel->lines[i]))
            return false;
    }
    return mark_lines(state);
}

// --- stacked bands ---

static struct spot into_plot(const struct panel_state *state, double x, double y) {
    struct box p = state->layout->plot;
    struct spot at = spot_of(state, x, y);
    return (struct spot){fmin(fmax(at.x, p.x), p.x + p.width), fmin(fmax(at.y, p.y), p.y + p.height)};
}

static bool add_band(struct panel_state *state, size_t layer, const struct spot *lower, const struct spot *upper,
                     size_t count) {
    static const double whole = 1e6; // pt: hatched all over
    struct panel_layout *layout = state->layout;
    struct panel_band *band = &layout->bands[layout->band_count++];
    struct panel_run *edge = &layout->edges[layout->edge_count++];
    size_t style = state->panel->stack->first_style + layer;
    band->layer = layer;
    band->style = style;
    band->corner_count = 2 * count;
    band->corners = arena_new(state->arena, band->corner_count, sizeof *band->corners);
    edge->style = style;
    edge->count = count;
    edge->spots = arena_new(state->arena, count, sizeof *edge->spots);
    if (!band->corners || !edge->spots)
        return false;
    for (size_t i = 0; i < count; i++) {
        band->corners[i] = lower[i];
        band->corners[2 * count - 1 - i] = upper[i];
        edge->spots[i] = upper[i];
    }
    return area_hatch(state->arena, style, band->corners, band->corner_count, whole, &band->hatch);
}

bool panel_stack(struct panel_state *state) {
    const struct graph_stack *stack = state->panel->stack;
    struct panel_layout *layout = state->layout;
    if (!stack)
        return true;
    double *sums = arena_new(state->arena, stack->count, sizeof *sums);
    struct spot *lower = arena_new(state->arena, stack->count, sizeof *lower);
    struct spot *upper = arena_new(state->arena, stack->count, sizeof *upper);
    layout->bands = arena_new(state->arena, stack->layer_count, sizeof *layout->bands);
    layout->edges = arena_new(state->arena, stack->layer_count, sizeof *layout->edges);
    if (!sums || !lower || !upper || !layout->bands || !layout->edges)
        return false;
    for (size_t layer = 0; layer < stack->layer_count; layer++) {
        size_t count = 0;
        for (size_t i = 0; i < stack->count; i++) {
            if (!stack_drawable(state->panel, i))
                continue;
            lower[count] = into_plot(state, stack->x[i], sums[i]);
            sums[i] += stack->layers[layer][i];
            upper[count++] = into_plot(state, stack->x[i], sums[i]);
        }
        if (count >= 2 && !add_band(state, layer, lower, upper, count))
            return false;
    }
    return true;
}

// --- shaded stretches, spans, limits ---

static bool stretch(const struct panel_state *state, const struct graph_window *window, double *from, double *to) {
    struct box p = state->layout->plot;
    if (!graph_value_drawable(state->x.scale, window->from) || !graph_value_drawable(state->x.scale, window->to))
        return false;
    *from = fmax(panel_x(state, window->from), p.x);
    *to = fmin(panel_x(state, window->to), p.x + p.width);
    return *from < *to;
}

static bool add_window(struct panel_state *state, double from, double to) {
    static const double slope = 0.7071067811865476; // 45 degrees
    struct panel_layout *layout = state->layout;
    struct box p = layout->plot;
    struct spot corners[] = {{from, p.y}, {to, p.y}, {to, p.y + p.height}, {from, p.y + p.height}};
    struct panel_window *window = &layout->windows[layout->window_count++];
    window->box = (struct box){from, p.y, to - from, p.height};
    return hatch_polygon(state->arena, corners, 4, slope, -slope, window_hatch_spacing, 1e6, &window->hatch);
}

static void add_limit(struct panel_state *state, const struct graph_limit *limit) {
    struct panel_layout *layout = state->layout;
    struct box p = layout->plot;
    double y = graph_value_drawable(state->y.scale, limit->value) ? panel_y(state, limit->value) : NAN;
    if (y >= p.y - 1e-6 && y <= p.y + p.height + 1e-6)
        layout->limits[layout->limit_count++] = (struct panel_limit){{{p.x, y}, {p.x + p.width, y}}, limit->below};
}

bool panel_shades(struct panel_state *state) {
    const struct graph_panel *panel = state->panel;
    struct box p = state->layout->plot;
    double from;
    double to;
    state->layout->windows = arena_new(state->arena, panel->window_count, sizeof *state->layout->windows);
    state->layout->limits = arena_new(state->arena, panel->limit_count, sizeof *state->layout->limits);
    if (!state->layout->windows || !state->layout->limits)
        return false;
    for (size_t i = 0; i < panel->window_count; i++)
        if (stretch(state, &panel->windows[i], &from, &to) && !add_window(state, from, to))
            return false;
    for (size_t i = 0; i < panel->span_count; i++) {
        struct spot a = {0, p.y + p.height};
        struct spot b = a;
        if (!stretch(state, &panel->spans[i], &a.x, &b.x))
            continue;
        if (!segment_list_add(state->arena, &state->layout->spans, (struct segment){a, b}))
            return false;
    }
    for (size_t i = 0; i < panel->limit_count; i++)
        add_limit(state, &panel->limits[i]);
    return true;
}
