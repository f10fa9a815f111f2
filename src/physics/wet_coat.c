// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/wet_coat.h"

#include "base/units.h"

#include <math.h>
#include <string.h>

static const double brush_least_um = 30, brush_most_um = 100, spray_least_um = 10, spray_most_um = 40;

static double resin_share(double percent_w_v) {
    double percent = isnan(percent_w_v) ? COAT_PERCENT_USUAL : percent_w_v;
    return percent / (100 * COAT_RESIN_DENSITY);
}

// --- activities of the carrier with the resin in it ---

static void activities_with_resin(const struct film *resin, const struct blend *blend, const double *phi,
                                  double resin_fraction, double *ret_ln_activity) {
    double moles[BLEND_COMPONENTS_MAX], given[BLEND_COMPONENTS_MAX];
    // film_activities wants every component present: a trace stands for what is gone.
    for (size_t i = 0; i < blend->count; i++)
        moles[i] = fmax(phi[i], 1e-12) * (1 - resin_fraction) / resin_fraction / resin->volume[i];
    film_activities(resin, moles, given, NULL);
    for (size_t i = 0; i < blend->count; i++)
        ret_ln_activity[i] = phi[i] > 1e-9 ? fmin(given[i], 0) : -INFINITY;
}

static void fill_activities(const struct wet_coat *coat, const struct film *resin, struct coat_point *point) {
    const struct evaporation_point *at = &coat->path.points[point->path];
    if (!coat->covered)
        return;
    if (resin)
        activities_with_resin(resin, &coat->path.blend, at->phi, point->resin_fraction, point->ln_activity);
    else
        film_liquid_activities(&coat->activity, at->x, point->ln_activity);
}

// --- the time it is wet ---

static void add_points(struct wet_coat *coat, const struct film *resin, double share) {
    for (size_t i = 0; i < coat->path.count; i++) {
        double left = coat->path.points[i].volume_left;
        double fraction = share / (share + (1 - share) * left);
        if (fraction > COAT_SET && coat->count > 0)
            return;
        struct coat_point point = {.path = i, .resin_fraction = fraction};
        fill_activities(coat, resin, &point);
        coat->points[coat->count++] = point;
    }
}

// When so much of the carrier is left; the last point of the coat if it sets before.
static double time_with_left(const struct wet_coat *coat, double left) {
    size_t i = 0;
    while (i + 1 < coat->count && coat->path.points[coat->points[i].path].volume_left > left)
        i++;
    return coat->path.points[coat->points[i].path].time;
}

static void fill_times(struct wet_coat *coat, double share) {
    if (coat->count == 0)
        return;
    double whole = coat->path.points[coat->points[coat->count - 1].path].time;
    double shortest = coat->sprayed ? whole - time_with_left(coat, COAT_SPRAYED_LEFT) : whole;
    double least = coat->sprayed ? spray_least_um : brush_least_um;
    double most = coat->sprayed ? spray_most_um : brush_most_um;
    coat->seconds_least = least * (1 - share) * shortest * COAT_SECONDS_PER_UM;
    coat->seconds_most = most * (1 - share) * whole * COAT_SECONDS_PER_UM * COAT_SLOWEST_AIR;
}

enum status wet_coat_follow(const struct wet_coat_request *request, struct wet_coat *ret, struct error *err) {
    struct evaporation_options how = {.temp_c = request->temp_c};
    struct film resin;
    struct film_parameters parameters;
    double share = resin_share(request->percent_w_v);
    memset(ret, 0, sizeof *ret);
    ret->sprayed = request->sprayed;
    enum status status = evaporation_follow(request->lib, request->table, request->carrier, &how, &ret->path, err);
    if (status == STATUS_OK)
        status = activity_prepare_blend(request->table, request->carrier, kelvin_from_celsius(request->temp_c),
                                        &ret->activity, err);
    if (status != STATUS_OK)
        return status;
    ret->covered = activity_covers(&ret->activity);
    ret->resin_counted = ret->covered && film_parameters_of_material(request->resin, &parameters, NULL) == STATUS_OK &&
                         film_prepare(&parameters, &ret->activity, &resin, NULL) == STATUS_OK;
    add_points(ret, ret->resin_counted ? &resin : NULL, share);
    fill_times(ret, share);
    return STATUS_OK;
}

// --- what it does below ---

void wet_coat_film(const struct wet_coat *coat, const struct film_parameters *below, bool neat,
                   struct film_result *ret) {
    struct film film;
    film_no_result(FILM_NOT_COVERED, ret);
    if (!coat->covered || film_prepare(below, &coat->activity, &film, NULL) != STATUS_OK)
        return;
    struct film_state state = {0};
    for (size_t i = 0; i < coat->count; i++) {
        double liquid[BLEND_COMPONENTS_MAX];
        struct film_result result;
        if (neat)
            film_liquid_activities(&coat->activity, coat->path.points[coat->points[i].path].x, liquid);
        film_of_activities(&film, neat ? liquid : coat->points[i].ln_activity, &state, &result);
        if (i == 0 || film_takes_up_more(&result, ret))
            *ret = result;
    }
}

enum status wet_coat_blend(const struct library *lib, const struct wet_coat *coat, size_t point, struct blend *ret,
                           struct error *err) {
    const struct evaporation_point *at = &coat->path.points[coat->points[point].path];
    struct blend_part parts[BLEND_BOTTLES_MAX];
    size_t count = 0;
    for (size_t i = 0; i < coat->path.blend.count && count < BLEND_BOTTLES_MAX; i++)
        if (at->phi[i] > 1e-6)
            parts[count++] =
                (struct blend_part){.bottle = {.component = coat->path.blend.components[i]}, .parts = 100 * at->phi[i]};
    return blend_make(lib, parts, count, ret, err);
}

static double share_in_component(const struct library *lib, const struct component *component, int family) {
    if (component->family == family)
        return 1;
    for (size_t i = 0; i < lib->family_share_count; i++)
        if (lib->family_shares[i].family == family && strcmp(lib->family_shares[i].component, component->id) == 0)
            return lib->family_shares[i].percent / 100;
    return 0;
}

double wet_coat_family_share(const struct library *lib, const struct wet_coat *coat, int family) {
    double most = 0;
    for (size_t k = 0; k < coat->count; k++) {
        double share = 0;
        for (size_t i = 0; i < coat->path.blend.count; i++)
            share += share_in_component(lib, coat->path.blend.components[i], family) *
                     coat->path.points[coat->points[k].path].phi[i];
        most = fmax(most, share);
    }
    return most;
}
