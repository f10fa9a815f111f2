// SPDX-License-Identifier: GPL-3.0-or-later
// The verdict on a blend: one phase, may separate, two phases; published pairs outrank the model.
//
// In this order (D = smallest eigenvalue of the stability matrix, see physics/stability.h):
//  a. A pair published as miscible is never worse than "may separate", and "one" when it is the whole blend. In a
//     blend of more components this caps the verdict when every pair between which the model has a gap is published
//     as miscible: the model's gap is then known to be false.
//  b. A pair published as partly or hardly miscible is "two" inside the model's gap; outside "may separate", unless
//     the composition lies outside the gap by 10 % of volume. Without a gap in the model "two" for 20:80 to 80:20.
//     In a blend of more components a shallow gap (see c) is "two" only when the pair is nine tenths of the volume, the
//     10 % are of the pair's own volume, and a pair without a gap is "two" only when it is nine tenths of the volume;
//     else, from a twentieth of each, "may separate".
//  c. Otherwise by the model. Two liquids: "two" with D below -0.15 at the blend, or with D below -0.15 somewhere
//     between the two liquids if half of any one component would still do; else "may separate". One liquid: "one" with
//     D of 0.10 or more, unless 2 % of volume more of some component splits it; else "may separate".
// Near a published critical solution temperature (3 K) the pair is "may separate" at best and at worst.
// The limits -0.15 and 0.10 were set on the 210 pairs of data/miscibility.yaml, so the rates on them are in-sample.
#ifndef MILDSOLVE_PHYSICS_MISCIBILITY_H
#define MILDSOLVE_PHYSICS_MISCIBILITY_H

#include "data/library.h"
#include "physics/activity.h"
#include "physics/blend.h"
#include "physics/phase_split.h"
#include "physics/stability.h"

enum phase_verdict { PHASE_ONE, PHASE_MAY_SEPARATE, PHASE_TWO };
const char *phase_verdict_word(enum phase_verdict verdict); // one may-separate two

enum phase_ground {
    PHASE_BY_ITSELF,    // a single component
    PHASE_BY_PUBLISHED, // a published pair decided
    PHASE_BY_MODEL,
    PHASE_BY_NOTHING // neither covers the blend: "may separate", for want of knowledge
};

enum { PHASE_SENTENCE_SIZE = 640 };

struct phase_judgement {
    enum phase_verdict verdict;
    enum phase_ground ground;
    const struct miscible_pair *pair; // the published pair that decided or capped, or NULL
    bool covered;                     // by an activity model; the next fields are empty otherwise
    struct stability stability;
    bool split_found; // two phases by the model, in `split`
    struct phase_split split;
    bool third_liquid;                  // one of the two would split again: read `split` as a sketch
    double gap_depth;                   // smallest D on the straight line between the two phases; NAN without a split
    char sentence[PHASE_SENTENCE_SIZE]; // why, for the person
};

// Judges a liquid of the model's components, x as for stability_test(), at the model's temperature. `lib` (opened with
// TABLE_MISCIBILITY) may be NULL: the model alone. STATUS_RANGE for amounts that are none; STATUS_NO_DATA names a
// component without molar volume. A solver that gives up is no failure: the sentence says so, the verdict is then
// "may separate" at least.
enum status miscibility_judge(const struct library *lib, const struct activity_model *model, const double *x,
                              struct phase_judgement *ret, struct error *err);

// The same for a blend.
enum status miscibility_judge_blend(const struct library *lib, const struct unifac_table *table,
                                    const struct blend *blend, double temp_k, struct phase_judgement *ret,
                                    struct error *err);

// --- water ---

// How much water a blend bears. Percent of the final volume, water already present included.
struct cloud_water {
    bool judged;            // false: no model covers the blend with water
    double present_percent; // water in the blend as it is
    double first_percent;   // from here on the model has two liquids; NAN = not up to 50 %
    double sure_percent;    // from here on the verdict is "two"; NAN = not up to 50 %
    char sentence[PHASE_SENTENCE_SIZE];
};

// The component that is added to a blend without water, looked up in `lib`.
extern const char cloud_water_id[];

// Adds water to the blend step by step, then halves the interval, to 1 % of the figure. first_percent equals
// present_percent when the blend as it is lies in a gap of the model.
enum status miscibility_cloud_water(const struct library *lib, const struct unifac_table *table,
                                    const struct blend *blend, double temp_k, struct cloud_water *ret,
                                    struct error *err);

#endif
