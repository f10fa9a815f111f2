// SPDX-License-Identifier: GPL-3.0-or-later
// Days: what is one, which comes first, what "12 months later" means, and the clock held still.
#include "base/date.h"
#include "suite.h"

#include <check.h>
#include <stdlib.h>
#include <string.h>

static struct date day(const char *text) {
    struct date date = {0};
    ck_assert_msg(date_parse(text, &date), "%s", text);
    return date;
}

static void is_no_day(const char *text) {
    struct date date = {.year = 7};
    ck_assert_msg(!date_parse(text, &date), "%s", text);
    ck_assert_int_eq(date.year, 7);
}

START_TEST(days_of_the_calendar) {
    struct date date = day("2024-02-29"); // divisible by 4
    ck_assert_int_eq(date.year, 2024);
    ck_assert_int_eq(date.month, 2);
    ck_assert_int_eq(date.day, 29);
    day("2000-02-29"); // divisible by 400
    day("0001-01-01");
    day("9999-12-31");
    is_no_day("1900-02-29"); // divisible by 100 only
    is_no_day("2023-02-29");
    is_no_day("2024-04-31");
    is_no_day("2024-13-01");
    is_no_day("2024-00-10");
    is_no_day("2024-10-00");
    is_no_day("0000-01-01");
}
END_TEST

START_TEST(other_spellings_are_no_days) {
    is_no_day("");
    is_no_day("2024");
    is_no_day("2024-02");
    is_no_day("2024-2-9");
    is_no_day("24-02-09");
    is_no_day("2024/02/09");
    is_no_day("2024-02-09 ");
    is_no_day(" 2024-02-09");
    is_no_day("09.02.2024");
    is_no_day("2024-02-0x");
    is_no_day("+024-02-09");
    is_no_day("20240209");
}
END_TEST

START_TEST(a_month_is_its_first_day) {
    struct date date = {0};
    ck_assert(date_parse_month("2024-11", &date));
    ck_assert_int_eq(date_compare(date, day("2024-11-01")), 0);
    ck_assert(date_parse_month("2024-11-17", &date));
    ck_assert_int_eq(date_compare(date, day("2024-11-17")), 0);
    ck_assert(!date_parse_month("2024-13", &date));
    ck_assert(!date_parse_month("2024", &date));
}
END_TEST

START_TEST(order) {
    ck_assert_int_lt(date_compare(day("2024-01-31"), day("2024-02-01")), 0);
    ck_assert_int_gt(date_compare(day("2025-01-01"), day("2024-12-31")), 0);
    ck_assert_int_gt(date_compare(day("2024-12-31"), day("2024-12-30")), 0);
    ck_assert(!date_is_set((struct date){0}));
}
END_TEST

static void later(const char *from, int months, const char *to) {
    char text[DATE_BYTES];
    ck_assert_str_eq(date_write(date_add_months(day(from), months), text), to);
}

START_TEST(months_later) {
    later("2024-03-15", 12, "2025-03-15");
    later("2024-03-15", 18, "2025-09-15");
    later("2024-01-31", 1, "2024-02-29");
    later("2023-01-31", 1, "2023-02-28");
    later("2024-02-29", 12, "2025-02-28");
    later("2024-12-31", 1, "2025-01-31");
    later("2024-01-15", -1, "2023-12-15");
    later("2024-03-31", 0, "2024-03-31");
}
END_TEST

// 1,700,000,000 s after 1970-01-01 is 2023-11-14 22:13:20 UTC (GNU date -u -d @1700000000).
START_TEST(the_clock_can_be_held) {
    struct date today = {0};
    struct error err;
    setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
    ck_assert_int_eq(date_today(&today, &err), STATUS_OK);
    ck_assert_int_eq(date_compare(today, day("2023-11-14")), 0);
    static const char *const wrong[] = {"", "soon", "-5", "17 ", "999999999999"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        setenv("SOURCE_DATE_EPOCH", wrong[i], 1);
        ck_assert_int_eq(date_today(&today, &err), STATUS_INPUT);
        ck_assert_ptr_nonnull(strstr(err.text, "SOURCE_DATE_EPOCH"));
    }
    unsetenv("SOURCE_DATE_EPOCH");
    ck_assert_int_eq(date_today(&today, &err), STATUS_OK);
    ck_assert_int_gt(date_compare(today, day("2023-11-14")), 0);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("date");
    TCase *tests = tcase_create("days");
    tcase_add_test(tests, days_of_the_calendar);
    tcase_add_test(tests, other_spellings_are_no_days);
    tcase_add_test(tests, a_month_is_its_first_day);
    tcase_add_test(tests, order);
    tcase_add_test(tests, months_later);
    tcase_add_test(tests, the_clock_can_be_held);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
