// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/doubt_liquid.h"

#include "base/memory.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum status liquid_list_init(struct liquid_list *list, size_t capacity, struct error *err) {
    *list = (struct liquid_list){.capacity = capacity};
    list->sets = memory_new(capacity, sizeof(struct liquid_set *));
    list->liquids = memory_new(capacity, sizeof *list->liquids);
    list->order = memory_new(capacity, sizeof *list->order);
    if (list->sets && list->liquids && list->order)
        return STATUS_OK;
    liquid_list_release(list);
    return error_set(err, STATUS_MEMORY, "out of memory for a list of blends");
}

void liquid_list_release(struct liquid_list *list) {
    if (!list)
        return;
    for (size_t i = 0; i < list->set_count; i++)
        memory_free(list->sets[i]);
    memory_free(list->sets);
    memory_free(list->liquids);
    memory_free(list->order);
    *list = (struct liquid_list){0};
}

// --- adding ---

static size_t place_in_pool(struct liquid_list *list, const struct component *component) {
    for (size_t i = 0; i < list->pool_count; i++)
        if (list->pool[i] == component)
            return i;
    if (list->pool_count == DOUBT_POOL_MAX)
        return DOUBT_POOL_MAX;
    list->pool[list->pool_count] = component;
    return list->pool_count++;
}

// The blend's components in the order of the pool.
struct pooled {
    size_t count;
    size_t members[BLEND_COMPONENTS_MAX];
    double volume_fractions[BLEND_COMPONENTS_MAX];
};

static enum status pool_blend(struct liquid_list *list, const struct blend *blend, struct pooled *ret,
                              struct error *err) {
    ret->count = blend->count;
    for (size_t i = 0; i < blend->count; i++) {
        size_t place = place_in_pool(list, blend->components[i]);
        if (place == DOUBT_POOL_MAX)
            return error_set(err, STATUS_RANGE, "more than %d different components in one list of blends",
                             DOUBT_POOL_MAX);
        list->shares[place] += blend->volume_fractions[i];
        size_t at = i;
        for (; at > 0 && ret->members[at - 1] > place; at--) {
            ret->members[at] = ret->members[at - 1];
            ret->volume_fractions[at] = ret->volume_fractions[at - 1];
        }
        ret->members[at] = place;
        ret->volume_fractions[at] = blend->volume_fractions[i];
    }
    return STATUS_OK;
}

static size_t find_set(const struct liquid_list *list, const struct pooled *pooled) {
    size_t i = 0;
    while (i < list->set_count &&
           (list->sets[i]->count != pooled->count ||
            memcmp(list->sets[i]->members, pooled->members, pooled->count * sizeof *pooled->members) != 0))
        i++;
    return i;
}

// Any polymer will do: film_vary replaces it.
static const struct film_parameters any_polymer = {.alpha = FILM_ALPHA, .molar_volume_cm3_mol = 1000};

static enum status add_set(struct liquid_list *list, const struct unifac_table *table, const struct pooled *pooled,
                           double temp_k, struct error *err) {
    struct liquid_set *set = memory_new(1, sizeof *set);
    if (!set)
        return error_set(err, STATUS_MEMORY, "out of memory for a list of blends");
    list->sets[list->set_count++] = set;
    set->count = pooled->count;
    memcpy(set->members, pooled->members, pooled->count * sizeof *pooled->members);
    const struct component *components[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < set->count; i++)
        components[i] = list->pool[set->members[i]];
    enum status status = activity_prepare(table, components, set->count, temp_k, &set->activity, err);
    if (status != STATUS_OK)
        return status;
    set->covered = film_prepare(&any_polymer, &set->activity, &set->film, NULL) == STATUS_OK;
    return STATUS_OK;
}

static void mole_fractions(const struct liquid_set *set, struct liquid *liquid) {
    double total = 0;
    for (size_t i = 0; i < set->count; i++)
        total += liquid->x[i] = liquid->volume_fractions[i] / set->film.volume[i];
    for (size_t i = 0; i < set->count; i++)
        liquid->x[i] /= total;
}

enum status liquid_list_add(struct liquid_list *list, const struct unifac_table *table, const struct blend *blend,
                            double temp_k, struct error *err) {
    assert(list->count < list->capacity);
    struct pooled pooled;
    enum status status = pool_blend(list, blend, &pooled, err);
    if (status != STATUS_OK)
        return status;
    struct liquid *liquid = &list->liquids[list->count];
    liquid->set = find_set(list, &pooled);
    if (liquid->set == list->set_count)
        status = add_set(list, table, &pooled, temp_k, err);
    if (status != STATUS_OK)
        return status;
    const struct liquid_set *set = list->sets[liquid->set];
    memcpy(liquid->volume_fractions, pooled.volume_fractions, pooled.count * sizeof *pooled.volume_fractions);
    if (set->covered) {
        mole_fractions(set, liquid);
        film_liquid_activities(&set->activity, liquid->x, liquid->ln_activity);
    }
    list->count++;
    return STATUS_OK;
}

// --- the order ---

static bool comes_first(const struct liquid_list *list, size_t a, size_t b) {
    const struct liquid *left = &list->liquids[a], *right = &list->liquids[b];
    if (left->set != right->set)
        return left->set < right->set;
    for (size_t i = 0; i < list->sets[left->set]->count; i++)
        if (left->volume_fractions[i] != right->volume_fractions[i])
            return left->volume_fractions[i] < right->volume_fractions[i];
    return a < b;
}

// Insertion: about a thousand liquids at most, and short lists come nearly sorted.
void liquid_list_sort(struct liquid_list *list, size_t count) {
    for (size_t i = 0; i < count; i++) {
        size_t at = i;
        for (; at > 0 && comes_first(list, i, list->order[at - 1]); at--)
            list->order[at] = list->order[at - 1];
        list->order[at] = i;
    }
}
