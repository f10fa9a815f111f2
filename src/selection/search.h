// SPDX-License-Identifier: GPL-3.0-or-later
// The best distinct blends on the grid of whole steps over all sets of bottles.
#ifndef MILDSOLVE_SELECTION_SEARCH_H
#define MILDSOLVE_SELECTION_SEARCH_H

#include "selection/composition.h"
#include "selection/crew.h"

// A set of bottles with its best composition.
struct search_row {
    struct composition best;
    struct distance_score score;
    // Filled by search_span (and by the exhaustive search): the span of the compositions of the set that pass.
    int least_steps[GOAL_COMPONENTS_MAX]; // of each bottle
    int most_steps[GOAL_COMPONENTS_MAX];
    size_t passing; // how many pass
};

enum { SEARCH_ROWS_MAX = 65536 };

struct search_request {
    const struct goal *goal;
    const struct library *lib;
    size_t rows_most;   // 1 to SEARCH_ROWS_MAX
    int threads;        // 1 to CREW_MAX; the answer does not depend on it
    struct watch watch; // zero = neither progress nor cancelling
};

struct search_result {
    struct search_row *rows; // best first; released by search_result_release
    size_t row_count;        // below rows_most only when no other set of bottles passes
    double blends;           // compositions on the grid
    double evaluated;        // of those, scored one by one
    double excluded;         // excluded by a proven bound; the rest was not looked at (when interrupted)
    bool proved;             // every composition was scored or excluded: the rows are the best
    int sizes_proved;        // blends of up to so many bottles were searched to the end
    // When nothing passes: how far away the goal is, the least RED that any blend reaches.
    double nearest_red; // NAN when something passes, or no bottle is left
    struct composition nearest;
    // Counted only where that takes no time, see search_count_passing; NAN otherwise.
    double too_weak; // compositions that do not pass
    double sets;     // sets of bottles with a composition that passes
};

// Exact, by distance: largest ra_spare of the compositions that pass, ties by recipe text. STATUS_NO_DATA when a bottle
// has no place in Hansen space, STATUS_MEMORY, STATUS_INTERRUPTED when cancelled (ret then holds the best so far).
enum status search_by_distance(const struct search_request *request, struct search_result *ret, struct error *err);

// The same by scoring every composition: the reference for tests. Not cancelled, one thread.
enum status search_exhaustive(const struct search_request *request, struct search_result *ret, struct error *err);

void search_result_release(struct search_result *result); // NULL-safe

// Fills the span of a row.
enum status search_span(const struct goal *goal, const struct library *lib, struct search_row *row, struct error *err);

// The compositions of the set of bottles of `set` that pass, best first, until `accept` says yes; at most about
// SEARCH_OFFERED_MOST are offered. *ret_found: *ret then holds the accepted one (without its span). *ret_all: every one
// that passes was offered. STATUS_NO_DATA, STATUS_MEMORY.
enum { SEARCH_OFFERED_MOST = 4096 };
typedef bool search_accept(void *context, const struct composition *c);
enum status search_best_of_set(const struct goal *goal, const struct library *lib, const struct composition *set,
                               search_accept *accept, void *context, struct search_row *ret, bool *ret_found,
                               bool *ret_all, struct error *err);

// Counts what passes, composition by composition; does nothing above this many compositions.
#define SEARCH_COUNTED_MOST 1e6
enum status search_count_passing(const struct goal *goal, const struct library *lib, struct search_result *result,
                                 struct error *err);

#endif
