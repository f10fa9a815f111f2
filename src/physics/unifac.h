// SPDX-License-Identifier: GPL-3.0-or-later
// Activity coefficients from groups: original UNIFAC (Fredenslund, Jones & Prausnitz, AIChE J. 21 (1975) 1086) and
// modified UNIFAC (Dortmund) (Weidlich & Gmehling, Ind. Eng. Chem. Res. 26 (1987) 1372), one routine for both.
//
// With r_i = sum_k nu_k R_k, q_i = sum_k nu_k Q_k and N, P, R, Q = sum_i n_i {1, r_i^p, r_i, q_i}:
//   ln gamma_i^C = 1 - V' + ln V' - 5 q_i (1 - V/F + ln V/F),   V' = r_i^p N/P,  V/F = (r_i/q_i)(Q/R)
//   ln gamma_i^R = sum_k nu_k (ln Gamma_k - ln Gamma_k^(i)),
//   ln Gamma_k = Q_k [1 - ln sum_m Theta_m Psi_mk - sum_m Theta_m Psi_km / sum_n Theta_n Psi_nm]
//   Psi_mn = exp[-(a_mn + b_mn T + c_mn T^2)/T];  original: p = 1, b = c = 0;  Dortmund: p = 3/4.
// Subgroups of one main group share their Psi, so that the sums run over main groups only. With the area of a
// component in main group m, A_im = sum_{k in m} nu_k Q_k, and B_im = sum_l A_il Psi_lm (both independent of
// composition), a_m = sum_i n_i A_im and s_m = sum_i n_i B_im:
//   ln gamma_i^R = q_i - sum_m [A_im ln(s_m/Q) + B_im a_m/s_m] - (the same for the pure component).
#ifndef MILDSOLVE_PHYSICS_UNIFAC_H
#define MILDSOLVE_PHYSICS_UNIFAC_H

#include "base/error.h"
#include "data/library.h"
#include "physics/blend.h"

#include <stdbool.h>
#include <stddef.h>

// Main groups that one mixture may contain. The tables hold 27 (original) and 29 (Dortmund).
enum { UNIFAC_MAIN_MAX = 32 };

// One model's parameters, indexed for look-up. Built once, then only read: may be shared between threads.
struct unifac_coefficients {
    double a, b, c; // K, 1, 1/K
    bool known;
};

struct unifac_area {
    size_t main; // index into main_ids
    double area; // sum of nu_k Q_k over the component's subgroups in this main group
};

// A component as this model sees it.
struct unifac_species {
    const struct unifac_assignment *assignment;
    double r, q;
    size_t area_count; // 0 = the model has no groups for it
    const struct unifac_area *areas;
};

struct unifac_parameters {
    int model; // enum unifac_model
    size_t main_count;
    const int *main_ids;
    const char *const *main_names;
    const struct unifac_coefficients *pairs; // main_count x main_count, row m, column n
    size_t species_count;
    const struct unifac_species *species; // sorted by component id
};

struct unifac_table {
    struct arena arena;
    struct unifac_parameters models[2]; // by enum unifac_model
};

// Builds the table from the rows of `lib` (opened with TABLE_UNIFAC), which must outlive it. STATUS_INPUT when an
// assignment names a subgroup that the model's groups lack; STATUS_MEMORY. On failure *ret is left empty.
enum status unifac_table_make(const struct library *lib, struct unifac_table *ret, struct error *err);
void unifac_table_release(struct unifac_table *table);

// The component's assignment in one model, or NULL when there is no row or the row has no groups.
const struct unifac_species *unifac_species_find(const struct unifac_table *table, enum unifac_model model,
                                                 const char *component_id);

// Why a set is not covered: a component without groups, or two components of which two main groups have no
// interaction parameters.
struct unifac_gap {
    size_t first, second;                 // places in the set; equal when one component alone is at fault
    const char *main_first, *main_second; // main groups without parameters, NULL when groups are missing
};

// A set of components at one temperature: everything that doesn't depend on composition. Plain data, no pointers
// to free; evaluation only reads it.
struct unifac_mixture {
    const struct unifac_parameters *parameters;
    size_t count;
    size_t main_count; // main groups that occur in the set
    double temp_k;
    size_t mains[UNIFAC_MAIN_MAX]; // index into parameters->main_ids
    double r[BLEND_COMPONENTS_MAX];
    double r_power[BLEND_COMPONENTS_MAX]; // r^p
    double q[BLEND_COMPONENTS_MAX];
    double offset[BLEND_COMPONENTS_MAX];                  // so that a pure component has ln gamma = 0
    double area[BLEND_COMPONENTS_MAX * UNIFAC_MAIN_MAX];  // A_im, rows of main_count
    double reach[BLEND_COMPONENTS_MAX * UNIFAC_MAIN_MAX]; // B_im, rows of main_count
};

// Prepares 1 to BLEND_COMPONENTS_MAX components, each once, at temp_k (> 0). STATUS_NO_DATA when the model doesn't
// cover the set (*ret_gap, may be NULL, says why; a missing interaction is never taken as zero); STATUS_RANGE when
// a Psi leaves the range of numbers at this temperature, or for too many main groups.
enum status unifac_prepare(const struct unifac_table *table, enum unifac_model model,
                           const struct component *const *components, size_t count, double temp_k,
                           struct unifac_mixture *ret, struct unifac_gap *ret_gap, struct error *err);

// The same set at another temperature. On failure the mixture is unchanged.
enum status unifac_set_temperature(struct unifac_mixture *mixture, double temp_k, struct error *err);

// ln gamma of every component. x: mole fractions or any mole numbers, >= 0, sum > 0; zero means infinite dilution.
// ln gamma doesn't depend on their sum.
void unifac_ln_gamma(const struct unifac_mixture *mixture, const double *x, double *ret_ln_gamma);

// Also ret_derivatives[i * count + j] = d ln gamma_i / d n_j at constant other mole numbers, for n = x (total 1 when x
// sums to 1; scales with 1/total). Symmetric, and sum_j n_j d ln gamma_i / d n_j = 0 (Gibbs-Duhem and Euler).
void unifac_derivatives(const struct unifac_mixture *mixture, const double *x, double *ret_ln_gamma,
                        double *ret_derivatives);

#endif
