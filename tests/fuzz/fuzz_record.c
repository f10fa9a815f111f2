// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a table of tests that `record --import` adds to a case, and its first row as what `record --amend` adds
// to a test. What is accepted is read again without a fault, and nothing else of the case is read differently.
#include "casefile/case_csv.h"
#include "casefile/case_edit.h"
#include "casefile/casefile.h"
#include "data/faults.h"
#include "tables.h"
#include "target.h"

static const char case_text[] = "mildsolve_case: 1\n"
                                "object: {title: \"study\", width_mm: 300, height_mm: 200, measured_from: lower left}\n"
                                "layers:\n"
                                "  - {id: varnish, kind: varnish, material: dammar-aged}\n"
                                "  - {id: paint, kind: paint, material: linseed-oil-film-aged}\n"
                                "passages:\n"
                                "  - {id: sky, place: {x_mm: 0, y_mm: 100, width_mm: 300, height_mm: 100}}\n"
                                "bottles:\n"
                                "  - {id: jar, content: ethanol 1 + isooctane 9}\n"
                                "tests:\n"
                                "  - id: T1\n"
                                "    date: 2026-05-01\n"
                                "    blend: isooctane\n"
                                "    result: none\n";
static const struct date today = {.year = 2026, .month = 6, .day = 1};

static const struct library *library(void) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, CASE_TABLES);
    return &lib;
}

static void read_case(struct arena *arena, const char *bytes, size_t length, struct casefile *ret) {
    struct error err = {0};
    struct fault_list faults = {0};
    enum status status = casefile_parse(arena, "case", bytes, length, library(), today, ret, &faults, &err);
    if (status != STATUS_OK || faults.count)
        fprintf(stderr, "%s\n%s\n%.*s\n", err.text, text_bytes(&faults.lines), (int)length, bytes);
    LAW(status == STATUS_OK && faults.count == 0);
    faults_release(&faults);
}

// The text a case would have on disk, if the command wrote it.
static void check_later(struct arena *arena, const struct casefile *file, const struct text *later, size_t values,
                        size_t tests) {
    struct casefile again;
    size_t added = 0;
    char *copy = arena_text_n(arena, text_bytes(later), later->length);
    LAW(copy && !later->failed && later->length > file->length);
    read_case(arena, copy, later->length, &again);
    LAW(again.tests.count == file->tests.count + tests);
    LAW(case_extends(file->root, again.root, &added) && added == values);
}

static bool row_is_right(struct arena *arena, const struct casefile *file, const struct test_row *row) {
    struct case_test test;
    struct fault_list faults = {0};
    struct error err = {0};
    enum status status = test_row_check(arena, file, today, "list", row, &test, &faults, &err);
    LAW(status == STATUS_OK || err.text[0]);
    bool right = status == STATUS_OK && faults.count == 0;
    faults_release(&faults);
    return right;
}

static void add_row(struct arena *arena, const struct casefile *file, struct test_row *row) {
    struct text later = {0};
    size_t values = 0;
    struct error err = {0};
    test_row_words(row);
    test_row_set(row, "id", "T2");
    if (!row_is_right(arena, file, row))
        return;
    if (case_append_tests(file, row, 1, &later, &values, &err) == STATUS_OK)
        check_later(arena, file, &later, values, 1);
    else
        LAW(err.text[0]);
    text_release(&later);
}

// A row with no more than notes, which no rule forbids beside what the test says.
static void amend(struct arena *arena, const struct casefile *file, const struct test_row *row) {
    static const char *const notes[] = {"note_wet", "note_dry", "note_next_day", "note_uv", "clearing", NULL};
    struct test_row more = {0};
    bool any = false;
    for (size_t i = 0; notes[i]; i++) {
        const char *text = test_row_text(row, notes[i]);
        if (text)
            test_row_set(&more, notes[i], text);
        any |= text != NULL;
    }
    struct text later = {0};
    size_t values = 0;
    struct error err = {0};
    if (any && case_extend_test(file, 0, &more, &later, &values, &err) == STATUS_OK)
        check_later(arena, file, &later, values, 0);
    text_release(&later);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    struct arena arena = {0};
    struct error err = {0};
    struct casefile file;
    struct test_row *rows = NULL;
    size_t count = 0;
    read_case(&arena, case_text, strlen(case_text), &file);
    enum status status = case_csv_read(&arena, "list", (const char *)bytes, length, &rows, &count, &err);
    LAW(status == STATUS_OK || err.text[0]);
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        add_row(&arena, &file, &rows[i]);
    if (status == STATUS_OK && count)
        amend(&arena, &file, &rows[0]);
    arena_release(&arena);
    return 0;
}
