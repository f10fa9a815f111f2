// SPDX-License-Identifier: GPL-3.0-or-later
// The report: what the tests say of the layers (`learn`), and the next tests (`ladder`).
#include "base/language.h"
#include "cli/ladder.h"
#include "cli/learn.h"
#include "cli/overdue.h"
#include "cli/people_bar.h"
#include "cli/report.h"

#include <math.h>

extern const struct command cmd_ladder, cmd_learn;

enum {
    BLENDS_SHOWN = 4, // of those tested, the last ones
    TESTS_QUICK = 60  // learning takes seconds up to here, and minutes for some hundreds
};

enum learn_extent { LEARN_NONE, LEARN_FEW, LEARN_ALL };

// May it be learnt from so many tests?
static enum status check_extent(const struct report *report, struct error *err) {
    static const char *const words[] = {"none", "few", "all", NULL};
    int extent = LEARN_FEW;
    enum status status = option_word(report->inv, "--learn", words, extent, &extent, err);
    if (status == STATUS_OK && extent == LEARN_NONE)
        return error_set(err, STATUS_NO_DATA, "it was not asked for (--learn none)");
    if (status == STATUS_OK && extent == LEARN_FEW && report->file->tests.count > TESTS_QUICK)
        return error_set(err, STATUS_NO_DATA,
                         "to learn from more than %d tests takes minutes; ask for it with --learn all, or by "
                         "`mildsolve learn` and `mildsolve ladder`",
                         TESTS_QUICK);
    return status;
}

bool report_learns(const struct report *report) {
    return check_extent(report, NULL) == STATUS_OK;
}

static enum status ask_learning(struct report *report, struct error *err) {
    struct report_answer *answer = &report->has_learning;
    enum status status = STATUS_OK;
    struct invocation *call = report_call(report, &cmd_learn, false, &status, &answer->why);
    report->learning = arena_new(report->inv->arena, 1, sizeof *report->learning);
    if (!call || !report->learning)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (report->file->tests.count == 0)
        status = error_set(&answer->why, STATUS_NO_DATA, "there is no test yet");
    if (status == STATUS_OK)
        status = check_extent(report, &answer->why);
    if (status == STATUS_OK)
        status = learning_make(call, report->learning, &answer->why);
    return report_end_call(call, answer, status, err);
}

static enum status ask_ladder(struct report *report, struct error *err) {
    struct report_answer *answer = &report->has_ladder;
    enum status status = STATUS_OK;
    char day[DATE_BYTES];
    struct invocation *call = report_call(report, &cmd_ladder, false, &status, &answer->why);
    report->ladder = arena_new(report->inv->arena, 1, sizeof *report->ladder);
    const char *as_of = arena_text(report->inv->arena, date_write(report->as_of, day));
    if (!call || !report->ladder || !as_of)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (as_of[0])
        option_fill(call, "--date", as_of);
    if (!report_has_goals(report, &answer->why))
        status = STATUS_NO_DATA;
    if (status == STATUS_OK)
        status = check_extent(report, &answer->why);
    if (status == STATUS_OK)
        status = ladder_answer_make(call, report->ladder, &answer->why);
    return report_end_call(call, answer, status, err);
}

enum status report_ask_learnt(struct report *report, struct error *err) {
    enum status status = ask_learning(report, err);
    return status == STATUS_OK ? ask_ladder(report, err) : status;
}

void report_release_learnt(struct report *report) {
    if (report->learning)
        learning_release(report->learning);
    if (report->ladder)
        ladder_answer_release(report->ladder);
}

// --- regions ---

static void add_ranges(struct report *report, struct document_table *table, enum belief_view view,
                       const struct belief_interval *parameters) {
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
        bool strength = i == BELIEF_STRENGTH;
        double least = strength ? learn_strength(view, parameters[i].least) : parameters[i].least;
        double most = strength ? learn_strength(view, parameters[i].most) : parameters[i].most;
        if (strength && view == BELIEF_FILM)
            table_words(table, document_say(report->document, "%+.2f\u00A0to\u00A0%+.2f", least, most));
        else
            table_words(table, document_say(report->document, "%.1f\u00A0to\u00A0%.1f", least, most));
    }
}

static void add_material(struct report *report, struct document_table *table, enum belief_view view, size_t material) {
    const struct belief_case *learnt = &report->learning->views[view].learnt;
    struct belief_interval before[BELIEF_PARAMETERS], after[BELIEF_PARAMETERS];
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
        belief_prior(learnt->plan, material, i, &before[i]);
        if (belief_posterior(learnt->belief, material, i, &after[i], NULL) != STATUS_OK) {
            report->document->failed = true;
            return;
        }
    }
    const char *id = belief_material(learnt->plan, material)->id;
    table_words(table, id);
    table_words(table, say("before the tests"));
    add_ranges(report, table, view, before);
    table_words(table, id);
    table_words(table, say("after them"));
    add_ranges(report, table, view, after);
}

static void add_view(struct report *report, struct document_section *section, enum belief_view view) {
    const struct learn_view *seen = &report->learning->views[view];
    if (!seen->known)
        return;
    struct document_table *table =
        view == BELIEF_FILM
            ? document_table(section, "learnt-film", "Where the materials lie, by film: nine tenths of the belief")
            : document_table(section, "learnt-red", "Where the materials lie, by RED: nine tenths of the belief");
    table_column(table, "material", "Material", NULL, false);
    table_column(table, "when", "When", NULL, false);
    table_column(table, "delta_d", "delta D", "MPa^0.5", false);
    table_column(table, "delta_p", "delta P", "MPa^0.5", false);
    table_column(table, "delta_h", "delta H", "MPa^0.5", false);
    if (view == BELIEF_FILM)
        table_column(table, "chi_shift", "Shift of chi", NULL, false);
    else
        table_column(table, "r0", "Radius", "MPa^0.5", false);
    for (size_t i = 0; i < belief_material_count(seen->learnt.plan); i++)
        add_material(report, table, view, i);
}

// --- forecasts ---

static void add_forecast(struct report *report, struct document_table *table, size_t passage, size_t blend) {
    const struct case_passage *passages = report->file->passages.items;
    double works[LEARN_VIEWS] = {NAN, NAN};
    double touches = NAN;
    for (int view = 0; view < LEARN_VIEWS; view++) {
        struct belief_forecast forecast;
        if (!learn_forecast(report->learning, (enum belief_view)view, blend, passage, &forecast))
            continue;
        works[view] = forecast.p_works;
        touches = fmax(touches, forecast.p_touches); // fmax passes over NAN
    }
    table_words(table, passages[passage].id);
    table_words(table, report->learning->blends[blend].notation);
    table_share(table, works[BELIEF_FILM]);
    table_share(table, works[BELIEF_RED]);
    table_share(table, touches);
}

static void add_forecasts(struct report *report, struct document_section *section) {
    size_t blends = report->learning->blend_count < BLENDS_SHOWN ? report->learning->blend_count : BLENDS_SHOWN;
    if (report->file->passages.count == 0 || blends == 0)
        return;
    struct document_table *table =
        document_table(section, "forecasts", "What the blends tried last would do at a new site");
    table_column(table, "passage", "Passage", NULL, false);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "p_works_film", "Works, film", NULL, true);
    table_column(table, "p_works_red", "Works, RED", NULL, true);
    table_column(table, "p_touches", "Touches paint", NULL, true);
    for (size_t i = 0; i < report->file->passages.count; i++)
        for (size_t k = 0; k < blends; k++)
            add_forecast(report, table, i, k);
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Works: probability that at least part comes off, in a swab test of the case's usual contact. "
                       "Touches paint: that original colour is on the swab where the paint lies bare, the larger of "
                       "both views.");
}

void report_add_learnt(struct report *report) {
    if (report->file->tests.count == 0)
        return;
    struct document_section *section = document_section(report->document, "learnt", "What the tests say");
    report_add_counts(report, section);
    if (!report->has_learning.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "Nothing more can be learnt from them: %s.",
                           report->has_learning.why.text);
        return;
    }
    for (size_t i = 0; i < report->learning->warning_count; i++) {
        struct text words = {0};
        learn_add_warning(report->learning, &report->learning->warnings[i], &words);
        document_paragraph(section, PARAGRAPH_CAUTION, "%s", document_take(report->document, &words));
    }
    add_view(report, section, BELIEF_FILM);
    add_view(report, section, BELIEF_RED);
    add_forecasts(report, section);
}

// --- the next tests ---

static const char *marked_notation(struct report *report, const struct blend *blend) {
    return document_print(report->document, "%s%s", report_notation(report, blend), overdue_mark(report->inv, blend));
}

static void add_row(struct report *report, struct document_table *table, size_t number) {
    const struct ladder_row *row = &report->ladder->rows[number - 1];
    const struct ladder_rung *rung = ladder_rung_of(report->ladder, row);
    table_decimals(table, (double)number, 0);
    table_words(table, report_notation(report, &row->plan.blend));
    table_share(table, rung->p_works);
    table_share(table, rung->p_touches);
    table_decimals(table, row->plan.fresh.weak_ml, 0);
    table_decimals(table, row->plan.fresh.strong_ml, 0);
    table_decimals(table, row->plan.wait.judge_min > 0 ? row->plan.wait.judge_min : (double)NAN, 0);
    struct text note = {0};
    add_overdue(report->inv, &row->plan.blend, &note);
    if (ladder_weaker_than_worked(report->ladder, row))
        text_say(&note, "weaker than test %s, by the model", report->ladder->worked->id);
    if (note.length)
        table_note(table, document_take(report->document, &note));
    text_release(&note);
}

// Each reason once, behind the strong bottles that it ends.
static void add_ends(struct report *report, struct document_section *section) {
    const struct ladder_answer *ladder = report->ladder;
    for (int end = LADDER_GOES_ON + 1; end <= LADDER_COLOUR; end++) {
        struct text names = {0};
        for (int k = 0; k < ladder->ladder->count; k++)
            if (ladder->steps[k].rung == LADDER_NONE && ladder->steps[k].end == (enum ladder_end)end)
                text_printf(&names, "%s%s", names.length ? ", " : "",
                            bottle_ref_id(&ladder->ladder->directions[ladder->steps[k].direction].strong));
        if (names.length)
            document_paragraph(section, PARAGRAPH_ITEM, "%s: %s.", document_take(report->document, &names),
                               say(ladder_end_words((enum ladder_end)end)));
        else
            text_release(&names);
    }
}

static void add_no_next(struct report *report, struct document_section *section) {
    document_paragraph(section, PARAGRAPH_STRONG, "%s", say(ladder_no_next(report->ladder)));
    if (!case_every_passage_stopped(report->file))
        add_ends(report, section);
}

static void add_barred(struct report *report, struct document_section *section) {
    const struct case_test *barred = report->ladder->barred;
    struct text bar = {0};
    if (!barred)
        return;
    add_people_bar(report->file, &barred->mix, &bar);
    document_paragraph(section, PARAGRAPH_CAUTION, "Test %s: %s, with %s. Not again %s; go on with something else.",
                       barred->id, say(result_words[barred->result]), barred->blend,
                       document_take(report->document, &bar));
}

static void add_batch(struct report *report, struct document_section *section, const struct ladder_row *row) {
    const struct ladder_direction *direction = ladder_direction_of(report->ladder, row);
    const struct jar_batch *fresh = &row->plan.fresh;
    const char *blend = marked_notation(report, &row->plan.blend);
    if (fresh->weak_ml == 0 || fresh->strong_ml == 0)
        document_paragraph(section, PARAGRAPH_STRONG, "%s: %d mL of %s.", blend, fresh->total_ml,
                           bottle_ref_id(fresh->weak_ml == 0 ? &direction->strong : &direction->weak));
    else
        document_paragraph(section, PARAGRAPH_STRONG, "%s: %d mL of %s and %d mL of %s.", blend, fresh->weak_ml,
                           bottle_ref_id(&direction->weak), fresh->strong_ml, bottle_ref_id(&direction->strong));
}

void report_add_next(struct report *report, struct document_section *section) {
    const struct ladder_answer *ladder = report->ladder;
    add_barred(report, section);
    if (ladder->row_count == 0) {
        add_no_next(report, section);
        return;
    }
    const char *result = ladder->worked ? say(result_words[ladder->worked->result]) : "";
    if (ladder->worked && ladder_weaker_than_worked(ladder, &ladder->rows[0]))
        document_paragraph(section, PARAGRAPH_PLAIN,
                           "Test %s: %s, with %s. First the same test at the other sites. The next direction begins "
                           "with less than that, which tells whether less is enough:",
                           ladder->worked->id, result, ladder->worked->blend);
    else if (ladder->worked)
        document_paragraph(section, PARAGRAPH_PLAIN,
                           "Test %s: %s, with %s. First the same test at the other sites, then only where it does too "
                           "little:",
                           ladder->worked->id, result, ladder->worked->blend);
    add_batch(report, section, &ladder->rows[0]);
}

void report_add_ladder(struct report *report) {
    struct document_section *section = document_section(report->document, "ladder", "The next tests");
    if (!report->has_ladder.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No next test can be given: %s.", report->has_ladder.why.text);
        return;
    }
    report_add_next(report, section);
    if (report->ladder->row_count == 0)
        return;
    const struct ladder_direction *direction = ladder_direction_of(report->ladder, &report->ladder->rows[0]);
    struct document_table *table =
        document_table(section, "ladder", "Mildest first, the smallest sensible step up each time");
    table_column(table, "rank", "No.", NULL, true);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "p_works", "Works", NULL, true);
    table_column(table, "p_touches", "Touches paint", NULL, true);
    table_column(table, "weak_ml", "Weak liquid", "mL", true);
    table_column(table, "strong_ml", "Strong liquid", "mL", true);
    table_column(table, "judge_min", "Wait", "min", true);
    for (size_t i = 1; i <= report->ladder->row_count; i++)
        add_row(report, table, i);
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Weak liquid: %s; strong liquid: %s. Works and touches: probabilities for one swab test of %g s "
                       "and %d rolls. After every test the figures and the next step change: note it, and ask again.",
                       bottle_ref_id(&direction->weak), bottle_ref_id(&direction->strong), report->ladder->contact_s,
                       report->ladder->rolls);
    document_paragraph(section, PARAGRAPH_ITEM,
                       "Stop at once in a passage when original colour is on the swab, or colour of unsure origin; "
                       "when the place stays white after drying; when the paint turns soft or matt.");
}
