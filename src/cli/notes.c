// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/notes.h"

#include "base/language.h"
#include "present/label_content.h"

#include <math.h>
#include <string.h>

void write_grades(const struct blend *blend, size_t first, struct text *out) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i]->grade)
            page_paragraph_f(out, first, first + 2, "%s: %s", blend->components[i]->id,
                             say(blend->components[i]->grade));
}

static bool has(const struct noted *noted, const struct component *component) {
    for (size_t i = 0; i < noted->count; i++)
        if (noted->components[i] == component)
            return true;
    return false;
}

void noted_add(struct noted *noted, const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (!has(noted, blend->components[i]) && noted->count < NOTED_MAX)
            noted->components[noted->count++] = blend->components[i];
}

// Without its full stop, so that several stand in one sentence.
static void add_statement(const struct library *lib, const char *code, struct text *out) {
    const struct statement *statement = library_statement(lib, code);
    if (!statement) {
        text_add(out, code);
        return;
    }
    const char *words = statement_in(statement, language_chosen());
    size_t length = strlen(words);
    if (length && words[length - 1] == '.')
        length--;
    text_printf(out, "%s %.*s", code, (int)length, words);
}

static void add_hazards(const struct library *lib, const struct hazard *hazard, struct text *out) {
    if (hazard->h_statements.count == 0)
        text_say(out, "no hazard statement is known to us; that is no statement that there is no hazard");
    for (size_t i = 0; i < hazard->h_statements.count; i++) {
        text_add(out, i ? "; " : "");
        add_statement(lib, hazard->h_statements.items[i], out);
    }
    if (hazard->h_unless_low_benzene.count) {
        text_add(out, say("; unless the grade is stated below 0.1 % benzene also "));
        text_add_joined(out, ", ", hazard->h_unless_low_benzene.items, hazard->h_unless_low_benzene.count);
    }
    text_add(out, ". ");
}

static void add_fire(const struct properties *properties, struct text *out) {
    if (!isnan(properties->flash_point.value))
        text_say(out, "Flash point %.0f degC (%s). ", properties->flash_point.value,
                 doubt_words(&properties->flash_point.from));
    if (!isnan(properties->lower_flammable_limit.value))
        text_say(out, "Vapour burns from %.1f vol%% in air. ", properties->lower_flammable_limit.value);
}

static void add_yours(const struct hazard *hazard, struct text *out) {
    struct text keys = {0};
    text_add_joined(&keys, ", ", hazard->yours.items, hazard->yours.count);
    if (keys.length)
        text_say(out, " From your own tables: %s.", text_bytes(&keys));
    out->failed |= keys.failed;
    text_release(&keys);
}

static void add_gloves(const struct hazard *hazard, struct text *out) {
    if (hazard->gloves_resistant.count == 0)
        return;
    text_say(out, "Gloves that last longest: ");
    text_add_joined(out, ", ", hazard->gloves_resistant.items, hazard->gloves_resistant.count);
    text_add(out, ". ");
}

// Says once what "cl 4" beside a glove is.
static bool gives_glove_class(const struct component *component) {
    const struct text_list *gloves = component->hazard ? &component->hazard->gloves_resistant : NULL;
    for (size_t i = 0; gloves && i < gloves->count; i++)
        if (strstr(gloves->items[i], "(cl "))
            return true;
    return false;
}

// Words of the groups: preamble of the IARC Monographs (from memory). Group 3 says that nothing can be said.
void add_iarc(const struct hazard *hazard, struct text *out) {
    static const struct {
        const char *group, *words;
    } groups[] = {{"1", N_("carcinogenic to humans")},
                  {"2A", N_("probably carcinogenic to humans")},
                  {"2B", N_("possibly carcinogenic to humans")}};
    const char *group = hazard ? hazard->iarc_group : NULL;
    if (!group || group[0] == '3')
        return;
    text_say(out, "IARC group %s", group);
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        if (strcmp(group, groups[i].group) != 0)
            continue; // with words of its own it needs none of ours
        text_printf(out, ", %s", say(groups[i].words));
        if (hazard->carcinogen_category == CATEGORY_NONE)
            text_say(out, "; the classification of the EU has no category for that");
    }
    text_add(out, ". ");
}

void note_add(const struct library *lib, const struct component *component, struct text *out) {
    text_printf(out, "%s: ", component->id);
    if (component->grade)
        text_printf(out, "%s ", say(component->grade));
    if (component->hazard)
        add_hazards(lib, component->hazard, out);
    else
        text_say(out, "no hazard data in the tables: treat it as hazardous until its safety data sheet is read. ");
    add_iarc(component->hazard, out);
    if (component->properties)
        add_fire(component->properties, out);
    if (component->hazard) {
        add_gloves(component->hazard, out);
        if (component->hazard->peroxide_former)
            text_say(out, "Forms peroxides in opened bottles: date it, test it. ");
        if (component->hazard->health_note)
            text_add(out, say(component->hazard->health_note));
        if (component->hazard->regulatory)
            text_printf(out, " %s", say(component->hazard->regulatory));
        add_yours(component->hazard, out);
    }
}

static void write_note(struct invocation *inv, const struct component *component, struct text *out) {
    struct text words = {0};
    note_add(&inv->library, component, &words);
    page_paragraph(out, 2, 4, text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

void write_notes(struct invocation *inv, const struct noted *noted, struct text *out) {
    page_heading(out, "health and fire (read the safety data sheet of your own bottle)");
    bool classes = false;
    for (size_t i = 0; i < noted->count; i++) {
        write_note(inv, noted->components[i], out);
        classes |= gives_glove_class(noted->components[i]);
    }
    if (classes) // EN 374-1 (from memory, as in hazards.yaml)
        page_paragraph(
            out, 2, 4,
            "Gloves, cl: class of EN 374 by the minutes until the liquid is through: 1 over 10, 2 over 30, 3 "
            "over 60, 4 over 120, 5 over 240, 6 over 480; 0 sooner.");
}

static void json_hazard(struct json *json, const struct hazard *hazard) {
    json_texts(json, "h_statements", hazard->h_statements.items, hazard->h_statements.count);
    json_texts(json, "h_unless_low_benzene", hazard->h_unless_low_benzene.items, hazard->h_unless_low_benzene.count);
    json_texts(json, "pictograms", hazard->pictograms.items, hazard->pictograms.count);
    json_text(json, "signal_word", signal_words[hazard->signal_word]);
    json_text(json, "carcinogen_category", category_words[hazard->carcinogen_category]);
    json_text(json, "iarc_group", hazard->iarc_group);
    json_text(json, "mutagen_category", category_words[hazard->mutagen_category]);
    json_text(json, "reproductive_category", category_words[hazard->reproductive_category]);
    json_text(json, "peroxide_former", peroxide_words[hazard->peroxide_former]);
    json_text(json, "skin_absorption", hazard->skin_absorption);
    json_text(json, "sensitiser", hazard->sensitiser);
    json_texts(json, "gloves_resistant", hazard->gloves_resistant.items, hazard->gloves_resistant.count);
    json_text(json, "health_note", hazard->health_note);
    json_text(json, "regulatory", hazard->regulatory);
    json_texts(json, "your_values", hazard->yours.items, hazard->yours.count);
}

void json_notes(const struct noted *noted, struct json *json, const char *key) {
    json_list(json, key);
    for (size_t i = 0; i < noted->count; i++) {
        const struct component *component = noted->components[i];
        json_object(json, NULL);
        json_text(json, "id", component->id);
        json_text(json, "grade", component->grade);
        json_number(json, "flash_point_c", component->properties ? component->properties->flash_point.value : NAN);
        json_number(json, "lower_flammable_limit_vol_percent",
                    component->properties ? component->properties->lower_flammable_limit.value : NAN);
        if (component->hazard)
            json_hazard(json, component->hazard);
        json_close_object(json);
    }
    json_close_list(json);
}
