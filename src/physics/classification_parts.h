// SPDX-License-Identifier: GPL-3.0-or-later
// Between the files of the classification.
#ifndef MILDSOLVE_PHYSICS_CLASSIFICATION_PARTS_H
#define MILDSOLVE_PHYSICS_CLASSIFICATION_PARTS_H

#include "physics/classification.h"

struct mixing {
    const struct classification_input *input;
    struct arena *arena;
    struct classification *ret;
    bool failed; // memory ran out, or too many statements
};

// Components that count towards one statement.
struct tally {
    double sum; // percent, or a sum of shares of limits, as the rule has it
    uint32_t from;
};

static inline bool is_us(const struct mixing *mix) {
    return mix->input->rules == RULES_US_HCS;
}

double percent_of(const struct mixing *mix, size_t i);
void tally_add(struct tally *tally, size_t i, double amount);

// At the limit or above it, up to rounding.
bool reaches(double percent, double limit);

// The component's code of this class and category, or NULL. Note P codes count when the benzene content is not known.
const char *component_code(const struct mixing *mix, size_t i, enum hazard_class class, int category);
bool component_has(const struct mixing *mix, size_t i, const char *code);

// Specific limits: the lowest percentage from which the component alone gives `code`; NAN = none entered.
double specific_from(const struct mixing *mix, size_t i, const char *code);
// The code of `class` that the component's specific limits give at its share, NULL = none; *ret_any: it has some.
const char *specific_code(const struct mixing *mix, size_t i, enum hazard_class class, bool *ret_any);

// Adds the statement with a reason written as printf.
void add_statement(struct mixing *mix, const char *code, uint32_t from, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
void add_note(struct mixing *mix, const char *format, ...) __attribute__((format(printf, 2, 3)));
// The words of the label that stand for a component mask: "toluene 43.2 %, xylenes 5 %".
const char *names_of(struct mixing *mix, uint32_t mask);

// The rules, one function for each group of classes.
void classify_acute(struct mixing *mix);
void classify_skin_and_eye(struct mixing *mix);
void classify_single_components(struct mixing *mix);
void classify_reproduction(struct mixing *mix);
void classify_category_3(struct mixing *mix);
void classify_aspiration(struct mixing *mix);
void classify_flammable(struct mixing *mix);
void classify_aquatic(struct mixing *mix);
void classify_carried(struct mixing *mix);

void choose_label(struct mixing *mix);

#endif
