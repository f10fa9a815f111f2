// SPDX-License-Identifier: GPL-3.0-or-later
// Which blends are worth sampling: the best of the nominal view and of a cautious one, so that no rival is lost, and
// for each kind (the same strong bottles) the way from its weakest that works upwards.
#ifndef MILDSOLVE_SELECTION_CANDIDATES_H
#define MILDSOLVE_SELECTION_CANDIDATES_H

#include "selection/ranking.h"
#include "selection/shortlist_ends.h"

struct candidates {
    struct film_view nominal;
    struct bottle_set strong; // the strong bottles of the goal
    struct film_row *rows;    // figures by the nominal view; `count` of at most RANKING_CANDIDATES
    struct blend *blends;
    size_t count;
    // Of DOUBT_EFFORT_FULL: searches at the ends of the assumptions, their grid and the bottles in a blend; 0 = none.
    size_t ends_cases;
    double ends_step_percent;
    int ends_components;
};

// *ret_nominal: the nominal search, for the caller to release, as *ret by candidates_release, whatever the status.
// STATUS_MEMORY, STATUS_NO_DATA (film_view_of_goal); STATUS_INTERRUPTED with what was found so far.
enum status candidates_find(const struct ranking_request *request, struct film_search_result *ret_nominal,
                            struct candidates *ret, struct error *err);

// Adds one blend with the figures of the nominal view, unless it is there already, no model covers it or the list is
// full. `row`: what is known of its set of bottles.
enum status candidates_add(const struct ranking_request *request, const struct film_row *row,
                           const struct composition *c, struct candidates *candidates, struct error *err);

// Adds the list of shortlist_ends.h: the best of the base case and of each assumption at its ends, ENDS_LIST_LEAST
// blends where the grid has as many. The base case is `nominal`; the others are searched on a coarser grid. As
// ends_list_make.
enum status candidates_add_ends(const struct ranking_request *request, const struct film_search_result *nominal,
                                struct candidates *candidates, struct error *err);

void candidates_release(struct candidates *candidates);

#endif
