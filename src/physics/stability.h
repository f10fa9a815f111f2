// SPDX-License-Identifier: GPL-3.0-or-later
// Is a liquid one phase? The tangent-plane test with all its components.
//
// A liquid z is stable when no trial phase w lies below the tangent plane of the Gibbs energy at z:
//   tpd(w) = sum_i w_i (ln w_i + ln gamma_i(w) - d_i) >= 0 for every w,  d_i = ln z_i + ln gamma_i(z)
// (Michelsen, Fluid Phase Equilib. 9 (1982) 1, from memory). Sought are the minima of its modified form
//   tm(W) = 1 + sum_i W_i (ln W_i + ln gamma_i(W) - d_i - 1),  W mole numbers,
// which has the same sign: from every neat component and from the ideal phase, by successive substitution
// ln W_i = d_i - ln gamma_i(W), then Newton's method in 2 sqrt(W_i).
#ifndef MILDSOLVE_PHYSICS_STABILITY_H
#define MILDSOLVE_PHYSICS_STABILITY_H

#include "base/error.h"
#include "physics/activity.h"

// Why a solver stopped.
enum stop_reason {
    STOP_CONVERGED,
    STOP_AT_FEED,    // the trial phase ran into the liquid itself: nothing new found
    STOP_ITERATIONS, // the limit of iterations was reached
    STOP_NO_DESCENT, // no step lowers the function any more: rounding
    STOP_REASON_COUNT
};
const char *stop_reason_words(enum stop_reason reason);

struct stability {
    bool stable;
    // Lowest tm found, 0 when no trial phase other than the liquid itself was found; below 0 = unstable.
    double distance;
    double trial[BLEND_COMPONENTS_MAX]; // the trial phase with that distance, mole fractions
    // D: smallest eigenvalue of delta_ij + sqrt(z_i z_j) d ln gamma_i/d n_j over changes of composition at constant
    // total; for two components d ln a_1 / d ln x_1. 1 = ideal, 0 = spinodal, below 0 = unstable by itself.
    // 1 for a single component.
    double least_eigenvalue;
    size_t starts;                     // trial phases begun with
    size_t stopped[STOP_REASON_COUNT]; // how they ended
};

// z: mole fractions or mole numbers of the model's components, >= 0, finite, sum > 0 (STATUS_RANGE otherwise); absent
// components are left out. The model must cover the set (asserted). On the binodal either answer may come, to 1e-10.
enum status stability_test(const struct activity_model *model, const double *z, struct stability *ret,
                           struct error *err);

// D alone, and the change of mole fractions in which it is smallest (sum 0; may be NULL). z as above.
double stability_least_eigenvalue(const struct activity_model *model, const double *z, double *ret_direction);

// Copies z as fractions that sum to 1; STATUS_RANGE for negative, non-finite or all-zero amounts.
enum status stability_normalise(const double *z, size_t count, double *ret_fractions, struct error *err);

#endif
