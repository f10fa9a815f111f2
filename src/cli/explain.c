// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/explaining.h"
#include "physics/evaporation.h"
#include "present/json_numbers.h"
#include "selection/goal.h"

#include <string.h>

static void gather_once(struct explaining *explaining, struct gathered *gathered, const void *item) {
    if (item && !gathered_has(gathered, item))
        gather(explaining, gathered, item);
}

struct explaining *explain_begin(struct invocation *inv) {
    const char *value = option_value(inv, "--explain");
    if (!value || strcmp(value, OPTION_SWITCHED_ON) != 0) // a number asks for one row in full
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

void explain_bottle(struct explaining *explaining, const struct bottle_ref *bottle) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    if (!explaining)
        return;
    gather_once(explaining, &explaining->bottles, bottle->bottle);
    size_t count = bottle_composition(&explaining->inv->library, bottle, components, fractions);
    for (size_t i = 0; i < count; i++)
        explain_component(explaining, components[i]);
}

void explain_blend(struct explaining *explaining, const struct blend *blend) {
    for (size_t i = 0; i < blend->part_count; i++)
        explain_bottle(explaining, &blend->parts[i].bottle);
}

void explain_reference(struct explaining *explaining) {
    const struct component *reference = NULL;
    if (explaining &&
        library_component(&explaining->inv->library, evaporation_reference_id, &reference, NULL) == STATUS_OK)
        explain_component(explaining, reference);
}

void explain_goal(struct explaining *explaining, const struct goal *goal) {
    for (size_t i = 0; i < goal->remove_count; i++)
        explain_material(explaining, goal->remove[i]);
    for (size_t i = 0; i < goal->spare_count; i++)
        explain_material(explaining, goal->spare[i]);
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
    bool lacking = !(inv->library.loaded & TABLE_REFERENCES);
    enum status status = lacking ? library_add(&inv->library, TABLE_REFERENCES, NULL, 0, err) : STATUS_OK;
    if (status != STATUS_OK)
        return status;
    explain_list_values(explaining);
    if (inv->json)
        write_explanation_json(explaining, inv->out);
    else
        write_explanation_text(explaining, inv->out);
    return STATUS_OK;
}
