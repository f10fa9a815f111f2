// SPDX-License-Identifier: GPL-3.0-or-later
// Activity coefficients of a blend by whichever model serves it, with a verdict on how well. One model for the
// whole blend, in this order: modified UNIFAC (Dortmund), original UNIFAC, Flory-Huggins with Hansen distances (an
// estimate; never with water), not covered.
#ifndef MILDSOLVE_PHYSICS_ACTIVITY_H
#define MILDSOLVE_PHYSICS_ACTIVITY_H

#include "physics/blend.h"
#include "physics/flory.h"
#include "physics/unifac.h"

// Far outside any room, flash point or boiling temperature of the tables.
#define ACTIVITY_TEMP_K_LEAST 150.0
#define ACTIVITY_TEMP_K_MOST 600.0

enum activity_serves {
    ACTIVITY_DORTMUND,
    ACTIVITY_ORIGINAL,
    ACTIVITY_FLORY_HUGGINS, // label the figures "estimate"
    ACTIVITY_NOT_COVERED    // there are no figures: say so, never take gamma = 1
};
const char *activity_serves_word(enum activity_serves serves); // dortmund original flory-huggins not-covered

enum { ACTIVITY_SENTENCE_SIZE = 768 };

struct activity_coverage {
    enum activity_serves serves;
    // How far the assignment of each component may be trusted (enum assignment_status: ok unreliable provisional
    // built surrogate none). A component without groups in the model that serves has ASSIGNMENT_NONE.
    int status[BLEND_COMPONENTS_MAX];
    // Two components (places in the set) for which the preferred model failed; equal when one alone is the cause;
    // both SIZE_MAX when nothing failed.
    size_t first, second;
    bool blocked; // an acid with an amine, amide or sulfoxide: acid-base pairs are outside every model here
    bool weak;    // some component is unreliable, or the model is the fall-back: figures only as a rough guide
    // For the person: which model, and every doubt by name. Never empty.
    char sentence[ACTIVITY_SENTENCE_SIZE];
};

// A set of components at one temperature, ready for evaluation. Plain data (about 20 kB), nothing to release;
// evaluation only reads it and may run in several threads. The unifac_table must outlive it.
struct activity_model {
    const struct component *components[BLEND_COMPONENTS_MAX];
    size_t count;
    double temp_k;
    struct activity_coverage coverage;
    struct unifac_mixture unifac; // when serves is one of the two UNIFAC models
    struct flory_mixture flory;   // when serves is ACTIVITY_FLORY_HUGGINS
};

// Chooses the model and prepares it. STATUS_OK also when nothing covers the set: look at activity_covers().
// STATUS_RANGE: temp_k outside 150 to 600 K, or no component or more than BLEND_COMPONENTS_MAX.
enum status activity_prepare(const struct unifac_table *table, const struct component *const *components, size_t count,
                             double temp_k, struct activity_model *ret, struct error *err);

// The components of a blend, in its order.
enum status activity_prepare_blend(const struct unifac_table *table, const struct blend *blend, double temp_k,
                                   struct activity_model *ret, struct error *err);

// The same set and model at another temperature. On failure the model is unchanged.
enum status activity_set_temperature(struct activity_model *model, double temp_k, struct error *err);

static inline bool activity_covers(const struct activity_model *model) {
    return model->coverage.serves != ACTIVITY_NOT_COVERED;
}

// ln gamma of every component at x: mole fractions or mole numbers, >= 0, sum > 0; zero = infinite dilution.
// Only for a covered set (asserted).
void activity_ln_gamma(const struct activity_model *model, const double *x, double *ret_ln_gamma);

// Also d ln gamma_i / d n_j at constant other mole numbers, row i, column j, rows of `count` (see unifac_derivatives).
void activity_derivatives(const struct activity_model *model, const double *x, double *ret_ln_gamma,
                          double *ret_derivatives);

#endif
