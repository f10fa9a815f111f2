// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/ventilation.h"

#include "base/units.h"

#include <math.h>

// International avoirdupois pound (exact) and foot (exact).
static const double G_PER_LB = 453.59237;
static const double M2_PER_FT2 = 0.09290304;

double dilution_air_m3_h(double generation_mg_h, double limit_mg_m3, double mixing_k) {
    return mixing_k * generation_mg_h / limit_mg_m3;
}

double dilution_air_fire_m3_h(double generation_mg_h, double molar_mass_g_mol, double molar_volume_l_mol,
                              double lower_limit_vol_pct, double safety_factor, double temperature_b) {
    double vapour_m3_h = generation_mg_h / 1000 / molar_mass_g_mol * molar_volume_l_mol / 1000; // mg to g, L to m3
    return safety_factor * vapour_m3_h / (lower_limit_vol_pct / 100 * temperature_b);
}

double air_at_temperature(double flow_m3_h, double from_temp_c, double to_temp_c) {
    return flow_m3_h * kelvin_from_celsius(to_temp_c) / kelvin_from_celsius(from_temp_c);
}

double evaporation_mackay_g_m2_h(double p_kpa, double molar_mass_g_mol) {
    double p_pa = p_kpa * 1000;
    return 1464 * p_pa * molar_mass_g_mol * 1e-6; // microgram to g
}

double evaporation_epa_g_m2_h(double p_kpa, double molar_mass_g_mol, double air_speed_m_s, double temp_c) {
    double p_mmhg = p_kpa / KPA_PER_MMHG;
    double lb_min_ft2 = 0.284 * pow(air_speed_m_s, 0.78) * cbrt(molar_mass_g_mol * molar_mass_g_mol) * p_mmhg /
                        (82.05 * kelvin_from_celsius(temp_c));
    return lb_min_ft2 * G_PER_LB * 60 / M2_PER_FT2;
}
