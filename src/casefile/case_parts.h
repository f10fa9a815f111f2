// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the case reader: its steps. Only this folder includes it.
#ifndef MILDSOLVE_CASEFILE_CASE_PARTS_H
#define MILDSOLVE_CASEFILE_CASE_PARTS_H

#include "casefile/case_records.h"
#include "casefile/casefile.h"
#include "data/yaml.h"

// One reading: where faults go and what a case is checked against.
struct case_reading {
    struct arena *arena;
    const struct library *lib; // the tables alone
    struct casefile *file;
    struct date as_of;
    struct fault_list *faults;
    struct error *err;
};

// Node of entry `i` of the list under `list` at the top of the file, and of a key in it (the entry where the key is
// absent); for messages.
const struct yaml_node *case_entry_node(const struct casefile *file, const char *list, size_t i);
const struct yaml_node *case_key_node(const struct yaml_node *entry, const char *key);

// Id of entry `i` of a list of records of `size` bytes: layers, passages, bottles or tests, whose first member it is.
const char *case_entry_id(const struct record_list *records, size_t size, size_t i);

// "; nearest: 'x'" for a name that is none of `names`, "" when nothing is near. Returns the buffer.
enum { NEAREST_BYTES = 128 };
const char *case_nearest(const char *name, const char *const *names, size_t count, char buffer[NEAREST_BYTES]);

// Adds a fault when the text of a scalar is not UTF-8 or has a control character. `key` stands in front of the words;
// may be NULL.
void case_check_characters(struct fault_list *faults, const char *name, const struct yaml_node *node, const char *key);

// Turns the bottles of the case into rows of file->library, in front of the tables' own. Needs a file whose records
// were read without a fault; adds faults, returns only STATUS_OK or STATUS_MEMORY.
enum status case_read_bottles(struct case_reading *reading);

// What the records alone cannot show: names, ids, places, dates, blends. After case_read_bottles.
enum status case_check(struct case_reading *reading);

// The same for one test, read from `node`, which may be none of the file's own; `name` stands where a path would.
void case_check_test(const struct case_reading *reading, const char *name, const struct yaml_node *node,
                     struct case_test *test);

#endif
