// SPDX-License-Identifier: GPL-3.0-or-later
// Where every number of an answer comes from: one line for each quantity, in tables by subject.
//
// A new figure of an answer needs one line here, under the keys that its JSON has; the test `explain` says which keys
// have none.
#ifndef MILDSOLVE_CLI_DERIVATION_H
#define MILDSOLVE_CLI_DERIVATION_H

#include "cli/table_values.h"

// What an equation takes besides the values of liquids and materials (enum value_kind).
enum uses {
    USES_BOTTLES = 1 << 12, // what is in them
    USES_AREAS = 1 << 13,   // areas of the triangle
    USES_UNIFAC = 1 << 14,  // groups and their interactions
    USES_PAIRS = 1 << 15,   // published pairs of liquids that mix or don't
    USES_LIMITS = 1 << 16,
    USES_HAZARDS = 1 << 17,
    USES_ODOUR = 1 << 18,
    USES_GAS = 1 << 19,  // the gas constant, the atmosphere
    USES_ROOM = 1 << 20, // the near field
    USES_FORMULA = 1 << 21,
    USES_DOUBT = 1 << 22, // uncertainties
    USES_TESTS = 1 << 23, // swab tests of the case
    USES_AGEING = 1 << 24 // published thresholds of lifting
};

// Groups of them that stand for a model.
enum {
    USES_ACTIVITY = USES_UNIFAC | VALUE_MOLAR_VOLUME | VALUE_HANSEN,
    USES_VAPOUR = USES_ACTIVITY | VALUE_VAPOUR | VALUE_VAPOUR_25,
    USES_FILM_MODEL = USES_ACTIVITY | VALUE_SPHERE | VALUE_FILM | USES_GAS
};

struct derivation {
    const char *commands; // those that it holds for, separated by spaces; NULL = every one
    const char *keys;     // JSON keys, separated by spaces: the last parts of the path, without the brackets of lists,
                          // "red", "hansen.delta_d"; "composition.*" stands for a map by id
    const char *name;     // what people know it as; NULL = a plain echo of what was asked for or is in the case
    const char *words;    // what it is, one sentence
    const char *formula;  // NULL = none
    const char *source;   // of the equation
    const char *section;  // of mildsolve-models(7) that says how good it is, or NULL
    unsigned uses;        // bits of enum value_kind and enum uses
};

struct derivations {
    const struct derivation *items;
    size_t count;
};

enum { DERIVATION_TABLES = 4 };
extern const struct derivations derivations_place, derivations_air, derivations_drying, derivations_choice;
extern const struct derivations *const derivation_tables[DERIVATION_TABLES];

// The line for a number of a command's answer: the longest key that fits, the command's own before the general one;
// NULL = none. `path` as json_each_number gives it.
const struct derivation *derivation_of(const char *command, const char *path);

// Assumptions that hold unless something else is asked for.
struct assumption {
    unsigned uses; // said when one of these is
    const char *words;
};
extern const struct assumption assumptions[];
extern const size_t assumption_count;

struct constant {
    unsigned uses;
    const char *name;
    double value;
    const char *unit, *source;
};
extern const struct constant constants[];
extern const size_t constant_count;

#endif
