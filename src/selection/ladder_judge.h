// SPDX-License-Identifier: GPL-3.0-or-later
// The rungs judged by a belief: what each is likely to do, and whether it stays one liquid.
#ifndef MILDSOLVE_SELECTION_LADDER_JUDGE_H
#define MILDSOLVE_SELECTION_LADDER_JUDGE_H

#include "selection/belief.h"
#include "selection/ladder.h"

struct ladder_judging {
    const struct library *lib; // with components, bottles, groups and miscibility
    const struct unifac_table *table;
    const struct belief_plan *plan;
    const struct belief *belief;
    const struct belief_plan *other_plan; // the other view, for the paint: the larger p_touches counts; NULL = none
    const struct belief *other_belief;
    double temp_k;
    double contact_s; // as in belief.h
    int rolls;
    bool to_the_top;    // every rung, though the answer may need fewer
    int threads;        // 1 to CREW_MAX; the answer does not depend on it
    struct watch watch; // zero = neither progress nor cancelling
};

// Fills the rungs from the last tested one up, and arranges them, as far as ladder_steps needs: a film of many
// liquids costs more than all else. A rung that no model covers, or that is idle, stays NAN in all its figures.
// STATUS_MEMORY; STATUS_INTERRUPTED.
enum status ladder_judge(const struct ladder_judging *judging, struct ladder *ladder, struct error *err);

// After that: the further rungs of one direction that ladder_climb, or ladder_even_series, of at most `most` rungs
// needs.
enum status ladder_judge_climb(const struct ladder_judging *judging, struct ladder *ladder, int direction, int most,
                               bool even, struct error *err);

// What the belief says of one rung; `two_liquids` and `tested` are left alone.
void ladder_judge_rung(const struct belief *belief, const struct belief_liquid *liquid, double contact_s, int rolls,
                       struct ladder_rung *rung);

#endif
