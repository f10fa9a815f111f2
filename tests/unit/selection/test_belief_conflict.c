// SPDX-License-Identifier: GPL-3.0-or-later
// Whether tests contradict the model, against the probabilities of all that could have been found.
#include "casefile/casefile.h"
#include "films.h"
#include "selection/belief.h"
#include "suite.h"
#include "tables.h"

#include <math.h>

static struct library lib;
static struct unifac_table groups;
static struct belief_plan *plan;
static struct belief_liquid *weak, *strong;
static struct error err;

static struct belief_liquid *liquid_of(const char *notation) {
    struct belief_liquid *liquid = NULL;
    struct blend blend = tables_blend(&lib, notation);
    stop_unless(belief_liquid_make(plan, &blend, &liquid, &err), &err);
    return liquid;
}

static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &groups);
    struct belief_materials materials = {.lib = &lib,
                                         .table = &groups,
                                         .remove = {tables_material(&lib, "dammar-aged")},
                                         .remove_count = 1,
                                         .temp_k = FILMS_TEMP_K};
    stop_unless(belief_plan_make(&materials, BELIEF_RED, &plan, &err), &err);
    weak = liquid_of("propan-2-ol 20 + isooctane 80");
    strong = liquid_of("propan-2-ol 40 + isooctane 60");
}

static void close_all(void) {
    belief_liquid_release(weak);
    belief_liquid_release(strong);
    belief_plan_release(plan);
    tables_close_unifac(&lib, &groups);
}

// Two tests at places of their own.
static struct belief *learnt(int weak_word, int strong_word, size_t count) {
    struct belief_test tests[] = {
        {.liquid = weak, .contact_s = 20, .rolls = 6, .result = weak_word, .colour = COLOUR_NOT_LOOKED},
        {.liquid = strong, .contact_s = 20, .rolls = 6, .result = strong_word, .colour = COLOUR_NOT_LOOKED}};
    tests[1].passage = tests[1].site = 1;
    struct belief *belief = NULL;
    stop_unless(belief_start(plan, 2000, 3, &belief, &err), &err);
    stop_unless(belief_learn(belief, tests, count, NULL, &err), &err);
    return belief;
}

// The evidence of the particles is the probability of what was found (test_belief_posterior.c). Of all pairs of words
// the probabilities of those that are as improbable add up to the p value (Box 1980): to within a sixth of each, by
// which two independent figures of the same probability may differ, and the scatter of 400 data sets, three times
// 0.025.
START_TEST(the_share_of_what_is_as_improbable) {
    double probability[BELIEF_WORDS][BELIEF_WORDS], found[BELIEF_WORDS][BELIEF_WORDS], sum = 0;
    for (int a = 0; a < BELIEF_WORDS; a++)
        for (int b = 0; b < BELIEF_WORDS; b++) {
            struct belief *belief = learnt(a, b, 2);
            struct belief_diagnostics diagnostics;
            struct belief_conflict conflict;
            stop_unless(belief_diagnose(belief, 0, &diagnostics, &err), &err);
            stop_unless(belief_contradiction(belief, 0, &conflict, &err), &err);
            ck_assert_uint_eq(conflict.tests, 2);
            probability[a][b] = exp(diagnostics.log_evidence);
            found[a][b] = conflict.p_value;
            sum += probability[a][b];
            belief_release(belief);
        }
    ck_assert_double_eq_tol(sum, 1, 0.05);
    for (int i = 0; i < BELIEF_WORDS * BELIEF_WORDS; i++) {
        double own = (&probability[0][0])[i], least = 0, most = 0;
        for (int k = 0; k < BELIEF_WORDS * BELIEF_WORDS; k++) {
            double other = (&probability[0][0])[k];
            least += k != i && other < own * 5 / 6 ? other : 0;
            most += other <= own * 6 / 5 ? other : 0;
        }
        ck_assert_double_ge((&found[0][0])[i], least - 0.075);
        ck_assert_double_le((&found[0][0])[i], most + 0.075);
    }
    // The weak one removes it, the strong one does nothing at all: due a warning. The other way round is as foretold.
    ck_assert_double_lt(found[RESULT_REMOVED][RESULT_NONE], BELIEF_CONFLICT / 2);
    ck_assert_double_gt(found[RESULT_NONE][RESULT_PARTLY_REMOVED], 0.2);
}
END_TEST

START_TEST(one_test_contradicts_nothing) {
    struct belief *belief = learnt(RESULT_REMOVED, RESULT_NONE, 1);
    struct belief_conflict conflict;
    stop_unless(belief_contradiction(belief, 0, &conflict, &err), &err);
    ck_assert_uint_eq(conflict.tests, 1);
    ck_assert_double_eq(conflict.p_value, 1);
    belief_release(belief);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("belief_conflict");
    TCase *tests = tcase_create("belief_conflict");
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, the_share_of_what_is_as_improbable);
    tcase_add_test(tests, one_test_contradicts_nothing);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
