// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as comma-separated values, and as a list of tests. A table that is read, written again, is read as the
// same.
#include "casefile/case_csv.h"
#include "casefile/case_edit.h"
#include "data/csv.h"
#include "target.h"

#include <string.h>

static void write_again(const struct csv_table *table, struct text *out) {
    for (size_t r = 0; r < table->count; r++) {
        for (size_t c = 0; c < table->rows[r].count; c++) {
            text_add(out, c ? "," : "");
            csv_write_field(out, table->rows[r].cells[c].text);
        }
        text_add(out, csv_line_end);
    }
}

static void check_same(const struct csv_table *a, const struct csv_table *b) {
    LAW(a->count == b->count);
    for (size_t r = 0; r < a->count; r++) {
        LAW(a->rows[r].count == b->rows[r].count);
        for (size_t c = 0; c < a->rows[r].count; c++)
            LAW(strcmp(a->rows[r].cells[c].text, b->rows[r].cells[c].text) == 0);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    struct arena arena = {0};
    struct error err = {0};
    struct csv_table table = {0};
    enum status status = csv_parse(&arena, "input", (const char *)bytes, length, &table, &err);
    if (status == STATUS_OK && table.count && table.rows[0].count > 1) {
        struct text out = {0};
        struct csv_table again = {0};
        write_again(&table, &out);
        status = csv_parse(&arena, "again", text_bytes(&out), out.length, &again, &err);
        LAW(status == STATUS_OK);
        check_same(&table, &again);
        text_release(&out);
    } else {
        LAW(status == STATUS_OK || err.text[0]);
    }
    struct test_row *rows = NULL;
    size_t count = 0;
    status = case_csv_read(&arena, "input", (const char *)bytes, length, &rows, &count, &err);
    LAW(status == STATUS_OK || err.text[0]);
    arena_release(&arena);
    return 0;
}
