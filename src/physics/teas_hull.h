// SPDX-License-Identifier: GPL-3.0-or-later
// A Teas area for a material that has a sphere but no area of its own: the convex hull of the published places of the
// liquids inside the sphere, as the areas of the tables were drawn. For display only, of low confidence: the triangle
// throws away total cohesion, so liquids outside the sphere may lie inside the hull.
#ifndef MILDSOLVE_PHYSICS_TEAS_HULL_H
#define MILDSOLVE_PHYSICS_TEAS_HULL_H

#include "data/library.h"
#include "physics/teas.h"

enum { TEAS_HULL_MOST = 100 };

// Corners in order round the hull, at most TEAS_HULL_MOST; returns their count, 0 when fewer than three liquids with
// published fractions, not on one line, lie inside.
size_t teas_hull_of_sphere(const struct library *lib, const struct material *material, struct teas ret[TEAS_HULL_MOST]);

#endif
