// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/place.h"

#include <math.h>

// Inside beats outside; among areas on the same side the nearer edge counts.
static void try_area(const struct teas_region *area, const struct teas *point, struct material_place *place) {
    bool inside = teas_inside(*point, area);
    double distance = teas_distance_to_region(*point, area);
    bool better = !place->area || (inside && !place->inside_area) ||
                  (inside == place->inside_area && distance < place->teas_distance);
    if (!better)
        return;
    place->area = area;
    place->inside_area = inside;
    place->teas_distance = distance;
}

void place_against(const struct material *material, const struct hansen *liquid, const struct teas *point,
                   struct material_place *ret) {
    *ret = (struct material_place){.material = material, .ra_mpa05 = NAN, .red = NAN, .teas_distance = NAN};
    if (liquid && !isnan(material->sphere.r0)) {
        ret->ra_mpa05 = hansen_distance(*liquid, hansen_of_sphere(&material->sphere));
        ret->red = hansen_red(*liquid, &material->sphere);
    }
    const struct teas_region *areas = material->regions.items;
    for (size_t i = 0; point && i < material->regions.count; i++)
        try_area(&areas[i], point, ret);
}
