// SPDX-License-Identifier: GPL-3.0-or-later
// learn: what the swab tests of a case say about its varnish and its paint.
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/learn.h"
#include "cli/page_options.h"

static enum status explain(const struct learning *learning, struct error *err) {
    struct text answer = {0};
    struct blend blend;
    struct explaining *explaining = explain_begin(learning->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < learning->blend_count; i++)
        if (blend_parse(&learning->inv->library, learning->blends[i].notation, &blend, NULL, NULL) == STATUS_OK)
            explain_blend(explaining, &blend);
    for (int view = 0; view < LEARN_VIEWS; view++)
        for (size_t i = 0; learning->views[view].known && i < belief_material_count(learning->views[view].learnt.plan);
             i++)
            explain_material(explaining, belief_material(learning->views[view].learnt.plan, i));
    write_learn_json(learning, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    if (option_given(inv, "--fit"))
        return learn_by_fit(inv, err);
    if (!inv->casefile)
        return error_set(err, STATUS_USAGE,
                         "learn needs a case with tests, mildsolve learn --case FILE, or a list to fit a sphere to, "
                         "mildsolve learn --fit FILE");
    struct learning *learning = arena_new(inv->arena, 1, sizeof *learning);
    if (!learning)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = learning_make(inv, learning, err);
    const char *chart = option_value(inv, "--chart");
    if (status == STATUS_OK && chart)
        status = draw_learn(learning, chart, err);
    if (status == STATUS_OK && inv->json)
        write_learn_json(learning, inv->out);
    else if (status == STATUS_OK)
        write_learn_text(learning, inv->out);
    if (status == STATUS_OK)
        status = explain(learning, err);
    learning_release(learning);
    return status;
}

static const struct option options[] = {
    CASE_OPTION,
    EXPLAIN_OPTION,
    CHART_OPTION("Teas chart: areas of doubt, tests by result; PNG, SVG or PDF"),
    PAGE_OPTIONS,
    {.name = "--fit",
     .argument = "FILE",
     .help = "instead: a sphere from a list (CSV) of liquids that dissolve or not"},
    {.name = "--polymer", .argument = "NAME", .help = "with --fit: only rows with this name in the column polymer"},
    {.name = "--radius-most", .argument = "MPA05", .help = "with --fit: the largest radius, up to 50 (default 15)"},
    {.name = "--temperature", .argument = "DEGC", .help = "of the tests, 5 to 35 (default 20)"},
    {.name = "--particles",
     .argument = "N",
     .help = "draws of the belief, 400 to 200000 (default 2000, fewer with many tests)"},
    {.name = "--seed",
     .argument = "N",
     .help = "of the random numbers (default 1); the same seed gives the same answer"},
};

const struct command cmd_learn = {
    .name = "learn",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "What the swab tests say about the layers",
    .details =
        "Learns from every test of the case that stands: where the varnish lies, how strong a blend it needs, and "
        "how near that is to the paint; by film and by RED, for each passage.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_UNCERTAINTY | TABLE_UNIFAC,
    .example = "mildsolve learn --case demo-case.yaml",
    .run = run,
};
