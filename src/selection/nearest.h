// SPDX-License-Identifier: GPL-3.0-or-later
// The blends nearest to a place, exactly: in Hansen space, or in the triangle.
//
// Both places of a blend are volume means of those of its bottles (in the triangle by the rule TEAS_MEAN_OF_FRACTIONS),
// so one search serves both: a point of the triangle is handed to it as (fd/sqrt(8), fp/sqrt(2), fh/sqrt(2)), and then
// Ra is the distance in the triangle, since 4 fd^2/8 = fd^2/2 (physics/teas.h).
#ifndef MILDSOLVE_SELECTION_NEAREST_H
#define MILDSOLVE_SELECTION_NEAREST_H

#include "physics/teas.h"
#include "selection/search.h"

enum nearest_space { NEAREST_HANSEN, NEAREST_TRIANGLE };

struct nearest_request {
    const struct goal *goal; // bottles, components_most, steps; materials are not looked at
    const struct library *lib;
    enum nearest_space space;
    struct hansen hansen; // the place aimed at, of the space that is asked for
    struct teas teas;
    size_t rows_most; // 1 to SEARCH_ROWS_MAX
    int threads;
    struct watch watch;
};

// A set of bottles with its composition nearest to the place.
struct nearest_row {
    struct composition c;
    double distance; // MPa^0.5, or percent along a side of the triangle
};

struct nearest_result {
    struct nearest_row *rows; // nearest first, ties by recipe text; released by nearest_result_release
    size_t row_count;
    double blends;    // compositions on the grid
    double evaluated; // of those, scored one by one; the others were excluded by a bound
    bool proved;      // every composition was scored or excluded
};

// STATUS_NO_DATA: a bottle has no place in that space; STATUS_MEMORY; STATUS_INTERRUPTED when cancelled (*ret then
// holds the best so far).
enum status nearest_find(const struct nearest_request *request, struct nearest_result *ret, struct error *err);
void nearest_result_release(struct nearest_result *result); // NULL-safe

// Place of a neat bottle in the triangle.
enum status bottle_teas(const struct library *lib, const struct bottle_ref *bottle, struct teas *ret,
                        struct error *err);

#endif
