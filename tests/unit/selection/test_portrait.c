// SPDX-License-Identifier: GPL-3.0-or-later
// A portrait against the models that it asks, one respect at a time.
#include "selection/portrait.h"

#include "base/units.h"
#include "physics/film_mix.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>

static struct library lib;
static struct unifac_table table;
static struct error err;

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_ALL, &table);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &table);
}

static struct portrait_frame plain_frame(void) {
    return (struct portrait_frame){.lib = &lib, .table = &table, .temp_c = 20};
}

static struct portrait portrait(const struct portrait_frame *frame, const char *notation) {
    struct portrait result;
    struct blend blend = tables_blend(&lib, notation);
    ck_assert_msg(portrait_of(frame, &blend, &result, &err) == STATUS_OK, "%s", err.text);
    return result;
}

static const struct authority *authority(const char *id) {
    const struct authority *found = NULL;
    stop_unless(library_authority(&lib, id, &found, &err), &err);
    return found;
}

// Film of a material in a blend, with the activities common to both liquids where it splits.
static struct film_result film_in(const char *material, const struct blend *blend) {
    struct film_parameters parameters;
    struct activity_model activity;
    struct film film;
    struct film_result result;
    double x[BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    stop_unless(film_parameters_of_material(tables_material(&lib, material), &parameters, &err), &err);
    stop_unless(activity_prepare_blend(&table, blend, kelvin_from_celsius(20), &activity, &err), &err);
    stop_unless(film_prepare(&parameters, &activity, &film, &err), &err);
    stop_unless(blend_mole_fractions(blend, x, &err), &err);
    stop_unless(film_common_activities(&activity, x, ln_activity, NULL, &err), &err);
    film_of_activities(&film, ln_activity, NULL, &result);
    return result;
}

START_TEST(the_paint_that_takes_up_most) {
    struct portrait_frame frame = plain_frame();
    frame.spare[0] = tables_material(&lib, "linseed-oil-film-young");
    frame.spare[1] = tables_material(&lib, "dammar-fresh");
    frame.spare_count = 2;
    struct blend blend = tables_blend(&lib, "propan-2-ol 40 + isooctane 60");
    struct portrait made = portrait(&frame, "propan-2-ol 40 + isooctane 60");
    struct film_result oil = film_in("linseed-oil-film-young", &blend), resin = film_in("dammar-fresh", &blend);
    bool resin_more = film_takes_up_more(&resin, &oil);
    const struct film_result *most = resin_more ? &resin : &oil;
    ck_assert_ptr_eq(made.spared, frame.spare[resin_more]);
    ck_assert_int_eq(made.film, most->outcome);
    frame.spare_count = 1;
    made = portrait(&frame, "propan-2-ol 40 + isooctane 60");
    ck_assert_double_eq_tol(made.swelling, oil.swelling, 1e-6);
    // Inside, the mean of the places by volume: propan-2-ol 15.8/6.1/16.4, isooctane 14.3/0/0 (Hansen).
    double alcohol = made.inside[0];
    ck_assert_double_eq_tol(alcohol, oil.inside[0], 1e-6);
    ck_assert_double_eq_tol(made.inside[0] + made.inside[1], 1, 1e-9);
    ck_assert_double_eq_tol(made.inside_place.delta_d, 14.3 + 1.5 * alcohol, 0.11);
    ck_assert_double_eq_tol(made.inside_place.delta_p, 6.1 * alcohol, 1e-9);
    ck_assert_double_eq_tol(made.inside_place.delta_h, 16.4 * alcohol, 1e-9);
}
END_TEST

START_TEST(without_a_paint_nothing_is_said_of_swelling) {
    struct portrait_frame frame = plain_frame();
    struct portrait made = portrait(&frame, "acetone");
    ck_assert_ptr_null(made.spared);
    ck_assert_int_eq(made.film, FILM_NOT_COVERED);
    ck_assert(isnan(made.swelling) && isnan(made.inside_place.delta_d) && isnan(made.red_remove));
    ck_assert(!made.dissolves && !made.dissolves_judged);
}
END_TEST

// Methanol and isooctane are two liquids at room temperature: a film between them is in equilibrium with both.
START_TEST(a_film_in_two_liquids) {
    struct portrait_frame frame = plain_frame();
    frame.spare[frame.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    struct blend blend = tables_blend(&lib, "methanol 50 + isooctane 50");
    struct portrait made = portrait(&frame, "methanol 50 + isooctane 50");
    ck_assert_int_eq(made.phase, PHASE_TWO);
    ck_assert_double_eq_tol(made.swelling, film_in("linseed-oil-film-young", &blend).swelling, 1e-6);
    // Whatever the shares of the two phases, they are the same phases.
    ck_assert_double_eq_tol(portrait(&frame, "methanol 40 + isooctane 60").swelling, made.swelling, 1e-4);
    ck_assert_int_eq(portrait(&frame, "propan-2-ol 50 + isooctane 50").phase, PHASE_ONE);
}
END_TEST

START_TEST(what_is_to_come_off) {
    static const char *const blends[] = {"isooctane", "acetone 50 + isooctane 50", "acetone"};
    struct portrait_frame frame = plain_frame();
    frame.remove[0] = tables_material(&lib, "dammar-aged");
    frame.remove[1] = tables_material(&lib, "dammar-fresh");
    frame.remove_count = 2;
    size_t both = 0;
    for (size_t i = 0; i < 3; i++) {
        struct blend blend = tables_blend(&lib, blends[i]);
        struct portrait made = portrait(&frame, blends[i]);
        bool aged = film_in("dammar-aged", &blend).outcome == FILM_WITHOUT_LIMIT;
        bool fresh = film_in("dammar-fresh", &blend).outcome == FILM_WITHOUT_LIMIT;
        ck_assert(made.dissolves_judged && made.dissolves == (aged && fresh));
        both += aged && fresh;
        double red_aged = hansen_red(made.hansen, &frame.remove[0]->sphere);
        double red_fresh = hansen_red(made.hansen, &frame.remove[1]->sphere);
        ck_assert_double_eq_tol(made.red_remove, fmax(red_aged, red_fresh), 1e-12);
    }
    ck_assert_uint_gt(both, 0);
    ck_assert_uint_lt(both, 3);
}
END_TEST

START_TEST(drying_fire_and_health) {
    struct portrait_frame frame = plain_frame();
    struct portrait made = portrait(&frame, "acetone 40 + diacetone-alcohol 60");
    struct evaporation path;
    struct evaporation_options options = {.temp_c = 20};
    stop_unless(evaporation_follow(&lib, &table, &made.blend, &options, &path, &err), &err);
    ck_assert_double_eq(made.time_90, path.time_90);
    ck_assert_double_eq(made.time_95, path.time_95);
    for (size_t i = 0; i < PORTRAIT_PATH; i++)
        ck_assert_double_eq(made.path[i].delta_h, path.points[10 * i].hansen.delta_h);
    ck_assert_double_eq(made.tail.delta_p, path.points[95].hansen.delta_p);
    ck_assert_str_eq(made.last->id, "diacetone-alcohol");
    ck_assert_double_gt(made.last_share, 0.95);
    made = portrait(&frame, "diacetone-alcohol 30 + acetone 70"); // whichever is written first
    ck_assert_str_eq(made.last->id, "diacetone-alcohol");
    ck_assert_double_gt(made.last_share, 0.95);
    ck_assert_int_eq(made.residue, RETENTION_LONG);
    ck_assert_int_eq(made.burden, 3);                        // diacetone alcohol: H361d
    ck_assert_int_eq(portrait(&frame, "acetone").burden, 1); // H319 and H336 irritate
    ck_assert_double_lt(made.flash_point_c, 0);
    ck_assert_int_eq(made.flammable, GHS_FLAMMABLE_2); // acetone boils at 56 degC, so never 1
    made = portrait(&frame, "toluene 50 + dichloromethane 50");
    unsigned classes =
        1u << CLASS_AROMATIC | 1u << CLASS_CHLORINATED | 1u << CLASS_REPRODUCTIVE | 1u << CLASS_CARCINOGEN;
    ck_assert_uint_eq(made.classes & classes, classes);
    ck_assert_uint_eq(made.classes & (1u << CLASS_PEROXIDE_FORMER | 1u << CLASS_CORROSIVE), 0);
    ck_assert_int_eq(portrait(&frame, "water").burden, 0);
}
END_TEST

START_TEST(each_set_of_limits_for_itself) {
    struct portrait_frame frame = plain_frame();
    struct portrait made = portrait(&frame, "toluene");
    ck_assert_uint_eq(made.hazard_count, lib.authority_count);
    for (size_t i = 0; i < made.hazard_count; i++)
        ck_assert_ptr_eq(made.hazards[i].authority, &lib.authorities[i]);
    ck_assert_ptr_null(made.air.authority); // no room
}
END_TEST

START_TEST(the_worst_vapour) {
    struct portrait made = {.hazard_count = 4,
                            .hazards = {{.ratio = NAN, .complete = true},
                                        {.ratio = 900, .complete = false},
                                        {.ratio = 100, .complete = true},
                                        {.ratio = 300, .complete = true}}};
    ck_assert_ptr_eq(portrait_worst_vapour(&made), &made.hazards[3]); // complete ones before lower bounds
    made.hazards[3].complete = false;
    ck_assert_ptr_eq(portrait_worst_vapour(&made), &made.hazards[2]);
    made.hazards[2].complete = false;
    ck_assert_ptr_eq(portrait_worst_vapour(&made), &made.hazards[1]);
    made.hazard_count = 1;
    ck_assert_ptr_null(portrait_worst_vapour(&made));
}
END_TEST

// 100 mL/h of toluene for an hour in 50 m3 at two changes an hour: the same judgement as asked for by itself.
START_TEST(the_air_of_a_room) {
    struct portrait_frame frame = plain_frame();
    struct exposure_plan plan = exposure_plan_usual(room_usual(50, 2));
    struct blend blend = tables_blend(&lib, "toluene");
    plan.tasks[plan.task_count++] = (struct exposure_task){.length_h = 1, .use_ml_h = 100, .blend = &blend};
    static struct exposure_air air;
    static struct exposure_judgement one;
    struct exposure_judgements all = {0};
    stop_unless(exposure_air(&plan, &air, &err), &err);
    stop_unless(exposure_judge(&lib, &plan, &air, authority("de"), &one, &err), &err);
    stop_unless(exposure_judge_all(&lib, &plan, &air, &all, &err), &err);
    frame.plan = &plan;
    struct portrait made = portrait(&frame, "toluene");
    ck_assert_ptr_eq(made.air.authority, all.sets[all.strictest].authority);
    ck_assert_double_eq(made.air.index, all.sets[all.strictest].worst);
    ck_assert_int_eq(made.air.verdict, all.verdict);
    frame.authority = authority("de");
    made = portrait(&frame, "toluene");
    ck_assert_ptr_eq(made.air.authority, frame.authority);
    ck_assert_double_eq(made.air.index, one.worst);
    ck_assert_int_eq(made.air.verdict, one.verdict);
    ck_assert(made.air.complete == one.complete);
    ck_assert_uint_eq(made.hazard_count, 1);
    // Another blend in the same room is judged by itself, not by the plan's.
    ck_assert_double_lt(portrait(&frame, "acetone").air.index, one.worst);
    exposure_judgements_release(&all);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("portrait");
    TCase *tests = tcase_create("respects");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, the_paint_that_takes_up_most);
    tcase_add_test(tests, without_a_paint_nothing_is_said_of_swelling);
    tcase_add_test(tests, a_film_in_two_liquids);
    tcase_add_test(tests, what_is_to_come_off);
    tcase_add_test(tests, drying_fire_and_health);
    tcase_add_test(tests, each_set_of_limits_for_itself);
    tcase_add_test(tests, the_worst_vapour);
    tcase_add_test(tests, the_air_of_a_room);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
