// SPDX-License-Identifier: GPL-3.0-or-later
// What is varied in one sample (doubt.h), drawn.
#ifndef MILDSOLVE_SELECTION_DOUBT_DRAW_H
#define MILDSOLVE_SELECTION_DOUBT_DRAW_H

#include "selection/doubt.h"
#include "selection/doubt_liquid.h"

#include <stdint.h>

enum { DOUBT_MATERIALS_MAX = 2 * GOAL_MATERIALS_MAX };

// Points that may be drawn for each sample asked for. Of those for the aged resins 1 in 500 is dropped, of those for
// resins with several published liquids near their edge up to one half.
enum { DOUBT_TRIES = 8 };

// Pairs of components whose tilt is quasi-random.
enum { DOUBT_PAIRS_FIRST = 12 };

// A material with its nominal values and how far they may be off.
struct doubt_material {
    const struct material *material;
    size_t first;                // place of the first with the same material: one and the same draw for both
    bool by_film;                // judged by its film, else by its sphere
    bool sphere_too;             // by its film, but inside its sphere it counts as dissolved: the film is not trusted
    struct film_parameters film; // by_film only
    struct hansen sphere;        // parts NAN without
    double r0;
    double centre_sd, r0_sd; // MPa^0.5
    double least, most;      // of chains (cm3/mol) or strands (mol/m3) without an anchor
    bool anchored;
    size_t fails, dissolves; // liquids of the anchor in the list
    double position;         // of the table's chains between the anchor's, 0 to 1 in ln V_p
};

struct doubt_plan {
    unsigned vary;
    uint64_t seed;
    double temp_k;
    size_t samples; // points that may be drawn
    struct liquid_list *list;
    struct doubt_material materials[DOUBT_MATERIALS_MAX]; // to remove, then to spare
    size_t remove_count, count;
    double component_sd[DOUBT_POOL_MAX];
    size_t component_turn[DOUBT_POOL_MAX]; // place in the order of the share in the list, largest first
    size_t pairs[DOUBT_PAIRS_FIRST][2];    // places in the pool, the larger first: those that meet most in the list
    size_t pair_count;
    double *sobol; // samples rows of sobol_count
    size_t sobol_count;
};

// One sample.
struct doubt_values {
    size_t sample;
    struct {
        struct film_parameters film;
        struct hansen sphere;
        double r0;
    } materials[DOUBT_MATERIALS_MAX];
    struct hansen components[DOUBT_POOL_MAX];
};

// The list must hold the blends; the liquids of the anchors are added. Statuses of doubt_sample.
enum status doubt_plan_make(const struct doubt_request *request, struct liquid_list *list, struct doubt_plan *ret,
                            struct error *err);
void doubt_plan_release(struct doubt_plan *plan); // NULL-safe

// False when no chain meets an anchor. May run in several threads.
bool doubt_draw(const struct doubt_plan *plan, size_t sample, struct doubt_values *ret);

// Chains of an anchored material between those that just stop dissolving in the liquid known to fail and in the one
// known to dissolve it, with everything else as in `values`; what the search leaves open is on neither side. False when
// there are none.
bool doubt_anchor_range(const struct doubt_plan *plan, const struct doubt_values *values, size_t material,
                        double *ret_least, double *ret_most);

// Chains or strands at a share (0 to 1) of the way from the least to the most, even in the logarithm.
double doubt_between(double least, double most, double share);

// The film of one material in one set of liquids, with the sample's values. `tilt` from doubt_tilt, or NULL.
void doubt_film(const struct doubt_plan *plan, const struct doubt_values *values, size_t material,
                const struct liquid_set *set, const double *tilt, struct film *ret);

// Fills the t_ij of a set (rows of set->count) and returns it, NULL when activities are not varied.
const double *doubt_tilt(const struct doubt_plan *plan, size_t sample, const struct liquid_set *set, double *matrix);

// The uniform number in (0, 1) of one sample and quantity beyond the quasi-random ones.
double doubt_uniform(uint64_t seed, uint64_t sample, uint64_t quantity);

#endif
