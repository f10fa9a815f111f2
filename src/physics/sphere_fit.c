// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/sphere_fit.h"

#include <gsl/gsl_sort.h>
#include <math.h>

bool sphere_right(const struct sphere *sphere, const struct sphere_liquid *liquid) {
    return (hansen_distance(liquid->place, sphere->centre) < sphere->r0) == liquid->dissolves;
}

struct fitting {
    const struct sphere_liquid *liquids;
    size_t count;
    double radius_most;
};

// What the best radius about one centre reaches.
struct trial {
    struct sphere sphere;
    size_t right;
    double gap; // over the radius
};

static bool better(const struct trial *a, const struct trial *b) {
    return a->right != b->right ? a->right > b->right : a->gap > b->gap;
}

// The radii between two neighbours in distance all set the same liquids right; the middle of each such step is tried.
static struct trial best_radius(const struct fitting *fitting, struct hansen centre) {
    double distances[SPHERE_LIQUIDS_MAX];
    size_t order[SPHERE_LIQUIDS_MAX], inside_right = 0, outside_right = 0;
    struct trial best = {.sphere = {centre, SPHERE_RADIUS_LEAST}};
    for (size_t i = 0; i < fitting->count; i++) {
        distances[i] = hansen_distance(fitting->liquids[i].place, centre);
        outside_right += !fitting->liquids[i].dissolves;
    }
    gsl_sort_index(order, distances, 1, fitting->count);
    for (size_t k = 0; k <= fitting->count; k++) { // k liquids inside
        double from = k ? distances[order[k - 1]] : 0;
        double to = k < fitting->count ? distances[order[k]] : INFINITY;
        double least = fmax(from, SPHERE_RADIUS_LEAST), most = fmin(to, fitting->radius_most);
        if (least < most) {
            double r0 = isinf(to) ? fmin(1.1 * least, most) : fmin(fmax(0.5 * (from + to), least), most);
            double gap = fmin(r0 - from, isinf(to) ? r0 - from : to - r0) / r0;
            struct trial trial = {{centre, r0}, inside_right + outside_right, gap};
            if (better(&trial, &best))
                best = trial;
        }
        if (k < fitting->count) {
            bool dissolves = fitting->liquids[order[k]].dissolves;
            inside_right += dissolves;
            outside_right -= !dissolves;
        }
    }
    return best;
}

// --- the search over centres ---

static const double d_first = 12, d_last = 24, p_last = 26, h_last = 30;
static const double d_step = 0.5, other_step = 1;

static void widen(struct sphere_range *range, double value) {
    range->least = fmin(range->least, value), range->most = fmax(range->most, value);
}

static void count_as_good(const struct fitting *fitting, const struct trial *trial, struct sphere_fit *fit) {
    const struct sphere_range empty = {INFINITY, -INFINITY};
    if (trial->right > fit->right) {
        fit->right = trial->right;
        fit->as_good = 0;
        fit->delta_d = fit->delta_p = fit->delta_h = fit->r0 = empty;
        fit->radius_bounded = false;
    }
    if (trial->right < fit->right)
        return;
    fit->as_good++;
    widen(&fit->delta_d, trial->sphere.centre.delta_d);
    widen(&fit->delta_p, trial->sphere.centre.delta_p);
    widen(&fit->delta_h, trial->sphere.centre.delta_h);
    widen(&fit->r0, trial->sphere.r0);
    fit->radius_bounded = fit->radius_bounded || trial->sphere.r0 > 0.98 * fitting->radius_most;
}

static struct trial search_grid(const struct fitting *fitting, struct sphere_fit *fit) {
    struct trial best = {.right = 0, .gap = -1};
    for (double d = d_first; d <= d_last; d += d_step)
        for (double p = 0; p <= p_last; p += other_step)
            for (double h = 0; h <= h_last; h += other_step) {
                struct trial trial = best_radius(fitting, (struct hansen){d, p, h});
                count_as_good(fitting, &trial, fit);
                if (better(&trial, &best))
                    best = trial;
            }
    return best;
}

// Pattern search (Hooke & Jeeves, J. ACM 8 (1961) 212): to the best neighbour, else half the step.
static struct trial refine(const struct fitting *fitting, struct trial best) {
    for (double step = 1; step > 0.01;) {
        struct trial next = best;
        for (int i = 0; i < 27; i++) {
            struct hansen centre = best.sphere.centre;
            int along_d = i % 3 - 1, along_p = i / 3 % 3 - 1, along_h = i / 9 - 1;
            centre.delta_d += 0.5 * step * along_d;
            centre.delta_p = fmax(centre.delta_p + step * along_p, 0);
            centre.delta_h = fmax(centre.delta_h + step * along_h, 0);
            struct trial trial = best_radius(fitting, centre);
            if (better(&trial, &next))
                next = trial;
        }
        if (!better(&next, &best))
            step /= 2;
        best = next;
    }
    return best;
}

static double data_fit(const struct fitting *fitting, const struct sphere *sphere) {
    double sum = 0;
    for (size_t i = 0; i < fitting->count; i++)
        if (!sphere_right(sphere, &fitting->liquids[i]))
            sum += fabs(hansen_distance(fitting->liquids[i].place, sphere->centre) - sphere->r0);
    return exp(-sum / (double)fitting->count);
}

static enum status check(const struct fitting *fitting, struct error *err) {
    size_t dissolve = 0;
    if (fitting->count < 2 || fitting->count > SPHERE_LIQUIDS_MAX)
        return error_set(err, STATUS_RANGE, "%zu liquids: a sphere is fitted to 2 to %d", fitting->count,
                         SPHERE_LIQUIDS_MAX);
    if (!(fitting->radius_most > SPHERE_RADIUS_LEAST && fitting->radius_most <= 50))
        return error_set(err, STATUS_RANGE, "a radius of at most %g MPa^0.5: above %g and up to 50 is possible",
                         fitting->radius_most, SPHERE_RADIUS_LEAST);
    for (size_t i = 0; i < fitting->count; i++)
        dissolve += fitting->liquids[i].dissolves;
    if (dissolve == 0)
        return error_set(err, STATUS_RANGE, "none of the liquids dissolves the material: any small sphere would do");
    if (dissolve == fitting->count)
        return error_set(err, STATUS_RANGE, "all of the liquids dissolve the material: nothing bounds the sphere");
    return STATUS_OK;
}

enum status sphere_fit(const struct sphere_liquid *liquids, size_t count, double radius_most, struct sphere_fit *ret,
                       struct error *err) {
    struct fitting fitting = {liquids, count, radius_most};
    enum status status = check(&fitting, err);
    if (status != STATUS_OK)
        return status;
    struct sphere_fit fit = {0};
    struct trial best = refine(&fitting, search_grid(&fitting, &fit));
    count_as_good(&fitting, &best, &fit);
    fit.best = best.sphere;
    fit.data_fit = data_fit(&fitting, &best.sphere);
    *ret = fit;
    return STATUS_OK;
}
