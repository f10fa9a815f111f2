// SPDX-License-Identifier: GPL-3.0-or-later
// replace, for people.
#include "cli/replace.h"

#include "cli/gentlest.h"
#include "cli/notes.h"
#include "cli/overdue.h"
#include "physics/film_band.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>

static bool one_bottle(const struct replacing *replacing) {
    return replacing->request.bottle != SIZE_MAX;
}

static void paragraph_of(struct text *words, size_t first, size_t rest, struct text *out) {
    page_paragraph_f(out, first, rest, "%s", text_bytes(words));
    text_release(words);
}

// --- the question ---

static void write_question(const struct replacing *replacing, struct text *out) {
    const struct goal *goal = &replacing->goal;
    struct text notation = {0};
    blend_write(&replacing->original, &notation);
    if (one_bottle(replacing))
        page_paragraph_f(
            out, 0, 2,
            "Replace %s in %s and keep the rest: its share is filled from %zu bottles, at most %d of them, in "
            "%d equal parts; no farther than %g MPa^0.5 from the whole blend in Hansen space.",
            bottle_ref_id(&replacing->original.parts[replacing->request.bottle].bottle), text_bytes(&notation),
            goal->bottle_count, goal->components_most, goal->steps, replacing->request.within);
    else
        page_paragraph_f(
            out, 0, 2,
            "Replace %s: by blends of up to %d of %zu bottles in steps of %g %% by volume; no farther than "
            "%g MPa^0.5 from it in Hansen space.",
            text_bytes(&notation),
            (size_t)goal->components_most < goal->bottle_count ? goal->components_most : (int)goal->bottle_count,
            goal->bottle_count, percent_of_steps(goal, 1), replacing->request.within);
    text_release(&notation);
    if (!replacing->found.proved)
        page_paragraph(out, 0, 2, "INCOMPLETE: interrupted; the best so far.");
    text_add(out, "\n");
}

// --- the table ---

static void portrait_cells(const struct replacing *replacing, const struct portrait *portrait, const char *vapour,
                           struct sheet *sheet) {
    char number[FIGURE_BYTES];
    char words[CELL_BYTES];
    replacing_swelling(portrait, words);
    sheet_cell(sheet, "%s", figure(portrait->time_90, 2, number));
    sheet_cell(sheet, "%s", words);
    if (isnan(portrait->flash_point_c))
        sheet_cell(sheet, "-");
    else
        sheet_cell(sheet, "%.0f", portrait->flash_point_c);
    sheet_cell(sheet, "%s", vapour);
    struct text recipe = {0};
    blend_write(&portrait->blend, &recipe);
    sheet_cell(sheet, "%s%s", text_bytes(&recipe), overdue_mark(replacing->inv, &portrait->blend));
    text_release(&recipe);
}

static void write_table(const struct replacing *replacing, struct text *out) {
    struct sheet sheet = {0};
    sheet_column(&sheet, "no.", true);
    sheet_column(&sheet, "Ra", true);
    sheet_column(&sheet, "triangle", true);
    sheet_column(&sheet, "dry", true);
    sheet_column(&sheet, "paint swells", false);
    sheet_column(&sheet, "flash", true);
    sheet_column(&sheet, "vapour", true);
    sheet_column(&sheet, "blend, parts by volume", false);
    sheet_cell(&sheet, "-");
    sheet_cell(&sheet, "-");
    sheet_cell(&sheet, "-");
    portrait_cells(replacing, &replacing->found.original, "1 x", &sheet);
    for (size_t i = 0; i < replacing->found.count; i++) {
        const struct replacement_row *row = &replacing->found.rows[i];
        sheet_cell(&sheet, "%zu", i + 1);
        sheet_cell(&sheet, "%.1f", row->like.ra);
        sheet_cell(&sheet, "%.0f", row->like.triangle);
        char number[FIGURE_BYTES], change[FIGURE_BYTES + 2] = "?";
        if (row->like.hazard_set >= 0)
            snprintf(change, sizeof change, "%s x", figure(row->like.hazard, 2, number));
        portrait_cells(replacing, &row->portrait, change, &sheet);
    }
    sheet_write(&sheet, out);
    page_paragraph_f(
        out, 0, 0,
        "'-': the original. 'Ra': distance from it in Hansen space, MPa^0.5. 'triangle': distance on the Teas "
        "triangle, "
        "percent along a side. 'dry': time until nine tenths are gone (n-butyl acetate wholly = 1). 'flash': degC to "
        "count with. 'vapour': saturated air over it, divided by the exposure limits, in comparison with the original; "
        "by "
        "the set of limits by which it does worst; '?' where no set covers both.");
}

// --- the original, and what each row would change ---

static void write_original(const struct replacing *replacing, struct text *out) {
    struct text words = {0};
    page_heading(out, "the original");
    replacing_add_original(replacing, &words);
    paragraph_of(&words, 2, 2, out);
}

static void write_changes(const struct replacing *replacing, struct text *out) {
    page_heading(out, "what each would change");
    for (size_t i = 0; i < replacing->found.count; i++) {
        struct text words = {0};
        text_printf(&words, "%zu  ", i + 1);
        replacing_add_change(replacing, &replacing->found.rows[i], &words);
        paragraph_of(&words, 2, 5, out);
    }
}

// --- answers ---

static bool any_less_hazardous(const struct replacing *replacing) {
    for (size_t i = 0; i < replacing->found.count; i++)
        if (replacing->found.rows[i].like.match[RESPECT_HEALTH] == MATCH_BETTER)
            return true;
    return false;
}

static void write_nothing(const struct replacing *replacing, struct text *out) {
    const struct filter_count *worst = filter_that_took_most(&replacing->filters);
    page_paragraph_f(out, 0, 2, "There is no honest replacement within %g MPa^0.5.", replacing->request.within);
    struct text nearest = {0};
    replacing_add_nearest(replacing, &nearest);
    paragraph_of(&nearest, 0, 2, out);
    if (worst)
        page_paragraph_f(out, 0, 2, "The filter that took most: %s (%s).", worst->filter, worst->names);
}

static void write_decoys(const struct replacing *replacing, struct text *out) {
    const struct replacement *found = &replacing->found;
    if (found->decoy_count == 0)
        return;
    page_heading(out, "near on the triangle, but another liquid");
    for (size_t i = 0; i < found->decoy_count; i++) {
        struct text recipe = {0};
        blend_write(&found->decoys[i].blend, &recipe);
        page_paragraph_f(out, 2, 4, "%s: %.1f %% of a side away on the triangle, but %.1f MPa^0.5 in Hansen space",
                         text_bytes(&recipe), found->decoys[i].triangle, found->decoys[i].ra);
        text_release(&recipe);
    }
    page_paragraph(out, 2, 2, "The triangle throws the total cohesion away; such blends are not proposed.");
}

static void write_left_out(const struct replacing *replacing, struct text *out) {
    const struct replacement *found = &replacing->found;
    page_heading(out, "what was left out");
    write_filter_counts(&replacing->filters, out);
    page_paragraph_f(out, 2, 4, "two liquids in the bottle: %zu sets of bottles", found->split);
    if (found->cut || found->portrayed < found->within)
        page_paragraph_f(out, 2, 4,
                         "many sets of bottles lie within the distance; of the nearest %zu, %zu were compared in all "
                         "respects, of different kinds first",
                         found->within, found->portrayed);
    else
        page_paragraph_f(out, 2, 4, "all %zu sets of bottles within the distance were compared in all respects",
                         found->within);
    if (found->proved)
        page_paragraph_f(out, 2, 4,
                         "proved: for each number of bottles no other of the %.0f blends on this grid lies nearer.",
                         found->blends);
    if (found->listed > found->count)
        page_paragraph_f(out, 2, 4, "the list goes on: %zu rows in all (--show)", found->listed);
}

static void write_uncertainty(const struct replacing *replacing, struct text *out) {
    double most = 0;
    for (size_t i = 0; i < replacing->found.count; i++)
        most = fmax(most, replacing->found.rows[i].like.ra_uncertainty);
    if (replacing->found.count)
        page_paragraph_f(out, 2, 4,
                         "The tabled Hansen parts leave these distances uncertain by up to %.1f MPa^0.5 (one standard "
                         "deviation): rows that lie closer together than that cannot be told apart by distance.",
                         most);
}

static void write_doubt(const struct replacing *replacing, struct text *out) {
    page_heading(out, "doubt");
    page_paragraph(
        out, 2, 4,
        "Order: what is more hazardous last, then fewer respects that speak against a blend, then the distance "
        "in steps of 1 MPa^0.5, then fewer bottles. The film is that of a large reservoir after a long time; "
        "a swab is neither.");
    write_uncertainty(replacing, out);
    if (replacing->frame.remove_count == 0)
        page_paragraph(out, 2, 4,
                       "Whether it still takes off your varnish was not asked: --remove MATERIAL compares that, too.");
    page_paragraph(
        out, 2, 4,
        "A replacement on paper is a proposal for a test beside the original, not the original under another "
        "name.");
}

void write_replacements(const struct replacing *replacing, struct text *out) {
    struct noted noted = {0};
    write_question(replacing, out);
    if (replacing->found.count == 0)
        write_nothing(replacing, out);
    else
        write_table(replacing, out);
    if (replacing->found.count && !any_less_hazardous(replacing))
        page_paragraph(out, 0, 2, "None of these is clearly less hazardous than the original.");
    write_original(replacing, out);
    if (replacing->found.count)
        write_changes(replacing, out);
    write_decoys(replacing, out);
    write_left_out(replacing, out);
    write_doubt(replacing, out);
    for (size_t i = 0; i < replacing->found.count; i++)
        noted_add(&noted, &replacing->found.rows[i].portrait.blend);
    if (noted.count)
        write_notes(replacing->inv, &noted, out);
    write_caution(out);
    if (option_given(replacing->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(replacing->inv, "--chart"));
}
