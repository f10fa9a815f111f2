// SPDX-License-Identifier: GPL-3.0-or-later
// Everything round the triangle: header, caption, legend.
#include "base/language.h"
#include "present/chart/teas_layout_parts.h"

#include <math.h>

static const double header_gap = 8;
static const double caption_gap = 8;
static const double legend_gap = 14; // between chart and legend

static bool any_computed(const struct teas_chart_input *input) {
    for (size_t i = 0; i < input->point_count; i++)
        if (input->points[i].computed)
            return true;
    return false;
}

static bool any_test(const struct teas_chart_input *input) {
    for (size_t i = 0; i < input->point_count; i++)
        if (input->points[i].kind != TEAS_POINT_BOTTLE && input->points[i].kind != TEAS_POINT_BLEND)
            return true;
    return false;
}

static const char *rule(struct teas_work *work) {
    const struct teas_chart_words *words = work->words;
    bool computed = any_computed(work->input);
    return arena_printf(work->arena, "%s: %s%s%s%s%s", say(words->rule),
                        given_or(work->input->rule, say(words->page.not_given)), computed ? " \u00B7 " : "",
                        computed ? words->computed_mark : "", computed ? " " : "",
                        computed ? say(words->computed) : "");
}

bool teas_layout_caption(struct teas_work *work) {
    const struct teas_chart_words *words = work->words;
    const char *note = "";
    if (work->note && work->note[0])
        note = arena_printf(work->arena, "%s %s", say(words->unlabelled), work->note);
    return page_caption(&work->page, rule(work), note,
                        say(any_test(work->input) ? words->purpose : words->purpose_untested));
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
    double margin = work->page.sizes->margin;
    work->plot = (struct box){margin, top, right - margin, base + ROOM_BOTTOM - top};
}

static bool fill_and_set(struct teas_work *work, const struct arrangement *how, struct legend *legend, double width,
                         double most, bool *ret_fits) {
    size_t count = 0;
    const struct legend_item *items = teas_legend_items(work, &count);
    if (!items || !legend_fill(work->arena, work->metric, items, count, how, legend))
        return false;
    double height = legend_flow(legend, how->columns, most);
    *ret_fits = isfinite(height);
    if (!*ret_fits)
        return true;
    work->layout->entries = legend->entries;
    work->layout->entry_count = legend->count;
    work->layout->legend = (struct box){legend->left, legend->top, width, height};
    return legend_set(work->arena, legend);
}

// Half sheet: the legend stands to the right of header and triangle. False when memory is exhausted.
static bool try_beside(struct teas_work *work, const struct arrangement *how, bool *ret_fits) {
    double margin = work->page.sizes->margin;
    double bottom = work->page.caption_top - caption_gap;
    double columns = (double)how->columns;
    bool shared = work->input->room_width > 0; // with another panel
    double width = shared ? work->input->room_width : columns * how->width + (columns - 1) * LEGEND_COLUMN_GAP;
    double column_width = (width - (columns - 1) * LEGEND_COLUMN_GAP) / columns;
    struct legend legend = {
        .column_width = column_width, .left = work->layout->page.width - margin - width, .top = margin};
    double right = legend.left - legend_gap;
    if (shared) {
        work->layout->room = (struct box){legend.left, margin, width, work->input->room_height};
        legend.top += work->input->room_height + legend_gap;
    }
    if (!page_header(&work->page, say(work->words->heading), right - margin))
        return false;
    double top = work->page.header_bottom + header_gap;
    double room = right - margin - ROOM_LEFT - ROOM_RIGHT;
    double side = fmin(room, (bottom - top - ROOM_TOP - ROOM_BOTTOM) / TRIANGLE_RISE);
    *ret_fits = false;
    if (side < work->sizes->smallest_side)
        return true;
    set_triangle(work, side, margin + (room - side) / 2, top, right);
    return fill_and_set(work, how, &legend, width, bottom - legend.top, ret_fits);
}

// Full sheet: the legend stands below the triangle. False when memory is exhausted.
static bool try_below(struct teas_work *work, const struct arrangement *how, bool *ret_fits) {
    double margin = work->page.sizes->margin;
    double width = work->layout->page.width - 2 * margin;
    if (!page_header(&work->page, say(work->words->heading), width))
        return false;
    double top = work->page.header_bottom + header_gap;
    double bottom = work->page.caption_top - caption_gap;
    double columns = (double)how->columns;
    double largest = width - ROOM_LEFT - ROOM_RIGHT;
    double side = largest * how->share;
    struct legend legend = {.left = margin};
    legend.top = top + ROOM_TOP + side * TRIANGLE_RISE + ROOM_BOTTOM + legend_gap;
    if (work->input->room_height > 0) {
        work->layout->room = (struct box){margin, legend.top, width, work->input->room_height};
        legend.top += work->input->room_height + legend_gap;
    }
    legend.column_width = (width - (columns - 1) * LEGEND_COLUMN_GAP) / columns;
    *ret_fits = false;
    if (side < work->sizes->smallest_side || legend.top >= bottom)
        return true;
    set_triangle(work, side, margin + (largest - side) / 2, top, margin + width);
    return fill_and_set(work, how, &legend, width, bottom - legend.top, ret_fits);
}

static enum status no_room(const struct teas_work *work, struct error *err) {
    size_t entries = work->input->area_count + work->input->point_count;
    if (work->input->page.sheet == SHEET_HALF)
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
    bool half = work->input->page.sheet == SHEET_HALF;
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
