// SPDX-License-Identifier: GPL-3.0-or-later
// Text for people: paragraphs and tables that fit 80 columns, figures without exponents, no terminal escapes.
#include "base/memory.h"
#include "present/page.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct text out;

static void begin(void) {
    out = (struct text){0};
}

static void end(void) {
    text_release(&out);
}

static void every_line_fits(void) {
    for (const char *line = text_bytes(&out); *line;) {
        size_t length = strcspn(line, "\n");
        char copy[512];
        ck_assert_uint_lt(length, sizeof copy);
        memcpy(copy, line, length);
        copy[length] = '\0';
        ck_assert_msg(text_columns(copy) <= PAGE_COLUMNS, "%zu columns: %s", text_columns(copy), copy);
        ck_assert_msg(length == 0 || copy[length - 1] != ' ', "ends in a space: %s", copy);
        line += length + (line[length] == '\n');
    }
}

START_TEST(paragraphs_wrap_at_spaces) {
    page_paragraph(&out, 2, 4,
                   "Try the mildest first on a small hidden spot of every passage, watch the swab for colour, and let "
                   "the surface dry between trials.");
    ck_assert_str_eq(text_bytes(&out),
                     "  Try the mildest first on a small hidden spot of every passage, watch the swab\n"
                     "    for colour, and let the surface dry between trials.\n");
    every_line_fits();
}
END_TEST

START_TEST(line_feeds_and_long_words) {
    page_paragraph(&out, 0, 2, "first\nsecond");
    ck_assert_str_eq(text_bytes(&out), "first\n  second\n");
    char word[300];
    memset(word, 'x', sizeof word - 1);
    word[sizeof word - 1] = '\0';
    page_paragraph(&out, 4, 4, word);
    page_paragraph(&out, 0, 0, "");
    every_line_fits();
}
END_TEST

START_TEST(control_characters_are_shown_not_obeyed) {
    page_paragraph(&out, 0, 0,
                   "red \x1b[31m bell \x07 del \x7f c1 \xC2\x9B"
                   "2J é");
    ck_assert_str_eq(text_bytes(&out), "red ?[31m bell ? del ? c1 ?2J é\n");
}
END_TEST

START_TEST(wide_and_combining_characters_count_as_seen) {
    page_heading(&out, "漆漆漆"); // the first heading has no empty line above
    page_heading(&out, "e\xCC\x81");
    ck_assert_str_eq(text_bytes(&out), "漆漆漆\n\ne\xCC\x81\n");
}
END_TEST

START_TEST(tables_align_and_wrap_in_their_last_column) {
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "id", false);
    sheet_column(&sheet, "mL", true);
    sheet_column(&sheet, "what it is", false);
    for (int i = 0; i < 40; i++) { // more rows than the first reservation
        sheet_cell(&sheet, "row-%d", i);
        sheet_cell(&sheet, "%.1f", i * 10.0);
        sheet_cell(&sheet, i == 1 ? "a long explanation that does not fit into what is left of a page of eighty columns"
                                  : "short");
    }
    sheet_write(&sheet, &out);
    every_line_fits();
    static const char start[] = "  id         mL  what it is\n"
                                "  row-0     0.0  short\n"
                                "  row-1    10.0  a long explanation that does not fit into what is left of a\n"
                                "                 page of eighty columns\n"
                                "  row-2    20.0  short\n";
    ck_assert_msg(strncmp(text_bytes(&out), start, strlen(start)) == 0, "%s", text_bytes(&out));
    ck_assert_ptr_nonnull(strstr(text_bytes(&out), "  row-39  390.0  short\n"));
}
END_TEST

START_TEST(a_table_short_of_memory_spoils_the_text) {
    struct sheet sheet = {0};
    sheet_column(&sheet, "a", false);
    memory_fail_at(1);
    sheet_cell(&sheet, "x");
    memory_fail_at(0);
    sheet_cell(&sheet, "y");
    sheet_write(&sheet, &out);
    ck_assert(out.failed);
    ck_assert_str_eq(text_bytes(&out), "");
}
END_TEST

START_TEST(figures_have_their_digits_and_no_exponent) {
    static const struct {
        double value;
        int digits;
        const char *figure;
    } cases[] = {
        {1.2345, 3, "1.23"}, {0.045149, 3, "0.0451"}, {1210, 3, "1210"},  {123456, 3, "123000"},   {0, 3, "0.00"},
        {-2.5, 2, "-2.5"},   {NAN, 3, "-"},           {INFINITY, 3, "-"}, {1e20, 3, "very large"}, {18, 2, "18"}};
    char buffer[FIGURE_BYTES];
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        ck_assert_str_eq(figure(cases[i].value, cases[i].digits, buffer), cases[i].figure);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("page");
    TCase *tests = tcase_create("text for people");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, paragraphs_wrap_at_spaces);
    tcase_add_test(tests, line_feeds_and_long_words);
    tcase_add_test(tests, control_characters_are_shown_not_obeyed);
    tcase_add_test(tests, wide_and_combining_characters_count_as_seen);
    tcase_add_test(tests, tables_align_and_wrap_in_their_last_column);
    tcase_add_test(tests, a_table_short_of_memory_spoils_the_text);
    tcase_add_test(tests, figures_have_their_digits_and_no_exponent);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
