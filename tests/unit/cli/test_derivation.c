// SPDX-License-Identifier: GPL-3.0-or-later
// The line that says where a figure comes from is found by its keys: the longest that fit, the command's own first.
#include "cli/derivation.h"
#include "suite.h"

#include <check.h>
#include <string.h>

static const char *name_of(const char *command, const char *path) {
    const struct derivation *derivation = derivation_of(command, path);
    return derivation ? derivation->name ? derivation->name : "as given" : "nothing";
}

START_TEST(keys_fit_from_the_end) {
    ck_assert_str_eq(name_of("place", "materials[].red"), "RED");
    ck_assert_str_eq(name_of("place", "hansen.delta_d"), "Hansen parameters");
    ck_assert_str_eq(name_of("place", "shared"), "nothing"); // a part of a word is no key
    ck_assert_str_eq(name_of("place", "materials[].infrared"), "nothing");
    ck_assert_str_eq(name_of("place", "red.other"), "nothing");
    ck_assert_str_eq(name_of("report", "sections[].blocks[].facts.delta_d.number"), "Hansen parameters");
    ck_assert_str_eq(name_of("layers", "stacks[].layers[].number"), "as given");
}
END_TEST

START_TEST(a_star_stands_for_one_part) {
    ck_assert_str_eq(name_of("place", "composition_volume_percent.acetone"), "share by volume");
    ck_assert_str_eq(name_of("place", "composition_volume_percent"), "nothing");
    ck_assert_str_eq(name_of("place", "composition_volume_percent.a.b"), "nothing");
    ck_assert_str_eq(name_of("exposure", "tasks[].composition_volume_percent.acetone"), "share by volume");
}
END_TEST

START_TEST(the_longest_key_counts) {
    ck_assert_str_eq(name_of("replace", "original.hansen.delta_d"), "Hansen parameters");
    ck_assert_str_eq(name_of("replace", "original.drying.tail_place.delta_d"), "place of the last 5 %");
    ck_assert_str_eq(name_of("place", "cloud_water.first_percent"), "water it bears");
    ck_assert_str_eq(name_of("gentlest", "components[].flash_point_c"), "flash point of a liquid");
    ck_assert_str_eq(name_of("gentlest", "blends[].flash_point_c"), "flash point to count with");
}
END_TEST

START_TEST(a_command_may_mean_something_of_its_own) {
    ck_assert_str_eq(name_of("exposure", "components[].vapour_pressure_kpa"), "vapour pressure");
    ck_assert_str_eq(name_of("place", "vapour[].partial_pressure_kpa"), "vapour pressure over the blend");
    ck_assert_str_eq(name_of("gentlest", "blends[].weakest.p_works"), "works");
    ck_assert_str_eq(name_of("ladder", "rungs[].p_works"), "what a test will say");
    ck_assert_str_eq(name_of("ladder", "touch_most"), "as given");
    ck_assert_str_eq(name_of("place", "touch_most"), "nothing");
}
END_TEST

// A line that names what it is also says where that comes from; an echo says nothing.
START_TEST(every_line_is_whole) {
    for (size_t t = 0; t < DERIVATION_TABLES; t++) {
        ck_assert_uint_gt(derivation_tables[t]->count, 0);
        for (size_t i = 0; i < derivation_tables[t]->count; i++) {
            const struct derivation *d = &derivation_tables[t]->items[i];
            ck_assert_msg(d->keys && d->keys[0] && !strstr(d->keys, "  ") && d->keys[strlen(d->keys) - 1] != ' ', "%s",
                          d->name ? d->name : d->keys);
            ck_assert_msg(!d->name == !d->words && !d->name == !d->source, "%s", d->keys);
            ck_assert_msg(d->name || !d->uses, "%s", d->keys);
        }
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("derivation");
    TCase *tests = tcase_create("lines");
    tcase_add_test(tests, keys_fit_from_the_end);
    tcase_add_test(tests, a_star_stands_for_one_part);
    tcase_add_test(tests, the_longest_key_counts);
    tcase_add_test(tests, a_command_may_mean_something_of_its_own);
    tcase_add_test(tests, every_line_is_whole);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
