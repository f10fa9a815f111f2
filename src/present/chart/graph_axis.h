// SPDX-License-Identifier: GPL-3.0-or-later
// Axes of graphs: where a value stands, and ticks at round values that people can read.
#ifndef MILDSOLVE_PRESENT_CHART_GRAPH_AXIS_H
#define MILDSOLVE_PRESENT_CHART_GRAPH_AXIS_H

#include "present/chart/layout.h"

enum graph_scale {
    GRAPH_LINEAR, // ticks at 1, 2, 5 times a power of ten
    GRAPH_LOG,    // decades, and 2 and 5 between them where there is room
    GRAPH_HOURS,  // hours and their simple parts: 5, 15, 30 min, 1, 2, 3, 4, 6, 12 h
    GRAPH_CLOCK   // the same as time of day, "9:30"; values are hours since midnight
};

struct graph_axis {
    const char *name; // in words, with the unit
    enum graph_scale scale;
    double low, high; // NAN: from the data. low < high; of a logarithmic axis > 0
    bool from_zero;   // a range from the data begins at 0
};

// Larger values are not drawn, smaller ones are nothing: no chart needs them, and sums of them stay finite.
#define GRAPH_VALUE_MAX 1e30
#define GRAPH_VALUE_MIN 1e-30

struct graph_tick {
    double value;
    const char *label; // NULL = a small tick without number
};

struct graph_range {
    enum graph_scale scale;
    double low, high;
    struct graph_tick *ticks;
    size_t tick_count;
    int power; // labels are the values divided by 10^power; 0 nearly always
};

// Can the value be drawn on such an axis at all: a number, not huge, and above 0 on a logarithmic one?
bool graph_value_drawable(enum graph_scale scale, double value);

struct graph_tick_style {
    const struct text_metric *metric;
    double size;       // of the numbers, pt
    double length;     // of the axis, pt
    bool level;        // numbers stand side by side, else above each other
    char decimal_mark; // '.' or ','
};

// Range and ticks. `data_low`, `data_high`: of the drawable values, NAN when there are none. A range from the data
// widens to the next tick on a linear and a logarithmic axis. False when memory is exhausted.
bool graph_range_make(struct arena *arena, const struct graph_axis *axis, double data_low, double data_high,
                      const struct graph_tick_style *style, struct graph_range *ret);

// 0 at the low end, 1 at the high end, beyond them outside.
double graph_position(const struct graph_range *range, double value);

// "10⁶", "10⁻³"
const char *graph_power_text(struct arena *arena, int power);

#endif
