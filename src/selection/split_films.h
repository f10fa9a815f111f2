// SPDX-License-Identifier: GPL-3.0-or-later
// A blend that has split: what its two liquids do to the films. They are in equilibrium, so each component has the same
// activity in both, and a film cannot tell which one it lies in; as one liquid the blend would have other activities.
#ifndef MILDSOLVE_SELECTION_SPLIT_FILMS_H
#define MILDSOLVE_SELECTION_SPLIT_FILMS_H

#include "physics/miscibility.h"
#include "selection/film_search.h"

struct split_films {
    bool known;      // the split is known to the model, and the films were solved in it
    bool works;      // every target that is judged by its film gives way: dissolves, or swells with a window
    double swelling; // of the spared material that takes up most; INFINITY = without limit; NAN = none has a film
};

// `phase`: of this blend. Not known where the verdict is one liquid (published pairs rule out a gap of the model),
// where the model has no split or the solver gives up. STATUS_MEMORY.
enum status split_films_of(const struct goal *goal, const struct unifac_table *table, const struct film_view *view,
                           const struct blend *blend, const struct phase_judgement *phase, struct split_films *ret,
                           struct error *err);

#endif
