// SPDX-License-Identifier: GPL-3.0-or-later
// The report: the layers planned in the case, as `layers` judges them.
#include "base/language.h"
#include "cli/draw_layers.h"
#include "cli/report_figure.h"

#include <math.h>

extern const struct command cmd_layers;

enum status report_ask_planned(struct report *report, struct error *err) {
    struct report_answer *answer = &report->has_planned;
    enum status status = STATUS_OK;
    if (report->file->planned.count == 0)
        return STATUS_OK;
    struct invocation *call = report_call(report, &cmd_layers, true, &status, &answer->why);
    report->planned = arena_new(report->inv->arena, 1, sizeof *report->planned);
    if (!call || !report->planned)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const char *doubt = option_value(report->inv, "--doubt");
    if (doubt)
        option_fill(call, "--doubt", doubt);
    if (status == STATUS_OK || status == STATUS_NO_DATA) // a goal without a material is no matter of the plan
        status = layers_answer_make(call, report->planned, &answer->why);
    return report_end_call(call, answer, status, err);
}

void report_release_planned(struct report *report) {
    if (report->planned)
        layers_answer_release(report->planned);
}

// --- one stack ---

static const char *numbered(struct report *report, const struct stack_answer *stack, size_t layer) {
    return document_print(report->document, "%zu %s", layer + 1, stack->stack.layers[layer].material->id);
}

static void add_stack(struct report *report, struct document_section *section, const struct stack_answer *stack,
                      const char *id) {
    struct document_table *table =
        stack->stack.option
            ? document_table(section, id,
                             document_say(report->document, "Variant %s, from the top down", stack->stack.option))
            : document_table(section, id, "The stack, from the top down");
    table_column(table, "layer", "No.", NULL, true);
    table_column(table, "role", "Role", NULL, false);
    table_column(table, "material", "Material", NULL, false);
    table_column(table, "percent_w_v", "Strength", "% w/v", true);
    table_column(table, "carrier", "Carrier", NULL, false);
    table_column(table, "method", "Laid on by", NULL, false);
    table_column(table, "drying_days", "Dries for", "d", true);
    for (size_t i = stack->stack.count; i-- > 0;) {
        const struct stack_layer *layer = &stack->stack.layers[i];
        table_decimals(table, (double)(i + 1), 0);
        table_words(table, say(planned_role_words[layer->role]));
        table_words(table, layer->material->id);
        table_number(table, layer->percent_w_v, 0);
        table_words(table, layer->carrier_words);
        table_words(table, layer->planned ? say(coat_method_words[layer->method]) : say("stands already"));
        table_number(table, layer->drying_days, 0);
    }
}

static const char *joined(struct report *report, const struct layer_sentences *told) {
    struct text words = {0};
    for (size_t i = 0; i < told->count; i++)
        text_printf(&words, "%s%s", i ? " " : "", told->items[i]);
    report->document->failed |= told->failed;
    return document_take(report->document, &words);
}

static void add_pair(struct report *report, struct document_table *table, const struct stack_answer *stack,
                     const struct layer_pair *pair) {
    struct layer_sentences told = {.arena = report->inv->arena};
    const char *word = say(touch_words[pair->touch]);
    const struct layer_pair *before = layers_told_before(stack, pair);
    table_decimals(table, (double)(pair->upper + 1), 0);
    table_words(table, numbered(report, stack, pair->lower));
    if (pair->threshold)
        cited_add(&report->cited, &pair->threshold->from);
    if (pair->published_retained)
        cited_add(&report->cited, &pair->published_retained->from);
    table_words(table, pair->touches ? word : document_print(report->document, "(%s)", word));
    table_share(table, pair->p_dissolves);
    table_decimals(table, pair->red_least, 2);
    if (!layers_pair_told(pair))
        return;
    if (before)
        layers_tell(&told, document_say(report->document, "as on %zu", before->lower + 1));
    else
        layers_tell_pair(stack, pair, &told);
    table_note(table, joined(report, &told));
}

static void add_pairs(struct report *report, struct document_section *section, const struct stack_answer *stack,
                      const char *id) {
    struct document_table *table = document_table(section, id, "What each new layer does to those below");
    bool covered = false;
    table_column(table, "upper", "New layer", NULL, true);
    table_column(table, "lower", "On", NULL, false);
    table_column(table, "touch", "Does", NULL, false);
    table_column(table, "p_dissolves", "Dissolves it", NULL, true);
    table_column(table, "red_least", "RED", NULL, true);
    for (size_t upper = stack->stack.count; upper-- > 1;)
        for (size_t lower = upper; lower-- > 0;) {
            const struct layer_pair *pair = pair_of(stack, upper, lower);
            if (!pair)
                continue;
            add_pair(report, table, stack, pair);
            covered |= !pair->touches;
        }
    if (covered)
        document_paragraph(section, PARAGRAPH_SMALL,
                           "In brackets: covered by a layer between; it counts only where that one is thin or lifts.");
}

// What is to be known first: the verdict on each layer.
static void add_conclusions(struct report *report, struct document_section *section, const struct stack_answer *stack) {
    for (size_t k = stack->stack.count; k-- > 0;) {
        const char *sentence = layers_conclusion(stack, k, report->inv->arena);
        report->document->failed |= !sentence;
        if (!sentence || !stack->stack.layers[k].planned)
            continue;
        enum paragraph_style style = stack->worst_of[k] >= TOUCH_MAY_LIFT ? PARAGRAPH_CAUTION : PARAGRAPH_ITEM;
        if (stack->stack.option)
            document_paragraph(section, style, "%s: %s", stack->stack.option, sentence);
        else
            document_paragraph(section, style, "%s", sentence);
    }
}

// --- in short ---

static void add_layer_words(const struct stack_answer *stack, size_t k, struct text *out) {
    const struct stack_layer *layer = &stack->stack.layers[k];
    text_printf(out, "%s%zu %s", out->length ? "; " : "", k + 1, layer->material->id);
    if (!layer->planned)
        return;
    if (!isnan(layer->percent_w_v))
        text_printf(out, " %g %%", layer->percent_w_v);
    if (layer->carrier_words)
        text_say(out, " in %s, %s", layer->carrier_words, say(coat_method_words[layer->method]));
}

void report_add_planned_short(struct report *report, size_t most) {
    if (!report->has_planned.there)
        return;
    struct document_section *section = document_section(report->document, "planned", "What is planned to be put back");
    size_t count = report->planned->stack_count;
    for (size_t i = 0; i < count && i < most; i++) {
        const struct stack_answer *stack = &report->planned->stacks[i];
        struct text words = {0};
        for (size_t k = stack->stack.count; k-- > 0;)
            add_layer_words(stack, k, &words);
        const char *layers = document_take(report->document, &words);
        if (stack->stack.option)
            document_paragraph(section, PARAGRAPH_PLAIN, "Variant %s, from the top down: %s.", stack->stack.option,
                               layers);
        else
            document_paragraph(section, PARAGRAPH_PLAIN, "From the top down: %s.", layers);
        add_conclusions(report, section, stack);
    }
    if (count > most)
        document_paragraph(section, PARAGRAPH_SMALL, "%zu more variants: see the full report.", count - most);
}

// --- carriers ---

const struct blend *report_planned_carrier(const struct report *report, size_t index) {
    for (size_t i = 0; report->has_planned.there && i < report->planned->stack_count; i++) {
        const struct stack *stack = &report->planned->stacks[i].stack;
        for (size_t k = 0; k < stack->count; k++)
            if (stack->layers[k].planned && stack->layers[k].carrier.count && index-- == 0)
                return &stack->layers[k].carrier;
    }
    return NULL;
}

void report_add_planned_air(struct report *report, struct document_section *section) {
    if (report_planned_carrier(report, 0))
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "The carrier of a planned coat is not judged here, and a spray puts all of it into the air "
                           "at once: ask mildsolve exposure with the amounts.");
}

static void add_better(struct report *report, struct document_section *section, const struct stack_answer *stack) {
    if (!stack->better_sought)
        return;
    document_paragraph(section, PARAGRAPH_PLAIN, "What would be better, from the shelf and the tables:");
    for (size_t i = 0; i < stack->better.count; i++) {
        struct layer_sentences told = {.arena = report->inv->arena};
        layers_tell_better(stack, &stack->better.items[i], &told);
        document_paragraph(section, PARAGRAPH_ITEM, "%s", joined(report, &told));
    }
    if (stack->better.count == 0)
        document_paragraph(section, PARAGRAPH_ITEM, "Nothing by the tables (other resins tried: %zu).",
                           stack->better.resins_tried);
}

static const char *below_words(struct report *report, const struct ranked_row *row) {
    const struct material *spared = row->row.spared;
    if (!spared)
        return say("nothing below is to be spared");
    if (spared->film == FILM_DISSOLVES)
        return document_print(report->document, "%s %s", spared->id, say(film_softening_words(row->row.swelling)));
    return document_say(report->document, "%s takes up: %s", spared->id,
                        say(film_band_words(film_band(row->row.swelling))));
}

static void add_removal(struct report *report, struct document_table *table, const struct stack_answer *stack,
                        const struct layer_removal *removal, bool alike) {
    struct layer_sentences told = {.arena = report->inv->arena};
    const struct ranking *found = &removal->ranking;
    const char *state = alike ? say("both") : removal->aged ? say("aged") : say("fresh");
    for (size_t i = 0; i < found->count; i++) {
        const struct ranked_row *row = &found->rows[i];
        table_decimals(table, (double)(removal->layer + 1), 0);
        table_words(table, state);
        table_words(table, report_notation(report, &row->blend));
        table_share(table, row->doubted ? row->doubt.p_works : 1);
        table_words(table, below_words(report, row));
    }
    if (found->count == 0) {
        table_decimals(table, (double)(removal->layer + 1), 0);
        table_words(table, state);
        table_words(table, say("none"));
        table_share(table, NAN);
        table_words(table, NULL);
    }
    layers_tell_removal(report->planned, stack, removal, false, &told);
    table_note(table, joined(report, &told));
}

static void add_removals(struct report *report, struct document_section *section, const struct stack_answer *stack,
                         const char *id) {
    if (stack->removal_count == 0)
        return;
    struct document_table *table =
        document_table(section, id, "Taking it off later without touching what lies below, mildest first");
    table_column(table, "layer", "Layer", NULL, true);
    table_column(table, "state", "State", NULL, false);
    table_column(table, "blend", "Blend, parts by volume", NULL, false);
    table_column(table, "p_works", "Works", NULL, true);
    table_column(table, "below", "Below", NULL, false);
    for (size_t i = 0; i + 1 < stack->removal_count; i += 2) {
        bool alike = layers_same_search(&stack->removals[i], &stack->removals[i + 1]);
        if (!alike)
            add_removal(report, table, stack, &stack->removals[i], false);
        add_removal(report, table, stack, &stack->removals[i + 1], alike);
    }
}

// --- figures ---

static enum status draw_section(const struct report *report, struct section_chart_input *input, struct picture *ret,
                                struct error *err) {
    struct text_metric metric = canvas_metric(report->canvas);
    struct section_layout layout;
    report_set_page(report, &input->page, SHEET_HALF);
    enum status status = section_layout_make(input, &metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = section_picture(&layout, ret, err);
    section_layout_release(&layout);
    return status;
}

static void add_section_figure(struct report *report, struct document_section *section) {
    struct section_chart_input input;
    struct picture picture = {0};
    struct error err = {0};
    enum status status = layers_section_of(report->planned, &input, &err);
    if (status == STATUS_OK && report->canvas)
        status = draw_section(report, &input, &picture, &err);
    report_add_figure(report, section, "figure-section", status,
                      document_say(report->document, "The planned layers as a section"),
                      document_say(report->document,
                                   "The layers of each variant one above the other; beside each layer, what the new "
                                   "layers above do to it. The tables above say the same."),
                      &picture, &err);
}

static void add_windows_figure(struct report *report, struct document_section *section) {
    struct teas_chart_input input;
    struct picture picture = {0};
    struct error err = {0};
    enum status status = layers_windows_of(report->planned, &input, &err);
    if (status == STATUS_OK && report->canvas) {
        report_set_page(report, &input.page, SHEET_FULL);
        status = report_teas_picture(report, &input, &picture, &err);
    }
    report_add_figure(report, section, "figure-layers", status,
                      document_say(report->document, "Windows of the layers, fresh and aged, and the carriers"),
                      document_say(report->document, "Triangle with %zu areas of materials and %zu carriers.",
                                   input.area_count, input.point_count),
                      &picture, &err);
}

void report_add_planned(struct report *report) {
    if (report->file->planned.count == 0)
        return;
    struct document_section *section = document_section(report->document, "planned", "What is planned to be put back");
    if (!report->has_planned.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "The planned layers cannot be judged: %s.",
                           report->has_planned.why.text);
        return;
    }
    for (size_t i = 0; i < report->planned->stack_count; i++)
        add_conclusions(report, section, &report->planned->stacks[i]);
    for (size_t i = 0; i < report->planned->stack_count; i++) {
        const struct stack_answer *stack = &report->planned->stacks[i];
        add_stack(report, section, stack, document_print(report->document, "stack-%zu", i + 1));
        add_pairs(report, section, stack, document_print(report->document, "pairs-%zu", i + 1));
        add_better(report, section, stack);
        add_removals(report, section, stack, document_print(report->document, "later-%zu", i + 1));
    }
    add_section_figure(report, section);
    add_windows_figure(report, section);
    document_paragraph(section, PARAGRAPH_SMALL,
                       "Films are in equilibrium with the wet coat, which a thin coat may not reach; how far the brush "
                       "works the surface, how thick and how old the layers are, and pigment are not computed. Try a "
                       "corner first.");
}
