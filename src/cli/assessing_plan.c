// SPDX-License-Identifier: GPL-3.0-or-later
// The plan of the day from the options.
#include "cli/assessing.h"
#include "physics/release.h"

#include <math.h>
#include <string.h>

const char *const rate_words[] = {"all", "model", NULL};

struct number_asked {
    const char *name;
    double min, max;
    double *ret; // holds the default
    bool needed;
};

struct figures {
    double volume_m3, air_changes_per_h, mixing, near_flow_m3_min;
    double use_ml_h, hours, shift_h, temp_c, share, capture_percent;
};

static enum status read_figures(struct assessing *assessing, struct figures *figures, struct error *err) {
    struct invocation *inv = assessing->inv;
    const bool one = !option_given(inv, "--task");
    const struct number_asked numbers[] = {
        {"--room", 1, 100000, &figures->volume_m3, true},
        {"--air-changes", 0, 1000, &figures->air_changes_per_h, true},
        {"--mixing", 0.05, 1, &figures->mixing, false},
        {"--near-flow", 0.1, 100, &figures->near_flow_m3_min, false},
        {"--use", 0.001, 100000, &figures->use_ml_h, one},
        {"--hours", 0.01, 24, &figures->hours, one},
        {"--shift", 0.01, 24, &figures->shift_h, false},
        {"--temperature", 5, 35, &figures->temp_c, false},
        {"--share", 0.01, 1, &figures->share, false},
        {"--wet", 0.01, 1e6, &assessing->wet_cm2, false},
        {"--capture", 1, 99, &figures->capture_percent, false},
    };
    const size_t count = sizeof numbers / sizeof numbers[0];
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status =
            option_number(inv, numbers[i].name, numbers[i].min, numbers[i].max, *numbers[i].ret, numbers[i].ret, err);
    const char *set = option_value(inv, "--limits");
    assessing->strictest = !set || strcmp(set, "strictest") == 0;
    struct error own = {0};
    if (status == STATUS_OK && !assessing->strictest &&
        library_authority(&inv->library, set, &assessing->authority, &own) != STATUS_OK)
        status = error_set(err, STATUS_UNKNOWN_NAME, "%s, strictest", own.text);
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        if (numbers[i].needed && !option_given(inv, numbers[i].name))
            status =
                error_set(err, STATUS_USAGE, "%s is missing; for example: %s", numbers[i].name, inv->command->example);
    return status;
}

// --- tasks ---

static enum status check_task_options(const struct invocation *inv, struct error *err) {
    static const char *const of_one_task[] = {"--use", "--hours", "--start"};
    if (!option_given(inv, "--task"))
        return STATUS_OK;
    for (size_t i = 0; i < sizeof of_one_task / sizeof of_one_task[0]; i++)
        if (option_given(inv, of_one_task[i]))
            return error_set(err, STATUS_USAGE, "%s and --task say the same thing twice: a task holds times and amount",
                             of_one_task[i]);
    return STATUS_OK;
}

static enum status read_task_blend(struct assessing *assessing, size_t i, struct error *err) {
    const char *own = assessing->tasks[i].blend;
    if (own)
        return read_blend(assessing->inv, own, &assessing->blends[i], err);
    if (assessing->inv->argument_count == 0)
        return error_set(err, STATUS_USAGE,
                         "no blend: name it in front of the options, or in every task as 'of toluene 1 + acetone 1'; "
                         "for example: %s",
                         assessing->inv->command->example);
    return argument_blend(assessing->inv, 0, &assessing->blends[i], err);
}

static enum status read_tasks(struct assessing *assessing, struct error *err) {
    const char *const *words = NULL;
    size_t count = option_values(assessing->inv, "--task", &words);
    assessing->timed = count > 0;
    assessing->task_count = count ? count : 1;
    assessing->first_h = count ? INFINITY : NAN;
    assessing->tasks[0] = (struct day_task){.wet_cm2 = NAN};
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < count; i++) {
        status = day_task_parse(words[i], &assessing->tasks[i], err);
        if (status == STATUS_OK)
            assessing->first_h = fmin(assessing->first_h, assessing->tasks[i].from_h);
    }
    for (size_t i = 0; status == STATUS_OK && i < assessing->task_count; i++)
        status = read_task_blend(assessing, i, err);
    return status;
}

static enum status read_rows(struct assessing *assessing, struct error *err) {
    const struct blend *blends[AIR_TASKS_MAX];
    for (size_t i = 0; i < assessing->task_count; i++)
        blends[i] = &assessing->blends[i];
    return read_rows_of_blends(assessing->inv, blends, assessing->task_count, err);
}

// --- the plan ---

static enum status read_capture(struct assessing *assessing, double percent, struct exposure_plan *plan,
                                struct error *err) {
    const struct invocation *inv = assessing->inv;
    assessing->capture_measured = option_value(inv, "--capture-measured");
    if (option_given(inv, "--capture") && (!assessing->capture_measured || !assessing->capture_measured[0]))
        return error_set(err, STATUS_USAGE,
                         "an extraction arm counts only when its capture was measured: say how with --capture-measured "
                         "\"tracer gas at the easel, March 2026\"");
    if (assessing->capture_measured && !option_given(inv, "--capture"))
        return error_set(err, STATUS_USAGE, "--capture-measured without --capture: how many percent were captured?");
    plan->captured = option_given(inv, "--capture") ? percent / 100 : 0;
    return STATUS_OK;
}

static void fill_tasks(struct assessing *assessing, const struct figures *figures, struct exposure_plan *plan) {
    plan->task_count = assessing->task_count;
    for (size_t i = 0; i < plan->task_count; i++) {
        const struct day_task *task = &assessing->tasks[i];
        plan->tasks[i] = (struct exposure_task){.start_h = task->from_h - assessing->first_h,
                                                .length_h = task->to_h - task->from_h,
                                                .use_ml_h = task->use_ml_h,
                                                .blend = &assessing->blends[i]};
        if (!assessing->timed) {
            plan->tasks[i].start_h = 0;
            plan->tasks[i].length_h = figures->hours;
            plan->tasks[i].use_ml_h = figures->use_ml_h;
        }
    }
}

static enum status fill_plan(struct assessing *assessing, const struct figures *figures, struct error *err) {
    const struct invocation *inv = assessing->inv;
    struct exposure_plan *plan = &assessing->days[RATE_ALL].plan;
    *plan = exposure_plan_usual(room_usual(figures->volume_m3, figures->air_changes_per_h));
    plan->room.mixing_factor = figures->mixing;
    plan->room.near_flow_m3_h = 60 * figures->near_flow_m3_min;
    plan->temp_c = figures->temp_c;
    plan->share = figures->share;
    plan->shift_h = option_given(inv, "--shift") ? figures->shift_h : 0;
    plan->leaves = option_given(inv, "--leave");
    plan->long_shift = option_given(inv, "--long-shift");
    fill_tasks(assessing, figures, plan);
    return read_capture(assessing, figures->capture_percent, plan, err);
}

// --- the rate by the model ---

static enum status model_one_task(struct assessing *assessing, const struct unifac_table *groups, size_t i,
                                  struct error *err) {
    const double cm2_per_m2 = 1e4;
    struct exposure_plan *plan = &assessing->days[RATE_MODEL].plan;
    double wet_cm2 = isnan(assessing->tasks[i].wet_cm2) ? assessing->wet_cm2 : assessing->tasks[i].wet_cm2;
    // A mist is all surface.
    if (assessing->timed && assessing->tasks[i].method == METHOD_SPRAY)
        return STATUS_OK;
    if (isnan(wet_cm2))
        return error_set(err, STATUS_USAGE,
                         "--rate model needs the surface that is wet at a time, work and swabs together: --wet 200 "
                         "(cm2), or 'on 200 cm2' in the task");
    enum status status = release_most_mg_h(groups, &assessing->blends[i], wet_cm2 / cm2_per_m2, plan->temp_c,
                                           assessing->most_mg_h[i], err);
    plan->tasks[i].most_mg_h = assessing->most_mg_h[i];
    return status;
}

// Only the rate by the model needs activities.
static enum status read_groups(struct assessing *assessing, struct error *err) {
    const struct component *wanted[AIR_TASKS_MAX * BLEND_COMPONENTS_MAX];
    size_t count = 0;
    for (size_t i = 0; i < assessing->task_count; i++)
        for (size_t k = 0; k < assessing->blends[i].count; k++)
            wanted[count++] = assessing->blends[i].components[k];
    return library_add(&assessing->inv->library, TABLE_UNIFAC, wanted, count, err);
}

static enum status model_tasks(struct assessing *assessing, struct error *err) {
    struct unifac_table groups;
    enum status status = read_groups(assessing, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&assessing->inv->library, &groups, err);
    if (status != STATUS_OK)
        return status;
    assessing->days[RATE_MODEL].plan = assessing->days[RATE_ALL].plan;
    for (size_t i = 0; status == STATUS_OK && i < assessing->task_count; i++)
        status = model_one_task(assessing, &groups, i, err);
    unifac_table_release(&groups);
    return status;
}

// A share by volume from which a liquid counts as neat: what little is dissolved in it does not keep it liquid.
static const double nearly_neat = 0.95;

static enum status check_sprays(const struct assessing *assessing, double temp_c, struct error *err) {
    for (size_t i = 0; assessing->timed && i < assessing->task_count; i++) {
        const struct blend *blend = &assessing->blends[i];
        for (size_t k = 0; assessing->tasks[i].method == METHOD_SPRAY && k < blend->count; k++) {
            const struct properties *properties = blend->components[k]->properties;
            if (!properties || blend->volume_fractions[k] < nearly_neat || !(properties->melting_point.value > temp_c))
                continue;
            return error_set(err, STATUS_USAGE,
                             "'%s' is a solid below %g degC and cannot be sprayed at %g degC; warm the room, or take a "
                             "blend",
                             blend->components[k]->id, properties->melting_point.value, temp_c);
        }
    }
    return STATUS_OK;
}

static enum status read_rate(struct assessing *assessing, struct error *err) {
    int rate = RATE_ALL;
    enum status status = option_word(assessing->inv, "--rate", rate_words, rate, &rate, err);
    assessing->rate = (enum rate)rate;
    if (status == STATUS_OK && rate == RATE_ALL && option_given(assessing->inv, "--wet"))
        return error_set(err, STATUS_USAGE, "--wet counts only with --rate model");
    return status;
}

enum status read_day(struct assessing *assessing, struct error *err) {
    struct exposure_plan usual = exposure_plan_usual((struct room){0});
    struct figures figures = {.mixing = 1,
                              .near_flow_m3_min = NEAR_FLOW_M3_H / 60,
                              .temp_c = usual.temp_c,
                              .share = usual.share,
                              .capture_percent = NAN};
    assessing->wet_cm2 = NAN;
    enum status status = check_task_options(assessing->inv, err);
    if (status == STATUS_OK)
        status = read_tasks(assessing, err);
    if (status == STATUS_OK)
        status = read_rows(assessing, err);
    if (status == STATUS_OK)
        status = read_figures(assessing, &figures, err);
    if (status == STATUS_OK)
        status = read_rate(assessing, err);
    if (status == STATUS_OK)
        status = check_sprays(assessing, figures.temp_c, err);
    if (status == STATUS_OK)
        status = fill_plan(assessing, &figures, err);
    if (status == STATUS_OK && assessing->rate == RATE_MODEL)
        status = model_tasks(assessing, err);
    return status;
}
