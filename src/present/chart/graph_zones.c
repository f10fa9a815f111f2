// SPDX-License-Identifier: GPL-3.0-or-later
// Named stretches of the level axis.
#include "present/chart/graph_panel_parts.h"

#include <math.h>
#include <string.h>

enum { ZONE_LINES = 2 };

static const double name_space = 3; // between the names of neighbours

static bool words_fit(const struct panel_state *state, const char *text, double size, double width) {
    char word[128];
    while (*text) {
        size_t length = strcspn(text, " ");
        if (length >= sizeof word)
            return false;
        memcpy(word, text, length);
        word[length] = '\0';
        if (metric_width(state->work->metric, word, size, false) > width)
            return false;
        text += length + (text[length] == ' ');
    }
    return true;
}

// Centred above the zone, the last line next to the panel.
static bool name_above(struct panel_state *state, const struct text_lines *lines, double from, double to) {
    double size = state->work->sizes.label;
    for (size_t i = 0; i < lines->count; i++) {
        struct layout_text text = layout_text_make(state->work->metric, lines->items[i], size, false);
        text.x = (from + to) / 2 - text.width / 2;
        text.y = state->layout->plot.y - 4 - (double)(lines->count - 1 - i) * size * LINE_STEP;
        if (!layout_texts_add(state->arena, &state->layout->zone_names, text))
            return false;
    }
    return true;
}

// Upright inside the panel, hanging from its upper edge.
static bool name_inside(struct panel_state *state, const char *name, double from, double to) {
    double size = state->work->sizes.label;
    struct layout_text text = layout_text_make(state->work->metric, name, size, false);
    text.unit_x = 0;
    text.unit_y = -1;
    text.x = (from + to) / 2 + 0.5 * CAPITAL_HEIGHT * size;
    text.y = state->layout->plot.y + 3 + text.width;
    return layout_texts_add(state->arena, &state->layout->zone_names, text);
}

static bool name_zone(struct panel_state *state, const char *name, double from, double to) {
    struct panel_layout *layout = state->layout;
    double size = state->work->sizes.label;
    double width = to - from - name_space;
    struct text_lines lines;
    const char *clean = text_printable(state->arena, name);
    if (!clean || !text_wrap(state->arena, state->work->metric, clean, size, false, fmax(width, 1), ZONE_LINES, &lines))
        return false;
    if (words_fit(state, clean, size, width) && !lines.shortened)
        return name_above(state, &lines, from, to);
    bool upright = width >= size && metric_width(state->work->metric, clean, size, false) < 0.6 * layout->plot.height;
    if (upright)
        return name_inside(state, clean, from, to);
    layout->zones_unnamed[layout->zone_unnamed_count++] = clean;
    return true;
}

// An end that cannot be drawn (infinite, or 0 on a logarithmic axis) is that of the panel.
static double end_of_zone(const struct panel_state *state, double value, bool low) {
    struct box p = state->layout->plot;
    if (!graph_value_drawable(state->x.scale, value))
        return low ? p.x : p.x + p.width;
    return fmin(fmax(panel_x(state, value), p.x), p.x + p.width);
}

bool panel_zones(struct panel_state *state) {
    struct panel_layout *layout = state->layout;
    struct box p = layout->plot;
    layout->zones_unnamed = arena_new(state->arena, state->panel->zone_count, sizeof *layout->zones_unnamed);
    if (!layout->zones_unnamed)
        return false;
    for (size_t i = 0; i < state->panel->zone_count; i++) {
        const struct graph_zone *zone = &state->panel->zones[i];
        double from = end_of_zone(state, zone->from, true);
        double to = end_of_zone(state, zone->to, false);
        if (to <= from)
            continue;
        struct segment edge = {{to, p.y - 3}, {to, p.y + p.height}};
        if (to < p.x + p.width - 0.5 && !segment_list_add(state->arena, &layout->zones, edge))
            return false;
        if (!name_zone(state, zone->name, from, to))
            return false;
    }
    return true;
}
