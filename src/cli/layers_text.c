// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for people.
#include "base/language.h"
#include "cli/layers.h"

#include <math.h>
#include <stdio.h>

static const char *time_words(double seconds, char buffer[FIGURE_BYTES]) {
    char number[FIGURE_BYTES];
    if (seconds < 90)
        snprintf(buffer, FIGURE_BYTES, "%s s", figure(seconds, 2, number));
    else if (seconds < 5400)
        snprintf(buffer, FIGURE_BYTES, "%s min", figure(seconds / 60, 2, number));
    else
        snprintf(buffer, FIGURE_BYTES, "%s h", figure(seconds / 3600, 2, number));
    return buffer;
}

static void write_drying(const struct stack_layer *layer, struct text *out) {
    if (!isnan(layer->drying_days))
        page_paragraph_f(out, 6, 8, "dries %.3g days before the next", layer->drying_days);
}

static void write_coat(const struct stack_layer *layer, const struct planned_coat *coat, struct text *out) {
    char least[FIGURE_BYTES], most[FIGURE_BYTES];
    if (coat->followed)
        page_paragraph_f(out, 6, 8, "wet for about %s to %s by %s", time_words(coat->coat.seconds_least, least),
                         time_words(coat->coat.seconds_most, most), say(coat_method_words[layer->method]));
    else
        page_paragraph_f(out, 6, 8, "how it dries cannot be computed: %s", coat->why.text);
    if (coat->phase.verdict == PHASE_TWO)
        page_paragraph_f(out, 6, 8, "the carrier separates into two liquids: %s", coat->phase.sentence);
    else if (coat->phase.verdict == PHASE_MAY_SEPARATE)
        page_paragraph(out, 6, 8, "the carrier may separate: shake it and look before use");
    if (coat->resin_known && !coat->resin_dissolves)
        page_paragraph_f(out, 6, 8, "by the tables this carrier is too weak for %s: see whether it dissolves at all",
                         layer->material->id);
}

static void write_layer(const struct stack_answer *answer, size_t i, struct text *out) {
    const struct stack_layer *layer = &answer->stack.layers[i];
    if (!layer->planned && layer->carrier_words)
        page_paragraph_f(out, 2, 6, "%zu  %s: %s in %s, stands already", i + 1, say(planned_role_words[layer->role]),
                         layer->material->id, layer->carrier_words);
    else if (!layer->planned)
        page_paragraph_f(out, 2, 6, "%zu  %s: %s, stands already", i + 1, say(planned_role_words[layer->role]),
                         layer->material->id);
    else if (isnan(layer->percent_w_v))
        page_paragraph_f(out, 2, 6, "%zu  %s: %s in %s (computed with %.0f %% w/v, not stated)", i + 1,
                         say(planned_role_words[layer->role]), layer->material->id, layer->carrier_words,
                         COAT_PERCENT_USUAL);
    else
        page_paragraph_f(out, 2, 6, "%zu  %s: %s %g %% w/v in %s", i + 1, say(planned_role_words[layer->role]),
                         layer->material->id, layer->percent_w_v, layer->carrier_words);
    if (layer->planned)
        write_coat(layer, answer->coats[i], out);
    write_drying(layer, out);
}

const char *layers_conclusion(const struct stack_answer *answer, size_t upper, struct arena *arena) {
    static const char *const words[] = {
        N_("%zu  %s: by the tables it touches nothing below."),
        N_("%zu  %s: swells a little what lies below. Lay it on quickly and do not go over it twice."),
        N_("%zu  %s: softens something below, and a brush would drag it. Try a corner, spray, or change the carrier."),
        N_("%zu  %s: may lift something below. Change carrier, resin or order, or try a corner first."),
        N_("%zu  %s: lifts something below. Change carrier, resin or order."),
        N_("%zu  %s: cannot be judged on all that lies below. Only a test on a corner can tell."),
    };
    enum touch worst = TOUCH_LEAVES;
    for (size_t i = 0; i < answer->pair_count; i++)
        if (answer->pairs[i].upper == upper && answer->pairs[i].touches && answer->pairs[i].touch > worst)
            worst = answer->pairs[i].touch;
    return arena_printf(arena, say(words[worst]), upper + 1, answer->stack.layers[upper].material->id);
}

static void write_conclusion(const struct stack_answer *answer, size_t upper, struct arena *arena, struct text *out) {
    const char *sentence = layers_conclusion(answer, upper, arena);
    if (sentence)
        page_paragraph_f(out, 2, 5, "%s", sentence);
    out->failed |= !sentence;
}

static void write_stack(const struct layers_answer *answer, const struct stack_answer *stack, struct text *out) {
    struct arena *arena = answer->inv->arena;
    if (stack->stack.option)
        page_paragraph_f(out, 0, 2, "stack %s, from the bottom up", stack->stack.option);
    else
        page_paragraph(out, 0, 2, "the stack, from the bottom up");
    for (size_t i = 0; i < stack->stack.count; i++)
        write_layer(stack, i, out);
    write_pairs(stack, arena, out);
    page_heading(out, "in short");
    for (size_t i = stack->stack.count; i-- > 0;)
        if (stack->stack.layers[i].planned)
            write_conclusion(stack, i, arena, out);
    write_better(stack, arena, out);
    write_removals(answer, stack, out);
}

void write_layers_text(const struct layers_answer *answer, struct text *out) {
    for (size_t i = 0; i < answer->stack_count; i++) {
        if (i)
            text_add(out, "\n");
        write_stack(answer, &answer->stacks[i], out);
    }
    page_heading(out, "units and doubt");
    page_paragraph(
        out, 2, 2,
        "Times hold for one coat of usual thickness (brush 30 to 100, spray 10 to 40 micrometres wet) and are "
        "good to a factor of three. Films are in equilibrium with the wet coat, which a thin coat may not reach. "
        "Not computed: how far the brush works the surface, how thick and how old the layers are, and pigment.");
    write_caution(out);
    if (option_given(answer->inv, "--section"))
        page_paragraph_f(out, 0, 2, "section: %s", option_value(answer->inv, "--section"));
    if (option_given(answer->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(answer->inv, "--chart"));
}
