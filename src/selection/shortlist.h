// SPDX-License-Identifier: GPL-3.0-or-later
// A short, diverse list: blends that are near-identical to a better one are named in its row instead of taking their
// own.
#ifndef MILDSOLVE_SELECTION_SHORTLIST_H
#define MILDSOLVE_SELECTION_SHORTLIST_H

#include "selection/search.h"

// Near-identical: closer than SHORTLIST_RA in Hansen space, and of the same chemical families for at least
// SHORTLIST_OVERLAP of the volume. Both limits are ours: 1 MPa^0.5 is about the scatter between sources for one
// solvent (Hansen values of two tables), and a tenth of the volume about what a test batch can be measured to.
#define SHORTLIST_RA 1.0
#define SHORTLIST_OVERLAP 0.9

enum { SHORTLIST_MAX = 64 };

struct shortlist_row {
    const struct search_row *row;
    struct blend blend;
    struct hansen place;
    size_t similar;             // how many sets were folded into this row
    struct composition like[3]; // the best of them
    size_t like_count;
};

struct shortlist {
    struct shortlist_row rows[SHORTLIST_MAX];
    size_t count;
    bool cut; // sets of bottles beyond the rows of the search were not looked at, and might hold another kind
};

// From the rows of a search, best first, at most `show`. `fold` false keeps every set as its own row.
enum status shortlist_make(const struct goal *goal, const struct library *lib, const struct search_result *result,
                           size_t show, bool fold, struct shortlist *ret, struct error *err);

// Searches by distance for as many sets of bottles as it takes to find `show` rows of different kinds: more are asked
// for until the list is full, no other set passes, or SEARCH_ROWS_MAX are folded (then ret->cut). The spans of the rows
// are filled. `request->rows_most` is not read. As search_by_distance: with STATUS_INTERRUPTED both outputs hold the
// best so far. ret_result owns the rows.
enum status shortlist_search(const struct search_request *request, size_t show, bool fold,
                             struct search_result *ret_result, struct shortlist *ret, struct error *err);

// Share of the volume (0 to 1) in which two blends consist of the same chemical families.
double blend_family_overlap(const struct blend *a, const struct blend *b);

#endif
