// SPDX-License-Identifier: GPL-3.0-or-later
// Shorthand for describing records, for the files that do nothing else. ROW names the struct of the record being
// described; the key of a field is the name of its member.
#ifndef MILDSOLVE_DATA_SCHEMA_FIELDS_H
#define MILDSOLVE_DATA_SCHEMA_FIELDS_H

#include "data/schema.h"

#include <stdint.h>

#define COUNT(array) (sizeof(array) / sizeof((array)[0]))
#define AT(member) .offset = offsetof(ROW, member)
#define TEXT(name)                                                                                                     \
    { .key = #name, .kind = FIELD_TEXT, AT(name) }
#define NEEDED_TEXT(name)                                                                                              \
    { .key = #name, .kind = FIELD_TEXT, AT(name), .flags = FIELD_REQUIRED }
#define TEXTS(name)                                                                                                    \
    { .key = #name, .kind = FIELD_TEXT_LIST, AT(name) }
#define NEEDED_TEXTS(name)                                                                                             \
    { .key = #name, .kind = FIELD_TEXT_LIST, AT(name), .flags = FIELD_REQUIRED }
#define NEEDED_ID(name)                                                                                                \
    { .key = #name, .kind = FIELD_ID, AT(name), .flags = FIELD_REQUIRED }
#define NUMBER(name, unit_text, low, high)                                                                             \
    { .key = #name, .kind = FIELD_NUMBER, AT(name), .unit = unit_text, .min = low, .max = high }
#define NEEDED_NUMBER(name, unit_text, low, high)                                                                      \
    {                                                                                                                  \
        .key = #name, .kind = FIELD_NUMBER, AT(name), .unit = unit_text, .min = low, .max = high,                      \
        .flags = FIELD_REQUIRED                                                                                        \
    }
#define INTEGER(name, low, high)                                                                                       \
    { .key = #name, .kind = FIELD_INTEGER, AT(name), .min = low, .max = high }
#define QUANTITY(name, unit_text, low, high)                                                                           \
    { .key = #name, .kind = FIELD_QUANTITY, AT(name), .unit = unit_text, .min = low, .max = high }
#define UNIT(text)                                                                                                     \
    { .key = "unit", .kind = FIELD_UNIT, .unit = text, .flags = FIELD_REQUIRED }
#define WORD(name, list)                                                                                               \
    { .key = #name, .kind = FIELD_WORD, AT(name), .words = list }
#define NEEDED_WORD(name, list)                                                                                        \
    { .key = #name, .kind = FIELD_WORD, AT(name), .words = list, .flags = FIELD_REQUIRED }
#define DATE(name, how)                                                                                                \
    { .key = #name, .kind = FIELD_DATE, AT(name), .flags = how }
#define GROUP(name, description)                                                                                       \
    { .key = #name, .kind = FIELD_GROUP, AT(name), .record = &description }
#define RECORDS(name, description)                                                                                     \
    { .key = #name, .kind = FIELD_RECORDS, AT(name), .record = &description }
#define RECORD(variable, words, field_array, id)                                                                       \
    const struct record variable = {                                                                                   \
        .name = words, .size = sizeof(ROW), .fields = field_array, .field_count = COUNT(field_array), .id_offset = id}
#define NO_ID SIZE_MAX

#endif
