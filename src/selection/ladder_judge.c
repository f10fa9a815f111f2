// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_judge.h"

#include "physics/miscibility.h"
#include "selection/ladder_pairs.h"

#include <math.h>

struct judging_work {
    const struct ladder_judging *judging;
    struct ladder *ladder;
    bool to_the_top;   // every rung, not only as far as the next step needs
    atomic_int status; // enum status of the first piece that failed
};

enum { coarse = LADDER_RISE_PERCENT / LADDER_STEP_PERCENT };

static const struct ladder_rung unknown = {
    .p_works = NAN, .p_touches = NAN, .margin = NAN, .paint = NAN, .strength = NAN};

void ladder_judge_rung(const struct belief *belief, const struct belief_liquid *liquid, double contact_s, int rolls,
                       struct ladder_rung *rung) {
    struct belief_forecast forecast;
    belief_forecast(belief, liquid, BELIEF_NONE, BELIEF_NONE, contact_s, rolls, &forecast);
    rung->p_works = forecast.p_works;
    rung->p_touches = forecast.p_touches;
    rung->margin = forecast.margin;
    rung->paint = forecast.paint;
}

// The paint is spared by the view that fears more for it; a blend that the other view does not cover is left as it is.
static enum status fear_other_view(const struct ladder_judging *judging, const struct blend *blend,
                                   struct ladder_rung *rung) {
    struct belief_liquid *liquid;
    struct belief_forecast forecast;
    if (!judging->other_plan)
        return STATUS_OK;
    enum status status = belief_liquid_make(judging->other_plan, blend, &liquid, NULL);
    if (status != STATUS_OK)
        return status == STATUS_MEMORY ? status : STATUS_OK;
    belief_forecast(judging->other_belief, liquid, BELIEF_NONE, BELIEF_NONE, judging->contact_s, judging->rolls,
                    &forecast);
    rung->p_touches = fmax(rung->p_touches, forecast.p_touches);
    belief_liquid_release(liquid);
    return STATUS_OK;
}

static enum status judge_rung(const struct ladder_judging *judging, const struct ladder_direction *direction, int i,
                              struct ladder_rung *rung) {
    struct blend blend;
    struct belief_liquid *liquid;
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    if (ladder_blend(direction, judging->lib, i, &blend, NULL) != STATUS_OK)
        return STATUS_OK;
    enum status status = belief_liquid_make(judging->plan, &blend, &liquid, NULL);
    if (status != STATUS_OK)
        return status == STATUS_MEMORY ? status : STATUS_OK;
    ladder_judge_rung(judging->belief, liquid, judging->contact_s, judging->rolls, rung);
    belief_liquid_release(liquid);
    status = fear_other_view(judging, &blend, rung);
    if (status != STATUS_OK)
        return status;
    miscibility_judge_blend(judging->lib, judging->table, &blend, judging->temp_k, &phase, NULL);
    rung->two_liquids = phase.verdict == PHASE_TWO;
    return STATUS_OK;
}

static void forget(struct ladder_direction *direction) {
    direction->reach = LADDER_NONE;
    for (int i = 0; i < LADDER_RUNGS; i++) {
        struct ladder_rung *rung = &direction->rungs[i];
        bool tested = rung->tested;
        bool barred = rung->barred;
        *rung = unknown;
        rung->tested = tested;
        rung->barred = barred;
    }
}

// The first rung worth judging: none far below the last one tested.
static int first_rung(const struct ladder_direction *direction) {
    int i = 0;
    while (i * (double)LADDER_STEP_PERCENT <= direction->last_percent - LADDER_RISE_PERCENT)
        i += coarse;
    return i;
}

// Judges the next rung of LADDER_RISE_PERCENT, then the share in between below it, only where that is a rung (which the
// two around it tell), or where the step up is counted from it.
static enum status judge_further(const struct ladder_judging *judging, struct ladder_direction *direction) {
    int i = direction->reach == LADDER_NONE ? first_rung(direction) : direction->reach + coarse;
    double between_percent = (i - 1) * (double)LADDER_STEP_PERCENT;
    enum status status = judge_rung(judging, direction, i, &direction->rungs[i]);
    ladder_arrange_direction(direction);
    bool between = i > 0 && between_percent > direction->last_percent - LADDER_RISE_PERCENT &&
                   (!direction->rungs[i - 1].idle || between_percent <= direction->last_percent);
    if (status == STATUS_OK && between)
        status = judge_rung(judging, direction, i - 1, &direction->rungs[i - 1]);
    ladder_arrange_direction(direction);
    direction->reach = i;
    return status;
}

static bool at_top(const struct ladder_direction *direction) {
    return direction->reach == LADDER_RUNGS - 1;
}

// One piece is one direction, judged as far up as its next step needs, or to the top.
static void work(void *context, int d, bool leader) {
    struct judging_work *all = context;
    const struct ladder_judging *judging = all->judging;
    struct ladder_direction *direction = &all->ladder->directions[d];
    while (!at_top(direction) &&
           (all->to_the_top || direction->reach == LADDER_NONE || !ladder_settled(all->ladder, d))) {
        if (atomic_load(&all->status) != STATUS_OK || watch_cancelled(&judging->watch))
            return;
        enum status status = judge_further(judging, direction);
        if (status != STATUS_OK)
            atomic_store(&all->status, (int)status);
        if (leader && judging->watch.progress)
            judging->watch.progress(
                judging->watch.context,
                (all->to_the_top + (d + (direction->reach + 1.0) / LADDER_RUNGS) / all->ladder->count) / 2);
    }
}

static enum status outcome(const struct ladder_judging *judging, enum status status, struct error *err) {
    if (watch_cancelled(&judging->watch))
        return error_set(err, STATUS_INTERRUPTED, "interrupted before every rung was judged");
    return status == STATUS_OK ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

enum status ladder_judge(const struct ladder_judging *judging, struct ladder *ladder, struct error *err) {
    struct judging_work all = {.judging = judging, .ladder = ladder, .to_the_top = judging->to_the_top};
    atomic_init(&all.status, STATUS_OK);
    for (int d = 0; d < ladder->count; d++) {
        forget(&ladder->directions[d]);
        ladder_arrange_direction(&ladder->directions[d]);
    }
    crew_run(judging->threads, ladder->count, work, &all);
    enum status status = outcome(judging, (enum status)atomic_load(&all.status), err);
    if (status != STATUS_OK || all.to_the_top || ladder_is_led(ladder))
        return status;
    all.to_the_top = true;
    crew_run(judging->threads, ladder->count, work, &all);
    return outcome(judging, (enum status)atomic_load(&all.status), err);
}

enum status ladder_judge_climb(const struct ladder_judging *judging, struct ladder *ladder, int d, int most, bool even,
                               struct error *err) {
    struct ladder_direction *direction = &ladder->directions[d];
    int rungs[LADDER_RUNGS];
    int count = even ? ladder_even_series(direction, rungs, most < LADDER_RUNGS ? most : LADDER_RUNGS) : 0;
    enum status status = STATUS_OK;
    while (status == STATUS_OK && !watch_cancelled(&judging->watch) && !at_top(direction) &&
           (even ? count > 0 && direction->reach < rungs[count - 1] : !ladder_climb_settled(ladder, d, most)))
        status = judge_further(judging, direction);
    return outcome(judging, status, err);
}
