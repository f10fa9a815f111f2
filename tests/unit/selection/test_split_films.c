// SPDX-License-Identifier: GPL-3.0-or-later
// Blends that split, and paint that seems to dissolve where only the activity model splits.
#include "selection/split_films.h"

#include "selection/doubt.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>

static struct library lib;
static struct unifac_table table;
static struct goal goal;
static struct film_view view;

static void open_all(void) {
    struct error err = {0};
    tables_open_unifac(&lib, TABLE_ALL, &table);
    goal = (struct goal){.components_most = 2, .steps = 20, .margin = 0.1, .remove_count = 1, .spare_count = 1};
    goal.remove[0] = tables_material(&lib, "dammar-aged");
    goal.spare[0] = tables_material(&lib, "linseed-oil-film-young");
    ck_assert_int_eq(film_view_of_goal(&goal, 293.15, &view, &err), STATUS_OK);
}

static void close_all(void) {
    tables_close_unifac(&lib, &table);
}

static struct phase_judgement judged(const struct blend *blend) {
    struct phase_judgement phase;
    ck_assert_int_eq(miscibility_judge_blend(&lib, &table, blend, 293.15, &phase, NULL), STATUS_OK);
    return phase;
}

static struct split_films films_of(const struct blend *blend, const struct phase_judgement *phase) {
    struct split_films films;
    ck_assert_int_eq(split_films_of(&goal, &table, &view, blend, phase, &films, NULL), STATUS_OK);
    return films;
}

// Methanol and n-heptane do not mix in all proportions (miscibility.csv): whichever phase is asked, the film is the
// same, because the activities are.
START_TEST(both_liquids_act_alike) {
    struct blend blend = tables_blend(&lib, "methanol 50 + n-heptane 50");
    struct phase_judgement phase = judged(&blend);
    ck_assert_int_ne(phase.verdict, PHASE_ONE);
    struct split_films first = films_of(&blend, &phase);
    for (size_t i = 0; i < blend.count; i++) {
        double x = phase.split.x[0][i];
        phase.split.x[0][i] = phase.split.x[1][i];
        phase.split.x[1][i] = x;
    }
    struct split_films second = films_of(&blend, &phase);
    ck_assert(first.known && second.known);
    ck_assert(first.works == second.works);
    ck_assert_double_eq_tol(first.swelling / second.swelling, 1, 1e-3);
}
END_TEST

// Ethanol and isooctane mix (published); the model's gap is not asked.
START_TEST(a_gap_that_is_not_there_is_not_asked) {
    struct blend blend = tables_blend(&lib, "ethanol 20 + isooctane 80");
    struct phase_judgement phase = judged(&blend);
    ck_assert_int_eq(phase.verdict, PHASE_ONE);
    ck_assert(!films_of(&blend, &phase).known);
}
END_TEST

static double unbounded(const struct blend *blends, unsigned vary) {
    struct doubt_request request = {.goal = &goal,
                                    .lib = &lib,
                                    .table = &table,
                                    .blends = blends,
                                    .count = 1,
                                    .temp_k = 293.15,
                                    .samples = 256,
                                    .seed = 1,
                                    .vary = vary,
                                    .least_probability = 0.8,
                                    .threads = 1};
    struct doubt doubt;
    struct error err = {0};
    ck_assert_msg(doubt_sample(&request, &doubt, &err) == STATUS_OK, "%s", err.text);
    double share = doubt.rows[0].p_unbounded;
    doubt_release(&doubt);
    return share;
}

// A network cannot dissolve. That a few samples say so comes from the varied activities alone.
START_TEST(paint_without_limit_comes_from_the_activities) {
    struct blend blend = tables_blend(&lib, "ethanol 10 + isooctane 90");
    ck_assert_double_eq(unbounded(&blend, DOUBT_ALL & ~(unsigned)DOUBT_ACTIVITIES), 0);
    double share = unbounded(&blend, DOUBT_ALL);
    ck_assert(share > 0 && share < 0.1);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("split films");
    TCase *tests = tcase_create("split films");
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_add_test(tests, both_liquids_act_alike);
    tcase_add_test(tests, a_gap_that_is_not_there_is_not_asked);
    tcase_add_test(tests, paint_without_limit_comes_from_the_activities);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
