// SPDX-License-Identifier: GPL-3.0-or-later
// JSON as programs read it (RFC 8259): nothing that a user writes breaks out of its quotes, no NaN, the same bytes
// always.
#include "present/json.h"
#include "suite.h"

#include <check.h>
#include <math.h>

static struct text out;
static struct json json;

static void begin(void) {
    out = (struct text){0};
    json_begin(&json, &out);
}

static void end(void) {
    text_release(&out);
}

static void expect(const char *bytes) {
    json_end(&json);
    ck_assert_str_eq(text_bytes(&out), bytes);
}

START_TEST(empty_things_stay_short) {
    json_list(&json, "list");
    json_close_list(&json);
    json_object(&json, "object");
    json_close_object(&json);
    expect("{\n  \"list\": [],\n  \"object\": {}\n}\n");
}
END_TEST

START_TEST(texts_stay_within_their_quotes) {
    json_text(&json, "a\"b", "quote \" backslash \\ line\nfeed tab\t escape \x1b[31m del \x7f acétone");
    json_text(&json, "none", NULL);
    expect("{\n  \"a\\\"b\": \"quote \\\" backslash \\\\ line\\nfeed tab\\u0009 escape \\u001b[31m del \\u007f "
           "acétone\",\n  \"none\": null\n}\n");
}
END_TEST

// Beyond what RFC 8259 asks for: a terminal may show it, so C1 is escaped too; what is no UTF-8 becomes U+FFFD.
START_TEST(texts_reach_no_terminal) {
    json_text(&json, "a", "c1 \xC2\x9B lone \x9B cut \xE6\xB8");
    expect("{\n  \"a\": \"c1 \\u009b lone \\ufffd cut \\ufffd\\ufffd\"\n}\n");
}
END_TEST

START_TEST(list_of_texts) {
    const char *const values[] = {"one", NULL};
    json_texts(&json, "none", values, 0);
    json_texts(&json, "two", values, 2);
    expect("{\n  \"none\": [],\n  \"two\": [\n    \"one\",\n    null\n  ]\n}\n");
}
END_TEST

START_TEST(numbers_are_finite_or_null) {
    json_list(&json, "n");
    json_number(&json, NULL, 0.1);
    json_number(&json, NULL, 1.0 / 3);
    json_number(&json, NULL, 1e300);
    json_number(&json, NULL, 12345678901.0);
    json_number(&json, NULL, NAN);
    json_number(&json, NULL, -INFINITY);
    json_integer(&json, NULL, -7);
    json_close_list(&json);
    json_flag(&json, "yes", true);
    json_flag(&json, "no", false);
    json_null(&json, "nothing");
    expect("{\n  \"n\": [\n    0.1,\n    0.3333333333,\n    1e+300,\n    1.23456789e+10,\n    null,\n    null,\n    "
           "-7\n  ],\n  \"yes\": true,\n  \"no\": false,\n  \"nothing\": null\n}\n");
}
END_TEST

START_TEST(nesting_is_indented) {
    json_object(&json, "a");
    json_list(&json, "b");
    json_object(&json, NULL);
    json_integer(&json, "c", 1);
    json_close_object(&json);
    json_close_list(&json);
    json_close_object(&json);
    expect("{\n  \"a\": {\n    \"b\": [\n      {\n        \"c\": 1\n      }\n    ]\n  }\n}\n");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("json");
    TCase *tests = tcase_create("writer");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, empty_things_stay_short);
    tcase_add_test(tests, texts_stay_within_their_quotes);
    tcase_add_test(tests, texts_reach_no_terminal);
    tcase_add_test(tests, list_of_texts);
    tcase_add_test(tests, numbers_are_finite_or_null);
    tcase_add_test(tests, nesting_is_indented);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
