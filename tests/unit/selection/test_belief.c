// SPDX-License-Identifier: GPL-3.0-or-later
// What swab tests say, in the directions in which they must say it.
#include "casefile/casefile.h"
#include "films.h"
#include "selection/belief_parts.h"
#include "suite.h"
#include "tables.h"

#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table groups;
static struct error err;

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &groups);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &groups);
}

static struct belief_plan *plan_of(enum belief_view view) {
    struct belief_materials materials = {.lib = &lib,
                                         .table = &groups,
                                         .remove = {tables_material(&lib, "dammar-aged")},
                                         .remove_count = 1,
                                         .spare = {tables_material(&lib, "linseed-oil-film-young")},
                                         .spare_count = 1,
                                         .temp_k = FILMS_TEMP_K};
    struct belief_plan *plan = NULL;
    stop_unless(belief_plan_make(&materials, view, &plan, &err), &err);
    return plan;
}

static struct belief_liquid *liquid_of(const struct belief_plan *plan, const char *notation) {
    struct belief_liquid *liquid = NULL;
    struct blend blend = tables_blend(&lib, notation);
    stop_unless(belief_liquid_make(plan, &blend, &liquid, &err), &err);
    return liquid;
}

static struct belief *learnt(const struct belief_plan *plan, unsigned long seed, const struct belief_test *tests,
                             size_t count) {
    struct belief *belief = NULL;
    stop_unless(belief_start(plan, 2000, seed, &belief, &err), &err);
    stop_unless(belief_learn(belief, tests, count, NULL, &err), &err);
    return belief;
}

static struct belief_forecast forecast_of(const struct belief *belief, const struct belief_liquid *liquid,
                                          size_t passage) {
    struct belief_forecast forecast;
    belief_forecast(belief, liquid, BELIEF_NONE, passage, 20, 6, &forecast);
    return forecast;
}

static struct belief_test test_of(const struct belief_liquid *liquid, enum result result, enum colour colour) {
    return (struct belief_test){
        .liquid = liquid, .contact_s = 20, .rolls = 6, .result = (int)result, .colour = (int)colour};
}

// Laws of any sensible update, in both views: _i is the view.
START_TEST(a_result_moves_the_forecast_its_own_way) {
    struct belief_plan *plan = plan_of((enum belief_view)_i);
    struct belief_liquid *liquid = liquid_of(plan, "propan-2-ol 40 + isooctane 60");
    struct belief *before = learnt(plan, 1, NULL, 0);
    double prior = forecast_of(before, liquid, 0).p_works, last = 0;
    for (int result = RESULT_NONE; result <= RESULT_REMOVED; result++) {
        struct belief_test test = test_of(liquid, (enum result)result, COLOUR_NOT_LOOKED);
        struct belief *after = learnt(plan, 1, &test, 1);
        struct belief_forecast forecast = forecast_of(after, liquid, 0);
        double sum = 0;
        for (size_t k = 0; k < BELIEF_WORDS; k++)
            sum += forecast.p_words[k];
        ck_assert_double_eq_tol(sum, 1, 1e-9);
        ck_assert_double_gt(forecast.p_works, last);
        last = forecast.p_works;
        if (result == RESULT_NONE)
            ck_assert_double_lt(forecast.p_works, prior);
        belief_release(after);
    }
    ck_assert_double_gt(last, prior);
    belief_release(before);
    belief_liquid_release(liquid);
    belief_plan_release(plan);
}
END_TEST

START_TEST(original_colour_raises_the_risk_to_the_paint_alone) {
    struct belief_plan *plan = plan_of((enum belief_view)_i);
    struct belief_liquid *liquid = liquid_of(plan, "acetone 50 + isooctane 50");
    struct belief_test found = test_of(liquid, RESULT_PARTLY_REMOVED, COLOUR_ORIGINAL), clean = found, unsure = found;
    clean.colour = COLOUR_NONE, unsure.colour = COLOUR_UNSURE;
    struct belief *touched = learnt(plan, 1, &found, 1), *untouched = learnt(plan, 1, &clean, 1),
                  *doubted = learnt(plan, 1, &unsure, 1);
    ck_assert_double_gt(forecast_of(touched, liquid, 0).p_touches, 3 * forecast_of(untouched, liquid, 0).p_touches);
    ck_assert_double_eq(forecast_of(touched, liquid, 0).p_touches, forecast_of(doubted, liquid, 0).p_touches);
    ck_assert_double_eq(forecast_of(touched, liquid, 0).p_works, forecast_of(untouched, liquid, 0).p_works);
    belief_release(touched);
    belief_release(untouched);
    belief_release(doubted);
    belief_liquid_release(liquid);
    belief_plan_release(plan);
}
END_TEST

// Three tests at one site say less about a passage elsewhere than three at sites of their own in passages of their own.
START_TEST(neighbours_do_not_count_as_independent) {
    struct belief_plan *plan = plan_of((enum belief_view)_i);
    struct belief_liquid *liquid = liquid_of(plan, "propan-2-ol 40 + isooctane 60");
    struct belief_test near[3], apart[3];
    for (size_t i = 0; i < 3; i++) {
        near[i] = apart[i] = test_of(liquid, RESULT_REMOVED, COLOUR_NOT_LOOKED);
        apart[i].passage = apart[i].site = i;
    }
    struct belief *together = learnt(plan, 1, near, 3), *spread = learnt(plan, 1, apart, 3);
    ck_assert_double_lt(forecast_of(together, liquid, BELIEF_NONE).p_works,
                        forecast_of(spread, liquid, BELIEF_NONE).p_works - 0.01);
    belief_release(together);
    belief_release(spread);
    belief_liquid_release(liquid);
    belief_plan_release(plan);
}
END_TEST

START_TEST(the_same_seed_gives_the_same_belief) {
    struct belief_plan *plan = plan_of((enum belief_view)_i);
    struct belief_liquid *liquid = liquid_of(plan, "ethyl-acetate 50 + isooctane 50");
    struct belief_test test = test_of(liquid, RESULT_SOFTENED, COLOUR_NONE);
    struct belief *a = learnt(plan, 7, &test, 1), *b = learnt(plan, 7, &test, 1), *c = learnt(plan, 8, &test, 1);
    double first[BELIEF_PARAMETERS], second[BELIEF_PARAMETERS], other[BELIEF_PARAMETERS];
    for (size_t i = 0; i < belief_particles(a); i++) {
        belief_particle(a, 0, i, first);
        belief_particle(b, 0, i, second);
        ck_assert_mem_eq(first, second, sizeof first);
    }
    belief_particle(c, 0, 0, other);
    ck_assert_double_ne(first[0], other[0]);
    ck_assert_double_eq_tol(forecast_of(a, liquid, 0).p_works, forecast_of(c, liquid, 0).p_works, 0.05);
    belief_release(a);
    belief_release(b);
    belief_release(c);
    belief_liquid_release(liquid);
    belief_plan_release(plan);
}
END_TEST

// No model knows an acid with a base (test_activity.c): by film nothing can be learnt of it, by RED its place is
// enough.
START_TEST(a_blend_without_activities_is_refused_by_film) {
    struct blend blend = tables_blend(&lib, "ethanol 40 + pyridine 30 + acetic-acid 30");
    struct belief_plan *by_film = plan_of(BELIEF_FILM), *by_red = plan_of(BELIEF_RED);
    struct belief_liquid *liquid = NULL;
    ck_assert_int_eq(belief_liquid_make(by_film, &blend, &liquid, &err), STATUS_NO_DATA);
    ck_assert_ptr_null(liquid);
    ck_assert_ptr_nonnull(strstr(err.text, "no activity model covers the blend: "));
    ck_assert_ptr_nonnull(strstr(err.text, "pyridine"));
    ck_assert_int_eq(belief_liquid_make(by_red, &blend, &liquid, &err), STATUS_OK);
    belief_liquid_release(liquid);
    belief_plan_release(by_film);
    belief_plan_release(by_red);
}
END_TEST

enum { OF_A_RUN = 500, IN_ALL = BELIEF_RUNS * OF_A_RUN };

// Particles made by hand: in each run evenly over two units around the run's own middle.
static void even_runs(const double middles[BELIEF_RUNS], double z[IN_ALL * BELIEF_PARAMETERS], size_t ancestor[IN_ALL],
                      struct belief *ret) {
    for (size_t i = 0; i < IN_ALL; i++) {
        double within = (2.0 * (double)(i % OF_A_RUN) + 1) / OF_A_RUN - 1;
        for (size_t j = 0; j < BELIEF_PARAMETERS; j++) // the first of them is the worst
            z[i * BELIEF_PARAMETERS + j] = within + (j ? 0 : middles[i / OF_A_RUN]);
        ancestor[i] = i;
    }
    *ret = (struct belief){.particles = IN_ALL};
    ret->clouds[0] = (struct belief_cloud){
        .count = IN_ALL, .width = BELIEF_PARAMETERS, .z = z, .ancestor = ancestor, .log_evidence = {0, 1, 2, 1}};
}

// Gelman & Rubin 1992: sqrt(((n - 1)/n W + B/n)/W), W the mean variance within runs, B/n the variance of their means.
// Evenly over two units: 4/12; means 0, 0.1, 0.2, 0.3: 0.05/3.
START_TEST(runs_that_differ_show) {
    static double z[IN_ALL * BELIEF_PARAMETERS];
    static size_t ancestor[IN_ALL];
    const double apart[] = {0, 0.1, 0.2, 0.3}, same[] = {1, 1, 1, 1};
    struct belief belief;
    struct belief_diagnostics found;
    even_runs(apart, z, ancestor, &belief);
    stop_unless(belief_diagnose(&belief, 0, &found, &err), &err);
    ck_assert_double_eq_tol(found.r_hat, sqrt((OF_A_RUN - 1.0) / OF_A_RUN + 0.05 / 3 / (4.0 / 12)), 0.002);
    even_runs(same, z, ancestor, &belief);
    stop_unless(belief_diagnose(&belief, 0, &found, &err), &err);
    ck_assert_double_eq_tol(found.r_hat, 1, 1e-9);
    // The evidence is the mean over the runs: of 1, e, e^2 and e.
    ck_assert_double_eq_tol(found.log_evidence, log((1 + 2 * exp(1) + exp(2)) / 4), 1e-12);
    ck_assert_double_eq_tol(found.effective, IN_ALL, 1e-6 * IN_ALL); // each of its own family
    // Particles that stand where their ancestor's other descendant stands count as one: half as many.
    for (size_t i = 0; i < IN_ALL; i += 2) {
        for (size_t j = 0; j < BELIEF_PARAMETERS; j++)
            z[(i + 1) * BELIEF_PARAMETERS + j] = z[i * BELIEF_PARAMETERS + j];
        ancestor[i + 1] = i;
    }
    stop_unless(belief_diagnose(&belief, 0, &found, &err), &err);
    ck_assert_double_eq_tol(found.effective, IN_ALL / 2.0, 1e-6 * IN_ALL);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("belief");
    TCase *tests = tcase_create("belief");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_set_timeout(tests, 120);
    tcase_add_loop_test(tests, a_result_moves_the_forecast_its_own_way, 0, 2);
    tcase_add_loop_test(tests, original_colour_raises_the_risk_to_the_paint_alone, 0, 2);
    tcase_add_loop_test(tests, neighbours_do_not_count_as_independent, 0, 2);
    tcase_add_loop_test(tests, the_same_seed_gives_the_same_belief, 0, 2);
    tcase_add_test(tests, a_blend_without_activities_is_refused_by_film);
    tcase_add_test(tests, runs_that_differ_show);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
