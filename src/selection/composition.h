// SPDX-License-Identifier: GPL-3.0-or-later
// One blend on the grid of whole steps: its place, its score by distance, its recipe, and which of two comes first.
#ifndef MILDSOLVE_SELECTION_COMPOSITION_H
#define MILDSOLVE_SELECTION_COMPOSITION_H

#include "base/text.h"
#include "selection/goal.h"

enum { GOAL_STEPS_MAX = 100 }; // a grid of 1 %

// Indices into goal->bottles, ascending, with whole steps of at least 1 that add up to goal->steps.
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

// Hansen parameters of a bottle (mean of its components). STATUS_NO_DATA names a component without a Hansen split.
enum status bottle_place(const struct library *lib, const struct bottle_ref *bottle, struct hansen *ret,
                         struct error *err);

// Places of all bottles of the goal, in the order of goal->bottles.
enum status shelf_places(const struct goal *goal, const struct library *lib, struct hansen ret[GOAL_BOTTLES_MAX],
                         struct error *err);

// The one scoring function, used by every search so that their scores agree to the last bit: position of a composition
// (volume mean of the bottles' Hansen parameters, in the order of the bottles) and its two figures. bottle_places: of
// all bottles of the goal; places: of the bottles of the composition alone, in its order.
struct hansen composition_position(const struct goal *goal, const struct hansen *bottle_places,
                                   const struct composition *c);
struct hansen composition_mean(const struct goal *goal, const struct hansen *places, const struct composition *c);
struct distance_score composition_score(const struct goal *goal, struct hansen place);

// True when the blend is inside every region to remove, with the margin asked for.
bool composition_passes(const struct goal *goal, const struct distance_score *score);

// The share, in percent by volume, of so many steps of the goal's grid.
double percent_of_steps(const struct goal *goal, int steps);

// The composition as a blend.
enum status composition_blend(const struct goal *goal, const struct library *lib, const struct composition *c,
                              struct blend *ret, struct error *err);

// Order by number of bottles, then bottles, then steps; 0 = the same composition.
int composition_compare(const struct composition *a, const struct composition *b);

// The next set of c->count bottles out of `bottles`, in ascending order of the indices; false after the last. The
// first is 0, 1, 2...
bool composition_next_bottles(struct composition *c, int bottles);

// The compositions of one set of bottles on a grid of `steps`, each bottle at least one step, in the order of the first
// shares: the first, and the next one, false after the last. *ret_raised (may be NULL): the share that grew by a step;
// those after it, but for the last, begin again at one step.
void composition_first_steps(struct composition *c, int steps);
bool composition_next_steps(struct composition *c, int steps, int *ret_raised);

// The recipe in blend notation, shares in percent: "isooctane 70 + propan-2-ol 30".
void composition_recipe(const struct goal *goal, const struct composition *c, struct text *out);

// Makes the comparison of two recipe texts cheap. Ids hold only letters, digits and '-', all of them above the space
// that ends an id or a share; so the order of the texts is that of the words in them, a shorter recipe before its own
// continuation.
struct recipe_order {
    unsigned char id_rank[GOAL_BOTTLES_MAX];      // rank of the bottle's id among the goal's
    unsigned char share_rank[GOAL_STEPS_MAX + 1]; // rank of the share's text: "100" before "15" before "2.5"
};
void recipe_order_make(const struct goal *goal, struct recipe_order *ret);

// As strcmp on the two recipes; where two bottles share an id, the earlier on the shelf comes first, so that only equal
// compositions compare equal.
int recipe_compare(const struct recipe_order *order, const struct composition *a, const struct composition *b);

// True when a is to be listed before b: larger ra_spare, ties by recipe text.
bool composition_better(const struct recipe_order *order, const struct distance_score *a, const struct composition *ca,
                        const struct distance_score *b, const struct composition *cb);

#endif
