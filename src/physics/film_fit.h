// SPDX-License-Identifier: GPL-3.0-or-later
// The one parameter of a film that is not cross-linked, fitted: the molar volume V_p of its chains. It is an equivalent
// figure, not a measured one: it also takes up what alpha, the entropic part of chi and the centre get wrong.
#ifndef MILDSOLVE_PHYSICS_FILM_FIT_H
#define MILDSOLVE_PHYSICS_FILM_FIT_H

#include "physics/film.h"

// The molar volumes among which V_p is sought, cm3/mol.
#define FILM_CHAIN_LEAST 50.0
#define FILM_CHAIN_MOST 1e9

// Largest V_p, to 1e-9 of it, at which the liquid still dissolves the film (a larger chain dissolves less): 0 when not
// even the smallest dissolves, INFINITY when the largest does. The film's own V_p doesn't matter. Asserts that it is
// not cross-linked.
double film_critical_chain(const struct film *film, const double *ln_activity);

// The same to `within` in ln V_p (above 0), sought around `near` first: cheaper, for sampling.
double film_critical_chain_near(const struct film *film, const double *ln_activity, double near, double within);

// A liquid known to dissolve the material, or not to.
struct film_case {
    const struct component *component;
    bool dissolves;
};
enum { FILM_CASES_MAX = 256 };

struct film_fit {
    size_t tested;   // cases with Hansen parameters and molar volume
    size_t left_out; // cases without
    size_t hits_film, hits_sphere;
    // The V_p that gets most cases right: the geometric middle of the widest interval that does, and its ends.
    double molar_volume, least, most;
};

// `start` gives everything but V_p; `sphere` is the material's, for the hits beside. STATUS_RANGE: more than
// FILM_CASES_MAX cases or absurd parameters; STATUS_NO_DATA: no case can be tested.
enum status film_fit_chain(const struct film_parameters *start, const struct sphere_values *sphere,
                           const struct film_case *cases, size_t count, double temp_k, struct film_fit *ret,
                           struct error *err);

// Does the neat liquid dissolve a film of these parameters? STATUS_NO_DATA without Hansen parameters or molar volume.
enum status film_dissolves_in(const struct film_parameters *parameters, const struct component *component,
                              double temp_k, bool *ret, struct error *err);

#endif
