// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_tilt.h"

#include "physics/blend.h"

void film_tilt_add(const double *tilt, size_t count, const double *moles, double *ln_gamma, double *matrix) {
    double sums[BLEND_COMPONENTS_MAX], total = 0, middle = 0;
    for (size_t i = 0; i < count; i++)
        total += moles[i];
    for (size_t i = 0; i < count; i++) {
        sums[i] = 0;
        for (size_t j = 0; j < count; j++)
            sums[i] += tilt[i * count + j] * moles[j];
        sums[i] /= total;
        middle += 0.5 * moles[i] * sums[i] / total;
    }
    for (size_t i = 0; i < count; i++)
        ln_gamma[i] += sums[i] - middle;
    for (size_t i = 0; matrix && i < count; i++)
        for (size_t j = 0; j < count; j++)
            matrix[i * count + j] += (tilt[i * count + j] - sums[i] - sums[j] + 2 * middle) / total;
}
