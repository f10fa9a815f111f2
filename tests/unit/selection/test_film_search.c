// SPDX-License-Identifier: GPL-3.0-or-later
// The search by film: every composition is looked at, warm answers equal cold ones, what the tool never proposes is not
// there, cross-linked targets don't dissolve, and the answer does not depend on the number of threads.
#include "random.h"
#include "selection/film_search.h"
#include "selection/ranking.h"
#include "selection/shortlist_ends.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;
static const double temp_k = 293.15;

static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
}

static void close_all(void) {
    tables_close_unifac(&lib, &table);
}

static struct goal goal_of(const char *remove, const char *spare) {
    struct goal goal = {.components_most = 3, .steps = 20, .margin = 0.1};
    struct error err = {0};
    ck_assert_msg(material_list_parse(&lib, remove, goal.remove, GOAL_MATERIALS_MAX, &goal.remove_count, &err) ==
                      STATUS_OK,
                  "%s", err.text);
    ck_assert_msg(material_list_parse(&lib, spare, goal.spare, GOAL_MATERIALS_MAX, &goal.spare_count, &err) ==
                      STATUS_OK,
                  "%s", err.text);
    return goal;
}

static void take_bottles(struct goal *goal, const char *list) {
    struct error err = {0};
    ck_assert_msg(bottle_list_parse(&lib, list, goal->bottles, GOAL_BOTTLES_MAX, &goal->bottle_count, &err) ==
                      STATUS_OK,
                  "%s", err.text);
}

static struct film_search_result search(const struct goal *goal, int threads) {
    struct film_view view;
    struct film_search_result result;
    struct error err = {0};
    ck_assert_msg(film_view_of_goal(goal, temp_k, &view, &err) == STATUS_OK, "%s", err.text);
    struct film_search_request request = {
        .goal = goal, .lib = &lib, .table = &table, .view = &view, .threads = threads};
    ck_assert_msg(film_search(&request, &result, &err) == STATUS_OK, "%s", err.text);
    return result;
}

// The same question for one blend, from the dry film, without neighbours.
static bool works_cold(const struct goal *goal, const struct composition *c, double *ret_swelling) {
    struct blend blend;
    double x[BLEND_COMPONENTS_MAX];
    static struct activity_model activity;
    struct film_parameters parameters;
    struct film film;
    struct film_result result;
    struct error err = {0};
    ck_assert_int_eq(composition_blend(goal, &lib, c, &blend, &err), STATUS_OK);
    ck_assert_int_eq(activity_prepare_blend(&table, &blend, temp_k, &activity, &err), STATUS_OK);
    ck_assert_int_eq(blend_mole_fractions(&blend, x, &err), STATUS_OK);
    for (size_t i = 0; i < goal->remove_count; i++) {
        ck_assert_int_eq(film_parameters_of_material(goal->remove[i], &parameters, &err), STATUS_OK);
        ck_assert_int_eq(film_prepare(&parameters, &activity, &film, &err), STATUS_OK);
        film_of_liquid(&film, x, NULL, &result);
        if (result.outcome != FILM_WITHOUT_LIMIT)
            return false;
    }
    *ret_swelling = 0;
    for (size_t i = 0; i < goal->spare_count; i++) {
        ck_assert_int_eq(film_parameters_of_material(goal->spare[i], &parameters, &err), STATUS_OK);
        ck_assert_int_eq(film_prepare(&parameters, &activity, &film, &err), STATUS_OK);
        film_of_liquid(&film, x, NULL, &result);
        *ret_swelling = fmax(*ret_swelling, result.swelling);
    }
    return true;
}

START_TEST(every_composition_of_a_small_shelf_agrees_with_a_cold_answer) {
    struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young");
    take_bottles(&goal, "isooctane, ethanol, acetone, toluene");
    struct film_search_result result = search(&goal, 1);
    double working = 0;
    double count = 0;
    for (size_t a = 0; a < goal.bottle_count; a++)
        for (size_t b = a + 1; b < goal.bottle_count; b++)
            for (int steps = 1; steps < goal.steps; steps++) {
                struct composition c = {.count = 2, .bottles = {(int)a, (int)b}, .steps = {steps, goal.steps - steps}};
                double swelling;
                count++;
                working += works_cold(&goal, &c, &swelling);
            }
    double pairs = 0;
    for (size_t i = 0; i < result.row_count; i++) {
        double swelling = NAN;
        ck_assert(works_cold(&goal, &result.rows[i].best, &swelling));
        ck_assert_double_eq_tol(swelling, result.rows[i].swelling, 1e-6 * swelling);
        ck_assert(works_cold(&goal, &result.rows[i].weakest, &swelling));
        ck_assert_double_eq_tol(swelling, result.rows[i].weakest_swelling, 1e-6 * swelling);
        if (result.rows[i].best.count == 2)
            pairs += (double)result.rows[i].working;
    }
    ck_assert_double_eq(count, 6 * 19);
    ck_assert_double_eq(pairs, working);
    ck_assert_double_eq(result.evaluated, goal_blend_count(4, 3, 20));
    ck_assert_double_eq(result.failed, 0);
    film_search_release(&result);
}
END_TEST

// --- warm and cold, to the last bit ---

static const char *const targets[] = {"dammar-aged", "mastic-aged", "dammar-fresh", "ketone-resin-aged",
                                      "dammar-aged, linseed-oil-film-young"};
static const char *const paints[] = {"linseed-oil-film-young", "alkyd-short-oil", "alkyd-long-oil",
                                     "linseed-oil-film-young, alkyd-long-oil"};

static struct goal random_goal(struct random *random) {
    struct goal goal = goal_of(targets[random_below(random, 5)], paints[random_below(random, 4)]);
    size_t bottles = 1 + random_below(random, 5);
    goal.components_most = 1 + (int)random_below(random, bottles > 4 ? 2 : 4);
    goal.steps = goal.components_most > 2 || bottles > 4 ? 10 : 20;
    while (goal.bottle_count < bottles) {
        bool mixed = random_uniform(random) < 0.2; // ethanol 96 % and the like
        struct bottle_ref bottle = {.component = &lib.components[random_below(random, lib.component_count)]};
        if (mixed)
            bottle = (struct bottle_ref){.bottle = &lib.bottles[random_below(random, lib.bottle_count)]};
        bool there = false;
        for (size_t i = 0; i < goal.bottle_count; i++)
            there |= goal.bottles[i].component == bottle.component && goal.bottles[i].bottle == bottle.bottle;
        if (!there && (mixed || !isnan(bottle.component->hansen.delta_d)))
            goal.bottles[goal.bottle_count++] = bottle;
    }
    return goal;
}

static bool same_bits(double a, double b) {
    return memcmp(&a, &b, sizeof a) == 0;
}

static bool same_row(const struct film_row *a, const struct film_row *b) {
    int bytes = (int)sizeof a->best;
    return memcmp(&a->best, &b->best, (size_t)bytes) == 0 && memcmp(&a->weakest, &b->weakest, (size_t)bytes) == 0 &&
           same_bits(a->swelling, b->swelling) && same_bits(a->weakest_swelling, b->weakest_swelling) &&
           same_bits(a->red_remove, b->red_remove) && isnan(a->target_swelling) == isnan(b->target_swelling) &&
           (isnan(a->target_swelling) || same_bits(a->target_swelling, b->target_swelling)) && a->spared == b->spared &&
           a->working == b->working && memcmp(a->least_steps, b->least_steps, sizeof a->least_steps) == 0 &&
           memcmp(a->most_steps, b->most_steps, sizeof a->most_steps) == 0;
}

static void compare_with_cold(const struct goal *goal, int number, struct film_search_result *ret) {
    struct film_view view;
    struct film_search_result cold;
    struct error err = {0};
    ck_assert_msg(film_view_of_goal(goal, temp_k, &view, &err) == STATUS_OK, "%s", err.text);
    struct film_search_request request = {
        .goal = goal, .lib = &lib, .table = &table, .view = &view, .threads = 1 + number % 3};
    ck_assert_int_eq(film_search(&request, ret, NULL), STATUS_OK);
    request.cold = true;
    ck_assert_int_eq(film_search(&request, &cold, NULL), STATUS_OK);
    ck_assert_msg(ret->row_count == cold.row_count && ret->working == cold.working &&
                      ret->not_covered == cold.not_covered && ret->failed == cold.failed,
                  "shelf %d: %zu rows, %g working, cold %zu, %g", number, ret->row_count, ret->working, cold.row_count,
                  cold.working);
    for (size_t i = 0; i < cold.row_count; i++)
        ck_assert_msg(same_row(&ret->rows[i], &cold.rows[i]), "shelf %d, row %zu: %.17g, cold %.17g", number, i,
                      ret->rows[i].swelling, cold.rows[i].swelling);
    film_search_release(&cold);
}

START_TEST(random_shelves_give_the_cold_list_to_the_last_bit) {
    struct random random = {77};
    double working = 0, blends = 0, not_covered = 0;
    size_t with_rows = 0;
    for (int i = 0; i < 1000; i++) {
        struct goal goal = random_goal(&random);
        struct film_search_result result;
        compare_with_cold(&goal, i, &result);
        working += result.working;
        blends += result.blends;
        not_covered += result.not_covered;
        with_rows += result.row_count > 0;
        film_search_release(&result);
    }
    printf("%.0f blends, %.0f work, %.0f not covered, %zu shelves with rows\n", blends, working, not_covered,
           with_rows);
    ck_assert_uint_gt(with_rows, 300);
    ck_assert_double_gt(working, 0.05 * blends);
}
END_TEST

// C(20,1) + C(20,2) 19 + C(20,3) 171 compositions.
START_TEST(the_studio_shelf_has_198570_blends) {
    ck_assert_double_eq(goal_blend_count(20, 3, 20), 198570);
    ck_assert_double_eq(goal_blend_count(60, 4, 20) - goal_blend_count(60, 3, 20), 472518315);
}
END_TEST

START_TEST(threads_do_not_change_the_answer) {
    struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young, alkyd-long-oil");
    take_bottles(&goal, "isooctane, n-heptane, ethanol, propan-2-ol, acetone, ethyl-acetate, toluene");
    struct film_search_result one = search(&goal, 1);
    struct film_search_result three = search(&goal, 3);
    ck_assert_uint_eq(one.row_count, three.row_count);
    for (size_t i = 0; i < one.row_count; i++) {
        ck_assert_mem_eq(&one.rows[i].best, &three.rows[i].best, sizeof one.rows[i].best);
        ck_assert(one.rows[i].swelling == three.rows[i].swelling);
    }
    film_search_release(&one);
    film_search_release(&three);
}
END_TEST

START_TEST(a_cross_linked_target_never_dissolves) {
    struct goal goal = goal_of("linseed-oil-film-young", "linseed-oil-film-young");
    take_bottles(&goal, "isooctane, ethanol, acetone, dichloromethane");
    struct film_search_result result = search(&goal, 1);
    ck_assert_uint_eq(result.row_count, 0); // the same film on both sides: no window
    film_search_release(&result);
}
END_TEST

// Amines, acids, dipolar aprotics, benzyl alcohol, glycols, cyclohexanone and category-1 carcinogens, mutagens and
// reproductive toxicants never stay on the shelf, whichever bottle holds them, unless allowed by name.
START_TEST(what_no_model_can_judge_is_never_proposed) {
    static const char *const known[] = {
        "n-butylamine",       "morpholine",        "pyridine",          "formic-acid",
        "acetic-acid",        "dimethylformamide", "dimethylacetamide", "n-methylpyrrolidone",
        "dimethyl-sulfoxide", "benzyl-alcohol",    "ethylene-glycol",   "propylene-glycol",
        "glycerol",           "cyclohexanone",     "benzene",           "trichloroethylene",
        "methoxyethanol",     "ethoxyethanol",     "dioxane-14"};
    size_t kept_off = 0;
    for (size_t i = 0; i < lib.component_count; i++) {
        const struct component *component = &lib.components[i];
        struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young");
        goal.bottles[goal.bottle_count++] = (struct bottle_ref){.component = component};
        struct filter_report report = {0};
        struct shelf_rules none = {0};
        ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &none, &report, NULL), STATUS_OK);
        bool proposed = goal.bottle_count == 1;
        bool forbidden = false;
        for (size_t k = 0; k < sizeof known / sizeof known[0]; k++)
            forbidden |= strcmp(known[k], component->id) == 0;
        if (forbidden)
            ck_assert_msg(!proposed, "%s is proposed", component->id);
        kept_off += !proposed;
        struct goal allowed_goal = goal;
        allowed_goal.bottle_count = 0;
        allowed_goal.bottles[allowed_goal.bottle_count++] = (struct bottle_ref){.component = component};
        struct shelf_rules allow = {.allowed = &component, .allowed_count = 1};
        ck_assert_int_eq(goal_filter_shelf(&allowed_goal, &lib, &allow, &report, NULL), STATUS_OK);
        ck_assert_uint_eq(allowed_goal.bottle_count, 1);
        report = (struct filter_report){0};
    }
    ck_assert_uint_ge(kept_off, sizeof known / sizeof known[0]);
}
END_TEST

START_TEST(the_list_names_each_combination_of_strong_liquids_once) {
    struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young");
    take_bottles(&goal, "isooctane, n-heptane, ethanol, propan-2-ol, acetone");
    struct ranking ranking;
    struct error err = {0};
    struct ranking_request request = {.goal = &goal,
                                      .lib = &lib,
                                      .table = &table,
                                      .temp_k = temp_k,
                                      .flash_least_c = NAN,
                                      .residue_most = RETENTION_VERY_LONG,
                                      .effort = DOUBT_EFFORT_QUICK,
                                      .seed = 1,
                                      .least_probability = 0.5,
                                      .show = 20,
                                      .fold = true,
                                      .threads = 2};
    ck_assert_msg(ranking_make(&request, &ranking, &err) == STATUS_OK, "%s", err.text);
    ck_assert_uint_ge(ranking.count, 3);
    for (size_t i = 0; i < ranking.count; i++) {
        const struct ranked_row *row = &ranking.rows[i];
        ck_assert(row->doubted && row->doubt.p_works >= 0.5);
        ck_assert_int_ne(row->phase.verdict, PHASE_TWO);
        ck_assert(row->weakest.blend.count == 0 || strong_share_of(&row->weakest.blend) < row->row.strong_share);
        if (i > 0)
            ck_assert_uint_ge(row->tie, ranking.rows[i - 1].tie);
    }
    ranking_release(&ranking);
}
END_TEST

// The blends that full doubt samples: those of quick doubt and the best at every end of an assumption.
START_TEST(full_doubt_samples_at_least_200_blends) {
    struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young");
    take_bottles(&goal, "isooctane, toluene, ethanol, propan-2-ol, acetone");
    struct ranking rankings[2];
    struct error err = {0};
    for (int i = 0; i < 2; i++) {
        struct ranking_request request = {.goal = &goal,
                                          .lib = &lib,
                                          .table = &table,
                                          .temp_k = temp_k,
                                          .flash_least_c = NAN,
                                          .residue_most = RETENTION_VERY_LONG,
                                          .effort = DOUBT_EFFORT_FULL,
                                          .seed = 1,
                                          .least_probability = 0.8,
                                          .show = 20,
                                          .fold = true,
                                          .threads = i + 1};
        ck_assert_msg(ranking_make(&request, &rankings[i], &err) == STATUS_OK, "%s", err.text);
    }
    const struct ranking *ranking = &rankings[0];
    ck_assert_uint_ge(ranking->candidates, ENDS_LIST_LEAST);
    ck_assert_uint_ge(ranking->samples, DOUBT_FULL_SAMPLES);
    // Two ends of alpha and of the entropic part (one is the base case), of three parts of two centres, of chains and
    // strands.
    ck_assert_uint_ge(ranking->ends_cases, 1 + 3 + 12 + 4);
    ck_assert(ranking->ends_step_percent == 10 && ranking->ends_components == 3);
    ck_assert_uint_eq(ranking->count, rankings[1].count);
    for (size_t i = 0; i < ranking->count; i++)
        ck_assert_int_eq(composition_compare(&ranking->rows[i].row.best, &rankings[1].rows[i].row.best), 0);
    ranking_release(&rankings[0]);
    ranking_release(&rankings[1]);
}
END_TEST

START_TEST(cancelled_searches_say_so) {
    struct goal goal = goal_of("dammar-aged", "linseed-oil-film-young");
    take_bottles(&goal, "isooctane, ethanol, acetone");
    struct film_view view;
    struct film_search_result result;
    struct error err = {0};
    atomic_bool cancel = true;
    ck_assert_int_eq(film_view_of_goal(&goal, temp_k, &view, &err), STATUS_OK);
    struct film_search_request request = {
        .goal = &goal, .lib = &lib, .table = &table, .view = &view, .threads = 2, .watch = {.cancel = &cancel}};
    ck_assert_int_eq(film_search(&request, &result, &err), STATUS_INTERRUPTED);
    ck_assert(!result.complete);
    film_search_release(&result);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("film search");
    TCase *tests = tcase_create("search and ranking");
    tcase_set_timeout(tests, 120);
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_add_test(tests, every_composition_of_a_small_shelf_agrees_with_a_cold_answer);
    tcase_add_test(tests, random_shelves_give_the_cold_list_to_the_last_bit);
    tcase_add_test(tests, the_studio_shelf_has_198570_blends);
    tcase_add_test(tests, threads_do_not_change_the_answer);
    tcase_add_test(tests, a_cross_linked_target_never_dissolves);
    tcase_add_test(tests, what_no_model_can_judge_is_never_proposed);
    tcase_add_test(tests, the_list_names_each_combination_of_strong_liquids_once);
    tcase_add_test(tests, full_doubt_samples_at_least_200_blends);
    tcase_add_test(tests, cancelled_searches_say_so);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
