// SPDX-License-Identifier: GPL-3.0-or-later
// Days of the Gregorian calendar, as the treatment file writes them (ISO 8601: 2026-03-04).
#ifndef MILDSOLVE_BASE_DATE_H
#define MILDSOLVE_BASE_DATE_H

#include "base/error.h"

#include <stdbool.h>

// All zero: no date.
struct date {
    int year; // 1 to 9999
    int month;
    int day;
};

enum { DATE_BYTES = 16 };

static inline bool date_is_set(struct date date) {
    return date.year != 0;
}

// Reads "YYYY-MM-DD"; false when it isn't written so or the calendar has no such day.
bool date_parse(const char *text, struct date *ret);

// Also takes "YYYY-MM", which stands for the first day of the month.
bool date_parse_month(const char *text, struct date *ret);

// Below, at or above zero as `a` is before, at or after `b`.
int date_compare(struct date a, struct date b);

// The same day `months` later; the last day of the month where it is shorter (31 January + 1 = 28 or 29 February).
struct date date_add_months(struct date date, int months);

// "YYYY-MM-DD", or "" for no date. Returns the buffer.
const char *date_write(struct date date, char buffer[DATE_BYTES]);

// Today by the clock of the computer in its own time zone, or, when the environment holds SOURCE_DATE_EPOCH (seconds
// since 1970), the day of that instant in UTC. STATUS_INPUT when that variable is not a number of seconds,
// STATUS_SYSTEM when there is no clock.
enum status date_today(struct date *ret, struct error *err);

#endif
