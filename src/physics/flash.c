// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/flash.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/units.h"
#include "physics/solve.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

// --- the equation ---

// Inside the range of activity.h by more than the rounding of the two scales.
static const double temp_c_least = ACTIVITY_TEMP_K_LEAST - ZERO_CELSIUS_K + 1e-6;
static const double temp_c_most = ACTIVITY_TEMP_K_MOST - ZERO_CELSIUS_K - 1e-6;
static const double temp_step = 10; // K
static const struct solve_stop flash_stop = {.absolute = 1e-6, .most = 100};

struct flash_search {
    const struct flash_problem *problem;
    double at_flash_kpa[BLEND_COMPONENTS_MAX]; // psat of each fuel at its own flash point
    double total_kpa;                          // of the last evaluation
};

// ln sum_i a_i psat_i(T)/psat_i(T_flash,i): nearly straight in 1/T.
static double ln_flash_sum(double temp_c, void *context) {
    struct flash_search *search = context;
    const struct flash_problem *problem = search->problem;
    double ln_a[BLEND_COMPONENTS_MAX], sum = 0, total = 0;
    if (!problem->activities(temp_c, ln_a, problem->context))
        return NAN;
    for (size_t i = 0; i < problem->count; i++) {
        double p_kpa = exp(ln_a[i]) * antoine_curve_kpa(&problem->antoine[i], temp_c, NULL);
        total += p_kpa;
        if (!isnan(problem->flash_c[i]))
            sum += p_kpa / search->at_flash_kpa[i];
    }
    search->total_kpa = total;
    return isnan(total) ? NAN : log(sum);
}

static enum status begin(struct flash_search *search, double *ret_lowest_c, struct error *err) {
    const struct flash_problem *problem = search->problem;
    double lowest = NAN;
    for (size_t i = 0; i < problem->count; i++) {
        if (isnan(problem->flash_c[i]))
            continue;
        lowest = fmin(lowest, problem->flash_c[i]); // fmin passes over NAN
        search->at_flash_kpa[i] = antoine_curve_kpa(&problem->antoine[i], problem->flash_c[i], NULL);
        if (!(search->at_flash_kpa[i] > 0))
            return error_set(err, STATUS_NO_DATA, "no vapour pressure at a flash point of %g degC",
                             problem->flash_c[i]);
    }
    if (isnan(lowest))
        return error_set(err, STATUS_NO_ROOT, "nothing in the blend has a flash point");
    *ret_lowest_c = lowest;
    return STATUS_OK;
}

static enum status no_flash(const struct flash_search *search, double sum, struct error *err) {
    if (isnan(sum))
        return error_set(err, STATUS_NO_DATA, "the vapour over the blend is not known");
    return error_set(err, STATUS_NO_ROOT, "no flash point %s",
                     search->total_kpa >= ATMOSPHERE_KPA ? say("below boiling") : say("in the range of the model"));
}

// Down from the lowest flash point where the sum is above 1 there, up where it is below.
static enum status bracket(struct flash_search *search, double start, double *ret_low, double *ret_high,
                           struct error *err) {
    double here = start, sum = ln_flash_sum(here, search);
    double step = sum > 0 ? -temp_step : temp_step;
    while (!isnan(sum)) {
        double next = fmin(fmax(here + step, temp_c_least), temp_c_most);
        if (next == here || (step > 0 && search->total_kpa >= ATMOSPHERE_KPA))
            break;
        double sum_next = ln_flash_sum(next, search);
        if (!isnan(sum_next) && (sum_next > 0) != (sum > 0)) {
            *ret_low = fmin(here, next);
            *ret_high = fmax(here, next);
            return STATUS_OK;
        }
        here = next;
        sum = sum_next;
    }
    return no_flash(search, sum, err);
}

enum status flash_solve(const struct flash_problem *problem, double *ret_temp_c, struct error *err) {
    struct flash_search search = {.problem = problem};
    double start = NAN, low = NAN, high = NAN, temp_c = NAN;
    enum status status = begin(&search, &start, err);
    if (status == STATUS_OK)
        status = bracket(&search, start, &low, &high, err);
    if (status == STATUS_OK)
        status = solve_root(ln_flash_sum, &search, low, high, &flash_stop, &temp_c, err);
    if (status != STATUS_OK)
        return status;
    ln_flash_sum(temp_c, &search);
    if (search.total_kpa >= ATMOSPHERE_KPA)
        return no_flash(&search, 0, err);
    *ret_temp_c = temp_c;
    return STATUS_OK;
}

// --- a blend ---

static void tell(struct flash *flash, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void tell(struct flash *flash, const char *format, ...) {
    size_t used = strlen(flash->sentence);
    va_list arguments;
    va_start(arguments, format);
    vprint_words(flash->sentence + used, sizeof flash->sentence - used, format, arguments);
    va_end(arguments);
}

static double flash_point(const struct component *component) {
    return component->properties ? component->properties->flash_point.value : NAN;
}

static bool without_flash_point(const struct component *component) {
    return component->family == FAMILY_WATER || component->family == FAMILY_CHLORINATED;
}

struct blend_liquid {
    struct vapour_liquid *liquid;
    const double *x;
};

static bool blend_activities(double temp_c, double *ret_ln_a, void *context) {
    struct blend_liquid *blend = context;
    double p[BLEND_COMPONENTS_MAX];
    if (activity_set_temperature(&blend->liquid->activity, kelvin_from_celsius(temp_c), NULL) != STATUS_OK)
        return false;
    for (size_t i = 0; i < blend->liquid->activity.count; i++)
        blend->liquid->psat_kpa[i] = 1; // the curves are the flash equation's; here only the activities are wanted
    if (vapour_pressures(blend->liquid, blend->x, p, NULL, NULL) != STATUS_OK)
        return false;
    for (size_t i = 0; i < blend->liquid->activity.count; i++)
        ret_ln_a[i] = log(p[i]);
    return true;
}

static enum status solve_blend(struct vapour_liquid *liquid, const double *x, double *ret_c, struct error *err) {
    enum status status = vapour_liquid_complete(liquid, err);
    if (status != STATUS_OK)
        return status;
    struct blend_liquid context = {.liquid = liquid, .x = x};
    struct flash_problem problem = {
        .count = liquid->activity.count, .activities = blend_activities, .context = &context};
    for (size_t i = 0; i < problem.count; i++) {
        const struct component *component = liquid->activity.components[i];
        problem.antoine[i] = component->properties->antoine;
        problem.flash_c[i] = flash_point(component);
    }
    return flash_solve(&problem, ret_c, err);
}

static void find_lowest(const struct blend *blend, struct flash *flash) {
    for (size_t i = 0; i < blend->count; i++) {
        double own = flash_point(blend->components[i]);
        flash->flammable = flash->flammable || !isnan(own) || !without_flash_point(blend->components[i]);
        if (isnan(own) || blend->volume_fractions[i] < FLASH_TRACE_FRACTION)
            continue;
        if (!flash->lowest || own < flash->lowest_component_c) {
            flash->lowest_component_c = own;
            flash->lowest = blend->components[i];
        }
    }
}

static const struct component *find_unknown(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (isnan(flash_point(blend->components[i])) && !without_flash_point(blend->components[i]))
            return blend->components[i];
    return NULL;
}

// A fault of the system is passed on; all else becomes part of the answer.
static enum status apply_model(struct vapour_liquid *liquid, const struct blend *blend, const double *x,
                               struct flash *flash, struct error *err) {
    struct error why = {0};
    const struct component *unknown = find_unknown(blend);
    if (unknown) {
        tell(flash, "no flash point by the model: that of %s is not known", unknown->id);
        return STATUS_OK;
    }
    enum status status = solve_blend(liquid, x, &flash->model_c, &why);
    if (status == STATUS_MEMORY)
        return error_set(err, status, "%s", why.text);
    flash->complete = status == STATUS_OK || status == STATUS_NO_ROOT;
    flash->none_below_boiling = status == STATUS_NO_ROOT;
    if (status == STATUS_OK)
        tell(flash, "%.0f degC by the model (%s)", flash->model_c, liquid->activity.coverage.sentence);
    else
        tell(flash, "no flash point by the model: %s", why.text);
    return STATUS_OK;
}

static void conclude(struct flash *flash) {
    flash->display_c = fmin(flash->model_c, flash->lowest_component_c); // fmin passes over NAN
    if (!flash->flammable)
        return;
    if (flash->lowest)
        tell(flash, "; the lowest of a component is %.0f degC (%s)", flash->lowest_component_c, flash->lowest->id);
    if (!flash->complete && flash->lowest)
        tell(flash, "; the blend's own may be lower still");
    flash->minimum = flash->model_c < flash->lowest_component_c - 0.05; // the last digit of a listed flash point
    if (flash->minimum)
        tell(flash, "; the blend ignites below every component of it");
    else if (flash->model_c > flash->lowest_component_c)
        tell(flash, "; the lower one is taken");
}

enum status flash_point_of_blend(const struct unifac_table *table, const struct blend *blend, struct flash *ret,
                                 struct error *err) {
    double x[BLEND_COMPONENTS_MAX];
    struct vapour_liquid liquid;
    enum status status = blend_mole_fractions(blend, x, err);
    if (status == STATUS_OK)
        status = vapour_liquid_prepare(table, blend->components, blend->count, kelvin_from_celsius(25), &liquid, err);
    if (status != STATUS_OK)
        return status;
    struct flash flash = {.model_c = NAN, .lowest_component_c = NAN, .display_c = NAN};
    flash.weak = liquid.activity.coverage.weak;
    find_lowest(blend, &flash);
    if (flash.flammable) {
        status = apply_model(&liquid, blend, x, &flash, err);
    } else {
        flash.complete = true;
        tell(&flash, "nothing in this blend has a flash point by closed cup; hot or sprayed, the vapour of chlorinated "
                     "solvents can still burn and decompose");
    }
    if (status != STATUS_OK)
        return status;
    conclude(&flash);
    *ret = flash;
    return STATUS_OK;
}

// --- the limit of the vapour ---

struct limit_search {
    const struct antoine_values *antoine;
    double p_kpa;
};

static double ln_limit_ratio(double temp_c, void *context) {
    struct limit_search *search = context;
    return log(antoine_curve_kpa(search->antoine, temp_c, NULL) / search->p_kpa);
}

enum status flash_from_lower_limit(const struct component *component, double *ret_temp_c, struct error *err) {
    const struct properties *properties = component->properties;
    if (!properties || isnan(properties->lower_flammable_limit.value) || isnan(properties->antoine.a))
        return error_set(err, STATUS_NO_DATA, "no lower flammable limit or no vapour pressure curve for '%s'",
                         component->id);
    struct limit_search search = {.antoine = &properties->antoine,
                                  .p_kpa = properties->lower_flammable_limit.value / 100 * ATMOSPHERE_KPA};
    double low = fmax(temp_c_least, 1 - properties->antoine.c); // the pole is at -c
    return solve_root(ln_limit_ratio, &search, low, temp_c_most, &flash_stop, ret_temp_c, err);
}

double le_chatelier(const double *y, const double *limits, size_t count) {
    double fuel = 0, sum = 0;
    for (size_t i = 0; i < count; i++) {
        if (!(y[i] > 0))
            continue;
        fuel += y[i];
        sum += y[i] / limits[i];
    }
    return fuel > 0 ? fuel / sum : NAN;
}

// A fuel is whatever has a lower limit or ought to have one: all but water and the chlorinated solvents without one.
static bool is_fuel(const struct component *component) {
    return !without_flash_point(component) ||
           (component->properties && !isnan(component->properties->lower_flammable_limit.value));
}

static double fuel_pressure(const struct vapour *vapour) {
    double total = 0;
    for (size_t i = 0; i < vapour->count; i++)
        if (is_fuel(vapour->parts[i].component))
            total += vapour->parts[i].p_kpa;
    return total;
}

// A fuel so scarce in the vapour that its limit, were it known, would move the blend's by less than 1 %.
static bool is_trace_of_unknown(const struct properties *properties, double p_kpa, double fuel_kpa) {
    return p_kpa < FLASH_TRACE_FRACTION * fuel_kpa && (!properties || isnan(properties->lower_flammable_limit.value));
}

void flammable_vapour_of(const struct vapour *vapour, struct flammable_vapour *ret) {
    double p[BLEND_COMPONENTS_MAX], lower[BLEND_COMPONENTS_MAX], upper[BLEND_COMPONENTS_MAX];
    size_t fuels = 0;
    double fuel_kpa = fuel_pressure(vapour);
    *ret = (struct flammable_vapour){.share_of_lower = 0};
    for (size_t i = 0; i < vapour->count; i++) {
        const struct component *component = vapour->parts[i].component;
        const struct properties *properties = component->properties;
        p[fuels] = vapour->parts[i].p_kpa;
        if (!is_fuel(component) || is_trace_of_unknown(properties, p[fuels], fuel_kpa))
            continue;
        lower[fuels] = properties ? properties->lower_flammable_limit.value : NAN;
        upper[fuels] = properties ? properties->upper_flammable_limit.value : NAN;
        if (isnan(lower[fuels]) && !ret->unknown)
            ret->unknown = component;
        ret->share_of_lower += p[fuels] / ATMOSPHERE_KPA * 100 / lower[fuels];
        fuels++;
    }
    bool known = !isnan(ret->share_of_lower); // NAN pressures and limits both end here
    ret->lower_limit_vol_pct = known ? le_chatelier(p, lower, fuels) : NAN;
    ret->upper_limit_vol_pct = known ? le_chatelier(p, upper, fuels) : NAN;
    if (fuels == 0)
        ret->share_of_lower = NAN;
}

// --- GHS ---

enum ghs_flammable ghs_flammable_category(double flash_c, double boiling_c) {
    if (isnan(flash_c) || flash_c > 93)
        return GHS_NOT_FLAMMABLE;
    if (flash_c > 60)
        return GHS_FLAMMABLE_4;
    if (flash_c >= 23)
        return GHS_FLAMMABLE_3;
    if (isnan(boiling_c))
        return GHS_UNKNOWN;
    return boiling_c <= 35 ? GHS_FLAMMABLE_1 : GHS_FLAMMABLE_2;
}

const char *ghs_flammable_statement(enum ghs_flammable category) {
    static const char *const statements[] = {NULL, "H224", "H225", "H226", "H227", NULL};
    return statements[category];
}

enum status ghs_flammable_of_blend(const struct unifac_table *table, const struct blend *blend,
                                   const struct flash *flash, enum ghs_flammable *ret, double *ret_boiling_c,
                                   struct error *err) {
    double boiling_c = NAN;
    enum status status = boiling_point_of_blend(table, blend, &boiling_c, err);
    if (status == STATUS_MEMORY)
        return status;
    error_clear(err); // a boiling point that can't be given is an answer, not a failure
    bool known = flash->complete || flash->display_c < 23;
    *ret = known ? ghs_flammable_category(flash->display_c, boiling_c) : GHS_UNKNOWN;
    if (ret_boiling_c)
        *ret_boiling_c = boiling_c;
    return STATUS_OK;
}
