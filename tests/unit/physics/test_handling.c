// SPDX-License-Identifier: GPL-3.0-or-later
// Waste classes, gloves for blends and effects in common, with the shipped tables.
#include "physics/handling.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <string.h>

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_BOTTLES);
}

static void close_tables(void) {
    library_release(&lib);
}

static enum waste_class waste(const char *notation) {
    struct blend blend = tables_blend(&lib, notation);
    return waste_class_of(&blend);
}

START_TEST(a_trace_of_chlorine_makes_it_halogenated) {
    ck_assert_int_eq(waste("toluene"), WASTE_NOT_HALOGENATED);
    ck_assert_int_eq(waste("toluene 99.5 + dichloromethane 0.5"), WASTE_HALOGENATED);
    ck_assert_int_eq(waste("water 90 + chloroform 10"), WASTE_HALOGENATED);
    ck_assert_int_eq(waste("water 50 + ethanol 50"), WASTE_WATERY);
    ck_assert_int_eq(waste("water 49 + ethanol 51"), WASTE_NOT_HALOGENATED);
}
END_TEST

static size_t gloves(const char *notation, char ret[GLOVES_MAX][GLOVE_BYTES], size_t *ret_unknown) {
    struct blend blend = tables_blend(&lib, notation);
    return gloves_for_all(&blend, ret, ret_unknown);
}

static bool among(char list[GLOVES_MAX][GLOVE_BYTES], size_t count, const char *material) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(list[i], material) == 0)
            return true;
    return false;
}

// The rows of the table: toluene withstood by PVA, laminate, fluororubber and not by butyl; acetone by butyl and
// laminate, not by nitrile.
START_TEST(gloves_must_withstand_every_component) {
    char list[GLOVES_MAX][GLOVE_BYTES];
    size_t unknown = 77;
    size_t count = gloves("toluene 1 + acetone 1", list, &unknown);
    ck_assert_uint_eq(unknown, 0);
    ck_assert(among(list, count, "laminate"));
    ck_assert(!among(list, count, "butyl") && !among(list, count, "nitrile") && !among(list, count, "PVA"));
    count = gloves("toluene", list, &unknown);
    ck_assert(among(list, count, "PVA")); // without the words in brackets
    count = gloves("toluene 99 + water 1", list, &unknown);
    ck_assert(!among(list, count, "PVA") && among(list, count, "laminate"));
    ck_assert_uint_eq(unknown, 0); // water is no unknown
}
END_TEST

START_TEST(what_no_table_knows_is_counted) {
    char list[GLOVES_MAX][GLOVE_BYTES];
    size_t unknown = 0;
    struct component mystery = {.id = "mystery", .family = FAMILY_ESTER};
    struct blend blend = tables_blend(&lib, "toluene 1 + acetone 1");
    blend.components[1] = &mystery;
    ck_assert_uint_gt(gloves_for_all(&blend, list, &unknown), 0);
    ck_assert_uint_eq(unknown, 1);
    blend.components[0] = &mystery;
    ck_assert_uint_eq(gloves_for_all(&blend, list, &unknown), 0);
    ck_assert_uint_eq(effects_of(&mystery), (1u << EFFECTS) - 1);
}
END_TEST

// Annex VI: toluene H315, H336, H361d, H373; acetone H319, H336.
START_TEST(effects_by_the_statements) {
    unsigned toluene = effects_of(tables_component(&lib, "toluene"));
    unsigned acetone = effects_of(tables_component(&lib, "acetone"));
    ck_assert_uint_eq(toluene, 1u << 0 | 1u << 1 | 1u << 2 | 1u << 3);
    ck_assert_uint_eq(acetone, 1u << 0 | 1u << 1);
    ck_assert_uint_eq(effects_of(tables_component(&lib, "water")), 0);
    ck_assert_ptr_null(effect_words[EFFECTS]);
}
END_TEST

static Suite *handling_suite(void) {
    Suite *suite = suite_create("handling");
    TCase *all = tcase_create("handling");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_add_test(all, a_trace_of_chlorine_makes_it_halogenated);
    tcase_add_test(all, gloves_must_withstand_every_component);
    tcase_add_test(all, what_no_table_knows_is_counted);
    tcase_add_test(all, effects_by_the_statements);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void) {
    return suite_run(handling_suite());
}
