// SPDX-License-Identifier: GPL-3.0-or-later
// What would bring a day within the limits: each answer is tried again. Shipped tables; limits as published there.
#include "physics/exposure_help.h"
#include "physics/release.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>

static struct library lib;
static struct unifac_table groups;

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_BOTTLES | TABLE_LIMITS,
                       &groups);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &groups);
}

static const struct authority *set_named(const char *id) {
    const struct authority *authority;
    struct error err;
    ck_assert_msg(library_authority(&lib, id, &authority, &err) == STATUS_OK, "%s", err.text);
    return authority;
}

static double factor(const struct exposure_plan *plan, const char *set) {
    struct exposure_air air;
    struct exposure_judgement judgement;
    struct error err;
    ck_assert_msg(exposure_air(plan, &air, &err) == STATUS_OK, "%s", err.text);
    ck_assert_msg(exposure_judge(&lib, plan, &air, set_named(set), &judgement, &err) == STATUS_OK, "%s", err.text);
    return judgement.allowed_factor;
}

static struct exposure_plan two_tasks(const struct blend *blend, double gap_h) {
    struct exposure_plan plan = exposure_plan_usual(room_usual(40, 2));
    plan.task_count = 2;
    for (size_t i = 0; i < 2; i++)
        plan.tasks[i] = (struct exposure_task){
            .start_h = (double)i * (0.5 + gap_h), .length_h = 0.5, .use_ml_h = 60, .blend = blend};
    return plan;
}

// Toluene, 60 mL/h twice half an hour: the room adds to the second peak, so that a pause helps the 15-minute limit.
START_TEST(the_pause_just_suffices) {
    struct blend blend = tables_blend(&lib, "toluene");
    struct exposure_plan plan = two_tasks(&blend, 0);
    struct error err;
    enum exposure_need need;
    double pause_h = NAN;
    double together = factor(&plan, "eu");
    for (size_t i = 0; i < 2; i++)
        plan.tasks[i].use_ml_h *= 1.02 * together; // just over
    ck_assert_double_lt(factor(&plan, "eu"), 1);
    ck_assert_int_eq(exposure_pause_needed(&lib, &plan, set_named("eu"), &need, &pause_h, &err), STATUS_OK);
    ck_assert_int_eq(need, NEED_FOUND);
    ck_assert_double_gt(pause_h, 0);
    struct exposure_plan with = plan;
    with.tasks[1].start_h += pause_h;
    ck_assert_double_ge(factor(&with, "eu"), 1);
    with.tasks[1].start_h -= 60 / 3600.0;
    ck_assert_double_lt(factor(&with, "eu"), 1);
    // Within as it is; and too much for any pause.
    for (size_t i = 0; i < 2; i++)
        plan.tasks[i].use_ml_h = 1;
    ck_assert_int_eq(exposure_pause_needed(&lib, &plan, set_named("eu"), &need, &pause_h, &err), STATUS_OK);
    ck_assert_int_eq(need, NEED_NONE);
    for (size_t i = 0; i < 2; i++)
        plan.tasks[i].use_ml_h = 6000;
    ck_assert_int_eq(exposure_pause_needed(&lib, &plan, set_named("eu"), &need, &pause_h, &err), STATUS_OK);
    ck_assert_int_eq(need, NEED_IMPOSSIBLE);
    plan.task_count = 1;
    ck_assert_int_eq(exposure_pause_needed(&lib, &plan, set_named("eu"), &need, &pause_h, &err), STATUS_OK);
    ck_assert_int_eq(need, NEED_IMPOSSIBLE);
}
END_TEST

START_TEST(the_hours_just_suffice) {
    struct blend blend = tables_blend(&lib, "toluene");
    struct exposure_plan plan = two_tasks(&blend, 1);
    struct error err;
    enum exposure_need need;
    double hours = NAN, over = factor(&plan, "eu");
    for (size_t i = 0; i < 2; i++)
        plan.tasks[i].use_ml_h *= 1.3 * over;
    ck_assert_int_eq(exposure_hours_possible(&lib, &plan, set_named("eu"), &need, &hours, &err), STATUS_OK);
    ck_assert_int_eq(need, NEED_FOUND);
    ck_assert(hours > 0 && hours < 1);
    struct exposure_plan shorter = plan;
    for (size_t i = 0; i < 2; i++)
        shorter.tasks[i].length_h = hours / 2;
    ck_assert_double_ge(factor(&shorter, "eu"), 1);
    for (size_t i = 0; i < 2; i++)
        shorter.tasks[i].length_h *= 1.02;
    ck_assert_double_lt(factor(&shorter, "eu"), 1);
}
END_TEST

// The room's own decay: C e^(-Q t/V) = share L, here solved by hand. The air of the well-mixed room after one task is
// G/Q (1 - e^(-2)) at 2 changes an hour for 1 h.
START_TEST(airing_follows_the_decay) {
    struct blend blend = tables_blend(&lib, "toluene");
    struct exposure_plan plan = two_tasks(&blend, 0);
    struct exposure_air air;
    struct exposure_judgement set;
    struct error err;
    plan.task_count = 1;
    plan.tasks[0].length_h = 1;
    ck_assert_int_eq(exposure_air(&plan, &air, &err), STATUS_OK);
    ck_assert_int_eq(exposure_judge(&lib, &plan, &air, set_named("eu"), &set, &err), STATUS_OK);
    double end_mg_m3 = air.components[0].generation_mg_h / 80 * (1 - exp(-2));
    // Directive 2006/15/EC: 192 mg/m3.
    ck_assert_double_eq_tol(exposure_airing_h(&plan, &air, &set, 0.1), log(end_mg_m3 / 19.2) / 2, 1e-9);
    ck_assert_double_eq(exposure_airing_h(&plan, &air, &set, 10), 0);
    // Q = K G / L.
    ck_assert_double_eq_tol(exposure_dilution_air_m3_h(&air, &set, 5), 5 * air.components[0].generation_mg_h / 192,
                            1e-6);
    plan.room.air_changes_per_h = 0;
    ck_assert_int_eq(exposure_air(&plan, &air, &err), STATUS_OK);
    ck_assert(isinf(exposure_airing_h(&plan, &air, &set, 0.1)));
}
END_TEST

// Mackay and van Wesenbeeck 2014: toluene at 25 degC (p 3790 Pa) 511 g/m2/h, computed from their correlation; the
// table's own curve may give p within 1 %. Over a blend each component evaporates with its partial pressure.
START_TEST(a_wet_surface_gives_off_what_the_correlation_says) {
    struct blend neat = tables_blend(&lib, "toluene"), blend = tables_blend(&lib, "toluene 50 + acetone 50");
    double alone[BLEND_COMPONENTS_MAX], mixed[BLEND_COMPONENTS_MAX];
    struct error err;
    ck_assert_int_eq(release_most_mg_h(&groups, &neat, 1, 25, alone, &err), STATUS_OK);
    ck_assert_double_eq_tol(alone[0], 511e3, 511e3 * 0.015);
    ck_assert_int_eq(release_most_mg_h(&groups, &blend, 0.5, 25, mixed, &err), STATUS_OK);
    ck_assert(mixed[0] > 0 && mixed[0] < 0.5 * alone[0]);
    ck_assert_double_gt(mixed[1], mixed[0]);
    ck_assert_int_eq(release_most_mg_h(&groups, &blend, 0, 25, mixed, &err), STATUS_RANGE);
}
END_TEST

// Released slowly, but all of it in the end: mass is kept, and no concentration is higher.
START_TEST(a_slow_release_keeps_the_mass) {
    struct blend blend = tables_blend(&lib, "n-butyl-acetate");
    struct exposure_plan plan = two_tasks(&blend, 2), slow = plan;
    struct exposure_air at_once, later;
    struct error err;
    ck_assert_int_eq(exposure_air(&plan, &at_once, &err), STATUS_OK);
    double most_mg_h[1] = {0.5 * at_once.components[0].generation_mg_h};
    for (size_t i = 0; i < 2; i++)
        slow.tasks[i].most_mg_h = most_mg_h;
    ck_assert_int_eq(exposure_air(&slow, &later, &err), STATUS_OK);
    const struct exposure_component *a = &at_once.components[0], *b = &later.components[0];
    ck_assert_double_eq_tol(b->released_mg, a->released_mg, 1e-6);
    ck_assert_double_lt(b->near_mg_m3, a->near_mg_m3);
    // What is not in the air has left with it: dose * Q + content = released (to 1e-9).
    const struct air_view room = {AIR_ROOM, false};
    double dose = air_dose(&b->curve, room, 0, b->curve.end_h), left = air_at(&b->curve, room, b->curve.end_h);
    ck_assert_double_eq_tol(dose * 80 + left * 40, b->released_mg, 1e-9 * b->released_mg);
    // The person is near only while working: 2 x 0.5 h, not 2 x 1 h.
    ck_assert_uint_eq(b->curve.count, 6);
    ck_assert(b->curve.segments[0].working && !b->curve.segments[1].working);
}
END_TEST

static Suite *exposure_help_suite(void) {
    Suite *suite = suite_create("exposure_help");
    TCase *help = tcase_create("help");
    tcase_add_unchecked_fixture(help, open_tables, close_tables);
    tcase_add_test(help, the_pause_just_suffices);
    tcase_add_test(help, the_hours_just_suffice);
    tcase_add_test(help, airing_follows_the_decay);
    suite_add_tcase(suite, help);
    TCase *release = tcase_create("release");
    tcase_add_unchecked_fixture(release, open_tables, close_tables);
    tcase_add_test(release, a_wet_surface_gives_off_what_the_correlation_says);
    tcase_add_test(release, a_slow_release_keeps_the_mass);
    suite_add_tcase(suite, release);
    return suite;
}

int main(void) {
    return suite_run(exposure_help_suite());
}
