// SPDX-License-Identifier: GPL-3.0-or-later
// Test batches: whole millilitres, never stronger than asked for; expected amounts by hand.
#include "selection/ladder_jar.h"

#include "suite.h"

#include <math.h>

static double share_of(double before_percent, const struct jar_batch *batch) {
    return (before_percent * batch->from_jar_ml + 100.0 * batch->strong_ml) / batch->total_ml;
}

START_TEST(fresh_batches_meet_every_rung) {
    for (int percent = 0; percent <= 100; percent += 5) {
        struct jar_batch batch = jar_fresh(percent);
        ck_assert_int_eq(batch.from_jar_ml, 0);
        ck_assert_int_ge(batch.total_ml, JAR_FRESH_LEAST_ML);
        ck_assert_int_le(batch.total_ml, JAR_MOST_ML);
        ck_assert_int_eq(batch.weak_ml + batch.strong_ml, batch.total_ml);
        ck_assert_double_eq_tol(share_of(0, &batch), percent, 1e-9); // twentieths of 20 mL
    }
    ck_assert_int_eq(jar_fresh(10).total_ml, 10); // 9 + 1
    ck_assert_int_eq(jar_fresh(25).total_ml, 12); // 9 + 3
    ck_assert_int_eq(jar_fresh(35).total_ml, 20); // 13 + 7
}
END_TEST

START_TEST(a_share_that_no_batch_meets_is_met_from_below) {
    struct jar_batch batch = jar_fresh(33); // 4 of 13 are 30.8, 5 of 16 31.3, 6 of 19 31.6, 3 of 10 30 %
    ck_assert_int_eq(batch.total_ml, 19);
    ck_assert_int_eq(batch.strong_ml, 6);
}
END_TEST

START_TEST(out_of_the_jar) {
    struct jar_batch batch;
    ck_assert(jar_from(10, 8, 20, &batch)); // 8 mL with 0.8 of it strong, and 1: 1.8 of 9
    ck_assert_int_eq(batch.from_jar_ml, 8);
    ck_assert_int_eq(batch.strong_ml, 1);
    ck_assert_int_eq(batch.weak_ml, 0);
    ck_assert(jar_from(20, 8, 30, &batch)); // 1.4 of 7, and 1: 2.4 of 8
    ck_assert_int_eq(batch.from_jar_ml, 7);
    ck_assert_int_eq(batch.total_ml, 8);
    ck_assert(jar_from(30, 18, 35, &batch)); // 13 mL with 3.9, and 1: 4.9 of 14
    ck_assert_int_eq(batch.from_jar_ml, 13);
    ck_assert_int_eq(batch.total_ml, 14);
    ck_assert(jar_from(0, 8, 10, &batch)); // no mL of it alone makes a tenth of 8 + 1: one of each
    ck_assert_int_eq(batch.from_jar_ml, 8);
    ck_assert_int_eq(batch.strong_ml, 1);
    ck_assert_int_eq(batch.weak_ml, 1);
}
END_TEST

START_TEST(never_stronger_than_asked_for) {
    struct jar_batch batch;
    int made = 0;
    for (int before = 0; before <= 95; before += 5)
        for (int percent = before + 5; percent <= 100; percent += 5)
            for (int left = 0; left <= JAR_MOST_ML; left++) {
                if (!jar_from(before, left, percent, &batch))
                    continue;
                made++;
                ck_assert_int_le(batch.from_jar_ml, left);
                ck_assert_int_ge(batch.total_ml, JAR_LEAST_ML);
                ck_assert_int_le(batch.total_ml, JAR_MOST_ML);
                ck_assert_int_eq(batch.from_jar_ml + batch.weak_ml + batch.strong_ml, batch.total_ml);
                ck_assert_double_eq_tol(batch.reached_percent, share_of(before, &batch), 1e-9);
                ck_assert(batch.reached_percent <= percent + 1e-6);
                ck_assert(batch.reached_percent >= percent - 0.1 - 1e-6);
                ck_assert_int_ge(2 * batch.from_jar_ml, batch.total_ml);
            }
    ck_assert_int_gt(made, 500);
}
END_TEST

START_TEST(an_empty_jar_makes_nothing) {
    struct jar_batch batch = {.total_ml = -1};
    ck_assert(!jar_from(10, 0, 20, &batch));
    ck_assert(!jar_from(10, 2, 20, &batch)); // fewer than 5 mL
    ck_assert_int_eq(batch.total_ml, -1);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder_jar");
    TCase *tcase = tcase_create("ladder_jar");
    tcase_add_test(tcase, fresh_batches_meet_every_rung);
    tcase_add_test(tcase, a_share_that_no_batch_meets_is_met_from_below);
    tcase_add_test(tcase, out_of_the_jar);
    tcase_add_test(tcase, never_stronger_than_asked_for);
    tcase_add_test(tcase, an_empty_jar_makes_nothing);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
