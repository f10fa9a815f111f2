// SPDX-License-Identifier: GPL-3.0-or-later
// The tests of a case as a table: one column a key of a test, under the same names, units and words.
#ifndef MILDSOLVE_CASEFILE_CASE_CSV_H
#define MILDSOLVE_CASEFILE_CASE_CSV_H

#include "casefile/case_edit.h"

// Reads rows of tests; an empty field is not stated. STATUS_INPUT names line and column of what is wrong with the table
// (not with the tests: see test_row_check).
enum status case_csv_read(struct arena *arena, const char *name, const char *bytes, size_t length,
                          struct test_row **ret_rows, size_t *ret_count, struct error *err);

// All tests of a case as they stand in the file, withdrawn ones included, with a heading.
void case_csv_write(const struct casefile *file, struct text *out);

#endif
