// SPDX-License-Identifier: GPL-3.0-or-later
// Fresh air needed by the dilution formulas of the ventilation manuals, and evaporation rates of a wet surface.
#ifndef MILDSOLVE_PHYSICS_VENTILATION_H
#define MILDSOLVE_PHYSICS_VENTILATION_H

// Steady fresh air that keeps a room at a concentration: Q = K G / C, m3/h, K >= 1 for imperfect mixing (3 to 10 in the
// manual). This is Q' = 403 SG 1e6 ER / (M C), ft3/min with ER in pint/min, of ACGIH, Industrial Ventilation, in
// SI units. It says nothing about the near field.
double dilution_air_m3_h(double generation_mg_h, double limit_mg_m3, double mixing_k);

// Fresh air against fire: Q = Sf V' / (LEL B), V' the vapour given off in m3/h, LEL in vol%, Sf 4 for continuous
// ventilation or 10 where peaks may come, B 1 up to 120 degC and 0.7 above (same manual). V' = G Vm / M.
double dilution_air_fire_m3_h(double generation_mg_h, double molar_mass_g_mol, double molar_volume_l_mol,
                              double lower_limit_vol_pct, double safety_factor, double temperature_b);

// Air at another temperature fills more: Q2 = Q1 T2/T1 (kelvin).
double air_at_temperature(double flow_m3_h, double from_temp_c, double to_temp_c);

// Evaporation of a thin wet surface into still indoor air, g/(m2 h): 1464 p M microgram/(m2 h), p in Pa, M in g/mol
// (Mackay and van Wesenbeeck, Environ. Sci. Technol. 48 (2014) 10259). Within about a factor of 2.
double evaporation_mackay_g_m2_h(double p_kpa, double molar_mass_g_mol);

// Evaporation of a pool in a wind of air_speed_m_s, g/(m2 h): QR = 0.284 U^0.78 M^(2/3) A p /(82.05 T), lb/min, U in
// m/s, A in ft2, p in mmHg, T in K (EPA 550-B-99-009, Risk Management Program guidance for offsite consequence
// analysis, from memory). Made for outdoor wind: at the 0.1 m/s of a room expect no more than a factor of 3.
double evaporation_epa_g_m2_h(double p_kpa, double molar_mass_g_mol, double air_speed_m_s, double temp_c);

#endif
