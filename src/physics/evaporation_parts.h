// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of evaporation: what the path of a blend takes from its components.
#ifndef MILDSOLVE_PHYSICS_EVAPORATION_PARTS_H
#define MILDSOLVE_PHYSICS_EVAPORATION_PARTS_H

#include "physics/evaporation.h"

// Mass transfer of a component into air, up to a factor common to all; 1 with `equal`. STATUS_NO_DATA.
enum status evaporation_transfer(const struct component *component, double temp_k, bool equal, double *ret_k,
                                 struct error *err);

// Volume that the neat reference liquid loses in a unit of time that is common to all. STATUS_NO_DATA.
enum status evaporation_reference_rate(const struct library *lib, double temp_c, bool equal, double *ret_rate,
                                       struct error *err);

#endif
