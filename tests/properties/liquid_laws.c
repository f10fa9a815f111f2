// SPDX-License-Identifier: GPL-3.0-or-later
// Activities, phases and vapour of a liquid.
#include "base/units.h"
#include "draw.h"
#include "physics/miscibility.h"
#include "physics/vapour.h"

#include <string.h>

static double draw_temp_k(struct trial *trial) {
    double temp_k = 278.15 + 30 * random_uniform(&trial->random);
    note(trial, "%.4f K: ", temp_k);
    return temp_k;
}

// --- activities ---

// Gibbs-Duhem: sum_i x_i d ln gamma_i/d n_j = 0; the derivatives are symmetric and those of the figures.
static enum outcome gibbs_duhem(struct trial *trial) {
    static struct activity_model model;
    double x[BLEND_COMPONENTS_MAX], ln_gamma[BLEND_COMPONENTS_MAX], scaled[BLEND_COMPONENTS_MAX];
    double d[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    struct blend blend = draw_blend(trial, 5);
    if (activity_prepare_blend(trial->unifac, &blend, draw_temp_k(trial), &model, NULL) != STATUS_OK ||
        !activity_covers(&model) || blend_mole_fractions(&blend, x, NULL) != STATUS_OK)
        return NOT_COVERED;
    activity_derivatives(&model, x, ln_gamma, d);
    size_t count = blend.count;
    for (size_t j = 0; j < count; j++) {
        double sum = 0, size = 0;
        REQUIRE(isfinite(ln_gamma[j]), "ln gamma %g", ln_gamma[j]);
        for (size_t i = 0; i < count; i++) {
            sum += x[i] * d[i * count + j];
            size += fabs(x[i] * d[i * count + j]);
            REQUIRE(alike(d[i * count + j], d[j * count + i], 1e-8, 1e-9), "derivatives are not symmetric");
        }
        REQUIRE(fabs(sum) <= 1e-9 * (1 + size), "sum of x d ln gamma/dn %g", sum);
    }
    double factor = random_between(&trial->random, 1e-6, 1e6);
    for (size_t i = 0; i < count; i++)
        x[i] *= factor;
    activity_ln_gamma(&model, x, scaled);
    for (size_t i = 0; i < count; i++)
        REQUIRE(alike(scaled[i], ln_gamma[i], 1e-9, 1e-10), "amounts times %g change ln gamma", factor);
    return HELD;
}

// --- one phase or two ---

enum { GRID = 600 };

static double gibbs(const struct activity_model *model, double x) {
    double z[] = {x, 1 - x}, ln_gamma[2];
    activity_ln_gamma(model, z, ln_gamma);
    return x * (log(x) + ln_gamma[0]) + (1 - x) * (log1p(-x) + ln_gamma[1]);
}

// Dense at both dilute ends.
static double grid_x(int n) {
    return 1 / (1 + exp(-(n - GRID / 2.0) * 36 / GRID));
}

// The lowest Gibbs energy of any two phases of the grid that together are the feed, by trying all pairs.
static double lowest_chord(const double *x, const double *g, double feed) {
    double lowest = INFINITY;
    int right = 0;
    while (right <= GRID && x[right] <= feed)
        right++;
    // For a given left end the lowest chord at the feed is the one of least slope.
    for (int a = 0; a < right; a++) {
        double slope = INFINITY;
        for (int b = right; b <= GRID; b++)
            slope = fmin(slope, (g[b] - g[a]) / (x[b] - x[a]));
        lowest = fmin(lowest, g[a] + slope * (feed - x[a]));
    }
    return lowest;
}

static enum outcome stability_is_lowest_energy(struct trial *trial) {
    static struct activity_model model;
    static double x[GRID + 1], g[GRID + 1];
    const struct component *pair[2];
    struct stability stability;
    struct error err = {0};
    draw_components(trial, 2, pair);
    note(trial, "%s + %s: ", pair[0]->id, pair[1]->id);
    if (activity_prepare(trial->unifac, pair, 2, draw_temp_k(trial), &model, NULL) != STATUS_OK ||
        !activity_covers(&model))
        return NOT_COVERED;
    for (int n = 0; n <= GRID; n++)
        g[n] = gibbs(&model, x[n] = grid_x(n));
    double feed = grid_x(1 + (int)random_below(&trial->random, GRID - 1)), z[] = {feed, 1 - feed};
    double above = gibbs(&model, feed) - lowest_chord(x, g, feed);
    note(trial, "x %.6g, two phases gain %.3g: ", feed, above);
    REQUIRE(stability_test(&model, z, &stability, &err) == STATUS_OK, "%s", err.text);
    if (above > 1e-9)
        REQUIRE(!stability.stable, "called stable");
    if (stability.stable)
        return HELD;
    struct phase_split split;
    enum status status = phase_split_find(&model, z, &stability, &split, &err);
    REQUIRE(status == STATUS_OK || above < 1e-9, "%s", err.text);
    if (status != STATUS_OK)
        return HELD;
    // As low as the best of the grid, and lower by no more than the grid is coarse.
    REQUIRE(split.gain <= -above + 1e-9 && split.gain >= -above - 1e-3, "the split gains %.6g", split.gain);
    return HELD;
}

static enum outcome phases_hold_the_whole(struct trial *trial) {
    static struct activity_model model;
    struct phase_judgement judged;
    double x[BLEND_COMPONENTS_MAX];
    struct error err = {0};
    struct blend blend = draw_blend(trial, 4);
    double temp_k = draw_temp_k(trial);
    if (activity_prepare_blend(trial->unifac, &blend, temp_k, &model, NULL) != STATUS_OK ||
        blend_mole_fractions(&blend, x, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(miscibility_judge(trial->lib, &model, x, &judged, &err) == STATUS_OK, "%s", err.text);
    REQUIRE(judged.sentence[0] && judged.verdict <= PHASE_TWO, "verdict %d", (int)judged.verdict);
    if (!judged.split_found)
        return HELD;
    const struct phase_split *split = &judged.split;
    double sums[2] = {0};
    REQUIRE(split->mismatch < 1e-6 && split->gain <= 0, "mismatch %g, gain %g", split->mismatch, split->gain);
    REQUIRE(fabs(split->mole_share[0] + split->mole_share[1] - 1) < 1e-9, "shares of the phases");
    for (size_t i = 0; i < blend.count; i++) {
        double whole = split->mole_share[0] * split->x[0][i] + split->mole_share[1] * split->x[1][i];
        REQUIRE(alike(whole, x[i], 1e-8, 1e-10), "%s: %.12g of %.12g", blend.components[i]->id, whole, x[i]);
        for (int k = 0; k < 2; k++) {
            REQUIRE(split->x[k][i] >= 0 && split->phi[k][i] >= 0, "less than nothing in a phase");
            sums[k] += split->x[k][i];
        }
    }
    REQUIRE(fabs(sums[0] - 1) < 1e-9 && fabs(sums[1] - 1) < 1e-9, "a phase does not sum to 1");
    // Neither of the two is unstable in its turn, unless that was said.
    for (int k = 0; k < 2 && !judged.third_liquid; k++) {
        struct stability stability;
        REQUIRE(stability_test(&model, split->x[k], &stability, &err) == STATUS_OK, "%s", err.text);
        REQUIRE(stability.stable || stability.distance > -1e-7, "phase %d splits again, distance %g", k,
                stability.distance);
    }
    return HELD;
}

static enum outcome phases_are_of_the_liquid(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct rewritten other;
    struct phase_judgement one, two;
    double temp_k = draw_temp_k(trial);
    if (!rewrite_blend(trial, &blend, &other) ||
        miscibility_judge_blend(trial->lib, trial->unifac, &blend, temp_k, &one, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(miscibility_judge_blend(trial->lib, trial->unifac, &other.blend, temp_k, &two, NULL) == STATUS_OK,
            "only one of the two is judged");
    REQUIRE(one.verdict == two.verdict && one.split_found == two.split_found,
            "%s against %s (D %.17g and %.17g, distance %.17g and %.17g)", phase_verdict_word(one.verdict),
            phase_verdict_word(two.verdict), one.stability.least_eigenvalue, two.stability.least_eigenvalue,
            one.stability.distance, two.stability.distance);
    if (!one.covered)
        return HELD;
    REQUIRE(alike(one.stability.least_eigenvalue, two.stability.least_eigenvalue, 1e-7, 1e-7), "D %.12g and %.12g",
            one.stability.least_eigenvalue, two.stability.least_eigenvalue);
    if (!one.split_found || one.third_liquid || two.third_liquid)
        return HELD;
    REQUIRE(alike(one.split.gain, two.split.gain, 1e-5, 1e-9), "gain %.12g and %.12g", one.split.gain, two.split.gain);
    return HELD;
}

// One component counted as two: D, which is that of the ideal mixing of the two (1) at most, and stability stay.
static enum outcome stability_of_twins(struct trial *trial) {
    static struct activity_model model, doubled_model;
    struct doubled doubled;
    struct stability one, two;
    double x[BLEND_COMPONENTS_MAX];
    struct blend blend = draw_blend(trial, 4);
    double temp_k = draw_temp_k(trial);
    if (!double_component(trial, &blend, &doubled) ||
        activity_prepare_blend(trial->unifac, &blend, temp_k, &model, NULL) != STATUS_OK || !activity_covers(&model) ||
        blend_mole_fractions(&blend, x, NULL) != STATUS_OK || stability_test(&model, x, &one, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(activity_prepare_blend(trial->unifac, &doubled.blend, temp_k, &doubled_model, NULL) == STATUS_OK &&
                activity_covers(&doubled_model) && blend_mole_fractions(&doubled.blend, x, NULL) == STATUS_OK &&
                stability_test(&doubled_model, x, &two, NULL) == STATUS_OK,
            "two bottles of one liquid are not covered");
    REQUIRE(alike(fmin(one.least_eigenvalue, 1), two.least_eigenvalue, 1e-7, 1e-7), "D %.12g, with the twin %.12g",
            one.least_eigenvalue, two.least_eigenvalue);
    REQUIRE(one.stable == two.stable || fabs(one.distance + two.distance) < 1e-7, "distance %.6g, with the twin %.6g",
            one.distance, two.distance);
    if (!one.stable && !two.stable)
        REQUIRE(alike(one.distance, two.distance, 1e-5, 1e-7), "distance %.12g, with the twin %.12g", one.distance,
                two.distance);
    return HELD;
}

// --- vapour ---

static enum outcome vapour_is_bounded(struct trial *trial) {
    struct vapour vapour;
    struct blend blend = draw_blend(trial, 4);
    double temp_k = draw_temp_k(trial), sum = 0, y = 0;
    struct error err = {0};
    if (vapour_over_blend(trial->unifac, &blend, celsius_from_kelvin(temp_k), &vapour, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(vapour.sentence[0], "says nothing");
    for (size_t i = 0; i < vapour.count; i++) {
        const struct vapour_part *part = &vapour.parts[i];
        REQUIRE(!(part->p_kpa < 0) && !isinf(part->p_kpa), "%s: %g kPa", part->component->id, part->p_kpa);
        // The activity in a liquid that is stable, or has split into stable ones, is at most 1.
        REQUIRE(isnan(part->activity) || (part->activity >= 0 && part->activity <= 1 + 1e-7), "%s: activity %.12g",
                part->component->id, part->activity);
        REQUIRE(isnan(part->p_kpa) || at_least(part->psat_kpa * (1 + 1e-7), part->p_kpa, 0),
                "%s: above the neat liquid", part->component->id);
        sum += part->p_kpa;
        y += part->y;
    }
    if (!vapour.complete)
        return HELD;
    REQUIRE(alike(sum, vapour.total_kpa, 1e-12, 0) && fabs(y - 1) < 1e-9, "sum %g of %g kPa", sum, vapour.total_kpa);
    // The boiling point at this pressure is this temperature.
    struct vapour_liquid liquid;
    double x[BLEND_COMPONENTS_MAX], boils_k;
    bool by_curve = true;
    for (size_t i = 0; i < vapour.count; i++)
        by_curve = by_curve && vapour.parts[i].source != PRESSURE_LISTED;
    if (!by_curve || vapour.total_kpa <= 0)
        return HELD;
    REQUIRE(vapour_liquid_prepare(trial->unifac, blend.components, blend.count, temp_k, &liquid, &err) == STATUS_OK &&
                blend_mole_fractions(&blend, x, &err) == STATUS_OK &&
                bubble_temperature(&liquid, x, vapour.total_kpa, &boils_k, &err) == STATUS_OK,
            "%s", err.text);
    // Within 2e-4 of a critical point two liquids are taken as one (vapour.c), and pressures rise by 5 % in a kelvin.
    REQUIRE(fabs(boils_k - temp_k) < (blend.count > 1 ? 5e-3 : 1e-3), "boils at %.6f K under its own pressure",
            boils_k);
    return HELD;
}

static enum outcome vapour_is_of_the_liquid(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct rewritten other;
    struct doubled doubled;
    struct vapour one, two, twins;
    double temp_k = draw_temp_k(trial), temp_c = celsius_from_kelvin(temp_k), x[BLEND_COMPONENTS_MAX];
    if (!rewrite_blend(trial, &blend, &other) || !double_component(trial, &blend, &doubled) ||
        vapour_over_blend(trial->unifac, &blend, temp_c, &one, NULL) != STATUS_OK ||
        blend_mole_fractions(&blend, x, NULL) != STATUS_OK || (one.two && three_liquids(trial, &blend, x, temp_k)))
        return NOT_COVERED;
    REQUIRE(vapour_over_blend(trial->unifac, &other.blend, temp_c, &two, NULL) == STATUS_OK &&
                vapour_over_blend(trial->unifac, &doubled.blend, temp_c, &twins, NULL) == STATUS_OK,
            "only one of the three is answered");
    for (size_t i = 0; i < one.count; i++) {
        double p = one.parts[i].p_kpa, together = twins.parts[i].p_kpa;
        if (i == doubled.of)
            together += twins.parts[doubled.with].p_kpa;
        REQUIRE(alike(p, two.parts[other.place[i]].p_kpa, 1e-6, 1e-12), "%s: %.12g and %.12g kPa",
                one.parts[i].component->id, p, two.parts[other.place[i]].p_kpa);
        REQUIRE(alike(p, together, 1e-6, 1e-12), "%s: %.12g kPa, with a twin %.12g", one.parts[i].component->id, p,
                together);
    }
    return HELD;
}

// Of a neat liquid, by its curve and by whatever is used; of a blend inside the curves, of every component's partial
// pressure over an ideal liquid (an activity may fall faster than a pressure rises).
static enum outcome pressure_rises_with_temperature(struct trial *trial) {
    const struct component *component;
    draw_components(trial, 1, &component);
    if (!component->properties || isnan(component->properties->antoine.a))
        return NOT_COVERED;
    const struct antoine_values *curve = &component->properties->antoine;
    double low = curve->t_min + (curve->t_max - curve->t_min) * random_uniform(&trial->random);
    double high = low + (curve->t_max - low) * random_uniform(&trial->random);
    double low_kpa, high_kpa;
    bool outside = false;
    note(trial, "%s, %.6g and %.6g degC: ", component->id, low, high);
    REQUIRE(antoine_pressure_kpa(curve, component->id, low, &low_kpa, &outside, NULL) == STATUS_OK &&
                antoine_pressure_kpa(curve, component->id, high, &high_kpa, &outside, NULL) == STATUS_OK,
            "no pressure inside the curve's range");
    REQUIRE(low_kpa > 0 && isfinite(high_kpa) && (high == low || high_kpa > low_kpa), "%g and %g kPa", low_kpa,
            high_kpa);
    // Saturated air is the ideal gas of that pressure, and comes back from ppm.
    double mass = component->properties->molar_mass.value;
    double mg_m3 = saturated_mg_m3(low_kpa, mass, low);
    double volume = gas_molar_volume_l_mol(kelvin_from_celsius(low), ATMOSPHERE_KPA);
    REQUIRE(alike(mg_m3, mg_m3_from_ppm(saturated_ppm(low_kpa), mass, volume), 1e-12, 0), "%g mg/m3", mg_m3);
    return HELD;
}

static const struct law laws[] = {
    {"gibbs-duhem", "activity coefficients are the slopes of one energy", 5, gibbs_duhem},
    {"stability", "tangent plane against direct minimisation of the Gibbs energy, binaries", 8,
     stability_is_lowest_energy},
    {"phases", "two liquids hold the whole, are each stable and gain energy", 6, phases_hold_the_whole},
    {"phases-rewritten", "order, scaling and splitting of bottles leave the verdict alone", 5,
     phases_are_of_the_liquid},
    {"stability-twins", "one component counted as two leaves stability and D alone", 5, stability_of_twins},
    {"vapour", "activities at most 1, shares sum to 1, the liquid boils under its own pressure", 6, vapour_is_bounded},
    {"vapour-rewritten", "order, scaling, splitting and twins leave the vapour alone", 5, vapour_is_of_the_liquid},
    {"pressure", "vapour pressure rises with temperature; saturated air both ways", 4, pressure_rises_with_temperature},
};
const struct law_list liquid_laws = LAWS(laws);
