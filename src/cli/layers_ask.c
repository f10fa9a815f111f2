// SPDX-License-Identifier: GPL-3.0-or-later
// What layers answers: the pairs of each stack, how its layers come off later, what would be better.
#include "cli/interrupt.h"
#include "cli/layers.h"

static const double usual_probability = 0.6; // later somebody tests again: less sure than gentlest asks for

static enum status read_options(struct layers_answer *answer, struct error *err) {
    static const char *const efforts[] = {"none", "quick", "full", NULL};
    struct invocation *inv = answer->inv;
    answer->shelf.margin = goal_margin_usual;
    answer->later = !option_given(inv, "--now");
    enum status status =
        option_integer(inv, "--components", 1, GOAL_COMPONENTS_MAX, 2, &answer->shelf.components_most, err);
    if (status == STATUS_OK)
        status = goal_step_option(inv, &answer->shelf, err);
    if (status == STATUS_OK)
        status = goal_bottles_option(inv, &answer->shelf, err);
    if (status == STATUS_OK)
        status = goal_filter_options(inv, &answer->shelf, &answer->filters, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--doubt", efforts, DOUBT_EFFORT_QUICK, &answer->effort, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--probability", 0, 1, usual_probability, &answer->least_probability, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &answer->temp_c, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--show", 1, RANKING_SHOWN_MAX, 3, &answer->show, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--threads", 1, CREW_MAX, crew_processors(), &answer->threads, err);
    return status;
}

// --- the pairs ---

static enum status follow_coats(const struct layers_answer *answer, const struct pair_request *request,
                                struct stack_answer *stack, struct error *err) {
    for (size_t i = 0; i < stack->stack.count; i++) {
        if (!stack->stack.layers[i].planned)
            continue;
        stack->coats[i] = arena_new(answer->inv->arena, 1, sizeof *stack->coats[i]);
        if (!stack->coats[i])
            return error_set(err, STATUS_MEMORY, "out of memory");
        enum status status = planned_coat_make(request, &stack->stack.layers[i], stack->coats[i], err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static struct pair_request pair_request_of(const struct layers_answer *answer, size_t samples) {
    return (struct pair_request){.lib = &answer->inv->library,
                                 .table = &answer->groups,
                                 .temp_c = answer->temp_c,
                                 .samples = samples,
                                 .threads = answer->threads};
}

static void note_worst(const struct layer_pair *pair, struct stack_answer *stack) {
    if (!pair->touches)
        return;
    if (pair->touch > stack->worst)
        stack->worst = pair->touch;
    if (pair->touch > stack->worst_of[pair->upper])
        stack->worst_of[pair->upper] = pair->touch;
    if (pair->touch > stack->worst_of[pair->lower])
        stack->worst_of[pair->lower] = pair->touch;
}

static enum status judge_pairs(struct layers_answer *answer, struct stack_answer *stack, struct error *err) {
    struct pair_request request =
        pair_request_of(answer, answer->effort == DOUBT_EFFORT_FULL ? 4 * DOUBT_FULL_SAMPLES : DOUBT_FULL_SAMPLES);
    enum status status = follow_coats(answer, &request, stack, err);
    for (size_t upper = 1; upper < stack->stack.count; upper++)
        for (size_t lower = 0; stack->coats[upper] && lower < upper; lower++) {
            struct layer_pair *pair = &stack->pairs[stack->pair_count];
            if (status == STATUS_OK)
                status = layer_pair_judge(&request, &stack->stack, upper, lower, stack->coats[upper], pair, err);
            if (status != STATUS_OK)
                return status;
            stack->pair_count++;
            note_worst(pair, stack);
        }
    return status;
}

const struct layer_pair *pair_of(const struct stack_answer *answer, size_t upper, size_t lower) {
    for (size_t i = 0; i < answer->pair_count; i++)
        if (answer->pairs[i].upper == upper && answer->pairs[i].lower == lower)
            return &answer->pairs[i];
    return NULL;
}

// --- later ---

static struct removal_request removal_request_of(const struct layers_answer *answer) {
    return (struct removal_request){.lib = &answer->inv->library,
                                    .table = &answer->groups,
                                    .shelf = &answer->shelf,
                                    .temp_c = answer->temp_c,
                                    .least_probability = answer->least_probability,
                                    .effort = (enum doubt_effort)answer->effort,
                                    .show = (size_t)answer->show,
                                    .threads = answer->threads,
                                    .watch = {.cancel = interrupt_cancel()}};
}

static enum status find_removals(struct layers_answer *answer, struct stack_answer *stack, struct error *err) {
    struct removal_request request = removal_request_of(answer);
    for (size_t layer = stack->stack.count; layer-- > 1;) {
        for (int aged = 0; stack->stack.layers[layer].role != ROLE_PAINT && aged < 2; aged++) {
            enum status status = layer_removal_find(&request, &stack->stack, layer, aged == 1,
                                                    &stack->removals[stack->removal_count++], err);
            if (status != STATUS_OK)
                return status;
        }
    }
    return STATUS_OK;
}

// Sought only where a brush would drag something, or worse.
static enum status find_better(struct layers_answer *answer, struct stack_answer *stack, struct error *err) {
    struct better_request request = {.pairs = pair_request_of(answer, DOUBT_QUICK_SAMPLES),
                                     .removals = removal_request_of(answer)};
    if (stack->worst < TOUCH_SOFTENS)
        return STATUS_OK;
    stack->better_sought = true;
    return better_find(&request, &stack->stack, stack->worst_of, TOUCH_SOFTENS, &stack->better, err);
}

static enum status answer_stacks(struct layers_answer *answer, struct error *err) {
    enum status status = STATUS_OK;
    interrupt_watch();
    for (size_t i = 0; status == STATUS_OK && i < answer->stack_count; i++) {
        status = judge_pairs(answer, &answer->stacks[i], err);
        if (status == STATUS_OK && answer->later)
            status = find_better(answer, &answer->stacks[i], err);
        if (status == STATUS_OK && answer->later)
            status = find_removals(answer, &answer->stacks[i], err);
    }
    interrupt_done();
    return status;
}

void layers_answer_release(struct layers_answer *answer) {
    for (size_t i = 0; i < answer->stack_count; i++)
        for (size_t k = 0; k < answer->stacks[i].removal_count; k++)
            layer_removal_release(&answer->stacks[i].removals[k]);
    unifac_table_release(&answer->groups);
}

bool layers_any_holds(const struct layers_answer *answer) {
    for (size_t i = 0; i < answer->stack_count; i++)
        if (answer->stacks[i].worst < TOUCH_MAY_LIFT)
            return true;
    return false;
}

enum status layers_answer_make(struct invocation *inv, struct layers_answer *ret, struct error *err) {
    ret->inv = inv;
    enum status status = read_stacks(ret, err);
    if (status == STATUS_OK)
        status = read_options(ret, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &ret->groups, err);
    return status == STATUS_OK ? answer_stacks(ret, err) : status;
}
