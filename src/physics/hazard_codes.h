// SPDX-License-Identifier: GPL-3.0-or-later
// What an H code means: class and category, signal word, pictogram.
#ifndef MILDSOLVE_PHYSICS_HAZARD_CODES_H
#define MILDSOLVE_PHYSICS_HAZARD_CODES_H

#include <stddef.h>

enum hazard_class {
    CLASS_FLAMMABLE,
    CLASS_METAL_CORROSIVE,
    CLASS_ACUTE_ORAL,
    CLASS_ACUTE_DERMAL,
    CLASS_ACUTE_INHALATION,
    CLASS_ASPIRATION,
    CLASS_SKIN,
    CLASS_EYE,
    CLASS_RESPIRATORY_SENSITISER,
    CLASS_SKIN_SENSITISER,
    CLASS_MUTAGEN,
    CLASS_CARCINOGEN,
    CLASS_REPRODUCTIVE,
    CLASS_LACTATION,
    CLASS_SINGLE_EXPOSURE,   // specific target organs, categories 1 and 2
    CLASS_AIRWAY_IRRITATION, // the same, category 3: H335
    CLASS_NARCOSIS,          // category 3: H336
    CLASS_REPEATED_EXPOSURE,
    CLASS_AQUATIC_ACUTE,
    CLASS_AQUATIC_CHRONIC,
    CLASS_OZONE,
    CLASS_SUPPLEMENTAL, // EUH codes
    CLASS_COUNT
};

enum hazard_signal { SIGNAL_NONE, SIGNAL_WARNING, SIGNAL_DANGER }; // as signal_words[] of data/tables.h

struct hazard_code {
    const char *code;
    enum hazard_class class;
    int category; // 1 is the gravest; where one code stands for two categories (H300 is 1 and 2) the graver
    enum hazard_signal signal;
    int pictogram; // 2 = GHS02 ...; 0 = none
};

// NULL for a code that is not listed. H360, H361 and H350 with letters behind (H360FD, H350i) are found as
// the plain code.
// Reg. (EC) 1272/2008 (CLP), Annex I label tables and Annex V; H227 and H320: 29 CFR 1910.1200 App. C (from memory).
const struct hazard_code *hazard_code_find(const char *code);

// Place of the code in the order of the list: physical, health (by route and severity), environment, supplementary.
size_t hazard_code_order(const struct hazard_code *code);

#endif
