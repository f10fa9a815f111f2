// SPDX-License-Identifier: GPL-3.0-or-later
// The ladder against an even series on a few synthetic varnishes; the long test takes 300 of each kind.
#include "ladder_trial.h"

#include "suite.h"

// Acetone in isooctane: the pair of the demo shelf in which the paint feels each step most, so that fine steps occur.
static struct trial_result run(enum trial_truth truth, unsigned long seed) {
    struct trial_request request = {.view = BELIEF_FILM,
                                    .truth = truth,
                                    .varnishes = 10,
                                    .seed = seed,
                                    .weak = "isooctane",
                                    .strong = "acetone",
                                    .remove = "dammar-aged",
                                    .spare = "linseed-oil-film-young"};
    struct trial_result result;
    trial_run(&request, &result);
    return result;
}

START_TEST(no_step_is_against_the_rule_and_no_paint_pays) {
    struct trial_result result = run((enum trial_truth)_i, 5);
    ck_assert_uint_eq(result.rule_broken, 0);
    ck_assert_uint_gt(result.workable, 3);
    ck_assert_double_gt(result.even.overshoot_mean, 0);
    ck_assert_double_le(result.ladder.overshoot_mean, result.even.overshoot_mean);
    ck_assert_double_le(result.ladder.overshoot_95, result.even.overshoot_95 + 1e-12);
    ck_assert_double_lt(result.ladder.tests_mean, result.even.tests_mean + 1);
}
END_TEST

START_TEST(same_seed_same_trial) {
    struct trial_result a = run(TRIAL_PRIOR, 6);
    struct trial_result b = run(TRIAL_PRIOR, 6);
    ck_assert_double_eq(a.ladder.tests_mean, b.ladder.tests_mean);
    ck_assert_double_eq(a.ladder.overshoot_mean, b.ladder.overshoot_mean);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder_trial");
    TCase *tcase = tcase_create("ladder_trial");
    tcase_set_timeout(tcase, 300);
    tcase_add_loop_test(tcase, no_step_is_against_the_rule_and_no_paint_pays, 0, TRIAL_TRUTHS);
    tcase_add_test(tcase, same_seed_same_trial);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
