// SPDX-License-Identifier: GPL-3.0-or-later
// How far the saturated air over a blend is above the exposure limits: sum_i C_i,sat / L_i, with the saturated
// concentrations over the blend as it is (activities, not neat liquids). It compares liquids whatever the room (vapour
// hazard ratio: Pitt, IChemE Symp. Ser. 151 (2006); summed over a mixture: Gerin, Ann. Occup. Hyg. 53 (2009) 391; both
// from memory). It knows nothing of what no limit covers: skin, sensitisers, carcinogens, reproductive toxicants.
#ifndef MILDSOLVE_PHYSICS_VAPOUR_HAZARD_H
#define MILDSOLVE_PHYSICS_VAPOUR_HAZARD_H

#include "physics/limits.h"
#include "physics/vapour.h"

struct vapour_hazard {
    const struct authority *authority; // whose limits
    double ratio;                      // of what is known; NAN when nothing is
    bool complete;                     // every component that needs a limit has one, and a pressure
    const struct component *unknown;   // the first that has not, or NULL
    const struct component *largest;   // with the largest part of the sum, or NULL
};

// By the limits of one authority: those of different sets are never summed. STATUS_NO_DATA as limit_set_of.
enum status vapour_hazard_of(const struct library *lib, const struct vapour *vapour, const struct authority *authority,
                             struct vapour_hazard *ret, struct error *err);

#endif
