// SPDX-License-Identifier: GPL-3.0-or-later
// Hazard classification of a blend from its components' H codes, by the mixture rules of one named text on mass
// fractions, and what follows for the label. All rules are from memory of the two texts; each statement cites its
// section.
//
//   EU CLP  Reg. (EC) 1272/2008, Annexes I and II
//   US HCS  29 CFR 1910.1200, Appendices A, B and C (2012, amended 2024); no environmental hazards
//
// Stated choices where the texts leave room: H codes do not tell acute toxicity categories 1 and 2 apart, so H300, H310
// and H330 count as category 1; inhalation counts as vapour; organic acids and bases that are corrosive and have no
// specific limit follow the rules for components to which additivity does not apply; category 3 of single exposure uses
// 20 %; specific limits are the EU's and do not count under HCS.
#ifndef MILDSOLVE_PHYSICS_CLASSIFICATION_H
#define MILDSOLVE_PHYSICS_CLASSIFICATION_H

#include "base/arena.h"
#include "physics/blend.h"
#include "physics/hazard_codes.h"

#include <stdint.h>

enum classification_rules { RULES_EU_CLP, RULES_US_HCS };
extern const char *const classification_rules_words[]; // eu-clp us-hcs NULL
extern const char *const classification_rules_names[]; // for a heading

// FLASH_NOT_KNOWN takes the most flammable component's own category instead.
enum flash_knowledge { FLASH_NOT_KNOWN, FLASH_KNOWN, FLASH_NONE };

struct classification_input {
    enum classification_rules rules;
    size_t count;
    const struct component *const *components; // hazard may be NULL: unknown
    const double *mass_fractions;              // sum 1
    enum flash_knowledge flash;
    double flash_c;               // closed cup
    double boiling_c;             // initial boiling point; NAN = not known
    double viscosity_40c_mm2_s;   // kinematic, of the blend; NAN = not known
    bool benzene_content_unknown; // petroleum cuts: also the codes that Note P waives below 0.1 % benzene
};

enum { CODE_SIZE = 16, STATEMENTS_MAX = 64, NOTES_MAX = 128, PRECAUTIONS_MAX = 6, PRECAUTIONS_ALL = 24, NAMED_MAX = 4 };

struct classified_statement {
    char code[CODE_SIZE];
    const struct hazard_code *kind; // NULL: a code without a rule here, carried over
    uint32_t from;                  // bit i = component i led to it
    const char *reason;             // which components, which sum, which limit, which section
    const char *left_off;           // why it need not stand on the label, or NULL
};

struct classification {
    enum classification_rules rules;
    size_t count;
    struct classified_statement statements[STATEMENTS_MAX]; // physical, health, environment, supplementary
    enum hazard_signal signal;
    bool pictograms[10]; // by number: [2] = GHS02
    size_t precaution_count;
    const char *precautions[PRECAUTIONS_MAX]; // codes, most urgent first
    size_t precaution_more_count;
    const char *precautions_more[PRECAUTIONS_ALL]; // that apply too, beyond the six
    size_t named_count;
    size_t named[NAMED_MAX];  // components to be named on the label
    uint32_t unknown;         // components without hazard data: the classification is incomplete
    double unknown_percent;   // by mass
    uint32_t limits_assumed;  // components without specific limits: generic ones were used
    uint32_t factors_assumed; // components without M-factor: 1 was used
    size_t note_count;
    const char *notes[NOTES_MAX]; // sentences for the person
};

// Texts live in `arena`. STATUS_RANGE when the fractions are not a composition, STATUS_MEMORY.
enum status classify(const struct classification_input *input, struct arena *arena, struct classification *ret,
                     struct error *err);

// The same for a blend; `input` gives everything but components and fractions. STATUS_NO_DATA without densities.
enum status classify_blend(const struct blend *blend, const struct classification_input *input, struct arena *arena,
                           struct classification *ret, struct error *err);

bool classification_has(const struct classification *classification, const char *code);

// Converted acute toxicity point estimates, Annex I table 3.1.2 (HCS table A.1.2): mg/kg, mg/kg, mg/L as vapour.
double acute_point_estimate(enum hazard_class route, int category);

#endif
