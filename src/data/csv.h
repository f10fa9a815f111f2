// SPDX-License-Identifier: GPL-3.0-or-later
// Comma-separated values (RFC 4180) in and out. Every field knows where it stood.
#ifndef MILDSOLVE_DATA_CSV_H
#define MILDSOLVE_DATA_CSV_H

#include "base/arena.h"
#include "base/error.h"
#include "base/text.h"

#include <stddef.h>

struct csv_cell {
    const char *text;
    int line;   // from 1
    int column; // from 1, in characters
};

struct csv_row {
    const struct csv_cell *cells;
    size_t count;
};

// The first row is the heading; all rows have as many cells as it has.
struct csv_table {
    const struct csv_row *rows;
    size_t count;
};

// Reads a table from memory. Commas separate, or semicolons or tabs where the heading has one of these and no comma.
// Fields may stand in quotation marks and then hold anything, a mark being doubled; CR LF inside becomes LF. A byte
// order mark in front and empty lines are passed over. STATUS_INPUT with "name:line:column: ...", STATUS_MEMORY.
enum status csv_parse(struct arena *arena, const char *name, const char *bytes, size_t length, struct csv_table *ret,
                      struct error *err);

// Writes a field, in quotation marks where it needs them.
void csv_write_field(struct text *out, const char *field);

// Line end of the format.
extern const char csv_line_end[]; // CR LF

#endif
