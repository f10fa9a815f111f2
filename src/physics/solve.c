// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/solve.h"

#include "base/memory.h"

#include <float.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>
#include <gsl/gsl_roots.h>
#include <math.h>
#include <threads.h>

static once_flag quiet = ONCE_FLAG_INIT;

static void switch_handler_off(void) {
    gsl_set_error_handler_off();
}

// --- roots ---

static enum status iterate(gsl_root_fsolver *solver, const struct solve_stop *stop, double *ret_x, struct error *err) {
    for (size_t i = 0; i < stop->most; i++) {
        if (gsl_root_fsolver_iterate(solver) != GSL_SUCCESS)
            return error_set(err, STATUS_NO_ROOT, "the function has no value at %g", gsl_root_fsolver_root(solver));
        double low = gsl_root_fsolver_x_lower(solver), high = gsl_root_fsolver_x_upper(solver);
        *ret_x = gsl_root_fsolver_root(solver);
        if (high - low <= stop->absolute + stop->relative * fabs(*ret_x))
            return STATUS_OK;
    }
    return error_set(err, STATUS_ITERATIONS, "no root to the wanted precision in %zu iterations", stop->most);
}

enum status solve_root(solve_function f, void *context, double low, double high, const struct solve_stop *stop,
                       double *ret_x, struct error *err) {
    call_once(&quiet, switch_handler_off);
    double at_low = f(low, context), at_high = f(high, context);
    if (at_low == 0 || at_high == 0) {
        *ret_x = at_low == 0 ? low : high;
        return STATUS_OK;
    }
    if (!isfinite(at_low) || !isfinite(at_high) || (at_low > 0) == (at_high > 0))
        return error_set(err, STATUS_NO_ROOT, "no change of sign between %g and %g", low, high);
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (!solver) {
        memory_lacked();
        return error_set(err, STATUS_MEMORY, "out of memory while looking for a root");
    }
    gsl_function function = {.function = f, .params = context};
    double x = NAN;
    enum status status = STATUS_OK;
    if (gsl_root_fsolver_set(solver, &function, low, high) != GSL_SUCCESS)
        status = error_set(err, STATUS_NO_ROOT, "no change of sign between %g and %g", low, high);
    else
        status = iterate(solver, stop, &x, err);
    gsl_root_fsolver_free(solver);
    if (status == STATUS_OK)
        *ret_x = x;
    return status;
}

// --- initial value problems ---

struct solve_ode {
    gsl_odeiv2_step *step;
    gsl_odeiv2_control control;
    gsl_odeiv2_evolve *evolve;
    double absolute, relative; // error allowed, as in solve_path
    double length;             // of the next step to try
};

static int call_rates(double s, const double y[], double dydt[], void *context) {
    const struct solve_path *path = context;
    return path->rates(s, y, dydt, path->context) ? GSL_SUCCESS : GSL_EDOM;
}

// The next step from the error of the last, as gsl_odeiv2_control_y_new does it (GSL reference manual, "Adaptive
// Step-size Control"): that one writes to NULL when there is no memory, this one needs none.
static int adjust_step(void *state, size_t count, unsigned order, const double y[], const double error[],
                       const double dydt[], double *length) {
    const struct solve_ode *ode = state;
    static const double margin = 0.9, shrink_most = 0.2, grow_most = 5;
    double worst = DBL_MIN; // error over what is allowed
    (void)dydt;
    for (size_t i = 0; i < count; i++)
        worst = fmax(fabs(error[i]) / fabs(ode->relative * fabs(y[i]) + ode->absolute), worst);
    if (worst > 1.1) {
        *length *= fmax(margin / pow(worst, 1.0 / order), shrink_most);
        return GSL_ODEIV_HADJ_DEC;
    }
    if (worst >= 0.5)
        return GSL_ODEIV_HADJ_NIL;
    *length *= fmax(fmin(margin / pow(worst, 1.0 / (order + 1.0)), grow_most), 1);
    return GSL_ODEIV_HADJ_INC;
}

static const gsl_odeiv2_control_type error_control = {.name = "error", .hadjust = adjust_step};

// A first step short enough for any start; the control lengthens it at once where it may.
static const double first_step = 1e-6;

static enum status open_ode(struct solve_path *path, struct error *err) {
    call_once(&quiet, switch_handler_off);
    struct solve_ode *ode = memory_new(1, sizeof *ode);
    if (ode) {
        ode->step = gsl_odeiv2_step_alloc(gsl_odeiv2_step_rkck, path->count);
        ode->control = (gsl_odeiv2_control){.type = &error_control, .state = ode};
        ode->absolute = path->absolute;
        ode->relative = path->relative;
        ode->evolve = gsl_odeiv2_evolve_alloc(path->count);
        ode->length = first_step;
    }
    path->ode = ode;
    if (ode && ode->step && ode->evolve)
        return STATUS_OK;
    memory_lacked();
    solve_path_release(path);
    return error_set(err, STATUS_MEMORY, "out of memory while following a path");
}

// A step that could not be taken may only have been too long: the rates beyond have no value, or differ too much.
static bool shorten(struct solve_ode *ode, double s) {
    ode->length /= 8;
    gsl_odeiv2_step_reset(ode->step);
    gsl_odeiv2_evolve_reset(ode->evolve);
    return s + ode->length > s;
}

enum status solve_path_to(struct solve_path *path, double *s, double target, double *y, enum solve_reached *ret_reached,
                          struct error *err) {
    if (!path->ode) {
        enum status status = open_ode(path, err);
        if (status != STATUS_OK)
            return status;
    }
    struct solve_ode *ode = path->ode;
    gsl_odeiv2_system system = {.function = call_rates, .dimension = path->count, .params = path};
    *ret_reached = SOLVE_REACHED;
    while (*s < target && *ret_reached == SOLVE_REACHED) {
        if (path->steps++ == path->most) {
            *ret_reached = SOLVE_STEPS;
            break;
        }
        int code = gsl_odeiv2_evolve_apply(ode->evolve, &ode->control, ode->step, &system, s, target, &ode->length, y);
        if (code != GSL_SUCCESS && !shorten(ode, *s))
            *ret_reached = code == GSL_EDOM ? SOLVE_NO_RATES : SOLVE_TOO_SMALL;
    }
    return STATUS_OK;
}

void solve_path_release(struct solve_path *path) {
    if (!path->ode)
        return;
    // GSL's free functions take NULL
    gsl_odeiv2_evolve_free(path->ode->evolve);
    gsl_odeiv2_step_free(path->ode->step);
    memory_free(path->ode);
    path->ode = NULL;
}
