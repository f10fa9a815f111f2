// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/vapour_pressure.h"

#include "base/units.h"

#include <math.h>

enum status antoine_pressure_kpa(const struct antoine_values *antoine, const char *name, double temp_c,
                                 double *ret_p_kpa, bool *ret_extrapolated, struct error *err) {
    if (isnan(antoine->a) || isnan(antoine->b) || isnan(antoine->c))
        return error_set(err, STATUS_NO_DATA, "no vapour pressure curve for '%s'", name);
    if (!isfinite(temp_c) || temp_c + antoine->c <= 0)
        return error_set(err, STATUS_RANGE, "%g degC is below what the vapour pressure curve of '%s' can give", temp_c,
                         name);
    bool inside = temp_c >= antoine->t_min && temp_c <= antoine->t_max;
    if (!inside && !ret_extrapolated)
        return error_set(err, STATUS_RANGE,
                         "%g degC is outside the range %g to %g degC of the vapour pressure curve of '%s'", temp_c,
                         antoine->t_min, antoine->t_max, name);
    *ret_p_kpa = pow(10.0, antoine->a - antoine->b / (temp_c + antoine->c));
    if (ret_extrapolated)
        *ret_extrapolated = !inside;
    return STATUS_OK;
}

double antoine_curve_kpa(const struct antoine_values *antoine, double temp_c, bool *ret_extrapolated) {
    double p_kpa = NAN;
    bool extrapolated = false;
    enum status status = antoine_pressure_kpa(antoine, "", temp_c, &p_kpa, &extrapolated, NULL);
    if (ret_extrapolated)
        *ret_extrapolated = extrapolated;
    return status == STATUS_RANGE ? 0 : p_kpa;
}

static double listed_pressure(const struct properties *properties, double temp_c) {
    if (temp_c == 20.0)
        return properties->vapour_pressure_20c.value;
    if (temp_c == 25.0)
        return properties->vapour_pressure_25c.value;
    return NAN;
}

enum status component_pressure_kpa(const struct component *component, double temp_c, double *ret_p_kpa,
                                   enum pressure_source *ret_source, struct error *err) {
    const struct properties *properties = component->properties;
    if (!properties)
        return error_set(err, STATUS_NO_DATA, "no vapour pressure for '%s'", component->id);
    double listed = listed_pressure(properties, temp_c);
    double p_kpa = NAN;
    bool extrapolated = false;
    enum status status = antoine_pressure_kpa(&properties->antoine, component->id, temp_c, &p_kpa, &extrapolated, err);
    if ((status != STATUS_OK || extrapolated) && !isnan(listed)) {
        error_clear(err);
        *ret_p_kpa = listed;
        *ret_source = PRESSURE_LISTED;
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return status;
    *ret_p_kpa = p_kpa;
    *ret_source = extrapolated ? PRESSURE_EXTRAPOLATED : PRESSURE_CURVE;
    return STATUS_OK;
}

double saturated_mg_m3(double p_kpa, double molar_mass_g_mol, double temp_c) {
    // gas_molar_volume is in L/mol = m3/kmol; M in g/mol is kg/kmol; kg to mg.
    return molar_mass_g_mol / gas_molar_volume_l_mol(kelvin_from_celsius(temp_c), p_kpa) * 1e6;
}

double saturated_ppm(double p_kpa) {
    return p_kpa / ATMOSPHERE_KPA * 1e6;
}
