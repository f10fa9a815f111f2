// SPDX-License-Identifier: GPL-3.0-or-later
// The ladder: which swab test is next, the smallest sensible step up.
//
// A direction is a pair of bottles, a weak one (the base) and a strong one; its rungs are the shares of the strong one
// in steps of LADDER_RISE_PERCENT, and in steps of LADDER_STEP_PERCENT where the paint would feel the larger one
// (LADDER_FINE): elsewhere the rung in between would cost a place on the picture for nothing. `strength` of a rung is
// the most that the paint takes up on the way to it, over all rungs of its direction up to this one. So it never falls
// along a direction, and rungs of different directions compare.
//
// The rule, from practice (mildest first, the smallest step up; the figures are ours): the next rung is never stronger
// than the weakest untested one that works with a probability of at least LADDER_LIKELY, and never more than
// LADDER_RISE_PERCENT of the volume above the last one tested in its direction (above the neat base when there is
// none). Within the rule the highest rung is taken, because every test costs a place on the picture.
#ifndef MILDSOLVE_SELECTION_LADDER_H
#define MILDSOLVE_SELECTION_LADDER_H

#include "physics/blend.h"

#define LADDER_LIKELY 0.3

// The paint feels a step that makes it take up this much more, volume per dry volume (by RED: of 1/RED). Ours: a fifth
// of the narrowest band in which swelling is told (film_band.h).
#define LADDER_FINE 0.02

// A direction in which no rung works with at least this probability is given up: more of it would only cost places.
#define LADDER_HOPELESS 0.05

// Chances that differ by less than this are as good as each other (as the answer says of its probabilities).
#define LADDER_ALIKE 0.1

enum {
    LADDER_STEP_PERCENT = 5,
    LADDER_RISE_PERCENT = 10,
    LADDER_RUNGS = 100 / LADDER_STEP_PERCENT + 1,
    LADDER_DIRECTIONS_MAX = 64,
    LADDER_NONE = -1
};

// What the strong liquid adds to the base.
enum ladder_way { WAY_HYDROGEN_BONDING, WAY_POLAR, WAY_AROMATIC, WAY_UNKNOWN };
const char *ladder_way_words(enum ladder_way way); // "more hydrogen bonding"

struct ladder_rung {
    double p_works;   // probability that a swab takes off at least part of the layer; NAN where no model judges
    double p_touches; // probability to touch the paint, likewise
    double margin;    // of what is to come off: the scale on which steps are told (belief.h); NAN unknown
    double paint;     // the same of what is to be spared, larger = more taken up; NAN unknown
    double strength;  // filled by ladder_arrange
    bool idle;        // likewise: between two rungs that the paint does not tell apart, so none of the ladder's
    bool two_liquids; // splits in the jar: never proposed
    bool tested;      // this very blend was tested and stands, in a passage that is not stopped
    bool barred;      // no milder than what found original colour, and not yet approached where that was not found
};

struct ladder_direction {
    struct bottle_ref weak, strong;
    enum ladder_way way;
    struct ladder_rung rungs[LADDER_RUNGS]; // share of the strong bottle: i * LADDER_STEP_PERCENT
    double
        last_percent; // strongest share tested in passages that are not stopped; negative when none, not even the base
    double colour_percent; // mildest share that found original colour in any passage; negative when none
    bool overdue;          // a bottle of it needs a test for peroxides before it may be used: others come first
    int reach;             // rungs up to this one were judged; 0 to LADDER_RUNGS - 1, or LADDER_NONE
};

// Why a direction has no next rung.
enum ladder_end {
    LADDER_GOES_ON,
    LADDER_AT_TOP,     // the strong liquid was tested neat
    LADDER_TOUCHES,    // its next rungs touch the paint with more than the probability allowed
    LADDER_SPLITS,     // its next rungs are two liquids
    LADDER_NOT_JUDGED, // no model judges them
    LADDER_TOO_STRONG, // its next rung is stronger than the rule allows: a milder one elsewhere comes first
    LADDER_GIVEN_UP,   // no rung of it is likely to work any more
    LADDER_COLOUR      // its next rung is no milder than what found original colour
};
const char *ladder_end_words(enum ladder_end end);

struct ladder_step {
    int direction;
    int rung;   // LADDER_NONE when the direction ends
    int likely; // the weakest untested rung of the direction that works with LADDER_LIKELY, or LADDER_NONE
    enum ladder_end end;
};

struct ladder {
    struct ladder_direction directions[LADDER_DIRECTIONS_MAX];
    int count;
    double touch_most; // rungs that touch the paint with more than this are not proposed
};

// Fills `strength` of every rung from `paint`, or from `margin` where nothing is to be spared, and `idle`.
void ladder_arrange(struct ladder *ladder);
void ladder_arrange_direction(struct ladder_direction *direction);

// --- how far rungs must be judged ---

// True when nothing that a rung above `reach` may hold changes ladder_step_of this direction, or its first likely rung.
bool ladder_settled(const struct ladder *ladder, int direction);

// True when the direction to take is told by the weakest likely rung. Where it isn't, or where that is one of an
// overdue bottle, best chances are compared, and every rung must have been judged.
bool ladder_is_led(const struct ladder *ladder);

// True when nothing that a rung above `reach` may hold changes ladder_climb.
bool ladder_climb_settled(const struct ladder *ladder, int direction, int most);

// The weakest untested rung of all directions that works with LADDER_LIKELY and may be proposed; false when there is
// none.
bool ladder_likely(const struct ladder *ladder, int *ret_direction, int *ret_rung);

// The next rung of one direction, within the rule.
struct ladder_step ladder_step_of(const struct ladder *ladder, int direction);

// The next rungs, one a direction. First the one to take: of the direction that holds the weakest likely rung, or, when
// there is none, of the one with the best rung; where that is overdue, the best of those that are not, if its chance is
// no worse than by LADDER_ALIKE. Then the other directions, mildest next rung first, those that end last. `ret` has
// room for ladder->count.
void ladder_steps(const struct ladder *ladder, struct ladder_step *ret);

// True when the rule allows this rung as the next one (for tests and for those who choose another).
bool ladder_allows(const struct ladder *ladder, int direction, int rung);

// --- the series for one direction ---

// Rungs after `from` (not included) as they would be climbed if every one did nothing and nothing were learnt from it:
// at most `most`, the first of them ladder_step_of. Returns the count.
int ladder_climb(const struct ladder *ladder, int direction, int *ret_rungs, int most);

// The even series: the base, then every LADDER_RISE_PERCENT of the volume, whatever was found. Rungs not yet passed.
int ladder_even_series(const struct ladder_direction *direction, int *ret_rungs, int most);

#endif
