// SPDX-License-Identifier: GPL-3.0-or-later
// Lines of text by measured width.
#include "base/memory.h"
#include "present/chart/wrap.h"
#include "suite.h"

#include <check.h>
#include <string.h>

static struct arena arena;
static struct text_metric metric;

static void begin(void) {
    metric = metric_fixed(); // 5 pt a column at 10 pt
}

static void end(void) {
    arena_release(&arena);
}

static struct text_lines wrapped(const char *text, double width, size_t most) {
    struct text_lines lines = {0};
    ck_assert(text_wrap(&arena, &metric, text, 10, false, width, most, &lines));
    for (size_t i = 0; i < lines.count; i++)
        ck_assert_double_eq_tol(lines.widths[i], metric_width(&metric, lines.items[i], 10, false), 1e-9);
    return lines;
}

START_TEST(lines_break_at_spaces) {
    struct text_lines lines = wrapped("one two three", 40, 5);
    ck_assert_uint_eq(lines.count, 2);
    ck_assert_str_eq(lines.items[0], "one two");
    ck_assert_str_eq(lines.items[1], "three");
    ck_assert(!lines.shortened);
}
END_TEST

START_TEST(numbers_stay_with_the_word_before) {
    struct text_lines lines = wrapped("ethanol 30 + acetone 70 %", 80, 5);
    ck_assert_uint_eq(lines.count, 2);
    ck_assert_str_eq(lines.items[0], "ethanol 30 +");
    ck_assert_str_eq(lines.items[1], "acetone 70 %");
    lines = wrapped("ethanol 30", 40, 5); // no other place to break
    ck_assert_str_eq(lines.items[0], "ethanol");
    ck_assert_str_eq(lines.items[1], "30");
}
END_TEST

START_TEST(too_long_a_text_ends_in_an_ellipsis) {
    struct text_lines lines = wrapped("one two three four", 40, 1);
    ck_assert_uint_eq(lines.count, 1);
    ck_assert(lines.shortened);
    ck_assert_str_eq(lines.items[0], "one two\u2026");
    ck_assert_double_le(lines.widths[0], 40);
}
END_TEST

START_TEST(long_words_break_between_letters_but_not_before_marks) {
    struct text_lines lines = wrapped("ae\u0301ae\u0301ae\u0301", 15, 9); // three columns a line
    ck_assert_uint_eq(lines.count, 2);
    ck_assert_str_eq(lines.items[0], "ae\u0301a");
    ck_assert_str_eq(lines.items[1], "e\u0301ae\u0301");
}
END_TEST

START_TEST(a_line_takes_something_however_narrow) {
    struct text_lines lines = wrapped("abc", 1, 9);
    ck_assert_uint_eq(lines.count, 3);
    ck_assert_str_eq(lines.items[2], "c");
}
END_TEST

START_TEST(an_empty_text_is_one_empty_line) {
    struct text_lines lines = wrapped("", 10, 3);
    ck_assert_uint_eq(lines.count, 1);
    ck_assert_str_eq(lines.items[0], "");
}
END_TEST

START_TEST(unprintable_characters_become_spaces) {
    ck_assert_str_eq(text_printable(&arena, " a\n\t b\x1B[31m "), "a b [31m");
    ck_assert_str_eq(text_printable(&arena, "a\u202Eb\u2069c"), "a b c"); // direction override and isolate
    ck_assert_str_eq(text_printable(&arena, "\xC3("), "\uFFFD(");
    ck_assert_str_eq(text_printable(&arena, NULL), "");
    ck_assert_str_eq(text_printable(&arena, "e\u0301"), "e\u0301");
}
END_TEST

START_TEST(failed_allocations_are_reported) {
    unsigned long n = 1;
    for (; n < 20; n++) {
        struct arena small = {0};
        struct text_lines lines;
        memory_fail_at(n);
        bool done = text_wrap(&small, &metric, "one two three", 10, false, 40, 5, &lines);
        memory_fail_at(0);
        arena_release(&small);
        if (done)
            break;
    }
    ck_assert_uint_gt(n, 1);
    ck_assert_uint_lt(n, 20);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("wrap");
    TCase *tests = tcase_create("lines");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, lines_break_at_spaces);
    tcase_add_test(tests, numbers_stay_with_the_word_before);
    tcase_add_test(tests, too_long_a_text_ends_in_an_ellipsis);
    tcase_add_test(tests, long_words_break_between_letters_but_not_before_marks);
    tcase_add_test(tests, a_line_takes_something_however_narrow);
    tcase_add_test(tests, an_empty_text_is_one_empty_line);
    tcase_add_test(tests, unprintable_characters_become_spaces);
    tcase_add_test(tests, failed_allocations_are_reported);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
