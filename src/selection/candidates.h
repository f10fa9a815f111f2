// SPDX-License-Identifier: GPL-3.0-or-later
// Which blends are worth sampling: the best of the nominal view and of a cautious one, so that no rival is lost, and
// for each kind (the same strong bottles) the way from its weakest that works upwards.
#ifndef MILDSOLVE_SELECTION_CANDIDATES_H
#define MILDSOLVE_SELECTION_CANDIDATES_H

#include "selection/ranking.h"

struct candidates {
    struct film_view nominal;
    struct bottle_set strong; // the strong bottles of the goal
    struct film_row *rows;    // figures by the nominal view; `count` of at most RANKING_CANDIDATES
    struct blend *blends;
    size_t count;
};

// *ret_nominal: the nominal search, for the caller to release, as *ret by candidates_release, whatever the status.
// STATUS_MEMORY, STATUS_NO_DATA (film_view_of_goal); STATUS_INTERRUPTED with what was found so far.
enum status candidates_find(const struct ranking_request *request, struct film_search_result *ret_nominal,
                            struct candidates *ret, struct error *err);
void candidates_release(struct candidates *candidates);

#endif
