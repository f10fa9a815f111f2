// SPDX-License-Identifier: GPL-3.0-or-later
// How fast one neat component evaporates.
#include "physics/evaporation.h"

#include "base/units.h"
#include "physics/diffusion.h"
#include "physics/evaporation_parts.h"

#include <math.h>

// The measure of all rates, by trade custom.
const char evaporation_reference_id[] = "n-butyl-acetate";

// k ~ D^(2/3)
static const double diffusivity_power = 2.0 / 3.0;

enum status evaporation_transfer(const struct component *component, double temp_k, bool equal, double *ret_k,
                                 struct error *err) {
    double cm2_s = 1;
    enum status status = equal ? STATUS_OK : diffusivity_in_air(component, temp_k, &cm2_s, err);
    if (status == STATUS_OK)
        *ret_k = pow(cm2_s, diffusivity_power);
    return status;
}

// k psat V of a neat component: the volume it loses in a given time, in a unit that is common to all.
static enum status volume_rate(const struct component *component, double temp_c, bool equal, double *ret_rate,
                               struct error *err) {
    double k, p_kpa;
    enum pressure_source source;
    enum status status = evaporation_transfer(component, kelvin_from_celsius(temp_c), equal, &k, err);
    if (status == STATUS_OK)
        status = component_pressure_kpa(component, temp_c, &p_kpa, &source, err);
    if (status != STATUS_OK)
        return status;
    if (!(component->molar_volume.value > 0))
        return error_set(err, STATUS_NO_DATA, "no molar volume is known for '%s'", component->id);
    *ret_rate = k * p_kpa * component->molar_volume.value;
    return STATUS_OK;
}

enum status evaporation_reference_rate(const struct library *lib, double temp_c, bool equal, double *ret_rate,
                                       struct error *err) {
    const struct component *reference;
    enum status status = library_component(lib, evaporation_reference_id, &reference, err);
    return status == STATUS_OK ? volume_rate(reference, temp_c, equal, ret_rate, err) : status;
}

enum status evaporation_rate(const struct library *lib, const struct component *component, double temp_c,
                             double *ret_rate, struct error *err) {
    double own = NAN, reference = NAN;
    enum status status = volume_rate(component, temp_c, false, &own, err);
    if (status == STATUS_OK)
        status = evaporation_reference_rate(lib, temp_c, false, &reference, err);
    if (status == STATUS_OK)
        *ret_rate = own / reference;
    return status;
}
