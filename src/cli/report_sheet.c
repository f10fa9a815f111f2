// SPDX-License-Identifier: GPL-3.0-or-later
// The report's short form: one page for the easel. Only what the hand needs: what to mix, where not to go, how much
// air. Texts are shortened, lists cut with a word of what is left out, so that a page always holds them.
#include "base/language.h"
#include "cli/report.h"

#include <math.h>

enum {
    TESTS_SHOWN = 6,
    STOPS_SHOWN = 4,
    PASSAGES_SHOWN = 6,
    NAME_COLUMNS = 60,
    WORD_COLUMNS = 28,
    BOTTLES_SHOWN = 6,
    VARIANTS_SHOWN = 4
};

static const char *brief(struct report *report, const char *text, size_t columns) {
    return document_short(report->document, text ? text : "", columns);
}

static void add_task(struct report *report) {
    const struct case_goals *goals = &report->file->goals;
    const struct case_delivery *delivery = &report->file->delivery;
    if (goals->remove.count + goals->spare.count + goals->unsure.count == 0 && !delivery->method &&
        isnan(delivery->contact_s))
        return;
    struct document_section *section = document_section(report->document, "task", "Task");
    struct document_facts *facts = document_facts(section, "task");
    if (goals->remove.count)
        fact_words(facts, "remove", "Take off",
                   brief(report, report_layer_name(report, goals->remove.items[0]), NAME_COLUMNS));
    if (goals->spare.count)
        fact_words(facts, "spare", "Leave alone",
                   brief(report, report_layer_name(report, goals->spare.items[0]), NAME_COLUMNS));
    fact_words(facts, "unsure", "Undecided, leave alone",
               goals->unsure.count ? brief(report, goals->unsure.items[0], NAME_COLUMNS) : NULL);
    if (delivery->method)
        fact_words(facts, "delivery", "Delivery", say(delivery_words[delivery->method]));
    fact_number(facts, "contact_s", "Contact", delivery->contact_s, 0, "s");
}

static void add_mix(struct report *report) {
    struct document_section *section = document_section(report->document, "mix", "Mix");
    if (!report->notation) {
        document_paragraph(section, PARAGRAPH_STRONG, "No blend is chosen or tested yet.");
        return;
    }
    bool banned = report_add_ban(report, section);
    document_paragraph(section, banned ? PARAGRAPH_PLAIN : PARAGRAPH_STRONG, "%s",
                       brief(report, report->notation, 3 * NAME_COLUMNS));
    report_add_overdue(report, section);
    const struct recipe *recipe = &report->recipe;
    if (!report->has_recipe.there || banned)
        return;
    struct document_table *table = document_table(section, "recipe", "");
    table_column(table, "bottle", "Bottle", NULL, false);
    table_column(table, "add_ml", "Volume", "mL", true);
    table_column(table, "asked_percent", "Share", "vol%", true);
    for (size_t i = 0; i < recipe->count && i < BOTTLES_SHOWN; i++) {
        table_words(table, brief(report, bottle_ref_id(&recipe->lines[i].bottle), NAME_COLUMNS));
        table_decimals(table, recipe->lines[i].add_ml, 0);
        table_decimals(table, recipe->lines[i].asked_percent, 0);
    }
    if (recipe->count > BOTTLES_SHOWN)
        document_paragraph(section, PARAGRAPH_SMALL, "%zu more bottles: see the full report.",
                           recipe->count - BOTTLES_SHOWN);
}

// --- where not to go ---

static size_t add_stops(struct report *report, struct document_section *section) {
    const struct case_test *tests = report->file->tests.items;
    size_t count = 0;
    for (size_t i = report->file->tests.count; i-- > 0;) {
        if (!case_test_stops(&tests[i]))
            continue;
        if (count++ < STOPS_SHOWN)
            report_add_stop(report, section, &tests[i], WORD_COLUMNS);
    }
    if (count > STOPS_SHOWN)
        document_paragraph(section, PARAGRAPH_CAUTION, "%zu more stops: see the full report.", count - STOPS_SHOWN);
    return count;
}

static size_t add_sensitive(struct report *report, struct document_section *section) {
    const struct case_passage *passages = report->file->passages.items;
    size_t count = 0;
    for (size_t i = 0; i < report->file->passages.count; i++) {
        if (passages[i].sensitive.count == 0)
            continue;
        if (count++ < PASSAGES_SHOWN)
            document_paragraph(
                section, PARAGRAPH_ITEM, "%s: %s; a test of its own before any large area.",
                document_name(report->document,
                              brief(report, passages[i].name ? passages[i].name : passages[i].id, WORD_COLUMNS)),
                say(passages[i].sensitive.items[0]));
    }
    if (count > PASSAGES_SHOWN)
        document_paragraph(section, PARAGRAPH_ITEM, "%zu more sensitive passages: see the full report.",
                           count - PASSAGES_SHOWN);
    return count;
}

static void add_care(struct report *report) {
    struct document_section *section = document_section(report->document, "care", "Take care");
    size_t count = add_stops(report, section);
    count += add_sensitive(report, section);
    if (count == 0)
        document_paragraph(section, PARAGRAPH_PLAIN, "The case names no sensitive passage; watch the swab for colour.");
}

// --- tests so far ---

static const char *colour_of(const struct case_test *test) {
    if (test->withdrawn || !test->colour_on_swab)
        return "";
    if (!case_test_stops(test))
        return say(colour_words[test->colour_on_swab]);
    return test->colour_on_swab == COLOUR_ORIGINAL ? say("STOP: original colour") : say("STOP: unsure colour");
}

static void add_tests(struct report *report) {
    const struct case_test *tests = report->file->tests.items;
    size_t count = report->file->tests.count;
    struct document_section *section = document_section(report->document, "tests", "Last tests");
    if (count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No swab test is noted yet.");
        return;
    }
    struct document_table *table = document_table(section, "tests", "");
    table_column(table, "test", "Test", NULL, false);
    table_column(table, "passage", "Passage", NULL, false);
    table_column(table, "blend", "Blend", NULL, false);
    table_column(table, "result", "Result", NULL, false);
    table_column(table, "colour_on_swab", "Colour on swab", NULL, false);
    for (size_t i = count > TESTS_SHOWN ? count - TESTS_SHOWN : 0; i < count; i++) {
        table_words(table, brief(report, tests[i].id, 12));
        table_words(table, brief(report, tests[i].passage, 16));
        table_words(table, brief(report, tests[i].blend, NAME_COLUMNS));
        table_words(table, tests[i].withdrawn ? say("withdrawn") : say(result_words[tests[i].result]));
        table_words(table, colour_of(&tests[i]));
    }
    if (count > TESTS_SHOWN)
        document_paragraph(section, PARAGRAPH_SMALL, "The last %d of %zu tests.", TESTS_SHOWN, count);
}

static void add_next(struct report *report) {
    if (report->has_ladder.there)
        report_add_next(report, document_section(report->document, "next", "Next test"));
}

// --- air and bottle ---

static void add_air(struct report *report) {
    struct document_section *section = document_section(report->document, "air", "Air and bottle");
    if (!report->notation) {
        document_paragraph(section, PARAGRAPH_PLAIN, "The air is judged once a blend is tested or chosen.");
        report_add_planned_air(report, section);
        return;
    }
    report_add_planned_air(report, section);
    document_paragraph(section, report_air_style(report, PARAGRAPH_PLAIN), "%s", report_verdict(report));
    report_add_people_warning(report, section);
    struct document_facts *facts = document_facts(section, "air");
    fact_number(facts, "allowed_ml_h", "At most in an hour", report_allowed_ml_h(report), 3, "mL/h");
    if (!report->has_label.there)
        return;
    fact_words(facts, "statements", "Hazard statements", brief(report, report_hazard_codes(report), 2 * NAME_COLUMNS));
    fact_number(facts, "flash_point_c", "Flash point", report_flash_c(report), 2, "\u00B0C");
}

void report_add_sheet(struct report *report) {
    bool stopped = case_any_stop(report->file); // then that comes before anything that could be taken for advice
    if (stopped)
        add_care(report);
    add_task(report);
    add_mix(report);
    if (!stopped)
        add_care(report);
    add_tests(report);
    add_next(report);
    report_add_planned_short(report, VARIANTS_SHOWN);
    add_air(report);
    struct document_section *section = document_section(report->document, "notes", "By hand");
    document_line(section, "Site, rolls, result");
    document_line(section, "Site, rolls, result");
    document_line(section, "Date and initials");
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Calculations from tables, not tests. Watch the swab; let it dry; follow "
                       "the safety data sheets.");
}
