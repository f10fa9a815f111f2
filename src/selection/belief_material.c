// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_material.h"

#include "selection/belief_parts.h"

#include <gsl/gsl_statistics.h>
#include <math.h>

// Rows of the draws; a logarithm of the radius becomes the radius. NULL when memory ran out.
static double *rows_of(struct arena *arena, const struct belief *belief, size_t number) {
    size_t count = belief_particles(belief);
    double *rows = arena_new(arena, count * MATERIAL_DRAW, sizeof *rows);
    for (size_t i = 0; rows && i < count; i++) {
        double *row = rows + i * MATERIAL_DRAW;
        belief_particle(belief, number, i, row);
        row[BELIEF_STRENGTH] =
            belief->plan->view == BELIEF_RED ? exp(row[BELIEF_STRENGTH]) : fmin(fmax(row[BELIEF_STRENGTH], -2), 2);
    }
    return rows;
}

static double mean_of(const double *rows, size_t count, size_t parameter) {
    return gsl_stats_mean(rows + parameter, MATERIAL_DRAW, count);
}

static void set_film(struct film_values *film, const double *rows, size_t count) {
    film->delta_d = mean_of(rows, count, BELIEF_DELTA_D);
    film->delta_p = mean_of(rows, count, BELIEF_DELTA_P);
    film->delta_h = mean_of(rows, count, BELIEF_DELTA_H);
    film->chi_shift = mean_of(rows, count, BELIEF_STRENGTH);
    film->network_least = film->network_most = film->network_mol_m3;
    film->molar_volume_least = film->molar_volume_most = film->molar_volume_cm3_mol;
    film->anchor_fails = film->anchor_dissolves = (struct record_list){0};
    film->calibrations = (struct number_list){0};
}

static void set_sphere(struct sphere_values *sphere, const double *rows, size_t count) {
    sphere->delta_d = mean_of(rows, count, BELIEF_DELTA_D);
    sphere->delta_p = mean_of(rows, count, BELIEF_DELTA_P);
    sphere->delta_h = mean_of(rows, count, BELIEF_DELTA_H);
    sphere->r0 = mean_of(rows, count, BELIEF_STRENGTH);
}

enum status belief_material_learnt(struct arena *arena, const struct belief *film, const struct belief *red,
                                   size_t number, const struct material **ret, struct error *err) {
    struct material *material = arena_new(arena, 1, sizeof *material);
    struct material_draws *draws = arena_new(arena, 1, sizeof *draws);
    if (!material || !draws)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const struct belief *any = film ? film : red;
    *material = *belief_material(any->plan, number);
    *draws = (struct material_draws){.count = belief_particles(any),
                                     .film = film ? rows_of(arena, film, number) : NULL,
                                     .red = red ? rows_of(arena, red, number) : NULL};
    if ((film && !draws->film) || (red && !draws->red))
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (film)
        set_film(&material->film_model, draws->film, draws->count);
    if (red)
        set_sphere(&material->sphere, draws->red, draws->count);
    material->learnt = draws;
    *ret = material;
    return STATUS_OK;
}
