// SPDX-License-Identifier: GPL-3.0-or-later
// What published or remembered lists say of a blend. They outrank the models in the cautious direction: a class of
// swelling is never undercut, and where a list sets the strong liquids outside, the answer says that the two disagree.
#ifndef MILDSOLVE_SELECTION_PUBLISHED_H
#define MILDSOLVE_SELECTION_PUBLISHED_H

#include "physics/blend.h"
#include "physics/film_band.h"

// A class is that of a neat liquid. It is taken for a blend that consists of it for at least this share of the volume
// (ours: a smaller one says nothing of the blend).
#define PUBLISHED_SHARE 0.5

struct published {
    const struct published_swelling *swelling; // NULL = nothing is published
    const struct component *component;
    double least; // swelling that the class admits at least: low 0, low-moderate from the band "low", moderate from
                  // "moderate", high from "high" (film_band.h); 0 without a class
};

// The highest class of a liquid that makes up most of the blend, on this material.
struct published published_swelling_of(const struct material *material, const struct blend *blend);

// True when the material's list of non-solvents names every strong liquid of at least 1 % of the blend, and there is
// one.
bool published_outside(const struct material *material, const struct blend *blend);

#endif
