// SPDX-License-Identifier: GPL-3.0-or-later
// Differential evaporation against the closed form, two textbook examples and thirteen computed drifts; why it stops.
#include "physics/drift.h"

#include "base/units.h"
#include "csv.h"
#include "errors.h"
#include "physics/vapour.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct error_tables tables;
static struct csv csv;
static struct vapour_liquid liquid;

static void open_tables(void) {
    error_tables_open(&tables);
    csv_read(reference_path("evaporation-checks.csv"), &csv);
}

static void close_tables(void) {
    csv_release(&csv);
    error_tables_close(&tables);
}

static bool constant_mobilities(const double *x, double *ret_g, void *context) {
    (void)x;
    memcpy(ret_g, context, 3 * sizeof *ret_g);
    return true;
}

static bool isothermal(const double *x, double *ret_g, void *context) {
    (void)context;
    return vapour_coefficients(&liquid, x, ret_g, NULL, NULL) == STATUS_OK;
}

// Boiling at one atmosphere: the relative volatilities at the boiling point of what is left.
static bool boiling(const double *x, double *ret_g, void *context) {
    (void)context;
    double temp_k;
    return bubble_temperature(&liquid, x, ATMOSPHERE_KPA, &temp_k, NULL) == STATUS_OK &&
           vapour_coefficients(&liquid, x, ret_g, NULL, NULL) == STATUS_OK;
}

static struct drift_problem binary(double x1, drift_mobilities mobilities, void *context) {
    return (struct drift_problem){.count = 2,
                                  .start = {x1, 1 - x1},
                                  .mobilities = mobilities,
                                  .context = context,
                                  .precision = 1e-9,
                                  .most = 20000};
}

static struct drift_state state_at(const struct drift_problem *problem, double evaporated) {
    struct drift_state state;
    size_t count = 0;
    enum drift_stop stop = DRIFT_STUCK;
    ck_assert_int_eq(drift_follow(problem, &evaporated, 1, &state, &count, &stop, NULL), STATUS_OK);
    ck_assert_int_eq(stop, DRIFT_COMPLETE);
    ck_assert_uint_eq(count, 1);
    return state;
}

static void prepare_row(size_t row, double temp_c) {
    const struct component *pair[2] = {tables_component(&tables.lib, csv_text(&csv, row, "comp1")),
                                       tables_component(&tables.lib, csv_text(&csv, row, "comp2"))};
    ck_assert_int_eq(vapour_liquid_prepare(&tables.unifac, pair, 2, kelvin_from_celsius(temp_c), &liquid, NULL),
                     STATUS_OK);
}

// Rows analytic-constant-alpha: the closed form of the Rayleigh equation (Phil. Mag. 4 (1902) 521), to printed digits.
START_TEST(constant_relative_volatility) {
    size_t compared = 0;
    for (size_t row = 0; row < csv.rows; row++) {
        if (strcmp(csv_text(&csv, row, "kind"), "analytic-constant-alpha") != 0)
            continue;
        double alpha = 0;
        sscanf(csv_text(&csv, row, "note"), "relative volatility %lf", &alpha);
        ck_assert_double_gt(alpha, 1);
        double g[3] = {alpha, 1, 0};
        struct drift_problem problem = binary(csv_number(&csv, row, "x1"), constant_mobilities, g);
        struct drift_state state = state_at(&problem, csv_number(&csv, row, "frac_evaporated_mol"));
        ck_assert_double_eq_tol(state.x[0], csv_number(&csv, row, "x1_residue"), 6e-7);
        compared++;
    }
    ck_assert_uint_eq(compared, 8);
}
END_TEST

// With constant mobilities n_i = x_i exp(-g_i s), d t = (sum n) d s, so that t = sum_i x_i (1 - exp(-g_i s)) / g_i.
static double left_at(const double *x, const double *g, double s) {
    return x[0] * exp(-g[0] * s) + x[1] * exp(-g[1] * s) + x[2] * exp(-g[2] * s);
}

static double bisect(const double *x, const double *g, double left) {
    double low = -60, high = 60; // ln s
    for (int i = 0; i < 200; i++) {
        double middle = (low + high) / 2;
        *(left_at(x, g, exp(middle)) > left ? &low : &high) = middle;
    }
    return exp((low + high) / 2);
}

// Over eleven orders of magnitude of mobility (ether and glycerol lie seven apart), a trace of 1e-12 included.
START_TEST(amounts_and_time_in_closed_form) {
    double g[3] = {1e7, 1, 1e-4};
    struct drift_problem problem = {.count = 3,
                                    .start = {0.6, 0.4 - 1e-12, 1e-12},
                                    .mobilities = constant_mobilities,
                                    .context = g,
                                    .precision = 1e-10,
                                    .most = 20000};
    static const double evaporated[] = {0.1, 0.59, 0.599, 0.601, 0.61, 0.9, 0.999999};
    for (size_t k = 0; k < sizeof evaporated / sizeof *evaporated; k++) {
        struct drift_state state = state_at(&problem, evaporated[k]);
        double s = bisect(problem.start, g, 1 - evaporated[k]), time = 0;
        for (size_t i = 0; i < 3; i++) {
            double exact = problem.start[i] * exp(-g[i] * s);
            ck_assert_double_eq_tol(state.n[i], exact, 1e-7 * exact + 1e-11);
            time += -problem.start[i] * expm1(-g[i] * s) / g[i];
        }
        ck_assert_double_eq_tol(state.time, time, 1e-7 * time);
    }
}
END_TEST

// Rows differential-distillation: Treybal and Geankoplis (from memory), boiling at one atmosphere; 0.005 in the residue
// and the mean of the distillate (an own run by Raoult's law gives 0.325 and 0.616, 0.278 and 0.832).
START_TEST(textbook_distillations) {
    size_t compared = 0;
    for (size_t row = 0; row < csv.rows; row++) {
        if (strcmp(csv_text(&csv, row, "kind"), "differential-distillation") != 0)
            continue;
        prepare_row(row, 80);
        double x1 = csv_number(&csv, row, "x1"), gone = csv_number(&csv, row, "frac_evaporated_mol");
        struct drift_problem problem = binary(x1, boiling, NULL);
        struct drift_state state = state_at(&problem, gone);
        ck_assert_double_eq_tol(state.x[0], csv_number(&csv, row, "x1_residue"), 0.005);
        ck_assert_double_eq_tol((x1 - state.n[0]) / gone, csv_number(&csv, row, "y1"), 0.005);
        compared++;
    }
    ck_assert_uint_eq(compared, 2);
}
END_TEST

// Rows computed-rayleigh-25C: same parameters and pure pressures, equal mass transfer, an independent program with a
// fixed-step method; within 0.0005.
START_TEST(computed_drifts) {
    size_t compared = 0;
    for (size_t row = 0; row < csv.rows; row++) {
        double gone = csv_number(&csv, row, "frac_evaporated_mol");
        if (strcmp(csv_text(&csv, row, "kind"), "computed-rayleigh-25C") != 0 || gone == 0)
            continue;
        prepare_row(row, 25);
        liquid.psat_kpa[0] = csv_number(&csv, row, "psat1_kpa");
        liquid.psat_kpa[1] = csv_number(&csv, row, "psat2_kpa");
        struct drift_problem problem = binary(csv_number(&csv, row, "x1"), isothermal, NULL);
        struct drift_state state = state_at(&problem, gone);
        double expected = csv_number(&csv, row, "x1_residue");
        ck_assert_msg(fabs(state.x[0] - expected) <= 0.0005, "%s at %.2f: %.5f, computed %.5f",
                      csv_text(&csv, row, "set_id"), gone, state.x[0], expected);
        compared++;
    }
    ck_assert_uint_eq(compared, 52);
}
END_TEST

// What is left plus what has left is what was there; amounts only fall, time only rises.
START_TEST(laws_on_random_liquids) {
    struct random random = {.state = 7};
    for (size_t turn = 0; turn < 100; turn++) {
        double g[3], evaporated[20];
        struct drift_state states[20];
        struct drift_problem problem = {
            .count = 3, .mobilities = constant_mobilities, .context = g, .precision = 1e-8, .most = 20000};
        random_fractions(&random, 3, problem.start);
        for (size_t i = 0; i < 3; i++)
            g[i] = pow(10, 8 * random_uniform(&random) - 4);
        for (size_t k = 0; k < 20; k++)
            evaporated[k] = (double)k / 20;
        size_t count = 0;
        enum drift_stop stop;
        ck_assert_int_eq(drift_follow(&problem, evaporated, 20, states, &count, &stop, NULL), STATUS_OK);
        ck_assert_int_eq(stop, DRIFT_COMPLETE);
        for (size_t k = 1; k < count; k++) {
            double left = 0;
            ck_assert_double_gt(states[k].time, states[k - 1].time);
            for (size_t i = 0; i < 3; i++) {
                left += states[k].n[i];
                ck_assert_double_le(states[k].n[i], states[k - 1].n[i] * (1 + 1e-9));
            }
            ck_assert_double_eq_tol(left, 1 - evaporated[k], 1e-9);
        }
    }
}
END_TEST

static bool nothing(const double *x, double *ret_g, void *context) {
    (void)x;
    (void)context;
    ret_g[0] = ret_g[1] = 0;
    return true;
}

// The second component does not evaporate at all: the path ends where the first is gone.
START_TEST(it_says_why_it_stops) {
    static const double evaporated[] = {0, 0.2, 0.4, 0.6, 0.8};
    double g[3] = {1, 0, 0};
    struct drift_state states[5];
    size_t count = 7;
    enum drift_stop stop;
    struct drift_problem problem = binary(0.5, constant_mobilities, g);
    ck_assert_int_eq(drift_follow(&problem, evaporated, 5, states, &count, &stop, NULL), STATUS_OK);
    ck_assert_int_ne(stop, DRIFT_COMPLETE);
    ck_assert_uint_eq(count, 3);
    problem = binary(0.5, nothing, NULL);
    ck_assert_int_eq(drift_follow(&problem, evaporated, 5, states, &count, &stop, NULL), STATUS_OK);
    ck_assert_int_eq(stop, DRIFT_NO_RATES);
    ck_assert_uint_eq(count, 0);
    g[1] = 1e-3;
    problem = binary(0.5, constant_mobilities, g);
    problem.most = 5;
    ck_assert_int_eq(drift_follow(&problem, evaporated, 5, states, &count, &stop, NULL), STATUS_OK);
    ck_assert_int_eq(stop, DRIFT_STEPS);
    ck_assert_uint_lt(count, 5);
    for (int word = DRIFT_COMPLETE; word <= DRIFT_NO_RATES; word++)
        ck_assert_uint_gt(strlen(drift_stop_words((enum drift_stop)word)), 10);
}
END_TEST

START_TEST(a_start_that_is_none) {
    static const double evaporated[] = {0.5};
    double g[3] = {1, 1, 1};
    struct drift_state state;
    size_t count = 7;
    enum drift_stop stop = DRIFT_STUCK;
    struct error err = {0};
    static const double bad[][2] = {{0.5, 0.6}, {-0.1, 1.1}, {NAN, 1}, {0, 0}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        struct drift_problem problem = binary(0.5, constant_mobilities, g);
        memcpy(problem.start, bad[i], sizeof bad[i]);
        ck_assert_int_eq(drift_follow(&problem, evaporated, 1, &state, &count, &stop, &err), STATUS_RANGE);
    }
    ck_assert_uint_eq(count, 7);
    ck_assert_int_eq(stop, DRIFT_STUCK);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("drift");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_set_timeout(all, 60);
    tcase_add_test(all, constant_relative_volatility);
    tcase_add_test(all, amounts_and_time_in_closed_form);
    tcase_add_test(all, textbook_distillations);
    tcase_add_test(all, computed_drifts);
    tcase_add_test(all, laws_on_random_liquids);
    tcase_add_test(all, it_says_why_it_stops);
    tcase_add_test(all, a_start_that_is_none);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
