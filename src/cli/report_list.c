// SPDX-License-Identifier: GPL-3.0-or-later
// The report: the list of the mildest blends that work, as `gentlest` gives it.
#include "base/language.h"
#include "cli/draw_gentlest.h"
#include "cli/overdue.h"
#include "cli/report_figure.h"
#include "physics/film_band.h"

#include <math.h>
#include <string.h>

extern const struct command cmd_gentlest;

enum status report_ask_list(struct report *report, struct error *err) {
    struct report_answer *answer = &report->has_ranking;
    enum status status = STATUS_OK;
    const char *doubt = option_value(report->inv, "--doubt");
    const char *show = option_value(report->inv, "--show");
    struct invocation *call = report_call(report, &cmd_gentlest, true, &status, &answer->why);
    report->ranking = arena_new(report->inv->arena, 1, sizeof *report->ranking);
    if (!call || !report->ranking)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (!report_has_goals(report, &answer->why))
        status = STATUS_NO_DATA;
    if (doubt)
        option_fill(call, "--doubt", doubt);
    if (show)
        option_fill(call, "--show", show);
    if (!report_learns(report))
        option_fill(call, "--tables-only", "yes");
    if (status == STATUS_OK)
        status = film_answer_make(call, report->ranking, &answer->why);
    return report_end_call(call, answer, status, err);
}

void report_release_list(struct report *report) {
    if (report->ranking)
        film_answer_release(report->ranking);
}

static const char *recipe_of(struct report *report, const struct composition *composition) {
    struct text words = {0};
    composition_recipe(&report->ranking->goal, composition, &words);
    return document_take(report->document, &words);
}

static const char *marked_recipe(struct report *report, const struct composition *composition,
                                 const struct blend *blend) {
    return document_print(report->document, "%s%s", recipe_of(report, composition), overdue_mark(report->inv, blend));
}

void report_add_first(struct report *report, struct document_section *section) {
    const struct ranking *ranking = &report->ranking->ranking;
    if (ranking->count == 0)
        return;
    const char *first = marked_recipe(report, &ranking->rows[0].row.best, &ranking->rows[0].blend);
    if (case_any_stop(report->file)) {
        document_paragraph(section, PARAGRAPH_ITEM,
                           "First of the list by the film model, not to be used before the STOP above is decided: %s.",
                           first);
        return;
    }
    if (report->ranking->first_test.asked) {
        struct text words = {0};
        add_first_test(report->inv, &report->ranking->first_test, &words);
        document_paragraph(section, PARAGRAPH_ITEM, "%s", document_take(report->document, &words));
        document_paragraph(section, PARAGRAPH_ITEM, "Row 1 of the list by the film model, no first test: %s.", first);
        return;
    }
    document_paragraph(section, PARAGRAPH_ITEM, "First of the list by the film model: %s.", first);
    if (ranking->rows[0].weakest.blend.count)
        document_paragraph(
            section, PARAGRAPH_ITEM, "Weakest of the same strong liquids that still works, to begin with: %s.",
            marked_recipe(report, &ranking->rows[0].weakest.composition, &ranking->rows[0].weakest.blend));
}

bool report_same_blend(const struct blend *a, const struct blend *b) {
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++) {
        bool found = false;
        for (size_t k = 0; k < b->count; k++)
            found |=
                a->components[i] == b->components[k] && fabs(a->volume_fractions[i] - b->volume_fractions[k]) < 1e-6;
        if (!found)
            return false;
    }
    return true;
}

void report_add_rank(struct report *report, struct document_section *section) {
    const struct ranking *ranking = &report->ranking->ranking;
    if (!report->has_ranking.there || ranking->count == 0)
        return;
    for (size_t i = 0; i < ranking->count; i++)
        if (report_same_blend(&ranking->rows[i].blend, &report->blend)) {
            document_paragraph(section, PARAGRAPH_PLAIN, "It stands in row %zu of the list below.", i + 1);
            return;
        }
    document_paragraph(section, PARAGRAPH_PLAIN,
                       "It is none of the rows of the list below, which holds the mildest blend of each kind.");
}

// --- what else would do ---

static const char *band_word(double swelling) {
    return isfinite(swelling) ? say(film_band_words(film_band(swelling))) : say("dissolves");
}

static void add_swelling(struct report *report, struct document_table *table, const struct ranked_row *row) {
    const char *least = band_word(row->doubted ? row->doubt.swelling_least : row->row.swelling);
    const char *most = band_word(row->doubted ? row->doubt.swelling_most : row->row.swelling);
    if (row->apart)
        table_words(table, say("not judged"));
    else if (strcmp(least, most) == 0)
        table_words(table, least);
    else
        table_words(table, document_say(report->document, "%s to %s", least, most));
}

static void add_row(struct report *report, struct document_table *table, size_t number) {
    const struct ranked_row *row = &report->ranking->ranking.rows[number - 1];
    struct text reason = {0};
    add_overdue(report->inv, &row->blend, &reason);
    add_film_reason(report->ranking, row, &reason);
    table_decimals(table, (double)number, 0);
    if (row->tie && !row->apart)
        table_words(table, document_print(report->document, "%c", (char)('a' + (row->tie - 1) % 26)));
    else
        table_words(table, "");
    table_words(table, recipe_of(report, &row->row.best)); // programs read it: the mark goes into the note
    table_share(table, row->doubted && !row->apart ? row->doubt.p_works : (double)NAN);
    add_swelling(report, table, row);
    table_words(table, say(retention_words(row->retention.word)));
    table_decimals(table, row->row.red_remove, 2);
    table_decimals(table, row->flash.display_c, 0);
    table_words(table, say(health_burden_words(row->health)));
    table_note(table, document_take(report->document, &reason));
}

static void add_doubtful(struct report *report, struct document_section *section) {
    const struct ranking *ranking = &report->ranking->ranking;
    for (size_t i = 0; i < ranking->doubtful_count; i++)
        document_paragraph(
            section, PARAGRAPH_ITEM,
            "Weak, but less likely to work: %s, with a probability of %.2f. A test may well find that it "
            "does.",
            recipe_of(report, &ranking->doubtful[i]), ranking->doubtful_p[i]);
}

void report_add_alternatives(struct report *report) {
    const struct ranking *ranking = &report->ranking->ranking;
    struct document_section *section =
        document_section(report->document, "alternatives", "What else would do: the mildest that work");
    if (!report->has_ranking.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No list can be given: %s.", report->has_ranking.why.text);
        return;
    }
    if (ranking->count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN,
                           "No blend of these bottles works by the film model with a probability of at least %g.",
                           report->ranking->least_probability);
        return;
    }
    struct document_table *table =
        document_table(section, "alternatives", "Blends of the bottles at hand, mildest for the paint first");
    table_column(table, "rank", "No.", NULL, true);
    table_column(table, "tie", "Tie", NULL, false);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "p_works", "Works", NULL, true);
    table_column(table, "swelling", "Paint swells", NULL, false);
    table_column(table, "residue", "Residue", NULL, false);
    table_column(table, "red_remove", "RED", NULL, true);
    table_column(table, "flash_point_c", "Flash", "\u00B0C", true);
    table_column(table, "health", "Health", NULL, false);
    for (size_t i = 1; i <= ranking->count; i++)
        add_row(report, table, i);
    if (report->file->tests.count && report_learns(report))
        document_paragraph(section, PARAGRAPH_SMALL, "By the regions that the tests of the case left possible.");
    else
        document_paragraph(section, PARAGRAPH_SMALL, "By the regions as the tables have them.");
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Rows with the same letter under Tie cannot be told apart. Works: probability that the varnish "
                       "dissolves, over all doubts of the model. Paint swells: four fifths of the samples. RED: the "
                       "classical view of the mean; above 1 it would call the blend too weak.");
    add_doubtful(report, section);
    report_figure_window(report, section);
}

void report_figure_window(struct report *report, struct document_section *section) {
    struct window_chart_input input;
    struct graph_layout layout;
    struct picture picture = {0};
    struct error err = {0};
    if (!report->ranking->ranking.samples)
        return;
    enum status status = window_chart_of(report->ranking, &input, &err);
    if (status == STATUS_OK && report->canvas) {
        struct text_metric metric = canvas_metric(report->canvas);
        report_set_page(report, &input.page, SHEET_HALF);
        status = report_graph(window_chart_layout(&input, &metric, &layout, &err), &layout, &picture, &err);
    }
    report_add_figure(
        report, section, "figure-window", status,
        document_say(report->document, "The window: effective upwards, mild to the left"),
        document_say(report->document,
                     "The rows of the list as numbered points: to the right how much the paint takes up, upwards "
                     "the probability that the blend works, each with its doubt. The table above has the "
                     "figures."),
        &picture, &err);
}
