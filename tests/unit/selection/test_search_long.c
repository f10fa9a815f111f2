// SPDX-License-Identifier: GPL-3.0-or-later
// The search by distance against the exhaustive one where it samples first and shares its work among threads: tens of
// millions of blends each.
#include "compare_search.h"
#include "shelf.h"
#include "suite.h"

static struct invented invented;
static const struct library no_tables;

static void compare_task(uint64_t seed, int components, int steps, size_t bottles, bool coarse) {
    struct random random = {seed};
    invented_start(&invented, components, steps, 0.1);
    for (size_t i = 0; i < bottles; i++) {
        char id[16];
        struct hansen place = random_place(&random);
        if (coarse)
            place = (struct hansen){round(place.delta_d), round(place.delta_p / 3) * 3, round(place.delta_h / 3) * 3};
        snprintf(id, sizeof id, "b%zu", i);
        invented_bottle(&invented, id, place);
    }
    invented_remove(&invented, random_place(&random), 5 + 4 * random_uniform(&random));
    for (size_t i = 0; i < 1 + random_below(&random, 2); i++)
        invented_spare(&invented, random_place(&random), 7);
    struct search_request request = {.goal = &invented.goal, .lib = &no_tables, .rows_most = 50, .threads = 2};
    char name[64];
    snprintf(name, sizeof name, "seed %d, %zu bottles, %d components, %d steps", (int)seed, bottles, components, steps);
    compare_searches(&request, name);
}

START_TEST(four_of_sixteen_at_2_5_percent) {
    for (uint64_t seed = 1; seed <= 8; seed++)
        compare_task(seed, 4, 40, 16, seed % 2 == 0);
}
END_TEST

START_TEST(four_of_ten_at_1_percent) {
    for (uint64_t seed = 21; seed <= 24; seed++)
        compare_task(seed, 4, 100, 10, seed % 2 == 0);
}
END_TEST

START_TEST(five_of_thirteen_at_2_5_percent) {
    for (uint64_t seed = 41; seed <= 46; seed++)
        compare_task(seed, 5, 40, 13, seed % 2 == 0);
}
END_TEST

START_TEST(five_of_twenty_at_5_percent) {
    for (uint64_t seed = 61; seed <= 66; seed++)
        compare_task(seed, 5, 20, 20, seed % 2 == 0);
}
END_TEST

START_TEST(four_of_fifty_at_5_percent) {
    for (uint64_t seed = 81; seed <= 82; seed++)
        compare_task(seed, 4, 20, 50, seed % 2 == 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("search at length");
    TCase *tests = tcase_create("by distance");
    tcase_set_timeout(tests, 1200);
    tcase_add_test(tests, four_of_sixteen_at_2_5_percent);
    tcase_add_test(tests, four_of_ten_at_1_percent);
    tcase_add_test(tests, five_of_thirteen_at_2_5_percent);
    tcase_add_test(tests, five_of_twenty_at_5_percent);
    tcase_add_test(tests, four_of_fifty_at_5_percent);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
