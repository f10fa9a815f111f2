// SPDX-License-Identifier: GPL-3.0-or-later
// Azeotropes of two components: compositions at which vapour and liquid are the same, so that the blend boils (or
// evaporates, with equal diffusivities) unchanged.
#ifndef MILDSOLVE_PHYSICS_AZEOTROPE_H
#define MILDSOLVE_PHYSICS_AZEOTROPE_H

#include "physics/vapour.h"

// Two components rarely have two azeotropes, never more than a few.
enum { AZEOTROPES_MAX = 4 };

enum azeotrope_kind {
    AZEOTROPE_MINIMUM,      // lowest boiling, highest pressure
    AZEOTROPE_MAXIMUM,      // highest boiling, lowest pressure
    AZEOTROPE_HETEROGENEOUS // lowest boiling, over two liquids
};
const char *azeotrope_kind_word(enum azeotrope_kind kind); // minimum maximum heterogeneous

struct azeotrope {
    enum azeotrope_kind kind;
    double temp_k;
    double p_kpa;
    double x1; // mole fraction of the first component in the vapour and, taken together, the liquid
    double w1; // mass fraction; NAN without a molar mass
};

// All azeotropes of `liquid` (two components) at temp_k, by the sign of ln(y1/x1) - ln(y2/x2) on a grid of x1 that is
// fine near the neat liquids, from 1e-6 to 1 - 1e-6, then Brent. None at all is STATUS_OK with *ret_count 0.
// STATUS_NO_DATA when the liquid isn't complete; STATUS_RANGE unless it has two components.
enum status azeotropes_at_temperature(struct vapour_liquid *liquid, double temp_k, struct azeotrope ret[AZEOTROPES_MAX],
                                      size_t *ret_count, struct error *err);

// The same at a pressure, each composition at its boiling point.
enum status azeotropes_at_pressure(struct vapour_liquid *liquid, double p_kpa, struct azeotrope ret[AZEOTROPES_MAX],
                                   size_t *ret_count, struct error *err);

#endif
