// SPDX-License-Identifier: GPL-3.0-or-later
#include "shelf.h"

#include <assert.h>
#include <stdio.h>

void invented_start(struct invented *invented, int components_most, int steps, double margin) {
    invented->component_count = invented->material_count = 0;
    invented->goal = (struct goal){.components_most = components_most, .steps = steps, .margin = margin};
}

void invented_bottle(struct invented *invented, const char *id, struct hansen place) {
    assert(invented->component_count < INVENTED_MOST);
    size_t at = invented->component_count++;
    snprintf(invented->ids[at], sizeof invented->ids[at], "%s", id);
    invented->components[at] = (struct component){.id = invented->ids[at]};
    invented->components[at].hansen.delta_d = place.delta_d;
    invented->components[at].hansen.delta_p = place.delta_p;
    invented->components[at].hansen.delta_h = place.delta_h;
    invented->goal.bottles[invented->goal.bottle_count++].component = &invented->components[at];
}

static const struct material *add_material(struct invented *invented, struct hansen centre, double r0) {
    struct material *material = &invented->materials[invented->material_count++];
    *material = (struct material){
        .id = "invented",
        .sphere = {.delta_d = centre.delta_d, .delta_p = centre.delta_p, .delta_h = centre.delta_h, .r0 = r0}};
    return material;
}

void invented_remove(struct invented *invented, struct hansen centre, double r0) {
    invented->goal.remove[invented->goal.remove_count++] = add_material(invented, centre, r0);
}

void invented_spare(struct invented *invented, struct hansen centre, double r0) {
    invented->goal.spare[invented->goal.spare_count++] = add_material(invented, centre, r0);
}

struct hansen random_place(struct random *random) {
    double d = 14 + 6 * random_uniform(random);
    double p = 18 * random_uniform(random);
    return (struct hansen){d, p, 26 * random_uniform(random)};
}
