// SPDX-License-Identifier: GPL-3.0-or-later
// Roots and initial value problems by GSL, with our tolerances, caps and statuses. GSL's own error handler, which
// ends the program, is switched off by whichever function here is called first.
#ifndef MILDSOLVE_PHYSICS_SOLVE_H
#define MILDSOLVE_PHYSICS_SOLVE_H

#include "base/error.h"

#include <stdbool.h>
#include <stddef.h>

// A function of one variable; NAN where it has no value.
typedef double (*solve_function)(double x, void *context);

struct solve_stop {
    double absolute; // the interval that holds the root is at most absolute + relative * |x| wide
    double relative;
    size_t most; // iterations
};

// The root of f between low and high by the method of Brent (Algorithms for Minimization without Derivatives, 1973,
// ch. 4). STATUS_NO_ROOT when f has the same sign (or no value) at both ends, or loses its value between them;
// STATUS_ITERATIONS at the cap; STATUS_MEMORY.
enum status solve_root(solve_function f, void *context, double low, double high, const struct solve_stop *stop,
                       double *ret_x, struct error *err);

// dy/ds for `count` variables; false where it has no value (the solver then tries a smaller step).
typedef bool (*solve_rates)(double s, const double *y, double *ret_dy, void *context);

struct solve_path {
    size_t count;
    solve_rates rates;
    void *context;
    double absolute; // error per step of each y: absolute + relative * |y|
    double relative;
    size_t most;           // steps in all, also those refused
    size_t steps;          // taken so far; start with 0
    struct solve_ode *ode; // inside; start with NULL
};

enum solve_reached {
    SOLVE_REACHED,   // the target
    SOLVE_STEPS,     // the cap on steps came first
    SOLVE_TOO_SMALL, // the step fell below what numbers can tell apart
    SOLVE_NO_RATES   // dy/ds has no value where the path leads
};

// Carries y from *s to `target` by the embedded Runge-Kutta method of Cash & Karp, order 4(5) (ACM Trans. Math. Softw. 16
// (1990) 201), *s and y ending where *ret_reached says. Call again with further targets; solve_path_release at the end.
// STATUS_MEMORY is the only failure. A method of low order and one step, because our rates have kinks where a liquid
// splits: order 8 took three times as long and multistep methods must start anew at each. Not for stiff equations.
enum status solve_path_to(struct solve_path *path, double *s, double target, double *y, enum solve_reached *ret_reached,
                          struct error *err);
void solve_path_release(struct solve_path *path);

#endif
