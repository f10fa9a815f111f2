// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/vapour.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/units.h"
#include "physics/phase_split.h"
#include "physics/solve.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

// --- a liquid at one temperature ---

static void best_pressures(struct vapour_liquid *liquid) {
    double temp_c = celsius_from_kelvin(liquid->activity.temp_k);
    for (size_t i = 0; i < liquid->activity.count; i++)
        if (component_pressure_kpa(liquid->activity.components[i], temp_c, &liquid->psat_kpa[i], &liquid->source[i],
                                   NULL) != STATUS_OK)
            liquid->psat_kpa[i] = NAN;
}

static void curve_pressures(struct vapour_liquid *liquid) {
    double temp_c = celsius_from_kelvin(liquid->activity.temp_k);
    for (size_t i = 0; i < liquid->activity.count; i++) {
        const struct properties *properties = liquid->activity.components[i]->properties;
        bool outside = false;
        liquid->psat_kpa[i] = properties ? antoine_curve_kpa(&properties->antoine, temp_c, &outside) : NAN;
        liquid->source[i] = outside ? PRESSURE_EXTRAPOLATED : PRESSURE_CURVE;
    }
}

enum status vapour_liquid_prepare(const struct unifac_table *table, const struct component *const *components,
                                  size_t count, double temp_k, struct vapour_liquid *ret, struct error *err) {
    enum status status = activity_prepare(table, components, count, temp_k, &ret->activity, err);
    if (status == STATUS_OK)
        best_pressures(ret);
    return status;
}

enum status vapour_liquid_set_temperature(struct vapour_liquid *liquid, double temp_k, struct error *err) {
    enum status status = activity_set_temperature(&liquid->activity, temp_k, err);
    if (status == STATUS_OK)
        curve_pressures(liquid);
    return status;
}

enum status vapour_liquid_complete(const struct vapour_liquid *liquid, struct error *err) {
    if (!activity_covers(&liquid->activity))
        return error_set(err, STATUS_NO_DATA, "%s", liquid->activity.coverage.sentence);
    for (size_t i = 0; i < liquid->activity.count; i++)
        if (isnan(liquid->psat_kpa[i]))
            return error_set(
                err, STATUS_NO_DATA,
                "no vapour pressure of %s is known at %g degC; put antoine or vapour_pressure_20c into your "
                "own properties.yaml",
                liquid->activity.components[i]->id, celsius_from_kelvin(liquid->activity.temp_k));
    return STATUS_OK;
}

// --- activities, also of a liquid that has split ---

// Over two liquids a component has one activity a_i. With mole shares s, s' and the coefficients g_i, g'_i in the two,
// its overall amount x_i = s a_i/g_i + s' a_i/g'_i, so that a_i/x_i = 1 / (s/g_i + s'/g'_i): also for x_i = 0.
static void ln_gamma_over_two(const struct activity_model *model, const struct phase_split *split,
                              double *ret_ln_gamma) {
    double first[BLEND_COMPONENTS_MAX], second[BLEND_COMPONENTS_MAX];
    activity_ln_gamma(model, split->x[0], first);
    activity_ln_gamma(model, split->x[1], second);
    for (size_t i = 0; i < model->count; i++)
        ret_ln_gamma[i] = -log(split->mole_share[0] * exp(-first[i]) + split->mole_share[1] * exp(-second[i]));
}

// So near a critical point that the split loses itself in rounding or in small steps, the liquid is taken as one: with
// a tangent-plane distance of d the activities of the two differ by about |d|^(3/4), here by less than 2e-4.
static const double distance_critical = -1e-5;

void vapour_present(size_t count, const double *x, double *ret_present) {
    static const double share_least = 1e-20;
    for (size_t i = 0; i < count; i++)
        ret_present[i] = x[i] < share_least ? 0 : x[i];
}

// No component of a liquid in equilibrium is more active than its neat liquid, which would otherwise come out of it
// (the tangent-plane condition at the neat liquid). Where a third liquid forms, of which the two found know nothing, it
// is that liquid that holds the activity down.
static void hold_below_neat(size_t count, const double *x, double *ln_gamma) {
    for (size_t i = 0; i < count; i++)
        if (x[i] > 0)
            ln_gamma[i] = fmin(ln_gamma[i], -log(x[i]));
}

// ln gamma over the overall composition x.
static enum status overall_ln_gamma(const struct activity_model *model, const double *x, double *ret_ln_gamma,
                                    bool *ret_two, struct error *err) {
    struct stability tested;
    struct phase_split split;
    double present[BLEND_COMPONENTS_MAX];
    *ret_two = false;
    activity_ln_gamma(model, x, ret_ln_gamma);
    if (model->count == 1)
        return STATUS_OK;
    vapour_present(model->count, x, present);
    enum status status = stability_test(model, present, &tested, err);
    if (status != STATUS_OK || tested.stable)
        return status;
    status = phase_split_find(model, present, &tested, &split, err);
    if (status == STATUS_NO_ROOT || (status == STATUS_ITERATIONS && tested.distance > distance_critical)) {
        error_clear(err);
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return status;
    *ret_two = true;
    ln_gamma_over_two(model, &split, ret_ln_gamma);
    hold_below_neat(model->count, x, ret_ln_gamma);
    return STATUS_OK;
}

enum status vapour_coefficients(const struct vapour_liquid *liquid, const double *x, double *ret_c_kpa, bool *ret_two,
                                struct error *err) {
    assert(activity_covers(&liquid->activity));
    double ln_gamma[BLEND_COMPONENTS_MAX];
    bool two = false;
    enum status status = overall_ln_gamma(&liquid->activity, x, ln_gamma, &two, err);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < liquid->activity.count; i++)
        ret_c_kpa[i] = exp(ln_gamma[i]) * liquid->psat_kpa[i];
    if (ret_two)
        *ret_two = two;
    return STATUS_OK;
}

enum status vapour_pressures(const struct vapour_liquid *liquid, const double *x, double *ret_p_kpa, bool *ret_two,
                             struct error *err) {
    double c_kpa[BLEND_COMPONENTS_MAX];
    enum status status = vapour_coefficients(liquid, x, c_kpa, ret_two, err);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < liquid->activity.count; i++)
        ret_p_kpa[i] = c_kpa[i] * x[i];
    return STATUS_OK;
}

// --- boiling ---

struct bubble_problem {
    struct vapour_liquid *liquid;
    const double *x;
    double p_kpa;
    struct error *err;
};

// ln(p/p wanted): nearly straight in 1/T, so that the root is found in a few steps.
static double ln_pressure_ratio(double temp_k, void *context) {
    struct bubble_problem *problem = context;
    double p[BLEND_COMPONENTS_MAX], total = 0;
    if (vapour_liquid_set_temperature(problem->liquid, temp_k, problem->err) != STATUS_OK ||
        vapour_pressures(problem->liquid, problem->x, p, NULL, problem->err) != STATUS_OK)
        return NAN;
    for (size_t i = 0; i < problem->liquid->activity.count; i++)
        total += p[i];
    return log(total / problem->p_kpa);
}

static const double temp_step = 20;       // K
static const double temp_k_room = 298.15; // where a search begins

// Walks from the present temperature until the pressure is on the other side. -inf (no pressure at all below every
// pole) counts as below.
static bool bracket(struct bubble_problem *problem, double *ret_low, double *ret_high) {
    double here = problem->liquid->activity.temp_k;
    double ratio = ln_pressure_ratio(here, problem);
    double step = ratio > 0 ? -temp_step : temp_step;
    while (!isnan(ratio)) {
        double next = fmin(fmax(here + step, ACTIVITY_TEMP_K_LEAST), ACTIVITY_TEMP_K_MOST);
        if (next == here)
            return false;
        double ratio_next = ln_pressure_ratio(next, problem);
        if (!isnan(ratio_next) && (ratio_next > 0) != (ratio > 0)) {
            *ret_low = fmin(here, next);
            *ret_high = fmax(here, next);
            return true;
        }
        here = next;
        ratio = ratio_next;
    }
    return false;
}

enum status bubble_temperature(struct vapour_liquid *liquid, const double *x, double p_kpa, double *ret_temp_k,
                               struct error *err) {
    static const struct solve_stop stop = {.absolute = 1e-7, .most = 100};
    enum status status = vapour_liquid_complete(liquid, err);
    if (status != STATUS_OK)
        return status;
    struct error why = {0};
    struct bubble_problem problem = {.liquid = liquid, .x = x, .p_kpa = p_kpa, .err = &why};
    double low = NAN, high = NAN, temp_k = NAN;
    if (!bracket(&problem, &low, &high))
        return error_set(err, STATUS_NO_ROOT, "no boiling point at %g kPa between %g and %g K%s%s", p_kpa,
                         ACTIVITY_TEMP_K_LEAST, ACTIVITY_TEMP_K_MOST, why.text[0] ? ": " : "", why.text);
    status = solve_root(ln_pressure_ratio, &problem, low, high, &stop, &temp_k, err);
    if (status == STATUS_OK)
        status = vapour_liquid_set_temperature(liquid, temp_k, err);
    if (status == STATUS_OK)
        *ret_temp_k = temp_k;
    return status;
}

enum status boiling_point_of_blend(const struct unifac_table *table, const struct blend *blend, double *ret_temp_c,
                                   struct error *err) {
    struct vapour_liquid liquid;
    double x[BLEND_COMPONENTS_MAX], temp_k;
    enum status status = blend_mole_fractions(blend, x, err);
    if (status == STATUS_OK)
        status = vapour_liquid_prepare(table, blend->components, blend->count, temp_k_room, &liquid, err);
    if (status == STATUS_OK)
        status = bubble_temperature(&liquid, x, ATMOSPHERE_KPA, &temp_k, err);
    if (status == STATUS_OK)
        *ret_temp_c = celsius_from_kelvin(temp_k);
    return status;
}

// --- the vapour over a blend ---

static void tell(struct vapour *vapour, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void tell(struct vapour *vapour, const char *format, ...) {
    size_t used = strlen(vapour->sentence);
    va_list arguments;
    va_start(arguments, format);
    vprint_words(vapour->sentence + used, sizeof vapour->sentence - used, format, arguments);
    va_end(arguments);
}

static void say_doubts(struct vapour *vapour, const struct activity_coverage *coverage) {
    tell(vapour, "%s", coverage->sentence);
    size_t said = 0;
    for (size_t i = 0; i < vapour->count; i++)
        if (isnan(vapour->parts[i].psat_kpa))
            tell(vapour, "%s%s", said++ ? ", " : say("; no vapour pressure is known of "),
                 vapour->parts[i].component->id);
    said = 0;
    for (size_t i = 0; i < vapour->count; i++)
        if (!isnan(vapour->parts[i].psat_kpa) && vapour->parts[i].source == PRESSURE_EXTRAPOLATED)
            tell(vapour, "%s%s", said++ ? ", " : say("; vapour pressure curve used outside its range for "),
                 vapour->parts[i].component->id);
    vapour->extrapolated = said > 0;
}

static void fill_part(struct vapour *vapour, size_t i, double activity) {
    struct vapour_part *part = &vapour->parts[i];
    double mass = part->component->properties ? part->component->properties->molar_mass.value : NAN;
    part->activity = activity;
    part->p_kpa = activity * part->psat_kpa;
    part->saturated_mg_m3 = saturated_mg_m3(part->p_kpa, mass, vapour->temp_c);
}

// Activities do not wait for pressures: a component without a curve has one all the same.
static enum status fill(const struct vapour_liquid *liquid, const double *x, struct vapour *vapour, struct error *err) {
    double ln_gamma[BLEND_COMPONENTS_MAX];
    enum status status = overall_ln_gamma(&liquid->activity, x, ln_gamma, &vapour->two, err);
    if (status != STATUS_OK)
        return status;
    double total = 0;
    for (size_t i = 0; i < vapour->count; i++) {
        fill_part(vapour, i, x[i] * exp(ln_gamma[i]));
        total += vapour->parts[i].p_kpa;
    }
    vapour->total_kpa = total;
    vapour->complete = !isnan(total);
    for (size_t i = 0; i < vapour->count; i++)
        vapour->parts[i].y = vapour->parts[i].p_kpa / total;
    return STATUS_OK;
}

enum status vapour_over_blend(const struct unifac_table *table, const struct blend *blend, double temp_c,
                              struct vapour *ret, struct error *err) {
    struct vapour_liquid liquid;
    double x[BLEND_COMPONENTS_MAX];
    enum status status = blend_mole_fractions(blend, x, err);
    if (status == STATUS_OK)
        status =
            vapour_liquid_prepare(table, blend->components, blend->count, kelvin_from_celsius(temp_c), &liquid, err);
    if (status != STATUS_OK)
        return status;
    struct vapour vapour = {.temp_c = temp_c, .count = blend->count, .total_kpa = NAN};
    vapour.weak = liquid.activity.coverage.weak;
    for (size_t i = 0; i < blend->count; i++)
        vapour.parts[i] = (struct vapour_part){.component = blend->components[i],
                                               .x = x[i],
                                               .activity = NAN,
                                               .psat_kpa = liquid.psat_kpa[i],
                                               .source = liquid.source[i],
                                               .p_kpa = NAN,
                                               .y = NAN,
                                               .saturated_mg_m3 = NAN};
    if (activity_covers(&liquid.activity))
        status = fill(&liquid, x, &vapour, err);
    if (status != STATUS_OK)
        return status;
    say_doubts(&vapour, &liquid.activity.coverage);
    *ret = vapour;
    return STATUS_OK;
}

double vapour_hazard_ratio(double p_kpa, double limit_ppm) {
    return limit_ppm > 0 ? saturated_ppm(p_kpa) / limit_ppm : NAN;
}
