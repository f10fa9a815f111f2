// SPDX-License-Identifier: GPL-3.0-or-later
// A blend in every respect in which a replacement is compared with the original: place, drying, films, phases, fire,
// health. The respects are kept apart and never merged into one score.
#ifndef MILDSOLVE_SELECTION_PORTRAIT_H
#define MILDSOLVE_SELECTION_PORTRAIT_H

#include "physics/evaporation.h"
#include "physics/exposure.h"
#include "physics/film.h"
#include "physics/flash.h"
#include "physics/harm.h"
#include "physics/vapour_hazard.h"
#include "selection/goal.h"

enum { PORTRAIT_PATH = 10 }; // places along the drying path: at 0, 10 ... 90 % of the moles gone

// What all portraits of one question share.
struct portrait_frame {
    const struct library *lib; // all tables but bottles' own
    const struct unifac_table *table;
    double temp_c;
    const struct authority *authority; // whose limits; NULL = every set, each for itself
    const struct exposure_plan *plan;  // of the room, with one task; its blend is not read. NULL = no room was given
    const struct material *remove[GOAL_MATERIALS_MAX];
    size_t remove_count; // may be 0: nothing is asked about a varnish
    const struct material *spare[GOAL_MATERIALS_MAX];
    size_t spare_count;
};

// What a person would breathe in the room of the plan, by the set asked for, else by the strictest (exposure.h).
struct air_index {
    const struct authority *authority; // NULL = no room, or a component without density
    double index;                      // the larger of day means and short times
    bool complete;                     // every component has a limit
    enum exposure_verdict verdict;
};

struct portrait {
    struct blend blend;
    struct hansen hansen; // NAN parts when a component has no split
    struct teas teas;     // volume mean of published fractions
    enum phase_verdict phase;
    // Drying (physics/evaporation.h).
    double time_90;                    // nine tenths of the moles; NAN when the path can't be followed
    double time_95;                    // likewise
    struct hansen path[PORTRAIT_PATH]; // NAN parts where it isn't reached
    struct hansen tail;                // mean of the last 5 %; NAN parts likewise
    const struct component *last;      // the largest part of the last 5 % by volume, or NULL
    double last_share;                 // its share of it
    enum retention_word residue;       // by the slowest component
    // The film of the material to spare that takes up most.
    const struct material *spared;       // NULL when none is covered
    enum film_outcome film;              // its outcome; FILM_NOT_COVERED when nothing is known
    double swelling;                     // volume per dry volume; NAN unless bounded
    double inside[BLEND_COMPONENTS_MAX]; // what was taken up, volume fractions in the order of the blend's components;
                                         // NAN unless bounded
    struct hansen inside_place;          // its mean; NAN parts unless bounded
    // The materials to remove.
    double red_remove;     // largest RED; NAN without any
    bool dissolves_judged; // the film model covers them all
    bool dissolves;        // all of them are taken up without limit
    // Fire and health.
    double flash_point_c; // the one to count with; NAN = none known
    enum ghs_flammable flammable;
    size_t hazard_count; // sets of limits
    struct vapour_hazard hazards[EXPOSURE_AUTHORITIES_MAX];
    struct air_index air;
    int burden;         // health_burden
    unsigned classes;   // bits of enum hazard_class that any component is in
    bool hazards_known; // of every component; else burden and classes are the least that it may have
};

// The set of limits by which the vapour is worst: the largest complete ratio, else the largest; NULL without any
// figure.
const struct vapour_hazard *portrait_worst_vapour(const struct portrait *portrait);

// STATUS_OK also where something is not known (see the fields). STATUS_MEMORY; STATUS_NO_DATA only for limits that
// can't be converted.
enum status portrait_of(const struct portrait_frame *frame, const struct blend *blend, struct portrait *ret,
                        struct error *err);

#endif
