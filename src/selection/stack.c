// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/stack.h"

#include <math.h>
#include <string.h>

enum status stack_check(const struct stack *stack, struct error *err) {
    if (stack->count == 0)
        return error_set(err, STATUS_INPUT, "the stack is empty: at least one layer is needed");
    bool planned = false;
    for (size_t i = 0; i < stack->count; i++) {
        if (planned && !stack->layers[i].planned)
            return error_set(err, STATUS_INPUT,
                             "layer %zu (%s) has no carrier and lies above one that is still to be put on: what is it "
                             "put on with? Write 'RESIN PERCENT in CARRIER'",
                             i + 1, stack->layers[i].material->id);
        planned |= stack->layers[i].planned;
    }
    if (!planned)
        return error_set(err, STATUS_INPUT,
                         "no layer of the stack has a carrier, so nothing is put on; write 'RESIN PERCENT in CARRIER'");
    return STATUS_OK;
}

bool layer_covers_spots_only(const struct stack_layer *layer) {
    return layer->role == ROLE_FILL || layer->role == ROLE_RETOUCHING;
}

bool stack_touches(const struct stack *stack, size_t upper, size_t lower) {
    for (size_t i = lower + 1; i < upper; i++)
        if (!layer_covers_spots_only(&stack->layers[i]))
            return false;
    return lower < upper;
}

static const struct material *material_by_id(const struct library *lib, const char *id) {
    for (size_t i = 0; id && i < lib->material_count; i++)
        if (strcmp(lib->materials[i].id, id) == 0)
            return &lib->materials[i];
    return NULL;
}

const struct ageing_state *ageing_state_of(const struct library *lib, const struct material *material) {
    const struct ageing_state *state = NULL;
    for (size_t i = 0; i < lib->ageing_state_count; i++)
        if (strcmp(lib->ageing_states[i].material, material->id) == 0)
            state = &lib->ageing_states[i];
    return state;
}

const struct material *material_when_aged(const struct library *lib, const struct material *material) {
    const struct ageing_state *state = ageing_state_of(lib, material);
    return state ? material_by_id(lib, state->aged) : material;
}

const struct material *material_with_region(const struct library *lib, const struct material *material) {
    if (!isnan(material->sphere.r0))
        return material;
    const struct material *stand_in = material_by_id(lib, material->substitute);
    return stand_in && !isnan(stand_in->sphere.r0) ? stand_in : NULL;
}

bool materials_alike(const struct library *lib, const struct material *a, const struct material *b) {
    return a == b || material_when_aged(lib, a) == b || material_when_aged(lib, b) == a;
}

enum status stack_layer_of_case(const struct library *lib, const struct case_planned *planned, struct stack_layer *ret,
                                struct error *err) {
    struct stack_layer layer = {.role = planned->role,
                                .planned = planned->carrier && !planned->done,
                                .carrier_words = planned->carrier,
                                .percent_w_v = planned->percent_w_v,
                                .method = planned->method,
                                .drying_days = planned->drying_days,
                                .id = planned->id};
    enum status status = library_material(lib, planned->material, &layer.material, err);
    if (status == STATUS_OK && planned->carrier)
        status = blend_parse(lib, planned->carrier, &layer.carrier, NULL, err);
    if (status == STATUS_OK)
        *ret = layer;
    return status;
}
