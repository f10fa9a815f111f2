// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest by film, for people.
#include "base/language.h"
#include "base/print_words.h"
#include "cli/gentlest.h"
#include "cli/notes.h"
#include "cli/overdue.h"
#include "cli/tests_so_far.h"
#include "physics/film_band.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static const char *band_word(double swelling) {
    return isfinite(swelling) ? film_band_words(film_band(swelling)) : say("without limit");
}

// "low" or "low-moderate": the band, or the bands of four fifths of the samples.
static void band_range(const struct ranked_row *row, char words[CELL_BYTES]) {
    double floor = row->published.least;
    const char *least = band_word(fmax(row->doubted ? row->doubt.swelling_least : row->row.swelling, floor));
    const char *most = row->doubted ? band_word(fmax(row->doubt.swelling_most, floor)) : least;
    if (strcmp(least, most) == 0)
        snprintf(words, CELL_BYTES, "%s", least);
    else
        print_words(words, CELL_BYTES, "%s to %s", least, most);
}

static bool any_by_red(const struct goal *goal) {
    for (size_t i = 0; i < goal->remove_count; i++)
        if (material_by_red(goal->remove[i]))
            return true;
    return false;
}

static const char *const first_words[] = {"mildest for the paint", "shortest residue", "least burden on health",
                                          "least flammable", "weakest"};

static void write_question(const struct film_answer *answer, struct text *out) {
    const struct goal *goal = &answer->goal;
    struct text remove = {0};
    struct text spare = {0};
    char shelf[SHELF_WORDS];
    add_material_names(goal->remove, goal->remove_count, &remove);
    add_material_names(goal->spare, goal->spare_count, &spare);
    page_paragraph_f(out, 0, 2,
                     "Remove %s, spare %s; %s in steps of %g %% by volume at %g degC; "
                     "by %s, %s first among "
                     "those that work with a probability of at least %g.",
                     text_bytes(&remove), text_bytes(&spare), shelf_words(goal, shelf), 100.0 / goal->steps,
                     answer->temp_c, any_by_red(goal) ? say("film and sphere") : say("the film model"),
                     say(first_words[answer->prefer]), answer->least_probability);
    text_release(&remove);
    text_release(&spare);
    if (!answer->ranking.complete)
        page_paragraph(out, 0, 2, "INCOMPLETE: interrupted; the best so far.");
    for (size_t i = 0; i < goal->remove_count; i++)
        if (material_by_red(goal->remove[i]))
            page_paragraph_f(out, 0, 2,
                             material_has_film(goal->remove[i])
                                 ? N_("%s is judged by its sphere (RED at most %.2f), because the film model does no "
                                      "better there; the paint is judged by its film.")
                                 : N_("%s is judged by its sphere (RED at most %.2f), because no film model of it is "
                                      "in the tables; the paint is judged by its film."),
                             goal->remove[i]->id, 1 - goal->margin);
    for (size_t i = 0; i < goal->spare_count; i++)
        if (!material_has_film(goal->spare[i]))
            page_paragraph_f(out, 0, 2,
                             "%s has no film model: a blend inside its sphere is left out, and how much the others "
                             "swell it is not known.",
                             goal->spare[i]->id);
    for (size_t i = 0; i < goal->remove_count; i++)
        if (goal->remove[i]->film == FILM_CROSS_LINKED)
            page_paragraph_f(out, 0, 2, "%s is cross-linked: this layer only swells; there may be no window.",
                             goal->remove[i]->id);
    write_tests_so_far(answer->inv->casefile, out);
    write_first_test(answer->inv, &answer->first_test, out);
    text_add(out, "\n");
}

static void add_recipe_cell(const struct film_answer *answer, const struct composition *composition,
                            const struct blend *blend, struct sheet *sheet) {
    struct text recipe = {0};
    composition_recipe(&answer->goal, composition, &recipe);
    sheet_cell(sheet, "%s%s", text_bytes(&recipe), overdue_mark(answer->inv, blend));
    sheet->failed |= recipe.failed;
    text_release(&recipe);
}

static void add_row(const struct film_answer *answer, size_t i, struct sheet *sheet) {
    const struct ranked_row *row = &answer->ranking.rows[i];
    char words[CELL_BYTES];
    band_range(row, words);
    sheet_cell(sheet, "%zu", i + 1);
    if (row->apart)
        sheet_cell(sheet, "apart");
    else if (row->tie)
        sheet_cell(sheet, "%c", (char)('a' + (row->tie - 1) % 26));
    else
        sheet_cell(sheet, "-");
    if (row->doubted && !row->apart)
        sheet_cell(sheet, "%.2f", row->doubt.p_works);
    else
        sheet_cell(sheet, "?");
    sheet_cell(sheet, "%s", row->apart ? say("not judged") : words);
    sheet_cell(sheet, "%s", retention_words(row->retention.word));
    sheet_cell(sheet, "%.2f", row->row.red_remove);
    add_recipe_cell(answer, &row->row.best, &row->blend, sheet);
}

// Less strong liquid, and the paint takes up no more than of the row by its band.
static bool begins_with_weakest(const struct ranked_row *row) {
    return !row->apart && row->weakest.blend.count &&
           film_band(ranked_weakest_swelling(row)) <= film_band(ranked_swelling(row));
}

// Where the tests should begin: less of the same strong liquids.
static void add_weakest_row(const struct film_answer *answer, const struct ranked_row *row, struct sheet *sheet) {
    sheet_cell(sheet, "%s", "");
    sheet_cell(sheet, "%s", "");
    if (row->doubted)
        sheet_cell(sheet, "%.2f", row->weakest.doubt.p_works);
    else
        sheet_cell(sheet, "?");
    sheet_cell(sheet, "%s", band_word(ranked_weakest_swelling(row)));
    sheet_cell(sheet, "%s", "");
    sheet_cell(sheet, "%s", say("begin"));
    add_recipe_cell(answer, &row->weakest.composition, &row->weakest.blend, sheet);
}

static bool any_cross_linked(const struct goal *goal) {
    for (size_t i = 0; i < goal->remove_count; i++)
        if (goal->remove[i]->film == FILM_CROSS_LINKED)
            return true;
    return false;
}

static void write_table(const struct film_answer *answer, struct text *out) {
    struct sheet sheet = {0};
    struct text overdue = {0};
    bool weaker = false;
    sheet_column(&sheet, "no.", true);
    sheet_column(&sheet, "tie", false);
    sheet_column(&sheet, "works", true);
    sheet_column(&sheet, "paint swells", false);
    sheet_column(&sheet, "residue", false);
    sheet_column(&sheet, "RED", true);
    sheet_column(&sheet, "blend, parts by volume", false);
    for (size_t i = 0; i < answer->ranking.count; i++) {
        const struct ranked_row *row = &answer->ranking.rows[i];
        add_row(answer, i, &sheet);
        overdue_add_names(answer->inv, &row->blend, &overdue); // 'begin' is of the same bottles
        if (begins_with_weakest(row)) {
            add_weakest_row(answer, row, &sheet);
            weaker = true;
        }
    }
    sheet_write(&sheet, out);
    if (any_cross_linked(&answer->goal))
        page_paragraph(
            out, 0, 0,
            "Rows with the same letter under 'tie' cannot be told apart. 'works': probability that what is to be "
            "removed swells at least as neat ethanol swells paint and twice as much as what is to be spared, over all "
            "doubts of the model; it does not dissolve. 'paint swells': four fifths of the samples. 'RED': the "
            "classical view of the mean; above 1 it would call the blend too weak.");
    else
        page_paragraph(
            out, 0, 0,
            "Rows with the same letter under 'tie' cannot be told apart. 'works': probability that the varnish "
            "dissolves, over all doubts of the model. 'paint swells': four fifths of the samples. 'RED': the "
            "classical view of the mean; above 1 it would call the blend too weak.");
    if (weaker)
        page_paragraph(
            out, 0, 0,
            "'begin': the weakest blend of the same strong liquids that still works so probably, its swelling by "
            "the median of the samples. The row is what the paint takes up least of; begin the tests there "
            "or below all the same.");
    write_overdue(&overdue, out);
    text_release(&overdue);
}

// The strong component whose activity is farthest above its share.
static size_t most_active(const struct ranked_row *row, const double *activities) {
    size_t best = SIZE_MAX;
    for (size_t i = 0; i < row->blend.count; i++) {
        double excess = activities[i] - row->blend.volume_fractions[i];
        if (component_is_weak(row->blend.components[i]))
            continue;
        if (best == SIZE_MAX || excess > activities[best] - row->blend.volume_fractions[best])
            best = i;
    }
    return best;
}

// Where film and RED disagree, say why: the activity, not the share, enters the film.
static void add_disagreement(const struct film_answer *answer, const struct ranked_row *row, struct text *out) {
    struct activity_model *model = arena_new(answer->inv->arena, 1, sizeof *model);
    double x[BLEND_COMPONENTS_MAX];
    double activities[BLEND_COMPONENTS_MAX];
    if (!(row->row.red_remove > 1) || !model)
        return;
    if (activity_prepare_blend(&answer->groups, &row->blend, 273.15 + answer->temp_c, model, NULL) != STATUS_OK ||
        !activity_covers(model) || blend_mole_fractions(&row->blend, x, NULL) != STATUS_OK)
        return;
    film_liquid_activities(model, x, activities);
    for (size_t i = 0; i < row->blend.count; i++)
        activities[i] = exp(activities[i]);
    size_t i = most_active(row, activities);
    if (i == SIZE_MAX || activities[i] < 1.2 * row->blend.volume_fractions[i])
        return;
    text_say(out, " The mean (RED %.2f) would call it too weak; the activity of %s is %.2f, not its share of %.2f.",
             row->row.red_remove, row->blend.components[i]->id, activities[i], row->blend.volume_fractions[i]);
}

// A published list outranks the model in the cautious direction.
static void add_published(const struct film_answer *answer, const struct ranked_row *row, struct text *out) {
    double model = row->doubted ? row->doubt.swelling_median : row->row.swelling;
    if (row->published.swelling && row->published.least > model)
        text_say(out, " Published: neat %s swells this paint %s, which outranks the model's '%s'.",
                 row->published.component->id, say(swelling_class_words[row->published.swelling->class]),
                 band_word(model));
    for (size_t m = 0; m < answer->goal.remove_count; m++)
        if (published_outside(answer->goal.remove[m], &row->blend))
            text_say(out,
                     " Film and list disagree: published or remembered lists call every strong liquid of it a "
                     "non-solvent of %s.",
                     answer->goal.remove[m]->id);
}

// What would make it milder: less of the strong liquid, down to where it still works.
static void add_weakest(const struct film_answer *answer, const struct ranked_row *row, struct text *out) {
    if (row->weakest.blend.count == 0) {
        text_add(out, row->row.strong_share > 0
                          ? say(" No weaker blend of the same strong liquids works with that probability.")
                          : "");
        return;
    }
    text_say(out, " Weakest that still works: ");
    composition_recipe(&answer->goal, &row->weakest.composition, out);
    double swelling = ranked_weakest_swelling(row);
    text_printf(out, " (%s", band_word(swelling));
    if (row->doubted)
        text_say(out, ", works %.2f", row->weakest.doubt.p_works);
    if (film_class(swelling) > film_class(row->doubted ? row->doubt.swelling_median : row->row.swelling))
        text_say(out, "; the paint takes up more of it, because the hydrocarbon keeps the activity of the strong "
                      "liquid high, but less "
                      "strong liquid is on the swab");
    if (row->weakest.phase == PHASE_MAY_SEPARATE)
        text_say(out, "; may separate, look before use");
    if (!isnan(row->weakest.flash_c))
        text_say(out, "; flash point %.0f degC", row->weakest.flash_c);
    if (begins_with_weakest(row))
        text_say(out, "): begin the test there or below.");
    else
        text_say(out, "): less strong liquid on the swab, but more of it in the paint.");
}

// Beyond the model: why, and nothing that could be read as a rank.
static void add_apart(const struct ranked_row *row, struct text *out) {
    text_say(out, "Allowed by name and set apart, not ranked:");
    for (size_t i = 0; i < row->blend.count; i++) {
        const char *why = component_unproposed(row->blend.components[i]);
        if (why)
            text_printf(out, " %s, %s;", row->blend.components[i]->id, why);
    }
    text_say(out, " its swelling cannot be computed honestly and may be high.");
}

void add_film_reason(const struct film_answer *answer, const struct ranked_row *row, struct text *out) {
    if (row->apart) {
        add_apart(row, out);
        return;
    }
    enum film_band band = film_band(ranked_swelling(row));
    text_say(out, "%s takes up about as much %s (%s)",
             row->row.spared ? row->row.spared->id : say("what is to be spared"), film_band_anchor(band),
             film_band_words(band));
    if (row->doubted)
        text_say(out, "; works in %.0f %% of the samples, rank %.0f to %.0f", 100 * row->doubt.p_works,
                 row->doubt.rank_least, row->doubt.rank_most);
    text_add(out, ".");
    if (row->edge)
        text_say(out, " At the edge: slow, more rolling and longer contact; a slightly stronger blend can be milder.");
    if (row->beaten_by)
        text_say(out, " Row %zu is at least as good in every respect (works, paint, residue, health, fire).",
                 row->beaten_by);
    if (!isnan(row->row.target_swelling))
        text_say(out, " What is to be removed takes up %s of it (%.2g of its volume).",
                 film_band_words(film_band(row->row.target_swelling)), row->row.target_swelling);
    add_disagreement(answer, row, out);
    add_published(answer, row, out);
    add_weakest(answer, row, out);
}

static void add_like(const struct film_answer *answer, const struct ranked_row *row, struct text *out) {
    if (row->similar == 0)
        return;
    // The blend to begin with is news: it isn't named as one that brings none.
    size_t named = 0;
    while (named < row->like_count && composition_compare(&row->like[named], &row->weakest.composition) == 0)
        named++;
    if (named == row->like_count)
        return;
    struct text recipe = {0};
    composition_recipe(&answer->goal, &row->like[named], &recipe);
    if (row->similar == 1)
        text_say(out, " One more blend of the list brings nothing new over it: %s.", text_bytes(&recipe));
    else
        text_say(out, " %zu more blends of the list bring nothing new over it, among them %s.", row->similar,
                 text_bytes(&recipe));
    out->failed |= recipe.failed;
    text_release(&recipe);
}

static void add_liquid(const struct ranked_row *row, struct text *out) {
    const struct retention *retention = &row->retention;
    if (row->phase.verdict == PHASE_MAY_SEPARATE)
        text_say(out, " May separate: look before use (%s).", row->phase.sentence);
    bool known = retention->slowest && !isnan(retention->vapour_pressure_kpa);
    if (row->split.known)
        text_say(out,
                 " If it separates, its two liquids act alike on a film: the varnish %s, the paint swells %s "
                 "(nominal).",
                 row->split.works ? say("still gives way") : say("does not give way"), band_word(row->split.swelling));
    if (known && !isnan(retention->tail_share))
        text_say(out, " Last to leave: %s (%.0f %% of the last of it), %.2g kPa at 20 degC. Health: %s.",
                 retention->slowest->id, 100 * retention->tail_share, retention->vapour_pressure_kpa,
                 health_burden_words(row->health));
    else if (known)
        text_say(out, " Last to leave, by vapour pressure alone: %s, %.2g kPa at 20 degC. Health: %s.",
                 retention->slowest->id, retention->vapour_pressure_kpa, health_burden_words(row->health));
    if (!isnan(row->flash.display_c))
        text_say(out, " Fire: flash point %.0f degC%s%s.", row->flash.display_c,
                 ghs_flammable_statement(row->flammable) ? ", " : "",
                 ghs_flammable_statement(row->flammable) ? ghs_flammable_statement(row->flammable) : "");
    if (water_fraction(&row->blend) > 0)
        text_say(out, " Holds %.1f %% water: mind zinc and lead soaps and size.", 100 * water_fraction(&row->blend));
}

static void write_reasons(const struct film_answer *answer, struct text *out) {
    page_heading(out, "why each stands there");
    for (size_t i = 0; i < answer->ranking.count; i++) {
        struct text words = {0};
        text_printf(&words, "%zu  ", i + 1);
        add_film_reason(answer, &answer->ranking.rows[i], &words);
        add_liquid(&answer->ranking.rows[i], &words);
        add_like(answer, &answer->ranking.rows[i], &words);
        page_paragraph(out, 2, 5, text_bytes(&words));
        text_release(&words);
    }
}

// Which rows touch a passage: numbers in a text, "none" when no row does. Of the blends themselves, or of the weakest
// blend that each row names as the place to begin.
static void add_touching_rows(const struct film_answer *answer, const struct sensitivity *sensitivity, bool weakest,
                              struct text *out) {
    size_t count = 0;
    for (size_t i = 0; i < answer->ranking.count; i++)
        if (row_touches(&answer->ranking.rows[i], sensitivity, weakest))
            text_printf(out, "%s%zu", count++ ? ", " : "", i + 1);
    if (count == 0)
        text_say(out, "none");
}

static void write_sensitive(const struct film_answer *answer, struct text *out) {
    if (answer->sensitive.count == 0)
        return;
    page_heading(out, "sensitive passages: each gets a test of its own before any large area");
    for (size_t i = 0; i < answer->sensitive.count; i++) {
        const struct sensitive_passage *item = &answer->sensitive.items[i];
        struct text rows = {0};
        struct text weakest = {0};
        add_touching_rows(answer, item->sensitivity, false, &rows);
        add_touching_rows(answer, item->sensitivity, true, &weakest);
        if (item->passage)
            page_paragraph_f(out, 2, 4,
                             "%s (%s): touched by the blends of rows: %s; by the weakest blends named in rows: %s. %s",
                             say(item->sensitivity->name), item->passage, text_bytes(&rows), text_bytes(&weakest),
                             say(item->sensitivity->warning));
        else
            page_paragraph_f(
                out, 2, 4, "%s: touched by the blends of rows: %s; by the weakest blends named in rows: %s. %s",
                say(item->sensitivity->name), text_bytes(&rows), text_bytes(&weakest), say(item->sensitivity->warning));
        text_release(&rows);
        text_release(&weakest);
    }
}

static void write_doubtful(const struct film_answer *answer, struct text *out) {
    const struct ranking *ranking = &answer->ranking;
    if (!ranking->doubtful_count)
        return;
    struct text list = {0};
    for (size_t i = 0; i < ranking->doubtful_count; i++) {
        text_add(&list, i ? "; " : "");
        composition_recipe(&answer->goal, &ranking->doubtful[i], &list);
        text_say(&list, " (%.2f)", ranking->doubtful_p[i]);
    }
    if (ranking->count)
        page_paragraph_f(out, 4, 6,
                         "weak, and not sure enough for the list (probability that it works): %s. They hold less "
                         "strong liquid than what the list proposes, so test these first; small shares of alcohol in "
                         "a hydrocarbon are common practice",
                         text_bytes(&list));
    else
        page_paragraph_f(out, 4, 6,
                         "weak, and not sure enough to be proposed (probability that it works): %s. Nothing is sure "
                         "enough, so if you test, begin with these; small shares of alcohol in a hydrocarbon are "
                         "common practice",
                         text_bytes(&list));
    text_release(&list);
}

static void write_filters(const struct film_answer *answer, struct text *out) {
    const struct ranking *ranking = &answer->ranking;
    page_heading(out, "what was left out");
    write_filter_counts(&answer->filters, out);
    page_paragraph_f(
        out, 2, 4,
        "blends too weak for the varnish, or dissolving what is to be spared, each taken as one liquid: %.0f of "
        "%.0f",
        ranking->search.evaluated - ranking->search.working - ranking->search.failed, ranking->search.blends);
    if (ranking->search.not_covered > 0)
        page_paragraph_f(out, 2, 4, "blends that the activity models do not cover: %.0f", ranking->search.not_covered);
    if (ranking->search.failed > 0)
        page_paragraph_f(out, 2, 4, "blends on which the solver gave up: %.0f", ranking->search.failed);
    if (ranking->samples)
        page_paragraph_f(out, 2, 4, "candidates sampled that are less likely to work than asked: %zu of %zu",
                         ranking->too_unlikely, ranking->candidates);
    write_doubtful(answer, out);
    page_paragraph_f(out, 2, 4, "blends that are two liquids in the bottle: %zu", ranking->split);
    if (ranking->too_flammable)
        page_paragraph_f(out, 2, 4, "blends with a flash point below %g degC: %zu (relax --flash-least)",
                         answer->flash_least_c, ranking->too_flammable);
    if (ranking->too_slow)
        page_paragraph_f(out, 2, 4, "blends with a longer residue than asked for: %zu (relax --residue-most)",
                         ranking->too_slow);
    page_paragraph_f(out, 2, 4, "blends solved one by one: %.0f of %.0f; none was excluded by a bound%s.",
                     ranking->search.evaluated, ranking->search.blends,
                     ranking->complete ? say("; by the nominal model the best of each set is proved on this grid")
                                       : "");
}

// The largest share of samples without limit, over the rows and their weakest blends.
static double most_unbounded(const struct ranking *ranking) {
    double most = 0;
    for (size_t i = 0; i < ranking->count; i++) {
        const struct ranked_row *row = &ranking->rows[i];
        if (!row->doubted || row->apart)
            continue;
        most = fmax(most, row->doubt.p_unbounded);
        if (row->weakest.blend.count)
            most = fmax(most, row->weakest.doubt.p_unbounded);
    }
    return most;
}

// What age does to the answer: words only, because no figure of it is published in readable form.
static void write_age(const struct film_answer *answer, struct text *out) {
    double years = answer->film_age_years;
    if (isnan(years))
        page_paragraph(
            out, 2, 4,
            "Age of the paint (--film-age): the classes of swelling come from films of about 10 years; "
            "light-aged film swells less and slower, chiefly in hydrocarbons (Phenix 2002). Nothing is taken "
            "off for that.");
    else if (years < 10)
        page_paragraph_f(out, 2, 4,
                         "Paint of %g years is younger than the films of about 10 years that the classes of swelling "
                         "come from: expect more swelling and more to be leached than the rows say (common practice: "
                         "--sensitive young-oil-paint).",
                         years);
    else
        page_paragraph_f(
            out, 2, 4,
            "Paint of %g years is older than the films of about 10 years that the classes of swelling come "
            "from. Light-aged film swells less and slower, chiefly in hydrocarbons, and stays about as "
            "sensitive to polar liquids (Phenix 2002); by how much could not be read, so nothing is taken "
            "off: the rows are on the cautious side of age.",
            years);
    if (!isnan(answer->pigment))
        page_paragraph_f(out, 2, 4,
                         "Pigment: %.0f %% of the dry volume of the paint takes up nothing (assumption); swelling is "
                         "per dry volume of binder and pigment together. Earths, umbers and blacks behave otherwise.",
                         100 * answer->pigment);
}

static void write_doubts(const struct film_answer *answer, struct text *out) {
    page_heading(out, "doubt");
    if (answer->ranking.samples)
        page_paragraph_f(
            out, 2, 4,
            "Samples of every assumption and value: %zu (seed %lu), on a list of blends: %zu; a probability "
            "near one half is uncertain by %.2f from sampling alone.",
            answer->ranking.samples, answer->ranking.seed, answer->ranking.candidates, answer->ranking.sampling_error);
    double unbounded = most_unbounded(&answer->ranking);
    if (unbounded > 0)
        page_paragraph_f(out, 2, 4,
                         "In up to %.0f %% of the samples of a row the paint's film has no limit. A cross-linked film "
                         "cannot dissolve: there the varied activities let the liquid split inside the film, as they "
                         "do for a little alcohol in an alkane. Those samples count as the strongest swelling.",
                         fmax(100 * unbounded, 1));
    if (answer->ranking.ends_cases)
        page_paragraph_f(out, 2, 4,
                         "The list holds the best of the base case and of %zu other cases, each with one assumption at "
                         "one of its ends; those were searched with up to %d bottles on a grid of %g %%.",
                         answer->ranking.ends_cases - 1, answer->ranking.ends_components,
                         answer->ranking.ends_step_percent);
    if (!answer->ranking.samples)
        page_paragraph(out, 2, 4,
                       "Not sampled (--doubt none): the order is that of the nominal model, and ties are not known.");
    for (size_t i = 0; i < answer->goal.remove_count; i++)
        if (answer->goal.remove[i]->film_model.from.note)
            page_paragraph_f(out, 2, 4, "%s: %s", answer->goal.remove[i]->id,
                             answer->goal.remove[i]->film_model.from.note);
    write_age(answer, out);
    page_paragraph(
        out, 2, 4,
        "Equilibrium with much liquid after a long time: a swab is a small dose and seconds long. Specific acid-base "
        "action and water on metal soaps are outside the model. Bands and order, not percentages.");
}

static void write_likeliest(const struct film_answer *answer, struct text *out) {
    struct text recipe = {0};
    composition_recipe(&answer->goal, &answer->ranking.likeliest, &recipe);
    page_paragraph_f(
        out, 0, 2,
        "Sets of bottles that work by the nominal model: %zu, but none with a probability of at least %g. The "
        "likeliest is %s with "
        "%.2f. Relax first: --probability.",
        answer->ranking.search.row_count, answer->least_probability, text_bytes(&recipe),
        answer->ranking.best_probability);
    text_release(&recipe);
}

static void write_nothing(const struct film_answer *answer, struct text *out) {
    const struct ranking *ranking = &answer->ranking;
    if (answer->goal.bottle_count == 0)
        page_paragraph(out, 0, 2, "Nothing can be proposed: no bottle is left on the shelf.");
    else if (ranking->search.row_count == 0 && any_cross_linked(&answer->goal))
        page_paragraph_f(
            out, 0, 2,
            "No blend of these bottles swells the layer at least %g times as much as what is to be spared: there is "
            "no window. Thin or leave it, or take it off by other means.",
            GOAL_WINDOW_RATIO);
    else if (ranking->search.row_count == 0)
        page_paragraph(
            out, 0, 2,
            "No blend of these bottles works by the film model. Relax first: more bottles (--bottles), more in one "
            "blend (--components), or look by distance (--by red).");
    else if (ranking->too_flammable + ranking->too_slow)
        page_paragraph_f(
            out, 0, 2,
            "Every blend that works is kept out by a filter: %zu by --flash-least, %zu by --residue-most. Relax "
            "the one that took most.",
            ranking->too_flammable, ranking->too_slow);
    else if (ranking->split)
        page_paragraph(out, 0, 2, "Every blend that works separates into two liquids; drier bottles would help.");
    else
        write_likeliest(answer, out);
    const struct filter_count *most = filter_that_took_most(&answer->filters);
    if (most)
        page_paragraph_f(out, 0, 2, "The filter that took most from the shelf: %s (%s).", most->filter, most->names);
}

void write_film_text(const struct film_answer *answer, struct text *out) {
    write_question(answer, out);
    if (answer->ranking.count == 0) {
        write_nothing(answer, out);
        write_filters(answer, out);
        return;
    }
    write_table(answer, out);
    write_reasons(answer, out);
    write_sensitive(answer, out);
    write_filters(answer, out);
    write_doubts(answer, out);
    struct noted noted = {0};
    for (size_t i = 0; i < answer->ranking.count; i++)
        noted_add(&noted, &answer->ranking.rows[i].blend);
    for (size_t i = 0; i < answer->ranking.count; i++)
        noted_add(&noted, &answer->ranking.rows[i].weakest.blend);
    write_notes(answer->inv, &noted, out);
    page_heading(out, "leaching");
    page_paragraph_f(
        out, 2, 2,
        "Whatever swells paint also takes something out: %.0f to %.0f %% of the paint is extractable in the end "
        "(Stolow, quoted by Jones 1965); seconds of contact reach the top only (Boon and van Och 1996). "
        "Fewer rolls and short contact count more than the choice between neighbours in this list.",
        LEACHING_LEAST_PERCENT, LEACHING_MOST_PERCENT);
    write_caution(out);
    if (option_given(answer->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(answer->inv, "--chart"));
}
