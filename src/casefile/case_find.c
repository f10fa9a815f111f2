// SPDX-License-Identifier: GPL-3.0-or-later
// Where the parts of a case file stand, and what bears an id.
#include "casefile/case_parts.h"

#include <assert.h>
#include <stddef.h>
#include <string.h>

const struct yaml_node *case_entry_node(const struct casefile *file, const char *list, size_t i) {
    return yaml_find(file->root, list)->items[i];
}

const struct yaml_node *case_key_node(const struct yaml_node *entry, const char *key) {
    const struct yaml_node *value = entry && entry->kind == YAML_MAP ? yaml_find(entry, key) : NULL;
    return value ? value : entry;
}

static_assert(offsetof(struct case_layer, id) == 0 && offsetof(struct case_passage, id) == 0 &&
                  offsetof(struct case_bottle, id) == 0 && offsetof(struct case_test, id) == 0,
              "ids are read without knowing the struct they begin");

const char *case_entry_id(const struct record_list *records, size_t size, size_t i) {
    return *(const char *const *)(const void *)((const char *)records->items + i * size);
}

static const void *entry_with_id(const struct record_list *records, size_t size, const char *id) {
    for (size_t i = 0; i < records->count; i++)
        if (strcmp(case_entry_id(records, size, i), id) == 0)
            return (const char *)records->items + i * size;
    return NULL;
}

const struct case_layer *case_layer(const struct casefile *file, const char *id) {
    return entry_with_id(&file->layers, sizeof(struct case_layer), id);
}

const struct case_passage *case_passage(const struct casefile *file, const char *id) {
    return entry_with_id(&file->passages, sizeof(struct case_passage), id);
}

const struct case_test *case_test(const struct casefile *file, const char *id) {
    return entry_with_id(&file->tests, sizeof(struct case_test), id);
}
