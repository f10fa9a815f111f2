// SPDX-License-Identifier: GPL-3.0-or-later
// The report: how the blend dries, and the air of the room.
#include "base/language.h"
#include "cli/report.h"

#include <math.h>

// --- drying ---

static const size_t shown_points[] = {0, 20, 40, 60, 80, 90, 95, 99};

static void add_path(struct report *report, struct document_section *section) {
    const struct evaporation *path = &report->drying;
    struct document_table *table = document_table(section, "drying", "What is left while it dries");
    table_column(table, "evaporated_mol_percent", "Gone", "mol%", true);
    table_column(table, "relative_time", "Time", NULL, true);
    size_t most = path->blend.count < 6 ? path->blend.count : 6;
    static const char *const keys[] = {"component_1", "component_2", "component_3",
                                       "component_4", "component_5", "component_6"};
    for (size_t i = 0; i < most; i++)
        table_column(table, keys[i], path->blend.components[i]->id, "vol%", true);
    table_column(table, "phase", "Liquids", NULL, false);
    for (size_t k = 0; k < sizeof shown_points / sizeof shown_points[0] && shown_points[k] < path->count; k++) {
        const struct evaporation_point *point = &path->points[shown_points[k]];
        table_decimals(table, 100 * point->evaporated, 0);
        table_number(table, point->time, 2);
        for (size_t i = 0; i < most; i++)
            table_decimals(table, 100 * point->phi[i], 1);
        table_words(table, say(phase_verdict_word(point->verdict)));
    }
}

void report_add_drying(struct report *report) {
    if (!report->notation)
        return;
    struct document_section *section = document_section(report->document, "drying", "How it dries");
    const struct evaporation *path = &report->drying;
    if (!report->has_drying.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "It cannot be followed: %s.", report->has_drying.why.text);
        return;
    }
    for (size_t i = 0; i < path->finding_count; i++)
        document_paragraph(section, PARAGRAPH_ITEM, "%s.", path->findings[i].sentence);
    add_path(report, section);
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Time 1 is what the same volume of n-butyl acetate takes. A swab dries in minutes; what has "
                       "entered paint or varnish leaves far more slowly. %s",
                       path->sentence);
    report_figure_drying(report, section);
}

// --- air ---

// To three digits, never above: the amount itself would pass the limit otherwise.
double report_allowed_ml_h(const struct report *report) {
    double allowed = report->has_air.there ? allowed_ml_h(report->air) : NAN;
    double unit = pow(10, floor(log10(allowed)) - 2);
    return isfinite(allowed) && allowed > 0 ? floor(allowed / unit + 1e-9) * unit : NAN;
}

enum paragraph_style report_air_style(const struct report *report, enum paragraph_style within) {
    return report->has_air.there && assessing_answer(report->air) == ANSWER_WITHIN ? within : PARAGRAPH_CAUTION;
}

const char *report_verdict(const struct report *report) {
    struct document *document = report->document;
    if (!report->has_air.there)
        return document_say(document, "The air is not judged: %s.", report->has_air.why.text);
    const char *set = report->judged->authority->id;
    if (report->air->verdict == EXPOSURE_OVER && report->decides->worst <= 1)
        return document_say(document,
                            report->judged->above_alarm
                                ? N_("OVER the fire alarm of 10 %% of the lower flammable limit near the work: change "
                                     "the plan (additive index of %s: %.2f).")
                                : N_("OVER a concentration immediately dangerous to life or health (IDLH): change the "
                                     "plan (additive index of %s: %.2f)."),
                            set, index_shown(report->judged->worst));
    if (report->air->verdict == EXPOSURE_OVER)
        return document_say(document, "OVER the limits of %s: change the plan (additive index %.2f).", set,
                            index_shown(report->judged->worst));
    if (report->air->verdict == EXPOSURE_NOT_JUDGED)
        return document_say(document, "The air CANNOT BE JUDGED: a component has no limit in %s.", set);
    if (assessing_answer(report->air) != ANSWER_WITHIN)
        return say(answer_for_people_words(assessing_answer(report->air)));
    return document_say(document, "Air within the limits of %s, on its assumptions (additive index %.2f).", set,
                        index_shown(report->judged->worst));
}

void report_add_people_warning(struct report *report, struct document_section *section) {
    struct text warning = {0};
    if (!report->has_air.there)
        return;
    add_people_warning(report->air, &warning);
    if (warning.length)
        document_paragraph(section, PARAGRAPH_CAUTION, "%s", document_take(report->document, &warning));
    else
        text_release(&warning);
}

static void add_air_facts(struct report *report, struct document_section *section) {
    const struct case_room *room = &report->file->room;
    struct document_facts *facts = document_facts(section, "room");
    fact_words(facts, "room", "Room", room->name);
    fact_number(facts, "volume_m3", "Volume", room->volume_m3, 0, "m\u00B3");
    fact_number(facts, "air_changes_per_h", "Air changes", room->air_changes_per_h, 0, "1/h");
    fact_words(facts, "air_changes_are", "They are",
               room->air_changes_are ? say(how_known_words[room->air_changes_are]) : NULL);
    fact_words(facts, "arm", "Extraction arm", say(arm_words[room->arm]));
    fact_number(facts, "arm_capture_percent", "Its capture", room->arm_capture_percent, 0, "%");
    fact_number(facts, "temperature_c", "Temperature", room->temperature_c, 0, "\u00B0C");
    fact_words(facts, "room_note", "Note", room->note);
    fact_number(facts, "people_at_work", "People at work",
                report->file->people.at_work ? (double)report->file->people.at_work : (double)NAN, 0, NULL);
    fact_words(facts, "people_flags", "Announced", report_words(report, &report->file->people.flags));
    fact_words(facts, "people_note", "Note on the people", report->file->people.note);
    if (!report->has_air.there)
        return;
    fact_number(facts, "index", "Additive index, day means", index_shown(report->judged->index),
                report->judged->index > 1 ? 3 : 2, NULL);
    fact_number(facts, "peak_index", "Additive index, short times", index_shown(report->judged->peak_index),
                report->judged->peak_index > 1 ? 3 : 2, NULL);
    fact_number(facts, "allowed_ml_h", "May be used in an hour at most", report_allowed_ml_h(report), 3, "mL/h");
    fact_number(facts, "air_changes_needed", "Air changes that the same amount needs",
                report->air->air_changes.need == NEED_FOUND ? air_shown(report->air->air_changes.value) : (double)NAN,
                3, "1/h");
    fact_number(facts, "flammable_share_near_percent", "Of the lower flammable limit, near the work",
                100 * report->air->day->air.flammable_share_near, 2, "%");
}

static const char *limit_words(struct report *report, const struct limit_value *limit) {
    struct document *document = report->document;
    char kind[CELL_BYTES];
    limit_kind_say(limit, kind);
    if (limit->origin == LIMIT_GROUP)
        return document_say(document, "%s, group value", kind);
    if (limit->origin == LIMIT_EXCURSION)
        return document_say(document, "%s, by factor", kind);
    if (limit->origin == LIMIT_GUIDE)
        return document_say(document, "%s, three times the 8 h value", kind);
    return document_say(document, "%s", kind);
}

static void add_checks(struct report *report, struct document_table *table, size_t i) {
    const struct exposure_component_judgement *judged = &report->judged->components[i];
    const char *id = report->air->day->air.components[i].component->id;
    for (size_t k = 0; k < judged->check_count; k++) {
        const struct exposure_check *check = &judged->checks[k];
        table_words(table, id);
        table_words(table, limit_words(report, &check->limit));
        table_number(table, check->near_mg_m3, 3);
        table_number(table, check->allowed_mg_m3, 4);
        table_decimals(table, check->fraction, 2);
        table_decimals(table, check->limit.row && check->limit.row->year ? (double)check->limit.row->year : (double)NAN,
                       0);
        table_words(table, check->limit.row ? say(doubt_words(&check->limit.row->from)) : "");
        if (check->limit.row)
            cited_add(&report->cited, &check->limit.row->from);
    }
    if (!judged->unknown)
        return;
    table_words(table, id);
    table_words(table, say("no limit in this set; that is never zero hazard"));
    table_number(table, report->air->day->air.components[i].twa_8h_mg_m3, 3);
    for (int k = 0; k < 4; k++)
        table_words(table, "");
}

static void add_limits(struct report *report, struct document_section *section) {
    struct document_table *table = document_table(section, "limits", "What the person breathes against the limits");
    table_column(table, "component", "Component", NULL, false);
    table_column(table, "limit", "Limit", NULL, false);
    table_column(table, "reached_mg_m3", "Reached", "mg/m\u00B3", true);
    table_column(table, "limit_mg_m3", "Limit", "mg/m\u00B3", true);
    table_column(table, "share", "Share", NULL, true);
    table_column(table, "year", "Year", NULL, true);
    table_column(table, "sure", "How sure", NULL, false);
    for (size_t i = 0; i < report->judged->count; i++)
        if (report->judged->components[i].check_count || report->judged->components[i].unknown)
            add_checks(report, table, i);
}

static void add_assumptions(struct report *report, struct document_section *section) {
    const struct exposure_plan *plan = &report->air->day->plan;
    struct text question = {0};
    add_question(report->air, &question);
    document_paragraph(section, PARAGRAPH_SMALL, "%s", document_take(report->document, &question));
    document_paragraph(section, PARAGRAPH_SMALL,
                       "All that is used evaporates during the work; near field of %.1f m radius with %.0f m\u00B3/min "
                       "exchanged; %g \u00B0C.",
                       NEAR_RADIUS_M, plan->room.near_flow_m3_h / 60, plan->temp_c);
    if (!report->air->capture_measured)
        document_paragraph(section, PARAGRAPH_SMALL, "No credit for an extraction arm.");
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Limits change and differ by country; a lower legal or company limit wins. Additive indices do "
                       "not protect against sensitisers, carcinogens or reproductive toxicants.");
}

void report_add_air(struct report *report) {
    struct document_section *section = document_section(report->document, "air", "Air and ventilation");
    if (report->notation) {
        document_paragraph(section, report_air_style(report, PARAGRAPH_STRONG), "%s", report_verdict(report));
        report_add_people_warning(report, section);
    } else
        document_paragraph(section, PARAGRAPH_PLAIN, "The air is judged once a blend is tested or chosen.");
    report_add_planned_air(report, section);
    add_air_facts(report, section);
    for (size_t i = 0; i < report->file->day.count; i++)
        document_paragraph(section, PARAGRAPH_ITEM, "Task of the day: %s",
                           document_name(report->document, report->file->day.items[i]));
    if (!report->has_air.there)
        return;
    const struct authority *authority = report->judged->authority;
    document_paragraph(section, PARAGRAPH_PLAIN, "Judged by %s: %s. %s", authority->id, authority->name,
                       authority->edition ? authority->edition : "");
    add_limits(report, section);
    if (report->air->air_changes.need == NEED_IMPOSSIBLE)
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "No general ventilation mends it: the near field alone passes the limit. Use less, another "
                           "blend, or extraction at the source (measured).");
    if (report->air->day->air.rises_without_bound)
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "No air change: the vapour rises without bound as long as work goes on.");
    add_assumptions(report, section);
    report_figure_air(report, section);
}
