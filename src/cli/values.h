// SPDX-License-Identifier: GPL-3.0-or-later
// Printing values of the tables with unit, doubt and source, and the list of the sources used.
#ifndef MILDSOLVE_CLI_VALUES_H
#define MILDSOLVE_CLI_VALUES_H

#include "cli/common.h"

enum { CITED_MAX = 128 };

// Reference numbers met while writing, to be listed at the end.
struct cited {
    int ids[CITED_MAX];
    size_t count;
};

// A sheet with the columns value, figure, unit, how sure, sources and note.
void values_begin(struct sheet *sheet);
void values_row(struct sheet *sheet, struct cited *cited, const char *name, double value, const char *unit,
                const struct provenance *from);
void values_notes(struct text *out, const char *name, const struct provenance *from);

void write_cited(const struct invocation *inv, struct cited *cited, struct text *out);
void json_cited(const struct invocation *inv, const struct cited *cited, struct json *json);
void cited_add(struct cited *cited, const struct provenance *from);

// "key": {value, unit, uncertainty, source}; null when the value is not known.
void json_quantity(struct json *json, const char *key, const struct quantity *quantity, const char *unit);
void json_synonyms(struct json *json, const struct synonyms *synonyms);

#endif
