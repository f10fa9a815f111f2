// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/label_content.h"

#include "base/language.h"
#include "base/text.h"
#include "present/chart/pictogram.h"

#include <stdlib.h>
#include <string.h>

static const char by_hand[] = "____________";

struct making {
    const struct library *lib;
    const struct label_request *request;
    const struct classification *classification;
    struct arena *arena;
    bool failed;
};

static const char *keep(struct making *making, struct text *words) {
    const char *copy = words->failed ? NULL : arena_text(making->arena, text_bytes(words));
    text_release(words);
    if (!copy)
        making->failed = true;
    return copy;
}

// --- statements ---

const char *statement_in(const struct statement *row, const char *language) {
    const struct {
        const char *code, *words;
    } all[] = {{"de", row->de}, {"fr", row->fr}, {"it", row->it}, {"es", row->es}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (all[i].words && strcmp(all[i].code, language) == 0)
            return all[i].words;
    return row->en;
}

const char *component_in(const struct component *component, const char *language) {
    const struct synonyms *synonyms = &component->synonyms;
    const struct {
        const char *code;
        const struct text_list *names;
    } all[] = {{"de", &synonyms->de}, {"fr", &synonyms->fr}, {"it", &synonyms->it}, {"es", &synonyms->es}};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        if (all[i].names->count && strcmp(all[i].code, language) == 0)
            return all[i].names->items[0];
    return component->name;
}

const char *statement_words(const struct library *lib, const struct blend *blend,
                            const struct classified_statement *statement, const char *language, struct arena *arena) {
    const struct statement *row = library_statement(lib, statement->code);
    const char *words = row ? statement_in(row, language) : statement->code;
    if (strcmp(statement->code, "EUH208") != 0)
        return words;
    struct text names = {0};
    for (size_t i = 0; i < blend->count; i++)
        if (statement->from & UINT32_C(1) << i)
            text_printf(&names, "%s%s", names.length ? ", " : "", component_in(blend->components[i], language));
    const char *format = strcmp(language, "en") == 0 ? N_("Contains %s. %s") : say(N_("Contains %s. %s"));
    const char *all = names.failed ? NULL : arena_printf(arena, format, text_bytes(&names), words);
    text_release(&names);
    return all;
}

// Statements whose wording a small pack may leave out. CLP Annex I 1.5.2.1.1 (from memory): up to 125 mL, not for the
// general public; HCS (f)(12) of 2024 (from memory): up to 100 mL, any statement, where pull-out labels or tags are not
// feasible.
static bool code_may_do(const struct making *making, const char *code) {
    static const char eu[] = "H225 H226 H302 H312 H332 H315 H319 H335 H336 H371 H373 H400 H410 H411";
    int volume_ml = making->request->bottle->volume_ml;
    if (making->classification->rules == RULES_US_HCS)
        return volume_ml <= 100;
    return volume_ml <= 125 && strstr(eu, code);
}

static void add_hazards(struct making *making, struct label_content *content) {
    const struct classification *classification = making->classification;
    struct label_statement *hazards = arena_new(making->arena, classification->count + 1, sizeof *hazards);
    for (size_t i = 0; hazards && i < classification->count; i++) {
        const struct classified_statement *from = &classification->statements[i];
        bool supplementary = from->kind && from->kind->class == CLASS_SUPPLEMENTAL;
        if (from->left_off)
            continue;
        // Codes that begin with EUH mean nothing outside the EU.
        const char *code = supplementary && classification->rules == RULES_US_HCS ? "" : from->code;
        struct label_statement statement = {
            code, statement_words(making->lib, making->request->blend, from, language_chosen(), making->arena),
            code_may_do(making, from->code)};
        making->failed = making->failed || !statement.text;
        hazards[content->hazard_count++] = statement;
    }
    making->failed = making->failed || !hazards;
    content->hazards = hazards;
}

static void add_precautions(struct making *making, struct label_content *content) {
    size_t count = making->classification->precaution_count;
    struct label_statement *precautions = arena_new(making->arena, count + 1, sizeof *precautions);
    for (size_t i = 0; precautions && i < count; i++) {
        const struct statement *row = library_statement(making->lib, making->classification->precautions[i]);
        precautions[i] = (struct label_statement){making->classification->precautions[i],
                                                  row ? statement_in(row, language_chosen()) : "", false};
    }
    making->failed = making->failed || !precautions;
    content->precautions = precautions;
    content->precaution_count = count;
}

static void add_pictograms(const struct classification *classification, struct label_content *content) {
    // Acute and lasting hazards to people first, then fire, then water.
    static const int order[] = {6, 5, 8, 2, 3, 7, 9};
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++)
        if (classification->pictograms[order[i]])
            content->pictograms[content->pictogram_count++] = order[i];
}

// --- lines ---

static const char *contains_line(struct making *making) {
    const struct classification *classification = making->classification;
    struct text words = {0};
    struct text names = {0};
    for (size_t i = 0; i < classification->named_count; i++)
        text_printf(&names, "%s%s", i ? ", " : "",
                    component_in(making->request->blend->components[classification->named[i]], language_chosen()));
    if (names.length)
        text_say(&words, "Contains: %s.", text_bytes(&names));
    words.failed |= names.failed;
    text_release(&names);
    return keep(making, &words);
}

static const char *warning_line(struct making *making) {
    struct text words = {0};
    if (making->classification->unknown)
        text_say(&words, "%.3g %% of components without hazard data: treat as hazardous.",
                 making->classification->unknown_percent);
    if (words.length && making->request->flash_contradicted)
        text_add(&words, " ");
    if (making->request->flash_contradicted)
        text_say(&words, "Flash point as stated %.0f degC; the tables say %.0f degC, which counts.",
                 making->request->stated_flash_c, making->request->tables_flash_c);
    return keep(making, &words);
}

static const char *made_line(struct making *making) {
    struct text words = {0};
    text_say(&words, "Made %s by %s", making->request->date ? making->request->date : by_hand,
             making->request->initials ? making->request->initials : by_hand);
    return keep(making, &words);
}

static const char *closing_line(struct making *making) {
    struct text words = {0};
    const char *rules = classification_rules_names[making->classification->rules];
    if (making->classification->limits_assumed)
        text_say(&words, "Computed by %s, specific limits not checked; check against the data sheets.", rules);
    else
        text_say(&words, "Computed by %s; check against the data sheets.", rules);
    return keep(making, &words);
}

static const char *notation(struct making *making, const char *behind) {
    struct text words = {0};
    blend_write(making->request->blend, &words);
    text_add(&words, behind);
    return keep(making, &words);
}

enum status label_content_make(const struct library *lib, const struct label_request *request,
                               const struct classification *classification, struct arena *arena,
                               struct label_content *ret, struct error *err) {
    static const char *const signals[] = {NULL, N_("WARNING"), N_("DANGER")};
    struct making making = {lib, request, classification, arena, false};
    struct label_content content = {.made = made_line(&making),
                                    .signal = classification->signal ? say(signals[classification->signal]) : NULL,
                                    .warning = warning_line(&making),
                                    .contains = contains_line(&making),
                                    .left_out = say("Left out for space:"),
                                    .wording = say("wording of "),
                                    .closing = closing_line(&making)};
    content.name = request->name ? request->name : notation(&making, "");
    content.proportions = request->name ? notation(&making, say(" (parts by volume)")) : say("parts by volume");
    add_hazards(&making, &content);
    add_precautions(&making, &content);
    add_pictograms(classification, &content);
    if (making.failed)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = content;
    return STATUS_OK;
}
