// SPDX-License-Identifier: GPL-3.0-or-later
// From parts to millilitres that a cylinder can measure, and from a leftover to another blend.
#ifndef MILDSOLVE_PHYSICS_RECIPE_H
#define MILDSOLVE_PHYSICS_RECIPE_H

#include "physics/blend.h"

struct recipe_line {
    struct bottle_ref bottle;
    double asked_percent;   // share by volume in the blend asked for
    double have_ml;         // already in the leftover
    double add_ml;          // to be measured, a whole number of steps
    double reached_percent; // share by volume of what results
};

struct recipe {
    size_t count;
    struct recipe_line lines[BLEND_BOTTLES_MAX];
    double total_ml;
    double step_ml;
    double shift_percent; // largest difference between reached and asked share
    struct blend reached; // the blend that results
};

// Batch of volume_ml: each share rounded to whole steps (largest remainders), so that the sum stays. STATUS_RANGE when
// the volume is not a whole number of steps, or a share would round to nothing: the sentence names the smallest batch
// that works.
enum status recipe_make(const struct library *lib, const struct blend *blend, double volume_ml, double step_ml,
                        struct recipe *ret, struct error *err);

// What to add to leftover_ml of `leftover` to make `blend`: the least total at which no share is too large already,
// or volume_ml if that is more (0 = least). STATUS_RANGE when the leftover holds a bottle that the blend lacks, or
// what is to be added of one that it lacks itself would round to nothing.
enum status recipe_correct(const struct library *lib, const struct blend *leftover, double leftover_ml,
                           const struct blend *blend, double volume_ml, double step_ml, struct recipe *ret,
                           struct error *err);

#endif
