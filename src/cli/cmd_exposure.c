// SPDX-License-Identifier: GPL-3.0-or-later
// exposure BLEND: is it within the limits in this room, which limit bites, how much may be used.
#include "base/language.h"
#include "cli/assessing.h"
#include "cli/case_option.h"
#include "cli/draw_exposure.h"
#include "cli/explain.h"
#include "cli/page_options.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const struct exposure_flag_name exposure_flag_names[EXPOSURE_FLAGS] = {
    {EXPOSURE_SKIN, "skin", N_("taken up through the skin")},
    {EXPOSURE_CARCINOGEN, "carcinogen", N_("carcinogen (known or suspected)")},
    {EXPOSURE_MUTAGEN, "mutagen", N_("mutagen (known or suspected)")},
    {EXPOSURE_REPRODUCTIVE, "reproductive", N_("toxic to reproduction (known or suspected)")},
    {EXPOSURE_SENSITISER, "sensitiser", N_("sensitiser")},
};

// --- what writers ask ---

const struct exposure_judgement *deciding(const struct assessing *assessing, const struct assessed_day *day) {
    return assessing->strictest ? &day->all.sets[day->all.tightest] : day->judged;
}

double allowed_ml_h(const struct assessing *assessing) {
    const struct assessed_day *day = assessing->day;
    if (!day->judged->complete || !deciding(assessing, day)->complete)
        return NAN;
    return deciding(assessing, day)->allowed_factor * day->plan.tasks[0].use_ml_h;
}

static bool same_notation(const struct blend *a, const struct blend *b) {
    struct text first = {0}, second = {0};
    blend_write(a, &first);
    blend_write(b, &second);
    bool same = strcmp(text_bytes(&first), text_bytes(&second)) == 0;
    text_release(&first);
    text_release(&second);
    return same;
}

bool first_with_blend(const struct assessing *assessing, size_t task) {
    for (size_t i = 0; i < task; i++)
        if (same_notation(&assessing->blends[i], &assessing->blends[task]))
            return false;
    return true;
}

const char *clock_write(double hour, char buffer[CLOCK_BYTES]) {
    int minutes = (int)lround(60 * hour);
    snprintf(buffer, CLOCK_BYTES, "%d:%02d", minutes / 60, minutes % 60);
    return buffer;
}

static void add_one_task(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->day->plan;
    struct text blend = {0};
    blend_write(&assessing->blends[0], &blend);
    text_say(out,
             plan->room.air_changes_per_h > 0
                 ? N_("%s: %g mL/h for %g h in %g m3 with %g air changes per hour; ")
                 : N_("%s: %g mL/h for %g h in %g m3 with %g air changes per hour (sealed); "),
             text_bytes(&blend), plan->tasks[0].use_ml_h, plan->tasks[0].length_h, plan->room.volume_m3,
             plan->room.air_changes_per_h);
    out->failed |= blend.failed;
    text_release(&blend);
}

static void add_day_of_tasks(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->day->plan;
    double last_h = 0;
    char from[CLOCK_BYTES], to[CLOCK_BYTES];
    for (size_t i = 0; i < assessing->task_count; i++)
        last_h = fmax(last_h, assessing->tasks[i].to_h);
    clock_write(assessing->first_h, from);
    clock_write(last_h, to);
    if (assessing->task_count == 1)
        text_say(out, "one task from %s to %s in %g m3 with %g air changes per hour; ", from, to, plan->room.volume_m3,
                 plan->room.air_changes_per_h);
    else
        text_say(out, "%zu tasks from %s to %s in %g m3 with %g air changes per hour; ", assessing->task_count, from,
                 to, plan->room.volume_m3, plan->room.air_changes_per_h);
}

void add_question(const struct assessing *assessing, struct text *out) {
    if (assessing->timed)
        add_day_of_tasks(assessing, out);
    else
        add_one_task(assessing, out);
    if (assessing->day->plan.leaves && assessing->task_count > 1)
        text_say(out, "the person is in the room only while a task runs.");
    else if (assessing->day->plan.leaves)
        text_say(out, "the person leaves the room with the task.");
    else
        text_say(out, "the person stays in the room to the end of the %g h.", assessing->day->air.shift_h);
}

void add_set(const struct assessing *assessing, struct text *out) {
    const struct authority *authority = assessing->day->judged->authority;
    const char *edition = authority->edition ? authority->edition : say("edition not stated");
    text_say(out,
             assessing->strictest ? N_("%s: %s, %s (the strictest: largest index of any one set)") : N_("%s: %s, %s"),
             authority->id, authority->name, edition);
}

// --- judging ---

static void choose_set(const struct assessing *assessing, struct assessed_day *day) {
    day->judged = &day->all.sets[day->all.strictest];
    for (size_t i = 0; !assessing->strictest && i < day->all.count; i++)
        if (day->all.sets[i].authority == assessing->authority)
            day->judged = &day->all.sets[i];
}

static enum status assess_day(struct assessing *assessing, enum rate rate, struct error *err) {
    struct assessed_day *day = &assessing->days[rate];
    enum status status = exposure_air(&day->plan, &day->air, err);
    if (status == STATUS_OK)
        status = exposure_judge_all(&assessing->inv->library, &day->plan, &day->air, &day->all, err);
    if (status == STATUS_OK)
        choose_set(assessing, day);
    return status;
}

static void choose_day(struct assessing *assessing) {
    struct assessed_day *all = &assessing->days[RATE_ALL], *model = &assessing->days[RATE_MODEL];
    assessing->day = all;
    if (assessing->rate == RATE_ALL)
        return;
    // What allows less is the larger of the two, whether a limit, an IDLH or the alarm of flammable vapour says so.
    bool larger = deciding(assessing, model)->allowed_factor < deciding(assessing, all)->allowed_factor;
    assessing->day = larger ? model : all;
    assessing->other = larger ? all : model;
}

static enum status find_help(struct assessing *assessing, struct error *err) {
    const struct library *lib = &assessing->inv->library;
    const struct exposure_plan *plan = &assessing->day->plan;
    const struct authority *authority = deciding(assessing, assessing->day)->authority;
    enum status status = exposure_air_changes_needed(lib, plan, authority, &assessing->air_changes.need,
                                                     &assessing->air_changes.value, err);
    if (status == STATUS_OK)
        status = exposure_pause_needed(lib, plan, authority, &assessing->pause.need, &assessing->pause.value, err);
    if (status == STATUS_OK)
        status = exposure_hours_possible(lib, plan, authority, &assessing->hours.need, &assessing->hours.value, err);
    return status;
}

static enum status assess(struct assessing *assessing, struct error *err) {
    enum status status = assess_day(assessing, RATE_ALL, err);
    if (status == STATUS_OK && assessing->rate == RATE_MODEL)
        status = assess_day(assessing, RATE_MODEL, err);
    if (status != STATUS_OK)
        return status;
    choose_day(assessing);
    assessing->verdict = assessing->strictest ? assessing->day->all.verdict : assessing->day->judged->verdict;
    return find_help(assessing, err);
}

// --- chart ---

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

enum status assessing_make(struct invocation *inv, struct assessing *ret, struct error *err) {
    ret->inv = inv;
    enum status status = read_day(ret, err);
    return status == STATUS_OK ? assess(ret, err) : status;
}

void assessing_release(struct assessing *assessing) {
    for (int i = RATE_ALL; i <= RATE_MODEL; i++)
        exposure_judgements_release(&assessing->days[i].all);
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
    if (status == STATUS_OK && assessing->verdict != EXPOSURE_WITHIN)
        status = STATUS_NEGATIVE;
    assessing_release(assessing);
    return status;
}

static const struct option options[] = {
    {.name = "--use", .argument = "ML/H", .help = "how much of the blend is used up per hour of work"},
    {.name = "--hours", .argument = "H", .help = "hours of work in the day"},
    {.name = "--task",
     .argument = "TEXT",
     .help = "instead of the two: FROM-TO METHOD AMOUNT [on N cm2] [of BLEND]; may be repeated",
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
        "Exit status 1 when a limit, an IDLH or the fire alarm is passed, or a component has no limit in the set (then "
        "it "
        "cannot be judged).",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_LIMITS,
    .example = "mildsolve exposure \"toluene 1 + acetone 1\" --use 20 --hours 5 --room 85 --air-changes 3 --limits eu",
    .run = run,
};
