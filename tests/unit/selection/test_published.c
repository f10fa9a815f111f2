// SPDX-License-Identifier: GPL-3.0-or-later
// Published classes and lists outrank the models in the cautious direction.
#include "selection/published.h"

#include "selection/ranking.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;

static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL, &table);
}

static void close_all(void) {
    tables_close_unifac(&lib, &table);
}

static struct published on_paint(const char *notation) {
    struct blend blend = tables_blend(&lib, notation);
    return published_swelling_of(tables_material(&lib, "linseed-oil-film-young"), &blend);
}

// tests/reference/paint-swelling.csv, film 16: ethanol low-moderate (read), toluene moderate, dichloromethane high
// (recalled); acetone-water blends have the class of the larger part; methoxypropanol has none.
START_TEST(a_class_is_that_of_the_liquid_that_makes_up_most) {
    ck_assert_int_eq(on_paint("ethanol").swelling->class, SWELLING_LOW_MODERATE);
    ck_assert_int_eq(on_paint("ethanol").swelling->from.sure, SURE_CHECKED);
    ck_assert_double_eq(on_paint("ethanol").least, film_band_from(BAND_LOW));
    ck_assert_int_eq(on_paint("toluene 60 + isooctane 40").swelling->class, SWELLING_MODERATE);
    ck_assert_double_eq(on_paint("toluene 40 + isooctane 60").least, 0); // isooctane: low
    ck_assert_double_eq(on_paint("dichloromethane 50 + isooctane 50").least, film_band_from(BAND_HIGH));
    ck_assert_ptr_null(on_paint("methoxypropanol").swelling);
    struct blend ethanol = tables_blend(&lib, "ethanol");
    ck_assert_ptr_null(published_swelling_of(tables_material(&lib, "dammar-aged"), &ethanol).swelling);
}
END_TEST

START_TEST(a_list_of_non_solvents_counts_when_it_names_every_strong_liquid) {
    const struct material *dammar = tables_material(&lib, "dammar-aged"); // toluene and butyl acetate: outside
    struct blend both = tables_blend(&lib, "toluene 50 + n-butyl-acetate 50");
    struct blend one = tables_blend(&lib, "toluene 50 + acetone 50");
    struct blend weak = tables_blend(&lib, "isooctane");
    ck_assert(published_outside(dammar, &both));
    ck_assert(!published_outside(dammar, &one));
    ck_assert(!published_outside(dammar, &weak));
}
END_TEST

static struct ranking rank(const struct material *paint) {
    static const struct component *acetone, *propanol;
    acetone = tables_component(&lib, "acetone");
    propanol = tables_component(&lib, "propan-2-ol");
    struct goal goal = {.components_most = 1, .steps = 20, .margin = 0.1, .remove_count = 1, .spare_count = 1};
    goal.remove[0] = tables_material(&lib, "dammar-aged");
    goal.spare[0] = paint;
    goal.bottle_count = 2;
    goal.bottles[0].component = acetone;
    goal.bottles[1].component = propanol;
    struct ranking_request request = {.goal = &goal,
                                      .lib = &lib,
                                      .table = &table,
                                      .temp_k = 293.15,
                                      .flash_least_c = NAN,
                                      .residue_most = RETENTION_VERY_LONG,
                                      .effort = DOUBT_EFFORT_NONE,
                                      .seed = 1,
                                      .show = 5,
                                      .threads = 1};
    struct ranking ranking;
    struct error err = {0};
    ck_assert_msg(ranking_make(&request, &ranking, &err) == STATUS_OK, "%s", err.text);
    ck_assert_uint_eq(ranking.count, 2);
    return ranking;
}

// Propan-2-ol stands first by the model (0.25 against 1.0). If a list called it high and nothing were known of acetone
// but 'moderate', it would rank with at least the swelling of the band 'high', never with the model's.
START_TEST(a_class_outranks_a_milder_answer_of_the_model) {
    struct ranking before = rank(tables_material(&lib, "linseed-oil-film-young"));
    ck_assert_str_eq(before.rows[0].blend.components[0]->id, "propan-2-ol");
    ck_assert_double_lt(ranked_swelling(&before.rows[0]), film_band_from(BAND_MODERATE));
    struct material own = *tables_material(&lib, "linseed-oil-film-young");
    struct published_swelling classes[] = {{.component = "propan-2-ol", .class = SWELLING_HIGH},
                                           {.component = "acetone", .class = SWELLING_LOW}};
    own.swelling_classes = (struct record_list){.items = classes, .count = 2};
    struct ranking after = rank(&own);
    for (size_t i = 0; i < 2; i++) {
        const struct ranked_row *row = &after.rows[i];
        bool propanol = strcmp(row->blend.components[0]->id, "propan-2-ol") == 0;
        ck_assert_double_eq(ranked_swelling(row), propanol ? film_band_from(BAND_HIGH) : row->row.swelling);
    }
    ranking_release(&before);
    ranking_release(&after);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("published");
    TCase *tests = tcase_create("published");
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_add_test(tests, a_class_is_that_of_the_liquid_that_makes_up_most);
    tcase_add_test(tests, a_list_of_non_solvents_counts_when_it_names_every_strong_liquid);
    tcase_add_test(tests, a_class_outranks_a_milder_answer_of_the_model);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
