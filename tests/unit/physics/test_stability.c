// SPDX-License-Identifier: GPL-3.0-or-later
// One phase or two: the tangent-plane test and the split against an independent reference run
// (tests/reference/miscibility.csv, columns ref_*), direct minimisation, and the laws of equilibrium.
#include "physics/stability.h"

#include "csv.h"
#include "physics/dense.h"
#include "physics/miscible_pair.h"
#include "physics/phase_split.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <float.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;

static void setup(void) {
    tables_open_unifac(&lib, TABLE_COMPONENTS, &table);
}

static void teardown(void) {
    tables_close_unifac(&lib, &table);
}

static void prepare(const char *const *ids, size_t count, double temp_k, struct activity_model *ret) {
    tables_activity(&lib, &table, ids, count, temp_k, ret);
    ck_assert_msg(activity_covers(ret), "%s", ret->coverage.sentence);
}

static struct stability test_of(const struct activity_model *model, const double *x) {
    struct stability stability;
    struct error err = {0};
    ck_assert_msg(stability_test(model, x, &stability, &err) == STATUS_OK, "%s", err.text);
    ck_assert(isfinite(stability.distance) && isfinite(stability.least_eigenvalue));
    ck_assert_uint_eq(stability.stopped[STOP_ITERATIONS], 0);
    return stability;
}

// --- dense matrices ---

START_TEST(small_matrices) {
    // 2 -1 0; -1 2 -1; 0 -1 2 has the eigenvalues 2 - 2 cos(k pi/4), k = 1..3 (tridiagonal Toeplitz matrix).
    double matrix[] = {2, -1, 0, -1, 2, -1, 0, -1, 2}, copy[9], vector[3], x[3], right[] = {1, 0, 1};
    memcpy(copy, matrix, sizeof copy);
    ck_assert_double_lt(fabs(dense_least_eigenvalue(copy, 3, vector) - (2 - sqrt(2))), 1e-14);
    ck_assert_double_lt(fabs(fabs(vector[0]) - 0.5) + fabs(fabs(vector[1]) - sqrt(0.5)), 1e-12);
    memcpy(copy, matrix, sizeof copy);
    ck_assert(dense_cholesky_solve(copy, 3, right, x));
    for (size_t i = 0; i < 3; i++)
        ck_assert_double_lt(fabs(x[i] - 1), 1e-14);
    double indefinite[] = {1, 2, 2, 1};
    ck_assert(!dense_cholesky_solve(indefinite, 2, right, x));
}
END_TEST

// --- the reference run ---

// Rows whose model is the one that serves here; the run printed D to 0.001 (scanned on a grid: 0.002) and
// mole fractions to four digits.
START_TEST(gaps_of_the_reference_run) {
    struct csv csv;
    size_t compared = 0, gaps = 0;
    double worst_d = 0, worst_x = 0;
    csv_read(reference_path("miscibility.csv"), &csv);
    for (size_t at = 0; at < csv.rows; at++) {
        const struct component *pair[] = {tables_component(&lib, csv_text(&csv, at, "comp1")),
                                          tables_component(&lib, csv_text(&csv, at, "comp2"))};
        struct activity_model model;
        struct pair_gap gap;
        struct error err = {0};
        ck_assert_int_eq(activity_prepare(&table, pair, 2, 298.15, &model, &err), STATUS_OK);
        if (strcmp(activity_serves_word(model.coverage.serves), csv_text(&csv, at, "ref_model")) != 0)
            continue;
        ck_assert_msg(pair_gap_find(&model, 0, 1, &gap, &err) == STATUS_OK, "%s", err.text);
        double d = csv_number(&csv, at, "ref_min_dlna1_dlnx1");
        double off = fabs(gap.least_d - d) / fmax(1, fabs(d));
        worst_d = fmax(worst_d, off);
        ck_assert_msg(off < 0.002, "%s + %s: D %.4f, reference %.3f", pair[0]->id, pair[1]->id, gap.least_d, d);
        ck_assert_int_eq(gap.exists, strcmp(csv_text(&csv, at, "ref_one_phase"), "no") == 0);
        compared++;
        if (!gap.exists)
            continue;
        double lean = csv_number(&csv, at, "ref_x1_lean"), rich = csv_number(&csv, at, "ref_x1_rich");
        double v1 = pair[0]->molar_volume.value, v2 = pair[1]->molar_volume.value;
        double low = gap.low / v1 / (gap.low / v1 + (1 - gap.low) / v2);
        double high = gap.high / v1 / (gap.high / v1 + (1 - gap.high) / v2);
        worst_x = fmax(worst_x, fmax(fabs(low - lean), fabs(high - rich)));
        ck_assert_msg(fabs(low - lean) < 0.001 + 0.002 * lean && fabs(high - rich) < 0.002,
                      "%s + %s: gap %.4g to %.4g, reference %.4g to %.4g", pair[0]->id, pair[1]->id, low, high, lean,
                      rich);
        gaps++;
    }
    printf("reference run: %zu pairs, %zu gaps; largest differences: D %.4f (relative above 1), mole fraction %.4f\n",
           compared, gaps, worst_d, worst_x);
    ck_assert_uint_ge(compared, 180);
    csv_release(&csv);
}
END_TEST

// --- direct minimisation on binaries ---

enum { GRID = 2000 };

static double mixing_gibbs(const struct activity_model *model, double x) {
    double z[] = {x, 1 - x}, ln_gamma[2];
    activity_ln_gamma(model, z, ln_gamma);
    return (x > 0 ? x * (log(x) + ln_gamma[0]) : 0) + (x < 1 ? (1 - x) * (log(1 - x) + ln_gamma[1]) : 0);
}

// Grid points by a logistic law, so that dilute ends are seen.
static double grid_x(int n) {
    return n == 0 ? 0 : n == GRID ? 1 : 1 / (1 + exp(-(n - GRID / 2.0) * 36 / GRID));
}

// Lower convex hull of the points (Andrew's monotone chain).
static void lower_hull(const double *x, const double *g, int *ret_hull) {
    int size = 0;
    for (int n = 0; n <= GRID; n++) {
        while (size >= 2) {
            int a = ret_hull[size - 2], b = ret_hull[size - 1];
            if ((x[b] - x[a]) * (g[n] - g[a]) - (g[b] - g[a]) * (x[n] - x[a]) > 0)
                break;
            size--;
        }
        ret_hull[size++] = n;
    }
}

START_TEST(binaries_agree_with_direct_minimisation) {
    struct random random = {41};
    static double x[GRID + 1], g[GRID + 1];
    static int hull[GRID + 1];
    size_t unstable = 0, tested = 0;
    for (int n = 0; n < 1200; n++) {
        const struct component *pair[] = {&lib.components[random_below(&random, lib.component_count)],
                                          &lib.components[random_below(&random, lib.component_count)]};
        struct activity_model model;
        struct error err = {0};
        double temp_k = 278.15 + 30 * random_uniform(&random);
        if (pair[0] == pair[1] || activity_prepare(&table, pair, 2, temp_k, &model, &err) != STATUS_OK ||
            !activity_covers(&model))
            continue;
        for (int k = 0; k <= GRID; k++) {
            x[k] = grid_x(k);
            g[k] = mixing_gibbs(&model, x[k]);
        }
        lower_hull(x, g, hull);
        for (int m = 0; m < 20; m++) {
            double feed = grid_x(1 + (int)random_below(&random, GRID - 1)), z[] = {feed, 1 - feed};
            int k = 1;
            while (x[hull[k]] < feed)
                k++;
            double left = x[hull[k - 1]], right = x[hull[k]];
            double chord = g[hull[k - 1]] + (g[hull[k]] - g[hull[k - 1]]) * (feed - left) / (right - left);
            double above = mixing_gibbs(&model, feed) - chord; // > 0: two phases are lower
            struct stability stability = test_of(&model, z);
            tested++;
            unstable += !stability.stable;
            if (above > 1e-9)
                ck_assert_msg(!stability.stable, "%s + %s at x = %.5g, %.2f K: a split gains %.2g", pair[0]->id,
                              pair[1]->id, feed, temp_k, above);
            if (stability.stable)
                continue;
            struct phase_split split;
            enum status status = phase_split_find(&model, z, &stability, &split, &err);
            ck_assert_msg(status == STATUS_OK, "%s + %s at x = %.5g: %s", pair[0]->id, pair[1]->id, feed, err.text);
            // The gain of the split is that of the hull, to the fineness of the grid, and never less.
            ck_assert_double_le(split.gain, -above + 1e-9);
            ck_assert_double_ge(split.gain, -above - 1e-4);
        }
    }
    printf("direct minimisation: %zu binary compositions, %zu of two phases\n", tested, unstable);
    ck_assert_uint_ge(unstable, 500);
}
END_TEST

// --- random blends ---

struct sample {
    struct activity_model model;
    double x[BLEND_COMPONENTS_MAX];
};

// 2 to 9 components, every third with traces down to 1e-13.
static bool draw(struct random *random, int n, struct sample *ret) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    size_t count = 0, wanted = 2 + random_below(random, n % 4 == 0 ? 8 : 3);
    struct error err = {0};
    while (count < wanted) {
        const struct component *one = &lib.components[random_below(random, lib.component_count)];
        bool twice = false;
        for (size_t i = 0; i < count; i++)
            twice = twice || components[i] == one;
        if (!twice)
            components[count++] = one;
    }
    ck_assert_int_eq(
        activity_prepare(&table, components, count, 278.15 + 30 * random_uniform(random), &ret->model, &err),
        STATUS_OK);
    random_fractions(random, count, ret->x);
    for (size_t i = 0; i < count && n % 3 == 0; i++)
        if (random_uniform(random) < 0.4)
            ret->x[i] *= pow(10, -13 * random_uniform(random));
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += ret->x[i];
    for (size_t i = 0; i < count; i++)
        ret->x[i] /= sum;
    return activity_covers(&ret->model);
}

// tpd of a trial composition (physics/stability.h).
static double plane_distance(const struct sample *s, const double *w) {
    double at_z[BLEND_COMPONENTS_MAX], at_w[BLEND_COMPONENTS_MAX], sum = 0;
    activity_ln_gamma(&s->model, s->x, at_z);
    activity_ln_gamma(&s->model, w, at_w);
    for (size_t i = 0; i < s->model.count; i++)
        if (w[i] > 0)
            sum += w[i] * (log(w[i] / s->x[i]) + at_w[i] - at_z[i]);
    return sum;
}

START_TEST(no_trial_phase_lies_below_a_stable_liquid) {
    struct random random = {42};
    size_t tested = 0, stuck = 0;
    for (int n = 0; n < 4000; n++) {
        struct sample s;
        if (!draw(&random, n, &s))
            continue;
        struct stability stability = test_of(&s.model, s.x);
        stuck += stability.stopped[STOP_NO_DESCENT];
        if (!stability.stable)
            continue;
        tested++;
        for (int k = 0; k < 100; k++) {
            double w[BLEND_COMPONENTS_MAX], sum = 0;
            random_fractions(&random, s.model.count, w);
            for (size_t i = 0; i < s.model.count; i++)
                sum += w[i] = k % 2 ? pow(w[i], 4) : w[i];
            for (size_t i = 0; i < s.model.count; i++)
                w[i] /= sum;
            ck_assert_double_gt(plane_distance(&s, w), -1e-9);
        }
    }
    ck_assert_uint_gt(tested, 2000);
    ck_assert_uint_lt(stuck, 10); // trials end in a minimum or in the liquid itself; rounding stops few before
}
END_TEST

static void assert_equilibrium(const struct sample *s, const struct phase_split *split) {
    size_t count = s->model.count;
    double ln_gamma[2][BLEND_COMPONENTS_MAX], sums[4] = {0};
    for (int phase = 0; phase < 2; phase++)
        activity_ln_gamma(&s->model, split->x[phase], ln_gamma[phase]);
    for (size_t i = 0; i < count; i++) {
        double back = split->mole_share[0] * split->x[0][i] + split->mole_share[1] * split->x[1][i];
        ck_assert_double_le(fabs(back - s->x[i]), 1e-12 * s->x[i]);
        double left = log(split->x[0][i]) + ln_gamma[0][i], right = log(split->x[1][i]) + ln_gamma[1][i];
        ck_assert_double_lt(fabs(left - right), 1e-9);
        for (int phase = 0; phase < 2; phase++) {
            sums[phase] += split->x[phase][i];
            sums[2 + phase] += split->phi[phase][i];
        }
    }
    for (int k = 0; k < 4; k++)
        ck_assert_double_lt(fabs(sums[k] - 1), 1e-12);
    ck_assert_double_lt(fabs(split->volume_share[0] + split->volume_share[1] - 1), 1e-12);
    ck_assert_double_ge(split->volume_share[0], split->volume_share[1]);
    ck_assert_double_lt(split->gain, 0);
}

START_TEST(every_unstable_liquid_splits) {
    struct random random = {43};
    size_t found = 0, third = 0;
    for (int n = 0; n < 6000; n++) {
        struct sample s;
        struct phase_split split;
        struct error err = {0};
        if (!draw(&random, n, &s))
            continue;
        struct stability stability = test_of(&s.model, s.x);
        if (stability.stable)
            continue;
        enum status status = phase_split_find(&s.model, s.x, &stability, &split, &err);
        ck_assert_msg(status == STATUS_OK, "%s", err.text);
        assert_equilibrium(&s, &split);
        found++;
        bool again = false;
        for (int phase = 0; phase < 2; phase++)
            again = again || test_of(&s.model, split.x[phase]).distance < -1e-6;
        third += again;
    }
    printf("splits: %zu, of which %zu with a third liquid\n", found, third);
    ck_assert_uint_gt(found, 600);
    ck_assert_uint_lt(third, found / 50);
}
END_TEST

// --- edges ---

// The temperature at which a composition comes to the spinodal, by halving the interval.
static double spinodal_of(struct activity_model *model, const double *x, double low, double high) {
    struct error err = {0};
    for (int n = 0; n < 60; n++) {
        double middle = (low + high) / 2;
        ck_assert_int_eq(activity_set_temperature(model, middle, &err), STATUS_OK);
        *(stability_least_eigenvalue(model, x, NULL) < 0 ? &low : &high) = middle;
    }
    return high;
}

// Composition of least D of methanol + cyclohexane.
static void prepare_methanol(struct activity_model *ret, double x[2]) {
    const char *const ids[] = {"methanol", "cyclohexane"};
    struct error err = {0};
    struct pair_gap gap;
    prepare(ids, 2, 288.15, ret);
    ck_assert_int_eq(pair_gap_find(ret, 0, 1, &gap, &err), STATUS_OK);
    ck_assert(gap.exists);
    x[0] = gap.x_at_least;
    x[1] = 1 - gap.x_at_least;
}

START_TEST(at_the_spinodal_nothing_breaks) {
    struct activity_model model;
    struct error err = {0};
    double x[2];
    prepare_methanol(&model, x);
    double high = spinodal_of(&model, x, 288.15, 420);
    for (double step = -1e-3; step <= 1e-3; step += 1e-4) {
        struct phase_split split;
        ck_assert_int_eq(activity_set_temperature(&model, high + step, &err), STATUS_OK);
        struct stability stability = test_of(&model, x);
        ck_assert_double_lt(fabs(stability.least_eigenvalue), 1e-4);
        enum status status = phase_split_find(&model, x, &stability, &split, &err);
        ck_assert(status == STATUS_OK || status == STATUS_NO_ROOT);
        ck_assert(status != STATUS_OK || split.mismatch < 1e-6);
    }
}
END_TEST

// Where the gap closes, its width goes with the square root of the distance from the critical temperature (classical
// exponent 1/2 of every smooth Gibbs energy: Landau and Lifshitz, Statistical Physics, Part 1, sec. 83 and 97, from
// memory). Successive substitution creeps there; the two liquids must be as exact as anywhere.
START_TEST(the_gap_closes_as_a_square_root) {
    static const double below_k[] = {1, 0.1, 0.01};
    struct activity_model model;
    struct error err = {0};
    double x[2], width[3];
    prepare_methanol(&model, x);
    for (int n = 0; n < 6; n++) { // to the critical point: the composition in the middle of the gap just below
        double critical = spinodal_of(&model, x, 288.15, 420);
        struct pair_gap gap;
        ck_assert_int_eq(activity_set_temperature(&model, critical - 0.5, &err), STATUS_OK);
        ck_assert_int_eq(pair_gap_find(&model, 0, 1, &gap, &err), STATUS_OK);
        x[0] = gap.x_at_least;
        x[1] = 1 - gap.x_at_least;
    }
    double critical = spinodal_of(&model, x, 288.15, 420);
    for (size_t n = 0; n < 3; n++) {
        struct phase_split split;
        ck_assert_int_eq(activity_set_temperature(&model, critical - below_k[n], &err), STATUS_OK);
        struct stability stability = test_of(&model, x);
        ck_assert(!stability.stable);
        ck_assert_msg(phase_split_find(&model, x, &stability, &split, &err) == STATUS_OK, "%s", err.text);
        width[n] = fabs(split.x[0][0] - split.x[1][0]);
        ck_assert_double_lt(split.mismatch, 1e-9);
    }
    ck_assert_double_eq_tol(width[1] / width[0], sqrt(0.1), 0.02);
    ck_assert_double_eq_tol(width[2] / width[1], sqrt(0.1), 0.02);
}
END_TEST

START_TEST(d_of_two_components_is_the_slope_of_the_activity) {
    const char *const ids[] = {"ethanol", "n-heptane"};
    struct activity_model model;
    prepare(ids, 2, 293.15, &model);
    for (double x = 0.02; x < 1; x += 0.07) {
        double step = 1e-5, up[] = {x + step, 1 - x - step}, down[] = {x - step, 1 - x + step}, a[2], b[2],
               z[] = {x, 1 - x};
        activity_ln_gamma(&model, up, a);
        activity_ln_gamma(&model, down, b);
        double slope = 1 + x * (a[0] - b[0]) / (2 * step), direction[2];
        ck_assert_double_lt(fabs(stability_least_eigenvalue(&model, z, direction) - slope), 1e-6);
        ck_assert_double_lt(fabs(direction[0] + direction[1]), 1e-12);
    }
}
END_TEST

START_TEST(traces_and_absent_components) {
    const char *const ids[] = {"ethanol", "n-decane", "water", "toluene"};
    const char *const two[] = {"ethanol", "n-decane"};
    struct activity_model all, pair;
    prepare(ids, 4, 293.15, &all);
    prepare(two, 2, 293.15, &pair);
    double absent[] = {0.5, 0.5, 0, 0}, trace[] = {0.5, 0.5, 1e-12, 1e-12}, alone[] = {0.5, 0.5},
           single[] = {0, 0, 3, 0};
    struct stability a = test_of(&all, absent), b = test_of(&all, trace), c = test_of(&pair, alone);
    ck_assert_double_lt(fabs(a.least_eigenvalue - c.least_eigenvalue), 1e-10);
    ck_assert_double_lt(fabs(b.least_eigenvalue - c.least_eigenvalue), 1e-9);
    ck_assert_double_lt(fabs(a.distance - c.distance), 1e-10);
    ck_assert_double_lt(fabs(b.distance - c.distance), 1e-9);
    struct stability one = test_of(&all, single);
    ck_assert(one.stable);
    ck_assert_double_eq(one.least_eigenvalue, 1);
}
END_TEST

START_TEST(amounts_that_are_none_are_refused) {
    const char *const ids[] = {"ethanol", "water"};
    static const double bad[][2] = {{-0.1, 1.1}, {NAN, 1}, {INFINITY, 1}, {0, 0}, {DBL_MAX, DBL_MAX}};
    struct activity_model model;
    struct stability stability = {.starts = 99};
    struct phase_split split = {.gain = 5};
    struct error err = {0};
    prepare(ids, 2, 293.15, &model);
    for (size_t n = 0; n < sizeof bad / sizeof bad[0]; n++) {
        ck_assert_int_eq(stability_test(&model, bad[n], &stability, &err), STATUS_RANGE);
        ck_assert_int_eq(phase_split_find(&model, bad[n], &stability, &split, &err), STATUS_RANGE);
    }
    ck_assert_uint_eq(stability.starts, 99);
    double x[] = {0.5, 0.5};
    struct stability stable = test_of(&model, x);
    ck_assert_int_eq(phase_split_find(&model, x, &stable, &split, &err), STATUS_NO_ROOT);
    ck_assert_double_eq(split.gain, 5);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stability");
    TCase *tests = tcase_create("stability");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, small_matrices);
    tcase_add_test(tests, gaps_of_the_reference_run);
    tcase_add_test(tests, binaries_agree_with_direct_minimisation);
    tcase_add_test(tests, no_trial_phase_lies_below_a_stable_liquid);
    tcase_add_test(tests, every_unstable_liquid_splits);
    tcase_add_test(tests, at_the_spinodal_nothing_breaks);
    tcase_add_test(tests, the_gap_closes_as_a_square_root);
    tcase_add_test(tests, d_of_two_components_is_the_slope_of_the_activity);
    tcase_add_test(tests, traces_and_absent_components);
    tcase_add_test(tests, amounts_that_are_none_are_refused);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
