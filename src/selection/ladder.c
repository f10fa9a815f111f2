// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder.h"

#include "base/language.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>

static const double percent_slack = 1e-9; // shares are parts of a hundred in binary

const char *ladder_way_words(enum ladder_way way) {
    static const char *const words[] = {N_("more hydrogen bonding"), N_("more polar"), N_("more aromatic"),
                                        N_("not known")};
    return words[way];
}

const char *ladder_end_words(enum ladder_end end) {
    static const char *const words[] = {
        N_("goes on"),
        N_("tested up to the neat liquid"),
        N_("its next rungs are too likely to touch the paint"),
        N_("its next rungs separate into two liquids"),
        N_("no model judges its next rungs"),
        N_("its next rung is stronger than a milder one elsewhere that may well work"),
        N_("given up: no rung of it is likely to work"),
        N_("held back by original colour: found with no stronger rung, or in every passage"),
    };
    return words[end];
}

static double percent_of(int rung) {
    return rung * (double)LADDER_STEP_PERCENT;
}

// How far the rule lets one climb: LADDER_RISE_PERCENT above the last; the base alone comes first of all.
static double highest_percent(const struct ladder_direction *direction) {
    return direction->last_percent < 0 ? 0 : direction->last_percent + LADDER_RISE_PERCENT;
}

static bool judged(const struct ladder_rung *rung) {
    return !isnan(rung->p_works) && !isnan(rung->p_touches);
}

// Now, or later from milder tests on.
static bool may_come(const struct ladder *ladder, const struct ladder_rung *rung) {
    return !rung->idle && judged(rung) && !rung->two_liquids && rung->p_touches <= ladder->touch_most;
}

static bool may_be_proposed(const struct ladder *ladder, const struct ladder_rung *rung) {
    return !rung->barred && may_come(ladder, rung);
}

// Shares in between are rungs only where the paint feels the step over them; where its uptake is not known, they are.
static void find_idle(struct ladder_direction *direction) {
    for (int i = 1; i + 1 < LADDER_RUNGS; i += LADDER_RISE_PERCENT / LADDER_STEP_PERCENT) {
        double rise = exp(direction->rungs[i + 1].paint) - exp(direction->rungs[i - 1].paint);
        direction->rungs[i].idle = rise < LADDER_FINE;
    }
}

void ladder_arrange_direction(struct ladder_direction *direction) {
    find_idle(direction);
    double most = -INFINITY;
    for (int i = 0; i < LADDER_RUNGS; i++) {
        struct ladder_rung *rung = &direction->rungs[i];
        most = fmax(most, isnan(rung->paint) ? rung->margin : rung->paint); // a NAN counts for nothing
        rung->strength = most;
    }
}

void ladder_arrange(struct ladder *ladder) {
    for (int d = 0; d < ladder->count; d++)
        ladder_arrange_direction(&ladder->directions[d]);
}

// The weakest untested rung of a direction that is likely to work, LADDER_NONE when there is none. Those that may not
// be proposed count too: going round them would be going above them.
static int likely_in(const struct ladder_direction *direction) {
    for (int i = 0; i < LADDER_RUNGS; i++) {
        const struct ladder_rung *rung = &direction->rungs[i];
        if (!rung->tested && !rung->idle && judged(rung) && percent_of(i) > direction->last_percent + percent_slack &&
            rung->p_works >= LADDER_LIKELY)
            return i;
    }
    return LADDER_NONE;
}

bool ladder_likely(const struct ladder *ladder, int *ret_direction, int *ret_rung) {
    double least = INFINITY;
    bool found = false;
    for (int d = 0; d < ladder->count; d++) {
        const struct ladder_direction *direction = &ladder->directions[d];
        int i = likely_in(direction);
        if (i == LADDER_NONE || (found && !(direction->rungs[i].strength < least)))
            continue;
        if (!may_be_proposed(ladder, &direction->rungs[i]))
            continue;
        least = direction->rungs[i].strength;
        *ret_direction = d;
        *ret_rung = i;
        found = true;
    }
    return found;
}

static double best_chance(const struct ladder *ladder, const struct ladder_direction *direction) {
    double best = 0;
    for (int i = 0; i < LADDER_RUNGS; i++)
        if (may_come(ladder, &direction->rungs[i]) && percent_of(i) > direction->last_percent + percent_slack)
            best = fmax(best, direction->rungs[i].p_works);
    return best;
}

// Why nothing between the last rung and the highest allowed one may be proposed.
static enum ladder_end reason_of_end(const struct ladder *ladder, const struct ladder_direction *direction) {
    enum ladder_end end = LADDER_AT_TOP;
    double highest = highest_percent(direction);
    for (int i = LADDER_RUNGS - 1; i >= 0; i--) {
        const struct ladder_rung *rung = &direction->rungs[i];
        if (rung->idle || percent_of(i) <= direction->last_percent + percent_slack ||
            percent_of(i) > highest + percent_slack)
            continue;
        if (rung->barred)
            end = LADDER_COLOUR;
        else if (!judged(rung))
            end = LADDER_NOT_JUDGED;
        else if (rung->two_liquids)
            end = LADDER_SPLITS;
        else if (rung->p_touches > ladder->touch_most)
            end = LADDER_TOUCHES;
    }
    return end;
}

// The strength that no next rung may exceed.
static double strength_allowed(const struct ladder *ladder) {
    int d;
    int i;
    return ladder_likely(ladder, &d, &i) ? ladder->directions[d].rungs[i].strength : INFINITY;
}

struct ladder_step ladder_step_of(const struct ladder *ladder, int d) {
    const struct ladder_direction *direction = &ladder->directions[d];
    struct ladder_step step = {.direction = d, .rung = LADDER_NONE, .likely = likely_in(direction)};
    double highest = highest_percent(direction);
    double allowed = strength_allowed(ladder);
    bool stronger = false;
    if (step.likely != LADDER_NONE)
        highest = fmin(highest, percent_of(step.likely));
    for (int i = 0; i < LADDER_RUNGS && percent_of(i) <= highest + percent_slack; i++) {
        const struct ladder_rung *rung = &direction->rungs[i];
        if (rung->tested || percent_of(i) <= direction->last_percent + percent_slack || !may_be_proposed(ladder, rung))
            continue;
        if (rung->strength <= allowed)
            step.rung = i;
        else
            stronger = true;
    }
    if (step.rung == LADDER_NONE)
        step.end = stronger ? LADDER_TOO_STRONG : reason_of_end(ladder, direction);
    else if (best_chance(ladder, direction) < LADDER_HOPELESS) {
        step.end = LADDER_GIVEN_UP;
        step.rung = LADDER_NONE;
    }
    return step;
}

bool ladder_allows(const struct ladder *ladder, int d, int i) {
    const struct ladder_direction *direction = &ladder->directions[d];
    int likely = likely_in(direction);
    if (percent_of(i) > highest_percent(direction) + percent_slack || (likely != LADDER_NONE && i > likely))
        return false;
    return may_be_proposed(ladder, &direction->rungs[i]) && direction->rungs[i].strength <= strength_allowed(ladder);
}

// --- how far rungs must be judged ---

// The highest rung that the rule lets one propose next, whatever its strength.
static int highest_rung(const struct ladder_direction *direction) {
    int likely = likely_in(direction);
    int highest = LADDER_RUNGS - 1;
    while (percent_of(highest) > highest_percent(direction) + percent_slack)
        highest--;
    return likely != LADDER_NONE && likely < highest ? likely : highest;
}

static bool some_may_be_proposed(const struct ladder *ladder, const struct ladder_direction *direction) {
    for (int i = 0; i <= highest_rung(direction); i++)
        if (!direction->rungs[i].tested && percent_of(i) > direction->last_percent + percent_slack &&
            may_be_proposed(ladder, &direction->rungs[i]))
            return true;
    return false;
}

bool ladder_settled(const struct ladder *ladder, int d) {
    const struct ladder_direction *direction = &ladder->directions[d];
    if (direction->reach == LADDER_RUNGS - 1)
        return true;
    if (percent_of(direction->reach) < highest_percent(direction) || likely_in(direction) == LADDER_NONE)
        return false;
    return !some_may_be_proposed(ladder, direction) || best_chance(ladder, direction) >= LADDER_HOPELESS;
}

// --- the order of the directions ---

static int leading_direction(const struct ladder *ladder) {
    int d;
    int i;
    return ladder_likely(ladder, &d, &i) && ladder_step_of(ladder, d).rung != LADDER_NONE ? d : LADDER_NONE;
}

bool ladder_is_led(const struct ladder *ladder) {
    int d = leading_direction(ladder);
    return d != LADDER_NONE && !ladder->directions[d].overdue;
}

// Of the directions that go on, the one with the best rung; LADDER_NONE when there is none.
static int best_direction(const struct ladder *ladder, bool overdue_too) {
    int found = LADDER_NONE;
    double best = 0;
    for (int k = 0; k < ladder->count; k++) {
        double chance = best_chance(ladder, &ladder->directions[k]);
        if (ladder_step_of(ladder, k).rung == LADDER_NONE || (ladder->directions[k].overdue && !overdue_too))
            continue;
        if (found == LADDER_NONE || chance > best) {
            found = k;
            best = chance;
        }
    }
    return found;
}

// The direction to go on with; LADDER_NONE when every one ends.
static int direction_to_take(const struct ladder *ladder) {
    int taken = leading_direction(ladder);
    if (taken == LADDER_NONE)
        taken = best_direction(ladder, true);
    if (taken == LADDER_NONE || !ladder->directions[taken].overdue)
        return taken;
    int other = best_direction(ladder, false);
    if (other == LADDER_NONE)
        return taken;
    return best_chance(ladder, &ladder->directions[other]) >
                   best_chance(ladder, &ladder->directions[taken]) - LADDER_ALIKE
               ? other
               : taken;
}

static double order_of(const struct ladder *ladder, const struct ladder_step *step, int taken) {
    if (step->direction == taken)
        return -INFINITY;
    return step->rung == LADDER_NONE ? INFINITY : ladder->directions[step->direction].rungs[step->rung].strength;
}

void ladder_steps(const struct ladder *ladder, struct ladder_step *ret) {
    int taken = direction_to_take(ladder);
    for (int d = 0; d < ladder->count; d++) {
        struct ladder_step step = ladder_step_of(ladder, d);
        int at = d;
        while (at > 0 && order_of(ladder, &step, taken) < order_of(ladder, &ret[at - 1], taken)) {
            ret[at] = ret[at - 1];
            at--;
        }
        ret[at] = step;
    }
}

// --- series ---

// *ret_settled: no step looks beyond the rungs that were judged.
static int climb(const struct ladder *ladder, int d, int *ret_rungs, int most, bool *ret_settled) {
    struct ladder copy = {.touch_most = ladder->touch_most, .count = 1};
    copy.directions[0] = ladder->directions[d];
    struct ladder_step step = ladder_step_of(ladder, d);
    int count = 0;
    *ret_settled = ladder_settled(ladder, d);
    while (count < most && step.rung != LADDER_NONE) {
        ret_rungs[count++] = step.rung;
        copy.directions[0].rungs[step.rung].tested = true;
        copy.directions[0].last_percent = percent_of(step.rung);
        *ret_settled = *ret_settled && (count == most || ladder_settled(&copy, 0));
        step = ladder_step_of(&copy, 0);
    }
    return count;
}

int ladder_climb(const struct ladder *ladder, int d, int *ret_rungs, int most) {
    bool settled;
    return climb(ladder, d, ret_rungs, most, &settled);
}

bool ladder_climb_settled(const struct ladder *ladder, int d, int most) {
    int rungs[LADDER_RUNGS];
    bool settled;
    climb(ladder, d, rungs, most < LADDER_RUNGS ? most : LADDER_RUNGS, &settled);
    return settled;
}

int ladder_even_series(const struct ladder_direction *direction, int *ret_rungs, int most) {
    int count = 0;
    for (int i = 0; i < LADDER_RUNGS && count < most; i += LADDER_RISE_PERCENT / LADDER_STEP_PERCENT)
        if (!direction->rungs[i].barred && percent_of(i) > direction->last_percent + percent_slack)
            ret_rungs[count++] = i;
    return count;
}
