// SPDX-License-Identifier: GPL-3.0-or-later
// The values that the tables hold of a liquid and of a material, one after another, for whoever lists them.
#ifndef MILDSOLVE_CLI_TABLE_VALUES_H
#define MILDSOLVE_CLI_TABLE_VALUES_H

#include "cli/values.h"

// What a value is of, so that some kinds can be picked; also what an explanation says an equation needs.
enum value_kind {
    VALUE_HANSEN = 1 << 0,
    VALUE_TEAS = 1 << 1,
    VALUE_MOLAR_VOLUME = 1 << 2,
    VALUE_MOLAR_MASS = 1 << 3,
    VALUE_DENSITY = 1 << 4,
    VALUE_VAPOUR = 1 << 5, // at 20 degC
    VALUE_VAPOUR_25 = 1 << 6,
    VALUE_FLASH = 1 << 7,
    VALUE_FLAMMABLE = 1 << 8, // lower limit of flammable vapour
    VALUE_SPHERE = 1 << 9,
    VALUE_FILM = 1 << 10,
    VALUE_OTHER = 1 << 11 // enters no equation
};

struct table_value {
    const char *key;   // as `solvents` calls it
    const char *words; // for reports, NULL = in none
    const char *unit;
    const char *printed_unit; // with signs beyond ASCII
    unsigned kind;
    double value;                    // NAN = not known
    const struct provenance *from;   // never NULL
    const struct quantity *quantity; // where the value is one, else NULL
};

// The i-th value of a component in the order of `solvents NAME`; false beyond the last.
bool component_value(const struct component *component, size_t i, struct table_value *ret);

// The i-th value of a material: its sphere, then its film.
bool material_value(const struct material *material, size_t i, struct table_value *ret);

// The curve of a component's vapour pressure in one line; nothing when there is none.
void write_antoine(const struct component *component, struct cited *cited, struct text *out);

#endif
