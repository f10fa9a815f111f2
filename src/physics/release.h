// SPDX-License-Identifier: GPL-3.0-or-later
// How fast a wet surface gives off the components of a blend.
#ifndef MILDSOLVE_PHYSICS_RELEASE_H
#define MILDSOLVE_PHYSICS_RELEASE_H

#include "physics/vapour.h"

// mg/h of every component of the blend: A * 1464 p_i M_i microgram/(m2 h) (Mackay and van Wesenbeeck, Environ. Sci.
// Technol. 48 (2014) 10259; ventilation.h), p_i in Pa over the blend with activities. Of the fresh blend: what leaves
// first is taken to go on leaving at that rate. Within about a factor of 2 for neat liquids in still indoor air; brush
// strokes, swabs in motion and draughts are faster. NAN for a component whose pressure or molar mass is not known.
// STATUS_RANGE for a surface that is not above 0; as vapour_over_blend otherwise, but STATUS_NO_DATA is answered by
// NAN.
enum status release_most_mg_h(const struct unifac_table *table, const struct blend *blend, double wet_m2, double temp_c,
                              double ret_mg_h[BLEND_COMPONENTS_MAX], struct error *err);

#endif
