// SPDX-License-Identifier: GPL-3.0-or-later
// The steps of teas_layout_make, shared by its files only.
#ifndef MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_PARTS_H
#define MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_PARTS_H

#include "present/chart/teas_layout.h"

// Sizes of text and margins, pt; one set per sheet.
struct chart_sizes {
    double margin, title, heading, axis, scale, label, caption;
    double smallest_side; // of the triangle
};

struct teas_work {
    const struct teas_chart_input *input;
    const struct teas_chart_words *words;
    const struct text_metric *metric;
    const struct chart_sizes *sizes;
    struct arena *arena; // the layout's
    struct teas_layout *layout;
    size_t *order;    // order[number - 1] = index of the point with that number
    const char *note; // about labels without room, from an earlier try; or NULL
    double header_bottom;
    double caption_top;
    double side;     // of the triangle
    struct box plot; // where labels may go
};

// Room round the triangle for scales and axis names, pt.
#define ROOM_LEFT 28.0
#define ROOM_RIGHT 24.0
#define ROOM_TOP 16.0
#define ROOM_BOTTOM 36.0
#define TRIANGLE_RISE 0.8660254037844386 // sqrt(3)/2: height of a triangle of side 1

// --- the legend (teas_legend.c) ---

// One way to set the legend; later ones in a list are more crowded.
struct arrangement {
    size_t columns;
    size_t lines; // of one entry at most
    double size;  // of the text, pt
    double share; // below the triangle: its share of the largest one
    double width; // beside the triangle: of one column, pt
};

struct legend {
    struct layout_entry *entries;
    size_t count;
    double column_width;
    double line_step;
    double left, top; // of the first column
};

#define LEGEND_COLUMN_GAP 12.0

// Symbols, numbers and wrapped names. False when memory is exhausted.
bool legend_fill(struct teas_work *work, const struct arrangement *how, struct legend *legend);

// Flows the entries into columns no taller than `most` and as level as possible. INFINITY when they do not fit, else
// the height of the tallest column.
double legend_flow(struct legend *legend, size_t columns, double most);

// From the corner of each entry to its symbol, number and lines. False when memory is exhausted.
bool legend_set(struct teas_work *work, struct legend *legend);

// --- the steps in their order ---

// Header and caption from the page's edges inwards; then the largest triangle whose legend still fits.
enum status teas_layout_frame(struct teas_work *work, struct error *err);

// The caption alone, from work->note and the input. False when memory is exhausted.
bool teas_layout_caption(struct teas_work *work);

// Corners, grid, ticks, numbers and names of the axes.
enum status teas_layout_scale(struct teas_work *work, struct error *err);

// Areas, marks and the lines between bottles.
enum status teas_layout_marks(struct teas_work *work, struct error *err);

// Numbers, names and letters, clear of everything placed so far and of each other.
enum status teas_layout_labels(struct teas_work *work, struct error *err);

// Hatches a polygon in the style of an area. False when memory is exhausted.
bool layout_hatch(struct teas_work *work, size_t style, const struct spot *corners, size_t count,
                  struct segment_list *ret);

// The numbers or letters that found no room, as "3, 7-9, B"; "" when all did.
const char *teas_layout_unlabelled(struct teas_work *work);

// Where fractions lie on the page.
struct spot teas_layout_spot(const struct teas_layout *layout, struct teas place);

struct layout_text layout_text_make(const struct text_metric *metric, const char *text, double size, bool bold);
bool layout_texts_add(struct arena *arena, struct layout_texts *texts, struct layout_text text);
enum status layout_no_memory(struct error *err);

#endif
