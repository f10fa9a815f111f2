// SPDX-License-Identifier: GPL-3.0-or-later
// replace, for people.
#include "cli/replace.h"

#include "base/language.h"
#include "cli/gentlest.h"
#include "cli/notes.h"
#include "physics/film_band.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>

static const double red_step = 0.1; // half a step of 20 % in a usual series; ours

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
            text_bytes(&notation), goal->components_most, goal->bottle_count, percent_of_steps(goal, 1),
            replacing->request.within);
    text_release(&notation);
    if (!replacing->found.proved)
        page_paragraph(out, 0, 2, "INCOMPLETE: interrupted; the best so far.");
    text_add(out, "\n");
}

// --- the table ---

static void swelling_words(const struct portrait *portrait, char words[CELL_BYTES]) {
    const char *word = portrait->film == FILM_BOUNDED         ? film_band_words(film_band(portrait->swelling))
                       : portrait->film == FILM_WITHOUT_LIMIT ? N_("without limit")
                                                              : N_("not known");
    snprintf(words, CELL_BYTES, "%s", say(word));
}

static void hazard_figure(const struct vapour_hazard *hazard, char words[FIGURE_BYTES + 1]) {
    char number[FIGURE_BYTES];
    if (!hazard || isnan(hazard->ratio))
        snprintf(words, FIGURE_BYTES + 1, "?");
    else
        snprintf(words, FIGURE_BYTES + 1, "%s%s", figure(hazard->ratio, 2, number), hazard->complete ? "" : "+");
}

static void portrait_cells(const struct portrait *portrait, const char *vapour, struct sheet *sheet) {
    char number[FIGURE_BYTES];
    char words[CELL_BYTES];
    swelling_words(portrait, words);
    sheet_cell(sheet, "%s", figure(portrait->time_90, 2, number));
    sheet_cell(sheet, "%s", words);
    if (isnan(portrait->flash_point_c))
        sheet_cell(sheet, "-");
    else
        sheet_cell(sheet, "%.0f", portrait->flash_point_c);
    sheet_cell(sheet, "%s", vapour);
    struct text recipe = {0};
    blend_write(&portrait->blend, &recipe);
    sheet_cell(sheet, "%s", text_bytes(&recipe));
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
    portrait_cells(&replacing->found.original, "1 x", &sheet);
    for (size_t i = 0; i < replacing->found.count; i++) {
        const struct replacement_row *row = &replacing->found.rows[i];
        sheet_cell(&sheet, "%zu", i + 1);
        sheet_cell(&sheet, "%.1f", row->like.ra);
        sheet_cell(&sheet, "%.0f", row->like.triangle);
        char number[FIGURE_BYTES], change[FIGURE_BYTES + 2] = "?";
        if (row->like.hazard_set >= 0)
            snprintf(change, sizeof change, "%s x", figure(row->like.hazard, 2, number));
        portrait_cells(&row->portrait, change, &sheet);
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

// --- the original ---

static void class_names(unsigned classes, struct text *out) {
    for (int i = 0; hazard_class_words[i]; i++)
        if (classes & 1u << i)
            text_printf(out, "%s%s", out->length ? ", " : "", say(hazard_class_words[i]));
}

static void add_original_hazard(const struct portrait *old, struct text *out) {
    const struct vapour_hazard *worst = portrait_worst_vapour(old);
    char vapour[FIGURE_BYTES + 1];
    struct text classes = {0};
    hazard_figure(worst, vapour);
    class_names(old->classes, &classes);
    text_say(out, " Health by its statements: %s.", say(health_burden_words(old->burden)));
    if (classes.length)
        text_say(out, " In it: %s.", text_bytes(&classes));
    if (worst)
        text_say(out, " Saturated air over it is %s times the limits (%s).", vapour, worst->authority->id);
    if (old->air.authority && old->air.verdict == EXPOSURE_OVER && old->air.complete && old->air.index <= 1)
        text_say(
            out,
            " In this room its index is %.2f (%s), but it is OVER: another limit, an IDLH or the fire alarm is passed.",
            old->air.index, old->air.authority->id);
    else if (old->air.authority && old->air.verdict == EXPOSURE_OVER)
        text_say(out, " In this room its index is %.2f (%s): OVER the limits.", old->air.index, old->air.authority->id);
    else if (old->air.authority)
        text_say(out, " In this room its index is %.2f (%s).", old->air.index, old->air.authority->id);
    text_release(&classes);
}

static void add_original_film(const struct portrait *old, struct text *out) {
    if (old->film == FILM_WITHOUT_LIMIT)
        text_say(out, " %s swells without limit in it.", old->spared->id);
    if (old->film != FILM_BOUNDED)
        return;
    struct text inside = {0};
    char words[CELL_BYTES];
    swelling_words(old, words);
    for (size_t i = 0; i < old->blend.count; i++)
        text_printf(&inside, "%s%s %.0f %%", i ? ", " : "", old->blend.components[i]->id, 100 * old->inside[i]);
    text_say(out, " What enters %s (%s): %s.", old->spared->id, words, text_bytes(&inside));
    text_release(&inside);
}

static void write_original(const struct replacing *replacing, struct text *out) {
    const struct portrait *old = &replacing->found.original;
    struct text words = {0};
    page_heading(out, "the original");
    text_say(&words, "Hansen %.1f/%.1f/%.1f MPa^0.5, triangle %.0f/%.0f/%.0f.", old->hansen.delta_d,
             old->hansen.delta_p, old->hansen.delta_h, old->teas.fd, old->teas.fp, old->teas.fh);
    if (old->last)
        text_say(&words, " Its last 5 %% are %.0f %% %s; residue %s.", 100 * old->last_share, old->last->id,
                 say(retention_words(old->residue)));
    add_original_film(old, &words);
    if (old->dissolves_judged && old->dissolves)
        text_say(&words, " By the film model it dissolves what is to be removed (RED %.2f).", old->red_remove);
    else if (old->dissolves_judged)
        text_say(&words, " By the film model it does not dissolve what is to be removed (RED %.2f).", old->red_remove);
    add_original_hazard(old, &words);
    paragraph_of(&words, 2, 2, out);
    if (old->phase == PHASE_TWO)
        page_paragraph(out, 2, 2,
                       "It is two liquids in the bottle, so its mean place is fiction: nothing can be near to it.");
}

// --- what a row would change ---

static void add_alike(const struct replacement_row *row, struct text *out) {
    static const char *const names[RESPECTS] = {
        N_("triangle"), N_("drying speed"), N_("drying path"), N_("tail"),  N_("swelling"), N_("what enters the paint"),
        N_("varnish"),  N_("one liquid"),   N_("fire"),        N_("health")};
    struct text list = {0};
    for (int i = 0; i < RESPECTS; i++)
        if (row->like.match[i] == MATCH_ALIKE)
            text_printf(&list, "%s%s", list.length ? ", " : "", say(names[i]));
    if (list.length)
        text_say(out, "Alike: %s.", text_bytes(&list));
    text_release(&list);
}

static void add_triangle(const struct likeness *like, struct text *out) {
    if (like->triangle > MISLEADING_TRIANGLE)
        text_say(out,
                 " The triangle misleads: there it lies %.0f %% of a side away, although its Hansen parameters are "
                 "near.",
                 like->triangle);
    else if (like->match[RESPECT_TRIANGLE] == MATCH_DIFFERS)
        text_say(out, " On the triangle it lies %.0f %% of a side away.", like->triangle);
}

static void add_drying(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const struct portrait *new = &row->portrait;
    const struct likeness *like = &row->like;
    if (like->match[RESPECT_SPEED] == MATCH_UNKNOWN)
        text_say(out, " How fast it dries cannot be compared.");
    else if (like->match[RESPECT_SPEED] == MATCH_DIFFERS && like->speed > 1)
        text_say(out, " It needs %.1f times as long to dry.", like->speed);
    else if (like->match[RESPECT_SPEED] == MATCH_DIFFERS)
        text_say(out, " It dries in %.2f of the time: less time to act.", like->speed);
    if (like->match[RESPECT_PATH] == MATCH_DIFFERS)
        text_say(out, " While it dries it drifts away from the original: %.1f MPa^0.5 apart when %d %% are gone.",
                 like->path_ra, like->path_gone);
    if (like->match[RESPECT_TAIL] == MATCH_WORSE)
        text_say(out, " Its last part stays longer (residue %s, before %s).", say(retention_words(new->residue)),
                 say(retention_words(old->residue)));
    else if (like->match[RESPECT_TAIL] == MATCH_DIFFERS && new->last && old->last)
        text_say(out,
                 " It ends as another liquid: the last 5 %% are %.0f %% %s, before %.0f %% %s, %.1f MPa^0.5 apart.",
                 100 * new->last_share, new->last->id, 100 * old->last_share, old->last->id, like->tail_ra);
    else if (like->match[RESPECT_TAIL] == MATCH_UNKNOWN)
        text_say(out, " What stays last cannot be compared.");
}

static size_t most_inside(const struct portrait *portrait) {
    size_t most = 0;
    for (size_t i = 1; i < portrait->blend.count; i++)
        if (portrait->inside[i] > portrait->inside[most])
            most = i;
    return most;
}

static void add_inside(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const struct portrait *new = &row->portrait;
    if (row->like.match[RESPECT_INSIDE] != MATCH_DIFFERS)
        return;
    size_t before = most_inside(old), after = most_inside(new);
    text_say(out,
             " Another liquid enters the paint: %.0f %% of it %s, before %.0f %% %s; the means lie %.1f MPa^0.5 apart.",
             100 * new->inside[after], new->blend.components[after]->id, 100 * old->inside[before],
             old->blend.components[before]->id, row->like.inside_ra);
}

static void add_paint(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const struct portrait *new = &row->portrait;
    enum match match = row->like.match[RESPECT_SWELLING];
    char before[CELL_BYTES], after[CELL_BYTES];
    swelling_words(old, before);
    swelling_words(new, after);
    if (match == MATCH_UNKNOWN)
        text_say(out, " What the paint takes up cannot be compared: the film model does not cover both.");
    else if (match == MATCH_WORSE && new->film == FILM_WITHOUT_LIMIT)
        text_say(out, " %s swells without limit in it.", new->spared->id);
    else if (match == MATCH_WORSE)
        text_say(out, " %s takes up %.1f times as much of it (%s, before %s).", new->spared->id, row->like.swelling,
                 after, before);
    else if (match == MATCH_BETTER && old->film == FILM_BOUNDED)
        text_say(out, " %s takes up only %.1f times as much of it (%s, before %s).", new->spared->id,
                 row->like.swelling, after, before);
    else if (match == MATCH_BETTER)
        text_say(out, " %s does not swell without limit in it, as it does in the original.", new->spared->id);
    add_inside(old, row, out);
}

static void add_varnish(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const struct portrait *new = &row->portrait;
    enum match match = row->like.match[RESPECT_VARNISH];
    if (match == MATCH_WORSE)
        text_say(out, " By the film model it no longer dissolves what is to be removed (RED %.2f, before %.2f).",
                 new->red_remove, old->red_remove);
    else if (match == MATCH_DIFFERS)
        text_say(out,
                 " By the film model it dissolves what is to be removed, which the original does not (RED %.2f, before "
                 "%.2f): stronger.",
                 new->red_remove, old->red_remove);
    else if (match == MATCH_UNKNOWN)
        text_say(out, " Whether it dissolves what is to be removed is beyond the film model (RED %.2f, before %.2f).",
                 new->red_remove, old->red_remove);
    if ((match == MATCH_WORSE || match == MATCH_DIFFERS) && fabs(new->red_remove - old->red_remove) < red_step)
        text_say(out, " By distance there is no difference: both stand on the edge, and a swab decides.");
}

static void add_fire(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    enum match match = row->like.match[RESPECT_FIRE];
    if (row->like.match[RESPECT_PHASE] == MATCH_WORSE)
        text_say(out, " It may separate: look before use.");
    if (match == MATCH_UNKNOWN)
        text_say(out, " How easily it catches fire cannot be compared.");
    else if (match == MATCH_WORSE && isnan(old->flash_point_c))
        text_say(out, " It catches fire, flash point %.0f degC; of the original no flash point is known.",
                 row->portrait.flash_point_c);
    else if (match == MATCH_BETTER && isnan(row->portrait.flash_point_c))
        text_say(out, " No flash point of it is known; before %.0f degC.", old->flash_point_c);
    else if (match == MATCH_WORSE)
        text_say(out, " It catches fire more easily: flash point %.0f degC, before %.0f degC.",
                 row->portrait.flash_point_c, old->flash_point_c);
    else if (match == MATCH_BETTER)
        text_say(out, " It catches fire less easily: flash point %.0f degC, before %.0f degC.",
                 row->portrait.flash_point_c, old->flash_point_c);
}

static void add_classes(const struct likeness *like, struct text *out) {
    struct text gone = {0};
    struct text new = {0};
    class_names(like->classes_gone, &gone);
    class_names(like->classes_new, &new);
    if (gone.length)
        text_say(out, " No longer in it: %s.", text_bytes(&gone));
    if (new.length)
        text_say(out, " New in it: %s.", text_bytes(&new));
    text_release(&gone);
    text_release(&new);
}

static void add_vapour(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const struct portrait *new = &row->portrait;
    char before[FIGURE_BYTES + 1], after[FIGURE_BYTES + 1];
    if (row->like.hazard_set >= 0) {
        const struct vapour_hazard *hazard = &new->hazards[row->like.hazard_set];
        hazard_figure(&old->hazards[row->like.hazard_set], before);
        hazard_figure(hazard, after);
        text_say(out, " Saturated air over it is %s times the limits, before %s (%s).", after, before,
                 hazard->authority->id);
        return;
    }
    const struct vapour_hazard *lacking = portrait_worst_vapour(new);
    lacking = lacking && lacking->complete ? portrait_worst_vapour(old) : lacking;
    if (lacking && lacking->unknown)
        text_say(out,
                 " Its vapour cannot be compared: no set of limits covers both (%s lacks %s). No limit found is never "
                 "zero hazard.",
                 lacking->authority->id, lacking->unknown->id);
    else
        text_say(out, " Its vapour cannot be compared: no set of limits covers both. No limit found is never zero "
                      "hazard.");
}

static void add_health(const struct portrait *old, const struct replacement_row *row, struct text *out) {
    const char *before = say(health_burden_words(old->burden)), *after = say(health_burden_words(row->portrait.burden));
    switch (row->like.match[RESPECT_HEALTH]) {
    case MATCH_WORSE:
        text_say(out, " MORE hazardous (statements: %s, before %s).", after, before);
        break;
    case MATCH_BETTER:
        text_say(out, " Less hazardous (statements: %s, before %s).", after, before);
        break;
    case MATCH_DIFFERS:
        text_say(out, " Other hazards, some less and some more (statements: %s, before %s).", after, before);
        break;
    case MATCH_UNKNOWN:
        text_say(out, " Whether it is less hazardous cannot be judged (statements: %s, before %s).", after, before);
        break;
    default:
        text_say(out, " No less hazardous (statements: %s, before %s).", after, before);
    }
    add_vapour(old, row, out);
    add_classes(&row->like, out);
}

static void add_air(const struct air_index *old, const struct air_index *new, struct text *out) {
    if (!old->authority || !new->authority)
        return;
    if (!new->complete)
        text_say(out, " In this room its index is at least %.2f (%s), before %.2f (%s): a component has no limit.",
                 new->index, new->authority->id, old->index, old->authority->id);
    else if (new->verdict == EXPOSURE_OVER &&new->index <= 1)
        text_say(out,
                 " In this room its index is %.2f (%s), before %.2f (%s), but it is OVER: another limit, an IDLH or "
                 "the fire alarm is passed.",
                 new->index, new->authority->id, old->index, old->authority->id);
    else if (new->verdict == EXPOSURE_OVER)
        text_say(out, " In this room its index is %.2f (%s), before %.2f (%s): OVER the limits.", new->index,
                 new->authority->id, old->index, old->authority->id);
    else
        text_say(out, " In this room its index is %.2f (%s), before %.2f (%s).", new->index, new->authority->id,
                 old->index, old->authority->id);
}

static void add_sensitive(const struct replacing *replacing, const struct replacement_row *row, struct text *out) {
    for (size_t i = 0; i < replacing->sensitive.count; i++) {
        const struct sensitive_passage *item = &replacing->sensitive.items[i];
        if (!newly_touched(replacing, row, item->sensitivity))
            continue;
        const struct component *by = sensitivity_touched(item->sensitivity, &row->portrait.blend, NULL);
        text_say(out, " NEW danger for %s, from %s, which the original spared: a test of its own.",
                 say(item->sensitivity->name), by->id);
    }
}

static void write_changes(const struct replacing *replacing, struct text *out) {
    page_heading(out, "what each would change");
    for (size_t i = 0; i < replacing->found.count; i++) {
        const struct replacement_row *row = &replacing->found.rows[i];
        const struct portrait *old = &replacing->found.original;
        struct text words = {0};
        text_printf(&words, "%zu  ", i + 1);
        add_alike(row, &words);
        add_health(old, row, &words);
        add_air(&old->air, &row->portrait.air, &words);
        add_triangle(&row->like, &words);
        add_drying(old, row, &words);
        add_paint(old, row, &words);
        add_varnish(old, row, &words);
        add_fire(old, row, &words);
        add_sensitive(replacing, row, &words);
        if (row->similar)
            text_say(&words, " Sets of bottles that bring nothing new over it: %zu.", row->similar);
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
    const struct replacement *found = &replacing->found;
    const struct filter_count *worst = filter_that_took_most(&replacing->filters);
    page_paragraph_f(out, 0, 2, "There is no honest replacement within %g MPa^0.5.", replacing->request.within);
    if (found->nearest.count == 0) {
        page_paragraph(out, 0, 2, "No bottle is left to look at.");
    } else if (found->split) {
        page_paragraph(out, 0, 2, "Every blend that is near enough is two liquids in the bottle.");
    } else {
        struct text recipe = {0};
        blend_write(&found->nearest_blend, &recipe);
        page_paragraph_f(out, 0, 2, "The nearest is %s at %.1f MPa^0.5; --within %.1f would list it.",
                         text_bytes(&recipe), found->nearest_ra, ceil(10 * found->nearest_ra) / 10);
        text_release(&recipe);
    }
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
    write_notes(replacing->inv, &noted, out);
    write_caution(out);
    if (option_given(replacing->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(replacing->inv, "--chart"));
}
