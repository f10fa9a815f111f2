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
    if (stack->count == 0 || !stack->layers[0].carrier_words)
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

// --- from the case ---

static bool knows_option(const struct layers_answer *answer, const char *option) {
    for (size_t i = 0; i < answer->stack_count; i++)
        if (answer->stacks[i].stack.option && strcmp(answer->stacks[i].stack.option, option) == 0)
            return true;
    return false;
}

// The variants that the planned layers name, in their order; one without a name when there are none.
static enum status list_options(struct layers_answer *answer, struct error *err) {
    const struct case_planned *planned = answer->inv->casefile->planned.items;
    const char *wanted = option_value(answer->inv, "--option");
    for (size_t i = 0; i < answer->inv->casefile->planned.count; i++) {
        const char *option = planned[i].option;
        if (!option || knows_option(answer, option) || (wanted && strcmp(wanted, option) != 0))
            continue;
        if (answer->stack_count == STACKS_MAX)
            return error_set(err, STATUS_INPUT, "planned: more than %d options", STACKS_MAX);
        answer->stacks[answer->stack_count++].stack.option = option;
    }
    if (wanted && answer->stack_count == 0)
        return error_set(err, STATUS_UNKNOWN_NAME, "--option: no planned layer of the case belongs to '%.80s'", wanted);
    answer->stack_count += answer->stack_count == 0;
    return STATUS_OK;
}

// The paint of the case below what is planned, where the plan has none of its own.
static enum status put_case_paint_below(struct layers_answer *answer, struct stack *stack, struct error *err) {
    const struct case_layer *layers = answer->inv->casefile->layers.items;
    if (stack->count == 0 || !stack->layers[0].carrier_words || stack->count == STACK_LAYERS_MAX)
        return STATUS_OK;
    for (size_t i = 0; i < answer->inv->casefile->layers.count; i++) {
        if (layers[i].kind != LAYER_PAINT || !layers[i].material)
            continue;
        memmove(stack->layers + 1, stack->layers, stack->count * sizeof stack->layers[0]);
        stack->count++;
        stack->layers[0] = (struct stack_layer){.percent_w_v = NAN, .drying_days = NAN, .role = ROLE_PAINT};
        stack->layers[0].id = layers[i].id;
        return library_material(&answer->inv->library, layers[i].material, &stack->layers[0].material, err);
    }
    return STATUS_OK;
}

static enum status planned_stack(struct layers_answer *answer, struct stack *stack, struct error *err) {
    const struct case_planned *planned = answer->inv->casefile->planned.items;
    for (size_t i = 0; i < answer->inv->casefile->planned.count; i++) {
        if (planned[i].option && (!stack->option || strcmp(planned[i].option, stack->option) != 0))
            continue;
        if (stack->count == STACK_LAYERS_MAX)
            return error_set(err, STATUS_INPUT, "planned: more than %d layers in one stack", STACK_LAYERS_MAX);
        enum status status =
            stack_layer_of_case(&answer->inv->library, &planned[i], &stack->layers[stack->count++], err);
        if (status != STATUS_OK)
            return status;
    }
    enum status status = put_case_paint_below(answer, stack, err);
    if (status == STATUS_OK)
        status = put_paint_below(answer, stack, err);
    return status == STATUS_OK ? stack_check(stack, err) : status;
}

static enum status planned_stacks(struct layers_answer *answer, struct error *err) {
    if (answer->inv->casefile->planned.count == 0)
        return error_set(err, STATUS_INPUT,
                         "%s: nothing is planned (key 'planned'), and no --layer is given: the stack is empty",
                         answer->inv->casefile->path);
    enum status status = list_options(answer, err);
    for (size_t i = 0; status == STATUS_OK && i < answer->stack_count; i++)
        status = planned_stack(answer, &answer->stacks[i].stack, err);
    return status;
}

enum status read_stacks(struct layers_answer *answer, struct error *err) {
    const char *const *instead = NULL;
    size_t count = option_values(answer->inv, "--instead", &instead);
    answer->stacks = arena_new(answer->inv->arena, STACKS_MAX, sizeof *answer->stacks);
    if (!answer->stacks)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (answer->inv->casefile && !option_given(answer->inv, "--layer"))
        return count ? error_set(err, STATUS_USAGE,
                                 "--instead needs --layer; in a case the variants are named by 'option'")
                     : planned_stacks(answer, err);
    if (option_given(answer->inv, "--option"))
        return error_set(err, STATUS_USAGE, "--option names a variant of the layers planned in a case");
    enum status status = typed_stack(answer, &answer->stacks[0].stack, err);
    answer->stack_count = 1;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status = add_instead(answer, instead[i], err);
    name_options(answer);
    return status;
}
