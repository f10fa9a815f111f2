// SPDX-License-Identifier: GPL-3.0-or-later
// What would bring a day of work within the limits of one authority, and how long the room has to be aired.
#ifndef MILDSOLVE_PHYSICS_EXPOSURE_HELP_H
#define MILDSOLVE_PHYSICS_EXPOSURE_HELP_H

#include "physics/exposure.h"

enum exposure_need {
    NEED_NONE,      // nothing is needed
    NEED_FOUND,     // the figure is given
    NEED_IMPOSSIBLE // nothing of the kind suffices
};

#define EXPOSURE_MOST_AIR_CHANGES 1000.0

// Fewest air changes per hour at which the allowed factor of this authority is at least 1, to 1e-6 of itself
// and on the side that is within. More air never makes it worse, so bisection finds it. NEED_NONE: even the sealed room
// stays within; NEED_IMPOSSIBLE: not even EXPOSURE_MOST_AIR_CHANGES do, because the near field alone passes.
enum status exposure_air_changes_needed(const struct library *lib, const struct exposure_plan *plan,
                                        const struct authority *authority, enum exposure_need *ret_need,
                                        double *ret_air_changes_per_h, struct error *err);

// Shortest pause, added between every task and the next one, at which the allowed factor is at least 1, to a second and
// on the side that is within; the plan must still fit into the day. NEED_NONE: the plan is within as it is;
// NEED_IMPOSSIBLE: no pause that fits, or there is only one task.
enum status exposure_pause_needed(const struct library *lib, const struct exposure_plan *plan,
                                  const struct authority *authority, enum exposure_need *ret_need, double *ret_pause_h,
                                  struct error *err);

// Longest work at the plan's pace, every task shortened by the same share, in hours of the whole day; to a second and
// on the side that is within. NEED_NONE: the plan is within as it is; NEED_IMPOSSIBLE: not even a minute.
enum status exposure_hours_possible(const struct library *lib, const struct exposure_plan *plan,
                                    const struct authority *authority, enum exposure_need *ret_need, double *ret_hours,
                                    struct error *err);

// Hours after the last task until the well-mixed room is down to this share of the limit for the mean of every
// component; 0 when it is at once, INFINITY in a sealed room. Components without a limit are left out.
double exposure_airing_h(const struct exposure_plan *plan, const struct exposure_air *air,
                         const struct exposure_judgement *set, double share);

// Steady fresh air by the dilution formula (ventilation.h) for the whole mixture, sum of K G_i / L_i over the
// components with a limit, at the highest release of each, m3/h. It says nothing about the near field.
double exposure_dilution_air_m3_h(const struct exposure_air *air, const struct exposure_judgement *set,
                                  double mixing_k);

#endif
