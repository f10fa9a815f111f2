// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/hazard_codes.h"

#include <string.h>

static const struct hazard_code codes[] = {
    {"H224", CLASS_FLAMMABLE, 1, SIGNAL_DANGER, 2},
    {"H225", CLASS_FLAMMABLE, 2, SIGNAL_DANGER, 2},
    {"H226", CLASS_FLAMMABLE, 3, SIGNAL_WARNING, 2},
    {"H227", CLASS_FLAMMABLE, 4, SIGNAL_WARNING, 0},
    {"H290", CLASS_METAL_CORROSIVE, 1, SIGNAL_WARNING, 5},
    {"H300", CLASS_ACUTE_ORAL, 1, SIGNAL_DANGER, 6},
    {"H301", CLASS_ACUTE_ORAL, 3, SIGNAL_DANGER, 6},
    {"H302", CLASS_ACUTE_ORAL, 4, SIGNAL_WARNING, 7},
    {"H304", CLASS_ASPIRATION, 1, SIGNAL_DANGER, 8},
    {"H310", CLASS_ACUTE_DERMAL, 1, SIGNAL_DANGER, 6},
    {"H311", CLASS_ACUTE_DERMAL, 3, SIGNAL_DANGER, 6},
    {"H312", CLASS_ACUTE_DERMAL, 4, SIGNAL_WARNING, 7},
    {"H314", CLASS_SKIN, 1, SIGNAL_DANGER, 5},
    {"H315", CLASS_SKIN, 2, SIGNAL_WARNING, 7},
    {"H317", CLASS_SKIN_SENSITISER, 1, SIGNAL_WARNING, 7},
    {"H318", CLASS_EYE, 1, SIGNAL_DANGER, 5},
    {"H319", CLASS_EYE, 2, SIGNAL_WARNING, 7},
    {"H320", CLASS_EYE, 3, SIGNAL_WARNING, 0}, // category 2B, not in CLP
    {"H330", CLASS_ACUTE_INHALATION, 1, SIGNAL_DANGER, 6},
    {"H331", CLASS_ACUTE_INHALATION, 3, SIGNAL_DANGER, 6},
    {"H332", CLASS_ACUTE_INHALATION, 4, SIGNAL_WARNING, 7},
    {"H334", CLASS_RESPIRATORY_SENSITISER, 1, SIGNAL_DANGER, 8},
    {"H335", CLASS_AIRWAY_IRRITATION, 3, SIGNAL_WARNING, 7},
    {"H336", CLASS_NARCOSIS, 3, SIGNAL_WARNING, 7},
    {"H340", CLASS_MUTAGEN, 1, SIGNAL_DANGER, 8},
    {"H341", CLASS_MUTAGEN, 2, SIGNAL_WARNING, 8},
    {"H350", CLASS_CARCINOGEN, 1, SIGNAL_DANGER, 8},
    {"H351", CLASS_CARCINOGEN, 2, SIGNAL_WARNING, 8},
    {"H360", CLASS_REPRODUCTIVE, 1, SIGNAL_DANGER, 8},
    {"H361", CLASS_REPRODUCTIVE, 2, SIGNAL_WARNING, 8},
    {"H362", CLASS_LACTATION, 1, SIGNAL_NONE, 0},
    {"H370", CLASS_SINGLE_EXPOSURE, 1, SIGNAL_DANGER, 8},
    {"H371", CLASS_SINGLE_EXPOSURE, 2, SIGNAL_WARNING, 8},
    {"H372", CLASS_REPEATED_EXPOSURE, 1, SIGNAL_DANGER, 8},
    {"H373", CLASS_REPEATED_EXPOSURE, 2, SIGNAL_WARNING, 8},
    {"H400", CLASS_AQUATIC_ACUTE, 1, SIGNAL_WARNING, 9},
    {"H410", CLASS_AQUATIC_CHRONIC, 1, SIGNAL_WARNING, 9},
    {"H411", CLASS_AQUATIC_CHRONIC, 2, SIGNAL_NONE, 9},
    {"H412", CLASS_AQUATIC_CHRONIC, 3, SIGNAL_NONE, 0},
    {"H413", CLASS_AQUATIC_CHRONIC, 4, SIGNAL_NONE, 0},
    {"H420", CLASS_OZONE, 1, SIGNAL_WARNING, 7},
    {"EUH019", CLASS_SUPPLEMENTAL, 1, SIGNAL_NONE, 0},
    {"EUH066", CLASS_SUPPLEMENTAL, 1, SIGNAL_NONE, 0},
    {"EUH071", CLASS_SUPPLEMENTAL, 1, SIGNAL_NONE, 0},
    {"EUH208", CLASS_SUPPLEMENTAL, 1, SIGNAL_NONE, 0},
};
static const size_t code_count = sizeof codes / sizeof codes[0];

// The letters that may stand behind a code: which part of reproduction is meant, "i" for by inhalation.
static const char *suffix_letters(enum hazard_class class) {
    return class == CLASS_REPRODUCTIVE ? "FDfd" : class == CLASS_CARCINOGEN ? "i" : "";
}

const struct hazard_code *hazard_code_find(const char *code) {
    for (size_t i = 0; i < code_count; i++) {
        size_t length = strlen(codes[i].code);
        if (strncmp(code, codes[i].code, length) != 0)
            continue;
        const char *suffix = code + length;
        if (suffix[strspn(suffix, suffix_letters(codes[i].class))] == '\0')
            return &codes[i];
    }
    return NULL;
}

size_t hazard_code_order(const struct hazard_code *code) {
    return (size_t)(code - codes);
}
