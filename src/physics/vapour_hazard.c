// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/vapour_hazard.h"

#include <math.h>

static enum status add_part(const struct library *lib, const struct vapour_part *part, struct vapour_hazard *hazard,
                            double *largest, struct error *err) {
    struct limit_set limits;
    if (component_needs_no_limit(part->component))
        return STATUS_OK;
    enum status status = limit_set_of(lib, hazard->authority, part->component, &limits, err);
    if (status != STATUS_OK)
        return status;
    const struct limit_value *limit = limit_set_for_mean(&limits);
    if (!limit || isnan(part->saturated_mg_m3)) {
        hazard->complete = false;
        hazard->unknown = hazard->unknown ? hazard->unknown : part->component;
        return STATUS_OK;
    }
    double ratio = part->saturated_mg_m3 / limit->mg_m3;
    hazard->ratio = isnan(hazard->ratio) ? ratio : hazard->ratio + ratio;
    if (!hazard->largest || ratio > *largest) {
        hazard->largest = part->component;
        *largest = ratio;
    }
    return STATUS_OK;
}

enum status vapour_hazard_of(const struct library *lib, const struct vapour *vapour, const struct authority *authority,
                             struct vapour_hazard *ret, struct error *err) {
    struct vapour_hazard hazard = {.authority = authority, .ratio = NAN, .complete = true};
    double largest = 0;
    for (size_t i = 0; i < vapour->count; i++) {
        enum status status = add_part(lib, &vapour->parts[i], &hazard, &largest, err);
        if (status != STATUS_OK)
            return status;
    }
    *ret = hazard;
    return STATUS_OK;
}
