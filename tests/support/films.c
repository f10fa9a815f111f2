// SPDX-License-Identifier: GPL-3.0-or-later
#include "films.h"

#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { RANKED_MAX = 128 };

static void stop_unless(enum status status, const struct error *err) {
    if (status == STATUS_OK)
        return;
    fprintf(stderr, "%s\n", err->text);
    exit(2);
}

void films_open(struct films *films) {
    struct error err = {0};
    tables_open(&films->lib, TABLE_REFERENCES | TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_UNIFAC);
    stop_unless(unifac_table_make(&films->lib, &films->table, &err), &err);
}

void films_release(struct films *films) {
    unifac_table_release(&films->table);
    library_release(&films->lib);
}

void films_liquid(struct films *films, const char *notation, struct films_liquid *ret) {
    struct error err = {0};
    stop_unless(blend_parse(&films->lib, notation, &ret->blend, NULL, &err), &err);
    stop_unless(blend_mole_fractions(&ret->blend, ret->x, &err), &err);
    stop_unless(activity_prepare_blend(&films->table, &ret->blend, FILMS_TEMP_K, &ret->activity, &err), &err);
    film_liquid_activities(&ret->activity, ret->x, ret->ln_activity);
}

struct film_parameters films_parameters(struct films *films, const char *id) {
    struct error err = {0};
    const struct material *material = NULL;
    struct film_parameters parameters = {0};
    stop_unless(library_material(&films->lib, id, &material, &err), &err);
    stop_unless(film_parameters_of_material(material, &parameters, &err), &err);
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
