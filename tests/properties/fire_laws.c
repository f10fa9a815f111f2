// SPDX-License-Identifier: GPL-3.0-or-later
// Flash points and the vapour that burns.
#include "base/units.h"
#include "draw.h"
#include "physics/flash.h"

static enum outcome flash_is_of_the_liquid(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct rewritten other;
    struct flash one, two;
    enum ghs_flammable category, again;
    double boils_c, boils_again_c, x[BLEND_COMPONENTS_MAX];
    if (!rewrite_blend(trial, &blend, &other) || flash_point_of_blend(trial->unifac, &blend, &one, NULL) != STATUS_OK ||
        blend_mole_fractions(&blend, x, NULL) != STATUS_OK ||
        (!isnan(one.model_c) && three_liquids(trial, &blend, x, kelvin_from_celsius(one.model_c))))
        return NOT_COVERED;
    REQUIRE(flash_point_of_blend(trial->unifac, &other.blend, &two, NULL) == STATUS_OK, "only one is answered");
    REQUIRE(alike(one.model_c, two.model_c, 0, 1e-3) && alike(one.display_c, two.display_c, 0, 1e-3),
            "%.6f degC and %.6f", one.model_c, two.model_c);
    REQUIRE(alike(one.lowest_component_c, two.lowest_component_c, 0, 0) && one.flammable == two.flammable &&
                one.complete == two.complete && one.none_below_boiling == two.none_below_boiling,
            "another answer");
    struct error err = {0};
    REQUIRE(ghs_flammable_of_blend(trial->unifac, &blend, &one, &category, &boils_c, &err) == STATUS_OK &&
                ghs_flammable_of_blend(trial->unifac, &other.blend, &two, &again, &boils_again_c, &err) == STATUS_OK,
            "%s", err.text);
    REQUIRE(category == again && alike(boils_c, boils_again_c, 0, 1e-3), "category %d and %d, boils at %g and %g degC",
            (int)category, (int)again, boils_c, boils_again_c);
    return HELD;
}

// Component i's pressure over the lean blend as a share of what its vapour needs to burn, summed (Liaw's equation),
// without the solver.
static bool liaw_sum(struct trial *trial, const struct blend *blend, double temp_c, double *ret_sum) {
    struct vapour_liquid liquid;
    double x[BLEND_COMPONENTS_MAX], p[BLEND_COMPONENTS_MAX];
    if (vapour_liquid_prepare(trial->unifac, blend->components, blend->count, kelvin_from_celsius(20), &liquid, NULL) !=
            STATUS_OK ||
        vapour_liquid_set_temperature(&liquid, kelvin_from_celsius(temp_c), NULL) != STATUS_OK ||
        blend_mole_fractions(blend, x, NULL) != STATUS_OK || vapour_pressures(&liquid, x, p, NULL, NULL) != STATUS_OK)
        return false;
    *ret_sum = 0;
    for (size_t i = 0; i < blend->count; i++) {
        double flash_c = blend->components[i]->properties->flash_point.value;
        if (!isnan(flash_c))
            *ret_sum += p[i] / antoine_curve_kpa(&blend->components[i]->properties->antoine, flash_c, NULL);
    }
    return true;
}

static enum outcome flash_meets_its_equation(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct flash flash;
    double sum, below;
    if (flash_point_of_blend(trial->unifac, &blend, &flash, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(flash.sentence[0], "says nothing");
    // What is shown is never above what any of the liquids shows alone.
    REQUIRE(isnan(flash.lowest_component_c) || flash.display_c <= flash.lowest_component_c,
            "%g degC is shown, %g lowest", flash.display_c, flash.lowest_component_c);
    if (isnan(flash.model_c))
        return HELD;
    if (!liaw_sum(trial, &blend, flash.model_c, &sum) || !liaw_sum(trial, &blend, flash.model_c - 1, &below))
        return NOT_COVERED;
    REQUIRE(fabs(sum - 1) < 1e-4 && below < sum, "Liaw's sum is %.9f at %.6f degC, %.9f a degree below", sum,
            flash.model_c, below);
    return HELD;
}

// The limit of a mixture lies between the limits of its parts, whatever the order and the unit of the shares.
static enum outcome limit_lies_between(struct trial *trial) {
    struct random *random = &trial->random;
    double y[6], limits[6], turned_y[6], turned[6], least = INFINITY, most = 0;
    size_t count = 1 + random_below(random, 6);
    double factor = random_between(random, 1e-3, 1e3);
    random_fractions(random, count, y);
    for (size_t i = 0; i < count; i++) {
        limits[i] = 0.5 + 15 * random_uniform(random);
        turned[count - 1 - i] = limits[i];
        turned_y[count - 1 - i] = y[i] * factor;
        least = fmin(least, limits[i]);
        most = fmax(most, limits[i]);
    }
    double mixed = le_chatelier(y, limits, count);
    note(trial, "%zu fuels: ", count);
    REQUIRE(at_least(mixed, least, 1e-12) && at_least(most, mixed, 1e-12), "%g outside %g to %g", mixed, least, most);
    REQUIRE(alike(mixed, le_chatelier(turned_y, turned, count), 1e-12, 0), "another order, another limit");
    return HELD;
}

// Saturated air gets no leaner as it gets warmer, and the limits stay.
static enum outcome warm_vapour_burns_rather(struct trial *trial) {
    struct blend blend = draw_blend(trial, 1);
    double cold_c = 5 + 20 * random_uniform(&trial->random), warm_c = cold_c + 10 * random_uniform(&trial->random);
    struct vapour cold, warm;
    struct flammable_vapour lean, rich;
    if (blend.count != 1 || vapour_over_blend(trial->unifac, &blend, cold_c, &cold, NULL) != STATUS_OK ||
        vapour_over_blend(trial->unifac, &blend, warm_c, &warm, NULL) != STATUS_OK ||
        cold.parts[0].source == PRESSURE_LISTED || warm.parts[0].source == PRESSURE_LISTED)
        return NOT_COVERED;
    flammable_vapour_of(&cold, &lean);
    flammable_vapour_of(&warm, &rich);
    if (isnan(lean.share_of_lower))
        return NOT_COVERED;
    REQUIRE(rich.share_of_lower >= lean.share_of_lower && lean.share_of_lower >= 0, "%g at %g degC, %g at %g",
            lean.share_of_lower, cold_c, rich.share_of_lower, warm_c);
    REQUIRE(alike(lean.lower_limit_vol_pct, rich.lower_limit_vol_pct, 1e-12, 0) && lean.lower_limit_vol_pct > 0,
            "limit %g", lean.lower_limit_vol_pct);
    REQUIRE(isnan(lean.upper_limit_vol_pct) || lean.upper_limit_vol_pct > lean.lower_limit_vol_pct, "upper limit %g",
            lean.upper_limit_vol_pct);
    return HELD;
}

static const struct law laws[] = {
    {"flash-rewritten", "order, scaling and splitting of bottles leave flash point and category alone", 3,
     flash_is_of_the_liquid},
    {"flash-equation", "the flash point meets Liaw's equation and is shown no higher than any liquid's", 4,
     flash_meets_its_equation},
    {"le-chatelier", "a flammable limit lies between those of the fuels, in any order", 2, limit_lies_between},
    {"flammable-vapour", "saturated air is richer in fuel when warm", 3, warm_vapour_burns_rather},
};
const struct law_list fire_laws = LAWS(laws);
