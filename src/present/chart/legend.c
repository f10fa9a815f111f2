// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/legend.h"

#include <math.h>

static const double narrow_swatch = 16;
static const double wide_swatch = 24; // shows two rounds of any dashes
static const double number_width = 14;
static const double entry_gap = 4; // before the name
static const double window_spacing = 3;

static bool has_wide_symbol(enum legend_symbol symbol) {
    return symbol == LEGEND_LINE || symbol == LEGEND_PATH || symbol == LEGEND_LIMIT || symbol == LEGEND_WINDOW ||
           symbol == LEGEND_SPAN;
}

static void set_columns(const struct legend_item *items, size_t count, struct legend *legend) {
    legend->swatch_width = narrow_swatch;
    legend->number_width = 0;
    for (size_t i = 0; i < count; i++) {
        if (has_wide_symbol(items[i].symbol))
            legend->swatch_width = wide_swatch;
        if (items[i].number && items[i].number[0])
            legend->number_width = number_width;
    }
}

// A name without a number stands next to its symbol.
static double text_indent(const struct legend *legend, enum legend_symbol symbol, const char *number) {
    if (symbol == LEGEND_HEADING)
        return 0;
    return legend->swatch_width + entry_gap + (number[0] ? legend->number_width : 0);
}

static bool add_lines(struct arena *arena, const struct text_metric *metric, const char *text,
                      const struct arrangement *how, double width, bool bold, struct legend_entry *entry) {
    struct text_lines lines;
    const char *clean = text_printable(arena, text);
    if (!clean || !text_wrap(arena, metric, clean, how->size, bold, width, how->lines, &lines))
        return false;
    for (size_t i = 0; i < lines.count; i++) {
        struct layout_text line = layout_text_make(metric, lines.items[i], how->size, bold);
        if (!layout_texts_add(arena, &entry->lines, line))
            return false;
    }
    return true;
}

bool legend_fill(struct arena *arena, const struct text_metric *metric, const struct legend_item *items, size_t count,
                 const struct arrangement *how, struct legend *legend) {
    legend->entries = arena_new(arena, count, sizeof *legend->entries);
    legend->line_step = how->size * LINE_STEP;
    legend->count = count;
    if (!legend->entries)
        return false;
    set_columns(items, count, legend);
    for (size_t i = 0; i < count; i++) {
        const struct legend_item *item = &items[i];
        struct legend_entry *entry = &legend->entries[i];
        if (!item->number || !item->text)
            return false;
        entry->symbol = item->symbol;
        entry->style = item->style;
        entry->mark = item->mark;
        bool heading = item->symbol == LEGEND_HEADING;
        const char *number = text_printable(arena, item->number); // outlives the items
        if (!number)
            return false;
        entry->number = layout_text_make(metric, number, how->size, true);
        double width = legend->column_width - text_indent(legend, item->symbol, item->number);
        if (!add_lines(arena, metric, item->text, how, width, heading, entry))
            return false;
    }
    return true;
}

static double heading_gap(const struct legend *legend) {
    return 0.5 * legend->line_step;
}
static double lines_height(const struct legend *legend, size_t i) {
    return (double)legend->entries[i].lines.count * legend->line_step;
}

// Columns needed when each is `height` tall; a heading never ends a column. Sets where everything stands.
static size_t flow(struct legend *legend, double height, double *ret_tallest) {
    size_t column = 0;
    double y = 0;
    *ret_tallest = 0;
    for (size_t i = 0; i < legend->count; i++) {
        bool heading = legend->entries[i].symbol == LEGEND_HEADING;
        double gap = heading && y > 0 ? heading_gap(legend) : 0;
        double need = gap + lines_height(legend, i);
        double with_next = need + (heading && i + 1 < legend->count ? lines_height(legend, i + 1) : 0);
        if (y > 0 && y + with_next > height + 1e-9) {
            column++;
            y = 0;
            need -= gap;
            gap = 0;
        }
        legend->entries[i].swatch.x = legend->left + (double)column * (legend->column_width + LEGEND_COLUMN_GAP);
        legend->entries[i].swatch.y = legend->top + y + gap;
        y += need;
        *ret_tallest = fmax(*ret_tallest, y);
    }
    return column + 1;
}

double legend_flow(struct legend *legend, size_t columns, double most) {
    double tallest = 0;
    for (double height = legend->line_step; height <= most; height += 0.5 * legend->line_step)
        if (flow(legend, height, &tallest) <= columns && tallest <= height + 1e-9)
            return tallest;
    return INFINITY;
}

static void set_lines(const struct legend *legend, struct legend_entry *entry) {
    double size = entry->lines.items[0].size;
    double left = entry->swatch.x;
    double baseline = entry->swatch.y + size * LINE_ASCENT;
    double text_left = left + text_indent(legend, entry->symbol, entry->number.text);
    entry->number.x = left + legend->swatch_width + legend->number_width - entry->number.width;
    entry->number.y = baseline;
    for (size_t line = 0; line < entry->lines.count; line++) {
        entry->lines.items[line].x = text_left;
        entry->lines.items[line].y = baseline + (double)line * legend->line_step;
    }
    entry->swatch = (struct box){left, baseline - size * 0.80, legend->swatch_width, size * 0.90};
}

// The symbol's own lines in its swatch.
static bool set_symbol(struct arena *arena, struct legend_entry *entry) {
    static const double slope = 0.7071067811865476; // 45 degrees
    struct box s = entry->swatch;
    struct spot corners[] = {{s.x, s.y}, {s.x + s.width, s.y}, {s.x + s.width, s.y + s.height}, {s.x, s.y + s.height}};
    double middle = s.y + s.height / 2;
    entry->edge = (struct segment){{s.x, middle}, {s.x + s.width, middle}};
    if (entry->symbol == LEGEND_WINDOW)
        return hatch_polygon(arena, corners, 4, slope, -slope, window_spacing, 1e6, &entry->hatch);
    if (entry->symbol != LEGEND_AREA)
        return true;
    entry->edge = (struct segment){corners[0], corners[1]};
    return area_hatch(arena, entry->style, corners, 4, HATCH_DEPTH, &entry->hatch);
}

bool legend_set(struct arena *arena, struct legend *legend) {
    for (size_t i = 0; i < legend->count; i++) {
        set_lines(legend, &legend->entries[i]);
        if (!set_symbol(arena, &legend->entries[i]))
            return false;
    }
    return true;
}
