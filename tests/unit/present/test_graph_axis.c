// SPDX-License-Identifier: GPL-3.0-or-later
// Ticks that people can read, for any range.
#include "present/chart/graph_axis.h"
#include "random.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct arena arena;
static struct text_metric metric;
static struct graph_range range;

static void begin(void) {
    metric = metric_fixed();
}

static void end(void) {
    arena_release(&arena);
}

static void make(struct graph_axis axis, double low, double high, double length, bool level) {
    struct graph_tick_style style = {&metric, 8, length, level, '.'};
    ck_assert(graph_range_make(&arena, &axis, low, high, &style, &range));
}

static double random_between(struct random *random, double low, double high) {
    return low + (high - low) * random_uniform(random);
}

static const struct graph_axis open_axis = {.low = NAN, .high = NAN};
static const struct graph_axis open_log = {.scale = GRAPH_LOG, .low = NAN, .high = NAN};

static void assert_labels(const char *expected) {
    char all[512] = "";
    for (size_t i = 0; i < range.tick_count; i++) {
        if (!range.ticks[i].label)
            continue;
        strcat(all, all[0] ? " " : "");
        strcat(all, range.ticks[i].label);
    }
    ck_assert_str_eq(all, expected);
}

START_TEST(familiar_ranges_have_familiar_ticks) {
    make(open_axis, 0, 100, 200, true);
    assert_labels("0 20 40 60 80 100");
    make(open_axis, 0, 317, 200, false);
    assert_labels("0 50 100 150 200 250 300 350");
    make(open_axis, -0.3, 0.42, 120, false);
    assert_labels("\u22120.4 \u22120.2 0.0 0.2 0.4 0.6");
    make((struct graph_axis){.low = 0, .high = 100}, 3, 5, 400, true);
    assert_labels("0 10 20 30 40 50 60 70 80 90 100");
}
END_TEST

START_TEST(a_range_that_begins_at_zero) {
    struct graph_axis axis = open_axis;
    axis.from_zero = true;
    make(axis, 40, 95, 200, false);
    ck_assert_double_eq(range.low, 0);
    make(axis, -7, -5, 200, false);
    ck_assert_double_eq(range.high, 0);
    make(axis, 0, 0, 200, false);
    ck_assert_double_eq(range.low, 0);
    ck_assert_double_eq(range.high, 1);
}
END_TEST

START_TEST(hours_are_divided_as_clocks_are) {
    struct graph_axis hours = {.scale = GRAPH_HOURS, .low = 0, .high = 8};
    make(hours, NAN, NAN, 250, true);
    assert_labels("0 1 2 3 4 5 6 7 8");
    make(hours, NAN, NAN, 100, true);
    assert_labels("0 2 4 6 8");
    hours.high = 1;
    make(hours, NAN, NAN, 150, true);
    assert_labels("0.00 0.25 0.50 0.75 1.00");
    struct graph_axis clock = {.scale = GRAPH_CLOCK, .low = 8.5, .high = 12.5};
    make(clock, NAN, NAN, 250, true);
    assert_labels("9:00 10:00 11:00 12:00");
    clock = (struct graph_axis){.scale = GRAPH_CLOCK, .low = 9, .high = 10};
    make(clock, NAN, NAN, 200, true);
    assert_labels("9:00 9:15 9:30 9:45 10:00");
    clock = (struct graph_axis){.scale = GRAPH_CLOCK, .low = 21, .high = 27}; // past midnight
    make(clock, NAN, NAN, 130, true);
    assert_labels("22:00 0:00 2:00");
}
END_TEST

START_TEST(logarithmic_axes_count_decades) {
    make(open_log, 0.02, 1.3, 300, true);
    assert_labels("0.02 0.05 0.1 0.2 0.5 1 2");
    make(open_log, 0.02, 1.3, 80, true);
    assert_labels("0.1 1");
    make(open_log, 1e-6, 1e7, 300, true);
    ck_assert_ptr_nonnull(strstr(range.ticks[0].label, "10\u207B\u2076"));
    make(open_log, 3, 4, 200, false); // less than a decade: round steps
    ck_assert_uint_ge(range.tick_count, 2);
    ck_assert_double_le(range.low, 3);
    ck_assert_double_ge(range.high, 4);
    make((struct graph_axis){.scale = GRAPH_LOG, .low = 2.1, .high = 2.9}, NAN, NAN, 200, false);
    ck_assert_uint_ge(range.tick_count, 2);
}
END_TEST

START_TEST(positions_run_from_end_to_end) {
    make(open_log, 1, 100, 200, true);
    ck_assert_double_eq_tol(graph_position(&range, 1), 0, 1e-12);
    ck_assert_double_eq_tol(graph_position(&range, 10), 0.5, 1e-12);
    ck_assert_double_eq_tol(graph_position(&range, 100), 1, 1e-12);
    make(open_axis, 0, 10, 200, true);
    ck_assert_double_eq_tol(graph_position(&range, 2.5), 0.25, 1e-12);
    ck_assert_double_lt(graph_position(&range, -1), 0);
}
END_TEST

START_TEST(no_data_and_equal_data_get_an_axis) {
    const double values[] = {0, 1, -3, 5e-40, 1e30, -1e30, 7e-12};
    make(open_axis, NAN, NAN, 200, true);
    ck_assert_uint_ge(range.tick_count, 2);
    make(open_log, NAN, NAN, 200, true);
    ck_assert_uint_ge(range.tick_count, 2);
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        make(open_axis, values[i], values[i], 200, true);
        ck_assert_double_lt(range.low, range.high);
        double at = graph_position(&range, values[i]);
        ck_assert(at >= 0 && at <= 1);
        ck_assert_uint_ge(range.tick_count, 2);
    }
    make(open_log, 3, 3, 200, true);
    ck_assert_double_lt(range.low, 3);
    ck_assert_double_gt(range.high, 3);
}
END_TEST

START_TEST(a_fixed_end_beyond_the_data_holds) {
    make((struct graph_axis){.low = 10, .high = NAN}, 2, 5, 200, true);
    ck_assert_double_eq(range.low, 10);
    ck_assert_double_gt(range.high, 10);
    make((struct graph_axis){.low = NAN, .high = 1}, 2, 5, 200, true);
    ck_assert_double_eq(range.high, 1);
    ck_assert_double_lt(range.low, 1);
    make((struct graph_axis){.scale = GRAPH_LOG, .low = 10, .high = NAN}, NAN, NAN, 200, true);
    ck_assert_double_gt(range.high, 10);
}
END_TEST

START_TEST(large_and_small_values_share_a_power) {
    make(open_axis, 0, 8e9, 200, false);
    ck_assert_int_eq(range.power, 9);
    assert_labels("0 1 2 3 4 5 6 7 8");
    make(open_axis, 0, 5e-5, 120, false);
    ck_assert_int_eq(range.power, -6);
    assert_labels("0 10 20 30 40 50");
    make(open_axis, 0, 99999, 200, false); // five figures stand as they are
    ck_assert_int_eq(range.power, 3);      // the end is rounded up to 100000
    make(open_axis, 0, 80000, 200, false);
    ck_assert_int_eq(range.power, 0);
    ck_assert_str_eq(graph_power_text(&arena, -12), "10\u207B\u00B9\u00B2");
    ck_assert_str_eq(graph_power_text(&arena, 30), "10\u00B3\u2070");
}
END_TEST

START_TEST(a_decimal_comma_where_it_is_usual) {
    struct graph_tick_style style = {&metric, 8, 200, false, ','};
    ck_assert(graph_range_make(&arena, &open_axis, 0, 1, &style, &range));
    ck_assert_str_eq(range.ticks[1].label, "0,2");
}
END_TEST

START_TEST(what_cannot_be_drawn_is_known) {
    ck_assert(!graph_value_drawable(GRAPH_LINEAR, NAN));
    ck_assert(!graph_value_drawable(GRAPH_LINEAR, INFINITY));
    ck_assert(!graph_value_drawable(GRAPH_LINEAR, -2e30));
    ck_assert(graph_value_drawable(GRAPH_LINEAR, -1e30));
    ck_assert(!graph_value_drawable(GRAPH_LOG, 0));
    ck_assert(!graph_value_drawable(GRAPH_LOG, -1));
    ck_assert(graph_value_drawable(GRAPH_LOG, 1e-30));
}
END_TEST

// What a reader makes of a label: its number times the power of the axis.
static double read_label(const char *label) {
    char plain[64];
    bool minus = strncmp(label, "\u2212", strlen("\u2212")) == 0;
    snprintf(plain, sizeof plain, "%s", minus ? label + strlen("\u2212") : label);
    return (minus ? -1 : 1) * strtod(plain, NULL) * pow(10, range.power);
}

static bool round_step(double step) {
    double part = step / pow(10, floor(log10(step) + 1e-9));
    return fabs(part - 1) < 1e-6 || fabs(part - 2) < 1e-6 || fabs(part - 5) < 1e-6;
}

START_TEST(any_range_has_round_distinct_readable_ticks) {
    struct random random = {77};
    for (int i = 0; i < 3000; i++) {
        double scale = pow(10, random_between(&random, -20, 20));
        double low = scale * random_between(&random, -1, 1);
        double high = low + scale * pow(10, random_between(&random, -3, 1));
        double length = random_between(&random, 60, 500);
        bool level = i % 2;
        make(open_axis, low, high, length, level);
        ck_assert_double_le(range.low, low);
        ck_assert_double_ge(range.high, high);
        ck_assert_msg(range.tick_count >= 2, "%g to %g on %g pt has %zu ticks", low, high, length, range.tick_count);
        double step = range.ticks[1].value - range.ticks[0].value;
        ck_assert_msg(round_step(step), "step %g of %g to %g", step, low, high);
        for (size_t k = 0; k < range.tick_count; k++) {
            const struct graph_tick *tick = &range.ticks[k];
            double read = read_label(tick->label);
            ck_assert_msg(fabs(read - tick->value) < 1e-6 * step, "label %s for %g", tick->label, tick->value);
            double apart = length * step / (range.high - range.low);
            double need = level ? metric_width(&metric, tick->label, 8, false) : 8;
            ck_assert_msg(range.tick_count <= 2 || apart > need, "labels of %g to %g touch on %g pt", low, high,
                          length);
        }
        arena_release(&arena);
    }
}
END_TEST

START_TEST(any_logarithmic_range_has_ticks_that_do_not_touch) {
    struct random random = {78};
    for (int i = 0; i < 2000; i++) {
        double low = pow(10, random_between(&random, -25, 20));
        double high = low * pow(10, random_between(&random, 0.01, 9));
        double length = random_between(&random, 80, 500);
        bool level = i % 2;
        make(open_log, low, high, length, level);
        ck_assert_double_le(range.low, low * (1 + 1e-9));
        ck_assert_double_ge(range.high, high * (1 - 1e-9));
        size_t labelled = 0;
        for (size_t k = 0; k < range.tick_count; k++)
            labelled += range.ticks[k].label != NULL;
        ck_assert_msg(labelled >= 2, "%g to %g on %g pt: %zu numbers", low, high, length, labelled);
        arena_release(&arena);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("graph axis");
    TCase *tests = tcase_create("axis");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, familiar_ranges_have_familiar_ticks);
    tcase_add_test(tests, a_range_that_begins_at_zero);
    tcase_add_test(tests, hours_are_divided_as_clocks_are);
    tcase_add_test(tests, logarithmic_axes_count_decades);
    tcase_add_test(tests, positions_run_from_end_to_end);
    tcase_add_test(tests, no_data_and_equal_data_get_an_axis);
    tcase_add_test(tests, a_fixed_end_beyond_the_data_holds);
    tcase_add_test(tests, large_and_small_values_share_a_power);
    tcase_add_test(tests, a_decimal_comma_where_it_is_usual);
    tcase_add_test(tests, what_cannot_be_drawn_is_known);
    tcase_add_test(tests, any_range_has_round_distinct_readable_ticks);
    tcase_add_test(tests, any_logarithmic_range_has_ticks_that_do_not_touch);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
