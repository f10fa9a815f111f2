// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film.h"

#include "base/units.h"
#include "physics/film_tilt.h"

#include <assert.h>
#include <math.h>
#include <string.h>

const char *film_outcome_word(enum film_outcome outcome) {
    static const char *const words[] = {"bounded", "without-limit", "no-region", "not-covered", "failed"};
    return words[outcome];
}

bool film_is_known(enum film_outcome outcome) {
    return outcome == FILM_BOUNDED || outcome == FILM_WITHOUT_LIMIT;
}

static double taken_up(const struct film_result *film) {
    return film->outcome == FILM_WITHOUT_LIMIT ? INFINITY : film->outcome == FILM_BOUNDED ? film->swelling : -1;
}

bool film_takes_up_more(const struct film_result *a, const struct film_result *b) {
    return taken_up(a) > taken_up(b);
}

// --- parameters ---

static enum status check_chain(const struct film_parameters *parameters, struct error *err) {
    double network = parameters->network_mol_m3, volume = parameters->molar_volume_cm3_mol;
    if (!(network == 0 || (network >= 10 && network <= 1e5)))
        return error_set(err, STATUS_RANGE,
                         "network density %g mol/m3: a film has 10 to 100000, or 0 when it is not cross-linked",
                         network);
    if (network > 0 && volume != INFINITY)
        return error_set(err, STATUS_RANGE, "a network has no molar volume of its chains, but %g cm3/mol is given",
                         volume);
    if (network == 0 && !(volume >= 50 && volume <= 1e9))
        return error_set(err, STATUS_RANGE, "molar volume %g cm3/mol: a film that is not cross-linked has 50 to 1e9",
                         volume);
    return STATUS_OK;
}

enum status film_parameters_check(const struct film_parameters *parameters, struct error *err) {
    if (!hansen_known(parameters->centre))
        return error_set(err, STATUS_RANGE, "the film has no place in Hansen space");
    if (!(parameters->alpha > 0 && parameters->alpha <= 2))
        return error_set(err, STATUS_RANGE, "alpha %g is not above 0 and at most 2", parameters->alpha);
    if (!(parameters->chi_entropic >= 0 && parameters->chi_entropic <= 1))
        return error_set(err, STATUS_RANGE, "entropic part of chi %g is not 0 to 1", parameters->chi_entropic);
    if (!(parameters->chi_shift >= -2 && parameters->chi_shift <= 2))
        return error_set(err, STATUS_RANGE, "shift of chi %g is not -2 to 2", parameters->chi_shift);
    if (!(parameters->pigment >= 0 && parameters->pigment <= 0.9))
        return error_set(err, STATUS_RANGE, "pigment volume fraction %g is not 0 to 0.9", parameters->pigment);
    return check_chain(parameters, err);
}

bool material_has_film(const struct material *material) {
    return !isnan(material->film_model.molar_volume_cm3_mol) || !isnan(material->film_model.network_mol_m3);
}

enum status film_parameters_of_material(const struct material *material, struct film_parameters *ret,
                                        struct error *err) {
    const struct film_values *row = &material->film_model;
    bool network = !isnan(row->network_mol_m3);
    if (!network && isnan(row->molar_volume_cm3_mol))
        return error_set(err, STATUS_NO_DATA, "%s has no film model", material->id);
    bool own_centre = !isnan(row->delta_d);
    struct film_parameters parameters = {
        .centre = own_centre ? (struct hansen){row->delta_d, row->delta_p, row->delta_h}
                             : hansen_of_sphere(&material->sphere),
        .alpha = FILM_ALPHA,
        .chi_entropic = FILM_CHI_ENTROPIC,
        .network_mol_m3 = network ? row->network_mol_m3 : 0,
        .molar_volume_cm3_mol = network ? INFINITY : row->molar_volume_cm3_mol,
        .pigment = isnan(row->pigment) ? 0 : row->pigment,
        .chi_shift = row->chi_shift,
    };
    enum status status = film_parameters_check(&parameters, err);
    if (status != STATUS_OK)
        return error_wrap(err, status, "film model of %s", material->id);
    *ret = parameters;
    return STATUS_OK;
}

double film_chi(const struct film_parameters *parameters, struct hansen liquid, double volume, double temp_k) {
    return parameters->chi_entropic + parameters->chi_shift +
           parameters->alpha * volume / (GAS_CONSTANT * temp_k) * hansen_exchange_energy(liquid, parameters->centre);
}

static void set_polymer(const struct film_parameters *parameters, struct film *film) {
    film->chains = 1 / parameters->molar_volume_cm3_mol;
    film->strands = parameters->network_mol_m3 * 1e-6;
    film->pigment = parameters->pigment;
}

static void set_component(const struct film_parameters *parameters, struct film *film, size_t i, struct hansen liquid,
                          double volume, double temp_k) {
    film->volume[i] = volume;
    film->ln_volume[i] = log(volume);
    film->chi[i] = film_chi(parameters, liquid, volume, temp_k);
    film->dry[i] = 1 - volume * film->chains + film->chi[i] + volume * film->strands / 2;
}

enum status film_prepare(const struct film_parameters *parameters, const struct activity_model *activity,
                         struct film *ret, struct error *err) {
    enum status status = film_parameters_check(parameters, err);
    if (status != STATUS_OK)
        return status;
    if (!activity_covers(activity))
        return error_set(err, STATUS_NO_DATA, "no activity model covers the blend: %s", activity->coverage.sentence);
    struct film film = {.activity = activity, .count = activity->count};
    set_polymer(parameters, &film);
    for (size_t i = 0; i < film.count; i++) {
        const struct component *component = activity->components[i];
        struct hansen liquid = hansen_of_component(component);
        if (!hansen_known(liquid))
            return error_set(err, STATUS_NO_DATA, "no Hansen parameters known for %s", component->id);
        if (!(component->molar_volume.value > 0))
            return error_set(err, STATUS_NO_DATA, "no molar volume known for %s", component->id);
        set_component(parameters, &film, i, liquid, component->molar_volume.value, activity->temp_k);
    }
    *ret = film;
    return STATUS_OK;
}

void film_vary(const struct film_parameters *parameters, const struct hansen *liquids, double temp_k,
               struct film *film) {
    assert(film_parameters_check(parameters, NULL) == STATUS_OK);
    set_polymer(parameters, film);
    for (size_t i = 0; i < film->count; i++)
        set_component(parameters, film, i, liquids[i], film->volume[i], temp_k);
}

enum status film_prepare_single(const struct film_parameters *parameters, struct hansen liquid, double volume,
                                double temp_k, struct film *ret, struct error *err) {
    enum status status = film_parameters_check(parameters, err);
    if (status != STATUS_OK)
        return status;
    if (!hansen_known(liquid) || !(volume > 0) || !(temp_k > 0))
        return error_set(err, STATUS_RANGE, "a liquid needs Hansen parameters, molar volume and temperature");
    struct film film = {.count = 1};
    set_polymer(parameters, &film);
    set_component(parameters, &film, 0, liquid, volume, temp_k);
    *ret = film;
    return STATUS_OK;
}

void film_liquid_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity) {
    double ln_gamma[BLEND_COMPONENTS_MAX], total = 0;
    activity_ln_gamma(activity, x, ln_gamma);
    for (size_t i = 0; i < activity->count; i++)
        total += x[i];
    for (size_t i = 0; i < activity->count; i++)
        ret_ln_activity[i] = x[i] > 0 ? log(x[i] / total) + ln_gamma[i] : -INFINITY;
}

// --- the equations ---

// What all components share at one composition.
struct film_sums {
    double moles;   // N = sum n
    double taken;   // W = sum n V
    double polymer; // s = phi_p
    double ln_polymer;
    double ln_size;   // ln(N/W): ln(phi'_i/x'_i) = ln V_i + this
    double solvents;  // E = sum n_j e_j, e_j = ln gamma_j - ln(phi'_j/x'_j)
    double contact;   // X = sum chi_j n_j
    double elastic;   // n_e (s^(1/3) - s/2), mol/cm3
    double stiffness; // its derivative by W: n_e s^2 (1/2 - s^(-2/3)/3)
};

static void sum_up(const struct film *film, const double *moles, struct film_sums *sums) {
    double total = 0, taken = 0, contact = 0;
    for (size_t i = 0; i < film->count; i++) {
        total += moles[i];
        taken += moles[i] * film->volume[i];
        contact += moles[i] * film->chi[i];
    }
    double polymer = 1 / (1 + taken), root = film->strands > 0 ? cbrt(polymer) : 1; // strands * root
    *sums = (struct film_sums){
        .moles = total,
        .taken = taken,
        .polymer = polymer,
        .ln_polymer = -log1p(taken),
        .ln_size = log(total / taken),
        .contact = contact,
        .elastic = film->strands * (root - polymer / 2),
        .stiffness = film->strands * polymer * polymer * (0.5 - root / (3 * polymer)),
    };
}

// d ln gamma_i/d n_j of the solvents; the lone component of a film without activity model is ideal.
static void solvent_gammas(const struct film *film, const double *moles, double *ret_ln_gamma, double *ret_matrix) {
    if (!film->activity) {
        assert(film->count == 1);
        ret_ln_gamma[0] = 0;
        if (ret_matrix)
            ret_matrix[0] = 0;
    } else if (ret_matrix) {
        activity_derivatives(film->activity, moles, ret_ln_gamma, ret_matrix);
    } else {
        activity_ln_gamma(film->activity, moles, ret_ln_gamma);
    }
    if (film->tilt)
        film_tilt_add(film->tilt, film->count, moles, ret_ln_gamma, ret_matrix);
}

// The matrix, from the d ln gamma_i/d n_j in place; `partial` holds dE/dn_i. With r_i = phi'_i/x'_i:
//   d/dn_j of  ln phi_i - V_i s (N + 1/V_p)         delta_ij/n_i - s (V_i + V_j) + V_i V_j s^2 (N + 1/V_p)
//   d/dn_j of  (1 - s) dE/dn_i + V_i s^2 E          (1 - s) E_ij + s^2 (V_i E_j + V_j E_i) - 2 s^3 V_i V_j E
//      with    E_ij = d ln gamma_i/d n_j - 1/N + (V_i + V_j)/W - V_i V_j N/W^2
//   d/dn_j of  s chi_i - V_i s^2 X                  -s^2 (V_i chi_j + V_j chi_i) + 2 s^3 V_i V_j X
//   d/dn_j of  V_i n_e (s^(1/3) - s/2)              V_i V_j n_e s^2 (1/2 - s^(-2/3)/3)
static void fill_matrix(const struct film *film, const double *moles, const struct film_sums *sums,
                        const double *partial, double *matrix) {
    size_t count = film->count;
    double s = sums->polymer, s2 = s * s, mixed = 1 - s, inverse = 1 / sums->taken;
    double both = s2 * (sums->moles + film->chains) + 2 * s2 * s * (sums->contact - sums->solvents) + sums->stiffness -
                  mixed * sums->moles * inverse * inverse;
    double lone = -mixed / sums->moles;
    double side[BLEND_COMPONENTS_MAX]; // what multiplies V_j in the terms V_j side_i + V_i side_j
    for (size_t i = 0; i < count; i++)
        side[i] = mixed * inverse - s + s2 * (partial[i] - film->chi[i]);
    for (size_t i = 0; i < count; i++) {
        for (size_t j = 0; j <= i; j++) {
            double value = mixed * matrix[i * count + j] + lone + film->volume[j] * side[i] +
                           film->volume[i] * side[j] + film->volume[i] * film->volume[j] * both;
            matrix[i * count + j] = value;
            matrix[j * count + i] = value;
        }
        matrix[i * count + i] += 1 / moles[i];
    }
}

void film_activities_ln(const struct film *film, const double *moles, const double *ln_moles, double *ret_ln_activity,
                        double *ret_matrix) {
    struct film_sums sums;
    double ln_gamma[BLEND_COMPONENTS_MAX], partial[BLEND_COMPONENTS_MAX];
    sum_up(film, moles, &sums);
    solvent_gammas(film, moles, ln_gamma, ret_matrix);
    double size = sums.moles / sums.taken;
    for (size_t i = 0; i < film->count; i++) {
        double excess = ln_gamma[i] - film->ln_volume[i] - sums.ln_size;
        sums.solvents += moles[i] * excess;
        partial[i] = excess - (1 - film->volume[i] * size);
    }
    double s = sums.polymer;
    double shared = s * s * (sums.solvents - sums.contact) + sums.elastic - s * (sums.moles + film->chains);
    for (size_t i = 0; i < film->count; i++)
        ret_ln_activity[i] = ln_moles[i] + film->ln_volume[i] + sums.ln_polymer + 1 + (1 - s) * partial[i] +
                             s * film->chi[i] + film->volume[i] * shared;
    if (ret_matrix)
        fill_matrix(film, moles, &sums, partial, ret_matrix);
}

void film_activities(const struct film *film, const double *moles, double *ret_ln_activity, double *ret_matrix) {
    double ln_moles[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < film->count; i++)
        ln_moles[i] = log(moles[i]);
    film_activities_ln(film, moles, ln_moles, ret_ln_activity, ret_matrix);
}
