// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/date.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static bool is_leap(int year) {
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_in_month(int year, int month) {
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return month == 2 && is_leap(year) ? 29 : days[month - 1];
}

// Exactly `count` digits at `text`, as a number; -1 otherwise.
static int digits(const char *text, int count) {
    int value = 0;
    for (int i = 0; i < count; i++) {
        if (text[i] < '0' || text[i] > '9')
            return -1;
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

static bool parse_year_month(const char *text, struct date *ret) {
    int year = digits(text, 4);
    int month = year > 0 && text[4] == '-' ? digits(text + 5, 2) : -1;
    if (month < 1 || month > 12)
        return false;
    *ret = (struct date){.year = year, .month = month, .day = 1};
    return true;
}

bool date_parse(const char *text, struct date *ret) {
    struct date date;
    if (strlen(text) != strlen("YYYY-MM-DD") || !parse_year_month(text, &date) || text[7] != '-')
        return false;
    date.day = digits(text + 8, 2);
    if (date.day < 1 || date.day > days_in_month(date.year, date.month))
        return false;
    *ret = date;
    return true;
}

bool date_parse_month(const char *text, struct date *ret) {
    return strlen(text) == strlen("YYYY-MM") ? parse_year_month(text, ret) : date_parse(text, ret);
}

int date_compare(struct date a, struct date b) {
    if (a.year != b.year)
        return a.year < b.year ? -1 : 1;
    if (a.month != b.month)
        return a.month < b.month ? -1 : 1;
    return a.day < b.day ? -1 : a.day > b.day;
}

struct date date_add_months(struct date date, int months) {
    int count = date.year * 12 + date.month - 1 + months;
    struct date later = {.year = count / 12, .month = count % 12 + 1, .day = date.day};
    int last = days_in_month(later.year, later.month);
    if (later.day > last)
        later.day = last;
    return later;
}

const char *date_write(struct date date, char buffer[DATE_BYTES]) {
    buffer[0] = '\0';
    if (date_is_set(date))
        snprintf(buffer, DATE_BYTES, "%04d-%02d-%02d", date.year % 10000, date.month % 100, date.day % 100);
    return buffer;
}

static struct date from_calendar(const struct tm *calendar) {
    return (struct date){.year = calendar->tm_year + 1900, .month = calendar->tm_mon + 1, .day = calendar->tm_mday};
}

// The variable by which builds are made repeatable (reproducible-builds.org, SOURCE_DATE_EPOCH specification).
static enum status from_epoch(const char *text, struct date *ret, struct error *err) {
    struct tm calendar;
    size_t length = strlen(text);
    long long seconds = length > 0 && length < 12 && strspn(text, "0123456789") == length ? atoll(text) : -1;
    time_t instant = (time_t)seconds;
    if (seconds < 0 || !gmtime_r(&instant, &calendar) || calendar.tm_year + 1900 > 9999)
        return error_set(err, STATUS_INPUT,
                         "the environment variable SOURCE_DATE_EPOCH is '%.40s'; seconds since 1970 are expected",
                         text);
    *ret = from_calendar(&calendar);
    return STATUS_OK;
}

enum status date_today(struct date *ret, struct error *err) {
    const char *fixed = getenv("SOURCE_DATE_EPOCH");
    if (fixed)
        return from_epoch(fixed, ret, err);
    time_t now = time(NULL);
    struct tm calendar;
    if (now == (time_t)-1 || !localtime_r(&now, &calendar))
        return error_set(err, STATUS_SYSTEM, "this computer cannot tell the date; give it with --date");
    *ret = from_calendar(&calendar);
    return STATUS_OK;
}
