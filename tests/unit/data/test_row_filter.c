// SPDX-License-Identifier: GPL-3.0-or-later
// Rows taken out of the text of a table: the wanted ones stay as they are, line by line, and what is not written as our
// tables are is left alone.
#include "base/file_read.h"
#include "base/text.h"
#include "data/row_filter.h"
#include "data/yaml.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const ids[] = {"acetone", "toluene", "water"};
static const struct row_filter by_id = {.list_key = "rows", .fields = {"id"}, .words = ids, .word_count = 3};
static const struct row_filter by_pair = {
    .list_key = "rows", .fields = {"first", "second"}, .words = ids, .word_count = 3};
static const char *const numbers[] = {"1", "12"};
static const struct row_filter by_number = {
    .list_key = "rows", .fields = {"m", "n"}, .numbers = true, .words = numbers, .word_count = 2};

static void becomes(const struct row_filter *filter, const char *from, const char *to) {
    char bytes[2000];
    size_t length = strlen(from);
    memcpy(bytes, from, length + 1);
    row_filter_apply(filter, bytes, &length);
    bytes[length] = '\0';
    ck_assert_str_eq(bytes, to);
}

static void is_left_alone(const struct row_filter *filter, const char *text) {
    becomes(filter, text, text);
}

START_TEST(lines_keep_their_numbers) {
    becomes(&by_id,
            "table: t\nrows:\n  - id: acetone\n    a: 1\n  - id: benzene\n    a: {b: 2}\n    regions:\n"
            "      - {c: 3}\n  - id: water\n    a: 4\n",
            "table: t\nrows:\n  - id: acetone\n    a: 1\n    \n\n\n\n  - id: water\n    a: 4\n");
    becomes(&by_pair,
            "rows:\n  - {first: water, second: benzene, a: 1}\n  - {first: water, second: toluene, a: 2}\n"
            "  - {first: benzene, second: water, a: 3}",
            "rows:\n    \n  - {first: water, second: toluene, a: 2}\n");
    becomes(&by_number,
            "rows:\n  - {model: one, m: 1, n: 12, a: -1.5}\n  - {model: one, m: 1, n: 2, a: 3}\n"
            "  - {model: one, m: 121, n: 12, a: 3}\n",
            "rows:\n  - {model: one, m: 1, n: 12, a: -1.5}\n    \n\n");
}
END_TEST

START_TEST(a_list_of_no_rows_is_still_a_list) {
    becomes(&by_id, "rows:\n  - id: benzene\n    a: 1\n  - {id: hexane}\nmore: 2\n", "rows:\n  []\n\n\nmore: 2\n");
    becomes(&by_id, "rows:\n  - {id: hexane}", "rows:\n  []");
    is_left_alone(&by_id, "rows: []\n");
    is_left_alone(&by_id, "");
}
END_TEST

START_TEST(only_the_list_that_is_meant) {
    becomes(&by_id, "other:\n  - {id: hexane}\nrows:\n  - {id: hexane}\n  - {id: water}\nthird:\n  - {id: hexane}\n",
            "other:\n  - {id: hexane}\nrows:\n    \n  - {id: water}\nthird:\n  - {id: hexane}\n");
    is_left_alone(&by_id, "rows_too:\n  - {id: hexane}\n");
    is_left_alone(&by_id, "ro:\n  - {id: hexane}\n");
}
END_TEST

// What the text alone does not tell is for the parser to say.
START_TEST(rows_that_cannot_be_told_stay) {
    is_left_alone(&by_id, "rows:\n  - id: \"hexane\"\n");
    is_left_alone(&by_id, "rows:\n  - id: n hexane\n");
    is_left_alone(&by_id, "rows:\n  - id: Hexane\n");
    is_left_alone(&by_id, "rows:\n  - id:\n    a: 1\n");
    is_left_alone(&by_id, "rows:\n  - name: x\n    id: hexane\n");
    is_left_alone(&by_id, "rows:\n  - [id, hexane]\n");
    is_left_alone(&by_number, "rows:\n  - {m: 01, n: 12}\n  - {m: 1e1, n: 12}\n  - {m: 12.0, n: 12}\n");
    is_left_alone(&by_pair, "rows:\n  - {first: water}\n");
}
END_TEST

// Each of these may mean something else than it seems to, line by line: nothing is taken out of such a file.
START_TEST(other_layouts_are_left_alone) {
    static const char *const texts[] = {
        "rows:\n- id: hexane\n",
        "rows:\n   - id: hexane\n",
        "rows:\n  - id: hexane\n   a: 1\n",
        "rows:\n  - id: hexane\n\n    a: 1\n",
        "# why\nrows:\n  - id: hexane\n",
        "rows:\n  - id: hexane\n# why\n    a: 1\n",
        "rows:\n  - id: hexane\n    a: 1 # \"why\n",
        "rows:\n  - id: water\n    note: |\n      text\n  - id: hexane\n",
        "about: >\n rows:\n  - id: hexane\nrows:\n  - id: hexane\n",
        "rows:\n  - id: water\n    note: \"two\n  - id: hexane\n    lines\"\n",
        "rows:\n  - id: water\n    note: 'two\n  - id: hexane\n    lines'\n",
        "about: \"two\nrows:\n  - id: hexane\n\"\n",
        "rows:\n  - {id: water, a: [1,\n  - 2]}\n  - {id: hexane}\n",
        "rows:\n  - id: hexane\n    note: \"a \\\" b\n",
        "rows:\n  - id: hexane\n    a: ]\n",
        "rows:\n  - id: hexane\n    a: {b: 1]}\n    c: [\n",
        "rows:\r\n  - id: hexane\r\n",
        "rows:\n  - {id: hexane, a: 1}\r  - {id: water}\n",
        "rows:\n  - id: hexane\n    a: \"b\rc\"\n  - id: water\n",
        "rows:\n  - id: hexane\n\ta: 1\n",
        "--- \nrows:\n  - id: hexane\n",
        "rows:\n  - id: hexane\n...\n",
        "\xEF\xBB\xBFrows:\n  - id: hexane\n",
        "rows:\n  - id: hexane\n    a: &x 1\n  - id: water\n    a: *x\n",
        "rows:\n  - id: hexane\n    a: !!int 1\n",
        "rows:\n  - id: hexane\n    a: b\xC2\x85  - id: water\n",
        "rows:\n  - id: hexane\n    a: \"b\xE2\x80\xA8  - id: water\"\n",
        "rows:\n  - id: hexane\n    ? a\n",
        "\"rows\":\n  - id: hexane\n",
        "{rows: [{id: hexane}]}\n",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        is_left_alone(&by_id, texts[i]);
    becomes(&by_id, "rows:\n  - id: hexane\n    note: \"a \\\" [ # ' | b\"\n", "rows:\n  []\n\n");
}
END_TEST

// --- the tables themselves ---

static const struct {
    const char *file;
    struct row_filter filter;
} files[] = {
    {"properties.yaml", {.list_key = "properties", .fields = {"id"}}},
    {"hazards.yaml", {.list_key = "hazards", .fields = {"id"}}},
    {"limits.yaml", {.list_key = "limits", .fields = {"component"}}},
    {"miscibility.yaml", {.list_key = "pairs", .fields = {"first", "second"}}},
    {"unifac-assignments.yaml", {.list_key = "assignments", .fields = {"component"}}},
    {"unifac-interactions.yaml", {.list_key = "interactions", .fields = {"m", "n"}, .numbers = true}},
};

static struct arena arena;

static void drop(void) {
    arena_release(&arena);
}

static const struct yaml_node *rows_of(const char *list_key, const char *bytes, size_t length) {
    const struct yaml_node *root = NULL;
    struct error err = {0};
    ck_assert_msg(yaml_read_memory(&arena, list_key, bytes, length, &yaml_default_limits, &root, &err) == STATUS_OK,
                  "%s", err.text);
    const struct yaml_node *rows = yaml_find(root, list_key);
    ck_assert_int_eq(rows->kind, YAML_LIST);
    return rows;
}

static bool is_wanted(const struct row_filter *filter, const struct yaml_node *row) {
    for (size_t i = 0; i < ROW_FILTER_FIELDS && filter->fields[i]; i++) {
        const char *value = yaml_find(row, filter->fields[i])->text;
        size_t word = 0;
        while (word < filter->word_count && strcmp(filter->words[word], value) != 0)
            word++;
        if (word == filter->word_count)
            return false;
    }
    return true;
}

// Depth is bounded by the parser.
static void same_tree(const struct yaml_node *a, const struct yaml_node *b) {
    ck_assert_int_eq(a->kind, b->kind);
    ck_assert_int_eq(a->line, b->line);
    ck_assert_int_eq(a->column, b->column);
    if (a->kind == YAML_SCALAR) {
        ck_assert_str_eq(a->text, b->text);
        ck_assert_int_eq(a->quoted, b->quoted);
        return;
    }
    ck_assert_uint_eq(a->count, b->count);
    for (size_t i = 0; i < a->count && a->kind == YAML_LIST; i++)
        same_tree(a->items[i], b->items[i]);
    for (size_t i = 0; i < a->count && a->kind == YAML_MAP; i++) {
        same_tree(a->pairs[i].key, b->pairs[i].key);
        same_tree(a->pairs[i].value, b->pairs[i].value);
    }
}

// The rows that stay are exactly the wanted ones, each as parsed out of the whole file, with its line and column.
START_TEST(rows_of_every_table_stay_as_they_are) {
    char path[1024];
    struct text whole = {0};
    struct random random = {.state = 77 + (uint64_t)_i};
    snprintf(path, sizeof path, "%s/%s", tables_directory(), files[_i].file);
    ck_assert_int_eq(file_read(path, yaml_default_limits.file_bytes, &whole, NULL), STATUS_OK);
    struct row_filter filter = files[_i].filter;
    const struct yaml_node *all = rows_of(filter.list_key, whole.bytes, whole.length);
    for (int round = 0; round < 20; round++) {
        const char *words[24];
        filter.words = words;
        for (filter.word_count = 0; filter.word_count < (size_t)round; filter.word_count++)
            words[filter.word_count] = yaml_find(all->items[random_below(&random, all->count)], filter.fields[0])->text;
        char *bytes = malloc(whole.length);
        size_t length = whole.length, at = 0;
        memcpy(bytes, whole.bytes, length);
        size_t taken = row_filter_apply(&filter, bytes, &length);
        const struct yaml_node *some = rows_of(filter.list_key, bytes, length);
        free(bytes);
        ck_assert_uint_eq(some->count + taken, all->count);
        for (size_t i = 0; i < all->count; i++)
            if (is_wanted(&filter, all->items[i])) {
                ck_assert_uint_lt(at, some->count);
                same_tree(all->items[i], some->items[at++]);
            }
        ck_assert_uint_eq(at, some->count);
    }
    text_release(&whole);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("row filter");
    TCase *tests = tcase_create("rows");
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_add_test(tests, lines_keep_their_numbers);
    tcase_add_test(tests, a_list_of_no_rows_is_still_a_list);
    tcase_add_test(tests, only_the_list_that_is_meant);
    tcase_add_test(tests, rows_that_cannot_be_told_stay);
    tcase_add_test(tests, other_layouts_are_left_alone);
    tcase_add_loop_test(tests, rows_of_every_table_stay_as_they_are, 0, (int)(sizeof files / sizeof files[0]));
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
