// SPDX-License-Identifier: GPL-3.0-or-later
// The search by distance. Its reference is the exhaustive search, which only walks the grid and scores; the scoring
// function itself is checked against published figures in test_place.c.
#include "compare_search.h"
#include "shelf.h"
#include "suite.h"
#include "tables.h"

#include "base/memory.h"
#include "selection/shortlist.h"

static struct invented invented; // large
static const struct library no_tables;

static const struct search_request *request_for(size_t rows, int threads) {
    static struct search_request request;
    request = (struct search_request){.goal = &invented.goal, .lib = &no_tables, .rows_most = rows, .threads = threads};
    return &request;
}

// --- random shelves ---

static struct hansen moved(struct random *random, struct hansen from, double most) {
    from.delta_d += most * (random_uniform(random) - 0.5);
    from.delta_p += most * (random_uniform(random) - 0.5);
    from.delta_h += most * (random_uniform(random) - 0.5);
    return from;
}

// One decimal, as tables have them: then blends coincide and scores tie.
static struct hansen rounded(struct hansen h) {
    return (struct hansen){round(10 * h.delta_d) / 10, round(10 * h.delta_p) / 10, round(10 * h.delta_h) / 10};
}

enum shape { SCATTERED, ROUNDED, DOUBLED, FLAT, IN_LINE, ONE_POINT, SHAPES };

static struct hansen shaped_place(struct random *random, enum shape shape, struct hansen first) {
    struct hansen place = random_place(random);
    double along = random_uniform(random);
    switch (shape) {
    case ROUNDED:
        return rounded(place);
    case DOUBLED:
        return random_uniform(random) < 0.5 ? first : rounded(place);
    case FLAT:
        place.delta_p = 0;
        return place;
    case IN_LINE:
        return (struct hansen){14 + 5 * along, 12 * along, 20 * along};
    case ONE_POINT:
        return first;
    default:
        return place;
    }
}

static void random_bottles(struct random *random, size_t count, enum shape shape) {
    struct hansen first = rounded(random_place(random));
    for (size_t i = 0; i < count; i++) {
        char id[16];
        snprintf(id, sizeof id, "%c%zu", (int)('a' + random_below(random, 4)), i);
        invented_bottle(&invented, id, shaped_place(random, shape, first));
    }
}

static void random_materials(struct random *random) {
    static const double radii[] = {0.5, 5, 8, 12, 25};
    size_t removed = 1 + random_below(random, 4) / 2, spared = 1 + random_below(random, 3);
    struct hansen near = random_place(random);
    size_t count = invented.component_count;
    if (count > 0 && random_uniform(random) < 0.8) { // mostly where the shelf can reach
        struct hansen_values *at = &invented.components[random_below(random, count)].hansen;
        near = moved(random, (struct hansen){at->delta_d, at->delta_p, at->delta_h}, 8);
    }
    for (size_t i = 0; i < removed; i++)
        invented_remove(&invented, moved(random, near, i ? 4 : 0), radii[random_below(random, 5)]);
    for (size_t i = 0; i < spared; i++) {
        double kind = random_uniform(random);
        struct hansen centre = kind < 0.1   ? near // concentric
                               : kind < 0.4 ? moved(random, near, 6)
                                            : random_place(random);
        invented_spare(&invented, centre, 5);
    }
}

static void random_task(struct random *random) {
    static const int grids[] = {10, 20, 40, 100};
    static const double margins[] = {0, 0.1, 0.2, 0.35, 0.9};
    static const size_t bottles_most[] = {8, 10, 8, 7, 6}; // by components, so that the exhaustive search stays short
    int components = 1 + (int)random_below(random, 5);
    int steps = grids[random_below(random, components <= 2 ? 4 : components == 3 ? 3 : 2)];
    if (components == 5)
        steps = 10;
    invented_start(&invented, components, steps, margins[random_below(random, 5)]);
    random_bottles(random, random_below(random, bottles_most[components - 1] + 1),
                   (enum shape)random_below(random, SHAPES));
    random_materials(random);
}

START_TEST(equals_the_exhaustive_search_on_random_shelves) {
    struct random random = {20240607};
    size_t with_rows = 0, with_ties = 0;
    for (int i = 0; i < 1000; i++) {
        random_task(&random);
        size_t rows = 1 + random_below(&random, 40);
        const struct search_request *request = request_for(rows, 1 + (int)random_below(&random, 3));
        char name[96];
        snprintf(name, sizeof name, "task %d: %zu bottles, %d components, %d steps, margin %g", i,
                 invented.goal.bottle_count, invented.goal.components_most, invented.goal.steps, invented.goal.margin);
        struct search_result found, expected;
        ck_assert_int_eq(search_by_distance(request, &found, NULL), STATUS_OK);
        ck_assert_int_eq(search_exhaustive(request, &expected, NULL), STATUS_OK);
        compare_results(request, &found, &expected, name);
        with_rows += expected.row_count > 0;
        with_ties += expected.row_count > 1 && expected.rows[0].score.ra_spare == expected.rows[1].score.ra_spare;
        search_result_release(&found);
        search_result_release(&expected);
    }
    // The tasks are of every kind: with and without an answer, with and without ties.
    ck_assert_uint_gt(with_rows, 300);
    ck_assert_uint_lt(with_rows, 900);
    ck_assert_uint_gt(with_ties, 50);
}
END_TEST

START_TEST(equals_the_exhaustive_search_of_sixty_bottles) {
    struct library lib;
    tables_open(&lib, TABLE_COMPONENTS | TABLE_MATERIALS);
    invented_start(&invented, 3, 20, 0.1);
    for (size_t i = 0; i < 60; i++) {
        const struct component *component = &lib.components[i];
        if (!isnan(component->hansen.delta_d))
            invented.goal.bottles[invented.goal.bottle_count++].component = component;
    }
    invented.goal.remove[invented.goal.remove_count++] = tables_material(&lib, "dammar-aged");
    invented.goal.spare[invented.goal.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    compare_searches(request_for(200, 2), "sixty bottles");
    library_release(&lib);
}
END_TEST

// --- the same from any number of threads ---

static void compare_threads(int components, int steps, size_t bottles, uint64_t seed, size_t rows) {
    struct random random = {seed};
    invented_start(&invented, components, steps, 0.1);
    random_bottles(&random, bottles, SCATTERED);
    invented_remove(&invented, (struct hansen){16.5, 8, 10}, 7);
    invented_spare(&invented, (struct hansen){17.7, 7.5, 6.7}, 7.7);
    struct search_result one, more;
    ck_assert_int_eq(search_by_distance(request_for(rows, 1), &one, NULL), STATUS_OK);
    for (int threads = 2; threads <= 7; threads += 5) {
        ck_assert_int_eq(search_by_distance(request_for(rows, threads), &more, NULL), STATUS_OK);
        ck_assert_uint_eq(one.row_count, rows);
        ck_assert_uint_eq(more.row_count, rows);
        ck_assert_double_eq(one.evaluated, more.evaluated); // the counts too are part of the answer
        for (size_t i = 0; i < rows; i++) {
            ck_assert(same_composition(&one.rows[i].best, &more.rows[i].best));
            ck_assert(same_bits(one.rows[i].score.ra_spare, more.rows[i].score.ra_spare));
        }
        search_result_release(&more);
    }
    search_result_release(&one);
}

START_TEST(threads_change_nothing) {
    compare_threads(4, 20, 120, 11, 300);
    compare_threads(5, 20, 40, 12, 50);
    compare_threads(4, 40, 40, 13, 5);
}
END_TEST

// --- stopping ---

static void stop_at_once(void *context, double done) {
    ck_assert(done >= 0 && done <= 1);
    atomic_store((atomic_bool *)context, true);
}

START_TEST(a_cancelled_search_says_what_is_proved) {
    struct random random = {5};
    invented_start(&invented, 5, 40, 0.1);
    random_bottles(&random, 150, SCATTERED);
    invented_remove(&invented, (struct hansen){16.5, 8, 10}, 7);
    invented_spare(&invented, (struct hansen){17.7, 7.5, 6.7}, 7.7);
    atomic_bool cancel = false;
    struct search_request request = *request_for(20, 2);
    request.watch = (struct watch){.progress = stop_at_once, .context = &cancel, .cancel = &cancel};
    struct search_result result;
    struct error err = {0};
    ck_assert_int_eq(search_by_distance(&request, &result, &err), STATUS_INTERRUPTED);
    ck_assert(!result.proved);
    ck_assert_int_ge(result.sizes_proved, 2);
    ck_assert_int_lt(result.sizes_proved, 5);
    ck_assert_uint_eq(result.row_count, 20);
    ck_assert_double_eq(result.excluded, 0);
    ck_assert_double_gt(result.evaluated, 0);
    search_result_release(&result);
    // Cancelled before it began: the blends of one and two bottles are there all the same.
    ck_assert_int_eq(search_by_distance(&request, &result, NULL), STATUS_INTERRUPTED);
    ck_assert_int_eq(result.sizes_proved, 2);
    search_result_release(&result);
}
END_TEST

START_TEST(every_allocation_may_fail) {
    struct random random = {6};
    invented_start(&invented, 4, 20, 0.1);
    random_bottles(&random, 30, SCATTERED);
    invented_remove(&invented, (struct hansen){16.5, 8, 10}, 7);
    invented_spare(&invented, (struct hansen){17.7, 7.5, 6.7}, 7.7);
    const struct search_request *request = request_for(20, 1);
    unsigned long before = memory_count();
    struct search_result result;
    ck_assert_int_eq(search_by_distance(request, &result, NULL), STATUS_OK);
    search_result_release(&result);
    unsigned long needed = memory_count() - before;
    ck_assert_uint_gt(needed, 5);
    for (unsigned long n = 1; n <= needed; n++) {
        struct error err = {0};
        memory_fail_at(n);
        ck_assert_int_eq(search_by_distance(request, &result, &err), STATUS_MEMORY);
        ck_assert_str_eq(err.text, "out of memory");
    }
    memory_fail_at(0);
}
END_TEST

// --- shelves of nothing and of little ---

static void small_task(size_t bottles) {
    invented_start(&invented, 3, 20, 0.1);
    for (size_t i = 0; i < bottles; i++)
        invented_bottle(&invented, i ? "two" : "one", (struct hansen){16, 8, 10 + 4.0 * (double)i});
    invented_remove(&invented, (struct hansen){16, 8, 11}, 4);
    invented_spare(&invented, (struct hansen){18, 4, 4}, 7);
}

START_TEST(shelves_of_nothing_and_of_little) {
    struct search_result result;
    small_task(0);
    ck_assert_int_eq(search_by_distance(request_for(5, 1), &result, NULL), STATUS_OK);
    ck_assert_uint_eq(result.row_count, 0);
    ck_assert_int_eq(result.nearest.count, 0);
    ck_assert(isnan(result.nearest_red));
    search_result_release(&result);
    small_task(1);
    ck_assert_int_eq(search_by_distance(request_for(5, 1), &result, NULL), STATUS_OK);
    ck_assert_uint_eq(result.row_count, 1);
    ck_assert_double_eq(result.blends, 1);
    search_result_release(&result);
    small_task(2);
    ck_assert_int_eq(search_by_distance(request_for(5, 1), &result, NULL), STATUS_OK);
    ck_assert_double_eq(result.blends, 2 + 19);
    ck_assert_uint_eq(result.row_count, 3); // RED of "one" 0.25, of "two" 0.75
    search_result_release(&result);
}
END_TEST

START_TEST(an_infeasible_goal_names_the_nearest) {
    small_task(2);
    invented_remove(&invented, (struct hansen){16, 8, 15.2}, 1); // and 11 +- 4 * 0.9
    struct search_result result;
    ck_assert_int_eq(search_by_distance(request_for(5, 1), &result, NULL), STATUS_OK);
    ck_assert_uint_eq(result.row_count, 0);
    // On the line from delta_h 10 to 14: the neat second bottle, at 1.2 from the second centre with radius 1.
    ck_assert_str_eq(recipe_of(&invented.goal, &result.nearest), "two 100");
    ck_assert_double_eq_tol(result.nearest_red, 1.2, 1e-12);
    search_result_release(&result);
}
END_TEST

START_TEST(a_bottle_without_a_place_is_named) {
    small_task(1);
    invented_bottle(&invented, "nowhere", (struct hansen){NAN, NAN, NAN});
    struct search_result result = {.blends = -1};
    struct error err = {0};
    ck_assert_int_eq(search_by_distance(request_for(5, 1), &result, &err), STATUS_NO_DATA);
    ck_assert_ptr_nonnull(strstr(err.text, "nowhere"));
    ck_assert(result.blends == -1); // untouched
}
END_TEST

// --- ties ---

// The order of the rows with equal scores is that of the texts.
START_TEST(ties_stand_in_the_order_of_their_recipes) {
    static const char *const ids[] = {"ethanol", "ethanol-96", "a", "z9", "ethanol-9"};
    invented_start(&invented, 3, 40, 0);
    for (size_t i = 0; i < 5; i++)
        invented_bottle(&invented, ids[i], (struct hansen){16, 8, 8});
    struct recipe_order order;
    recipe_order_make(&invented.goal, &order);
    struct random random = {3};
    for (int i = 0; i < 20000; i++) {
        struct composition c[2];
        char words[2][256];
        for (int k = 0; k < 2; k++) {
            int first = (int)random_below(&random, 3);
            int steps = 1 + (int)random_below(&random, 37);
            c[k] = (struct composition){.count = 1 + (int)random_below(&random, 3),
                                        .bottles = {first, first + 1, first + 2}};
            c[k].steps[0] = c[k].count == 1 ? 40 : steps;
            c[k].steps[1] = c[k].count == 2 ? 40 - steps : 1 + (int)random_below(&random, (size_t)(39 - steps));
            c[k].steps[2] = 40 - steps - c[k].steps[1];
            snprintf(words[k], sizeof words[k], "%s", recipe_of(&invented.goal, &c[k]));
        }
        int by_text = strcmp(words[0], words[1]);
        int by_order = recipe_compare(&order, &c[0], &c[1]);
        ck_assert_msg((by_text < 0) == (by_order < 0) && (by_text > 0) == (by_order > 0), "%s, %s: %d", words[0],
                      words[1], by_order);
    }
}
END_TEST

// --- the short list ---

START_TEST(a_short_list_asks_until_it_is_full) {
    struct library lib;
    tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS);
    const struct shelf *shelf;
    invented_start(&invented, 3, 20, 0.1);
    ck_assert_int_eq(library_shelf(&lib, "studio", &shelf, NULL), STATUS_OK);
    for (size_t i = 0; i < shelf->bottles.count; i++)
        ck_assert_int_eq(
            library_bottle(&lib, shelf->bottles.items[i], &invented.goal.bottles[invented.goal.bottle_count++], NULL),
            STATUS_OK);
    invented.goal.remove[invented.goal.remove_count++] = tables_material(&lib, "dammar-aged");
    invented.goal.spare[invented.goal.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    struct shortlist_request asked = {.goal = &invented.goal, .lib = &lib, .show = 10, .fold = true, .threads = 2};
    struct search_request request = {.goal = &invented.goal, .lib = &lib, .threads = 2};
    struct search_result result, all;
    static struct shortlist list, expected;
    ck_assert_int_eq(shortlist_search(&asked, &result, &list, NULL), STATUS_OK);
    ck_assert_uint_eq(list.count, 10);
    ck_assert(!list.cut);
    // The same as folding every set that passes.
    request.rows_most = SEARCH_ROWS_MAX;
    ck_assert_int_eq(search_exhaustive(&request, &all, NULL), STATUS_OK);
    ck_assert_int_eq(shortlist_make(&asked, &all, true, &expected, NULL), STATUS_OK);
    for (size_t i = 0; i < 10; i++) {
        ck_assert(same_composition(&list.rows[i].row.best, &expected.rows[i].row.best));
        ck_assert_uint_eq(list.rows[i].row.passing, expected.rows[i].row.passing);
    }
    // Rows that fold into fewer than asked for: the list is cut, unless they are all that pass.
    all.row_count = 12;
    ck_assert_int_eq(shortlist_make(&asked, &all, false, &expected, NULL), STATUS_OK);
    ck_assert_uint_lt(expected.count, 10);
    ck_assert(expected.cut);
    ck_assert_int_eq(shortlist_make(&asked, &all, true, &expected, NULL), STATUS_OK);
    ck_assert(!expected.cut);
    search_result_release(&result);
    search_result_release(&all);
    // What passes is counted by its own walk of the grid.
    asked.show = 3;
    asked.fold = false;
    ck_assert_int_eq(shortlist_search(&asked, &result, &list, NULL), STATUS_OK);
    ck_assert_uint_eq(result.row_count, 3);
    ck_assert_int_eq(search_count_passing(&invented.goal, &lib, &result, NULL), STATUS_OK);
    ck_assert_int_eq(search_exhaustive(&request, &all, NULL), STATUS_OK);
    ck_assert_double_eq(result.too_weak, all.too_weak);
    ck_assert_double_eq(result.sets, all.sets);
    search_result_release(&result);
    search_result_release(&all);
    library_release(&lib);
}
END_TEST

// The best composition of every set that is not two liquids, by looking at each, in order.
static size_t best_of_one_liquid(const struct library *lib, const struct unifac_table *table, struct search_row *ret) {
    struct recipe_order order;
    struct hansen places[GOAL_BOTTLES_MAX];
    size_t count = 0;
    recipe_order_make(&invented.goal, &order);
    ck_assert_int_eq(shelf_places(&invented.goal, lib, places, NULL), STATUS_OK);
    for (unsigned set = 1; set < 1u << invented.goal.bottle_count; set++) {
        struct composition c = {0};
        for (int i = 0; i < (int)invented.goal.bottle_count; i++)
            if (set >> i & 1 && c.count < GOAL_COMPONENTS_MAX)
                c.bottles[c.count++] = i;
        struct search_row best = {0};
        int steps = invented.goal.steps;
        if (c.count > 3)
            continue;
        for (int a = 1; a <= steps; a++)
            for (int b = c.count < 2 ? 0 : 1; b <= (c.count < 2 ? 0 : steps); b++) {
                int rest[3] = {a, b, steps - a - b};
                memcpy(c.steps, rest, sizeof rest);
                if (c.count == 3 ? rest[2] < 1 : rest[2] != 0)
                    continue;
                struct search_row row = {.best = c};
                struct blend blend;
                struct phase_judgement phase;
                row.score = composition_score(&invented.goal, composition_position(&invented.goal, places, &c));
                if (!composition_passes(&invented.goal, &row.score) ||
                    (best.best.count && !composition_better(&order, &row.score, &c, &best.score, &best.best)))
                    continue;
                ck_assert_int_eq(composition_blend(&invented.goal, lib, &c, &blend, NULL), STATUS_OK);
                ck_assert_int_eq(miscibility_judge_blend(lib, table, &blend, 293.15, &phase, NULL), STATUS_OK);
                if (phase.verdict != PHASE_TWO)
                    best = row;
            }
        size_t at = count;
        for (; best.best.count && at > 0 &&
               composition_better(&order, &best.score, &best.best, &ret[at - 1].score, &ret[at - 1].best);
             at--)
            ret[at] = ret[at - 1];
        if (best.best.count) {
            ret[at] = best;
            count++;
        }
    }
    return count;
}

START_TEST(a_set_that_splits_stands_with_its_best_other_shares) {
    struct library lib;
    struct unifac_table table;
    static struct search_row expected[64];
    static struct shortlist list;
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
    invented_start(&invented, 3, 20, 0.1);
    ck_assert_int_eq(bottle_list_parse(&lib, "ethanol-70, isooctane, acetone, methanol, toluene, water",
                                       invented.goal.bottles, GOAL_BOTTLES_MAX, &invented.goal.bottle_count, NULL),
                     STATUS_OK);
    invented.goal.remove[invented.goal.remove_count++] = tables_material(&lib, "dammar-aged");
    invented.goal.spare[invented.goal.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    size_t count = best_of_one_liquid(&lib, &table, expected);
    struct shortlist_request asked = {
        .goal = &invented.goal, .lib = &lib, .table = &table, .temp_k = 293.15, .show = 64, .threads = 1};
    struct search_result result;
    ck_assert_int_eq(shortlist_search(&asked, &result, &list, NULL), STATUS_OK);
    ck_assert(!list.cut);
    ck_assert_uint_eq(list.count, count);
    size_t moved = 0;
    for (size_t i = 0; i < count; i++) {
        ck_assert(same_composition(&list.rows[i].row.best, &expected[i].best));
        moved += list.rows[i].split.count > 0;
    }
    ck_assert_uint_gt(moved, 2);           // or this test shows nothing
    ck_assert_uint_gt(list.split_sets, 0); // ethanol of 70 % with isooctane, for one
    ck_assert_uint_eq(list.split_sets + count, result.row_count);
    search_result_release(&result);
    // Fewer rows than sets: the search is asked again until those that wait have their turn.
    asked.show = 5;
    ck_assert_int_eq(shortlist_search(&asked, &result, &list, NULL), STATUS_OK);
    for (size_t i = 0; i < 5; i++)
        ck_assert(same_composition(&list.rows[i].row.best, &expected[i].best));
    search_result_release(&result);
    tables_close_unifac(&lib, &table);
}
END_TEST

// --- one bar for several parts ---

static void note_progress(void *context, double done) {
    double *last = context;
    ck_assert_double_ge(done, *last);
    ck_assert_double_le(done, 1);
    *last = done;
}

START_TEST(the_bar_of_a_short_list_never_goes_back) {
    struct library lib;
    double last = 0;
    tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS);
    invented_start(&invented, 4, 20, 0.1);
    for (size_t i = 0; i < lib.component_count && invented.goal.bottle_count < 60; i++)
        if (!isnan(lib.components[i].hansen.delta_d))
            invented.goal.bottles[invented.goal.bottle_count++].component = &lib.components[i];
    invented.goal.remove[invented.goal.remove_count++] = tables_material(&lib, "dammar-aged");
    invented.goal.spare[invented.goal.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    struct shortlist_request asked = {.goal = &invented.goal,
                                      .lib = &lib,
                                      .show = 12,
                                      .fold = true,
                                      .threads = 1,
                                      .watch = {.progress = note_progress, .context = &last}};
    static struct shortlist list;
    struct search_result result;
    ck_assert_int_eq(shortlist_search(&asked, &result, &list, NULL), STATUS_OK);
    ck_assert_uint_gt(result.row_count, 256); // it was asked for more than once
    ck_assert_double_gt(last, 0.5);
    search_result_release(&result);
    library_release(&lib);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("search");
    TCase *tests = tcase_create("by distance");
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, equals_the_exhaustive_search_on_random_shelves);
    tcase_add_test(tests, equals_the_exhaustive_search_of_sixty_bottles);
    tcase_add_test(tests, threads_change_nothing);
    tcase_add_test(tests, a_cancelled_search_says_what_is_proved);
    tcase_add_test(tests, every_allocation_may_fail);
    tcase_add_test(tests, a_set_that_splits_stands_with_its_best_other_shares);
    tcase_add_test(tests, the_bar_of_a_short_list_never_goes_back);
    tcase_add_test(tests, shelves_of_nothing_and_of_little);
    tcase_add_test(tests, an_infeasible_goal_names_the_nearest);
    tcase_add_test(tests, a_bottle_without_a_place_is_named);
    tcase_add_test(tests, ties_stand_in_the_order_of_their_recipes);
    tcase_add_test(tests, a_short_list_asks_until_it_is_full);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
