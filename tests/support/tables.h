// SPDX-License-Identifier: GPL-3.0-or-later
// The project's own tables for the tests; a fault in them ends the test program.
#ifndef MILDSOLVE_TESTS_TABLES_H
#define MILDSOLVE_TESTS_TABLES_H

#include "folder.h"
#include "physics/activity.h"

// Directory of the source tree's tables (environment variable MILDSOLVE_TEST_DATA, or where the build found them).
const char *tables_directory(void);

// Ends the program with the words of the error, unless all is well.
void stop_unless(enum status status, const struct error *err);

// Their directory, and an empty folder of the user's on top.
void tables_with_folder(struct folder *ret_own, struct data_directory ret[2]);

// Opens them.
void tables_open(struct library *ret, unsigned tables);

// TABLE_UNIFAC too, and its index.
void tables_open_unifac(struct library *ret, unsigned tables, struct unifac_table *ret_unifac);
void tables_close_unifac(struct library *lib, struct unifac_table *unifac);

// A component or material by id, a blend by notation; each ends the program when it is unknown.
const struct component *tables_component(const struct library *lib, const char *id);
const struct material *tables_material(const struct library *lib, const char *id);
struct blend tables_blend(const struct library *lib, const char *notation);

// The activity model of neat components.
void tables_activity(const struct library *lib, const struct unifac_table *unifac, const char *const *ids, size_t count,
                     double temp_k, struct activity_model *ret);

// Path of a file in tests/reference; static storage, overwritten by the next call.
const char *reference_path(const char *file);

#endif
