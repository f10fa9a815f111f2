// SPDX-License-Identifier: GPL-3.0-or-later
// replace BLEND: what else reaches its place without this bottle, component or hazard.
#include "cli/replace.h"

#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/draw_replace.h"
#include "cli/interrupt.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

static const double within_usual = 3; // MPa^0.5, see LIKE_RA

// --- what is replaced ---

static enum status find_bottle(struct replacing *replacing, const char *name, struct error *err) {
    struct bottle_ref bottle;
    const struct blend *original = &replacing->original;
    enum status status = library_bottle(&replacing->inv->library, name, &bottle, err);
    if (status != STATUS_OK)
        return error_wrap(err, status, "--bottle");
    for (size_t i = 0; i < original->part_count; i++)
        if (bottle_ref_same(&original->parts[i].bottle, &bottle)) {
            replacing->request.bottle = i;
            return STATUS_OK;
        }
    return error_set(err, STATUS_USAGE,
                     "--bottle %s: this bottle is not in the blend; name one that is, for example %s", name,
                     bottle_ref_id(&original->parts[0].bottle));
}

static void leave_out(struct replacing *replacing, size_t part) {
    option_add(replacing->inv, "--without", bottle_ref_id(&replacing->original.parts[part].bottle));
}

// A blend from which nothing is taken would be its own best replacement.
static enum status check_touched(struct replacing *replacing, struct error *err) {
    struct goal own = {.components_most = 1, .steps = 1};
    struct filter_report ignored = {0};
    const struct blend *original = &replacing->original;
    for (size_t i = 0; i < original->part_count; i++)
        own.bottles[own.bottle_count++] = original->parts[i].bottle;
    enum status status = goal_filter_options(replacing->inv, &own, &ignored, err);
    if (status != STATUS_OK || own.bottle_count < original->part_count)
        return status;
    if (!option_given(replacing->inv, "--without"))
        return error_set(err, STATUS_USAGE,
                         "what shall go? --without takes bottles, components or hazard classes, --bottle replaces one "
                         "bottle and keeps the rest; for example: %s",
                         replacing->inv->command->example);
    return error_set(err, STATUS_USAGE,
                     "--without takes nothing out of this blend, so it would be its own best replacement; name what "
                     "shall go, or one of its bottles with --bottle");
}

static enum status read_original(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    const char *bottle = option_value(inv, "--bottle");
    replacing->request.bottle = SIZE_MAX;
    enum status status = argument_blend(inv, 0, &replacing->original, err);
    if (status == STATUS_OK && bottle)
        status = find_bottle(replacing, bottle, err);
    if (status != STATUS_OK)
        return status;
    if (replacing->original.part_count == 1) // the whole of it is that bottle
        replacing->request.bottle = SIZE_MAX;
    if (bottle && replacing->request.bottle != SIZE_MAX)
        leave_out(replacing, replacing->request.bottle);
    else if (replacing->original.part_count == 1)
        leave_out(replacing, 0);
    return check_touched(replacing, err);
}

// --- from which bottles ---

static bool has_place(const struct library *lib, const struct bottle_ref *bottle) {
    struct hansen ignored;
    return bottle_place(lib, bottle, &ignored, NULL) == STATUS_OK;
}

static enum status add_bottle(struct goal *goal, struct bottle_ref bottle, struct error *err) {
    if (goal->bottle_count == GOAL_BOTTLES_MAX)
        return error_set(err, STATUS_INPUT, "the tables hold more than %d bottles", GOAL_BOTTLES_MAX);
    goal->bottles[goal->bottle_count++] = bottle;
    return STATUS_OK;
}

static enum status whole_table(struct replacing *replacing, struct error *err) {
    const struct library *lib = &replacing->inv->library;
    enum status status = STATUS_OK;
    for (size_t i = 0; i < lib->component_count && status == STATUS_OK; i++)
        status = add_bottle(&replacing->goal, (struct bottle_ref){.component = &lib->components[i]}, err);
    for (size_t i = 0; i < lib->bottle_count && status == STATUS_OK; i++)
        status = add_bottle(&replacing->goal, (struct bottle_ref){.bottle = &lib->bottles[i]}, err);
    return status;
}

static enum status read_bottles(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    if (!option_given(inv, "--whole-table"))
        return goal_bottles_option(inv, &replacing->goal, err);
    if (option_given(inv, "--bottles") || option_given(inv, "--shelf"))
        return error_set(err, STATUS_USAGE, "--whole-table and --bottles or --shelf exclude each other");
    return whole_table(replacing, err);
}

static bool kept(const struct replacing *replacing, const struct bottle_ref *bottle) {
    if (replacing->request.bottle == SIZE_MAX)
        return false;
    for (size_t i = 0; i < replacing->original.part_count; i++)
        if (i != replacing->request.bottle && bottle_ref_same(&replacing->original.parts[i].bottle, bottle))
            return true;
    return false;
}

// Bottles that cannot be looked for: without a place, or part of what stays as it is.
static void drop_unusable(struct replacing *replacing) {
    struct goal *goal = &replacing->goal;
    struct text names = {0};
    size_t left = 0;
    for (size_t i = 0; i < goal->bottle_count; i++) {
        struct bottle_ref bottle = goal->bottles[i];
        if (!has_place(&replacing->inv->library, &bottle))
            text_printf(&names, "%s%s", names.length ? ", " : "", bottle_ref_id(&bottle));
        else if (!kept(replacing, &bottle))
            goal->bottles[left++] = bottle;
    }
    goal->bottle_count = left;
    if (names.length)
        page_paragraph_f(replacing->inv->talk, 0, 2,
                         "note: without a known place in Hansen space, so not looked at: %s", text_bytes(&names));
    text_release(&names);
}

// The grid and the number of bottles are those of the whole blend; the filling has its share of both.
static void shrink_to_filling(struct replacing *replacing) {
    const struct blend *original = &replacing->original;
    struct goal *goal = &replacing->goal;
    if (replacing->request.bottle == SIZE_MAX)
        return;
    double steps = goal->steps * original->parts[replacing->request.bottle].parts / blend_sum_of_parts(original);
    int others = (int)original->part_count - 1;
    if (fabs(steps - round(steps)) > 1e-6)
        page_paragraph_f(replacing->inv->talk, 0, 2,
                         "note: the share of %s is no whole number of steps of %g %%; it is filled in equal parts: %d",
                         bottle_ref_id(&original->parts[replacing->request.bottle].bottle), percent_of_steps(goal, 1),
                         steps < 1 ? 1 : (int)round(steps));
    goal->steps = steps < 1 ? 1 : (int)round(steps);
    goal->components_most = goal->components_most > others ? goal->components_most - others : 1;
}

static enum status read_shelf(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    struct goal *goal = &replacing->goal;
    enum status status = option_integer(inv, "--components", 1, GOAL_COMPONENTS_MAX, 3, &goal->components_most, err);
    if (status == STATUS_OK)
        status = goal_step_option(inv, goal, err);
    if (status == STATUS_OK)
        status = read_bottles(replacing, err);
    if (status != STATUS_OK)
        return status;
    drop_unusable(replacing);
    shrink_to_filling(replacing);
    return goal_filter_options(inv, goal, &replacing->filters, err);
}

// --- how it is judged ---

static enum status read_authority(struct replacing *replacing, struct error *err) {
    const char *set = option_value(replacing->inv, "--limits");
    if (!set || strcmp(set, "strictest") == 0)
        return STATUS_OK;
    struct error own = {0};
    enum status status = library_authority(&replacing->inv->library, set, &replacing->frame.authority, &own);
    return status == STATUS_OK ? status : error_set(err, status, "%s, strictest", own.text);
}

static enum status read_room(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    double volume_m3 = 0, air_changes = 0;
    struct exposure_task task = {.blend = NULL};
    const struct {
        const char *name;
        double min, max;
        double *ret;
    } asked[] = {{"--room", 1, 100000, &volume_m3},
                 {"--air-changes", 0, 1000, &air_changes},
                 {"--use", 0.001, 100000, &task.use_ml_h},
                 {"--hours", 0.01, 24, &task.length_h}};
    const size_t count = sizeof asked / sizeof asked[0];
    size_t given = 0;
    enum status status = STATUS_OK;
    for (size_t i = 0; i < count && status == STATUS_OK; i++) {
        status = option_number(inv, asked[i].name, asked[i].min, asked[i].max, 0, asked[i].ret, err);
        given += option_given(inv, asked[i].name);
    }
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < count && given > 0 && given < count; i++)
        if (!option_given(inv, asked[i].name))
            page_paragraph_f(inv->talk, 0, 2, "note: %s is missing, so no index is computed for the room",
                             asked[i].name);
    replacing->plan = exposure_plan_usual(room_usual(volume_m3, air_changes));
    replacing->plan.temp_c = replacing->frame.temp_c;
    replacing->plan.tasks[0] = task;
    replacing->plan.task_count = 1;
    replacing->has_room = given == count;
    replacing->frame.plan = replacing->has_room ? &replacing->plan : NULL;
    return STATUS_OK;
}

static enum status read_frame(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    struct portrait_frame *frame = &replacing->frame;
    frame->lib = &inv->library;
    frame->table = &replacing->groups;
    enum status status = option_number(inv, "--temperature", 5, 35, 20, &frame->temp_c, err);
    if (status == STATUS_OK && option_given(inv, "--remove"))
        status = goal_materials_option(inv, "--remove", frame->remove, &frame->remove_count, err);
    if (status == STATUS_OK)
        status = goal_materials_option(inv, "--spare", frame->spare, &frame->spare_count, err);
    if (status == STATUS_OK)
        status = read_authority(replacing, err);
    return status == STATUS_OK ? read_room(replacing, err) : status;
}

static enum status read_question(struct replacing *replacing, struct error *err) {
    struct invocation *inv = replacing->inv;
    struct replacement_request *request = &replacing->request;
    int show = 0;
    enum status status = read_original(replacing, err);
    if (status == STATUS_OK)
        status = read_shelf(replacing, err);
    if (status == STATUS_OK)
        status = sensitive_collect(inv, &replacing->sensitive, err);
    if (status == STATUS_OK)
        status = read_frame(replacing, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--within", 0.1, WITHIN_MOST, within_usual, &request->within, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--show", 1, REPLACEMENT_SHOWN_MAX, 6, &show, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--threads", 1, CREW_MAX, crew_processors(), &request->threads, err);
    request->show = (size_t)show;
    return status;
}

// --- the command ---

static enum status find(struct replacing *replacing, struct error *err) {
    struct replacement_request *request = &replacing->request;
    request->frame = &replacing->frame;
    request->original = &replacing->original;
    request->goal = &replacing->goal;
    request->watch = (struct watch){.cancel = interrupt_cancel()};
    interrupt_watch();
    enum status status = replacement_find(request, &replacing->found, err);
    interrupt_done();
    return status;
}

enum status replacing_make(struct invocation *inv, struct replacing *ret, struct error *err) {
    ret->inv = inv;
    enum status status = read_question(ret, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &ret->groups, err);
    return status == STATUS_OK ? find(ret, err) : status;
}

void replacing_release(struct replacing *replacing) {
    replacement_release(&replacing->found);
    unifac_table_release(&replacing->groups);
}

static enum status explain(const struct replacing *replacing, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(replacing->inv);
    if (!explaining)
        return STATUS_OK;
    explain_blend(explaining, &replacing->original);
    for (size_t i = 0; i < replacing->found.count; i++)
        explain_blend(explaining, &replacing->found.rows[i].portrait.blend);
    for (size_t i = 0; i < replacing->frame.remove_count; i++)
        explain_material(explaining, replacing->frame.remove[i]);
    for (size_t i = 0; i < replacing->frame.spare_count; i++)
        explain_material(explaining, replacing->frame.spare[i]);
    explain_authority(explaining, replacing->frame.authority);
    explain_reference(explaining);
    json_replacements(replacing, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct replacing *replacing = arena_new(inv->arena, 1, sizeof *replacing);
    if (!replacing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const char *chart = option_value(inv, "--chart");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = replacing_make(inv, replacing, err);
    if (status == STATUS_OK)
        status = case_option_warn_peroxides(inv, NULL, err);
    if (status == STATUS_OK && chart)
        status = draw_replacements(replacing, chart, err);
    if ((status == STATUS_OK || status == STATUS_INTERRUPTED) && inv->json)
        json_replacements(replacing, inv->out);
    else if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        write_replacements(replacing, inv->out);
    if (status == STATUS_OK)
        status = explain(replacing, err);
    if (status == STATUS_OK && replacing->found.count == 0)
        status = STATUS_NEGATIVE;
    replacing_release(replacing);
    return status;
}

static const struct option options[] = {
    FILTER_OPTIONS,
    {.name = "--bottle", .argument = "NAME", .help = "replace only this bottle of the blend and keep the rest"},
    SHELF_OPTIONS,
    {.name = "--whole-table", .help = "from every liquid of the tables instead of a shelf"},
    GRID_OPTIONS,
    {.name = "--within",
     .argument = "RA",
     .help = "how far away in Hansen space a replacement may lie, MPa^0.5 (default 3)"},
    {.name = "--remove", .argument = "LIST", .help = "materials that the original takes off: does the new one, too?"},
    {.name = "--spare", .argument = "LIST", .help = "materials to leave alone; the one that swells most counts"},
    SENSITIVE_OPTION,
    {.name = "--limits", .argument = "SET", .help = "us-osha, us-niosh, us-epa, eu, uk, de or strictest (default)"},
    {.name = "--room", .argument = "M3", .help = "volume of the room, for the index before and after"},
    {.name = "--air-changes", .argument = "N", .help = "fresh air per hour in room volumes; 0 = sealed"},
    {.name = "--use", .argument = "ML/H", .help = "how much of the blend is used up per hour of work"},
    {.name = "--hours", .argument = "H", .help = "hours of work in the day"},
    {.name = "--temperature", .argument = "DEGC", .help = "of room and liquid, 5 to 35 (default 20)"},
    {.name = "--show", .argument = "N", .help = "rows of the list (default 6)"},
    {.name = "--threads", .argument = "N", .help = "threads of the search (default: one for each processor)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
    CHART_OPTION("the original and the first rows on the Teas chart, as PNG, SVG or PDF"),
    TEAS_OPTIONS,
    PAGE_OPTIONS_DATED,
};

const struct command cmd_replace = {
    .name = "replace",
    .arguments = "BLEND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "What else reaches the place of a blend without this bottle, component or hazard",
    .details = "Exit status 1 when there is no honest replacement within the distance asked for.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_ALL,
    .example = "mildsolve replace \"toluene 75 + acetone 25\" --without toluene",
    .dated = true,
    .run = run,
};
