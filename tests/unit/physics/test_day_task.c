// SPDX-License-Identifier: GPL-3.0-or-later
// Tasks of a day as they are written down.
#include "physics/day_task.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct day_task read_task(const char *words) {
    struct day_task task;
    struct error err;
    ck_assert_msg(day_task_parse(words, &task, &err) == STATUS_OK, "%s", err.text);
    return task;
}

START_TEST(a_task_says_when_how_how_much_and_what) {
    struct day_task task = read_task("9:00-11:30 swab 20 mL/h of toluene 1 + acetone 1");
    ck_assert_double_eq(task.from_h, 9);
    ck_assert_double_eq(task.to_h, 11.5);
    ck_assert_int_eq(task.method, METHOD_SWAB);
    ck_assert_double_eq(task.use_ml_h, 20);
    ck_assert(isnan(task.wet_cm2));
    ck_assert_str_eq(task.blend, "toluene 1 + acetone 1");
}
END_TEST

START_TEST(an_amount_of_the_task_is_spread_over_it) {
    struct day_task task = read_task("  13:15-13:45   brush 60mL on 4000 cm2");
    ck_assert_double_eq_tol(task.use_ml_h, 120, 1e-9);
    ck_assert_double_eq(task.wet_cm2, 4000);
    ck_assert_ptr_null(task.blend);
    ck_assert_int_eq(read_task("0:00-24:00 gel 1.5 ml/h").method, METHOD_GEL);
    ck_assert_double_eq(read_task("0:00-24:00 spray 48 ml").use_ml_h, 2);
}
END_TEST

START_TEST(what_is_no_task_is_refused_and_leaves_the_answer_alone) {
    static const char *const wrong[][2] = {
        {"", "two times of one day"},
        {"9:00", "two times of one day"},
        {"9:00-9:60 swab 1 mL", "two times of one day"},
        {"9:0-10:00 swab 1 mL", "two times of one day"},
        {"9:00-24:01 swab 1 mL", "two times of one day"},
        {"9:00-25:00 swab 1 mL", "two times of one day"},
        {"123456:00-10:00 swab 1 mL", "two times of one day"},
        {"10:00-10:00 swab 1 mL", "ends no later than it begins"},
        {"22:00-2:00 swab 1 mL", "ends no later than it begins"},
        {"9:00-10:00", "behind the times stands the method"},
        {"9:00-10:00 Swab 1 mL", "one of swab, brush, spray, gel"},
        {"9:00-10:00 swab", "how much is used"},
        {"9:00-10:00 swab 1,5 mL", "decimal point"},
        {"9:00-10:00 swab 1 L", "how much is used"},
        {"9:00-10:00 swab -1 mL", "how much is used"},
        {"9:00-10:00 swab 0 mL", "above 0"},
        {"9:00-10:00 swab 200000 mL/h", "above 0 and up to 100000"},
        {"9:00-10:00 swab 1 mL on 3 m2", "the wet surface"},
        {"9:00-10:00 swab 1 mL acetone", "'of' and a blend"},
        {"9:00-10:00 swab 1 mL of  ", "behind 'of' stands a blend"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        struct day_task task = {.use_ml_h = -77};
        struct error err = {0};
        ck_assert_msg(day_task_parse(wrong[i][0], &task, &err) == STATUS_USAGE, "'%s' is taken", wrong[i][0]);
        ck_assert_msg(strstr(err.text, wrong[i][1]) != NULL, "'%s' lacks '%s'", err.text, wrong[i][1]);
        ck_assert_double_eq(task.use_ml_h, -77);
    }
}
END_TEST

static Suite *day_task_suite(void) {
    Suite *suite = suite_create("day_task");
    TCase *reading = tcase_create("reading");
    tcase_add_test(reading, a_task_says_when_how_how_much_and_what);
    tcase_add_test(reading, an_amount_of_the_task_is_spread_over_it);
    tcase_add_test(reading, what_is_no_task_is_refused_and_leaves_the_answer_alone);
    suite_add_tcase(suite, reading);
    return suite;
}

int main(void) {
    return suite_run(day_task_suite());
}
