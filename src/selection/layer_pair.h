// SPDX-License-Identifier: GPL-3.0-or-later
// Two layers of a stack: what the upper one does to the lower one while it is put on.
//
// The words, mildest first. A layer that can dissolve is judged by the probability that the carrier, at its strongest
// while the coat is wet, dissolves it (doubt.h: film or sphere, whichever the table ranks it by): from PAIR_LIKELY on
// it lifts, from PAIR_POSSIBLE on it may lift. Else by the swelling under the wet coat, resin counted: below
// PAIR_SWELLS untouched, below PAIR_DRAGS it swells a little, above it softens and a brush drags it (a spray has
// nothing to drag with: it swells). Paint does not dissolve; its words are those of its band of swelling, softened from
// "high" on. What outranks that, only ever to the cautious side:
//   published threshold   carrier with as much of a family as is published to dissolve it: may lift; as much as every
//                         grade needs: lifts; from half of it on: softens
//   the other view        film and sphere disagree on dissolving: may lift
//   the same resin        what dissolves the one dissolves the other: lifts
//   retained carrier      the lower layer has not dried for as long as its carrier stays: one word further, to
//   "softens" a carrier that splits, and a layer without a region: cannot be judged
// The limits are ours.
#ifndef MILDSOLVE_SELECTION_LAYER_PAIR_H
#define MILDSOLVE_SELECTION_LAYER_PAIR_H

#include "physics/film_band.h"
#include "physics/harm.h"
#include "physics/wet_coat.h"
#include "selection/doubt.h"
#include "selection/stack.h"

#define PAIR_LIKELY 0.8
#define PAIR_POSSIBLE 0.2
#define PAIR_SWELLS 0.1
#define PAIR_DRAGS 0.5

enum touch { TOUCH_LEAVES, TOUCH_SWELLS, TOUCH_SOFTENS, TOUCH_MAY_LIFT, TOUCH_LIFTS, TOUCH_NOT_JUDGED };
extern const char *const touch_words[]; // leaves it, swells it, softens it, may lift it, lifts it, cannot be judged

// What led to the word, besides the probability and the swelling.
enum pair_reason {
    PAIR_PUBLISHED_THRESHOLD = 1 << 0, // reached
    PAIR_NEAR_THRESHOLD = 1 << 1,
    PAIR_VIEWS_DISAGREE = 1 << 2,
    PAIR_SAME_RESIN = 1 << 3,
    PAIR_CARRIER_RETAINED = 1 << 4,
    PAIR_SPLITS = 1 << 5,     // the carrier is two liquids
    PAIR_NO_REGION = 1 << 6,  // of the lower layer, nor of a stand-in
    PAIR_STAND_IN = 1 << 7,   // judged by the careful stand-in
    PAIR_NOT_COVERED = 1 << 8 // neither film nor sphere answers
};

struct layer_pair {
    size_t upper, lower;
    bool touches;                  // nothing between covers the surface
    const struct material *judged; // region used for the lower layer; NULL = none
    enum touch touch;
    unsigned reasons;
    double red;                                // of the carrier as mixed, on the lower layer; NAN
    double red_least;                          // while the coat is wet
    struct film_result neat;                   // film of the lower layer under the carrier alone, at its strongest
    struct film_result wet;                    // under the wet coat, resin counted
    bool resin_counted;                        // `wet` holds the resin
    double p_dissolves;                        // NAN: cross-linked or not sampled
    double swelling_least, swelling_most;      // of a cross-linked layer, over the doubt; NAN
    const struct lifting_threshold *threshold; // the one that applies, reached or not; NULL
    double family_percent;                     // of that family in the carrier, at most while wet
    enum retention_word retained; // how long the lower layer keeps its own carrier; UNKNOWN when it has none
    const struct retained_carrier *published_retained; // NULL
    double resin_ra;                                   // between the two resins, MPa^0.5; NAN
};

// What is asked of every pair of a stack.
struct pair_request {
    const struct library *lib; // with TABLE_AGEING and all that doubt_sample needs
    const struct unifac_table *table;
    double temp_c;
    size_t samples; // 0 = no probabilities: film and sphere alone decide
    int threads;
};

// A coat and what is known of its carrier.
struct planned_coat {
    bool followed; // false: `why` says why its drying cannot be computed
    struct wet_coat coat;
    struct phase_judgement phase;
    bool resin_dissolves; // by film or by sphere the carrier takes its own resin up
    bool resin_known;     // that could be judged
    struct error why;
};

enum status planned_coat_make(const struct pair_request *request, const struct stack_layer *layer,
                              struct planned_coat *ret, struct error *err);

// `coat` is that of the upper layer. STATUS_MEMORY, STATUS_INTERRUPTED.
enum status layer_pair_judge(const struct pair_request *request, const struct stack *stack, size_t upper, size_t lower,
                             const struct planned_coat *coat, struct layer_pair *ret, struct error *err);

// Days after which a carrier of this retention is taken to have left a film: short 1, medium 7, long 30, very long and
// unknown 90 (ours; the guidance for varnish is at least a week, better more).
double retention_days(enum retention_word word);

#endif
