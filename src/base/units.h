// SPDX-License-Identifier: GPL-3.0-or-later
// Constants and conversions: the only place where a factor stands.
#ifndef MILDSOLVE_BASE_UNITS_H
#define MILDSOLVE_BASE_UNITS_H

// CODATA 2018 (exact since the SI revision of 2019): molar gas constant, J/(mol K).
#define GAS_CONSTANT 8.31446261815324

// 0 degC in K (definition of the Celsius scale).
#define ZERO_CELSIUS_K 273.15

// kPa in one mmHg (conventional millimetre of mercury, ISO 80000-4: 133.322 Pa).
#define KPA_PER_MMHG 0.133322

// Standard atmosphere, kPa (10th CGPM 1954).
#define ATMOSPHERE_KPA 101.325

static inline double kelvin_from_celsius(double temp_c) {
    return temp_c + ZERO_CELSIUS_K;
}

static inline double celsius_from_kelvin(double temp_k) {
    return temp_k - ZERO_CELSIUS_K;
}

// mg/m3 of a vapour from ppm by volume: ppm * M / Vm, Vm in L/mol (24.45 at 25 degC and 1 atm).
static inline double mg_m3_from_ppm(double ppm, double molar_mass_g_mol, double molar_volume_l_mol) {
    return ppm * molar_mass_g_mol / molar_volume_l_mol;
}

static inline double ppm_from_mg_m3(double mg_m3, double molar_mass_g_mol, double molar_volume_l_mol) {
    return mg_m3 * molar_volume_l_mol / molar_mass_g_mol;
}

// Molar volume of an ideal gas in L/mol at temp_k and p_kpa.
static inline double gas_molar_volume_l_mol(double temp_k, double p_kpa) {
    return GAS_CONSTANT * temp_k / p_kpa;
}

#endif
