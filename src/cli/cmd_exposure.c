// SPDX-License-Identifier: GPL-3.0-or-later
// exposure BLEND: is it within the limits in this room, which limit bites, how much may be used.
#include "cli/case_option.h"
#include "cli/common.h"
#include "cli/draw_exposure.h"
#include "cli/page_options.h"
#include "physics/exposure.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct assessing {
    struct invocation *inv;
    struct blend blend;
    struct exposure_plan plan;
    struct exposure_air air;
    struct exposure_judgements all;
    const struct authority *authority;       // the set asked for, NULL with `strictest`
    const struct exposure_judgement *judged; // the set asked for, or the strictest
    bool strictest;
    enum exposure_verdict verdict;
    enum exposure_need need;
    double air_changes_needed;
};

// --- reading the question ---

struct number_asked {
    const char *name;
    double min, max;
    double *ret; // holds the default
    bool needed;
};

static enum status read_authority(struct assessing *assessing, struct error *err) {
    const char *set = option_value(assessing->inv, "--limits");
    assessing->strictest = !set || strcmp(set, "strictest") == 0;
    if (assessing->strictest)
        return STATUS_OK;
    struct error own = {0};
    enum status status = library_authority(&assessing->inv->library, set, &assessing->authority, &own);
    return status == STATUS_OK ? status : error_set(err, status, "%s, strictest", own.text);
}

// What is wrong comes before what is missing.
static enum status read_plan(struct assessing *assessing, struct error *err) {
    struct invocation *inv = assessing->inv;
    struct exposure_plan *plan = &assessing->plan;
    struct exposure_task task = {.blend = &assessing->blend};
    double volume = 0, air_changes = 0, mixing = 1;
    *plan = exposure_plan_usual((struct room){0});
    const struct number_asked numbers[] = {
        {"--room", 1, 100000, &volume, true},        {"--air-changes", 0, 1000, &air_changes, true},
        {"--mixing", 0.05, 1, &mixing, false},       {"--use", 0.001, 100000, &task.use_ml_h, true},
        {"--hours", 0.01, 24, &task.length_h, true}, {"--temperature", 5, 35, &plan->temp_c, false},
        {"--share", 0.01, 1, &plan->share, false},
    };
    const size_t count = sizeof numbers / sizeof numbers[0];
    enum status status = argument_blend(inv, 0, &assessing->blend, err);
    if (status == STATUS_OK)
        status = read_rows_of_blends(inv, &task.blend, 1, err);
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        status =
            option_number(inv, numbers[i].name, numbers[i].min, numbers[i].max, *numbers[i].ret, numbers[i].ret, err);
    if (status == STATUS_OK)
        status = read_authority(assessing, err);
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        if (numbers[i].needed && !option_given(inv, numbers[i].name))
            status =
                error_set(err, STATUS_USAGE, "%s is missing; for example: %s", numbers[i].name, inv->command->example);
    if (status != STATUS_OK)
        return status;
    plan->room = room_usual(volume, air_changes);
    plan->room.mixing_factor = mixing;
    plan->leaves = option_given(inv, "--leave");
    plan->tasks[0] = task;
    plan->task_count = 1;
    return STATUS_OK;
}

// --- judging ---

static enum exposure_verdict verdict_of(const struct assessing *assessing) {
    return assessing->strictest ? assessing->all.verdict : assessing->judged->verdict;
}

static void choose_set(struct assessing *assessing) {
    assessing->judged = &assessing->all.sets[assessing->all.strictest];
    for (size_t i = 0; !assessing->strictest && i < assessing->all.count; i++)
        if (assessing->all.sets[i].authority == assessing->authority)
            assessing->judged = &assessing->all.sets[i];
}

// The set that decides how much may be used: with `strictest` the one whose worst index is largest.
static const struct exposure_judgement *deciding(const struct assessing *assessing) {
    return assessing->strictest ? &assessing->all.sets[assessing->all.tightest] : assessing->judged;
}

static enum status assess(struct assessing *assessing, struct error *err) {
    const struct library *lib = &assessing->inv->library;
    enum status status = exposure_air(&assessing->plan, &assessing->air, err);
    if (status == STATUS_OK)
        status = exposure_judge_all(lib, &assessing->plan, &assessing->air, &assessing->all, err);
    if (status == STATUS_OK)
        choose_set(assessing);
    if (status == STATUS_OK)
        status = exposure_air_changes_needed(lib, &assessing->plan, deciding(assessing)->authority, &assessing->need,
                                             &assessing->air_changes_needed, err);
    if (status == STATUS_OK)
        assessing->verdict = verdict_of(assessing);
    return status;
}

// --- text ---

static void add_question(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->plan;
    blend_write(&assessing->blend, out);
    text_printf(out, ": %g mL/h for %g h in %g m3 with %g air changes per hour%s; the person ", plan->tasks[0].use_ml_h,
                plan->tasks[0].length_h, plan->room.volume_m3, plan->room.air_changes_per_h,
                plan->room.air_changes_per_h > 0 ? "" : " (sealed)");
    if (plan->leaves)
        text_add(out, "leaves the room with the task.");
    else
        text_printf(out, "stays in the room to the end of the %g h.", assessing->air.shift_h);
}

static void add_set(const struct assessing *assessing, struct text *out) {
    const struct authority *authority = assessing->judged->authority;
    text_printf(out, "%s: %s%s%s%s", authority->id, authority->name, authority->edition ? ", " : "",
                authority->edition ? authority->edition : "",
                assessing->strictest ? " (the strictest: largest index of any one set)" : "");
}

static void write_question(const struct assessing *assessing, struct text *out) {
    struct text words = {0};
    add_question(assessing, &words);
    page_paragraph(out, 0, 2, text_bytes(&words));
    text_release(&words);
    struct text set = {0};
    add_set(assessing, &set);
    page_paragraph_f(out, 0, 2, "Judged by %s.", text_bytes(&set));
    text_release(&set);
}

static void write_air(const struct assessing *assessing, struct text *out) {
    page_heading(out, "concentrations, mg/m3 (room = well mixed; near = within arm's length of the work)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "component", false);
    sheet_column(&sheet, "room end", true);
    sheet_column(&sheet, "room 8 h", true);
    sheet_column(&sheet, "near end", true);
    sheet_column(&sheet, "near 15 min", true);
    sheet_column(&sheet, "person 8 h", true);
    char number[FIGURE_BYTES];
    for (size_t i = 0; i < assessing->air.count; i++) {
        const struct exposure_component *c = &assessing->air.components[i];
        sheet_cell(&sheet, "%s", c->component->id);
        sheet_cell(&sheet, "%s", figure(c->room_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->room_8h_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->near_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->near_15min_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->twa_8h_mg_m3, 3, number));
    }
    sheet_write(&sheet, out);
    for (size_t i = 0; i < assessing->air.count; i++) {
        const struct exposure_component *c = &assessing->air.components[i];
        page_paragraph_f(out, 2, 4, "%s: 8-h mean %s mg/m3 when the person stays, %.3g when leaving with the task",
                         c->component->id, figure(c->twa_8h_stays_mg_m3, 3, number), c->twa_8h_leaves_mg_m3);
        if (c->above_saturation)
            page_paragraph_f(out, 2, 4,
                             "%s: saturated air holds only %.3g mg/m3; not all of it can evaporate in that time",
                             c->component->id, c->saturated_mg_m3);
    }
}

static void limit_words(const struct exposure_check *check, char words[CELL_BYTES]) {
    static const char *const kinds[] = {"8 h", "10 h", "15 min", "ceiling", "IDLH"};
    const struct limit *row = check->limit.row;
    snprintf(words, CELL_BYTES, "%s%s%s", kinds[check->limit.kind],
             check->limit.origin == LIMIT_GROUP       ? ", group value"
             : check->limit.origin == LIMIT_EXCURSION ? ", by factor"
                                                      : "",
             check->limit.converted ? ", from ppm" : "");
    if (row && row->year) {
        size_t at = strlen(words);
        snprintf(words + at, CELL_BYTES - at, ", %d", row->year);
    }
}

static void write_checks(const struct assessing *assessing, struct text *out) {
    page_heading(out, "limits (share = what the person breathes / limit)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "component", false);
    sheet_column(&sheet, "reached", true);
    sheet_column(&sheet, "limit mg/m3", true);
    sheet_column(&sheet, "share", true);
    sheet_column(&sheet, "kind, year of the source", false);
    char number[FIGURE_BYTES];
    char words[CELL_BYTES];
    for (size_t i = 0; i < assessing->judged->count; i++) {
        const struct exposure_component_judgement *c = &assessing->judged->components[i];
        const char *id = assessing->air.components[i].component->id;
        for (size_t k = 0; k < c->check_count; k++) {
            limit_words(&c->checks[k], words);
            sheet_cell(&sheet, "%s%s", id, c->biting == (int)k ? " *" : "");
            sheet_cell(&sheet, "%s", figure(c->checks[k].near_mg_m3, 3, number));
            sheet_cell(&sheet, "%s", figure(c->checks[k].allowed_mg_m3, 4, number));
            sheet_cell(&sheet, "%.2f", c->checks[k].fraction);
            sheet_cell(&sheet, "%s", words);
        }
        if (c->unknown) {
            sheet_cell(&sheet, "%s", id);
            sheet_cell(&sheet, "%s", figure(assessing->air.components[i].twa_8h_mg_m3, 3, number));
            sheet_cell(&sheet, "none found");
            sheet_cell(&sheet, "?");
            sheet_cell(&sheet, "no limit in this set");
        }
    }
    sheet_write(&sheet, out);
}

static void write_unknown(const struct assessing *assessing, struct text *out) {
    for (size_t i = 0; i < assessing->judged->count; i++) {
        const struct exposure_component_judgement *c = &assessing->judged->components[i];
        if (!c->unknown)
            continue;
        struct text sets = {0};
        for (size_t k = 0; k < c->elsewhere_count; k++)
            text_printf(&sets, "%s%s", k ? ", " : "", c->elsewhere[k]->id);
        page_paragraph_f(out, 2, 4, "%s has no limit in %s; %s%s. No limit found is never zero hazard.",
                         assessing->air.components[i].component->id, assessing->judged->authority->id,
                         sets.length ? "these sets have one: " : "no other set of the tables has one either",
                         text_bytes(&sets));
        text_release(&sets);
    }
}

static void write_verdict(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *judged = assessing->judged;
    page_heading(out, "answer");
    page_paragraph_f(out, 2, 4,
                     "Additive index at the person: %s%.2f (day means), %.2f (short times); in the well-mixed room "
                     "%.2f. Above 1 the limit of the mixture is passed.",
                     judged->complete ? "" : "at least ", judged->index, judged->peak_index, judged->room_index);
    if (assessing->verdict == EXPOSURE_OVER)
        page_paragraph(out, 2, 4, "OVER the limits: change the plan.");
    else if (assessing->verdict == EXPOSURE_NOT_JUDGED)
        page_paragraph(out, 2, 4, "CANNOT BE JUDGED: a component has no limit in this set.");
    else
        page_paragraph(out, 2, 4, "Within the limits of this set, on these assumptions.");
    if (assessing->air.rises_without_bound)
        page_paragraph_f(out, 2, 4,
                         "No air change: the vapour rises without bound as long as work goes on; the figures hold for "
                         "%g h of it only.",
                         assessing->plan.tasks[0].length_h);
    write_unknown(assessing, out);
    const struct exposure_judgement *decides = deciding(assessing);
    if (decides != judged)
        page_paragraph_f(out, 2, 4, "A short-term limit of %s bites harder: its worst index is %.2f.",
                         decides->authority->id, decides->worst);
    const struct exposure_component_judgement *c = &decides->components[decides->bites];
    if (c->biting >= 0) {
        char words[CELL_BYTES];
        limit_words(&c->checks[c->biting], words);
        page_paragraph_f(out, 2, 4, "The limit that bites first: %s of %s (%s), share %.2f.",
                         assessing->air.components[decides->bites].component->id, decides->authority->id, words,
                         c->checks[c->biting].fraction);
    }
}

// To three digits, never above: the amount itself would pass the limit otherwise.
static double rounded_down(double value) {
    if (!(value > 0))
        return value;
    double unit = pow(10, floor(log10(value)) - 2);
    return floor(value / unit + 1e-9) * unit;
}

// NAN when a component has no limit: what is left out could be what decides. INFINITY when nothing needs a limit.
static double allowed_ml_h(const struct assessing *assessing) {
    if (!assessing->judged->complete || !deciding(assessing)->complete)
        return NAN;
    return deciding(assessing)->allowed_factor * assessing->plan.tasks[0].use_ml_h;
}

static void write_help(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing);
    const double use_ml_h = allowed_ml_h(assessing);
    char number[FIGURE_BYTES];
    if (isfinite(use_ml_h) && assessing->plan.share < 1)
        page_paragraph_f(out, 2, 4, "Up to %s mL/h would use up no more than %g of any limit of %s.",
                         figure(rounded_down(use_ml_h), 3, number), assessing->plan.share, decides->authority->id);
    else if (isfinite(use_ml_h))
        page_paragraph_f(out, 2, 4, "Up to %s mL/h would stay within the limits of %s.",
                         figure(rounded_down(use_ml_h), 3, number), decides->authority->id);
    if (assessing->need == NEED_FOUND && assessing->air_changes_needed > assessing->plan.room.air_changes_per_h)
        page_paragraph_f(out, 2, 4, "The same amount needs %s%.1f air changes per hour.",
                         decides->complete ? "" : "at least ", assessing->air_changes_needed);
    else if (assessing->need == NEED_IMPOSSIBLE)
        page_paragraph(
            out, 2, 4,
            "No general ventilation mends it: the near field alone passes the limit. Use less, another blend, "
            "or extraction at the source (measured).");
    if (decides->worst > assessing->plan.share && decides->count > 1)
        page_paragraph_f(out, 2, 4, "Replace first: %s, the largest share.",
                         assessing->air.components[decides->replace_first].component->id);
}

// What no index clears.
static const struct {
    unsigned flag;
    const char *key, *words;
} flag_names[] = {{EXPOSURE_SKIN, "skin", "taken up through the skin"},
                  {EXPOSURE_CARCINOGEN, "carcinogen", "carcinogen (known or suspected)"},
                  {EXPOSURE_MUTAGEN, "mutagen", "mutagen (known or suspected)"},
                  {EXPOSURE_REPRODUCTIVE, "reproductive", "toxic to reproduction (known or suspected)"},
                  {EXPOSURE_SENSITISER, "sensitiser", "sensitiser"}};
enum { FLAGS = sizeof flag_names / sizeof flag_names[0] };

static void add_flags(unsigned flags, struct text *out) {
    const char *set[FLAGS];
    size_t count = 0;
    for (size_t i = 0; i < FLAGS; i++)
        if (flags & flag_names[i].flag)
            set[count++] = flag_names[i].words;
    text_add_joined(out, ", ", set, count);
}

static void write_component_notes(const struct assessing *assessing, struct text *out) {
    page_heading(out, "per component");
    for (size_t i = 0; i < assessing->judged->count; i++) {
        const struct exposure_component *a = &assessing->air.components[i];
        const struct exposure_component_judgement *c = &assessing->judged->components[i];
        struct text words = {0};
        if (isnan(a->p_kpa))
            text_printf(&words, "%s: no vapour pressure known", a->component->id);
        else
            text_printf(&words, "%s: vapour pressure %.3g kPa at %g degC%s", a->component->id, a->p_kpa,
                        assessing->plan.temp_c, a->p_source == PRESSURE_EXTRAPOLATED ? " (curve extrapolated)" : "");
        if (!isnan(c->vapour_hazard_ratio))
            text_printf(&words, "; vapour hazard ratio %.0f (saturated air / limit)", c->vapour_hazard_ratio);
        if (c->flags) {
            text_add(&words, "; no index clears this: ");
            add_flags(c->flags, &words);
        }
        if (!isnan(c->odour_ratio))
            text_printf(&words, "; smell %s",
                        c->odour_ratio < 1 ? "does not warn before the limit"
                                           : "may begin below the limit, but the nose tires");
        text_add(&words, ".");
        page_paragraph(out, 2, 4, text_bytes(&words));
        text_release(&words);
    }
    if (assessing->judged->above_idlh)
        page_paragraph(out, 2, 4,
                       "A concentration immediately dangerous to life or health (IDLH) is passed: do not do this.");
    page_paragraph_f(
        out, 2, 4,
        "Fire: %.1f %% of the lower flammable limit in the room, %.1f %% near the work (10 %% is the usual "
        "alarm)%s.",
        100 * assessing->air.flammable_share_room, 100 * assessing->air.flammable_share_near,
        assessing->air.flammable_unknown ? "; a component without a known limit is not in it" : "");
}

static void write_assumptions(const struct assessing *assessing, struct text *out) {
    page_heading(out, "assumptions");
    page_paragraph_f(
        out, 2, 4,
        "All that is used evaporates during the task; no credit for an extraction arm; the work is in a near "
        "field of %.1f m radius with %.0f m3/min exchanged (nearer to the face, about half a metre, it is "
        "about twice to three times as much); air and liquid at %g degC; fresh air mixes by a factor of %g.",
        NEAR_RADIUS_M, assessing->plan.room.near_flow_m3_h / 60, assessing->plan.temp_c,
        assessing->plan.room.mixing_factor);
    page_paragraph(out, 2, 4,
                   "Limits change and differ by country; a lower legal or company limit wins. Additive indices do not "
                   "protect against sensitisers, carcinogens or reproductive toxicants. Follow the safety data sheet "
                   "and ask an occupational hygienist where you are in doubt.");
}

static void write_text(const struct assessing *assessing, struct text *out) {
    write_question(assessing, out);
    write_verdict(assessing, out);
    write_help(assessing, out);
    write_air(assessing, out);
    write_checks(assessing, out);
    write_component_notes(assessing, out);
    write_assumptions(assessing, out);
    if (option_given(assessing->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(assessing->inv, "--chart"));
}

// --- JSON ---

static void json_checks(const struct exposure_component_judgement *c, struct json *json) {
    json_list(json, "limits");
    for (size_t k = 0; k < c->check_count; k++) {
        json_object(json, NULL);
        json_text(json, "kind", limit_kind_words[c->checks[k].limit.kind]);
        json_number(json, "limit_mg_m3", c->checks[k].allowed_mg_m3);
        json_number(json, "reached_mg_m3", c->checks[k].near_mg_m3);
        json_number(json, "share", c->checks[k].fraction);
        json_number(json, "room_share", c->checks[k].room_fraction);
        if (c->checks[k].limit.row)
            json_provenance(json, "source", &c->checks[k].limit.row->from);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_component(const struct assessing *assessing, size_t i, struct json *json) {
    const struct exposure_component *a = &assessing->air.components[i];
    const struct exposure_component_judgement *c = &assessing->judged->components[i];
    json_object(json, NULL);
    json_text(json, "id", a->component->id);
    json_number(json, "generation_mg_h", a->generation_mg_h);
    json_number(json, "room_mg_m3", a->room_mg_m3);
    json_number(json, "room_steady_mg_m3", a->room_steady_mg_m3);
    json_number(json, "room_8h_mg_m3", a->room_8h_mg_m3);
    json_number(json, "room_8h_stays_mg_m3", a->room_8h_stays_mg_m3);
    json_number(json, "room_8h_leaves_mg_m3", a->room_8h_leaves_mg_m3);
    json_number(json, "near_mg_m3", a->near_mg_m3);
    json_number(json, "near_15min_mg_m3", a->near_15min_mg_m3);
    json_number(json, "twa_8h_mg_m3", a->twa_8h_mg_m3);
    json_number(json, "twa_8h_stays_mg_m3", a->twa_8h_stays_mg_m3);
    json_number(json, "twa_8h_leaves_mg_m3", a->twa_8h_leaves_mg_m3);
    json_number(json, "vapour_pressure_kpa", a->p_kpa);
    json_number(json, "saturated_mg_m3", a->saturated_mg_m3);
    json_flag(json, "above_saturation", a->above_saturation);
    json_number(json, "vapour_hazard_ratio", c->vapour_hazard_ratio);
    for (size_t k = 0; k < FLAGS; k++)
        json_flag(json, flag_names[k].key, (c->flags & flag_names[k].flag) != 0);
    json_checks(c, json);
    json_close_object(json);
}

static void json_unknown(const struct assessing *assessing, struct json *json) {
    json_list(json, "unknown");
    for (size_t i = 0; i < assessing->judged->count; i++)
        if (assessing->judged->components[i].unknown)
            json_text(json, NULL, assessing->air.components[i].component->id);
    json_close_list(json);
}

static void json_sets(const struct assessing *assessing, struct json *json) {
    json_list(json, "sets");
    for (size_t i = 0; i < assessing->all.count; i++) {
        json_object(json, NULL);
        json_text(json, "id", assessing->all.sets[i].authority->id);
        json_number(json, "index", assessing->all.sets[i].index);
        json_number(json, "worst_index", assessing->all.sets[i].worst);
        json_flag(json, "index_complete", assessing->all.sets[i].complete);
        json_close_object(json);
    }
    json_close_list(json);
}

static void write_json(const struct assessing *assessing, struct text *out) {
    static const char *const verdicts[] = {"within", "over", "cannot-be-judged"};
    const struct exposure_judgement *decides = deciding(assessing);
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &assessing->blend);
    json_text(&json, "limits", assessing->judged->authority->id);
    json_flag(&json, "strictest", assessing->strictest);
    json_list(&json, "components");
    for (size_t i = 0; i < assessing->air.count; i++)
        json_component(assessing, i, &json);
    json_close_list(&json);
    json_number(&json, "index", assessing->judged->index);
    json_number(&json, "peak_index", assessing->judged->peak_index);
    json_number(&json, "room_index", assessing->judged->room_index);
    json_flag(&json, "index_complete", assessing->judged->complete);
    json_unknown(assessing, &json);
    json_text(&json, "verdict", verdicts[assessing->verdict]);
    json_text(&json, "decided_by", decides->authority->id);
    json_number(&json, "allowed_ml_h", allowed_ml_h(assessing));
    json_number(&json, "air_changes_needed", assessing->need == NEED_FOUND ? assessing->air_changes_needed : NAN);
    json_number(&json, "flammable_share_near", assessing->air.flammable_share_near);
    json_number(&json, "flammable_share_room", assessing->air.flammable_share_room);
    json_sets(assessing, &json);
    if (option_given(assessing->inv, "--chart"))
        json_text(&json, "chart", option_value(assessing->inv, "--chart"));
    json_end(&json);
}

// --- chart ---

static enum status draw(const struct assessing *assessing, const char *path, struct error *err) {
    struct text question = {0};
    struct text set = {0};
    add_question(assessing, &question);
    add_set(assessing, &set);
    struct exposure_drawing drawing = {.question = text_bytes(&question),
                                       .limit_set = text_bytes(&set),
                                       .plan = &assessing->plan,
                                       .air = &assessing->air,
                                       .judged = assessing->judged};
    enum status status = question.failed || set.failed ? error_set(err, STATUS_MEMORY, "out of memory")
                                                       : draw_exposure(assessing->inv, &drawing, path, err);
    text_release(&question);
    text_release(&set);
    return status;
}

static enum status run(struct invocation *inv, struct error *err) {
    struct assessing *assessing = arena_new(inv->arena, 1, sizeof *assessing);
    if (!assessing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    assessing->inv = inv;
    const char *chart = option_value(inv, "--chart");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = read_plan(assessing, err);
    if (status == STATUS_OK)
        status = assess(assessing, err);
    if (status == STATUS_OK && chart)
        status = draw(assessing, chart, err);
    if (status == STATUS_OK && inv->json)
        write_json(assessing, inv->out);
    else if (status == STATUS_OK)
        write_text(assessing, inv->out);
    if (status == STATUS_OK && assessing->verdict != EXPOSURE_WITHIN)
        status = STATUS_NEGATIVE;
    exposure_judgements_release(&assessing->all);
    return status;
}

static const struct option options[] = {
    {.name = "--use", .argument = "ML/H", .help = "how much of the blend is used up per hour of work"},
    {.name = "--hours", .argument = "H", .help = "hours of work in the day"},
    {.name = "--room", .argument = "M3", .help = "volume of the room"},
    {.name = "--air-changes", .argument = "N", .help = "fresh air per hour in room volumes; 0 = sealed"},
    {.name = "--limits", .argument = "SET", .help = "us-osha, us-niosh, us-epa, eu, uk, de or strictest (default)"},
    {.name = "--leave", .help = "the person leaves the room with the task (default: stays to the end of 8 h)"},
    {.name = "--mixing",
     .argument = "SHARE",
     .help = "share of the fresh air that really mixes, 0.05 to 1 (default 1)"},
    {.name = "--share", .argument = "SHARE", .help = "of every limit that may be used up (default 1)"},
    {.name = "--temperature", .argument = "DEGC", .help = "of room and liquid, 5 to 35 (default 20)"},
    CASE_OPTION,
    CHART_OPTION("concentration against time with the limits, as PNG, SVG or PDF"),
    {.name = "--start",
     .argument = "TIME",
     .help = "time of day at which the work begins, for the chart, for example 9:30"},
    PAGE_OPTIONS,
};

const struct command cmd_exposure = {
    .name = "exposure",
    .arguments = "BLEND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "Is it within the limits in this room, which limit bites, how much may I use",
    .details =
        "Exit status 1 when a limit is passed or a component has no limit in the set (then it cannot be judged).",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_LIMITS,
    .example = "mildsolve exposure \"toluene 1 + acetone 1\" --use 20 --hours 5 --room 85 --air-changes 3 --limits eu",
    .run = run,
};
