// SPDX-License-Identifier: GPL-3.0-or-later
// ladder: the next swab tests, mildest first, the smallest sensible step up.
#include "base/units.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/ladder.h"

static enum status explain(const struct ladder_answer *ladder, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(ladder->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < ladder->row_count; i++)
        explain_blend(explaining, &ladder->rows[i].plan.blend);
    for (size_t i = 0; i < ladder->other_count; i++)
        explain_blend(explaining, &ladder->others[i].plan.blend);
    explain_goal(explaining, &ladder->goal);
    explain_reference(explaining);
    write_ladder_json(ladder, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct ladder_answer *answer = arena_new(inv->arena, 1, sizeof *answer);
    if (!answer)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = ladder_answer_make(inv, answer, err);
    if (status == STATUS_OK && inv->json)
        write_ladder_json(answer, inv->out);
    else if (status == STATUS_OK)
        write_ladder_text(answer, inv->out);
    if (status == STATUS_OK)
        status = explain(answer, err);
    if (status == STATUS_OK && answer->row_count == 0)
        status = STATUS_NEGATIVE;
    ladder_answer_release(answer);
    return status;
}

static const struct option options[] = {
    MATERIAL_OPTIONS,
    SHELF_OPTIONS,
    FILTER_OPTIONS,
    {.name = "--by",
     .argument = "VIEW",
     .help =
         "film: by activities, as the layer takes it up (default, where it has a film); red: by distance of the mean"},
    {.name = "--toward", .argument = "BOTTLE", .help = "climb toward this strong bottle (default: the mildest way)"},
    {.name = "--even", .help = "the even series: 10 % by volume a step, whatever was found"},
    {.name = "--show", .argument = "N", .help = "tests of the climb, 1 to 12 (default 3)"},
    {.name = "--touch-most",
     .argument = "P",
     .help = "never propose what touches the paint with more than this probability (default 0.5)"},
    {.name = "--contact", .argument = "SECONDS", .help = "contact of the next test (default: of the case, else 20)"},
    {.name = "--rolls", .argument = "N", .help = "rolls of the swab in the next test (default 6)"},
    {.name = "--jar", .argument = "ML", .help = "what is left of the blend of the last test (default: a test batch)"},
    {.name = "--temperature", .argument = "DEGC", .help = "5 to 35 (default 20)"},
    {.name = "--threads", .argument = "N", .help = "threads (default: one for each processor)"},
    {.name = "--date", .argument = "DATE", .help = "day on which bottles are judged (default today)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
};

const struct command cmd_ladder = {
    .name = "ladder",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "The next swab tests, mildest first, the smallest sensible step up",
    .details = "After each test note it with `mildsolve record` and ask again: the ladder learns from every result.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_ALL & ~(unsigned)TABLE_LIMITS,
    .example = "mildsolve ladder --case demo-case.yaml",
    .dated = true,
    .run = run,
};
