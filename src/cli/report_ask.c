// SPDX-License-Identifier: GPL-3.0-or-later
// What a report asks of the models, by the same functions and defaults as the commands.
#include "cli/report.h"

#include "base/units.h"
#include "cli/report_label.h"
#include "physics/film_mix.h"

#include <math.h>

static double number_or(double value, double otherwise) {
    return isnan(value) ? otherwise : value;
}

static double temp_c(const struct report *report) {
    return number_or(report->file->room.temperature_c, 20);
}

// --- the blend ---

static void find_blend(struct report *report) {
    const struct case_decision *decisions = report->file->decisions.items;
    const struct case_test *tests = report->file->tests.items;
    report->notation = case_working_blend(report->file);
    for (size_t i = 0; i < report->file->decisions.count; i++)
        if (decisions[i].blend && decisions[i].blend == report->notation)
            report->decided = &decisions[i];
    for (size_t i = 0; i < report->file->tests.count; i++)
        if (tests[i].blend == report->notation)
            report->tested = &tests[i];
}

static enum status ask_materials(struct report *report, const struct text_list *goal, bool remove, struct error *err) {
    const struct material *found[REPORT_MATERIALS_MAX];
    for (size_t i = 0; i < goal->count; i++) {
        const struct text_list one = {&goal->items[i], 1};
        struct error own = {0};
        size_t count = 0;
        enum status status = case_goal_materials(report->file, &one, found, REPORT_MATERIALS_MAX, &count, &own);
        if (status == STATUS_MEMORY)
            return error_set(err, status, "out of memory");
        if (status != STATUS_OK || count == 0 || report->material_count == REPORT_MATERIALS_MAX)
            continue; // said among the remarks
        struct report_material *material = &report->materials[report->material_count];
        *material = (struct report_material){.material = found[0], .remove = remove};
        const struct material *stand_in = NULL;
        if (isnan(found[0]->sphere.r0) && found[0]->substitute &&
            library_material(&report->inv->library, found[0]->substitute, &stand_in, NULL) == STATUS_OK) {
            material->material = stand_in;
            material->stands_for = found[0];
        }
        bool again = false;
        for (size_t k = 0; k < report->material_count; k++)
            again |= report->materials[k].material == material->material && report->materials[k].remove == remove;
        report->material_count += !again;
    }
    return STATUS_OK;
}

static enum status ask_places(struct report *report, struct error *err) {
    double x[BLEND_COMPONENTS_MAX];
    double ln_activity[BLEND_COMPONENTS_MAX];
    struct activity_model *activity = arena_new(report->inv->arena, 1, sizeof *activity);
    if (!activity)
        return error_set(err, STATUS_MEMORY, "out of memory");
    bool hansen = hansen_of_blend(&report->blend, &report->hansen, NULL) == STATUS_OK;
    bool teas = teas_of_blend(&report->blend, TEAS_MEAN_OF_FRACTIONS, &report->teas, NULL, NULL) == STATUS_OK;
    if (!hansen)
        report->hansen = (struct hansen){NAN, NAN, NAN};
    if (!teas)
        report->teas = (struct teas){NAN, NAN, NAN};
    bool covered = activity_prepare_blend(&report->groups, &report->blend, kelvin_from_celsius(temp_c(report)),
                                          activity, NULL) == STATUS_OK &&
                   activity_covers(activity) && blend_mole_fractions(&report->blend, x, NULL) == STATUS_OK &&
                   film_common_activities(activity, x, ln_activity, NULL, NULL) == STATUS_OK;
    for (size_t i = 0; i < report->material_count; i++) {
        struct report_material *material = &report->materials[i];
        struct film_parameters parameters;
        struct film film;
        place_against(material->material, hansen ? &report->hansen : NULL, teas ? &report->teas : NULL,
                      &material->place);
        if (film_parameters_of_material(material->material, &parameters, NULL) != STATUS_OK)
            film_no_result(FILM_NO_REGION, &material->film);
        else if (!covered || film_prepare(&parameters, activity, &film, NULL) != STATUS_OK)
            film_no_result(FILM_NOT_COVERED, &material->film);
        else
            film_of_activities(&film, ln_activity, NULL, &material->film);
    }
    return STATUS_OK;
}

// --- the air ---

static enum status missing_for_air(const struct report *report, struct error *err) {
    if (isnan(report->file->room.volume_m3))
        return error_set(err, STATUS_NO_DATA, "the case does not say how large the room is (room: volume_m3)");
    if (isnan(report->file->room.air_changes_per_h))
        return error_set(err, STATUS_NO_DATA,
                         "the case does not say how often the air is changed (room: air_changes_per_h)");
    if (report->file->day.count)
        return STATUS_OK;
    if (isnan(report->file->delivery.load_ml_per_h))
        return error_set(err, STATUS_NO_DATA,
                         "the case does not say how much is used in an hour (delivery: load_ml_per_h)");
    if (isnan(report->file->delivery.hours_per_day))
        return error_set(err, STATUS_NO_DATA,
                         "the case does not say for how long a day there is work (delivery: hours_per_day)");
    return STATUS_OK;
}

extern const struct command cmd_exposure;

static enum status ask_air(struct report *report, struct error *err) {
    enum status status = missing_for_air(report, err);
    if (status != STATUS_OK)
        return status;
    struct invocation *call = report_call(report, &cmd_exposure, true, &status, err);
    report->air = arena_new(report->inv->arena, 1, sizeof *report->air);
    if (!call || !report->air)
        return error_set(err, STATUS_MEMORY, "out of memory");
    status = assessing_make(call, report->air, err); // a goal without a material is no matter of the air
    text_release(call->talk);
    if (status != STATUS_OK)
        return status;
    report->judged = report->air->day->judged;
    report->decides = deciding(report->air, report->air->day);
    return STATUS_OK;
}

static enum status ask_about_blend(struct report *report, struct error *err) {
    const struct library *lib = &report->inv->library;
    const struct evaporation_options how = {.temp_c = temp_c(report)};
    enum status status = blend_parse(lib, report->notation, &report->blend, NULL, err);
    if (status == STATUS_OK)
        status = ask_places(report, err);
    if (status != STATUS_OK)
        return status;
    struct report_answer *answer = &report->has_recipe;
    status = report_note_answer(
        answer, recipe_make(lib, &report->blend, report->volume_ml, 1, &report->recipe, &answer->why), err);
    answer = &report->has_phase;
    if (status == STATUS_OK)
        status = report_note_answer(answer,
                                    miscibility_judge_blend(lib, &report->groups, &report->blend,
                                                            kelvin_from_celsius(temp_c(report)), &report->phase,
                                                            &answer->why),
                                    err);
    answer = &report->has_drying;
    if (status == STATUS_OK)
        status = report_note_answer(
            answer, evaporation_follow(lib, &report->groups, &report->blend, &how, &report->drying, &answer->why), err);
    if (status == STATUS_OK)
        status = report_note_answer(&report->has_air, ask_air(report, &report->has_air.why), err);
    if (status == STATUS_OK)
        status = report_note_answer(&report->has_label, report_ask_label(report, &report->has_label.why), err);
    return status;
}

enum status report_ask(struct report *report, struct error *err) {
    enum status status = unifac_table_make(&report->inv->library, &report->groups, err);
    find_blend(report);
    if (status == STATUS_OK)
        status = sensitive_collect(report->inv, &report->sensitive, err);
    if (status == STATUS_OK)
        status = ask_materials(report, &report->file->goals.remove, true, err);
    if (status == STATUS_OK)
        status = ask_materials(report, &report->file->goals.spare, false, err);
    if (status == STATUS_OK)
        status = ask_materials(report, &report->file->goals.unsure, false, err);
    if (status == STATUS_OK && report->notation)
        status = ask_about_blend(report, err);
    if (status == STATUS_OK)
        status = report_ask_learnt(report, err);
    if (status == STATUS_OK)
        status = report_ask_list(report, err);
    if (status == STATUS_OK)
        status = report_ask_replacements(report, err);
    return status == STATUS_OK ? report_ask_planned(report, err) : status;
}

void report_release(struct report *report) {
    if (report->air)
        assessing_release(report->air);
    report_release_planned(report);
    report_release_replacements(report);
    report_release_list(report);
    report_release_learnt(report);
    unifac_table_release(&report->groups);
}
