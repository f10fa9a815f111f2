// SPDX-License-Identifier: GPL-3.0-or-later
// Modified UNIFAC (Dortmund) written down straight from the equations of the textbook, subgroup by subgroup, with
// nothing prepared: the yardstick of the benchmark, and an independent check of src/physics/unifac.c.
#ifndef MILDSOLVE_TESTS_PLAIN_UNIFAC_H
#define MILDSOLVE_TESTS_PLAIN_UNIFAC_H

#include "data/library.h"

#include <stddef.h>

enum { PLAIN_GROUPS_MAX = 24, PLAIN_COMPONENTS_MAX = 8 };

struct plain_group {
    double volume, surface; // R_k, Q_k
    int main;
};

struct plain_unifac {
    size_t components, groups;
    double power; // p
    struct plain_group group[PLAIN_GROUPS_MAX];
    double number[PLAIN_COMPONENTS_MAX][PLAIN_GROUPS_MAX]; // nu_ki
    double a[PLAIN_GROUPS_MAX][PLAIN_GROUPS_MAX], b[PLAIN_GROUPS_MAX][PLAIN_GROUPS_MAX],
        c[PLAIN_GROUPS_MAX][PLAIN_GROUPS_MAX];
};

// The groups of some components; missing rows end the program.
void plain_unifac_make(const struct library *lib, int model, const char *const *ids, size_t count,
                       struct plain_unifac *ret);

// Everything in every call, as in the textbook.
void plain_unifac_ln_gamma(const struct plain_unifac *plain, double temp_k, const double *x, double *ret_ln_gamma);

// The same with what depends on temperature alone worked out beforehand: Psi and ln Gamma of the pure components.
struct plain_psi {
    double at[PLAIN_GROUPS_MAX][PLAIN_GROUPS_MAX];
};
struct plain_prepared {
    struct plain_psi psi;
    double pure[PLAIN_COMPONENTS_MAX][PLAIN_GROUPS_MAX];
};
void plain_unifac_prepare(const struct plain_unifac *plain, double temp_k, struct plain_prepared *ret);
void plain_unifac_ln_gamma_prepared(const struct plain_unifac *plain, const struct plain_prepared *prepared,
                                    const double *x, double *ret_ln_gamma);

#endif
