// SPDX-License-Identifier: GPL-3.0-or-later
// Tables are described by tables: a record names its fields with kind, unit and valid range; one reader
// checks every file against them and fills plain structs.
#ifndef MILDSOLVE_DATA_SCHEMA_H
#define MILDSOLVE_DATA_SCHEMA_H

#include "base/arena.h"
#include "base/date.h"
#include "base/error.h"
#include "data/faults.h"
#include "data/yaml.h"

#include <stddef.h>

// How sure a value is. USER is set for every value read from the user's own tables.
enum sureness { SURE_UNSTATED, SURE_CHECKED, SURE_MEMORY, SURE_ESTIMATE };
extern const char *const sureness_words[]; // "unstated", "checked", "memory", "estimate"
const char *sureness_word(enum sureness sure);

enum { REFERENCE_MAX = 9999 };

// Where a value comes from.
struct provenance {
    enum sureness sure;
    const int *refs; // numbers of references.yaml, 1 to REFERENCE_MAX
    size_t ref_count;
    const char *note; // may be NULL
    bool user;        // from the user's own tables
};

// A measured or estimated number. value is NAN when absent; uncertainty (one standard deviation, same unit) is
// NAN when none is known for this very value.
struct quantity {
    double value;
    double uncertainty;
    const char *cup; // flash points only: closed, open, unstated
    struct provenance from;
};

struct text_list {
    const char *const *items;
    size_t count;
};

enum field_kind {
    FIELD_TEXT,        // const char *
    FIELD_ID,          // const char *, a-z 0-9 and '-'
    FIELD_WORD,        // int: index into words
    FIELD_NUMBER,      // double, with min, max
    FIELD_INTEGER,     // int, with min, max
    FIELD_YES_NO,      // bool: yes, no, true or false
    FIELD_DATE,        // struct date, ISO 8601; with FIELD_MONTH_WILL_DO also year and month alone
    FIELD_TEXT_LIST,   // struct text_list
    FIELD_NUMBER_LIST, // struct number_list
    FIELD_GROUP,       // a nested struct, described by `record`
    FIELD_RECORDS,     // struct record_list: a list of maps, described by `record`
    FIELD_TUPLES,      // struct number_list: a list of lists of `tuple` numbers, flattened
    FIELD_QUANTITY,    // struct quantity with unit, min, max
    FIELD_UNIT,        // no storage: the text must equal `unit`
    FIELD_REFS,        // struct provenance: refs, with the fields sure, refs, note (PROVENANCE_FIELDS)
    FIELD_SURE,
    FIELD_NOTE
};

struct number_list {
    const double *items;
    size_t count;
};

struct record_list {
    void *items; // array of record->size bytes each
    size_t count;
};

enum { FIELD_REQUIRED = 1, FIELD_MONTH_WILL_DO = 2 };

struct record;

struct field {
    const char *key;
    enum field_kind kind;
    size_t offset;
    unsigned flags;
    const char *unit; // quantities, units, and numbers (for the message)
    double min;
    double max;
    const char *const *words; // NULL-terminated, for FIELD_WORD
    const struct record *record;
    size_t tuple;
};

struct record {
    const char *name; // for messages: "component"
    size_t size;
    const struct field *fields;
    size_t field_count;
    size_t id_offset; // offset of the const char * that names a record in messages; SIZE_MAX = none
};

#define PROVENANCE_FIELDS(type, member)                                                                                \
    {.key = "sure", .kind = FIELD_SURE, .offset = offsetof(type, member)},                                             \
        {.key = "refs", .kind = FIELD_REFS, .offset = offsetof(type, member)}, {                                       \
        .key = "note", .kind = FIELD_NOTE, .offset = offsetof(type, member)                                            \
    }

// Reads a map into *record_out. Absent fields of a fresh record become NAN (numbers, quantities), NULL, 0 or empty;
// with `over` true the struct keeps what the file doesn't give (the user's table overriding ours).
// `user` marks every value read. Returns STATUS_OK also when faults were added (look at faults->count);
// only STATUS_MEMORY is returned as a failure.
struct schema_reader {
    struct arena *arena;
    const char *file;
    bool user;
    bool over;
    struct fault_list *faults;
};
enum status schema_read(const struct schema_reader *reader, const struct record *record, const struct yaml_node *node,
                        const char *path, void *record_out);

// Sets every field of a record to "absent".
void schema_blank(const struct record *record, void *record_out);

// A plain decimal number, whole text, finite; false otherwise. Never depends on the locale.
bool schema_number(const char *text, double *ret_value);

// Is it such a number but for a decimal comma? Then ret_typed is the text with a point, for a sentence that says so: a
// comma separates in lists, so that "12,5" is refused wherever a number is read.
enum { SCHEMA_NUMBER_BYTES = 65 };
bool schema_number_with_comma(const char *text, char ret_typed[SCHEMA_NUMBER_BYTES]);

#endif
