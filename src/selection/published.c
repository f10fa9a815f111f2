// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/published.h"

#include "selection/strong.h"

#include <string.h>

static const double share_that_counts = 0.01;

static double least_of_class(enum swelling_class class) {
    static const enum film_band bands[] = {BAND_VERY_LOW, BAND_LOW, BAND_MODERATE, BAND_HIGH};
    return film_band_from(bands[class]);
}

static const struct published_swelling *class_of(const struct material *material, const struct component *component) {
    const struct published_swelling *classes = material->swelling_classes.items;
    for (size_t i = 0; i < material->swelling_classes.count; i++)
        if (strcmp(classes[i].component, component->id) == 0)
            return &classes[i];
    return NULL;
}

struct published published_swelling_of(const struct material *material, const struct blend *blend) {
    struct published found = {0};
    for (size_t i = 0; i < blend->count; i++) {
        const struct published_swelling *row =
            blend->volume_fractions[i] >= PUBLISHED_SHARE ? class_of(material, blend->components[i]) : NULL;
        if (row && (!found.swelling || row->class > found.swelling->class))
            found = (struct published){row, blend->components[i], least_of_class((enum swelling_class)row->class)};
    }
    return found;
}

static bool is_non_solvent(const struct material *material, const struct component *component) {
    for (size_t i = 0; i < material->non_solvents.count; i++)
        if (strcmp(material->non_solvents.items[i], component->id) == 0)
            return true;
    return false;
}

bool published_outside(const struct material *material, const struct blend *blend) {
    size_t strong = 0;
    size_t outside = 0;
    for (size_t i = 0; i < blend->count; i++) {
        if (component_is_weak(blend->components[i]) || blend->volume_fractions[i] < share_that_counts)
            continue;
        strong++;
        outside += is_non_solvent(material, blend->components[i]);
    }
    return strong > 0 && strong == outside;
}
