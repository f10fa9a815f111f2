// SPDX-License-Identifier: GPL-3.0-or-later
// Flash points and relative rates of evaporation.
#include "errors.h"

#include "physics/evaporation.h"
#include "physics/flash.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

void errors_flash_pure(const struct error_tables *tables, struct errors *ret) {
    for (size_t i = 0; i < tables->lib.component_count; i++) {
        const struct component *component = &tables->lib.components[i];
        double listed = component->properties ? component->properties->flash_point.value : NAN, got;
        if (isnan(listed))
            continue;
        if (flash_from_lower_limit(component, &got, NULL) == STATUS_OK)
            errors_add(ret, listed, got, got - listed, "%s", component->id);
        else
            errors_leave_out(ret, "%s", component->id);
    }
}

// Per cent ethanol and closed-cup flash point in degC (Engineering ToolBox; two other pages print the same figures by
// volume, which is the basis taken here).
static const double ethanol_water[][2] = {{5, 62},  {10, 49}, {20, 36}, {30, 29}, {40, 26}, {50, 24},
                                          {60, 22}, {70, 21}, {80, 20}, {90, 17}, {96, 17}};

void errors_flash_ethanol_water(const struct error_tables *tables, struct errors *ret) {
    for (size_t i = 0; i < sizeof ethanol_water / sizeof *ethanol_water; i++) {
        char notation[64];
        struct blend blend;
        struct flash flash;
        struct error err = {0};
        double percent = ethanol_water[i][0], listed = ethanol_water[i][1];
        snprintf(notation, sizeof notation, "ethanol %g + water %g", percent, 100 - percent);
        if (blend_parse(&tables->lib, notation, &blend, NULL, &err) != STATUS_OK ||
            flash_point_of_blend(&tables->unifac, &blend, &flash, &err) != STATUS_OK) {
            fprintf(stderr, "%s: %s\n", notation, err.text);
            exit(2);
        }
        errors_add(ret, listed, flash.model_c, flash.model_c - listed, "ethanol %g %% by volume", percent);
    }
}

void errors_rates(const struct error_tables *tables, struct errors *ret) {
    for (size_t i = 0; i < tables->lib.component_count; i++) {
        const struct component *component = &tables->lib.components[i];
        double listed = component->properties ? component->properties->evaporation_rate.value : NAN, got;
        if (isnan(listed))
            continue;
        if (evaporation_rate(&tables->lib, component, 25, &got, NULL) == STATUS_OK)
            errors_add(ret, listed, got, got / listed, "%s", component->id);
        else
            errors_leave_out(ret, "%s", component->id);
    }
}
