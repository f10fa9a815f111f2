// SPDX-License-Identifier: GPL-3.0-or-later
// replace: what is said of the original and of each row, in whole sentences, for the command and the report.
#include "cli/replace.h"

#include "base/language.h"
#include "casefile/casefile.h"
#include "physics/film_band.h"

#include <math.h>
#include <stdio.h>

static const double red_step = 0.1; // half a step of 20 % in a usual series; ours

void replacing_swelling(const struct portrait *portrait, char words[CELL_BYTES]) {
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

static void add_unknown_hazards(const struct replacing *replacing, const struct blend *blend, struct text *out) {
    struct text names = {0};
    for (size_t i = 0; i < blend->count; i++)
        if (!component_hazards_known(blend->components[i]))
            text_printf(&names, "%s%s", names.length ? ", " : "", blend->components[i]->id);
    if (names.length && case_announces_people(replacing->inv->casefile))
        text_say(out,
                 " Of the hazards of %s nothing is known: NOT JUDGED for the people who work there by the case. No "
                 "work with it until its safety data sheet has been read.",
                 text_bytes(&names));
    else if (names.length)
        text_say(out, " Of the hazards of %s nothing is known, which is never harmless.", text_bytes(&names));
    text_release(&names);
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
            index_shown(old->air.index), old->air.authority->id);
    else if (old->air.authority && old->air.verdict == EXPOSURE_OVER)
        text_say(out, " In this room its index is %.2f (%s): OVER the limits.", index_shown(old->air.index),
                 old->air.authority->id);
    else if (old->air.authority)
        text_say(out, " In this room its index is %.2f (%s).", index_shown(old->air.index), old->air.authority->id);
    text_release(&classes);
}

static void add_original_film(const struct portrait *old, struct text *out) {
    if (old->film == FILM_WITHOUT_LIMIT)
        text_say(out, " %s swells without limit in it.", old->spared->id);
    if (old->film != FILM_BOUNDED)
        return;
    struct text inside = {0};
    char words[CELL_BYTES];
    replacing_swelling(old, words);
    for (size_t i = 0; i < old->blend.count; i++)
        text_printf(&inside, "%s%s %.0f %%", i ? ", " : "", old->blend.components[i]->id, 100 * old->inside[i]);
    text_say(out, " What enters %s (%s): %s.", old->spared->id, words, text_bytes(&inside));
    text_release(&inside);
}

void replacing_add_original(const struct replacing *replacing, struct text *out) {
    const struct portrait *old = &replacing->found.original;
    text_say(out, "Hansen %.1f/%.1f/%.1f MPa^0.5, triangle %.0f/%.0f/%.0f.", old->hansen.delta_d, old->hansen.delta_p,
             old->hansen.delta_h, old->teas.fd, old->teas.fp, old->teas.fh);
    if (old->last)
        text_say(out, " Its last 5 %% are %.0f %% %s; residue %s.", 100 * old->last_share, old->last->id,
                 say(retention_words(old->residue)));
    add_original_film(old, out);
    if (old->dissolves_judged && old->dissolves)
        text_say(out, " By the film model it dissolves what is to be removed (RED %.2f).", old->red_remove);
    else if (old->dissolves_judged)
        text_say(out, " By the film model it does not dissolve what is to be removed (RED %.2f).", old->red_remove);
    add_original_hazard(old, out);
    add_unknown_hazards(replacing, &old->blend, out);
    if (old->phase == PHASE_TWO)
        text_say(out, " It is two liquids in the bottle, so its mean place is fiction: nothing can be near to it.");
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
    replacing_swelling(old, before);
    replacing_swelling(new, after);
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

static void add_health(const struct replacing *replacing, const struct replacement_row *row, struct text *out) {
    const struct portrait *old = &replacing->found.original;
    const char *before = say(health_burden_words(old->burden)), *after = say(health_burden_words(row->portrait.burden));
    bool same = old->burden == row->portrait.burden; // less or more of it by vapour, index or classes, told below
    switch (row->like.match[RESPECT_HEALTH]) {
    case MATCH_WORSE:
        if (same)
            text_say(out, " MORE hazardous, though the statements weigh the same (%s).", after);
        else
            text_say(out, " MORE hazardous (statements: %s, before %s).", after, before);
        break;
    case MATCH_BETTER:
        if (same)
            text_say(out, " Less hazardous, though the statements weigh the same (%s).", after);
        else
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
    add_unknown_hazards(replacing, &row->portrait.blend, out);
    add_vapour(old, row, out);
    add_classes(&row->like, out);
}

static void add_air(const struct air_index *old, const struct air_index *new, struct text *out) {
    if (!old->authority || !new->authority)
        return;
    if (!new->complete)
        text_say(out, " In this room its index is at least %.2f (%s), before %.2f (%s): a component has no limit.",
                 index_shown(new->index), new->authority->id, index_shown(old->index), old->authority->id);
    else if (new->verdict == EXPOSURE_OVER &&new->index <= 1)
        text_say(out,
                 " In this room its index is %.2f (%s), before %.2f (%s), but it is OVER: another limit, an IDLH or "
                 "the fire alarm is passed.",
                 index_shown(new->index), new->authority->id, index_shown(old->index), old->authority->id);
    else if (new->verdict == EXPOSURE_OVER)
        text_say(out, " In this room its index is %.2f (%s), before %.2f (%s): OVER the limits.",
                 index_shown(new->index), new->authority->id, index_shown(old->index), old->authority->id);
    else
        text_say(out, " In this room its index is %.2f (%s), before %.2f (%s).", index_shown(new->index),
                 new->authority->id, index_shown(old->index), old->authority->id);
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

void replacing_add_change(const struct replacing *replacing, const struct replacement_row *row, struct text *out) {
    const struct portrait *old = &replacing->found.original;
    add_alike(row, out);
    add_health(replacing, row, out);
    add_air(&old->air, &row->portrait.air, out);
    add_triangle(&row->like, out);
    add_drying(old, row, out);
    add_paint(old, row, out);
    add_varnish(old, row, out);
    add_fire(old, row, out);
    add_sensitive(replacing, row, out);
    if (row->similar)
        text_say(out, " Sets of bottles that bring nothing new over it: %zu.", row->similar);
}

void replacing_add_nearest(const struct replacing *replacing, struct text *out) {
    const struct replacement *found = &replacing->found;
    struct text recipe = {0};
    double nearest = ceil(10 * found->nearest_ra) / 10;
    char within[FIGURE_BYTES]; // to be typed, so with a point in every language
    if (found->nearest.count == 0) {
        text_say(out, "No bottle is left to look at.");
        return;
    }
    if (found->split) {
        text_say(out, "Every blend that is near enough is two liquids in the bottle.");
        return;
    }
    blend_write(&found->nearest_blend, &recipe);
    snprintf(within, sizeof within, "%.1f", nearest);
    if (nearest <= WITHIN_MOST)
        text_say(out, "The nearest is %s at %.1f MPa^0.5; --within %s would list it.", text_bytes(&recipe),
                 found->nearest_ra, within);
    else
        text_say(out, "The nearest is %s at %.1f MPa^0.5: another kind of liquid.", text_bytes(&recipe),
                 found->nearest_ra);
    out->failed |= recipe.failed;
    text_release(&recipe);
}

bool newly_touched(const struct replacing *replacing, const struct replacement_row *row,
                   const struct sensitivity *sensitivity) {
    return sensitivity_touched(sensitivity, &row->portrait.blend, NULL) &&
           !sensitivity_touched(sensitivity, &replacing->original, NULL);
}
