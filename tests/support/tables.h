// SPDX-License-Identifier: GPL-3.0-or-later
// The project's own tables for the tests; a fault in them ends the test program.
#ifndef MILDSOLVE_TESTS_TABLES_H
#define MILDSOLVE_TESTS_TABLES_H

#include "data/library.h"

// Directory of the source tree's tables (environment variable MILDSOLVE_TEST_DATA, or where the build found them).
const char *tables_directory(void);

// Opens them.
void tables_open(struct library *ret, unsigned tables);

// A component by id; ends the program when it is unknown.
const struct component *tables_component(const struct library *lib, const char *id);

// Path of a file in tests/reference; static storage, overwritten by the next call.
const char *reference_path(const char *file);

#endif
