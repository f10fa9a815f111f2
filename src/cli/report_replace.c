// SPDX-License-Identifier: GPL-3.0-or-later
// The report: what the case seeks a replacement for, as `replace` answers it.
#include "base/language.h"
#include "cli/replace.h"
#include "cli/report.h"

#include <math.h>

extern const struct command cmd_replace;

static enum status ask_one(struct report *report, const struct case_replacement *asked, struct report_replacement *ret,
                           struct error *err) {
    enum status status = STATUS_OK;
    struct report_answer *answer = &ret->answer;
    struct invocation *call = report_call_about(report, &cmd_replace, asked->blend, false, &status, &answer->why);
    ret->asked = asked;
    ret->replacing = arena_new(report->inv->arena, 1, sizeof *ret->replacing);
    if (!call || !ret->replacing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < asked->without.count; i++)
        option_add(call, "--without", asked->without.items[i]);
    if (asked->bottle)
        option_fill(call, "--bottle", asked->bottle);
    if (status == STATUS_OK || status == STATUS_NO_DATA) // a goal without a material is compared in fewer respects
        status = replacing_make(call, ret->replacing, &answer->why);
    if (status == STATUS_USAGE) // the options are those of the case, not of the report
        status = STATUS_INPUT;
    return report_end_call(call, answer, status, err);
}

enum status report_ask_replacements(struct report *report, struct error *err) {
    const struct case_replacement *asked = report->file->replacements.items;
    size_t count = report->file->replacements.count;
    enum status status = STATUS_OK;
    if (count == 0)
        return STATUS_OK;
    report->replacements = arena_new(report->inv->arena, count, sizeof *report->replacements);
    if (!report->replacements)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < count && status == STATUS_OK; i++) {
        status = ask_one(report, &asked[i], &report->replacements[i], err);
        report->replacement_count = i + 1;
    }
    return status;
}

void report_release_replacements(struct report *report) {
    for (size_t i = 0; i < report->replacement_count; i++)
        if (report->replacements[i].replacing)
            replacing_release(report->replacements[i].replacing);
}

// --- one question ---

static void add_row(struct report *report, struct document_table *table, const struct replacing *replacing,
                    const struct replacement_row *row, size_t number) {
    char swelling[CELL_BYTES];
    struct text change = {0};
    replacing_swelling(&row->portrait, swelling);
    replacing_add_change(replacing, row, &change);
    table_decimals(table, (double)number, 0);
    table_words(table, report_notation(report, &row->portrait.blend));
    table_decimals(table, row->like.ra, 1);
    table_decimals(table, row->like.triangle, 0);
    table_words(table, swelling);
    table_decimals(table, row->portrait.flash_point_c, 0);
    table_number(table, row->like.hazard_set >= 0 ? row->like.hazard : (double)NAN, 2);
    table_note(table, document_take(report->document, &change));
}

static void add_rows(struct report *report, struct document_section *section, const struct replacing *replacing,
                     const char *id) {
    struct document_table *table = document_table(section, id, "What comes nearest");
    table_column(table, "rank", "No.", NULL, true);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "ra", "Ra", "MPa^0.5", true);
    table_column(table, "triangle", "Triangle", "%", true);
    table_column(table, "swelling", "Paint swells", NULL, false);
    table_column(table, "flash_point_c", "Flash point", "\u00B0C", true);
    table_column(table, "vapour_ratio", "Vapour", "x", true);
    for (size_t i = 0; i < replacing->found.count; i++)
        add_row(report, table, replacing, &replacing->found.rows[i], i + 1);
}

static void add_one(struct report *report, struct document_section *section, size_t number) {
    const struct report_replacement *one = &report->replacements[number];
    const char *without = report_joined(report, &one->asked->without);
    struct text original = {0};
    struct text nearest = {0};
    if (one->asked->bottle)
        document_paragraph(section, PARAGRAPH_STRONG, "Instead of %s in %s:", one->asked->bottle, one->asked->blend);
    else
        document_paragraph(section, PARAGRAPH_STRONG, "Instead of %s, without %s:", one->asked->blend, without);
    if (one->asked->note)
        document_paragraph(section, PARAGRAPH_PLAIN, "%s", one->asked->note);
    if (!one->answer.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No replacement can be sought: %s.", one->answer.why.text);
        return;
    }
    replacing_add_original(one->replacing, &original);
    document_paragraph(section, PARAGRAPH_PLAIN, "The original: %s", document_take(report->document, &original));
    if (one->replacing->found.count) {
        add_rows(report, section, one->replacing, document_print(report->document, "replacement-%zu", number + 1));
        return;
    }
    replacing_add_nearest(one->replacing, &nearest);
    document_paragraph(section, PARAGRAPH_PLAIN, "There is no honest replacement within %g MPa^0.5. %s",
                       one->replacing->request.within, document_take(report->document, &nearest));
}

void report_add_replacements(struct report *report) {
    if (report->replacement_count == 0)
        return;
    struct document_section *section = document_section(report->document, "replacements", "What could stand in");
    for (size_t i = 0; i < report->replacement_count; i++)
        add_one(report, section, i);
    document_paragraph(
        section, PARAGRAPH_SMALL,
        "Ra: distance from the original in Hansen space; triangle: on the Teas triangle, percent along a "
        "side; vapour: saturated air divided by the exposure limits, in comparison with the original. A "
        "replacement on paper is a proposal for a test beside the original.");
}
