// SPDX-License-Identifier: GPL-3.0-or-later
// What else reaches the place of a blend: the whole of it, or one bottle of it while the rest stays.
//
// 1. For every number of bottles the sets of bottles nearest in Hansen space are found exactly (nearest.h), each with
//    its nearest composition; those within the distance asked for are kept.
// 2. Each is portrayed and compared with the original (portrait.h, likeness.h). Two liquids in the bottle are left out.
// 3. Order: what is more hazardous and in nothing less so comes last; then fewer respects that speak against it; then
// Ra in steps of 1 MPa^0.5, the scatter between sources for one
//    liquid; then fewer bottles; then Ra; then the recipe. A set that holds all bottles of one listed before it brings
//    nothing new and is counted there, and so is one near-identical to it (shortlist.h).
// 4. Beside it: what lies near in the triangle but not in Hansen space, so that nobody takes it for a replacement.
//
// When one bottle is replaced in a recipe, share s of the volume, all of the rest cancels: the places of the wholes are
// s times as far apart as those of the bottle and its filling, in either space.
#ifndef MILDSOLVE_SELECTION_REPLACEMENT_H
#define MILDSOLVE_SELECTION_REPLACEMENT_H

#include "selection/likeness.h"
#include "selection/nearest.h"

enum { REPLACEMENT_SHOWN_MAX = 64, REPLACEMENT_PORTRAITS_MAX = 144, REPLACEMENT_DECOYS_MAX = 3 };

struct replacement_request {
    const struct portrait_frame *frame;
    const struct blend *original;
    size_t bottle;           // index into original->parts of the one to replace; SIZE_MAX = the whole blend
    const struct goal *goal; // bottles for the filling, how many of them at most, grid of the filling
    double within;           // Ra of the whole at most, MPa^0.5
    size_t show;             // 1 to REPLACEMENT_SHOWN_MAX
    int threads;
    struct watch watch;
};

struct replacement_row {
    struct composition filling; // of the goal's bottles
    struct portrait portrait;   // of the whole blend
    struct likeness like;
    size_t similar; // sets of bottles counted here
};

// Near in the triangle only.
struct replacement_decoy {
    struct composition filling;
    struct blend blend;
    double ra, triangle;
};

struct replacement {
    struct portrait original;
    struct replacement_row *rows; // best first, at most `show`
    size_t count;
    struct replacement_decoy decoys[REPLACEMENT_DECOYS_MAX];
    size_t decoy_count;
    struct composition nearest; // in Hansen space, whether within or not; count 0 = no bottle at all
    struct blend nearest_blend;
    double nearest_ra; // NAN without
    double blends;     // on the grid
    double evaluated;  // scored one by one
    size_t within;     // sets of bottles found within the distance
    bool cut;          // there may be more of them
    size_t portrayed;  // of those
    size_t split;      // left out as two liquids in the bottle
    size_t listed;     // rows before `show` cut them
    bool proved;
};

// STATUS_NO_DATA: the original has no place in Hansen space; a limit can't be converted. STATUS_INTERRUPTED with the
// best so far. Release with replacement_release, whatever the status.
enum status replacement_find(const struct replacement_request *request, struct replacement *ret, struct error *err);
void replacement_release(struct replacement *replacement); // NULL-safe

// The whole blend for a filling.
enum status replacement_blend(const struct replacement_request *request, const struct composition *filling,
                              struct blend *ret, struct error *err);

#endif
