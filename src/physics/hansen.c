// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/hansen.h"

#include <math.h>

struct hansen hansen_of_component(const struct component *component) {
    return (struct hansen){component->hansen.delta_d, component->hansen.delta_p, component->hansen.delta_h};
}

struct hansen hansen_of_sphere(const struct sphere_values *sphere) {
    return (struct hansen){sphere->delta_d, sphere->delta_p, sphere->delta_h};
}

bool hansen_known(struct hansen place) {
    return isfinite(place.delta_d) && isfinite(place.delta_p) && isfinite(place.delta_h);
}

enum status hansen_of_blend(const struct blend *blend, struct hansen *ret, struct error *err) {
    struct hansen mean = {0};
    for (size_t i = 0; i < blend->count; i++) {
        struct hansen h = hansen_of_component(blend->components[i]);
        if (isnan(h.delta_d))
            return error_set(
                err, STATUS_NO_DATA,
                "no Hansen split is published for '%s' (only its total parameter), so its place in solubility "
                "space is not known",
                blend->components[i]->id);
        mean.delta_d += blend->volume_fractions[i] * h.delta_d;
        mean.delta_p += blend->volume_fractions[i] * h.delta_p;
        mean.delta_h += blend->volume_fractions[i] * h.delta_h;
    }
    *ret = mean;
    return STATUS_OK;
}

double hansen_distance(struct hansen a, struct hansen b) {
    double d = a.delta_d - b.delta_d;
    double p = a.delta_p - b.delta_p;
    double h = a.delta_h - b.delta_h;
    return sqrt(4 * d * d + p * p + h * h);
}

double hansen_exchange_energy(struct hansen a, struct hansen b) {
    double d = a.delta_d - b.delta_d;
    double p = a.delta_p - b.delta_p;
    double h = a.delta_h - b.delta_h;
    return d * d + p * p / 4 + h * h / 4;
}

double hansen_red(struct hansen liquid, const struct sphere_values *sphere) {
    return hansen_distance(liquid, hansen_of_sphere(sphere)) / sphere->r0;
}

double hansen_total(struct hansen h) {
    return sqrt(h.delta_d * h.delta_d + h.delta_p * h.delta_p + h.delta_h * h.delta_h);
}
