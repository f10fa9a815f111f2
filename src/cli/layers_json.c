// SPDX-License-Identifier: GPL-3.0-or-later
// layers, for programs.
#include "cli/layers.h"

#include <math.h>
#include <string.h>

static void json_coat(const struct planned_coat *coat, struct json *json) {
    json_number(json, "wet_least_s", coat->followed ? coat->coat.seconds_least : NAN);
    json_number(json, "wet_most_s", coat->followed ? coat->coat.seconds_most : NAN);
    json_text(json, "phase", phase_verdict_word(coat->phase.verdict));
    if (coat->resin_known)
        json_flag(json, "carrier_dissolves_resin", coat->resin_dissolves);
    else
        json_null(json, "carrier_dissolves_resin");
    json_text(json, "not_followed", coat->followed ? NULL : coat->why.text);
}

static void json_layers(const struct stack_answer *answer, struct json *json) {
    json_list(json, "layers");
    for (size_t i = 0; i < answer->stack.count; i++) {
        const struct stack_layer *layer = &answer->stack.layers[i];
        json_object(json, NULL);
        json_integer(json, "number", (long long)i + 1);
        json_text(json, "id", layer->id);
        json_text(json, "role", planned_role_words[layer->role]);
        json_text(json, "material", layer->material->id);
        json_flag(json, "planned", layer->planned);
        json_text(json, "carrier", layer->carrier_words);
        json_number(json, "percent_w_v", layer->percent_w_v);
        json_text(json, "method", layer->planned ? coat_method_words[layer->method] : NULL);
        json_number(json, "drying_days", layer->drying_days);
        if (layer->planned)
            json_coat(answer->coats[i], json);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_reasons(unsigned reasons, struct json *json) {
    static const char *const words[] = {"published-threshold", "near-threshold",   "views-disagree",
                                        "same-resin",          "carrier-retained", "carrier-splits",
                                        "no-region",           "stand-in",         "not-covered"};
    const char *given[sizeof words / sizeof words[0]];
    size_t count = 0;
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (reasons & (1U << i))
            given[count++] = words[i];
    json_texts(json, "reasons", given, count);
}

static void json_threshold(const struct layer_pair *pair, struct json *json) {
    const struct lifting_threshold *row = pair->threshold;
    if (!row) {
        json_null(json, "threshold");
        return;
    }
    json_object(json, "threshold");
    json_text(json, "family", family_words[row->family]);
    json_text(json, "words", row->words);
    json_number(json, "from_percent", row->from_percent);
    json_number(json, "to_percent", row->to_percent);
    json_number(json, "carrier_percent", pair->family_percent);
    json_provenance(json, "source", &row->from);
    json_close_object(json);
}

static void json_pair(const struct layer_pair *pair, struct json *json) {
    json_object(json, NULL);
    json_integer(json, "upper", (long long)pair->upper + 1);
    json_integer(json, "lower", (long long)pair->lower + 1);
    json_flag(json, "touches", pair->touches);
    json_text(json, "touch", touch_words[pair->touch]);
    json_text(json, "judged_as", pair->judged ? pair->judged->id : NULL);
    json_reasons(pair->reasons, json);
    json_number(json, "p_dissolves", pair->p_dissolves);
    json_number(json, "red", pair->red);
    json_number(json, "red_least", pair->red_least);
    json_number(json, "swelling_carrier", pair->neat.swelling);
    json_text(json, "swelling_carrier_status", film_outcome_word(pair->neat.outcome));
    json_number(json, "swelling_coat", pair->wet.swelling);
    json_text(json, "swelling_coat_status", film_outcome_word(pair->wet.outcome));
    json_flag(json, "resin_counted", pair->resin_counted);
    json_number(json, "swelling_p10", pair->swelling_least);
    json_number(json, "swelling_p90", pair->swelling_most);
    json_threshold(pair, json);
    json_text(json, "retained", retention_words(pair->retained));
    json_text(json, "retained_published", pair->published_retained ? pair->published_retained->words : NULL);
    json_number(json, "resin_ra_mpa05", pair->resin_ra);
    json_close_object(json);
}

static void json_better(const struct stack_answer *answer, struct json *json) {
    json_flag(json, "better_sought", answer->better_sought);
    json_integer(json, "resins_tried", (long long)answer->better.resins_tried);
    json_list(json, "better");
    for (size_t i = 0; i < answer->better.count; i++) {
        const struct better *better = &answer->better.items[i];
        struct text carrier = {0};
        blend_write(&better->carrier, &carrier);
        json_object(json, NULL);
        json_text(json, "kind", better_kind_words[better->kind]);
        json_integer(json, "layer", (long long)better->layer + 1);
        if (better->kind == BETTER_ORDER)
            json_integer(json, "other", (long long)better->other + 1);
        else
            json_null(json, "other");
        json_text(json, "material", better->material->id);
        json_text(json, "carrier", text_bytes(&carrier));
        json_text(json, "worst", touch_words[better->worst]);
        json_flag(json, "ageing_known", better->ageing_known);
        json_text(json, "later", removal_kind_words[better->later]);
        json_close_object(json);
        text_release(&carrier);
    }
    json_close_list(json);
}

static void json_removal_rows(const struct layer_removal *removal, struct json *json) {
    json_list(json, "blends");
    for (size_t i = 0; i < removal->ranking.count; i++) {
        const struct ranked_row *row = &removal->ranking.rows[i];
        struct text recipe = {0};
        blend_write(&row->blend, &recipe);
        json_object(json, NULL);
        json_integer(json, "rank", (long long)i + 1);
        json_text(json, "recipe", text_bytes(&recipe));
        json_number(json, "p_works", row->doubted ? row->doubt.p_works : NAN);
        json_number(json, "swelling", row->row.swelling);
        json_text(json, "spared_most_swollen", row->row.spared ? row->row.spared->id : NULL);
        json_close_object(json);
        text_release(&recipe);
    }
    json_close_list(json);
}

// What is published of the removal of the aged layer.
static void json_published(const struct layers_answer *answer, const struct stack_answer *stack,
                           const struct layer_removal *removal, struct json *json) {
    const struct library *lib = &answer->inv->library;
    const char *later = removal->state && removal->state->aged ? removal->state->aged
                                                               : stack->stack.layers[removal->layer].material->id;
    json_list(json, "published");
    for (size_t i = 0; removal->aged && i < lib->published_removal_count; i++) {
        const struct published_removal *row = &lib->published_removals[i];
        if (strcmp(row->material, later) != 0)
            continue;
        json_object(json, NULL);
        json_text(json, "blend", row->blend);
        json_text(json, "outcome", removal_outcome_words[row->outcome]);
        json_text(json, "films", row->state);
        json_provenance(json, "source", &row->from);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_numbers(unsigned bits, struct json *json, const char *key) {
    json_list(json, key);
    for (size_t i = 0; i < STACK_LAYERS_MAX; i++)
        if (bits & (1U << i))
            json_integer(json, NULL, (long long)i + 1);
    json_close_list(json);
}

static void json_removal(const struct layers_answer *answer, const struct stack_answer *stack,
                         const struct layer_removal *removal, struct json *json) {
    struct text likeliest = {0};
    json_object(json, NULL);
    json_integer(json, "layer", (long long)removal->layer + 1);
    json_text(json, "state", removal->aged ? "aged" : "fresh");
    json_text(json, "answer", removal_kind_words[removal->kind]);
    json_text(json, "target", removal->target ? removal->target->id : NULL);
    json_flag(json, "stand_in", removal->stand_in);
    json_list(json, "spare");
    for (size_t i = 0; i < removal->spare_count; i++)
        json_text(json, NULL, removal->spare[i]->id);
    json_close_list(json);
    json_text(json, "ageing", removal->state ? ageing_change_words[removal->state->change] : NULL);
    json_text(json, "ageing_words", removal->state ? removal->state->words : NULL);
    if (removal->state)
        json_provenance(json, "ageing_source", &removal->state->from);
    else
        json_null(json, "ageing_source");
    json_published(answer, stack, removal, json);
    json_numbers(removal->inseparable, json, "only_together_with");
    json_numbers(removal->without, json, "not_spared");
    json_removal_rows(removal, json);
    if (removal->kind == REMOVAL_NOTHING && removal->ranking.best_probability > 0)
        composition_recipe(&answer->shelf, &removal->ranking.likeliest, &likeliest);
    json_text(json, "likeliest", likeliest.length ? text_bytes(&likeliest) : NULL);
    json_number(json, "likeliest_p", likeliest.length ? removal->ranking.best_probability : NAN);
    json_text(json, "why", removal->kind == REMOVAL_NO_FIGURES ? removal->why.text : NULL);
    json_close_object(json);
    text_release(&likeliest);
}

void write_layers_json(const struct layers_answer *answer, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_list(&json, "stacks");
    for (size_t i = 0; i < answer->stack_count; i++) {
        const struct stack_answer *stack = &answer->stacks[i];
        json_object(&json, NULL);
        json_text(&json, "option", stack->stack.option);
        json_text(&json, "worst", touch_words[stack->worst]);
        json_layers(stack, &json);
        json_list(&json, "pairs");
        for (size_t k = 0; k < stack->pair_count; k++)
            json_pair(&stack->pairs[k], &json);
        json_close_list(&json);
        json_better(stack, &json);
        json_list(&json, "later");
        for (size_t k = 0; k < stack->removal_count; k++)
            json_removal(answer, stack, &stack->removals[k], &json);
        json_close_list(&json);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_number(&json, "temperature_c", answer->temp_c);
    json_number(&json, "least_probability", answer->least_probability);
    json_text(&json, "section", option_value(answer->inv, "--section"));
    json_text(&json, "chart", option_value(answer->inv, "--chart"));
    json_end(&json);
}
