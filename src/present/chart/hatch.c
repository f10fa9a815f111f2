// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/hatch.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

// Along one hatch line.
struct interval {
    double from, to;
};

struct hatching {
    const struct spot *corners;
    size_t count;
    double unit_x, unit_y;
    double offset; // of the line now worked on
    double depth;
    double *crossings;     // at most `count`
    struct interval *near; // at most `count`: where the line is within `depth` of each edge
};

static double along(const struct hatching *hatch, struct spot p) {
    return p.x * hatch->unit_x + p.y * hatch->unit_y;
}

static double across(const struct hatching *hatch, struct spot p) {
    return p.y * hatch->unit_x - p.x * hatch->unit_y;
}

static struct spot spot_on_line(const struct hatching *hatch, double t) {
    return (struct spot){t * hatch->unit_x - hatch->offset * hatch->unit_y,
                         t * hatch->unit_y + hatch->offset * hatch->unit_x};
}

static int by_number(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static int by_start(const void *a, const void *b) {
    return by_number(&((const struct interval *)a)->from, &((const struct interval *)b)->from);
}

// Where the line crosses the outline, sorted. An edge owns its lower end only, so corners count once.
static size_t find_crossings(struct hatching *hatch) {
    size_t found = 0;
    for (size_t i = 0; i < hatch->count; i++) {
        struct spot a = hatch->corners[i];
        struct spot b = hatch->corners[(i + 1) % hatch->count];
        double below_a = across(hatch, a) - hatch->offset;
        double below_b = across(hatch, b) - hatch->offset;
        if ((below_a < 0) == (below_b < 0))
            continue;
        double share = below_a / (below_a - below_b);
        hatch->crossings[found++] = along(hatch, a) + share * (along(hatch, b) - along(hatch, a));
    }
    qsort(hatch->crossings, found, sizeof *hatch->crossings, by_number);
    return found;
}

static void widen(struct interval *interval, double from, double to) {
    interval->from = fmin(interval->from, from);
    interval->to = fmax(interval->to, to);
}

// The part of the line within `depth` of one corner.
static void widen_by_corner(const struct hatching *hatch, struct spot corner, struct interval *interval) {
    double off = across(hatch, corner) - hatch->offset;
    double half = hatch->depth * hatch->depth - off * off;
    if (half >= 0)
        widen(interval, along(hatch, corner) - sqrt(half), along(hatch, corner) + sqrt(half));
}

// Narrows [from, to] to where low <= start + slope * t <= high. False when nothing is left.
static bool narrow(double start, double slope, double low, double high, struct interval *interval) {
    if (fabs(slope) < 1e-12)
        return start >= low && start <= high;
    double a = (low - start) / slope;
    double b = (high - start) / slope;
    interval->from = fmax(interval->from, fmin(a, b));
    interval->to = fmin(interval->to, fmax(a, b));
    return interval->from <= interval->to;
}

// The part of the line within `depth` of an edge: a strip beside it and a disc round each end; the union is convex,
// so one interval holds it.
static struct interval near_edge(const struct hatching *hatch, struct spot a, struct spot b) {
    struct interval interval = {INFINITY, -INFINITY};
    widen_by_corner(hatch, a, &interval);
    widen_by_corner(hatch, b, &interval);
    double dx = b.x - a.x;
    double dy = b.y - a.y;
    double length = sqrt(dx * dx + dy * dy);
    if (length <= 0)
        return interval;
    dx /= length;
    dy /= length;
    struct spot start = spot_on_line(hatch, 0);
    struct interval strip = {-INFINITY, INFINITY};
    double along_start = (start.x - a.x) * dx + (start.y - a.y) * dy;
    double along_slope = hatch->unit_x * dx + hatch->unit_y * dy;
    double across_start = (start.y - a.y) * dx - (start.x - a.x) * dy;
    double across_slope = hatch->unit_y * dx - hatch->unit_x * dy;
    if (narrow(along_start, along_slope, 0, length, &strip) &&
        narrow(across_start, across_slope, -hatch->depth, hatch->depth, &strip))
        widen(&interval, strip.from, strip.to);
    return interval;
}

// Intervals near any edge, sorted and joined where they overlap.
static size_t find_near(struct hatching *hatch) {
    size_t found = 0;
    for (size_t i = 0; i < hatch->count; i++) {
        struct interval interval = near_edge(hatch, hatch->corners[i], hatch->corners[(i + 1) % hatch->count]);
        if (interval.from < interval.to)
            hatch->near[found++] = interval;
    }
    qsort(hatch->near, found, sizeof *hatch->near, by_start);
    size_t joined = 0;
    for (size_t i = 0; i < found; i++) {
        if (joined > 0 && hatch->near[i].from <= hatch->near[joined - 1].to)
            hatch->near[joined - 1].to = fmax(hatch->near[joined - 1].to, hatch->near[i].to);
        else
            hatch->near[joined++] = hatch->near[i];
    }
    return joined;
}

bool segment_list_add(struct arena *arena, struct segment_list *list, struct segment segment) {
    if (list->count == list->capacity) {
        size_t capacity = list->capacity ? list->capacity * 2 : 64;
        struct segment *items = arena_new(arena, capacity, sizeof *items);
        if (!items)
            return false;
        if (list->count)
            memcpy(items, list->items, list->count * sizeof *items);
        list->items = items;
        list->capacity = capacity;
    }
    list->items[list->count++] = segment;
    return true;
}

// Pieces shorter than a dot of toner are left out.
#define SHORTEST_PT 0.3

static bool add_pieces(struct arena *arena, const struct hatching *hatch, struct interval inside, size_t near_count,
                       struct segment_list *list) {
    for (size_t i = 0; i < near_count; i++) {
        double from = fmax(inside.from, hatch->near[i].from);
        double to = fmin(inside.to, hatch->near[i].to);
        if (to - from < SHORTEST_PT)
            continue;
        struct segment piece = {spot_on_line(hatch, from), spot_on_line(hatch, to)};
        if (!segment_list_add(arena, list, piece))
            return false;
    }
    return true;
}

bool hatch_polygon(struct arena *arena, const struct spot *corners, size_t count, double unit_x, double unit_y,
                   double spacing, double depth, struct segment_list *list) {
    assert(spacing > 0 && depth > 0 && count >= 3);
    struct hatching hatch = {.corners = corners, .count = count, .unit_x = unit_x, .unit_y = unit_y, .depth = depth};
    hatch.crossings = arena_new(arena, count, sizeof *hatch.crossings);
    hatch.near = arena_new(arena, count, sizeof *hatch.near);
    if (!hatch.crossings || !hatch.near)
        return false;
    double low = INFINITY;
    double high = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        low = fmin(low, across(&hatch, corners[i]));
        high = fmax(high, across(&hatch, corners[i]));
    }
    for (double step = ceil(low / spacing); step * spacing <= high; step += 1) {
        hatch.offset = step * spacing;
        size_t crossings = find_crossings(&hatch);
        size_t near_count = find_near(&hatch);
        for (size_t i = 0; i + 1 < crossings; i += 2) {
            struct interval inside = {hatch.crossings[i], hatch.crossings[i + 1]};
            if (!add_pieces(arena, &hatch, inside, near_count, list))
                return false;
        }
    }
    return true;
}

bool polygon_contains(const struct spot *corners, size_t count, struct spot point) {
    bool inside = false;
    for (size_t i = 0, j = count - 1; i < count; j = i++) {
        struct spot a = corners[i];
        struct spot b = corners[j];
        if ((a.y > point.y) != (b.y > point.y) && point.x < a.x + (b.x - a.x) * (point.y - a.y) / (b.y - a.y))
            inside = !inside;
    }
    return inside;
}

double segment_distance(struct segment segment, struct spot point) {
    double dx = segment.to.x - segment.from.x;
    double dy = segment.to.y - segment.from.y;
    double square = dx * dx + dy * dy;
    double share = square > 0 ? ((point.x - segment.from.x) * dx + (point.y - segment.from.y) * dy) / square : 0;
    share = fmin(1, fmax(0, share));
    double ex = segment.from.x + share * dx - point.x;
    double ey = segment.from.y + share * dy - point.y;
    return sqrt(ex * ex + ey * ey);
}

double polygon_distance(const struct spot *corners, size_t count, struct spot point) {
    double nearest = INFINITY;
    for (size_t i = 0; i < count; i++) {
        struct segment edge = {corners[i], corners[(i + 1) % count]};
        nearest = fmin(nearest, segment_distance(edge, point));
    }
    return nearest;
}

static double turn(struct spot a, struct spot b, struct spot c) {
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool segments_cross(struct segment a, struct segment b) {
    double ab_from = turn(a.from, a.to, b.from);
    double ab_to = turn(a.from, a.to, b.to);
    double ba_from = turn(b.from, b.to, a.from);
    double ba_to = turn(b.from, b.to, a.to);
    return ((ab_from > 0) != (ab_to > 0)) && ((ba_from > 0) != (ba_to > 0));
}
