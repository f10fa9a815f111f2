// SPDX-License-Identifier: GPL-3.0-or-later
// One graph in its box, as numbers: two axes, and on them lines, stacked bands, points with error bars, limits, shaded
// windows. Nothing here draws. Points (1/72 inch), y downwards.
//
// Names stand at the ends of their lines, in a column to the right that leaves no two on each other; a point carries
// its number. What is no number is left out and counted (graph_panel_skipped), so that the caption can say so.
#ifndef MILDSOLVE_PRESENT_CHART_GRAPH_PANEL_H
#define MILDSOLVE_PRESENT_CHART_GRAPH_PANEL_H

#include "present/chart/graph_axis.h"
#include "present/chart/mark_labels.h"
#include "present/chart/picture.h"

// --- what goes in ---

struct graph_line {
    const char *name; // at its end; NULL or "" = none
    const double *x, *y;
    size_t count;
    size_t style; // line_style(style)
    bool steps;   // level from each x to the next
};

// Bands on top of each other: of each layer the values at the same x.
struct graph_stack {
    const double *x;
    size_t count;
    const double *const *layers; // layer_count arrays of `count` values >= 0; the first one lies lowest
    const char *const *names;
    size_t layer_count;
    size_t first_style; // area_style of the first layer; with layer_count at most AREA_STYLES
};

struct graph_point {
    double x, y;
    double x_low, x_high, y_low, y_high; // ends of the error bars; NAN = none on that side
    struct mark_style mark;
    size_t number; // from 1
};

// A level across the panel; short strokes point to the side that is not wanted. One far above all data stands over the
// panel with an arrow instead of pressing the data down.
struct graph_limit {
    double value;
    const char *name;
    bool below; // the values below it are not wanted; else those above
};

// Named stretches of the x axis, divided by dashed lines; names stand above the panel.
struct graph_zone {
    double from, to;
    const char *name;
};

struct graph_window {
    double from, to; // of x
};

struct graph_panel {
    const char *heading; // over the panel, bold; NULL or "" = none
    const char *note;    // under the heading; likewise
    struct graph_axis x, y;
    const struct graph_line *lines;
    size_t line_count;
    const struct graph_stack *stack; // NULL = none
    const struct graph_point *points;
    size_t point_count;
    const struct graph_limit *limits;
    size_t limit_count;
    const struct graph_window *windows; // hatched
    size_t window_count;
    const struct graph_window *spans; // drawn as a thick stretch of the x axis
    size_t span_count;
    const struct graph_zone *zones;
    size_t zone_count;
};

enum { GRAPH_LINES_MAX = LINE_STYLES, GRAPH_POINTS_MAX = 200, GRAPH_LIMITS_MAX = 12, GRAPH_ZONES_MAX = 12 };

// --- what comes out ---

// One unbroken piece of a line.
struct panel_run {
    size_t style;
    struct spot *spots;
    size_t count;
};

struct panel_band {
    size_t layer;
    size_t style; // area_style(style)
    struct spot *corners;
    size_t corner_count;
    struct segment_list hatch;
};

struct panel_limit {
    struct segment line;
    bool below;
};

struct panel_window {
    struct box box;
    struct segment_list hatch;
};

// In the column to the right.
struct panel_label {
    const char *name; // whole
    struct layout_texts lines;
    double y;        // of the level it belongs to
    bool has_sample; // it is the name of a line
    size_t line, style;
    struct segment sample;
    bool beyond; // the level lies above or below the panel
    bool has_leader;
    struct segment leader;
    bool placed;
};

// What stands round the plot, pt. Panels of one page take the largest of all, so that their plots line up.
struct panel_insets {
    double left, right, top, bottom;
};

struct panel_layout {
    struct box plot;
    struct panel_insets insets;
    struct layout_texts heading;
    struct layout_texts x_name, y_name;
    struct segment_list grid, ticks;
    struct layout_texts scale;
    struct panel_run *runs;
    size_t run_count;
    struct layout_mark *line_marks; // `kind` is the style of the line
    size_t line_mark_count;
    struct panel_band *bands;
    size_t band_count;
    struct panel_run *edges; // upper edges of the bands
    size_t edge_count;
    struct panel_limit *limits;
    size_t limit_count;
    struct panel_window *windows;
    size_t window_count;
    struct segment_list spans, zones;
    struct layout_texts zone_names; // above the panel, or upright inside where a zone is narrow
    const char **zones_unnamed;     // too narrow for either
    size_t zone_unnamed_count;
    struct segment_list bars; // error bars with their ends
    struct layout_mark *marks;
    size_t mark_count;
    struct layout_label *labels;
    size_t label_count;
    size_t *undrawn; // numbers of points without a figure or beyond the axes
    size_t undrawn_count;
    struct layout_label *band_labels; // `number` is the name; a leader starts at a dot in the band
    size_t band_label_count;
    struct panel_label *column;
    size_t column_count;
};

// Sizes of text, pt.
struct panel_sizes {
    double heading, axis, scale, label;
};

struct panel_work {
    const struct graph_panel *panel;
    const struct text_metric *metric;
    struct panel_sizes sizes;
    char decimal_mark;
    struct arena *arena;
    struct box room;           // all of the panel, with its names and numbers
    struct panel_insets least; // round the plot
    bool frame_only;           // insets and axes alone, nothing on them
};

// The smallest room a panel can be read in.
#define PANEL_WIDTH_MIN 150.0
#define PANEL_HEIGHT_MIN 100.0

// STATUS_RANGE with a sentence: too many of anything, an axis turned round.
enum status graph_panel_check(const struct graph_panel *panel, struct error *err);

// Values that cannot be drawn: no number, huge, or not above 0 on a logarithmic axis.
size_t graph_panel_skipped(const struct graph_panel *panel);

// The panel must have passed the check. STATUS_MEMORY.
enum status graph_panel_lay(const struct panel_work *work, struct panel_layout *ret, struct error *err);

// What found no room, appended to `out` as "3, 7–9, toluene": numbers of points, names of
// lines, bands, limits and zones.
// Returns how many.
size_t graph_panel_unlabelled(const struct panel_work *work, const struct panel_layout *layout, struct text *out);

void graph_panel_print(const struct panel_layout *layout, struct text *out);
void graph_panel_draw(struct picture *picture, const struct panel_layout *layout);

#endif
