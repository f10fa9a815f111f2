// SPDX-License-Identifier: GPL-3.0-or-later
// The directions of the ladder: which bottles are paired, and what was tested in each pair.
#ifndef MILDSOLVE_SELECTION_LADDER_PAIRS_H
#define MILDSOLVE_SELECTION_LADDER_PAIRS_H

#include "casefile/casefile.h"
#include "selection/goal.h"
#include "selection/ladder.h"

// One direction for each strong bottle of the goal, with the weak bottle that the tests of the case used with it; else
// with the weak bottle most used in tests; else with the weakest, the one of the smallest total Hansen parameter (an
// alkane before cyclohexane, which swells paint more), of two alike with the more volatile one, because it clears and
// dries faster. A shelf without a weak bottle takes the strong bottle with the smallest polar part as base. `file` may
// be NULL. Rungs get `tested`, directions `last_percent`; nothing is judged yet. STATUS_NO_DATA: fewer than two
// bottles.
// Tests in a stopped passage (original colour was found there) are no steps of the climb: it goes on from what was
// tested in the others. No rung at or above the mildest share that found colour is open before one within
// LADDER_RISE_PERCENT below it was tested in a passage without that, and none above it before it itself was; none at
// all when every passage is stopped.
enum status ladder_pairs(const struct goal *goal, const struct library *lib, const struct casefile *file,
                         struct ladder *ret, struct error *err);

// Share of the strong bottle (percent) of a blend of these two bottles alone; NAN when it is none.
double ladder_share_of(const struct ladder_direction *direction, const struct blend *blend);

// Begins the climb again above `worked`, a test that took off part of the layer, where a stronger test of the direction
// did so too in one passage and another passage was not tested with that much yet: what comes next there is the
// smallest step above `worked`, not above the strongest share tested anywhere. Fills last_percent with the share of
// `worked` and forgets the tests above it; `barred` stays. Returns the weakest of those stronger tests; NULL: nothing
// was changed.
const struct case_test *ladder_begin_again(struct ladder_direction *direction, const struct casefile *file,
                                           const struct case_test *worked);

// A rung as a blend.
enum status ladder_blend(const struct ladder_direction *direction, const struct library *lib, int rung,
                         struct blend *ret, struct error *err);

#endif
