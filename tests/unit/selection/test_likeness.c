// SPDX-License-Identifier: GPL-3.0-or-later
// The respects in which two blends are alike, one by one, and the vapour hazard ratio behind one of them.
#include "suite.h"
#include "tables.h"

#include "selection/likeness.h"

#include <math.h>

static struct library lib;
static struct unifac_table table;

static struct portrait portrait(const char *notation, const char *authority) {
    struct portrait_frame frame = {.lib = &lib, .table = &table, .temp_c = 20};
    struct portrait result;
    struct blend blend = tables_blend(&lib, notation);
    struct error err = {0};
    frame.spare[frame.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    if (authority)
        ck_assert_int_eq(library_authority(&lib, authority, &frame.authority, &err), STATUS_OK);
    ck_assert_msg(portrait_of(&frame, &blend, &result, &err) == STATUS_OK, "%s", err.text);
    return result;
}

static struct likeness like(const struct portrait *old, const struct portrait *new) {
    struct likeness result;
    likeness_of(&lib, old, new, &result);
    return result;
}

START_TEST(a_blend_is_like_itself) {
    struct portrait toluene = portrait("toluene 75 + acetone 25", NULL);
    struct likeness same = like(&toluene, &toluene);
    for (int i = 0; i < RESPECTS; i++)
        ck_assert_msg(same.match[i] == MATCH_ALIKE || i == RESPECT_VARNISH, "%s: %s", respect_words[i],
                      match_words[same.match[i]]);
    ck_assert_int_eq(same.match[RESPECT_VARNISH], MATCH_NOT_ASKED);
    ck_assert_int_eq(same.against, 0);
    ck_assert_double_eq(same.ra, 0);
    ck_assert_double_eq(same.ra_uncertainty, 0); // its own doubt cancels
    ck_assert_double_eq(same.path_ra, 0);
}
END_TEST

// Toluene and xylenes, each a checked row with 0.4 MPa^0.5 in each part (uncertainty.yaml): 18.0/1.4/2.0 and
// 17.8/1.0/3.1, Ra 1.24; sqrt(6 * 2 * 0.4^2) = 1.39 is larger, so it stands. Toluene and acetone (15.5/10.4/7.0), Ra
// 11.45: sqrt(0.32 * (16 * 2.5^2 + 9^2 + 5^2))/11.45 = 0.709.
START_TEST(the_doubt_of_a_distance_follows_from_that_of_the_parts) {
    struct portrait toluene = portrait("toluene", NULL), xylenes = portrait("xylenes", NULL);
    struct portrait acetone = portrait("acetone", NULL);
    ck_assert_double_eq_tol(like(&toluene, &xylenes).ra_uncertainty, 1.386, 0.001);
    ck_assert_double_eq_tol(like(&toluene, &acetone).ra, 11.446, 0.001);
    ck_assert_double_eq_tol(like(&toluene, &acetone).ra_uncertainty, 0.709, 0.001);
    // Half of the difference, half of the doubt.
    struct portrait half = portrait("toluene 50 + acetone 50", NULL);
    ck_assert_double_eq_tol(like(&toluene, &half).ra_uncertainty, 0.709 / 2, 0.001);
}
END_TEST

// 2.91 kPa over toluene at 20 degC (the tables' curve) are 2910 * 92.14/(8.314 * 293.15) = 110 000 mg/m3; TRGS 900: 190
// mg/m3. Over a blend the same by its activities.
START_TEST(the_vapour_hazard_ratio_is_saturated_air_over_the_limit) {
    struct portrait toluene = portrait("toluene", "de"), acetone = portrait("acetone", "de");
    struct portrait both = portrait("toluene 50 + acetone 50", "de");
    ck_assert_uint_eq(toluene.hazard_count, 1);
    ck_assert_double_eq_tol(toluene.hazards[0].ratio, 2910 * 92.14 / (8.314 * 293.15) / 190 * 1000, 3);
    ck_assert(toluene.hazards[0].complete);
    // By Raoult's law x1 r1 + x2 r2; toluene and acetone deviate from it upwards.
    double moles_toluene = 1 / 106.7, moles_acetone = 1 / 74.0, x = moles_toluene / (moles_toluene + moles_acetone);
    double ideal = x * toluene.hazards[0].ratio + (1 - x) * acetone.hazards[0].ratio;
    ck_assert_double_gt(both.hazards[0].ratio, ideal);
    ck_assert_double_lt(both.hazards[0].ratio, 1.4 * ideal);
}
END_TEST

// Water needs no limit; a component without one makes the ratio incomplete and is named.
START_TEST(a_missing_limit_is_said) {
    struct portrait watery = portrait("ethanol-96", "de");
    ck_assert(watery.hazards[0].complete);
    struct portrait isooctane = portrait("isooctane 50 + acetone 50", "eu");
    ck_assert(!isooctane.hazards[0].complete);
    ck_assert_str_eq(isooctane.hazards[0].unknown->id, "isooctane");
    struct portrait alone = portrait("isooctane", "eu");
    ck_assert(isnan(alone.hazards[0].ratio));
    ck_assert_ptr_null(portrait_worst_vapour(&alone));
}
END_TEST

// Never better for want of a limit.
START_TEST(what_has_no_limit_is_not_less_hazardous) {
    struct portrait cyclohexane = portrait("cyclohexane", "eu"), isooctane = portrait("isooctane", "eu");
    struct likeness unknown = like(&cyclohexane, &isooctane);
    ck_assert_int_eq(unknown.hazard_set, -1);
    ck_assert_int_eq(unknown.match[RESPECT_HEALTH], MATCH_UNKNOWN);
    // A lower bound may show that it is worse: the acetone in it alone does.
    struct portrait butyl = portrait("n-butyl-acetate", "eu"), blend = portrait("isooctane 30 + toluene 70", "eu");
    struct likeness worse = like(&butyl, &blend);
    ck_assert_int_eq(worse.hazard_set, 0);
    ck_assert_double_gt(worse.hazard, LIKE_HAZARD);
    ck_assert_int_eq(worse.match[RESPECT_HEALTH], MATCH_WORSE);
    // A lower bound below the original's ratio tells nothing, and neither does a comparison with a lower bound.
    struct portrait toluene = portrait("toluene", "eu"), trace = portrait("isooctane 95 + toluene 5", "eu");
    ck_assert(toluene.hazards[0].complete && !trace.hazards[0].complete);
    ck_assert_double_lt(trace.hazards[0].ratio, toluene.hazards[0].ratio);
    ck_assert_int_eq(like(&toluene, &trace).hazard_set, -1);
    ck_assert_int_eq(like(&trace, &toluene).hazard_set, -1);
    ck_assert(isnan(like(&trace, &toluene).hazard));
}
END_TEST

static struct likeness in_air(struct air_index before, struct air_index after) {
    struct portrait old = portrait("toluene", "de"), new = portrait("toluene", "de");
    old.air = before, new.air = after;
    return like(&old, &new);
}

// The index of the room, likewise: a lower bound (a component without a limit) is believed where it shows a worsening.
START_TEST(an_index_that_is_a_lower_bound_shows_only_what_is_worse) {
    const struct authority *set = &lib.authorities[0];
    struct air_index whole = {.authority = set, .index = 0.4, .complete = true};
    struct air_index less = {.authority = set, .index = 0.2, .complete = true}, least = less;
    struct air_index more = {.authority = set, .index = 0.8, .complete = true}, no_less = more;
    least.complete = no_less.complete = false;
    ck_assert_double_eq(in_air(whole, less).index, 0.5);
    ck_assert_int_eq(in_air(whole, less).match[RESPECT_HEALTH], MATCH_BETTER);
    ck_assert_double_eq(in_air(whole, more).index, 2);
    ck_assert_int_eq(in_air(whole, more).match[RESPECT_HEALTH], MATCH_WORSE);
    ck_assert_double_eq(in_air(whole, no_less).index, 2);
    ck_assert_int_eq(in_air(whole, no_less).match[RESPECT_HEALTH], MATCH_WORSE);
    ck_assert(isnan(in_air(whole, least).index));
    ck_assert_int_eq(in_air(whole, least).match[RESPECT_HEALTH], MATCH_ALIKE);
    ck_assert(isnan(in_air(no_less, whole).index)); // beside a lower bound nothing is told
    ck_assert(isnan(in_air(whole, (struct air_index){0}).index) && isnan(in_air((struct air_index){0}, whole).index));
    struct air_index nothing = {.authority = set, .index = 0, .complete = true}; // as over water
    ck_assert(isnan(in_air(nothing, whole).index));
}
END_TEST

START_TEST(classes_that_come_and_go_are_told) {
    struct portrait toluene = portrait("toluene", "de"), xylenes = portrait("xylenes", "de");
    struct portrait turpentine = portrait("turpentine", "de"), chlorinated = portrait("dichloromethane", "de");
    struct likeness better = like(&toluene, &xylenes), worse = like(&xylenes, &toluene);
    ck_assert(better.classes_gone & 1u << CLASS_REPRODUCTIVE);
    ck_assert_int_eq(better.match[RESPECT_HEALTH], MATCH_BETTER);
    ck_assert_int_eq(worse.match[RESPECT_HEALTH], MATCH_WORSE);
    struct likeness mixed = like(&toluene, &turpentine); // reproductive goes, a sensitiser comes
    ck_assert(mixed.classes_new & 1u << CLASS_SENSITISER);
    ck_assert_int_eq(mixed.match[RESPECT_HEALTH], MATCH_DIFFERS);
    // A suspected carcinogen comes: worse, although the reproductive toxicant goes.
    ck_assert_int_eq(like(&toluene, &chlorinated).match[RESPECT_HEALTH], MATCH_WORSE);
}
END_TEST

// Published relative rates of evaporation (n-butyl acetate = 1): acetone 5.6 to 7.7, toluene 1.9 to 2.4, xylenes 0.6 to
// 0.7 (ASTM D3539, as in trade tables; from memory). So xylenes need about three times as long as toluene.
START_TEST(speed_and_fire_are_compared) {
    struct portrait toluene = portrait("toluene", NULL), xylenes = portrait("xylenes", NULL);
    struct portrait acetone = portrait("acetone", NULL), butanone = portrait("butanone", NULL);
    struct likeness slow = like(&toluene, &xylenes), alike = like(&acetone, &butanone);
    ck_assert_double_gt(slow.speed, 1.9 / 0.7);
    ck_assert_double_lt(slow.speed, 2.4 / 0.6);
    ck_assert_int_eq(slow.match[RESPECT_SPEED], MATCH_DIFFERS);
    ck_assert_int_eq(slow.match[RESPECT_FIRE], MATCH_BETTER); // flash point 25 instead of 4 degC: category 3, not 2
    ck_assert_int_eq(like(&xylenes, &toluene).match[RESPECT_FIRE], MATCH_WORSE);
    ck_assert_int_eq(alike.match[RESPECT_FIRE], MATCH_ALIKE);
}
END_TEST

// The fast half leaves first: at the start the blend is near to the other, in its tail it is toluene alone.
START_TEST(a_blend_drifts_away_while_it_dries) {
    struct portrait blend = portrait("toluene 50 + acetone 50", NULL),
                    fast = portrait("ethyl-acetate 60 + cyclohexane 40", NULL);
    struct likeness drift = like(&blend, &fast);
    ck_assert_double_le(drift.ra, drift.path_ra);
    ck_assert_double_gt(drift.tail_ra, drift.ra);
    ck_assert_int_eq(drift.match[RESPECT_TAIL], MATCH_DIFFERS);
    struct portrait slow = portrait("toluene 90 + white-spirit 10", NULL);
    ck_assert_int_eq(like(&blend, &slow).match[RESPECT_TAIL], MATCH_WORSE); // white spirit stays longer
}
END_TEST

int main(void) {
    Suite *suite = suite_create("likeness");
    TCase *tcase = tcase_create("likeness");
    tcase_set_timeout(tcase, 60);
    tables_open_unifac(&lib, TABLE_ALL, &table);
    tcase_add_test(tcase, a_blend_is_like_itself);
    tcase_add_test(tcase, the_doubt_of_a_distance_follows_from_that_of_the_parts);
    tcase_add_test(tcase, the_vapour_hazard_ratio_is_saturated_air_over_the_limit);
    tcase_add_test(tcase, a_missing_limit_is_said);
    tcase_add_test(tcase, what_has_no_limit_is_not_less_hazardous);
    tcase_add_test(tcase, an_index_that_is_a_lower_bound_shows_only_what_is_worse);
    tcase_add_test(tcase, classes_that_come_and_go_are_told);
    tcase_add_test(tcase, speed_and_fire_are_compared);
    tcase_add_test(tcase, a_blend_drifts_away_while_it_dries);
    suite_add_tcase(suite, tcase);
    int failed = suite_run(suite);
    tables_close_unifac(&lib, &table);
    return failed;
}
