// SPDX-License-Identifier: GPL-3.0-or-later
// The exact search by distance: every blend of three bottles or more is met as the pair of its two largest shares (its
// tail) and the other shares (its head). See pairing.c for the method and why it leaves out nothing.
#ifndef MILDSOLVE_SELECTION_PAIRING_H
#define MILDSOLVE_SELECTION_PAIRING_H

#include "selection/best_list.h"
#include "selection/crew.h"
#include "selection/region.h"

struct pairing {
    const struct goal *goal;
    const struct hansen *bottle_places;
    enum aim aim;
    int threads;
    const struct watch *watch;
};

struct pairing_outcome {
    double evaluated; // compositions given to the scoring function; all others were excluded by a bound when complete
    bool complete;    // false when cancelled
    int sizes_done;   // blends of up to so many bottles were searched to the end
};

// Fills `best` (initialised, empty) with the best sets of bottles over all compositions of the goal's grid.
// STATUS_MEMORY; being cancelled is no error.
enum status pairing_search(const struct pairing *pairing, struct best_list *best, struct pairing_outcome *ret,
                           struct error *err);

#endif
