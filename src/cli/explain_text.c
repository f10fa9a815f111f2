// SPDX-License-Identifier: GPL-3.0-or-later
// --explain for people.
#include "cli/explaining.h"

#include "base/language.h"
#include "cli/page_options.h"

#include <math.h>
#include <string.h>

struct use_name {
    unsigned use;
    const char *words;
};

static const struct use_name use_names[] = {
    {USES_BOTTLES, N_("contents of the bottles")},
    {VALUE_HANSEN, N_("Hansen parameters")},
    {VALUE_TEAS, N_("published Teas fractions")},
    {VALUE_MOLAR_VOLUME, N_("molar volumes")},
    {USES_UNIFAC, N_("UNIFAC groups and their interactions")},
    {VALUE_MOLAR_MASS, N_("molar masses")},
    {VALUE_DENSITY, N_("densities")},
    {VALUE_VAPOUR, N_("vapour pressures")},
    {USES_FORMULA, N_("formulas")},
    {VALUE_FLASH, N_("flash points")},
    {VALUE_FLAMMABLE, N_("lower flammable limits")},
    {VALUE_SPHERE, N_("spheres of the materials")},
    {VALUE_FILM, N_("films of the materials")},
    {USES_AREAS, N_("Teas areas")},
    {USES_PAIRS, N_("published pairs of liquids")},
    {USES_LIMITS, N_("exposure limits")},
    {USES_HAZARDS, N_("hazard statements")},
    {USES_ODOUR, N_("odour thresholds")},
    {USES_ROOM, N_("the room as you gave it")},
    {USES_DOUBT, N_("uncertainties of the values")},
    {USES_TESTS, N_("swab tests of the case")},
    {USES_AGEING, N_("published thresholds of lifting")},
};

static void write_uses(unsigned uses, struct text *out) {
    struct text words = {0};
    for (size_t i = 0; i < sizeof use_names / sizeof use_names[0]; i++)
        if (uses & use_names[i].use)
            text_printf(&words, "%s%s", words.length ? ", " : "", say(use_names[i].words));
    if (words.length)
        page_paragraph_f(out, 4, 6, "with: %s", text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

static void write_quantity(const struct derivation *derivation, struct text *out) {
    page_paragraph_f(out, 2, 4, "%s: %s", say(derivation->name), say(derivation->words));
    if (derivation->formula)
        page_paragraph_f(out, 4, 6, "%s", derivation->formula);
    if (derivation->section)
        page_paragraph_f(out, 4, 6, "from: %s; how good it is: mildsolve-models(7), %s", say(derivation->source),
                         derivation->section);
    else
        page_paragraph_f(out, 4, 6, "from: %s", say(derivation->source));
    write_uses(derivation->uses, out);
}

// --- values ---

// The three parts of a place; more would be too wide for the page.
enum { JOINED_MOST = 3 };

// Values that stand in one row of a table have one source: their names and figures are joined.
static bool joined(const struct listed_value *a, const struct listed_value *b) {
    return a->from == b->from && !a->words && !b->words && strcmp(a->of, b->of) == 0 && strcmp(a->unit, b->unit) == 0;
}

static size_t write_figures(const struct explaining *explaining, size_t first, struct cited *cited,
                            struct sheet *sheet) {
    const struct listed_value *value = explaining->values.items[first];
    const char *between = language_decimal_mark() == ',' ? "; " : ", ";
    struct text names = {0}, figures = {0}, refs = {0};
    size_t i = first;
    for (; i < first + JOINED_MOST && i < explaining->values.count && joined(value, explaining->values.items[i]); i++) {
        const struct listed_value *next = explaining->values.items[i];
        text_printf(&names, "%s%s", i > first ? ", " : "", say(next->key));
        text_say(&figures, "%s%.10g", i > first ? between : "", next->value);
    }
    cited_add(cited, value->from);
    write_refs(&refs, value->from);
    sheet_cell(sheet, "%s", text_bytes(&names));
    sheet_cell(sheet, "%s", text_bytes(&figures));
    sheet_cell(sheet, "%s", value->unit);
    sheet_cell(sheet, "%s", doubt_words(value->from));
    sheet_cell(sheet, "%s", text_bytes(&refs));
    text_release(&names);
    text_release(&figures);
    text_release(&refs);
    return i;
}

static void write_words(const struct listed_value *value, struct cited *cited, struct text *out) {
    struct text refs = {0};
    cited_add(cited, value->from);
    write_refs(&refs, value->from);
    page_paragraph_f(out, 2, 4, "%s: %s%s%s, %s %s", say(value->key), value->words, value->unit ? " " : "",
                     value->unit ? value->unit : "", doubt_words(value->from), text_bytes(&refs));
    text_release(&refs);
}

// Everything of one liquid, material or bottle; returns where the next begins.
static size_t write_values_of(const struct explaining *explaining, size_t first, struct cited *cited,
                              struct text *out) {
    const struct gathered *values = &explaining->values;
    const char *of = ((const struct listed_value *)values->items[first])->of;
    struct sheet sheet;
    size_t end = first;
    while (end < values->count && strcmp(((const struct listed_value *)values->items[end])->of, of) == 0)
        end++;
    page_heading(out, of);
    values_begin(&sheet);
    for (size_t i = first; i < end;)
        i = ((const struct listed_value *)values->items[i])->words ? i + 1
                                                                   : write_figures(explaining, i, cited, &sheet);
    if (sheet.rows)
        sheet_write(&sheet, out);
    else
        sheet_release(&sheet);
    for (size_t i = first; i < end; i++)
        if (((const struct listed_value *)values->items[i])->words)
            write_words(values->items[i], cited, out);
    return end;
}

static void write_values(const struct explaining *explaining, struct cited *cited, struct text *out) {
    if (explaining->values.count == 0)
        return;
    page_heading(out, "values of the tables that went into them");
    for (size_t i = 0; i < explaining->values.count;)
        i = write_values_of(explaining, i, cited, out);
}

// --- what else ---

static void write_constants(unsigned uses, struct text *out) {
    bool first = true;
    for (size_t i = 0; i < constant_count; i++) {
        const struct constant *constant = &constants[i];
        if (!(constant->uses & uses))
            continue;
        if (first)
            page_heading(out, "constants");
        first = false;
        page_paragraph_f(out, 2, 4, "%s: %.10g%s%s; %s", say(constant->name), constant->value,
                         constant->unit[0] ? " " : "", constant->unit, say(constant->source));
    }
}

// What an option that wasn't given stands for is said in its help.
bool explain_default(const struct invocation *inv, const struct option *option) {
    return !option_given(inv, option->name) && !page_option(option->name) && strstr(option->help, "(default");
}

static void write_assumptions(const struct explaining *explaining, struct text *out) {
    const struct command *command = explaining->inv->command;
    page_heading(out, "assumed, because nothing else was asked for");
    for (size_t i = 0; i < assumption_count; i++)
        if (assumptions[i].uses & explaining->uses)
            page_paragraph(out, 2, 4, assumptions[i].words);
    for (size_t i = 0; i < command->option_count; i++)
        if (explain_default(explaining->inv, &command->options[i]))
            page_paragraph_f(out, 2, 4, "%s: %s", command->options[i].name, say(command->options[i].help));
}

void write_explanation_text(struct explaining *explaining, struct text *out) {
    struct cited cited = {0};
    page_heading(out, "How the figures came about");
    page_paragraph(out, 2, 2,
                   "Each figure above: what it is, its equation, where the equation comes from, and with which values "
                   "of the tables. The values follow below, each once.");
    for (size_t i = 0; i < explaining->quantities.count; i++) {
        const struct explained *explained = explaining->quantities.items[i];
        if (explained->derivation->name)
            write_quantity(explained->derivation, out);
    }
    write_values(explaining, &cited, out);
    write_constants(explaining->uses, out);
    write_assumptions(explaining, out);
    write_cited(explaining->inv, &cited, out);
}
