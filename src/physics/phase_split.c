// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/phase_split.h"

#include "base/language.h"
#include "physics/dense.h"

#include <assert.h>
#include <math.h>
#include <string.h>

// Caps and tolerances.
static const struct {
    int substitutions;
    int newton_steps;
    int halvings;
    double converged;  // largest difference of ln a between the phases
    double acceptable; // the same, when no step gains any more
    double noise;      // of the gain: below it only the mismatch tells
    double same;       // largest difference of mole fractions of phases that are one
} limits = {.substitutions = 60,
            .newton_steps = 100,
            .halvings = 60,
            .converged = 1e-10,
            .acceptable = 1e-6,
            .noise = 1e-12,
            .same = 1e-7};

// Amounts in each phase, of one mole altogether. Both are kept, because a component that is nearly all in one phase
// has an amount in the other that a difference could not hold.
struct state {
    double n[2][BLEND_COMPONENTS_MAX];
    double ln_a[2][BLEND_COMPONENTS_MAX];
    double gain;     // Gibbs energy minus that of the one liquid, per RT: sum n_i (ln a_i - ln a_i(z)) over both
    double mismatch; // largest |ln a_i(0) - ln a_i(1)|
};

struct task {
    const struct activity_model *model;
    size_t count; // components present
    size_t places[BLEND_COMPONENTS_MAX];
    double z[BLEND_COMPONENTS_MAX];
    double ln_a[BLEND_COMPONENTS_MAX]; // of the one liquid
};

static double sum_of(const struct task *task, const double *n) {
    double sum = 0;
    for (size_t k = 0; k < task->count; k++)
        sum += n[task->places[k]];
    return sum;
}

static void evaluate(const struct task *task, struct state *state) {
    state->gain = 0;
    state->mismatch = 0;
    for (int phase = 0; phase < 2; phase++) {
        double ln_gamma[BLEND_COMPONENTS_MAX], total = sum_of(task, state->n[phase]);
        activity_ln_gamma(task->model, state->n[phase], ln_gamma);
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            state->ln_a[phase][i] = log(state->n[phase][i] / total) + ln_gamma[i];
            state->gain += state->n[phase][i] * (state->ln_a[phase][i] - task->ln_a[i]);
        }
    }
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        state->mismatch = fmax(state->mismatch, fabs(state->ln_a[1][i] - state->ln_a[0][i]));
    }
}

// --- successive substitution ---

// Share of phase 1 for distribution factors K_i = x_i(1)/x_i(0): root of sum z_i (K_i - 1)/(1 + b (K_i - 1)) (Rachford
// & Rice, J. Pet. Technol. 4 (1952) 19), which falls with b. False when there is none between 0 and 1.
static bool share_of_phase(const struct task *task, const double *factors, double *ret_share) {
    double low = 0, high = 1, share = 0.5;
    for (int end = 0; end < 2; end++) {
        double sum = 0;
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            sum += end == 0 ? task->z[i] * (factors[i] - 1) : task->z[i] * (1 - 1 / factors[i]);
        }
        if (end == 0 ? !(sum > 0) : !(sum < 0))
            return false;
    }
    for (int n = 0; n < 200 && high - low > 1e-16 * (share + 1e-300); n++) {
        double sum = 0, slope = 0;
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            double part = (factors[i] - 1) / (1 + share * (factors[i] - 1));
            sum += task->z[i] * part;
            slope -= task->z[i] * part * part;
        }
        if (sum > 0)
            low = share;
        else
            high = share;
        double next = share - sum / slope;
        next = next > low && next < high ? next : (low + high) / 2;
        if (next == share)
            break;
        share = next;
    }
    *ret_share = share;
    return share > 0 && share < 1;
}

static bool distribute(const struct task *task, const double *factors, struct state *ret) {
    double share = 0;
    if (!share_of_phase(task, factors, &share))
        return false;
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        double x = task->z[i] / (1 + share * (factors[i] - 1));
        ret->n[0][i] = (1 - share) * x;
        ret->n[1][i] = share * factors[i] * x;
        if (!(ret->n[0][i] > 0 && ret->n[1][i] > 0 && isfinite(ret->n[1][i])))
            return false;
    }
    return true;
}

// One substitution K_i = gamma_i(0)/gamma_i(1). False when the phases fall together.
static bool substitute(const struct task *task, const struct state *from, struct state *ret) {
    double factors[BLEND_COMPONENTS_MAX];
    double total[2] = {sum_of(task, from->n[0]), sum_of(task, from->n[1])};
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        double ln_gamma_0 = from->ln_a[0][i] - log(from->n[0][i] / total[0]);
        double ln_gamma_1 = from->ln_a[1][i] - log(from->n[1][i] / total[1]);
        factors[i] = exp(ln_gamma_0 - ln_gamma_1);
    }
    memset(ret, 0, sizeof *ret);
    if (!distribute(task, factors, ret))
        return false;
    evaluate(task, ret);
    return true;
}

static void substitute_while_it_helps(const struct task *task, struct state *state, int steps) {
    for (int n = 0; n < steps && state->mismatch > limits.converged; n++) {
        struct state next;
        if (!substitute(task, state, &next) || !(next.gain < 0))
            return;
        *state = next;
    }
}

// --- minimisation ---

static double scale_of(const struct task *task, const struct state *state, size_t i) {
    return sqrt(state->n[0][i]) * sqrt(state->n[1][i] / task->z[i]);
}

// Hessian of the Gibbs energy for moving n_i from phase 0 to phase 1, scaled so that ideal phases give unity:
// H_ij = s_i s_j sum over phases [delta_ij/n_i - 1/N + d ln gamma_i/d n_j], s_i^2 = n_i(0) n_i(1)/z_i.
static void transfer_matrix(const struct task *task, const struct state *state, double *ret) {
    size_t all = task->model->count;
    double derivatives[2][BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], ln_gamma[BLEND_COMPONENTS_MAX];
    double inverse_total = 0;
    for (int phase = 0; phase < 2; phase++) {
        activity_derivatives(task->model, state->n[phase], ln_gamma, derivatives[phase]);
        inverse_total += 1 / sum_of(task, state->n[phase]);
    }
    for (size_t k = 0; k < task->count; k++)
        for (size_t l = 0; l < task->count; l++) {
            size_t i = task->places[k], j = task->places[l];
            double both = derivatives[0][i * all + j] + derivatives[1][i * all + j] - inverse_total;
            ret[k * task->count + l] = (i == j ? 1 : 0) + scale_of(task, state, i) * scale_of(task, state, j) * both;
        }
}

// Moves `step` from phase 0 to phase 1; false when an amount would vanish.
static bool transfer(const struct task *task, const struct state *from, const double *step, double factor,
                     struct state *ret) {
    *ret = *from;
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        ret->n[0][i] -= factor * step[k];
        ret->n[1][i] += factor * step[k];
        if (!(ret->n[0][i] > 0 && ret->n[1][i] > 0))
            return false;
    }
    evaluate(task, ret);
    return true;
}

static bool line_search(const struct task *task, struct state *state, const double *step) {
    double factor = 1;
    for (int n = 0; n < limits.halvings; n++, factor /= 2) {
        struct state next;
        if (!transfer(task, state, step, factor, &next))
            continue;
        bool falls = next.gain < state->gain;
        bool settles = next.gain <= state->gain + limits.noise && next.mismatch < state->mismatch / 2;
        if (falls || settles) {
            *state = next;
            return true;
        }
    }
    return false;
}

// What must be added to the diagonal so that a step goes down: nothing, or twice what the smallest eigenvalue lacks.
// Near a critical point that is far less than any usual figure, and a larger one would creep.
static double enough_damping(const double *matrix, size_t count) {
    double copy[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    memcpy(copy, matrix, count * count * sizeof *copy);
    if (dense_factor(copy, count))
        return 0;
    memcpy(copy, matrix, count * count * sizeof *copy);
    return fmax(-2 * dense_least_eigenvalue(copy, count, NULL), 1e-14);
}

static bool newton_step(const struct task *task, struct state *state) {
    double full[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], right[BLEND_COMPONENTS_MAX];
    transfer_matrix(task, state, full);
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        right[k] = scale_of(task, state, i) * (state->ln_a[0][i] - state->ln_a[1][i]);
    }
    for (double damping = enough_damping(full, task->count); damping < 1e6; damping = fmax(10 * damping, 1e-4)) {
        double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], step[BLEND_COMPONENTS_MAX];
        memcpy(matrix, full, task->count * task->count * sizeof *matrix);
        for (size_t k = 0; k < task->count; k++)
            matrix[k * task->count + k] += damping;
        if (!dense_cholesky_solve(matrix, task->count, right, step))
            continue;
        for (size_t k = 0; k < task->count; k++)
            step[k] *= scale_of(task, state, task->places[k]);
        if (line_search(task, state, step))
            return true;
    }
    return false;
}

static enum stop_reason minimise(const struct task *task, struct state *state) {
    for (int n = 0; n < limits.newton_steps; n++) {
        if (state->mismatch <= limits.converged)
            return STOP_CONVERGED;
        if (!newton_step(task, state))
            return STOP_NO_DESCENT;
    }
    return STOP_ITERATIONS;
}

// --- from the test to the phases ---

static enum status begin(const struct activity_model *model, const double *z, struct task *ret, struct error *err) {
    double ln_gamma[BLEND_COMPONENTS_MAX];
    *ret = (struct task){.model = model};
    enum status status = stability_normalise(z, model->count, ret->z, err);
    if (status != STATUS_OK)
        return status;
    activity_ln_gamma(model, ret->z, ln_gamma);
    for (size_t i = 0; i < model->count; i++) {
        if (!(ret->z[i] > 0))
            continue;
        if (!(model->components[i]->molar_volume.value > 0))
            return error_set(err, STATUS_NO_DATA, "no molar volume known for %s", model->components[i]->id);
        ret->places[ret->count++] = i;
        ret->ln_a[i] = log(ret->z[i]) + ln_gamma[i];
    }
    return STATUS_OK;
}

// A small amount of the trial phase: because it lies below the tangent plane, some amount lowers the Gibbs energy.
static bool small_start(const struct task *task, const double *trial, struct state *ret) {
    double most = 1;
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        most = fmin(most, task->z[i] / fmax(trial[i], 1e-300));
    }
    for (double share = 0.5 * most; share > 1e-15 * most; share /= 2) {
        memset(ret, 0, sizeof *ret);
        bool positive = true;
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            ret->n[1][i] = fmax(share * trial[i], 1e-300);
            ret->n[0][i] = task->z[i] - ret->n[1][i];
            positive = positive && ret->n[0][i] > 0;
        }
        if (!positive)
            continue;
        evaluate(task, ret);
        if (ret->gain < 0)
            return true;
    }
    return false;
}

// Distribution between the liquid itself and the trial phase.
static bool balanced_start(const struct task *task, const double *trial, struct state *ret) {
    double factors[BLEND_COMPONENTS_MAX];
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        factors[i] = fmax(trial[i], 1e-300) / task->z[i];
    }
    memset(ret, 0, sizeof *ret);
    if (!distribute(task, factors, ret))
        return false;
    evaluate(task, ret);
    return ret->gain < 0;
}

static bool same_phases(const struct task *task, const struct state *state) {
    double most = 0, total[2] = {sum_of(task, state->n[0]), sum_of(task, state->n[1])};
    for (size_t k = 0; k < task->count; k++) {
        size_t i = task->places[k];
        most = fmax(most, fabs(state->n[0][i] / total[0] - state->n[1][i] / total[1]));
    }
    return most < limits.same;
}

static void report(const struct task *task, const struct state *state, enum stop_reason stop, struct phase_split *ret) {
    *ret = (struct phase_split){.mismatch = state->mismatch, .gain = state->gain, .stop = stop};
    double moles[2], volume[2] = {0, 0};
    for (int phase = 0; phase < 2; phase++) {
        moles[phase] = sum_of(task, state->n[phase]);
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            volume[phase] += state->n[phase][i] * task->model->components[i]->molar_volume.value;
        }
    }
    int larger = volume[1] > volume[0] ? 1 : 0;
    for (int place = 0; place < 2; place++) {
        int phase = place == 0 ? larger : 1 - larger;
        ret->mole_share[place] = moles[phase] / (moles[0] + moles[1]);
        ret->volume_share[place] = volume[phase] / (volume[0] + volume[1]);
        for (size_t k = 0; k < task->count; k++) {
            size_t i = task->places[k];
            ret->x[place][i] = state->n[phase][i] / moles[phase];
            ret->phi[place][i] = state->n[phase][i] * task->model->components[i]->molar_volume.value / volume[phase];
        }
    }
}

enum status phase_split_find(const struct activity_model *model, const double *z, const struct stability *tested,
                             struct phase_split *ret, struct error *err) {
    struct task task;
    struct state state;
    enum status status = begin(model, z, &task, err);
    if (status != STATUS_OK)
        return status;
    if (tested->stable || (!balanced_start(&task, tested->trial, &state) && !small_start(&task, tested->trial, &state)))
        return error_set(err, STATUS_NO_ROOT, "no second liquid phase: %s",
                         tested->stable ? say("the liquid is stable")
                                        : say("too near the boundary to tell two phases apart"));
    substitute_while_it_helps(&task, &state, limits.substitutions);
    enum stop_reason stop = minimise(&task, &state);
    if (stop != STOP_CONVERGED)
        substitute_while_it_helps(&task, &state, limits.substitutions);
    if (state.mismatch <= limits.converged)
        stop = STOP_CONVERGED;
    if (same_phases(&task, &state))
        return error_set(err, STATUS_NO_ROOT, "no second liquid phase: too near the boundary to tell two phases apart");
    if (state.mismatch > limits.acceptable)
        return error_set(err, STATUS_ITERATIONS, "the two liquid phases were not found: the solver %s",
                         stop_reason_words(stop));
    report(&task, &state, stop, ret);
    return STATUS_OK;
}
