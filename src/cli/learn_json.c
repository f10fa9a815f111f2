// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/learn.h"

#include <math.h>
#include <string.h>

static const char *const parameter_keys[LEARN_VIEWS][BELIEF_PARAMETERS] = {
    {"delta_d", "delta_p", "delta_h", "chi_shift"}, {"delta_d", "delta_p", "delta_h", "r0"}};

static double printed(enum belief_view view, size_t parameter, double value) {
    return parameter == BELIEF_STRENGTH ? learn_strength(view, value) : value;
}

static void json_parameter(const struct learning *learning, enum belief_view view, size_t material, size_t parameter,
                           struct json *json) {
    const struct belief_case *learnt = &learning->views[view].learnt;
    struct belief_interval before, after = {NAN, NAN, NAN, NAN, NAN};
    belief_prior(learnt->plan, material, parameter, &before);
    belief_posterior(learnt->belief, material, parameter, &after, NULL);
    json_object(json, parameter_keys[view][parameter]);
    json_number(json, "before_median", printed(view, parameter, before.median));
    json_number(json, "before_least", printed(view, parameter, before.least));
    json_number(json, "before_most", printed(view, parameter, before.most));
    json_number(json, "median", printed(view, parameter, after.median));
    json_number(json, "least", printed(view, parameter, after.least));
    json_number(json, "most", printed(view, parameter, after.most));
    json_close_object(json);
}

static void json_effects(const struct learning *learning, enum belief_view view, size_t material, struct json *json) {
    const struct case_passage *passages = learning->file->passages.items;
    json_list(json, "passages");
    for (size_t i = 0; i < learning->file->passages.count; i++) {
        struct belief_interval effect = {NAN, NAN, NAN, NAN, NAN};
        belief_passage(learning->views[view].learnt.belief, material, i, &effect, NULL);
        json_object(json, NULL);
        json_text(json, "id", passages[i].id);
        json_number(json, "effect_median", effect.median);
        json_number(json, "effect_least", effect.least);
        json_number(json, "effect_most", effect.most);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_material(const struct learning *learning, enum belief_view view, size_t material, struct json *json) {
    const struct learn_view *seen = &learning->views[view];
    json_object(json, NULL);
    json_text(json, "id", belief_material(seen->learnt.plan, material)->id);
    json_text(json, "goal", material < seen->learnt.materials.remove_count ? "remove" : "spare");
    json_integer(json, "tests", (long long)belief_tests(seen->learnt.belief, material));
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        json_parameter(learning, view, material, i, json);
    json_effects(learning, view, material, json);
    json_number(json, "effective_samples", seen->diagnostics[material].effective);
    json_number(json, "r_hat", seen->diagnostics[material].r_hat);
    json_number(json, "log_evidence", seen->diagnostics[material].log_evidence);
    json_number(json, "contradiction_p", seen->conflicts[material].p_value);
    json_close_object(json);
}

static void json_view(const struct learning *learning, enum belief_view view, struct json *json) {
    const struct learn_view *seen = &learning->views[view];
    json_object(json, NULL);
    json_text(json, "view", belief_view_words[view]);
    json_text(json, "left_out_because", seen->known ? NULL : seen->why.text);
    json_list(json, "materials");
    for (size_t i = 0; seen->known && i < belief_material_count(seen->learnt.plan); i++)
        json_material(learning, view, i, json);
    json_close_list(json);
    json_integer(json, "tests_too_old", seen->known ? (long long)seen->learnt.older : 0);
    json_list(json, "tests_left_out");
    for (size_t i = 0; seen->known && i < seen->learnt.left_out_count; i++) {
        json_object(json, NULL);
        json_text(json, "id", seen->learnt.left_out[i].test->id);
        json_text(json, "because", seen->learnt.left_out[i].why.text);
        json_close_object(json);
    }
    json_close_list(json);
    json_close_object(json);
}

// --- forecasts ---

static void json_forecast(const struct learning *learning, enum belief_view view, size_t blend, size_t passage,
                          struct json *json) {
    struct belief_forecast forecast;
    if (!learn_forecast(learning, view, blend, passage, &forecast))
        return;
    json_object(json, NULL);
    json_text(json, "blend", learning->blends[blend].notation);
    json_text(json, "view", belief_view_words[view]);
    json_object(json, "p_words");
    for (size_t i = 0; i < BELIEF_WORDS; i++)
        json_number(json, result_words[i], forecast.p_words[i]);
    json_close_object(json);
    json_number(json, "p_works", forecast.p_works);
    json_number(json, "p_removed", forecast.p_removed);
    json_number(json, "p_touches", forecast.p_touches);
    json_close_object(json);
}

static void json_forecasts(const struct learning *learning, struct json *json) {
    const struct case_passage *passages = learning->file->passages.items;
    json_list(json, "passages");
    for (size_t i = 0; i < learning->file->passages.count; i++) {
        json_object(json, NULL);
        json_text(json, "id", passages[i].id);
        json_list(json, "forecasts");
        for (size_t k = 0; k < learning->blend_count; k++)
            for (int view = 0; view < LEARN_VIEWS; view++)
                json_forecast(learning, (enum belief_view)view, k, i, json);
        json_close_list(json);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_warnings(const struct learning *learning, struct json *json) {
    json_list(json, "warnings");
    for (size_t i = 0; i < learning->warning_count; i++) {
        const struct learn_warning *warning = &learning->warnings[i];
        json_object(json, NULL);
        json_text(json, "kind", learn_warning_words[warning->kind]);
        json_text(json, "view", belief_view_words[warning->view]);
        json_text(json, "material", belief_material(learning->views[warning->view].learnt.plan, warning->material)->id);
        json_text(json, "test", warning->test ? warning->test->id : NULL);
        json_number(json, "value", warning->value);
        json_close_object(json);
    }
    json_close_list(json);
}

void write_learn_json(const struct learning *learning, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_list(&json, "views");
    for (int view = 0; view < LEARN_VIEWS; view++)
        json_view(learning, (enum belief_view)view, &json);
    json_close_list(&json);
    json_forecasts(learning, &json);
    json_warnings(learning, &json);
    json_text(&json, "chart", option_value(learning->inv, "--chart"));
    json_integer(&json, "particles", learning->particles);
    json_integer(&json, "seed", learning->seed);
    json_end(&json);
}
