// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for people: what each new layer does to those below, and why. Every sentence is whole.
#include "base/language.h"
#include "cli/layers.h"

#include <math.h>

// --- the matrix ---

enum { NAMED_COLUMNS = 3, COLUMNS_THAT_FIT = 5 };

static const char *const column_numbers[STACK_LAYERS_MAX] = {N_("on 1"), N_("on 2"), N_("on 3"), N_("on 4"),
                                                             N_("on 5"), N_("on 6"), N_("on 7"), N_("on 8")};

// Short, so that seven columns fit on a page; the whole words stand below.
static const char *const short_words[] = {N_("leaves"),   N_("swells"), N_("softens"),
                                          N_("may lift"), N_("lifts"),  N_("?")};

static void write_matrix_row(const struct stack_answer *answer, size_t upper, size_t columns, struct sheet *sheet) {
    if (columns <= NAMED_COLUMNS)
        sheet_cell(sheet, "%zu  %s", upper + 1, answer->stack.layers[upper].material->id);
    else
        sheet_cell(sheet, "%zu", upper + 1);
    for (size_t lower = 0; lower < columns; lower++) {
        const struct layer_pair *pair = pair_of(answer, upper, lower);
        if (!pair)
            sheet_cell(sheet, "%s", "");
        else if (pair->touches)
            sheet_cell(sheet, "%s", say(short_words[pair->touch]));
        else
            sheet_cell(sheet, "(%s)", say(short_words[pair->touch]));
    }
}

static bool any_covered(const struct stack_answer *answer) {
    for (size_t i = 0; i < answer->pair_count; i++)
        if (!answer->pairs[i].touches)
            return true;
    return false;
}

static void write_sheet(const struct stack_answer *answer, struct text *out) {
    struct sheet sheet = {.indent = 2};
    size_t columns = answer->stack.count - 1;
    sheet_column(&sheet, "new layer", false);
    for (size_t i = 0; i < columns; i++)
        sheet_column(&sheet, column_numbers[i], false);
    for (size_t upper = answer->stack.count; upper-- > 1;)
        if (answer->coats[upper])
            write_matrix_row(answer, upper, columns, &sheet);
    sheet_write(&sheet, out);
}

// The same turned on its side, pair by pair, where the columns would be wider than the page.
static void write_long_sheet(const struct stack_answer *answer, struct text *out) {
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "new layer", false);
    sheet_column(&sheet, "on", true);
    sheet_column(&sheet, "does", false);
    for (size_t upper = answer->stack.count; upper-- > 1;)
        for (size_t lower = upper; lower-- > 0;) {
            const struct layer_pair *pair = pair_of(answer, upper, lower);
            if (!pair)
                continue;
            sheet_cell(&sheet, "%zu  %s", upper + 1, answer->stack.layers[upper].material->id);
            sheet_cell(&sheet, "%zu", lower + 1);
            if (pair->touches)
                sheet_cell(&sheet, "%s", say(touch_words[pair->touch]));
            else
                sheet_cell(&sheet, "(%s)", say(touch_words[pair->touch]));
        }
    sheet_write(&sheet, out);
}

static void write_matrix(const struct stack_answer *answer, struct text *out) {
    page_heading(out, "what each new layer does to those below");
    if (answer->stack.count - 1 <= COLUMNS_THAT_FIT)
        write_sheet(answer, out);
    else
        write_long_sheet(answer, out);
    if (any_covered(answer))
        page_paragraph(out, 2, 2,
                       "In brackets: covered by a layer between; it counts only where that one is thin or lifts.");
}

// --- why ---

static void write_head(const struct layer_pair *pair, struct text *out) {
    page_paragraph_f(out, 2, 4, "%zu on %zu: %s.", pair->upper + 1, pair->lower + 1, say(touch_words[pair->touch]));
}

static void tell_probability(const struct layer_pair *pair, struct layer_sentences *told) {
    if (pair->touch == TOUCH_NOT_JUDGED || !pair->judged)
        return;
    if (!isnan(pair->p_dissolves))
        layers_tell(
            told,
            arena_say(told->arena,
                      "The carrier dissolves %s with a probability of %.2f over all doubts; RED %.2f as mixed, %.2f at "
                      "its strongest while the coat is wet.",
                      pair->judged->id, pair->p_dissolves, pair->red, pair->red_least));
    else if (pair->neat.outcome == FILM_BOUNDED && !isnan(pair->swelling_least))
        layers_tell(told,
                    arena_say(told->arena, "%s takes up as much as the band '%s' says, '%s' to '%s' over the doubts.",
                              pair->judged->id, say(film_band_words(film_band(pair->neat.swelling))),
                              say(film_band_words(film_band(pair->swelling_least))),
                              say(film_band_words(film_band(pair->swelling_most)))));
    else if (!isnan(pair->red_least))
        layers_tell(told, arena_say(told->arena, "No probability can be given; RED of the carrier on %s %.2f.",
                                    pair->judged->id, pair->red_least));
}

static void tell_wet_film(const struct layer_pair *pair, struct layer_sentences *told) {
    if (!pair->resin_counted || !pair->judged || pair->judged->film != FILM_DISSOLVES ||
        pair->touch == TOUCH_NOT_JUDGED)
        return;
    bool neat = pair->neat.outcome == FILM_WITHOUT_LIMIT, wet = pair->wet.outcome == FILM_WITHOUT_LIMIT;
    if (neat && wet)
        layers_tell(told, say("By the film model it dissolves under the wet coat, the resin in it counted."));
    else if (neat && pair->wet.outcome == FILM_BOUNDED)
        layers_tell(
            told,
            arena_say(told->arena,
                      "By the film model the carrier alone dissolves it; the resin in the coat holds the carrier back, "
                      "so that it only swells (%.2f of its volume).",
                      pair->wet.swelling));
    else if (pair->neat.outcome == FILM_BOUNDED && pair->wet.outcome == FILM_BOUNDED)
        layers_tell(
            told,
            arena_say(
                told->arena,
                "By the film model it takes up %.2f of its volume under the carrier alone, %.2f under the wet coat "
                "with its resin.",
                pair->neat.swelling, pair->wet.swelling));
}

static void tell_threshold(const struct layer_pair *pair, struct layer_sentences *told) {
    const struct lifting_threshold *row = pair->threshold;
    if (!row)
        return;
    if (pair->reasons & PAIR_PUBLISHED_THRESHOLD)
        layers_tell(told, arena_say(told->arena,
                                    "Published (%s): %s The carrier holds up to %.0f %% while the coat is wet; "
                                    "that outranks the models.",
                                    say(doubt_words(&row->from)), say(row->words), pair->family_percent));
    else if (pair->reasons & PAIR_NEAR_THRESHOLD)
        layers_tell(told, arena_say(told->arena,
                                    "Published (%s): %s The carrier holds up to %.0f %% while the coat is wet: "
                                    "near it, and grades differ.",
                                    say(doubt_words(&row->from)), say(row->words), pair->family_percent));
    else if (pair->family_percent >= 1)
        layers_tell(told, arena_say(told->arena, "Published (%s): %s The carrier holds up to %.0f %%, far below.",
                                    say(doubt_words(&row->from)), say(row->words), pair->family_percent));
    else if (pair->touch < TOUCH_MAY_LIFT)
        layers_tell(told, arena_say(told->arena, "Published (%s): %s The carrier holds none.",
                                    say(doubt_words(&row->from)), say(row->words)));
}

static void tell_retention(const struct stack_answer *answer, const struct layer_pair *pair,
                           struct layer_sentences *told) {
    double days = answer->stack.layers[pair->lower].drying_days;
    if (!(pair->reasons & PAIR_CARRIER_RETAINED))
        return;
    if (isnan(days))
        layers_tell(told,
                    arena_say(told->arena,
                              "How long layer %zu dries is not stated; its own carrier stays (%s), so it "
                              "is softer than computed. "
                              "Wait at least %.0f days.",
                              pair->lower + 1, say(retention_words(pair->retained)), retention_days(pair->retained)));
    else
        layers_tell(told, arena_say(told->arena,
                                    "After %.3g days layer %zu still holds some of its own carrier (retention: "
                                    "%s), so it is softer than "
                                    "computed.",
                                    days, pair->lower + 1, say(retention_words(pair->retained))));
    if (pair->published_retained)
        layers_tell(told, arena_say(told->arena, "Published, after %.0f days: %s.", pair->published_retained->days,
                                    say(pair->published_retained->words)));
}

// Below this distance between two resins they are called close; ours, about the scatter of a fitted centre.
static const double close_resins = 4;

static void tell_remarks(const struct layer_pair *pair, struct layer_sentences *told) {
    if (pair->reasons & PAIR_SPLITS)
        layers_tell(told, say("The carrier is two liquids: its average strength is fiction. Change the carrier."));
    if (pair->reasons & PAIR_NO_REGION)
        layers_tell(told,
                    say("No region is published for the lower layer and none stands in for it: only a test can tell."));
    if (pair->reasons & PAIR_NOT_COVERED)
        layers_tell(told, say("No model covers this carrier on this layer: only a test can tell."));
    if (pair->reasons & PAIR_STAND_IN)
        layers_tell(told, arena_say(told->arena,
                                    "No region is published for the lower layer; its careful stand-in %s is taken.",
                                    pair->judged->id));
    if (pair->reasons & PAIR_VIEWS_DISAGREE)
        layers_tell(told, say("Film model and sphere disagree whether it dissolves; a test decides."));
    if (pair->reasons & PAIR_SAME_RESIN)
        layers_tell(
            told,
            say("The same resin twice: whatever carries the upper layer dissolves the lower one. They fuse; lay on "
                "without going over it twice, and expect that nothing will part them later."));
    else if (pair->resin_ra < close_resins && pair->touch >= TOUCH_SOFTENS && pair->touch != TOUCH_NOT_JUDGED)
        layers_tell(
            told,
            arena_say(
                told->arena,
                "The two resins are close (%.1f MPa^0.5 apart), so they mingle where both are wet: the resin bites "
                "more than its carrier alone.",
                pair->resin_ra));
}

void layers_tell_pair(const struct stack_answer *answer, const struct layer_pair *pair, struct layer_sentences *told) {
    tell_probability(pair, told);
    tell_wet_film(pair, told);
    tell_threshold(pair, told);
    tell_retention(answer, pair, told);
    tell_remarks(pair, told);
}

const struct layer_pair *layers_told_before(const struct stack_answer *answer, const struct layer_pair *pair) {
    for (size_t lower = pair->lower + 1; lower < pair->upper; lower++) {
        const struct layer_pair *other = pair_of(answer, pair->upper, lower);
        if (other && other->judged == pair->judged && other->touch == pair->touch && other->reasons == pair->reasons &&
            other->touches)
            return other;
    }
    return NULL;
}

static void write_pair(const struct stack_answer *answer, const struct layer_pair *pair, struct arena *arena,
                       struct text *out) {
    const struct layer_pair *before = layers_told_before(answer, pair);
    if (before) {
        page_paragraph_f(out, 2, 4, "%zu on %zu: %s, as on %zu.", pair->upper + 1, pair->lower + 1,
                         say(touch_words[pair->touch]), before->lower + 1);
        return;
    }
    struct layer_sentences told = {.arena = arena};
    layers_tell_pair(answer, pair, &told);
    write_head(pair, out);
    layers_write_told(&told, 6, out);
}

bool layers_pair_told(const struct layer_pair *pair) {
    return pair && (pair->touches || pair->touch >= TOUCH_MAY_LIFT);
}

void write_pairs(const struct stack_answer *answer, struct arena *arena, struct text *out) {
    write_matrix(answer, out);
    page_heading(out, "why");
    for (size_t upper = answer->stack.count; upper-- > 1;)
        for (size_t lower = upper; lower-- > 0;) {
            const struct layer_pair *pair = pair_of(answer, upper, lower);
            if (layers_pair_told(pair))
                write_pair(answer, pair, arena, out);
        }
}
