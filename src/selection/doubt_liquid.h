// SPDX-License-Identifier: GPL-3.0-or-later
// The liquids of a list of blends, made ready once for many films: components pooled over the list, one activity model
// for all liquids of the same components, and an order in which each liquid is near the one before.
#ifndef MILDSOLVE_SELECTION_DOUBT_LIQUID_H
#define MILDSOLVE_SELECTION_DOUBT_LIQUID_H

#include "physics/film.h"

enum { DOUBT_POOL_MAX = 128 }; // different components in one list

// Liquids of the same components share one.
struct liquid_set {
    size_t count;
    size_t members[BLEND_COMPONENTS_MAX]; // places in the pool, ascending
    bool covered;                         // by an activity model, molar volumes and Hansen parameters
    struct activity_model activity;
    struct film film; // of no particular polymer; see film_vary
};

struct liquid {
    size_t set;
    double x[BLEND_COMPONENTS_MAX];           // mole fractions in the order of the set
    double ln_activity[BLEND_COMPONENTS_MAX]; // of one phase
    double volume_fractions[BLEND_COMPONENTS_MAX];
};

struct liquid_list {
    const struct component *pool[DOUBT_POOL_MAX];
    double shares[DOUBT_POOL_MAX]; // sum of the volume fractions over the list
    size_t pool_count;
    struct liquid_set **sets;
    size_t set_count;
    struct liquid *liquids;
    size_t count, capacity; // capacity of liquids and of sets
    size_t *order;
};

// Room for `capacity` liquids. STATUS_MEMORY.
enum status liquid_list_init(struct liquid_list *list, size_t capacity, struct error *err);
void liquid_list_release(struct liquid_list *list); // NULL-safe

// Adds a blend. A blend that no model covers is added all the same (its set says so). STATUS_RANGE: more than
// DOUBT_POOL_MAX components, or a temperature out of range; STATUS_MEMORY.
enum status liquid_list_add(struct liquid_list *list, const struct unifac_table *table, const struct blend *blend,
                            double temp_k, struct error *err);

// Fills list->order for the first `count` liquids: set by set, neighbours in composition one after the other.
void liquid_list_sort(struct liquid_list *list, size_t count);

#endif
