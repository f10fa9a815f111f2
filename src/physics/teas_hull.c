// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/teas_hull.h"

#include "physics/hansen.h"

#include <math.h>
#include <stdlib.h>

static int by_place(const void *a, const void *b) {
    const struct teas *x = a, *y = b;
    if (x->fp < y->fp || x->fp > y->fp)
        return x->fp < y->fp ? -1 : 1;
    return (x->fh > y->fh) - (x->fh < y->fh);
}

// Twice the area of o, a, b in (fp, fh): above 0 for a turn to the left.
static double turn(struct teas o, struct teas a, struct teas b) {
    return (a.fp - o.fp) * (b.fh - o.fh) - (a.fh - o.fh) * (b.fp - o.fp);
}

static size_t inside(const struct library *lib, const struct material *material, struct teas *ret) {
    size_t count = 0;
    for (size_t i = 0; i < lib->component_count && count < TEAS_HULL_MOST; i++) {
        const struct component *component = &lib->components[i];
        struct teas place = {component->teas.fd, component->teas.fp, component->teas.fh};
        if (!isnan(place.fd) && hansen_red(hansen_of_component(component), &material->sphere) < 1)
            ret[count++] = place;
    }
    return count;
}

// Andrew's monotone chain (Inf. Process. Lett. 9 (1979) 216, from memory): one half of the hull.
static size_t half(const struct teas *points, size_t count, int step, struct teas *ret) {
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        struct teas point = step > 0 ? points[i] : points[count - 1 - i];
        while (kept >= 2 && turn(ret[kept - 2], ret[kept - 1], point) <= 0)
            kept--;
        ret[kept++] = point;
    }
    return kept - 1; // the last is the first of the other half
}

size_t teas_hull_of_sphere(const struct library *lib, const struct material *material,
                           struct teas ret[TEAS_HULL_MOST]) {
    struct teas points[TEAS_HULL_MOST], halves[2 * TEAS_HULL_MOST];
    if (isnan(material->sphere.r0))
        return 0;
    size_t count = inside(lib, material, points);
    if (count < 3)
        return 0;
    qsort(points, count, sizeof points[0], by_place);
    size_t lower = half(points, count, 1, halves);
    size_t whole = lower + half(points, count, -1, halves + lower);
    if (whole < 3)
        return 0;
    for (size_t i = 0; i < whole; i++)
        ret[i] = halves[i];
    return whole;
}
