// SPDX-License-Identifier: GPL-3.0-or-later
// Random blends, rooms and days, and the same thing written in another way.
#ifndef MILDSOLVE_TESTS_PROPERTIES_DRAW_H
#define MILDSOLVE_TESTS_PROPERTIES_DRAW_H

#include "physics/blend.h"
#include "physics/exposure.h"
#include "properties.h"

// A blend of up to `most` bottles of the tables (components and made-up bottles), noted in the trial's words.
struct blend draw_blend(struct trial *trial, size_t most);

// Different components, `count` of them.
void draw_components(struct trial *trial, size_t count, const struct component **ret);

// The same liquid: bottles in another order, all parts times one factor, one bottle shared out between two of the same
// content. Not to be copied: the blend points into it.
struct rewritten {
    struct blend blend;
    struct bottle twin;
    struct bottle_part twin_part;
    size_t place[BLEND_COMPONENTS_MAX]; // where component i of the original stands
};

// False when the blend has too many bottles for one more.
bool rewrite_blend(struct trial *trial, const struct blend *blend, struct rewritten *ret);

// The same liquid as physics sees it with one component counted as two of the same figures: `twin` stands last, the
// share of component `of` is shared out between the two. False when there is no place for it.
struct doubled {
    struct blend blend;
    struct component twin;
    size_t of, with; // places of the two
};
bool double_component(struct trial *trial, const struct blend *blend, struct doubled *ret);

// By the model three liquids: which two of them the split finds is then a matter of its start, so that what is computed
// over two of them may differ for the same liquid written in another way. x as for stability_test.
bool three_liquids(struct trial *trial, const struct blend *blend, const double *x, double temp_k);

// Whatever a conservator may work in: 8 to 2000 m3, 0.05 to 30 changes, often imperfectly mixed or with a loss.
struct room draw_room(struct trial *trial);

// A day of one to four tasks, some of them overlapping, on `blend`.
struct exposure_plan draw_plan(struct trial *trial, const struct blend *blend);

#endif
