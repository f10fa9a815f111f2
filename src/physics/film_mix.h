// SPDX-License-Identifier: GPL-3.0-or-later
// The film of a blend that may have split in two.
#ifndef MILDSOLVE_PHYSICS_FILM_MIX_H
#define MILDSOLVE_PHYSICS_FILM_MIX_H

#include "physics/film.h"
#include "physics/phase_split.h"

// Activities of a liquid that may have split: those common to both phases when it has (*ret_split; may be NULL), else
// those of the one phase. x as for stability_test. Statuses of phase_split.h.
enum status film_common_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity,
                                   bool *ret_split, struct error *err);

#endif
