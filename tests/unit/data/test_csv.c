// SPDX-License-Identifier: GPL-3.0-or-later
// Tables as RFC 4180 writes them, and as spreadsheets do.
#include "base/memory.h"
#include "data/csv.h"
#include "suite.h"

#include <check.h>
#include <string.h>

static struct arena arena;

static void drop(void) {
    arena_release(&arena);
}

static struct csv_table table(const char *bytes) {
    struct csv_table table = {0};
    struct error err = {0};
    ck_assert_msg(csv_parse(&arena, "t.csv", bytes, strlen(bytes), &table, &err) == STATUS_OK, "%s", err.text);
    return table;
}

static void cell(const struct csv_table *table, size_t row, size_t column, const char *text) {
    ck_assert_uint_lt(row, table->count);
    ck_assert_uint_lt(column, table->rows[row].count);
    ck_assert_str_eq(table->rows[row].cells[column].text, text);
}

static void refuse(const char *bytes, const char *words) {
    struct csv_table table = {0};
    struct error err = {0};
    ck_assert_int_eq(csv_parse(&arena, "t.csv", bytes, strlen(bytes), &table, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
}

// The records of RFC 4180, section 2, points 1 to 7.
START_TEST(examples_of_the_standard) {
    struct csv_table t = table("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n");
    ck_assert_uint_eq(t.count, 2);
    cell(&t, 1, 2, "xxx");
    t = table("aaa,bbb,ccc\r\nzzz,yyy,xxx");
    cell(&t, 1, 2, "xxx");
    t = table("\"aaa\",\"b \r\nbb\",\"ccc\"\r\nzzz,yyy,xxx");
    cell(&t, 0, 1, "b \nbb");
    cell(&t, 1, 0, "zzz");
    t = table("\"aaa\",\"b\"\"bb\",\"ccc\"");
    cell(&t, 0, 1, "b\"bb");
    t = table("a,b\r\n x , \r\n"); // spaces are part of a field
    cell(&t, 1, 0, " x ");
    cell(&t, 1, 1, " ");
    t = table("a,b\n,\n");
    cell(&t, 1, 0, "");
    cell(&t, 1, 1, "");
}
END_TEST

START_TEST(what_spreadsheets_write) {
    struct csv_table t = table("\xEF\xBB\xBFid;note\r\nT1;a, b\r\n\r\nT2;\"x;y\"\r\n");
    ck_assert_uint_eq(t.count, 3);
    cell(&t, 0, 0, "id");
    cell(&t, 1, 1, "a, b");
    cell(&t, 2, 1, "x;y");
    t = table("id\tnote\nT1\tone;two\n");
    cell(&t, 1, 1, "one;two");
    t = table("id,note\nT1,one;two\n"); // a comma in the heading wins
    cell(&t, 1, 1, "one;two");
    t = table("id,note\rT1,old Mac\r");
    cell(&t, 1, 1, "old Mac");
}
END_TEST

START_TEST(cells_know_their_place) {
    struct csv_table t = table("a,b,c\n\"x\ny\",\xC3\xA9\xC3\xA9,z\n");
    ck_assert_int_eq(t.rows[1].cells[0].line, 2);
    ck_assert_int_eq(t.rows[1].cells[0].column, 1);
    ck_assert_int_eq(t.rows[1].cells[1].line, 3);
    ck_assert_int_eq(t.rows[1].cells[1].column, 4);
    ck_assert_int_eq(t.rows[1].cells[2].column, 7); // counted in characters
}
END_TEST

START_TEST(faults_have_a_place) {
    refuse("", "t.csv:1:1: the table is empty");
    refuse("\n\n", "is empty");
    refuse("a,b\n1\n", "t.csv:2:1: this row has 1 fields, the heading has 2");
    refuse("a,b\n1,2,3\n", "this row has 3 fields");
    refuse("a,b\n1,\"2\n3", "t.csv:2:3: a quotation mark opens here and is never closed");
    refuse("a,b\n1,\"2\"x\n", "t.csv:2:6: text behind a closing quotation mark");
    refuse("a,b\n1,5\" swab\n", "t.csv:2:4: a quotation mark inside a field");
    refuse("a,b\n1,\xFF\n", "t.csv:2:3: this byte is not valid UTF-8");
    refuse("a,b\n1,\x1b[31m\n", "t.csv:2:3: a control character");
}
END_TEST

START_TEST(what_is_written_is_read_back) {
    static const char *const fields[] = {"",           "plain",    "with, comma", "with \"marks\"",
                                         "two\nlines", " spaces ", "a;b",         "\xC3\xA4\xE2\x82\xAC",
                                         "\"",         ",",        "=1+1"};
    struct text out = {0};
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        text_add(&out, i ? "," : "");
        csv_write_field(&out, fields[i]);
    }
    text_add(&out, csv_line_end);
    struct csv_table t = table(text_bytes(&out));
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        cell(&t, 0, i, fields[i]);
    text_release(&out);
}
END_TEST

START_TEST(every_failing_allocation_is_reported) {
    const char *bytes = "a,b\n\"x\",y\n1,2\n";
    for (unsigned long n = 1; n < 50; n++) {
        struct arena own = {0};
        struct csv_table t;
        memory_fail_at(n);
        enum status status = csv_parse(&own, "t", bytes, strlen(bytes), &t, NULL);
        memory_fail_at(0);
        arena_release(&own);
        ck_assert(status == STATUS_MEMORY || status == STATUS_OK);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 1);
            return;
        }
    }
    ck_abort_msg("never succeeded");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("csv");
    TCase *tests = tcase_create("tables");
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_add_test(tests, examples_of_the_standard);
    tcase_add_test(tests, what_spreadsheets_write);
    tcase_add_test(tests, cells_know_their_place);
    tcase_add_test(tests, faults_have_a_place);
    tcase_add_test(tests, what_is_written_is_read_back);
    tcase_add_test(tests, every_failing_allocation_is_reported);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
