// SPDX-License-Identifier: GPL-3.0-or-later
// ladder: everything between the options and the answer.
#ifndef MILDSOLVE_CLI_LADDER_H
#define MILDSOLVE_CLI_LADDER_H

#include "cli/goal_options.h"
#include "selection/belief_case.h"
#include "selection/ladder_judge.h"
#include "selection/ladder_pairs.h"
#include "selection/ladder_plan.h"
#include "selection/ladder_sites.h"

enum { LADDER_SHOWN_MAX = 12 };

// One test of the answer.
struct ladder_row {
    int direction;
    double from_percent; // the share that the step is counted from: the last one tested, or the row before; -1 = none
    int from_rung;       // the same as a rung, LADDER_NONE when it is none
    struct ladder_plan plan;
};

struct ladder_answer {
    struct invocation *inv;
    struct goal goal;
    struct filter_report filters;
    struct unifac_table groups;
    struct belief_case learnt;    // with a case
    struct belief_plan *own_plan; // without one
    struct belief *own_belief;
    struct belief_case other_learnt; // the other view, for 'touches', likewise with a case
    struct belief_plan *other_own_plan;
    struct belief *other_own_belief;
    const struct belief_plan *other_plan; // NULL: it cannot speak of these materials
    const struct belief *other_belief;
    const struct belief_plan *plan; // of either
    const struct belief *belief;
    struct ladder *ladder;
    struct ladder_step *steps;                // one a direction
    struct ladder_row rows[LADDER_SHOWN_MAX]; // the climb in the direction to take; none = nothing may be proposed
    size_t row_count;
    struct ladder_row others[LADDER_SHOWN_MAX]; // the next rung in other directions
    size_t other_count;
    struct ladder_site sites[LADDER_SITES_MAX]; // for the first row, or for the blend that worked
    struct blend site_blends[LADDER_SITES_MAX]; // what to take there
    bool sites_of_worked;
    double site_works[LADDER_SITES_MAX]; // probability that its next blend works in that passage; NAN unknown
    size_t site_count;
    const struct case_test *worked;  // the weakest test so far that took off at least part of the layer
    const struct case_test *barred;  // the same with what the people of the case must not work with
    struct ladder_rung worked_rung;  // what the belief says of its blend; NAN without one, or where no model judges
    const struct case_test *further; // a stronger one of the direction `again` that worked in some passages only
    int again;                       // that direction, whose climb begins again above `worked`; LADDER_NONE = none
    double again_last_percent;       // the strongest share tested in it
    bool stopped;                    // a test that stands found original colour
    bool even;                       // the even series instead of the adaptive one
    int by;                          // enum belief_view
    int show;
    int threads;
    int jar_ml; // what is left of the last test's blend
    double temp_c;
    double touch_most;
    double contact_s;
    int rolls;
};

// Everything but the writing; *ret zeroed before, and to be released whatever the outcome.
enum status ladder_answer_make(struct invocation *inv, struct ladder_answer *ret, struct error *err);
void ladder_answer_release(struct ladder_answer *answer);

void write_ladder_text(const struct ladder_answer *answer, struct text *out);
void write_ladder_json(const struct ladder_answer *answer, struct text *out);

const struct ladder_direction *ladder_direction_of(const struct ladder_answer *answer, const struct ladder_row *row);
const struct ladder_rung *ladder_rung_of(const struct ladder_answer *answer, const struct ladder_row *row);

// Step of a row on the scale (margin of what is to come off); NAN when there is nothing to count from.
double ladder_scale_step(const struct ladder_answer *answer, const struct ladder_row *row);

// The layer takes up less of it than of the blend that worked: it is no answer where that did too little. False without
// such a blend, or where either is not judged.
bool ladder_weaker_than_worked(const struct ladder_answer *answer, const struct ladder_row *row);

// Why the direction of the blend that worked does not go on: NULL when it does, or is none of these bottles.
const char *ladder_worked_ends(const struct ladder_answer *answer);

// Why there is no row, one sentence or two; in English.
const char *ladder_no_next(const struct ladder_answer *answer);

// The scale on which steps are told, in words.
const char *ladder_scale_words(int by);

#endif
