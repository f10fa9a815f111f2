// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the library: the list of lists, the index of rows while reading, and the cross-checks. Only the
// library's own files include this.
#ifndef MILDSOLVE_DATA_LIBRARY_TABLES_H
#define MILDSOLVE_DATA_LIBRARY_TABLES_H

#include "data/library.h"
#include "data/records.h"
#include "data/yaml.h"

enum { KEY_FIELDS_MAX = 4, LISTS_MAX = 24 };

// One list of one file: where it stands, how its rows are described, which fields name a row.
struct table_list {
    enum table table;
    const char *file;
    const char *list_key;
    const struct record *record;
    size_t rows_offset;
    size_t count_offset;
    const char *key_fields[KEY_FIELDS_MAX];
};
extern const struct table_list library_lists[];
extern const size_t library_list_count;

// A table is named as its file without ".yaml": bytes of the name, and whether `table` is the one of `file`.
size_t table_name_length(const char *file);
bool table_is_in(const char *file, const char *table);

void *table_rows(const struct library *lib, const struct table_list *list);
size_t table_count(const struct library *lib, const struct table_list *list);

// Where a row was read (the last file that said something about it).
struct row_place {
    const char *file;
    const struct yaml_node *node;
    const char *key;
};

struct row_index {
    struct row_place *places; // one a row
    size_t count;
    size_t *slots; // open addressing, row + 1
    size_t slot_count;
};

struct table_index {
    struct row_index rows[LISTS_MAX]; // as library_lists
};

// Makes room for the keys of so many rows. False when memory ran out.
bool index_make_room(struct arena *arena, struct row_index *index, size_t rows);
// Where the key stands or would stand; the index must have room.
size_t *index_slot(const struct row_index *index, const char *key);
// The row's number from 1, or 0.
size_t index_find(const struct table_index *index, const struct record *record, const char *key);
// The key fields of a row as one text, "acetone|eu|twa-8h|" where there are several; NULL when memory ran out.
const char *index_key(struct arena *arena, const struct table_list *list, const struct yaml_node *node);

// True when a row of the list with this record has the key (ids; several key fields joined as in row_place).
bool index_has(const struct table_index *index, const struct record *record, const char *key);

// Components whose rows are wanted, by id.
struct wanted_rows {
    const char *const *components;
    size_t count;
};

// Starts a library without tables. The same directories serve all that is read later.
enum status library_begin(struct library *lib, const struct data_directory *directories, size_t count,
                          struct error *err);

// Reads the tables, none of which may be loaded, and cross-checks them; faults are collected. `wanted` NULL = all rows.
// On a status other than OK *lib must still be released.
enum status library_read(struct library *lib, unsigned tables, const struct wanted_rows *wanted,
                         struct fault_list *faults, struct error *err);

enum status library_read_file(struct library *lib, const char *path, const char *file, bool user,
                              const struct wanted_rows *wanted, struct fault_list *faults, struct error *err);

// Takes the rows that are not wanted out of the text of one of our files (row_filter.h), unless a directory of the
// user's has the same file. The interactions are those between the groups of the wanted components, whose assignments
// and groups must be loaded. False when memory ran out.
bool library_narrow(struct library *lib, const struct wanted_rows *wanted, const char *file, char *bytes,
                    size_t *length);

// True for a list that library_narrow may take rows out of.
bool library_narrows(const struct table_list *list);

// Ids that must exist, sums that must be 100, either a region or a reason: whatever one row alone cannot show. The rows
// of `tables` are looked at, against all that is loaded.
void library_cross_check(const struct library *lib, unsigned tables, struct fault_list *faults);

#endif
