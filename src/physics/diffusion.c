// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/diffusion.h"

#include <math.h>
#include <stddef.h>

// IUPAC 2021 standard atomic weights, abridged to five figures, and the increments of the header.
static const struct {
    size_t offset;
    double weight;
    double increment;
} atoms[] = {
    {offsetof(struct formula_values, c), 12.011, 15.9},  {offsetof(struct formula_values, h), 1.008, 2.31},
    {offsetof(struct formula_values, n), 14.007, 4.54},  {offsetof(struct formula_values, o), 15.999, 6.11},
    {offsetof(struct formula_values, s), 32.06, 22.9},   {offsetof(struct formula_values, cl), 35.45, 21.0},
    {offsetof(struct formula_values, si), 28.085, 24.0},
};
enum { ATOM_KINDS = sizeof atoms / sizeof atoms[0] };

static const double ring_increment = -18.3;
static const double water_volume = 13.1;
static const double air_volume = 19.7;
static const double air_molar_mass = 28.96; // g/mol, dry air (Fuller, Schettler & Giddings 1966)

static int atom_count(const struct formula_values *formula, size_t kind) {
    return *(const int *)(const void *)((const char *)formula + atoms[kind].offset);
}

double formula_molar_mass(const struct formula_values *formula) {
    double mass = 0;
    for (size_t kind = 0; kind < ATOM_KINDS; kind++)
        mass += atom_count(formula, kind) * atoms[kind].weight;
    return mass > 0 ? mass : NAN;
}

double diffusion_volume(const struct component *component) {
    if (component->family == FAMILY_WATER)
        return water_volume;
    if (!component->properties)
        return NAN;
    const struct formula_values *formula = &component->properties->formula;
    double volume = formula->rings * ring_increment;
    for (size_t kind = 0; kind < ATOM_KINDS; kind++)
        volume += atom_count(formula, kind) * atoms[kind].increment;
    return volume > 0 ? volume : NAN;
}

enum status diffusivity_in_air(const struct component *component, double temp_k, double *ret_cm2_s, struct error *err) {
    double volume = diffusion_volume(component);
    double mass = component->properties ? component->properties->molar_mass.value : NAN;
    if (!(volume > 0))
        return error_set(
            err, STATUS_NO_DATA,
            "no molecular formula for '%s'; put formula, such as {c: 10, h: 14}, into your own properties.yaml",
            component->id);
    if (!(mass > 0))
        return error_set(err, STATUS_NO_DATA, "no molar mass for '%s'; put molar_mass into your own properties.yaml",
                         component->id);
    double length = cbrt(volume) + cbrt(air_volume);
    *ret_cm2_s = 0.00100 * pow(temp_k, 1.75) * sqrt(1 / mass + 1 / air_molar_mass) / (length * length);
    return STATUS_OK;
}
