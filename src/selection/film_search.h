// SPDX-License-Identifier: GPL-3.0-or-later
// The mildest blends by the film model: every composition of every set of bottles is solved, warm-started along the
// grid.
//
// A composition works when every material to remove that can dissolve does so (its film is taken up without limit; a
// material ranked by RED lies inside its sphere with the goal's margin), and every cross-linked one leaves a window
// (goal_leaves_window). Among those that work, less swelling of what is to be spared is better. Distance of the mean
// prunes nothing here: the two orders differ grossly (a little alcohol in an alkane is strong).
//
// A film found from a neighbour's differs in the last digits from one found from the dry film. So figures of merit
// within a set of bottles count as equal when they differ by less than FILM_EQUAL, the recipe deciding, and the figures
// of the rows are solved anew from the dry film.
//
// One bound is proved and used: what a liquid does to a film depends on the activities alone, and they do not depend on
// the material; so a composition that does not work is never solved for the materials to spare.
#ifndef MILDSOLVE_SELECTION_FILM_SEARCH_H
#define MILDSOLVE_SELECTION_FILM_SEARCH_H

#include "physics/film.h"
#include "selection/search.h"
#include "selection/strong.h"

// Relative; films of one blend from different starts agree to about 1e-12.
#define FILM_EQUAL 1e-9

// Classes of a figure of merit: floor(ln(figure)/ln(1.25)). The order of twelve liquids keeps a rank correlation of
// 0.86 to 1.00 with the base case under every assumption (film model), but neighbours a quarter apart change places.
int film_class(double figure);

// The films as they are taken to be; a search at other assumptions is a search with another view.
struct film_view {
    double temp_k;
    struct film_parameters remove[GOAL_MATERIALS_MAX];
    bool remove_by_red[GOAL_MATERIALS_MAX];
    struct film_parameters spare[GOAL_MATERIALS_MAX];
    // No film model: a blend inside the sphere counts as dissolving it, one outside as leaving it alone.
    bool spare_by_red[GOAL_MATERIALS_MAX];
};

// Materials on which the film model does no better than the sphere, or that have none, are judged by RED.
bool material_by_red(const struct material *material);

// The nominal view of a goal. STATUS_NO_DATA: a material has neither film nor sphere, or no material to spare has a
// film, so that there is nothing to rank by.
enum status film_view_of_goal(const struct goal *goal, double temp_k, struct film_view *ret, struct error *err);

struct film_row {
    struct composition best;
    double swelling; // of the spared material that takes up most, volume per dry volume
    const struct material *spared;
    double strong_share;        // of the volume
    double red_remove;          // largest RED over the materials to remove, for the classical view beside
    double target_swelling;     // of the cross-linked target that takes up least; NAN without one
    struct composition weakest; // the one with the smallest strong share that works, mildest first among equals
    double weakest_share;
    double weakest_swelling;
    int least_steps[GOAL_COMPONENTS_MAX]; // span of the compositions of the set that work
    int most_steps[GOAL_COMPONENTS_MAX];
    size_t working;
};

// Less is better: against a cross-linked target the ratio of the two swellings, else the swelling itself.
double film_figure_of_merit(const struct film_row *row);

struct film_search_result {
    struct film_row *rows; // best first, one a set of bottles; released by film_search_release
    size_t row_count;
    double blends;      // compositions on the grid
    double evaluated;   // solved for the materials to remove
    double working;     // that work
    double not_covered; // in sets that no activity model covers
    double failed;      // the solver gave up
    bool complete;      // every composition was looked at
};

struct film_search_request {
    const struct goal *goal;
    const struct library *lib;
    const struct unifac_table *table;
    const struct film_view *view;
    int threads;        // 1 to CREW_MAX; the answer does not depend on it
    struct watch watch; // zero = neither progress nor cancelling
    bool cold; // every film from the dry one, for tests: the same answer to the last bit, about three times slower
};

// STATUS_MEMORY, STATUS_RANGE; STATUS_INTERRUPTED when cancelled (the result holds what was found so far).
enum status film_search(const struct film_search_request *request, struct film_search_result *ret, struct error *err);
// The figures of one composition by a view, whether it works or not; what belongs to its set of bottles (spans,
// `working`, `weakest`) is left alone. STATUS_NO_DATA when no activity model covers it or the solver gives up.
enum status film_figures_of(const struct film_search_request *request, const struct composition *c,
                            struct film_row *ret, struct error *err);

void film_search_release(struct film_search_result *result); // NULL-safe

#endif
