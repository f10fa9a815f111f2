// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/harm.h"

#include "base/language.h"

#include <math.h>
#include <string.h>

const char *retention_words(enum retention_word word) {
    static const char *const words[] = {"short", "medium", "long", "very long", "not known"};
    return say(words[word]);
}

static const double hydrogen_bonding_delta_h = 10; // MPa^0.5

static double pressure_20c(const struct component *component) {
    return component->properties ? component->properties->vapour_pressure_20c.value : NAN;
}

static enum retention_word word_for(double p_kpa) {
    if (isnan(p_kpa))
        return RETENTION_UNKNOWN;
    return p_kpa > 5      ? RETENTION_SHORT
           : p_kpa > 0.7  ? RETENTION_MEDIUM
           : p_kpa > 0.05 ? RETENTION_LONG
                          : RETENTION_VERY_LONG;
}

// The liquid with the lowest vapour pressure among those of at least RETENTION_LEAST. One of unknown pressure hides the
// answer: it may be the slowest.
static void find_slowest(const struct blend *blend, const double *shares, struct retention *ret) {
    for (size_t i = 0; i < blend->count; i++) {
        double p_kpa = pressure_20c(blend->components[i]);
        if (!(shares[i] >= RETENTION_LEAST) || (ret->slowest && p_kpa >= ret->vapour_pressure_kpa))
            continue;
        ret->slowest = blend->components[i];
        ret->vapour_pressure_kpa = p_kpa;
        ret->tail_share = shares[i];
        if (isnan(p_kpa))
            return;
    }
}

static bool hydrogen_bonds(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->volume_fractions[i] >= RETENTION_LEAST &&
            blend->components[i]->hansen.delta_h >= hydrogen_bonding_delta_h)
            return true;
    return false;
}

static void fill_retention(const struct blend *blend, const double *shares, const struct material *spare,
                           struct retention *ret) {
    *ret = (struct retention){.vapour_pressure_kpa = NAN,
                              .molar_volume_cm3_mol = NAN,
                              .red_spare = NAN,
                              .tail_share = NAN,
                              .word = RETENTION_UNKNOWN};
    find_slowest(blend, shares, ret);
    if (!ret->slowest || isnan(ret->vapour_pressure_kpa))
        return;
    ret->molar_volume_cm3_mol = ret->slowest->molar_volume.value;
    ret->red_spare = spare ? hansen_red(hansen_of_component(ret->slowest), &spare->sphere) : NAN;
    ret->word = word_for(ret->vapour_pressure_kpa);
    if (ret->word == RETENTION_SHORT && hydrogen_bonds(blend))
        ret->word = RETENTION_MEDIUM;
}

void retention_of_blend(const struct blend *blend, const struct material *spare, struct retention *ret) {
    fill_retention(blend, blend->volume_fractions, spare, ret);
    ret->tail_share = NAN;
}

void retention_of_drying(const struct evaporation *path, const struct material *spare, struct retention *ret) {
    if (isnan(path->tail_phi[0]))
        retention_of_blend(&path->blend, spare, ret);
    else
        fill_retention(&path->blend, path->tail_phi, spare, ret);
}

double water_fraction(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i]->family == FAMILY_WATER)
            return blend->volume_fractions[i];
    return 0;
}

static bool endangers(const struct sensitivity *sensitivity, const struct component *component) {
    for (size_t i = 0; i < sensitivity->families.count; i++)
        if (strcmp(sensitivity->families.items[i], family_words[component->family]) == 0)
            return true;
    return false;
}

const struct component *sensitivity_touched(const struct sensitivity *sensitivity, const struct blend *blend,
                                            double *ret_share) {
    const struct component *worst = NULL;
    double most = 0;
    double sum = 0;
    for (size_t i = 0; i < blend->count; i++) {
        if (!endangers(sensitivity, blend->components[i]))
            continue;
        sum += blend->volume_fractions[i];
        if (blend->volume_fractions[i] > most) {
            most = blend->volume_fractions[i];
            worst = blend->components[i];
        }
    }
    if (ret_share)
        *ret_share = sum;
    // Percent typed in a table and fractions of a grid may differ by a rounding of the machine.
    return 100 * sum >= sensitivity->least_percent - 1e-9 && sum > 0 ? worst : NULL;
}

static const double traced = 0.01; // mixture rules of classification look at no smaller share of most classes

static const struct {
    const char *begins;
    int burden;
} burdens[] = {
    {"H34", 3},  {"H35", 3},  {"H36", 3},  {"H37", 3},  {"H300", 3}, {"H301", 3}, {"H310", 3},   {"H311", 3},
    {"H330", 3}, {"H331", 3}, {"H314", 2}, {"H317", 2}, {"H318", 2}, {"H334", 2}, {"H302", 2},   {"H312", 2},
    {"H332", 2}, {"H304", 1}, {"H315", 1}, {"H319", 1}, {"H335", 1}, {"H336", 1}, {"EUH066", 1},
};

static int burden_of_code(const char *code) {
    for (size_t i = 0; i < sizeof burdens / sizeof burdens[0]; i++)
        if (strncmp(code, burdens[i].begins, strlen(burdens[i].begins)) == 0)
            return burdens[i].burden;
    return 0;
}

int health_burden(const struct blend *blend) {
    int burden = 0;
    for (size_t i = 0; i < blend->count; i++) {
        const struct hazard *hazard = blend->components[i]->hazard;
        for (size_t k = 0; hazard && blend->volume_fractions[i] >= traced && k < hazard->h_statements.count; k++) {
            int one = burden_of_code(hazard->h_statements.items[k]);
            burden = one > burden ? one : burden;
        }
    }
    return burden;
}

const char *health_burden_words(int burden) {
    static const char *const words[] = {"none known", "irritant", "serious", "heavy"};
    return say(words[burden]);
}
