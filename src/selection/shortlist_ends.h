// SPDX-License-Identifier: GPL-3.0-or-later
// The list of blends that is worth sampling: the best of the base case and of each assumption at its ends, so that no
// rival is lost that only another assumption would have found; then their neighbours on the grid, because a blend at
// the edge of one assumption needs a stronger one beside it to be likely under all.
#ifndef MILDSOLVE_SELECTION_SHORTLIST_ENDS_H
#define MILDSOLVE_SELECTION_SHORTLIST_ENDS_H

#include "physics/film.h"
#include "selection/doubt.h"
#include "selection/search.h"

// At most ten cases a material, five for all.
enum { ENDS_CASES_MAX = 5 + 10 * 2 * GOAL_MATERIALS_MAX, ENDS_LIST_LEAST = 200 };

// The assumptions of one case: the films (unset where a material has none) and the places and radii of the spheres, in
// the order of the goal.
struct ends_case {
    size_t number; // 0 = the base case; a search may look at the others on a coarser grid, the neighbours fill it in
    char name[96]; // "base case", "alpha 0.5", "dammar-aged, centre delta_h -2"
    struct film_parameters remove[GOAL_MATERIALS_MAX], spare[GOAL_MATERIALS_MAX];
    struct sphere_values remove_spheres[GOAL_MATERIALS_MAX], spare_spheres[GOAL_MATERIALS_MAX];
};

// Runs one search: fills at most `most` compositions, best first. STATUS_OK also when it finds none; any other status
// ends the whole, except that what STATUS_INTERRUPTED found is taken.
typedef enum status ends_search(void *context, const struct ends_case *assumptions, size_t most,
                                struct composition *ret, size_t *ret_count, struct error *err);

struct ends_request {
    const struct goal *goal;
    const struct library *lib; // as for doubt_sample
    const struct unifac_table *table;
    double temp_k;
    bool by_red;
    unsigned vary; // bits of enum doubt_source whose ends are tried; components and activities have none
    size_t least;  // distinct blends wanted, 1 to DOUBT_BLENDS_MAX; ENDS_LIST_LEAST unless there is a reason
    ends_search *search;
    void *context;
    struct watch watch; // progress counts cases; the search has its own
};

struct ends_row {
    struct composition composition;
    size_t cases;            // how many searches listed it; 0 = a neighbour, added to fill the list
    size_t best_case, place; // where it stood highest: the case, and the place in its list from 0
};

struct ends_list {
    struct ends_row *rows;
    size_t count;
    char (*names)[96]; // of the cases
    size_t case_count;
    size_t unmet;  // cases left out because no chain meets an anchor at that end
    size_t found;  // rows that a search listed; the others are neighbours
    bool short_of; // fewer than asked: neither the searches nor the grid around them have more
};

// The cases: alpha and the entropic part at both ends (film_ends_usual), each part of each centre one standard
// deviation to either side (half of it in delta_d), chains at both ends of the anchor or of their range, strands
// likewise, radii of the spheres; all other values nominal, chains following their anchor. Lists are merged place by
// place, the base case first, until `least` distinct blends are found, so that no case is favoured; then every row's
// neighbours, one step moved from one of its bottles to another, row by row, as often as it takes. STATUS_RANGE,
// STATUS_NO_DATA as doubt_sample, STATUS_MEMORY, and what the search returns; STATUS_INTERRUPTED with what was found so
// far. Otherwise *ret is untouched.
enum status ends_list_make(const struct ends_request *request, struct ends_list *ret, struct error *err);
void ends_list_release(struct ends_list *list); // NULL-safe

// The rows as blends, `list->count` of them.
enum status ends_list_blends(const struct ends_list *list, const struct goal *goal, const struct library *lib,
                             struct blend *ret, struct error *err);

#endif
