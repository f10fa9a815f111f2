// SPDX-License-Identifier: GPL-3.0-or-later
// Every number of an answer is found with the keys that lead to it, whatever stands in its texts.
#include "present/json.h"
#include "present/json_numbers.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct text found;

static void note(const char *path, void *context) {
    text_printf(context, "%s;", path);
}

static void begin(void) {
    found = (struct text){0};
}

static void end(void) {
    text_release(&found);
}

static void expect(const char *answer, const char *paths) {
    json_each_number(answer, note, &found);
    ck_assert_str_eq(text_bytes(&found), paths);
}

START_TEST(numbers_of_a_written_answer) {
    struct text out = {0};
    struct json json;
    json_begin(&json, &out);
    json_number(&json, "index", -0.25);
    json_number(&json, "unknown", NAN);
    json_flag(&json, "yes", true);
    json_object(&json, "teas");
    json_number(&json, "fd", 1e-30);
    json_close_object(&json);
    json_list(&json, "materials");
    for (int i = 0; i < 2; i++) {
        json_object(&json, NULL);
        json_text(&json, "id", "dammar");
        json_number(&json, "red", 0.5);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_integer(&json, "last", 7);
    json_end(&json);
    expect(text_bytes(&out), "index;teas.fd;materials[].red;materials[].red;last;");
    text_release(&out);
}
END_TEST

START_TEST(texts_are_no_numbers) {
    struct text out = {0};
    struct json json;
    json_begin(&json, &out);
    json_text(&json, "a", "1, \"2\": [3, {\"b\": 4}]");
    json_text(&json, "c", "5 \\");
    json_number(&json, "d", 6);
    json_end(&json);
    expect(text_bytes(&out), "d;");
    text_release(&out);
}
END_TEST

START_TEST(lists_in_lists) {
    expect("{\"a\": [[1, 2], []], \"b\": 3}", "a[][];a[][];b;");
}
END_TEST

START_TEST(long_paths_are_cut_and_found_back) {
    char key[2 * JSON_PATH_BYTES], answer[6 * JSON_PATH_BYTES];
    memset(key, 'k', sizeof key - 1);
    key[sizeof key - 1] = '\0';
    snprintf(answer, sizeof answer, "{\"%s\": {\"x\": 1}, \"y\": 2}", key);
    json_each_number(answer, note, &found);
    ck_assert_uint_eq(strcspn(text_bytes(&found), ";"), JSON_PATH_BYTES - 1);
    ck_assert_str_eq(strchr(text_bytes(&found), ';'), ";y;");
}
END_TEST

START_TEST(an_answer_can_be_gone_on_with) {
    struct text out = {0};
    struct json json;
    json_begin(&json, &out);
    json_number(&json, "a", 1);
    json_end(&json);
    json_reopen(&json, &out);
    json_number(&json, "b", 2);
    json_end(&json);
    ck_assert_str_eq(text_bytes(&out), "{\n  \"a\": 1,\n  \"b\": 2\n}\n");
    text_release(&out);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("json_numbers");
    TCase *tests = tcase_create("reader");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, numbers_of_a_written_answer);
    tcase_add_test(tests, texts_are_no_numbers);
    tcase_add_test(tests, lists_in_lists);
    tcase_add_test(tests, long_paths_are_cut_and_found_back);
    tcase_add_test(tests, an_answer_can_be_gone_on_with);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
