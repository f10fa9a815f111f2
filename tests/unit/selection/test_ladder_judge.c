// SPDX-License-Identifier: GPL-3.0-or-later
// Rungs judged by a belief, the plan of one test, and what was learnt put back into a material.
#include "selection/ladder_judge.h"

#include "base/units.h"
#include "casefile/casefile.h"
#include "films.h"
#include "physics/evaporation.h"
#include "selection/belief_material.h"
#include "selection/belief_parts.h"
#include "selection/ladder_pairs.h"
#include "selection/ladder_plan.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table groups;
static struct belief_plan *plan, *other_plan;
static struct belief *belief, *other_belief;
static struct error err;

static struct belief_plan *plan_of(const char *remove, const char *spare, enum belief_view view) {
    struct belief_materials materials = {.lib = &lib,
                                         .table = &groups,
                                         .remove = {tables_material(&lib, remove)},
                                         .remove_count = 1,
                                         .spare = {tables_material(&lib, spare)},
                                         .spare_count = 1,
                                         .temp_k = FILMS_TEMP_K};
    struct belief_plan *made = NULL;
    stop_unless(belief_plan_make(&materials, view, &made, &err), &err);
    return made;
}

static struct belief *prior_of(const struct belief_plan *of, unsigned long seed) {
    struct belief *made = NULL;
    stop_unless(belief_start(of, 400, seed, &made, &err), &err);
    return made;
}

// By RED, which is quick; the other view stands in as one of another paint.
static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &groups);
    plan = plan_of("dammar-aged", "linseed-oil-film-young", BELIEF_RED);
    other_plan = plan_of("dammar-aged", "dammar-fresh", BELIEF_RED);
    belief = prior_of(plan, 1);
    other_belief = prior_of(other_plan, 2);
}

static void close_all(void) {
    belief_release(belief);
    belief_release(other_belief);
    belief_plan_release(plan);
    belief_plan_release(other_plan);
    tables_close_unifac(&lib, &groups);
}

static struct ladder_direction direction_of(const char *weak, const char *strong, double last_percent) {
    struct ladder_direction direction = {.last_percent = last_percent, .colour_percent = -1};
    stop_unless(library_bottle(&lib, weak, &direction.weak, &err), &err);
    stop_unless(library_bottle(&lib, strong, &direction.strong, &err), &err);
    return direction;
}

static struct ladder_judging judging_alone(void) {
    return (struct ladder_judging){.lib = &lib,
                                   .table = &groups,
                                   .plan = plan,
                                   .belief = belief,
                                   .temp_k = FILMS_TEMP_K,
                                   .contact_s = 20,
                                   .rolls = 6,
                                   .to_the_top = true,
                                   .threads = 1};
}

static struct belief_forecast forecast_of(const struct belief_plan *of, const struct belief *in,
                                          const struct ladder_direction *direction, int rung) {
    struct blend blend;
    struct belief_liquid *liquid = NULL;
    struct belief_forecast forecast;
    stop_unless(ladder_blend(direction, &lib, rung, &blend, &err), &err);
    stop_unless(belief_liquid_make(of, &blend, &liquid, &err), &err);
    belief_forecast(in, liquid, BELIEF_NONE, BELIEF_NONE, 20, 6, &forecast);
    belief_liquid_release(liquid);
    return forecast;
}

static bool is_judged(const struct ladder_rung *rung) {
    ck_assert(isnan(rung->p_works) == isnan(rung->margin) && isnan(rung->p_works) == isnan(rung->p_touches) &&
              isnan(rung->p_works) == isnan(rung->paint));
    return !isnan(rung->p_works);
}

// --- judging ---

START_TEST(a_blend_is_made_of_the_rungs_shares) {
    struct ladder_direction direction = direction_of("isooctane", "propan-2-ol", -1);
    struct blend blend;
    for (int i = 0; i < LADDER_RUNGS; i++) {
        ck_assert_int_eq(ladder_blend(&direction, &lib, i, &blend, NULL), STATUS_OK);
        ck_assert_uint_eq(blend.count, i == 0 || i == 20 ? 1 : 2);
        ck_assert_str_eq(blend.components[0]->id, i == 0 ? "isooctane" : "propan-2-ol");
        ck_assert_double_eq_tol(blend.volume_fractions[0], i == 0 ? 1 : 0.05 * i, 1e-12);
        ck_assert_double_eq_tol(ladder_share_of(&direction, &blend), 5 * i, 1e-9);
    }
    blend = tables_blend(&lib, "propan-2-ol 20 + acetone 80");
    ck_assert(isnan(ladder_share_of(&direction, &blend)));
}
END_TEST

// Every even rung from above 10 % below the last test, and a share in between only where it is a rung or is passed.
START_TEST(rungs_hold_what_the_belief_says) {
    static struct ladder ladder;
    ladder = (struct ladder){.count = 2, .touch_most = 0.5};
    ladder.directions[0] = direction_of("isooctane", "propan-2-ol", 40);
    ladder.directions[1] = direction_of("isooctane", "acetone", -1);
    ladder.directions[0].rungs[8].tested = ladder.directions[0].rungs[12].barred = true;
    struct ladder_judging judging = judging_alone();
    ck_assert_int_eq(ladder_judge(&judging, &ladder, &err), STATUS_OK);
    size_t judged = 0, idle = 0;
    for (int d = 0; d < 2; d++)
        for (int i = 0; i < LADDER_RUNGS; i++) {
            const struct ladder_direction *direction = &ladder.directions[d];
            const struct ladder_rung *rung = &direction->rungs[i];
            bool even = i % 2 == 0, passed = 5 * i <= direction->last_percent;
            bool expected = 5 * i > direction->last_percent - 10 && (even || passed || !rung->idle);
            ck_assert_msg(is_judged(rung) == expected, "direction %d, %d %%", d, 5 * i);
            ck_assert(rung->tested == (d == 0 && i == 8) && rung->barred == (d == 0 && i == 12));
            idle += rung->idle;
            judged += expected;
            if (!expected)
                continue;
            struct belief_forecast forecast = forecast_of(plan, belief, direction, i);
            ck_assert_double_eq(rung->p_works, forecast.p_works);
            ck_assert_double_eq(rung->p_touches, forecast.p_touches);
            ck_assert_double_eq(rung->margin, forecast.margin);
            ck_assert_double_eq(rung->paint, forecast.paint);
            ck_assert(!rung->two_liquids);
        }
    ck_assert_uint_gt(judged, 20);
    ck_assert_uint_gt(idle, 0);
}
END_TEST

// Those that are not needed for the next steps stay unknown; the others, the steps and the climb are the same.
START_TEST(only_needed_rungs_are_judged) {
    static struct ladder all, some;
    some = (struct ladder){.count = 2, .touch_most = 0.5};
    some.directions[0] = direction_of("isooctane", "propan-2-ol", 10);
    some.directions[1] = direction_of("isooctane", "acetone", -1);
    all = some;
    struct ladder_judging judging = judging_alone();
    ck_assert_int_eq(ladder_judge(&judging, &all, &err), STATUS_OK);
    judging.to_the_top = false;
    ck_assert_int_eq(ladder_judge(&judging, &some, &err), STATUS_OK);
    struct ladder_step steps[2], steps_of_all[2];
    ladder_steps(&some, steps);
    ladder_steps(&all, steps_of_all);
    int rungs[5], rungs_of_all[5], d = steps[0].direction, before = some.directions[d].reach;
    ck_assert_int_eq(ladder_judge_climb(&judging, &some, d, 5, false, &err), STATUS_OK);
    ck_assert_int_gt(some.directions[d].reach, before);
    ck_assert_int_eq(ladder_climb(&some, d, rungs, 5), 5);
    ck_assert_int_eq(ladder_climb(&all, d, rungs_of_all, 5), 5);
    ck_assert_mem_eq(rungs, rungs_of_all, sizeof rungs);
    for (int k = 0; k < 2; k++) {
        ck_assert(steps[k].direction == steps_of_all[k].direction && steps[k].rung == steps_of_all[k].rung);
        ck_assert_int_lt(some.directions[k].reach, LADDER_RUNGS - 1);
        for (int i = 0; i < LADDER_RUNGS; i++) {
            const struct ladder_rung *rung = &some.directions[k].rungs[i], *other = &all.directions[k].rungs[i];
            bool reached = i <= some.directions[k].reach;
            ck_assert(is_judged(rung) == (reached && is_judged(other)));
            ck_assert(!is_judged(rung) || (rung->p_works == other->p_works && rung->strength == other->strength));
        }
    }
    // The even series: its first rungs only, then all of it, were more asked for than there are.
    struct ladder even = all;
    ck_assert_int_eq(ladder_judge(&judging, &even, &err), STATUS_OK);
    even.directions[0].reach = 2; // as if nothing above 10 % were judged
    int series[LADDER_RUNGS], count = ladder_even_series(&even.directions[0], series, 3);
    ck_assert_int_eq(count, 3);
    ck_assert_int_eq(ladder_judge_climb(&judging, &even, 0, 3, true, &err), STATUS_OK);
    ck_assert_int_eq(even.directions[0].reach, series[2]);
    ck_assert_int_eq(ladder_judge_climb(&judging, &some, d, 2 * LADDER_RUNGS, true, &err), STATUS_OK);
    ck_assert_int_eq(some.directions[d].reach, LADDER_RUNGS - 1);
}
END_TEST

START_TEST(threads_change_nothing) {
    static struct ladder one, three;
    one = (struct ladder){.count = 1, .touch_most = 0.5};
    one.directions[0] = direction_of("isooctane", "ethanol", 5);
    three = one;
    struct ladder_judging judging = judging_alone();
    ck_assert_int_eq(ladder_judge(&judging, &one, &err), STATUS_OK);
    judging.threads = 3;
    ck_assert_int_eq(ladder_judge(&judging, &three, &err), STATUS_OK);
    for (int i = 0; i < LADDER_RUNGS; i++) {
        const struct ladder_rung *a = &one.directions[0].rungs[i], *b = &three.directions[0].rungs[i];
        ck_assert(is_judged(a) == is_judged(b) && a->idle == b->idle);
        ck_assert(!is_judged(a) || (a->p_works == b->p_works && a->strength == b->strength));
    }
}
END_TEST

START_TEST(the_view_that_fears_more_counts) {
    static struct ladder ladder;
    ladder = (struct ladder){.count = 1, .touch_most = 0.5};
    ladder.directions[0] = direction_of("isooctane", "propan-2-ol", -1);
    struct ladder_judging judging = judging_alone();
    judging.other_plan = other_plan, judging.other_belief = other_belief;
    ck_assert_int_eq(ladder_judge(&judging, &ladder, &err), STATUS_OK);
    size_t own = 0, others = 0;
    for (int i = 0; i < LADDER_RUNGS; i += 2) {
        const struct ladder_rung *rung = &ladder.directions[0].rungs[i];
        struct belief_forecast mine = forecast_of(plan, belief, &ladder.directions[0], i);
        struct belief_forecast other = forecast_of(other_plan, other_belief, &ladder.directions[0], i);
        ck_assert_double_eq(rung->p_touches, fmax(mine.p_touches, other.p_touches));
        ck_assert_double_eq(rung->p_works, mine.p_works);
        own += mine.p_touches >= other.p_touches;
        others += other.p_touches > mine.p_touches;
    }
    ck_assert_uint_gt(others, 0);
    ck_assert_uint_gt(own, 0);
}
END_TEST

// Water and isooctane do not mix (both ends are one liquid); methanol and isooctane are two liquids at room
// temperature.
START_TEST(two_liquids_are_marked) {
    static struct ladder ladder;
    ladder = (struct ladder){.count = 2, .touch_most = 1};
    ladder.directions[0] = direction_of("isooctane", "water", -1);
    ladder.directions[1] = direction_of("isooctane", "methanol", -1);
    struct ladder_judging judging = judging_alone();
    ck_assert_int_eq(ladder_judge(&judging, &ladder, &err), STATUS_OK);
    for (int i = 0; i < LADDER_RUNGS; i += 2)
        ck_assert(ladder.directions[0].rungs[i].two_liquids == (i > 0 && i < 20));
    ck_assert(ladder.directions[1].rungs[10].two_liquids && !ladder.directions[1].rungs[20].two_liquids);
}
END_TEST

static size_t told;
static double last_share;

static void listen(void *context, double done) {
    (void)context;
    ck_assert(done > last_share && done <= 1);
    last_share = done;
    told++;
}

START_TEST(progress_rises_and_a_cancelled_judging_says_so) {
    static struct ladder ladder;
    atomic_bool cancel;
    ladder = (struct ladder){.count = 1, .touch_most = 0.5};
    ladder.directions[0] = direction_of("isooctane", "propan-2-ol", -1);
    struct ladder_judging judging = judging_alone();
    told = 0, last_share = 0;
    judging.watch = (struct watch){.progress = listen, .cancel = &cancel};
    atomic_init(&cancel, false);
    ck_assert_int_eq(ladder_judge(&judging, &ladder, &err), STATUS_OK);
    ck_assert_uint_ge(told, LADDER_RUNGS / 2);
    ck_assert_double_gt(last_share, 0.5);
    told = 0;
    atomic_store(&cancel, true);
    ck_assert_int_eq(ladder_judge(&judging, &ladder, &err), STATUS_INTERRUPTED);
    ck_assert_uint_eq(told, 0);
    ck_assert(!is_judged(&ladder.directions[0].rungs[0]));
}
END_TEST

// --- the plan of one test ---

static struct ladder_plan planned(const char *weak, const char *strong, int rung, double before_percent,
                                  int before_ml) {
    struct ladder_planning planning = {.lib = &lib, .table = &groups, .temp_c = 20};
    struct ladder_direction direction = direction_of(weak, strong, -1);
    struct ladder_plan made;
    ck_assert_msg(ladder_plan_make(&planning, &direction, rung, before_percent, before_ml, &made, &err) == STATUS_OK,
                  "%s", err.text);
    return made;
}

// 470 s are nine tenths of n-butyl acetate (ASTM D3539, from memory): its whole takes 522 s, 8.7 min at an even rate.
START_TEST(waiting_time) {
    struct ladder_wait wait;
    ladder_wait_of(1, RETENTION_MEDIUM, &wait);
    ck_assert_double_eq_tol(wait.dry_min, 8.704, 0.001);
    ck_assert_int_eq(wait.judge_min, 27); // three times, whole minutes up
    ck_assert(!wait.next_day);
    ladder_wait_of(0.05, RETENTION_SHORT, &wait);
    ck_assert_int_eq(wait.judge_min, 2);
    ck_assert(!wait.next_day);
    ladder_wait_of(NAN, RETENTION_LONG, &wait);
    ck_assert(isnan(wait.dry_min) && wait.judge_min == 0 && wait.next_day);
    ladder_wait_of(4, RETENTION_VERY_LONG, &wait);
    ck_assert(wait.next_day && wait.residue == RETENTION_VERY_LONG);
    ladder_wait_of(4, RETENTION_UNKNOWN, &wait);
    ck_assert(wait.next_day);
}
END_TEST

START_TEST(a_plan_holds_blend_jar_and_wait) {
    struct ladder_plan made = planned("isooctane", "propan-2-ol", 4, 10, 8);
    ck_assert_int_eq(made.rung, 4);
    ck_assert_double_eq_tol(made.blend.volume_fractions[0], 0.2, 1e-12);
    ck_assert_double_eq_tol(made.fresh.reached_percent, 20, 1e-9);
    ck_assert(made.has_jar && made.jar.from_jar_ml > 0 && made.jar.reached_percent <= 20 + 1e-9);
    ck_assert(!planned("isooctane", "propan-2-ol", 4, 10, 0).has_jar);
    ck_assert_int_eq(made.phase, PHASE_ONE);
    ck_assert_int_eq(made.wait.residue, RETENTION_MEDIUM); // an alcohol
    struct evaporation path;
    struct evaporation_options options = {.temp_c = 20};
    ck_assert_int_eq(evaporation_follow(&lib, &groups, &made.blend, &options, &path, &err), STATUS_OK);
    ck_assert_double_eq_tol(made.wait.dry_min, path.time_95 * 470 / 0.9 / 60, 1e-9);
}
END_TEST

// What is cleared with the base meets it: half the share must stay one liquid. The base itself needs no clearing.
START_TEST(clearing_with_the_base) {
    ck_assert_int_eq(planned("isooctane", "propan-2-ol", 4, 0, 0).clearing, CLEAR_WITH_BASE);
    ck_assert_int_eq(planned("isooctane", "propan-2-ol", 0, 0, 0).clearing, CLEAR_DRY);
    struct ladder_plan neat = planned("isooctane", "methanol", 20, 0, 0);
    ck_assert_int_eq(neat.phase, PHASE_ONE);
    ck_assert_int_eq(neat.clearing, CLEAR_DRY); // 50 % of it are two liquids
    ck_assert_int_eq(planned("isooctane", "water", 10, 0, 0).phase, PHASE_TWO);
}
END_TEST

// --- the margin by RED, and materials with what was learnt ---

// -ln RED with Ra^2 = 4 (dD)^2 + (dP)^2 + (dH)^2 of the blend's mean place (Hansen); acetone 15.5/10.4/7.0.
START_TEST(margin_by_red_in_closed_form) {
    struct belief_liquid *liquid = NULL;
    struct blend blend = tables_blend(&lib, "acetone");
    stop_unless(belief_liquid_make(plan, &blend, &liquid, &err), &err);
    const double at[BELIEF_PARAMETERS] = {17, 6.4, 4.0, log(8.0)};
    ck_assert_double_eq_tol(belief_margin(plan, liquid, 0, at), -log(sqrt(4 * 2.25 + 16 + 9) / 8), 1e-9);
    const double inside[BELIEF_PARAMETERS] = {15.5, 10.4, 7.0, log(8.0)};
    ck_assert_double_eq_tol(belief_margin(plan, liquid, 1, inside), log(8 / 0.1), 1e-9); // Ra at least 0.1
    belief_liquid_release(liquid);
}
END_TEST

static double mean_of(const double *rows, size_t count, size_t column) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += rows[i * MATERIAL_DRAW + column];
    return sum / (double)count;
}

START_TEST(a_material_with_what_was_learnt) {
    struct arena arena = {0};
    struct belief_plan *by_film = plan_of("dammar-aged", "linseed-oil-film-young", BELIEF_FILM);
    struct belief *film = prior_of(by_film, 3);
    const struct material *learnt = NULL, *red_only = NULL, *tabled = tables_material(&lib, "dammar-aged");
    stop_unless(belief_material_learnt(&arena, film, belief, 0, &learnt, &err), &err);
    stop_unless(belief_material_learnt(&arena, NULL, belief, 0, &red_only, &err), &err);
    ck_assert_str_eq(learnt->id, tabled->id);
    ck_assert_uint_eq(learnt->learnt->count, belief_particles(film));
    double particle[BELIEF_PARAMETERS];
    for (size_t i = 0; i < learnt->learnt->count; i++) {
        const double *by_red = learnt->learnt->red + i * MATERIAL_DRAW, *row = learnt->learnt->film + i * MATERIAL_DRAW;
        belief_particle(belief, 0, i, particle);
        ck_assert_mem_eq(by_red, particle, 3 * sizeof *particle);
        ck_assert_double_eq_tol(log(by_red[3]), particle[3], 1e-12); // the radius itself
        belief_particle(film, 0, i, particle);
        ck_assert_mem_eq(row, particle, 3 * sizeof *particle);
        ck_assert_double_eq(row[3], fmin(fmax(particle[3], -2), 2)); // as far as a film may be shifted
    }
    size_t count = learnt->learnt->count;
    ck_assert_double_eq_tol(learnt->sphere.r0, mean_of(learnt->learnt->red, count, 3), 1e-9);
    ck_assert_double_eq_tol(learnt->sphere.delta_d, mean_of(learnt->learnt->red, count, 0), 1e-9);
    ck_assert_double_eq_tol(learnt->sphere.delta_p, mean_of(learnt->learnt->red, count, 1), 1e-9);
    ck_assert_double_eq_tol(learnt->sphere.delta_h, mean_of(learnt->learnt->red, count, 2), 1e-9);
    ck_assert_double_eq_tol(learnt->film_model.delta_h, mean_of(learnt->learnt->film, count, 2), 1e-9);
    ck_assert_double_eq_tol(learnt->film_model.chi_shift, mean_of(learnt->learnt->film, count, 3), 1e-9);
    ck_assert_double_eq(learnt->film_model.molar_volume_least, tabled->film_model.molar_volume_cm3_mol);
    ck_assert_double_eq(learnt->film_model.molar_volume_most, tabled->film_model.molar_volume_cm3_mol);
    ck_assert_uint_eq(learnt->film_model.anchor_dissolves.count, 0);
    ck_assert_ptr_null(red_only->learnt->film);
    ck_assert_double_eq(red_only->film_model.molar_volume_least, tabled->film_model.molar_volume_least);
    ck_assert_double_eq(red_only->sphere.r0, learnt->sphere.r0);
    belief_release(film);
    belief_plan_release(by_film);
    arena_release(&arena);
}
END_TEST

// By film: ln of the swelling, averaged over a normal shift of chi of 0.1 (belief_margin.h), here by the midpoint rule
// with the film solved at every shift and place. Two components are tabled over chi of both; of five, the two lesser
// ones only follow the others.
static void compare_with_films(const char *notation, double tolerance) {
    struct belief_plan *by_film = plan_of("dammar-aged", "linseed-oil-film-young", BELIEF_FILM);
    struct blend blend = tables_blend(&lib, notation);
    struct belief_liquid *liquid = NULL;
    struct activity_model activity;
    double x[BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    stop_unless(belief_liquid_make(by_film, &blend, &liquid, &err), &err);
    stop_unless(activity_prepare_blend(&groups, &blend, FILMS_TEMP_K, &activity, &err), &err);
    stop_unless(blend_mole_fractions(&blend, x, &err), &err);
    film_liquid_activities(&activity, x, ln_activity);
    for (int at = 0; at < 5; at++) {
        const struct belief_item *item = &by_film->items[1];
        double parameters[BELIEF_PARAMETERS], sum = 0, weight = 0;
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
            parameters[i] = item->mean[i] + ((at + (int)i) % 3 - 1) * item->sd[i];
        struct film_parameters film_at = item->film;
        film_at.centre = (struct hansen){parameters[0], parameters[1], parameters[2]};
        for (double shift = -0.29; shift < 0.3; shift += 0.02) {
            struct film film;
            struct film_result result;
            film_at.chi_shift = parameters[3] + shift;
            stop_unless(film_prepare(&film_at, &activity, &film, &err), &err);
            film_of_activities(&film, ln_activity, NULL, &result);
            double swelling = result.outcome == FILM_WITHOUT_LIMIT ? 10 : result.swelling, w = exp(-50 * shift * shift);
            sum += w * log(fmin(fmax(swelling, 0.01), 10));
            weight += w;
        }
        ck_assert_msg(fabs(belief_margin(by_film, liquid, 1, parameters) - sum / weight) < tolerance,
                      "%s, place %d: %g, by films %g", notation, at, belief_margin(by_film, liquid, 1, parameters),
                      sum / weight);
    }
    belief_liquid_release(liquid);
    belief_plan_release(by_film);
}

START_TEST(margin_by_film_against_films_solved_one_by_one) {
    compare_with_films("propan-2-ol", 0.02);
    compare_with_films("propan-2-ol 40 + isooctane 60", 0.03);
    compare_with_films("acetone 30 + isooctane 40 + ethanol 30", 0.06);
    compare_with_films("acetone 20 + isooctane 40 + ethanol 20 + propan-2-ol 10 + ethyl-acetate 10", 0.1);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder_judge");
    TCase *tests = tcase_create("judged, planned, learnt");
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, a_blend_is_made_of_the_rungs_shares);
    tcase_add_test(tests, rungs_hold_what_the_belief_says);
    tcase_add_test(tests, only_needed_rungs_are_judged);
    tcase_add_test(tests, threads_change_nothing);
    tcase_add_test(tests, the_view_that_fears_more_counts);
    tcase_add_test(tests, two_liquids_are_marked);
    tcase_add_test(tests, progress_rises_and_a_cancelled_judging_says_so);
    tcase_add_test(tests, waiting_time);
    tcase_add_test(tests, a_plan_holds_blend_jar_and_wait);
    tcase_add_test(tests, clearing_with_the_base);
    tcase_add_test(tests, margin_by_red_in_closed_form);
    tcase_add_test(tests, a_material_with_what_was_learnt);
    tcase_add_test(tests, margin_by_film_against_films_solved_one_by_one);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
