// SPDX-License-Identifier: GPL-3.0-or-later
// What may be on the shelf: hazard classes, what is never proposed, filters; and how many blends a shelf makes.
#include "selection/goal.h"

#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_ALL);
}

static void close_tables(void) {
    library_release(&lib);
}

static bool in_class(const struct hazard *hazard, enum hazard_class class) {
    struct component component = {.family = FAMILY_KETONE, .hazard = hazard};
    return component_in_class(&component, class);
}

static bool with_statement(const char *code, enum hazard_class class) {
    const char *codes[] = {"H225", code};
    struct hazard hazard = {.h_statements = {.items = codes, .count = 2}};
    return in_class(&hazard, class);
}

START_TEST(classes_by_name) {
    int count = 0;
    for (; hazard_class_words[count]; count++)
        ck_assert_int_eq(hazard_class_named(hazard_class_words[count]), count);
    ck_assert_int_eq(count, CLASS_CHLORINATED + 1);
    ck_assert_int_eq(hazard_class_named("Toxic"), CLASS_TOXIC);
    ck_assert_int_eq(hazard_class_named("acetone"), -1);
}
END_TEST

// Acute toxicity of categories 1 to 3 and organ damage of category 1 (Regulation (EC) 1272/2008, Annex I, 3.1 and 3.8,
// 3.9) are toxic; categories 4 and 2 are not. H314 burns, H315 irritates.
START_TEST(classes_by_statement) {
    static const char *const toxic[] = {"H300", "H301", "H310", "H311", "H330", "H331", "H370", "H372"};
    static const char *const less[] = {"H302", "H312", "H332", "H371", "H373", "H304", "H319", "H336"};
    for (size_t i = 0; i < 8; i++) {
        ck_assert_msg(with_statement(toxic[i], CLASS_TOXIC), "%s", toxic[i]);
        ck_assert_msg(!with_statement(less[i], CLASS_TOXIC), "%s", less[i]);
        ck_assert(!with_statement(toxic[i], CLASS_CORROSIVE));
    }
    ck_assert(with_statement("H314", CLASS_CORROSIVE));
    ck_assert(!with_statement("H315", CLASS_CORROSIVE));
}
END_TEST

START_TEST(classes_by_what_the_row_says) {
    struct hazard hazard = {0};
    for (int class = 0; class <= CLASS_CHLORINATED; class ++)
        ck_assert(!in_class(&hazard, (enum hazard_class) class) && !in_class(NULL, (enum hazard_class) class));
    ck_assert(in_class(&(struct hazard){.carcinogen_category = CATEGORY_2}, CLASS_CARCINOGEN));
    ck_assert(!in_class(&(struct hazard){.carcinogen_category = CATEGORY_2}, CLASS_MUTAGEN));
    ck_assert(in_class(&(struct hazard){.mutagen_category = CATEGORY_2}, CLASS_MUTAGEN));
    ck_assert(in_class(&(struct hazard){.reproductive_category = CATEGORY_1B}, CLASS_REPRODUCTIVE));
    ck_assert(!in_class(&(struct hazard){.reproductive_category = CATEGORY_1B}, CLASS_CARCINOGEN));
    ck_assert(in_class(&(struct hazard){.sensitiser = "yes, skin"}, CLASS_SENSITISER));
    ck_assert(!in_class(&(struct hazard){.sensitiser = "no"}, CLASS_SENSITISER));
    ck_assert(in_class(&(struct hazard){.skin_absorption = "yes"}, CLASS_SKIN_ABSORBED));
    ck_assert(!in_class(&(struct hazard){.skin_absorption = "no"}, CLASS_SKIN_ABSORBED));
    ck_assert(in_class(&(struct hazard){.peroxide_former = 1}, CLASS_PEROXIDE_FORMER));
    ck_assert(in_class(&(struct hazard){.restricted = true}, CLASS_RESTRICTED));
    struct component aromatic = {.family = FAMILY_AROMATIC}, chlorinated = {.family = FAMILY_CHLORINATED};
    ck_assert(component_in_class(&aromatic, CLASS_AROMATIC) && !component_in_class(&aromatic, CLASS_CHLORINATED));
    ck_assert(component_in_class(&chlorinated, CLASS_CHLORINATED) && !component_in_class(&chlorinated, CLASS_AROMATIC));
}
END_TEST

static const char *why_not(struct hazard hazard) {
    struct component component = {.hazard = &hazard};
    return component_unproposed(&component);
}

START_TEST(category_one_is_never_proposed) {
    for (int category = CATEGORY_1A; category <= CATEGORY_1B; category++) {
        ck_assert_ptr_nonnull(strstr(why_not((struct hazard){.carcinogen_category = category}), "carcinogen"));
        ck_assert_ptr_nonnull(strstr(why_not((struct hazard){.mutagen_category = category}), "mutagen"));
        ck_assert_ptr_nonnull(strstr(why_not((struct hazard){.reproductive_category = category}), "reproduction"));
    }
    ck_assert_ptr_null(why_not((struct hazard){
        .carcinogen_category = CATEGORY_2, .mutagen_category = CATEGORY_2, .reproductive_category = CATEGORY_2}));
    struct component apart = {.set_apart = "a class of its own"}, unknown = {0};
    ck_assert_str_eq(component_unproposed(&apart), "a class of its own");
    ck_assert_ptr_null(component_unproposed(&unknown));
}
END_TEST

// goal.h: at least 0.10 of the volume, and at least twice what the paint takes up.
START_TEST(window_of_a_target_that_only_swells) {
    ck_assert(goal_leaves_window(0.10, NAN));
    ck_assert(!goal_leaves_window(0.099, NAN));
    ck_assert(goal_leaves_window(0.10, 0.02));
    ck_assert(goal_leaves_window(0.40, 0.20));
    ck_assert(!goal_leaves_window(0.39, 0.20));
    ck_assert(!goal_leaves_window(0.09, 0.01));
}
END_TEST

// Counted one by one: every way to give `steps` steps to the bottles, none or more each, with few enough that have any.
static size_t counted(size_t bottles, int left, int used, int most) {
    if (bottles == 0)
        return left == 0 && used <= most;
    size_t sum = 0;
    for (int here = 0; here <= left; here++)
        sum += counted(bottles - 1, left - here, used + (here > 0), most);
    return sum;
}

START_TEST(blends_of_a_shelf) {
    for (size_t bottles = 1; bottles <= 5; bottles++)
        for (int most = 1; most <= 4; most++)
            for (int steps = 1; steps <= 7; steps++)
                ck_assert_double_eq(goal_blend_count(bottles, most, steps), (double)counted(bottles, steps, 0, most));
    ck_assert_double_eq(goal_blend_count(0, 3, 20), 0);
    ck_assert_double_eq(goal_blend_count(7, 3, 20), 7 + 21 * 19 + 35 * 171);
    ck_assert_double_eq(goal_blends_of(7, 3, 20), 35 * 171);
    ck_assert_double_eq(goal_blends_of(7, 3, 2), 0);
    ck_assert_double_eq(goal_blends_of(7, 1, 0), 0);
    ck_assert_double_eq(goal_blends_of(2, 3, 20), 0);
}
END_TEST

static struct goal shelf_of(const char *list) {
    struct goal goal = {.components_most = 2, .steps = 10};
    struct error err = {0};
    stop_unless(bottle_list_parse(&lib, list, goal.bottles, GOAL_BOTTLES_MAX, &goal.bottle_count, &err), &err);
    return goal;
}

static bool stands(const struct goal *goal, const char *id) {
    for (size_t i = 0; i < goal->bottle_count; i++)
        if (strcmp(bottle_ref_id(&goal->bottles[i]), id) == 0)
            return true;
    return false;
}

// Toluene is of category 2 and stays until aromatics are taken off; dimethylformamide is of 1B (harmonised, Annex VI).
START_TEST(filters_take_bottles_off) {
    static const char *const without[] = {"aromatic", "ethanol", "acetone"};
    struct goal goal = shelf_of("acetone, toluene, ethanol, ethanol-96, isooctane, dimethylformamide, propan-2-ol");
    struct shelf_rules rules = {.without = without, .without_count = 3};
    struct filter_report report = {0};
    struct error err = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, &err), STATUS_OK);
    ck_assert_uint_eq(goal.bottle_count, 2);
    ck_assert(stands(&goal, "isooctane") && stands(&goal, "propan-2-ol"));
    ck_assert_uint_eq(report.count, 4);
    ck_assert_str_eq(report.items[0].names, "dimethylformamide");
    ck_assert_str_eq(report.items[1].names, "toluene");
    ck_assert_str_eq(report.items[1].filter, "aromatic");
    ck_assert_str_eq(report.items[2].names, "ethanol, ethanol-96"); // the second contains the first
    ck_assert_uint_eq(report.items[2].bottles, 2);
    ck_assert_uint_eq(report.items[3].bottles, 1);
    // Pairs on a grid of ten: n + 9 n (n - 1)/2 of 7, 6, 5, 3, 2 bottles are 196, 141, 95, 30, 11.
    static const size_t blends[] = {55, 46, 65, 19};
    for (size_t i = 0; i < 4; i++)
        ck_assert_uint_eq(report.items[i].blends, blends[i]);
    ck_assert_ptr_eq(filter_that_took_most(&report), &report.items[2]);
}
END_TEST

START_TEST(a_bottle_by_its_own_name_goes_alone) {
    static const char *const without[] = {"ethanol-96"};
    struct goal goal = shelf_of("ethanol, ethanol-96, water");
    struct shelf_rules rules = {.without = without, .without_count = 1};
    struct filter_report report = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, NULL), STATUS_OK);
    ck_assert_uint_eq(goal.bottle_count, 2);
    ck_assert(stands(&goal, "ethanol") && stands(&goal, "water"));
}
END_TEST

START_TEST(allowed_by_name) {
    const struct component *allowed[] = {tables_component(&lib, "isooctane"),
                                         tables_component(&lib, "dimethylformamide")};
    struct goal goal = shelf_of("dimethylformamide, n-methylpyrrolidone, acetone");
    struct shelf_rules rules = {.allowed = allowed, .allowed_count = 2};
    struct filter_report report = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, NULL), STATUS_OK);
    ck_assert(stands(&goal, "dimethylformamide") && stands(&goal, "acetone"));
    ck_assert(!stands(&goal, "n-methylpyrrolidone"));
}
END_TEST

START_TEST(filters_that_take_nothing_are_not_blamed) {
    static const char *const without[] = {"water"};
    struct goal goal = shelf_of("acetone, isooctane");
    struct shelf_rules rules = {.without = without, .without_count = 1};
    struct filter_report report = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, NULL), STATUS_OK);
    ck_assert_uint_eq(report.count, 2);
    ck_assert_uint_eq(goal.bottle_count, 2);
    ck_assert_ptr_null(filter_that_took_most(&report));
}
END_TEST

START_TEST(names_that_find_no_room_end_in_dots) {
    static const char *const without[] = {"isooctane", "carcinogen", "mutagen", "reproductive", "sensitiser",
                                          "aromatic",  "restricted", "toxic",   "chlorinated"};
    struct goal goal = {.components_most = 3, .steps = 20};
    for (size_t i = 0; i < lib.component_count; i++)
        goal.bottles[goal.bottle_count++] = (struct bottle_ref){.component = &lib.components[i]};
    struct shelf_rules rules = {.without = without, .without_count = 9};
    struct filter_report report = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, NULL), STATUS_OK);
    size_t taken = 0, cut = 0;
    for (size_t i = 0; i < report.count; i++) {
        const char *names = report.items[i].names;
        size_t length = strlen(names), commas = 0;
        ck_assert_uint_lt(length, sizeof report.items[i].names);
        for (const char *at = names; (at = strchr(at, ',')); at++)
            commas++;
        bool dots = length > 3 && strcmp(names + length - 3, "...") == 0;
        ck_assert(dots || report.items[i].bottles == 0 || commas + 1 == report.items[i].bottles);
        ck_assert(!dots || length == sizeof report.items[i].names - 1);
        cut += dots;
        taken += report.items[i].bottles;
    }
    ck_assert_uint_gt(cut, 0);
    ck_assert_uint_eq(taken + goal.bottle_count, lib.component_count);
}
END_TEST

// Two names and the comma between them fill the room to its last character, or need one more.
START_TEST(names_that_just_fit_are_whole) {
    enum { ROOM = sizeof(((struct filter_count *)NULL)->names) - 1 };
    static const char *const without[] = {"aromatic"};
    for (size_t second = 9; second <= 10; second++) {
        char ids[2][ROOM + 1] = {{0}};
        struct component liquids[] = {*tables_component(&lib, "toluene"), *tables_component(&lib, "toluene")};
        struct goal goal = {.components_most = 2, .steps = 10, .bottle_count = 2};
        memset(ids[0], 'a', ROOM - 2 - 9);
        memset(ids[1], 'b', second);
        for (size_t i = 0; i < 2; i++) {
            liquids[i].id = ids[i];
            goal.bottles[i] = (struct bottle_ref){.component = &liquids[i]};
        }
        struct shelf_rules rules = {.without = without, .without_count = 1};
        struct filter_report report = {0};
        ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, NULL), STATUS_OK);
        ck_assert_uint_eq(report.items[1].bottles, 2);
        ck_assert_uint_eq(strlen(report.items[1].names), ROOM);
        ck_assert_str_eq(report.items[1].names + ROOM - 11, second == 9 ? ", bbbbbbbbb" : ", bbbbbb...");
    }
}
END_TEST

START_TEST(an_unknown_name_is_refused_with_the_classes) {
    static const char *const without[] = {"acetoen"};
    struct goal goal = shelf_of("acetone, isooctane");
    struct shelf_rules rules = {.without = without, .without_count = 1};
    struct filter_report report = {0};
    struct error err = {0};
    ck_assert_int_eq(goal_filter_shelf(&goal, &lib, &rules, &report, &err), STATUS_UNKNOWN_NAME);
    ck_assert_ptr_nonnull(strstr(err.text, "acetoen"));
    ck_assert_ptr_nonnull(strstr(err.text, "classes are: carcinogen, mutagen, "));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("goal");
    TCase *tests = tcase_create("shelf");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, classes_by_name);
    tcase_add_test(tests, classes_by_statement);
    tcase_add_test(tests, classes_by_what_the_row_says);
    tcase_add_test(tests, category_one_is_never_proposed);
    tcase_add_test(tests, window_of_a_target_that_only_swells);
    tcase_add_test(tests, blends_of_a_shelf);
    tcase_add_test(tests, filters_take_bottles_off);
    tcase_add_test(tests, a_bottle_by_its_own_name_goes_alone);
    tcase_add_test(tests, allowed_by_name);
    tcase_add_test(tests, filters_that_take_nothing_are_not_blamed);
    tcase_add_test(tests, names_that_find_no_room_end_in_dots);
    tcase_add_test(tests, names_that_just_fit_are_whole);
    tcase_add_test(tests, an_unknown_name_is_refused_with_the_classes);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
