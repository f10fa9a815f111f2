// SPDX-License-Identifier: GPL-3.0-or-later
// In which respects one blend can stand for another.
#ifndef MILDSOLVE_SELECTION_LIKENESS_H
#define MILDSOLVE_SELECTION_LIKENESS_H

#include "selection/portrait.h"

enum respect {
    RESPECT_TRIANGLE, // place in the triangle
    RESPECT_SPEED,    // time until nine tenths are gone
    RESPECT_PATH,     // place on the way, up to nine tenths gone
    RESPECT_TAIL,     // place of the last 5 %, and how long they stay
    RESPECT_SWELLING, // how much the paint takes up
    RESPECT_INSIDE,   // what the paint takes up: its mean place
    RESPECT_VARNISH,  // whether it dissolves what is to be removed
    RESPECT_PHASE,
    RESPECT_FIRE,
    RESPECT_HEALTH,
    RESPECTS
};
extern const char *const respect_words[]; // triangle drying_speed drying_path tail paint_swelling film_content varnish
                                          // phase fire health

enum match { MATCH_ALIKE, MATCH_BETTER, MATCH_WORSE, MATCH_DIFFERS, MATCH_UNKNOWN, MATCH_NOT_ASKED };
extern const char *const match_words[]; // alike better worse differs unknown not-asked

// All limits are ours. Places: 3 MPa^0.5 is about what the doubt of one place adds up to (about 1 in each part, twice
// that in Ra for delta_d); 5 % of a side is a reading step of the paper chart, and twice that is about as far as 3
// MPa^0.5 can move a point of the triangle when its parts add up to 25 (all of it in delta_p: 12 %), so that beyond it
// the triangle misleads. Swelling: half as much again, two
// classes of film_class(). Speed: by two, the scatter between published evaporation rates. Vapour hazard: by a quarter.
#define LIKE_RA 3.0
#define LIKE_TRIANGLE 5.0
#define MISLEADING_TRIANGLE 10.0
#define LIKE_SWELLING 1.5
#define LIKE_SPEED 2.0
#define LIKE_HAZARD 1.25

struct likeness {
    double ra; // MPa^0.5
    // One standard deviation of ra from those of the tabled parts (uncertainty.yaml), independent of each other: w_k
    // the share of component k in the new less that in the old blend, var(dD) = sum w_k^2 u_k^2, and so on; sqrt(16
    // dD^2 var(dD) + dP^2 var(dP) + dH^2 var(dH))/Ra, and sqrt(4 var(dD) + var(dP) + var(dH)) where Ra is no larger
    // than that: near 0 the slope is of no use. NAN when an uncertainty is not known.
    double ra_uncertainty;
    double triangle; // percent along a side
    double speed;    // time of the replacement over that of the original; NAN = not known
    double path_ra;  // largest distance at equal fractions gone, up to nine tenths
    int path_gone;   // where, percent of the moles
    double tail_ra;  // between the last 5 %
    double swelling; // ratio, new over old; NAN = not known or without limit
    double inside_ra;
    // Vapour hazard ratio, new over old, by the set of limits by which the new one does worst. Of a set that lacks a
    // limit only a worsening is believed. NAN when no set covers both; then hazard_set is -1.
    double hazard;
    int hazard_set; // index into the portraits' hazards
    double
        index; // in the room, new over old; NAN without a room, or when only a worsening could be believed and is none
    unsigned classes_gone, classes_new; // bits of enum hazard_class; gone: only where the new hazards are known
    enum match match[RESPECTS];
    int against; // respects that are worse, differ, or are not known
};

// Health. Better or worse by a step of the burden (harm.h), the vapour, the index of the room, or a grave class of
// hazard that goes or comes (carcinogen, mutagen, reproductive, restricted, sensitiser, toxic, corrosive); both ways:
// differs. Of a new blend with a component of unknown hazards no gain by statements or classes is believed, and without
// a loss it is not known. A new carcinogen, mutagen, reproductive toxicant or restricted liquid is worse whatever else
// is gained. `lib` with TABLE_UNCERTAINTY.
void likeness_of(const struct library *lib, const struct portrait *old, const struct portrait *new,
                 struct likeness *ret);

#endif
