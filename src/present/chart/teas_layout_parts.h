// SPDX-License-Identifier: GPL-3.0-or-later
// The steps of teas_layout_make, shared by its files only.
#ifndef MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_PARTS_H
#define MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_PARTS_H

#include "present/chart/teas_layout.h"

// Sizes of text, pt; one set per sheet.
struct teas_sizes {
    double axis, scale, label;
    double smallest_side; // of the triangle
};

struct teas_work {
    struct page_work page;
    const struct teas_chart_input *input;
    const struct teas_chart_words *words;
    const struct text_metric *metric;
    const struct teas_sizes *sizes;
    struct arena *arena; // the layout's
    struct teas_layout *layout;
    size_t *order;    // order[number - 1] = index of the point with that number
    const char *note; // about labels without room, from an earlier try; or NULL
    double side;      // of the triangle
    struct box plot;  // where labels may go
};

// Room round the triangle for scales and axis names, pt.
#define ROOM_LEFT 28.0
#define ROOM_RIGHT 24.0
#define ROOM_TOP 16.0
#define ROOM_BOTTOM 36.0
#define TRIANGLE_RISE 0.8660254037844386 // sqrt(3)/2: height of a triangle of side 1

// What the legend holds, in the order of the numbers. NULL when memory is exhausted.
struct legend_item *teas_legend_items(struct teas_work *work, size_t *ret_count);

// --- the steps in their order ---

// Header and caption from the page's edges inwards; then the largest triangle whose legend still fits.
enum status teas_layout_frame(struct teas_work *work, struct error *err);

// The caption alone, from work->note and the input. False when memory is exhausted.
bool teas_layout_caption(struct teas_work *work);

// Corners, grid, ticks, numbers and names of the axes.
enum status teas_layout_scale(struct teas_work *work, struct error *err);

// Areas, marks and the lines between bottles.
enum status teas_layout_marks(struct teas_work *work, struct error *err);

// Paths and the marks on them; adds to the marks.
enum status teas_layout_paths(struct teas_work *work, struct error *err);

// Numbers, names and letters, clear of everything placed so far and of each other.
enum status teas_layout_labels(struct teas_work *work, struct error *err);

// The numbers or letters that found no room, as "3, 7-9, B"; "" when all did.
const char *teas_layout_unlabelled(struct teas_work *work);

// Where fractions lie on the page.
struct spot teas_layout_spot(const struct teas_layout *layout, struct teas place);

#endif
