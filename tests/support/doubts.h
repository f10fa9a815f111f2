// SPDX-License-Identifier: GPL-3.0-or-later
// A list of blends to sample, for the tests: tables, goal and blends by name. Any fault ends the test program.
#ifndef MILDSOLVE_TESTS_DOUBTS_H
#define MILDSOLVE_TESTS_DOUBTS_H

#include "selection/doubt.h"

struct doubts {
    struct library lib;
    struct unifac_table table;
    struct goal goal;
    struct blend blends[DOUBT_BLENDS_MAX];
    struct doubt_request request; // points at the members above
};

// All tables; aged dammar to remove, the young oil film to spare; 20 degC, 256 samples, seed 1, everything varied, one
// thread, any probability.
void doubts_open(struct doubts *doubts);
void doubts_release(struct doubts *doubts);

// Adds a blend by notation.
void doubts_add(struct doubts *doubts, const char *notation);

// Adds every blend of up to three of the names on a grid of `steps`, in a fixed order, until `count` are in the list.
void doubts_fill(struct doubts *doubts, const char *const *names, size_t name_count, int steps, size_t count);

// Samples; ends the program unless the answer is complete.
void doubts_sample(struct doubts *doubts, struct doubt *ret);

#endif
