// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_margin.h"

#include "base/memory.h"
#include "base/units.h"
#include "physics/film_shift.h"

#include <assert.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <string.h>

// --- the set of components, as chi of each over the prior ---

enum { DRAWS = 256, REACH = 3 }; // of the prior; how many standard deviations the table covers

struct tabling {
    const struct belief_item *item;
    struct film film;
    const double *ln_activity;
    size_t count;                      // components
    size_t turn[BLEND_COMPONENTS_MAX]; // components, those of the axes first
    struct hansen places[BLEND_COMPONENTS_MAX];
    double weights[BLEND_COMPONENTS_MAX];
    double chi[DRAWS][BLEND_COMPONENTS_MAX]; // in the order of turn
    // Components beyond the axes: constant, then factors of chi of those of the axes.
    double follow[BLEND_COMPONENTS_MAX][FORM_AXES_MAX + 1];
};

static double chi_at(double entropic, double weight, struct hansen place, const double *parameters) {
    struct hansen centre = {parameters[BELIEF_DELTA_D], parameters[BELIEF_DELTA_P], parameters[BELIEF_DELTA_H]};
    return entropic + parameters[BELIEF_STRENGTH] + weight * hansen_exchange_energy(place, centre);
}

// Draws reach further than the prior so that the table does.
static void draw_chi(struct tabling *tabling, gsl_rng *rng) {
    for (size_t k = 0; k < DRAWS; k++) {
        double z[BELIEF_PARAMETERS], parameters[BELIEF_PARAMETERS], square = 0;
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
            z[i] = gsl_ran_gaussian_ziggurat(rng, 1), square += z[i] * z[i];
        double scale = (k % 2 ? REACH : 1.5) / sqrt(square);
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
            z[i] *= scale;
        belief_parameters(tabling->item, z, parameters);
        for (size_t i = 0; i < tabling->count; i++)
            tabling->chi[k][i] =
                chi_at(tabling->item->film.chi_entropic, tabling->weights[i], tabling->places[i], parameters);
    }
}

// The largest shares by volume; of these the one with the least chi first: it carries the film.
static void choose_axes(struct tabling *tabling, const double *volume_fractions, size_t axes) {
    for (size_t i = 0; i < tabling->count; i++)
        tabling->turn[i] = i;
    for (size_t i = 0; i < axes; i++)
        for (size_t j = i + 1; j < tabling->count; j++)
            if (volume_fractions[tabling->turn[j]] > volume_fractions[tabling->turn[i]]) {
                size_t other = tabling->turn[i];
                tabling->turn[i] = tabling->turn[j], tabling->turn[j] = other;
            }
    for (size_t j = 1; j < axes; j++)
        if (tabling->film.chi[tabling->turn[j]] < tabling->film.chi[tabling->turn[0]]) {
            size_t other = tabling->turn[0];
            tabling->turn[0] = tabling->turn[j], tabling->turn[j] = other;
        }
}

// Least squares by the normal equations: four unknowns at most, well conditioned after a small ridge.
static void fit_followers(struct tabling *tabling, size_t axes) {
    for (size_t m = axes; m < tabling->count; m++) {
        double matrix[(FORM_AXES_MAX + 1) * (FORM_AXES_MAX + 1)] = {0}, right[FORM_AXES_MAX + 1] = {0};
        size_t size = axes + 1;
        for (size_t k = 0; k < DRAWS; k++) {
            double row[FORM_AXES_MAX + 1] = {1};
            memcpy(row + 1, tabling->chi[k], axes * sizeof *row);
            for (size_t i = 0; i < size; i++) {
                right[i] += row[i] * tabling->chi[k][m];
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
        memcpy(tabling->follow[m], right, size * sizeof *right);
    }
}

// --- the table ---

static const double first_step = 0.05; // below the unevenness, so that the average over it is one over the nodes
enum { FIRST_MOST = 200, PADDING = 7 };
static const size_t further_nodes[FORM_AXES_MAX + 1] = {0, 0, 31, 12};

static void set_axes(const struct tabling *tabling, struct belief_form *form) {
    for (size_t i = 0; i < form->axes; i++) {
        double least = INFINITY, most = -INFINITY;
        for (size_t k = 0; k < DRAWS; k++) {
            double value = tabling->chi[k][i] - (i ? tabling->chi[k][0] : 0);
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

// ln of the swelling at chi of the components of the axes; *ret_dissolves when it has no limit.
static double ln_swelling(const struct tabling *tabling, size_t axes, const double *chi, struct film_state *state,
                          bool *ret_dissolves) {
    double all[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < tabling->count; i++) {
        double value = i < axes ? chi[i] : tabling->follow[i][0];
        for (size_t j = 0; i >= axes && j < axes; j++)
            value += tabling->follow[i][j + 1] * chi[j];
        all[tabling->turn[i]] = value;
    }
    struct film film = tabling->film;
    struct film_result result;
    film_set_chi(&film, all);
    film_of_activities(&film, tabling->ln_activity, state, &result);
    *ret_dissolves = result.outcome != FILM_BOUNDED;
    double swelling = *ret_dissolves ? BELIEF_SWELLING_MOST : result.swelling;
    return log(fmin(fmax(swelling, BELIEF_SWELLING_LEAST), BELIEF_SWELLING_MOST));
}

// One row along the first axis: the swelling at its nodes and PADDING beyond.
struct row {
    const struct tabling *tabling;
    const struct belief_form *form;
    const double *beyond;
    double raw[FIRST_MOST + 2 * PADDING];
    size_t count;
};

static double row_swelling(const struct row *row, double node, struct film_state *state, bool *ret_dissolves) {
    const struct belief_axis *axis = &row->form->axis[0];
    double chi[FORM_AXES_MAX] = {axis->first + axis->step * (node - PADDING)};
    for (size_t j = 1; j < row->form->axes; j++)
        chi[j] = chi[0] + row->beyond[j];
    return ln_swelling(row->tabling, row->form->axes, chi, state, ret_dissolves);
}

// Between a node that dissolves and the next that doesn't: where, as a share of the way.
static double find_edge(const struct row *row, size_t node, struct film_state *state) {
    double low = 0, high = 1;
    for (int i = 0; i < 5; i++) {
        bool dissolves;
        double middle = 0.5 * (low + high);
        row_swelling(row, (double)node + middle, state, &dissolves);
        *(dissolves ? &low : &high) = middle;
    }
    return 0.5 * (low + high);
}

// From the least swollen to the most. The node before an edge also stands for the part of its cell up to it: the sum
// over the nodes then is the integral.
static void fill_raw(struct row *row) {
    struct film_state state = {.known = false};
    bool beyond_edge = false;
    for (size_t i = row->count; i-- > 0;) {
        bool dissolves;
        row->raw[i] = row_swelling(row, (double)i, &state, &dissolves);
        if (dissolves && !beyond_edge && i + 1 < row->count)
            row->raw[i] += (find_edge(row, i, &state) - 0.5) * (row->raw[i] - row->raw[i + 1]);
        beyond_edge = dissolves;
    }
}

// Averaged over the unevenness.
static void fill_row(const struct tabling *tabling, const struct belief_form *form, const double *beyond, double *ret) {
    const struct belief_axis *axis = &form->axis[0];
    struct row row = {.tabling = tabling, .form = form, .beyond = beyond, .count = axis->count + 2 * PADDING};
    double kernel[2 * PADDING + 1], sum = 0;
    fill_raw(&row);
    for (int i = 0; i <= 2 * PADDING; i++) {
        double at = (i - PADDING) * axis->step / BELIEF_UNEVEN_CHI;
        sum += kernel[i] = exp(-0.5 * at * at);
    }
    for (size_t i = 0; i < axis->count; i++) {
        ret[i] = 0;
        for (size_t k = 0; k <= 2 * PADDING; k++)
            ret[i] += kernel[k] / sum * row.raw[i + k];
    }
}

static enum status fill_table(const struct tabling *tabling, struct belief_form *form, struct error *err) {
    size_t rows = 1;
    for (size_t i = 1; i < form->axes; i++)
        rows *= form->axis[i].count;
    form->table = memory_new(rows * form->axis[0].count, sizeof *form->table);
    if (!form->table)
        return error_set(err, STATUS_MEMORY, "out of memory for a blend");
    for (size_t r = 0; r < rows; r++) {
        double beyond[FORM_AXES_MAX] = {0};
        size_t rest = r;
        for (size_t i = 1; i < form->axes; i++) {
            beyond[i] = form->axis[i].first + form->axis[i].step * (double)(rest % form->axis[i].count);
            rest /= form->axis[i].count;
        }
        fill_row(tabling, form, beyond, form->table + r * form->axis[0].count);
    }
    return STATUS_OK;
}

static enum status prepare(const struct belief_item *item, const struct activity_model *activity,
                           const double *ln_activity, const double *volume_fractions, struct tabling *tabling,
                           struct belief_form *form, struct error *err) {
    *tabling = (struct tabling){.item = item, .ln_activity = ln_activity, .count = activity->count};
    enum status status = film_prepare(&item->film, activity, &tabling->film, err);
    if (status != STATUS_OK)
        return status;
    form->axes = activity->count < FORM_AXES_MAX ? activity->count : FORM_AXES_MAX;
    choose_axes(tabling, volume_fractions, form->axes);
    for (size_t i = 0; i < tabling->count; i++) {
        tabling->places[i] = hansen_of_component(activity->components[tabling->turn[i]]);
        tabling->weights[i] =
            item->film.alpha * tabling->film.volume[tabling->turn[i]] / (GAS_CONSTANT * activity->temp_k);
    }
    memcpy(form->places, tabling->places, form->axes * sizeof *form->places);
    memcpy(form->weights, tabling->weights, form->axes * sizeof *form->weights);
    return STATUS_OK;
}

enum status belief_form_make(const struct belief_item *item, const struct activity_model *activity,
                             const double *ln_activity, const double *volume_fractions, struct belief_form *ret,
                             struct error *err) {
    struct belief_form form = {0};
    struct tabling *tabling = memory_new(1, sizeof *tabling);
    gsl_rng *rng = belief_generator(1, 0);
    if (!tabling || !rng) {
        memory_free(tabling);
        belief_generator_release(rng);
        return error_set(err, STATUS_MEMORY, "out of memory for a blend");
    }
    enum status status = prepare(item, activity, ln_activity, volume_fractions, tabling, &form, err);
    if (status == STATUS_OK) {
        draw_chi(tabling, rng);
        fit_followers(tabling, form.axes);
        set_axes(tabling, &form);
        status = fill_table(tabling, &form, err);
    }
    memory_free(tabling);
    belief_generator_release(rng);
    if (status == STATUS_OK)
        *ret = form;
    return status;
}

// --- asking ---

// The cell that holds a value, and how far into it; the ends go on flat.
static size_t cell_of(const struct belief_axis *axis, double value, double *ret_share) {
    double at = (value - axis->first) / axis->step;
    if (axis->count < 2 || !(at > 0)) {
        *ret_share = 0;
        return 0;
    }
    size_t cell = at >= (double)(axis->count - 1) ? axis->count - 2 : (size_t)at;
    *ret_share = fmin(at - (double)cell, 1);
    return cell;
}

// Linear in every axis.
static double look_up(const struct belief_form *form, const double *values) {
    double share[FORM_AXES_MAX], result = 0;
    size_t cell[FORM_AXES_MAX];
    for (size_t i = 0; i < form->axes; i++)
        cell[i] = cell_of(&form->axis[i], values[i], &share[i]);
    for (size_t corner = 0; corner < (size_t)1 << form->axes; corner++) {
        double weight = 1;
        size_t at = 0, stride = 1;
        for (size_t i = 0; i < form->axes; i++) {
            size_t up = corner >> i & 1;
            weight *= up ? share[i] : 1 - share[i];
            at += stride * (cell[i] + up);
            stride *= form->axis[i].count;
        }
        if (weight > 0)
            result += weight * form->table[at];
    }
    return result;
}

static double film_margin(const struct belief_item *item, const struct belief_form *form, const double *parameters) {
    double values[FORM_AXES_MAX];
    for (size_t i = 0; i < form->axes; i++)
        values[i] =
            chi_at(item->film.chi_entropic, form->weights[i], form->places[i], parameters) - (i ? values[0] : 0);
    return look_up(form, values);
}

double belief_margin(const struct belief_plan *plan, const struct belief_liquid *liquid, size_t item,
                     const double parameters[BELIEF_PARAMETERS]) {
    if (plan->view == BELIEF_FILM)
        return film_margin(&plan->items[item], &liquid->forms[item], parameters);
    struct hansen centre = {parameters[BELIEF_DELTA_D], parameters[BELIEF_DELTA_P], parameters[BELIEF_DELTA_H]};
    return parameters[BELIEF_STRENGTH] - log(fmax(hansen_distance(liquid->place, centre), 0.1));
}

// --- a liquid ---

static enum status make_forms(const struct belief_plan *plan, const struct blend *blend, struct belief_liquid *liquid,
                              struct activity_model *activity, struct error *err) {
    double x[BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    enum status status = activity_prepare_blend(plan->given.table, blend, plan->given.temp_k, activity, err);
    if (status == STATUS_OK && !activity_covers(activity))
        status = error_set(err, STATUS_NO_DATA, "no activity model covers the blend: %s", activity->coverage.sentence);
    if (status == STATUS_OK)
        status = blend_mole_fractions(blend, x, err);
    if (status != STATUS_OK)
        return status;
    film_liquid_activities(activity, x, ln_activity);
    for (size_t i = 0; i < plan->count && status == STATUS_OK; i++) {
        status =
            belief_form_make(&plan->items[i], activity, ln_activity, blend->volume_fractions, &liquid->forms[i], err);
        liquid->item_count += status == STATUS_OK;
    }
    return status;
}

enum status belief_liquid_make(const struct belief_plan *plan, const struct blend *blend, struct belief_liquid **ret,
                               struct error *err) {
    struct belief_liquid *liquid = memory_new(1, sizeof *liquid);
    struct activity_model *activity = memory_new(1, sizeof *activity);
    enum status status = liquid && activity ? hansen_of_blend(blend, &liquid->place, err)
                                            : error_set(err, STATUS_MEMORY, "out of memory for a blend");
    if (status == STATUS_OK) {
        liquid->plan = plan;
        if (plan->view == BELIEF_FILM)
            status = make_forms(plan, blend, liquid, activity, err);
    }
    memory_free(activity);
    if (status == STATUS_OK)
        *ret = liquid;
    else
        belief_liquid_release(liquid);
    return status;
}

void belief_liquid_release(struct belief_liquid *liquid) {
    if (!liquid)
        return;
    for (size_t i = 0; i < liquid->item_count; i++)
        memory_free(liquid->forms[i].table);
    memory_free(liquid);
}
