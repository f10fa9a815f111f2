// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_judge.h"

#include "physics/miscibility.h"
#include "selection/ladder_pairs.h"

#include <math.h>

struct judging_work {
    const struct ladder_judging *judging;
    struct ladder *ladder;
    bool fine;         // second round: the shares in between
    atomic_int status; // enum status of the first piece that failed
};

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

// Rungs that the ladder may look at: none far below the last one tested, and shares in between only where they are
// rungs (ladder_arrange knows after the first round), or where the step up is counted from them.
static bool wanted(const struct ladder_direction *direction, int i, bool fine) {
    double percent = i * (double)LADDER_STEP_PERCENT;
    bool between = i % (LADDER_RISE_PERCENT / LADDER_STEP_PERCENT) != 0;
    if (between != fine || percent <= direction->last_percent - LADDER_RISE_PERCENT)
        return false;
    return !between || !direction->rungs[i].idle || percent <= direction->last_percent;
}

static void forget(struct ladder *ladder) {
    for (int d = 0; d < ladder->count; d++)
        for (int i = 0; i < LADDER_RUNGS; i++) {
            struct ladder_rung *rung = &ladder->directions[d].rungs[i];
            bool tested = rung->tested;
            bool barred = rung->barred;
            *rung = unknown;
            rung->tested = tested;
            rung->barred = barred;
        }
}

static void work(void *context, int piece, bool leader) {
    struct judging_work *all = context;
    const struct ladder_judging *judging = all->judging;
    struct ladder_direction *direction = &all->ladder->directions[piece / LADDER_RUNGS];
    int i = piece % LADDER_RUNGS;
    int pieces = all->ladder->count * LADDER_RUNGS;
    if (atomic_load(&all->status) != STATUS_OK || watch_cancelled(&judging->watch) || !wanted(direction, i, all->fine))
        return;
    enum status status = judge_rung(judging, direction, i, &direction->rungs[i]);
    if (status != STATUS_OK)
        atomic_store(&all->status, (int)status);
    if (leader && judging->watch.progress)
        judging->watch.progress(judging->watch.context, (all->fine + (piece + 1.0) / pieces) / 2);
}

enum status ladder_judge(const struct ladder_judging *judging, struct ladder *ladder, struct error *err) {
    struct judging_work all = {.judging = judging, .ladder = ladder};
    atomic_init(&all.status, STATUS_OK);
    forget(ladder);
    crew_run(judging->threads, ladder->count * LADDER_RUNGS, work, &all);
    ladder_arrange(ladder);
    all.fine = true;
    crew_run(judging->threads, ladder->count * LADDER_RUNGS, work, &all);
    if (watch_cancelled(&judging->watch))
        return error_set(err, STATUS_INTERRUPTED, "interrupted before every rung was judged");
    if (atomic_load(&all.status) != STATUS_OK)
        return error_set(err, STATUS_MEMORY, "out of memory");
    ladder_arrange(ladder);
    return STATUS_OK;
}
