// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_series.h"

#include <math.h>
#include <string.h>

const struct film_ends film_ends_usual = {
    .alpha = {0.5, 1.0},
    .chi_entropic = {0, FILM_CHI_ENTROPIC},
    .molar_volume = {400, 1200},
    .delta_d = 1,
    .delta_p = 2,
    .delta_h = 2,
    .ln_activity = 0.025,
};

// --- both liquids in one set ---

static enum status add_liquid(const struct blend *liquid, const struct component **components, size_t *count,
                              double *moles, struct error *err) {
    for (size_t i = 0; i < liquid->count; i++) {
        size_t at = 0;
        while (at < *count && components[at] != liquid->components[i])
            at++;
        if (at == BLEND_COMPONENTS_MAX)
            return error_set(err, STATUS_RANGE, "more than %d components in a series", BLEND_COMPONENTS_MAX);
        if (!(liquid->components[i]->molar_volume.value > 0))
            return error_set(err, STATUS_NO_DATA, "no molar volume known for %s", liquid->components[i]->id);
        if (at == *count)
            components[(*count)++] = liquid->components[i];
        moles[at] += liquid->volume_fractions[i] / liquid->components[i]->molar_volume.value;
    }
    return STATUS_OK;
}

enum status film_series_prepare(const struct unifac_table *table, const struct blend *weak, const struct blend *strong,
                                double temp_k, struct film_series *ret, struct error *err) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double moles[2][BLEND_COMPONENTS_MAX] = {{0}};
    size_t count = 0;
    enum status status = add_liquid(weak, components, &count, moles[0], err);
    if (status == STATUS_OK)
        status = add_liquid(strong, components, &count, moles[1], err);
    if (status == STATUS_OK)
        status = activity_prepare(table, components, count, temp_k, &ret->activity, err);
    if (status != STATUS_OK)
        return status;
    if (!activity_covers(&ret->activity))
        return error_set(err, STATUS_NO_DATA, "no activity model covers the series: %s",
                         ret->activity.coverage.sentence);
    memcpy(ret->weak, moles[0], sizeof moles[0]);
    memcpy(ret->strong, moles[1], sizeof moles[1]);
    return STATUS_OK;
}

void film_series_activities(const struct film_series *series, double share_percent, double *ret_ln_activity) {
    double x[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < series->activity.count; i++)
        x[i] = (1 - share_percent / 100) * series->weak[i] + share_percent / 100 * series->strong[i];
    film_liquid_activities(&series->activity, x, ret_ln_activity);
}

// --- steps ---

static bool dissolves_at(const struct film_series *series, const struct film *film, double share) {
    double ln_activity[BLEND_COMPONENTS_MAX];
    film_series_activities(series, share, ln_activity);
    struct film_state state = {.known = false};
    return film_solve(film, ln_activity, &state, NULL) == FILM_WITHOUT_LIMIT;
}

// First step from `from` on whose answer is `wanted`.
static int first_step(const struct film_series *series, const struct film *film, int from, int step, bool wanted) {
    for (int share = from; share <= 100; share += step)
        if (dissolves_at(series, film, share) == wanted)
            return share;
    return FILM_SHARE_NONE;
}

static double strong_activity(const struct film_series *series, double share) {
    double ln_activity[BLEND_COMPONENTS_MAX];
    size_t most = 0;
    for (size_t i = 1; i < series->activity.count; i++)
        if (series->strong[i] > series->strong[most])
            most = i;
    film_series_activities(series, share, ln_activity);
    return ln_activity[most];
}

// The activity need not rise all the way: the first step that reaches a level counts, above as below.
static void find_flat(const struct film_series *series, int step, double width, struct film_threshold *threshold) {
    threshold->flat_least = threshold->flat_most = threshold->nominal;
    if (threshold->nominal == FILM_SHARE_NONE)
        return;
    double level = strong_activity(series, threshold->nominal);
    for (int share = 0; share < threshold->nominal; share += step)
        if (strong_activity(series, share) >= level - width) {
            threshold->flat_least = share;
            break;
        }
    while (threshold->flat_most + step <= 100 && strong_activity(series, threshold->flat_most) < level + width)
        threshold->flat_most += step;
}

static void widen(struct film_threshold *threshold, int share) {
    threshold->least = share < threshold->least ? share : threshold->least;
    threshold->most = share > threshold->most ? share : threshold->most;
}

static enum status widen_by(const struct film_series *series, const struct film_parameters *changed, int step,
                            struct film_threshold *threshold, struct error *err) {
    struct film film;
    enum status status = film_prepare(changed, &series->activity, &film, err);
    if (status == STATUS_OK)
        widen(threshold, first_step(series, &film, 0, step, true));
    return status;
}

// The parameters with one assumption at end `end` (0 or 1); false after the last assumption.
static bool at_end(const struct film_parameters *parameters, const struct film_ends *ends, int which, int end,
                   struct film_parameters *ret) {
    double side = end ? 1 : -1;
    *ret = *parameters;
    switch (which) {
    case 0:
        ret->alpha = ends->alpha[end];
        return true;
    case 1:
        ret->chi_entropic = ends->chi_entropic[end];
        return true;
    case 2:
        if (parameters->network_mol_m3 == 0)
            ret->molar_volume_cm3_mol = ends->molar_volume[end];
        return true;
    case 3:
        ret->centre.delta_d += side * ends->delta_d;
        return true;
    case 4:
        ret->centre.delta_p += side * ends->delta_p;
        return true;
    case 5:
        ret->centre.delta_h += side * ends->delta_h;
        return true;
    default:
        return false;
    }
}

enum status film_first_dissolving(const struct unifac_table *table, const struct blend *weak,
                                  const struct blend *strong, const struct film_parameters *parameters,
                                  const struct film_ends *ends, int step, double temp_k, struct film_threshold *ret,
                                  struct error *err) {
    if (step < 1 || step > 50)
        return error_set(err, STATUS_RANGE, "steps of %d %%: 1 to 50 are possible", step);
    struct film_series series;
    struct film film;
    enum status status = film_series_prepare(table, weak, strong, temp_k, &series, err);
    if (status == STATUS_OK)
        status = film_prepare(parameters, &series.activity, &film, err);
    if (status != STATUS_OK)
        return status;
    struct film_threshold found = {.nominal = first_step(&series, &film, 0, step, true)};
    found.closes = first_step(&series, &film, found.nominal, step, false);
    find_flat(&series, step, ends->ln_activity, &found);
    found.least = found.most = found.nominal;
    widen(&found, found.flat_least);
    widen(&found, found.flat_most);
    struct film_parameters changed;
    for (int which = 0; at_end(parameters, ends, which, 0, &changed) && status == STATUS_OK; which++)
        for (int end = 0; end < 2 && status == STATUS_OK; end++) {
            at_end(parameters, ends, which, end, &changed);
            status = widen_by(&series, &changed, step, &found, err);
        }
    if (status == STATUS_OK)
        *ret = found;
    return status;
}

enum status film_critical_share(const struct unifac_table *table, const struct blend *weak, const struct blend *strong,
                                const struct film_parameters *parameters, double temp_k, double *ret_percent,
                                struct error *err) {
    struct film_series series;
    struct film film;
    enum status status = film_series_prepare(table, weak, strong, temp_k, &series, err);
    if (status == STATUS_OK)
        status = film_prepare(parameters, &series.activity, &film, err);
    if (status != STATUS_OK)
        return status;
    int first = first_step(&series, &film, 0, 1, true);
    double low = first - 1, high = first;
    while (first > 0 && first <= 100 && high - low > 1e-6) {
        double middle = 0.5 * (low + high);
        *(dissolves_at(&series, &film, middle) ? &high : &low) = middle;
    }
    *ret_percent = first > 100 ? NAN : high;
    return STATUS_OK;
}
