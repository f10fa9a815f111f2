// SPDX-License-Identifier: GPL-3.0-or-later
// What the activity model may have got wrong, as one more term of the mixture's free energy, so that it can be varied
// in liquid and film alike:
//   G/RT += sum_{i<j} t_ij n_i n_j / N            N = sum n, t symmetric with zero diagonal (Margules, two-suffix)
//   ln gamma_i += S_i - M,                         S_i = sum_j t_ij x_j,  M = 1/2 sum_i x_i S_i
//   d ln gamma_i/d n_j += (t_ij - S_i - S_j + 2 M)/N
// It vanishes in every neat liquid and obeys Gibbs-Duhem. An error put on the activities of the liquid alone would do
// neither, and film and liquid would disagree about one and the same mixture: 2.5 % less activity outside, and neat
// acetone swells aged dammar fourfold instead of dissolving it.
#ifndef MILDSOLVE_PHYSICS_FILM_TILT_H
#define MILDSOLVE_PHYSICS_FILM_TILT_H

#include <stddef.h>

// Standard deviation of the t_ij of a pair. Chosen so that it changes the total pressure over a binary mixture by 2.5 %
// in the mean over the composition, which is the mean error of modified UNIFAC (Dortmund) over 13 measured isotherms
// (ThermoML, see film_ends_usual); tests/unit/selection/test_doubt_draw.c makes the figure anew. In an activity
// coefficient at infinite dilution that is an error of 10 % in the mean.
#define FILM_TILT_SD 0.125

// Adds the term to ln gamma (or ln a) of `count` components at mole numbers n (>= 0, sum > 0), and to the matrix of
// d ln gamma_i/d n_j (rows of count) unless it is NULL. `tilt`: rows of count.
void film_tilt_add(const double *tilt, size_t count, const double *moles, double *ln_gamma, double *matrix);

#endif
