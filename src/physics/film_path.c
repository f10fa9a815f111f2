// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_path.h"

#include "physics/dense.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { ORDER_MAX = BLEND_COMPONENTS_MAX + 1 };

const struct film_walk film_walk_usual = {
    .step_first = 0.7,
    .step_most = 0.5,
    .step_most_thin = 1.5,
    .correction_most = 0.1,
    .correction_enough = 0.01,
    .correction_wanted = 0.004,
};

// Where the usual walk fails: a path that turns back sharply, near a gap of the liquid.
const struct film_walk film_walk_careful = {
    .step_first = 0.1,
    .step_most = 0.06,
    .step_most_thin = 0.3,
    .correction_most = 0.03,
    .correction_enough = 1e-4,
    .correction_wanted = 1e-5,
};

// From a root back to the dry film only stability is asked: bolder.
static const struct film_walk walk_back = {
    .step_first = 0.9,
    .step_most = 1.0,
    .step_most_thin = 1.5,
    .correction_most = 0.15,
    .correction_enough = 0.06,
    .correction_wanted = 0.025,
};

static const double taken_first = 0.01;        // W of the first film; its terms beyond Henry's law are still small
static const double taken_thin = 0.05;         // see struct film_walk
static const double step_least = 1e-5;         // below it the walk has failed
static const double correction_settled = 1e-7; // Newton leaves about its square
enum { PATH_STEPS_MAX = 2000, BACK_STEPS_MAX = 60, POLISH_STEPS_MAX = 12, CORRECTIONS_MAX = 4 };

// d ln a/d ln n, made symmetric, is the unit matrix plus a part that shrinks with W, all of whose terms carry n. Where
// the largest row sum of that part (the coupling) is below this, every drier film on the path is stable too: it would
// have to double against the trend.
static const double coupling_surely_stable = 0.5;

void film_problem_pack(const struct film *film, const double *ln_activity, struct film_problem *ret) {
    ret->film = film;
    ret->count = 0;
    ret->evaluations = 0;
    for (size_t i = 0; i < film->count; i++) {
        if (!(ln_activity[i] > -INFINITY))
            continue;
        ret->index[ret->count] = i;
        ret->ln_activity[ret->count++] = ln_activity[i];
    }
}

static void pack_matrix(const struct film_problem *problem, const double *full, double *matrix) {
    size_t count = problem->count, all = problem->film->count;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++)
            matrix[i * count + j] = full[problem->index[i] * all + problem->index[j]];
}

void film_evaluate(struct film_problem *problem, const double *y, double lambda, struct film_local *ret) {
    const struct film *film = problem->film;
    size_t count = problem->count, all = film->count;
    double moles[BLEND_COMPONENTS_MAX], ln_moles[BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    double full[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    bool packed = count == all;
    for (size_t i = 0; i < all && !packed; i++) {
        moles[i] = 0;
        ln_moles[i] = -INFINITY;
    }
    ret->taken = 0;
    for (size_t i = 0; i < count; i++) {
        ret->moles[i] = exp(y[i]);
        moles[problem->index[i]] = ret->moles[i];
        if (!packed)
            ln_moles[problem->index[i]] = y[i];
        ret->taken += ret->moles[i] * film->volume[problem->index[i]];
    }
    film_activities_ln(film, moles, packed ? y : ln_moles, ln_activity, packed ? ret->matrix : full);
    if (!packed)
        pack_matrix(problem, full, ret->matrix);
    for (size_t i = 0; i < count; i++)
        ret->residual[i] = ln_activity[problem->index[i]] - problem->ln_activity[i] - lambda;
    problem->evaluations++;
}

static double largest(const double *values, size_t count) {
    double most = 0;
    for (size_t i = 0; i < count; i++)
        most = fmax(most, fabs(values[i]));
    return most;
}

// sqrt(n_i n_j) d ln a_i/d n_j: d ln a_i/d ln n_j made symmetric. Its diagonal is 1 for a trace.
struct film_scaled {
    double root[BLEND_COMPONENTS_MAX]; // sqrt(n)
    double factor[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    double coupling;
};

static void scale_matrix(const struct film_problem *problem, const struct film_local *local, struct film_scaled *ret) {
    size_t count = problem->count;
    double sums[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < count; i++) {
        ret->root[i] = sqrt(local->moles[i]);
        sums[i] = 0;
        for (size_t j = 0; j <= i; j++) {
            double value = local->matrix[i * count + j] * ret->root[i] * ret->root[j];
            ret->factor[i * count + j] = value;
            sums[i] += fabs(i == j ? value - 1 : value);
            if (j < i)
                sums[j] += fabs(value);
        }
    }
    ret->coupling = largest(sums, count);
}

// False when the film is not stable.
static bool factor_scaled(const struct film_problem *problem, const struct film_local *local, struct film_scaled *ret) {
    scale_matrix(problem, local, ret);
    return dense_factor(ret->factor, problem->count);
}

// Solves (d ln a/d ln n) dy = right by the factor above.
static void solve_scaled(const struct film_scaled *scaled, size_t count, double *right) {
    for (size_t i = 0; i < count; i++)
        right[i] *= scaled->root[i];
    dense_solve_factored(scaled->factor, count, right);
    for (size_t i = 0; i < count; i++)
        right[i] /= scaled->root[i];
}

static void rise_of(const struct film_scaled *scaled, size_t count, double *ret_rise) {
    for (size_t i = 0; i < count; i++)
        ret_rise[i] = 1;
    solve_scaled(scaled, count, ret_rise);
}

bool film_polish(struct film_problem *problem, struct film_root *root) {
    struct film_local local;
    struct film_scaled scaled;
    for (int k = 0; k < POLISH_STEPS_MAX; k++) {
        film_evaluate(problem, root->y, 0, &local);
        if (!factor_scaled(problem, &local, &scaled))
            return false;
        double *change = local.residual;
        solve_scaled(&scaled, problem->count, change);
        double size = largest(change, problem->count);
        if (!isfinite(size))
            return false;
        double share = size > 1 ? 1 / size : 1;
        for (size_t i = 0; i < problem->count; i++)
            root->y[i] -= share * change[i];
        if (size < correction_settled) {
            rise_of(&scaled, problem->count, root->rise);
            root->coupling = scaled.coupling;
            return true;
        }
    }
    return false;
}

// --- one step along the path ---

// Correction in the plane across the old tangent, and the direction of the new one; lambda last.
struct film_step {
    double correction[ORDER_MAX];
    double direction[ORDER_MAX];
    size_t negative; // as in struct film_point
};

// A stable film: both from one factor. With q = -M^-1 F and p = M^-1 1, the correction is q + dlambda p.
static void step_by_factor(const struct film_problem *problem, const struct film_local *local,
                           const struct film_scaled *scaled, const struct film_point *across, struct film_step *ret) {
    size_t count = problem->count;
    double along_q = 0, along_p = across->tangent_lambda;
    for (size_t i = 0; i < count; i++)
        ret->correction[i] = -local->residual[i];
    solve_scaled(scaled, count, ret->correction);
    rise_of(scaled, count, ret->direction);
    for (size_t i = 0; i < count; i++) {
        along_q += across->tangent[i] * ret->correction[i];
        along_p += across->tangent[i] * ret->direction[i];
    }
    double d_lambda = -along_q / along_p;
    for (size_t i = 0; i < count; i++) {
        ret->correction[i] += d_lambda * ret->direction[i];
        ret->direction[i] /= along_p;
    }
    ret->correction[count] = d_lambda;
    ret->direction[count] = 1 / along_p;
}

// Any film: the path's equations bordered by the tangent.
static bool step_by_elimination(const struct film_problem *problem, const struct film_local *local,
                                const struct film_point *across, struct film_step *ret) {
    size_t count = problem->count, order = count + 1;
    double matrix[ORDER_MAX * ORDER_MAX], columns[2 * ORDER_MAX];
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < count; j++)
            matrix[i * order + j] = local->matrix[i * count + j] * local->moles[j];
        matrix[i * order + count] = -1;
        matrix[count * order + i] = across->tangent[i];
        columns[2 * i] = -local->residual[i];
        columns[2 * i + 1] = 0;
    }
    matrix[count * order + count] = across->tangent_lambda;
    columns[2 * count] = 0;
    columns[2 * count + 1] = 1;
    if (!dense_eliminate(matrix, order, columns, 2))
        return false;
    for (size_t i = 0; i < order; i++) {
        ret->correction[i] = columns[2 * i];
        ret->direction[i] = columns[2 * i + 1];
    }
    return true;
}

static void set_tangent(const struct film_problem *problem, const double *direction, struct film_point *point) {
    size_t count = problem->count;
    double square = 0;
    for (size_t i = 0; i <= count; i++)
        square += direction[i] * direction[i];
    double inverse = 1 / sqrt(square);
    for (size_t i = 0; i < count; i++)
        point->tangent[i] = direction[i] * inverse;
    point->tangent_lambda = direction[count] * inverse;
}

static void apply_correction(const struct film_problem *problem, const struct film_local *local,
                             const double *correction, struct film_point *point) {
    size_t count = problem->count;
    point->taken = 0;
    for (size_t i = 0; i < count; i++) {
        point->y[i] += correction[i];
        point->taken += local->moles[i] * (1 + correction[i]) * problem->film->volume[problem->index[i]];
    }
    point->lambda += correction[count];
}

// What a correction leaves, about its square, must stay far below |lambda| on the way to a root: near 0 it hangs on it.
static double enough_at(const struct film_walk *walk, bool stable, double lambda) {
    return stable ? walk->correction_enough : fmin(walk->correction_enough, fmax(0.1 * sqrt(fabs(lambda)), 1e-6));
}

// One Newton step at a point; *ret_negative as in struct film_point. With `stable`, false when the film isn't.
static bool newton_step(struct film_problem *problem, const struct film_point *point, const struct film_point *across,
                        bool stable, struct film_local *local, struct film_scaled *scaled, struct film_step *ret) {
    film_evaluate(problem, point->y, point->lambda, local);
    ret->negative = 0;
    if (factor_scaled(problem, local, scaled)) {
        step_by_factor(problem, local, scaled, across, ret);
        return true;
    }
    if (stable)
        return false;
    scale_matrix(problem, local, scaled);
    ret->negative = dense_negative_eigenvalues(scaled->factor, problem->count);
    return ret->negative != SIZE_MAX && step_by_elimination(problem, local, across, ret);
}

// Brings a predicted point onto the path, in the plane across the tangent it carries, and gives it its own tangent.
// *ret_first: size of the first correction. With `stable` (the way back), every evaluated film must be stable.
static bool correct(struct film_problem *problem, const struct film_walk *walk, bool stable, struct film_point *point,
                    double *ret_first) {
    struct film_local local;
    struct film_scaled scaled;
    struct film_step step;
    struct film_point across = *point;
    for (int k = 0; k < CORRECTIONS_MAX; k++) {
        if (!newton_step(problem, point, &across, stable, &local, &scaled, &step))
            return false;
        double size = largest(step.correction, problem->count + 1);
        if (k == 0)
            *ret_first = size;
        if (!(size < walk->correction_most))
            return false;
        apply_correction(problem, &local, step.correction, point);
        if (size < enough_at(walk, stable, point->lambda)) {
            set_tangent(problem, step.direction, point);
            point->coupling = scaled.coupling;
            point->negative = step.negative;
            return true;
        }
    }
    return false;
}

// On one path the sign of d lambda along it is that of the determinant of d ln a/d ln n (both turn where the path
// passes a limit of stability), and one eigenvalue turns at a time. Else the step has jumped to another branch.
static bool same_branch(const struct film_point *a, const struct film_point *b) {
    bool rising = b->tangent_lambda > 0, even = b->negative % 2 == 0;
    size_t turned = a->negative > b->negative ? a->negative - b->negative : b->negative - a->negative;
    return rising == even && turned <= 1;
}

// The tangent's largest part: a step h changes no unknown by more than h when the arc is h divided by it.
static double arc_of_step(const struct film_problem *problem, const struct film_point *point, double step) {
    return step / fmax(largest(point->tangent, problem->count), fabs(point->tangent_lambda));
}

// Second-order extrapolation from the last two points (Euler when `before` is NULL).
static void predict(const struct film_problem *problem, const struct film_point *before, double arc_before,
                    const struct film_point *at, double arc, struct film_point *ret) {
    double bend = before ? arc * arc / (2 * arc_before) : 0;
    for (size_t i = 0; i < problem->count; i++) {
        double turn = before ? at->tangent[i] - before->tangent[i] : 0;
        ret->y[i] = at->y[i] + arc * at->tangent[i] + bend * turn;
        ret->tangent[i] = at->tangent[i];
    }
    double turn = before ? at->tangent_lambda - before->tangent_lambda : 0;
    ret->lambda = at->lambda + arc * at->tangent_lambda + bend * turn;
    ret->tangent_lambda = at->tangent_lambda;
}

static double next_step(const struct film_walk *walk, double step, double correction, double taken) {
    double factor = cbrt(walk->correction_wanted / fmax(correction, 1e-9)); // the predictor's error is of third order
    return fmin(step * fmin(fmax(factor, 0.4), 2.5), taken < taken_thin ? walk->step_most_thin : walk->step_most);
}

// --- between two points ---

// Largest lambda of the cubic through both points and their tangents, over the open interval; the larger end if there
// is no peak between them. u runs from 0 to 1.
static double cubic(double a, double b, double slope_a, double slope_b, double u) {
    double v = 1 - u;
    return a * v * v * (1 + 2 * u) + b * u * u * (3 - 2 * u) + slope_a * u * v * v - slope_b * u * u * v;
}

static double peak_between(const struct film_point *a, const struct film_point *b, double arc) {
    double rise = b->lambda - a->lambda, left = a->tangent_lambda * arc, right = b->tangent_lambda * arc;
    double most = fmax(a->lambda, b->lambda);
    // Derivative: left + u (6 rise - 4 left - 2 right) + u^2 (3 left + 3 right - 6 rise)
    double p = 3 * left + 3 * right - 6 * rise, q = 6 * rise - 4 * left - 2 * right;
    double under = q * q - 4 * p * left;
    if (!(under > 0))
        return most;
    double root = sqrt(under);
    double t = -0.5 * (q + (q < 0 ? -root : root));
    const double candidates[2] = {t / p, left / t};
    for (int k = 0; k < 2; k++)
        if (candidates[k] > 0 && candidates[k] < 1)
            most = fmax(most, cubic(a->lambda, b->lambda, left, right, candidates[k]));
    return most;
}

// May lambda have risen above 0 between two points below it, and come back unseen? Only where it turns; the peak of the
// cubic is trusted to no more than what lambda does between them.
static bool peak_in_doubt(const struct film_point *a, const struct film_point *b, double arc) {
    double ends = fmax(a->lambda, b->lambda), peak = peak_between(a, b, arc);
    double span = peak - fmin(a->lambda, b->lambda);
    bool turns = peak > ends || a->tangent_lambda * b->tangent_lambda <= 0;
    return turns && span > 1e-9 && peak + span >= 0;
}

// The root between a (lambda < 0) and b (lambda >= 0).
static bool root_between(struct film_problem *problem, const struct film_point *a, const struct film_point *b,
                         double arc, struct film_root *ret) {
    double low = 0, high = 1;
    for (int k = 0; k < 30; k++) {
        double u = 0.5 * (low + high);
        double at = cubic(a->lambda, b->lambda, a->tangent_lambda * arc, b->tangent_lambda * arc, u);
        *(at < 0 ? &low : &high) = u;
    }
    struct film_root root;
    double guess[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < problem->count; i++)
        root.y[i] = guess[i] = cubic(a->y[i], b->y[i], a->tangent[i] * arc, b->tangent[i] * arc, low);
    if (!film_polish(problem, &root))
        return false;
    double span = 0, moved = 0;
    for (size_t i = 0; i < problem->count; i++) {
        span = fmax(span, fabs(b->y[i] - a->y[i]));
        moved = fmax(moved, fabs(root.y[i] - guess[i]));
    }
    if (!(moved <= 0.5 * span + 1e-6)) // it went to another root
        return false;
    *ret = root;
    return true;
}

// --- the walk ---

// Henry's law: the film so dry that only the terms of film.dry count.
static void henry_point(const struct film_problem *problem, double thinner, struct film_point *ret) {
    const struct film *film = problem->film;
    double most = -INFINITY, sum = 0;
    for (size_t i = 0; i < problem->count; i++)
        most = fmax(most, problem->ln_activity[i] - film->dry[problem->index[i]]);
    for (size_t i = 0; i < problem->count; i++)
        sum += exp(problem->ln_activity[i] - film->dry[problem->index[i]] - most);
    ret->lambda = fmin(log(taken_first) - most - log(sum), -1) - thinner;
    double equal = 1 / sqrt((double)problem->count + 1);
    for (size_t i = 0; i < problem->count; i++) {
        size_t at = problem->index[i];
        ret->y[i] = problem->ln_activity[i] + ret->lambda - film->dry[at] - film->ln_volume[at];
        ret->tangent[i] = equal;
    }
    ret->tangent_lambda = equal;
}

// A thinner film where the terms beyond Henry's law are too large at once (traces with a huge ln gamma).
static bool first_point(struct film_problem *problem, struct film_point *ret) {
    double first = 0;
    for (double thinner = 0; thinner <= 12; thinner += 2) {
        henry_point(problem, thinner, ret);
        if (correct(problem, &film_walk_usual, true, ret, &first))
            return true;
    }
    return false;
}

// A point to start a neighbour from: the later the more of its path is saved, but the longer the way back to where
// stability is sure.
static const double taken_way_most = 4;

static void keep_way(const struct film_problem *problem, const struct film_point *point, struct film_state *state) {
    for (size_t i = 0; i < problem->film->count; i++)
        state->way[i] = -INFINITY;
    for (size_t i = 0; i < problem->count; i++)
        state->way[problem->index[i]] = point->y[i];
    state->way_lambda = point->lambda;
    state->has_way = true;
}

// From points[0], which lies on the stable branch from the dry film below any root.
static enum film_outcome walk_on(struct film_problem *problem, const struct film_walk *walk, double step,
                                 struct film_point points[3], struct film_state *state, struct film_root *ret) {
    struct film_point *before = NULL, *at = &points[0], *next = &points[1], *spare = &points[2];
    double arc_before = 0;
    bool stable = true;
    for (int k = 0; k < PATH_STEPS_MAX; k++) {
        double arc = arc_of_step(problem, at, step), correction = 1;
        predict(problem, before, arc_before, at, arc, next);
        bool found = correct(problem, walk, false, next, &correction) && same_branch(at, next);
        bool doubtful = found && at->lambda < 0 && next->lambda < 0 && peak_in_doubt(at, next, arc);
        bool crossed = found && at->lambda < 0 && next->lambda >= 0;
        if (crossed && root_between(problem, at, next, arc, ret))
            return film_taken(problem, ret->y) > FILM_TAKEN_MOST ? FILM_WITHOUT_LIMIT : FILM_BOUNDED;
        if (!found || doubtful || (crossed && step > 1e-3)) {
            step *= 0.4;
            if (step < step_least)
                return FILM_FAILED;
            continue;
        }
        if (next->taken > FILM_TAKEN_MOST)
            return FILM_WITHOUT_LIMIT;
        stable = stable && next->negative == 0 && next->lambda < 0;
        if (stable && next->taken <= taken_way_most)
            keep_way(problem, next, state);
        step = next_step(walk, step, correction, next->taken);
        struct film_point *free_again = before ? before : spare;
        before = at;
        at = next;
        next = free_again;
        arc_before = arc;
    }
    return FILM_FAILED;
}

enum film_outcome film_path_from_dry(struct film_problem *problem, const struct film_walk *walk,
                                     struct film_state *state, struct film_root *ret) {
    struct film_point points[3];
    state->has_way = false;
    if (!first_point(problem, &points[0]))
        return FILM_FAILED;
    return walk_on(problem, walk, walk->step_first, points, state, ret);
}

double film_taken(const struct film_problem *problem, const double *y) {
    double taken = 0;
    for (size_t i = 0; i < problem->count; i++)
        taken += exp(y[i]) * problem->film->volume[problem->index[i]];
    return taken;
}

static void start_back(const struct film_problem *problem, const struct film_root *root, struct film_point *ret) {
    double square = 1;
    for (size_t i = 0; i < problem->count; i++)
        square += root->rise[i] * root->rise[i];
    double inverse = -1 / sqrt(square);
    ret->lambda = 0;
    ret->tangent_lambda = inverse;
    ret->taken = film_taken(problem, root->y);
    ret->coupling = root->coupling;
    for (size_t i = 0; i < problem->count; i++) {
        ret->y[i] = root->y[i];
        ret->tangent[i] = root->rise[i] * inverse;
    }
}

// Whether the stable branch leads from points[0], in the direction of its tangent, to where stability is sure, lambda
// falling all the way.
static bool leads_to_dry(struct film_problem *problem, struct film_point points[3]) {
    struct film_point *before = NULL, *at = &points[0], *next = &points[1], *spare = &points[2];
    double step = walk_back.step_first, arc_before = 0;
    for (int k = 0; k < BACK_STEPS_MAX && at->coupling > coupling_surely_stable; k++) {
        double arc = arc_of_step(problem, at, step), correction = 1;
        predict(problem, before, arc_before, at, arc, next);
        if (!correct(problem, &walk_back, true, next, &correction)) {
            step *= 0.4;
            continue;
        }
        if (!(next->tangent_lambda < 0))
            return false;
        step = next_step(&walk_back, step, correction, next->taken);
        struct film_point *free_again = before ? before : spare;
        before = at;
        at = next;
        next = free_again;
        arc_before = arc;
    }
    return at->coupling <= coupling_surely_stable;
}

bool film_path_to_dry(struct film_problem *problem, const struct film_root *root) {
    struct film_point points[3];
    start_back(problem, root, &points[0]);
    return leads_to_dry(problem, points);
}

// A neighbour's point may be far off.
static const struct film_walk walk_beside = {.correction_most = 1.0, .correction_enough = 0.01};

// False when the neighbour's film has other components, or the film beside its point is none.
static bool point_beside(struct film_problem *problem, const struct film_state *state, struct film_point *ret) {
    double first = 0, equal = 1 / sqrt((double)problem->count + 1);
    size_t there = 0;
    for (size_t i = 0; i < problem->film->count; i++)
        there += state->way[i] > -INFINITY;
    if (there != problem->count)
        return false;
    for (size_t i = 0; i < problem->count; i++) {
        ret->y[i] = state->way[problem->index[i]];
        ret->tangent[i] = equal;
        if (!(ret->y[i] > -INFINITY))
            return false;
    }
    ret->tangent_lambda = equal;
    ret->lambda = state->way_lambda;
    return correct(problem, &walk_beside, true, ret, &first) && ret->lambda < 0 && ret->tangent_lambda > 0;
}

enum film_outcome film_path_from_way(struct film_problem *problem, struct film_state *state, struct film_root *ret) {
    struct film_point start, points[3];
    if (!state->has_way || !point_beside(problem, state, &start))
        return FILM_FAILED;
    points[0] = start;
    for (size_t i = 0; i < problem->count; i++)
        points[0].tangent[i] *= -1;
    points[0].tangent_lambda *= -1;
    if (!leads_to_dry(problem, points))
        return FILM_FAILED;
    points[0] = start;
    return walk_on(problem, &film_walk_usual, film_walk_usual.step_most, points, state, ret);
}
