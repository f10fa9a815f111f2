// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/csv.h"

#include "base/language.h"

#include <string.h>

const char csv_line_end[] = "\r\n";

enum { COLUMNS_MAX = 64, ROWS_MAX = 20000 };

struct reader {
    struct arena *arena;
    const char *name;
    const char *at;
    const char *end;
    int line;
    int column;
    char separator;
    struct csv_cell cells[COLUMNS_MAX];
    size_t cell_count;
    struct csv_row *rows;
    size_t row_count;
    size_t row_capacity;
    struct error *err;
};

static enum status fault(const struct reader *reader, const char *sentence) {
    return error_set(reader->err, STATUS_INPUT, "%s:%d:%d: %s", reader->name, reader->line, reader->column,
                     say(sentence));
}

static enum status no_memory(const struct reader *reader) {
    return error_set(reader->err, STATUS_MEMORY, "%s: out of memory while reading", reader->name);
}

// One character further; CR LF counts as one.
static void step(struct reader *reader) {
    if (*reader->at == '\r' && reader->at + 1 < reader->end && reader->at[1] == '\n')
        reader->at++;
    if (*reader->at == '\n' || *reader->at == '\r') {
        reader->line++;
        reader->column = 1;
        reader->at++;
        return;
    }
    size_t length = utf8_sequence((const unsigned char *)reader->at, (size_t)(reader->end - reader->at), NULL);
    reader->at += length ? length : 1;
    reader->column++;
}

static bool at_line_end(const struct reader *reader) {
    return reader->at == reader->end || *reader->at == '\n' || *reader->at == '\r';
}

// --- bytes, as for every file a person hands in ---

static enum status check_bytes(struct reader *reader) {
    struct reader look = *reader;
    while (look.at < look.end) {
        unsigned code = 0;
        size_t length = utf8_sequence((const unsigned char *)look.at, (size_t)(look.end - look.at), &code);
        if (length == 0)
            return fault(&look, "this byte is not valid UTF-8; save the table as UTF-8 text");
        if ((code < 0x20 && code != '\t' && code != '\n' && code != '\r') || (code >= 0x7F && code < 0xA0))
            return fault(&look, "a control character; only printable text, tabs and line ends may stand in a table");
        step(&look);
    }
    return STATUS_OK;
}

static void find_separator(struct reader *reader) {
    bool quoted = false;
    char found = ',';
    for (const char *at = reader->at; at < reader->end && (quoted || (*at != '\n' && *at != '\r')); at++) {
        if (*at == '"')
            quoted = !quoted;
        if (!quoted && *at == ',')
            return;
        if (!quoted && (*at == ';' || *at == '\t') && found == ',')
            found = *at;
    }
    reader->separator = found;
}

// --- fields ---

static enum status read_quoted(struct reader *reader, struct text *field) {
    struct reader start = *reader;
    step(reader);
    for (;;) {
        if (reader->at == reader->end)
            return fault(&start, "a quotation mark opens here and is never closed");
        if (*reader->at == '"') {
            step(reader);
            if (reader->at == reader->end || *reader->at != '"')
                break;
        }
        const char *from = reader->at;
        step(reader);
        if (*from == '\r')
            text_add(field, "\n");
        else
            text_add_n(field, from, (size_t)(reader->at - from));
    }
    if (!at_line_end(reader) && *reader->at != reader->separator)
        return fault(reader, "text behind a closing quotation mark; inside a field the mark is doubled");
    return STATUS_OK;
}

static enum status read_plain(struct reader *reader, struct text *field) {
    const char *from = reader->at;
    while (!at_line_end(reader) && *reader->at != reader->separator) {
        if (*reader->at == '"')
            return fault(reader, "a quotation mark inside a field; put the whole field in marks and double this one");
        step(reader);
    }
    text_add_n(field, from, (size_t)(reader->at - from));
    return STATUS_OK;
}

static enum status read_cell(struct reader *reader) {
    if (reader->cell_count == COLUMNS_MAX)
        return fault(reader, "more than 64 fields in a row");
    struct csv_cell cell = {.line = reader->line, .column = reader->column};
    struct text field = {0};
    enum status status =
        reader->at < reader->end && *reader->at == '"' ? read_quoted(reader, &field) : read_plain(reader, &field);
    if (status == STATUS_OK)
        cell.text = arena_text_n(reader->arena, text_bytes(&field), field.length);
    if (status == STATUS_OK && (field.failed || !cell.text))
        status = no_memory(reader);
    text_release(&field);
    reader->cells[reader->cell_count++] = cell;
    return status;
}

// --- rows ---

static enum status keep_row(struct reader *reader) {
    if (reader->row_count && reader->cell_count != reader->rows[0].count)
        return error_set(reader->err, STATUS_INPUT, "%s:%d:%d: this row has %zu fields, the heading has %zu",
                         reader->name, reader->cells[0].line, reader->cells[0].column, reader->cell_count,
                         reader->rows[0].count);
    if (reader->row_count == ROWS_MAX)
        return fault(reader, "more than 20000 rows");
    if (reader->row_count == reader->row_capacity) {
        size_t capacity = reader->row_capacity ? 2 * reader->row_capacity : 64;
        struct csv_row *rows = arena_new(reader->arena, capacity, sizeof *rows);
        if (!rows)
            return no_memory(reader);
        if (reader->row_count)
            memcpy(rows, reader->rows, reader->row_count * sizeof *rows);
        reader->rows = rows;
        reader->row_capacity = capacity;
    }
    struct csv_cell *cells = arena_new(reader->arena, reader->cell_count, sizeof *cells);
    if (!cells)
        return no_memory(reader);
    memcpy(cells, reader->cells, reader->cell_count * sizeof *cells);
    reader->rows[reader->row_count++] = (struct csv_row){.cells = cells, .count = reader->cell_count};
    return STATUS_OK;
}

static enum status read_row(struct reader *reader) {
    reader->cell_count = 0;
    for (;;) {
        enum status status = read_cell(reader);
        if (status != STATUS_OK)
            return status;
        if (at_line_end(reader))
            break;
        step(reader); // the separator
    }
    if (reader->at < reader->end)
        step(reader);
    return keep_row(reader);
}

enum status csv_parse(struct arena *arena, const char *name, const char *bytes, size_t length, struct csv_table *ret,
                      struct error *err) {
    struct reader reader = {.arena = arena,
                            .name = name,
                            .at = bytes,
                            .end = bytes + length,
                            .line = 1,
                            .column = 1,
                            .separator = ',',
                            .err = err};
    if (length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0)
        reader.at += 3;
    enum status status = check_bytes(&reader);
    find_separator(&reader);
    while (status == STATUS_OK && reader.at < reader.end) {
        if (at_line_end(&reader))
            step(&reader); // an empty line
        else
            status = read_row(&reader);
    }
    if (status == STATUS_OK && reader.row_count == 0)
        status = error_set(err, STATUS_INPUT,
                           "%s:1:1: the table is empty; a heading with the names of the columns was expected", name);
    if (status == STATUS_OK)
        *ret = (struct csv_table){.rows = reader.rows, .count = reader.row_count};
    return status;
}

// A field that begins with a byte order mark would lose it as the first of a table.
static bool needs_marks(const char *field) {
    size_t length = strlen(field);
    return strpbrk(field, ",;\t\"\r\n") || field[0] == ' ' || (length && field[length - 1] == ' ') ||
           strncmp(field, "\xEF\xBB\xBF", 3) == 0;
}

void csv_write_field(struct text *out, const char *field) {
    if (!needs_marks(field)) {
        text_add(out, field);
        return;
    }
    text_add(out, "\"");
    for (const char *at = field; *at; at++)
        text_add_n(out, *at == '"' ? "\"\"" : at, *at == '"' ? 2 : 1);
    text_add(out, "\"");
}
