// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/handling.h"

#include "physics/hazard_codes.h"

#include <stdbool.h>
#include <string.h>

// --- waste ---

const char *const waste_class_words[] = {"not-halogenated", "halogenated", "watery", NULL};
static const double watery_fraction = 0.5;

static bool holds_chlorine(const struct component *component) {
    return component->family == FAMILY_CHLORINATED || (component->properties && component->properties->formula.cl > 0);
}

enum waste_class waste_class_of(const struct blend *blend) {
    double water = 0;
    for (size_t i = 0; i < blend->count; i++) {
        if (holds_chlorine(blend->components[i]))
            return WASTE_HALOGENATED;
        water += blend->components[i]->family == FAMILY_WATER ? blend->volume_fractions[i] : 0;
    }
    return water >= watery_fraction ? WASTE_WATERY : WASTE_NOT_HALOGENATED;
}

// --- gloves ---

static void material_of(const char *entry, char ret[GLOVE_BYTES]) {
    const char *bracket = strstr(entry, " (");
    size_t length = bracket ? (size_t)(bracket - entry) : strlen(entry);
    if (length >= GLOVE_BYTES)
        length = GLOVE_BYTES - 1;
    memcpy(ret, entry, length);
    ret[length] = '\0';
}

static const char *entry_of(const struct text_list *entries, const char *material) {
    for (size_t i = 0; i < entries->count; i++) {
        char other[GLOVE_BYTES];
        material_of(entries->items[i], other);
        if (strcmp(other, material) == 0)
            return entries->items[i];
    }
    return NULL;
}

static bool withstands(const struct hazard *hazard, const char *material) {
    const char *entry = entry_of(&hazard->gloves_resistant, material);
    return entry && !strstr(entry, "short contact") && !entry_of(&hazard->gloves_unsuitable, material);
}

static bool glove_known(const struct component *component) {
    return component->hazard && component->hazard->gloves_resistant.count > 0;
}

// Water passes through no glove that a solvent does not.
static bool counts(const struct component *component) {
    return component->family != FAMILY_WATER && glove_known(component);
}

static bool withstands_all(const struct blend *blend, const char *material) {
    for (size_t i = 0; i < blend->count; i++) {
        const struct component *component = blend->components[i];
        if (component->family == FAMILY_WATER && strcmp(material, "PVA") == 0)
            return false;
        if (counts(component) && !withstands(component->hazard, material))
            return false;
    }
    return true;
}

size_t gloves_for_all(const struct blend *blend, char ret[GLOVES_MAX][GLOVE_BYTES], size_t *ret_unknown) {
    const struct component *first = NULL;
    size_t count = 0;
    *ret_unknown = 0;
    for (size_t i = 0; i < blend->count; i++) {
        if (counts(blend->components[i]))
            first = first ? first : blend->components[i];
        else
            *ret_unknown += blend->components[i]->family != FAMILY_WATER;
    }
    for (size_t i = 0; first && i < first->hazard->gloves_resistant.count && count < GLOVES_MAX; i++) {
        material_of(first->hazard->gloves_resistant.items[i], ret[count]);
        count += withstands_all(blend, ret[count]);
    }
    return count;
}

// --- effects ---

const char *const effect_words[] = {"irritation", "narcosis",      "organs", "reproduction",
                                    "cancer",     "sensitisation", NULL};

static unsigned effect_of(enum hazard_class class) {
    switch (class) {
    case CLASS_SKIN:
    case CLASS_EYE:
    case CLASS_AIRWAY_IRRITATION:
        return 1u << 0;
    case CLASS_NARCOSIS:
        return 1u << 1;
    case CLASS_SINGLE_EXPOSURE:
    case CLASS_REPEATED_EXPOSURE:
        return 1u << 2;
    case CLASS_REPRODUCTIVE:
    case CLASS_LACTATION:
        return 1u << 3;
    case CLASS_MUTAGEN:
    case CLASS_CARCINOGEN:
        return 1u << 4;
    case CLASS_SKIN_SENSITISER:
    case CLASS_RESPIRATORY_SENSITISER:
        return 1u << 5;
    default:
        return 0;
    }
}

unsigned effects_of(const struct component *component) {
    unsigned effects = 0;
    if (!component->hazard)
        return (1u << EFFECTS) - 1;
    for (size_t i = 0; i < component->hazard->h_statements.count; i++) {
        const struct hazard_code *code = hazard_code_find(component->hazard->h_statements.items[i]);
        effects |= code ? effect_of(code->class) : 0;
    }
    return effects;
}
