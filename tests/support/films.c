// SPDX-License-Identifier: GPL-3.0-or-later
#include "films.h"

#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { RANKED_MAX = 128 };

void films_open(struct films *films) {
    tables_open_unifac(&films->lib, TABLE_REFERENCES | TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS,
                       &films->table);
}

void films_release(struct films *films) {
    tables_close_unifac(&films->lib, &films->table);
}

void films_liquid(struct films *films, const char *notation, struct films_liquid *ret) {
    struct error err = {0};
    ret->blend = tables_blend(&films->lib, notation);
    stop_unless(blend_mole_fractions(&ret->blend, ret->x, &err), &err);
    stop_unless(activity_prepare_blend(&films->table, &ret->blend, FILMS_TEMP_K, &ret->activity, &err), &err);
    film_liquid_activities(&ret->activity, ret->x, ret->ln_activity);
}

struct film_parameters films_parameters(struct films *films, const char *material) {
    struct error err = {0};
    struct film_parameters parameters = {0};
    stop_unless(film_parameters_of_material(tables_material(&films->lib, material), &parameters, &err), &err);
    return parameters;
}

struct film films_prepare(const struct film_parameters *parameters, const struct films_liquid *liquid) {
    struct error err = {0};
    struct film film = {0};
    stop_unless(film_prepare(parameters, &liquid->activity, &film, &err), &err);
    return film;
}

struct film_result films_solve(struct films *films, const struct film_parameters *parameters, const char *notation) {
    static struct films_liquid liquid;
    films_liquid(films, notation, &liquid);
    struct film film = films_prepare(parameters, &liquid);
    struct film_result result;
    film_of_liquid(&film, liquid.x, NULL, &result);
    return result;
}

void films_ranks(const double *values, size_t count, double *ret_ranks) {
    for (size_t i = 0; i < count; i++) {
        double below = 0, same = 0;
        for (size_t j = 0; j < count; j++) {
            below += values[j] < values[i];
            same += values[j] == values[i];
        }
        ret_ranks[i] = below + (same + 1) / 2;
    }
}

double films_spearman(const double *a, const double *b, size_t count) {
    double ra[RANKED_MAX], rb[RANKED_MAX], aa = 0, bb = 0, ab = 0;
    double mean = ((double)count + 1) / 2;
    if (count > RANKED_MAX)
        exit(2);
    films_ranks(a, count, ra);
    films_ranks(b, count, rb);
    for (size_t i = 0; i < count; i++) {
        aa += (ra[i] - mean) * (ra[i] - mean);
        bb += (rb[i] - mean) * (rb[i] - mean);
        ab += (ra[i] - mean) * (rb[i] - mean);
    }
    return ab / sqrt(aa * bb);
}
