// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_plan.h"

#include "base/memory.h"
#include "base/units.h"
#include "physics/evaporation.h"
#include "selection/ladder_pairs.h"

#include <math.h>

// Of n-butyl acetate, from nine tenths of it in the reference time at its even rate.
static const double seconds_of_unit_time = WAIT_REFERENCE_S / 0.9;

void ladder_wait_of(double time_95, enum retention_word residue, struct ladder_wait *ret) {
    *ret = (struct ladder_wait){.dry_min = NAN, .residue = residue};
    ret->next_day = residue != RETENTION_SHORT && residue != RETENTION_MEDIUM;
    if (isnan(time_95))
        return;
    ret->dry_min = time_95 * seconds_of_unit_time / 60;
    ret->judge_min = (int)fmax(WAIT_LEAST_MIN, ceil(WAIT_DRY_TIMES * ret->dry_min));
}

static enum status wait_for(const struct ladder_planning *planning, const struct blend *blend, struct ladder_wait *ret,
                            struct error *err) {
    struct retention retention;
    retention_of_blend(blend, NULL, &retention);
    struct evaporation *path = memory_new(1, sizeof *path);
    if (!path)
        return error_set(err, STATUS_MEMORY, "out of memory");
    struct evaporation_options options = {.temp_c = planning->temp_c};
    enum status status = evaporation_follow(planning->lib, planning->table, blend, &options, path, NULL);
    ladder_wait_of(status == STATUS_OK ? path->time_95 : NAN, retention.word, ret);
    memory_free(path);
    return status == STATUS_MEMORY ? error_set(err, status, "out of memory") : STATUS_OK;
}

static enum phase_verdict phase_of(const struct ladder_planning *planning, const struct blend *blend) {
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    miscibility_judge_blend(planning->lib, planning->table, blend, kelvin_from_celsius(planning->temp_c), &phase, NULL);
    return phase.verdict;
}

// What is left on the picture meets as much of the base: the rung's half share must stay one liquid.
static enum clearing clearing_for(const struct ladder_planning *planning, const struct ladder_direction *direction,
                                  int rung) {
    struct blend_part parts[2] = {{.bottle = direction->strong, .parts = rung},
                                  {.bottle = direction->weak, .parts = 2 * (LADDER_RUNGS - 1) - rung}};
    struct blend half;
    if (rung == 0)
        return CLEAR_DRY;
    if (blend_make(planning->lib, parts, 2, &half, NULL) != STATUS_OK)
        return CLEAR_CAREFULLY;
    switch (phase_of(planning, &half)) {
    case PHASE_ONE:
        return CLEAR_WITH_BASE;
    case PHASE_MAY_SEPARATE:
        return CLEAR_CAREFULLY;
    default:
        return CLEAR_DRY;
    }
}

enum status ladder_plan_make(const struct ladder_planning *planning, const struct ladder_direction *direction, int rung,
                             double before_percent, int before_ml, struct ladder_plan *ret, struct error *err) {
    double percent = rung * (double)LADDER_STEP_PERCENT;
    struct ladder_plan plan = {.rung = rung, .fresh = jar_fresh(percent)};
    enum status status = ladder_blend(direction, planning->lib, rung, &plan.blend, err);
    if (status == STATUS_OK)
        status = wait_for(planning, &plan.blend, &plan.wait, err);
    if (status != STATUS_OK)
        return status;
    plan.has_jar = jar_from(before_percent, before_ml, percent, &plan.jar);
    plan.clearing = clearing_for(planning, direction, rung);
    plan.phase = phase_of(planning, &plan.blend);
    *ret = plan;
    return STATUS_OK;
}
