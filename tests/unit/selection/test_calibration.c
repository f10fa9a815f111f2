// SPDX-License-Identifier: GPL-3.0-or-later
// Calibration by simulation on a few varnishes: a check that nothing is grossly off. The figures come from the long
// test (test_calibration_long.c).
#include "calibration.h"
#include "suite.h"

enum { VARNISHES = 12 };

// With 12 varnishes a coverage of 90 % shows as 7 or fewer in one of 2000 cases.
START_TEST(a_few_varnishes_are_learnt_right) {
    struct calibration found;
    calibrate((enum belief_view)_i, TRUTH_OF_VIEW, VARNISHES, &found);
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
        ck_assert_double_ge(found.target_covered[i], 8.0 / VARNISHES);
        ck_assert_double_ge(found.paint_covered[i], 8.0 / VARNISHES);
    }
    ck_assert_double_ge(found.next_covered, 0.7);
    ck_assert_double_lt(found.brier, found.brier_prior);
    ck_assert_double_le(found.warned, 0.5);
}
END_TEST

START_TEST(tests_of_the_other_view_are_noticed) {
    struct calibration found;
    calibrate((enum belief_view)_i, TRUTH_OF_OTHER_VIEW, VARNISHES, &found);
    ck_assert_double_gt(found.warned, 0.5);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("calibration");
    TCase *tests = tcase_create("calibration");
    tcase_set_timeout(tests, 400);
    tcase_add_loop_test(tests, a_few_varnishes_are_learnt_right, 0, 2);
    tcase_add_loop_test(tests, tests_of_the_other_view_are_noticed, 0, 2);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
