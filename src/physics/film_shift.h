// SPDX-License-Identifier: GPL-3.0-or-later
// One and the same shift of chi for every liquid: how much more, or less, a film of this kind takes up than the tables
// say. It is the strength parameter that is learnt from tests.
#ifndef MILDSOLVE_PHYSICS_FILM_SHIFT_H
#define MILDSOLVE_PHYSICS_FILM_SHIFT_H

#include "physics/film.h"

// Adds the shift to chi of every component.
void film_shift_chi(struct film *film, double shift);

// Gives each component a chi of its own (in the order of the set) instead of that of its place.
void film_set_chi(struct film *film, const double *chi);

#endif
