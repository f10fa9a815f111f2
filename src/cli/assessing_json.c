// SPDX-License-Identifier: GPL-3.0-or-later
// The answer of `exposure` for programs.
#include "cli/assessing.h"
#include "selection/goal.h"

#include <math.h>

static void json_checks(const struct exposure_component_judgement *c, struct json *json) {
    static const char *const origins[] = {"own", "group", "factor", "guide"};
    json_list(json, "limits");
    for (size_t k = 0; k < c->check_count; k++) {
        const struct exposure_check *check = &c->checks[k];
        json_object(json, NULL);
        json_text(json, "kind", limit_kind_words[check->limit.kind]);
        json_text(json, "value_is", origins[check->limit.origin]);
        json_number(json, "limit_mg_m3", check->allowed_mg_m3);
        json_flag(json, "converted_from_ppm", check->limit.converted);
        json_number(json, "reached_mg_m3", check->near_mg_m3);
        json_number(json, "worst_window_start_h", check->window_start_h);
        json_number(json, "share", check->fraction);
        json_number(json, "room_share", check->room_fraction);
        if (check->limit.row)
            json_provenance(json, "source", &check->limit.row->from);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_gloves(const struct component *component, struct json *json) {
    static const struct text_list none = {0};
    const struct text_list *good = component->hazard ? &component->hazard->gloves_resistant : &none;
    const struct text_list *bad = component->hazard ? &component->hazard->gloves_unsuitable : &none;
    json_texts(json, "gloves_resistant", good->items, good->count);
    json_texts(json, "gloves_unsuitable", bad->items, bad->count);
}

// Of a liquid whose hazards are not known only what a limit's notation says; never false.
static void json_flags(const struct component *component, unsigned flags, struct json *json) {
    for (size_t k = 0; k < EXPOSURE_FLAGS; k++)
        if ((flags & exposure_flag_names[k].flag) || component_hazards_known(component))
            json_flag(json, exposure_flag_names[k].key, (flags & exposure_flag_names[k].flag) != 0);
        else
            json_null(json, exposure_flag_names[k].key);
}

static void json_component(const struct assessed_day *day, size_t i, struct json *json) {
    static const char *const gaps[] = {NULL, "limit", "density", "molar-mass"};
    const struct exposure_component *a = &day->air.components[i];
    const struct exposure_component_judgement *c = &day->judged->components[i];
    const struct hazard *hazard = a->component->hazard;
    json_object(json, NULL);
    json_text(json, "id", a->component->id);
    json_text(json, "lacks", gaps[c->gap]);
    json_number(json, "generation_mg_h", a->generation_mg_h);
    json_number(json, "released_mg", a->released_mg);
    json_number(json, "room_mg_m3", a->room_mg_m3);
    json_number(json, "room_ppm", a->room_ppm);
    json_number(json, "room_steady_mg_m3", a->room_steady_mg_m3);
    json_number(json, "room_8h_mg_m3", a->room_8h_mg_m3);
    json_number(json, "room_8h_stays_mg_m3", a->room_8h_stays_mg_m3);
    json_number(json, "room_8h_leaves_mg_m3", a->room_8h_leaves_mg_m3);
    json_number(json, "near_mg_m3", a->near_mg_m3);
    json_number(json, "near_ppm", a->near_ppm);
    json_number(json, "near_15min_mg_m3", a->near_15min_mg_m3);
    json_number(json, "twa_8h_mg_m3", a->twa_8h_mg_m3);
    json_number(json, "twa_8h_stays_mg_m3", a->twa_8h_stays_mg_m3);
    json_number(json, "twa_8h_leaves_mg_m3", a->twa_8h_leaves_mg_m3);
    json_number(json, "vapour_pressure_kpa", a->p_kpa);
    json_number(json, "saturated_mg_m3", a->saturated_mg_m3);
    json_flag(json, "above_saturation", a->above_saturation);
    json_number(json, "vapour_hazard_ratio", c->vapour_hazard_ratio);
    json_number(json, "idlh_share", c->idlh_fraction);
    json_number(json, "idlh_mg_m3", c->idlh.row ? c->idlh.mg_m3 : NAN);
    json_text(json, "idlh_of", c->idlh_of ? c->idlh_of->id : NULL);
    json_text(json, "grade", a->component->grade);
    json_text(json, "iarc_group", hazard ? hazard->iarc_group : NULL);
    json_text(json, "health_note", hazard ? hazard->health_note : NULL);
    json_number(json, "excursion_guide", c->excursion_guide);
    json_number(json, "odour_threshold_ppm", hazard ? hazard->odour_threshold.value : NAN);
    json_number(json, "limit_over_odour", c->odour_ratio);
    json_flags(a->component, c->flags, json);
    json_gloves(a->component, json);
    json_text(json, "peroxide_former", hazard ? peroxide_words[hazard->peroxide_former] : NULL);
    json_checks(c, json);
    json_close_object(json);
}

static void json_tasks(const struct assessing *assessing, struct json *json) {
    const struct exposure_plan *plan = &assessing->days[RATE_ALL].plan;
    json_list(json, "tasks");
    for (size_t i = 0; i < assessing->task_count; i++) {
        json_object(json, NULL);
        json_blend(json, &assessing->blends[i]);
        json_text(json, "method", assessing->timed ? day_method_words[assessing->tasks[i].method] : NULL);
        json_number(json, "clock_start_h", assessing->timed ? assessing->tasks[i].from_h : NAN);
        json_number(json, "start_h", plan->tasks[i].start_h);
        json_number(json, "length_h", plan->tasks[i].length_h);
        json_number(json, "use_ml_h", plan->tasks[i].use_ml_h);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_unknown(const struct assessed_day *day, struct json *json) {
    json_list(json, "unknown");
    for (size_t i = 0; i < day->judged->count; i++)
        if (day->judged->components[i].unknown)
            json_text(json, NULL, day->air.components[i].component->id);
    json_close_list(json);
}

static void json_people(const struct assessing *assessing, struct json *json) {
    static const char *const words[] = {NULL, "nothing-against", "cannot-be-judged", "not-for-people"};
    json_text(json, "people", words[judge_people(assessing)]);
    json_list(json, "hazards_unknown");
    for (size_t i = 0; i < assessing->day->air.count; i++)
        if (!component_hazards_known(assessing->day->air.components[i].component))
            json_text(json, NULL, assessing->day->air.components[i].component->id);
    json_close_list(json);
}

static void json_elsewhere(const struct assessed_day *day, struct json *json) {
    json_object(json, "sets_with_a_limit");
    for (size_t i = 0; i < day->judged->count; i++) {
        const struct exposure_component_judgement *c = &day->judged->components[i];
        if (!c->unknown)
            continue;
        json_list(json, day->air.components[i].component->id);
        for (size_t k = 0; k < c->elsewhere_count; k++)
            json_text(json, NULL, c->elsewhere[k]->id);
        json_close_list(json);
    }
    json_close_object(json);
}

static void json_sets(const struct assessed_day *day, struct json *json) {
    json_list(json, "sets");
    for (size_t i = 0; i < day->all.count; i++) {
        json_object(json, NULL);
        json_text(json, "id", day->all.sets[i].authority->id);
        json_number(json, "index", day->all.sets[i].index);
        json_number(json, "worst_index", day->all.sets[i].worst);
        json_flag(json, "index_complete", day->all.sets[i].complete);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_rates(const struct assessing *assessing, struct json *json) {
    json_text(json, "rate", rate_words[assessing->rate]);
    if (!assessing->other) {
        json_null(json, "rates");
        return;
    }
    json_object(json, "rates");
    for (int i = RATE_ALL; i <= RATE_MODEL; i++) {
        const struct assessed_day *day = &assessing->days[i];
        json_object(json, rate_words[i]);
        json_flag(json, "decides", day == assessing->day);
        json_number(json, "worst_index", deciding(assessing, day)->worst);
        json_object(json, "twa_8h_mg_m3");
        for (size_t k = 0; k < day->air.count; k++)
            json_number(json, day->air.components[k].component->id, day->air.components[k].twa_8h_mg_m3);
        json_close_object(json);
        json_close_object(json);
    }
    json_close_object(json);
}

static void json_reasons(const struct assessing *assessing, struct json *json) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    json_list(json, "over_because");
    if (decides->worst > 1)
        json_text(json, NULL, "limits");
    if (decides->above_idlh)
        json_text(json, NULL, "idlh");
    if (decides->above_alarm)
        json_text(json, NULL, "fire");
    json_close_list(json);
}

static void json_help(const struct assessing *assessing, struct json *json) {
    const struct assessed_day *day = assessing->day;
    const struct exposure_judgement *decides = deciding(assessing, day);
    static const char *const caps[] = {NULL, "limits", "idlh", "fire"};
    const bool over = decides->allowed_factor < 1;
    json_text(json, "decided_by", decides->authority->id);
    json_number(json, "allowed_ml_h", allowed_ml_h(assessing));
    json_text(json, "capped_by", caps[decides->cap]);
    json_number(json, "air_changes_needed",
                assessing->air_changes.need == NEED_FOUND ? assessing->air_changes.value : NAN);
    json_number(json, "pause_needed_h", assessing->pause.need == NEED_FOUND ? assessing->pause.value : NAN);
    json_number(json, "hours_possible", assessing->hours.need == NEED_FOUND ? assessing->hours.value : NAN);
    json_number(json, "dilution_air_m3_h", exposure_dilution_air_m3_h(&day->air, decides, 5));
    json_number(json, "airing_h", exposure_airing_h(&day->plan, &day->air, decides, 0.1));
    json_text(json, "replace_first",
              over && decides->count > 1 ? day->air.components[decides->replace_first].component->id : NULL);
    json_number(json, "hydrocarbon_limit_mg_m3", day->judged->hydrocarbon_limit_mg_m3);
}

void write_exposure_json(const struct assessing *assessing, struct text *out) {
    static const char *const verdicts[] = {"within", "over", "cannot-be-judged", "not-for-people"};
    const struct assessed_day *day = assessing->day;
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &assessing->blends[0]);
    json_tasks(assessing, &json);
    json_number(&json, "shift_h", day->air.shift_h);
    json_number(&json, "captured_percent", 100 * day->plan.captured);
    json_text(&json, "limits", day->judged->authority->id);
    json_flag(&json, "strictest", assessing->strictest);
    json_list(&json, "components");
    for (size_t i = 0; i < day->air.count; i++)
        json_component(day, i, &json);
    json_close_list(&json);
    json_number(&json, "index", day->judged->index);
    json_number(&json, "peak_index", day->judged->peak_index);
    json_number(&json, "room_index", day->judged->room_index);
    json_flag(&json, "index_complete", day->judged->complete);
    json_unknown(day, &json);
    json_elsewhere(day, &json);
    json_text(&json, "verdict", verdicts[assessing_answer(assessing)]);
    json_people(assessing, &json);
    json_reasons(assessing, &json);
    json_flag(&json, "above_idlh", day->judged->above_idlh);
    json_rates(assessing, &json);
    json_help(assessing, &json);
    json_number(&json, "flammable_share_near", day->air.flammable_share_near);
    json_number(&json, "flammable_share_room", day->air.flammable_share_room);
    json_exposure_advice(assessing, &json);
    json_sets(day, &json);
    if (option_given(assessing->inv, "--chart"))
        json_text(&json, "chart", option_value(assessing->inv, "--chart"));
    json_end(&json);
}
