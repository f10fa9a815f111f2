// SPDX-License-Identifier: GPL-3.0-or-later
// The ladder against an even series on 300 synthetic varnishes of each kind: it never overshoots more. The table is
// printed by ladder_table.
#include "ladder_trial.h"

#include "suite.h"

static const char *const strong[] = {"propan-2-ol", "acetone"};

START_TEST(the_paint_never_pays_for_the_adapting) {
    struct trial_request request = {.view = BELIEF_FILM,
                                    .truth = (enum trial_truth)(_i % TRIAL_TRUTHS),
                                    .varnishes = 300,
                                    .seed = 1,
                                    .weak = "isooctane",
                                    .strong = strong[_i / TRIAL_TRUTHS],
                                    .remove = "dammar-aged",
                                    .spare = "linseed-oil-film-young"};
    struct trial_result result;
    trial_run(&request, &result);
    trial_row(&request, &result, stdout);
    ck_assert_uint_eq(result.rule_broken, 0);
    ck_assert_double_le(result.ladder.overshoot_mean, result.even.overshoot_mean + 1e-12);
    ck_assert_double_le(result.ladder.overshoot_95, result.even.overshoot_95 + 1e-12);
    ck_assert_double_lt(result.ladder.tests_mean, result.even.tests_mean + 1);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder_trial_long");
    TCase *tcase = tcase_create("ladder_trial_long");
    tcase_set_timeout(tcase, 1800);
    trial_heading(stdout);
    fflush(stdout);
    tcase_add_loop_test(tcase, the_paint_never_pays_for_the_adapting, 0, 2 * TRIAL_TRUTHS);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
