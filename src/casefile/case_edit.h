// SPDX-License-Identifier: GPL-3.0-or-later
// Adding to the text of a case without disturbing a byte of what stands there: the new text is the old one with pieces
// put in between.
#ifndef MILDSOLVE_CASEFILE_CASE_EDIT_H
#define MILDSOLVE_CASEFILE_CASE_EDIT_H

#include "casefile/casefile.h"

// One test as texts, before it is a test: cells[i] belongs to field i of case_test_record; text NULL = not stated.
// line and column tell where the text was read (0 = typed as an option).
enum { TEST_CELLS_MAX = 32 };
struct test_cell {
    const char *text;
    int line;
    int column;
};
struct test_row {
    struct test_cell cells[TEST_CELLS_MAX];
    int line;
};

// Sets a cell by its key, which a test must have.
void test_row_set(struct test_row *row, const char *key, const char *text);
const char *test_row_text(const struct test_row *row, const char *key);

// Spells words as the file does, where only case or hyphens differ: "Partly-removed" becomes "partly removed".
void test_row_words(struct test_row *row);

// Checks a row by the same rules as the file: faults are added with `name` where a path would stand. *ret is complete
// only when none was added.
enum status test_row_check(struct arena *arena, const struct casefile *file, struct date as_of, const char *name,
                           const struct test_row *row, struct case_test *ret, struct fault_list *faults,
                           struct error *err);

// The text of the case with tests added at the end of its list of tests, which is begun when there is none. Indentation
// and line ends are those of the file; *ret_values counts what the tree gains. STATUS_INPUT when the place cannot be
// found.
enum status case_append_tests(const struct casefile *file, const struct test_row *rows, size_t count,
                              struct text *ret_bytes, size_t *ret_values, struct error *err);

// The text of the case with further keys for test number `test`. STATUS_INPUT when one of them stands there already.
enum status case_extend_test(const struct casefile *file, size_t test, const struct test_row *more,
                             struct text *ret_bytes, size_t *ret_values, struct error *err);

// Whether `later` holds all that `earlier` holds, in the same order, and nothing but further keys at the end of maps
// and entries at the end of lists; *ret_added counts the values added.
bool case_extends(const struct yaml_node *earlier, const struct yaml_node *later, size_t *ret_added);

#endif
