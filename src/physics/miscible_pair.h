// SPDX-License-Identifier: GPL-3.0-or-later
// Two liquids: what is published on their mixing, and the gap the model sees between them.
#ifndef MILDSOLVE_PHYSICS_MISCIBLE_PAIR_H
#define MILDSOLVE_PHYSICS_MISCIBLE_PAIR_H

#include "data/library.h"
#include "physics/activity.h"

// What the published row says at a temperature.
enum published {
    PUBLISHED_NOTHING,  // no row
    PUBLISHED_MISCIBLE, // in all proportions
    PUBLISHED_CRITICAL, // within 3 K of a critical solution temperature: either
    PUBLISHED_SEPARATES // partly or hardly miscible
};

// The row of two components in either order (the last one read wins), or NULL. lib may be NULL.
const struct miscible_pair *miscible_pair_find(const struct library *lib, const char *first, const char *second);

// The class of a row at temp_k. The word of the table holds at 25 degC; a critical solution temperature carries it to
// others: two liquids below the upper and above the lower one (between them when the lower lies below the upper).
enum published miscible_pair_at(const struct miscible_pair *pair, double temp_k);

// The gap of two of the model's components by themselves (places i and j).
struct pair_gap {
    bool exists;
    double least_d;    // smallest d ln a / d ln x over all compositions; below 0 = there is a gap
    double x_at_least; // mole fraction of component i there
    double low, high;  // volume fractions of component i between which the model has two liquids; NAN without a gap
};

// STATUS as of the split; a gap too narrow to be resolved has low = high.
enum status pair_gap_find(const struct activity_model *model, size_t i, size_t j, struct pair_gap *ret,
                          struct error *err);

#endif
