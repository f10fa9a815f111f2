// SPDX-License-Identifier: GPL-3.0-or-later
#include "casefile/case_csv.h"

#include "casefile/case_parts.h"
#include "data/csv.h"

#include <stdint.h>
#include <string.h>

static enum status unknown_column(const char *name, const struct csv_cell *cell, struct error *err) {
    const char *keys[TEST_CELLS_MAX];
    struct text known = {0};
    char near[NEAREST_BYTES];
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        keys[i] = case_test_record.fields[i].key;
        text_printf(&known, "%s%s", i ? ", " : "", keys[i]);
    }
    error_set(err, STATUS_INPUT, "%s:%d:%d: column '%.*s' is not known%s; one of these is expected: %s", name,
              cell->line, cell->column, (int)text_prefix(cell->text, 60), cell->text,
              case_nearest(cell->text, keys, case_test_record.field_count, near), text_bytes(&known));
    text_release(&known);
    return STATUS_INPUT;
}

static enum status read_heading(const char *name, const struct csv_row *heading, size_t ret_fields[],
                                struct error *err) {
    for (size_t i = 0; i < heading->count; i++) {
        ret_fields[i] = case_test_field(heading->cells[i].text);
        if (ret_fields[i] == SIZE_MAX)
            return unknown_column(name, &heading->cells[i], err);
        for (size_t j = 0; j < i; j++)
            if (ret_fields[j] == ret_fields[i])
                return error_set(err, STATUS_INPUT, "%s:%d:%d: column '%s' stands here for the second time", name,
                                 heading->cells[i].line, heading->cells[i].column, heading->cells[i].text);
    }
    return STATUS_OK;
}

// Spaces around a number or a word mean nothing; inside a note they are the user's.
static const char *cell_text(struct arena *arena, const struct field *field, const char *text) {
    if (field->kind == FIELD_TEXT)
        return text;
    text += strspn(text, " \t");
    size_t length = strlen(text);
    while (length > 0 && (text[length - 1] == ' ' || text[length - 1] == '\t'))
        length--;
    return arena_text_n(arena, text, length);
}

static enum status read_test(struct arena *arena, const struct csv_row *row, const size_t fields[],
                             struct test_row *ret) {
    *ret = (struct test_row){.line = row->cells[0].line};
    for (size_t i = 0; i < row->count; i++) {
        const char *text = cell_text(arena, &case_test_record.fields[fields[i]], row->cells[i].text);
        if (!text)
            return STATUS_MEMORY;
        if (text[0])
            ret->cells[fields[i]] =
                (struct test_cell){.text = text, .line = row->cells[i].line, .column = row->cells[i].column};
    }
    return STATUS_OK;
}

enum status case_csv_read(struct arena *arena, const char *name, const char *bytes, size_t length,
                          struct test_row **ret_rows, size_t *ret_count, struct error *err) {
    struct csv_table table;
    size_t fields[TEST_CELLS_MAX * 2];
    enum status status = csv_parse(arena, name, bytes, length, &table, err);
    if (status == STATUS_OK)
        status = read_heading(name, &table.rows[0], fields, err);
    if (status != STATUS_OK)
        return status;
    struct test_row *rows = arena_new(arena, table.count, sizeof *rows);
    status = rows ? STATUS_OK : STATUS_MEMORY;
    for (size_t i = 1; status == STATUS_OK && i < table.count; i++)
        status = read_test(arena, &table.rows[i], fields, &rows[i - 1]);
    if (status != STATUS_OK)
        return error_set(err, status, "%s: out of memory while reading", name);
    *ret_rows = rows;
    *ret_count = table.count - 1;
    return STATUS_OK;
}

void case_csv_write(const struct casefile *file, struct text *out) {
    for (size_t i = 0; i < case_test_record.field_count; i++)
        text_printf(out, "%s%s", i ? "," : "", case_test_record.fields[i].key);
    text_add(out, csv_line_end);
    for (size_t test = 0; test < file->tests.count; test++) {
        const struct yaml_node *node = case_entry_node(file, "tests", test);
        for (size_t i = 0; i < case_test_record.field_count; i++) {
            const struct yaml_node *value = yaml_find(node, case_test_record.fields[i].key);
            text_add(out, i ? "," : "");
            csv_write_field(out, value ? value->text : "");
        }
        text_add(out, csv_line_end);
    }
}
