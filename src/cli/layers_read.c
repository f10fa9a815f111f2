// SPDX-License-Identifier: GPL-3.0-or-later
// The stacks that are asked about: typed, or planned in the case.
#include "cli/layers.h"

#include <math.h>
#include <string.h>

static const char default_paint[] = "linseed-oil-film-young";

static enum status read_layer(struct layers_answer *answer, const char *notation, struct stack_layer *ret,
                              struct error *err) {
    char note[BLEND_NOTE_SIZE];
    enum status status = stack_layer_parse(answer->inv->arena, &answer->inv->library, notation, ret, note, err);
    if (status == STATUS_OK && note[0])
        page_paragraph_f(answer->inv->talk, 0, 2, "note: %s", note);
    return status;
}

// A picture has paint below, whoever forgets to say so.
static enum status put_paint_below(struct layers_answer *answer, struct stack *stack, struct error *err) {
    if (stack->count == 0 || !stack->layers[0].planned)
        return STATUS_OK;
    if (stack->count == STACK_LAYERS_MAX)
        return error_set(err, STATUS_INPUT, "more than %d layers", STACK_LAYERS_MAX - 1);
    memmove(stack->layers + 1, stack->layers, stack->count * sizeof stack->layers[0]);
    stack->count++;
    enum status status = read_layer(answer, default_paint, &stack->layers[0], err);
    stack->layers[0].role = ROLE_PAINT;
    page_paragraph_f(answer->inv->talk, 0, 2, "note: no layer that stands already is given; %s is taken as the paint",
                     default_paint);
    return status;
}

static enum status typed_stack(struct layers_answer *answer, struct stack *ret, struct error *err) {
    const char *const *notations = NULL;
    size_t count = option_values(answer->inv, "--layer", &notations);
    *ret = (struct stack){0};
    for (size_t i = 0; i < count; i++) {
        if (ret->count == STACK_LAYERS_MAX)
            return error_set(err, STATUS_INPUT, "more than %d layers", STACK_LAYERS_MAX);
        enum status status = read_layer(answer, notations[i], &ret->layers[ret->count++], err);
        if (status != STATUS_OK)
            return status;
    }
    if (ret->count && ret->layers[0].role == ROLE_LAYER && !ret->layers[0].planned)
        ret->layers[0].role = ROLE_PAINT;
    enum status status = put_paint_below(answer, ret, err);
    return status == STATUS_OK ? stack_check(ret, err) : status;
}

// The same stack with another uppermost layer.
static enum status add_instead(struct layers_answer *answer, const char *notation, struct error *err) {
    struct stack stack = answer->stacks[0].stack;
    struct stack_layer *top = &stack.layers[stack.count - 1];
    struct stack_layer other;
    if (answer->stack_count == STACKS_MAX)
        return error_set(err, STATUS_INPUT, "more than %d stacks", STACKS_MAX);
    enum status status = read_layer(answer, notation, &other, err);
    if (status != STATUS_OK)
        return status;
    if (!other.planned)
        return error_set(err, STATUS_INPUT,
                         "--instead '%.80s': what is put on needs a carrier: 'RESIN PERCENT in CARRIER'", notation);
    other.role = other.role == ROLE_LAYER ? top->role : other.role;
    *top = other;
    answer->stacks[answer->stack_count++].stack = stack;
    return STATUS_OK;
}

static void name_options(struct layers_answer *answer) {
    static const char *const names[STACKS_MAX] = {"A", "B", "C", "D", "E", "F", "G", "H"};
    if (answer->stack_count > 1)
        for (size_t i = 0; i < answer->stack_count; i++)
            answer->stacks[i].stack.option = names[i];
}

enum status read_stacks(struct layers_answer *answer, struct error *err) {
    const char *const *instead = NULL;
    size_t count = option_values(answer->inv, "--instead", &instead);
    answer->stacks = arena_new(answer->inv->arena, STACKS_MAX, sizeof *answer->stacks);
    if (!answer->stacks)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = typed_stack(answer, &answer->stacks[0].stack, err);
    answer->stack_count = 1;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = add_instead(answer, instead[i], err);
    name_options(answer);
    return status;
}
