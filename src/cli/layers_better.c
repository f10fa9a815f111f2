// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for people: other carriers, resins and orders.
#include "base/language.h"
#include "cli/layers.h"

static const char *proposal(const struct stack_answer *answer, const struct better *better, struct arena *arena) {
    struct text carrier = {0};
    const char *resin = better->material->id;
    const char *word = say(touch_words[better->worst]);
    const char *sentence;
    blend_write(&better->carrier, &carrier);
    if (better->kind == BETTER_CARRIER)
        sentence = arena_say(arena, "%zu  %s in %s instead: %s.", better->layer + 1, resin, text_bytes(&carrier), word);
    else if (better->kind == BETTER_RESIN)
        sentence =
            arena_say(arena, "%zu  another resin, %s in %s: %s.", better->layer + 1, resin, text_bytes(&carrier), word);
    else
        sentence = arena_say(arena, "%zu  another order, %s above and %s below: %s.", better->layer + 1, resin,
                             answer->stack.layers[better->layer].material->id, word);
    text_release(&carrier);
    return sentence;
}

void layers_tell_better(const struct stack_answer *answer, const struct better *better, struct layer_sentences *told) {
    layers_tell(told, proposal(answer, better, told->arena));
    if (!better->ageing_known && better->kind == BETTER_RESIN)
        layers_tell(told, say("Nothing is known of its ageing: no published data on it were found."));
    else if (!better->ageing_known)
        layers_tell(told, say("No published data on its ageing were found."));
    if (better->later == REMOVAL_NOTHING)
        layers_tell(told, say("But nothing on this shelf takes it off later and leaves what lies below."));
    else if (better->later == REMOVAL_NO_FIGURES)
        layers_tell(told, say("How it comes off when it has aged is not published."));
}

static void write_one(const struct stack_answer *answer, const struct better *better, struct arena *arena,
                      struct text *out) {
    struct layer_sentences told = {.arena = arena};
    layers_tell_better(answer, better, &told);
    for (size_t i = 0; i < told.count; i++)
        page_paragraph_f(out, i ? 6 : 2, 6, "%s", told.items[i]);
    out->failed |= told.failed;
}

void write_better(const struct stack_answer *answer, struct arena *arena, struct text *out) {
    if (!answer->better_sought)
        return;
    page_heading(out, "what would be better, from the shelf and the tables");
    for (size_t i = 0; i < answer->better.count; i++)
        write_one(answer, &answer->better.items[i], arena, out);
    if (answer->better.count == 0)
        page_paragraph_f(
            out, 2, 4,
            "No carrier of this shelf and none of %zu other resins with a carrier of it does better by the "
            "tables. A resin that dissolves in what the layers below do not is what to look for.",
            answer->better.resins_tried);
}
