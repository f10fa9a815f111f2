// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_mix.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>

// --- the plain mean ---

enum status film_of_mean(const struct film_parameters *parameters, const struct blend *blend, double temp_k,
                         struct film_result *ret, struct error *err) {
    struct hansen mean;
    enum status status = hansen_of_blend(blend, &mean, err);
    double moles = 0; // in 1 cm3
    for (size_t i = 0; i < blend->count && status == STATUS_OK; i++) {
        double volume = blend->components[i]->molar_volume.value;
        if (!(volume > 0))
            status = error_set(err, STATUS_NO_DATA, "no molar volume known for %s", blend->components[i]->id);
        moles += blend->volume_fractions[i] / volume;
    }
    struct film film;
    if (status == STATUS_OK)
        status = film_prepare_single(parameters, mean, 1 / moles, temp_k, &film, err);
    if (status == STATUS_OK)
        film_of_liquid(&film, (const double[]){1}, NULL, ret);
    return status;
}

// --- a liquid that has split ---

enum status film_common_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity,
                                   bool *ret_split, struct error *err) {
    struct stability stability;
    struct phase_split split;
    enum status status = stability_test(activity, x, &stability, err);
    if (status != STATUS_OK)
        return status;
    if (!stability.stable) {
        status = phase_split_find(activity, x, &stability, &split, err);
        if (status != STATUS_OK && status != STATUS_NO_ROOT) // at the boundary one phase is as good as two
            return status;
    }
    bool two = !stability.stable && status == STATUS_OK;
    film_liquid_activities(activity, two ? split.x[0] : x, ret_ln_activity);
    if (ret_split)
        *ret_split = two;
    return STATUS_OK;
}

// --- together more than each alone ---

// INFINITY when it dissolves, NAN when the solver failed.
static double swelling_of(const struct film_result *result) {
    if (result->outcome == FILM_WITHOUT_LIMIT)
        return INFINITY;
    return result->outcome == FILM_BOUNDED ? result->swelling : NAN;
}

static double neat_swelling(const struct film *film, size_t component) {
    double x[BLEND_COMPONENTS_MAX] = {0};
    struct film_result result;
    x[component] = 1;
    film_of_liquid(film, x, NULL, &result);
    return swelling_of(&result);
}

static double pair_swelling(const struct film *film, const double *x, size_t i, size_t j) {
    double pair[BLEND_COMPONENTS_MAX] = {0};
    struct film_result result;
    pair[i] = x[i];
    pair[j] = x[j];
    film_of_liquid(film, pair, NULL, &result);
    return swelling_of(&result);
}

static enum film_synergy_kind kind_of(double swelling, double least, double most) {
    const double margin = 1e-4;
    if (swelling > most * (1 + margin))
        return FILM_ABOVE;
    return swelling < least * (1 - margin) ? FILM_BELOW : FILM_BETWEEN;
}

// How far beyond the neat two, as a factor above 1; 1 or less: not beyond in this direction.
static double pair_excess(enum film_synergy_kind kind, double pair, double a, double b) {
    if (kind == FILM_ABOVE)
        return isinf(fmax(a, b)) ? 0 : pair / fmax(a, b);
    return isinf(pair) ? 0 : fmin(a, b) / pair;
}

static void find_pair(const struct film *film, const double *x, const double *neat, struct film_synergy *synergy) {
    double best = 1;
    for (size_t i = 0; i < film->count; i++)
        for (size_t j = i + 1; j < film->count; j++) {
            if (!(x[i] > 0 && x[j] > 0))
                continue;
            double excess = pair_excess(synergy->kind, pair_swelling(film, x, i, j), neat[i], neat[j]);
            if (!(excess > best))
                continue;
            best = excess;
            synergy->first = i;
            synergy->second = j;
        }
}

// Swelling by each component alone; NAN for absent ones. False when a film failed.
static bool neat_swellings(const struct film *film, const double *x, double *ret_neat) {
    bool right = true;
    for (size_t i = 0; i < film->count; i++) {
        ret_neat[i] = x[i] > 0 ? neat_swelling(film, i) : NAN;
        right = right && !(x[i] > 0 && isnan(ret_neat[i]));
    }
    return right;
}

bool film_find_synergy(const struct film *film, const double *x, const struct film_result *result,
                       struct film_synergy *ret) {
    struct film_synergy found = {.swelling = swelling_of(result), .first = SIZE_MAX, .second = SIZE_MAX};
    double neat[BLEND_COMPONENTS_MAX] = {0};
    if (!neat_swellings(film, x, neat) || isnan(found.swelling))
        return false;
    while (!(x[found.mildest] > 0))
        found.mildest++;
    found.strongest = found.mildest;
    for (size_t i = 0; i < film->count; i++) {
        if (neat[i] < neat[found.mildest])
            found.mildest = i;
        if (neat[i] > neat[found.strongest])
            found.strongest = i;
    }
    found.least = neat[found.mildest];
    found.most = neat[found.strongest];
    found.kind = kind_of(found.swelling, found.least, found.most);
    if (found.kind != FILM_BETWEEN)
        find_pair(film, x, neat, &found);
    *ret = found;
    return true;
}

// Why, as far as the liquid tells: both activity coefficients of the pair on the same side of 1, or else the place that
// they have together.
static const char *reason_of(const struct film *film, const struct film_synergy *synergy, const double *x) {
    double pair[BLEND_COMPONENTS_MAX] = {0}, ln_gamma[BLEND_COMPONENTS_MAX];
    size_t i = synergy->first, j = synergy->second;
    pair[i] = x[i];
    pair[j] = x[j];
    activity_ln_gamma(film->activity, pair, ln_gamma);
    if (synergy->kind == FILM_ABOVE)
        return ln_gamma[i] > 0 && ln_gamma[j] > 0 ? "each has a higher activity in the other than its share"
                                                  : "together they suit the film better than either";
    return ln_gamma[i] < 0 && ln_gamma[j] < 0 ? "each has a lower activity in the other than its share"
                                              : "together they suit the film less than either";
}

void film_synergy_sentence(const struct film *film, const struct film_synergy *synergy, const double *x, char *ret,
                           size_t size) {
    ret[0] = '\0';
    if (synergy->kind == FILM_BETWEEN || !film->activity)
        return;
    const struct component *const *components = film->activity->components;
    bool above = synergy->kind == FILM_ABOVE;
    const char *single = components[above ? synergy->strongest : synergy->mildest]->name;
    const char *words =
        above ? "The blend swells the film more than %s alone" : "The blend swells the film less than %s";
    if (isinf(above ? synergy->swelling : synergy->least))
        words =
            above ? "The blend dissolves the film, which %s alone doesn't" : "%s dissolves the film, the blend doesn't";
    int used = snprintf(ret, size, words, single);
    if (synergy->first == SIZE_MAX || used < 0 || (size_t)used >= size)
        return;
    snprintf(ret + used, size - (size_t)used, ": %s with %s: %s", components[synergy->first]->name,
             components[synergy->second]->name, reason_of(film, synergy, x));
}
