// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/activity.h"

#include "base/language.h"
#include "base/print_words.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

// Below this limiting activity coefficient (0.02) a figure is an artefact of the parameters: they give it for
// siloxanes in alcohols (0.0002), some esters and acetals in formic acid, and acids in bases. The strongest liquid
// pair without a reaction in the tables, dimethyl sulfoxide in water, has 0.05.
static const double ln_gamma_believable = -4.0;

const char *activity_serves_word(enum activity_serves serves) {
    static const char *const words[] = {"dortmund", "original", "flory-huggins", "not-covered"};
    return words[serves];
}

static const char *const model_names[] = {"modified UNIFAC (Dortmund)", "original UNIFAC"};

// --- the sentence ---

static void tell(struct activity_coverage *coverage, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void tell(struct activity_coverage *coverage, const char *format, ...) {
    size_t used = strlen(coverage->sentence);
    va_list arguments;
    va_start(arguments, format);
    vprint_words(coverage->sentence + used, sizeof coverage->sentence - used, format, arguments);
    va_end(arguments);
}

// "; <what> a, b" for the components of one status, or nothing.
static void say_status(struct activity_model *model, enum assignment_status status, const char *what) {
    size_t said = 0;
    for (size_t i = 0; i < model->count; i++)
        if (model->coverage.status[i] == (int)status)
            tell(&model->coverage, "%s%s", said++ ? ", " : say(what), model->components[i]->id);
}

static void say_doubts(struct activity_model *model) {
    say_status(model, ASSIGNMENT_UNRELIABLE, "; not to be relied on for ");
    say_status(model, ASSIGNMENT_PROVISIONAL, "; provisional groups for ");
    say_status(model, ASSIGNMENT_BUILT, "; groups put together here for ");
    say_status(model, ASSIGNMENT_SURROGATE, "; one stand-in compound or mean for ");
}

// --- what rules a model out ---

// Why a model doesn't serve: for the sentence, and the places of the two components.
struct refusal {
    size_t first, second;
    char reason[512];
};

static bool is_base(const struct component *component) {
    return component->family == FAMILY_AMINE || component->family == FAMILY_AMIDE ||
           component->family == FAMILY_SULFOXIDE;
}

// Acid-base pairs associate by chemistry; the group models give ln gamma down to -23 for them.
static bool find_blocked(const struct activity_model *model, struct refusal *ret) {
    for (size_t i = 0; i < model->count; i++)
        for (size_t j = 0; j < model->count; j++)
            if (model->components[i]->family == FAMILY_ACID && is_base(model->components[j])) {
                ret->first = i;
                ret->second = j;
                print_words(ret->reason, sizeof ret->reason, "%s and %s act on each other as acid and base",
                            model->components[i]->id, model->components[j]->id);
                return true;
            }
    return false;
}

static bool find_water(const struct activity_model *model, size_t *ret) {
    for (size_t i = 0; i < model->count; i++)
        if (model->components[i]->family == FAMILY_WATER) {
            *ret = i;
            return true;
        }
    return false;
}

static bool find_unbelievable(const struct activity_model *model, const struct unifac_mixture *mixture,
                              struct refusal *ret) {
    for (size_t j = 0; j < model->count; j++) {
        double x[BLEND_COMPONENTS_MAX] = {0}, ln_gamma[BLEND_COMPONENTS_MAX];
        x[j] = 1;
        unifac_ln_gamma(mixture, x, ln_gamma);
        for (size_t i = 0; i < model->count; i++)
            if (ln_gamma[i] < ln_gamma_believable) {
                ret->first = i;
                ret->second = j;
                print_words(ret->reason, sizeof ret->reason,
                            "%s gives a trace of %s in %s an activity coefficient of %.2g, which can't be",
                            model_names[mixture->parameters->model], model->components[i]->id, model->components[j]->id,
                            exp(ln_gamma[i]));
                return true;
            }
    }
    return false;
}

static void explain_gap(const struct activity_model *model, enum unifac_model which, const struct unifac_gap *gap,
                        struct refusal *ret) {
    ret->first = gap->first;
    ret->second = gap->second;
    if (gap->main_first)
        print_words(ret->reason, sizeof ret->reason, "%s has no parameters between %s (%s) and %s (%s)",
                    model_names[which], gap->main_first, model->components[gap->first]->id, gap->main_second,
                    model->components[gap->second]->id);
    else
        print_words(ret->reason, sizeof ret->reason, "%s has no groups for %s", model_names[which],
                    model->components[gap->first]->id);
}

static void join_reasons(struct refusal *first, const struct refusal *second) {
    size_t used = strlen(first->reason);
    print_words(first->reason + used, sizeof first->reason - used, " and %s", second->reason);
}

// --- the choice ---

static enum status try_unifac(const struct unifac_table *table, enum unifac_model which, struct activity_model *model,
                              struct refusal *ret_refusal, bool *ret_serves, struct error *err) {
    struct unifac_gap gap;
    struct error local = {0};
    enum status status =
        unifac_prepare(table, which, model->components, model->count, model->temp_k, &model->unifac, &gap, &local);
    *ret_serves = false;
    if (status == STATUS_NO_DATA) {
        explain_gap(model, which, &gap, ret_refusal);
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return error_set(err, status, "%s", local.text);
    *ret_serves = !find_unbelievable(model, &model->unifac, ret_refusal);
    return STATUS_OK;
}

static void note_status(const struct unifac_table *table, struct activity_model *model, bool dortmund, bool original) {
    for (size_t i = 0; i < model->count; i++) {
        const struct unifac_species *species = NULL;
        if (dortmund)
            species = unifac_species_find(table, UNIFAC_DORTMUND, model->components[i]->id);
        if (!species && original)
            species = unifac_species_find(table, UNIFAC_ORIGINAL, model->components[i]->id);
        model->coverage.status[i] = species ? species->assignment->status : ASSIGNMENT_NONE;
    }
}

static void settle_unifac(const struct unifac_table *table, enum unifac_model which, struct activity_model *model,
                          const struct refusal *refusal) {
    struct activity_coverage *coverage = &model->coverage;
    coverage->serves = which == UNIFAC_DORTMUND ? ACTIVITY_DORTMUND : ACTIVITY_ORIGINAL;
    note_status(table, model, which == UNIFAC_DORTMUND, which == UNIFAC_ORIGINAL);
    for (size_t i = 0; i < model->count; i++)
        coverage->weak = coverage->weak || coverage->status[i] == ASSIGNMENT_UNRELIABLE;
    tell(coverage, "activities by %s", model_names[which]);
    if (refusal->reason[0])
        tell(coverage, " because %s", refusal->reason);
    say_doubts(model);
}

static void settle_nothing(const struct unifac_table *table, struct activity_model *model,
                           const struct refusal *refusal, const char *also) {
    note_status(table, model, true, true);
    model->coverage.serves = ACTIVITY_NOT_COVERED;
    tell(&model->coverage, "no activity model covers this blend: %s%s", refusal->reason, also);
}

static void settle_flory(const struct unifac_table *table, struct activity_model *model,
                         const struct refusal *refusal) {
    size_t place = 0;
    if (find_water(model, &place)) {
        settle_nothing(table, model, refusal, say(", and Hansen distances say nothing of water"));
        return;
    }
    struct error why = {0};
    if (flory_prepare(model->components, model->count, model->temp_k, &model->flory, &place, &why) != STATUS_OK) {
        char also[200];
        print_words(also, sizeof also, ", and there are %s", why.text);
        settle_nothing(table, model, refusal, also);
        return;
    }
    note_status(table, model, true, true);
    model->coverage.serves = ACTIVITY_FLORY_HUGGINS;
    model->coverage.weak = true;
    tell(&model->coverage, "activities are an estimate from Hansen distances (Flory-Huggins) because %s",
         refusal->reason);
    say_doubts(model);
}

// One component by itself needs no model.
static void settle_neat(const struct unifac_table *table, struct activity_model *model) {
    note_status(table, model, true, true);
    model->flory = (struct flory_mixture){.count = 1, .temp_k = model->temp_k, .volume = {1}};
    model->coverage.serves = ACTIVITY_FLORY_HUGGINS;
    tell(&model->coverage, "one component by itself: its activity is 1");
}

static enum status choose(const struct unifac_table *table, struct activity_model *model, struct error *err) {
    struct refusal refusal = {.first = SIZE_MAX, .second = SIZE_MAX}, later = {0};
    bool serves = false;
    enum status status = STATUS_OK;
    if (model->count == 1) {
        settle_neat(table, model);
    } else if (find_blocked(model, &refusal)) {
        model->coverage.blocked = true;
        settle_nothing(table, model, &refusal, "");
    } else {
        enum unifac_model which = UNIFAC_DORTMUND;
        status = try_unifac(table, which, model, &refusal, &serves, err);
        if (status == STATUS_OK && !serves) {
            which = UNIFAC_ORIGINAL;
            status = try_unifac(table, which, model, &later, &serves, err);
        }
        if (status != STATUS_OK)
            return status;
        if (serves) {
            settle_unifac(table, which, model, &refusal);
        } else {
            join_reasons(&refusal, &later);
            settle_flory(table, model, &refusal);
        }
    }
    model->coverage.first = refusal.first;
    model->coverage.second = refusal.second;
    return STATUS_OK;
}

static enum status check_temperature(double temp_k, struct error *err) {
    if (!(temp_k >= ACTIVITY_TEMP_K_LEAST && temp_k <= ACTIVITY_TEMP_K_MOST))
        return error_set(err, STATUS_RANGE, "no activities at %g K: the range is %g to %g K", temp_k,
                         ACTIVITY_TEMP_K_LEAST, ACTIVITY_TEMP_K_MOST);
    return STATUS_OK;
}

enum status activity_prepare(const struct unifac_table *table, const struct component *const *components, size_t count,
                             double temp_k, struct activity_model *ret, struct error *err) {
    if (count < 1 || count > BLEND_COMPONENTS_MAX)
        return error_set(err, STATUS_RANGE, "a blend has 1 to %d components, not %zu", BLEND_COMPONENTS_MAX, count);
    enum status status = check_temperature(temp_k, err);
    if (status != STATUS_OK)
        return status;
    struct activity_model model = {.count = count, .temp_k = temp_k};
    memcpy(model.components, components, count * sizeof *components);
    status = choose(table, &model, err);
    if (status == STATUS_OK)
        *ret = model;
    return status;
}

enum status activity_prepare_blend(const struct unifac_table *table, const struct blend *blend, double temp_k,
                                   struct activity_model *ret, struct error *err) {
    return activity_prepare(table, blend->components, blend->count, temp_k, ret, err);
}

static bool by_unifac(const struct activity_model *model) {
    return model->coverage.serves == ACTIVITY_DORTMUND || model->coverage.serves == ACTIVITY_ORIGINAL;
}

enum status activity_set_temperature(struct activity_model *model, double temp_k, struct error *err) {
    enum status status = check_temperature(temp_k, err);
    if (status == STATUS_OK && by_unifac(model))
        status = unifac_set_temperature(&model->unifac, temp_k, err);
    if (status != STATUS_OK)
        return status;
    model->flory.temp_k = temp_k;
    model->temp_k = temp_k;
    return STATUS_OK;
}

void activity_ln_gamma(const struct activity_model *model, const double *x, double *ret_ln_gamma) {
    assert(activity_covers(model));
    if (by_unifac(model))
        unifac_ln_gamma(&model->unifac, x, ret_ln_gamma);
    else
        flory_ln_gamma(&model->flory, x, ret_ln_gamma);
}

void activity_derivatives(const struct activity_model *model, const double *x, double *ret_ln_gamma,
                          double *ret_derivatives) {
    assert(activity_covers(model));
    if (by_unifac(model))
        unifac_derivatives(&model->unifac, x, ret_ln_gamma, ret_derivatives);
    else
        flory_derivatives(&model->flory, x, ret_ln_gamma, ret_derivatives);
}
