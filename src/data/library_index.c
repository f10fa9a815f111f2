// SPDX-License-Identifier: GPL-3.0-or-later
// Finding a row by its key while tables are read.
#include "data/library_tables.h"

#include <string.h>

static size_t hash_of(const char *key) {
    size_t hash = 1469598103934665603u; // FNV-1a
    for (; *key; key++)
        hash = (hash ^ (unsigned char)*key) * 1099511628211u;
    return hash;
}

bool index_make_room(struct arena *arena, struct row_index *index, size_t rows) {
    size_t slots = 64;
    while (slots < rows * 2)
        slots *= 2;
    if (slots <= index->slot_count)
        return true;
    size_t *fresh = arena_new(arena, slots, sizeof *fresh);
    if (!fresh)
        return false;
    for (size_t row = 0; row < index->count; row++) {
        size_t at = hash_of(index->places[row].key) & (slots - 1);
        while (fresh[at])
            at = (at + 1) & (slots - 1);
        fresh[at] = row + 1;
    }
    index->slots = fresh;
    index->slot_count = slots;
    return true;
}

size_t *index_slot(const struct row_index *index, const char *key) {
    size_t at = hash_of(key) & (index->slot_count - 1);
    while (index->slots[at] && strcmp(index->places[index->slots[at] - 1].key, key) != 0)
        at = (at + 1) & (index->slot_count - 1);
    return &index->slots[at];
}

size_t index_find(const struct table_index *index, const struct record *record, const char *key) {
    for (size_t i = 0; i < library_list_count; i++)
        if (library_lists[i].record == record)
            return index->rows[i].slot_count ? *index_slot(&index->rows[i], key) : 0;
    return 0;
}

const char *index_key(struct arena *arena, const struct table_list *list, const struct yaml_node *node) {
    const char *parts[KEY_FIELDS_MAX] = {"", "", "", ""};
    for (size_t i = 0; i < KEY_FIELDS_MAX && list->key_fields[i]; i++) {
        const struct yaml_node *value = node->kind == YAML_MAP ? yaml_find(node, list->key_fields[i]) : NULL;
        if (value && value->kind == YAML_SCALAR)
            parts[i] = value->text;
    }
    if (!list->key_fields[1])
        return parts[0];
    size_t lengths[KEY_FIELDS_MAX], whole = KEY_FIELDS_MAX;
    for (size_t i = 0; i < KEY_FIELDS_MAX; i++)
        whole += lengths[i] = strlen(parts[i]);
    char *key = arena_new(arena, whole, 1), *at = key;
    for (size_t i = 0; key && i < KEY_FIELDS_MAX; i++) {
        memcpy(at, parts[i], lengths[i]);
        at += lengths[i];
        *at++ = i + 1 < KEY_FIELDS_MAX ? '|' : '\0';
    }
    return key;
}

bool index_has(const struct table_index *index, const struct record *record, const char *key) {
    return index_find(index, record, key) != 0;
}
