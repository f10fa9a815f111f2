// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for people: other carriers, resins and orders.
#include "base/language.h"
#include "cli/layers.h"

#include <string.h>

static void write_one(const struct stack_answer *answer, const struct better *better, struct text *out) {
    struct text carrier = {0};
    blend_write(&better->carrier, &carrier);
    const char *resin = better->material->id;
    const char *word = say(touch_words[better->worst]);
    if (better->kind == BETTER_CARRIER)
        page_paragraph_f(out, 2, 6, "%zu  %s in %s instead: %s.", better->layer + 1, resin, text_bytes(&carrier), word);
    else if (better->kind == BETTER_RESIN)
        page_paragraph_f(out, 2, 6, "%zu  another resin, %s in %s: %s.", better->layer + 1, resin, text_bytes(&carrier),
                         word);
    else
        page_paragraph_f(out, 2, 6, "%zu  another order, %s above and %s below: %s.", better->layer + 1, resin,
                         answer->stack.layers[better->layer].material->id, word);
    if (!better->ageing_known)
        page_paragraph(out, 6, 6, "No published data on its ageing were found.");
    if (better->later == REMOVAL_NOTHING)
        page_paragraph(out, 6, 6, "But nothing on this shelf takes it off later and leaves what lies below.");
    else if (better->later == REMOVAL_NO_FIGURES)
        page_paragraph(out, 6, 6, "How it comes off when it has aged is not published.");
    text_release(&carrier);
}

void write_better(const struct stack_answer *answer, struct text *out) {
    if (!answer->better_sought)
        return;
    page_heading(out, "what would be better, from the shelf and the tables");
    for (size_t i = 0; i < answer->better.count; i++)
        write_one(answer, &answer->better.items[i], out);
    if (answer->better.count == 0)
        page_paragraph_f(
            out, 2, 4,
            "No carrier of this shelf and none of %zu other resins with a carrier of it does better by the "
            "tables. A resin that dissolves in what the layers below do not is what to look for.",
            answer->better.resins_tried);
}
