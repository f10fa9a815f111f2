// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/recipe.h"

#include <math.h>

// Steps are compared as whole numbers; millilitres typed as decimals may miss one by a rounding of the machine.
static const double whole_tolerance = 1e-9;

static double share_of(const struct blend *blend, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < blend->part_count; i++)
        if (bottle_ref_same(&blend->parts[i].bottle, bottle))
            return blend->parts[i].parts / blend_sum_of_parts(blend);
    return 0;
}

static bool is_whole(double steps) {
    return fabs(steps - round(steps)) < whole_tolerance * fmax(1, fabs(steps));
}

// Smallest multiple of the step at which every share is at least half a step more than nothing and, if possible, exact.
static double smallest_batch(const struct blend *blend, double step_ml) {
    double least = 1;
    for (size_t i = 0; i < blend->part_count; i++)
        least = fmin(least, blend->parts[i].parts / blend_sum_of_parts(blend));
    return ceil(1 / least - whole_tolerance) * step_ml;
}

// Whole steps by largest remainders: round down, then give the missing steps to the largest fractions.
static void round_steps(const double *wanted, size_t count, double total, double *ret_steps) {
    double given = 0;
    for (size_t i = 0; i < count; i++) {
        ret_steps[i] = floor(wanted[i] + whole_tolerance);
        given += ret_steps[i];
    }
    for (; given < total - 0.5; given++) {
        size_t best = 0;
        for (size_t i = 1; i < count; i++)
            if (wanted[i] - ret_steps[i] > wanted[best] - ret_steps[best] + whole_tolerance)
                best = i;
        ret_steps[best]++;
    }
}

static enum status unmeasurable(const struct blend *blend, const struct bottle_ref *bottle, double wanted_ml,
                                double step_ml, struct error *err) {
    return error_set(err, STATUS_RANGE,
                     "%.2g mL of %s cannot be measured in steps of %g mL; make at least %g mL, or use a finer --round",
                     wanted_ml, bottle_ref_id(bottle), step_ml, smallest_batch(blend, step_ml));
}

static enum status finish(const struct library *lib, struct recipe *recipe, struct error *err) {
    struct blend_part parts[BLEND_BOTTLES_MAX];
    recipe->total_ml = 0;
    for (size_t i = 0; i < recipe->count; i++)
        recipe->total_ml += recipe->lines[i].have_ml + recipe->lines[i].add_ml;
    recipe->shift_percent = 0;
    for (size_t i = 0; i < recipe->count; i++) {
        struct recipe_line *line = &recipe->lines[i];
        parts[i] = (struct blend_part){.bottle = line->bottle, .parts = line->have_ml + line->add_ml};
        line->reached_percent = 100 * parts[i].parts / recipe->total_ml;
        recipe->shift_percent = fmax(recipe->shift_percent, fabs(line->reached_percent - line->asked_percent));
    }
    return blend_make(lib, parts, recipe->count, &recipe->reached, err);
}

enum status recipe_make(const struct library *lib, const struct blend *blend, double volume_ml, double step_ml,
                        struct recipe *ret, struct error *err) {
    double total = volume_ml / step_ml;
    if (!is_whole(total) || total < 1)
        return error_set(err, STATUS_RANGE, "%g mL cannot be measured in steps of %g mL; choose %g or %g mL", volume_ml,
                         step_ml, fmax(floor(total), 1) * step_ml, ceil(total) * step_ml);
    struct recipe recipe = {.count = blend->part_count, .step_ml = step_ml};
    double wanted[BLEND_BOTTLES_MAX];
    double steps[BLEND_BOTTLES_MAX];
    for (size_t i = 0; i < blend->part_count; i++)
        wanted[i] = share_of(blend, &blend->parts[i].bottle) * round(total);
    round_steps(wanted, blend->part_count, round(total), steps);
    for (size_t i = 0; i < blend->part_count; i++) {
        if (steps[i] < 1)
            return unmeasurable(blend, &blend->parts[i].bottle, wanted[i] * step_ml, step_ml, err);
        recipe.lines[i] = (struct recipe_line){.bottle = blend->parts[i].bottle,
                                               .asked_percent = 100 * share_of(blend, &blend->parts[i].bottle),
                                               .add_ml = steps[i] * step_ml};
    }
    enum status status = finish(lib, &recipe, err);
    if (status == STATUS_OK)
        *ret = recipe;
    return status;
}

static enum status check_leftover(const struct blend *leftover, const struct blend *blend, struct error *err) {
    for (size_t i = 0; i < leftover->part_count; i++)
        if (share_of(blend, &leftover->parts[i].bottle) <= 0)
            return error_set(err, STATUS_RANGE,
                             "the leftover holds %s, which the new blend lacks: adding cannot take it out; mix afresh",
                             bottle_ref_id(&leftover->parts[i].bottle));
    return STATUS_OK;
}

enum status recipe_correct(const struct library *lib, const struct blend *leftover, double leftover_ml,
                           const struct blend *blend, double volume_ml, double step_ml, struct recipe *ret,
                           struct error *err) {
    enum status status = check_leftover(leftover, blend, err);
    if (status != STATUS_OK)
        return status;
    double least = 0;
    for (size_t i = 0; i < blend->part_count; i++) {
        const struct bottle_ref *bottle = &blend->parts[i].bottle;
        least = fmax(least, leftover_ml * share_of(leftover, bottle) / share_of(blend, bottle));
    }
    double total = fmax(least, volume_ml);
    struct recipe recipe = {.count = blend->part_count, .step_ml = step_ml};
    for (size_t i = 0; i < blend->part_count; i++) {
        const struct bottle_ref *bottle = &blend->parts[i].bottle;
        double have = leftover_ml * share_of(leftover, bottle);
        double add = fmax(total * share_of(blend, bottle) - have, 0);
        recipe.lines[i] = (struct recipe_line){.bottle = *bottle,
                                               .asked_percent = 100 * share_of(blend, bottle),
                                               .have_ml = have,
                                               .add_ml = round(add / step_ml) * step_ml};
        if (have + recipe.lines[i].add_ml <= 0)
            return unmeasurable(blend, bottle, add, step_ml, err);
    }
    status = finish(lib, &recipe, err);
    if (status == STATUS_OK)
        *ret = recipe;
    return status;
}
