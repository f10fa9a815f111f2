// SPDX-License-Identifier: GPL-3.0-or-later
// layers: will the new varnish lift my retouching; can it be taken off later.
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/draw_layers.h"
#include "cli/layers.h"
#include "cli/page_options.h"

// Its layers and what judges them, and the blends that take one off later.
static void explain_stack(struct explaining *explaining, const struct stack_answer *answer) {
    for (size_t i = 0; i < answer->stack.count; i++) {
        explain_material(explaining, answer->stack.layers[i].material);
        explain_blend(explaining, &answer->stack.layers[i].carrier);
    }
    for (size_t i = 0; i < answer->pair_count; i++)
        explain_material(explaining, answer->pairs[i].judged);
    for (size_t i = 0; i < answer->removal_count; i++) {
        explain_material(explaining, answer->removals[i].target);
        for (size_t k = 0; k < answer->removals[i].spare_count; k++)
            explain_material(explaining, answer->removals[i].spare[k]);
        for (size_t k = 0; k < answer->removals[i].ranking.count; k++)
            explain_blend(explaining, &answer->removals[i].ranking.rows[k].blend);
    }
}

static enum status explain(const struct layers_answer *layers, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(layers->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < layers->stack_count; i++)
        explain_stack(explaining, &layers->stacks[i]);
    explain_reference(explaining);
    write_layers_json(layers, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct layers_answer *answer = arena_new(inv->arena, 1, sizeof *answer);
    if (!answer)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = layers_answer_make(inv, answer, err);
    if (status == STATUS_OK)
        status = draw_layers(answer, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        if (inv->json)
            write_layers_json(answer, inv->out);
        else
            write_layers_text(answer, inv->out);
    }
    if (status == STATUS_OK)
        status = explain(answer, err);
    if (status == STATUS_OK && !layers_any_holds(answer)) // every stack asked about lifts something, or is not judged
        status = STATUS_NEGATIVE;
    layers_answer_release(answer);
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
    EXPLAIN_OPTION,
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
