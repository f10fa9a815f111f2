// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/miscible_pair.h"

#include "base/units.h"
#include "physics/phase_split.h"
#include "physics/stability.h"

#include <math.h>
#include <string.h>

// --- published ---

const struct miscible_pair *miscible_pair_find(const struct library *lib, const char *first, const char *second) {
    for (size_t i = lib ? lib->miscible_pair_count : 0; i-- > 0;) {
        const struct miscible_pair *pair = &lib->miscible_pairs[i];
        if ((strcmp(pair->first, first) == 0 && strcmp(pair->second, second) == 0) ||
            (strcmp(pair->first, second) == 0 && strcmp(pair->second, first) == 0))
            return pair;
    }
    return NULL;
}

// Critical temperatures of these systems scatter by a few kelvin with the purity of the liquids, water above all.
static const double near_critical_k = 3;

// Kelvin by which the temperature lies inside the two-liquid range; negative = outside, NAN = no critical temperature.
static double inside_range(const struct miscible_pair *pair, double temp_c) {
    if (isnan(pair->ucst) && isnan(pair->lcst))
        return NAN;
    double below_upper = isnan(pair->ucst) ? INFINITY : pair->ucst - temp_c;
    double above_lower = isnan(pair->lcst) ? INFINITY : temp_c - pair->lcst;
    bool closed_loop = pair->lcst < pair->ucst;
    if (isnan(pair->ucst) || isnan(pair->lcst) || closed_loop)
        return fmin(below_upper, above_lower);
    return fmax(below_upper, above_lower); // miscible only between the upper and a higher lower one
}

enum published miscible_pair_at(const struct miscible_pair *pair, double temp_k) {
    if (!pair)
        return PUBLISHED_NOTHING;
    double inside = inside_range(pair, celsius_from_kelvin(temp_k));
    if (isnan(inside))
        return pair->miscible == MISCIBLE_YES ? PUBLISHED_MISCIBLE : PUBLISHED_SEPARATES;
    if (fabs(inside) < near_critical_k)
        return PUBLISHED_CRITICAL;
    return inside > 0 ? PUBLISHED_SEPARATES : PUBLISHED_MISCIBLE;
}

// --- the model's gap ---

struct pair_task {
    const struct activity_model *model;
    size_t i, j;
};

static void composition(const struct pair_task *task, double logit, double *ret_z) {
    memset(ret_z, 0, task->model->count * sizeof *ret_z);
    ret_z[task->i] = 1 / (1 + exp(-logit));
    ret_z[task->j] = 1 / (1 + exp(logit));
}

static double d_at(const struct pair_task *task, double logit) {
    double z[BLEND_COMPONENTS_MAX];
    composition(task, logit, z);
    return stability_least_eigenvalue(task->model, z, NULL);
}

// Golden section between neighbours of the lowest point of a grid in ln(x_i/x_j), which reaches mole fractions
// of 1e-8 at both ends.
static double lowest_d(const struct pair_task *task, double *ret_logit) {
    enum { POINTS = 61, STEPS = 40 };
    static const double reach = 18.4, golden = 0.6180339887498949;
    double best = INFINITY, at = 0, step = 2 * reach / (POINTS - 1);
    for (int n = 0; n < POINTS; n++) {
        double logit = -reach + n * step, d = d_at(task, logit);
        if (d < best) {
            best = d;
            at = logit;
        }
    }
    double low = at - step, high = at + step;
    for (int n = 0; n < STEPS; n++) {
        double left = high - golden * (high - low), right = low + golden * (high - low);
        if (d_at(task, left) < d_at(task, right))
            high = right;
        else
            low = left;
    }
    double refined = d_at(task, (low + high) / 2);
    *ret_logit = refined < best ? (low + high) / 2 : at;
    return fmin(refined, best);
}

enum status pair_gap_find(const struct activity_model *model, size_t i, size_t j, struct pair_gap *ret,
                          struct error *err) {
    struct pair_task task = {.model = model, .i = i, .j = j};
    struct pair_gap gap = {.low = NAN, .high = NAN};
    double logit = 0, z[BLEND_COMPONENTS_MAX];
    gap.least_d = lowest_d(&task, &logit);
    gap.exists = gap.least_d < 0;
    composition(&task, logit, z);
    gap.x_at_least = z[i];
    if (gap.exists) {
        struct stability stability;
        struct phase_split split;
        enum status status = stability_test(model, z, &stability, err);
        if (status == STATUS_OK)
            status = phase_split_find(model, z, &stability, &split, err);
        if (status == STATUS_OK) {
            gap.low = fmin(split.phi[0][i], split.phi[1][i]);
            gap.high = fmax(split.phi[0][i], split.phi[1][i]);
        } else if (status == STATUS_NO_ROOT) {
            double volume = z[i] * model->components[i]->molar_volume.value;
            gap.low = gap.high = volume / (volume + z[j] * model->components[j]->molar_volume.value);
        } else {
            return status;
        }
    }
    *ret = gap;
    return STATUS_OK;
}
