// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/release.h"

#include "physics/ventilation.h"

#include <math.h>

enum status release_most_mg_h(const struct unifac_table *table, const struct blend *blend, double wet_m2, double temp_c,
                              double ret_mg_h[BLEND_COMPONENTS_MAX], struct error *err) {
    if (!(wet_m2 > 0) || !isfinite(wet_m2))
        return error_set(err, STATUS_RANGE, "a wet surface of %g m2; it must be above 0", wet_m2);
    struct vapour vapour;
    enum status status = vapour_over_blend(table, blend, temp_c, &vapour, err);
    if (status != STATUS_OK && status != STATUS_NO_DATA)
        return status;
    for (size_t i = 0; i < blend->count; i++) {
        const struct properties *properties = blend->components[i]->properties;
        double molar_mass_g_mol = properties ? properties->molar_mass.value : NAN;
        double p_kpa = status == STATUS_OK ? vapour.parts[i].p_kpa : NAN;
        ret_mg_h[i] = 1000 * wet_m2 * evaporation_mackay_g_m2_h(p_kpa, molar_mass_g_mol); // g to mg
    }
    return STATUS_OK;
}
