// SPDX-License-Identifier: GPL-3.0-or-later
// Tails and the sieve against the blends themselves: neither may lose one that lies in the region.
#include "selection/sieve.h"

#include "shelf.h"
#include "suite.h"
#include "tables.h"

#include <stdio.h>

enum { BOTTLES = 10, STEPS = 40, SIZE = 4 }; // heads of two bottles, tails of two

static struct invented invented; // large
static struct hansen places[GOAL_BOTTLES_MAX];

// Where blends are.
static struct hansen among_four(struct random *random) {
    double shares[4];
    struct hansen sum = {0};
    random_fractions(random, 4, shares);
    for (size_t i = 0; i < 4; i++) {
        struct hansen place = places[random_below(random, BOTTLES)];
        sum.delta_d += shares[i] * place.delta_d;
        sum.delta_p += shares[i] * place.delta_p;
        sum.delta_h += shares[i] * place.delta_h;
    }
    return sum;
}

static void random_task(struct random *random) {
    invented_start(&invented, SIZE, STEPS, 0.1);
    for (size_t i = 0; i < BOTTLES; i++) {
        char id[16];
        snprintf(id, sizeof id, "liquid-%zu", i);
        places[i] = random_place(random);
        invented_bottle(&invented, id, places[i]);
    }
    invented_remove(&invented, among_four(random), 0.5 + 3 * random_uniform(random) * random_uniform(random));
    invented_spare(&invented, random_place(random), 5);
}

struct scene {
    struct space space;
    struct region region;
    struct tails_wanted wanted;
    struct tails tails;
};

// From narrow to wide regions, along the axes of Hansen space or others.
static void open_scene(struct random *random, int head_sum, struct scene *ret) {
    struct hansen forward = {random_uniform(random) - 0.5, random_uniform(random) - 0.5, random_uniform(random) - 0.5};
    struct error err = {0};
    random_task(random);
    space_make(&invented.goal, places, random_uniform(random) < 0.5 ? &forward : NULL, (int)random_below(random, 3),
               &ret->space);
    region_make(&invented.goal, &ret->space, AIM_GENTLEST, 6 * random_uniform(random), &ret->region);
    ret->wanted = (struct tails_wanted){.space = &ret->space,
                                        .region = &ret->region,
                                        .sum = STEPS - head_sum,
                                        .rest = head_sum,
                                        .share_least = (head_sum + 1) / 2};
    stop_unless(tails_gather(&ret->wanted, &ret->tails, &err), &err);
}

static void place_of(const struct space *space, int first, int t, int second, int u, double ret[3]) {
    for (int axis = 0; axis < 3; axis++)
        ret[axis] = t * space->place[first][axis] + u * space->place[second][axis];
}

static bool gathered(const struct tails *tails, int first, int second, int t) {
    size_t times = 0;
    for (size_t i = 0; i < tails->count; i++)
        times += tails->items[i].bottles[0] == first && tails->items[i].bottles[1] == second &&
                 tails->items[i].steps[0] == t;
    ck_assert_uint_le(times, 1);
    return times == 1;
}

// Whether some head of this sum, of two bottles, makes a blend in the region with what lies at `tail`.
static bool some_head_fits(const struct scene *scene, const double tail[3]) {
    const struct space *space = &scene->space;
    for (int a = 0; a < BOTTLES; a++)
        for (int b = a + 1; b < BOTTLES; b++)
            for (int t = 1; t < scene->wanted.rest; t++) {
                double x[3];
                place_of(space, a, t, b, scene->wanted.rest - t, x);
                for (int axis = 0; axis < 3; axis++)
                    x[axis] += tail[axis];
                if (region_holds(&scene->region, x))
                    return true;
            }
    return false;
}

// The tail's place, and what the rest can add to it, against the plane between what is to be removed and to be spared.
static bool slab_in_reach(const struct scene *scene, const double tail[3]) {
    const struct slab *slab = &scene->region.slabs[0];
    double most = -INFINITY, least = INFINITY, at = 0; // of one step
    for (int axis = 0; axis < 3; axis++)
        at += slab->normal[axis] * tail[axis];
    for (int i = 0; i < BOTTLES; i++) {
        double along = 0;
        for (int axis = 0; axis < 3; axis++)
            along += slab->normal[axis] * scene->space.place[i][axis];
        most = fmax(most, along), least = fmin(least, along);
    }
    return at + scene->wanted.rest * most > slab->least - 1e-6 && at + scene->wanted.rest * least < slab->most + 1e-6;
}

// Along every direction likewise, against the box.
static bool box_in_reach(const struct scene *scene, const double tail[3]) {
    const struct space *space = &scene->space;
    for (int d = 0; d < DIRECTIONS; d++) {
        const double *normal = space->normal[d];
        double at = normal[0] * tail[0] + normal[1] * tail[1] + normal[2] * tail[2];
        if (at + scene->wanted.rest * space->hi[d] < scene->region.lo[d] - 1e-6 ||
            at + scene->wanted.rest * space->lo[d] > scene->region.hi[d] + 1e-6)
            return false;
    }
    return true;
}

// Each pair of bottles that the rest may bring into the region is there once; none is that the rest cannot bring into
// the box or beyond the plane.
START_TEST(tails_are_the_pairs_that_may_reach_the_region) {
    struct random random = {91};
    size_t needed = 0, out_of_reach = 0;
    static struct scene scene;
    for (int n = 0; n < 40; n++) {
        open_scene(&random, 6 + n % 15, &scene);
        int sum = scene.wanted.sum, least = scene.wanted.share_least;
        for (int a = 0; a < BOTTLES; a++)
            for (int b = a + 1; b < BOTTLES; b++)
                for (int t = least; t <= sum - least; t++) {
                    double tail[3];
                    place_of(&scene.space, a, t, b, sum - t, tail);
                    bool there = gathered(&scene.tails, a, b, t), fits = some_head_fits(&scene, tail);
                    ck_assert(!fits || there);
                    ck_assert(!there || (box_in_reach(&scene, tail) && slab_in_reach(&scene, tail)));
                    needed += fits, out_of_reach += !box_in_reach(&scene, tail);
                }
    }
    tails_release(&scene.tails);
    ck_assert_uint_gt(needed, 1000);
    ck_assert_uint_gt(out_of_reach, 1000);
}
END_TEST

// No fewer cells than tails, and where every axis is cut no more than twice as many along each; those of the axes that
// are cut are no more than twice as wide as each other.
static void check_cells(const struct tails *tails) {
    double all = 1, narrow = INFINITY, wide = 0;
    bool every = true;
    for (int axis = 0; axis < 3; axis++) {
        ck_assert_double_gt(tails->hi[axis], tails->lo[axis]);
        double width = (tails->hi[axis] - tails->lo[axis]) / tails->cells[axis];
        ck_assert_double_eq_tol(tails->per_unit[axis] * width, 1, 1e-9);
        all *= tails->cells[axis];
        every &= tails->cells[axis] > 1;
        if (tails->cells[axis] == 1)
            continue;
        narrow = fmin(narrow, width), wide = fmax(wide, width);
    }
    ck_assert_double_ge(all, (double)tails->count);
    ck_assert(!every || all <= 8 * (double)tails->count);
    ck_assert_double_le(wide, 2 * narrow);
}

// By cells in order; the box holds them all.
START_TEST(tails_are_filed_by_place) {
    struct random random = {92};
    static struct scene scene;
    for (int n = 0; n < 40; n++) {
        open_scene(&random, 6 + n % 15, &scene);
        const struct tails *tails = &scene.tails;
        if (tails->count)
            check_cells(tails);
        for (size_t i = 0; i < tails->count; i++) {
            const struct tail *tail = &tails->items[i];
            int cell = 0;
            for (int axis = 0; axis < 3; axis++) {
                ck_assert(tail->place[axis] >= tails->lo[axis] && tail->place[axis] <= tails->hi[axis]);
                cell = cell * tails->cells[axis] + tails_cell(tails, axis, tail->place[axis]);
            }
            ck_assert_uint_eq(tail->cell, (unsigned)cell);
            ck_assert_uint_ge(i, tails->starts[cell]);
            ck_assert_uint_lt(i, tails->starts[cell + 1]);
        }
    }
    tails_release(&scene.tails);
}
END_TEST

// A head that any tail brings into the region passes; of the others a good part is turned away.
START_TEST(the_sieve_lets_every_head_through_that_finds_a_tail) {
    struct random random = {93};
    size_t passed = 0, turned_away = 0, in_vain = 0;
    static struct scene scene;
    for (int n = 0; n < 150; n++) {
        struct sieve sieve;
        struct error err = {0};
        int head_sum = 6 + n % 15;
        open_scene(&random, head_sum, &scene);
        if (scene.tails.count == 0)
            continue;
        stop_unless(sieve_init(&sieve, &scene.space, STEPS / 2, &err), &err);
        sieve_draw(&sieve, &scene.region, &scene.tails, head_sum);
        for (int a = 0; a < BOTTLES; a++)
            for (int b = a + 1; b < BOTTLES; b++)
                for (int t = 1; t < head_sum; t++) {
                    double head[3];
                    bool finds = false;
                    place_of(&scene.space, a, t, b, head_sum - t, head);
                    for (size_t i = 0; i < scene.tails.count && !finds; i++) {
                        const double *tail = scene.tails.items[i].place;
                        finds = region_holds(&scene.region,
                                             (double[3]){head[0] + tail[0], head[1] + tail[1], head[2] + tail[2]});
                    }
                    bool passes =
                        sieve_passes(&sieve, sieve_places(&sieve, t)[a] + sieve_places(&sieve, head_sum - t)[b]);
                    ck_assert(!finds || passes);
                    passed += finds, turned_away += !passes, in_vain += passes && !finds;
                }
        sieve_release(&sieve);
    }
    tails_release(&scene.tails);
    ck_assert_uint_gt(passed, 1000);
    ck_assert_uint_gt(3 * turned_away, in_vain);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("sieve");
    TCase *tcase = tcase_create("sieve");
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, tails_are_the_pairs_that_may_reach_the_region);
    tcase_add_test(tcase, tails_are_filed_by_place);
    tcase_add_test(tcase, the_sieve_lets_every_head_through_that_finds_a_tail);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
