// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_fit.h"

#include <assert.h>
#include <gsl/gsl_sort.h>
#include <math.h>

// --- the critical chain ---

static void set_chain(struct film *film, double molar_volume) {
    for (size_t i = 0; i < film->count; i++)
        film->dry[i] += film->volume[i] * (film->chains - 1 / molar_volume);
    film->chains = 1 / molar_volume;
}

static bool dissolves_at(const struct film *film, double molar_volume, const double *ln_activity) {
    struct film tried = *film;
    struct film_state state = {.known = false};
    set_chain(&tried, molar_volume);
    return film_solve(&tried, ln_activity, &state, NULL) == FILM_WITHOUT_LIMIT;
}

// Between two chains (ln V_p), of which only the lower one dissolves.
static double bisect_chain(const struct film *film, const double *ln_activity, double low, double high, double within) {
    while (high - low > within) {
        double middle = 0.5 * (low + high);
        *(dissolves_at(film, exp(middle), ln_activity) ? &low : &high) = middle;
    }
    return exp(low);
}

double film_critical_chain(const struct film *film, const double *ln_activity) {
    assert(film->strands == 0);
    if (!dissolves_at(film, FILM_CHAIN_LEAST, ln_activity))
        return 0;
    if (dissolves_at(film, FILM_CHAIN_MOST, ln_activity))
        return INFINITY;
    return bisect_chain(film, ln_activity, log(FILM_CHAIN_LEAST), log(FILM_CHAIN_MOST), 1e-9);
}

double film_critical_chain_near(const struct film *film, const double *ln_activity, double near, double within) {
    assert(film->strands == 0 && within > 0);
    const double least = log(FILM_CHAIN_LEAST), most = log(FILM_CHAIN_MOST);
    double at = fmin(fmax(log(near), least), most), width = 0.5;
    bool up = dissolves_at(film, exp(at), ln_activity);
    for (;; width *= 2) {
        if (at == (up ? most : least))
            return up ? INFINITY : 0;
        double next = up ? fmin(at + width, most) : fmax(at - width, least);
        if (dissolves_at(film, exp(next), ln_activity) != up)
            return up ? bisect_chain(film, ln_activity, at, next, within)
                      : bisect_chain(film, ln_activity, next, at, within);
        at = next;
    }
}

// --- the fit ---

static enum status film_of_component(const struct film_parameters *parameters, const struct component *component,
                                     double temp_k, struct film *ret, struct error *err) {
    struct hansen liquid = hansen_of_component(component);
    double volume = component->molar_volume.value;
    if (!hansen_known(liquid) || !(volume > 0))
        return error_set(err, STATUS_NO_DATA, "no Hansen parameters or no molar volume known for %s", component->id);
    return film_prepare_single(parameters, liquid, volume, temp_k, ret, err);
}

enum status film_dissolves_in(const struct film_parameters *parameters, const struct component *component,
                              double temp_k, bool *ret, struct error *err) {
    struct film film;
    enum status status = film_of_component(parameters, component, temp_k, &film, err);
    if (status != STATUS_OK)
        return status;
    const double neat = 0; // ln a
    struct film_state state = {.known = false};
    *ret = film_solve(&film, &neat, &state, NULL) == FILM_WITHOUT_LIMIT;
    return STATUS_OK;
}

// What is known of the cases: from which V_p on each of them stops dissolving, and whether it should dissolve.
struct fit_work {
    size_t count;
    double critical[FILM_CASES_MAX];
    bool dissolves[FILM_CASES_MAX];
};

static size_t hits_at(const struct fit_work *work, double molar_volume) {
    size_t hits = 0;
    for (size_t i = 0; i < work->count; i++)
        hits += (molar_volume < work->critical[i]) == work->dissolves[i];
    return hits;
}

// The hits change only at the critical chains: between two neighbours any V_p is as good as the middle.
static void best_interval(const struct fit_work *work, struct film_fit *fit) {
    double edges[FILM_CASES_MAX + 2];
    size_t count = 0;
    edges[count++] = FILM_CHAIN_LEAST;
    for (size_t i = 0; i < work->count; i++)
        if (work->critical[i] > FILM_CHAIN_LEAST && work->critical[i] < FILM_CHAIN_MOST)
            edges[count++] = work->critical[i];
    edges[count++] = FILM_CHAIN_MOST;
    gsl_sort(edges, 1, count);
    double widest = 0;
    for (size_t i = 0; i + 1 < count; i++) {
        double middle = sqrt(edges[i] * edges[i + 1]), width = log(edges[i + 1] / edges[i]);
        size_t hits = hits_at(work, middle);
        if (hits < fit->hits_film || (hits == fit->hits_film && width <= widest))
            continue;
        *fit = (struct film_fit){fit->tested, fit->left_out, hits, fit->hits_sphere, middle, edges[i], edges[i + 1]};
        widest = width;
    }
}

enum status film_fit_chain(const struct film_parameters *start, const struct sphere_values *sphere,
                           const struct film_case *cases, size_t count, double temp_k, struct film_fit *ret,
                           struct error *err) {
    if (count > FILM_CASES_MAX)
        return error_set(err, STATUS_RANGE, "more than %d cases to fit a film to", FILM_CASES_MAX);
    struct film_fit fit = {0};
    struct fit_work work = {0};
    for (size_t i = 0; i < count; i++) {
        struct film film;
        const double neat = 0;
        enum status status = film_of_component(start, cases[i].component, temp_k, &film, err);
        if (status != STATUS_OK && status != STATUS_NO_DATA)
            return status;
        if (status == STATUS_NO_DATA) {
            fit.left_out++;
            continue;
        }
        work.critical[work.count] = film_critical_chain(&film, &neat);
        work.dissolves[work.count++] = cases[i].dissolves;
        fit.hits_sphere += (hansen_red(hansen_of_component(cases[i].component), sphere) < 1) == cases[i].dissolves;
    }
    if (work.count == 0)
        return error_set(err, STATUS_NO_DATA, "no liquid to fit the film to");
    fit.tested = work.count;
    best_interval(&work, &fit);
    *ret = fit;
    return STATUS_OK;
}
