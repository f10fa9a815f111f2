// SPDX-License-Identifier: GPL-3.0-or-later
// A blend's film beside simpler views: false synergy of a mismatched model, true synergy, the plain mean, a liquid that
// has split.
#include "physics/film_mix.h"
#include "films.h"

#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct films films;
static struct film_parameters paint, resin;

static void setup(void) {
    films_open(&films);
    paint = films_parameters(&films, "linseed-oil-film-young");
    resin = films_parameters(&films, "dammar-aged");
}

static void teardown(void) {
    films_release(&films);
}

// --- why one activity model must stand on both sides ---

// The liquid by UNIFAC, the solvents inside the film from Hansen distances: the two disagree as the polymer goes to
// nothing, and ethanol + toluene 10:90 seems to swell the paint far beyond the 0.89 of the right form: 2.2-fold in a
// trial outside this project, without any limit here (the film loses its stability at 2.2).
START_TEST(a_mismatched_model_gives_false_synergy) {
    static struct films_liquid liquid;
    static struct activity_model mismatched;
    struct error err = {0};
    films_liquid(&films, "ethanol 10 + toluene 90", &liquid);
    mismatched = liquid.activity;
    mismatched.coverage.serves = ACTIVITY_FLORY_HUGGINS;
    ck_assert_int_eq(
        flory_prepare(liquid.activity.components, liquid.activity.count, FILMS_TEMP_K, &mismatched.flory, NULL, &err),
        STATUS_OK);
    struct film right = films_prepare(&paint, &liquid), wrong;
    ck_assert_int_eq(film_prepare(&paint, &mismatched, &wrong, &err), STATUS_OK);
    struct film_result one, two;
    film_of_activities(&right, liquid.ln_activity, NULL, &one);
    film_of_activities(&wrong, liquid.ln_activity, NULL, &two);
    ck_assert_double_eq_tol(one.swelling, 0.89, 0.005);
    ck_assert(two.outcome == FILM_WITHOUT_LIMIT || two.swelling > 2);
    // With almost no polymer the right film is the liquid, the wrong one is not.
    double moles[2], inside[2];
    for (size_t i = 0; i < 2; i++)
        moles[i] = 1e6 * liquid.x[i];
    film_activities(&right, moles, inside, NULL);
    ck_assert_double_eq_tol(inside[0], liquid.ln_activity[0], 1e-3); // the elastic part is left
    film_activities(&wrong, moles, inside, NULL);
    ck_assert_double_gt(fabs(inside[0] - liquid.ln_activity[0]), 0.1);
}
END_TEST

// --- synergy ---

static double swelling_or_inf(const struct film_result *result) {
    return result->outcome == FILM_WITHOUT_LIMIT ? INFINITY : result->swelling;
}

// The trial: 1.03 against 0.24 and 0.47.
START_TEST(ethanol_and_toluene_help_each_other) {
    ck_assert_double_eq_tol(films_solve(&films, &paint, "ethanol 30 + toluene 70").swelling, 1.03, 0.005);
    ck_assert_double_eq_tol(films_solve(&films, &paint, "ethanol").swelling, 0.245, 0.003);
    ck_assert_double_eq_tol(films_solve(&films, &paint, "toluene").swelling, 0.475, 0.003);
}
END_TEST

// Every pair of the studio shelf at three ratios, both films: most lie between the neat liquids, some above.
START_TEST(pairs_of_the_shelf_beside_their_neat_liquids) {
    const struct shelf *shelf = NULL;
    ck_assert_int_eq(library_shelf(&films.lib, "studio", &shelf, NULL), STATUS_OK);
    size_t between = 0, above = 0, below = 0, blends = 0;
    for (size_t i = 0; i < shelf->bottles.count; i++)
        for (size_t j = i + 1; j < shelf->bottles.count; j++)
            for (int part = 25; part <= 75; part += 25) {
                char notation[200];
                snprintf(notation, sizeof notation, "%s %d + %s %d", shelf->bottles.items[i], part,
                         shelf->bottles.items[j], 100 - part);
                const struct film_parameters *parameters = blends++ % 2 ? &paint : &resin;
                struct film_result result = films_solve(&films, parameters, notation);
                struct film_result first = films_solve(&films, parameters, shelf->bottles.items[i]);
                struct film_result second = films_solve(&films, parameters, shelf->bottles.items[j]);
                ck_assert_msg(result.outcome != FILM_FAILED, "%s", notation);
                double a = swelling_or_inf(&first), b = swelling_or_inf(&second), mine = swelling_or_inf(&result);
                above += mine > fmax(a, b) * 1.0001;
                below += mine < fmin(a, b) * 0.9999;
                between += !(mine > fmax(a, b) * 1.0001) && !(mine < fmin(a, b) * 0.9999);
            }
    printf("pairs of the shelf: %zu between the neat liquids, %zu above, %zu below\n", between, above, below);
    ck_assert_uint_gt(between, 100);
    ck_assert_uint_gt(above, 10);
}
END_TEST

// --- the plain mean ---

// The blend as one liquid with the volume mean of its Hansen parameters and the mean molar volume.
static enum status film_of_mean(const struct film_parameters *parameters, const struct blend *blend, double temp_k,
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

// The alcohol in the alkane: its activity is 0.90 at 15 % by volume, and the film takes it up far beyond its share. The
// plain mean sees a weak liquid.
START_TEST(the_mean_misses_alcohol_in_alkane) {
    static struct films_liquid liquid;
    struct film_result mean, film;
    struct error err = {0};
    films_liquid(&films, "ethanol 15 + isooctane 85", &liquid);
    ck_assert_double_eq_tol(exp(liquid.ln_activity[0]), 0.896, 0.001);
    ck_assert_int_eq(film_of_mean(&resin, &liquid.blend, FILMS_TEMP_K, &mean, &err), STATUS_OK);
    ck_assert_int_eq(mean.outcome, FILM_BOUNDED);
    ck_assert_double_lt(mean.swelling, 0.15);
    film = films_solve(&films, &resin, "ethanol 15 + isooctane 85");
    ck_assert_int_eq(film.outcome, FILM_WITHOUT_LIMIT);
    film = films_solve(&films, &paint, "ethanol 15 + isooctane 85");
    ck_assert_int_eq(film_of_mean(&paint, &liquid.blend, FILMS_TEMP_K, &mean, &err), STATUS_OK);
    ck_assert_double_gt(film.swelling, 2 * mean.swelling);
    ck_assert_double_gt(film.inside[0], 4 * 0.15);
}
END_TEST

START_TEST(the_mean_of_one_liquid_is_that_liquid) {
    static struct films_liquid liquid;
    struct film_result mean;
    films_liquid(&films, "ethyl-acetate", &liquid);
    ck_assert_int_eq(film_of_mean(&paint, &liquid.blend, FILMS_TEMP_K, &mean, NULL), STATUS_OK);
    ck_assert_double_eq_tol(mean.swelling, films_solve(&films, &paint, "ethyl-acetate").swelling, 1e-9);
}
END_TEST

// --- a liquid that has split ---

START_TEST(both_phases_give_the_same_film) {
    static struct films_liquid liquid;
    struct error err = {0};
    films_liquid(&films, "methanol 50 + isooctane 50", &liquid);
    double common[BLEND_COMPONENTS_MAX];
    bool split = false;
    ck_assert_int_eq(film_common_activities(&liquid.activity, liquid.x, common, &split, &err), STATUS_OK);
    ck_assert(split);
    struct stability stability;
    struct phase_split phases;
    ck_assert_int_eq(stability_test(&liquid.activity, liquid.x, &stability, &err), STATUS_OK);
    ck_assert_int_eq(phase_split_find(&liquid.activity, liquid.x, &stability, &phases, &err), STATUS_OK);
    struct film film = films_prepare(&paint, &liquid);
    struct film_result by_common, by_phase[2], by_one;
    film_of_activities(&film, common, NULL, &by_common);
    film_of_activities(&film, liquid.ln_activity, NULL, &by_one);
    ck_assert_int_eq(by_common.outcome, FILM_BOUNDED);
    for (size_t p = 0; p < 2; p++) {
        film_of_liquid(&film, phases.x[p], NULL, &by_phase[p]);
        ck_assert_double_eq_tol(by_phase[p].swelling, by_common.swelling, 1e-6);
    }
    ck_assert_double_gt(fabs(by_one.swelling - by_common.swelling), 1e-3); // one phase would be another liquid
}
END_TEST

START_TEST(a_liquid_of_one_phase_keeps_its_activities) {
    static struct films_liquid liquid;
    films_liquid(&films, "acetone 50 + toluene 50", &liquid);
    double common[BLEND_COMPONENTS_MAX];
    bool split = true;
    ck_assert_int_eq(film_common_activities(&liquid.activity, liquid.x, common, &split, NULL), STATUS_OK);
    ck_assert(!split);
    for (size_t i = 0; i < 2; i++)
        ck_assert_double_eq(common[i], liquid.ln_activity[i]);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("film mix");
    TCase *tests = tcase_create("mix");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, a_mismatched_model_gives_false_synergy);
    tcase_add_test(tests, ethanol_and_toluene_help_each_other);
    tcase_add_test(tests, pairs_of_the_shelf_beside_their_neat_liquids);
    tcase_add_test(tests, the_mean_misses_alcohol_in_alkane);
    tcase_add_test(tests, the_mean_of_one_liquid_is_that_liquid);
    tcase_add_test(tests, both_phases_give_the_same_film);
    tcase_add_test(tests, a_liquid_of_one_phase_keeps_its_activities);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
