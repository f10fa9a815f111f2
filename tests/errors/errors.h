// SPDX-License-Identifier: GPL-3.0-or-later
// How far the models are from published figures: one function a subject, used by the tests (with bounds) and by the
// program model-errors (which prints them for the manual).
#ifndef MILDSOLVE_TESTS_ERRORS_H
#define MILDSOLVE_TESTS_ERRORS_H

#include "physics/unifac.h"

#include <stdbool.h>
#include <stddef.h>

enum { ERRORS_MAX = 512 };

struct error_entry {
    char name[96];
    double expected, got, error; // error: got - expected, or what the subject says
};

struct errors {
    size_t count;
    struct error_entry entries[ERRORS_MAX];
    size_t left_out; // rows that no model covers, or without the data they need
    char left_out_names[1024];
};

void errors_add(struct errors *errors, double expected, double got, double error, const char *format, ...)
    __attribute__((format(printf, 5, 6)));
void errors_leave_out(struct errors *errors, const char *format, ...) __attribute__((format(printf, 2, 3)));
double errors_mean_abs(const struct errors *errors);
double errors_median_abs(const struct errors *errors);
double errors_median(const struct errors *errors);
const struct error_entry *errors_worst(const struct errors *errors);
// Spearman's rank correlation of expected and got; ties share their mean rank.
double errors_rank_correlation(const struct errors *errors);

struct error_tables {
    struct library lib;
    struct unifac_table unifac;
};
void error_tables_open(struct error_tables *ret);
void error_tables_close(struct error_tables *tables);

// activity-checks.csv, measured limiting activity coefficients: ln(got/expected) in `error`.
void errors_limiting(const struct error_tables *tables, struct errors *ret);

// miscibility.csv: the worst verdict over the compositions of each pair, by the model alone or with the published
// pairs.
struct phase_errors {
    size_t rows, not_covered;
    size_t right, open; // open: "may separate"
    size_t missed;      // published as partly or hardly miscible, called one
    size_t invented;    // published as miscible, called two
    char missed_names[512];
};
void errors_miscibility(const struct error_tables *tables, bool published, struct phase_errors *ret);

// evaporation-checks.csv, isothermal-px, inner points: relative error of the total pressure, with the pure pressures of
// the set, and (second) with our own curves.
void errors_isothermal(const struct error_tables *tables, struct errors *ret_set_pressures,
                       struct errors *ret_own_curves);
// Mean of the relative errors of one set ("px01"), its own pure pressures.
double errors_of_set(const struct errors *errors, const char *set);

// isobaric-txy, inner points: boiling temperature (K) and vapour mole fraction.
void errors_isobaric(const struct error_tables *tables, struct errors *ret_temperature, struct errors *ret_vapour);

// azeotropes.csv, binary rows: temperature (K) and mass per cent. Pairs for which the model shows no azeotrope are in
// ret_missed (entry without figures).
void errors_azeotropes(const struct error_tables *tables, struct errors *ret_temperature, struct errors *ret_mass,
                       struct errors *ret_missed);

// Flash points of the table against the temperature at which the vapour curve reaches the lower flammable limit (K).
void errors_flash_pure(const struct error_tables *tables, struct errors *ret);

// Ethanol and water, per cent by volume: closed cup (K).
void errors_flash_ethanol_water(const struct error_tables *tables, struct errors *ret);

// Relative evaporation rates of neat components at 25 degC: ratio got/expected in `error`.
void errors_rates(const struct error_tables *tables, struct errors *ret);

#endif
