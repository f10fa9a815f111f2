// SPDX-License-Identifier: GPL-3.0-or-later
// Growing text, UTF-8, names, errors and arenas.
#include "base/arena.h"
#include "base/error.h"
#include "base/memory.h"
#include "base/text.h"
#include "suite.h"

#include <check.h>
#include <stdint.h>
#include <string.h>

START_TEST(text_grows_and_keeps_what_was_added) {
    struct text text = {0};
    for (int i = 0; i < 1000; i++)
        text_printf(&text, "%d,", i);
    ck_assert(!text.failed);
    ck_assert_uint_eq(text.length, 10 * 2 + 90 * 3 + 900 * 4);
    ck_assert_str_eq(text.bytes + text.length - 4, "999,");
    text_release(&text);
    ck_assert_str_eq(text_bytes(&text), "");
}
END_TEST

START_TEST(text_remembers_a_failed_allocation) {
    struct text text = {0};
    text_add(&text, "kept");
    memory_fail_at(1);
    text_add_repeated(&text, "0123456789", 100);
    ck_assert(text.failed);
    text_add(&text, "no more");
    ck_assert(strstr(text_bytes(&text), "no more") == NULL);
    text_release(&text);
}
END_TEST

// Sequences of The Unicode Standard 15, table 3-7 (well-formed UTF-8 byte sequences).
START_TEST(utf8_takes_what_is_well_formed_only) {
    static const struct {
        const char *bytes;
        size_t length;
    } cases[] = {{"A", 1},
                 {"\xC3\xA9", 2},
                 {"\xE2\x82\xAC", 3},
                 {"\xF0\x9F\x8E\xA8", 4},
                 {"\x80", 0},
                 {"\xC0\x80", 0},
                 {"\xC1\xBF", 0},
                 {"\xE0\x80\x80", 0},
                 {"\xED\xA0\x80", 0},
                 {"\xF4\x90\x80\x80", 0},
                 {"\xF5\x80\x80\x80", 0},
                 {"\xC3", 0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        ck_assert_uint_eq(utf8_sequence((const unsigned char *)cases[i].bytes, strlen(cases[i].bytes), NULL),
                          cases[i].length);
}
END_TEST

START_TEST(columns_follow_the_character_not_the_byte) {
    ck_assert_uint_eq(text_columns("acétone"), 7);
    ck_assert_uint_eq(text_columns("e\xCC\x81"), 1);
    ck_assert_uint_eq(text_columns("漆"), 2);
    ck_assert_uint_eq(text_prefix("漆漆漆", 5), 6);
    ck_assert_uint_eq(text_prefix("abc", 2), 2);
}
END_TEST

// C0, DEL and C1 of ISO 6429 (from memory: ECMA-48, 5th edition, section 5); a lone 0x9B is CSI on a terminal of 8
// bits.
START_TEST(what_a_terminal_would_obey_becomes_a_question_mark) {
    char words[] = "a\x1b[31mb\x07\x7f\xC2\x9B"
                   "2J\x9B"
                   "2J\t\r\n\xC3\xA9 \xE6\xB8\xA1 \xF0\x9F\x8E\xA8\xE6\xB8";
    words[text_neutralise(words, strlen(words))] = '\0';
    ck_assert_str_eq(words, "a?[31mb???2J?2J??\n\xC3\xA9 \xE6\xB8\xA1 \xF0\x9F\x8E\xA8??");
    ck_assert_uint_eq(text_neutralise(words, 0), 0);
    ck_assert_uint_eq(utf8_control("", 0), 0);
    ck_assert_uint_eq(utf8_control("\xC2\x9F", 2), 2);
    ck_assert_uint_eq(utf8_control("\xC2\xA0", 2), 0);
    ck_assert_uint_eq(utf8_control("\0", 1), 1);
}
END_TEST

START_TEST(names_compare_without_case_and_accents_stay) {
    ck_assert_int_eq(name_compare("Éther", "éTHER"), 0);
    ck_assert_int_ne(name_compare("ether", "éther"), 0);
    ck_assert_int_eq(name_compare("white spirit", "White-Spirit"), 0);
    ck_assert_int_ne(name_compare("whitespirit", "white-spirit"), 0);
    ck_assert_int_lt(name_compare("acetone", "butanone"), 0);
    ck_assert_int_gt(name_compare("acetone", "aceton"), 0);
}
END_TEST

START_TEST(distance_counts_edits) {
    ck_assert_uint_eq(name_distance("toluene", "toluene", 5), 0);
    ck_assert_uint_eq(name_distance("toluene", "Tolune", 5), 1);
    ck_assert_uint_eq(name_distance("kitten", "sitting", 5), 3); // Levenshtein's usual textbook pair
    ck_assert_uint_eq(name_distance("abc", "xyz", 2), 3);
    ck_assert_uint_eq(name_distance("abcdefgh", "abc", 4), 5); // as many as the lengths differ by
    ck_assert_uint_eq(name_distance("abc", "abcdefgh", 5), 5);
    ck_assert_uint_eq(name_slips("abc"), 1);
    ck_assert_uint_eq(name_slips("acetone"), 2);
    ck_assert_uint_eq(name_slips("hydrogenated-hydrocarbon-resin"), 10);
    char endless[1000];
    memset(endless, 'a', sizeof endless - 1);
    endless[sizeof endless - 1] = '\0';
    ck_assert_uint_eq(name_slips(endless), 0);
}
END_TEST

START_TEST(nearest_name_is_a_slip_and_the_first_of_equals) {
    struct near_name near = near_name_begin("reciqe");
    near_name_try(&near, "chart");
    ck_assert_ptr_null(near.best);
    near_name_try(&near, "recite");
    near_name_try(&near, "recipe");
    ck_assert_str_eq(near.best, "recite");
    near_name_try(&near, "Reciqe");
    ck_assert_str_eq(near.best, "Reciqe");
}
END_TEST

START_TEST(joined_words_stand_between_separators) {
    const char *const words[] = {"a", "b", "c"};
    struct text text = {0};
    text_add_joined(&text, ", ", words, 0);
    ck_assert_str_eq(text_bytes(&text), "");
    text_add_joined(&text, ", ", words, 1);
    text_add(&text, ": ");
    text_add_joined(&text, "; ", words + 1, 2);
    ck_assert_str_eq(text_bytes(&text), "a: b; c");
    text_release(&text);
}
END_TEST

START_TEST(error_is_cut_on_a_character) {
    struct error err;
    char long_name[2 * ERROR_TEXT_SIZE];
    for (size_t i = 0; i + 2 < sizeof long_name; i += 2)
        memcpy(long_name + i, "\xC3\xA9", 2);
    long_name[sizeof long_name - 2] = '\0';
    ck_assert_int_eq(error_set(&err, STATUS_INPUT, "x%s", long_name), STATUS_INPUT);
    size_t at = 0;
    while (err.text[at]) {
        size_t step = utf8_sequence((const unsigned char *)err.text + at, strlen(err.text + at), NULL);
        ck_assert_uint_gt(step, 0);
        at += step;
    }
    ck_assert_int_eq(error_wrap(&err, STATUS_SYSTEM, "context"), STATUS_INPUT);
    ck_assert(strncmp(err.text, "context: x", 10) == 0);
}
END_TEST

START_TEST(every_status_has_a_name_and_an_exit_status) {
    for (int status = STATUS_OK; status <= STATUS_INTERRUPTED; status++) {
        ck_assert_str_ne(status_name((enum status)status), "unknown status");
        int exit_status = status_exit((enum status)status);
        ck_assert(exit_status == 130 || (exit_status >= 0 && exit_status <= 3));
    }
    ck_assert_int_eq(status_exit(STATUS_NEGATIVE), 1);
    ck_assert_int_eq(status_exit(STATUS_UNKNOWN_NAME), 2);
    ck_assert_int_eq(status_exit(STATUS_SYSTEM), 3);
}
END_TEST

START_TEST(arena_keeps_its_limit_and_zeroes) {
    struct arena arena = {.limit = 100000};
    char *block = arena_new(&arena, 1000, 10);
    ck_assert_ptr_nonnull(block);
    for (size_t i = 0; i < 10000; i++)
        ck_assert_int_eq(block[i], 0);
    ck_assert_ptr_null(arena_new(&arena, 100001, 1));
    ck_assert_ptr_null(arena_new(&arena, SIZE_MAX / 4, 8));
    ck_assert_str_eq(arena_printf(&arena, "%d-%s", 7, "x"), "7-x");
    ck_assert_str_eq(arena_text_n(&arena, "abcdef", 3), "abc");
    arena_release(&arena);
    ck_assert_uint_eq(arena.used, 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("base");
    TCase *tests = tcase_create("text, errors, arenas");
    tcase_add_test(tests, text_grows_and_keeps_what_was_added);
    tcase_add_test(tests, text_remembers_a_failed_allocation);
    tcase_add_test(tests, utf8_takes_what_is_well_formed_only);
    tcase_add_test(tests, columns_follow_the_character_not_the_byte);
    tcase_add_test(tests, what_a_terminal_would_obey_becomes_a_question_mark);
    tcase_add_test(tests, names_compare_without_case_and_accents_stay);
    tcase_add_test(tests, distance_counts_edits);
    tcase_add_test(tests, nearest_name_is_a_slip_and_the_first_of_equals);
    tcase_add_test(tests, joined_words_stand_between_separators);
    tcase_add_test(tests, error_is_cut_on_a_character);
    tcase_add_test(tests, every_status_has_a_name_and_an_exit_status);
    tcase_add_test(tests, arena_keeps_its_limit_and_zeroes);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
