// SPDX-License-Identifier: GPL-3.0-or-later
// Day plans judged against limit sets. Expected concentrations: a Runge-Kutta solution of the balances (steps of 0.36
// s) made apart from this program, and hand sums. Limits are the published rows named beside them.
#include "base/memory.h"
#include "base/units.h"
#include "physics/exposure_help.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static void assert_close(double got, double expected, double relative) {
    ck_assert_msg(fabs(got - expected) <= relative * fabs(expected), "got %.12g, expected %.12g within %g", got,
                  expected, relative);
}

// --- a small library ---

enum { TOLUENE, ACETONE, PROPANOL, ISOOCTANE, DCM, BUTANOL, WATER, GLYCOL, COMPONENTS };

#define IS(number)                                                                                                     \
    { .value = (number) }

// Molar mass, density at 20 degC, Antoine constants and lower flammable limits: Poling, CRC Handbook, IEC 60079-20-1
// and others, as in the component table.
static const struct properties all_properties[COMPONENTS] = {
    [TOLUENE] = {.molar_mass = IS(92.14),
                 .density_20c = IS(0.8669),
                 .lower_flammable_limit = IS(1.0),
                 .antoine = {.a = 6.09476, .b = 1353.510, .c = 220.402, .t_min = 0, .t_max = 115}},
    [ACETONE] = {.molar_mass = IS(58.08),
                 .density_20c = IS(0.7903),
                 .lower_flammable_limit = IS(2.5),
                 .antoine = {.a = 6.21840, .b = 1197.010, .c = 228.060, .t_min = -25.8, .t_max = 77.5}},
    [PROPANOL] = {.molar_mass = IS(60.10),
                  .density_20c = IS(0.7858),
                  .lower_flammable_limit = IS(2.0),
                  .antoine = {.a = 7.24268, .b = 1580.920, .c = 219.610, .t_min = 8.1, .t_max = 100.3}},
    [ISOOCTANE] = {.molar_mass = IS(114.23),
                   .density_20c = IS(0.692),
                   .lower_flammable_limit = IS(0.7),
                   .antoine = {.a = 5.93646, .b = 1257.850, .c = 220.767, .t_min = 2.4, .t_max = 125.2}},
    [DCM] = {.molar_mass = IS(84.93),
             .density_20c = IS(1.3256),
             .lower_flammable_limit = IS(NAN),
             .antoine = {.a = NAN, .b = NAN, .c = NAN},
             .vapour_pressure_20c = IS(46.9)},
    [BUTANOL] = {.molar_mass = IS(74.12),
                 .density_20c = IS(0.8095),
                 .lower_flammable_limit = IS(1.4),
                 .antoine = {.a = NAN, .b = NAN, .c = NAN},
                 .vapour_pressure_20c = IS(NAN)},
    [WATER] = {.molar_mass = IS(18.015),
               .density_20c = IS(0.9982),
               .lower_flammable_limit = IS(NAN),
               .antoine = {.a = NAN, .b = NAN, .c = NAN},
               .vapour_pressure_20c = IS(2.339)},
    // Ethane-1,2-diol evaporates so slowly that a swab's worth an hour cannot all be in the air.
    [GLYCOL] = {.molar_mass = IS(62.07),
                .density_20c = IS(1.1135),
                .lower_flammable_limit = IS(3.2),
                .antoine = {.a = NAN, .b = NAN, .c = NAN},
                .vapour_pressure_20c = IS(0.0075)},
};

static const char *const TOLUENE_CODES[] = {"H225", "H361d", "H304"};
static const struct hazard all_hazards[COMPONENTS] = {
    [TOLUENE] = {.h_statements = {TOLUENE_CODES, 3},
                 .reproductive_category = CATEGORY_2,
                 .odour_threshold = IS(2.9)}, // ppm, Amoore and Hautala 1983, from memory
    [DCM] = {.carcinogen_category = CATEGORY_2, .odour_threshold = IS(250)},
};

#define COMPONENT(index, name, kind)                                                                                   \
    [index] = {.id = (name), .family = (kind), .properties = &all_properties[index], .hazard = &all_hazards[index]}
static const struct component all_components[COMPONENTS] = {
    COMPONENT(TOLUENE, "toluene", FAMILY_AROMATIC),
    COMPONENT(ACETONE, "acetone", FAMILY_KETONE),
    COMPONENT(PROPANOL, "propan-2-ol", FAMILY_ALCOHOL),
    COMPONENT(ISOOCTANE, "isooctane", FAMILY_ALKANE),
    COMPONENT(DCM, "dichloromethane", FAMILY_CHLORINATED),
    COMPONENT(BUTANOL, "butan-1-ol", FAMILY_ALCOHOL),
    COMPONENT(WATER, "water", FAMILY_WATER),
    COMPONENT(GLYCOL, "ethylene-glycol", FAMILY_GLYCOL),
};

#define ROW(who, set, what, parts, mass, minutes, ...)                                                                 \
    {                                                                                                                  \
        .component = (who), .authority = (set), .kind = (what), .ppm = (parts), .mg_m3 = (mass),                       \
        .period_min = (minutes), .notations = {                                                                        \
            .items = (const char *const[]){__VA_ARGS__},                                                               \
            .count = sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *)                                 \
        }                                                                                                              \
    }
#define PLAIN(who, set, what, parts, mass)                                                                             \
    { .component = (who), .authority = (set), .kind = (what), .ppm = (parts), .mg_m3 = (mass) }

// 29 CFR 1910.1000; NIOSH (1994); Directives 2006/15/EC and (EU) 2017/164; EH40/2005 (2020), with its guidance value
// for alkanes from C7; TRGS 900, with its group limit for C6-C8 aliphatics (from memory); 40 CFR 751.
static struct limit all_limits[] = {
    PLAIN("toluene", "us-osha", LIMIT_TWA_8H, 200, NAN),
    PLAIN("toluene", "us-osha", LIMIT_CEILING, 300, NAN),
    PLAIN("acetone", "us-osha", LIMIT_TWA_8H, 1000, 2400),
    PLAIN("propan-2-ol", "us-osha", LIMIT_TWA_8H, 400, 980),
    PLAIN("butan-1-ol", "us-osha", LIMIT_TWA_8H, 100, 300),
    PLAIN("toluene", "us-niosh", LIMIT_TWA_10H, 100, 375),
    PLAIN("toluene", "us-niosh", LIMIT_STEL_15MIN, 150, 560),
    PLAIN("toluene", "us-niosh", LIMIT_IDLH, 500, NAN),
    PLAIN("acetone", "us-niosh", LIMIT_TWA_10H, 250, 590),
    PLAIN("propan-2-ol", "us-niosh", LIMIT_TWA_10H, 400, 980),
    PLAIN("propan-2-ol", "us-niosh", LIMIT_STEL_15MIN, 500, 1225),
    ROW("butan-1-ol", "us-niosh", LIMIT_CEILING, 50, 150, 0, "skin"),
    ROW("dichloromethane", "us-niosh", LIMIT_IDLH, 2300, NAN, 0, "Ca"),
    PLAIN("dichloromethane", "us-epa", LIMIT_TWA_8H, 2, NAN),
    ROW("toluene", "eu", LIMIT_TWA_8H, 50, 192, 0, "skin"),
    ROW("toluene", "eu", LIMIT_STEL_15MIN, 100, 384, 0, "skin"),
    PLAIN("acetone", "eu", LIMIT_TWA_8H, 500, 1210),
    ROW("ethylene-glycol", "eu", LIMIT_TWA_8H, 20, 52, 0, "skin"),
    ROW("toluene", "uk", LIMIT_TWA_8H, 50, 191, 0, "skin"),
    ROW("toluene", "uk", LIMIT_STEL_15MIN, 100, 384, 0, "skin"),
    PLAIN("acetone", "uk", LIMIT_TWA_8H, 500, 1210),
    PLAIN("acetone", "uk", LIMIT_STEL_15MIN, 1500, 3620),
    PLAIN("propan-2-ol", "uk", LIMIT_TWA_8H, 400, 999),
    PLAIN("propan-2-ol", "uk", LIMIT_STEL_15MIN, 500, 1250),
    ROW("butan-1-ol", "uk", LIMIT_STEL_15MIN, 50, 154, 0, "skin"),
    ROW("isooctane", "uk", LIMIT_TWA_8H, NAN, 1200, 0, "group value alkanes from C7"),
    ROW("toluene", "de", LIMIT_TWA_8H, 50, 190, 0, "skin", "Y", "excursion 2(II)"),
    ROW("acetone", "de", LIMIT_TWA_8H, 500, 1200, 0, "Y", "excursion 2(I)"),
    ROW("propan-2-ol", "de", LIMIT_TWA_8H, 200, 500, 0, "Y", "excursion 2(II)"),
    ROW("isooctane", "de", LIMIT_TWA_8H, NAN, 700, 0, "group limit C6-C8 aliphatics", "excursion 2(II)"),
};
enum { OSHA, NIOSH, EPA, EU, UK, DE, SETS };
static struct authority all_authorities[SETS] = {
    [OSHA] = {.id = "us-osha", .molar_volume = IS(24.45)}, [NIOSH] = {.id = "us-niosh", .molar_volume = IS(24.45)},
    [EPA] = {.id = "us-epa", .molar_volume = IS(24.45)},   [EU] = {.id = "eu", .molar_volume = IS(24.055)},
    [UK] = {.id = "uk", .molar_volume = IS(24.05526)},     [DE] = {.id = "de", .molar_volume = IS(24.1)},
};
static const struct library lib = {.limits = all_limits,
                                   .limit_count = sizeof all_limits / sizeof *all_limits,
                                   .authorities = all_authorities,
                                   .authority_count = SETS};

static struct blend mixed(int first, double first_part, int second, double second_part) {
    double sum = first_part + second_part;
    return (struct blend){.count = second_part > 0 ? 2 : 1,
                          .components = {&all_components[first], &all_components[second]},
                          .volume_fractions = {first_part / sum, second_part / sum}};
}

static struct exposure_plan planned(const struct blend *blend, double use_ml_h, double hours, double volume_m3,
                                    double air_changes) {
    struct exposure_plan plan = exposure_plan_usual(room_usual(volume_m3, air_changes));
    plan.task_count = 1;
    plan.tasks[0] = (struct exposure_task){0, hours, use_ml_h, blend, NULL};
    return plan;
}

static struct exposure_air aired(const struct exposure_plan *plan) {
    struct exposure_air air;
    struct error err;
    ck_assert_msg(exposure_air(plan, &air, &err) == STATUS_OK, "%s", err.text);
    return air;
}

static struct exposure_judgement judged(const struct exposure_plan *plan, int authority) {
    struct exposure_air air = aired(plan);
    struct exposure_judgement set;
    struct error err;
    ck_assert_msg(exposure_judge(&lib, plan, &air, &all_authorities[authority], &set, &err) == STATUS_OK, "%s",
                  err.text);
    return set;
}

// --- the air ---

// Demonstration case: 20 mL/h of propan-2-ol 30 + isooctane 70, 5 h, 85 m3, 3 changes: 18 and 38 mg/m3.
START_TEST(demonstration_propanol_and_isooctane) {
    struct blend blend = mixed(PROPANOL, 30, ISOOCTANE, 70);
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_air air = aired(&plan);
    assert_close(air.components[0].room_mg_m3, 18, 0.03);
    assert_close(air.components[1].room_mg_m3, 38, 0.01);
    assert_close(air.components[0].near_mg_m3, 34.205, 1e-3);
    assert_close(air.components[1].near_mg_m3, 70.285, 1e-3);
    assert_close(air.components[0].twa_8h_mg_m3, 21.363, 1e-3);
    assert_close(air.components[1].twa_8h_mg_m3, 43.897, 1e-3);
    struct exposure_judgement de = judged(&plan, DE);
    assert_close(de.index, 21.363 / 500 + 43.897 / 700, 1e-3);
    assert_close(de.room_index, 11.556 / 500 + 23.745 / 700, 1e-3);
    ck_assert(de.complete);
    ck_assert_int_eq(de.verdict, EXPOSURE_WITHIN);
    ck_assert_int_eq(de.components[1].limits.long_term.origin, LIMIT_GROUP);
    ck_assert_double_nan(de.hydrocarbon_limit_mg_m3); // one hydrocarbon alone is no mixture of them
}
END_TEST

// Demonstration case: toluene of toluene 60 + acetone 40, 15 mL/h, 4 h, 38 m3, 0.5 changes: 355 mg/m3 after 4 h,
// heading for 411; room mean 117 leaving, 193 staying. The person's means by Runge-Kutta.
START_TEST(demonstration_toluene) {
    struct blend blend = mixed(TOLUENE, 60, ACETONE, 40);
    struct exposure_plan plan = planned(&blend, 15, 4, 38, 0.5);
    struct exposure_component toluene = aired(&plan).components[0];
    assert_close(toluene.room_mg_m3, 355, 1e-3);
    assert_close(toluene.room_steady_mg_m3, 411, 2e-3);
    assert_close(toluene.room_8h_leaves_mg_m3, 117, 5e-3);
    assert_close(toluene.room_8h_stays_mg_m3, 193, 5e-3);
    assert_close(toluene.near_mg_m3, 380.868, 1e-3);
    assert_close(toluene.twa_8h_stays_mg_m3, 206.116, 1e-3);
    assert_close(toluene.twa_8h_leaves_mg_m3, 129.229, 1e-3);
    ck_assert_double_eq(toluene.twa_8h_mg_m3, toluene.twa_8h_stays_mg_m3);
    ck_assert_int_eq(judged(&plan, EU).verdict, EXPOSURE_OVER);
    plan.leaves = true;
    toluene = aired(&plan).components[0];
    ck_assert_double_eq(toluene.twa_8h_mg_m3, toluene.twa_8h_leaves_mg_m3);
    ck_assert_double_eq(toluene.room_8h_mg_m3, toluene.room_8h_leaves_mg_m3);
}
END_TEST

// toluene 1 + acetone 1, 20 mL/h, 5 h, 85 m3, 3 changes, against the EU values 192/384 and 1210 mg/m3.
START_TEST(toluene_and_acetone_against_the_eu) {
    struct blend blend = mixed(TOLUENE, 1, ACETONE, 1);
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_judgement eu = judged(&plan, EU);
    assert_close(eu.index, 39.280 / 192 + 35.809 / 1210, 1e-3);
    assert_close(eu.room_index, 21.247 / 192 + 19.370 / 1210, 1e-3);
    assert_close(eu.peak_index, 62.892 / 384, 1e-3); // acetone has no short-term value there
    ck_assert_double_eq(eu.worst, eu.index);
    ck_assert_uint_eq(eu.bites, 0);
    ck_assert_uint_eq(eu.replace_first, 0);
    ck_assert_int_eq(eu.components[0].checks[eu.components[0].biting].limit.kind, LIMIT_TWA_8H);
    ck_assert(eu.components[0].flags & EXPOSURE_SKIN);
    ck_assert(eu.components[0].flags & EXPOSURE_REPRODUCTIVE);
    ck_assert_uint_eq(eu.components[1].flags, 0);
    assert_close(eu.components[0].odour_ratio, 50 / 2.9, 1e-12);
    ck_assert_double_nan(eu.components[0].excursion_guide);
    assert_close(eu.components[1].excursion_guide, 57.335 / 3630, 1e-3);
}
END_TEST

// ppm in the air itself: C Vm/M with the molar volume at the room's temperature.
START_TEST(ppm_and_flammable_share) {
    struct blend blend = mixed(TOLUENE, 1, ACETONE, 1);
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_air air = aired(&plan);
    double volume = GAS_CONSTANT * 293.15 / 101.325;
    assert_close(air.components[0].room_ppm, 33.996 * volume / 92.14, 1e-3);
    assert_close(air.flammable_share_near, (62.893 * volume / 92.14 / 1.0 + 57.335 * volume / 58.08 / 2.5) / 1e4, 1e-3);
    assert_close(air.flammable_share_room, (33.996 * volume / 92.14 / 1.0 + 30.992 * volume / 58.08 / 2.5) / 1e4, 1e-3);
    ck_assert_uint_eq(air.flammable_unknown, 0);
    blend = mixed(DCM, 50, WATER, 50);
    ck_assert_uint_eq(aired(&plan).flammable_unknown, 1);
}
END_TEST

START_TEST(more_than_air_can_hold_is_said) {
    struct blend glycol = mixed(GLYCOL, 1, WATER, 0);
    struct exposure_plan plan = planned(&glycol, 20, 4, 38, 0.5);
    struct exposure_component entry = aired(&plan).components[0];
    ck_assert_int_eq(entry.p_source, PRESSURE_LISTED);
    assert_close(entry.saturated_mg_m3, 7.5 * 62.07 / (GAS_CONSTANT * 293.15) * 1000, 1e-9); // 191 mg/m3
    ck_assert(entry.above_saturation);
    struct blend toluene = mixed(TOLUENE, 1, WATER, 0);
    plan.tasks[0].blend = &toluene;
    entry = aired(&plan).components[0];
    ck_assert(!entry.above_saturation);
    ck_assert_int_eq(entry.p_source, PRESSURE_CURVE);
    assert_close(judged(&plan, EU).components[0].vapour_hazard_ratio, entry.saturated_mg_m3 / 192, 1e-12);
    struct blend butanol = mixed(BUTANOL, 1, WATER, 0); // no pressure: the check falls away, the answer stays
    plan.tasks[0].blend = &butanol;
    entry = aired(&plan).components[0];
    ck_assert_double_nan(entry.p_kpa);
    ck_assert(!entry.above_saturation);
    ck_assert_double_gt(entry.room_mg_m3, 0);
}
END_TEST

START_TEST(sealed_room_is_said) {
    struct blend blend = mixed(TOLUENE, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 1, 4, 40, 0);
    struct exposure_air air = aired(&plan);
    ck_assert(air.rises_without_bound);
    ck_assert_double_eq(air.components[0].room_steady_mg_m3, INFINITY);
    assert_close(air.components[0].room_mg_m3, 866.9 * 4 / 40, 1e-9); // 1 mL of 0.8669 g an hour, 4 h in 40 m3
    plan.room.loss_per_h = 0.1;
    ck_assert(!aired(&plan).rises_without_bound);
}
END_TEST

// Two tasks with different blends: each component has only its own sources; what they share adds.
START_TEST(a_day_of_two_blends) {
    struct blend strong = mixed(TOLUENE, 60, ACETONE, 40), mild = mixed(ACETONE, 20, ISOOCTANE, 80);
    struct exposure_plan plan = planned(&strong, 10, 1, 60, 2), only = plan;
    plan.task_count = 2;
    plan.tasks[1] = (struct exposure_task){3, 2, 30, &mild, NULL};
    struct exposure_air both = aired(&plan), first = aired(&only);
    ck_assert_uint_eq(both.count, 3);
    assert_close(both.components[0].room_8h_stays_mg_m3, first.components[0].room_8h_stays_mg_m3, 1e-12);
    assert_close(both.components[1].released_mg, (10 * 0.4 * 1 + 30 * 0.2 * 2) * 790.3, 1e-12);
    assert_close(both.components[1].generation_mg_h, 30 * 0.2 * 790.3, 1e-12);
    // Toluene of the first task is still breathed in the near field of the second.
    ck_assert_double_gt(both.components[0].twa_8h_leaves_mg_m3, first.components[0].twa_8h_leaves_mg_m3);
    // Nothing is lost: the room's dose is what was released over the flow, less what is still there.
    for (size_t i = 0; i < both.count; i++) {
        const struct air_curve *curve = &both.components[i].curve;
        double left_mg = 60 * air_at(curve, (struct air_view){AIR_ROOM, false}, 8);
        assert_close(both.components[i].room_8h_stays_mg_m3 * 8 * 120 + left_mg, both.components[i].released_mg, 1e-9);
    }
}
END_TEST

// --- judgements ---

START_TEST(a_missing_limit_is_never_within) {
    struct blend blend = mixed(ACETONE, 1, ISOOCTANE, 1);
    struct exposure_plan plan = planned(&blend, 2, 1, 85, 6);
    struct exposure_judgement eu = judged(&plan, EU);
    ck_assert(!eu.complete);
    ck_assert_uint_eq(eu.unknown_count, 1);
    ck_assert(eu.components[1].unknown);
    ck_assert_int_eq(eu.components[1].biting, -1);
    ck_assert_int_eq(eu.verdict, EXPOSURE_NOT_JUDGED);
    ck_assert_double_gt(eu.index, 0);
    ck_assert_double_lt(eu.index, 1);
    ck_assert_uint_eq(eu.components[1].elsewhere_count, 2);
    ck_assert_str_eq(eu.components[1].elsewhere[0]->id, "uk");
    ck_assert_str_eq(eu.components[1].elsewhere[1]->id, "de");
    plan.tasks[0].use_ml_h = 20000;
    ck_assert_int_eq(judged(&plan, EU).verdict, EXPOSURE_OVER); // "over" needs no complete set
}
END_TEST

START_TEST(water_needs_no_limit) {
    struct blend blend = mixed(ACETONE, 1, WATER, 1);
    struct exposure_plan plan = planned(&blend, 2, 1, 85, 6);
    struct exposure_judgement eu = judged(&plan, EU);
    ck_assert(eu.complete);
    ck_assert_int_eq(eu.verdict, EXPOSURE_WITHIN);
    ck_assert(!eu.components[1].unknown);
    ck_assert_double_eq(eu.components[1].mean_fraction, 0);
    struct blend water = mixed(WATER, 1, ACETONE, 0);
    plan.tasks[0].blend = &water;
    eu = judged(&plan, EU);
    ck_assert_double_eq(eu.index, 0);
    ck_assert_double_eq(eu.allowed_factor, INFINITY);
    ck_assert_int_eq(eu.verdict, EXPOSURE_WITHIN);
}
END_TEST

// An IDLH alone is no limit: NIOSH has no figure for dichloromethane.
START_TEST(idlh_alone_does_not_judge) {
    struct blend blend = mixed(DCM, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 1, 1, 85, 6);
    struct exposure_judgement niosh = judged(&plan, NIOSH);
    ck_assert_int_eq(niosh.verdict, EXPOSURE_NOT_JUDGED);
    ck_assert_str_eq(niosh.components[0].elsewhere[0]->id, "us-epa");
    ck_assert(niosh.components[0].flags & EXPOSURE_CARCINOGEN);
    ck_assert(!niosh.above_idlh);
    // 2300 ppm = 7989 mg/m3: passed in the near field by 3 L/h, also when another set judges.
    plan.tasks[0].use_ml_h = 3000;
    ck_assert(judged(&plan, NIOSH).above_idlh);
    ck_assert_int_eq(judged(&plan, NIOSH).verdict, EXPOSURE_OVER);
    ck_assert(judged(&plan, EU).above_idlh);
    plan.tasks[0].use_ml_h *= judged(&plan, NIOSH).allowed_factor; // at most up to the mark of danger
    assert_close(judged(&plan, NIOSH).idlh_worst, 1, 1e-9);
}
END_TEST

// Isooctane for 20 min: 0.07 vol%, a tenth of its lower flammable limit, comes before three times 1200 mg/m3 over 15
// min.
START_TEST(the_fire_alarm_decides_too) {
    struct blend blend = mixed(ISOOCTANE, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 960, 1 / 3.0, 100, 4);
    struct exposure_judgement uk = judged(&plan, UK);
    ck_assert_double_lt(uk.worst, 1);
    ck_assert(uk.above_alarm);
    ck_assert_int_eq(uk.verdict, EXPOSURE_OVER);
    ck_assert_int_eq(uk.cap, CAP_FLAMMABLE);
    assert_close(uk.allowed_factor, FLAMMABLE_ALARM_SHARE / aired(&plan).flammable_share_near, 1e-12);
    plan.tasks[0].use_ml_h *= 0.999 * uk.allowed_factor;
    ck_assert_int_eq(judged(&plan, UK).verdict, EXPOSURE_WITHIN);
    ck_assert(!judged(&plan, UK).above_alarm);
    plan.share = 0.5; // of the limits: these now come first
    ck_assert_int_eq(judged(&plan, UK).cap, CAP_LIMITS);
}
END_TEST

// A quarter of an hour of heavy use: the day mean hides it, the 15-minute limit does not.
START_TEST(a_short_peak_bites) {
    struct blend blend = mixed(TOLUENE, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 250, 0.25, 85, 3);
    struct exposure_judgement eu = judged(&plan, EU);
    ck_assert_double_lt(eu.index, 1);
    ck_assert_double_gt(eu.peak_index, 1);
    ck_assert_int_eq(eu.verdict, EXPOSURE_OVER);
    ck_assert_int_eq(eu.components[0].checks[eu.components[0].biting].limit.kind, LIMIT_STEL_15MIN);
    assert_close(eu.components[0].checks[1].near_mg_m3, aired(&plan).components[0].near_15min_mg_m3, 1e-12);
    struct exposure_judgement de = judged(&plan, DE); // 190 x excursion factor 2
    ck_assert_int_eq(de.components[0].checks[1].limit.origin, LIMIT_EXCURSION);
    assert_close(de.components[0].checks[1].fraction, eu.components[0].checks[1].near_mg_m3 / 380, 1e-9);
    struct exposure_judgement osha = judged(&plan, OSHA); // a ceiling holds at every moment
    assert_close(osha.components[0].checks[1].near_mg_m3, aired(&plan).components[0].near_mg_m3, 1e-12);
}
END_TEST

// Only a 15-minute limit (EH40) or a ceiling (NIOSH): the day mean is held against it in the index.
START_TEST(a_component_with_only_a_short_limit_counts) {
    struct blend blend = mixed(BUTANOL, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 5, 4, 85, 3);
    double twa = aired(&plan).components[0].twa_8h_mg_m3;
    struct exposure_judgement uk = judged(&plan, UK), niosh = judged(&plan, NIOSH);
    ck_assert(uk.complete);
    assert_close(uk.index, twa / 154, 1e-12);
    assert_close(niosh.index, twa / 150, 1e-12);
    ck_assert_double_gt(uk.peak_index, uk.index);
    ck_assert_double_eq(niosh.worst, niosh.peak_index);
}
END_TEST

// The additive index does not pass from one authority to the next: each set is the sum of its own fractions.
START_TEST(strictest_is_one_set_never_a_sum) {
    struct blend blend = mixed(TOLUENE, 1, PROPANOL, 1);
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_air air = aired(&plan);
    struct exposure_judgements all;
    struct error err;
    ck_assert_int_eq(exposure_judge_all(&lib, &plan, &air, &all, &err), STATUS_OK);
    ck_assert_uint_eq(all.count, SETS);
    ck_assert_str_eq(all.sets[all.strictest].authority->id, "de");
    for (int i = 0; i < SETS; i++) {
        struct exposure_judgement alone = judged(&plan, i);
        ck_assert_double_eq(all.sets[i].index, alone.index);
        ck_assert_double_le(alone.index, all.sets[all.strictest].index);
    }
    assert_close(all.sets[all.strictest].index,
                 air.components[0].twa_8h_mg_m3 / 190 + air.components[1].twa_8h_mg_m3 / 500, 1e-12);
    ck_assert_int_eq(all.verdict, EXPOSURE_WITHIN);
    exposure_judgements_release(&all);
    exposure_judgements_release(NULL);
}
END_TEST

// Largest index in a set that lacks a component: its name stands beside the index, and nothing is cleared.
START_TEST(strictest_set_may_lack_a_component) {
    struct blend blend = mixed(DCM, 1, ISOOCTANE, 9);
    struct exposure_plan plan = planned(&blend, 0.2, 1, 85, 6);
    struct exposure_air air = aired(&plan);
    struct exposure_judgements all;
    struct error err;
    ck_assert_int_eq(exposure_judge_all(&lib, &plan, &air, &all, &err), STATUS_OK);
    ck_assert_str_eq(all.sets[all.strictest].authority->id, "us-epa");
    ck_assert(all.sets[all.strictest].components[1].unknown);
    ck_assert_int_eq(all.verdict, EXPOSURE_NOT_JUDGED);
    exposure_judgements_release(&all);
}
END_TEST

// The largest index of day means may be in one set and the passed short limit in another: then the answer is over.
START_TEST(any_set_that_is_passed_makes_it_over) {
    struct blend blend = mixed(BUTANOL, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 60, 0.25, 85, 3);
    struct exposure_air air = aired(&plan);
    struct exposure_judgements all;
    struct error err;
    ck_assert_int_eq(exposure_judge_all(&lib, &plan, &air, &all, &err), STATUS_OK);
    ck_assert_double_lt(all.sets[all.strictest].index, 1);
    ck_assert_double_gt(all.sets[all.tightest].peak_index, 1);
    ck_assert_int_eq(all.verdict, EXPOSURE_OVER);
    exposure_judgements_release(&all);
}
END_TEST

// --- long shifts ---

START_TEST(long_shifts) {
    struct blend blend = mixed(TOLUENE, 1, WATER, 0);
    struct exposure_plan plan = planned(&blend, 10, 10, 85, 3);
    struct exposure_air air = aired(&plan);
    ck_assert_double_eq(air.shift_h, 10);
    const struct air_curve *curve = &air.components[0].curve;
    double dose = air_dose(curve, (struct air_view){AIR_PERSON, false}, 0, 10);
    assert_close(judged(&plan, EU).index, dose / 8 / 192, 1e-12);     // law: the whole dose over 8 h
    assert_close(judged(&plan, NIOSH).index, dose / 10 / 375, 1e-12); // 10-hour mean over the 10-hour day
    plan.long_shift = true;                                           // 10 h: 192 x 0.7 for the mean over 10 h
    assert_close(judged(&plan, EU).index, dose / 10 / (192 * 0.7), 1e-12);
    assert_close(judged(&plan, EU).components[0].checks[0].allowed_mg_m3, 134.4, 1e-12);
    assert_close(judged(&plan, NIOSH).index, dose / 10 / 375, 1e-12);
    plan = planned(&blend, 10, 4, 85, 3);
    dose = air_dose(&aired(&plan).components[0].curve, (struct air_view){AIR_PERSON, false}, 0, 8);
    assert_close(judged(&plan, NIOSH).index, dose / 8 / 375, 1e-12); // hours at home do not dilute an 8-hour day
}
END_TEST

// --- what would help ---

START_TEST(the_allowed_amount_just_reaches_the_share) {
    static const double shares[] = {1, 0.1};
    for (int authority = 0; authority < SETS; authority++) {
        if (authority == EPA)
            continue;
        for (int s = 0; s < 2; s++) {
            struct blend blend = mixed(TOLUENE, 60, ACETONE, 40);
            struct exposure_plan plan = planned(&blend, 15, 0.5 + authority, 38, 0.5);
            plan.share = shares[s];
            struct exposure_judgement set = judged(&plan, authority);
            plan.tasks[0].use_ml_h *= set.allowed_factor;
            assert_close(judged(&plan, authority).worst, shares[s], 1e-9);
        }
    }
}
END_TEST

static enum exposure_need needed(const struct exposure_plan *plan, int authority, double *ret_air_changes) {
    enum exposure_need need;
    struct error err;
    ck_assert_msg(exposure_air_changes_needed(&lib, plan, &all_authorities[authority], &need, ret_air_changes, &err) ==
                      STATUS_OK,
                  "%s", err.text);
    return need;
}

START_TEST(the_air_needed_just_suffices) {
    struct blend blend = mixed(TOLUENE, 60, ACETONE, 40);
    struct exposure_plan plan = planned(&blend, 15, 4, 38, 0.5);
    double air_changes;
    ck_assert_int_eq(needed(&plan, EU, &air_changes), NEED_FOUND);
    plan.room.air_changes_per_h = air_changes;
    ck_assert_double_le(judged(&plan, EU).worst, 1);
    plan.room.air_changes_per_h = air_changes * (1 - 2e-6);
    ck_assert_double_gt(judged(&plan, EU).worst, 1);
    ck_assert_double_gt(air_changes, 0.5);
    ck_assert_double_lt(air_changes, 5);
    plan.tasks[0].use_ml_h = 1;
    ck_assert_int_eq(needed(&plan, EU, &air_changes), NEED_NONE);
    ck_assert_double_eq(air_changes, 0);
    // 1 L/h: G/beta alone is over 1000 mg/m3 at the face, whatever the ventilation.
    plan.tasks[0].use_ml_h = 1000;
    ck_assert_int_eq(needed(&plan, EU, &air_changes), NEED_IMPOSSIBLE);
    ck_assert_double_eq(air_changes, INFINITY);
}
END_TEST

START_TEST(more_air_never_harms) {
    struct blend blend = mixed(TOLUENE, 60, ACETONE, 40);
    for (int authority = OSHA; authority < SETS; authority++) {
        double last = INFINITY;
        for (double air_changes = 0; air_changes < 60; air_changes = air_changes * 1.5 + 0.1) {
            struct exposure_plan plan = planned(&blend, 15, 2, 38, air_changes);
            double worst = judged(&plan, authority).worst;
            ck_assert_double_le(worst, last);
            last = worst;
        }
    }
}
END_TEST

// --- faults ---

static void assert_refused(const struct exposure_plan *plan, enum status status, const char *words) {
    struct exposure_air air = {.count = 77};
    struct error err;
    ck_assert_int_eq(exposure_air(plan, &air, &err), status);
    ck_assert_msg(strstr(err.text, words), "'%s' lacks '%s'", err.text, words);
    ck_assert_uint_eq(air.count, 77);
}

START_TEST(bad_plans_are_refused) {
    struct blend blend = mixed(TOLUENE, 1, ACETONE, 1);
    struct exposure_plan good = planned(&blend, 20, 5, 85, 3), bad = good;
    bad.tasks[0].use_ml_h = 0;
    assert_refused(&bad, STATUS_RANGE, "0 mL per hour; the amount must be above 0");
    bad = good;
    bad.tasks[0].length_h = 25;
    assert_refused(&bad, STATUS_RANGE, "a day has 24 h");
    bad = good;
    bad.shift_h = 30;
    assert_refused(&bad, STATUS_RANGE, "a shift of 30 h");
    bad.shift_h = -1;
    assert_refused(&bad, STATUS_RANGE, "a shift of -1 h");
    bad = good;
    bad.room.volume_m3 = -85;
    assert_refused(&bad, STATUS_RANGE, "a room of -85 m3");
    bad = good;
    bad.task_count = 0;
    assert_refused(&bad, STATUS_RANGE, "no task");
    bad.task_count = AIR_TASKS_MAX + 1;
    assert_refused(&bad, STATUS_RANGE, "13 tasks in one day");
    bad = good;
    bad.share = 0;
    assert_refused(&bad, STATUS_RANGE, "a share of 0");
    bad = good;
    bad.captured = 1;
    assert_refused(&bad, STATUS_RANGE, "a share of 1 of the vapour captured");
}
END_TEST

// Without a density nothing can be said; without a molar mass only a limit in ppm (NIOSH's, here blanked) cannot be
// used.
START_TEST(what_cannot_be_weighed_is_not_judged) {
    struct properties light = all_properties[TOLUENE], massless = all_properties[TOLUENE];
    light.density_20c.value = NAN;
    massless.molar_mass.value = NAN;
    struct component component = {.id = "toluene", .family = FAMILY_AROMATIC, .properties = &light};
    struct blend blend = {
        .count = 2, .components = {&component, &all_components[ACETONE]}, .volume_fractions = {0.5, 0.5}};
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_air air = aired(&plan);
    ck_assert(air.components[0].unweighed && isnan(air.components[0].twa_8h_mg_m3));
    ck_assert_double_gt(air.components[1].twa_8h_mg_m3, 0);
    ck_assert_uint_eq(air.flammable_unknown, 1);
    struct exposure_judgement set = judged(&plan, EU);
    ck_assert_int_eq(set.components[0].gap, GAP_NO_DENSITY);
    ck_assert_int_eq(set.verdict, EXPOSURE_NOT_JUDGED);
    ck_assert_double_gt(set.index, 0); // acetone's share
    component.properties = NULL;
    ck_assert_int_eq(judged(&plan, EU).components[0].gap, GAP_NO_DENSITY);

    component.properties = &massless;
    air = aired(&plan);
    ck_assert(isnan(air.components[0].near_ppm) && isnan(air.components[0].saturated_mg_m3));
    ck_assert_double_gt(air.components[0].twa_8h_mg_m3, 0);
    ck_assert_int_eq(judged(&plan, EU).components[0].gap, GAP_NONE); // 192 mg/m3 is printed
    ck_assert_int_eq(judged(&plan, EU).verdict, EXPOSURE_WITHIN);
    ck_assert_int_eq(judged(&plan, OSHA).components[0].gap, GAP_NO_MOLAR_MASS); // 200 ppm is printed
    ck_assert_int_eq(judged(&plan, OSHA).verdict, EXPOSURE_NOT_JUDGED);
}
END_TEST

START_TEST(running_out_of_memory_is_said) {
    struct blend blend = mixed(TOLUENE, 1, ACETONE, 1);
    struct exposure_plan plan = planned(&blend, 20, 5, 85, 3);
    struct exposure_air air = aired(&plan);
    struct exposure_judgements all = {.count = 77};
    enum exposure_need need = NEED_FOUND;
    double air_changes = -1;
    struct error err;
    memory_fail_at(1);
    ck_assert_int_eq(exposure_judge_all(&lib, &plan, &air, &all, &err), STATUS_MEMORY);
    ck_assert_uint_eq(all.count, 77);
    memory_fail_at(1);
    ck_assert_int_eq(exposure_air_changes_needed(&lib, &plan, &all_authorities[EU], &need, &air_changes, &err),
                     STATUS_MEMORY);
    ck_assert_double_eq(air_changes, -1);
    memory_fail_at(0);
    struct library empty = {0};
    ck_assert_int_eq(exposure_judge_all(&empty, &plan, &air, &all, &err), STATUS_NO_DATA);
}
END_TEST

// --- the shipped tables ---

static struct library shipped;

static void open_tables(void) {
    tables_open(&shipped, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_BOTTLES | TABLE_LIMITS);
}

static void close_tables(void) {
    library_release(&shipped);
}

static const struct authority *set_named(const char *id) {
    const struct authority *authority;
    struct error err;
    ck_assert_msg(library_authority(&shipped, id, &authority, &err) == STATUS_OK, "%s", err.text);
    return authority;
}

static struct exposure_judgements judged_by_all(const struct exposure_plan *plan, struct exposure_air *air) {
    struct exposure_judgements all;
    struct error err;
    *air = aired(plan);
    ck_assert_msg(exposure_judge_all(&shipped, plan, air, &all, &err) == STATUS_OK, "%s", err.text);
    return all;
}

static struct blend shipped_blend(const char *notation) {
    return tables_blend(&shipped, notation);
}

// The demonstration cases again, by the names that a person types.
START_TEST(demonstration_cases_with_shipped_tables) {
    struct blend boats = shipped_blend("propan-2-ol 30 + isooctane 70");
    struct exposure_plan plan = planned(&boats, 20, 5, 85, 3);
    struct exposure_air air;
    struct exposure_judgements all = judged_by_all(&plan, &air);
    assert_close(air.components[0].room_mg_m3, 18, 0.03);
    assert_close(air.components[1].room_mg_m3, 38, 0.01);
    ck_assert_ptr_eq(all.sets[all.strictest].authority, set_named("de"));
    ck_assert_int_eq(all.verdict, EXPOSURE_WITHIN);
    assert_close(all.sets[all.strictest].index, 21.363 / 500 + 43.897 / 700, 1e-3);
    exposure_judgements_release(&all);

    struct blend mill = shipped_blend("toluene 60 + acetone 40");
    plan = planned(&mill, 15, 4, 38, 0.5);
    all = judged_by_all(&plan, &air);
    assert_close(air.components[0].room_mg_m3, 355, 2e-3);
    assert_close(air.components[0].room_8h_leaves_mg_m3, 117, 5e-3);
    assert_close(air.components[0].room_8h_stays_mg_m3, 193, 5e-3);
    ck_assert_int_eq(all.verdict, EXPOSURE_OVER);
    exposure_judgements_release(&all);
}
END_TEST

// V1 of a demonstration case: 400 mL sprayed in half an hour, 80 % isoparaffin and 20 % xylenes, in 120 m3 with 6
// changes: 630 and 180 mg/m3 in the room at the end (our own arithmetic; carrier alone, the resin's volume not
// subtracted).
START_TEST(demonstration_spray) {
    struct blend carrier = shipped_blend("isoparaffin-c9-c12 80 + xylenes 20");
    struct exposure_plan plan = planned(&carrier, 800, 0.5, 120, 6);
    struct exposure_air air = aired(&plan);
    assert_close(air.components[0].room_mg_m3, 630, 0.03);
    assert_close(air.components[1].room_mg_m3, 180, 0.03);
    ck_assert_double_gt(air.components[0].near_mg_m3, 2 * air.components[0].room_mg_m3);
}
END_TEST

// Where fire rules, the IDLH is a tenth of the lower flammable limit that NIOSH names (NIOSH IDLH pages, checked;
// ethanol, propan-2-ol and tetrahydrofuran from memory); where poison rules it is lower. Exact.
START_TEST(idlh_worked_example_niosh) {
    static const struct {
        const char *id;
        double lower_limit_vol_pct, idlh_ppm;
    } rows[] = {{"acetone", 2.5, 2500},     {"n-butyl-acetate", 1.7, 1700}, {"diethyl-ether", 1.9, 1900},
                {"ethanol", 3.3, 3300},     {"propan-2-ol", 2.0, 2000},     {"tetrahydrofuran", 2.0, 2000},
                {"n-butylamine", 1.7, 300}, {"acetic-acid", 4.0, 50}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct limit_set set;
        struct error err;
        ck_assert_int_eq(
            limit_set_of(&shipped, set_named("us-niosh"), tables_component(&shipped, rows[i].id), &set, &err),
            STATUS_OK);
        double tenth_ppm = rows[i].lower_limit_vol_pct * 1e4 / 10;
        ck_assert_double_eq(set.idlh.ppm, rows[i].idlh_ppm);
        ck_assert_double_le(set.idlh.ppm, tenth_ppm);
        ck_assert_int_eq(set.idlh.ppm < tenth_ppm, i >= 6);
    }
}
END_TEST

// Two tasks hours apart, by hand: the joint index of short times is the larger of two peaks, not their sum; and where
// both run together it is the sum. 15-minute limits of the EU: toluene 384, xylenes 442 mg/m3 (2006/15/EC, 2000/39/EC).
START_TEST(peaks_of_different_tasks_are_not_added) {
    struct blend toluene = shipped_blend("toluene"), xylenes = shipped_blend("xylenes");
    struct exposure_plan plan = planned(&toluene, 60, 0.5, 85, 6);
    plan.task_count = 2;
    plan.tasks[1] = plan.tasks[0];
    plan.tasks[1].blend = &xylenes;
    struct exposure_air air;
    struct error err;
    struct exposure_judgement together, apart;
    ck_assert_int_eq(exposure_air(&plan, &air, &err), STATUS_OK);
    ck_assert_int_eq(exposure_judge(&shipped, &plan, &air, set_named("eu"), &together, &err), STATUS_OK);
    double first = air.components[0].near_15min_mg_m3 / 384, second = air.components[1].near_15min_mg_m3 / 442;
    assert_close(together.peak_index, first + second, 1e-9);
    double fire_together = air.flammable_share_near;
    plan.tasks[1].start_h = 7;
    ck_assert_int_eq(exposure_air(&plan, &air, &err), STATUS_OK);
    ck_assert_int_eq(exposure_judge(&shipped, &plan, &air, set_named("eu"), &apart, &err), STATUS_OK);
    assert_close(apart.peak_index, fmax(first, second), 1e-9);
    ck_assert_double_lt(air.flammable_share_near, 0.7 * fire_together);
}
END_TEST

// Every limit of every component can be put in mg/m3, and no mg/m3 figure is more than a slip away from its ppm.
START_TEST(every_shipped_limit_can_be_used) {
    size_t known = 0;
    for (size_t a = 0; a < shipped.authority_count; a++) {
        for (size_t i = 0; i < shipped.component_count; i++) {
            struct limit_set set;
            struct error err;
            ck_assert_msg(limit_set_of(&shipped, &shipped.authorities[a], &shipped.components[i], &set, &err) ==
                              STATUS_OK,
                          "%s", err.text);
            known += limit_set_known(&set);
            if (set.long_term.row && set.short_term.row)
                ck_assert_msg(set.short_term.mg_m3 >= set.long_term.mg_m3, "%s in %s", shipped.components[i].id,
                              shipped.authorities[a].id);
        }
    }
    ck_assert_uint_gt(known, 280);
}
END_TEST

// EH40 and TRGS 900 cover every hydrocarbon solvent by its own row or that of its class; who is left out is named here.
START_TEST(hydrocarbons_have_a_value_in_uk_and_germany) {
    static const char *const without[][2] = {{"benzene", "de"}, {"tetralin", "uk"}};
    static const char *const sets[] = {"uk", "de"};
    for (size_t i = 0; i < shipped.component_count; i++) {
        const struct component *component = &shipped.components[i];
        bool hydrocarbon = component->family == FAMILY_ALKANE || component->family == FAMILY_CYCLOALKANE ||
                           component->family == FAMILY_PETROLEUM_CUT || component->family == FAMILY_AROMATIC;
        for (size_t a = 0; hydrocarbon && a < 2; a++) {
            bool left_out = false;
            for (size_t w = 0; w < sizeof without / sizeof *without; w++)
                left_out =
                    left_out || (strcmp(without[w][0], component->id) == 0 && strcmp(without[w][1], sets[a]) == 0);
            struct limit_set set;
            struct error err;
            ck_assert_int_eq(limit_set_of(&shipped, set_named(sets[a]), component, &set, &err), STATUS_OK);
            ck_assert_msg(limit_set_known(&set) != left_out, "%s in %s", component->id, sets[a]);
        }
    }
    struct limit_set set;
    struct error err;
    limit_set_of(&shipped, set_named("uk"), tables_component(&shipped, "isooctane"), &set, &err);
    ck_assert_int_eq(set.long_term.origin, LIMIT_GROUP);
    ck_assert_double_eq(set.long_term.mg_m3, 1200);
}
END_TEST

// No index clears these, whatever the set says.
START_TEST(flags_of_shipped_components) {
    struct blend blend = shipped_blend("toluene 1 + d-limonene 1 + dichloromethane 1");
    struct exposure_plan plan = planned(&blend, 1, 1, 85, 6);
    struct exposure_air air;
    struct exposure_judgements all = judged_by_all(&plan, &air);
    for (size_t i = 0; i < all.count; i++) {
        ck_assert(all.sets[i].components[0].flags & EXPOSURE_REPRODUCTIVE);
        ck_assert(all.sets[i].components[0].flags & EXPOSURE_SKIN);
        ck_assert(all.sets[i].components[1].flags & EXPOSURE_SENSITISER);
        ck_assert(!((all.sets[i].components[0].flags | all.sets[i].components[2].flags) & EXPOSURE_SENSITISER));
        ck_assert(all.sets[i].components[2].flags & EXPOSURE_CARCINOGEN);
    }
    exposure_judgements_release(&all);
}
END_TEST

static Suite *exposure_suite(void) {
    Suite *suite = suite_create("exposure");
    TCase *air = tcase_create("air");
    tcase_add_test(air, demonstration_propanol_and_isooctane);
    tcase_add_test(air, demonstration_toluene);
    tcase_add_test(air, toluene_and_acetone_against_the_eu);
    tcase_add_test(air, ppm_and_flammable_share);
    tcase_add_test(air, more_than_air_can_hold_is_said);
    tcase_add_test(air, sealed_room_is_said);
    tcase_add_test(air, a_day_of_two_blends);
    suite_add_tcase(suite, air);
    TCase *sets = tcase_create("judgements");
    tcase_add_test(sets, a_missing_limit_is_never_within);
    tcase_add_test(sets, water_needs_no_limit);
    tcase_add_test(sets, idlh_alone_does_not_judge);
    tcase_add_test(sets, the_fire_alarm_decides_too);
    tcase_add_test(sets, a_short_peak_bites);
    tcase_add_test(sets, a_component_with_only_a_short_limit_counts);
    tcase_add_test(sets, strictest_is_one_set_never_a_sum);
    tcase_add_test(sets, strictest_set_may_lack_a_component);
    tcase_add_test(sets, any_set_that_is_passed_makes_it_over);
    tcase_add_test(sets, long_shifts);
    suite_add_tcase(suite, sets);
    TCase *help = tcase_create("help");
    tcase_add_test(help, the_allowed_amount_just_reaches_the_share);
    tcase_add_test(help, the_air_needed_just_suffices);
    tcase_add_test(help, more_air_never_harms);
    suite_add_tcase(suite, help);
    TCase *faults = tcase_create("faults");
    tcase_add_test(faults, bad_plans_are_refused);
    tcase_add_test(faults, what_cannot_be_weighed_is_not_judged);
    tcase_add_test(faults, running_out_of_memory_is_said);
    suite_add_tcase(suite, faults);
    TCase *tables = tcase_create("shipped tables");
    tcase_add_unchecked_fixture(tables, open_tables, close_tables);
    tcase_add_test(tables, demonstration_cases_with_shipped_tables);
    tcase_add_test(tables, demonstration_spray);
    tcase_add_test(tables, idlh_worked_example_niosh);
    tcase_add_test(tables, peaks_of_different_tasks_are_not_added);
    tcase_add_test(tables, every_shipped_limit_can_be_used);
    tcase_add_test(tables, hydrocarbons_have_a_value_in_uk_and_germany);
    tcase_add_test(tables, flags_of_shipped_components);
    suite_add_tcase(suite, tables);
    return suite;
}

int main(void) {
    return suite_run(exposure_suite());
}
