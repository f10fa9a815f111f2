// SPDX-License-Identifier: GPL-3.0-or-later
// A blend as it dries.
#include "base/units.h"
#include "draw.h"
#include "physics/diffusion.h"
#include "physics/evaporation.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

static bool follow(struct trial *trial, const struct blend *blend, double temp_c, struct evaporation *ret) {
    struct evaporation_options options = {.temp_c = temp_c};
    return evaporation_follow(trial->lib, trial->unifac, blend, &options, ret, NULL) == STATUS_OK;
}

static double draw_temp_c(struct trial *trial) {
    double temp_c = 10 + 20 * random_uniform(&trial->random);
    note(trial, "%.4f degC: ", temp_c);
    return temp_c;
}

// --- balance ---

static enum outcome sound_point(struct trial *trial, const struct evaporation *path, size_t at, const double *start,
                                const double *before) {
    const struct evaporation_point *point = &path->points[at];
    double x = 0, phi = 0, volume = 0, whole = 0, left = 1 - point->evaporated;
    for (size_t i = 0; i < path->blend.count; i++) {
        double v = path->blend.components[i]->molar_volume.value;
        REQUIRE(point->x[i] >= 0 && point->x[i] <= 1 + 1e-12, "share %g", point->x[i]);
        // What stays is no more than what was there before: all that is lacking has left.
        REQUIRE(left * point->x[i] <= before[i] * (1 + 1e-6) + 1e-12, "%s grows while it dries",
                path->blend.components[i]->id);
        x += point->x[i];
        phi += point->phi[i];
        volume += left * point->x[i] * v;
        whole += start[i] * v;
    }
    REQUIRE(fabs(x - 1) < 1e-9 && fabs(phi - 1) < 1e-9, "shares sum to %.12g", x);
    REQUIRE(alike(point->volume_left, volume / whole, 1e-6, 1e-12), "%g of the volume left, by the parts %g",
            point->volume_left, volume / whole);
    REQUIRE(!(point->total_kpa < 0) && point->time >= 0 && isfinite(point->time), "%g kPa, time %g", point->total_kpa,
            point->time);
    return HELD;
}

static enum outcome what_left_and_what_stays(struct trial *trial) {
    static struct evaporation path;
    struct blend blend = draw_blend(trial, 4);
    double start[BLEND_COMPONENTS_MAX], before[BLEND_COMPONENTS_MAX];
    if (!follow(trial, &blend, draw_temp_c(trial), &path))
        return NOT_COVERED;
    REQUIRE(path.count >= 1 && path.sentence[0] && blend_mole_fractions(&blend, start, NULL) == STATUS_OK, "no path");
    for (size_t i = 0; i < blend.count; i++)
        before[i] = start[i];
    for (size_t at = 0; at < path.count; at++) {
        const struct evaporation_point *point = &path.points[at];
        PART(sound_point(trial, &path, at, start, before));
        REQUIRE(at == 0 || (point->time > point[-1].time && point->volume_left < point[-1].volume_left),
                "time or volume stands still at %g evaporated", point->evaporated);
        for (size_t i = 0; i < blend.count; i++)
            before[i] = (1 - point->evaporated) * point->x[i];
    }
    REQUIRE(path.stop != DRIFT_COMPLETE || (path.time_50 < path.time_90 && path.time_90 < path.time_95), "times");
    return HELD;
}

static bool three_liquids_on_the_way(struct trial *trial, const struct evaporation *path) {
    for (size_t at = 0; at < path->count; at += 4)
        if (path->points[at].two &&
            three_liquids(trial, &path->blend, path->points[at].x, kelvin_from_celsius(path->temp_c)))
            return true;
    return false;
}

static enum outcome drying_is_of_the_liquid(struct trial *trial) {
    static struct evaporation one, two, twins;
    struct blend blend = draw_blend(trial, 3);
    struct rewritten other;
    struct doubled doubled;
    double temp_c = draw_temp_c(trial);
    if (!rewrite_blend(trial, &blend, &other) || !double_component(trial, &blend, &doubled) ||
        !follow(trial, &blend, temp_c, &one) || three_liquids_on_the_way(trial, &one))
        return NOT_COVERED;
    REQUIRE(follow(trial, &other.blend, temp_c, &two) && follow(trial, &doubled.blend, temp_c, &twins),
            "only one of the three is answered");
    REQUIRE(one.count == two.count && one.count == twins.count, "%zu, %zu and %zu points", one.count, two.count,
            twins.count);
    for (size_t at = 0; at < one.count; at += 5) {
        const struct evaporation_point *a = &one.points[at], *b = &two.points[at], *c = &twins.points[at];
        REQUIRE(alike(a->time, b->time, 1e-4, 1e-9) && alike(a->time, c->time, 1e-4, 1e-9), "times %.9g, %.9g, %.9g",
                a->time, b->time, c->time);
        for (size_t i = 0; i < blend.count; i++) {
            double together = c->x[i] + (i == doubled.of ? c->x[doubled.with] : 0);
            REQUIRE(alike(a->x[i], b->x[other.place[i]], 1e-4, 1e-5) && alike(a->x[i], together, 1e-4, 1e-5),
                    "%s at %g evaporated: %.9g, %.9g, with a twin %.9g", blend.components[i]->id, a->evaporated,
                    a->x[i], b->x[other.place[i]], together);
        }
    }
    return HELD;
}

// --- another integrator ---

// The amounts themselves against time, d n_i/dt = -k_i p_i, where src follows their logarithms against the logarithm of
// what is left.
struct dish {
    struct vapour_liquid liquid;
    double k[BLEND_COMPONENTS_MAX];
    size_t count;
};

static int loss(double t, const double *n, double *ret_dn, void *context) {
    struct dish *dish = context;
    double x[BLEND_COMPONENTS_MAX], p[BLEND_COMPONENTS_MAX], sum = 0;
    (void)t;
    for (size_t i = 0; i < dish->count; i++)
        sum += fmax(n[i], 0);
    for (size_t i = 0; i < dish->count; i++)
        x[i] = fmax(n[i], 0) / sum;
    if (!(sum > 0) || vapour_pressures(&dish->liquid, x, p, NULL, NULL) != STATUS_OK)
        return GSL_EBADFUNC;
    for (size_t i = 0; i < dish->count; i++)
        ret_dn[i] = -dish->k[i] * p[i];
    return GSL_SUCCESS;
}

static bool prepare_dish(struct trial *trial, const struct blend *blend, double temp_k, struct dish *ret) {
    ret->count = blend->count;
    if (vapour_liquid_prepare(trial->unifac, blend->components, blend->count, temp_k, &ret->liquid, NULL) != STATUS_OK)
        return false;
    for (size_t i = 0; i < blend->count; i++) {
        double cm2_s;
        if (diffusivity_in_air(blend->components[i], temp_k, &cm2_s, NULL) != STATUS_OK)
            return false;
        ret->k[i] = cbrt(cm2_s * cm2_s);
    }
    return true;
}

// Volume of one mole over what a volume of the measure loses in a unit of time.
static bool time_unit(struct trial *trial, const struct blend *blend, const double *x, double temp_c, double *ret) {
    const struct component *measure = tables_component(trial->lib, evaporation_reference_id);
    double cm2_s, p_kpa, volume = 0;
    enum pressure_source source;
    if (diffusivity_in_air(measure, kelvin_from_celsius(temp_c), &cm2_s, NULL) != STATUS_OK ||
        component_pressure_kpa(measure, temp_c, &p_kpa, &source, NULL) != STATUS_OK)
        return false;
    for (size_t i = 0; i < blend->count; i++)
        volume += x[i] * blend->components[i]->molar_volume.value;
    *ret = volume / (cbrt(cm2_s * cm2_s) * p_kpa * measure->molar_volume.value);
    return true;
}

static enum outcome meets_the_path(struct trial *trial, const struct blend *blend,
                                   const struct evaporation_point *point, const double *n) {
    double sum = 0;
    for (size_t i = 0; i < blend->count; i++)
        sum += n[i];
    // The slope of the path turns these into differences of the same size in x.
    REQUIRE(fabs(sum - (1 - point->evaporated)) < 2e-4, "%.9g left at the time of %.9g evaporated", sum,
            point->evaporated);
    for (size_t i = 0; i < blend->count; i++)
        REQUIRE(fabs(n[i] - (1 - point->evaporated) * point->x[i]) < 2e-4, "%s: %.9g left, by the path %.9g",
                blend->components[i]->id, n[i], (1 - point->evaporated) * point->x[i]);
    return HELD;
}

static enum outcome another_integrator(struct trial *trial) {
    static struct evaporation path;
    static struct dish dish;
    struct blend blend = draw_blend(trial, 3);
    double temp_c = draw_temp_c(trial), n[BLEND_COMPONENTS_MAX], unit, t = 0;
    if (!follow(trial, &blend, temp_c, &path) || path.stop != DRIFT_COMPLETE ||
        blend_mole_fractions(&blend, n, NULL) != STATUS_OK ||
        !prepare_dish(trial, &blend, kelvin_from_celsius(temp_c), &dish) || !time_unit(trial, &blend, n, temp_c, &unit))
        return NOT_COVERED;
    static const size_t compared[] = {25, 50, 80};
    gsl_odeiv2_system system = {loss, NULL, blend.count, &dish};
    gsl_odeiv2_driver *driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, path.points[25].time * unit / 100, 1e-8, 1e-8);
    gsl_odeiv2_driver_set_nmax(driver, 4000);
    enum outcome outcome = HELD;
    for (size_t i = 0; i < sizeof compared / sizeof *compared && outcome == HELD; i++) {
        const struct evaporation_point *point = &path.points[compared[i]];
        // A stiff dish, ether over glycerol, is none for an explicit method in time: that is why src does without.
        if (gsl_odeiv2_driver_apply(driver, &t, point->time * unit, n) != GSL_SUCCESS)
            outcome = i == 0 ? NOT_COVERED : HELD;
        else
            outcome = meets_the_path(trial, &blend, point, n);
        if (t < point->time * unit)
            break;
    }
    gsl_odeiv2_driver_free(driver);
    return outcome;
}

// The rates of neat liquids: the measure has 1, each is the time of its own dish, warmer never means slower.
static enum outcome rates_of_neat_liquids(struct trial *trial) {
    const struct component *component;
    const struct component *measure = tables_component(trial->lib, evaporation_reference_id);
    double temp_c = draw_temp_c(trial), rate, one;
    draw_components(trial, 1, &component);
    note(trial, "%s: ", component->id);
    if (evaporation_rate(trial->lib, component, temp_c, &rate, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(evaporation_rate(trial->lib, measure, temp_c, &one, NULL) == STATUS_OK && fabs(one - 1) < 1e-12,
            "measure %g", one);
    REQUIRE(rate > 0 && isfinite(rate), "rate %g", rate);
    return HELD;
}

static const struct law laws[] = {
    {"drying-balance", "what left and what stays are the whole; time and volume run one way", 0.8,
     what_left_and_what_stays},
    {"drying-rewritten", "order, scaling, splitting and twins leave drying alone", 0.5, drying_is_of_the_liquid},
    {"drying-integrator", "the path against amounts in time by another integrator", 0.8, another_integrator},
    {"rates", "relative rates of neat liquids", 3, rates_of_neat_liquids},
};
const struct law_list drying_laws = LAWS(laws);
