// SPDX-License-Identifier: GPL-3.0-or-later
// Films for the tests: tables, blends by notation, a solved film in one call. Any fault ends the test program.
#ifndef MILDSOLVE_TESTS_FILMS_H
#define MILDSOLVE_TESTS_FILMS_H

#include "physics/film.h"

struct films {
    struct library lib;
    struct unifac_table table;
};

// A liquid ready for films.
struct films_liquid {
    struct blend blend;
    double x[BLEND_COMPONENTS_MAX];
    struct activity_model activity;
    double ln_activity[BLEND_COMPONENTS_MAX];
};

#define FILMS_TEMP_K 293.15 // everything in the reference figures is at 20 degC

void films_open(struct films *films);
void films_release(struct films *films);

void films_liquid(struct films *films, const char *notation, struct films_liquid *ret);
struct film_parameters films_parameters(struct films *films, const char *material);

// A film of these parameters with the liquid's components.
struct film films_prepare(const struct film_parameters *parameters, const struct films_liquid *liquid);

// Prepared and solved from the dry film.
struct film_result films_solve(struct films *films, const struct film_parameters *parameters, const char *notation);

// Ranks from 1, ties share their mean; Spearman's correlation of two lists.
void films_ranks(const double *values, size_t count, double *ret_ranks);
double films_spearman(const double *a, const double *b, size_t count);

#endif
