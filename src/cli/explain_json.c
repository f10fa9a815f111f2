// SPDX-License-Identifier: GPL-3.0-or-later
// --explain for programs: an object "explain" at the end of the answer.
#include "cli/explaining.h"

static void json_figures(const struct explaining *explaining, struct json *json) {
    json_list(json, "figures");
    for (size_t i = 0; i < explaining->quantities.count; i++) {
        const struct explained *explained = explaining->quantities.items[i];
        const struct derivation *derivation = explained->derivation;
        json_object(json, NULL);
        json_list(json, "keys");
        for (size_t k = 0; k < explained->paths.count; k++)
            json_text(json, NULL, explained->paths.items[k]);
        json_close_list(json);
        json_flag(json, "as_given", !derivation->name);
        json_text(json, "name", derivation->name);
        json_text(json, "meaning", derivation->words);
        json_text(json, "formula", derivation->formula);
        json_text(json, "equation_from", derivation->source);
        json_text(json, "models_section", derivation->section);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_values(const struct explaining *explaining, struct cited *cited, struct json *json) {
    json_list(json, "values");
    for (size_t i = 0; i < explaining->values.count; i++) {
        const struct listed_value *value = explaining->values.items[i];
        json_object(json, NULL);
        json_text(json, "of", value->of);
        json_text(json, "quantity", value->key);
        if (value->words)
            json_text(json, "value", value->words);
        else
            json_number(json, "value", value->value);
        json_text(json, "unit", value->unit);
        json_provenance(json, "source", value->from);
        json_close_object(json);
        cited_add(cited, value->from);
    }
    json_close_list(json);
}

static void json_constants(unsigned uses, struct json *json) {
    json_list(json, "constants");
    for (size_t i = 0; i < constant_count; i++) {
        if (!(constants[i].uses & uses))
            continue;
        json_object(json, NULL);
        json_text(json, "name", constants[i].name);
        json_number(json, "value", constants[i].value);
        json_text(json, "unit", constants[i].unit);
        json_text(json, "constant_from", constants[i].source);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_assumptions(const struct explaining *explaining, struct json *json) {
    const struct command *command = explaining->inv->command;
    json_list(json, "assumptions");
    for (size_t i = 0; i < assumption_count; i++)
        if (assumptions[i].uses & explaining->uses)
            json_text(json, NULL, assumptions[i].words);
    json_close_list(json);
    json_object(json, "defaults");
    for (size_t i = 0; i < command->option_count; i++)
        if (explain_default(explaining->inv, &command->options[i]))
            json_text(json, command->options[i].name, command->options[i].help);
    json_close_object(json);
}

void write_explanation_json(struct explaining *explaining, struct text *out) {
    struct json json;
    struct cited cited = {0};
    json_reopen(&json, out);
    json_object(&json, "explain");
    json_figures(explaining, &json);
    json_list(&json, "without_line");
    for (size_t i = 0; i < explaining->without.count; i++)
        json_text(&json, NULL, explaining->without.items[i]);
    json_close_list(&json);
    json_values(explaining, &cited, &json);
    json_constants(explaining->uses, &json);
    json_assumptions(explaining, &json);
    json_cited(explaining->inv, &cited, &json);
    json_close_object(&json);
    json_end(&json);
}
