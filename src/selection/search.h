// SPDX-License-Identifier: GPL-3.0-or-later
// The best distinct blends on the grid of whole steps over all sets of bottles.
#ifndef MILDSOLVE_SELECTION_SEARCH_H
#define MILDSOLVE_SELECTION_SEARCH_H

#include "selection/goal.h"

// One composition: indices into goal->bottles, ascending, with whole steps that add up to goal->steps.
struct composition {
    int count;
    int bottles[GOAL_COMPONENTS_MAX];
    int steps[GOAL_COMPONENTS_MAX];
};

// What one composition scores by distance.
struct distance_score {
    double red_remove; // largest RED over the materials to remove
    double ra_spare;   // smallest Ra over the materials to spare, MPa^0.5; infinity when nothing is to be spared
};

// A set of bottles with its best composition and the span of its compositions that reach every region.
struct search_row {
    struct composition best;
    struct distance_score score;
    int least_steps[GOAL_COMPONENTS_MAX]; // of each bottle among the passing compositions of the set
    int most_steps[GOAL_COMPONENTS_MAX];
    size_t passing; // compositions of the set that pass
};

enum { SEARCH_ROWS_MAX = 512 };

struct search_result {
    struct search_row rows[SEARCH_ROWS_MAX]; // best first
    size_t row_count;
    double evaluated;   // compositions scored one by one
    double excluded;    // compositions that a bound excluded
    double too_weak;    // compositions whose RED is above 1 - margin
    size_t sets;        // distinct sets of bottles with at least one passing composition
    double nearest_red; // least red_remove met, to say how far away the goal is when nothing passes
    struct composition nearest;
    bool proved; // every composition was scored or excluded by a proven bound
};

// The one scoring function: position of a composition (volume mean of the bottles' Hansen parameters, in the order of
// the bottles) and its two figures.
struct hansen composition_position(const struct goal *goal, const struct hansen *bottle_places,
                                   const struct composition *c);
struct distance_score composition_score(const struct goal *goal, struct hansen place);

// True when a is better than b: larger ra_spare; ties by the composition (fewer bottles, then earlier bottles, then
// steps).
bool composition_better(const struct distance_score *a, const struct composition *ca, const struct distance_score *b,
                        const struct composition *cb);

// Scores every composition. `show` rows at most (1 to SEARCH_ROWS_MAX). STATUS_NO_DATA when a bottle or material has no
// place in Hansen space.
enum status search_exhaustive(const struct goal *goal, const struct library *lib, size_t show,
                              struct search_result *ret, struct error *err);

// Hansen parameters of a bottle (mean of its components).
enum status bottle_place(const struct library *lib, const struct bottle_ref *bottle, struct hansen *ret,
                         struct error *err);

// The composition as a blend.
enum status composition_blend(const struct goal *goal, const struct library *lib, const struct composition *c,
                              struct blend *ret, struct error *err);

#endif
