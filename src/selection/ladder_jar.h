// SPDX-License-Identifier: GPL-3.0-or-later
// Test batches: whole millilitres for one rung, fresh or out of the jar of the rung before.
#ifndef MILDSOLVE_SELECTION_LADDER_JAR_H
#define MILDSOLVE_SELECTION_LADDER_JAR_H

#include <stdbool.h>

// mL. A batch of fewer than five cannot be measured to a millilitre, and more than twenty is waste (common practice:
// test batches of 5 to 20 mL). A fresh one has at least ten, so that the next rung can be made from what is left.
enum { JAR_LEAST_ML = 5, JAR_FRESH_LEAST_ML = 10, JAR_MOST_ML = 20, JAR_USED_ML = 2 };

struct jar_batch {
    int from_jar_ml; // of the blend before, 0 = fresh
    int weak_ml, strong_ml;
    int total_ml;
    double reached_percent; // share of the strong liquid; never above the one asked for
};

// A fresh batch: the smallest one of at least JAR_FRESH_LEAST_ML that meets the share; where none does, the one that
// comes nearest from below. `percent` 0 to 100.
struct jar_batch jar_fresh(double percent);

// Out of `left_ml` of a blend of the same two bottles with `before_percent`: with as little new liquid as possible.
// False when no batch of JAR_LEAST_ML to JAR_MOST_ML meets the share to 0.1 % with at least half of it from the jar.
bool jar_from(double before_percent, int left_ml, double percent, struct jar_batch *ret);

// What should be left of a batch after its tests.
int jar_left(const struct jar_batch *batch);

#endif
