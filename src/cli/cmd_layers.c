// SPDX-License-Identifier: GPL-3.0-or-later
// layers: will the new varnish lift my retouching; can it be taken off later.
#include "cli/case_option.h"
#include "cli/draw_layers.h"
#include "cli/interrupt.h"
#include "cli/layers.h"
#include "cli/page_options.h"

#include <math.h>
#include <string.h>

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

static void release(struct layers_answer *answer) {
    for (size_t i = 0; i < answer->stack_count; i++)
        for (size_t k = 0; k < answer->stacks[i].removal_count; k++)
            layer_removal_release(&answer->stacks[i].removals[k]);
    unifac_table_release(&answer->groups);
}

// The answer is no when every stack that was asked about lifts something, or cannot be judged.
static bool any_stack_holds(const struct layers_answer *answer) {
    for (size_t i = 0; i < answer->stack_count; i++)
        if (answer->stacks[i].worst < TOUCH_MAY_LIFT)
            return true;
    return false;
}

static enum status run(struct invocation *inv, struct error *err) {
    struct layers_answer *answer = arena_new(inv->arena, 1, sizeof *answer);
    if (!answer)
        return error_set(err, STATUS_MEMORY, "out of memory");
    answer->inv = inv;
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = read_stacks(answer, err);
    if (status == STATUS_OK)
        status = read_options(answer, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &answer->groups, err);
    if (status == STATUS_OK)
        status = answer_stacks(answer, err);
    if (status == STATUS_OK)
        status = draw_layers(answer, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        if (inv->json)
            write_layers_json(answer, inv->out);
        else
            write_layers_text(answer, inv->out);
    }
    if (status == STATUS_OK && !any_stack_holds(answer))
        status = STATUS_NEGATIVE;
    release(answer);
    return status;
}

static const struct option options[] = {
    {.name = "--layer",
     .argument = "LAYER",
     .help = "a layer, from the bottom up: 'ROLE: RESIN PERCENT in CARRIER, brush, 21 d'",
     .repeats = true},
    {.name = "--instead", .argument = "LAYER", .help = "another uppermost layer, to be compared", .repeats = true},
    {.name = "--option", .argument = "NAME", .help = "only this variant of the layers planned in the case"},
    SHELF_OPTIONS,
    FILTER_OPTIONS,
    {.name = "--components", .argument = "N", .help = "bottles in one blend at most, 1 to 5 (default 2)"},
    {.name = "--step", .argument = "PERCENT", .help = "grid of the shares: 10, 5, 2.5 or 1 (default 5)"},
    {.name = "--probability", .argument = "P", .help = "that a blend takes a layer off, at least (default 0.6)"},
    {.name = "--doubt", .argument = "EFFORT", .help = "none, quick (64 samples, default) or full (256)"},
    {.name = "--temperature", .argument = "DEGC", .help = "5 to 35 (default 20)"},
    {.name = "--show", .argument = "N", .help = "blends for each layer (default 3)"},
    {.name = "--now", .help = "only what happens while the layers are put on: nothing is searched"},
    {.name = "--threads", .argument = "N", .help = "threads of the search (default: one for each processor)"},
    CASE_OPTION,
    {.name = "--section", .argument = "FILE", .help = "the stacks as a section drawing, as PNG, SVG or PDF"},
    CHART_OPTION("the windows of the layers on the Teas chart with the carriers"),
    PAGE_OPTIONS,
};

const struct command cmd_layers = {
    .name = "layers",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "Will the new varnish lift my retouching; can it be taken off later",
    .details =
        "A layer without a carrier stands already. ROLE is paint, isolating varnish, fill, retouching or varnish; "
        "fills and retouching cover spots only.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_ALL & ~(unsigned)TABLE_LIMITS,
    .example =
        "mildsolve layers --layer linseed-oil-film-aged --layer \"retouching: urea-aldehyde-resin in propan-2-ol, 5 "
        "d, done\" --layer \"varnish: hydrogenated-hydrocarbon-resin 20 in isoparaffin-c9-c12, spray\"",
    .run = run,
};
