// SPDX-License-Identifier: GPL-3.0-or-later
// Where a blend must lie: the region against the scoring function, and its bounds against points drawn within them.
#include "selection/region.h"

#include "shelf.h"
#include "suite.h"

#include <stdio.h>

static struct invented invented; // large
static struct hansen places[GOAL_BOTTLES_MAX];

// Nearer to an edge than this it is not asked on which side a point lies.
static const double edge = 1e-6;

static void random_task(struct random *random, size_t removed, size_t spared) {
    static const double margins[] = {0, 0.1, 0.35};
    invented_start(&invented, 4, 20, margins[random_below(random, 3)]);
    for (size_t i = 0; i < 12; i++) {
        char id[16];
        snprintf(id, sizeof id, "liquid-%zu", i);
        places[i] = random_place(random);
        invented_bottle(&invented, id, places[i]);
    }
    for (size_t i = 0; i < removed; i++)
        invented_remove(&invented, random_place(random), 6 + 8 * random_uniform(random));
    for (size_t i = 0; i < spared; i++)
        invented_spare(&invented, random_place(random), 5);
}

static struct space random_space(struct random *random) {
    struct space space;
    struct hansen forward = {random_uniform(random) - 0.5, random_uniform(random) - 0.5, random_uniform(random) - 0.5};
    bool turned = random_uniform(random) < 0.7;
    space_make(&invented.goal, places, turned ? &forward : NULL, (int)random_below(random, 3), &space);
    return space;
}

// A composition of up to four bottles and where it lies in the space.
static struct composition random_composition(struct random *random, const struct space *space, double ret[3]) {
    struct composition c = {0};
    int steps_of[GOAL_BOTTLES_MAX] = {0}; // as the space numbers the bottles
    int some[4];
    size_t kinds = 1 + random_below(random, 4);
    for (size_t i = 0; i < kinds; i++)
        some[i] = (int)random_below(random, (size_t)space->bottles);
    for (int step = 0; step < space->steps; step++)
        steps_of[some[random_below(random, kinds)]]++;
    for (int axis = 0; axis < 3; axis++) {
        ret[axis] = 0;
        for (int i = 0; i < space->bottles; i++)
            ret[axis] += steps_of[i] * space->place[i][axis];
    }
    for (int bottle = 0; bottle < space->bottles; bottle++) // in ascending order of the goal's
        for (int i = 0; i < space->bottles; i++)
            if (space->bottle[i] == bottle && steps_of[i]) {
                c.bottles[c.count] = bottle;
                c.steps[c.count++] = steps_of[i];
            }
    return c;
}

static double along(const double normal[3], const double x[3]) {
    return normal[0] * x[0] + normal[1] * x[1] + normal[2] * x[2];
}

// Every blend that the scoring function lets in is held, and lies in the box and between the planes; no other one is.
START_TEST(the_region_is_what_the_score_lets_in) {
    struct random random = {81};
    size_t held = 0, turned_away = 0;
    for (int task = 0; task < 300; task++) {
        random_task(&random, 1 + random_below(&random, 2), 1 + random_below(&random, 2));
        struct space space = random_space(&random);
        bool gentlest = random_uniform(&random) < 0.7;
        double threshold = gentlest ? (random_uniform(&random) < 0.3 ? -INFINITY : 8 * random_uniform(&random))
                                    : -0.3 - random_uniform(&random);
        struct region region;
        region_make(&invented.goal, &space, gentlest ? AIM_GENTLEST : AIM_NEAREST, threshold, &region);
        for (int n = 0; n < 100; n++) {
            double x[3];
            struct composition c = random_composition(&random, &space, x);
            struct distance_score score =
                composition_score(&invented.goal, composition_position(&invented.goal, places, &c));
            double red_most = gentlest ? 1 - invented.goal.margin : -threshold;
            double ra_least = gentlest ? threshold : -INFINITY;
            if (fabs(score.red_remove - red_most) < edge || fabs(score.ra_spare - ra_least) < edge)
                continue;
            bool expected = score.red_remove < red_most && score.ra_spare > ra_least;
            ck_assert_int_eq(region_holds(&region, x), expected);
            held += expected, turned_away += !expected;
            ck_assert(!expected || !region.empty);
            for (int d = 0; d < DIRECTIONS && expected; d++) {
                ck_assert_double_ge(along(space.normal[d], x), region.lo[d]);
                ck_assert_double_le(along(space.normal[d], x), region.hi[d]);
            }
            for (int i = 0; i < region.slab_count && expected; i++) {
                ck_assert_double_ge(along(region.slabs[i].normal, x), region.slabs[i].least);
                ck_assert_double_le(along(region.slabs[i].normal, x), region.slabs[i].most);
            }
        }
    }
    ck_assert_uint_gt(held, 1000);
    ck_assert_uint_gt(turned_away, 1000);
}
END_TEST

// Three axes of length 1 at right angles; the first points forward, the second leans to the axis asked for.
START_TEST(the_first_axis_points_forward) {
    struct random random = {82};
    random_task(&random, 1, 1);
    for (int n = 0; n < 300; n++) {
        struct space space;
        double size = n % 3 == 0 ? 0.05 : n % 3 == 1 ? 1 : 20;
        struct hansen forward = {size * (random_uniform(&random) - 0.5), size * (random_uniform(&random) - 0.5),
                                 size * (random_uniform(&random) - 0.5)};
        double way[3] = {2 * forward.delta_d, forward.delta_p, forward.delta_h}; // in stretched space
        int second = n % 3;
        space_make(&invented.goal, places, &forward, second, &space);
        double length = sqrt(along(way, way));
        for (int a = 0; a < 3; a++)
            for (int b = 0; b < 3; b++)
                ck_assert_double_eq_tol(along(space.frame[a], space.frame[b]), a == b, 1e-9);
        if (fabs(way[second]) > 0.99 * length)
            continue;
        ck_assert_double_eq_tol(along(space.frame[0], way), length, 1e-9 * length);
        ck_assert_double_gt(space.frame[1][second], 0);
        ck_assert_double_eq_tol(space.frame[2][second], 0, 1e-9);
    }
    // Along the second axis itself, or nowhere: those of Hansen space, of which delta_d counts double.
    const struct hansen along_p = {0, 0.3, 0}, nowhere = {0, 0, 0};
    const struct hansen *const ways[] = {&along_p, &nowhere, NULL};
    for (int k = 0; k < 3; k++) {
        struct space space;
        space_make(&invented.goal, places, ways[k], 1, &space);
        for (int a = 0; a < 3; a++)
            for (int b = 0; b < 3; b++)
                ck_assert_double_eq(space.frame[a][b], a == b);
        for (int i = 0; i < space.bottles; i++)
            ck_assert_double_eq_tol(space.place[i][0] * space.steps, 2 * places[space.bottle[i]].delta_d, 1e-9);
    }
}
END_TEST

// One ball to be in, one to be out of. A box misses the first when its nearest point does, and lies within the second
// when its farthest point does; else it may meet the region unless the plane between the two balls says otherwise.
START_TEST(boxes_beyond_the_region_do_not_meet_it) {
    struct random random = {83};
    size_t counts[3] = {0};
    for (int n = 0; n < 4000; n++) {
        if (n % 20 == 0)
            random_task(&random, 1, 1);
        struct space space = random_space(&random);
        struct region region;
        region_make(&invented.goal, &space, AIM_GENTLEST, 2 + 8 * random_uniform(&random), &region);
        const struct ball *in = &region.inside[0], *out = &region.outside[0];
        double lo[3], hi[3], nearest = 0, farthest = 0;
        for (int axis = 0; axis < 3; axis++) {
            lo[axis] = n % 4 ? in->centre[axis] + 40 * (random_uniform(&random) - 0.5)
                             : out->centre[axis] + 8 * (random_uniform(&random) - 0.5);
            hi[axis] = lo[axis] + (n % 4 ? 8 : 3) * random_uniform(&random);
            double beyond = fmax(fmax(lo[axis] - in->centre[axis], in->centre[axis] - hi[axis]), 0);
            double end = fmax(fabs(lo[axis] - out->centre[axis]), fabs(hi[axis] - out->centre[axis]));
            nearest += beyond * beyond, farthest += end * end;
        }
        bool misses = sqrt(nearest) > in->radius + edge, hidden = sqrt(farthest) < out->radius - edge;
        bool meets = region_may_meet(&region, lo, hi), found = false;
        for (int k = 0; k < 50 && !found; k++) {
            double x[3];
            for (int axis = 0; axis < 3; axis++)
                x[axis] = lo[axis] + (hi[axis] - lo[axis]) * random_uniform(&random);
            found = region_holds(&region, x);
        }
        ck_assert(!found || meets);
        ck_assert(!(misses || hidden) || !meets);
        counts[0] += found, counts[1] += misses, counts[2] += hidden;
    }
    ck_assert_uint_gt(counts[0], 300);
    ck_assert_uint_gt(counts[1], 300);
    ck_assert_uint_gt(counts[2], 30);
}
END_TEST

static bool inside_all(const struct region *region, const double x[3]) {
    struct region open = *region;
    open.outside_count = 0;
    return region_holds(&open, x);
}

// Every step of a line that the region holds is in the range; all but the ends of the range lie in every inside-ball; a
// line of which no step does has no range of more than two steps, its ends widened against rounding.
START_TEST(a_chord_is_the_part_of_a_line_inside) {
    struct random random = {84};
    size_t ranges = 0, none = 0;
    for (int n = 0; n < 4000; n++) {
        if (n % 20 == 0)
            random_task(&random, 1 + random_below(&random, 2), 1);
        struct space space = random_space(&random);
        struct region region;
        region_make(&invented.goal, &space, AIM_GENTLEST, n % 2 ? 6 * random_uniform(&random) : -INFINITY, &region);
        size_t first = random_below(&random, 12), second = random_below(&random, 12);
        double base[3], step[3];
        int steps = 40, least = 1, most = steps - 1;
        for (int axis = 0; axis < 3; axis++) {
            base[axis] = space.steps * space.place[second][axis];
            step[axis] = (space.place[first][axis] - space.place[second][axis]) / 2;
        }
        bool found = region_chord(&region, base, step, &least, &most);
        bool some = false;
        for (int t = 1; t < steps; t++) {
            double x[3] = {base[0] + t * step[0], base[1] + t * step[1], base[2] + t * step[2]};
            bool holds = region_holds(&region, x);
            some |= holds;
            ck_assert(!holds || (found && t >= least && t <= most));
            if (found && t > least && t < most && first != second)
                ck_assert(inside_all(&region, x));
        }
        ck_assert(!found || (least >= 1 && most < steps && least <= most));
        ranges += found && some, none += !found;
    }
    ck_assert_uint_gt(ranges, 500);
    ck_assert_uint_gt(none, 500);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("region");
    TCase *tcase = tcase_create("region");
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, the_region_is_what_the_score_lets_in);
    tcase_add_test(tcase, the_first_axis_points_forward);
    tcase_add_test(tcase, boxes_beyond_the_region_do_not_meet_it);
    tcase_add_test(tcase, a_chord_is_the_part_of_a_line_inside);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
