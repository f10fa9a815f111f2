// SPDX-License-Identifier: GPL-3.0-or-later
// Leaves of a table only the rows that are wanted, by their text alone, so that the parser need not read the others.
// For tables in the layout that ours are written in and no other: keys of the top at the start of a line, every row
// from "  - " on, its further lines indented by four or more, whatever a line opens closed on the same line, no
// comments.
#ifndef MILDSOLVE_DATA_ROW_FILTER_H
#define MILDSOLVE_DATA_ROW_FILTER_H

#include <stdbool.h>
#include <stddef.h>

enum { ROW_FILTER_FIELDS = 2 };

struct row_filter {
    const char *list_key;                  // the list of the file whose rows are looked at
    const char *fields[ROW_FILTER_FIELDS]; // keys at the head of a row; NULL when there is only one
    bool numbers;                          // their values are whole numbers, not ids
    const char *const *words;              // a row is wanted when the value of each of its fields is one of these
    size_t word_count;
};

// Takes the rows that are not wanted out of `bytes`, in place; their lines stay as empty ones, so that every other row
// keeps its line number. A row whose head cannot be told by its text stays, and so does all of a file in another
// layout. Returns the number of rows taken out.
size_t row_filter_apply(const struct row_filter *filter, char *bytes, size_t *length);

#endif
