// SPDX-License-Identifier: GPL-3.0-or-later
// The report: hazards of the chosen blend, and what goes on the bottle.
#include "cli/report_label.h"

#include "base/language.h"
#include "cli/label_fire.h"
#include "cli/notes.h"
#include "cli/report_figure.h"
#include "present/chart/label_picture.h"
#include "present/chart/pictogram.h"
#include "present/label_content.h"

#include <math.h>
#include <string.h>

enum status report_ask_label(struct report *report, struct error *err) {
    struct report_label *label = arena_new(report->inv->arena, 1, sizeof *label);
    const char *limits = report->file->studio.limits;
    if (!label)
        return error_set(err, STATUS_MEMORY, "out of memory");
    label->input = (struct classification_input){.rules = RULES_EU_CLP, .viscosity_40c_mm2_s = NAN};
    if (limits && strncmp(limits, "us-", 3) == 0)
        label->input.rules = RULES_US_HCS;
    report->label = label;
    enum status status = label_fire(&report->inv->library, &report->blend, &label->input, &label->flash_words, err);
    if (status == STATUS_OK)
        status = classify_blend(&report->blend, &label->input, report->inv->arena, &label->classification, err);
    return status;
}

const char *report_hazard_codes(struct report *report) {
    const struct classification *classification = &report->label->classification;
    struct text codes = {0};
    for (size_t i = 0; i < classification->count; i++)
        if (!classification->statements[i].left_off)
            text_printf(&codes, "%s%s", codes.length ? ", " : "", classification->statements[i].code);
    return document_take(report->document, &codes);
}

double report_flash_c(const struct report *report) {
    bool known = report->has_label.there && report->label->input.flash == FLASH_KNOWN;
    return known ? report->label->input.flash_c : NAN;
}

// --- hazards ---

// Of the chosen blend and of the carriers of what is planned.
void report_add_hazards(struct report *report) {
    struct noted noted = {0};
    const struct blend *carrier;
    if (report->notation)
        noted_add(&noted, &report->blend);
    for (size_t i = 0; (carrier = report_planned_carrier(report, i)); i++)
        noted_add(&noted, carrier);
    if (noted.count == 0)
        return;
    struct document_section *section = document_section(report->document, "hazards", "Health and fire");
    for (size_t i = 0; i < noted.count; i++) {
        struct text words = {0};
        note_add(&report->inv->library, noted.components[i], &words);
        document_paragraph(section, PARAGRAPH_ITEM, "%s", document_take(report->document, &words));
        if (noted.components[i]->hazard)
            cited_add(&report->cited, &noted.components[i]->hazard->from);
    }
    document_paragraph(section, PARAGRAPH_SMALL, "Read the safety data sheet of your own bottle.");
}

// --- label ---

static void add_pictograms(struct report *report, struct document_facts *facts) {
    struct text words = {0};
    for (int i = 1; i < 10; i++)
        if (report->label->classification.pictograms[i])
            text_printf(&words, "%sGHS%02d %s", words.length ? ", " : "", i, say(pictogram_name(i)));
    const char *names = document_take(report->document, &words);
    fact_words(facts, "pictograms", "Pictograms", names[0] ? names : say("none"));
}

static void add_statements(struct report *report, struct document_section *section) {
    const struct library *lib = &report->inv->library;
    struct document_table *table = document_table(section, "statements", "Statements, and why");
    table_column(table, "code", "Code", NULL, false);
    table_column(table, "statement", "Statement", NULL, false);
    table_column(table, "reason", "Reason", NULL, false);
    table_detail(table, "left_off", "Not on the label", NULL);
    for (size_t i = 0; i < report->label->classification.count; i++) {
        const struct classified_statement *statement = &report->label->classification.statements[i];
        table_words(table, statement->code);
        table_words(table, statement_words(lib, &report->blend, statement, language_chosen(), report->inv->arena));
        table_words(table, statement->reason);
        table_words(table, statement->left_off);
    }
}

void report_add_precautions(struct report *report, struct document_section *section) {
    for (size_t i = 0; i < report->label->classification.precaution_count; i++) {
        const char *code = report->label->classification.precautions[i];
        const struct statement *row = library_statement(&report->inv->library, code);
        document_paragraph(section, PARAGRAPH_ITEM, "%s %s", code, row ? statement_in(row, language_chosen()) : "");
    }
}

void report_add_label(struct report *report) {
    static const char *const signals[] = {N_("none"), N_("WARNING"), N_("DANGER")};
    if (!report->notation)
        return;
    struct document_section *section = document_section(report->document, "label", "On the bottle");
    if (!report->has_label.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "It cannot be classified: %s.", report->has_label.why.text);
        return;
    }
    struct document_facts *facts = document_facts(section, "label");
    fact_words(facts, "name", "Name and proportions", report->notation);
    fact_words(facts, "rules", "Rules", classification_rules_names[report->label->classification.rules]);
    fact_words(facts, "signal_word", "Signal word", say(signals[report->label->classification.signal]));
    add_pictograms(report, facts);
    if (report->label->input.flash == FLASH_KNOWN) {
        fact_number(facts, "flash_point_c", "Flash point", report->label->input.flash_c, 2, "\u00B0C");
        fact_words(facts, "flash_point_from", "It is", say(report->label->flash_words));
    }
    if (report->label->classification.count)
        add_statements(report, section);
    report_add_precautions(report, section);
    if (report->label->classification.unknown)
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "%.3g %% by mass has no hazard data in the tables: treat it as hazardous.",
                           report->label->classification.unknown_percent);
    report_figure_label(report, section);
}

// --- label ---

void report_figure_label(struct report *report, struct document_section *section) {
    const struct label_request request = {.blend = &report->blend, .bottle = &label_bottles[1]};
    const struct label_page page = {.bottle = request.bottle, .black_and_white = report->document->black_and_white};
    struct label_content content;
    struct label_layout layout;
    struct picture picture = {0};
    struct error err = {0};
    enum status status = label_content_make(&report->inv->library, &request, &report->label->classification,
                                            report->inv->arena, &content, &err);
    if (status == STATUS_OK && report->canvas) {
        struct text_metric metric = canvas_metric(report->canvas);
        status = label_layout_make(&content, request.bottle, &metric, &layout, &err);
        if (status == STATUS_OK) {
            status = label_picture(&layout, &content, &page, &picture, &err);
            label_layout_release(&layout);
        }
    }
    report_add_figure(report, section, "figure-label", status,
                      document_say(report->document, "Label for a bottle of 100 mL; the lines are filled in by hand"),
                      document_say(report->document, "The label with the pictograms and statements named above."),
                      &picture, &err);
}
