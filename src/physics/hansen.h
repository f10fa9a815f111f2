// SPDX-License-Identifier: GPL-3.0-or-later
// Hansen solubility parameters (HSP): mean of a blend, distance, relative energy difference.
#ifndef MILDSOLVE_PHYSICS_HANSEN_H
#define MILDSOLVE_PHYSICS_HANSEN_H

#include "data/tables.h"
#include "physics/blend.h"

// MPa^0.5
struct hansen {
    double delta_d, delta_p, delta_h;
};

// Volume-weighted mean: delta_k(blend) = sum_i phi_i delta_k,i (Hansen, Solubility Parameters: A User's Handbook, 2007,
// ch. 1). STATUS_NO_DATA names the component without a Hansen split.
enum status hansen_of_blend(const struct blend *blend, struct hansen *ret, struct error *err);

struct hansen hansen_of_component(const struct component *component); // NAN parts when unknown
struct hansen hansen_of_sphere(const struct sphere_values *sphere);
bool hansen_known(struct hansen place); // all three parts

// Ra^2 = 4 (dD1-dD2)^2 + (dP1-dP2)^2 + (dH1-dH2)^2, MPa^0.5 (same source, eq. 1.9).
double hansen_distance(struct hansen a, struct hansen b);

// (dD1-dD2)^2 + (dP1-dP2)^2/4 + (dH1-dH2)^2/4, MPa = J/cm3: Ra^2/4, the energy of exchange in Flory-Huggins terms.
double hansen_exchange_energy(struct hansen a, struct hansen b);

// RED = Ra / R0; below 1 inside the sphere. NAN without a region.
double hansen_red(struct hansen liquid, const struct sphere_values *sphere);

// Total parameter sqrt(dD^2 + dP^2 + dH^2), MPa^0.5.
double hansen_total(struct hansen h);

#endif
