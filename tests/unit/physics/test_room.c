// SPDX-License-Identifier: GPL-3.0-or-later
// The air of a room against published examples and against the laws it must obey.
#include "base/units.h"
#include "physics/room.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static const struct air_view IN_ROOM = {AIR_ROOM, false};
static const struct air_view IN_NEAR = {AIR_NEAR, false};
static const struct air_view IN_FAR = {AIR_FAR, false};
static const struct air_view PERSON = {AIR_PERSON, false};
static const struct air_view PERSON_GOES = {AIR_PERSON, true};
static const struct air_view ROOM_GOES = {AIR_ROOM, true};

static void assert_close(double got, double expected, double relative) {
    ck_assert_msg(fabs(got - expected) <= relative * fabs(expected), "got %.12g, expected %.12g within %g", got,
                  expected, relative);
}

static struct air_day one_task(struct room room, double length_h, double generation) {
    return (struct air_day){.room = room, .shift_h = 8, .task_count = 1, .tasks = {{0, length_h, generation, 0}}};
}

static struct air_curve solved(struct air_day day) {
    struct air_curve curve;
    struct error err;
    ck_assert_msg(air_curve_make(&day, &curve, &err) == STATUS_OK, "%s", err.text);
    return curve;
}

// A published teaching exercise (benzene in a room of 6 x 6 x 3 m; University of Toledo, industrial ventilation notes;
// checked; C(5), C(10.8) and C(30) computed from its formula). Tolerance 0.1 %.
START_TEST(build_up_worked_example_benzene_room) {
    const double volume_m3 = 6 * 6 * 3, flow_m3_min = 10, generation_mg_min = 1000;
    struct room room = room_usual(volume_m3, flow_m3_min * 60 / volume_m3);
    struct air_curve curve = solved(one_task(room, 2, generation_mg_min * 60));
    assert_close(room_steady_mg_m3(&room, generation_mg_min * 60), 100, 1e-3);
    assert_close(60 * room_purge_h(&room, 1, 0.05), 32.35, 1e-3); // time to 95 % = time to fall to 5 %
    assert_close(air_at(&curve, IN_ROOM, 5 / 60.0), 37.06, 1e-3);
    assert_close(air_at(&curve, IN_ROOM, 10.8 / 60), 63.21, 1e-3);
    assert_close(air_at(&curve, IN_ROOM, 30 / 60.0), 93.78, 1e-3);
}
END_TEST

// Worked example with first-order loss (University of Toledo notes; checked). Tolerance 0.2 %.
START_TEST(first_order_loss_worked_example) {
    struct room room = room_usual(500, 1000.0 / 500);
    room.loss_per_h = 0.4;
    struct air_curve curve = solved(one_task(room, 8, 140));
    assert_close(room_steady_mg_m3(&room, 140), 0.1167, 2e-3);
    assert_close(air_at(&curve, IN_ROOM, 0.5), 0.0815, 2e-3);
    assert_close(air_at(&curve, IN_ROOM, 1), 0.1061, 2e-3);
}
END_TEST

// One hour of work, then decay (computed from the same formula sheet). Tolerance 0.1 %.
START_TEST(decay_and_day_mean_worked_example) {
    struct room room = room_usual(50, 2);
    struct air_curve curve = solved(one_task(room, 1, 6000));
    assert_close(air_at(&curve, IN_ROOM, 1), 51.880, 1e-3);
    assert_close(air_at(&curve, IN_ROOM, 2), 7.021, 1e-3);
    assert_close(air_at(&curve, IN_ROOM, 8), 4.31e-5, 1e-3);
    assert_close(air_dose(&curve, IN_ROOM, 0, 8) / 8, 7.500, 1e-3);
}
END_TEST

// Sudden release of 10 mL acetone in 50 m3 (computed). Tolerance 0.2 %.
START_TEST(sudden_release_worked_example) {
    struct air_day day = {.room = room_usual(50, 1), .shift_h = 8};
    day.initial_mg_m3 = generation_mg_h(10, 0.791) * 1 / 50; // 10 mL "in an hour", all there at once
    struct air_curve curve = solved(day);
    assert_close(air_at(&curve, IN_ROOM, 0), 158.2, 2e-3);
    assert_close(air_at(&curve, IN_NEAR, 0), 158.2, 2e-3);
    assert_close(ppm_from_mg_m3(air_at(&curve, IN_FAR, 0), 58.08, 24.45), 66.6, 2e-3);
    assert_close(air_at(&curve, IN_ROOM, 1), 158.2 * exp(-1), 2e-3);
}
END_TEST

// 100 mL acetone evaporate in an hour (computed). Tolerance 0.1 %.
START_TEST(everything_evaporates_worked_example) {
    double mg_h = generation_mg_h(100, 0.791);
    assert_close(mg_h, 79.1e3, 1e-3);
    assert_close(mg_h / 60, 1318, 1e-3);
    assert_close(mg_h / 1000 / 58.08, 1.3619, 1e-3);
    assert_close(mg_h / 1000 / 58.08 * 24.45 / 60, 0.5550, 1e-3);
}
END_TEST

// Nicas, Am. Ind. Hyg. Assoc. J. 57 (1996) 542, with the parameters of Zhang et al. 2009 as in the open R package B2Z
// (inputs checked; outputs computed from eigenvalues and by Runge-Kutta). Tolerance 0.1 %.
START_TEST(two_zone_worked_example) {
    static const double minutes_near_far[][3] = {{0.001, 56.005, 0.04614}, {0.1, 77.970, 7.7107}, {0.5, 91.601, 21.311},
                                                 {1, 95.092, 24.793},      {2, 95.753, 25.453},   {60, 95.771, 25.471}};
    const double near_m3 = 3.14159265358979324e-3, far_m3 = 3.8;
    struct room room = {.volume_m3 = near_m3 + far_m3,
                        .air_changes_per_h = 13.8 * 60 / (near_m3 + far_m3),
                        .mixing_factor = 1,
                        .near_flow_m3_h = 5 * 60,
                        .near_volume_m3 = near_m3};
    struct air_curve curve = solved(one_task(room, 8, 351.5 * 60));
    for (size_t i = 0; i < sizeof minutes_near_far / sizeof *minutes_near_far; i++) {
        assert_close(air_at(&curve, IN_NEAR, minutes_near_far[i][0] / 60), minutes_near_far[i][1], 1e-3);
        assert_close(air_at(&curve, IN_FAR, minutes_near_far[i][0] / 60), minutes_near_far[i][2], 1e-3);
    }
    assert_close(curve.lambda_per_h[1] / 60, 3.628572, 1e-6);
    assert_close(curve.lambda_per_h[2] / 60, 1592.868, 1e-6);
}
END_TEST

// Steady state of the two zones: C_F = G/Q, C_N = G/Q + G/beta (same publication).
START_TEST(two_zone_steady_state) {
    struct room room = room_usual(60, 10);
    struct air_curve curve = solved(one_task(room, 8, 12000));
    assert_close(air_at(&curve, IN_FAR, 8), 12000.0 / 600, 1e-9);
    assert_close(air_at(&curve, IN_NEAR, 8), 12000.0 / 600 + 12000 / NEAR_FLOW_M3_H, 1e-9);
}
END_TEST

static struct air_day busy_day(struct room room) {
    return (struct air_day){.room = room,
                            .initial_mg_m3 = 30,
                            .shift_h = 9,
                            .task_count = 4,
                            .tasks = {{.start_h = 0.5, .length_h = 1.25, .generation_mg_h = 9000},
                                      {.start_h = 2, .length_h = 0.5, .generation_mg_h = 30000},
                                      {.start_h = 2.25, .length_h = 2, .generation_mg_h = 4000},
                                      {.start_h = 6, .length_h = 1.5, .generation_mg_h = 12000}}};
}

// What was given off and there at first = what the air took away + what is left, in both models.
START_TEST(mass_balance) {
    static const double air_changes[] = {0, 0.01, 0.5, 3, 40};
    static const double losses[] = {0, 0.3};
    for (size_t i = 0; i < 5; i++) {
        for (size_t k = 0; k < 2; k++) {
            struct room room = room_usual(38, air_changes[i]);
            room.loss_per_h = losses[k];
            struct air_curve curve = solved(busy_day(room));
            double given = 30 * 38 + 1.25 * 9000 + 0.5 * 30000 + 2 * 4000 + 1.5 * 12000;
            double flow = room_fresh_air_m3_h(&room), near_m3 = room.near_volume_m3, far_m3 = 38 - near_m3;
            double one_box =
                38 * air_at(&curve, IN_ROOM, 9) + (flow + losses[k] * 38) * air_dose(&curve, IN_ROOM, 0, 9);
            assert_close(one_box, given, 1e-9);
            double two_zones = near_m3 * air_at(&curve, IN_NEAR, 9) + far_m3 * air_at(&curve, IN_FAR, 9) +
                               (flow + losses[k] * far_m3) * air_dose(&curve, IN_FAR, 0, 9) +
                               losses[k] * near_m3 * air_dose(&curve, IN_NEAR, 0, 9);
            assert_close(two_zones, given, 1e-9);
        }
    }
}
END_TEST

// The closed form against a numerical solution of the two balances (classical Runge-Kutta, steps of 0.36 s).
START_TEST(closed_form_meets_runge_kutta) {
    struct room room = room_usual(30, 2);
    room.loss_per_h = 0.2;
    struct air_curve curve = solved(one_task(room, 1, 20000));
    const double step = 1e-4, near_m3 = room.near_volume_m3, far_m3 = 30 - near_m3;
    double c[2] = {0, 0};
    for (int i = 0; i < 20000; i++) {
        double generation = i < 10000 ? 20000 : 0, slope[4][2], at[2] = {c[0], c[1]};
        for (int s = 0; s < 4; s++) {
            slope[s][0] = (generation + NEAR_FLOW_M3_H * (at[1] - at[0])) / near_m3 - 0.2 * at[0];
            slope[s][1] = (NEAR_FLOW_M3_H * (at[0] - at[1]) - 60 * at[1]) / far_m3 - 0.2 * at[1];
            double h = s < 2 ? step / 2 : step;
            for (int z = 0; z < 2; z++)
                at[z] = c[z] + h * slope[s][z];
        }
        for (int z = 0; z < 2; z++)
            c[z] += step / 6 * (slope[0][z] + 2 * slope[1][z] + 2 * slope[2][z] + slope[3][z]);
        if (i == 9999) {
            assert_close(air_at(&curve, IN_NEAR, 1), c[0], 1e-6);
            assert_close(air_at(&curve, IN_FAR, 1), c[1], 1e-6);
        }
    }
    assert_close(air_at(&curve, IN_NEAR, 2), c[0], 1e-6);
    assert_close(air_at(&curve, IN_FAR, 2), c[1], 1e-6);
}
END_TEST

START_TEST(doses_meet_a_sum_over_the_curve) {
    struct air_curve curve = solved(busy_day(room_usual(38, 0.5)));
    static const struct air_view views[] = {{AIR_ROOM, false}, {AIR_NEAR, false}, {AIR_FAR, true}, {AIR_PERSON, true}};
    for (size_t v = 0; v < 4; v++) {
        double sum = 0;
        const double step = 1e-4;
        for (int i = 0; i < 40000; i++)
            sum += step * air_at(&curve, views[v], 1 + (i + 0.5) * step);
        assert_close(air_dose(&curve, views[v], 1, 5), sum, 2e-5);
    }
}
END_TEST

// All has left by the end: mean = what was given off / (flow x 8 h).
START_TEST(day_mean_is_dose_over_flow) {
    struct room room = room_usual(50, 10);
    struct air_curve curve = solved(one_task(room, 2, 5000));
    assert_close(air_dose(&curve, IN_ROOM, 0, 8) / 8, 2 * 5000 / (500.0 * 8), 1e-9);
    assert_close(air_dose(&curve, IN_FAR, 0, 8) / 8, 2 * 5000 / (500.0 * 8), 1e-9);
    assert_close(air_dose(&curve, IN_NEAR, 0, 8) / 8, 2 * 5000 / (500.0 * 8) + 2 * 5000 / (NEAR_FLOW_M3_H * 8), 1e-9);
}
END_TEST

START_TEST(two_zones_become_one_as_the_exchange_grows) {
    double last = INFINITY;
    for (double flow = 1e2; flow < 1e9; flow *= 10) {
        struct room room = room_usual(38, 0.5);
        room.near_flow_m3_h = flow;
        struct air_curve curve = solved(busy_day(room));
        double gap = fabs(air_at(&curve, IN_NEAR, 4) / air_at(&curve, IN_ROOM, 4) - 1);
        gap = fmax(gap, fabs(air_dose(&curve, PERSON, 0, 9) / air_dose(&curve, IN_ROOM, 0, 9) - 1));
        ck_assert_double_lt(gap, last);
        last = gap;
    }
    ck_assert_double_lt(last, 1e-5);
}
END_TEST

START_TEST(without_near_field_every_place_is_the_room) {
    struct room room = room_usual(38, 0.5);
    room.near_flow_m3_h = 0;
    struct air_curve curve = solved(busy_day(room));
    for (double hour = 0; hour <= 9; hour += 0.5) {
        ck_assert_double_eq(air_at(&curve, IN_NEAR, hour), air_at(&curve, IN_ROOM, hour));
        ck_assert_double_eq(air_at(&curve, PERSON, hour), air_at(&curve, IN_ROOM, hour));
    }
}
END_TEST

// Sealed: rises in a straight line, and stays; two zones conserve the vapour.
START_TEST(sealed_room_rises_without_bound) {
    struct room room = room_usual(40, 0);
    struct air_curve curve = solved(one_task(room, 4, 2000));
    ck_assert_double_eq(room_steady_mg_m3(&room, 2000), INFINITY);
    ck_assert_double_eq(room_steady_mg_m3(&room, 0), 0);
    ck_assert_double_eq(room_purge_h(&room, 2, 1), INFINITY);
    for (double hour = 0.5; hour <= 4; hour += 0.5)
        assert_close(air_at(&curve, IN_ROOM, hour), hour * 50, 1e-12);
    assert_close(air_at(&curve, IN_ROOM, 8), 200, 1e-12);
    assert_close(air_at(&curve, IN_FAR, 8), 200, 1e-12);
    assert_close(air_dose(&curve, IN_ROOM, 0, 8), 0.5 * 4 * 200 + 4 * 200, 1e-12);
}
END_TEST

// Nearly sealed must meet sealed: no cancellation in between.
START_TEST(nearly_sealed_is_nearly_linear) {
    static const double air_changes[] = {1e-15, 1e-12, 1e-9};
    for (size_t i = 0; i < 3; i++) {
        struct air_curve curve = solved(one_task(room_usual(40, air_changes[i]), 4, 2000));
        assert_close(air_at(&curve, IN_ROOM, 4), 200, 1e-8);
        assert_close(air_dose(&curve, IN_ROOM, 0, 8), 1200, 1e-8);
        assert_close(air_at(&curve, IN_FAR, 8), 200, 1e-8);
    }
}
END_TEST

START_TEST(mixing_factor_counts_as_less_air) {
    struct room half = room_usual(40, 6), less = room_usual(40, 3);
    half.mixing_factor = 0.5;
    struct air_curve a = solved(busy_day(half)), b = solved(busy_day(less));
    ck_assert_double_eq(air_at(&a, IN_NEAR, 7), air_at(&b, IN_NEAR, 7));
}
END_TEST

// Tasks add: the day with both equals the sum of the days with one each.
START_TEST(sources_superpose) {
    struct air_day both = {.room = room_usual(38, 1), .shift_h = 8, .task_count = 2};
    both.tasks[0] = (struct air_task){1, 2, 3000, 0};
    both.tasks[1] = (struct air_task){2.5, 3, 7000, 0};
    struct air_day first = both, second = both;
    first.task_count = 1;
    second.task_count = 1;
    second.tasks[0] = both.tasks[1];
    struct air_curve sum = solved(both), a = solved(first), b = solved(second);
    for (double hour = 0.1; hour < 8; hour += 0.3)
        assert_close(air_at(&sum, IN_NEAR, hour), air_at(&a, IN_NEAR, hour) + air_at(&b, IN_NEAR, hour), 1e-12);
}
END_TEST

START_TEST(the_person_breathes_near_field_then_room) {
    struct air_curve curve = solved(one_task(room_usual(38, 0.5), 4, 7802));
    double near = air_dose(&curve, IN_NEAR, 0, 4), far = air_dose(&curve, IN_FAR, 4, 8);
    assert_close(air_dose(&curve, PERSON, 0, 8), near + far, 1e-12);
    assert_close(air_dose(&curve, PERSON_GOES, 0, 8), near, 1e-12);
    ck_assert_double_eq(air_at(&curve, PERSON_GOES, 5), 0);
}
END_TEST

// Highest values and worst windows against a fine scan of the curve.
START_TEST(worst_windows_meet_a_fine_scan) {
    struct air_curve curve = solved(busy_day(room_usual(38, 1.5)));
    static const struct air_view views[] = {
        {AIR_ROOM, false}, {AIR_NEAR, false}, {AIR_PERSON, false}, {AIR_PERSON, true}, {AIR_FAR, false}};
    static const double windows_h[] = {5 / 60.0, 0.25, 0.5, 1, 4};
    for (size_t v = 0; v < 5; v++) {
        double highest = 0;
        for (int i = 0; i <= 90000; i++)
            highest = fmax(highest, air_at(&curve, views[v], i * 1e-4));
        double found = air_highest(&curve, views[v], NULL);
        ck_assert_double_ge(found, highest * (1 - 1e-12));
        assert_close(found, highest, 1e-4);
        for (size_t w = 0; w < 5; w++) {
            double best = 0;
            for (int i = 0; i * 2e-3 + windows_h[w] <= 9; i++)
                best = fmax(best, air_dose(&curve, views[v], i * 2e-3, i * 2e-3 + windows_h[w]) / windows_h[w]);
            double start_h = -1, mean = air_highest_mean(&curve, views[v], windows_h[w], &start_h);
            ck_assert_msg(mean >= best * (1 - 1e-12), "view %zu, window %g h: %.9g < %.9g", v, windows_h[w], mean,
                          best);
            assert_close(mean, best, 2e-3);
            assert_close(air_dose(&curve, views[v], start_h, start_h + windows_h[w]) / windows_h[w], mean, 1e-12);
        }
    }
}
END_TEST

// The near field fills within a minute of the start: the worst 15 minutes of a task that begins in air that clears
// quickly lie a few seconds after the start, where an even grid would not look.
START_TEST(worst_window_just_after_an_event) {
    struct air_day day = one_task(room_usual(100, 6), 6, 60000);
    day.initial_mg_m3 = 200;
    struct air_curve curve = solved(day);
    double start_h, mean = air_highest_mean(&curve, IN_NEAR, 0.25, &start_h);
    double best = 0;
    for (int i = 0; i < 20000; i++)
        best = fmax(best, air_dose(&curve, IN_NEAR, i * 1e-5, i * 1e-5 + 0.25) / 0.25);
    ck_assert_double_ge(mean, best * (1 - 1e-12));
    ck_assert_double_gt(start_h, 0);
    ck_assert_double_lt(start_h, 0.05);
}
END_TEST

START_TEST(worst_window_of_a_lone_task_ends_with_it) {
    struct air_curve curve = solved(one_task(room_usual(38, 0.5), 4, 7802));
    double start_h;
    air_highest_mean(&curve, PERSON, 0.25, &start_h);
    assert_close(start_h + 0.25, 4, 1e-6);
}
END_TEST

START_TEST(window_longer_than_the_day_counts_clean_air) {
    struct air_day day = one_task(room_usual(38, 0.5), 0.1, 7802);
    day.shift_h = 0;
    struct air_curve curve = solved(day);
    assert_close(air_highest_mean(&curve, IN_NEAR, 0.25, NULL), air_dose(&curve, IN_NEAR, 0, 0.1) / 0.25, 1e-12);
}
END_TEST

// Demonstration cases (our own arithmetic): 20 mL/h of propan-2-ol 30 + isooctane 70 in 85 m3 with 3 changes; toluene
// of toluene 60 + acetone 40 at 15 mL/h for 4 h in 38 m3 with 0.5 changes. Densities at 20 degC of the component table.
START_TEST(demonstration_cases) {
    struct room boats = room_usual(85, 3);
    assert_close(room_steady_mg_m3(&boats, generation_mg_h(20 * 0.3, 0.7858)), 18, 0.03);
    assert_close(room_steady_mg_m3(&boats, generation_mg_h(20 * 0.7, 0.692)), 38, 0.01);
    struct room mill = room_usual(38, 0.5);
    double generation = generation_mg_h(15 * 0.6, 0.8669);
    struct air_curve curve = solved(one_task(mill, 4, generation));
    assert_close(room_steady_mg_m3(&mill, generation), 411, 2e-3);
    assert_close(air_at(&curve, IN_ROOM, 4), 355, 2e-3);
    assert_close(air_dose(&curve, ROOM_GOES, 0, 8) / 8, 117, 5e-3);
    assert_close(air_dose(&curve, IN_ROOM, 0, 8) / 8, 193, 5e-3);
}
END_TEST

// beta = FSA s/2, FSA = 2 pi r^2: at one air speed the flow goes with r^2, 0.39 at 0.5 m against 0.8 m.
START_TEST(near_field_geometry) {
    assert_close(hemisphere_volume_m3(0.8), 1.0723, 1e-4);
    assert_close(near_flow_m3_h(0.5, 60) / near_flow_m3_h(0.8, 60), 0.390625, 1e-12);
    assert_close(near_flow_m3_h(1, 1), 3.14159265358979, 1e-12);
}
END_TEST

static void assert_refused(struct air_day day, const char *words) {
    struct air_curve curve = {.end_h = -7};
    struct error err;
    ck_assert_int_eq(air_curve_make(&day, &curve, &err), STATUS_RANGE);
    ck_assert_msg(strstr(err.text, words), "'%s' lacks '%s'", err.text, words);
    ck_assert_double_eq(curve.end_h, -7);
}

START_TEST(figures_out_of_range_are_refused) {
    struct air_day good = one_task(room_usual(38, 0.5), 4, 100), bad = good;
    bad.room.volume_m3 = 0;
    assert_refused(bad, "a room of 0 m3");
    bad.room.volume_m3 = -5;
    assert_refused(bad, "a room of -5 m3");
    bad.room.volume_m3 = NAN;
    assert_refused(bad, "the volume must be above 0");
    bad = good;
    bad.room.volume_m3 = 1;
    assert_refused(bad, "a near field of 1.07 m3 in a room of 1 m3");
    bad = good;
    bad.room.air_changes_per_h = -1;
    assert_refused(bad, "-1 air changes per hour");
    bad = good;
    bad.room.mixing_factor = 0;
    assert_refused(bad, "mixing factor 0");
    bad.room.mixing_factor = 1.5;
    assert_refused(bad, "at most 1");
    bad = good;
    bad.room.loss_per_h = -0.1;
    assert_refused(bad, "a loss of -0.1 per hour");
    bad = good;
    bad.room.near_flow_m3_h = NAN;
    assert_refused(bad, "through the near field");
    bad = good;
    bad.tasks[0].length_h = 25;
    assert_refused(bad, "takes 25 h; a day has 24 h");
    bad.tasks[0] = (struct air_task){20, 5, 1, 0};
    assert_refused(bad, "ends 25 h after");
    bad.tasks[0] = (struct air_task){-1, 5, 1, 0};
    assert_refused(bad, "begins at -1 h");
    bad.tasks[0] = (struct air_task){0, 0, 1, 0};
    assert_refused(bad, "takes 0 h");
    bad.tasks[0] = (struct air_task){0, 1, -1, 0};
    assert_refused(bad, "gives off -1 mg/h");
    bad = good;
    bad.shift_h = 25;
    assert_refused(bad, "a shift of 25 h");
    bad = good;
    bad.initial_mg_m3 = -1;
    assert_refused(bad, "-1 mg/m3 at the beginning");
    bad = good;
    bad.task_count = AIR_TASKS_MAX + 1;
    assert_refused(bad, "at most 12 can be planned");
}
END_TEST

static Suite *room_suite(void) {
    Suite *suite = suite_create("room");
    TCase *examples = tcase_create("published");
    tcase_add_test(examples, build_up_worked_example_benzene_room);
    tcase_add_test(examples, first_order_loss_worked_example);
    tcase_add_test(examples, decay_and_day_mean_worked_example);
    tcase_add_test(examples, sudden_release_worked_example);
    tcase_add_test(examples, everything_evaporates_worked_example);
    tcase_add_test(examples, two_zone_worked_example);
    tcase_add_test(examples, two_zone_steady_state);
    tcase_add_test(examples, demonstration_cases);
    suite_add_tcase(suite, examples);
    TCase *laws = tcase_create("laws");
    tcase_set_timeout(laws, 60);
    tcase_add_test(laws, mass_balance);
    tcase_add_test(laws, closed_form_meets_runge_kutta);
    tcase_add_test(laws, doses_meet_a_sum_over_the_curve);
    tcase_add_test(laws, day_mean_is_dose_over_flow);
    tcase_add_test(laws, two_zones_become_one_as_the_exchange_grows);
    tcase_add_test(laws, without_near_field_every_place_is_the_room);
    tcase_add_test(laws, sealed_room_rises_without_bound);
    tcase_add_test(laws, nearly_sealed_is_nearly_linear);
    tcase_add_test(laws, mixing_factor_counts_as_less_air);
    tcase_add_test(laws, sources_superpose);
    tcase_add_test(laws, the_person_breathes_near_field_then_room);
    tcase_add_test(laws, near_field_geometry);
    suite_add_tcase(suite, laws);
    TCase *windows = tcase_create("windows");
    tcase_set_timeout(windows, 60);
    tcase_add_test(windows, worst_windows_meet_a_fine_scan);
    tcase_add_test(windows, worst_window_just_after_an_event);
    tcase_add_test(windows, worst_window_of_a_lone_task_ends_with_it);
    tcase_add_test(windows, window_longer_than_the_day_counts_clean_air);
    suite_add_tcase(suite, windows);
    TCase *faults = tcase_create("faults");
    tcase_add_test(faults, figures_out_of_range_are_refused);
    suite_add_tcase(suite, faults);
    return suite;
}

int main(void) {
    return suite_run(room_suite());
}
