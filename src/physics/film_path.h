// SPDX-License-Identifier: GPL-3.0-or-later
// The path of films from the dry one: all activities of the liquid are multiplied by e^lambda, from a vapour so thin
// that the film is nearly dry (lambda far below 0) up to the liquid itself (lambda = 0). Unknowns are y_i = ln n_i and
// lambda; the path solves ln a_i(film) = ln a_i(liquid) + lambda and is followed by its arc length (predictor and
// corrector; Allgower & Georg, Numerical Continuation Methods, 1990, from memory), so that it passes the places where
// lambda, or the volume taken up, turns back.
#ifndef MILDSOLVE_PHYSICS_FILM_PATH_H
#define MILDSOLVE_PHYSICS_FILM_PATH_H

#include "physics/film.h"

// The components that are present, packed.
struct film_problem {
    const struct film *film;
    size_t count;
    size_t index[BLEND_COMPONENTS_MAX]; // place in the film's set
    double ln_activity[BLEND_COMPONENTS_MAX];
    unsigned evaluations;
};

struct film_point {
    double y[BLEND_COMPONENTS_MAX];
    double lambda;
    double taken;    // W
    double coupling; // as in struct film_root
    size_t negative; // eigenvalues of d ln a/d ln n below 0; none = stable
    // Unit tangent in (y, lambda), in the direction walked.
    double tangent[BLEND_COMPONENTS_MAX];
    double tangent_lambda;
};

// Filled at a point by film_evaluate.
struct film_local {
    double moles[BLEND_COMPONENTS_MAX];                         // packed
    double residual[BLEND_COMPONENTS_MAX];                      // ln a_i(film) - ln a_i(liquid) - lambda
    double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX]; // d ln a_i/d n_j, packed, rows of count
    double taken;
};

// A film in equilibrium with the liquid (lambda = 0).
struct film_root {
    double y[BLEND_COMPONENTS_MAX];
    double rise[BLEND_COMPONENTS_MAX]; // dy/dlambda
    double coupling;                   // how far d ln a/d ln n is from the unit matrix (see film_path.c)
};

// How boldly the path is walked; a step is the largest change of any y or of lambda.
struct film_walk {
    double step_first;
    double step_most;         // and while W is below 0.05:
    double step_most_thin;    //
    double correction_most;   // a larger first correction: the step was too bold, it is shortened
    double correction_enough; // a smaller correction needs no second (about its square is left)
    double correction_wanted; // the next step is made so that its first correction has this size
};
extern const struct film_walk film_walk_usual, film_walk_careful;

void film_problem_pack(const struct film *film, const double *ln_activity, struct film_problem *ret);

void film_evaluate(struct film_problem *problem, const double *y, double lambda, struct film_local *ret);

// W of a film, and its largest value that is still called a film.
double film_taken(const struct film_problem *problem, const double *y);
#define FILM_TAKEN_MOST (1 / FILM_POLYMER_LEAST - 1)

// Newton at lambda = 0 from root->y. False when it doesn't settle or meets a film that isn't stable.
bool film_polish(struct film_problem *problem, struct film_root *root);

// From the dry film to the first stable root (FILM_BOUNDED). The point in `state` becomes one of this path.
enum film_outcome film_path_from_dry(struct film_problem *problem, const struct film_walk *walk,
                                     struct film_state *state, struct film_root *ret);

// The same from the point in `state`, of a neighbour's path. FILM_FAILED when there is none, or when it isn't proved
// that the film of this liquid beside it lies on the stable branch from the dry one, below any root.
enum film_outcome film_path_from_way(struct film_problem *problem, struct film_state *state, struct film_root *ret);

// True when the stable branch through the root leads back to the dry film without an unstable stretch: then no smaller
// root lies before it.
bool film_path_to_dry(struct film_problem *problem, const struct film_root *root);

#endif
