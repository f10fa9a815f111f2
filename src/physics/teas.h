// SPDX-License-Identifier: GPL-3.0-or-later
// Fractional solubility parameters in the triangle (Teas, J. Paint Technol. 40 (1968) 19): fd + fp + fh = 100.
#ifndef MILDSOLVE_PHYSICS_TEAS_H
#define MILDSOLVE_PHYSICS_TEAS_H

#include "data/tables.h"
#include "physics/blend.h"
#include "physics/hansen.h"

// percent
struct teas {
    double fd, fp, fh;
};

// The two rules give different points and are never mixed in one drawing.
enum teas_rule {
    TEAS_MEAN_OF_FRACTIONS, // volume mean of the published fractions (the trade's habit on the paper chart);
                            // a component without published fractions enters with 100 delta/sum
    TEAS_OF_MEAN_HANSEN     // 100 delta_k / sum of the blend's mean Hansen parameters
};
const char *teas_rule_words(enum teas_rule rule);

// f_k = 100 delta_k / (delta_d + delta_p + delta_h)
struct teas teas_of_hansen(struct hansen h);

// Published fractions of a component, or computed ones; *ret_computed (may be NULL) tells which.
enum status teas_of_component(const struct component *component, struct teas *ret, bool *ret_computed,
                              struct error *err);

// *ret_computed: number of components that had to be computed (rule 1), may be NULL.
enum status teas_of_blend(const struct blend *blend, enum teas_rule rule, struct teas *ret, size_t *ret_computed,
                          struct error *err);

// Distance in the triangle as drawn: unit = one percent along a side; for an equilateral triangle
// d^2 = (dfd^2 + dfp^2 + dfh^2) / 2.
double teas_distance(struct teas a, struct teas b);

// Inside (or on the edge of) a region's polygon, and the distance to its edge in the unit above (0 on the edge).
bool teas_inside(struct teas point, const struct teas_region *region);
double teas_distance_to_region(struct teas point, const struct teas_region *region);

// Equilateral coordinates for drawing: x to the right, y up, side length 1. Pure dispersion is the origin, pure polar
// (1, 0), pure hydrogen bonding the top; so hydrocarbons start at the origin as on any graph.
void teas_xy(struct teas point, double *ret_x, double *ret_y);

#endif
