// SPDX-License-Identifier: GPL-3.0-or-later
// exposure BLEND: is it within the limits in this room, which limit bites, how much may be used.
#include "cli/assessing.h"
#include "cli/case_option.h"
#include "cli/draw_exposure.h"
#include "cli/explain.h"
#include "cli/page_options.h"

static enum status draw(const struct assessing *assessing, const char *path, struct error *err) {
    struct text question = {0};
    struct text set = {0};
    add_question(assessing, &question);
    add_set(assessing, &set);
    struct exposure_drawing drawing = {.question = text_bytes(&question),
                                       .limit_set = text_bytes(&set),
                                       .begins_h = assessing->first_h,
                                       .capture_measured = assessing->capture_measured,
                                       .plan = &assessing->day->plan,
                                       .air = &assessing->day->air,
                                       .judged = assessing->day->judged};
    enum status status = question.failed || set.failed ? error_set(err, STATUS_MEMORY, "out of memory")
                                                       : draw_exposure(assessing->inv, &drawing, path, err);
    text_release(&question);
    text_release(&set);
    return status;
}

static enum status explain(const struct assessing *assessing, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(assessing->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < assessing->task_count; i++)
        explain_blend(explaining, &assessing->blends[i]);
    if (!assessing->strictest)
        explain_authority(explaining, assessing->authority);
    write_exposure_json(assessing, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct assessing *assessing = arena_new(inv->arena, 1, sizeof *assessing);
    if (!assessing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const char *chart = option_value(inv, "--chart");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = assessing_make(inv, assessing, err);
    if (status == STATUS_OK && chart)
        status = draw(assessing, chart, err);
    if (status == STATUS_OK && inv->json)
        write_exposure_json(assessing, inv->out);
    else if (status == STATUS_OK)
        write_exposure_text(assessing, inv->out);
    if (status == STATUS_OK)
        status = explain(assessing, err);
    if (status == STATUS_OK && assessing_answer(assessing) != ANSWER_WITHIN)
        status = STATUS_NEGATIVE;
    assessing_release(assessing);
    return status;
}

static const struct option options[] = {
    {.name = "--use", .argument = "ML/H", .help = "how much of the blend is used up per hour of work"},
    {.name = "--hours", .argument = "H", .help = "hours of work in the day"},
    {.name = "--task",
     .argument = "TEXT",
     .help = "instead of the two: FROM-TO METHOD AMOUNT [on N cm2] [of BLEND]",
     .repeats = true},
    {.name = "--room", .argument = "M3", .help = "volume of the room"},
    {.name = "--air-changes", .argument = "N", .help = "fresh air per hour in room volumes; 0 = sealed"},
    {.name = "--limits", .argument = "SET", .help = "us-osha, us-niosh, us-epa, eu, uk, de or strictest (default)"},
    {.name = "--leave", .help = "the person leaves the room with the task (default: stays to the end of 8 h)"},
    {.name = "--shift", .argument = "H", .help = "hours that the person is there (default 8, or to the last task)"},
    {.name = "--long-shift", .help = "reduce 8-hour limits for a shift of more than 8 h (Brief and Scala)"},
    {.name = "--like-effects", .help = "the index of each effect that components have in common, besides"},
    {.name = "--rate",
     .argument = "RATE",
     .help = "all (default): all evaporates during the task; model: also by the model, the larger decides"},
    {.name = "--wet", .argument = "CM2", .help = "surface that is wet at a time, for --rate model"},
    {.name = "--capture", .argument = "PERCENT", .help = "of the vapour that an extraction arm takes, as measured"},
    {.name = "--capture-measured", .argument = "TEXT", .help = "how --capture was measured; without it no credit"},
    {.name = "--near-flow", .argument = "M3/MIN", .help = "air exchanged between near field and room (default 5)"},
    {.name = "--mixing",
     .argument = "SHARE",
     .help = "share of the fresh air that really mixes, 0.05 to 1 (default 1)"},
    {.name = "--share", .argument = "SHARE", .help = "of every limit that may be used up (default 1)"},
    {.name = "--temperature", .argument = "DEGC", .help = "of room and liquid, 5 to 35 (default 20)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
    CHART_OPTION("concentration against time with the limits, as PNG, SVG or PDF"),
    {.name = "--start",
     .argument = "TIME",
     .help = "time of day at which the work begins, for the chart, for example 9:30"},
    PAGE_OPTIONS,
};

const struct command cmd_exposure = {
    .name = "exposure",
    .arguments = "[BLEND]",
    .arguments_least = 0,
    .arguments_most = 1,
    .summary = "Is it within the limits in this room, which limit bites, how much may I use",
    .details =
        "A day is one task (--use, --hours) or several (--task \"9:00-11:30 swab 20 mL/h of toluene 1 + acetone 1\"). "
        "Exit status 1 when a limit, an IDLH or the fire alarm is passed, when a component has no limit in the set "
        "(then "
        "it cannot be judged), and when the case announces people (pregnancy, breastfeeding, under 18, sensitised) "
        "against whom a component is classified, or a component of which no hazards are known.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_LIMITS,
    .example = "mildsolve exposure \"toluene 1 + acetone 1\" --use 20 --hours 5 --room 85 --air-changes 3 --limits eu",
    .run = run,
};
