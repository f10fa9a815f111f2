// SPDX-License-Identifier: GPL-3.0-or-later
// What was learnt, in the shape in which searches and rankings read materials.
#ifndef MILDSOLVE_SELECTION_BELIEF_MATERIAL_H
#define MILDSOLVE_SELECTION_BELIEF_MATERIAL_H

#include "base/arena.h"
#include "selection/belief.h"

// A copy of material `number` of both plans: its sphere with the means by RED, its film with the means by film and
// without the published anchor (the shift of chi stands in its place), and the draws of both, in the arena. One of the
// beliefs may be NULL: that view stays as in the tables. STATUS_MEMORY.
enum status belief_material_learnt(struct arena *arena, const struct belief *film, const struct belief *red,
                                   size_t number, const struct material **ret, struct error *err);

#endif
