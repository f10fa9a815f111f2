// SPDX-License-Identifier: GPL-3.0-or-later
// label BLEND [FILE]: what goes on the bottle, by the mixture rules of CLP or HCS, and the label as a picture.
#include "base/language.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/common.h"
#include "cli/label_fire.h"
#include "physics/classification.h"
#include "present/chart/canvas.h"
#include "present/chart/chart_page.h"
#include "present/chart/label_picture.h"
#include "present/chart/pictogram.h"
#include "present/label_content.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct labelling {
    struct invocation *inv;
    struct blend blend;
    struct classification_input input;
    struct classification classification;
    const char *flash_words; // where the flash point comes from
    struct label_request request;
    struct label_content content;
    struct label_page page;
    const char *path; // NULL = no picture
    struct label_result result;
};

// --- fire ---

// How far a measured flash point may lie above that of the tables before it is disbelieved: the model errs by several
// degrees, and a flame left off a bottle does more harm than one too many (estimate: three times an error of 5 K).
static const double flash_doubt_k = 15;

// Lower counts always; higher only as far as the tables could be wrong, for a slip of the pen must not take the flame
// off a label.
static enum status state_flash(struct labelling *labelling, struct error *err) {
    struct classification_input *input = &labelling->input;
    double tables_c = input->flash == FLASH_KNOWN ? input->flash_c : NAN, stated_c = NAN;
    enum status status = option_number(labelling->inv, "--flash", -100, 300, 0, &stated_c, err);
    if (status != STATUS_OK)
        return status;
    labelling->request.stated_flash_c = stated_c;
    labelling->request.tables_flash_c = tables_c;
    labelling->request.flash_contradicted = stated_c > tables_c + flash_doubt_k; // never when NAN
    if (labelling->request.flash_contradicted)
        return STATUS_OK;
    input->flash = FLASH_KNOWN;
    input->flash_c = stated_c;
    labelling->flash_words = N_("as you stated");
    return STATUS_OK;
}

static enum status read_fire(struct labelling *labelling, struct error *err) {
    enum status status =
        label_fire(&labelling->inv->library, &labelling->blend, &labelling->input, &labelling->flash_words, err);
    if (status != STATUS_OK || !option_given(labelling->inv, "--flash"))
        return status;
    return state_flash(labelling, err);
}

// --- the question ---

static enum status read_bottle(struct labelling *labelling, struct error *err) {
    static const char *const words[] = {"30", "100", "500", NULL};
    int bottle = 1;
    enum status status = option_word(labelling->inv, "--bottle", words, bottle, &bottle, err);
    labelling->request.bottle = labelling->page.bottle = &label_bottles[bottle];
    return status;
}

static enum status read_question(struct labelling *labelling, struct error *err) {
    struct invocation *inv = labelling->inv;
    int rules = RULES_EU_CLP;
    const struct blend *blend = &labelling->blend;
    enum status status = argument_blend(inv, 0, &labelling->blend, err);
    if (status == STATUS_OK)
        status = read_rows_of_blends(inv, &blend, 1, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--rules", classification_rules_words, rules, &rules, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--viscosity", 0.1, 1e6, NAN, &labelling->input.viscosity_40c_mm2_s, err);
    if (status == STATUS_OK)
        status = read_fire(labelling, err);
    if (status == STATUS_OK)
        status = read_bottle(labelling, err);
    if (status == STATUS_OK)
        status =
            option_integer(inv, "--dpi", CHART_DPI_MIN, CHART_DPI_MAX, CHART_DPI_DEFAULT, &labelling->page.dpi, err);
    labelling->input.rules = (enum classification_rules)rules;
    labelling->input.benzene_content_unknown = option_given(inv, "--benzene-unknown");
    labelling->request.blend = &labelling->blend;
    labelling->request.name = option_value(inv, "--name");
    labelling->request.date = labelling->page.date = option_value(inv, "--date");
    labelling->request.initials = option_value(inv, "--initials");
    labelling->page.sheet = option_given(inv, "--sheet");
    labelling->page.black_and_white = option_given(inv, "--grey");
    labelling->path = inv->argument_count > 1 ? inv->arguments[1] : NULL;
    if (status == STATUS_OK && labelling->request.name && !labelling->request.name[0])
        status = error_set(err, STATUS_USAGE, "--name is empty; leave it out, and the proportions are the name");
    if (status == STATUS_OK && labelling->path)
        status = canvas_check_suffix(labelling->path, err);
    return status;
}

// --- text ---

static void write_heading(const struct labelling *labelling, struct text *out) {
    struct text notation = {0};
    blend_write(&labelling->blend, &notation);
    page_paragraph_f(out, 0, 2, "%s, classified by %s on mass fractions", text_bytes(&notation),
                     classification_rules_names[labelling->input.rules]);
    text_release(&notation);
    if (labelling->input.flash == FLASH_KNOWN)
        page_paragraph_f(out, 2, 4, "Flash point %.0f degC (%s).", labelling->input.flash_c,
                         say(labelling->flash_words));
    else if (labelling->input.flash == FLASH_NONE)
        page_paragraph(out, 2, 4, "No component has a flash point by closed cup.");
    else
        page_paragraph(out, 2, 4, "No flash point of the blend can be computed.");
    if (labelling->request.flash_contradicted)
        page_paragraph_f(
            out, 2, 4,
            "CAUTION: the flash point that you stated, %.0f degC, is not used: the tables say %.0f degC, and "
            "the lower counts where the two lie more than %g K apart. Measure again, or look for a slip of "
            "the pen; correct the tables with --data if they are wrong.",
            labelling->request.stated_flash_c, labelling->request.tables_flash_c, flash_doubt_k);
}

static void write_elements(const struct labelling *labelling, struct text *out) {
    static const char *const signals[] = {N_("none"), N_("WARNING"), N_("DANGER")};
    const struct classification *classification = &labelling->classification;
    struct text pictograms = {0};
    for (int i = 1; i < 10; i++)
        if (classification->pictograms[i])
            text_printf(&pictograms, "%sGHS%02d %s", pictograms.length ? ", " : "", i, say(pictogram_name(i)));
    page_heading(out, "on the label");
    page_paragraph_f(out, 2, 4, "Signal word: %s. Pictograms: %s.", say(signals[classification->signal]),
                     pictograms.length ? text_bytes(&pictograms) : say("none"));
    text_release(&pictograms);
    if (labelling->content.contains[0])
        page_paragraph(out, 2, 4, labelling->content.contains);
    if (labelling->content.warning[0])
        page_paragraph(out, 2, 4, labelling->content.warning);
}

static void write_statements(const struct labelling *labelling, struct text *out) {
    const struct classification *classification = &labelling->classification;
    page_heading(out, "hazard statements, and why");
    if (classification->count == 0)
        page_paragraph(out, 2, 4, "No rule gives a statement; that is no statement that there is no hazard.");
    for (size_t i = 0; i < classification->count; i++) {
        const struct classified_statement *statement = &classification->statements[i];
        const char *words = statement_words(&labelling->inv->library, &labelling->blend, statement, language_chosen(),
                                            labelling->inv->arena);
        if (statement->left_off)
            page_paragraph_f(out, 2, 4, "%s %s Not on the label: %s.", statement->code, words ? words : "",
                             statement->left_off);
        else
            page_paragraph_f(out, 2, 4, "%s %s", statement->code, words ? words : "");
        page_paragraph(out, 6, 6, statement->reason);
    }
}

static void write_precautions(const struct labelling *labelling, struct text *out) {
    const struct classification *classification = &labelling->classification;
    page_heading(out, "precautions (six at most, the most urgent first)");
    for (size_t i = 0; i < classification->precaution_count; i++)
        page_paragraph_f(out, 2, 4, "%s %s", classification->precautions[i], labelling->content.precautions[i].text);
    struct text more = {0};
    text_add_joined(&more, ", ", classification->precautions_more, classification->precaution_more_count);
    if (more.length)
        page_paragraph_f(out, 2, 4, "Beyond the six, these apply too: %s.", text_bytes(&more));
    text_release(&more);
}

static void write_file(const struct labelling *labelling, struct text *out) {
    const struct label_bottle *bottle = labelling->request.bottle;
    const struct label_result *result = &labelling->result;
    page_heading(out, "file");
    page_paragraph_f(out, 2, 4,
                     result->copies == 1 ? N_("%s: %zu label of %g x %g mm for %d mL, text %g pt.")
                                         : N_("%s: %zu labels of %g x %g mm for %d mL, text %g pt."),
                     labelling->path, result->copies, bottle->width_mm, bottle->height_mm, bottle->volume_ml,
                     result->text_size);
    if (result->pictogram_side_mm > 0)
        page_paragraph_f(out, 2, 4, "Pictograms with sides of %.0f mm.", result->pictogram_side_mm);
    if (result->left_out[0])
        page_paragraph_f(out, 2, 4,
                         "Left out for want of room: %s. Keep this page with the bottle, or take a larger one.",
                         result->left_out);
}

static void write_text(const struct labelling *labelling, struct text *out) {
    const struct classification *classification = &labelling->classification;
    write_heading(labelling, out);
    write_elements(labelling, out);
    write_statements(labelling, out);
    if (classification->precaution_count)
        write_precautions(labelling, out);
    if (classification->note_count)
        page_heading(out, "notes");
    for (size_t i = 0; i < classification->note_count; i++)
        page_paragraph(out, 2, 4, classification->notes[i]);
    if (labelling->path)
        write_file(labelling, out);
    text_add(out, "\n");
    page_paragraph(
        out, 0, 0,
        "Computed from the tables, rules from memory; check against the safety data sheets of your bottles. For "
        "your own studio only: what is given to others needs a supplier's label.");
}

// --- JSON ---

static void json_components(struct json *json, const char *key, const struct blend *blend, uint32_t mask) {
    json_list(json, key);
    for (size_t i = 0; i < blend->count; i++)
        if (mask & UINT32_C(1) << i)
            json_text(json, NULL, blend->components[i]->id);
    json_close_list(json);
}

static void json_statements(const struct labelling *labelling, struct json *json) {
    json_list(json, "statements");
    for (size_t i = 0; i < labelling->classification.count; i++) {
        const struct classified_statement *statement = &labelling->classification.statements[i];
        json_object(json, NULL);
        json_text(json, "code", statement->code);
        json_text(json, "text",
                  statement_words(&labelling->inv->library, &labelling->blend, statement, "en", labelling->inv->arena));
        json_components(json, "components", &labelling->blend, statement->from);
        json_text(json, "reason", statement->reason);
        json_text(json, "left_off", statement->left_off);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_precautions(const struct labelling *labelling, struct json *json) {
    const struct classification *classification = &labelling->classification;
    json_list(json, "precautions");
    for (size_t i = 0; i < classification->precaution_count; i++) {
        json_object(json, NULL);
        json_text(json, "code", classification->precautions[i]);
        const struct statement *row = library_statement(&labelling->inv->library, classification->precautions[i]);
        json_text(json, "text", row ? row->en : NULL);
        json_flag(json, "printed", labelling->path && i < labelling->result.precaution_count);
        json_close_object(json);
    }
    json_close_list(json);
    json_texts(json, "precautions_beyond_six", classification->precautions_more, classification->precaution_more_count);
}

static void json_file(const struct labelling *labelling, struct json *json) {
    if (!labelling->path) {
        json_null(json, "label");
        return;
    }
    json_object(json, "label");
    json_text(json, "file", labelling->path);
    json_integer(json, "bottle_ml", labelling->request.bottle->volume_ml);
    json_number(json, "width_mm", labelling->request.bottle->width_mm);
    json_number(json, "height_mm", labelling->request.bottle->height_mm);
    json_integer(json, "copies", (long long)labelling->result.copies);
    json_number(json, "text_pt", labelling->result.text_size);
    json_number(json, "pictogram_side_mm", labelling->result.pictogram_side_mm);
    json_text(json, "left_out", labelling->result.left_out);
    json_close_object(json);
}

static void write_json(const struct labelling *labelling, struct text *out) {
    const struct classification *classification = &labelling->classification;
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &labelling->blend);
    json_text(&json, "rules", classification_rules_words[labelling->input.rules]);
    json_number(&json, "flash_point_c", labelling->input.flash == FLASH_KNOWN ? labelling->input.flash_c : NAN);
    json_text(&json, "flash_point_from", labelling->input.flash == FLASH_KNOWN ? labelling->flash_words : NULL);
    bool stated = option_given(labelling->inv, "--flash");
    json_number(&json, "flash_point_stated_c", stated ? labelling->request.stated_flash_c : NAN);
    json_flag(&json, "flash_point_contradicted", labelling->request.flash_contradicted);
    json_number(&json, "boiling_point_c", labelling->input.boiling_c);
    json_text(&json, "signal_word", signal_words[classification->signal]);
    json_list(&json, "pictograms");
    for (int i = 1; i < 10; i++) {
        char code[8];
        snprintf(code, sizeof code, "GHS%02d", i);
        if (classification->pictograms[i])
            json_text(&json, NULL, code);
    }
    json_close_list(&json);
    json_statements(labelling, &json);
    json_precautions(labelling, &json);
    uint32_t named = 0;
    for (size_t i = 0; i < classification->named_count; i++)
        named |= UINT32_C(1) << classification->named[i];
    json_components(&json, "named", &labelling->blend, named);
    json_flag(&json, "complete", classification->unknown == 0);
    json_components(&json, "unknown", &labelling->blend, classification->unknown);
    json_components(&json, "specific_limits_not_checked", &labelling->blend, classification->limits_assumed);
    json_components(&json, "m_factors_not_entered", &labelling->blend, classification->factors_assumed);
    json_texts(&json, "notes", classification->notes, classification->note_count);
    json_file(labelling, &json);
    json_end(&json);
}

// --- all ---

static enum status explain(const struct labelling *labelling, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(labelling->inv);
    if (!explaining)
        return STATUS_OK;
    explain_blend(explaining, &labelling->blend);
    write_json(labelling, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct labelling *labelling = arena_new(inv->arena, 1, sizeof *labelling);
    if (!labelling)
        return error_set(err, STATUS_MEMORY, "out of memory");
    labelling->inv = inv;
    enum status status = read_question(labelling, err);
    if (status == STATUS_OK)
        status = case_option_warn_peroxides(inv, &labelling->blend, err);
    if (status == STATUS_OK)
        status = classify_blend(&labelling->blend, &labelling->input, inv->arena, &labelling->classification, err);
    if (status == STATUS_OK)
        status = label_content_make(&inv->library, &labelling->request, &labelling->classification, inv->arena,
                                    &labelling->content, err);
    if (status == STATUS_OK && labelling->path)
        status = label_write(&labelling->content, &labelling->page, labelling->path, &labelling->result, err);
    if (status != STATUS_OK)
        return status;
    if (inv->json)
        write_json(labelling, inv->out);
    else
        write_text(labelling, inv->out);
    status = explain(labelling, err);
    if (status != STATUS_OK)
        return status;
    return labelling->classification.unknown ? STATUS_NEGATIVE : STATUS_OK;
}

static const struct option options[] = {
    {.name = "--bottle", .argument = "ML", .help = "30, 100 (default) or 500: size of the label"},
    {.name = "--name", .argument = "TEXT", .help = "name on the bottle (default: the proportions)"},
    {.name = "--date", .argument = "DATE", .help = "for example 2026-11-25 (default: a line to fill in)"},
    {.name = "--initials", .argument = "TEXT", .help = "who made it (default: a line to fill in)"},
    {.name = "--sheet", .help = "a sheet of A4 full of the label, with cut marks"},
    {.name = "--rules", .argument = "TEXT", .help = "eu-clp (default) or us-hcs"},
    {.name = "--flash", .argument = "DEGC", .help = "measured flash point, closed cup"},
    {.name = "--viscosity", .argument = "MM2/S", .help = "measured kinematic viscosity at 40 degC"},
    {.name = "--benzene-unknown", .help = "petroleum cuts may hold 0.1 % benzene or more"},
    {.name = "--dpi", .argument = "DPI", .help = "resolution of PNG files (default 300)"},
    {.name = "--grey", .help = "no colour at all"},
    CASE_OPTION,
    EXPLAIN_OPTION,
};

const struct command cmd_label = {
    .name = "label",
    .arguments = "BLEND [FILE]",
    .arguments_least = 1,
    .arguments_most = 2,
    .summary = "Hazard classification of a blend, with reasons, and the label for its bottle",
    .details = "Classifies the blend by the mixture rules of one named text on mass fractions, and gives the reason of "
               "every statement. With FILE (.png, .svg or .pdf) draws the label.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_STATEMENTS,
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_UNIFAC,
    .example = "mildsolve label \"propan-2-ol 30 + isooctane 70\" label.pdf --bottle 100",
    .dated = true,
    .run = run,
};
