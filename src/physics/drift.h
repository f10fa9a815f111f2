// SPDX-License-Identifier: GPL-3.0-or-later
// What is left of a liquid whose components leave at their own rates. With the loss of component i, w_i = g_i x_i
// (g_i depends on the composition), and tau = -ln(fraction of moles left):
//   d ln n_i / d tau = -g_i / sum_j w_j,   d t / d tau = (sum_i n_i) / sum_j w_j.
// With g_i = gamma_i psat_i this is the Rayleigh equation (Phil. Mag. 4 (1902) 521). The amounts are followed by their
// logarithms: they stay positive, a trace is as exact as the rest, and a volatile trace over a heavy liquid, which
// makes the equations for the amounts stiff (rates 10^7 apart for ether in glycerol), only falls along a straight
// line, because d ln n_i / d tau does not depend on n_i itself once that is small.
#ifndef MILDSOLVE_PHYSICS_DRIFT_H
#define MILDSOLVE_PHYSICS_DRIFT_H

#include "base/error.h"
#include "physics/blend.h"

// g_i at mole fractions x, any unit, positive also for components with x_i = 0; false where there is none.
typedef bool (*drift_mobilities)(const double *x, double *ret_g, void *context);

struct drift_problem {
    size_t count;
    double start[BLEND_COMPONENTS_MAX]; // mole fractions, sum 1; zeros are left out of the path
    drift_mobilities mobilities;
    void *context;
    double precision; // relative error of amounts and time per step
    size_t most;      // steps
};

struct drift_state {
    double evaporated;              // fraction of the moles
    double n[BLEND_COMPONENTS_MAX]; // what is left of one mole
    double x[BLEND_COMPONENTS_MAX]; // the same as fractions
    double time;                    // moles over the unit of g x
};

enum drift_stop {
    DRIFT_COMPLETE, // the last of the wanted states was reached
    DRIFT_STEPS,    // the limit on steps was reached
    DRIFT_STUCK,    // the steps became too small to go on
    DRIFT_NO_RATES  // no component evaporates any more, or the mobilities have no value
};
const char *drift_stop_words(enum drift_stop stop);

// The states at `evaporated` (ascending, from 0 to below 1). *ret_count of them were reached, all when *ret_stop is
// DRIFT_COMPLETE. STATUS_MEMORY; STATUS_RANGE for a start that isn't fractions.
enum status drift_follow(const struct drift_problem *problem, const double *evaporated, size_t count,
                         struct drift_state *ret, size_t *ret_count, enum drift_stop *ret_stop, struct error *err);

#endif
