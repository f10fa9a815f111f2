// SPDX-License-Identifier: GPL-3.0-or-later
// The two largest shares of a blend, filed by place, so that the rest of the blend finds its partners there.
#ifndef MILDSOLVE_SELECTION_TAILS_H
#define MILDSOLVE_SELECTION_TAILS_H

#include "base/error.h"
#include "selection/region.h"

#include <stdint.h>

struct tail {
    double place[3]; // its part of the blend's place
    uint8_t bottles[2];
    uint8_t steps[2];
    uint32_t cell;
};

// Cells of one size; the tails of a row of cells along the last axis stand together.
struct tails {
    struct tail *items; // by cell
    struct tail *spare;
    uint32_t *starts; // first tail of each cell; one more at the end
    size_t count, capacity, starts_capacity;
    double lo[3], hi[3]; // box around them all
    double per_unit[3];  // cells per unit length
    int cells[3];
};

// Which tails are wanted: pairs of bottles whose shares add up to `sum` steps, each at least `share_least`, which the
// `rest` steps of other bottles may bring into the region.
struct tails_wanted {
    const struct space *space;
    const struct region *region;
    int sum, rest, share_least;
};

// Fills `tails` (zeroed, or used before). STATUS_MEMORY.
enum status tails_gather(const struct tails_wanted *wanted, struct tails *tails, struct error *err);
void tails_release(struct tails *tails);

// The cell of a coordinate along an axis, the outermost ones for what lies outside. Monotone also under rounding, so
// that all tails between two coordinates lie between their cells.
static inline int tails_cell(const struct tails *tails, int axis, double x) {
    double at = (x - tails->lo[axis]) * tails->per_unit[axis];
    int most = tails->cells[axis] - 1;
    return at <= 0 ? 0 : at >= most ? most : (int)at;
}

#endif
