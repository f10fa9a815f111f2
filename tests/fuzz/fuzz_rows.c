// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a table of which only some rows are wanted. What the filter leaves is read as the whole is read, without
// the rows that are not wanted.
#include "data/row_filter.h"
#include "data/yaml.h"
#include "target.h"

static const char *const words[] = {"acetone", "ethanol", "toluene"};
static const struct row_filter filter = {
    .list_key = "limits", .fields = {"component", "other"}, .words = words, .word_count = 3};

static bool is_one_of_words(const struct yaml_node *value) {
    for (size_t i = 0; i < filter.word_count; i++)
        if (value->kind == YAML_SCALAR && strcmp(value->text, words[i]) == 0)
            return true;
    return false;
}

static bool wanted(const struct yaml_node *row) {
    for (size_t i = 0; i < ROW_FILTER_FIELDS; i++) {
        const struct yaml_node *value = row->kind == YAML_MAP ? yaml_find(row, filter.fields[i]) : NULL;
        if (value && !is_one_of_words(value))
            return false;
    }
    return true;
}

static bool same(const struct yaml_node *a, const struct yaml_node *b, int depth) {
    LAW(depth < 64);
    if (a->kind != b->kind || a->count != b->count || a->line != b->line || a->column != b->column)
        return false;
    if (a->kind == YAML_SCALAR)
        return strcmp(a->text, b->text) == 0;
    for (size_t i = 0; i < a->count; i++) {
        bool alike = a->kind == YAML_LIST ? same(a->items[i], b->items[i], depth + 1)
                                          : same(a->pairs[i].key, b->pairs[i].key, depth + 1) &&
                                                same(a->pairs[i].value, b->pairs[i].value, depth + 1);
        if (!alike)
            return false;
    }
    return true;
}

// The rows left are rows of the whole, in their order; the others were not wanted.
static void check_rows(const struct yaml_node *whole, const struct yaml_node *left, size_t taken) {
    LAW(left->kind == YAML_LIST && left->count + taken == whole->count);
    size_t at = 0;
    for (size_t i = 0; i < whole->count; i++) {
        if (at < left->count && same(whole->items[i], left->items[at], 0))
            at++;
        else
            LAW(!wanted(whole->items[i]));
    }
    LAW(at == left->count);
}

static void check(const struct yaml_node *whole, const struct yaml_node *left, size_t taken) {
    const struct yaml_node *rows = whole->kind == YAML_MAP ? yaml_find(whole, filter.list_key) : NULL;
    if (taken == 0 || !rows) {
        LAW(taken == 0 && same(whole, left, 0));
        return;
    }
    LAW(left->kind == YAML_MAP && left->count == whole->count);
    for (size_t i = 0; i < whole->count; i++) {
        LAW(same(whole->pairs[i].key, left->pairs[i].key, 0));
        if (whole->pairs[i].value == rows && rows->count == taken)
            LAW(left->pairs[i].value->count == 0);
        else if (whole->pairs[i].value == rows)
            check_rows(rows, left->pairs[i].value, taken);
        else
            LAW(same(whole->pairs[i].value, left->pairs[i].value, 0));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    struct arena arena = {0};
    struct error err = {0};
    const struct yaml_node *whole = NULL, *left = NULL;
    char *text = input_text(bytes, length);
    if (yaml_read_memory(&arena, "whole", text, length, &yaml_default_limits, &whole, &err) == STATUS_OK) {
        char *shorter = input_text(bytes, length);
        size_t shorter_length = length;
        size_t taken = row_filter_apply(&filter, shorter, &shorter_length);
        LAW(shorter_length <= length);
        LAW(yaml_read_memory(&arena, "left", shorter, shorter_length, &yaml_default_limits, &left, &err) == STATUS_OK);
        check(whole, left, taken);
        free(shorter);
    }
    free(text);
    arena_release(&arena);
    return 0;
}
