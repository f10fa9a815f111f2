// SPDX-License-Identifier: GPL-3.0-or-later
// Everything round the triangle: header, caption, legend.
#include "present/chart/teas_layout_parts.h"

#include <math.h>
#include <string.h>

enum { TITLE_LINES = 2, HEADING_LINES = 2, CAPTION_LINES = 4 };

static const double header_gap = 8;
static const double caption_gap = 8;
static const double legend_gap = 14; // between chart and legend

// Lines of one kind from the left margin downwards.
struct column {
    struct layout_texts *texts;
    double width;
    double y; // top of the next line
};

static bool add_paragraph(struct teas_work *work, struct column *column, const char *text, double size, bool bold,
                          size_t most) {
    struct text_lines lines;
    const char *clean = text_printable(work->arena, text);
    if (!clean || !text_wrap(work->arena, work->metric, clean, size, bold, column->width, most, &lines))
        return false;
    for (size_t i = 0; i < lines.count; i++) {
        struct layout_text line = layout_text_make(work->metric, lines.items[i], size, bold);
        line.x = work->sizes->margin;
        line.y = column->y + size * LINE_ASCENT;
        column->y += size * LINE_STEP;
        if (!layout_texts_add(work->arena, column->texts, line))
            return false;
    }
    return true;
}

static bool lay_header(struct teas_work *work, double width) {
    struct teas_layout *layout = work->layout;
    layout->header.count = 0;
    struct column column = {&layout->header, width, work->sizes->margin};
    layout->title = text_printable(work->arena, work->input->title);
    if (!layout->title)
        return false;
    if (layout->title[0] && !add_paragraph(work, &column, layout->title, work->sizes->title, true, TITLE_LINES))
        return false;
    if (!add_paragraph(work, &column, work->words->heading, work->sizes->heading, false, HEADING_LINES))
        return false;
    work->header_bottom = column.y;
    return true;
}

static const char *given_or(const char *text, const char *otherwise) {
    return text && text[0] ? text : otherwise;
}

static bool any_computed(const struct teas_chart_input *input) {
    for (size_t i = 0; i < input->point_count; i++)
        if (input->points[i].computed)
            return true;
    return false;
}

static const char *identity(struct teas_work *work) {
    const struct teas_chart_input *input = work->input;
    const struct teas_chart_words *words = work->words;
    return arena_printf(work->arena, "%s: %s \u00B7 %s: %s \u00B7 %s: %s", words->object,
                        given_or(input->object, words->not_given), words->date, given_or(input->date, words->not_given),
                        words->data, given_or(input->data_version, words->not_given));
}

static const char *rule(struct teas_work *work) {
    const struct teas_chart_words *words = work->words;
    bool computed = any_computed(work->input);
    return arena_printf(work->arena, "%s: %s%s%s%s%s", words->rule, given_or(work->input->rule, words->not_given),
                        computed ? " \u00B7 " : "", computed ? words->computed_mark : "", computed ? " " : "",
                        computed ? words->computed : "");
}

static bool fill_caption(struct teas_work *work, struct column *column) {
    const struct teas_chart_input *input = work->input;
    const struct teas_chart_words *words = work->words;
    double size = work->sizes->caption;
    const char *lines[3 + TEAS_CAPTIONS_MAX];
    size_t count = 0;
    lines[count++] = identity(work);
    lines[count++] = rule(work);
    for (size_t i = 0; i < input->caption_count; i++)
        lines[count++] = input->captions[i];
    if (work->note && work->note[0])
        lines[count++] = arena_printf(work->arena, "%s %s", words->unlabelled, work->note);
    for (size_t i = 0; i < count; i++)
        if (!lines[i] || !add_paragraph(work, column, lines[i], size, false, CAPTION_LINES))
            return false;
    return add_paragraph(work, column, words->purpose, size, true, CAPTION_LINES);
}

// Set from the top and then moved down onto the margin.
bool teas_layout_caption(struct teas_work *work) {
    struct teas_layout *layout = work->layout;
    double margin = work->sizes->margin;
    layout->caption.count = 0;
    struct column column = {&layout->caption, layout->width - 2 * margin, 0};
    if (!fill_caption(work, &column))
        return false;
    double down = layout->height - margin - column.y;
    for (size_t i = 0; i < layout->caption.count; i++)
        layout->caption.items[i].y += down;
    work->caption_top = down - 4;
    layout->caption_rule = (struct segment){{margin, work->caption_top}, {layout->width - margin, work->caption_top}};
    layout->date = text_printable(work->arena, work->input->date);
    return layout->date != NULL;
}

// --- the triangle and the legend share what is left ---

// Whole names come before a large triangle, and a readable triangle before whole names.
static const struct arrangement full_arrangements[] = {
    {.columns = 2, .lines = 5, .size = 8.5, .share = 1.0}, {.columns = 3, .lines = 5, .size = 8.5, .share = 1.0},
    {.columns = 3, .lines = 5, .size = 8.0, .share = 0.9}, {.columns = 3, .lines = 4, .size = 7.5, .share = 0.8},
    {.columns = 3, .lines = 4, .size = 7.0, .share = 0.7}, {.columns = 3, .lines = 3, .size = 7.0, .share = 0.6},
    {.columns = 3, .lines = 1, .size = 7.0, .share = 0.8}, {.columns = 3, .lines = 1, .size = 7.0, .share = 0.65},
    {.columns = 4, .lines = 1, .size = 7.0, .share = 0.5},
};
static const struct arrangement half_arrangements[] = {
    {.columns = 1, .lines = 5, .size = 8.0, .width = 152}, {.columns = 1, .lines = 5, .size = 7.5, .width = 152},
    {.columns = 1, .lines = 5, .size = 7.5, .width = 188}, {.columns = 1, .lines = 5, .size = 7.0, .width = 188},
    {.columns = 2, .lines = 5, .size = 7.0, .width = 120}, {.columns = 2, .lines = 2, .size = 7.0, .width = 128},
    {.columns = 2, .lines = 1, .size = 7.0, .width = 132},
};

// The triangle's corners from its side and the upper left corner of its room; labels may go anywhere from margin to
// `right`.
static void set_triangle(struct teas_work *work, double side, double left, double top, double right) {
    struct teas_layout *layout = work->layout;
    double base = top + ROOM_TOP + side * TRIANGLE_RISE;
    layout->dispersion = (struct spot){left + ROOM_LEFT, base};
    layout->polar = (struct spot){left + ROOM_LEFT + side, base};
    layout->hydrogen_bonding = (struct spot){left + ROOM_LEFT + side / 2, top + ROOM_TOP};
    work->side = side;
    double margin = work->sizes->margin;
    work->plot = (struct box){margin, top, right - margin, base + ROOM_BOTTOM - top};
}

static bool fill_and_set(struct teas_work *work, const struct arrangement *how, struct legend *legend, double width,
                         double most, bool *ret_fits) {
    if (!legend_fill(work, how, legend))
        return false;
    double height = legend_flow(legend, how->columns, most);
    *ret_fits = isfinite(height);
    if (!*ret_fits)
        return true;
    work->layout->entries = legend->entries;
    work->layout->entry_count = legend->count;
    work->layout->legend = (struct box){legend->left, legend->top, width, height};
    return legend_set(work, legend);
}

// Half sheet: the legend stands to the right of header and triangle. False when memory is exhausted.
static bool try_beside(struct teas_work *work, const struct arrangement *how, bool *ret_fits) {
    double margin = work->sizes->margin;
    double bottom = work->caption_top - caption_gap;
    double columns = (double)how->columns;
    double width = columns * how->width + (columns - 1) * LEGEND_COLUMN_GAP;
    struct legend legend = {.column_width = how->width, .left = work->layout->width - margin - width, .top = margin};
    double right = legend.left - legend_gap;
    if (!lay_header(work, right - margin))
        return false;
    double top = work->header_bottom + header_gap;
    double room = right - margin - ROOM_LEFT - ROOM_RIGHT;
    double side = fmin(room, (bottom - top - ROOM_TOP - ROOM_BOTTOM) / TRIANGLE_RISE);
    *ret_fits = false;
    if (side < work->sizes->smallest_side)
        return true;
    set_triangle(work, side, margin + (room - side) / 2, top, right);
    return fill_and_set(work, how, &legend, width, bottom - margin, ret_fits);
}

// Full sheet: the legend stands below the triangle. False when memory is exhausted.
static bool try_below(struct teas_work *work, const struct arrangement *how, bool *ret_fits) {
    double margin = work->sizes->margin;
    double width = work->layout->width - 2 * margin;
    if (!lay_header(work, width))
        return false;
    double top = work->header_bottom + header_gap;
    double bottom = work->caption_top - caption_gap;
    double columns = (double)how->columns;
    double largest = width - ROOM_LEFT - ROOM_RIGHT;
    double side = largest * how->share;
    struct legend legend = {.left = margin};
    legend.top = top + ROOM_TOP + side * TRIANGLE_RISE + ROOM_BOTTOM + legend_gap;
    legend.column_width = (width - (columns - 1) * LEGEND_COLUMN_GAP) / columns;
    *ret_fits = false;
    if (side < work->sizes->smallest_side || legend.top >= bottom)
        return true;
    set_triangle(work, side, margin + (largest - side) / 2, top, margin + width);
    return fill_and_set(work, how, &legend, width, bottom - legend.top, ret_fits);
}

static enum status no_room(const struct teas_work *work, struct error *err) {
    size_t entries = work->input->area_count + work->input->point_count;
    if (work->input->sheet == SHEET_HALF)
        return error_set(err, STATUS_RANGE,
                         "%zu legend entries and the caption do not fit on half a sheet; take the full sheet, or fewer "
                         "bottles",
                         entries);
    return error_set(err, STATUS_RANGE, "%zu legend entries and the caption do not fit on one sheet; make two charts",
                     entries);
}

enum status teas_layout_frame(struct teas_work *work, struct error *err) {
    if (!teas_layout_caption(work))
        return layout_no_memory(err);
    bool half = work->input->sheet == SHEET_HALF;
    const struct arrangement *ways = half ? half_arrangements : full_arrangements;
    size_t count = half ? sizeof half_arrangements / sizeof half_arrangements[0]
                        : sizeof full_arrangements / sizeof full_arrangements[0];
    for (size_t i = 0; i < count; i++) {
        bool fits = false;
        if (!(half ? try_beside(work, &ways[i], &fits) : try_below(work, &ways[i], &fits)))
            return layout_no_memory(err);
        if (fits)
            return STATUS_OK;
    }
    return no_room(work, err);
}
