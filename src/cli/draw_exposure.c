// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_exposure.h"

#include "base/language.h"
#include "cli/page_options.h"
#include "present/page.h"
#include "physics/day_task.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// Hours at which the curves are drawn: evenly, and closer after each change of the work, where the near field settles
// within a minute.
enum { EVEN_HOURS = 240, AFTER_CHANGE = 8, HOURS_MAX = EVEN_HOURS + 1 + AIR_SEGMENTS_MAX * (AFTER_CHANGE + 1) };
static const double first_after_change_h = 0.001; // each further one is twice as late

#define WORST_WINDOW_H 0.25

struct sampling {
    double hours[HOURS_MAX];
    size_t count;
};

static int by_hour(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static void choose_hours(const struct air_curve *curve, struct sampling *sampling) {
    for (size_t i = 0; i <= EVEN_HOURS; i++)
        sampling->hours[sampling->count++] = curve->end_h * (double)i / EVEN_HOURS;
    for (size_t i = 0; i < curve->count; i++) {
        double after = first_after_change_h;
        sampling->hours[sampling->count++] = curve->segments[i].start_h;
        for (size_t k = 0; k < AFTER_CHANGE; k++, after *= 2)
            if (curve->segments[i].start_h + after < curve->end_h)
                sampling->hours[sampling->count++] = curve->segments[i].start_h + after;
    }
    qsort(sampling->hours, sampling->count, sizeof sampling->hours[0], by_hour);
}

// NAN when the option is not given.
static enum status read_start(const struct invocation *inv, double *ret_h, struct error *err) {
    const char *text = option_value(inv, "--start");
    *ret_h = NAN;
    if (!text)
        return STATUS_OK;
    if (!day_time_read(text, strlen(text), ret_h) || *ret_h >= AIR_DAY_H)
        return error_set(err, STATUS_USAGE, "--start '%.20s': a time of day is expected, for example 9:30", text);
    return STATUS_OK;
}

static double *sample(struct arena *arena, const struct air_curve *curve, enum air_place place,
                      const struct sampling *sampling) {
    double *values = arena_new(arena, sampling->count, sizeof *values);
    for (size_t i = 0; values && i < sampling->count; i++)
        values[i] = air_at(curve, (struct air_view){place, false}, sampling->hours[i]);
    return values;
}

static enum air_limit_kind kind_of(const struct limit_value *limit) {
    switch (limit->kind) {
    case LIMIT_TWA_8H:
        return AIR_LIMIT_8H;
    case LIMIT_TWA_10H:
        return AIR_LIMIT_10H;
    case LIMIT_STEL_15MIN:
        return AIR_LIMIT_15MIN;
    case LIMIT_CEILING:
    case LIMIT_IDLH:
        break;
    }
    return AIR_LIMIT_CEILING;
}

static enum air_limit_origin origin_of(const struct limit_value *limit) {
    return limit->origin == LIMIT_GROUP                                       ? AIR_LIMIT_OF_GROUP
           : limit->origin == LIMIT_EXCURSION || limit->origin == LIMIT_GUIDE ? AIR_LIMIT_BY_FACTOR
                                                                              : AIR_LIMIT_OWN;
}

static bool fill_limits(struct arena *arena, const struct exposure_component_judgement *judged,
                        struct air_chart_component *component) {
    _Static_assert((int)EXPOSURE_CHECKS_MAX <= (int)AIR_CHART_LIMITS_MAX, "a chart has room for every check");
    struct air_chart_limit *limits = arena_new(arena, judged->check_count, sizeof *limits);
    for (size_t i = 0; limits && i < judged->check_count; i++) {
        const struct exposure_check *check = &judged->checks[i];
        limits[component->limit_count++] =
            (struct air_chart_limit){kind_of(&check->limit), check->allowed_mg_m3, origin_of(&check->limit)};
    }
    component->limits = limits;
    return limits != NULL;
}

static bool fill_component(const struct invocation *inv, const struct exposure_drawing *drawing, size_t index,
                           const struct sampling *sampling, struct air_chart_component *component) {
    const struct exposure_component *air = &drawing->air->components[index];
    struct air_view person = {AIR_PERSON, drawing->plan->leaves};
    *component = (struct air_chart_component){.name = air->component->id, .mean_8h_mg_m3 = air->twa_8h_mg_m3};
    component->near_mg_m3 = sample(inv->arena, &air->curve, AIR_NEAR, sampling);
    component->room_mg_m3 = sample(inv->arena, &air->curve, AIR_ROOM, sampling);
    component->window_mean_mg_m3 = air_highest_mean(&air->curve, person, WORST_WINDOW_H, &component->window_start_h);
    return component->near_mg_m3 && component->room_mg_m3 &&
           fill_limits(inv->arena, &drawing->judged->components[index], component);
}

static const char *models_words(const struct invocation *inv, const struct exposure_drawing *drawing) {
    const struct exposure_plan *plan = drawing->plan;
    if (drawing->capture_measured)
        return arena_say(inv->arena,
                         "One well-mixed room, and a near field of %.1f m radius with %.0f m\u00B3/min exchanged; all "
                         "that is used evaporates during the work; an extraction arm takes %.0f %% of it, measured: "
                         "%s; %g \u00B0C.",
                         NEAR_RADIUS_M, plan->room.near_flow_m3_h / 60, 100 * plan->captured, drawing->capture_measured,
                         plan->temp_c);
    return arena_say(inv->arena,
                     "One well-mixed room, and a near field of %.1f m radius with %.0f m\u00B3/min exchanged; all "
                     "that is used evaporates during the work; no credit for an extraction arm; %g \u00B0C.",
                     NEAR_RADIUS_M, plan->room.near_flow_m3_h / 60, plan->temp_c);
}

static const char *index_words(const struct invocation *inv, const struct exposure_judgement *judged) {
    return arena_say(inv->arena,
                     "Additive index of this set at the person: %s%.2f (day means), %.2f (short times). Above 1 the "
                     "limit of the mixture is passed.",
                     judged->complete ? "" : say("at least "), index_shown(judged->index),
                     index_shown(judged->peak_index));
}

struct exposure_chart {
    struct air_chart_component components[BLEND_COMPONENTS_MAX];
    struct air_chart_task tasks[AIR_TASKS_MAX];
    struct sampling sampling;
    const char *captions[1];
};

static enum status fill_input(const struct invocation *inv, const struct exposure_drawing *drawing,
                              struct exposure_chart *chart, struct air_chart_input *input, struct error *err) {
    const struct exposure_plan *plan = drawing->plan;
    choose_hours(&drawing->air->components[0].curve, &chart->sampling);
    for (size_t i = 0; i < drawing->air->count; i++) {
        if (component_needs_no_limit(drawing->air->components[i].component))
            continue;
        if (!fill_component(inv, drawing, i, &chart->sampling, &chart->components[input->component_count++]))
            return error_set(err, STATUS_MEMORY, "out of memory");
    }
    if (input->component_count == 0)
        return error_set(err, STATUS_USAGE, "nothing to draw: water alone has no limits");
    for (size_t i = 0; i < plan->task_count; i++)
        chart->tasks[i] =
            (struct air_chart_task){plan->tasks[i].start_h, plan->tasks[i].start_h + plan->tasks[i].length_h};
    input->components = chart->components;
    input->tasks = chart->tasks;
    input->task_count = plan->task_count;
    input->hours = chart->sampling.hours;
    input->hour_count = chart->sampling.count;
    input->question = drawing->question;
    input->limit_set = drawing->limit_set;
    input->models = models_words(inv, drawing);
    chart->captions[0] = index_words(inv, drawing->judged);
    input->page.captions = chart->captions;
    input->page.caption_count = 1;
    return input->models && chart->captions[0] ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

enum status air_chart_of(const struct invocation *inv, const struct exposure_drawing *drawing,
                         struct air_chart_input *ret, struct error *err) {
    struct exposure_chart *chart = arena_new(inv->arena, 1, sizeof *chart);
    if (!chart)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = (struct air_chart_input){0};
    enum status status = page_options(inv, SHEET_HALF, &ret->page, err);
    if (status == STATUS_OK)
        status = read_start(inv, &ret->begins_h, err);
    if (!isnan(drawing->begins_h))
        ret->begins_h = drawing->begins_h;
    return status == STATUS_OK ? fill_input(inv, drawing, chart, ret, err) : status;
}

enum status draw_exposure(const struct invocation *inv, const struct exposure_drawing *drawing, const char *path,
                          struct error *err) {
    struct air_chart_input input;
    enum status status = air_chart_of(inv, drawing, &input, err);
    return status == STATUS_OK ? air_chart_write(&input, path, err) : status;
}
