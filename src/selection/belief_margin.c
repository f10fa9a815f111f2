// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_margin.h"

#include "base/memory.h"
#include "selection/belief_table.h"

#include <math.h>

// --- asking ---

// The cell that holds a value, and how far into it; the ends go on flat.
static size_t cell_of(const struct belief_axis *axis, double value, double *ret_share) {
    double at = (value - axis->first) / axis->step;
    if (axis->count < 2 || !(at > 0)) {
        *ret_share = 0;
        return 0;
    }
    size_t cell = at >= (double)(axis->count - 1) ? axis->count - 2 : (size_t)at;
    *ret_share = fmin(at - (double)cell, 1);
    return cell;
}

// Linear in every axis.
static double look_up(const struct belief_form *form, const double *values) {
    double share[FORM_AXES_MAX], result = 0;
    size_t cell[FORM_AXES_MAX];
    for (size_t i = 0; i < form->axes; i++)
        cell[i] = cell_of(&form->axis[i], values[i], &share[i]);
    for (size_t corner = 0; corner < (size_t)1 << form->axes; corner++) {
        double weight = 1;
        size_t row = 0, stride = 1;
        for (size_t i = 0; i < form->axes; i++) {
            size_t up = corner >> i & 1;
            weight *= up ? share[i] : 1 - share[i];
            row += i ? stride * (cell[i] + up) : 0;
            stride *= i ? form->axis[i].count : 1;
        }
        if (weight > 0)
            result += weight * belief_table_at(form, row, cell[0] + (corner & 1));
    }
    return result;
}

static double film_margin(const struct belief_item *item, const struct belief_form *form, const double *parameters) {
    double values[FORM_AXES_MAX];
    for (size_t i = 0; i < form->axes; i++)
        values[i] =
            belief_chi(item->film.chi_entropic, form->weights[i], form->places[i], parameters) - (i ? values[0] : 0);
    return look_up(form, values);
}

double belief_margin(const struct belief_plan *plan, const struct belief_liquid *liquid, size_t item,
                     const double parameters[BELIEF_PARAMETERS]) {
    if (plan->view == BELIEF_FILM)
        return film_margin(&plan->items[item], &liquid->forms[item], parameters);
    struct hansen centre = {parameters[BELIEF_DELTA_D], parameters[BELIEF_DELTA_P], parameters[BELIEF_DELTA_H]};
    return parameters[BELIEF_STRENGTH] - log(fmax(hansen_distance(liquid->place, centre), 0.1));
}

// --- a liquid ---

static enum status make_forms(const struct belief_plan *plan, const struct blend *blend, struct belief_liquid *liquid,
                              struct error *err) {
    struct activity_model *activity = memory_new(1, sizeof *activity);
    double x[BLEND_COMPONENTS_MAX];
    liquid->activity = activity;
    if (!activity)
        return error_set(err, STATUS_MEMORY, "out of memory for a blend");
    enum status status = activity_prepare_blend(plan->given.table, blend, plan->given.temp_k, activity, err);
    if (status == STATUS_OK && !activity_covers(activity))
        status = error_set(err, STATUS_NO_DATA, "no activity model covers the blend: %s", activity->coverage.sentence);
    if (status == STATUS_OK)
        status = blend_mole_fractions(blend, x, err);
    if (status != STATUS_OK)
        return status;
    film_liquid_activities(activity, x, liquid->ln_activity);
    for (size_t i = 0; i < plan->count && status == STATUS_OK; i++) {
        status = belief_form_make(&plan->items[i], activity, liquid->ln_activity, blend->volume_fractions,
                                  &liquid->forms[i], err);
        liquid->item_count += status == STATUS_OK;
    }
    return status;
}

enum status belief_liquid_make(const struct belief_plan *plan, const struct blend *blend, struct belief_liquid **ret,
                               struct error *err) {
    struct belief_liquid *liquid = memory_new(1, sizeof *liquid);
    enum status status = liquid ? hansen_of_blend(blend, &liquid->place, err)
                                : error_set(err, STATUS_MEMORY, "out of memory for a blend");
    if (status == STATUS_OK) {
        liquid->plan = plan;
        if (plan->view == BELIEF_FILM)
            status = make_forms(plan, blend, liquid, err);
    }
    if (status == STATUS_OK)
        *ret = liquid;
    else
        belief_liquid_release(liquid);
    return status;
}

void belief_liquid_release(struct belief_liquid *liquid) {
    if (!liquid)
        return;
    for (size_t i = 0; i < liquid->item_count; i++)
        belief_form_release(&liquid->forms[i]);
    memory_free(liquid->activity);
    memory_free(liquid);
}
