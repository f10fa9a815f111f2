// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/teas.h"

#include "base/language.h"

#include <math.h>

const char *teas_rule_words(enum teas_rule rule) {
    return rule == TEAS_MEAN_OF_FRACTIONS ? say("volume mean of published fractions")
                                          : say("fractions of the mean Hansen parameters");
}

// A negative fitted part (some published polymers) has no place in a triangle; it counts as zero there.
struct teas teas_of_hansen(struct hansen h) {
    double d = fmax(h.delta_d, 0);
    double p = fmax(h.delta_p, 0);
    double hb = fmax(h.delta_h, 0);
    double sum = d + p + hb;
    return (struct teas){100 * d / sum, 100 * p / sum, 100 * hb / sum};
}

enum status teas_of_component(const struct component *component, struct teas *ret, bool *ret_computed,
                              struct error *err) {
    if (!isnan(component->teas.fd)) {
        *ret = (struct teas){component->teas.fd, component->teas.fp, component->teas.fh};
        if (ret_computed)
            *ret_computed = false;
        return STATUS_OK;
    }
    struct hansen h = hansen_of_component(component);
    if (isnan(h.delta_d))
        return error_set(err, STATUS_NO_DATA, "neither Teas fractions nor a Hansen split are published for '%s'",
                         component->id);
    *ret = teas_of_hansen(h);
    if (ret_computed)
        *ret_computed = true;
    return STATUS_OK;
}

static enum status mean_of_fractions(const struct blend *blend, struct teas *ret, size_t *ret_computed,
                                     struct error *err) {
    struct teas mean = {0};
    size_t computed_count = 0;
    for (size_t i = 0; i < blend->count; i++) {
        struct teas one;
        bool computed;
        enum status status = teas_of_component(blend->components[i], &one, &computed, err);
        if (status != STATUS_OK)
            return status;
        mean.fd += blend->volume_fractions[i] * one.fd;
        mean.fp += blend->volume_fractions[i] * one.fp;
        mean.fh += blend->volume_fractions[i] * one.fh;
        computed_count += computed;
    }
    *ret = mean;
    if (ret_computed)
        *ret_computed = computed_count;
    return STATUS_OK;
}

enum status teas_of_blend(const struct blend *blend, enum teas_rule rule, struct teas *ret, size_t *ret_computed,
                          struct error *err) {
    if (rule == TEAS_MEAN_OF_FRACTIONS)
        return mean_of_fractions(blend, ret, ret_computed, err);
    struct hansen mean;
    enum status status = hansen_of_blend(blend, &mean, err);
    if (status != STATUS_OK)
        return status;
    *ret = teas_of_hansen(mean);
    if (ret_computed)
        *ret_computed = blend->count;
    return STATUS_OK;
}

double teas_distance(struct teas a, struct teas b) {
    double d = a.fd - b.fd;
    double p = a.fp - b.fp;
    double h = a.fh - b.fh;
    return sqrt((d * d + p * p + h * h) / 2);
}

// Corners: all dispersion at the lower left, all polar at the lower right, all hydrogen bonding at the top.
void teas_xy(struct teas point, double *ret_x, double *ret_y) {
    double sum = point.fd + point.fp + point.fh;
    double top = point.fh / sum;
    double right = point.fp / sum;
    *ret_x = right + top / 2;
    *ret_y = top * sqrt(3) / 2;
}

static void corner_xy(const struct teas_region *region, size_t i, double *ret_x, double *ret_y) {
    const double *corner = region->vertices.items + 3 * (i % region->vertices.count);
    teas_xy((struct teas){corner[0], corner[1], corner[2]}, ret_x, ret_y);
}

static double distance_to_side(double x, double y, double ax, double ay, double bx, double by) {
    double length2 = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
    double t = length2 > 0 ? ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2 : 0;
    t = fmin(fmax(t, 0), 1);
    return hypot(x - (ax + t * (bx - ax)), y - (ay + t * (by - ay)));
}

double teas_distance_to_region(struct teas point, const struct teas_region *region) {
    double x, y;
    teas_xy(point, &x, &y);
    double least = INFINITY;
    for (size_t i = 0; i < region->vertices.count; i++) {
        double ax, ay, bx, by;
        corner_xy(region, i, &ax, &ay);
        corner_xy(region, i + 1, &bx, &by);
        least = fmin(least, distance_to_side(x, y, ax, ay, bx, by));
    }
    return 100 * least;
}

// Points within rounding of an edge count as inside, so that a corner of a hull is inside it.
static const double edge_tolerance = 1e-9;

bool teas_inside(struct teas point, const struct teas_region *region) {
    double x, y;
    teas_xy(point, &x, &y);
    bool inside = false;
    for (size_t i = 0; i < region->vertices.count; i++) {
        double ax, ay, bx, by;
        corner_xy(region, i, &ax, &ay);
        corner_xy(region, i + 1, &bx, &by);
        if ((ay > y) != (by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax))
            inside = !inside;
    }
    return inside || teas_distance_to_region(point, region) < edge_tolerance;
}
