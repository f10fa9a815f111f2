// SPDX-License-Identifier: GPL-3.0-or-later
// Lists that --explain gathers while it goes through an answer.
#include "cli/explaining.h"

#include <string.h>

void gather(struct explaining *explaining, struct gathered *gathered, const void *item) {
    if (gathered->count == gathered->capacity) {
        size_t capacity = gathered->capacity ? 2 * gathered->capacity : 16;
        const void **items = arena_new(explaining->inv->arena, capacity, sizeof *items);
        if (!items)
            return;
        if (gathered->count)
            memcpy(items, gathered->items, gathered->count * sizeof *items);
        gathered->items = items;
        gathered->capacity = capacity;
    }
    gathered->items[gathered->count++] = item;
}

bool gathered_has(const struct gathered *gathered, const void *item) {
    for (size_t i = 0; i < gathered->count; i++)
        if (gathered->items[i] == item)
            return true;
    return false;
}
