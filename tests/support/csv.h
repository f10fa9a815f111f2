// SPDX-License-Identifier: GPL-3.0-or-later
// Reference tables of the tests: comma-separated, first row names the columns, quotes as in RFC 4180.
#ifndef MILDSOLVE_TESTS_CSV_H
#define MILDSOLVE_TESTS_CSV_H

#include <stddef.h>

enum { CSV_COLUMNS_MAX = 48 };

struct csv {
    char *bytes; // the file, cut into fields
    size_t columns;
    size_t rows; // without the header
    char **fields;
};

// Reads a whole file; ends the test program with a message when it cannot.
void csv_read(const char *path, struct csv *ret);
void csv_release(struct csv *csv);

// The field of a row (from 0) under a column's name; an unknown column ends the program.
const char *csv_text(const struct csv *csv, size_t row, const char *column);

// As a number; NAN when empty. Anything else that is not a number ends the program.
double csv_number(const struct csv *csv, size_t row, const char *column);

#endif
