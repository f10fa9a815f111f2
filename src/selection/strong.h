// SPDX-License-Identifier: GPL-3.0-or-later
// Strong and weak: alkanes, cycloalkanes, petroleum cuts and siloxanes dilute more than they act; everything else is
// called strong.
#ifndef MILDSOLVE_SELECTION_STRONG_H
#define MILDSOLVE_SELECTION_STRONG_H

#include "selection/composition.h"

bool component_is_weak(const struct component *component);

// Share of the volume, 0 to 1, that is strong.
double strong_share(const struct component *const *components, const double *volume_fractions, size_t count);
double strong_share_of(const struct blend *blend);

// Bit i: bottle i of a goal. 200 bottles in four words.
struct bottle_set {
    unsigned long long words[(GOAL_BOTTLES_MAX + 63) / 64];
};

// The strong bottles of a goal: at least half of their volume is strong.
struct bottle_set strong_bottles_of_goal(const struct goal *goal, const struct library *lib);

// Those of `all` that the composition holds, and how many they are.
struct bottle_set bottles_of(const struct composition *c, const struct bottle_set *all);
int bottle_set_count(const struct bottle_set *set);

// Weak bottles beyond the first: one diluent is better than two.
int spare_diluents(const struct composition *c, int strong_bottles);

bool bottle_set_has(const struct bottle_set *set, int bottle);
bool bottle_set_includes(const struct bottle_set *all, const struct bottle_set *some);
bool bottle_set_same(const struct bottle_set *a, const struct bottle_set *b);

#endif
