// SPDX-License-Identifier: GPL-3.0-or-later
// The classification of a blend.
#include "draw.h"
#include "physics/classification.h"

#include <string.h>

static bool named(const struct classification *c, const struct blend *blend, const struct component *component) {
    for (size_t i = 0; i < c->named_count; i++)
        if (blend->components[c->named[i]] == component)
            return true;
    return false;
}

static bool has_precaution(const struct classification *c, const char *code) {
    for (size_t i = 0; i < c->precaution_count; i++)
        if (strcmp(c->precautions[i], code) == 0)
            return true;
    for (size_t i = 0; i < c->precaution_more_count; i++)
        if (strcmp(c->precautions_more[i], code) == 0)
            return true;
    return false;
}

static bool on_label(const struct classification *c, const char *code) {
    for (size_t i = 0; i < c->count; i++)
        if (strcmp(c->statements[i].code, code) == 0)
            return c->statements[i].left_off == NULL;
    return false;
}

static enum outcome same_label(struct trial *trial, const struct blend *blend, const struct classification *a,
                               const struct blend *other, const struct classification *b) {
    REQUIRE(a->count == b->count && a->signal == b->signal, "%zu and %zu statements, signal %d and %d", a->count,
            b->count, (int)a->signal, (int)b->signal);
    for (size_t i = 0; i < a->count; i++)
        REQUIRE(classification_has(b, a->statements[i].code) &&
                    on_label(a, a->statements[i].code) == on_label(b, a->statements[i].code),
                "%s is not there, or left off, in the other", a->statements[i].code);
    REQUIRE(memcmp(a->pictograms, b->pictograms, sizeof a->pictograms) == 0, "other pictograms");
    REQUIRE(a->precaution_count == b->precaution_count && a->precaution_more_count == b->precaution_more_count,
            "%zu and %zu precautions", a->precaution_count, b->precaution_count);
    for (size_t i = 0; i < a->precaution_count; i++)
        REQUIRE(has_precaution(b, a->precautions[i]), "precaution %s is not in the other", a->precautions[i]);
    REQUIRE(a->named_count == b->named_count, "%zu and %zu liquids are named", a->named_count, b->named_count);
    for (size_t i = 0; i < blend->count; i++)
        REQUIRE(named(a, blend, blend->components[i]) == named(b, other, blend->components[i]),
                "%s is named in one only", blend->components[i]->id);
    REQUIRE(alike(a->unknown_percent, b->unknown_percent, 1e-9, 1e-9), "unknown %g and %g %%", a->unknown_percent,
            b->unknown_percent);
    return HELD;
}

static struct classification_input draw_input(struct trial *trial) {
    struct random *random = &trial->random;
    struct classification_input input = {
        .rules = random_uniform(random) < 0.5 ? RULES_EU_CLP : RULES_US_HCS,
        .flash = (enum flash_knowledge)random_below(random, 3),
        .flash_c = -20 + 120 * random_uniform(random),
        .boiling_c = random_uniform(random) < 0.7 ? 20 + 200 * random_uniform(random) : NAN,
        .viscosity_40c_mm2_s = random_uniform(random) < 0.5 ? 0.3 + 40 * random_uniform(random) : NAN,
        .benzene_content_unknown = random_uniform(random) < 0.5};
    note(trial, "%s, flash point %d %.4g: ", classification_rules_words[input.rules], (int)input.flash, input.flash_c);
    return input;
}

static enum outcome label_is_of_the_liquid(struct trial *trial) {
    static struct classification one, two;
    struct arena arena = {0};
    struct rewritten other;
    struct blend blend = draw_blend(trial, 5);
    if (!rewrite_blend(trial, &blend, &other))
        return NOT_COVERED;
    struct classification_input input = draw_input(trial);
    enum outcome outcome = NOT_COVERED;
    if (classify_blend(&blend, &input, &arena, &one, NULL) == STATUS_OK) {
        bool both = classify_blend(&other.blend, &input, &arena, &two, NULL) == STATUS_OK;
        outcome = both ? same_label(trial, &blend, &one, &other.blend, &two) : broken(trial, "only one is answered");
    }
    arena_release(&arena);
    return outcome;
}

// What any sort of statement needs to be there: a code, a reason, causes among the liquids; a signal word and a
// pictogram only with statements; nothing unknown passed over.
static enum outcome labels_are_whole(struct trial *trial) {
    static struct classification label;
    struct arena arena = {0};
    struct blend blend = draw_blend(trial, 5);
    struct classification_input input = draw_input(trial);
    enum outcome outcome = HELD;
    if (classify_blend(&blend, &input, &arena, &label, NULL) != STATUS_OK) {
        arena_release(&arena);
        return NOT_COVERED;
    }
    bool pictogram = false;
    for (size_t i = 0; i < 10; i++)
        pictogram = pictogram || label.pictograms[i];
    for (size_t i = 0; i < label.count && outcome == HELD; i++) {
        const struct classified_statement *s = &label.statements[i];
        if (!s->code[0] || !s->reason || !s->reason[0] || s->from >> blend.count)
            outcome = broken(trial, "%s: without a reason, or from nothing", s->code);
        for (size_t j = 0; j < i; j++)
            if (strcmp(label.statements[j].code, s->code) == 0)
                outcome = broken(trial, "%s stands twice", s->code);
    }
    if (outcome == HELD && label.count == 0 && (pictogram || label.signal != SIGNAL_NONE))
        outcome = broken(trial, "a pictogram or signal word without a statement");
    double unknown = 0;
    for (size_t i = 0; i < blend.count; i++) {
        double w[BLEND_COMPONENTS_MAX];
        if (blend_mass_fractions(&blend, w, NULL) == STATUS_OK && label.unknown >> i & 1)
            unknown += 100 * w[i];
        if (outcome == HELD && !blend.components[i]->hazard && !(label.unknown >> i & 1))
            outcome = broken(trial, "%s has no hazard data and is not said to be unknown", blend.components[i]->id);
    }
    if (outcome == HELD && !alike(unknown, label.unknown_percent, 1e-9, 1e-9))
        outcome = broken(trial, "%g %% unknown, %g by the mask", label.unknown_percent, unknown);
    arena_release(&arena);
    return outcome;
}

static const struct law laws[] = {
    {"label-rewritten", "order, scaling and splitting of bottles leave the classification alone", 5,
     label_is_of_the_liquid},
    {"label-whole", "every statement has a reason, none stands twice, nothing unknown is passed over", 5,
     labels_are_whole},
};
const struct law_list label_laws = LAWS(laws);
