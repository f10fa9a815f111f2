// SPDX-License-Identifier: GPL-3.0-or-later
// In which respects one blend can stand for another.
#ifndef MILDSOLVE_SELECTION_LIKENESS_H
#define MILDSOLVE_SELECTION_LIKENESS_H

#include "selection/portrait.h"

enum respect {
    RESPECT_TRIANGLE, // place in the triangle
    RESPECT_SPEED,    // time until nine tenths are gone
    RESPECT_TAIL,     // place of the last 5 %, and how long they stay
    RESPECT_SWELLING, // how much the paint takes up
    RESPECT_INSIDE,   // what the paint takes up: its mean place
    RESPECT_VARNISH,  // whether it dissolves what is to be removed
    RESPECT_PHASE,
    RESPECT_FIRE,
    RESPECT_HEALTH,
    RESPECTS
};
extern const char *const respect_words[]; // triangle drying_speed tail paint_swelling film_content varnish phase fire
                                          // health

enum match { MATCH_ALIKE, MATCH_BETTER, MATCH_WORSE, MATCH_DIFFERS, MATCH_UNKNOWN, MATCH_NOT_ASKED };
extern const char *const match_words[]; // alike better worse differs unknown not-asked

// All limits are ours. Places: 3 MPa^0.5 is about what the doubt of one place adds up to (about 1 in each part, twice
// that in Ra for delta_d); 5 % of a side is a reading step of the paper chart. Swelling: half as much again, two
// classes of film_class(). Speed: by two, the scatter between published evaporation rates. Vapour hazard: by a quarter.
#define LIKE_RA 3.0
#define LIKE_TRIANGLE 5.0
#define LIKE_SWELLING 1.5
#define LIKE_SPEED 2.0
#define LIKE_HAZARD 1.25

struct likeness {
    double ra;       // MPa^0.5
    double triangle; // percent along a side
    double speed;    // time of the replacement over that of the original; NAN = not known
    double tail_ra;  // between the last 5 %
    double swelling; // ratio, new over old; NAN = not known or without limit
    double inside_ra;
    // Vapour hazard ratio, new over old, by the set of limits by which the new one does worst. Of a set that lacks a
    // limit only a worsening is believed. NAN when no set covers both; then hazard_set is -1.
    double hazard;
    int hazard_set; // index into the portraits' hazards
    double
        index; // in the room, new over old; NAN without a room, or when only a worsening could be believed and is none
    unsigned classes_gone, classes_new; // bits of enum hazard_class
    enum match match[RESPECTS];
    int against; // respects that are worse, differ, or are not known
};

// Health. Better or worse by a step of the burden (harm.h), the vapour, the index of the room, or a grave class of
// hazard that goes or comes (carcinogen, mutagen, reproductive, restricted, sensitiser, toxic, corrosive); both ways:
// differs. A new carcinogen, mutagen, reproductive toxicant or restricted liquid is worse whatever else is gained.
void likeness_of(const struct portrait *old, const struct portrait *new, struct likeness *ret);

#endif
