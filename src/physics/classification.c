// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/classification.h"

#include "base/language.h"
#include "physics/classification_parts.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

const char *const classification_rules_words[] = {"eu-clp", "us-hcs", NULL};
const char *const classification_rules_names[] = {"Reg. (EC) 1272/2008 (EU CLP)", "29 CFR 1910.1200 (US HCS)", NULL};

static bool has_water_codes(const struct mixing *mix, size_t i) {
    return component_code(mix, i, CLASS_AQUATIC_ACUTE, 1) || component_code(mix, i, CLASS_AQUATIC_CHRONIC, 1);
}

static bool factor_missing(const struct mixing *mix, size_t i) {
    const struct m_factors *factors = &mix->input->components[i]->hazard->m_factors;
    return (component_code(mix, i, CLASS_AQUATIC_ACUTE, 1) && isnan(factors->acute)) ||
           (component_code(mix, i, CLASS_AQUATIC_CHRONIC, 1) && isnan(factors->chronic));
}

static bool has_health_code(const struct hazard *hazard) {
    for (size_t k = 0; k < hazard->h_statements.count; k++) {
        const struct hazard_code *code = hazard_code_find(hazard->h_statements.items[k]);
        if (code && code->class >= CLASS_SKIN && code->class <= CLASS_REPEATED_EXPOSURE)
            return true;
    }
    return false;
}

static void note_what_is_missing(struct mixing *mix) {
    for (size_t i = 0; i < mix->input->count; i++) {
        const struct hazard *hazard = mix->input->components[i]->hazard;
        uint32_t bit = UINT32_C(1) << i;
        if (!hazard) {
            mix->ret->unknown |= bit;
            mix->ret->unknown_percent += percent_of(mix, i);
        } else {
            if (has_health_code(hazard) && (is_us(mix) || hazard->specific_limits.count == 0))
                mix->ret->limits_assumed |= bit;
            if (!is_us(mix) && has_water_codes(mix, i) && factor_missing(mix, i))
                mix->ret->factors_assumed |= bit;
        }
    }
}

static void write_what_is_missing(struct mixing *mix) {
    struct classification *ret = mix->ret;
    if (ret->unknown)
        add_note(mix,
                 "No hazard data in the tables: %s. The classification is incomplete; treat the blend as hazardous.",
                 names_of(mix, ret->unknown));
    if (ret->limits_assumed)
        add_note(mix, "Specific limits not checked, generic ones used: %s.", names_of(mix, ret->limits_assumed));
    if (ret->factors_assumed)
        add_note(mix, "M-factors not entered, 1 used: %s.", names_of(mix, ret->factors_assumed));
    for (size_t i = 0; i < mix->input->count; i++) {
        const struct hazard *hazard = mix->input->components[i]->hazard;
        if (hazard && hazard->h_unless_low_benzene.count)
            add_note(mix,
                     mix->input->benzene_content_unknown
                         ? N_("%s: counted as possibly above 0.1 %% benzene (Note P).")
                         : N_("%s: taken as below 0.1 %% benzene (Note P of Annex VI); its data sheet must say so."),
                     mix->input->components[i]->id);
    }
    if (is_us(mix))
        add_note(mix, "HCS has no environmental hazards; H400 to H420 are not on this label.");
}

// No class of hazards, but whoever takes the bottle off the shelf in a year must know it.
static void note_peroxides(struct mixing *mix) {
    uint32_t formers = 0;
    for (size_t i = 0; i < mix->input->count; i++) {
        const struct hazard *hazard = mix->input->components[i]->hazard;
        if (hazard && hazard->peroxide_former > 0)
            formers |= UINT32_C(1) << i;
    }
    if (formers)
        add_note(mix,
                 "Forms peroxides once opened: %s. Write the day on the bottle, test before it is used later, and let "
                 "none of it dry up.",
                 names_of(mix, formers));
}

// --- all ---

static int by_order(const void *a, const void *b) {
    const struct classified_statement *first = a, *second = b;
    if (!first->kind != !second->kind)
        return (first->kind == NULL) - (second->kind == NULL);
    size_t x = first->kind ? hazard_code_order(first->kind) : 0, y = second->kind ? hazard_code_order(second->kind) : 0;
    return x != y ? (x > y) - (x < y) : strcmp(first->code, second->code);
}

static const double sum_tolerance = 1e-6;

static enum status check_input(const struct classification_input *input, struct error *err) {
    assert(input->count <= BLEND_COMPONENTS_MAX);
    double sum = 0;
    for (size_t i = 0; i < input->count; i++) {
        if (!(input->mass_fractions[i] >= 0))
            return error_set(err, STATUS_RANGE, "'%s': the mass fraction is not a share of 0 or more",
                             input->components[i]->id);
        sum += input->mass_fractions[i];
    }
    if (!(fabs(sum - 1) <= sum_tolerance))
        return error_set(err, STATUS_RANGE, "the mass fractions add up to %g, not to 1", sum);
    return STATUS_OK;
}

enum status classify(const struct classification_input *input, struct arena *arena, struct classification *ret,
                     struct error *err) {
    enum status status = check_input(input, err);
    if (status != STATUS_OK)
        return status;
    struct classification *answer = arena_new(arena, 1, sizeof *answer);
    if (!answer)
        return error_set(err, STATUS_MEMORY, "out of memory");
    answer->rules = input->rules;
    struct mixing mix = {.input = input, .arena = arena, .ret = answer};
    note_what_is_missing(&mix);
    classify_flammable(&mix);
    classify_acute(&mix);
    classify_aspiration(&mix);
    classify_skin_and_eye(&mix);
    classify_single_components(&mix);
    classify_reproduction(&mix);
    classify_category_3(&mix);
    classify_aquatic(&mix);
    classify_carried(&mix);
    write_what_is_missing(&mix);
    note_peroxides(&mix);
    qsort(answer->statements, answer->count, sizeof answer->statements[0], by_order);
    choose_label(&mix);
    if (mix.failed)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = *answer;
    return STATUS_OK;
}

enum status classify_blend(const struct blend *blend, const struct classification_input *input, struct arena *arena,
                           struct classification *ret, struct error *err) {
    double mass_fractions[BLEND_COMPONENTS_MAX];
    enum status status = blend_mass_fractions(blend, mass_fractions, err);
    if (status != STATUS_OK)
        return status;
    struct classification_input whole = *input;
    whole.count = blend->count;
    whole.components = blend->components;
    whole.mass_fractions = mass_fractions;
    return classify(&whole, arena, ret, err);
}
