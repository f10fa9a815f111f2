// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a YAML tree: every node lies inside the text and its line and column point to it.
#include "data/yaml.h"
#include "target.h"

#include <string.h>

static void check_node(const struct yaml_node *node, size_t length, int depth) {
    LAW(depth < 64);
    LAW(node->line >= 1 && node->column >= 1);
    LAW(node->begin <= node->end && node->end <= length);
    LAW(node->kind != YAML_SCALAR || node->text);
    for (size_t i = 0; i < node->count; i++) {
        if (node->kind == YAML_LIST) {
            check_node(node->items[i], length, depth + 1);
        } else {
            check_node(node->pairs[i].key, length, depth + 1);
            check_node(node->pairs[i].value, length, depth + 1);
            LAW(yaml_find(node, node->pairs[i].key->text) == node->pairs[i].value);
        }
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    struct arena arena = {0};
    struct error err = {0};
    const struct yaml_node *root = NULL;
    enum status status =
        yaml_read_memory(&arena, "input", (const char *)bytes, length, &yaml_default_limits, &root, &err);
    if (status == STATUS_OK)
        check_node(root, length, 0);
    else
        LAW(status == STATUS_INPUT && strncmp(err.text, "input", 5) == 0);
    arena_release(&arena);
    return 0;
}
