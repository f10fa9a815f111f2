// SPDX-License-Identifier: GPL-3.0-or-later
// Vapour pressure of a component, and the most vapour that air can hold of it.
#ifndef MILDSOLVE_PHYSICS_VAPOUR_PRESSURE_H
#define MILDSOLVE_PHYSICS_VAPOUR_PRESSURE_H

#include "base/error.h"
#include "data/tables.h"

// log10(p/kPa) = a - b/(t/degC + c) (Antoine, C. R. Acad. Sci. 107 (1888) 681). Inside [t_min, t_max] the accuracy is
// that of the table (usually about 1 %). Outside it: with ret_extrapolated the curve is followed and *ret_extrapolated
// set for the caller to print; with NULL the answer is STATUS_RANGE. STATUS_NO_DATA without constants; STATUS_RANGE at
// or below the curve's pole t = -c, where it means nothing. `name` stands in the sentences.
enum status antoine_pressure_kpa(const struct antoine_values *antoine, const char *name, double temp_c,
                                 double *ret_p_kpa, bool *ret_extrapolated, struct error *err);

// The curve alone, inside its range or not, continuous in temperature: at or below the pole its limit there, 0; NAN
// without constants. *ret_extrapolated (may be NULL) is set where the curve is followed outside its range.
double antoine_curve_kpa(const struct antoine_values *antoine, double temp_c, bool *ret_extrapolated);

enum pressure_source {
    PRESSURE_CURVE,       // the curve, inside its range
    PRESSURE_LISTED,      // a listed figure at this very temperature (20 or 25 degC)
    PRESSURE_EXTRAPOLATED // the curve, outside its range: say so
};

// The pressure to use for a component at temp_c: the curve inside its range; else the listed figure at 20 or
// 25 degC when temp_c is that temperature; else the curve extrapolated. Errors as above.
enum status component_pressure_kpa(const struct component *component, double temp_c, double *ret_p_kpa,
                                   enum pressure_source *ret_source, struct error *err);

// Vapour in saturated air as an ideal gas: C = p M / (R T), mg/m3. Over a blend the partial pressure is at most
// that of the neat component (activity at most 1 in a stable liquid), so this bounds blends too.
double saturated_mg_m3(double p_kpa, double molar_mass_g_mol, double temp_c);

// The same as ppm by volume at one atmosphere.
double saturated_ppm(double p_kpa);

#endif
