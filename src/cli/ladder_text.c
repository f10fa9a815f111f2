// SPDX-License-Identifier: GPL-3.0-or-later
// ladder, for people.
#include "base/language.h"
#include "casefile/casefile.h"
#include "cli/gentlest.h"
#include "cli/ladder.h"
#include "cli/notes.h"
#include "cli/overdue.h"
#include "cli/tests_so_far.h"
#include "physics/film_band.h"

#include <math.h>

// --- question and state ---

static void write_question(const struct ladder_answer *answer, struct text *out) {
    const struct goal *goal = &answer->goal;
    struct text remove = {0};
    struct text spare = {0};
    add_material_names(goal->remove, goal->remove_count, &remove);
    add_material_names(goal->spare, goal->spare_count, &spare);
    page_paragraph_f(out, 0, 2,
                     "Remove %s, spare %s; next swab tests from %zu bottles, %g s contact and %d rolls, by %s; %zu "
                     "tests learnt from.",
                     text_bytes(&remove), text_bytes(&spare), goal->bottle_count, answer->contact_s, answer->rolls,
                     answer->by == BELIEF_FILM ? say("the film model") : say("distance of the mean"),
                     answer->learnt.count);
    text_release(&remove);
    text_release(&spare);
}

static void write_state(const struct ladder_answer *answer, struct text *out) {
    write_stops(answer->inv->casefile, out);
    write_worked_barred(answer->inv->casefile, out);
    if (answer->worked && answer->site_count == 0)
        page_paragraph_f(out, 0, 2, "Test %s: %s, with %s.", answer->worked->id,
                         say(result_words[answer->worked->result]), answer->worked->blend);
    else if (answer->worked)
        page_paragraph_f(out, 0, 2,
                         "Test %s: %s, with %s. Before anything stronger, make the same test at the sites below; go "
                         "up only where it does too little.",
                         answer->worked->id, say(result_words[answer->worked->result]), answer->worked->blend);
}

// --- rows ---

static void sheet_probability(struct sheet *sheet, double p) {
    if (isnan(p))
        sheet_cell(sheet, "?");
    else
        sheet_cell(sheet, "%.2f", p);
}

static bool any_weaker(const struct ladder_answer *answer, const struct ladder_row *rows, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (ladder_weaker_than_worked(answer, &rows[i]))
            return true;
    return false;
}

static void sheet_strength(const struct ladder_answer *answer, const struct ladder_row *row, struct sheet *sheet) {
    if (isnan(ladder_rung_of(answer, row)->margin))
        sheet_cell(sheet, "?");
    else
        sheet_cell(sheet, "%s", ladder_weaker_than_worked(answer, row) ? say("weaker") : say("stronger"));
}

static void sheet_row(const struct ladder_answer *answer, const struct ladder_row *row, size_t number, bool strength,
                      struct sheet *sheet) {
    const struct ladder_rung *rung = ladder_rung_of(answer, row);
    double percent = row->plan.rung * (double)LADDER_STEP_PERCENT;
    double step = ladder_scale_step(answer, row);
    struct text blend = {0};
    blend_write(&row->plan.blend, &blend);
    sheet_cell(sheet, "%zu", number);
    sheet_probability(sheet, rung->p_works);
    sheet_probability(sheet, rung->p_touches);
    if (row->from_percent < 0)
        sheet_cell(sheet, "start");
    else
        sheet_cell(sheet, "%+.4g", percent - row->from_percent);
    if (isnan(step))
        sheet_cell(sheet, "-");
    else
        sheet_cell(sheet, "%+.2f", step);
    if (strength)
        sheet_strength(answer, row, sheet);
    sheet_cell(sheet, "%s%s", text_bytes(&blend), overdue_mark(answer->inv, &row->plan.blend));
    text_release(&blend);
}

static void write_rows(const struct ladder_answer *answer, const struct ladder_row *rows, size_t count, size_t first,
                       struct text *out) {
    struct sheet sheet = {.indent = 2};
    bool strength = any_weaker(answer, rows, count);
    sheet_column(&sheet, "no.", true);
    sheet_column(&sheet, "works", true);
    sheet_column(&sheet, "touches", true);
    sheet_column(&sheet, "vol%", true);
    sheet_column(&sheet, "step", true);
    if (strength)
        sheet_column(&sheet, "strength", false);
    sheet_column(&sheet, "blend, parts by volume", false);
    for (size_t i = 0; i < count; i++)
        sheet_row(answer, &rows[i], first + i, strength, &sheet);
    sheet_write(&sheet, out);
}

static void write_strength(const struct ladder_answer *answer, struct text *out) {
    page_paragraph_f(out, 2, 2,
                     "'strength': by the model, against the blend of test %s, which worked. A weaker one is no answer "
                     "where that did too little: it tells whether less is enough, and in a direction that was not "
                     "tested so far the way up begins at its foot.",
                     answer->worked->id);
}

// Rows that do less than what has worked are told as such: they answer another question.
static void write_weaker(const struct ladder_answer *answer, struct text *out) {
    const char *end = ladder_worked_ends(answer);
    if (!any_weaker(answer, answer->rows, answer->row_count))
        return;
    if (end)
        page_paragraph_f(out, 2, 2, "The direction of test %s does not go on: %s.", answer->worked->id, say(end));
    write_strength(answer, out);
}

static void write_climb(const struct ladder_answer *answer, struct text *out) {
    const struct ladder_direction *direction = ladder_direction_of(answer, &answer->rows[0]);
    if (answer->even)
        page_heading(out, "the even series");
    else if (answer->stopped && answer->worked)
        page_heading(out, "next, only in passages without original colour, where that does too little");
    else if (answer->stopped)
        page_heading(out, "next, only in passages without original colour, while nothing comes off");
    else if (answer->worked && ladder_weaker_than_worked(answer, &answer->rows[0]))
        page_heading(out, "next, in a direction that begins with less than what worked");
    else if (answer->worked)
        page_heading(out, "next, where that does too little");
    else if (answer->barred)
        page_heading(out, "next, without what the people who work there must not use");
    else
        page_heading(out, "next, and how to go on while nothing comes off");
    write_rows(answer, answer->rows, answer->row_count, 1, out);
    if (answer->further && answer->rows[0].direction == answer->again)
        page_paragraph_f(out, 2, 2,
                         "Test %s: %s, with %s, but not every passage was tested with that much: there the climb goes "
                         "on from test %s.",
                         answer->further->id, say(result_words[answer->further->result]), answer->further->blend,
                         answer->worked->id);
    page_paragraph_f(out, 2, 2, "Direction: %s (%s in %s).", say(ladder_way_words(direction->way)),
                     bottle_ref_id(&direction->strong), bottle_ref_id(&direction->weak));
    page_paragraph(out, 2, 2,
                   "'works': probability that at least part of the layer comes off; 'touches': that colour of bare "
                   "paint would come with it. 'vol%': step by volume of the strong liquid.");
    if (answer->other_plan)
        page_paragraph(out, 2, 2, "'touches' is the larger one of the film model and distance of the mean.");
    page_paragraph_f(out, 2, 2, "'step' on the scale of %s.", say(ladder_scale_words(answer->by)));
    write_weaker(answer, out);
    if (answer->even)
        page_paragraph(out, 2, 2,
                       "The even series takes no notice of what was found: it may step over the mildest blend that "
                       "works.");
    else
        page_paragraph(out, 2, 2,
                       "After every test: mildsolve record, then ask again; the figures and the next step change with "
                       "each result.");
}

// --- one test ---

static void write_overdue_first(const struct ladder_answer *answer, const struct ladder_row *row, struct text *out) {
    struct text names = {0};
    overdue_add_names(answer->inv, &row->plan.blend, &names);
    if (names.length)
        page_paragraph_f(out, 5, 5, "Not before %s was tested for peroxides; else take it to waste.",
                         text_bytes(&names));
    out->failed |= names.failed;
    text_release(&names);
}

static void write_batch(const struct ladder_answer *answer, const struct ladder_row *row, size_t number,
                        struct text *out) {
    const struct ladder_direction *direction = ladder_direction_of(answer, row);
    const struct ladder_plan *plan = &row->plan;
    const char *weak = bottle_ref_id(&direction->weak);
    const char *strong = bottle_ref_id(&direction->strong);
    if (plan->fresh.strong_ml == 0)
        page_paragraph_f(out, 2, 5, "%zu  %d mL of %s.", number, plan->fresh.total_ml, weak);
    else if (plan->fresh.weak_ml == 0)
        page_paragraph_f(out, 2, 5, "%zu  %d mL of %s.", number, plan->fresh.total_ml, strong);
    else
        page_paragraph_f(out, 2, 5, "%zu  Fresh: %d mL of %s + %d mL of %s (%d mL).", number, plan->fresh.weak_ml, weak,
                         plan->fresh.strong_ml, strong, plan->fresh.total_ml);
    if (plan->has_jar && plan->jar.weak_ml == 0)
        page_paragraph_f(out, 5, 5, "From the jar before: %d mL of it + %d mL of %s (%d mL).", plan->jar.from_jar_ml,
                         plan->jar.strong_ml, strong, plan->jar.total_ml);
    else if (plan->has_jar)
        page_paragraph_f(out, 5, 5, "From the jar before: %d mL of it + %d mL of %s + %d mL of %s (%d mL).",
                         plan->jar.from_jar_ml, plan->jar.weak_ml, weak, plan->jar.strong_ml, strong,
                         plan->jar.total_ml);
}

static void write_paint(const struct ladder_answer *answer, const struct ladder_row *row, struct text *out) {
    const struct ladder_rung *rung = ladder_rung_of(answer, row);
    if (isnan(rung->paint))
        return;
    if (answer->by == BELIEF_FILM)
        page_paragraph_f(out, 5, 5, "Paint: takes up about as much (%s) %s.",
                         say(film_band_words(film_band(exp(rung->paint)))),
                         say(film_band_anchor(film_band(exp(rung->paint)))));
    else
        page_paragraph_f(out, 5, 5, "Paint: RED about %.2f.", exp(-rung->paint));
}

static void write_wait(const struct ladder_plan *plan, struct text *out) {
    const struct ladder_wait *wait = &plan->wait;
    if (isnan(wait->dry_min))
        page_paragraph(out, 5, 5, "Wait: how fast it dries is not known; judge it dry on the next day.");
    else
        page_paragraph_f(out, 5, 5, "Wait %d min before judging it dry (surface dry after about %.1f min); residue %s.",
                         wait->judge_min, wait->dry_min, say(retention_words(wait->residue)));
    if (wait->next_day)
        page_paragraph(out, 5, 5, "The last of it stays long: no second test on the same spot before the next day.");
}

static void write_clearing(const struct ladder_answer *answer, const struct ladder_row *row, struct text *out) {
    const char *weak = bottle_ref_id(&ladder_direction_of(answer, row)->weak);
    if (row->plan.clearing == CLEAR_WITH_BASE)
        page_paragraph_f(out, 5, 5, "Clear with %s, one roll.", weak);
    else if (row->plan.clearing == CLEAR_CAREFULLY)
        page_paragraph_f(out, 5, 5, "Clear with %s, one roll; it may not mix with the blend: look.", weak);
    else
        page_paragraph(out, 5, 5, "Clear with a dry swab and wait.");
    if (row->plan.phase == PHASE_MAY_SEPARATE)
        page_paragraph(out, 5, 5, "May separate in the jar: look before use.");
}

static void write_tests(const struct ladder_answer *answer, struct text *out) {
    page_heading(out, "each test");
    for (size_t i = 0; i < answer->row_count; i++) {
        write_batch(answer, &answer->rows[i], i + 1, out);
        write_overdue_first(answer, &answer->rows[i], out);
        write_paint(answer, &answer->rows[i], out);
        write_wait(&answer->rows[i].plan, out);
        write_clearing(answer, &answer->rows[i], out);
    }
}

// --- sites ---

static void write_site(const struct ladder_answer *answer, size_t i, struct text *out) {
    const struct case_passage *passages = answer->inv->casefile->passages.items;
    const struct ladder_site *site = &answer->sites[i];
    const struct case_passage *passage = &passages[site->passage];
    struct text where = {0};
    struct text blend = {0};
    text_say(&where, site->kind != SITE_SENSITIVE && passage->sensitive.count ? "%s (%s, sensitive)" : "%s (%s)",
             passage->id, say(site_kind_words(site->kind)));
    if (!isnan(site->x_mm))
        text_say(&where, " at %.0f,%.0f mm", site->x_mm, site->y_mm);
    blend_write(&answer->site_blends[i], &blend);
    text_add(&blend, overdue_mark(answer->inv, &answer->site_blends[i]));
    if (site->stopped)
        page_paragraph_f(out, 2, 4, "%s: stopped, original colour was found there.", text_bytes(&where));
    else if (site->ready)
        page_paragraph_f(out, 2, 4, "%s: done, tested up to %g %% by volume.", text_bytes(&where), site->done_percent);
    else if (isnan(site->next_percent))
        page_paragraph_f(out, 2, 4, "%s: not tested yet; even the weak liquid found original colour elsewhere.",
                         text_bytes(&where));
    else if (site->done_percent < 0)
        page_paragraph_f(out, 2, 4, "%s: not tested yet; take %s there, works %.2f.", text_bytes(&where),
                         text_bytes(&blend), answer->site_works[i]);
    else
        page_paragraph_f(out, 2, 4, "%s: tested up to %g %%; take %s there, works %.2f.", text_bytes(&where),
                         site->done_percent, text_bytes(&blend), answer->site_works[i]);
    for (size_t k = 0; k < passage->sensitive.count; k++) {
        const struct sensitivity *sensitivity;
        if (library_sensitivity(&answer->inv->library, passage->sensitive.items[k], &sensitivity, NULL) == STATUS_OK)
            page_paragraph_f(out, 4, 4, "%s: %s", say(sensitivity->name), say(sensitivity->warning));
    }
    text_release(&where);
    text_release(&blend);
}

static bool has_kind(const struct ladder_answer *answer, enum site_kind kind) {
    for (size_t i = 0; i < answer->site_count; i++)
        if (answer->sites[i].kind == kind)
            return true;
    return false;
}

static void write_sites(const struct ladder_answer *answer, struct text *out) {
    page_heading(out, "where");
    if (answer->sites_of_worked)
        page_paragraph_f(out, 2, 2, "For the blend of test %s, before the next step:", answer->worked->id);
    for (size_t i = 0; i < answer->site_count; i++)
        write_site(answer, i, out);
    if (!has_kind(answer, SITE_LIGHT))
        page_paragraph(out, 2, 4, "One light site at least: no passage is noted as light.");
    if (!has_kind(answer, SITE_DARK))
        page_paragraph(out, 2, 4, "One dark site at least: no passage is noted as dark.");
    page_paragraph(
        out, 2, 2,
        "Every sensitive passage has a climb of its own, from the weak liquid up, and comes before any large "
        "area.");
}

// --- stop rules ---

static void write_stop_rules(const struct ladder_answer *answer, struct text *out) {
    page_heading(out, "stop");
    page_paragraph(out, 2, 4,
                   "at once in the passage, when original colour is on the swab, or colour of unsure origin;");
    page_paragraph(out, 2, 4,
                   "in the passage, when the place stays white after drying, or the paint turns soft or matt;");
    page_paragraph_f(out, 2, 4, "this test, after %d rolls or %g s: more rubbing is no milder than the next step;",
                     2 * answer->rolls, 2 * answer->contact_s);
    page_paragraph(
        out, 2, 4,
        "the climb, as soon as at least part of the layer comes off: then the same blend at the other sites, "
        "not the next step;");
    page_paragraph_f(out, 2, 4, "this direction, where 'touches' passes %.2f.", answer->touch_most);
}

// --- the other directions ---

static void write_ends(const struct ladder_answer *answer, struct text *out) {
    if (answer->inv->casefile && case_every_passage_stopped(answer->inv->casefile))
        return; // said once, above
    for (int k = 0; k < answer->ladder->count; k++) {
        const struct ladder_step *step = &answer->steps[k];
        const struct ladder_direction *direction = &answer->ladder->directions[step->direction];
        if (step->rung == LADDER_NONE)
            page_paragraph_f(out, 2, 4, "%s (%s): %s.", bottle_ref_id(&direction->strong),
                             say(ladder_way_words(direction->way)), say(ladder_end_words(step->end)));
    }
}

// What the mark means, and that other bottles come first where they are as good.
static void write_avoided(const struct ladder_answer *answer, struct text *out) {
    struct text names = {0};
    bool taken = false;
    for (size_t i = 0; i < answer->row_count; i++)
        taken |= overdue_blend(answer->inv, &answer->rows[i].plan.blend);
    for (size_t i = 0; i < answer->other_count; i++)
        overdue_add_names(answer->inv, &answer->others[i].plan.blend, &names);
    if (names.length && !taken)
        page_paragraph_f(out, 2, 4,
                         "Test for peroxides before use, or do not use: %s. A bottle without that doubt was preferred, "
                         "where its chance is as good.",
                         text_bytes(&names));
    out->failed |= names.failed;
    text_release(&names);
}

static void write_others(const struct ladder_answer *answer, struct text *out) {
    page_heading(out, "other directions");
    if (answer->other_count) {
        write_rows(answer, answer->others, answer->other_count, answer->row_count + 1, out);
        if (any_weaker(answer, answer->others, answer->other_count) &&
            !any_weaker(answer, answer->rows, answer->row_count))
            write_strength(answer, out);
        for (size_t i = 0; i < answer->other_count; i++) {
            const struct ladder_direction *direction = ladder_direction_of(answer, &answer->others[i]);
            page_paragraph_f(out, 2, 5, "%zu  %s.", answer->row_count + 1 + i, say(ladder_way_words(direction->way)));
        }
    }
    write_avoided(answer, out);
    write_ends(answer, out);
    write_filter_counts(&answer->filters, out);
}

void write_ladder_text(const struct ladder_answer *answer, struct text *out) {
    struct noted noted = {0};
    write_question(answer, out);
    write_state(answer, out);
    if (answer->row_count) {
        write_climb(answer, out);
        write_tests(answer, out);
        write_sites(answer, out);
        write_stop_rules(answer, out);
    } else {
        page_paragraph(out, 0, 2, ladder_no_next(answer));
        if (answer->site_count)
            write_sites(answer, out);
    }
    write_others(answer, out);
    page_heading(out, "doubt");
    page_paragraph(
        out, 2, 2,
        "The probabilities rest on the tables' regions and on the tests of this case; a swab is a small dose "
        "and seconds long, which the models are not. Differences of less than 0.1 are none.");
    for (size_t i = 0; i < answer->row_count; i++)
        noted_add(&noted, &answer->rows[i].plan.blend);
    write_notes(answer->inv, &noted, out);
    write_caution(out);
}
