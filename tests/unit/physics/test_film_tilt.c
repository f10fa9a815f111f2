// SPDX-License-Identifier: GPL-3.0-or-later
// A varied free energy of the mixture, and films made anew for the same liquids: the laws they obey.
#include "physics/film_tilt.h"

#include "films.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { SIZE = 4 };

static struct films films;

static void setup(void) {
    films_open(&films);
}

static void teardown(void) {
    films_release(&films);
}

static void any_tilt(struct random *random, size_t count, double *ret) {
    for (size_t i = 0; i < count; i++) {
        ret[i * count + i] = 0;
        for (size_t j = 0; j < i; j++)
            ret[i * count + j] = ret[j * count + i] = random_uniform(random) - 0.5;
    }
}

START_TEST(neat_liquids_are_not_tilted) {
    struct random random = {1};
    double tilt[SIZE * SIZE];
    any_tilt(&random, SIZE, tilt);
    for (size_t i = 0; i < SIZE; i++) {
        double moles[SIZE] = {0}, ln_gamma[SIZE] = {0};
        moles[i] = 0.3;
        film_tilt_add(tilt, SIZE, moles, ln_gamma, NULL);
        ck_assert_double_eq(ln_gamma[i], 0);
        for (size_t j = 0; j < SIZE; j++) // infinite dilution: t_ij
            ck_assert_double_eq_tol(ln_gamma[j], tilt[j * SIZE + i], 1e-15);
    }
}
END_TEST

// N sum_{i<j} t_ij x_i x_j, whose slopes the ln gamma are.
static double energy(const double *tilt, const double *moles) {
    double sum = 0, total = 0;
    for (size_t i = 0; i < SIZE; i++) {
        total += moles[i];
        for (size_t j = 0; j < i; j++)
            sum += tilt[i * SIZE + j] * moles[i] * moles[j];
    }
    return sum / total;
}

START_TEST(activities_are_the_slopes_of_one_energy) {
    struct random random = {2};
    for (int round = 0; round < 20; round++) {
        double tilt[SIZE * SIZE], moles[SIZE], ln_gamma[SIZE] = {0}, matrix[SIZE * SIZE] = {0};
        any_tilt(&random, SIZE, tilt);
        for (size_t i = 0; i < SIZE; i++)
            moles[i] = 0.1 + random_uniform(&random);
        film_tilt_add(tilt, SIZE, moles, ln_gamma, matrix);
        const double h = 1e-5;
        for (size_t j = 0; j < SIZE; j++) {
            double up[SIZE], down[SIZE], ln_up[SIZE] = {0}, ln_down[SIZE] = {0}, gibbs_duhem = 0;
            memcpy(up, moles, sizeof up);
            memcpy(down, moles, sizeof down);
            up[j] += h;
            down[j] -= h;
            ck_assert_double_eq_tol((energy(tilt, up) - energy(tilt, down)) / (2 * h), ln_gamma[j], 1e-9);
            film_tilt_add(tilt, SIZE, up, ln_up, NULL);
            film_tilt_add(tilt, SIZE, down, ln_down, NULL);
            for (size_t i = 0; i < SIZE; i++) {
                ck_assert_double_eq_tol((ln_up[i] - ln_down[i]) / (2 * h), matrix[i * SIZE + j], 1e-8);
                gibbs_duhem += moles[i] * matrix[i * SIZE + j];
            }
            ck_assert_double_eq_tol(gibbs_duhem, 0, 1e-14);
        }
    }
}
END_TEST

// A liquid that is all solvent: the film's activities are those of the tilted liquid, whatever the tilt. With the tilt
// in the liquid alone they would differ by it.
START_TEST(film_and_liquid_are_tilted_alike) {
    static struct films_liquid liquid;
    films_liquid(&films, "ethanol 20 + toluene 30 + isooctane 50", &liquid);
    struct film_parameters resin = films_parameters(&films, "dammar-aged");
    struct film film = films_prepare(&resin, &liquid);
    struct random random = {3};
    double tilt[9], moles[3], inside[3], outside[3];
    any_tilt(&random, 3, tilt);
    film.tilt = tilt;
    for (size_t i = 0; i < 3; i++)
        moles[i] = 1e6 * liquid.x[i];
    film_activities(&film, moles, inside, NULL);
    memcpy(outside, liquid.ln_activity, sizeof outside);
    film_tilt_add(tilt, 3, liquid.x, outside, NULL);
    for (size_t i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(inside[i], outside[i], 1e-5);
        ck_assert_double_gt(fabs(outside[i] - liquid.ln_activity[i]), 1e-3);
    }
}
END_TEST

// Why the liquid alone must not be varied: with less than full activity outside no film is taken up without limit, not
// even in a neat solvent of it (acetone: inside, from memory of practice, note of resins.csv).
START_TEST(an_error_of_the_liquid_alone_is_absurd) {
    static struct films_liquid liquid;
    films_liquid(&films, "acetone", &liquid);
    struct film_parameters resin = films_parameters(&films, "dammar-aged");
    struct film film = films_prepare(&resin, &liquid);
    struct film_result result;
    double less = -0.025;
    film_of_activities(&film, &less, NULL, &result);
    ck_assert_int_eq(result.outcome, FILM_BOUNDED);
    ck_assert_double_lt(result.swelling, 5);
    const double tilt[1] = {0};
    double as_tilted = liquid.ln_activity[0];
    film_tilt_add(tilt, 1, liquid.x, &as_tilted, NULL);
    film.tilt = tilt;
    film_of_activities(&film, &as_tilted, NULL, &result);
    ck_assert_int_eq(result.outcome, FILM_WITHOUT_LIMIT);
}
END_TEST

// The matrix of a tilted film against differences of its activities.
START_TEST(the_matrix_of_a_tilted_film_is_that_of_its_activities) {
    static struct films_liquid liquid;
    films_liquid(&films, "ethanol 20 + toluene 30 + isooctane 50", &liquid);
    struct film_parameters paint = films_parameters(&films, "linseed-oil-film-young");
    struct film film = films_prepare(&paint, &liquid);
    struct random random = {4};
    double tilt[9], matrix[9], ln_a[3], moles[3] = {0.001, 0.002, 0.0015};
    any_tilt(&random, 3, tilt);
    film.tilt = tilt;
    film_activities(&film, moles, ln_a, matrix);
    for (size_t j = 0; j < 3; j++) {
        double up[3], down[3], ln_up[3], ln_down[3];
        const double h = 1e-6 * moles[j];
        memcpy(up, moles, sizeof up);
        memcpy(down, moles, sizeof down);
        up[j] += h;
        down[j] -= h;
        film_activities(&film, up, ln_up, NULL);
        film_activities(&film, down, ln_down, NULL);
        for (size_t i = 0; i < 3; i++)
            ck_assert_double_eq_tol((ln_up[i] - ln_down[i]) / (2 * h), matrix[3 * i + j],
                                    1e-6 * fabs(matrix[3 * j + j]));
    }
}
END_TEST

// Mean over the composition of |d ln P| for one standard deviation, over common pairs: P = sum x_i gamma_i p_i, so that
// d ln P = sum y_i d ln gamma_i; the mean of |t| is sqrt(2/pi) standard deviations.
START_TEST(the_tilt_is_the_error_of_measured_pressures) {
    static const char *const pairs[][2] = {
        {"acetone", "toluene"},         {"ethanol", "isooctane"},  {"propan-2-ol", "isooctane"}, {"ethanol", "toluene"},
        {"ethyl-acetate", "isooctane"}, {"acetone", "isooctane"},  {"butanone", "toluene"},      {"ethanol", "water"},
        {"acetone", "ethanol"},         {"cyclohexane", "toluene"}};
    const size_t count = sizeof pairs / sizeof *pairs;
    static struct library lib; // also the vapour pressures
    tables_open(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_REFERENCES);
    double mean = 0;
    for (size_t k = 0; k < count; k++) {
        const struct component *ours[2] = {tables_component(&films.lib, pairs[k][0]),
                                           tables_component(&films.lib, pairs[k][1])};
        double p_kpa[2];
        for (size_t i = 0; i < 2; i++)
            p_kpa[i] = tables_component(&lib, pairs[k][i])->properties->vapour_pressure_25c.value;
        static struct activity_model model;
        ck_assert_int_eq(activity_prepare(&films.table, ours, 2, 298.15, &model, NULL), STATUS_OK);
        const double tilt[4] = {0, FILM_TILT_SD, FILM_TILT_SD, 0};
        for (int step = 1; step < 50; step++) {
            double x[2] = {step / 50.0, 1 - step / 50.0}, ln_gamma[2], change[2] = {0, 0}, moved = 0, total = 0;
            activity_ln_gamma(&model, x, ln_gamma);
            film_tilt_add(tilt, 2, x, change, NULL);
            for (size_t i = 0; i < 2; i++) {
                moved += x[i] * exp(ln_gamma[i]) * p_kpa[i] * change[i];
                total += x[i] * exp(ln_gamma[i]) * p_kpa[i];
            }
            mean += sqrt(2 / acos(-1)) * fabs(moved / total) / 49 / (double)count;
        }
    }
    library_release(&lib);
    // 2.5 %: mean error of total pressure by modified UNIFAC (Dortmund), 13 isothermal P-x sets of the ThermoML archive
    // (NIST). To two digits.
    ck_assert_msg(fabs(mean - 0.025) < 0.0005, "%.4f", mean);
}
END_TEST

START_TEST(a_film_made_anew_is_a_film_prepared) {
    static struct films_liquid liquid;
    films_liquid(&films, "ethanol 20 + toluene 30 + isooctane 50", &liquid);
    struct film_parameters resin = films_parameters(&films, "dammar-aged");
    struct film_parameters paint = films_parameters(&films, "linseed-oil-film-young");
    struct film varied = films_prepare(&resin, &liquid), wanted = films_prepare(&paint, &liquid);
    struct hansen places[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < liquid.blend.count; i++)
        places[i] = hansen_of_component(liquid.blend.components[i]);
    film_vary(&paint, places, FILMS_TEMP_K, &varied);
    ck_assert_mem_eq(varied.chi, wanted.chi, 3 * sizeof(double));
    ck_assert_mem_eq(varied.dry, wanted.dry, 3 * sizeof(double));
    ck_assert_double_eq(varied.strands, wanted.strands);
    ck_assert_double_eq(varied.chains, wanted.chains);
    struct film_result a, b;
    film_of_liquid(&varied, liquid.x, NULL, &a);
    film_of_liquid(&wanted, liquid.x, NULL, &b);
    ck_assert_double_eq(a.swelling, b.swelling);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("film_tilt");
    TCase *tests = tcase_create("laws");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, neat_liquids_are_not_tilted);
    tcase_add_test(tests, activities_are_the_slopes_of_one_energy);
    tcase_add_test(tests, film_and_liquid_are_tilted_alike);
    tcase_add_test(tests, an_error_of_the_liquid_alone_is_absurd);
    tcase_add_test(tests, the_matrix_of_a_tilted_film_is_that_of_its_activities);
    tcase_add_test(tests, the_tilt_is_the_error_of_measured_pressures);
    tcase_add_test(tests, a_film_made_anew_is_a_film_prepared);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
