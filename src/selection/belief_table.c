// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_table.h"

#include "base/memory.h"
#include "base/units.h"
#include "physics/film_shift.h"
#include "selection/belief_margin.h"

#include <assert.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

enum { PADDING = 7 }; // nodes beyond either end of a row that its averages take in

// One row along the first axis: filled from the least swollen node to the most, as far down as it was asked for.
struct row {
    size_t known_from;       // nodes from here on are known
    struct film_state state; // of the node before
    bool dissolves;          // the node before
};

// What stays with a table to fill it.
struct belief_filling {
    struct film film;
    const double *ln_activity;
    size_t count;                      // components
    size_t turn[BLEND_COMPONENTS_MAX]; // components, those of the axes first
    // Components beyond the axes: constant, then factors of chi of those of the axes.
    double follow[BLEND_COMPONENTS_MAX][FORM_AXES_MAX + 1];
    double kernel[2 * PADDING + 1]; // weights of the unevenness, sum 1
    struct row *rows;
    double *raw; // ln swelling, not averaged: rows with PADDING more nodes at both ends
};

// --- the set of components, as chi of each over the prior ---

enum { DRAWS = 256, REACH = 3 }; // of the prior; how many standard deviations the table covers

// In the order of the filling's turn.
struct draws {
    const struct belief_item *item;
    struct hansen places[BLEND_COMPONENTS_MAX];
    double weights[BLEND_COMPONENTS_MAX];
    double chi[DRAWS][BLEND_COMPONENTS_MAX];
};

// Draws reach further than the prior so that the table does.
static void draw_chi(struct draws *draws, size_t count, gsl_rng *rng) {
    for (size_t k = 0; k < DRAWS; k++) {
        double z[BELIEF_PARAMETERS], parameters[BELIEF_PARAMETERS], square = 0;
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
            z[i] = gsl_ran_gaussian_ziggurat(rng, 1), square += z[i] * z[i];
        double scale = (k % 2 ? REACH : 1.5) / sqrt(square);
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
            z[i] *= scale;
        belief_parameters(draws->item, z, parameters);
        for (size_t i = 0; i < count; i++)
            draws->chi[k][i] =
                belief_chi(draws->item->film.chi_entropic, draws->weights[i], draws->places[i], parameters);
    }
}

// The largest shares by volume; of these the one with the least chi first: it carries the film.
static void choose_axes(struct belief_filling *filling, const double *volume_fractions, size_t axes) {
    size_t *turn = filling->turn;
    for (size_t i = 0; i < filling->count; i++)
        turn[i] = i;
    for (size_t i = 0; i < axes; i++)
        for (size_t j = i + 1; j < filling->count; j++)
            if (volume_fractions[turn[j]] > volume_fractions[turn[i]]) {
                size_t other = turn[i];
                turn[i] = turn[j], turn[j] = other;
            }
    for (size_t j = 1; j < axes; j++)
        if (filling->film.chi[turn[j]] < filling->film.chi[turn[0]]) {
            size_t other = turn[0];
            turn[0] = turn[j], turn[j] = other;
        }
}

// Least squares by the normal equations: four unknowns at most, well conditioned after a small ridge.
static void fit_followers(struct belief_filling *filling, const struct draws *draws, size_t axes) {
    for (size_t m = axes; m < filling->count; m++) {
        double matrix[(FORM_AXES_MAX + 1) * (FORM_AXES_MAX + 1)] = {0}, right[FORM_AXES_MAX + 1] = {0};
        size_t size = axes + 1;
        for (size_t k = 0; k < DRAWS; k++) {
            double row[FORM_AXES_MAX + 1] = {1};
            memcpy(row + 1, draws->chi[k], axes * sizeof *row);
            for (size_t i = 0; i < size; i++) {
                right[i] += row[i] * draws->chi[k][m];
                for (size_t j = 0; j < size; j++)
                    matrix[i * size + j] += row[i] * row[j];
            }
        }
        for (size_t i = 0; i < size; i++)
            matrix[i * size + i] += 1e-9 * DRAWS;
        gsl_matrix_view a = gsl_matrix_view_array(matrix, size, size);
        gsl_vector_view b = gsl_vector_view_array(right, size);
        gsl_linalg_cholesky_decomp1(&a.matrix);
        gsl_linalg_cholesky_svx(&a.matrix, &b.vector);
        memcpy(filling->follow[m], right, size * sizeof *right);
    }
}

// --- the axes ---

static const double first_step = 0.05; // below the unevenness, so that the average over it is one over the nodes
enum { FIRST_MOST = 200 };
static const size_t further_nodes[FORM_AXES_MAX + 1] = {0, 0, 31, 12};

static void set_axes(const struct draws *draws, struct belief_form *form) {
    for (size_t i = 0; i < form->axes; i++) {
        double least = INFINITY, most = -INFINITY;
        for (size_t k = 0; k < DRAWS; k++) {
            double value = draws->chi[k][i] - (i ? draws->chi[k][0] : 0);
            least = fmin(least, value), most = fmax(most, value);
        }
        struct belief_axis *axis = &form->axis[i];
        axis->first = least;
        axis->count = i ? further_nodes[form->axes] : (size_t)((most - least) / first_step) + 2;
        axis->step = i ? fmax((most - least) / (double)(axis->count - 1), 1e-6) : first_step;
        if (i == 0 && axis->count > FIRST_MOST) {
            axis->count = FIRST_MOST;
            axis->step = (most - least) / (FIRST_MOST - 1);
        }
    }
}

static void set_kernel(struct belief_filling *filling, double step) {
    double sum = 0;
    for (int i = 0; i <= 2 * PADDING; i++) {
        double at = (i - PADDING) * step / BELIEF_UNEVEN_CHI;
        sum += filling->kernel[i] = exp(-0.5 * at * at);
    }
    for (int i = 0; i <= 2 * PADDING; i++)
        filling->kernel[i] /= sum;
}

// --- the nodes ---

static size_t padded(const struct belief_form *form) {
    return form->axis[0].count + 2 * PADDING;
}

// ln of the swelling at chi of the components of the axes; *ret_dissolves when it has no limit.
static double ln_swelling(const struct belief_filling *filling, size_t axes, const double *chi,
                          struct film_state *state, bool *ret_dissolves) {
    double all[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < filling->count; i++) {
        double value = i < axes ? chi[i] : filling->follow[i][0];
        for (size_t j = 0; i >= axes && j < axes; j++)
            value += filling->follow[i][j + 1] * chi[j];
        all[filling->turn[i]] = value;
    }
    struct film film = filling->film;
    struct film_result result;
    film_set_chi(&film, all);
    film_of_activities(&film, filling->ln_activity, state, &result);
    *ret_dissolves = result.outcome != FILM_BOUNDED;
    double swelling = *ret_dissolves ? BELIEF_SWELLING_MOST : result.swelling;
    return log(fmin(fmax(swelling, BELIEF_SWELLING_LEAST), BELIEF_SWELLING_MOST));
}

static double row_swelling(const struct belief_form *form, size_t row, double node, bool *ret_dissolves) {
    const struct belief_axis *axis = form->axis;
    double chi[FORM_AXES_MAX] = {axis[0].first + axis[0].step * (node - PADDING)};
    size_t rest = row;
    for (size_t j = 1; j < form->axes; j++) {
        double beyond = axis[j].first + axis[j].step * (double)(rest % axis[j].count);
        chi[j] = chi[0] + beyond;
        rest /= axis[j].count;
    }
    return ln_swelling(form->filling, form->axes, chi, &form->filling->rows[row].state, ret_dissolves);
}

// Between a node that dissolves and the next that doesn't: where, as a share of the way.
static double find_edge(const struct belief_form *form, size_t row, size_t node) {
    double low = 0, high = 1;
    for (int i = 0; i < 5; i++) {
        bool dissolves;
        double middle = 0.5 * (low + high);
        row_swelling(form, row, (double)node + middle, &dissolves);
        *(dissolves ? &low : &high) = middle;
    }
    return 0.5 * (low + high);
}

// From the least swollen to the most. The node before an edge also stands for the part of its cell up to it: the sum
// over the nodes then is the integral.
static void fill_raw_down_to(const struct belief_form *form, size_t number, size_t last) {
    struct row *row = &form->filling->rows[number];
    double *raw = form->filling->raw + number * padded(form);
    while (row->known_from > last) {
        bool dissolves;
        size_t i = --row->known_from;
        raw[i] = row_swelling(form, number, (double)i, &dissolves);
        if (dissolves && !row->dissolves && i + 1 < padded(form))
            raw[i] += (find_edge(form, number, i) - 0.5) * (raw[i] - raw[i + 1]);
        row->dissolves = dissolves;
    }
}

double belief_table_at(const struct belief_form *form, size_t row, size_t node) {
    double *value = &form->table[row * form->axis[0].count + node];
    if (!isnan(*value))
        return *value;
    const double *raw = form->filling->raw + row * padded(form) + node;
    fill_raw_down_to(form, row, node);
    *value = 0;
    for (size_t k = 0; k <= 2 * PADDING; k++)
        *value += form->filling->kernel[k] * raw[k];
    return *value;
}

// --- making and releasing ---

static enum status make_room(struct belief_form *form, struct error *err) {
    size_t rows = 1;
    for (size_t i = 1; i < form->axes; i++)
        rows *= form->axis[i].count;
    form->table = memory_new(rows * form->axis[0].count, sizeof *form->table);
    form->filling->rows = memory_new(rows, sizeof *form->filling->rows);
    form->filling->raw = memory_new(rows * padded(form), sizeof *form->filling->raw);
    if (!form->table || !form->filling->rows || !form->filling->raw)
        return error_set(err, STATUS_MEMORY, "out of memory for a blend");
    for (size_t i = 0; i < rows * form->axis[0].count; i++)
        form->table[i] = NAN;
    for (size_t r = 0; r < rows; r++)
        form->filling->rows[r].known_from = padded(form);
    return STATUS_OK;
}

static enum status prepare(const struct belief_item *item, const struct activity_model *activity,
                           const double *ln_activity, const double *volume_fractions, struct draws *draws,
                           struct belief_form *form, struct error *err) {
    struct belief_filling *filling = form->filling;
    draws->item = item;
    filling->ln_activity = ln_activity;
    filling->count = activity->count;
    enum status status = film_prepare(&item->film, activity, &filling->film, err);
    if (status != STATUS_OK)
        return status;
    form->axes = activity->count < FORM_AXES_MAX ? activity->count : FORM_AXES_MAX;
    choose_axes(filling, volume_fractions, form->axes);
    for (size_t i = 0; i < filling->count; i++) {
        draws->places[i] = hansen_of_component(activity->components[filling->turn[i]]);
        draws->weights[i] =
            item->film.alpha * filling->film.volume[filling->turn[i]] / (GAS_CONSTANT * activity->temp_k);
    }
    memcpy(form->places, draws->places, form->axes * sizeof *form->places);
    memcpy(form->weights, draws->weights, form->axes * sizeof *form->weights);
    return STATUS_OK;
}

enum status belief_form_make(const struct belief_item *item, const struct activity_model *activity,
                             const double *ln_activity, const double *volume_fractions, struct belief_form *ret,
                             struct error *err) {
    struct belief_form form = {.filling = memory_new(1, sizeof *form.filling)};
    struct draws *draws = memory_new(1, sizeof *draws);
    gsl_rng *rng = belief_generator(1, 0);
    enum status status = form.filling && draws && rng
                             ? prepare(item, activity, ln_activity, volume_fractions, draws, &form, err)
                             : error_set(err, STATUS_MEMORY, "out of memory for a blend");
    if (status == STATUS_OK) {
        draw_chi(draws, activity->count, rng);
        fit_followers(form.filling, draws, form.axes);
        set_axes(draws, &form);
        set_kernel(form.filling, form.axis[0].step);
        status = make_room(&form, err);
    }
    memory_free(draws);
    belief_generator_release(rng);
    if (status == STATUS_OK)
        *ret = form;
    else
        belief_form_release(&form);
    return status;
}

void belief_form_release(struct belief_form *form) {
    if (form->filling) {
        memory_free(form->filling->rows);
        memory_free(form->filling->raw);
    }
    memory_free(form->filling);
    memory_free(form->table);
}

double belief_chi(double entropic, double weight, struct hansen place, const double *parameters) {
    struct hansen centre = {parameters[BELIEF_DELTA_D], parameters[BELIEF_DELTA_P], parameters[BELIEF_DELTA_H]};
    return entropic + parameters[BELIEF_STRENGTH] + weight * hansen_exchange_energy(place, centre);
}

void belief_parameters(const struct belief_item *item, const double *z, double ret[BELIEF_PARAMETERS]) {
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        ret[i] = item->mean[i] + item->sd[i] * z[i];
}
