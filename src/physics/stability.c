// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/stability.h"

#include "base/language.h"
#include "physics/dense.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <string.h>

_Static_assert((int)DENSE_MAX >= (int)BLEND_COMPONENTS_MAX, "a matrix must hold every component of a blend");

// Caps and tolerances of the trial phases.
static const struct {
    int substitutions; // before Newton's method
    int newton_steps;
    double converged; // largest sqrt(W_i) |ln W_i + ln gamma_i - d_i|
    double at_feed;   // sum (sqrt w_i - sqrt z_i)^2 below which a trial phase is the liquid itself
    double noise;     // of tm; below it only the gradient tells
    double unstable;  // tm below minus this proves two phases
} limits = {
    .substitutions = 12, .newton_steps = 60, .converged = 1e-10, .at_feed = 1e-10, .noise = 1e-12, .unstable = 1e-11};

const char *stop_reason_words(enum stop_reason reason) {
    static const char *const words[] = {"converged", "ran into the liquid itself", "reached the limit of iterations",
                                        "found no step that gains more than rounding"};
    assert(reason < STOP_REASON_COUNT);
    return say(words[reason]);
}

enum status stability_normalise(const double *z, size_t count, double *ret_fractions, struct error *err) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        if (!(z[i] >= 0 && z[i] <= DBL_MAX))
            return error_set(err, STATUS_RANGE, "%g is not an amount of a component", z[i]);
        sum += z[i];
    }
    if (!(sum > 0 && sum <= DBL_MAX))
        return error_set(err, STATUS_RANGE, "the amounts of the components add up to %g", sum);
    for (size_t i = 0; i < count; i++)
        ret_fractions[i] = z[i] / sum;
    return STATUS_OK;
}

// --- the stability matrix ---

// Components with an amount, so that logarithms exist.
static size_t present(const double *z, size_t count, size_t *ret_places) {
    size_t found = 0;
    for (size_t i = 0; i < count; i++)
        if (z[i] > 0)
            ret_places[found++] = i;
    return found;
}

// delta_ij + sqrt(z_i z_j) d ln gamma_i/d n_j, with the direction sqrt(z) (all amounts growing alike, always
// neutral) lifted above every other eigenvalue.
static void stability_matrix(const double *z, size_t all, const double *derivatives, const size_t *places, size_t count,
                             double *ret) {
    double lift = 1;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++) {
            double root = sqrt(z[places[i]]) * sqrt(z[places[j]]);
            ret[i * count + j] = (i == j ? 1 : 0) + root * derivatives[places[i] * all + places[j]];
            lift += fabs(ret[i * count + j]);
        }
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++)
            ret[i * count + j] += lift * sqrt(z[places[i]]) * sqrt(z[places[j]]);
}

double stability_least_eigenvalue(const struct activity_model *model, const double *z, double *ret_direction) {
    double fractions[BLEND_COMPONENTS_MAX], ln_gamma[BLEND_COMPONENTS_MAX], vector[BLEND_COMPONENTS_MAX];
    double derivatives[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    size_t places[BLEND_COMPONENTS_MAX];
    struct error ignored;
    enum status status = stability_normalise(z, model->count, fractions, &ignored);
    assert(status == STATUS_OK);
    (void)status;
    if (ret_direction)
        memset(ret_direction, 0, model->count * sizeof *ret_direction);
    size_t count = present(fractions, model->count, places);
    if (count == 1)
        return 1;
    activity_derivatives(model, fractions, ln_gamma, derivatives);
    stability_matrix(fractions, model->count, derivatives, places, count, matrix);
    double least = dense_least_eigenvalue(matrix, count, vector);
    for (size_t i = 0; ret_direction && i < count; i++)
        ret_direction[places[i]] = vector[i] * sqrt(fractions[places[i]]);
    return least;
}

// --- trial phases ---

struct test {
    const struct activity_model *model;
    size_t count; // components present
    size_t places[BLEND_COMPONENTS_MAX];
    double z[BLEND_COMPONENTS_MAX]; // fractions, all components
    double d[BLEND_COMPONENTS_MAX]; // ln z_i + ln gamma_i(z), of the present ones at their places
};

struct trial {
    double w[BLEND_COMPONENTS_MAX];      // mole numbers W
    double excess[BLEND_COMPONENTS_MAX]; // ln W_i + ln gamma_i(W) - d_i
    double distance;                     // tm
    double gradient;                     // largest sqrt(W_i) |excess_i|
    enum stop_reason stop;
};

static void set_distance(const struct test *test, const double *ln_gamma, struct trial *trial) {
    trial->distance = 1;
    trial->gradient = 0;
    for (size_t k = 0; k < test->count; k++) {
        size_t i = test->places[k];
        trial->excess[i] = log(trial->w[i]) + ln_gamma[i] - test->d[i];
        trial->distance += trial->w[i] * (trial->excess[i] - 1);
        trial->gradient = fmax(trial->gradient, sqrt(trial->w[i]) * fabs(trial->excess[i]));
    }
}

// ln W_i = d_i - ln gamma_i(W). The smallest number that still has a logarithm and a full mantissa stands for less.
static void substitute(const struct test *test, struct trial *trial) {
    double ln_gamma[BLEND_COMPONENTS_MAX];
    activity_ln_gamma(test->model, trial->w, ln_gamma);
    for (size_t k = 0; k < test->count; k++) {
        size_t i = test->places[k];
        trial->w[i] = fmax(exp(fmin(test->d[i] - ln_gamma[i], 600)), 1e-300);
    }
    activity_ln_gamma(test->model, trial->w, ln_gamma);
    set_distance(test, ln_gamma, trial);
}

static bool is_the_feed(const struct test *test, const struct trial *trial) {
    double sum = 0, apart = 0;
    for (size_t k = 0; k < test->count; k++)
        sum += trial->w[test->places[k]];
    for (size_t k = 0; k < test->count; k++) {
        size_t i = test->places[k];
        double difference = sqrt(trial->w[i] / sum) - sqrt(test->z[i]);
        apart += difference * difference;
    }
    return apart < limits.at_feed;
}

// Hessian in alpha_i = 2 sqrt(W_i): delta_ij (1 + excess_i/2) + sqrt(W_i W_j) d ln gamma_i/d n_j.
static void newton_matrix(const struct test *test, const struct trial *trial, const double *derivatives, double *ret) {
    for (size_t k = 0; k < test->count; k++)
        for (size_t l = 0; l < test->count; l++) {
            size_t i = test->places[k], j = test->places[l];
            ret[k * test->count + l] = (k == l ? 1 + trial->excess[i] / 2 : 0) +
                                       sqrt(trial->w[i]) * sqrt(trial->w[j]) * derivatives[i * test->model->count + j];
        }
}

// alpha + step, no component losing more than nine tenths of its root.
static void step_from(const struct test *test, const struct trial *from, const double *step, struct trial *ret) {
    double ln_gamma[BLEND_COMPONENTS_MAX];
    *ret = *from;
    for (size_t k = 0; k < test->count; k++) {
        size_t i = test->places[k];
        double alpha = 2 * sqrt(from->w[i]);
        double next = fmax(alpha + step[k], 0.1 * alpha);
        ret->w[i] = fmax(next * next / 4, 1e-300);
    }
    activity_ln_gamma(test->model, ret->w, ln_gamma);
    set_distance(test, ln_gamma, ret);
}

// One step of Newton's method, damped (Levenberg) until tm falls. False when nothing falls any more.
static bool newton_step(const struct test *test, struct trial *trial, double *damping) {
    double ln_gamma[BLEND_COMPONENTS_MAX], derivatives[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    double full[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], right[BLEND_COMPONENTS_MAX];
    activity_derivatives(test->model, trial->w, ln_gamma, derivatives);
    newton_matrix(test, trial, derivatives, full);
    for (size_t k = 0; k < test->count; k++)
        right[k] = -sqrt(trial->w[test->places[k]]) * trial->excess[test->places[k]];
    for (; *damping < 1e8; *damping = fmax(10 * *damping, 1e-3)) {
        double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], step[BLEND_COMPONENTS_MAX];
        struct trial next;
        memcpy(matrix, full, test->count * test->count * sizeof *matrix);
        for (size_t k = 0; k < test->count; k++)
            matrix[k * test->count + k] += *damping;
        if (!dense_cholesky_solve(matrix, test->count, right, step))
            continue;
        step_from(test, trial, step, &next);
        bool falls = next.distance < trial->distance;
        bool settles = next.distance <= trial->distance + limits.noise && next.gradient < trial->gradient / 2;
        if (falls || settles) {
            *trial = next;
            *damping = *damping < 1e-3 ? 0 : *damping / 10;
            return true;
        }
    }
    return false;
}

static void follow(const struct test *test, struct trial *trial) {
    double damping = 0;
    trial->stop = STOP_ITERATIONS;
    for (int n = 0; n < limits.substitutions + limits.newton_steps; n++) {
        if (n < limits.substitutions)
            substitute(test, trial);
        else if (!newton_step(test, trial, &damping)) {
            trial->stop = STOP_NO_DESCENT;
            return;
        }
        if (is_the_feed(test, trial)) {
            trial->stop = STOP_AT_FEED;
            return;
        }
        if (trial->gradient < limits.converged) {
            trial->stop = STOP_CONVERGED;
            return;
        }
    }
}

// --- the test ---

static void keep_if_lower(const struct test *test, const struct trial *trial, struct stability *result) {
    result->starts++;
    result->stopped[trial->stop]++;
    if (trial->stop == STOP_AT_FEED || !(trial->distance < result->distance))
        return;
    double sum = 0;
    for (size_t k = 0; k < test->count; k++)
        sum += trial->w[test->places[k]];
    memset(result->trial, 0, sizeof result->trial);
    for (size_t k = 0; k < test->count; k++)
        result->trial[test->places[k]] = trial->w[test->places[k]] / sum;
    result->distance = trial->distance;
}

static void start_from_neat(const struct test *test, size_t place, struct stability *result) {
    struct trial trial = {.w = {0}};
    trial.w[place] = 1;
    follow(test, &trial);
    keep_if_lower(test, &trial, result);
}

static void start_from_ideal(const struct test *test, struct stability *result) {
    struct trial trial = {.w = {0}};
    for (size_t k = 0; k < test->count; k++)
        trial.w[test->places[k]] = exp(fmin(test->d[test->places[k]], 600));
    follow(test, &trial);
    keep_if_lower(test, &trial, result);
}

// Inside the spinodal the liquid itself is a saddle of tm: go off along the direction of least D, both ways, by the
// step that gains most.
static void start_along(const struct test *test, const double *direction, double sign, struct stability *result) {
    double reach = DBL_MAX;
    for (size_t k = 0; k < test->count; k++) {
        size_t i = test->places[k];
        if (sign * direction[i] < 0)
            reach = fmin(reach, test->z[i] / -(sign * direction[i]));
    }
    struct trial best = {.distance = DBL_MAX};
    for (double share = 0.9; share > 1e-7; share /= 2) {
        struct trial trial = {.w = {0}};
        double ln_gamma[BLEND_COMPONENTS_MAX];
        for (size_t k = 0; k < test->count; k++) {
            size_t i = test->places[k];
            trial.w[i] = test->z[i] + share * reach * sign * direction[i];
        }
        activity_ln_gamma(test->model, trial.w, ln_gamma);
        set_distance(test, ln_gamma, &trial);
        if (trial.distance < best.distance)
            best = trial;
    }
    double damping = 0;
    best.stop = STOP_ITERATIONS;
    for (int n = 0; n < limits.newton_steps && best.stop == STOP_ITERATIONS; n++) {
        if (best.gradient < limits.converged)
            best.stop = STOP_CONVERGED;
        else if (!newton_step(test, &best, &damping))
            best.stop = STOP_NO_DESCENT;
    }
    if (is_the_feed(test, &best) && best.distance > -limits.unstable)
        best.stop = STOP_AT_FEED;
    keep_if_lower(test, &best, result);
}

static enum status begin(const struct activity_model *model, const double *z, struct test *ret, struct error *err) {
    double ln_gamma[BLEND_COMPONENTS_MAX];
    assert(activity_covers(model));
    *ret = (struct test){.model = model};
    enum status status = stability_normalise(z, model->count, ret->z, err);
    if (status != STATUS_OK)
        return status;
    ret->count = present(ret->z, model->count, ret->places);
    activity_ln_gamma(model, ret->z, ln_gamma);
    for (size_t k = 0; k < ret->count; k++) {
        size_t i = ret->places[k];
        ret->d[i] = log(ret->z[i]) + ln_gamma[i];
    }
    return STATUS_OK;
}

enum status stability_test(const struct activity_model *model, const double *z, struct stability *ret,
                           struct error *err) {
    struct test test;
    enum status status = begin(model, z, &test, err);
    if (status != STATUS_OK)
        return status;
    struct stability result = {.stable = true};
    double direction[BLEND_COMPONENTS_MAX];
    result.least_eigenvalue = stability_least_eigenvalue(model, test.z, direction);
    if (test.count > 1) {
        for (size_t k = 0; k < test.count; k++)
            start_from_neat(&test, test.places[k], &result);
        start_from_ideal(&test, &result);
        if (result.least_eigenvalue < 0) {
            start_along(&test, direction, 1, &result);
            start_along(&test, direction, -1, &result);
        }
    }
    result.stable = !(result.distance < -limits.unstable) && !(result.least_eigenvalue < 0);
    *ret = result;
    return STATUS_OK;
}
