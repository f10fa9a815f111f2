// SPDX-License-Identifier: GPL-3.0-or-later
// The fall-back for components without groups: Flory-Huggins with Hansen distances,
//   ln gamma_i = ln(phi_i/x_i) + 1 - phi_i/x_i + (V_i/RT) sum_j sum_k phi_j phi_k (A_ij - A_jk/2),
//   A_ij = alpha [(dD_i-dD_j)^2 + (dP_i-dP_j)^2/4 + (dH_i-dH_j)^2/4],  alpha = 0.6
// (Lindvig, Michelsen & Kontogeorgis, Fluid Phase Equilib. 203 (2002) 247, from memory). An estimate: mean
// |ln| error of limiting activity coefficients 0.63, of pressures 12 %; not for water.
#ifndef MILDSOLVE_PHYSICS_FLORY_H
#define MILDSOLVE_PHYSICS_FLORY_H

#include "base/error.h"
#include "physics/blend.h"

// alpha of the equation above.
#define FLORY_ALPHA 0.6

struct flory_mixture {
    size_t count;
    double temp_k;
    double volume[BLEND_COMPONENTS_MAX];                        // cm3/mol at 25 degC
    double energy[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX]; // A_ij, MPa, rows of count
};

// Hansen parameters and molar volumes at 25 degC are used at every temperature. STATUS_NO_DATA names the component
// that lacks one (*ret_lacks, may be NULL, is its place).
enum status flory_prepare(const struct component *const *components, size_t count, double temp_k,
                          struct flory_mixture *ret, size_t *ret_lacks, struct error *err);

// As unifac_ln_gamma and unifac_derivatives.
void flory_ln_gamma(const struct flory_mixture *mixture, const double *x, double *ret_ln_gamma);
void flory_derivatives(const struct flory_mixture *mixture, const double *x, double *ret_ln_gamma,
                       double *ret_derivatives);

#endif
