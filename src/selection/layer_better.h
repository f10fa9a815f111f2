// SPDX-License-Identifier: GPL-3.0-or-later
// What would be better: other carriers for a resin, other resins from the tables, another order.
//
// A carrier is found as a remover is: it dissolves the resin and spares the layers that it would touch (ranking.h).
// Resins whose published ageing is strong or ends in cross-linking are left out: they would not come off again. So are
// those that practice does not lay any more (`not_proposed`). Another resin of whose ageing nothing is known comes last.
// Every proposal is judged as the stack itself was (layer_pair.h); only those with a milder worst word are kept.
#ifndef MILDSOLVE_SELECTION_LAYER_BETTER_H
#define MILDSOLVE_SELECTION_LAYER_BETTER_H

#include "selection/layer_pair.h"
#include "selection/layer_removal.h"

enum better_kind { BETTER_CARRIER, BETTER_RESIN, BETTER_ORDER };
extern const char *const better_kind_words[]; // carrier resin order

struct better {
    enum better_kind kind;
    size_t layer;                    // that is changed
    size_t other;                    // with which it changes places (BETTER_ORDER)
    const struct material *material; // resin of `layer` then
    struct blend carrier;            // of `layer` then
    enum touch worst;                // of the pairs that touch and hold `layer`
    bool asked;                      // whether the next two are known
    bool ageing_known;               // something on the ageing of the resin was read
    enum removal_kind later;         // does the aged layer come off, as proposed?
};

enum { BETTER_MAX = 6 };

struct better_request {
    struct pair_request pairs;
    struct removal_request removals;
};

struct better_list {
    struct better items[BETTER_MAX]; // best first, at most two of a kind for each layer
    size_t count;
    size_t resins_tried;
};

// For every planned layer whose pairs have a word from `from` on. `worst_of`: of each layer of the stack as planned.
// STATUS_MEMORY, STATUS_INTERRUPTED (with what was found).
enum status better_find(const struct better_request *request, const struct stack *stack, const enum touch *worst_of,
                        enum touch from, struct better_list *ret, struct error *err);

#endif
