// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/flory.h"

#include "base/language.h"
#include "base/units.h"
#include "physics/hansen.h"

#include <assert.h>
#include <math.h>

static const char *what_is_missing(const struct component *component) {
    if (!hansen_known(hansen_of_component(component)))
        return say("Hansen parameters");
    if (!(component->molar_volume.value > 0))
        return say("molar volume");
    return NULL;
}

enum status flory_prepare(const struct component *const *components, size_t count, double temp_k,
                          struct flory_mixture *ret, size_t *ret_lacks, struct error *err) {
    assert(count >= 1 && count <= BLEND_COMPONENTS_MAX);
    if (!(temp_k > 0))
        return error_set(err, STATUS_RANGE, "%g K is not a temperature", temp_k);
    for (size_t i = 0; i < count; i++) {
        const char *missing = what_is_missing(components[i]);
        if (!missing)
            continue;
        if (ret_lacks)
            *ret_lacks = i;
        return error_set(err, STATUS_NO_DATA, "no %s known for %s", missing, components[i]->id);
    }
    ret->count = count;
    ret->temp_k = temp_k;
    for (size_t i = 0; i < count; i++) {
        ret->volume[i] = components[i]->molar_volume.value;
        for (size_t j = 0; j < count; j++)
            ret->energy[i * count + j] = FLORY_ALPHA * hansen_exchange_energy(hansen_of_component(components[i]),
                                                                              hansen_of_component(components[j]));
    }
    return STATUS_OK;
}

// What all components share at one composition.
struct flory_sums {
    double total;                       // N
    double volume;                      // sum n V, cm3
    double field[BLEND_COMPONENTS_MAX]; // h_i = sum_j phi_j A_ij, MPa
    double energy;                      // e = sum_jk phi_j phi_k A_jk / 2, MPa
};

static void sum_up(const struct flory_mixture *mixture, const double *x, struct flory_sums *sums) {
    size_t count = mixture->count;
    *sums = (struct flory_sums){0};
    for (size_t i = 0; i < count; i++) {
        sums->total += x[i];
        sums->volume += x[i] * mixture->volume[i];
    }
    assert(sums->total > 0);
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j < count; j++)
            sums->field[i] += x[j] * mixture->volume[j] / sums->volume * mixture->energy[i * count + j];
        sums->energy += x[i] * mixture->volume[i] / sums->volume * sums->field[i] / 2;
    }
}

static void ln_gamma_of_sums(const struct flory_mixture *mixture, const struct flory_sums *sums, double *ret_ln_gamma) {
    double rt = GAS_CONSTANT * mixture->temp_k; // J/mol = MPa cm3/mol
    for (size_t i = 0; i < mixture->count; i++) {
        double ratio = mixture->volume[i] * sums->total / sums->volume; // phi_i / x_i
        ret_ln_gamma[i] = log(ratio) + 1 - ratio + mixture->volume[i] / rt * (sums->field[i] - sums->energy);
    }
}

void flory_ln_gamma(const struct flory_mixture *mixture, const double *x, double *ret_ln_gamma) {
    struct flory_sums sums;
    sum_up(mixture, x, &sums);
    ln_gamma_of_sums(mixture, &sums, ret_ln_gamma);
}

// d ln gamma_i / d n_j = 1/N - (V_i + V_j)/V + N V_i V_j/V^2 + V_i V_j/(RT V) (A_ij - h_i - h_j + 2e)
void flory_derivatives(const struct flory_mixture *mixture, const double *x, double *ret_ln_gamma,
                       double *ret_derivatives) {
    struct flory_sums sums;
    sum_up(mixture, x, &sums);
    ln_gamma_of_sums(mixture, &sums, ret_ln_gamma);
    double rt = GAS_CONSTANT * mixture->temp_k;
    size_t count = mixture->count;
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++) {
            double product = mixture->volume[i] * mixture->volume[j] / sums.volume; // cm3/mol2
            double size = 1 / sums.total - (mixture->volume[i] + mixture->volume[j]) / sums.volume +
                          product * sums.total / sums.volume;
            double energy = mixture->energy[i * count + j] - sums.field[i] - sums.field[j] + 2 * sums.energy;
            ret_derivatives[i * count + j] = size + product * energy / rt;
        }
}
