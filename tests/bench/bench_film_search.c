// SPDX-License-Identifier: GPL-3.0-or-later
// The search by film: every blend of a shelf of up to three bottles, warm-started along the grid, on two threads and on
// one; its list must be that of the cold search to the last bit. An ordinary shelf, one of liquids that hardly mix, and
// sixty bottles (not repeated cold).
#include "stopwatch.h"
#include "tables.h"

#include "selection/film_search.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double studio_most_s = 5, studio_goal_s = 1, sixty_goal_s = 20; // wall time on two idle processors

static const char non_ideal[] = "water, methanol, ethanol, propan-2-ol, acetonitrile, acetone, tetrahydrofuran, "
                                "diethyl-ether, n-pentane, n-heptane, isooctane, n-dodecane, cyclohexane, toluene, "
                                "butan-1-ol, ethyl-acetate, dichloromethane, propylene-carbonate, methyl-acetate, "
                                "white-spirit";

static struct library lib;
static struct unifac_table table;
static struct goal goal;
static bool failed;

struct lap {
    double wall, used;
};

static void fail(const char *words) {
    printf("MISSED: %s\n", words);
    failed = true;
}

static void start_goal(void) {
    goal = (struct goal){.components_most = 3, .steps = 20, .margin = 0.1};
    material_list_parse(&lib, "dammar-aged", goal.remove, GOAL_MATERIALS_MAX, &goal.remove_count, NULL);
    material_list_parse(&lib, "linseed-oil-film-young", goal.spare, GOAL_MATERIALS_MAX, &goal.spare_count, NULL);
}

static struct lap search(int threads, bool cold, struct film_search_result *ret) {
    struct film_view view;
    struct error err = {0};
    struct lap lap = {seconds(CLOCK_MONOTONIC), seconds(CLOCK_PROCESS_CPUTIME_ID)};
    film_view_of_goal(&goal, 293.15, &view, &err);
    struct film_search_request request = {
        .goal = &goal, .lib = &lib, .table = &table, .view = &view, .threads = threads, .cold = cold};
    if (film_search(&request, ret, &err) != STATUS_OK) {
        printf("%s\n", err.text);
        exit(EXIT_FAILURE);
    }
    return (struct lap){seconds(CLOCK_MONOTONIC) - lap.wall, seconds(CLOCK_PROCESS_CPUTIME_ID) - lap.used};
}

static bool same_list(const struct film_search_result *a, const struct film_search_result *b) {
    bool same = a->row_count == b->row_count && a->working == b->working;
    for (size_t i = 0; same && i < a->row_count; i++)
        same = memcmp(&a->rows[i].best, &b->rows[i].best, sizeof a->rows[i].best) == 0 &&
               memcmp(&a->rows[i].swelling, &b->rows[i].swelling, sizeof a->rows[i].swelling) == 0;
    return same;
}

static void print_lap(const char *words, const struct film_search_result *result, struct lap lap) {
    printf("  %-22s %8.2f s %10.2f s %8.2f us a blend\n", words, lap.wall, lap.used, 1e6 * lap.used / result->blends);
}

static struct lap measure(const char *words, bool with_cold) {
    struct film_search_result two, one, cold = {0};
    struct lap lap_two = search(2, false, &two);
    struct lap lap_one = search(1, false, &one);
    printf("%s: %zu bottles, %.0f blends, %.0f work, in %zu sets; %.0f not covered, %.0f failed; proved: %s\n", words,
           goal.bottle_count, two.blends, two.working, two.row_count, two.not_covered, two.failed,
           two.complete && two.evaluated + two.not_covered == two.blends ? "every blend was looked at" : "no");
    printf("  %-22s %10s %12s\n", "", "wall", "processor");
    print_lap("two threads", &two, lap_two);
    print_lap("one thread", &one, lap_one);
    if (!same_list(&two, &one))
        fail("the same list from one thread and two");
    if (with_cold) {
        print_lap("cold, two threads", &cold, search(2, true, &cold));
        if (!same_list(&two, &cold))
            fail("the same list warm and cold");
    }
    film_search_release(&two);
    film_search_release(&one);
    film_search_release(&cold);
    return lap_two;
}

static void take_shelf(const char *id) {
    const struct shelf *shelf = NULL;
    library_shelf(&lib, id, &shelf, NULL);
    for (size_t i = 0; shelf && i < shelf->bottles.count; i++)
        library_bottle(&lib, shelf->bottles.items[i], &goal.bottles[goal.bottle_count++], NULL);
}

// The first of the table that the tool proposes of its own accord.
static void take_liquids(size_t count) {
    for (size_t i = 0; i < lib.component_count && goal.bottle_count < count; i++)
        if (!component_unproposed(&lib.components[i]) && !isnan(lib.components[i].hansen.delta_d))
            goal.bottles[goal.bottle_count++].component = &lib.components[i];
}

int main(void) {
    struct error err = {0};
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
    start_goal();
    take_shelf("studio");
    struct lap studio = measure("the shelf 'studio'", true);
    start_goal();
    bottle_list_parse(&lib, non_ideal, goal.bottles, GOAL_BOTTLES_MAX, &goal.bottle_count, &err);
    measure("liquids that hardly mix", true);
    start_goal();
    take_liquids(60);
    struct lap sixty = measure("sixty", false);
    // Half the processor time: what two idle processors take, whatever else this machine does now.
    printf("studio: %.2f s (at most %.0f, goal %.0f); sixty: %.1f s (goal %.0f), as half of the processor time\n",
           studio.used / 2, studio_most_s, studio_goal_s, sixty.used / 2, sixty_goal_s);
    if (studio.used / 2 > studio_most_s)
        fail("the shelf in 5 s");
    tables_close_unifac(&lib, &table);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
