// SPDX-License-Identifier: GPL-3.0-or-later
// The N best compositions of distinct sets of bottles among those offered, in one order whatever the order of offering.
#ifndef MILDSOLVE_SELECTION_BEST_LIST_H
#define MILDSOLVE_SELECTION_BEST_LIST_H

#include "selection/composition.h"

#include <stdint.h>

// A composition packed small, with its key (larger is better; never NAN).
struct hit {
    double key;
    uint8_t count;
    uint8_t bottles[GOAL_COMPONENTS_MAX];
    uint8_t steps[GOAL_COMPONENTS_MAX];
    uint8_t fresh; // not yet in the list that this one was copied from
};
_Static_assert(GOAL_BOTTLES_MAX <= UINT8_MAX && GOAL_STEPS_MAX <= UINT8_MAX, "a hit packs both into bytes");

void hit_pack(const struct composition *c, double key, struct hit *ret);
void hit_unpack(const struct hit *hit, struct composition *ret);

struct best_list {
    const struct recipe_order *order;
    size_t wanted;     // N
    struct hit *hits;  // the best first up to `sorted`, then what was offered since
    struct hit *spare; // as large
    uint64_t *seen;    // table of the sets of bottles already listed, 0 = free place
    size_t seen_size;
    size_t count, sorted, capacity;
    double threshold; // key of the N-th best set when last settled; -INFINITY as long as there are fewer
};

// STATUS_MEMORY. wanted is at least 1; the order must outlive the list.
enum status best_list_init(struct best_list *list, size_t wanted, const struct recipe_order *order, struct error *err);
void best_list_release(struct best_list *list); // NULL-safe, also after a failed init

// Takes over what `from` has (both of the same N); nothing is fresh afterwards.
void best_list_copy(struct best_list *list, const struct best_list *from);

// Offers a composition. The threshold may rise.
void best_list_offer(struct best_list *list, const struct hit *hit);

// Offers the fresh hits of `from`.
void best_list_merge(struct best_list *list, struct best_list *from);

// Brings the list in order: at most N hits, of distinct sets, best first.
void best_list_settle(struct best_list *list);

#endif
