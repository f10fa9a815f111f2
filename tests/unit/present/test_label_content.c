// SPDX-License-Identifier: GPL-3.0-or-later
// The words of a label from a classification of the tables' own liquids.
#include "present/label_content.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct arena arena;
static struct blend blend;
static struct classification classification;

static void begin(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_BOTTLES | TABLE_HAZARDS | TABLE_STATEMENTS);
}

static void end(void) {
    arena_release(&arena);
    library_release(&lib);
}

static struct label_content words_of(const char *notation, enum classification_rules rules, int bottle,
                                     const char *name) {
    struct classification_input input = {
        .rules = rules, .boiling_c = NAN, .viscosity_40c_mm2_s = NAN, .flash = FLASH_NOT_KNOWN};
    struct label_content content;
    struct error err = {0};
    blend = tables_blend(&lib, notation);
    ck_assert_int_eq(classify_blend(&blend, &input, &arena, &classification, &err), STATUS_OK);
    struct label_request request = {.blend = &blend, .name = name, .bottle = &label_bottles[bottle]};
    ck_assert_int_eq(label_content_make(&lib, &request, &classification, &arena, &content, &err), STATUS_OK);
    return content;
}

static const struct label_statement *hazard_of(const struct label_content *content, const char *code) {
    for (size_t i = 0; i < content->hazard_count; i++)
        if (strcmp(content->hazards[i].code, code) == 0)
            return &content->hazards[i];
    return NULL;
}

START_TEST(words_come_from_the_tables) {
    struct label_content content = words_of("toluene 60 + acetone 40", RULES_EU_CLP, 2, "B3");
    ck_assert_str_eq(content.name, "B3");
    ck_assert_str_eq(content.proportions, "toluene 60 + acetone 40 (parts by volume)");
    ck_assert_str_eq(content.signal, "DANGER");
    ck_assert_str_eq(content.contains, "Contains: toluene, acetone.");
    ck_assert_str_eq(content.made, "Made ____________ by ____________");
    ck_assert_str_eq(content.warning, "");
    ck_assert_str_eq(hazard_of(&content, "H225")->text, "Highly flammable liquid and vapour.");
    ck_assert_str_eq(content.precautions[0].code, "P210");
    ck_assert_ptr_nonnull(strstr(content.closing, "specific limits not checked"));
    ck_assert_ptr_nonnull(strstr(content.closing, "Computed by Reg. (EC) 1272/2008"));
    ck_assert_ptr_nonnull(strstr(content.closing, "check against the data sheets"));
    ck_assert_uint_eq(content.pictogram_count, 3);
    ck_assert_int_eq(content.pictograms[0], 8); // health before fire before the exclamation mark
}
END_TEST

START_TEST(without_a_name_the_proportions_are_the_name) {
    struct label_content content = words_of("isooctane 70 + propan-2-ol 30", RULES_EU_CLP, 1, NULL);
    ck_assert_str_eq(content.name, "isooctane 70 + propan-2-ol 30");
    ck_assert_str_eq(content.proportions, "parts by volume");
}
END_TEST

START_TEST(covered_statements_stay_off) {
    struct label_content content = words_of("isooctane", RULES_EU_CLP, 1, NULL);
    ck_assert(classification_has(&classification, "H400"));
    ck_assert_ptr_null(hazard_of(&content, "H400"));
    ck_assert_ptr_nonnull(hazard_of(&content, "H410"));
}
END_TEST

// 0.5 % by volume of d-limonene: below 1 %, above 0.1 % (Annex II 2.8).
START_TEST(a_sensitiser_in_traces_is_named) {
    struct label_content content = words_of("d-limonene 0.5 + propan-2-ol 99.5", RULES_EU_CLP, 1, NULL);
    const struct label_statement *statement = hazard_of(&content, "EUH208");
    ck_assert_ptr_nonnull(statement);
    ck_assert_ptr_nonnull(strstr(statement->text, "Contains "));
    ck_assert_ptr_nonnull(strstr(statement->text, tables_component(&lib, "d-limonene")->name));
    ck_assert_ptr_nonnull(strstr(statement->text, "May produce an allergic reaction."));
    ck_assert_ptr_nonnull(strstr(content.contains, tables_component(&lib, "d-limonene")->name));
}
END_TEST

START_TEST(eu_codes_are_not_printed_under_us_rules) {
    struct label_content content = words_of("tetrahydrofuran", RULES_US_HCS, 1, NULL);
    ck_assert(classification_has(&classification, "EUH019"));
    ck_assert_ptr_null(hazard_of(&content, "EUH019"));
    ck_assert_str_eq(hazard_of(&content, "")->text, "May form explosive peroxides.");
    ck_assert_ptr_nonnull(strstr(content.closing, "29 CFR 1910.1200"));
}
END_TEST

// Annex I 1.5.2.1.1 (from memory): up to 125 mL, not for statements such as H304 or H361.
START_TEST(small_packs_may_leave_out_the_wording_of_some) {
    for (int bottle = 0; bottle < LABEL_BOTTLES; bottle++) {
        struct label_content content = words_of("toluene 60 + acetone 40", RULES_EU_CLP, bottle, NULL);
        bool small = label_bottles[bottle].volume_ml <= 125;
        ck_assert(hazard_of(&content, "H225")->code_may_do == small);
        ck_assert(hazard_of(&content, "H373")->code_may_do == small);
        ck_assert(!hazard_of(&content, "H304")->code_may_do && !hazard_of(&content, "H361d")->code_may_do);
    }
}
END_TEST

START_TEST(components_without_data_are_warned_of) {
    words_of("toluene 60 + acetone 40", RULES_EU_CLP, 1, NULL);
    struct component strange = *blend.components[1];
    strange.hazard = NULL;
    blend.components[1] = &strange;
    struct classification_input input = {.boiling_c = NAN, .viscosity_40c_mm2_s = NAN};
    ck_assert_int_eq(classify_blend(&blend, &input, &arena, &classification, NULL), STATUS_OK);
    struct label_request request = {
        .blend = &blend, .date = "2026-11-25", .initials = "AB", .bottle = &label_bottles[1]};
    struct label_content content;
    ck_assert_int_eq(label_content_make(&lib, &request, &classification, &arena, &content, NULL), STATUS_OK);
    ck_assert_ptr_nonnull(strstr(content.warning, "without hazard data: treat as hazardous."));
    ck_assert_str_eq(content.made, "Made 2026-11-25 by AB");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("label content");
    TCase *tests = tcase_create("words");
    tcase_add_unchecked_fixture(tests, begin, end);
    tcase_add_test(tests, words_come_from_the_tables);
    tcase_add_test(tests, without_a_name_the_proportions_are_the_name);
    tcase_add_test(tests, covered_statements_stay_off);
    tcase_add_test(tests, a_sensitiser_in_traces_is_named);
    tcase_add_test(tests, eu_codes_are_not_printed_under_us_rules);
    tcase_add_test(tests, small_packs_may_leave_out_the_wording_of_some);
    tcase_add_test(tests, components_without_data_are_warned_of);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
