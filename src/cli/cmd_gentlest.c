// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest: which blends of the bottles remove this and spare that, mildest first, and why.
#include "base/language.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/gentlest.h"
#include "cli/goal_learnt.h"
#include "cli/tests_so_far.h"
#include "cli/interrupt.h"
#include "cli/notes.h"
#include "cli/overdue.h"
#include "cli/page_options.h"
#include "physics/miscibility.h"
#include "selection/shortlist.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

struct answering {
    struct invocation *inv;
    struct goal goal;
    struct filter_report filters;
    struct search_result result;
    struct shortlist list;
    struct first_test first_test;
    int show;
    struct unifac_table groups;
};

static const double room_temp_k = 293.15; // the distances know no temperature; the bottle is judged at 20 degC

// --- words about one row ---

// "passes with ethanol 35 to 60 %": only where there is a span.
static void add_span(const struct goal *goal, const struct search_row *row, struct text *out) {
    if (row->passing < 2)
        return;
    text_say(out, " Of this set, shares pass at ");
    for (int i = 0; i < row->best.count; i++)
        text_say(out, "%s%s %g to %g %%", i ? ", " : "", bottle_ref_id(&goal->bottles[row->best.bottles[i]]),
                 percent_of_steps(goal, row->least_steps[i]), percent_of_steps(goal, row->most_steps[i]));
    text_add(out, ".");
}

static const struct material *nearest_spared(const struct goal *goal, struct hansen place) {
    const struct material *nearest = NULL;
    for (size_t i = 0; i < goal->spare_count; i++) {
        const struct sphere_values *sphere = &goal->spare[i]->sphere;
        if (!nearest || hansen_distance(place, hansen_of_sphere(sphere)) <
                            hansen_distance(place, hansen_of_sphere(&nearest->sphere)))
            nearest = goal->spare[i];
    }
    assert(nearest); // a goal that spares nothing is refused
    return nearest;
}

static void add_phase(const struct phase_judgement *phase, struct text *out) {
    if (phase->verdict == PHASE_ONE)
        return;
    text_say(out, " May separate: look before use");
    text_printf(out, phase->sentence[0] ? " (%s)." : ".", phase->sentence);
}

static void add_reason(const struct answering *answering, size_t i, struct text *out) {
    const struct shortlist_row *row = &answering->list.rows[i];
    const struct goal *goal = &answering->goal;
    const struct search_row *found = &row->row;
    const struct material *spared = nearest_spared(goal, row->place);
    double red_spare = hansen_red(row->place, &spared->sphere);
    text_say(out, "%s the %s sphere by %.2f of its radius beyond the margin asked for; ",
             found->score.red_remove <= 1 - goal->margin ? say("Inside") : say("Outside"), goal->remove[0]->id,
             fmax(1 - goal->margin - found->score.red_remove, 0));
    if (red_spare > 1)
        text_say(out, "outside the swelling sphere of %s (RED %.2f).", spared->id, red_spare);
    else
        text_say(out, "still inside the swelling sphere of %s (RED %.2f): expect some swelling.", spared->id,
                 red_spare);
    add_span(goal, found, out);
    if (row->split.count) {
        struct text recipe = {0};
        composition_recipe(goal, &row->split, &recipe);
        text_say(out,
                 " By distance alone %s would be the best of this set, but it is two liquids in the bottle; these "
                 "shares are its best that are not.",
                 text_bytes(&recipe));
        text_release(&recipe);
    }
    add_phase(&row->phase, out);
}

static void add_like(const struct answering *answering, const struct shortlist_row *row, struct text *out) {
    if (row->similar == 0)
        return;
    text_say(out, " Near-identical: ");
    for (size_t i = 0; i < row->like_count; i++) {
        text_add(out, i ? "; " : "");
        composition_recipe(&answering->goal, &row->like[i], out);
    }
    if (row->similar > row->like_count)
        text_say(out, "; and %zu more", row->similar - row->like_count);
    text_add(out, ".");
}

// --- text ---

static void add_names(const struct material *const *materials, size_t count, struct text *out) {
    for (size_t i = 0; i < count; i++)
        text_printf(out, "%s%s", i ? ", " : "", materials[i]->id);
}

static void write_question(const struct answering *answering, struct text *out) {
    const struct goal *goal = &answering->goal;
    struct text words = {0};
    char shelf[SHELF_WORDS];
    text_say(&words, "Remove ");
    add_names(goal->remove, goal->remove_count, &words);
    text_say(&words, ", spare ");
    add_names(goal->spare, goal->spare_count, &words);
    text_say(&words,
             "; %s in steps of %g %% by volume, RED at most %.2f; ranked by distance "
             "from what is to be spared.",
             shelf_words(goal, shelf), percent_of_steps(goal, 1), 1 - goal->margin);
    page_paragraph(out, 0, 2, text_bytes(&words));
    write_tests_so_far(answering->inv->casefile, out);
    write_first_test(answering->inv, &answering->first_test, out);
    text_add(out, "\n");
    text_release(&words);
}

static void write_rows(const struct answering *answering, struct text *out) {
    struct sheet sheet = {0};
    struct text overdue = {0};
    sheet_column(&sheet, "no.", true);
    sheet_column(&sheet, "RED varnish", true);
    sheet_column(&sheet, "Ra paint", true);
    sheet_column(&sheet, "RED paint", true);
    sheet_column(&sheet, "blend, parts by volume", false);
    for (size_t i = 0; i < answering->list.count; i++) {
        const struct shortlist_row *row = &answering->list.rows[i];
        struct text recipe = {0};
        composition_recipe(&answering->goal, &row->row.best, &recipe);
        sheet_cell(&sheet, "%zu", i + 1);
        sheet_cell(&sheet, "%.2f", row->row.score.red_remove);
        sheet_cell(&sheet, "%.1f", row->row.score.ra_spare);
        sheet_cell(&sheet, "%.2f", hansen_red(row->place, &nearest_spared(&answering->goal, row->place)->sphere));
        sheet_cell(&sheet, "%s%s", text_bytes(&recipe), overdue_mark(answering->inv, &row->blend));
        overdue_add_names(answering->inv, &row->blend, &overdue);
        text_release(&recipe);
    }
    sheet_write(&sheet, out);
    write_overdue(&overdue, out);
    text_release(&overdue);
}

static void write_reasons(const struct answering *answering, struct text *out) {
    page_heading(out, "why each stands there");
    for (size_t i = 0; i < answering->list.count; i++) {
        struct text words = {0};
        text_printf(&words, "%zu  ", i + 1);
        add_reason(answering, i, &words);
        add_like(answering, &answering->list.rows[i], &words);
        page_paragraph(out, 2, 5, text_bytes(&words));
        text_release(&words);
    }
}

static void write_proof(const struct answering *answering, struct text *out) {
    const struct search_result *result = &answering->result;
    if (result->proved)
        page_paragraph(out, 2, 4, "proved: no blend on this grid is better than those listed.");
    else
        page_paragraph_f(out, 2, 4,
                         "INTERRUPTED, not proved: blends of up to %d bottles were searched to the end, larger ones "
                         "in part; better ones may be missing.",
                         result->sizes_proved);
    if (answering->list.cut && result->proved)
        page_paragraph_f(out, 2, 4,
                         "the list is cut: the best %zu sets of bottles make no more than %zu kinds of blends; further "
                         "kinds come after them (--every-set lists the sets one by one).",
                         result->row_count, answering->list.count);
}

// Sets that are two liquids at whatever shares: they cannot be proposed, and are named instead.
static void write_splits(const struct answering *answering, struct text *out) {
    const struct shortlist *list = &answering->list;
    if (list->split_sets == 0)
        return;
    struct text recipes = {0};
    for (size_t i = 0; i < list->split_sets && i < SHORTLIST_SPLITS; i++) {
        text_add(&recipes, i ? "; " : "");
        composition_recipe(&answering->goal, &list->splits[i], &recipes);
    }
    page_paragraph_f(out, 2, 4,
                     "two liquids in the bottle at all shares whose mean passes: %zu of the sets of bottles looked at, "
                     "the best of them %s",
                     list->split_sets, text_bytes(&recipes));
    text_release(&recipes);
    if (list->split_sets_given_up)
        page_paragraph_f(out, 4, 6, "of %zu of these sets only the best %d shares were tried",
                         list->split_sets_given_up, SEARCH_OFFERED_MOST);
}

static void write_filters(const struct answering *answering, struct text *out) {
    const struct search_result *result = &answering->result;
    page_heading(out, "what was left out");
    write_filter_counts(&answering->filters, out);
    if (!isnan(result->too_weak))
        page_paragraph_f(
            out, 2, 4,
            "blends too weak for the varnish (RED above %.2f): %.0f of %.0f; sets of bottles with one that "
            "passes: %.0f",
            1 - answering->goal.margin, result->too_weak, result->blends, result->sets);
    write_splits(answering, out);
    page_paragraph_f(
        out, 2, 4,
        "blends on this grid: %.0f; scored one by one: %.0f; excluded by a bound, as too weak or nearer to "
        "the paint than the last set of bottles kept (of %zu): %.0f.",
        result->blends, result->evaluated, result->row_count, result->excluded);
    write_proof(answering, out);
}

static void write_doubts(const struct answering *answering, struct text *out) {
    page_heading(out, "doubt");
    for (size_t i = 0; i < answering->goal.remove_count; i++)
        page_paragraph_f(out, 2, 4, "the sphere of %s is %s%s%s", answering->goal.remove[i]->id,
                         doubt_words(&answering->goal.remove[i]->sphere.from),
                         answering->goal.remove[i]->sphere.from.note ? ": " : "",
                         answering->goal.remove[i]->sphere.from.note ? answering->goal.remove[i]->sphere.from.note
                                                                     : "");
    for (size_t i = 0; i < answering->goal.spare_count; i++)
        page_paragraph_f(out, 2, 4, "the sphere of %s is %s%s%s", answering->goal.spare[i]->id,
                         doubt_words(&answering->goal.spare[i]->sphere.from),
                         answering->goal.spare[i]->sphere.from.note ? ": " : "",
                         answering->goal.spare[i]->sphere.from.note ? answering->goal.spare[i]->sphere.from.note : "");
    page_paragraph(
        out, 2, 4,
        "distance in solubility space is a rank, not a measurement: differences of less than 2 MPa^0.5 between rows "
        "are ties.");
}

static void write_nothing(const struct answering *answering, struct text *out) {
    const struct goal *goal = &answering->goal;
    if (goal->bottle_count == 0) {
        page_paragraph(out, 0, 2, "Nothing can be proposed: no bottle is left on the shelf.");
    } else if (answering->list.split_sets) {
        page_paragraph(out, 0, 2, "Every blend found is two liquids in the bottle; drier bottles would help.");
    } else if (isnan(answering->result.nearest_red)) {
        page_paragraph(out, 0, 2, "Interrupted before any blend was found that reaches the region.");
    } else {
        struct text recipe = {0};
        composition_recipe(goal, &answering->result.nearest, &recipe);
        page_paragraph_f(out, 0, 2,
                         "No blend of these bottles reaches the region with the margin asked for. The nearest is %s "
                         "with RED %.2f; RED at most %.2f was asked for.",
                         text_bytes(&recipe), answering->result.nearest_red, 1 - goal->margin);
        text_release(&recipe);
        if (answering->result.nearest_red <= 1) {
            char margin[FIGURE_BYTES]; // to be typed, so with a point in every language
            snprintf(margin, sizeof margin, "%.2f", floor((1 - answering->result.nearest_red) * 100) / 100);
            page_paragraph_f(out, 0, 2, "Relax first: --margin %s.", margin);
        }
    }
    const struct filter_count *worst = filter_that_took_most(&answering->filters);
    if (worst)
        page_paragraph_f(out, 0, 2, "The filter that took most: %s (%s).", worst->filter, worst->names);
}

static void write_text(const struct answering *answering, struct text *out) {
    write_question(answering, out);
    if (answering->list.count == 0) {
        write_nothing(answering, out);
        write_filters(answering, out);
        return;
    }
    write_rows(answering, out);
    write_reasons(answering, out);
    write_filters(answering, out);
    write_doubts(answering, out);
    struct noted noted = {0};
    for (size_t i = 0; i < answering->list.count; i++)
        noted_add(&noted, &answering->list.rows[i].blend);
    write_notes(answering->inv, &noted, out);
    write_caution(out);
}

// --- JSON ---

static void json_row(const struct answering *answering, size_t i, struct json *json) {
    const struct shortlist_row *row = &answering->list.rows[i];
    const struct goal *goal = &answering->goal;
    const struct material *spared = nearest_spared(goal, row->place);
    struct text reason = {0};
    add_reason(answering, i, &reason);
    json_object(json, NULL);
    json_integer(json, "rank", (long long)i + 1);
    json_composition(goal, &row->row.best, json, "recipe");
    json_overdue(answering->inv, &row->blend, json);
    json_number(json, "red_remove", row->row.score.red_remove);
    json_number(json, "ra_spare_mpa05", row->row.score.ra_spare);
    json_number(json, "red_spare", hansen_red(row->place, &spared->sphere));
    json_text(json, "spared_nearest", spared->id);
    json_text(json, "reason", text_bytes(&reason));
    json_text(json, "phase", phase_verdict_word(row->phase.verdict));
    if (row->split.count)
        json_composition(goal, &row->split, json, "two_liquids_at");
    else
        json_null(json, "two_liquids_at");
    json_integer(json, "passing_compositions", (long long)row->row.passing);
    json_list(json, "shares_that_pass");
    for (int k = 0; k < row->row.best.count; k++) {
        json_object(json, NULL);
        json_text(json, "bottle", bottle_ref_id(&goal->bottles[row->row.best.bottles[k]]));
        json_number(json, "least_percent", percent_of_steps(goal, row->row.least_steps[k]));
        json_number(json, "most_percent", percent_of_steps(goal, row->row.most_steps[k]));
        json_close_object(json);
    }
    json_close_list(json);
    json_integer(json, "near_identical_sets", (long long)row->similar);
    json_list(json, "near_identical");
    for (size_t k = 0; k < row->like_count; k++)
        json_composition(goal, &row->like[k], json, NULL);
    json_close_list(json);
    json_close_object(json);
    text_release(&reason);
}

static void json_filters(const struct answering *answering, struct json *json) {
    json_list(json, "removed_by_filter");
    json_filter_counts(&answering->filters, json);
    json_object(json, NULL);
    json_text(json, "filter", "too weak");
    json_number(json, "blends", answering->result.too_weak);
    json_close_object(json);
    json_object(json, NULL);
    json_text(json, "filter", "two liquids in the bottle");
    json_integer(json, "sets", (long long)answering->list.split_sets);
    json_list(json, "best_of_them");
    for (size_t i = 0; i < answering->list.split_sets && i < SHORTLIST_SPLITS; i++)
        json_composition(&answering->goal, &answering->list.splits[i], json, NULL);
    json_close_list(json);
    json_close_object(json);
    json_close_list(json);
}

static void write_json(const struct answering *answering, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_first_test(answering->inv, &answering->first_test, &json);
    json_list(&json, "blends");
    struct noted noted = {0};
    for (size_t i = 0; i < answering->list.count; i++) {
        json_row(answering, i, &json);
        noted_add(&noted, &answering->list.rows[i].blend);
    }
    json_close_list(&json);
    json_learnt(&answering->goal, &json);
    json_flag(&json, "proved", answering->result.proved);
    json_flag(&json, "list_cut", answering->list.cut);
    json_integer(&json, "components_proved", answering->result.sizes_proved);
    json_number(&json, "blends_on_grid", answering->result.blends);
    json_number(&json, "evaluated", answering->result.evaluated);
    json_number(&json, "excluded_by_bound", answering->result.excluded);
    json_integer(&json, "sets_compared", (long long)answering->result.row_count);
    json_number(&json, "passing_sets", answering->result.sets);
    json_number(&json, "nearest_red", answering->result.nearest_red);
    json_filters(answering, &json);
    json_notes(&noted, &json, "components");
    json_end(&json);
}

// --- the command ---

// Fills the list; STATUS_INTERRUPTED after Ctrl-C, with what was found until then.
static enum status search(struct answering *answering, int threads, struct error *err) {
    struct invocation *inv = answering->inv;
    struct shortlist_request request = {
        .goal = &answering->goal,
        .lib = &inv->library,
        .table = &answering->groups,
        .temp_k = room_temp_k,
        .show = (size_t)answering->show,
        .fold = !option_given(inv, "--every-set"),
        .threads = threads,
        .watch = {.progress = interrupt_progress, .cancel = interrupt_cancel()},
    };
    interrupt_watch();
    enum status status = shortlist_search(&request, &answering->result, &answering->list, err);
    interrupt_done();
    if (status == STATUS_OK)
        status = search_count_passing(&answering->goal, &inv->library, &answering->result, err);
    return status;
}

static enum status find(struct answering *answering, struct error *err) {
    struct invocation *inv = answering->inv;
    int threads;
    enum status status = goal_from_options(inv, &answering->goal, &answering->filters, err);
    if (status == STATUS_OK)
        status = goal_needs_spheres(&answering->goal, err);
    if (status == STATUS_OK)
        status = goal_learn(inv, &answering->goal, &answering->groups, room_temp_k, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--show", 1, SHORTLIST_MAX, 8, &answering->show, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--threads", 1, CREW_MAX, crew_processors(), &threads, err);
    if (status == STATUS_OK)
        status = search(answering, threads, err);
    if ((status == STATUS_OK || status == STATUS_INTERRUPTED) && answering->list.count &&
        first_test_find(inv, &answering->goal, &answering->groups, room_temp_k, &answering->list.rows[0].blend, NULL,
                        &answering->first_test, err) == STATUS_MEMORY)
        return STATUS_MEMORY;
    return status;
}

static enum status explain(const struct answering *answering, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(answering->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < answering->list.count; i++)
        explain_blend(explaining, &answering->list.rows[i].blend);
    explain_goal(explaining, &answering->goal);
    write_json(answering, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status write_answer(struct answering *answering, struct error *err) {
    if (answering->inv->json)
        write_json(answering, answering->inv->out);
    else
        write_text(answering, answering->inv->out);
    enum status status = explain(answering, err);
    if (status != STATUS_OK)
        return status;
    return answering->list.count ? STATUS_OK : STATUS_NEGATIVE;
}

static enum status by_distance(struct invocation *inv, struct error *err) {
    struct answering *answering = arena_new(inv->arena, 1, sizeof *answering);
    if (!answering)
        return error_set(err, STATUS_MEMORY, "out of memory");
    answering->inv = inv;
    enum status status = unifac_table_make(&inv->library, &answering->groups, err);
    if (status == STATUS_OK)
        status = find(answering, err);
    if (status == STATUS_OK)
        status = write_answer(answering, err);
    else if (status == STATUS_INTERRUPTED)
        write_answer(answering, err);
    search_result_release(&answering->result);
    unifac_table_release(&answering->groups);
    return status;
}

// What only the film model answers is not passed over in silence.
static void name_idle_options(struct invocation *inv) {
    static const char *const idle[] = {"--doubt",        "--probability", "--prefer", "--temperature", "--flash-least",
                                       "--residue-most", "--explain",     "--seed",   "--pigment",     "--film-age"};
    for (size_t i = 0; i < sizeof idle / sizeof idle[0]; i++)
        if (option_given(inv, idle[i]) && strcmp(option_value(inv, idle[i]), OPTION_SWITCHED_ON) != 0)
            text_say(inv->talk, "note: %s does nothing with --by red; it belongs to --by film\n", idle[i]);
}

static enum status run(struct invocation *inv, struct error *err) {
    static const char *const views[] = {"film", "red", NULL};
    int view = 0;
    enum status status = option_word(inv, "--by", views, 0, &view, err);
    if (status != STATUS_OK)
        return status;
    if (view == 1 && option_given(inv, "--chart"))
        return error_set(err, STATUS_USAGE,
                         "--chart draws the window of --by film; --by red has none. The place of a "
                         "blend is drawn by 'mildsolve chart'");
    status = case_option_warn_peroxides(inv, NULL, err);
    if (status != STATUS_OK)
        return status;
    if (view == 1)
        name_idle_options(inv);
    return view == 0 ? gentlest_by_film(inv, err) : by_distance(inv, err);
}

static const struct option options[] = {
    GOAL_OPTIONS,
    {.name = "--by",
     .argument = "VIEW",
     .help = "film: swelling and dissolving by the activities (default); red: distance of the mean"},
    {.name = "--doubt", .argument = "EFFORT", .help = "by film: none, quick (64 samples, default) or full (256)"},
    {.name = "--probability", .argument = "P", .help = "by film: that a blend works, at least (default 0.8)"},
    {.name = "--prefer", .argument = "WHAT", .help = "by film: paint (default), residue, health, fire or weak first"},
    {.name = "--temperature", .argument = "DEGC", .help = "by film: 5 to 35 (default 20)"},
    SENSITIVE_OPTION,
    {.name = "--pigment",
     .argument = "SHARE",
     .help = "by film: pigment in the paint to spare, 0 to 0.9 of its dry volume (default: the table's, else 0)"},
    {.name = "--film-age",
     .argument = "YEARS",
     .help = "by film: age of the paint to spare, for the words of the answer"},
    {.name = "--flash-least", .argument = "DEGC", .help = "by film: only blends with at least this flash point"},
    {.name = "--residue-most",
     .argument = "WORD",
     .help = "by film: short, medium or long; the last of it leaves no later"},
    {.name = "--explain",
     .argument = "[N]",
     .help = "also how every figure came about; by film with N: every step of row N in figures"},
    {.name = "--seed", .argument = "N", .help = "by film: of the samples; the same seed, the same answer (default 1)"},
    CHART_OPTION("by film: the window, effect against swelling with doubt, as PNG, SVG or PDF"),
    PAGE_OPTIONS_DATED,
    {.name = "--show", .argument = "N", .help = "rows of the list (default 8)"},
    {.name = "--threads", .argument = "N", .help = "threads of the search (default: one for each processor)"},
    {.name = "--every-set", .help = "one row for every set of bottles, near-identical ones too"},
    CASE_OPTION,
    TABLES_ONLY_OPTION,
};

const struct command cmd_gentlest = {
    .name = "gentlest",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "Which blends of my bottles remove this and spare that, mildest first, and why",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_ALL & ~(unsigned)TABLE_LIMITS,
    .example = "mildsolve gentlest --remove dammar-aged --spare linseed-oil-film-young",
    .dated = true,
    .run = run,
};
