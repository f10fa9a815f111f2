// SPDX-License-Identifier: GPL-3.0-or-later
// A short, diverse list: blends that are near-identical to a better one are named in its row instead of taking their
// own.
#ifndef MILDSOLVE_SELECTION_SHORTLIST_H
#define MILDSOLVE_SELECTION_SHORTLIST_H

#include "physics/miscibility.h"
#include "selection/search.h"

// Near-identical: closer than SHORTLIST_RA in Hansen space, and of the same chemical families for at least
// SHORTLIST_OVERLAP of the volume. Both limits are ours: 1 MPa^0.5 is about the scatter between sources for one
// solvent (Hansen values of two tables), and a tenth of the volume about what a test batch can be measured to.
#define SHORTLIST_RA 1.0
#define SHORTLIST_OVERLAP 0.9

enum { SHORTLIST_MAX = 64, SHORTLIST_SPLITS = 3 };

struct shortlist_row {
    struct search_row row; // the set's best composition, or its best that is not two liquids
    struct blend blend;
    struct hansen place;
    struct phase_judgement phase; // empty when phases aren't asked for
    struct composition split;     // the set's best composition, when that is two liquids; count 0 = `row` is the best
    size_t similar;               // how many sets were folded into this row
    struct composition like[3];   // the best of them
    size_t like_count;
};

struct shortlist {
    struct shortlist_row rows[SHORTLIST_MAX];
    size_t count;
    bool cut; // sets of bottles beyond the rows of the search were not looked at, and might hold another kind
    // Sets of bottles that are two liquids at all shares that pass; the best of them with their best composition.
    size_t split_sets;
    size_t split_sets_given_up; // of those, at the best shares only: too many to try them all
    struct composition splits[SHORTLIST_SPLITS];
};

// What a short list is made of.
struct shortlist_request {
    const struct goal *goal;
    const struct library *lib;
    const struct unifac_table *table; // NULL: phases aren't judged
    double temp_k;                    // at which they are
    size_t show;                      // 1 to SHORTLIST_MAX
    bool fold;                        // false keeps every set as its own row
    int threads;                      // of the search
    struct watch watch;
};

// From the rows of a search, best first. A set whose best composition is two liquids stands with its best that is not,
// at the place in the order that this has. `whole`: no set that passes is missing from the rows. STATUS_MEMORY,
// STATUS_NO_DATA; STATUS_INTERRUPTED with what was listed until then.
enum status shortlist_make(const struct shortlist_request *request, const struct search_result *result, bool whole,
                           struct shortlist *ret, struct error *err);

// Searches by distance for as many sets of bottles as it takes to find `show` rows of different kinds: more are asked
// for until the list is full, no other set passes, or SEARCH_ROWS_MAX are folded (then ret->cut). The spans of the rows
// are filled. As search_by_distance: with STATUS_INTERRUPTED both outputs hold the best so far. ret_result owns its
// rows.
enum status shortlist_search(const struct shortlist_request *request, struct search_result *ret_result,
                             struct shortlist *ret, struct error *err);

// Share of the volume (0 to 1) in which two blends consist of the same chemical families.
double blend_family_overlap(const struct blend *a, const struct blend *b);

// Near-identical, as above; with the places of both in Hansen space.
bool blends_near_identical(const struct blend *a, struct hansen place_a, const struct blend *b, struct hansen place_b);

#endif
