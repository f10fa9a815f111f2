// SPDX-License-Identifier: GPL-3.0-or-later
// How strongly a blend acts on a material, as one number that rises with strength.
//   By RED: -ln RED of the blend's mean place (Ra at least 0.1 MPa^0.5).
//   By film: ln of the swelling, between ln 0.01 and ln 10. A film that dissolves counts as swollen 10 times: further
//   differences are beyond the model. Averaged over an unevenness of the film, a normal shift of chi of 0.1, because
//   a real film differs over its depth and place and would else pass from swollen once to dissolved in one step.
// By film it depends on the centre through chi of the components alone; a table over them (three at most: with more,
// the lesser ones follow the three largest by a regression over the prior) makes it cheap to ask for every particle
// (belief_table.h).
#ifndef MILDSOLVE_SELECTION_BELIEF_MARGIN_H
#define MILDSOLVE_SELECTION_BELIEF_MARGIN_H

#include "selection/belief_parts.h"

#define BELIEF_SWELLING_LEAST 0.01
#define BELIEF_SWELLING_MOST 10.0
#define BELIEF_UNEVEN_CHI 0.1

// chi of a component at `place` for a film with these parameters; `weight` as in struct belief_form.
double belief_chi(double entropic, double weight, struct hansen place, const double *parameters);

#endif
