// SPDX-License-Identifier: GPL-3.0-or-later
// The report: the swab tests, and what they say by themselves.
#include "base/language.h"
#include "cli/report.h"
#include "cli/tests_so_far.h"

#include <math.h>
#include <string.h>

enum { NAME_COLUMNS_MOST = 100000 }; // a name whole

static void test_columns(struct document_table *table) {
    table_column(table, "test", "Test", NULL, false);
    table_column(table, "date", "Date", NULL, false);
    table_column(table, "by", "By", NULL, false);
    table_column(table, "passage", "Passage", NULL, false);
    table_column(table, "x_mm", "x", "mm", true);
    table_column(table, "y_mm", "y", "mm", true);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "result", "Result", NULL, false);
    table_column(table, "colour_on_swab", "Colour on swab", NULL, false);
    table_detail(table, "layer", "Layer", NULL);
    table_detail(table, "delivery", "Delivery", NULL);
    table_detail(table, "contact_s", "Contact", "s");
    table_detail(table, "rolls", "Rolls", NULL);
    table_detail(table, "load_ml", "Load", "mL");
    table_detail(table, "blanching", "Blanching", NULL);
    table_detail(table, "photo", "Photo", NULL);
}

static void add_note(struct text *words, const char *said) {
    text_printf(words, "%s%s", words->length ? " \u00B7 " : "", said);
}

static void add_notes(struct report *report, struct document_table *table, const struct case_test *test) {
    struct document *document = report->document;
    struct text words = {0};
    char day[DATE_BYTES];
    if (test->clearing)
        add_note(&words, document_say(document, "Clearing: %s", document_name(document, test->clearing)));
    if (test->note_wet)
        add_note(&words, document_say(document, "Wet: %s", document_name(document, test->note_wet)));
    if (test->note_dry)
        add_note(&words, document_say(document, "Dry: %s", document_name(document, test->note_dry)));
    if (test->note_next_day)
        add_note(&words, document_say(document, "Next day: %s", document_name(document, test->note_next_day)));
    if (test->note_uv)
        add_note(&words, document_say(document, "Ultraviolet: %s", document_name(document, test->note_uv)));
    if (test->withdrawn)
        add_note(&words, document_say(document, "WITHDRAWN %s by %s: %s", date_write(test->withdrawn_on, day),
                                      document_name(document, test->withdrawn_by ? test->withdrawn_by : "?"),
                                      test->withdrawn_because ? document_name(document, test->withdrawn_because)
                                                              : document_say(document, "no reason is noted")));
    table_note(table, document_take(document, &words));
}

static void add_test(struct report *report, struct document_table *table, const struct case_test *test) {
    char day[DATE_BYTES];
    table_words(table, test->id);
    table_words(table, date_write(test->date, day));
    table_words(table, test->by);
    table_words(table, test->passage);
    table_number(table, test->x_mm, 0);
    table_number(table, test->y_mm, 0);
    table_words(table, test->blend);
    table_words(table, test->withdrawn
                           ? document_say(report->document, "(withdrawn) %s", say(result_words[test->result]))
                           : say(result_words[test->result]));
    table_words(table, test->colour_on_swab ? say(colour_words[test->colour_on_swab]) : "");
    table_words(table, test->layer);
    table_words(table, test->delivery ? say(delivery_words[test->delivery]) : "");
    table_number(table, test->contact_s, 0);
    table_number(table, test->rolls ? (double)test->rolls : (double)NAN, 0);
    table_number(table, test->load_ml, 0);
    table_words(table, test->blanching ? say(blanching_words[test->blanching]) : "");
    table_words(table, test->photo);
    add_notes(report, table, test);
}

void report_add_stop(struct report *report, struct document_section *section, const struct case_test *test,
                     size_t columns) {
    struct document *document = report->document;
    const char *passage = test->passage ? document_short(document, test->passage, columns) : NULL;
    const char *id = document_short(document, test->id, columns);
    const char *blend = document_short(document, test->blend, 2 * columns);
    struct text words = {0};
    add_test_place(test, passage ? document_name(document, passage) : NULL, &words);
    const char *place = document_take(document, &words);
    if (test->colour_on_swab == COLOUR_ORIGINAL)
        document_paragraph(section, PARAGRAPH_CAUTION, "STOP %s: test %s with %s found original colour on the swab.",
                           place, id, blend);
    else
        document_paragraph(section, PARAGRAPH_CAUTION, "STOP %s: test %s with %s found colour that may be original.",
                           place, id, blend);
}

void report_add_stops(struct report *report, struct document_section *section) {
    const struct case_test *tests = report->file->tests.items;
    for (size_t i = 0; i < report->file->tests.count; i++)
        if (case_test_stops(&tests[i]))
            report_add_stop(report, section, &tests[i], NAME_COLUMNS_MOST);
}

static bool any_photo(const struct casefile *file) {
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        if (tests[i].photo)
            return true;
    return false;
}

void report_add_tests(struct report *report) {
    const struct case_test *tests = report->file->tests.items;
    struct document_section *section = document_section(report->document, "tests", "Swab tests");
    if (report->file->tests.count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN,
                           "No swab test is noted yet. Nothing below rests on a test on this object.");
    } else {
        struct document_table *table = document_table(section, "tests", "Swab tests, in the order of the case");
        test_columns(table);
        for (size_t i = 0; i < report->file->tests.count; i++)
            add_test(report, table, &tests[i]);
        if (!any_photo(report->file))
            document_paragraph(section, PARAGRAPH_SMALL, "No test names a photograph.");
        report_add_stops(report, section);
    }
    report_figure_teas(report, section);
}

// --- what they say ---

struct layer_count {
    const char *layer;
    size_t results[RESULT_REMOVED + 1];
    size_t stops;
};

enum { LAYERS_MAX = 64 };

static struct layer_count *count_of(struct layer_count *counts, size_t *count, const char *layer) {
    for (size_t i = 0; i < *count; i++)
        if (strcmp(counts[i].layer, layer) == 0)
            return &counts[i];
    if (*count == LAYERS_MAX)
        return NULL;
    counts[*count] = (struct layer_count){.layer = layer};
    return &counts[(*count)++];
}

static size_t count_results(const struct casefile *file, struct layer_count *counts) {
    const struct case_test *tests = file->tests.items;
    size_t count = 0;
    for (size_t i = 0; i < file->tests.count; i++) {
        struct layer_count *one =
            tests[i].withdrawn ? NULL : count_of(counts, &count, tests[i].layer ? tests[i].layer : "");
        if (!one)
            continue;
        one->results[tests[i].result]++;
        one->stops += case_test_stops(&tests[i]);
    }
    return count;
}

void report_add_counts(struct report *report, struct document_section *section) {
    struct layer_count *counts = arena_new(report->inv->arena, LAYERS_MAX, sizeof *counts);
    report->document->failed |= !counts;
    size_t count = counts ? count_results(report->file, counts) : 0;
    struct document_table *table = document_table(section, "counts", "Tests that stand, by layer and result");
    table_column(table, "layer", "Layer", NULL, false);
    table_column(table, "none", "None", NULL, true);
    table_column(table, "gloss_change", "Gloss change", NULL, true);
    table_column(table, "softened", "Softened", NULL, true);
    table_column(table, "partly_removed", "Partly removed", NULL, true);
    table_column(table, "removed", "Removed", NULL, true);
    table_column(table, "stops", "Colour, stop", NULL, true);
    for (size_t i = 0; i < count; i++) {
        table_words(table, counts[i].layer[0] ? report_layer_name(report, counts[i].layer) : say("not stated"));
        for (int result = 0; result <= RESULT_REMOVED; result++)
            table_decimals(table, (double)counts[i].results[result], 0);
        table_decimals(table, (double)counts[i].stops, 0);
    }
}
