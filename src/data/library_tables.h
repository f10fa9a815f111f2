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

// True when a row of the list with this record has the key (ids; several key fields joined as in row_place).
bool index_has(const struct table_index *index, const struct record *record, const char *key);

// Reads the tables and cross-checks them; faults are collected. On a status other than OK *lib must still be released.
enum status library_read(struct library *lib, struct table_index *index, const struct data_directory *directories,
                         size_t count, unsigned tables, struct fault_list *faults, struct error *err);

enum status library_read_file(struct library *lib, struct table_index *index, const char *path, const char *file,
                              bool user, struct fault_list *faults, struct error *err);

// Ids that must exist, sums that must be 100, either a region or a reason: whatever one row alone cannot show. Only
// between tables that are loaded.
void library_cross_check(const struct library *lib, const struct table_index *index, struct fault_list *faults);

#endif
