// SPDX-License-Identifier: GPL-3.0-or-later
// Roots and paths against closed forms; every reason to stop.
#include "physics/solve.h"
#include "suite.h"

#include <check.h>
#include <math.h>

static const struct solve_stop tight = {.absolute = 1e-12, .most = 100};

static double cosine_less_x(double x, void *context) {
    (void)context;
    return cos(x) - x;
}

static double logarithm(double x, void *context) {
    (void)context;
    return log(x); // no value below 0
}

static double shifted_gap(double x, void *context) {
    (void)context;
    return fabs(x) < 0.3 ? NAN : x + 0.1;
}

// The fixed point of the cosine, 0.73908 51332 15160 (Sloane's A003957).
START_TEST(root_of_known_functions) {
    double x = NAN;
    ck_assert_int_eq(solve_root(cosine_less_x, NULL, 0, 1, &tight, &x, NULL), STATUS_OK);
    ck_assert_double_eq_tol(x, 0.739085133215160, 1e-12);
    ck_assert_int_eq(solve_root(logarithm, NULL, 1, 5, &tight, &x, NULL), STATUS_OK);
    ck_assert_double_eq(x, 1); // a root at the edge is a root
}
END_TEST

START_TEST(no_root_is_said) {
    double x = 7;
    struct error err = {0};
    ck_assert_int_eq(solve_root(cosine_less_x, NULL, 1, 2, &tight, &x, &err), STATUS_NO_ROOT);
    ck_assert_str_eq(err.text, "no change of sign between 1 and 2");
    ck_assert_int_eq(solve_root(logarithm, NULL, -1, 5, &tight, &x, &err), STATUS_NO_ROOT);
    ck_assert_int_eq(solve_root(shifted_gap, NULL, -1, 1, &tight, &x, &err), STATUS_NO_ROOT);
    const struct solve_stop hasty = {.absolute = 1e-12, .most = 2};
    ck_assert_int_eq(solve_root(cosine_less_x, NULL, 0, 1, &hasty, &x, &err), STATUS_ITERATIONS);
    ck_assert_double_eq(x, 7); // untouched on failure
}
END_TEST

static bool decay_and_swing(double s, const double *y, double *ret_dy, void *context) {
    (void)s;
    (void)context;
    ret_dy[0] = -y[0];
    ret_dy[1] = y[2];
    ret_dy[2] = -y[1];
    return true;
}

START_TEST(path_of_known_equations) {
    struct solve_path path = {
        .count = 3, .rates = decay_and_swing, .absolute = 1e-11, .relative = 1e-11, .most = 10000};
    double y[3] = {1, 0, 1}, s = 0;
    for (double target = 0; target <= 6; target += 1.5) {
        enum solve_reached reached;
        ck_assert_int_eq(solve_path_to(&path, &s, target, y, &reached, NULL), STATUS_OK);
        ck_assert_int_eq(reached, SOLVE_REACHED);
        ck_assert_double_eq(s, target);
        ck_assert_double_eq_tol(y[0], exp(-target), 1e-9);
        ck_assert_double_eq_tol(y[1], sin(target), 1e-9);
        ck_assert_double_eq_tol(y[2], cos(target), 1e-9);
    }
    solve_path_release(&path);
    solve_path_release(&path); // twice does no harm
}
END_TEST

static bool decay_until_one(double s, const double *y, double *ret_dy, void *context) {
    (void)context;
    ret_dy[0] = -y[0];
    return s <= 1;
}

static bool blow_up(double s, const double *y, double *ret_dy, void *context) {
    (void)s;
    (void)context;
    ret_dy[0] = y[0] * y[0]; // y = 1/(1 - s)
    return true;
}

static enum solve_reached follow(solve_rates rates, size_t most, double target, double *ret_s) {
    struct solve_path path = {.count = 1, .rates = rates, .absolute = 1e-9, .relative = 1e-9, .most = most};
    double y = 1;
    enum solve_reached reached;
    *ret_s = 0;
    ck_assert_int_eq(solve_path_to(&path, ret_s, target, &y, &reached, NULL), STATUS_OK);
    solve_path_release(&path);
    return reached;
}

START_TEST(a_path_says_why_it_ends) {
    double s;
    ck_assert_int_eq(follow(decay_until_one, 10000, 2, &s), SOLVE_NO_RATES);
    ck_assert_double_eq_tol(s, 1, 1e-6);
    ck_assert_int_eq(follow(decay_until_one, 3, 1, &s), SOLVE_STEPS);
    ck_assert_double_lt(s, 1);
    ck_assert_int_ne(follow(blow_up, 10000, 2, &s), SOLVE_REACHED);
    ck_assert_double_lt(s, 1.0001);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("solve");
    TCase *all = tcase_create("all");
    tcase_add_test(all, root_of_known_functions);
    tcase_add_test(all, no_root_is_said);
    tcase_add_test(all, path_of_known_equations);
    tcase_add_test(all, a_path_says_why_it_ends);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
