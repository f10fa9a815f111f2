// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a case file. One without faults can be added to without disturbing a byte, and holds the test
// afterwards.
#include "casefile/case_csv.h"
#include "casefile/case_edit.h"
#include "casefile/casefile.h"
#include "data/faults.h"
#include "tables.h"
#include "target.h"

#include <string.h>

static void add_a_test(const struct casefile *file, size_t length) {
    struct test_row row = {0};
    test_row_set(&row, "blend", "acetone 1 + isooctane 9");
    test_row_set(&row, "result", "none");
    struct text later = {0};
    size_t values = 0;
    struct error err = {0};
    if (case_append_tests(file, &row, 1, &later, &values, &err) == STATUS_OK)
        LAW(later.length > length);
    else
        LAW(err.text[0]);
    text_release(&later);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, CASE_TABLES);
    struct arena arena = {0};
    struct error err = {0};
    struct fault_list faults = {0};
    struct casefile file = {0};
    struct date today = {.year = 2025, .month = 6, .day = 1};
    enum status status =
        casefile_parse(&arena, "input", (const char *)bytes, length, &lib, today, &file, &faults, &err);
    LAW(status == STATUS_OK || err.text[0]);
    if (status == STATUS_OK && faults.count == 0) {
        struct text csv = {0};
        casefile_remarks(&file, today, &faults);
        case_csv_write(&file, &csv);
        text_release(&csv);
        case_working_blend(&file);
        add_a_test(&file, length);
    }
    faults_release(&faults);
    arena_release(&arena);
    return 0;
}
