// SPDX-License-Identifier: GPL-3.0-or-later
// Names of lines and limits in a column right of the panel, each as near to its level as the others let it.
#include "present/chart/graph_panel_parts.h"

#include <math.h>
#include <stdlib.h>

static const double leader_room = 10; // pt between panel and names
static const double sample_width = 17;
static const double sample_gap = 3;

enum { NAME_LINES = 3 };

static bool has_name(const char *name) {
    return name && name[0];
}

static size_t named_count(const struct graph_panel *panel) {
    size_t count = 0;
    for (size_t i = 0; i < panel->line_count; i++)
        count += has_name(panel->lines[i].name);
    for (size_t i = 0; i < panel->limit_count; i++)
        count += has_name(panel->limits[i].name);
    return count;
}

static double text_left(bool sample) {
    return leader_room + (sample ? sample_width + sample_gap : 0);
}

struct name_style {
    double most; // width of the column, pt
    double size;
    size_t lines;
};

// Wraps one name and widens the column to it.
static bool set_name(struct panel_state *state, const char *name, bool sample, const struct name_style *style,
                     struct panel_label *label) {
    struct text_lines lines;
    double room = fmax(style->most - text_left(sample), 20);
    label->name = text_printable(state->arena, name);
    label->has_sample = sample;
    label->lines = (struct layout_texts){0};
    if (!label->name ||
        !text_wrap(state->arena, state->work->metric, label->name, style->size, false, room, style->lines, &lines))
        return false;
    for (size_t i = 0; i < lines.count; i++) {
        struct layout_text text = layout_text_make(state->work->metric, lines.items[i], style->size, false);
        state->column_width = fmax(state->column_width, text_left(sample) + text.width);
        if (!layout_texts_add(state->arena, &label->lines, text))
            return false;
    }
    return true;
}

static bool set_names(struct panel_state *state, const struct name_style *style) {
    const struct graph_panel *panel = state->panel;
    struct panel_layout *layout = state->layout;
    layout->column_count = 0;
    state->column_width = 0;
    for (size_t i = 0; i < panel->limit_count; i++) {
        const struct graph_limit *limit = &panel->limits[i];
        bool above = limit->value > state->y.high;
        bool under = limit->value < state->y.low;
        if (!has_name(limit->name) || !graph_value_drawable(panel->y.scale, limit->value))
            continue;
        const char *arrow = above ? "\u2191 " : under ? "\u2193 " : "";
        const char *name = arena_printf(state->arena, "%s%s", arrow, limit->name);
        struct panel_label *label = &layout->column[layout->column_count++];
        *label = (struct panel_label){.beyond = above || under};
        if (!name || !set_name(state, name, false, style, label))
            return false;
    }
    for (size_t i = 0; i < panel->line_count; i++) {
        if (!has_name(panel->lines[i].name))
            continue;
        struct panel_label *label = &layout->column[layout->column_count++];
        *label = (struct panel_label){.line = i, .style = panel->lines[i].style};
        if (!set_name(state, panel->lines[i].name, true, style, label))
            return false;
    }
    return true;
}

static double label_height(const struct panel_label *label) {
    return (double)label->lines.count * label->lines.items[0].size * LINE_STEP;
}

static double total_height(const struct panel_layout *layout) {
    double sum = 0;
    for (size_t i = 0; i < layout->column_count; i++)
        sum += label_height(&layout->column[i]);
    return sum;
}

// Half a line more than the panel at both ends.
static double column_height(const struct panel_state *state) {
    return state->layout->plot.height + state->work->sizes.label * LINE_STEP;
}

bool panel_column_measure(struct panel_state *state, double most) {
    struct panel_layout *layout = state->layout;
    layout->column = arena_new(state->arena, named_count(state->panel), sizeof *layout->column);
    if (!layout->column)
        return false;
    const struct name_style styles[] = {
        {most, state->work->sizes.label, NAME_LINES}, {most, TEXT_SMALLEST, NAME_LINES}, {most, TEXT_SMALLEST, 1}};
    for (size_t i = 0; i < sizeof styles / sizeof styles[0]; i++) {
        if (!set_names(state, &styles[i]))
            return false;
        if (total_height(layout) <= column_height(state))
            break;
    }
    return true;
}

// --- levels ---

struct slot {
    struct panel_label *label;
    double wanted; // middle, pt
    double height;
    size_t index;
    double at;
};

static int by_level(const void *a, const void *b) {
    const struct slot *x = a;
    const struct slot *y = b;
    if (x->wanted < y->wanted || x->wanted > y->wanted)
        return x->wanted < y->wanted ? -1 : 1;
    return (x->index > y->index) - (x->index < y->index);
}

// Least squares of the shifts under the condition that no two overlap: neighbours that would are joined into blocks,
// each at the mean of its wishes (pool adjacent violators), and all of them kept within the column.
static void spread(struct slot *slots, size_t count, double top, double bottom, double *sums, size_t *sizes) {
    size_t blocks = 0;
    double offset = 0; // of a slot's middle when all stand on top of each other
    double *offsets = sums + count;
    for (size_t i = 0; i < count; i++) {
        offset += (i ? slots[i - 1].height / 2 : 0) + slots[i].height / 2;
        offsets[i] = offset;
        sums[blocks] = slots[i].wanted - offset;
        sizes[blocks++] = 1;
        while (blocks > 1 &&
               sums[blocks - 2] / (double)sizes[blocks - 2] >= sums[blocks - 1] / (double)sizes[blocks - 1]) {
            sums[blocks - 2] += sums[blocks - 1];
            sizes[blocks - 2] += sizes[blocks - 1];
            blocks--;
        }
    }
    double total = count ? offsets[count - 1] + slots[count - 1].height / 2 : 0;
    size_t i = 0;
    for (size_t block = 0; block < blocks; block++) {
        double base = sums[block] / (double)sizes[block];
        base = fmax(fmin(base, bottom - total), top);
        for (size_t k = 0; k < sizes[block]; k++, i++)
            slots[i].at = base + offsets[i];
    }
}

// Limits come first in the column and lose their place last.
static void drop_until_it_fits(struct panel_state *state, struct slot *slots, size_t *count) {
    double height = 0;
    for (size_t i = 0; i < *count; i++)
        height += slots[i].height;
    while (*count > 0 && height > column_height(state)) {
        --*count;
        height -= slots[*count].height;
    }
}

static void find_levels(struct panel_state *state, struct slot *slots, size_t *ret_count) {
    const struct graph_panel *panel = state->panel;
    struct panel_layout *layout = state->layout;
    size_t label = 0;
    size_t count = 0;
    for (size_t i = 0; i < panel->limit_count; i++) {
        const struct graph_limit *limit = &panel->limits[i];
        if (!has_name(limit->name) || !graph_value_drawable(panel->y.scale, limit->value))
            continue;
        double y = fmin(fmax(panel_y(state, limit->value), layout->plot.y), layout->plot.y + layout->plot.height);
        slots[count++] = (struct slot){.label = &layout->column[label], .wanted = y};
        label++;
    }
    for (size_t i = 0; i < panel->line_count; i++) {
        if (!has_name(panel->lines[i].name))
            continue;
        if (state->ended[i])
            slots[count++] = (struct slot){.label = &layout->column[label], .wanted = state->ends[i].y};
        label++;
    }
    for (size_t i = 0; i < count; i++) {
        slots[i].height = label_height(slots[i].label);
        slots[i].index = i;
    }
    *ret_count = count;
}

// Where a name's level meets the panel: at its right edge, or where the line ends before it.
static struct spot level_end(const struct panel_state *state, const struct panel_label *label) {
    struct box p = state->layout->plot;
    return label->has_sample ? state->ends[label->line] : (struct spot){p.x + p.width, label->y};
}

static void place_label(struct panel_state *state, const struct slot *slot) {
    static const double near = 1.2; // pt: seen as level with its line
    struct panel_label *label = slot->label;
    struct box p = state->layout->plot;
    double left = p.x + p.width + leader_room;
    double size = label->lines.items[0].size;
    double top = slot->at - slot->height / 2;
    label->placed = true;
    label->y = slot->wanted;
    for (size_t i = 0; i < label->lines.count; i++) {
        label->lines.items[i].x = p.x + p.width + text_left(label->has_sample);
        label->lines.items[i].y = top + (double)i * size * LINE_STEP + size * 0.90;
    }
    double middle = top + size * (0.90 - CAPITAL_HEIGHT / 2);
    if (label->lines.count > 1)
        middle = slot->at;
    label->sample = (struct segment){{left, middle}, {left + sample_width, middle}};
    struct spot end = level_end(state, label);
    bool level = fabs(middle - slot->wanted) < near && end.x > p.x + p.width - 1;
    label->has_leader = !label->beyond && !level;
    label->leader = (struct segment){{end.x + 1, end.y}, {left - 1.5, middle}};
}

bool panel_column_place(struct panel_state *state) {
    struct panel_layout *layout = state->layout;
    struct box p = layout->plot;
    double half = state->work->sizes.label * LINE_STEP / 2;
    struct slot *slots = arena_new(state->arena, layout->column_count, sizeof *slots);
    double *sums = arena_new(state->arena, 2 * layout->column_count, sizeof *sums);
    size_t *sizes = arena_new(state->arena, layout->column_count, sizeof *sizes);
    if (!slots || !sums || !sizes)
        return false;
    size_t count = 0;
    find_levels(state, slots, &count);
    drop_until_it_fits(state, slots, &count);
    qsort(slots, count, sizeof *slots, by_level);
    spread(slots, count, p.y - half, p.y + p.height + half, sums, sizes);
    for (size_t i = 0; i < count; i++)
        place_label(state, &slots[i]);
    return true;
}
