// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/explaining.h"
#include "present/json_numbers.h"

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

static void gather_once(struct explaining *explaining, struct gathered *gathered, const void *item) {
    if (item && !gathered_has(gathered, item))
        gather(explaining, gathered, item);
}

struct explaining *explain_begin(struct invocation *inv) {
    if (!option_given(inv, "--explain"))
        return NULL;
    struct explaining *explaining = arena_new(inv->arena, 1, sizeof *explaining);
    if (explaining)
        explaining->inv = inv;
    return explaining;
}

void explain_component(struct explaining *explaining, const struct component *component) {
    if (explaining)
        gather_once(explaining, &explaining->components, component);
}

void explain_blend(struct explaining *explaining, const struct blend *blend) {
    for (size_t i = 0; explaining && i < blend->part_count; i++)
        gather_once(explaining, &explaining->bottles, blend->parts[i].bottle.bottle);
    for (size_t i = 0; i < blend->count; i++)
        explain_component(explaining, blend->components[i]);
}

void explain_material(struct explaining *explaining, const struct material *material) {
    if (explaining)
        gather_once(explaining, &explaining->materials, material);
}

void explain_authority(struct explaining *explaining, const struct authority *authority) {
    if (explaining)
        gather_once(explaining, &explaining->authorities, authority);
}

// --- which quantities the answer prints ---

static bool has_text(const struct gathered *gathered, const char *text) {
    for (size_t i = 0; i < gathered->count; i++)
        if (strcmp(gathered->items[i], text) == 0)
            return true;
    return false;
}

static struct explained *explained_of(struct explaining *explaining, const struct derivation *derivation) {
    for (size_t i = 0; i < explaining->quantities.count; i++) {
        struct explained *explained = (struct explained *)explaining->quantities.items[i];
        if (explained->derivation == derivation)
            return explained;
    }
    struct explained *explained = arena_new(explaining->inv->arena, 1, sizeof *explained);
    if (!explained)
        return NULL;
    explained->derivation = derivation;
    explaining->uses |= derivation->uses;
    gather(explaining, &explaining->quantities, explained);
    return explained;
}

static void take_number(const char *path, void *context) {
    struct explaining *explaining = context;
    const struct derivation *derivation = derivation_of(explaining->inv->command->name, path);
    struct explained *explained = derivation ? explained_of(explaining, derivation) : NULL;
    struct gathered *paths = explained ? &explained->paths : &explaining->without;
    if (has_text(paths, path))
        return;
    const char *copy = arena_text(explaining->inv->arena, path);
    if (copy)
        gather(explaining, paths, copy);
}

enum status explain_answer(struct explaining *explaining, struct text *answer, struct error *err) {
    if (!explaining) {
        text_release(answer);
        return STATUS_OK;
    }
    struct invocation *inv = explaining->inv;
    json_each_number(text_bytes(answer), take_number, explaining);
    bool failed = answer->failed;
    text_release(answer);
    if (failed)
        return error_set(err, STATUS_MEMORY, "out of memory");
    unsigned lacking = (TABLE_REFERENCES | TABLE_MATERIALS) & ~inv->library.loaded;
    enum status status = lacking ? library_add(&inv->library, lacking, NULL, 0, err) : STATUS_OK;
    if (status != STATUS_OK)
        return status;
    explain_list_values(explaining);
    if (inv->json)
        write_explanation_json(explaining, inv->out);
    else
        write_explanation_text(explaining, inv->out);
    return STATUS_OK;
}
