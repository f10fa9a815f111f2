// SPDX-License-Identifier: GPL-3.0-or-later
// Parallel lines inside a polygon, for areas that must stay apart without colour.
#ifndef MILDSOLVE_PRESENT_CHART_HATCH_H
#define MILDSOLVE_PRESENT_CHART_HATCH_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

struct spot {
    double x, y; // pt
};

struct segment {
    struct spot from, to;
};

struct segment_list {
    struct segment *items; // in the arena
    size_t count;
    size_t capacity;
};

// False when memory is exhausted.
bool segment_list_add(struct arena *arena, struct segment_list *list, struct segment segment);

// Adds the lines of direction (unit_x, unit_y), `spacing` pt apart, that lie inside the polygon (even-odd rule) and
// no deeper than `depth` pt from its outline: a band along the edge leaves the middle of overlapping areas readable.
// Lines lie on one lattice through the page's origin, so that equal hatches continue each other. False when memory
// is exhausted.
bool hatch_polygon(struct arena *arena, const struct spot *corners, size_t count, double unit_x, double unit_y,
                   double spacing, double depth, struct segment_list *list);

// Inside by the even-odd rule.
bool polygon_contains(const struct spot *corners, size_t count, struct spot point);

// Distance to the nearest point of the outline, pt.
double polygon_distance(const struct spot *corners, size_t count, struct spot point);

double segment_distance(struct segment segment, struct spot point);

bool segments_cross(struct segment a, struct segment b);

#endif
