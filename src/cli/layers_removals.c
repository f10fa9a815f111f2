// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for people: how each new layer comes off later.
#include "base/language.h"
#include "cli/layers.h"

#include <string.h>

static void tell_row(const struct ranked_row *row, struct layer_sentences *told) {
    struct text recipe = {0};
    const struct material *spared = row->row.spared;
    blend_write(&row->blend, &recipe);
    if (!spared)
        layers_tell(told, arena_say(told->arena, "%s (works %.2f; nothing below is to be spared)", text_bytes(&recipe),
                                    row->doubted ? row->doubt.p_works : 1));
    else if (spared->film == FILM_DISSOLVES)
        layers_tell(told, arena_say(told->arena, "%s (works %.2f; below, %s %s)", text_bytes(&recipe),
                                    row->doubted ? row->doubt.p_works : 1, spared->id,
                                    say(film_softening_words(row->row.swelling))));
    else
        layers_tell(told, arena_say(told->arena, "%s (works %.2f; below, %s takes up: %s)", text_bytes(&recipe),
                                    row->doubted ? row->doubt.p_works : 1, spared->id,
                                    say(film_band_words(film_band(row->row.swelling)))));
    text_release(&recipe);
}

static void tell_nothing(const struct layers_answer *answer, const struct layer_removal *removal,
                         struct layer_sentences *told) {
    const struct ranking *ranking = &removal->ranking;
    if (!(ranking->best_probability > 0)) {
        layers_tell(
            told,
            say("Nothing on this shelf takes it off and leaves what lies below. Another resin or another order is "
                "better than a promise."));
        return;
    }
    struct text recipe = {0};
    composition_recipe(&answer->shelf, &ranking->likeliest, &recipe);
    if (ranking->best_probability < answer->least_probability)
        layers_tell(told, arena_say(told->arena, "Nothing with a probability of %.2f; the likeliest is %s (%.2f).",
                                    answer->least_probability, text_bytes(&recipe), ranking->best_probability));
    else
        layers_tell(
            told,
            arena_say(told->arena,
                      "Nothing leaves what lies below with enough certainty. What takes this layer off most surely, %s "
                      "(%.2f), dissolves something below in half of the samples or more.",
                      text_bytes(&recipe), ranking->best_probability));
    text_release(&recipe);
}

static void tell_published(const struct layers_answer *answer, const struct layer_removal *removal,
                           const struct material *material, struct layer_sentences *told) {
    const struct library *lib = &answer->inv->library;
    const char *later = removal->state && removal->state->aged ? removal->state->aged : material->id;
    for (size_t i = 0; removal->aged && i < lib->published_removal_count; i++) {
        const struct published_removal *row = &lib->published_removals[i];
        if (strcmp(row->material, later) == 0)
            layers_tell(told, arena_say(told->arena, "published (%s): %s: %s (%s)", say(doubt_words(&row->from)),
                                        row->blend, say(removal_outcome_words[row->outcome]), say(row->state)));
    }
}

static void tell_ageing(const struct layer_removal *removal, struct layer_sentences *told) {
    if (!removal->state)
        layers_tell(told, say("No published data on its ageing were found: it is computed as if it stayed as it is."));
    else
        layers_tell(told, arena_say(told->arena, "Ageing (%s): %s", say(doubt_words(&removal->state->from)),
                                    say(removal->state->words)));
    if (removal->state && !removal->target)
        layers_tell(told, say("No figures are published for the aged state, so nothing is searched."));
}

static void tell_limits(const struct layer_removal *removal, struct layer_sentences *told) {
    for (size_t i = 0; i < removal->layer; i++) {
        if (removal->inseparable & (1U << i))
            layers_tell(told,
                        arena_say(told->arena,
                                  "It comes off only together with layer %zu, which dissolves in the same.", i + 1));
        if (removal->without & (1U << i))
            layers_tell(told,
                        arena_say(told->arena,
                                  "Layer %zu has no film model: whether these leave it alone is not known.", i + 1));
    }
}

void layers_tell_removal(const struct layers_answer *answer, const struct stack_answer *stack,
                         const struct layer_removal *removal, bool blends, struct layer_sentences *told) {
    if (removal->aged)
        tell_ageing(removal, told);
    if (removal->stand_in)
        layers_tell(told, arena_say(told->arena, "Computed with the careful stand-in %s.", removal->target->id));
    if (removal->kind == REMOVAL_NO_FIGURES && removal->target)
        layers_tell(told, arena_say(told->arena, "Nothing can be searched: %s.", removal->why.text));
    if (removal->kind == REMOVAL_NOTHING)
        tell_nothing(answer, removal, told);
    for (size_t i = 0; blends && i < removal->ranking.count; i++)
        tell_row(&removal->ranking.rows[i], told);
    tell_published(answer, removal, stack->stack.layers[removal->layer].material, told);
    tell_limits(removal, told);
}

static void write_removal(const struct layers_answer *answer, const struct stack_answer *stack,
                          const struct layer_removal *removal, bool alike, struct text *out) {
    const struct material *material = stack->stack.layers[removal->layer].material;
    struct layer_sentences told = {.arena = answer->inv->arena};
    if (alike)
        page_paragraph_f(out, 2, 4, "%zu  %s, fresh and aged:", removal->layer + 1, material->id);
    else if (removal->aged)
        page_paragraph_f(out, 2, 4, "%zu  %s, aged:", removal->layer + 1, material->id);
    else
        page_paragraph_f(out, 2, 4, "%zu  %s, fresh:", removal->layer + 1, material->id);
    layers_tell_removal(answer, stack, removal, true, &told);
    layers_write_told(&told, 8, out);
}

// Fresh and aged have the same answer: it is said once.
bool layers_same_search(const struct layer_removal *fresh, const struct layer_removal *aged) {
    if (fresh->target != aged->target || fresh->spare_count != aged->spare_count ||
        fresh->inseparable != aged->inseparable || fresh->without != aged->without)
        return false;
    return memcmp(fresh->spare, aged->spare, fresh->spare_count * sizeof fresh->spare[0]) == 0;
}

void write_removals(const struct layers_answer *answer, const struct stack_answer *stack, struct text *out) {
    if (stack->removal_count == 0)
        return;
    page_heading(out, "taking it off later without touching what lies below, mildest first");
    for (size_t i = 0; i + 1 < stack->removal_count; i += 2) {
        bool alike = layers_same_search(&stack->removals[i], &stack->removals[i + 1]);
        if (!alike)
            write_removal(answer, stack, &stack->removals[i], false, out);
        write_removal(answer, stack, &stack->removals[i + 1], alike, out);
    }
}
