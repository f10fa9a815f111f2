// SPDX-License-Identifier: GPL-3.0-or-later
// Symbols, numbers and names in columns.
#include "present/chart/teas_layout_parts.h"

#include <math.h>

static const double swatch_width = 16;
static const double number_width = 14;
static const double entry_gap = 4; // between number and name

static bool entry_text(struct teas_work *work, const char *text, const struct arrangement *how, double width, bool bold,
                       struct layout_entry *entry) {
    struct text_lines lines;
    const char *clean = text_printable(work->arena, text);
    if (!clean || !text_wrap(work->arena, work->metric, clean, how->size, bold, width, how->lines, &lines))
        return false;
    for (size_t i = 0; i < lines.count; i++) {
        struct layout_text line = layout_text_make(work->metric, lines.items[i], how->size, bold);
        if (!layout_texts_add(work->arena, &entry->lines, line))
            return false;
    }
    return true;
}

static bool add_heading(struct teas_work *work, struct legend *legend, const struct arrangement *how,
                        const char *text) {
    struct layout_entry *entry = &legend->entries[legend->count++];
    entry->symbol = LEGEND_HEADING;
    entry->number.text = "";
    return entry_text(work, text, how, legend->column_width, true, entry);
}

static bool add_entry(struct teas_work *work, struct legend *legend, const struct arrangement *how,
                      enum legend_symbol symbol, const char *number, const char *name) {
    struct layout_entry *entry = &legend->entries[legend->count++];
    entry->symbol = symbol;
    if (!number || !name)
        return false;
    entry->number = layout_text_make(work->metric, number, how->size, true);
    double width = legend->column_width - swatch_width - number_width - entry_gap;
    return entry_text(work, name, how, width, false, entry);
}

static bool add_area_entries(struct teas_work *work, struct legend *legend, const struct arrangement *how) {
    const struct teas_chart_input *input = work->input;
    if (input->area_count && !add_heading(work, legend, how, work->words->areas))
        return false;
    for (size_t i = 0; i < input->area_count; i++) {
        const struct teas_chart_area *area = &input->areas[i];
        bool stated = area->confidence >= 0 && area->confidence < TEAS_CONFIDENCES;
        const char *name = arena_printf(work->arena, "%s%s%s%s", area->name ? area->name : "", stated ? " (" : "",
                                        stated ? work->words->confidences[area->confidence] : "", stated ? ")" : "");
        const char *letter = arena_printf(work->arena, "%c", 'A' + (char)i);
        if (!add_entry(work, legend, how, LEGEND_AREA, letter, name))
            return false;
        legend->entries[legend->count - 1].style = i;
    }
    return true;
}

static const char *heading_of(const struct teas_chart_words *words, enum teas_point_kind kind) {
    if (kind == TEAS_POINT_BOTTLE)
        return words->bottles;
    return kind == TEAS_POINT_BLEND ? words->blends : words->tests;
}

// Name, mark of computed values, result: "T4 propan-2-ol 20 + isooctane 80 *: softened or partly removed".
static const char *point_name(struct teas_work *work, const struct teas_chart_point *point) {
    const char *result = work->words->results[point->kind];
    return arena_printf(work->arena, "%s%s%s%s%s", point->name ? point->name : "", point->computed ? "\u00A0" : "",
                        point->computed ? work->words->computed_mark : "", result[0] ? ": " : "", result);
}

static bool add_point_entries(struct teas_work *work, struct legend *legend, const struct arrangement *how) {
    const struct teas_chart_input *input = work->input;
    const char *heading = NULL;
    for (size_t number = 1; number <= input->point_count; number++) {
        const struct teas_chart_point *point = &input->points[work->order[number - 1]];
        const char *own = heading_of(work->words, point->kind);
        if (own != heading && !add_heading(work, legend, how, own))
            return false;
        heading = own;
        if (!add_entry(work, legend, how, LEGEND_POINT, arena_printf(work->arena, "%zu", number),
                       point_name(work, point)))
            return false;
        legend->entries[legend->count - 1].kind = point->kind;
    }
    return true;
}

bool legend_fill(struct teas_work *work, const struct arrangement *how, struct legend *legend) {
    size_t most = work->input->area_count + work->input->point_count + TEAS_POINT_KINDS + 1;
    legend->entries = arena_new(work->arena, most, sizeof *legend->entries);
    legend->line_step = how->size * LINE_STEP;
    return legend->entries && add_area_entries(work, legend, how) && add_point_entries(work, legend, how);
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

static void set_lines(const struct legend *legend, struct layout_entry *entry) {
    double size = entry->lines.items[0].size;
    double left = entry->swatch.x;
    double baseline = entry->swatch.y + size * LINE_ASCENT;
    double text_left = entry->symbol == LEGEND_HEADING ? left : left + swatch_width + number_width + entry_gap;
    entry->number.x = left + swatch_width + number_width - entry->number.width;
    entry->number.y = baseline;
    for (size_t line = 0; line < entry->lines.count; line++) {
        entry->lines.items[line].x = text_left;
        entry->lines.items[line].y = baseline + (double)line * legend->line_step;
    }
    entry->swatch = (struct box){left, baseline - size * 0.80, swatch_width, size * 0.90};
}

bool legend_set(struct teas_work *work, struct legend *legend) {
    for (size_t i = 0; i < legend->count; i++) {
        struct layout_entry *entry = &legend->entries[i];
        set_lines(legend, entry);
        if (entry->symbol != LEGEND_AREA)
            continue;
        struct box s = entry->swatch;
        struct spot corners[] = {
            {s.x, s.y}, {s.x + s.width, s.y}, {s.x + s.width, s.y + s.height}, {s.x, s.y + s.height}};
        entry->edge = (struct segment){corners[0], corners[1]};
        if (!layout_hatch(work, entry->style, corners, 4, &entry->hatch))
            return false;
    }
    return true;
}
