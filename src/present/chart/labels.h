// SPDX-License-Identifier: GPL-3.0-or-later
// Places labels beside points so that nothing lies on anything; the same input gives the same places.
#ifndef MILDSOLVE_PRESENT_CHART_LABELS_H
#define MILDSOLVE_PRESENT_CHART_LABELS_H

#include "base/arena.h"
#include "present/chart/hatch.h"

#include <stdbool.h>
#include <stddef.h>

struct box {
    double x, y, width, height; // pt, (x, y) the upper left corner
};

// Something a label had better not cover; `weight` is the cost of doing so, in pt of distance.
struct soft_line {
    struct segment segment;
    double weight;
};

// The reach of a mark.
struct disc {
    struct spot centre;
    double radius; // pt
};

struct label_field {
    struct box bounds;
    const struct box *taken; // never covered, nor crossed by a leader
    size_t taken_count;
    const struct disc *marks; // likewise
    size_t mark_count;
    const struct soft_line *lines;
    size_t line_count;
    const struct spot *ground; // labels had better lie inside this polygon; ground_count 0 = anywhere
    size_t ground_count;
    double outside_cost; // pt of distance
};

enum { LABEL_VARIANTS = 2 };

// One label: a point with a mark round it, and its text in the wanted and in a shorter form (sizes with margins).
struct label_wish {
    struct spot point;
    double radius; // of the mark
    size_t variants;
    struct {
        double width, height;
    } sizes[LABEL_VARIANTS];
    int priority; // higher ones choose first
};

struct label_place {
    bool placed;
    size_t variant;
    struct box box;
    bool has_leader;
    struct segment leader; // from the edge of the mark to the box
};

// Every label gets the cheapest free place: touching its mark, else at the end of a leader line that crosses no mark,
// label or other leader. Several orders are tried and the best kept; a label without any place is left unplaced.
// False when memory is exhausted. ret: `count` places.
bool labels_place(const struct label_field *field, const struct label_wish *wishes, size_t count,
                  struct label_place *ret);

bool boxes_overlap(struct box a, struct box b);
bool box_inside(struct box inner, struct box outer);
bool box_meets_disc(struct box box, struct disc disc);
bool box_meets_segment(struct box box, struct segment segment);
// Clear of the bounds' outside, all taken boxes and all marks.
bool label_field_free(const struct label_field *field, struct box box);
// Sum of the weights of the lines that cross the box.
double lines_under(const struct label_field *field, struct box box);

#endif
