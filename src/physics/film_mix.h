// SPDX-License-Identifier: GPL-3.0-or-later
// A blend's film beside what simpler views say of it: the plain volume mean, and the neat components.
#ifndef MILDSOLVE_PHYSICS_FILM_MIX_H
#define MILDSOLVE_PHYSICS_FILM_MIX_H

#include "physics/film.h"
#include "physics/phase_split.h"

// The plain mean: the blend as one liquid with the volume mean of its Hansen parameters and the mean molar volume.
// STATUS_NO_DATA: a component without them; STATUS_RANGE: absurd parameters. inside[] of the result is of that one
// liquid and means nothing.
enum status film_of_mean(const struct film_parameters *parameters, const struct blend *blend, double temp_k,
                         struct film_result *ret, struct error *err);

// Activities of a liquid that may have split: those common to both phases when it has (*ret_split; may be NULL), else
// those of the one phase. x as for stability_test. Statuses of phase_split.h.
enum status film_common_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity,
                                   bool *ret_split, struct error *err);

// Together more, or less, than each alone.
enum film_synergy_kind {
    FILM_BETWEEN, // between the mildest and the strongest neat component, as one expects
    FILM_ABOVE,   // above the strongest: the liquids help each other into the film
    FILM_BELOW    // below the mildest: they hold each other back
};

struct film_synergy {
    enum film_synergy_kind kind;
    double least, most; // swelling by the mildest and the strongest neat component; most INFINITY = dissolves
    size_t mildest, strongest;
    double swelling; // of the blend, INFINITY = dissolves
    // The pair that does most of it, at the ratio it has in the blend; both SIZE_MAX when no pair alone does it.
    size_t first, second;
};

// Compares the film of a blend (x: mole fractions; `result` as from film_of_liquid) with the films of its neat
// components. A difference below one part in 10000 is none. False when one of the films failed.
bool film_find_synergy(const struct film *film, const double *x, const struct film_result *result,
                       struct film_synergy *ret);

// A sentence about it for the person; "" when there is nothing to say. `size` bytes at most; x as above.
void film_synergy_sentence(const struct film *film, const struct film_synergy *synergy, const double *x, char *ret,
                           size_t size);

#endif
