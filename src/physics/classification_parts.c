// SPDX-License-Identifier: GPL-3.0-or-later
// What every rule of the classification asks of a mixture, and how it notes what it found.
#include "physics/classification.h"

#include "base/language.h"
#include "base/print_words.h"
#include "physics/classification_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

// Shares are sums of products of rounded figures; a share that is written as the limit counts as reaching it.
static const double share_tolerance = 1e-9;

// --- shares ---

double percent_of(const struct mixing *mix, size_t i) {
    return 100 * mix->input->mass_fractions[i];
}

void tally_add(struct tally *tally, size_t i, double amount) {
    if (amount <= 0)
        return;
    tally->sum += amount;
    tally->from |= UINT32_C(1) << i;
}

bool reaches(double percent, double limit) {
    return percent >= limit * (1 - share_tolerance);
}

// --- what the tables say of a component ---

static const struct text_list *codes_of(const struct mixing *mix, size_t i, int list) {
    const struct hazard *hazard = mix->input->components[i]->hazard;
    if (!hazard)
        return NULL;
    if (list == 0)
        return &hazard->h_statements;
    return mix->input->benzene_content_unknown ? &hazard->h_unless_low_benzene : NULL;
}

const char *component_code(const struct mixing *mix, size_t i, enum hazard_class class, int category) {
    for (int list = 0; list < 2; list++) {
        const struct text_list *codes = codes_of(mix, i, list);
        for (size_t k = 0; codes && k < codes->count; k++) {
            const struct hazard_code *code = hazard_code_find(codes->items[k]);
            if (code && code->class == class && code->category == category)
                return codes->items[k];
        }
    }
    return NULL;
}

bool component_has(const struct mixing *mix, size_t i, const char *code) {
    for (int list = 0; list < 2; list++) {
        const struct text_list *codes = codes_of(mix, i, list);
        for (size_t k = 0; codes && k < codes->count; k++)
            if (strcmp(codes->items[k], code) == 0)
                return true;
    }
    return false;
}

double specific_from(const struct mixing *mix, size_t i, const char *code) {
    const struct hazard *hazard = mix->input->components[i]->hazard;
    const struct specific_limit *limits = hazard && !is_us(mix) ? hazard->specific_limits.items : NULL;
    double from = NAN;
    for (size_t k = 0; limits && k < hazard->specific_limits.count; k++)
        if (strcmp(limits[k].code, code) == 0)
            from = fmin(from, limits[k].from_percent);
    return from;
}

const char *specific_code(const struct mixing *mix, size_t i, enum hazard_class class, bool *ret_any) {
    const struct hazard *hazard = mix->input->components[i]->hazard;
    const struct specific_limit *limits = hazard && !is_us(mix) ? hazard->specific_limits.items : NULL;
    const char *found = NULL;
    *ret_any = false;
    for (size_t k = 0; limits && k < hazard->specific_limits.count; k++) {
        const struct hazard_code *code = hazard_code_find(limits[k].code);
        if (!code || code->class != class)
            continue;
        *ret_any = true;
        if (reaches(percent_of(mix, i), limits[k].from_percent) &&
            !(reaches(percent_of(mix, i), limits[k].below_percent)))
            found = limits[k].code;
    }
    return found;
}

// --- writing the answer ---

const char *names_of(struct mixing *mix, uint32_t mask) {
    struct text words = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (mask & UINT32_C(1) << i)
            text_say(&words, "%s%s %.3g %%", words.length ? ", " : "", mix->input->components[i]->id,
                     percent_of(mix, i));
    const char *names = words.failed ? NULL : arena_text(mix->arena, text_bytes(&words));
    text_release(&words);
    if (!names)
        mix->failed = true;
    return names ? names : "";
}

static const char *write_words(struct mixing *mix, const char *format, va_list arguments) {
    char words[1024];
    vprint_words(words, sizeof words, format, arguments);
    const char *copy = arena_text(mix->arena, words);
    if (!copy)
        mix->failed = true;
    return copy;
}

void add_statement(struct mixing *mix, const char *code, uint32_t from, const char *format, ...) {
    if (mix->ret->count == STATEMENTS_MAX) {
        mix->failed = true;
        return;
    }
    struct classified_statement *statement = &mix->ret->statements[mix->ret->count++];
    *statement = (struct classified_statement){.kind = hazard_code_find(code), .from = from};
    snprintf(statement->code, sizeof statement->code, "%s", code);
    va_list arguments;
    va_start(arguments, format);
    statement->reason = write_words(mix, format, arguments);
    va_end(arguments);
}

void add_note(struct mixing *mix, const char *format, ...) {
    if (mix->ret->note_count == NOTES_MAX) {
        mix->failed = true;
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    mix->ret->notes[mix->ret->note_count++] = write_words(mix, format, arguments);
    va_end(arguments);
}

bool classification_has(const struct classification *classification, const char *code) {
    for (size_t i = 0; i < classification->count; i++)
        if (strcmp(classification->statements[i].code, code) == 0)
            return true;
    return false;
}

// --- what is not known ---
