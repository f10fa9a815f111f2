// SPDX-License-Identifier: GPL-3.0-or-later
// Where a blend sits against one material, in both spaces.
#ifndef MILDSOLVE_PHYSICS_PLACE_H
#define MILDSOLVE_PHYSICS_PLACE_H

#include "physics/hansen.h"
#include "physics/teas.h"

// Distances of a blend to a material. NAN where the material has no region of that kind.
struct material_place {
    const struct material *material;
    double ra_mpa05;
    double red;                     // Ra / R0; below 1 inside
    const struct teas_region *area; // the Teas area nearest to the point (or that holds it), NULL = none
    bool inside_area;               // by the volume mean of fractions, the rule the areas were built with
    double teas_distance;           // to the edge of that area, percent along a side; 0 on the edge
};

// `liquid` and `point` may be NULL when the blend has no place in that space.
void place_against(const struct material *material, const struct hansen *liquid, const struct teas *point,
                   struct material_place *ret);

#endif
