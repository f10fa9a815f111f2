// SPDX-License-Identifier: GPL-3.0-or-later
// What no index says: flags, smell, fire, gloves, peroxides, waste; for people and as JSON.
#include "base/language.h"
#include "casefile/casefile.h"
#include "cli/assessing.h"
#include "cli/notes.h"
#include "physics/handling.h"
#include "selection/goal.h"

#include <math.h>
#include <string.h>

// --- per component ---

static void write_flags(unsigned flags, struct text *out) {
    const char *set[EXPOSURE_FLAGS];
    size_t count = 0;
    struct text words = {0};
    for (size_t i = 0; i < EXPOSURE_FLAGS; i++)
        if (flags & exposure_flag_names[i].flag)
            set[count++] = say(exposure_flag_names[i].words);
    text_add_joined(&words, ", ", set, count);
    if (count)
        page_paragraph_f(out, 4, 6, "no index clears this: %s", text_bytes(&words));
    text_release(&words);
    if (flags & EXPOSURE_REPRODUCTIVE)
        page_paragraph(out, 4, 6, "not while a pregnancy is announced or planned in this room, at any concentration");
}

static void write_smell(const struct component *component, const struct exposure_component_judgement *judged,
                        struct text *out) {
    if (isnan(judged->odour_ratio))
        page_paragraph(out, 4, 6, "smell: no threshold is known beside a limit; do not trust the nose");
    else if (judged->odour_ratio < 1)
        page_paragraph_f(out, 4, 6, "smell does not warn before the limit (from about %.2g ppm on, limit %.2g ppm)",
                         component->hazard->odour_threshold.value,
                         judged->odour_ratio * component->hazard->odour_threshold.value);
    else
        page_paragraph_f(
            out, 4, 6,
            "smell may begin below the limit (from about %.2g ppm on), but the nose tires, and people differ "
            "by a factor of ten: it is no alarm",
            component->hazard->odour_threshold.value);
}

static void write_gloves_of(const struct component *component, struct text *out) {
    const struct hazard *hazard = component->hazard;
    if (component->family == FAMILY_WATER)
        return;
    if (!hazard || hazard->gloves_resistant.count == 0) {
        page_paragraph(out, 4, 6, "gloves: nothing known");
        return;
    }
    struct text good = {0}, bad = {0};
    text_add_joined(&good, ", ", hazard->gloves_resistant.items, hazard->gloves_resistant.count);
    text_add_joined(&bad, ", ", hazard->gloves_unsuitable.items, hazard->gloves_unsuitable.count);
    if (bad.length)
        page_paragraph_f(out, 4, 6, "gloves: %s; not %s", text_bytes(&good), text_bytes(&bad));
    else
        page_paragraph_f(out, 4, 6, "gloves: %s", text_bytes(&good));
    text_release(&good);
    text_release(&bad);
}

static void write_iarc(const struct hazard *hazard, struct text *out) {
    struct text words = {0};
    add_iarc(hazard, &words);
    if (words.length)
        page_paragraph(out, 4, 6, text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

static void write_components(const struct assessing *assessing, struct text *out) {
    const struct assessed_day *day = assessing->day;
    page_heading(out, "per component");
    for (size_t i = 0; i < day->judged->count; i++) {
        const struct exposure_component *a = &day->air.components[i];
        const struct exposure_component_judgement *c = &day->judged->components[i];
        const char *curve = a->p_source == PRESSURE_EXTRAPOLATED ? say(" (curve extrapolated)") : "";
        if (isnan(a->p_kpa))
            page_paragraph_f(out, 2, 4, "%s: no vapour pressure known", a->component->id);
        else if (isnan(c->vapour_hazard_ratio))
            page_paragraph_f(out, 2, 4, "%s, neat: vapour pressure %.3g kPa at %g degC%s", a->component->id, a->p_kpa,
                             day->plan.temp_c, curve);
        else
            page_paragraph_f(
                out, 2, 4,
                "%s, neat: vapour pressure %.3g kPa at %g degC%s; vapour hazard ratio %.0f (saturated air / "
                "limit)",
                a->component->id, a->p_kpa, day->plan.temp_c, curve, c->vapour_hazard_ratio);
        write_flags(c->flags, out);
        if (!component_hazards_known(a->component))
            page_paragraph(out, 4, 6, "hazards: not known; that is never harmless");
        if (!component_needs_no_limit(a->component))
            write_smell(a->component, c, out);
        write_gloves_of(a->component, out);
        write_iarc(a->component->hazard, out);
        if (a->component->grade)
            page_paragraph_f(out, 4, 6, "note: %s", say(a->component->grade));
        if (a->component->hazard && a->component->hazard->health_note)
            page_paragraph_f(out, 4, 6, "note: %s", say(a->component->hazard->health_note));
    }
}

// --- fire ---

static void write_fire(const struct assessing *assessing, struct text *out) {
    const struct exposure_air *air = &assessing->day->air;
    page_heading(out, "fire");
    page_paragraph_f(
        out, 2, 4,
        "%.1f %% of the lower flammable limit in the room, %.1f %% near the work (10 %% is the usual alarm).",
        100 * air->flammable_share_room, 100 * air->flammable_share_near);
    if (assessing->day->judged->above_alarm)
        page_paragraph(
            out, 2, 4,
            "ABOVE the alarm of 10 %: no spark, no heat, no switch near the work; use less, or move more air.");
    if (air->flammable_unknown)
        page_paragraph(out, 2, 4, "A component without a known limit of flammability is not in it.");
}

// --- effects in common ---

static double index_of_effect(const struct assessed_day *day, unsigned effect) {
    double index = 0;
    for (size_t i = 0; i < day->judged->count; i++)
        if (effects_of(day->air.components[i].component) & effect)
            index += day->judged->components[i].mean_fraction;
    return index;
}

static void write_effects(const struct assessing *assessing, struct text *out) {
    if (!option_given(assessing->inv, "--like-effects"))
        return;
    page_heading(out, "index by effect in common (day means; it does not decide)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "effect", false);
    sheet_column(&sheet, "index", true);
    sheet_column(&sheet, "components", false);
    for (int k = 0; k < EFFECTS; k++) {
        const char *ids[BLEND_COMPONENTS_MAX];
        size_t count = 0;
        for (size_t i = 0; i < assessing->day->air.count; i++)
            if (effects_of(assessing->day->air.components[i].component) & 1u << k)
                ids[count++] = assessing->day->air.components[i].component->id;
        struct text list = {0};
        text_add_joined(&list, ", ", ids, count);
        if (count) {
            sheet_cell(&sheet, "%s", say(effect_words[k]));
            sheet_cell(&sheet, "%.2f", index_of_effect(assessing->day, 1u << k));
            sheet_cell(&sheet, "%s", text_bytes(&list));
        }
        text_release(&list);
    }
    sheet_write(&sheet, out);
}

// --- gloves of the blends ---

static void write_gloves_of_blend(const struct assessing *assessing, size_t task, struct text *out) {
    const struct blend *blend = &assessing->blends[task];
    char gloves[GLOVES_MAX][GLOVE_BYTES];
    const char *names[GLOVES_MAX];
    size_t unknown = 0, count = gloves_for_all(blend, gloves, &unknown);
    struct text list = {0}, notation = {0};
    for (size_t i = 0; i < count; i++)
        names[i] = gloves[i];
    text_add_joined(&list, ", ", names, count);
    blend_write(blend, &notation);
    if (count == 0)
        page_paragraph_f(
            out, 2, 4,
            "%s: no one material withstands every component for long; a laminate glove under a nitrile one "
            "is the usual way out. Ask the maker of the glove.",
            text_bytes(&notation));
    else if (unknown)
        page_paragraph_f(out, 2, 4, "%s: %s for the components that are known; of %zu nothing is known.",
                         text_bytes(&notation), text_bytes(&list), unknown);
    else
        page_paragraph_f(out, 2, 4, "%s: %s for every component taken alone.", text_bytes(&notation),
                         text_bytes(&list));
    text_release(&list);
    text_release(&notation);
}

static void write_gloves(const struct assessing *assessing, struct text *out) {
    page_heading(out, "gloves");
    for (size_t i = 0; i < assessing->task_count; i++)
        if (first_with_blend(assessing, i))
            write_gloves_of_blend(assessing, i, out);
    page_paragraph(out, 2, 4,
                   "A blend may pass where each of its components does not: take the worst component, and the times of "
                   "the maker. Thin disposable gloves are a guard against splashes only; change them after every "
                   "splash.");
}

// --- peroxides ---

static bool forms_peroxides(const struct component *component) {
    return component->hazard && component->hazard->peroxide_former != 0;
}

static bool uses_bottle(const struct assessing *assessing, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < assessing->task_count; i++)
        for (size_t k = 0; k < assessing->blends[i].part_count; k++)
            if (bottle_ref_same(&assessing->blends[i].parts[k].bottle, bottle))
                return true;
    return false;
}

// Is this bottle of the case poured from, and one to be tested? Then from which day it counts, and until when.
static bool needs_tests(const struct assessing *assessing, const struct case_bottle *bottle, struct date *ret_from,
                        struct date *ret_until) {
    return !date_is_set(bottle->finished) && uses_bottle(assessing, &bottle->ref) &&
           case_bottle_peroxide_until(assessing->inv->casefile, bottle, ret_from, ret_until);
}

static void write_case_bottles(const struct assessing *assessing, struct text *out) {
    const struct casefile *file = assessing->inv->casefile;
    const struct case_bottle *bottles = file ? file->bottles.items : NULL;
    for (size_t i = 0; file && i < file->bottles.count; i++) {
        struct date from, until;
        char first[DATE_BYTES], last[DATE_BYTES];
        if (!needs_tests(assessing, &bottles[i], &from, &until))
            continue;
        if (date_is_set(bottles[i].opened) && date_compare(from, bottles[i].opened) == 0)
            page_paragraph_f(out, 4, 6, "bottle %s, opened %s: not after %s without a test", bottles[i].id,
                             date_write(from, first), date_write(until, last));
        else
            page_paragraph_f(out, 4, 6, "bottle %s, received or last tested %s: not after %s without a test",
                             bottles[i].id, date_write(from, first), date_write(until, last));
    }
}

static void write_peroxides(const struct assessing *assessing, struct text *out) {
    const struct exposure_air *air = &assessing->day->air;
    bool any = false;
    for (size_t i = 0; i < air->count; i++) {
        const struct component *component = air->components[i].component;
        if (!forms_peroxides(component))
            continue;
        if (!any)
            page_heading(out, "peroxides");
        any = true;
        page_paragraph_f(out, 2, 4,
                         "%s forms peroxides (%s): write the day of opening on the bottle, test it after 12 "
                         "months open or 18 closed, let none of it dry up.",
                         component->id, say(peroxide_words[component->hazard->peroxide_former]));
    }
    if (any)
        write_case_bottles(assessing, out);
}

// --- waste ---

static void write_waste(const struct assessing *assessing, struct text *out) {
    page_heading(out, "waste and swabs");
    for (size_t i = 0; i < assessing->task_count; i++) {
        struct text notation = {0};
        blend_write(&assessing->blends[i], &notation);
        if (first_with_blend(assessing, i)) {
            switch (waste_class_of(&assessing->blends[i])) {
            case WASTE_NOT_HALOGENATED:
                page_paragraph_f(out, 2, 4, "%s: waste without halogens.", text_bytes(&notation));
                break;
            case WASTE_HALOGENATED:
                page_paragraph_f(out, 2, 4, "%s: halogenated waste, in a can of its own.", text_bytes(&notation));
                break;
            case WASTE_WATERY:
                page_paragraph_f(out, 2, 4, "%s: watery waste with solvent, in a can of its own.",
                                 text_bytes(&notation));
                break;
            }
        }
        text_release(&notation);
    }
    page_paragraph(out, 2, 4,
                   "Used swabs go into a closed metal bin that is emptied every day; swabs with oil or oil varnish can "
                   "heat up by themselves and burn. Nothing goes down the drain. What your collector calls which waste "
                   "may differ: ask.");
}

void write_exposure_advice(const struct assessing *assessing, struct text *out) {
    write_effects(assessing, out);
    write_components(assessing, out);
    write_fire(assessing, out);
    write_gloves(assessing, out);
    write_peroxides(assessing, out);
    write_waste(assessing, out);
}

// --- JSON ---

static void json_handling(const struct assessing *assessing, struct json *json) {
    json_list(json, "handling");
    for (size_t i = 0; i < assessing->task_count; i++) {
        char gloves[GLOVES_MAX][GLOVE_BYTES];
        size_t unknown = 0;
        if (!first_with_blend(assessing, i))
            continue;
        json_object(json, NULL);
        json_blend(json, &assessing->blends[i]);
        json_text(json, "waste", waste_class_words[waste_class_of(&assessing->blends[i])]);
        size_t count = gloves_for_all(&assessing->blends[i], gloves, &unknown);
        json_list(json, "gloves_for_every_component");
        for (size_t k = 0; k < count; k++)
            json_text(json, NULL, gloves[k]);
        json_close_list(json);
        json_integer(json, "gloves_unknown", (long long)unknown);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_peroxides(const struct assessing *assessing, struct json *json) {
    const struct casefile *file = assessing->inv->casefile;
    const struct case_bottle *bottles = file ? file->bottles.items : NULL;
    json_list(json, "peroxide_formers");
    for (size_t i = 0; i < assessing->day->air.count; i++)
        if (forms_peroxides(assessing->day->air.components[i].component))
            json_text(json, NULL, assessing->day->air.components[i].component->id);
    json_close_list(json);
    json_list(json, "peroxide_bottles");
    for (size_t i = 0; file && i < file->bottles.count; i++) {
        struct date from, until;
        char day[DATE_BYTES];
        if (!needs_tests(assessing, &bottles[i], &from, &until))
            continue;
        json_object(json, NULL);
        json_text(json, "bottle", bottles[i].id);
        json_text(json, "counted_from", date_write(from, day));
        json_text(json, "test_after", date_write(until, day));
        json_close_object(json);
    }
    json_close_list(json);
}

void json_exposure_advice(const struct assessing *assessing, struct json *json) {
    json_flag(json, "flammable_alarm", assessing->day->judged->above_alarm);
    json_object(json, "index_by_effect");
    for (int k = 0; k < EFFECTS; k++)
        json_number(json, effect_words[k], index_of_effect(assessing->day, 1u << k));
    json_close_object(json);
    json_handling(assessing, json);
    json_peroxides(assessing, json);
    json_text(json, "swabs", "closed metal bin, emptied daily; oily swabs self-heat; nothing down the drain");
}
