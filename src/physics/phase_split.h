// SPDX-License-Identifier: GPL-3.0-or-later
// The two liquids into which an unstable one separates: equal activities, amounts conserved.
#ifndef MILDSOLVE_PHYSICS_PHASE_SPLIT_H
#define MILDSOLVE_PHYSICS_PHASE_SPLIT_H

#include "base/error.h"
#include "physics/activity.h"
#include "physics/stability.h"

struct phase_split {
    double x[2][BLEND_COMPONENTS_MAX];   // mole fractions; phase 0 has the larger volume
    double phi[2][BLEND_COMPONENTS_MAX]; // volume fractions from the 25 degC molar volumes, no change on mixing
    double mole_share[2];                // of the whole, sum 1
    double volume_share[2];
    double mismatch;       // largest |ln a_i(0) - ln a_i(1)| over the components present
    double gain;           // Gibbs energy of the two phases minus that of the one, per mole and RT; below 0
    enum stop_reason stop; // STOP_CONVERGED or STOP_NO_DESCENT (rounding)
};

// Splits a liquid that stability_test() called unstable (z as there, `tested` its result). Successive substitution
// first; where that is slow or slides back into one phase, minimisation of the Gibbs energy (Michelsen, Fluid Phase
// Equilib. 9 (1982) 21, from memory), which can only go down from the trial phase.
// STATUS_NO_ROOT: stable, or so near the boundary that two phases cannot be told apart; STATUS_ITERATIONS: the
// limit was reached with a mismatch above 1e-6; STATUS_NO_DATA: a molar volume is missing.
enum status phase_split_find(const struct activity_model *model, const double *z, const struct stability *tested,
                             struct phase_split *ret, struct error *err);

#endif
