// SPDX-License-Identifier: GPL-3.0-or-later
// Where a blend must lie to be worth scoring: inside every ball of one list and outside every ball of another, in
// stretched Hansen space (2 delta_d, delta_p, delta_h), where Ra is the plain distance.
//
// Rounding. Positions here are sums in another order than those of composition_position, and squares are compared
// instead of roots. Both ways each figure carries fewer than 32 roundings of numbers no larger than `magnitude`, so it
// is off by less than 32 * 2^-53 * magnitude, below 1e-14 * magnitude. Balls are therefore widened (or narrowed) by a
// slack of 1e-11 * magnitude: nothing is left out that the scoring function could let in.
#ifndef MILDSOLVE_SELECTION_REGION_H
#define MILDSOLVE_SELECTION_REGION_H

#include "selection/composition.h"

// Directions along which boxes have a width: three axes at right angles, and the three of Hansen space, along which the
// shelf ends sharply (no liquid has a negative delta_p).
enum { DIRECTIONS = 6 };

// The shelf in stretched space, in coordinates along the first three directions. A composition lies at the sum of its
// steps times the places of one step.
struct space {
    int bottles;
    int steps;
    int bottle[GOAL_BOTTLES_MAX]; // index into goal->bottles; here they stand in order along the first axis
    double frame[3][3];           // the three axes, as unit vectors of stretched space
    double normal[DIRECTIONS][3]; // the directions, in coordinates along the axes
    double place[GOAL_BOTTLES_MAX][DIRECTIONS]; // of one step of each bottle (its own place / steps)
    double lo[DIRECTIONS], hi[DIRECTIONS];      // range of the places of one step
    double slack;
};

// `forward` is where the first axis shall point, in (delta_d, delta_p, delta_h), and `second` (0 to 2) the axis of
// Hansen space near which the second axis shall lie. NULL: the axes of Hansen space themselves.
void space_make(const struct goal *goal, const struct hansen *bottle_places, const struct hansen *forward, int second,
                struct space *ret);

struct ball {
    double centre[3];
    double radius; // with the slack; negative inside-balls hold nothing, negative outside-balls keep nothing out
    double radius_squared;
};

// least <= normal . x <= most
struct slab {
    double normal[3]; // of length 1
    double least, most;
};

struct region {
    struct ball inside[GOAL_MATERIALS_MAX];
    struct ball outside[GOAL_MATERIALS_MAX];
    int inside_count, outside_count;
    // What lies in one ball and outside another lies beyond the plane through the circle where they cut each other.
    struct slab slabs[GOAL_MATERIALS_MAX * GOAL_MATERIALS_MAX];
    int slab_count;
    double lo[DIRECTIONS], hi[DIRECTIONS]; // box around the part of the region that the shelf can reach
    bool empty;                            // there is no such part
};

// What is searched for; each with a key that is larger for the better blend.
enum aim {
    AIM_GENTLEST, // largest ra_spare of the blends that pass: key = ra_spare
    AIM_NEAREST   // least red_remove: key = -red_remove
};

// The region of blends whose key is at least `threshold` (-INFINITY: no threshold yet).
void region_make(const struct goal *goal, const struct space *space, enum aim aim, double threshold,
                 struct region *ret);

// The same with a higher threshold; the box stays.
void region_tighten(const struct goal *goal, const struct space *space, enum aim aim, double threshold,
                    struct region *region);

static inline bool region_holds(const struct region *region, const double x[3]) {
    for (int i = 0; i < region->inside_count; i++) {
        const struct ball *ball = &region->inside[i];
        double a = x[0] - ball->centre[0], b = x[1] - ball->centre[1], c = x[2] - ball->centre[2];
        if (a * a + b * b + c * c > ball->radius_squared)
            return false;
    }
    for (int i = 0; i < region->outside_count; i++) {
        const struct ball *ball = &region->outside[i];
        double a = x[0] - ball->centre[0], b = x[1] - ball->centre[1], c = x[2] - ball->centre[2];
        if (a * a + b * b + c * c < ball->radius_squared)
            return false;
    }
    return true;
}

// The whole numbers t in [*least, *most] for which base + t * step may lie in every inside-ball; false when there are
// none, or when the ends, and with them all between, lie in one outside-ball. The range is widened against rounding,
// never narrowed.
bool region_chord(const struct region *region, const double base[3], const double step[3], int *least, int *most);

// False only when no point of the box lies in the region (the converse is not promised).
bool region_may_meet(const struct region *region, const double lo[3], const double hi[3]);

#endif
