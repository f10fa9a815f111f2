// SPDX-License-Identifier: GPL-3.0-or-later
// Where figures come from: the order of blends and how sure it is, tests and what they teach, layers.
#include "cli/derivation.h"

#include "base/language.h"

#define DOUBT_USES (USES_FILM_MODEL | USES_DOUBT)
#define LEARN_USES (DOUBT_USES | USES_TESTS)
#define SOBOL "quasi-random samples (Sobol; Cranley & Patterson, SIAM J. Numer. Anal. 13 (1976) 904, from memory)"
#define PROBIT "ordered probit: McCullagh, J. R. Stat. Soc. B 42 (1980) 109 (from memory)"
#define SMC "sequential Monte Carlo: Del Moral, Doucet & Jasra, J. R. Stat. Soc. B 68 (2006) 411 (from memory)"
#define RESPONSE "e = k (m - level) + b_t ln(contact/20 s) + b_r ln(rolls/6) + passage + site + noise"

// clang-format off
static const struct derivation items[] = {
    {"gentlest ladder learn", "seed probability_asked film_age_years pigment contact_s rolls touch_most particles x_mm y_mm", NULL, NULL,
     NULL, NULL, NULL, 0},
    {"layers", "least_probability percent_w_v drying_days number upper lower layer other only_together_with not_spared", NULL,
     NULL, NULL, NULL, NULL, 0},

    {"report", "width_mm height_mm x_mm y_mm thickness_um water_percent volume_ml load_ml load_ml_per_h hours_per_day days contact_s "
     "rolls volume_m3 air_changes_per_h arm_capture_percent temperature_c people_at_work percent_w_v drying_days year id "
     "case_version layer upper lower", NULL, NULL, NULL, NULL, NULL, 0},
    {"report", "figure", N_("a figure of the tables"), N_("As it stands in the table."), NULL, N_("the table"), NULL,
     VALUE_HANSEN | VALUE_TEAS | VALUE_MOLAR_VOLUME | VALUE_DENSITY | VALUE_VAPOUR | VALUE_FLASH | VALUE_FLAMMABLE |
         VALUE_SPHERE | VALUE_FILM},
    {"report", "none gloss_change softened partly_removed removed stops tests sections figures pages", N_("numbers of"),
     N_("How many tests, parts or pages there are."), NULL, N_("counted"), NULL, 0},
    {"report", "p_works", N_("works"),
     N_("In the list of blends the share of the samples in which it works; in the series of tests the probability that at "
        "least part comes off."), "samples in which it works / samples; " RESPONSE, SOBOL "; " PROBIT, "What is unproven",
     LEARN_USES},
    {"report", "rank", N_("number"), N_("Place in the list, mildest or nearest first."), NULL, N_("own choice"), NULL, 0},

    // gentlest, and the later removal of a layer
    {"gentlest layers", "blends.rank", N_("rank"),
     N_("Place in the list: class of the median swelling of what is to be spared, then fewer strong bottles, then the "
        "smaller share of strong liquids."), NULL, N_("own choice"), "What is unproven", 0},
    {"gentlest layers", "p_works likeliest_p", N_("works"),
     N_("Share of the samples in which the blend dissolves what is to be removed, or leaves a window where that is "
        "cross-linked; every assumption and value is varied at once."),
     "samples in which it works / samples", SOBOL, "What is unproven", DOUBT_USES},
    {"gentlest layers report", "p_dissolves", N_("dissolves"),
     N_("Share of the samples in which everything that can dissolve does."), "samples in which it dissolves / samples",
     SOBOL, "What is unproven", DOUBT_USES},
    {"gentlest layers", "swelling_p10 swelling_p50 swelling_p90", N_("swelling over the doubt"),
     N_("Swelling of the paint that takes up most, in 10, 50 and 90 % of the samples at most."), "quantiles of W", SOBOL,
     "What is unproven", DOUBT_USES},
    {"gentlest", "p_unbounded", N_("paint without limit"),
     N_("Share of the samples in which the varied activities split the liquid inside the paint."),
     "samples without a root / samples", SOBOL, "What is unproven", DOUBT_USES},
    {"gentlest", "rank_p10 rank_p90 p_mildest_five", N_("rank over the doubt"),
     N_("Rank among the candidates in 10 and 90 % of the samples at most, and how often it is among the mildest five."),
     "quantiles of the rank", SOBOL, "What is unproven", DOUBT_USES},
    {"gentlest", "tie", N_("tie"),
     N_("Rows of one number cannot be told apart: their order is wrong in more than one of five samples."), NULL,
     N_("own choice"), "What is unproven", DOUBT_USES},
    {"gentlest", "samples sampling_error", N_("samples"),
     N_("How many were drawn, and the largest standard error of a probability."), "sqrt(p (1 - p) / samples)",
     N_("binomial distribution"), NULL, 0},
    {"gentlest", "target_swelling if_separated.swelling", N_("swelling of the target, or of two liquids"),
     N_("Swelling of a cross-linked layer that is to come off, and of the paint under the two liquids in equilibrium."),
     "ln a_i(film) = ln a_i(liquid)", "Flory & Rehner, J. Chem. Phys. 11 (1943) 521 (from memory), extended to several "
     "liquids", "Films", USES_FILM_MODEL},
    {"gentlest", "strong_share", N_("share of strong liquids"),
     N_("Share by volume of everything but alkanes, cycloalkanes, petroleum cuts and siloxanes."),
     "sum of phi_i over the strong", N_("own choice"), NULL, USES_BOTTLES},
    {"gentlest", "shares_that_work.least_percent shares_that_work.most_percent shares_that_pass.least_percent "
     "shares_that_pass.most_percent", N_("shares that work"),
     N_("Smallest and largest share of each bottle of the set over all its blends on the grid that do."), NULL,
     N_("found by trying every blend of the grid"), "Films", USES_FILM_MODEL},
    {"gentlest", "beaten_by", N_("beaten by"),
     N_("Rank of a row that is at least as good in every respect and better in one."), NULL, N_("by definition"), NULL, 0},
    {"gentlest", "ra_spare_mpa05", "Ra", N_("Smallest distance in Hansen space to what is to be spared."),
     "Ra^2 = 4 (dD1-dD2)^2 + (dP1-dP2)^2 + (dH1-dH2)^2", "Hansen (2007), eq. 1.9", NULL, VALUE_HANSEN | VALUE_SPHERE},
    {"gentlest", "red_spare", "RED", N_("The same in radii of that sphere; below 1 inside."), "RED = Ra / R0",
     "Hansen (2007), ch. 1", "Films", VALUE_HANSEN | VALUE_SPHERE},
    {"gentlest", "red_sphere.delta_d red_sphere.delta_p red_sphere.delta_h red_sphere.r0 film_centre.delta_d "
     "film_centre.delta_p film_centre.delta_h film_centre.chi_shift", N_("learnt regions"),
     N_("Means of what the swab tests of the case leave possible, in place of those of the tables."), RESPONSE,
     PROBIT "; " SMC, "What is unproven", LEARN_USES},
    {"gentlest", "touched_by_ranks touched_by_weakest_of_ranks", N_("touches a sensitive passage"),
     N_("Ranks of the rows with at least the share of a family that endangers the passage."), NULL, N_("the table"), NULL, 0},

    // tests
    {"ladder", "tests_learnt", N_("tests learnt from"), N_("Swab tests of the case that stand and could be judged."), NULL,
     N_("counted"), NULL, USES_TESTS},
    {"ladder", "strong_percent step_percent next_percent likely_percent take_percent", N_("the next share"),
     N_("The highest rung that is no stronger than the weakest untested one that works with 0.3, and no more than 10 % "
        "above the last one tested."), NULL, N_("common practice; the figures are our own choice"), "Series against practice",
     LEARN_USES},
    {"ladder", "last_percent tested_percent", N_("tested so far"), N_("Strongest share that was tested, in the direction or at "
     "the site."), NULL, N_("counted"), NULL, USES_TESTS},
    {"ladder", "margin step_margin paint", N_("strength of a rung"),
     N_("By film the logarithm of the swelling with the learnt shift of chi, a film that dissolves counting as 10; by RED "
        "the negative logarithm of RED; the step is the difference to the rung before."),
     "m = ln W or -ln RED", N_("own choice"), "Films", LEARN_USES},
    {"ladder learn report", "rungs.p_works forecasts.p_works other_rungs.p_works p_works_film p_works_red p_removed site_p_works p_words.*", N_("what a test will say"),
     N_("Probability of each result word for the next test, of at least partly removed, and of removed, with what all tests "
        "taught."), RESPONSE, PROBIT, "What is unproven", LEARN_USES},
    {"ladder learn report", "p_touches", N_("touches the paint"),
     N_("Probability of original colour on a swab held against bare paint; the larger of both views counts in the ladder."),
     RESPONSE, PROBIT, "What is unproven", LEARN_USES},
    {"ladder report", "from_jar_ml weak_ml strong_ml total_ml reached_percent", N_("millilitres"),
     N_("Smallest batch of whole millilitres, 5 to 20, that meets the share; never above it."), "100 V_strong / V",
     N_("common practice; the figures are our own choice"), NULL, 0},
    {"ladder report", "surface_dry_min judge_after_min judge_min", N_("waiting"),
     N_("Time to the last 5 % on the paper of the evaporation test, and three times that but no less than 2 minutes before "
        "the result is judged."), "t_95 x 470 s / 0.9; x 3", "ASTM D3539 (from memory); the factor is an estimate",
     "Liquids", USES_VAPOUR | VALUE_MOLAR_MASS | USES_FORMULA},
    {"learn", "tests tests_too_old", N_("tests learnt from"), N_("Swab tests that entered, and those left out as the oldest."),
     NULL, N_("counted"), NULL, USES_TESTS},
    {"learn", "before_median before_least before_most", N_("before the tests"),
     N_("Median and middle 90 % of each part of the region, as the tables and their uncertainties have it."),
     "normal; radius lognormal", N_("the table"), "What is unproven", DOUBT_USES},
    {"learn", "median delta_d.least delta_d.most delta_p.least delta_p.most delta_h.least delta_h.most r0.least r0.most "
     "chi_shift.least chi_shift.most", N_("after the tests"),
     N_("Median and middle 90 % of what the tests leave possible."), "p(region | tests) ~ p(tests | region) p(region)",
     "Bayes; " SMC, "What is unproven", LEARN_USES},
    {"learn", "effect_median effect_least effect_most", N_("effect of a passage"),
     N_("How much more strongly tests act in this passage than elsewhere, in units of the scatter of one test."), RESPONSE,
     PROBIT, "What is unproven", LEARN_USES},
    {"learn", "effective_samples r_hat", N_("quality of the sample"),
     N_("How many independent draws it is worth, and how far independent runs agree; 1 is best."),
     "R-hat = sqrt(1 + B/W)", "Gelman & Rubin, Stat. Sci. 7 (1992) 457 (from memory)", NULL, 0},
    {"learn", "log_evidence contradiction_p warnings.value", N_("do tests and view agree"),
     N_("Logarithm of the probability of the tests under the view, and how improbable they are together or one by one."),
     "ln p(tests | view)", "Bayes; " SMC, "What is unproven", LEARN_USES},
    {"learn", "sphere.delta_d sphere.delta_p sphere.delta_h sphere.r0", N_("fitted sphere"),
     N_("Centre and radius with most liquids on their right side; of those the one furthest from a mistake for its size."),
     "largest (nearest outside - farthest inside) / R0", "Hansen (2007), ch. 1", "Films", VALUE_HANSEN},
    {"learn", "liquids right spheres", N_("liquids of the list"),
     N_("How many there are, how many lie on their right side, and how many spheres do as well."), NULL, N_("counted"), NULL,
     VALUE_HANSEN},
    {"learn", "data_fit", N_("goodness of the fit"), N_("1 when all liquids lie on their right side."),
     "(prod exp(-distance to the right side))^(1/n)", "Hansen (2007), eq. 1.10", NULL, VALUE_HANSEN},
    {"learn", "misplaced.red", "RED", N_("Of a liquid on the wrong side, to the fitted sphere."), "RED = Ra / R0",
     "Hansen (2007), ch. 1", NULL, VALUE_HANSEN},
    {"learn", "as_good.delta_d.least as_good.delta_d.most as_good.delta_p.least as_good.delta_p.most as_good.delta_h.least "
     "as_good.delta_h.most as_good.r0.least as_good.r0.most", N_("spheres that do as well"),
     N_("Range of centres and radii on a grid that set as many liquids right."), NULL, N_("counted"), NULL, VALUE_HANSEN},

    // layers
    {"layers", "wet_least_s wet_most_s", N_("time wet"),
     N_("Seconds until a coat sets at half resin, from its thickness and the drying of its carrier."),
     "phi_r = v / (v + (1 - v) V); 4.7 s for each um of n-butyl acetate", "ASTM D3539 (from memory); thickness: common "
     "practice", "Liquids", USES_VAPOUR | VALUE_MOLAR_MASS | USES_FORMULA},
    {"layers report", "pairs.red red_least", "RED", N_("Of the carrier to the layer below, as mixed and the least while the coat is wet."),
     "RED = Ra / R0", "Hansen (2007), ch. 1", "Films", VALUE_HANSEN | VALUE_SPHERE},
    {"layers", "swelling_carrier swelling_coat", N_("swelling of the layer below"),
     N_("Volume that the layer below takes up for each dry volume, under the carrier alone and under the wet coat with its "
        "resin."), "ln a_i(film) = ln a_i(coat)", "Flory & Rehner, J. Chem. Phys. 11 (1943) 521 (from memory), extended to "
     "several liquids", "Films", USES_FILM_MODEL},
    {"layers", "resin_ra_mpa05", "Ra", N_("Distance in Hansen space between the two resins."),
     "Ra^2 = 4 (dD1-dD2)^2 + (dP1-dP2)^2 + (dH1-dH2)^2", "Hansen (2007), eq. 1.9", NULL, VALUE_SPHERE},
    {"layers", "threshold.from_percent threshold.to_percent threshold.carrier_percent", N_("published threshold"),
     N_("Share of a family in the carrier from which the layer is published to dissolve, and the largest share while the "
        "coat is wet."), NULL, N_("the table"), NULL, USES_AGEING},
    {"layers", "resins_tried", N_("resins tried"), N_("In the search for something better."), NULL, N_("counted"), NULL, 0},
};
// clang-format on

const struct derivations derivations_choice = {items, sizeof items / sizeof items[0]};
