// SPDX-License-Identifier: GPL-3.0-or-later
// What the YAML reader takes, and what it refuses with which line.
#include "base/memory.h"
#include "data/yaml.h"
#include "suite.h"

#include <check.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct arena arena;

static void drop(void) {
    arena_release(&arena);
}

static const struct yaml_node *tree(const char *bytes) {
    const struct yaml_node *root = NULL;
    struct error err = {0};
    ck_assert_msg(yaml_read_memory(&arena, "t.yaml", bytes, strlen(bytes), &yaml_default_limits, &root, &err) ==
                      STATUS_OK,
                  "%s", err.text);
    return root;
}

static void refuse_n(const char *bytes, size_t length, const char *words) {
    const struct yaml_node *root = NULL;
    struct error err = {0};
    ck_assert_int_eq(yaml_read_memory(&arena, "t.yaml", bytes, length, &yaml_default_limits, &root, &err),
                     STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
    ck_assert_ptr_null(root);
}

static void refuse(const char *bytes, const char *words) {
    refuse_n(bytes, strlen(bytes), words);
}

START_TEST(nodes_know_their_place) {
    const struct yaml_node *root = tree("a: 1\nlist:\n  - {x: 2, y: [3, 4]}\n  - 'quoted'\n");
    ck_assert_int_eq(root->kind, YAML_MAP);
    const struct yaml_node *list = yaml_find(root, "list");
    ck_assert_uint_eq(list->count, 2);
    const struct yaml_node *y = yaml_find(list->items[0], "y");
    ck_assert_int_eq(y->line, 3);
    ck_assert_int_eq(y->column, 15);
    ck_assert_str_eq(y->items[1]->text, "4");
    ck_assert(list->items[1]->quoted);
    ck_assert_ptr_null(yaml_find(root, "b"));
}
END_TEST

// Bytes, not characters: é and 渡 take two and three.
START_TEST(nodes_know_their_bytes) {
    static const char bytes[] = "\xEF\xBB\xBF\xC3\xA9: '\xE6\xB8\xA1'\r\nlist:\r\n  - {x: 2}  # \xC3\xA9\r\n"
                                "  - y: |\r\n      t\r\n\r\nnone:\r\nlast: ab c \r\n";
    const struct yaml_node *root = tree(bytes);
    const struct yaml_node *first = root->pairs[0].value;
    ck_assert_int_eq(root->pairs[0].key->column, 1);
    ck_assert_uint_eq(root->begin, 3);
    ck_assert_str_eq(first->text, "\xE6\xB8\xA1");
    ck_assert_uint_eq(first->begin, 7);
    ck_assert_uint_eq(first->end, 12);
    const struct yaml_node *list = yaml_find(root, "list");
    ck_assert(!list->flow);
    ck_assert_uint_eq(list->begin, (size_t)(strchr(bytes, '-') - bytes));
    const struct yaml_node *flow = list->items[0];
    ck_assert(flow->flow);
    ck_assert_int_eq(bytes[flow->begin], '{');
    ck_assert_int_eq(bytes[flow->end - 1], '}');
    const struct yaml_node *block = list->items[1];
    ck_assert_uint_eq(block->end, (size_t)(strstr(bytes, "none") - bytes));
    ck_assert_uint_eq(list->end, block->end);
    const struct yaml_node *none = yaml_find(root, "none");
    ck_assert_uint_eq(none->begin, none->end);
    ck_assert_int_eq(bytes[none->begin - 1], ':');
    const struct yaml_node *last = yaml_find(root, "last");
    ck_assert_int_eq(strncmp(bytes + last->begin, "ab c", last->end - last->begin), 0);
    ck_assert_uint_eq(root->end, last->end);
}
END_TEST

START_TEST(hostile_files_are_refused) {
    refuse("a: &x 1\nb: *x\n", "t.yaml:1:4: anchors");
    refuse("b: *x\n", "t.yaml:1:4: anchors");
    refuse("a: 1\na: 2\n", "t.yaml:2:1: key 'a' stands here for the second time (first in line 1)");
    refuse("a: !!int 3\n", "t.yaml:1:4: a tag");
    refuse("a: 1\n---\nb: 2\n", "second document");
    refuse("", "is empty");
    refuse("a: [1, 2\n", "not valid YAML");
    refuse("{[1]: 2}\n", "a key must be a plain word");
    refuse("a: \"\\0\"\n", "NUL");
    refuse_n("a: \xFF\xFE", 5, "t.yaml:1:4: byte 0xFF is not valid UTF-8");
    refuse_n("a\0b", 3, "control character U+0000");
    refuse("a: \x1b[31m\n", "control character U+001B");
}
END_TEST

// Bytes are looked at eight at a time: a wrong one is found wherever it stands among them, an allowed one nowhere.
START_TEST(every_byte_is_looked_at) {
    for (unsigned byte = 1; byte < 256; byte++)
        for (size_t place = 0; place < 24; place++) {
            char bytes[] = "k: aaaaaaaaaaaaaaaaaaaaaaaaa", place_words[32];
            const struct yaml_node *root = NULL;
            struct error err = {0};
            bytes[3 + place] = (char)byte;
            snprintf(place_words, sizeof place_words, "t.yaml:1:%zu: ", 4 + place);
            enum status status =
                yaml_read_memory(&arena, "t.yaml", bytes, strlen(bytes), &yaml_default_limits, &root, &err);
            bool control = (byte < 0x20 && byte != '\t' && byte != '\n' && byte != '\r') || byte == 0x7F;
            if (control || byte >= 0x80) {
                ck_assert_int_eq(status, STATUS_INPUT);
                ck_assert_msg(strncmp(err.text, place_words, strlen(place_words)) == 0, "%02X: %s", byte, err.text);
                ck_assert_ptr_nonnull(strstr(err.text, control ? "control character" : "is not valid UTF-8"));
            } else if (byte >= '0' && byte <= '9') {
                ck_assert_int_eq(status, STATUS_OK);
            } else {
                ck_assert(status == STATUS_OK || !strstr(err.text, "character U+"));
            }
        }
}
END_TEST

START_TEST(depth_is_cut_while_reading) {
    char bytes[20001];
    memset(bytes, '[', 10000);
    memset(bytes + 10000, ']', 10000);
    refuse_n(bytes, 20000, "nested deeper than 12");
    for (size_t i = 0; i < 10000; i++)
        memcpy(bytes + 2 * i, "- ", 2);
    refuse_n(bytes, 20000, "nested deeper than 12");
}
END_TEST

START_TEST(values_are_bounded) {
    const struct yaml_limits few = {.file_bytes = 1000, .depth = 12, .nodes = 6};
    const struct yaml_node *root = NULL;
    struct error err = {0};
    ck_assert_int_eq(yaml_read_memory(&arena, "t.yaml", "[1, 2, 3, 4]\n", 13, &few, &root, &err), STATUS_OK);
    root = NULL;
    ck_assert_int_eq(yaml_read_memory(&arena, "t.yaml", "[1, 2, 3,\n 4, 5]\n", 17, &few, &root, &err), STATUS_INPUT);
    ck_assert_str_eq(err.text, "t.yaml:2:6: more values than any table of this program holds");
    ck_assert_ptr_null(root);
}
END_TEST

START_TEST(size_and_keys_are_bounded) {
    size_t size = yaml_default_limits.file_bytes + 1;
    char *bytes = malloc(size);
    memset(bytes, 'a', size);
    refuse_n(bytes, size, "may have at most");
    size_t at = 0;
    for (int i = 0; i < 300; i++)
        at += (size_t)snprintf(bytes + at, size - at, "k%d: 1\n", i);
    refuse_n(bytes, at, "more than 256 keys");
    free(bytes);
}
END_TEST

// A file named in an alias bomb would grow a billionfold; refused at its first anchor.
START_TEST(alias_bomb) {
    refuse("a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", "anchors");
}
END_TEST

START_TEST(every_failing_allocation_is_reported) {
    const char *bytes = "a: 1\nlist:\n  - {x: 2, y: [3, 4]}\n";
    for (unsigned long n = 1; n < 50; n++) {
        struct arena own = {0};
        const struct yaml_node *root = NULL;
        memory_fail_at(n);
        enum status status = yaml_read_memory(&own, "t", bytes, strlen(bytes), &yaml_default_limits, &root, NULL);
        memory_fail_at(0);
        arena_release(&own);
        ck_assert(status == STATUS_MEMORY || status == STATUS_OK);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 1);
            return;
        }
    }
    ck_abort_msg("never succeeded");
}
END_TEST

START_TEST(missing_files_are_named) {
    const struct yaml_node *root = NULL;
    struct error err = {0};
    ck_assert_int_eq(yaml_read_file(&arena, "/nonexistent/x.yaml", &yaml_default_limits, &root, &err),
                     STATUS_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(err.text, "/nonexistent/x.yaml"));
    ck_assert_int_eq(yaml_read_file(&arena, "/", &yaml_default_limits, &root, &err), STATUS_SYSTEM);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("yaml");
    TCase *tests = tcase_create("reader");
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_add_test(tests, nodes_know_their_place);
    tcase_add_test(tests, nodes_know_their_bytes);
    tcase_add_test(tests, hostile_files_are_refused);
    tcase_add_test(tests, every_byte_is_looked_at);
    tcase_add_test(tests, depth_is_cut_while_reading);
    tcase_add_test(tests, values_are_bounded);
    tcase_add_test(tests, size_and_keys_are_bounded);
    tcase_add_test(tests, alias_bomb);
    tcase_add_test(tests, every_failing_allocation_is_reported);
    tcase_add_test(tests, missing_files_are_named);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
