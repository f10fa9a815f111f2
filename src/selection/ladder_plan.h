// SPDX-License-Identifier: GPL-3.0-or-later
// What a person needs to make one rung's test: millilitres, waiting, clearing.
#ifndef MILDSOLVE_SELECTION_LADDER_PLAN_H
#define MILDSOLVE_SELECTION_LADDER_PLAN_H

#include "physics/harm.h"
#include "physics/miscibility.h"
#include "selection/ladder.h"
#include "selection/ladder_jar.h"

// How long n-butyl acetate takes to lose nine tenths in the trade's evaporation test (0.70 mL on filter paper in a
// gentle stream of air, 25 degC): 470 s, ASTM D3539 (from memory). A wet swab leaves a film no thicker than that
// paper's.
#define WAIT_REFERENCE_S 470.0

// Nothing is judged sooner than this after a test, and not before three times the time to the last 5 %, because a film
// lets go more slowly than paper (ours: estimate).
enum { WAIT_LEAST_MIN = 2, WAIT_DRY_TIMES = 3 };

struct ladder_wait {
    double dry_min;              // to the last 5 %, from the paper of the evaporation test; NAN when not known
    int judge_min;               // minutes before the dry result is judged; 0 when dry_min is not known
    enum retention_word residue; // how long the last of it stays in the film: long and more = look again the next day
    bool next_day;               // so it is: no second test on the same spot before
};

enum clearing {
    CLEAR_WITH_BASE, // the weak liquid of the direction, neat
    CLEAR_CAREFULLY, // the same, but it may not mix with the blend: look
    CLEAR_DRY        // two liquids: a dry swab, then wait
};

struct ladder_plan {
    int rung;
    struct blend blend;
    struct jar_batch fresh;
    bool has_jar; // `jar` holds a way out of the jar of the rung before
    struct jar_batch jar;
    struct ladder_wait wait;
    enum clearing clearing;
    enum phase_verdict phase; // of the blend itself
};

struct ladder_planning {
    const struct library *lib; // with components, bottles, properties, groups and miscibility
    const struct unifac_table *table;
    double temp_c;
};

// `before_percent` and `before_ml`: what is in the jar of the rung before; 0 mL = none. STATUS_MEMORY and what
// ladder_blend returns.
enum status ladder_plan_make(const struct ladder_planning *planning, const struct ladder_direction *direction, int rung,
                             double before_percent, int before_ml, struct ladder_plan *ret, struct error *err);

// The waiting time from the path of drying.
void ladder_wait_of(double time_95, enum retention_word residue, struct ladder_wait *ret);

#endif
