// SPDX-License-Identifier: GPL-3.0-or-later
// The answer of `exposure` for people.
#include "base/language.h"
#include "base/print_words.h"
#include "cli/assessing.h"
#include "cli/page_options.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// --- the question ---

static void write_tasks(const struct assessing *assessing, struct text *out) {
    struct sheet sheet = {.indent = 2};
    page_heading(out, "the day");
    sheet_column(&sheet, "from", true);
    sheet_column(&sheet, "to", true);
    sheet_column(&sheet, "how", false);
    sheet_column(&sheet, "mL/h", true);
    sheet_column(&sheet, "blend, parts by volume", false);
    for (size_t i = 0; i < assessing->task_count; i++) {
        const struct day_task *task = &assessing->tasks[i];
        char from[CLOCK_BYTES], to[CLOCK_BYTES], number[FIGURE_BYTES];
        struct text blend = {0};
        blend_write(&assessing->blends[i], &blend);
        sheet_cell(&sheet, "%s", clock_write(task->from_h, from));
        sheet_cell(&sheet, "%s", clock_write(task->to_h, to));
        sheet_cell(&sheet, "%s", say(day_method_words[task->method]));
        sheet_cell(&sheet, "%s", figure(task->use_ml_h, 3, number));
        sheet_cell(&sheet, "%s", text_bytes(&blend));
        text_release(&blend);
    }
    sheet_write(&sheet, out);
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
    if (assessing->timed)
        write_tasks(assessing, out);
}

// --- figures ---

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
    for (size_t i = 0; i < assessing->day->air.count; i++) {
        const struct exposure_component *c = &assessing->day->air.components[i];
        sheet_cell(&sheet, "%s", c->component->id);
        sheet_cell(&sheet, "%s", figure(c->room_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->room_8h_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->near_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->near_15min_mg_m3, 3, number));
        sheet_cell(&sheet, "%s", figure(c->twa_8h_mg_m3, 3, number));
    }
    sheet_write(&sheet, out);
    for (size_t i = 0; i < assessing->day->air.count; i++) {
        const struct exposure_component *c = &assessing->day->air.components[i];
        if (c->unweighed)
            continue;
        page_paragraph_f(out, 2, 4,
                         "%s: 8-h mean %s mg/m3 when the person stays, %.3g when leaving with the task (in the "
                         "well-mixed room alone %.3g and %.3g)",
                         c->component->id, figure(c->twa_8h_stays_mg_m3, 3, number), c->twa_8h_leaves_mg_m3,
                         c->room_8h_stays_mg_m3, c->room_8h_leaves_mg_m3);
        if (c->above_saturation)
            page_paragraph_f(out, 2, 4,
                             "%s: saturated air holds only %.3g mg/m3; not all of it can evaporate in that time",
                             c->component->id, c->saturated_mg_m3);
    }
}

static const char *const gap_words[] = {"", "no limit in this set", "no density known",
                                        "limit in ppm only, no molar mass"};

const char *limit_kind_say(const struct limit_value *limit, char words[CELL_BYTES]) {
    static const char *const kinds[] = {N_("8 h"), N_("10 h"), N_("15 min"), N_("ceiling"), "IDLH"};
    if (limit->kind == LIMIT_CEILING && limit->period_min)
        print_words(words, CELL_BYTES, "ceiling, %d min", limit->period_min);
    else
        snprintf(words, CELL_BYTES, "%s", say(kinds[limit->kind]));
    return words;
}

static void limit_words(const struct exposure_check *check, char words[CELL_BYTES]) {
    const struct limit *row = check->limit.row;
    char kind[CELL_BYTES];
    snprintf(words, CELL_BYTES, "%s%s%s%s", limit_kind_say(&check->limit, kind),
             check->allowed_mg_m3 < check->limit.mg_m3 ? say(", for the long shift") : "",
             check->limit.origin == LIMIT_GROUP       ? say(", group value")
             : check->limit.origin == LIMIT_EXCURSION ? say(", by factor")
             : check->limit.origin == LIMIT_GUIDE     ? say(", three times the 8 h value")
                                                      : "",
             check->limit.converted ? say(", from ppm") : "");
    if (row && row->year) {
        size_t at = strlen(words);
        snprintf(words + at, CELL_BYTES - at, ", %d", row->year);
    }
}

// Share of an IDLH from which it stands in the table of limits, of which it is none.
static const double idlh_shown_from = 0.1;

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
    for (size_t i = 0; i < assessing->day->judged->count; i++) {
        const struct exposure_component_judgement *c = &assessing->day->judged->components[i];
        const char *id = assessing->day->air.components[i].component->id;
        for (size_t k = 0; k < c->check_count; k++) {
            limit_words(&c->checks[k], words);
            sheet_cell(&sheet, "%s%s", id, c->biting == (int)k ? " *" : "");
            sheet_cell(&sheet, "%s", figure(c->checks[k].near_mg_m3, 3, number));
            sheet_cell(&sheet, "%s", figure(c->checks[k].allowed_mg_m3, 4, number));
            sheet_cell(&sheet, "%.2f", index_shown(c->checks[k].fraction));
            sheet_cell(&sheet, "%s", words);
        }
        if (c->idlh_fraction >= idlh_shown_from) {
            sheet_cell(&sheet, "%s", id);
            sheet_cell(&sheet, "%s", figure(assessing->day->air.components[i].near_mg_m3, 3, number));
            sheet_cell(&sheet, "%s", figure(c->idlh.mg_m3, 4, number));
            sheet_cell(&sheet, "%.2f", index_shown(c->idlh_fraction));
            sheet_cell(&sheet, "IDLH of %s", c->idlh_of->id);
        }
        if (c->unknown) {
            sheet_cell(&sheet, "%s", id);
            sheet_cell(&sheet, "%s", figure(assessing->day->air.components[i].twa_8h_mg_m3, 3, number));
            sheet_cell(&sheet, "none found");
            sheet_cell(&sheet, "?");
            sheet_cell(&sheet, "%s", say(gap_words[c->gap]));
        }
    }
    sheet_write(&sheet, out);
}

// The columns above have eight hours in them, a limit of ten hours has not.
static void write_base(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *judged = assessing->day->judged;
    double base_h = limit_base_h(LIMIT_TWA_10H, assessing->day->air.shift_h);
    bool longer = false;
    for (size_t i = 0; i < judged->count; i++)
        for (size_t k = 0; k < judged->components[i].check_count; k++)
            longer |= judged->components[i].checks[k].limit.kind == LIMIT_TWA_10H;
    if (longer && base_h > 8)
        page_paragraph_f(out, 2, 4,
                         "'10 h': reached is the dose of the day over the %g h of this shift, as that limit means it; "
                         "'room 8 h' and 'person 8 h' above are the same dose over 8 h, so larger.",
                         base_h);
}

// --- the answer ---

static void write_unknown(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *judged = assessing->day->judged;
    for (size_t i = 0; i < judged->count; i++) {
        const struct exposure_component_judgement *c = &judged->components[i];
        const char *id = assessing->day->air.components[i].component->id;
        const char *sets[EXPOSURE_AUTHORITIES_MAX];
        for (size_t k = 0; k < c->elsewhere_count; k++)
            sets[k] = c->elsewhere[k]->id;
        struct text list = {0};
        text_add_joined(&list, ", ", sets, c->elsewhere_count);
        if (c->gap == GAP_NO_DENSITY)
            page_paragraph_f(out, 2, 4,
                             "%s has no density in the tables, so nobody can say how much vapour its mL make. Put "
                             "density_20c into your own table of properties.",
                             id);
        else if (c->gap == GAP_NO_MOLAR_MASS)
            page_paragraph_f(out, 2, 4,
                             "%s has no molar mass in the tables, and %s gives its limit in ppm only. Put molar_mass "
                             "into your own table of properties.",
                             id, judged->authority->id);
        else if (c->gap == GAP_NO_LIMIT && list.length)
            page_paragraph_f(out, 2, 4,
                             "%s has no limit in %s; these sets have one: %s. No limit found is never zero hazard.", id,
                             judged->authority->id, text_bytes(&list));
        else if (c->gap == GAP_NO_LIMIT)
            page_paragraph_f(
                out, 2, 4,
                "%s has no limit in %s; no other set of the tables has one either. No limit found is never "
                "zero hazard.",
                id, judged->authority->id);
        text_release(&list);
    }
}

static void write_index(const struct exposure_judgement *judged, struct text *out) {
    if (judged->complete)
        page_paragraph_f(out, 2, 4,
                         "Additive index at the person: %.2f (day means), %.2f (short times); in the well-mixed room "
                         "%.2f. Above 1 the limit of the mixture is passed.",
                         index_shown(judged->index), index_shown(judged->peak_index), index_shown(judged->room_index));
    else
        page_paragraph_f(
            out, 2, 4,
            "Additive index at the person: at least %.2f (day means), %.2f (short times); in the well-mixed "
            "room %.2f. Above 1 the limit of the mixture is passed.",
            index_shown(judged->index), index_shown(judged->peak_index), index_shown(judged->room_index));
}

// Both readings of the day, and which decides.
static void write_rates(const struct assessing *assessing, struct text *out) {
    const struct assessed_day *all = &assessing->days[RATE_ALL], *model = &assessing->days[RATE_MODEL];
    if (!assessing->other)
        return;
    page_paragraph_f(out, 2, 4,
                     "Worst index when all evaporates during the tasks: %.2f; at the rate that the model gives the wet "
                     "surface: %.2f. The larger decides.",
                     index_shown(deciding(assessing, all)->worst), index_shown(deciding(assessing, model)->worst));
    for (size_t i = 0; i < all->air.count; i++)
        page_paragraph_f(out, 4, 6, "%s, 8-h mean: %.3g mg/m3 when all evaporates, %.3g by the model",
                         all->air.components[i].component->id, all->air.components[i].twa_8h_mg_m3,
                         model->air.components[i].twa_8h_mg_m3);
}

static void write_over(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    const struct exposure_component *worst = &assessing->day->air.components[decides->idlh_bites];
    const struct exposure_component_judgement *judged = &decides->components[decides->idlh_bites];
    char reached[FIGURE_BYTES], mark[FIGURE_BYTES];
    if (decides->worst > 1)
        page_paragraph(out, 2, 4, "OVER the limits: change the plan.");
    if (decides->above_idlh)
        page_paragraph_f(out, 2, 4,
                         "OVER the mark of danger: %s reaches %s mg/m3 near the work, above the concentration "
                         "immediately dangerous to life or health (IDLH) of %s, %s mg/m3. Do not do this.",
                         worst->component->id, figure(worst->near_mg_m3, 3, reached), judged->idlh_of->id,
                         figure(judged->idlh.mg_m3, 4, mark));
    if (decides->above_alarm)
        page_paragraph_f(out, 2, 4,
                         "OVER the fire alarm: %.0f %% of the lower flammable limit near the work, where 10 %% is the "
                         "usual alarm. Use less, or move more air; no spark, no heat, no switch.",
                         100 * assessing->day->air.flammable_share_near);
}

// What the sum of the limits does not say of short times.
static void write_short_times(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *judged = assessing->day->judged;
    for (size_t i = 0; i < judged->count; i++) {
        const struct exposure_component_judgement *c = &judged->components[i];
        const struct limit_set *limits = &c->limits;
        const struct exposure_component *air = &assessing->day->air.components[i];
        char number[FIGURE_BYTES];
        if (c->excursion_guide > 1 && limits->short_term.origin == LIMIT_GUIDE)
            page_paragraph_f(out, 2, 4,
                             "%s has no short-term limit in %s: its highest 15-min mean is %.1f times three times the "
                             "long-term value, the figure that EH40 says to use then (from memory). It decides.",
                             air->component->id, judged->authority->id, c->excursion_guide);
        else if (c->excursion_guide > 1)
            page_paragraph_f(
                out, 2, 4,
                "A PEAK: %s has no short-term limit in %s, but its highest 15-min mean is %.1f times three "
                "times the long-term value, which EH40 gives as guidance (from memory). It does not decide "
                "here; spread the work all the same.",
                air->component->id, judged->authority->id, c->excursion_guide);
        if (limits->short_term.origin == LIMIT_EXCURSION && air->near_15min_mg_m3 > limits->long_term.mg_m3)
            page_paragraph_f(out, 2, 4,
                             "The 15-min mean of %s passes the 8-h value, %s mg/m3. Within the factor TRGS 900 allows "
                             "that only in four quarters of an hour of a shift (from memory).",
                             air->component->id, figure(limits->long_term.mg_m3, 4, number));
    }
}

static void write_verdict(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *judged = assessing->day->judged;
    page_heading(out, "answer");
    write_index(judged, out);
    write_rates(assessing, out);
    if (assessing->verdict == EXPOSURE_OVER)
        write_over(assessing, out);
    else if (assessing->verdict == EXPOSURE_NOT_JUDGED)
        page_paragraph(out, 2, 4, "CANNOT BE JUDGED: a component has no limit in this set.");
    else if (assessing_answer(assessing) != ANSWER_WITHIN)
        page_paragraph(out, 2, 4, answer_for_people_words(assessing_answer(assessing)));
    else
        page_paragraph(out, 2, 4, "Within the limits of this set, on these assumptions.");
    struct text warning = {0};
    add_people_warning(assessing, &warning);
    if (warning.length)
        page_paragraph_f(out, 2, 4, "%s", text_bytes(&warning));
    text_release(&warning);
    if (assessing->day->air.rises_without_bound)
        page_paragraph_f(out, 2, 4,
                         "No air change: the vapour rises without bound as long as work goes on; the figures hold for "
                         "%g h of it only.",
                         assessing->day->plan.tasks[0].length_h);
    write_short_times(assessing, out);
    write_unknown(assessing, out);
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    if (decides != judged)
        page_paragraph_f(out, 2, 4, "A short-term limit of %s bites harder: its worst index is %.2f.",
                         decides->authority->id, index_shown(decides->worst));
    const struct exposure_component_judgement *c = &decides->components[decides->bites];
    if (c->biting >= 0) {
        char words[CELL_BYTES];
        limit_words(&c->checks[c->biting], words);
        page_paragraph_f(out, 2, 4, "The limit that bites first: %s of %s (%s), share %.2f.",
                         assessing->day->air.components[decides->bites].component->id, decides->authority->id, words,
                         index_shown(c->checks[c->biting].fraction));
    }
    if (!isnan(judged->hydrocarbon_limit_mg_m3))
        page_paragraph_f(out, 2, 4,
                         "The %zu hydrocarbons together by the reciprocal procedure of %s: %.4g mg/m3 (rounded as it "
                         "prescribes); a check beside the index, which counts each by its own value.",
                         judged->hydrocarbon_count, judged->authority->id, judged->hydrocarbon_limit_mg_m3);
}

// To three digits, never above: the amount itself would pass the limit otherwise.
static double rounded_down(double value) {
    if (!(value > 0))
        return value;
    double unit = pow(10, floor(log10(value)) - 2);
    return floor(value / unit + 1e-9) * unit;
}

// Where an IDLH or the alarm of flammable vapour comes before every limit.
static void write_amount_to_danger(const struct assessing *assessing, const char *ml_h, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    const double factor = floor(100 * decides->allowed_factor) / 100;
    const bool fire = decides->cap == CAP_FLAMMABLE;
    if (assessing->task_count > 1 && fire)
        page_paragraph_f(
            out, 2, 4,
            "With every amount of the day times %.2f the air near the work would stay below the fire alarm "
            "of 10 %%, which comes before the limits of %s.",
            factor, decides->authority->id);
    else if (assessing->task_count > 1)
        page_paragraph_f(out, 2, 4,
                         "With every amount of the day times %.2f the air near the work would stay below the IDLH, "
                         "which comes before the limits of %s; it is no limit for work.",
                         factor, decides->authority->id);
    else if (fire)
        page_paragraph_f(out, 2, 4,
                         "Up to %s mL/h the air near the work would stay below the fire alarm of 10 %%, which comes "
                         "before the limits of %s.",
                         ml_h, decides->authority->id);
    else
        page_paragraph_f(out, 2, 4,
                         "Up to %s mL/h the air near the work would stay below the IDLH, which comes before the limits "
                         "of %s; it is no limit for work.",
                         ml_h, decides->authority->id);
}

static void write_amount(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    const double use_ml_h = allowed_ml_h(assessing);
    const double share = assessing->day->plan.share;
    char number[FIGURE_BYTES];
    if (isnan(use_ml_h))
        page_paragraph(out, 2, 4, "How much may be used cannot be told: what cannot be judged may be what decides.");
    if (!isfinite(use_ml_h))
        return;
    figure(rounded_down(use_ml_h), 3, number);
    if (decides->cap == CAP_IDLH || decides->cap == CAP_FLAMMABLE)
        write_amount_to_danger(assessing, number, out);
    else if (assessing->task_count > 1 && !(share < 1))
        page_paragraph_f(out, 2, 4, "With every amount of the day times %.2f it would stay within the limits of %s.",
                         floor(100 * decides->allowed_factor) / 100, decides->authority->id);
    else if (assessing->task_count > 1)
        page_paragraph_f(out, 2, 4,
                         "With every amount of the day times %.2f no more than %g of any limit of %s would be used up.",
                         floor(100 * decides->allowed_factor) / 100, share, decides->authority->id);
    else if (share < 1)
        page_paragraph_f(out, 2, 4, "Up to %s mL/h would use up no more than %g of any limit of %s.", number, share,
                         decides->authority->id);
    else
        page_paragraph_f(out, 2, 4, "Up to %s mL/h would stay within the limits of %s.", number,
                         decides->authority->id);
}

static void write_held_to(const struct exposure_judgement *decides, struct text *out) {
    if (decides->allowed_factor >= 1)
        return;
    if (decides->cap == CAP_IDLH)
        page_paragraph(
            out, 2, 4,
            "Air, pauses and hours are reckoned until no known limit, no IDLH and no fire alarm is passed; an "
            "IDLH is a mark of danger and no limit for work: stay far below.");
    else if (decides->cap == CAP_FLAMMABLE)
        page_paragraph(out, 2, 4,
                       "Air, pauses and hours are reckoned until no known limit, no IDLH and no fire alarm is passed.");
}

static void write_air_needed(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    const struct room *room = &assessing->day->plan.room;
    const double changes = assessing->air_changes.value;
    const double most_of_a_fan = 30; // no studio has more (common practice)
    if (assessing->air_changes.need == NEED_FOUND && changes > most_of_a_fan)
        page_paragraph_f(
            out, 2, 4,
            "The same amount needs %.0f air changes per hour, which no studio has: use less, another blend, "
            "or extraction at the source (measured).",
            ceil(changes));
    else if (assessing->air_changes.need == NEED_FOUND && changes > room->air_changes_per_h)
        page_paragraph_f(out, 2, 4,
                         decides->complete ? N_("The same amount needs %.1f air changes per hour.")
                                           : N_("The same amount needs at least %.1f air changes per hour."),
                         air_shown(changes));
    else if (assessing->air_changes.need == NEED_IMPOSSIBLE)
        page_paragraph(
            out, 2, 4,
            decides->cap == CAP_FLAMMABLE
                ? N_("No general ventilation mends it: the near field alone passes the fire alarm. Use less, another "
                     "blend, or extraction at the source (measured).")
                : N_("No general ventilation mends it: the near field alone passes the limit. Use less, another blend, "
                     "or extraction at the source (measured)."));
    if (assessing->pause.need == NEED_FOUND)
        page_paragraph_f(out, 2, 4, "Or a pause of %.0f min more between the tasks, everything else as it is.",
                         ceil(60 * assessing->pause.value));
    if (assessing->hours.need == NEED_FOUND)
        page_paragraph_f(out, 2, 4, "Or %.0f min of work at this pace in the day.", floor(60 * assessing->hours.value));
    write_held_to(decides, out);
}

static void write_ventilation(const struct assessing *assessing, struct text *out) {
    const struct assessed_day *day = assessing->day;
    const struct exposure_judgement *decides = deciding(assessing, day);
    const double mixing_k = 5;
    double flow_m3_h = exposure_dilution_air_m3_h(&day->air, decides, mixing_k);
    double airing_h = exposure_airing_h(&day->plan, &day->air, decides, 0.1);
    if (flow_m3_h > 0)
        page_paragraph_f(
            out, 2, 4,
            "By the dilution formula of the ventilation manuals (mixing factor K = %g): %.0f m3/h, that is "
            "%.1f air changes per hour. The formula knows no near field.",
            mixing_k, ceil(flow_m3_h - 1e-9), air_shown(flow_m3_h / day->plan.room.volume_m3));
    if (airing_h > 0 && isfinite(airing_h))
        page_paragraph_f(out, 2, 4,
                         "After the last task the room needs %.0f min of airing until every component that has a "
                         "limit is below a tenth of it, by %s.",
                         ceil(60 * airing_h), decides->authority->id);
    else if (airing_h > 0)
        page_paragraph(out, 2, 4, "A sealed room does not clear: air it before anybody stays in it.");
}

static void write_help(const struct assessing *assessing, struct text *out) {
    const struct exposure_judgement *decides = deciding(assessing, assessing->day);
    write_amount(assessing, out);
    write_air_needed(assessing, out);
    write_ventilation(assessing, out);
    if (decides->worst > assessing->day->plan.share && decides->count > 1)
        page_paragraph_f(out, 2, 4, "Replace first: %s, the largest share.",
                         assessing->day->air.components[decides->replace_first].component->id);
}

// --- assumptions ---

static bool any_spray(const struct assessing *assessing) {
    for (size_t i = 0; assessing->timed && i < assessing->task_count; i++)
        if (assessing->tasks[i].method == METHOD_SPRAY)
            return true;
    return false;
}

// Two zones are told apart while the near one is small: the far one is taken for the room, and a room is hardly known
// to better than a tenth of its volume (ours).
static const double near_share_most = 0.1;

static void write_near_share(const struct exposure_plan *plan, struct text *out) {
    double share = plan->room.near_volume_m3 / plan->room.volume_m3;
    if (plan->room.near_flow_m3_h > 0 && share > near_share_most)
        page_paragraph_f(
            out, 2, 4,
            "SMALL ROOM: the near field alone (%.1f m3) is %.0f %% of it, so that no far field can be told "
            "apart. Take the near-field figures for everybody in the room, also for the hours after the "
            "work.",
            plan->room.near_volume_m3, 100 * share);
}

static void write_assumptions(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->day->plan;
    page_heading(out, "assumptions");
    if (assessing->rate == RATE_ALL)
        page_paragraph(out, 2, 4, "All that is used evaporates during the task.");
    else
        page_paragraph(out, 2, 4,
                       "Computed twice: all that is used evaporates during the task, and as fast as the wet surface "
                       "gives it off by the model (Mackay and van Wesenbeeck 2014, of the fresh blend, within about a "
                       "factor of 2), the rest afterwards; the larger decides. A spray evaporates at once in both.");
    if (assessing->capture_measured)
        page_paragraph_f(out, 2, 4, "An extraction arm takes %.0f %% of the vapour at the source, measured: %s.",
                         100 * plan->captured, assessing->capture_measured);
    else
        page_paragraph(out, 2, 4, "There is no credit for an extraction arm.");
    page_paragraph_f(
        out, 2, 4,
        "The work is in a near field of %.1f m radius with %.1f m3/min exchanged (nearer to the face, about half a "
        "metre, the exchange is about half and the excess about twice to three times as much); air and liquid at %g "
        "degC; fresh air mixes by a factor of %g.",
        NEAR_RADIUS_M, plan->room.near_flow_m3_h / 60, plan->temp_c, plan->room.mixing_factor);
    write_near_share(plan, out);
    if (any_spray(assessing))
        page_paragraph(
            out, 2, 4,
            "Of the spray only the vapour is reckoned. Its mist of droplets, with what is dissolved in them, is "
            "breathed besides: it needs an extracted place, or a filter for particles and vapour together.");
    if (plan->long_shift)
        page_paragraph(out, 2, 4,
                       "8-hour limits are reduced for a shift of more than 8 h by Brief and Scala (1975): a practice, "
                       "not law.");
    page_paragraph(out, 2, 4,
                   "Limits change and differ by country; a lower legal or company limit wins. Additive indices do not "
                   "protect against sensitisers, carcinogens or reproductive toxicants. Follow the safety data sheet "
                   "and ask an occupational hygienist where you are in doubt.");
}

void write_exposure_text(const struct assessing *assessing, struct text *out) {
    write_question(assessing, out);
    write_verdict(assessing, out);
    write_help(assessing, out);
    write_air(assessing, out);
    write_checks(assessing, out);
    write_base(assessing, out);
    write_exposure_advice(assessing, out);
    write_assumptions(assessing, out);
    if (option_given(assessing->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(assessing->inv, "--chart"));
}
