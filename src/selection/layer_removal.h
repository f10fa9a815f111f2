// SPDX-License-Identifier: GPL-3.0-or-later
// Taking a layer off later, fresh or aged, without touching what lies below: the search of `gentlest` with the layer as
// what is to be removed and everything below as what is to be spared.
#ifndef MILDSOLVE_SELECTION_LAYER_REMOVAL_H
#define MILDSOLVE_SELECTION_LAYER_REMOVAL_H

#include "selection/ranking.h"
#include "selection/stack.h"

enum removal_kind {
    REMOVAL_FOUND,     // `ranking` has rows
    REMOVAL_NOTHING,   // nothing on the shelf does it, or only with too little probability
    REMOVAL_NO_FIGURES // no region or film to search by
};
extern const char *const removal_kind_words[]; // found nothing no-figures

struct layer_removal {
    size_t layer;
    bool aged;
    enum removal_kind kind;
    const struct ageing_state *state; // of the layer; NULL: nothing on its ageing was read
    const struct material *target;    // that stands for the layer; NULL = none
    bool stand_in;                    // ... by its careful stand-in
    const struct material *spare[GOAL_MATERIALS_MAX];
    size_t spare_count;
    unsigned inseparable; // bits of lower layers that whatever takes this one takes too
    unsigned without;     // bits of lower layers without region: not spared, because nothing is known
    struct ranking ranking;
    struct error why; // REMOVAL_NO_FIGURES
};

struct removal_request {
    const struct library *lib;
    const struct unifac_table *table;
    const struct goal *shelf; // bottles and grid; its materials are not read
    double temp_c;
    double least_probability;
    enum doubt_effort effort;
    size_t show;
    int threads;
    struct watch watch;
};

// STATUS_MEMORY, STATUS_INTERRUPTED. Released by layer_removal_release whatever the status.
enum status layer_removal_find(const struct removal_request *request, const struct stack *stack, size_t layer,
                               bool aged, struct layer_removal *ret, struct error *err);
void layer_removal_release(struct layer_removal *removal); // NULL-safe

#endif
