// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/drift.h"

#include "base/language.h"
#include "physics/solve.h"

#include <assert.h>
#include <math.h>

const char *drift_stop_words(enum drift_stop stop) {
    static const char *const words[] = {"followed to the end", "stopped at the limit of steps",
                                        "stopped because the steps became too small",
                                        "stopped because the rates of evaporation have no value there"};
    return say(words[stop]);
}

// The variables: ln n of the components that are there, then the time in units of the first rate.
struct drift_run {
    const struct drift_problem *problem;
    size_t present[BLEND_COMPONENTS_MAX];
    size_t count;
    double first_rate; // sum of w at the start
};

// Fractions from logarithms of amounts; the largest is taken out first, so that nothing overflows.
static double fractions(const struct drift_run *run, const double *ln_n, double *ret_x) {
    double largest = -INFINITY, sum = 0;
    for (size_t k = 0; k < run->count; k++)
        largest = fmax(largest, ln_n[k]);
    for (size_t i = 0; i < run->problem->count; i++)
        ret_x[i] = 0;
    for (size_t k = 0; k < run->count; k++)
        sum += ret_x[run->present[k]] = exp(ln_n[k] - largest);
    for (size_t k = 0; k < run->count; k++)
        ret_x[run->present[k]] /= sum;
    return sum * exp(largest);
}

static bool total_rate(const struct drift_run *run, const double *x, double *ret_g, double *ret_sum) {
    if (!run->problem->mobilities(x, ret_g, run->problem->context))
        return false;
    *ret_sum = 0;
    for (size_t k = 0; k < run->count; k++)
        *ret_sum += ret_g[run->present[k]] * x[run->present[k]];
    return *ret_sum > 0 && isfinite(*ret_sum);
}

static bool rates(double tau, const double *y, double *ret_dy, void *context) {
    (void)tau;
    const struct drift_run *run = context;
    double x[BLEND_COMPONENTS_MAX], g[BLEND_COMPONENTS_MAX], sum;
    double left = fractions(run, y, x);
    if (!isfinite(left) || !total_rate(run, x, g, &sum))
        return false;
    for (size_t k = 0; k < run->count; k++)
        ret_dy[k] = -g[run->present[k]] / sum;
    ret_dy[run->count] = left * run->first_rate / sum;
    return true;
}

// The amounts of the path add up to 1 - evaporated but for the solver's error, which is taken out here.
static void record(const struct drift_run *run, const double *y, double evaporated, struct drift_state *ret) {
    *ret = (struct drift_state){.evaporated = evaporated, .time = y[run->count] / run->first_rate};
    fractions(run, y, ret->x);
    for (size_t i = 0; i < run->problem->count; i++)
        ret->n[i] = ret->x[i] * (1 - evaporated);
}

static enum status begin(struct drift_run *run, double *y, struct error *err) {
    double sum = 0;
    for (size_t i = 0; i < run->problem->count; i++) {
        double n = run->problem->start[i];
        if (!(n >= 0) || !isfinite(n))
            return error_set(err, STATUS_RANGE, "a share of %g in the liquid", n);
        sum += n;
        if (n > 0) {
            run->present[run->count] = i;
            y[run->count++] = log(n);
        }
    }
    if (fabs(sum - 1) > 1e-6)
        return error_set(err, STATUS_RANGE, "the shares of the liquid add up to %g instead of 1", sum);
    y[run->count] = 0;
    return STATUS_OK;
}

static const enum drift_stop stop_of[] = {[SOLVE_REACHED] = DRIFT_COMPLETE,
                                          [SOLVE_STEPS] = DRIFT_STEPS,
                                          [SOLVE_TOO_SMALL] = DRIFT_STUCK,
                                          [SOLVE_NO_RATES] = DRIFT_NO_RATES};

enum status drift_follow(const struct drift_problem *problem, const double *evaporated, size_t count,
                         struct drift_state *ret, size_t *ret_count, enum drift_stop *ret_stop, struct error *err) {
    struct drift_run run = {.problem = problem};
    double y[BLEND_COMPONENTS_MAX + 1], x[BLEND_COMPONENTS_MAX], g[BLEND_COMPONENTS_MAX];
    enum status status = begin(&run, y, err);
    if (status != STATUS_OK)
        return status;
    size_t done = 0;
    enum drift_stop stop = DRIFT_COMPLETE;
    fractions(&run, y, x);
    if (!total_rate(&run, x, g, &run.first_rate))
        stop = DRIFT_NO_RATES;
    struct solve_path path = {.count = run.count + 1,
                              .rates = rates,
                              .context = &run,
                              .absolute = problem->precision,
                              .relative = problem->precision,
                              .most = problem->most};
    double tau = 0;
    for (; stop == DRIFT_COMPLETE && status == STATUS_OK && done < count; done++) {
        assert(evaporated[done] >= 0 && evaporated[done] < 1);
        enum solve_reached reached;
        status = solve_path_to(&path, &tau, -log1p(-evaporated[done]), y, &reached, err);
        stop = status == STATUS_OK ? stop_of[reached] : stop;
        if (status != STATUS_OK || stop != DRIFT_COMPLETE)
            break;
        record(&run, y, evaporated[done], &ret[done]);
    }
    solve_path_release(&path);
    if (status != STATUS_OK)
        return status;
    *ret_count = done;
    *ret_stop = stop;
    return STATUS_OK;
}
