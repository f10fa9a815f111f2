// SPDX-License-Identifier: GPL-3.0-or-later
// The vapour over a liquid: modified Raoult's law p_i = x_i gamma_i psat_i(T) (ideal gas; at room pressure this
// neglects about 1 % for common solvents, more for acids, whose vapour pairs up). A component without vapour
// pressure, or a liquid that no activity model covers, is said so and gives NAN, never zero.
#ifndef MILDSOLVE_PHYSICS_VAPOUR_H
#define MILDSOLVE_PHYSICS_VAPOUR_H

#include "physics/activity.h"
#include "physics/blend.h"
#include "physics/vapour_pressure.h"

// --- a liquid at one temperature, ready for evaluation ---

struct vapour_liquid {
    struct activity_model activity;
    double psat_kpa[BLEND_COMPONENTS_MAX]; // of the neat component, NAN = not known
    enum pressure_source source[BLEND_COMPONENTS_MAX];
};

// STATUS_OK also when nothing covers the liquid or a pressure is not known: look at vapour_liquid_complete().
enum status vapour_liquid_prepare(const struct unifac_table *table, const struct component *const *components,
                                  size_t count, double temp_k, struct vapour_liquid *ret, struct error *err);

// The same liquid at another temperature, the pressures from the curves alone (also outside their range), so that
// they are continuous in temperature; below a curve's pole the pressure is its limit there, 0.
enum status vapour_liquid_set_temperature(struct vapour_liquid *liquid, double temp_k, struct error *err);

// STATUS_OK when every partial pressure can be given; otherwise STATUS_NO_DATA with what is lacking.
enum status vapour_liquid_complete(const struct vapour_liquid *liquid, struct error *err);

// c_i = gamma_i psat_i at overall mole fractions x, kPa, so that p_i = c_i x_i; positive also for x_i = 0. Where the
// liquid splits by its own model, gamma_i is the common activity over the overall x_i, at most that of the neat liquid
// (two liquids are looked for; the bound is exact also where there are three); *ret_two (may be NULL) says so.
// Only for a complete liquid (asserted). STATUS_RANGE for amounts that aren't fractions.
enum status vapour_coefficients(const struct vapour_liquid *liquid, const double *x, double *ret_c_kpa, bool *ret_two,
                                struct error *err);

// Partial pressures p_i over overall mole fractions x, kPa; otherwise as above.
enum status vapour_pressures(const struct vapour_liquid *liquid, const double *x, double *ret_p_kpa, bool *ret_two,
                             struct error *err);

// x without the shares below 1e-20, which decide nothing about a split but would cost its solver the last digits.
void vapour_present(size_t count, const double *x, double *ret_present);

// The temperature at which the pressure over x reaches p_kpa: the boiling point when that is the room's. The liquid is
// left at that temperature. STATUS_NO_DATA, STATUS_NO_ROOT (outside 150 to 600 K), STATUS_ITERATIONS.
enum status bubble_temperature(struct vapour_liquid *liquid, const double *x, double p_kpa, double *ret_temp_k,
                               struct error *err);

// The same for a blend at one atmosphere, in degC: its initial boiling point.
enum status boiling_point_of_blend(const struct unifac_table *table, const struct blend *blend, double *ret_temp_c,
                                   struct error *err);

// --- the vapour over a blend, for the person ---

enum { VAPOUR_SENTENCE_SIZE = 1280 };

struct vapour_part {
    const struct component *component;
    double x;                    // mole fraction in the liquid
    double activity;             // NAN without a model
    double psat_kpa;             // of the neat component, NAN = not known
    enum pressure_source source; // of psat_kpa
    double p_kpa;                // over the blend, NAN = not known
    double y;                    // mole fraction in the vapour (without air), NAN unless all pressures are known
    double saturated_mg_m3;      // in air saturated over the blend, NAN = not known
};

struct vapour {
    double temp_c;
    size_t count;
    struct vapour_part parts[BLEND_COMPONENTS_MAX];
    double total_kpa;                    // NAN unless all pressures are known
    bool complete;                       // all of them are
    bool extrapolated;                   // some curve is used outside its range
    bool two;                            // two liquids by the model
    bool weak;                           // the activities are only a rough guide
    char sentence[VAPOUR_SENTENCE_SIZE]; // the model and every doubt by name; never empty
};

// STATUS_OK also when something is not known: the sentence says what. STATUS_RANGE outside 150 to 600 K;
// STATUS_NO_DATA when a molar volume is lacking, so that there are no mole fractions.
enum status vapour_over_blend(const struct unifac_table *table, const struct blend *blend, double temp_c,
                              struct vapour *ret, struct error *err);

// Saturated concentration over a limit, both in ppm of air at one atmosphere (vapour hazard ratio: Pitt, IChemE Symp.
// Ser. 151 (2006); Gerin, Ann. Occup. Hyg. 53 (2009) 391). NAN without a pressure or a limit.
double vapour_hazard_ratio(double p_kpa, double limit_ppm);

#endif
