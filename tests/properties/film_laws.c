// SPDX-License-Identifier: GPL-3.0-or-later
// A film in equilibrium with a blend.
#include "draw.h"
#include "physics/film_mix.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_matrix.h>
#include <gsl/gsl_multiroots.h>
#include <gsl/gsl_vector.h>

static const double TEMP_K = 293.15;

static struct film_parameters draw_film(struct trial *trial) {
    struct random *random = &trial->random;
    struct film_parameters p = {
        .centre = {15 + 5 * random_uniform(random), 1 + 12 * random_uniform(random), 2 + 14 * random_uniform(random)},
        .alpha = random_between(random, 0.3, 1.2),
        .chi_entropic = 0.1 + 0.4 * random_uniform(random),
        .molar_volume_cm3_mol = INFINITY};
    if (random_uniform(random) < 0.7)
        p.network_mol_m3 = random_between(random, 20, 20000);
    else
        p.molar_volume_cm3_mol = random_between(random, 300, 1e6);
    if (random_uniform(random) < 0.5)
        p.pigment = 0.6 * random_uniform(random);
    note(trial, "film %.9g %.9g %.9g, alpha %.9g, chi %.9g, network %.9g, chain %.9g: ", p.centre.delta_d,
         p.centre.delta_p, p.centre.delta_h, p.alpha, p.chi_entropic, p.network_mol_m3, p.molar_volume_cm3_mol);
    return p;
}

// A liquid with its activities; not to be copied.
struct liquid {
    struct activity_model model;
    double x[BLEND_COMPONENTS_MAX];
    double ln_activity[BLEND_COMPONENTS_MAX];
    bool split;
};

static bool make_liquid(struct trial *trial, const struct blend *blend, struct liquid *ret) {
    return activity_prepare_blend(trial->unifac, blend, TEMP_K, &ret->model, NULL) == STATUS_OK &&
           activity_covers(&ret->model) && blend_mole_fractions(blend, ret->x, NULL) == STATUS_OK &&
           film_common_activities(&ret->model, ret->x, ret->ln_activity, &ret->split, NULL) == STATUS_OK;
}

static bool solve(const struct film_parameters *parameters, const struct liquid *liquid, struct film *ret_film,
                  struct film_state *ret_state, struct film_result *ret) {
    *ret_state = (struct film_state){0};
    if (film_prepare(parameters, &liquid->model, ret_film, NULL) != STATUS_OK)
        return false;
    film_of_activities(ret_film, liquid->ln_activity, ret_state, ret);
    return true;
}

static enum outcome film_is_of_the_liquid(struct trial *trial) {
    static struct liquid liquid, other_liquid, twins_liquid;
    static struct film film;
    struct film_state state;
    struct film_result one, two, twins;
    struct blend blend = draw_blend(trial, 4);
    struct rewritten other;
    struct doubled doubled;
    if (!rewrite_blend(trial, &blend, &other) || !double_component(trial, &blend, &doubled) ||
        !make_liquid(trial, &blend, &liquid) || (liquid.split && three_liquids(trial, &blend, liquid.x, TEMP_K)))
        return NOT_COVERED;
    struct film_parameters parameters = draw_film(trial);
    if (!solve(&parameters, &liquid, &film, &state, &one))
        return NOT_COVERED;
    REQUIRE(one.outcome != FILM_FAILED, "the solver gave up");
    REQUIRE(make_liquid(trial, &other.blend, &other_liquid) && make_liquid(trial, &doubled.blend, &twins_liquid),
            "only one of the three is covered");
    REQUIRE(solve(&parameters, &other_liquid, &film, &state, &two) &&
                solve(&parameters, &twins_liquid, &film, &state, &twins),
            "only one of the three is solved");
    // At the end of a branch the last digits of the activities decide whether there is a film.
    bool edge = one.slope > 1e3 || two.slope > 1e3 || twins.slope > 1e3;
    REQUIRE((one.outcome == two.outcome && one.outcome == twins.outcome) || edge, "%s, %s, with a twin %s",
            film_outcome_word(one.outcome), film_outcome_word(two.outcome), film_outcome_word(twins.outcome));
    if (one.outcome != FILM_BOUNDED || edge)
        return HELD;
    double precision = 1e-7 * fmax(1, one.slope) * (liquid.split ? 100 : 1);
    REQUIRE(alike(one.swelling, two.swelling, precision, 0) && alike(one.swelling, twins.swelling, precision, 0),
            "swelling %.12g, %.12g, with a twin %.12g", one.swelling, two.swelling, twins.swelling);
    for (size_t i = 0; i < blend.count; i++) {
        double together = twins.inside[i] + (i == doubled.of ? twins.inside[doubled.with] : 0);
        REQUIRE(alike(one.inside[i], two.inside[other.place[i]], precision, 1e-9) &&
                    alike(one.inside[i], together, precision, 1e-9),
                "%s inside: %.12g, %.12g, with a twin %.12g", blend.components[i]->id, one.inside[i],
                two.inside[other.place[i]], together);
    }
    return HELD;
}

// --- the energy, written down a second time ---

// G/RT per cm3 of dry polymer as the head of film.h has it.
static double energy(const struct film *film, const double *moles) {
    double taken = 0, whole = 0, ln_gamma[BLEND_COMPONENTS_MAX], g = 0;
    for (size_t i = 0; i < film->count; i++) {
        taken += moles[i] * film->volume[i];
        whole += moles[i];
    }
    double polymer = 1 / (1 + taken);
    activity_ln_gamma(film->activity, moles, ln_gamma);
    for (size_t i = 0; i < film->count; i++) {
        double v = moles[i] * film->volume[i];
        g += moles[i] * log(v * polymer); // Flory-Huggins
        g += (1 - polymer) * moles[i] * (ln_gamma[i] - log((v / taken) / (moles[i] / whole)));
        g += polymer * film->chi[i] * moles[i];
    }
    g += film->chains * log(polymer);
    return g + film->strands * (1.5 * (pow(polymer, -2.0 / 3) - 1) + 0.5 * log(polymer));
}

// At the film that was found the slopes of the energy are the liquid's chemical potentials.
static enum outcome film_is_in_equilibrium(struct trial *trial) {
    static struct liquid liquid;
    static struct film film;
    struct film_state state;
    struct film_result result;
    struct blend blend = draw_blend(trial, 3);
    if (!make_liquid(trial, &blend, &liquid))
        return NOT_COVERED;
    struct film_parameters parameters = draw_film(trial);
    if (!solve(&parameters, &liquid, &film, &state, &result) || result.outcome != FILM_BOUNDED)
        return NOT_COVERED;
    double sum = 0, taken = 0;
    REQUIRE(result.swelling > 0 && isfinite(result.swelling) && result.slope > 0, "swelling %g, slope %g",
            result.swelling, result.slope);
    for (size_t i = 0; i < blend.count; i++) {
        REQUIRE(result.inside[i] >= 0, "%g inside", result.inside[i]);
        sum += result.inside[i];
        taken += state.moles[i] * film.volume[i];
    }
    REQUIRE(fabs(sum - 1) < 1e-9, "shares inside sum to %.12g", sum);
    REQUIRE(alike(result.polymer_fraction, 1 / (1 + taken), 1e-9, 0) &&
                alike(result.swelling, taken * (1 - parameters.pigment), 1e-9, 0),
            "swelling %.12g of %.12g taken up", result.swelling, taken);
    for (size_t i = 0; i < blend.count; i++) {
        double step = 1e-4 * state.moles[i], up[BLEND_COMPONENTS_MAX], down[BLEND_COMPONENTS_MAX];
        if (state.moles[i] * film.volume[i] < 1e-6 * taken)
            continue; // the difference of two energies has no digits left for a trace
        for (size_t j = 0; j < blend.count; j++)
            up[j] = down[j] = state.moles[j];
        up[i] += step;
        down[i] -= step;
        double slope = (energy(&film, up) - energy(&film, down)) / (2 * step);
        double rounding = 1e-13 * (1 + fabs(energy(&film, up))) / step;
        REQUIRE(fabs(slope - liquid.ln_activity[i]) < 1e-5 + 3 * rounding, "%s: slope %.9g, ln a %.9g",
                blend.components[i]->id, slope, liquid.ln_activity[i]);
    }
    return HELD;
}

// --- another solver ---

struct equations {
    const struct film *film;
    const double *ln_activity;
    double lambda;
};

static int residual(const gsl_vector *y, void *context, gsl_vector *ret) {
    const struct equations *e = context;
    double moles[BLEND_COMPONENTS_MAX], ln_a[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < e->film->count; i++)
        moles[i] = exp(gsl_vector_get(y, i));
    film_activities(e->film, moles, ln_a, NULL);
    for (size_t i = 0; i < e->film->count; i++)
        gsl_vector_set(ret, i, ln_a[i] - e->ln_activity[i] - e->lambda);
    return GSL_SUCCESS;
}

static bool positive_definite(const struct film *film, const double *moles) {
    double ln_a[BLEND_COMPONENTS_MAX], m[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    size_t n = film->count;
    film_activities(film, moles, ln_a, m);
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < n; j++)
            m[i * n + j] *= sqrt(moles[i] * moles[j]);
    for (size_t k = 0; k < n; k++) { // Cholesky
        if (!(m[k * n + k] > 1e-3))
            return false;
        for (size_t i = k + 1; i < n; i++)
            for (size_t j = k + 1; j <= i; j++)
                m[j * n + i] = m[i * n + j] -= m[i * n + k] * m[j * n + k] / m[k * n + k];
    }
    return true;
}

// One step of the activities from a film that is known, by GSL's hybrid method without our derivatives.
static bool corrected(struct equations *equations, gsl_multiroot_fsolver *solver, gsl_vector *y) {
    gsl_multiroot_function f = {residual, equations->film->count, equations};
    gsl_multiroot_fsolver_set(solver, &f, y);
    for (int turn = 0; turn < 60; turn++) {
        if (gsl_multiroot_test_residual(solver->f, 1e-11) == GSL_SUCCESS)
            break;
        if (gsl_multiroot_fsolver_iterate(solver) != GSL_SUCCESS)
            break;
    }
    double moved = 0;
    for (size_t i = 0; i < equations->film->count; i++)
        moved = fmax(moved, fabs(gsl_vector_get(solver->x, i) - gsl_vector_get(y, i)));
    if (gsl_multiroot_test_residual(solver->f, 1e-8) != GSL_SUCCESS || moved > 1)
        return false;
    gsl_vector_memcpy(y, solver->x);
    return true;
}

// The activities raised step by step from a thin vapour; false where the branch turns back before the liquid.
static bool raise(const struct film *film, const double *ln_activity, double *ret_taken) {
    struct equations equations = {film, ln_activity, -12};
    gsl_vector *y = gsl_vector_alloc(film->count);
    gsl_multiroot_fsolver *solver = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, film->count);
    double moles[BLEND_COMPONENTS_MAX];
    bool fine = true;
    // So thin that ln a - ln phi has its limit.
    for (size_t i = 0; i < film->count; i++)
        gsl_vector_set(y, i, ln_activity[i] + equations.lambda - film->dry[i] - film->ln_volume[i]);
    for (int step = 0; fine && step <= 48; step++) {
        equations.lambda = step < 48 ? -12 + 0.25 * step : 0;
        fine = corrected(&equations, solver, y);
        for (size_t i = 0; i < film->count; i++)
            moles[i] = exp(gsl_vector_get(y, i));
        fine = fine && positive_definite(film, moles);
    }
    *ret_taken = 0;
    for (size_t i = 0; i < film->count; i++)
        *ret_taken += moles[i] * film->volume[i];
    gsl_multiroot_fsolver_free(solver);
    gsl_vector_free(y);
    return fine;
}

static enum outcome another_solver(struct trial *trial) {
    static struct liquid liquid;
    static struct film film;
    struct film_state state;
    struct film_result result;
    double taken;
    struct blend blend = draw_blend(trial, 3);
    if (!make_liquid(trial, &blend, &liquid))
        return NOT_COVERED;
    struct film_parameters parameters = draw_film(trial);
    if (!solve(&parameters, &liquid, &film, &state, &result) || !raise(&film, liquid.ln_activity, &taken))
        return NOT_COVERED;
    if (1 / (1 + taken) < 2 * FILM_POLYMER_LEAST)
        return NOT_COVERED;
    REQUIRE(result.outcome == FILM_BOUNDED, "%s, another solver finds %.9g taken up", film_outcome_word(result.outcome),
            taken);
    REQUIRE(alike(result.swelling, taken * (1 - parameters.pigment), 1e-6, 0), "%.12g, another solver finds %.12g",
            result.swelling, taken * (1 - parameters.pigment));
    return HELD;
}

// --- which way it goes ---

static double amount(const struct film_result *result) {
    return result->outcome == FILM_WITHOUT_LIMIT ? INFINITY : result->swelling;
}

// The closer the network, the less it takes up; pigment takes up nothing.
static enum outcome networks_hold_back(struct trial *trial) {
    static struct liquid liquid;
    static struct film film;
    struct film_state state;
    struct film_result wide, close, filled;
    struct blend blend = draw_blend(trial, 3);
    if (!make_liquid(trial, &blend, &liquid))
        return NOT_COVERED;
    struct film_parameters parameters = draw_film(trial);
    parameters.pigment = 0;
    if (parameters.network_mol_m3 == 0)
        return NOT_COVERED;
    if (!solve(&parameters, &liquid, &film, &state, &wide) || wide.outcome == FILM_FAILED)
        return NOT_COVERED;
    parameters.network_mol_m3 += random_between(&trial->random, 10, 1e4);
    REQUIRE(solve(&parameters, &liquid, &film, &state, &close) && close.outcome != FILM_FAILED, "the solver gave up");
    REQUIRE(at_least(amount(&wide), amount(&close), 1e-9), "%.12g, with %g mol/m3 %.12g", amount(&wide),
            parameters.network_mol_m3, amount(&close));
    parameters.pigment = 0.5;
    REQUIRE(solve(&parameters, &liquid, &film, &state, &filled) && filled.outcome == close.outcome &&
                (close.outcome != FILM_BOUNDED || alike(filled.swelling, close.swelling / 2, 1e-9, 0)),
            "pigment takes up");
    return HELD;
}

// One liquid, moved away from the polymer's place along a straight line: it is taken up less and less.
static enum outcome distance_holds_back(struct trial *trial) {
    struct film_parameters parameters = draw_film(trial);
    struct random *random = &trial->random;
    double volume = random_between(random, 18, 300), before = INFINITY;
    double d = 4 * random_uniform(random) - 2, p = 12 * random_uniform(random) - 6, h = 12 * random_uniform(random) - 6;
    note(trial, "V %.9g, direction %.9g %.9g %.9g: ", volume, d, p, h);
    for (int step = 0; step <= 8; step++) {
        double t = step / 4.0;
        struct hansen place = {parameters.centre.delta_d + t * d, parameters.centre.delta_p + t * p,
                               parameters.centre.delta_h + t * h};
        struct film film;
        struct film_result result;
        struct error err = {0};
        REQUIRE(film_prepare_single(&parameters, place, volume, TEMP_K, &film, &err) == STATUS_OK, "%s", err.text);
        film_of_liquid(&film, (const double[]){1}, NULL, &result);
        REQUIRE(result.outcome != FILM_FAILED, "the solver gave up at %g", t);
        double now = amount(&result);
        REQUIRE(now > 0 && at_least(before, now, 1e-9), "%.12g at %g of the way, %.12g before", now, t, before);
        before = now;
    }
    return HELD;
}

static const struct law laws[] = {
    {"film-rewritten", "order, scaling, splitting and twins leave swelling and composition inside alone", 6,
     film_is_of_the_liquid},
    {"film-equilibrium", "potentials inside are slopes of the energy and those of the liquid; shares sum to 1", 6,
     film_is_in_equilibrium},
    {"film-solver", "the film against another solver that raises the activities step by step", 3, another_solver},
    {"film-network", "a closer network takes up less, pigment nothing", 6, networks_hold_back},
    {"film-distance", "a liquid farther from the polymer is taken up less", 4, distance_holds_back},
};
const struct law_list film_laws = LAWS(laws);
