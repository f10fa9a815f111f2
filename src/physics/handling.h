// SPDX-License-Identifier: GPL-3.0-or-later
// What is done with a blend apart from breathing it: waste, gloves, effects that components have in common.
#ifndef MILDSOLVE_PHYSICS_HANDLING_H
#define MILDSOLVE_PHYSICS_HANDLING_H

#include "physics/blend.h"

// --- waste ---

enum waste_class { WASTE_NOT_HALOGENATED, WASTE_HALOGENATED, WASTE_WATERY };
extern const char *const waste_class_words[]; // not-halogenated halogenated watery

// Halogenated with any share of a component that holds chlorine, because one such bottle spoils a whole drum for
// burning; watery when at least half of the volume is water (common practice; collectors draw both lines in their own
// places, some at 1 % of chlorine).
enum waste_class waste_class_of(const struct blend *blend);

// --- gloves ---

enum { GLOVE_BYTES = 32, GLOVES_MAX = 12 };

// Materials that the table calls resistant for every component, not only for short contact, and unsuitable for none,
// water left out; polyvinyl
// alcohol, which water dissolves, never with water in the blend. *ret_unknown counts components without an entry, which
// take no material away. An entry is the material without what stands in brackets behind it.
size_t gloves_for_all(const struct blend *blend, char ret[GLOVES_MAX][GLOVE_BYTES], size_t *ret_unknown);

// --- effects in common ---

enum { EFFECTS = 6 };
extern const char *const effect_words[]; // irritation narcosis organs reproduction cancer sensitisation NULL

// Bits of the effects that a component's H statements name (H314 to H319 and H335; H336; H370 to H373; H360 to H362;
// H340 to H351; H317 and H334). Without hazard data: all of them.
unsigned effects_of(const struct component *component);

#endif
