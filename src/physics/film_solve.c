// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_path.h"

#include <assert.h>
#include <math.h>
#include <string.h>

// Share of a component that the neighbour lacks, before its own amount is known.
static const double trace_share = 1e-6;

// ln n of the neighbour's film; a component that it lacks gets the amount that its activity asks for in that film.
static bool start_from(struct film_problem *problem, const struct film_state *state, double *ret_y) {
    double total = 0;
    bool lacks = false;
    for (size_t i = 0; i < problem->count; i++)
        total += state->moles[problem->index[i]];
    if (!(total > 0))
        return false;
    for (size_t i = 0; i < problem->count; i++) {
        double moles = state->moles[problem->index[i]];
        lacks = lacks || !(moles > 0);
        ret_y[i] = log(moles > 0 ? moles : trace_share * total);
    }
    if (!lacks)
        return true;
    struct film_local local;
    film_evaluate(problem, ret_y, 0, &local);
    for (size_t i = 0; i < problem->count; i++)
        if (!(state->moles[problem->index[i]] > 0))
            ret_y[i] -= local.residual[i];
    return true;
}

// d ln W/d ln a beyond which two roots, or a root and none, lie so close that only the path from the dry film decides.
static const double slope_most_warm = 1000;

static double slope_of(const struct film_problem *problem, const struct film_root *root) {
    double taken = 0, growth = 0;
    for (size_t i = 0; i < problem->count; i++) {
        double part = exp(root->y[i]) * problem->film->volume[problem->index[i]];
        taken += part;
        growth += part * root->rise[i];
    }
    return growth / taken;
}

static bool solve_warm(struct film_problem *problem, const struct film_state *state, struct film_root *ret) {
    return start_from(problem, state, ret->y) && film_polish(problem, ret) &&
           film_taken(problem, ret->y) <= FILM_TAKEN_MOST && slope_of(problem, ret) < slope_most_warm &&
           film_path_to_dry(problem, ret);
}

static enum film_outcome solve_by_path(struct film_problem *problem, struct film_state *state, struct film_root *ret) {
    enum film_outcome outcome = film_path_from_way(problem, state, ret);
    if (outcome == FILM_FAILED)
        outcome = film_path_from_dry(problem, &film_walk_usual, state, ret);
    if (outcome == FILM_FAILED)
        outcome = film_path_from_dry(problem, &film_walk_careful, state, ret);
    return outcome;
}

static void keep_root(const struct film_problem *problem, const struct film_root *root, struct film_state *state) {
    memset(state->moles, 0, problem->film->count * sizeof *state->moles);
    for (size_t i = 0; i < problem->count; i++)
        state->moles[problem->index[i]] = exp(root->y[i]);
    state->slope = slope_of(problem, root);
    state->known = true;
}

enum film_outcome film_solve(const struct film *film, const double *ln_activity, struct film_state *state,
                             struct film_effort *effort) {
    struct film_problem problem;
    film_problem_pack(film, ln_activity, &problem);
    assert(problem.count > 0);
    struct film_root root;
    enum film_outcome outcome = FILM_BOUNDED;
    bool warm = state->known && solve_warm(&problem, state, &root);
    if (!warm)
        outcome = solve_by_path(&problem, state, &root);
    state->known = false;
    if (outcome == FILM_BOUNDED)
        keep_root(&problem, &root, state);
    if (effort)
        *effort = (struct film_effort){.evaluations = problem.evaluations, .cold = !warm};
    return outcome;
}

void film_no_result(enum film_outcome outcome, struct film_result *ret) {
    *ret = (struct film_result){.outcome = outcome, .swelling = NAN, .polymer_fraction = NAN, .slope = NAN};
    for (size_t i = 0; i < BLEND_COMPONENTS_MAX; i++)
        ret->inside[i] = NAN;
}

static void figures(const struct film *film, const struct film_state *state, struct film_result *ret) {
    double taken = 0;
    for (size_t i = 0; i < film->count; i++)
        taken += state->moles[i] * film->volume[i];
    ret->swelling = (1 - film->pigment) * taken;
    ret->polymer_fraction = 1 / (1 + taken);
    ret->slope = state->slope;
    for (size_t i = 0; i < film->count; i++)
        ret->inside[i] = state->moles[i] * film->volume[i] / taken;
}

void film_of_activities(const struct film *film, const double *ln_activity, struct film_state *state,
                        struct film_result *ret) {
    struct film_state own = {.known = false};
    if (!state)
        state = &own;
    film_no_result(film_solve(film, ln_activity, state, NULL), ret);
    if (ret->outcome == FILM_BOUNDED)
        figures(film, state, ret);
}

void film_of_liquid(const struct film *film, const double *x, struct film_state *state, struct film_result *ret) {
    double ln_activity[BLEND_COMPONENTS_MAX] = {0}; // of the lone component of a film without activity model
    if (film->activity)
        film_liquid_activities(film->activity, x, ln_activity);
    film_of_activities(film, ln_activity, state, ret);
}
