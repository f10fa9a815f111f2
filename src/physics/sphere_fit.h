// SPDX-License-Identifier: GPL-3.0-or-later
// The classical fit of a solubility sphere: a centre and a radius such that the liquids that dissolve a material lie
// inside and the others outside (Hansen, Solubility Parameters: A User's Handbook, 2007, ch. 1).
//
// Few lists have one answer: usually many spheres set equally many liquids right, and without a bound the radius may
// grow for ever, the sphere becoming a plane. So the radius is bounded, and the spheres that do as well are counted.
#ifndef MILDSOLVE_PHYSICS_SPHERE_FIT_H
#define MILDSOLVE_PHYSICS_SPHERE_FIT_H

#include "physics/hansen.h"

enum { SPHERE_LIQUIDS_MAX = 512 };

// Radii that a fit may take, MPa^0.5. Published spheres of polymers have 3 to 15 (Hansen, same source, from memory).
#define SPHERE_RADIUS_LEAST 2.0
#define SPHERE_RADIUS_MOST 15.0

struct sphere_liquid {
    struct hansen place;
    bool dissolves;
};

struct sphere {
    struct hansen centre;
    double r0; // MPa^0.5
};

// Lies a liquid on the side where it belongs?
bool sphere_right(const struct sphere *sphere, const struct sphere_liquid *liquid);

struct sphere_range {
    double least, most;
};

struct sphere_fit {
    struct sphere best; // of those with most liquids right, the one that is furthest from a mistake for its size: the
                        // largest gap between the farthest inside and the nearest outside, over the radius
    size_t right;
    double data_fit; // geometric mean of exp(-distance to the right side), 1 when all are right (same source, eq. 1.10)
    // Spheres on a grid of centres, 0.5 MPa^0.5 in delta_d and 1 in the others, that set as many right.
    size_t as_good;
    struct sphere_range delta_d, delta_p, delta_h, r0; // of these, the best among them
    bool radius_bounded;                               // some of them reach the bound: the list alone does not close it
};

// Centres from 12 to 24, 0 to 26 and 0 to 30 MPa^0.5 are searched, the best ones then more finely. STATUS_RANGE: no
// liquid or too many, all on one side, or a bound that is not between SPHERE_RADIUS_LEAST and 50.
enum status sphere_fit(const struct sphere_liquid *liquids, size_t count, double radius_most, struct sphere_fit *ret,
                       struct error *err);

#endif
