// SPDX-License-Identifier: GPL-3.0-or-later
// The panel's frame: ranges, heading, scales, names of the axes and zones.
#include "base/language.h"
#include "present/chart/graph_panel_parts.h"

#include <math.h>

static const double tick_length = 3.5;
static const double number_gap = 3; // between tick and number
static const double name_gap = 4;   // between numbers and name of an axis
static const double heading_gap = 5;
static const double column_share = 0.40; // of the panel's width at most
static const double stroke_room = 0.03;  // of a limit's value, for its strokes
static const double limit_reach = 1.6;   // a limit up to that many times the largest value widens the axis

enum { HEADING_LINES = 3, NAME_LINES = 3, ZONE_LINES = 2 };

// --- what may go in ---

static enum status check_axis(const struct graph_axis *axis, const char *which, struct error *err) {
    if (axis->low >= axis->high)
        return error_set(err, STATUS_RANGE, "the %s axis would run from %g to %g; it must run upwards", which,
                         axis->low, axis->high);
    double ends[] = {axis->low, axis->high};
    for (size_t i = 0; i < 2; i++)
        if (!isnan(ends[i]) && !graph_value_drawable(axis->scale, ends[i]))
            return error_set(err, STATUS_RANGE, "the %s axis cannot end at %g%s", which, ends[i],
                             axis->scale == GRAPH_LOG ? say("; a logarithmic one begins above 0") : "");
    return STATUS_OK;
}

enum status graph_panel_check(const struct graph_panel *panel, struct error *err) {
    const struct {
        size_t count, most;
        const char *what;
    } counts[] = {{panel->line_count, GRAPH_LINES_MAX, "lines"},
                  {panel->point_count, GRAPH_POINTS_MAX, "points"},
                  {panel->limit_count, GRAPH_LIMITS_MAX, "limits"},
                  {panel->zone_count, GRAPH_ZONES_MAX, "zones"},
                  {panel->stack ? panel->stack->layer_count + panel->stack->first_style : 0, AREA_STYLES, "bands"}};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++)
        if (counts[i].count > counts[i].most)
            return error_set(err, STATUS_RANGE, "%zu %s; one panel holds at most %zu", counts[i].count, counts[i].what,
                             counts[i].most);
    enum status status = check_axis(&panel->x, "level", err);
    return status == STATUS_OK ? check_axis(&panel->y, "upright", err) : status;
}

static bool both_drawable(const struct graph_panel *panel, double x, double y) {
    return graph_value_drawable(panel->x.scale, x) && graph_value_drawable(panel->y.scale, y);
}

size_t graph_panel_skipped(const struct graph_panel *panel) {
    size_t skipped = 0;
    for (size_t i = 0; i < panel->line_count; i++)
        for (size_t k = 0; k < panel->lines[i].count; k++)
            skipped += !both_drawable(panel, panel->lines[i].x[k], panel->lines[i].y[k]);
    for (size_t k = 0; panel->stack && k < panel->stack->count; k++)
        skipped += !stack_drawable(panel, k);
    for (size_t i = 0; i < panel->limit_count; i++)
        skipped += !graph_value_drawable(panel->y.scale, panel->limits[i].value);
    return skipped;
}

// --- ranges ---

struct extent {
    enum graph_scale scale;
    double low, high;
};

static void extend(struct extent *extent, double value) {
    if (!graph_value_drawable(extent->scale, value))
        return;
    extent->low = fmin(extent->low, value); // NAN at first
    extent->high = fmax(extent->high, value);
}

static void extend_by_stack(const struct graph_panel *panel, struct extent *x, struct extent *y) {
    const struct graph_stack *stack = panel->stack;
    for (size_t i = 0; stack && i < stack->count; i++) {
        if (!stack_drawable(panel, i))
            continue;
        double sum = 0;
        for (size_t k = 0; k < stack->layer_count; k++)
            sum += stack->layers[k][i];
        extend(x, stack->x[i]);
        extend(y, 0);
        extend(y, sum);
    }
}

static void extend_by_points(const struct graph_panel *panel, struct extent *x, struct extent *y) {
    for (size_t i = 0; i < panel->point_count; i++) {
        const struct graph_point *p = &panel->points[i];
        if (!both_drawable(panel, p->x, p->y))
            continue;
        double xs[] = {p->x, p->x_low, p->x_high};
        double ys[] = {p->y, p->y_low, p->y_high};
        for (size_t k = 0; k < 3; k++) {
            extend(x, xs[k]);
            extend(y, ys[k]);
        }
    }
}

static void find_extents(const struct graph_panel *panel, struct extent *x, struct extent *y) {
    *x = (struct extent){panel->x.scale, NAN, NAN};
    *y = (struct extent){panel->y.scale, NAN, NAN};
    for (size_t i = 0; i < panel->line_count; i++) {
        const struct graph_line *line = &panel->lines[i];
        for (size_t k = 0; k < line->count; k++) {
            if (!both_drawable(panel, line->x[k], line->y[k]))
                continue;
            extend(x, line->x[k]);
            extend(y, line->y[k]);
        }
    }
    extend_by_stack(panel, x, y);
    extend_by_points(panel, x, y);
    for (size_t i = 0; i < panel->span_count; i++) {
        extend(x, panel->spans[i].from);
        extend(x, panel->spans[i].to);
    }
    double reach = limit_reach * y->high;
    for (size_t i = 0; i < panel->limit_count; i++) {
        double value = panel->limits[i].value;
        double strokes = stroke_room * fabs(value);
        if (isnan(y->high) || value <= reach)
            extend(y, panel->limits[i].below ? value - strokes : value + strokes);
    }
}

// --- the frame ---

static struct graph_tick_style tick_style(const struct panel_state *state, double length, bool level) {
    return (struct graph_tick_style){.metric = state->work->metric,
                                     .size = state->work->sizes.scale,
                                     .length = length,
                                     .level = level,
                                     .decimal_mark = state->work->decimal_mark};
}

static const char *axis_words(const struct panel_state *state, const struct graph_axis *axis,
                              const struct graph_range *range) {
    const char *name = axis->name ? axis->name : "";
    if (range->power == 0)
        return text_printable(state->arena, name);
    const char *power = graph_power_text(state->arena, range->power);
    return power ? arena_printf(state->arena, "%s (\u00D7 %s)", name, power) : NULL;
}

static bool lay_heading(struct panel_state *state, double *top) {
    const char *heading = state->panel->heading;
    const char *note = state->panel->note;
    const struct panel_sizes *sizes = &state->work->sizes;
    struct box room = state->work->room;
    struct layout_column column = {&state->layout->heading, room.x, room.width, *top};
    if (heading && heading[0] &&
        !layout_paragraph(state->arena, state->work->metric, &column, heading, sizes->heading, true, HEADING_LINES))
        return false;
    if (note && note[0] &&
        !layout_paragraph(state->arena, state->work->metric, &column, note, sizes->label, false, HEADING_LINES))
        return false;
    if (column.y > *top)
        *top = column.y + heading_gap;
    return true;
}

static double widest_label(const struct panel_state *state, const struct graph_range *range) {
    double widest = 0;
    for (size_t i = 0; i < range->tick_count; i++)
        if (range->ticks[i].label)
            widest =
                fmax(widest, metric_width(state->work->metric, range->ticks[i].label, state->work->sizes.scale, false));
    return widest;
}

// Breaks the name of an axis into lines; they are placed later.
static bool wrap_name(struct panel_state *state, const char *words, double width, struct text_lines *ret) {
    return words &&
           text_wrap(state->arena, state->work->metric, words, state->work->sizes.axis, false, width, NAME_LINES, ret);
}

static double lines_height(const struct panel_state *state, const struct text_lines *lines) {
    return lines->items[0][0] ? (double)lines->count * state->work->sizes.axis * LINE_STEP + name_gap : 0;
}

// Of the numbers under the plot with their ticks.
static double numbers_height(const struct panel_state *state) {
    return tick_length + number_gap + state->work->sizes.scale;
}

static bool place_x_name(struct panel_state *state, const struct text_lines *lines) {
    const struct box *plot = &state->layout->plot;
    double size = state->work->sizes.axis;
    double y = plot->y + plot->height + numbers_height(state) + name_gap;
    for (size_t i = 0; i < lines->count; i++) {
        struct layout_text text = layout_text_make(state->work->metric, lines->items[i], size, false);
        text.x = plot->x + (plot->width - text.width) / 2;
        text.x = fmax(state->work->room.x, fmin(text.x, state->work->room.x + state->work->room.width - text.width));
        text.y = y + size * TEXT_ASCENT + (double)i * size * LINE_STEP;
        if (!layout_texts_add(state->arena, &state->layout->x_name, text))
            return false;
    }
    return true;
}

// Read from below upwards.
static bool place_y_name(struct panel_state *state, const struct text_lines *lines) {
    const struct box *plot = &state->layout->plot;
    double size = state->work->sizes.axis;
    for (size_t i = 0; i < lines->count; i++) {
        struct layout_text text = layout_text_make(state->work->metric, lines->items[i], size, false);
        text.unit_x = 0;
        text.unit_y = -1;
        text.x = state->work->room.x + size * TEXT_ASCENT + (double)i * size * LINE_STEP;
        double middle = plot->y + plot->height / 2 + text.width / 2;
        double lowest = plot->y + plot->height + numbers_height(state); // beside the name of the level axis
        double highest = plot->y + text.width;
        text.y = fmax(fmin(middle, lowest), highest);
        if (!layout_texts_add(state->arena, &state->layout->y_name, text))
            return false;
    }
    return true;
}

static bool lay_frame(struct panel_state *state) {
    const struct panel_sizes *sizes = &state->work->sizes;
    struct box room = state->work->room;
    struct box *plot = &state->layout->plot;
    struct extent x, y;
    find_extents(state->panel, &x, &y);
    double top = room.y;
    if (!lay_heading(state, &top))
        return false;
    if (state->panel->zone_count)
        top += ZONE_LINES * sizes->label * LINE_STEP + 2;
    top = fmax(top, room.y + fmax(0.5 * sizes->scale, state->work->least.top)); // half of the uppermost number
    // Upwards from the lower edge; the name of the level axis may need two lines.
    struct text_lines x_lines, y_lines;
    const char *x_words = text_printable(state->arena, state->panel->x.name);
    if (!wrap_name(state, x_words, room.width, &x_lines))
        return false;
    double numbers = numbers_height(state);
    double below = fmax(numbers + lines_height(state, &x_lines), state->work->least.bottom);
    plot->y = top;
    plot->height = room.y + room.height - below - top;
    struct graph_tick_style upright = tick_style(state, plot->height, false);
    if (!graph_range_make(state->arena, &state->panel->y, y.low, y.high, &upright, &state->y))
        return false;
    if (!wrap_name(state, axis_words(state, &state->panel->y, &state->y), plot->height + numbers, &y_lines) ||
        !panel_column_measure(state, column_share * room.width))
        return false;
    double left = lines_height(state, &y_lines) + widest_label(state, &state->y) + number_gap + tick_length;
    double right = fmax(fmax(state->column_width, 8), state->work->least.right);
    left = fmax(left, state->work->least.left);
    state->layout->insets = (struct panel_insets){left, right, top - room.y, below};
    plot->x = room.x + left;
    plot->width = room.width - left - right;
    struct graph_tick_style level = tick_style(state, plot->width, true);
    if (!graph_range_make(state->arena, &state->panel->x, x.low, x.high, &level, &state->x))
        return false;
    if (state->x.power != 0 && !wrap_name(state, axis_words(state, &state->panel->x, &state->x), room.width, &x_lines))
        return false;
    return place_x_name(state, &x_lines) && place_y_name(state, &y_lines);
}

static bool add_number(struct panel_state *state, const char *label, struct spot foot, bool level) {
    struct layout_text number = layout_text_make(state->work->metric, label, state->work->sizes.scale, false);
    double cap = number.size * CAPITAL_HEIGHT;
    if (level) {
        number.x = foot.x - number.width / 2;
        number.y = foot.y + tick_length + number_gap + cap;
    } else {
        number.x = foot.x - tick_length - number_gap - number.width;
        number.y = foot.y + cap / 2;
    }
    return layout_texts_add(state->arena, &state->layout->scale, number);
}

static bool lay_ticks(struct panel_state *state, const struct graph_range *range, bool level) {
    struct panel_layout *layout = state->layout;
    struct box p = layout->plot;
    for (size_t i = 0; i < range->tick_count; i++) {
        const struct graph_tick *tick = &range->ticks[i];
        double share = graph_position(range, tick->value);
        double length = tick->label ? tick_length : 0.6 * tick_length;
        struct spot foot = level ? (struct spot){p.x + share * p.width, p.y + p.height}
                                 : (struct spot){p.x, p.y + (1 - share) * p.height};
        struct spot out = level ? (struct spot){foot.x, foot.y + length} : (struct spot){foot.x - length, foot.y};
        struct spot far = level ? (struct spot){foot.x, p.y} : (struct spot){p.x + p.width, foot.y};
        if (!segment_list_add(state->arena, &layout->ticks, (struct segment){foot, out}))
            return false;
        bool inside = share > 1e-6 && share < 1 - 1e-6;
        if (inside && tick->label && !segment_list_add(state->arena, &layout->grid, (struct segment){foot, far}))
            return false;
        if (tick->label && !add_number(state, tick->label, foot, level))
            return false;
    }
    return true;
}

// --- the whole ---

static bool lay_all(struct panel_state *state) {
    if (!lay_frame(state))
        return false;
    return state->work->frame_only ||
           (lay_ticks(state, &state->x, true) && lay_ticks(state, &state->y, false) && panel_zones(state) &&
            panel_shades(state) && panel_stack(state) && panel_curves(state) && panel_column_place(state) &&
            panel_points(state) && panel_band_labels(state));
}

enum status graph_panel_lay(const struct panel_work *work, struct panel_layout *ret, struct error *err) {
    struct panel_layout layout = {0};
    struct panel_state state = {.work = work, .panel = work->panel, .arena = work->arena, .layout = &layout};
    state.ends = arena_new(work->arena, work->panel->line_count, sizeof *state.ends);
    state.ended = arena_new(work->arena, work->panel->line_count, sizeof *state.ended);
    if (!state.ends || !state.ended || !lay_all(&state))
        return layout_no_memory(err);
    *ret = layout;
    return STATUS_OK;
}

size_t graph_panel_unlabelled(const struct panel_work *work, const struct panel_layout *layout, struct text *out) {
    size_t count = 0;
    size_t *numbers = mark_labels_missing(work->arena, layout->labels, layout->label_count, &count);
    if (!numbers) {
        out->failed = true;
        return 0;
    }
    text_add_numbers(out, numbers, count);
    for (size_t i = 0; i < layout->column_count + layout->band_label_count; i++) {
        size_t band = i - layout->column_count;
        bool placed = i < layout->column_count ? layout->column[i].placed : layout->band_labels[band].placed;
        const char *name = i < layout->column_count ? layout->column[i].name : layout->band_labels[band].number.text;
        if (placed)
            continue;
        text_printf(out, "%s%s", out->length ? ", " : "", name);
        count++;
    }
    for (size_t i = 0; i < layout->zone_unnamed_count; i++)
        text_printf(out, "%s%s", out->length ? ", " : "", layout->zones_unnamed[i]);
    return count + layout->zone_unnamed_count;
}
