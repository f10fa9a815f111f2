// SPDX-License-Identifier: GPL-3.0-or-later
// A case on disk is the old one or the new one, whole; a text that would not be read as meant is never written.
#include "base/memory.h"
#include "casefile/case_edit.h"
#include "casefile/case_store.h"
#include "folder.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

static struct library lib;
static struct arena arena;
static struct folder folder;
static struct error err;
static const struct date as_of = {.year = 2025, .month = 3, .day = 1};

static const char before[] = "mildsolve_case: 1\nobject: {title: t}\ntests:\n"
                             "- {id: T1, date: 2025-02-02, blend: isooctane, result: none}\n";

static void enter(void) {
    tables_open(&lib, CASE_TABLES);
    folder_make(&folder);
    folder_write(&folder, "c.yaml", before);
    error_clear(&err);
}

static void leave(void) {
    folder_remove(&folder);
    arena_release(&arena);
    library_release(&lib);
}

static void assert_holds(const char *text) {
    char bytes[4096] = {0};
    FILE *file = fopen(folder_file(&folder, "c.yaml"), "r");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_lt(fread(bytes, 1, sizeof bytes - 1, file), sizeof bytes - 1);
    fclose(file);
    ck_assert_str_eq(bytes, text);
}

// Puts a piece in front of the last line and claims that it adds so many values.
struct piece {
    const char *text;
    size_t values;
    const char *instead; // of the whole file
};

static enum status put_piece(const struct casefile *file, struct text *ret_bytes, size_t *ret_values, void *context,
                             struct error *error) {
    const struct piece *piece = context;
    (void)error;
    if (piece->instead) {
        text_add(ret_bytes, piece->instead);
    } else {
        text_add_n(ret_bytes, file->bytes, file->length);
        text_add(ret_bytes, piece->text);
    }
    *ret_values = piece->values;
    return STATUS_OK;
}

static enum status change(struct piece piece) {
    struct casefile after;
    return case_change(&arena, folder_file(&folder, "c.yaml"), &lib, as_of, put_piece, &piece, &after, &err);
}

#define T2 "- {id: T2, date: 2025-02-03, blend: acetone, result: removed}\n"

START_TEST(a_right_change_is_written) {
    char after[512];
    snprintf(after, sizeof after, "%s" T2, before);
    ck_assert_msg(change((struct piece){.text = T2, .values = 9}) == STATUS_OK, "%s", err.text);
    assert_holds(after);
    ck_assert_int_ne(access(folder_file(&folder, "c.yaml.lock"), F_OK), 0);
}
END_TEST

static void refused(struct piece piece, const char *words) {
    ck_assert_int_eq(change(piece), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
    ck_assert_ptr_nonnull(strstr(err.text, "nothing was changed"));
    assert_holds(before);
}

START_TEST(a_text_that_is_not_as_meant_is_not) {
    refused((struct piece){.text = "- {id: T2, date:\n", .values = 9}, "not valid YAML");
    refused((struct piece){.text = "- {id: T2}\n", .values = 3}, "key 'date' is missing");
    refused((struct piece){.text = T2, .values = 8}, "something else would be read differently");
    refused((struct piece){.text = T2 "note: x\n", .values = 9}, "something else would be read differently");
    refused((struct piece){.instead = "mildsolve_case: 1\nobject: {title: u}\ntests:\n"
                                      "- {id: T1, date: 2025-02-02, blend: isooctane, result: none}\n" T2,
                           .values = 9},
            "something else would be read differently");
    refused((struct piece){.instead = "mildsolve_case: 1\nobject: {title: t}\ntests:\n" T2, .values = 0},
            "something else would be read differently");
}
END_TEST

static void cannot(const char *text, const char *words) {
    folder_write(&folder, "c.yaml", text);
    ck_assert_int_eq(change((struct piece){.text = T2, .values = 9}), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
    assert_holds(text);
    ck_assert_int_ne(access(folder_file(&folder, "c.yaml.lock"), F_OK), 0);
}

START_TEST(a_wrong_case_is_left_alone) {
    cannot("mildsolve_case: 1\nobject: {title: t\n", "c.yaml:3:1: not valid YAML");
    cannot("mildsolve_case: 9\n", "written for a newer mildsolve");
    cannot("mildsolve_case: 1\nobject: {title: t}\nstudoi: {}\nromo: {}\n",
           "c.yaml:3:1: key 'studoi' is not known in a case; did you mean 'studio'? (and 1 more; `mildsolve check");
    cannot("table: components\n", "no key 'mildsolve_case'");
}
END_TEST

START_TEST(every_failing_allocation_leaves_it_whole) {
    char after[512];
    snprintf(after, sizeof after, "%s" T2, before);
    for (unsigned long n = 1; n < 200; n++) {
        struct arena own = {0};
        struct casefile new;
        struct piece piece = {.text = T2, .values = 9};
        folder_write(&folder, "c.yaml", before);
        memory_fail_at(n);
        enum status status =
            case_change(&own, folder_file(&folder, "c.yaml"), &lib, as_of, put_piece, &piece, &new, NULL);
        memory_fail_at(0);
        arena_release(&own);
        ck_assert(status == STATUS_MEMORY || status == STATUS_OK);
        assert_holds(status == STATUS_OK ? after : before);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 5);
            return;
        }
    }
    ck_abort_msg("never succeeded");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("case_store");
    TCase *tests = tcase_create("store");
    tcase_add_checked_fixture(tests, enter, leave);
    tcase_add_test(tests, a_right_change_is_written);
    tcase_add_test(tests, a_text_that_is_not_as_meant_is_not);
    tcase_add_test(tests, a_wrong_case_is_left_alone);
    tcase_add_test(tests, every_failing_allocation_leaves_it_whole);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
