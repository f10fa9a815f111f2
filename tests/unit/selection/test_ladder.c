// SPDX-License-Identifier: GPL-3.0-or-later
// The rule of the ladder, on ladders made by hand and on thousands of random ones.
#include "selection/ladder.h"

#include "random.h"
#include "suite.h"

#include <math.h>
#include <string.h>

static double percent_of(int rung) {
    return rung * (double)LADDER_STEP_PERCENT;
}

// One direction in which everything below `likely` hardly works and everything from there on may.
static struct ladder *one_direction(int likely, double last_percent) {
    static struct ladder ladder;
    memset(&ladder, 0, sizeof ladder);
    ladder.count = 1;
    ladder.touch_most = 0.5;
    ladder.directions[0].last_percent = last_percent;
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder.directions[0].rungs[i] = (struct ladder_rung){
            .p_works = i < likely ? 0.1 : 0.6, .p_touches = 0.01, .margin = i, .paint = log(1 + i)};
    for (int i = 0; i < LADDER_RUNGS && percent_of(i) <= last_percent; i++)
        ladder.directions[0].rungs[i].tested = true;
    ladder_arrange(&ladder);
    return &ladder;
}

START_TEST(the_base_comes_first) {
    struct ladder *ladder = one_direction(8, -1);
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 0);
}
END_TEST

START_TEST(ten_percent_up_while_nothing_is_likely) {
    struct ladder *ladder = one_direction(8, 10);
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 4); // 20 %
    ladder = one_direction(8, 12.5);                     // a share beside the grid: 20 %, not 22.5
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 4);
}
END_TEST

START_TEST(not_above_the_weakest_likely_one) {
    struct ladder *ladder = one_direction(5, 20); // 25 % is likely
    struct ladder_step step = ladder_step_of(ladder, 0);
    ck_assert_int_eq(step.likely, 5);
    ck_assert_int_eq(step.rung, 5);
    ck_assert(!ladder_allows(ladder, 0, 6));
    ck_assert(ladder_allows(ladder, 0, 5));
}
END_TEST

START_TEST(a_likely_rung_that_cannot_be_made_is_no_way_round) {
    struct ladder *ladder = one_direction(5, 20);
    ladder->directions[0].rungs[5].two_liquids = true;
    struct ladder_step step = ladder_step_of(ladder, 0);
    ck_assert_int_eq(step.rung, LADDER_NONE);
    ck_assert_int_eq(step.end, LADDER_SPLITS);
}
END_TEST

START_TEST(ends_are_told_apart) {
    struct ladder *ladder = one_direction(LADDER_RUNGS, 100);
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_AT_TOP);
    ladder = one_direction(8, 30);
    for (int i = 7; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].p_touches = 0.9;
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_TOUCHES);
    ladder = one_direction(8, 30);
    for (int i = 7; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].p_works = ladder->directions[0].rungs[i].p_touches = NAN;
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_NOT_JUDGED);
    ladder = one_direction(LADDER_RUNGS, 30);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].p_works = LADDER_HOPELESS / 2;
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_GIVEN_UP);
}
END_TEST

// What was tested already is no chance any more, however likely it was: only what lies above it counts.
START_TEST(the_last_test_keeps_no_direction_alive) {
    struct ladder *ladder = one_direction(LADDER_RUNGS, 20);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].p_works = i == 4 ? 0.6 : LADDER_HOPELESS / 2;
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_GIVEN_UP);
    ladder->directions[0].rungs[5].p_works = 2 * LADDER_HOPELESS;
    ck_assert_int_eq(ladder_step_of(ladder, 0).end, LADDER_GOES_ON);
}
END_TEST

// Two directions: the one whose likely rung is milder for the paint is taken, and the other waits while its next rung
// is stronger than that.
START_TEST(the_milder_direction_is_taken) {
    struct ladder *ladder = one_direction(6, 20);
    ladder->count = 2;
    ladder->directions[1] = ladder->directions[0];
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[1].rungs[i].paint = log(4 + i);
    ladder_arrange(ladder);
    struct ladder_step steps[2];
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[0].direction, 0);
    ck_assert_int_eq(steps[0].rung, 6);
    ck_assert_int_eq(steps[1].direction, 1);
    ck_assert_int_eq(steps[1].rung, LADDER_NONE); // 25 % of it takes up more (9) than what is likely (7)
    ck_assert_int_eq(steps[1].end, LADDER_TOO_STRONG);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[1].rungs[i].paint = log(1.5 + i);
    ladder_arrange(ladder);
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[1].rung, 5); // 25 % (6.5) is milder than 7, 30 % (7.5) isn't
}
END_TEST

// A bottle whose peroxide test is overdue waits while another direction has as good a chance, and leads where none has.
START_TEST(an_overdue_bottle_waits_for_others_as_good) {
    struct ladder *ladder = one_direction(6, 20);
    ladder->count = 2;
    ladder->directions[1] = ladder->directions[0];
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[1].rungs[i].p_works = fmin(ladder->directions[0].rungs[i].p_works, 0.55);
    ladder_arrange(ladder);
    struct ladder_step steps[2];
    ladder->directions[1].overdue = true;
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[0].direction, 0);
    ck_assert(ladder_is_led(ladder));
    ladder->directions[0].overdue = true;
    ladder->directions[1].overdue = false;
    ck_assert(!ladder_is_led(ladder)); // chances will be compared
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[0].direction, 1); // 0.55 is as good as 0.6
    ck_assert(steps[0].rung != LADDER_NONE);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[1].rungs[i].p_works = fmin(ladder->directions[0].rungs[i].p_works, 0.45);
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[0].direction, 0); // 0.45 is not
    ladder->directions[1].overdue = true;
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[1].rungs[i].p_works = ladder->directions[0].rungs[i].p_works;
    ladder_steps(ladder, steps);
    ck_assert_int_eq(steps[0].direction, 0); // none is free of that doubt
}
END_TEST

START_TEST(strength_never_falls) {
    struct ladder *ladder = one_direction(6, 20);
    ladder->directions[0].rungs[3].paint = log(10); // a bump: what lies above it is reached only over it
    ladder_arrange(ladder);
    for (int i = 1; i < LADDER_RUNGS; i++)
        ck_assert(ladder->directions[0].rungs[i].strength >= ladder->directions[0].rungs[i - 1].strength);
    ck_assert_double_eq(ladder->directions[0].rungs[6].strength, log(10));
}
END_TEST

// Where the paint takes up hardly more, the shares in between are no rungs: from 20 % the next is 30, although 25 % is
// likely; where it does, they are.
START_TEST(fine_steps_where_the_paint_feels_them) {
    struct ladder *ladder = one_direction(5, 20);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].paint = log(0.2 + 0.009 * i); // 0.018 for 10 %
    ladder_arrange(ladder);
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 6);
    ck_assert(!ladder_allows(ladder, 0, 5));
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].paint = log(0.2 + 0.011 * i); // 0.022
    ladder_arrange(ladder);
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 5);
    for (int i = 0; i < LADDER_RUNGS; i++)
        ladder->directions[0].rungs[i].paint = NAN; // nothing known: as if it did
    ladder_arrange(ladder);
    ck_assert_int_eq(ladder_step_of(ladder, 0).rung, 5);
}
END_TEST

START_TEST(climb_and_even_series) {
    struct ladder *ladder = one_direction(5, 10); // likely from 25 %
    int rungs[LADDER_RUNGS];
    ck_assert_int_eq(ladder_climb(ladder, 0, rungs, 4), 4);
    ck_assert_int_eq(rungs[0], 4); // 20 %
    ck_assert_int_eq(rungs[1], 5); // 25 %, likely
    ck_assert_int_eq(rungs[2], 6); // 30 %, the weakest likely one then
    ck_assert_int_eq(ladder_even_series(&ladder->directions[0], rungs, LADDER_RUNGS), 9);
    ck_assert_int_eq(rungs[0], 4);
    ck_assert_int_eq(rungs[8], 20);
    ladder = one_direction(5, -1);
    ck_assert_int_eq(ladder_even_series(&ladder->directions[0], rungs, LADDER_RUNGS), 11);
    ck_assert_int_eq(rungs[0], 0);
}
END_TEST

// --- the rule on random ladders, written down anew ---

static void random_ladder(struct random *random, struct ladder *ladder) {
    memset(ladder, 0, sizeof *ladder);
    ladder->count = 1 + (int)random_below(random, 5);
    ladder->touch_most = random_uniform(random);
    for (int d = 0; d < ladder->count; d++) {
        struct ladder_direction *direction = &ladder->directions[d];
        bool started = random_uniform(random) < 0.8;
        direction->last_percent = started ? floor(100 * random_uniform(random)) : -1;
        for (int i = 0; i < LADDER_RUNGS; i++) {
            struct ladder_rung *rung = &direction->rungs[i];
            rung->p_works = random_uniform(random) * (random_uniform(random) < 0.5 ? 0.5 : 1);
            rung->p_touches = random_uniform(random) * random_uniform(random);
            rung->margin = random_uniform(random);
            rung->paint =
                random_uniform(random) < 0.05 ? (double)NAN : log(0.1 + 0.02 * (i + 6 * random_uniform(random)));
            rung->two_liquids = random_uniform(random) < 0.1;
            rung->tested = percent_of(i) <= direction->last_percent && random_uniform(random) < 0.5;
            if (random_uniform(random) < 0.05)
                rung->p_works = rung->p_touches = NAN;
        }
    }
    ladder_arrange(ladder);
}

static bool judged(const struct ladder_rung *rung) {
    return !isnan(rung->p_works) && !isnan(rung->p_touches);
}

// The weakest untested likely rung of every direction is no weaker than this one, in its own direction by share,
// elsewhere (where it can be made and taken) by strength; and this one is no more than ten percent of the volume up.
static void check_rule(const struct ladder *ladder, int d, int i) {
    const struct ladder_direction *own = &ladder->directions[d];
    const struct ladder_rung *rung = &own->rungs[i];
    double from = own->last_percent < 0 ? -10 : own->last_percent;
    ck_assert(percent_of(i) <= from + 10 + 1e-9);
    ck_assert(percent_of(i) > own->last_percent);
    ck_assert(!rung->tested && !rung->idle && !rung->two_liquids && judged(rung) &&
              rung->p_touches <= ladder->touch_most);
    for (int k = 0; k < ladder->count; k++) {
        const struct ladder_direction *direction = &ladder->directions[k];
        for (int j = 0; j < LADDER_RUNGS; j++) {
            const struct ladder_rung *other = &direction->rungs[j];
            if (other->tested || other->idle || !judged(other) || other->p_works < 0.3 ||
                percent_of(j) <= direction->last_percent)
                continue;
            if (k == d)
                ck_assert_int_le(i, j);
            else if (!other->two_liquids && other->p_touches <= ladder->touch_most)
                ck_assert(rung->strength <= other->strength);
            break; // the weakest likely one of each direction is the one that counts
        }
    }
}

START_TEST(rule_holds_on_random_ladders) {
    struct random random = {.state = 7001};
    static struct ladder ladder;
    size_t proposed = 0;
    for (int n = 0; n < 20000; n++) {
        random_ladder(&random, &ladder);
        struct ladder_step steps[LADDER_DIRECTIONS_MAX];
        ladder_steps(&ladder, steps);
        bool seen[LADDER_DIRECTIONS_MAX] = {false};
        for (int k = 0; k < ladder.count; k++) {
            ck_assert(!seen[steps[k].direction]);
            seen[steps[k].direction] = true;
            ck_assert((steps[k].rung == LADDER_NONE) == (steps[k].end != LADDER_GOES_ON));
            if (steps[k].rung == LADDER_NONE)
                continue;
            proposed++;
            ck_assert(ladder_allows(&ladder, steps[k].direction, steps[k].rung));
            check_rule(&ladder, steps[k].direction, steps[k].rung);
        }
        for (int k = 2; k < ladder.count; k++) // after the one to take, mildest first
            if (steps[k].rung != LADDER_NONE)
                ck_assert(ladder.directions[steps[k - 1].direction].rungs[steps[k - 1].rung].strength <=
                          ladder.directions[steps[k].direction].rungs[steps[k].rung].strength);
    }
    ck_assert_uint_gt(proposed, 10000);
}
END_TEST

// --- judged only as far up as the answer needs ---

// The rungs of `all` up to each direction's reach; nothing is known of those above.
static void hide_above_reach(const struct ladder *all, struct ladder *ladder) {
    for (int d = 0; d < all->count; d++) {
        struct ladder_direction *direction = &ladder->directions[d];
        int reach = direction->reach;
        *direction = all->directions[d];
        direction->reach = reach;
        for (int i = reach + 1; i < LADDER_RUNGS; i++)
            direction->rungs[i] = (struct ladder_rung){.p_works = NAN,
                                                       .p_touches = NAN,
                                                       .margin = NAN,
                                                       .paint = NAN,
                                                       .tested = all->directions[d].rungs[i].tested};
    }
    ladder_arrange(ladder);
}

static void settle_steps(const struct ladder *all, struct ladder *ladder) {
    for (int d = 0; d < all->count; d++)
        while (!ladder_settled(ladder, d)) {
            ladder->directions[d].reach += 2;
            hide_above_reach(all, ladder);
        }
}

static void check_climb(const struct ladder *all, struct ladder *ladder, int d, int most) {
    int of_all[LADDER_RUNGS], of_some[LADDER_RUNGS];
    while (!ladder_climb_settled(ladder, d, most)) {
        ladder->directions[d].reach += 2;
        hide_above_reach(all, ladder);
    }
    int count = ladder_climb(all, d, of_all, most);
    ck_assert_int_eq(ladder_climb(ladder, d, of_some, most), count);
    for (int i = 0; i < count; i++)
        ck_assert_int_eq(of_some[i], of_all[i]);
}

// Nothing above is left to be judged, although nothing in it is likely and something may still be proposed.
START_TEST(a_direction_judged_to_its_top_is_settled) {
    struct ladder *ladder = one_direction(LADDER_RUNGS, 20);
    ladder->directions[0].reach = LADDER_RUNGS - 1;
    ck_assert(ladder_settled(ladder, 0));
    ladder->directions[0].reach = LADDER_RUNGS - 2; // the top may be the first likely one
    ck_assert(!ladder_settled(ladder, 0));
}
END_TEST

START_TEST(rungs_left_out_change_nothing) {
    struct random random = {.state = 7002};
    static struct ladder all, ladder;
    size_t left_out = 0, led = 0;
    for (int n = 0; n < 5000; n++) {
        random_ladder(&random, &all);
        for (int d = 0; d < all.count; d++)
            all.directions[d].reach = LADDER_RUNGS - 1;
        ladder = all;
        for (int d = 0; d < all.count; d++)
            ladder.directions[d].reach = 0;
        hide_above_reach(&all, &ladder);
        settle_steps(&all, &ladder);
        ck_assert_int_eq(ladder_is_led(&ladder), ladder_is_led(&all));
        if (!ladder_is_led(&all))
            continue;
        led++;
        struct ladder_step of_all[LADDER_DIRECTIONS_MAX], of_some[LADDER_DIRECTIONS_MAX];
        ladder_steps(&all, of_all);
        ladder_steps(&ladder, of_some);
        for (int k = 0; k < all.count; k++) {
            ck_assert_int_eq(of_some[k].direction, of_all[k].direction);
            ck_assert_int_eq(of_some[k].rung, of_all[k].rung);
            ck_assert_int_eq(of_some[k].likely, of_all[k].likely);
            ck_assert_int_eq(of_some[k].end, of_all[k].end);
            left_out += (size_t)(LADDER_RUNGS - 1 - ladder.directions[k].reach);
        }
        check_climb(&all, &ladder, of_all[0].direction, 1 + (int)random_below(&random, 12));
    }
    ck_assert_uint_gt(led, 2000);
    ck_assert_uint_gt(left_out, 10000);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder");
    TCase *tcase = tcase_create("ladder");
    tcase_set_timeout(tcase, 60);
    tcase_add_test(tcase, the_base_comes_first);
    tcase_add_test(tcase, ten_percent_up_while_nothing_is_likely);
    tcase_add_test(tcase, not_above_the_weakest_likely_one);
    tcase_add_test(tcase, a_likely_rung_that_cannot_be_made_is_no_way_round);
    tcase_add_test(tcase, ends_are_told_apart);
    tcase_add_test(tcase, the_last_test_keeps_no_direction_alive);
    tcase_add_test(tcase, the_milder_direction_is_taken);
    tcase_add_test(tcase, an_overdue_bottle_waits_for_others_as_good);
    tcase_add_test(tcase, strength_never_falls);
    tcase_add_test(tcase, fine_steps_where_the_paint_feels_them);
    tcase_add_test(tcase, climb_and_even_series);
    tcase_add_test(tcase, rule_holds_on_random_ladders);
    tcase_add_test(tcase, a_direction_judged_to_its_top_is_settled);
    tcase_add_test(tcase, rungs_left_out_change_nothing);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
