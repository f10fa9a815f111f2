// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/unifac.h"

#include <assert.h>
#include <math.h>
#include <stdint.h>
#include <string.h>

// Half the coordination number z = 10 of the lattice (Abrams & Prausnitz, AIChE J. 21 (1975) 116).
static const double half_coordination = 5.0;

// Exponent of r in V': 3/4 in the Dortmund model (Weidlich & Gmehling 1987, eq. 5), 1 in the original one.
static double volume_power(int model, double r) {
    return model == UNIFAC_DORTMUND ? pow(r, 0.75) : r;
}

// Psi leaves the range in which sums and quotients of it keep their digits.
static const double ln_psi_most = 300.0;

// --- preparing a set ---

static bool add_main(struct unifac_mixture *mixture, size_t main, size_t *ret_at) {
    size_t at = 0;
    while (at < mixture->main_count && mixture->mains[at] != main)
        at++;
    if (at == UNIFAC_MAIN_MAX)
        return false;
    if (at == mixture->main_count)
        mixture->mains[mixture->main_count++] = main;
    *ret_at = at;
    return true;
}

// `areas` has rows of UNIFAC_MAIN_MAX until the number of main groups is known.
static bool add_species(struct unifac_mixture *mixture, const struct unifac_species *species,
                        double areas[UNIFAC_MAIN_MAX]) {
    size_t i = mixture->count++;
    mixture->r[i] = species->r;
    mixture->r_power[i] = volume_power(mixture->parameters->model, species->r);
    mixture->q[i] = species->q;
    for (size_t k = 0; k < species->area_count; k++) {
        size_t at = 0;
        if (!add_main(mixture, species->areas[k].main, &at))
            return false;
        areas[at] += species->areas[k].area;
    }
    return true;
}

static void pack_areas(struct unifac_mixture *mixture, double areas[][UNIFAC_MAIN_MAX]) {
    for (size_t i = 0; i < mixture->count; i++)
        memcpy(mixture->area + i * mixture->main_count, areas[i], mixture->main_count * sizeof(double));
}

static size_t first_with(const struct unifac_mixture *mixture, size_t main) {
    size_t i = 0;
    while (i + 1 < mixture->count && !(mixture->area[i * mixture->main_count + main] > 0))
        i++;
    return i;
}

static const struct unifac_coefficients *coefficients(const struct unifac_mixture *mixture, size_t m, size_t n) {
    const struct unifac_parameters *parameters = mixture->parameters;
    return &parameters->pairs[mixture->mains[m] * parameters->main_count + mixture->mains[n]];
}

static bool find_missing_pair(const struct unifac_mixture *mixture, struct unifac_gap *ret) {
    for (size_t m = 0; m < mixture->main_count; m++)
        for (size_t n = 0; n < mixture->main_count; n++) {
            if (coefficients(mixture, m, n)->known)
                continue;
            *ret = (struct unifac_gap){
                .first = first_with(mixture, m),
                .second = first_with(mixture, n),
                .main_first = mixture->parameters->main_names[mixture->mains[m]],
                .main_second = mixture->parameters->main_names[mixture->mains[n]],
            };
            return true;
        }
    return false;
}

static enum status without_groups(const struct unifac_parameters *parameters, const char *id, size_t at,
                                  struct unifac_gap *ret_gap, struct error *err) {
    if (ret_gap)
        *ret_gap = (struct unifac_gap){.first = at, .second = at};
    return error_set(err, STATUS_NO_DATA, "the %s groups don't describe %s", unifac_model_words[parameters->model], id);
}

static enum status without_pair(const struct unifac_parameters *parameters, const struct component *const *components,
                                const struct unifac_gap *gap, struct unifac_gap *ret_gap, struct error *err) {
    if (ret_gap)
        *ret_gap = *gap;
    return error_set(err, STATUS_NO_DATA, "the %s model has no parameters between %s (%s) and %s (%s)",
                     unifac_model_words[parameters->model], gap->main_first, components[gap->first]->id,
                     gap->main_second, components[gap->second]->id);
}

static enum status collect(const struct unifac_table *table, struct unifac_mixture *mixture,
                           const struct component *const *components, size_t count, struct unifac_gap *ret_gap,
                           struct error *err) {
    double areas[BLEND_COMPONENTS_MAX][UNIFAC_MAIN_MAX] = {{0}};
    const struct unifac_parameters *parameters = mixture->parameters;
    for (size_t i = 0; i < count; i++) {
        const struct unifac_species *species =
            unifac_species_find(table, (enum unifac_model)parameters->model, components[i]->id);
        if (!species)
            return without_groups(parameters, components[i]->id, i, ret_gap, err);
        if (!add_species(mixture, species, areas[i]))
            return error_set(err, STATUS_RANGE, "more than %d kinds of groups in one blend", UNIFAC_MAIN_MAX);
    }
    pack_areas(mixture, areas);
    return STATUS_OK;
}

// --- composition ---

// Sums over the components at one composition. Everything needed twice is kept.
struct unifac_sums {
    double total;                  // N
    double volume_power;           // P
    double volume;                 // R
    double surface;                // Q
    double area[UNIFAC_MAIN_MAX];  // a_m
    double reach[UNIFAC_MAIN_MAX]; // s_m
};

static void sum_up(const struct unifac_mixture *mixture, const double *x, struct unifac_sums *sums) {
    size_t mains = mixture->main_count;
    double total = 0, power = 0, volume = 0, surface = 0;
    memset(sums->area, 0, mains * sizeof(double));
    memset(sums->reach, 0, mains * sizeof(double));
    for (size_t i = 0; i < mixture->count; i++) {
        const double *area = mixture->area + i * mains;
        const double *reach = mixture->reach + i * mains;
        double amount = x[i];
        total += amount;
        power += amount * mixture->r_power[i];
        volume += amount * mixture->r[i];
        surface += amount * mixture->q[i];
        for (size_t m = 0; m < mains; m++) {
            sums->area[m] += amount * area[m];
            sums->reach[m] += amount * reach[m];
        }
    }
    sums->total = total;
    sums->volume_power = power;
    sums->volume = volume;
    sums->surface = surface;
}

// ln gamma_i without the part that depends on the component alone (that is the offset).
static void ln_gamma_of_sums(const struct unifac_mixture *mixture, const struct unifac_sums *sums,
                             double *ret_ln_gamma) {
    size_t mains = mixture->main_count;
    double inverse_power = sums->total / sums->volume_power;
    double ratio = sums->surface / sums->volume;
    double ln_power = log(inverse_power);
    double ln_ratio = log(ratio);
    double inverse_surface = 1.0 / sums->surface;
    double ln_reach[UNIFAC_MAIN_MAX], share[UNIFAC_MAIN_MAX];
    for (size_t m = 0; m < mains; m++) {
        ln_reach[m] = log(sums->reach[m] * inverse_surface);
        share[m] = sums->area[m] / sums->reach[m];
    }
    for (size_t i = 0; i < mixture->count; i++) {
        const double *area = mixture->area + i * mains;
        const double *reach = mixture->reach + i * mains;
        double residual = 0;
        for (size_t m = 0; m < mains; m++)
            residual += area[m] * ln_reach[m] + reach[m] * share[m];
        double combinatorial = ln_power - mixture->r_power[i] * inverse_power -
                               half_coordination * (mixture->q[i] * ln_ratio - mixture->r[i] * ratio);
        ret_ln_gamma[i] = (combinatorial - residual) + mixture->offset[i];
    }
}

void unifac_ln_gamma(const struct unifac_mixture *mixture, const double *x, double *ret_ln_gamma) {
    struct unifac_sums sums;
    sum_up(mixture, x, &sums);
    assert(sums.total > 0);
    ln_gamma_of_sums(mixture, &sums, ret_ln_gamma);
}

// d ln gamma_i / d n_j of the combinatorial part; symmetric in i and j.
static double combinatorial_derivative(const struct unifac_mixture *mixture, const struct unifac_sums *sums, size_t i,
                                       size_t j) {
    double p = sums->volume_power, n = sums->total, r = sums->volume, s = sums->surface;
    const double *rp = mixture->r_power, *rr = mixture->r, *q = mixture->q;
    double volume_part = 1 / n - (rp[i] + rp[j]) / p + n * rp[i] * rp[j] / (p * p);
    double surface_part = (rr[i] * q[j] + q[i] * rr[j]) / r - s * rr[i] * rr[j] / (r * r) - q[i] * q[j] / s;
    return volume_part + half_coordination * surface_part;
}

// d ln gamma_i / d n_j of the residual part:
//   q_i q_j/Q - sum_m [A_im B_jm/s_m + B_im A_jm/s_m - a_m B_im B_jm/s_m^2]
static double residual_derivative(const struct unifac_mixture *mixture, const struct unifac_sums *sums, size_t i,
                                  size_t j) {
    size_t mains = mixture->main_count;
    const double *area_i = mixture->area + i * mains, *area_j = mixture->area + j * mains;
    const double *reach_i = mixture->reach + i * mains, *reach_j = mixture->reach + j * mains;
    double sum = 0;
    for (size_t m = 0; m < mains; m++) {
        double inverse = 1.0 / sums->reach[m];
        sum += (area_i[m] * reach_j[m] + reach_i[m] * area_j[m]) * inverse -
               sums->area[m] * reach_i[m] * reach_j[m] * inverse * inverse;
    }
    return mixture->q[i] * mixture->q[j] / sums->surface - sum;
}

void unifac_derivatives(const struct unifac_mixture *mixture, const double *x, double *ret_ln_gamma,
                        double *ret_derivatives) {
    struct unifac_sums sums;
    sum_up(mixture, x, &sums);
    assert(sums.total > 0);
    ln_gamma_of_sums(mixture, &sums, ret_ln_gamma);
    for (size_t i = 0; i < mixture->count; i++)
        for (size_t j = 0; j <= i; j++) {
            double value = combinatorial_derivative(mixture, &sums, i, j) + residual_derivative(mixture, &sums, i, j);
            ret_derivatives[i * mixture->count + j] = value;
            ret_derivatives[j * mixture->count + i] = value;
        }
}

// --- temperature ---

static bool psi_row(const struct unifac_mixture *mixture, size_t l, double temp_k, double *ret_psi) {
    for (size_t m = 0; m < mixture->main_count; m++) {
        const struct unifac_coefficients *pair = coefficients(mixture, l, m);
        double ln_psi = -(pair->a + pair->b * temp_k + pair->c * temp_k * temp_k) / temp_k;
        if (!(fabs(ln_psi) <= ln_psi_most))
            return false;
        ret_psi[m] = exp(ln_psi);
    }
    return true;
}

// B_im = sum_l A_il Psi_lm
static bool sum_reach(const struct unifac_mixture *mixture, double temp_k, double *ret_reach) {
    size_t mains = mixture->main_count;
    memset(ret_reach, 0, mixture->count * mains * sizeof(double));
    for (size_t l = 0; l < mains; l++) {
        double psi[UNIFAC_MAIN_MAX];
        if (!psi_row(mixture, l, temp_k, psi))
            return false;
        for (size_t i = 0; i < mixture->count; i++)
            for (size_t m = 0; m < mains; m++)
                ret_reach[i * mains + m] += mixture->area[i * mains + l] * psi[m];
    }
    return true;
}

// The same additions as for a blend of which only this component has an amount, so that a pure component comes
// out as exactly 0.
static void set_offsets(struct unifac_mixture *mixture) {
    for (size_t i = 0; i < mixture->count; i++) {
        double x[BLEND_COMPONENTS_MAX] = {0}, ln_gamma[BLEND_COMPONENTS_MAX];
        x[i] = 1;
        mixture->offset[i] = 0;
        unifac_ln_gamma(mixture, x, ln_gamma);
        mixture->offset[i] = -ln_gamma[i];
    }
}

enum status unifac_set_temperature(struct unifac_mixture *mixture, double temp_k, struct error *err) {
    double reach[BLEND_COMPONENTS_MAX * UNIFAC_MAIN_MAX];
    if (!(temp_k > 0) || !sum_reach(mixture, temp_k, reach))
        return error_set(err, STATUS_RANGE, "the %s parameters can't be used at %g K",
                         unifac_model_words[mixture->parameters->model], temp_k);
    memcpy(mixture->reach, reach, mixture->count * mixture->main_count * sizeof(double));
    mixture->temp_k = temp_k;
    set_offsets(mixture);
    return STATUS_OK;
}

enum status unifac_prepare(const struct unifac_table *table, enum unifac_model model,
                           const struct component *const *components, size_t count, double temp_k,
                           struct unifac_mixture *ret, struct unifac_gap *ret_gap, struct error *err) {
    assert(count >= 1 && count <= BLEND_COMPONENTS_MAX);
    struct unifac_mixture mixture = {.parameters = &table->models[model]};
    enum status status = collect(table, &mixture, components, count, ret_gap, err);
    if (status != STATUS_OK)
        return status;
    struct unifac_gap gap;
    if (find_missing_pair(&mixture, &gap))
        return without_pair(mixture.parameters, components, &gap, ret_gap, err);
    status = unifac_set_temperature(&mixture, temp_k, err);
    if (status == STATUS_OK)
        *ret = mixture;
    return status;
}
