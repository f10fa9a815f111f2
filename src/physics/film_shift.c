// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_shift.h"

// The limit of the dry film holds chi as it is.
static void set(struct film *film, size_t component, double chi) {
    film->dry[component] += chi - film->chi[component];
    film->chi[component] = chi;
}

void film_shift_chi(struct film *film, double shift) {
    for (size_t i = 0; i < film->count; i++)
        set(film, i, film->chi[i] + shift);
}

void film_set_chi(struct film *film, const double *chi) {
    for (size_t i = 0; i < film->count; i++)
        set(film, i, chi[i]);
}
