// SPDX-License-Identifier: GPL-3.0-or-later
// Blends as they dry: against computed drifts, listed rates, laws; findings; extremes; what cannot be followed.
#include "physics/evaporation.h"

#include "base/memory.h"
#include "errors.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct error_tables tables;
static struct evaporation drying; // the one under test

static void open_tables(void) {
    error_tables_open(&tables);
}

static void close_tables(void) {
    error_tables_close(&tables);
}

static const struct component *component(const char *id) {
    return tables_component(&tables.lib, id);
}

static struct blend blend_of(const char *notation) {
    return tables_blend(&tables.lib, notation);
}

static const struct evaporation *dry_blend(const struct blend *blend, double temp_c, bool equal_transfer) {
    struct evaporation_options options = {.temp_c = temp_c, .equal_transfer = equal_transfer};
    struct error err = {0};
    ck_assert_msg(evaporation_follow(&tables.lib, &tables.unifac, blend, &options, &drying, &err) == STATUS_OK, "%s",
                  err.text);
    return &drying;
}

static const struct evaporation *dry(const char *notation) {
    struct blend blend = blend_of(notation);
    return dry_blend(&blend, 20, false);
}

static const struct finding *finding(const struct evaporation *path, enum evaporation_finding kind) {
    for (size_t i = 0; i < path->finding_count; i++)
        if (path->findings[i].kind == kind)
            return &path->findings[i];
    return NULL;
}

// --- against the outside ---

// A blend of given mole fraction of its first component.
static struct blend by_moles(const char *first, const char *second, double x1) {
    char notation[128];
    snprintf(notation, sizeof notation, "%s %.9g + %s %.9g", first, x1 * component(first)->molar_volume.value, second,
             (1 - x1) * component(second)->molar_volume.value);
    return blend_of(notation);
}

// An independent calculation (Dortmund parameters, equal mass transfer): 30 mol% ethanol in toluene at 25 degC, 60 %
// evaporated, leaves under 0.1 % ethanol with activities, 16 % by Raoult's law.
START_TEST(ethanol_leaves_toluene) {
    struct blend blend = by_moles("ethanol", "toluene", 0.3);
    const struct evaporation *path = dry_blend(&blend, 25, true);
    ck_assert_double_eq_tol(path->points[0].x[0], 0.3, 1e-9);
    ck_assert_double_lt(path->points[60].x[0], 0.001);
}
END_TEST

// Equal moles at 25 degC, equal mass transfer: a computed drift (Dortmund, DIPPR pressures) and ours with the table's
// curves. 0.01.
START_TEST(computed_drift_with_our_curves) {
    struct blend blend = by_moles("propan-2-ol", "isooctane", 0.5);
    const struct evaporation *path = dry_blend(&blend, 25, true);
    static const struct {
        size_t point;
        double x1;
    } expected[] = {{25, 0.51840}, {50, 0.55289}, {75, 0.64458}, {90, 0.85151}};
    for (size_t i = 0; i < sizeof expected / sizeof *expected; i++)
        ck_assert_double_eq_tol(path->points[expected[i].point].x[0], expected[i].x1, 0.01);
}
END_TEST

// Lewis & Squires (Ind. Eng. Chem. 29 (1937) 109): a constant-boiling and a constant-evaporating blend are not the
// same; diffusivity moves the composition that stays.
START_TEST(diffusivity_matters) {
    struct blend blend = by_moles("ethanol", "toluene", 0.8);
    double equal = dry_blend(&blend, 25, true)->points[50].x[0];
    double own = dry_blend(&blend, 25, false)->points[50].x[0];
    ck_assert_double_lt(own, equal - 0.01); // ethanol, the smaller molecule, leaves faster than by pressure alone
}
END_TEST

// Listed rates (n-butyl acetate = 1, +-20 % at best, more than half from memory). Fast liquids cool themselves in the
// test, which the model leaves out: it has them about twice too fast.
START_TEST(rates_of_neat_liquids) {
    static struct errors errors;
    errors_rates(&tables, &errors);
    ck_assert_uint_eq(errors.count, 59);
    ck_assert_uint_eq(errors.left_out, 0);
    ck_assert_double_ge(errors_rank_correlation(&errors), 0.97);
    ck_assert_double_ge(errors_median(&errors), 0.8);
    ck_assert_double_le(errors_median(&errors), 1.25);
    for (size_t i = 0; i < errors.count; i++)
        ck_assert_msg(errors.entries[i].error > 0.33 && errors.entries[i].error < 3.3, "%s: %.3g, listed %.3g",
                      errors.entries[i].name, errors.entries[i].got, errors.entries[i].expected);
}
END_TEST

// --- laws ---

static void assert_sound(const struct evaporation *path) {
    ck_assert_msg(path->stop == DRIFT_COMPLETE, "%s", path->sentence);
    ck_assert_uint_eq(path->count, EVAPORATION_POINTS);
    for (size_t k = 0; k < path->count; k++) {
        const struct evaporation_point *point = &path->points[k];
        double moles = 0, volumes = 0;
        for (size_t i = 0; i < path->blend.count; i++) {
            ck_assert(isfinite(point->x[i]) && point->x[i] >= 0 && isfinite(point->phi[i]) && point->phi[i] >= 0);
            moles += point->x[i];
            volumes += point->phi[i];
        }
        ck_assert_double_eq_tol(moles, 1, 1e-9);
        ck_assert_double_eq_tol(volumes, 1, 1e-9);
        ck_assert(isfinite(point->time) && isfinite(point->total_kpa) && point->total_kpa > 0);
        if (k == 0)
            continue;
        ck_assert_double_gt(point->time, path->points[k - 1].time);
        ck_assert_double_lt(point->volume_left, path->points[k - 1].volume_left);
    }
    ck_assert_double_eq(path->points[EVAPORATION_TAIL].evaporated, 0.95);
    ck_assert_double_lt(path->time_50, path->time_90);
    ck_assert_double_lt(path->time_90, path->time_95);
    ck_assert_mem_eq(path->tail, path->points[EVAPORATION_TAIL].x, sizeof path->tail);
}

// By definition: n-butyl acetate takes the time 1, its half the time 1/2.
START_TEST(the_measure_measures_itself) {
    const struct evaporation *path = dry("n-butyl-acetate");
    assert_sound(path);
    ck_assert_double_eq_tol(path->time_50, 0.5, 1e-9);
    ck_assert_double_eq_tol(path->time_95, 0.95, 1e-9);
    ck_assert_double_eq_tol(path->rate_90, 1, 1e-9);
    ck_assert_double_eq(path->tail[0], 1);
    ck_assert_ptr_nonnull(finding(path, FINDING_ONE_COMPONENT));
    double rate;
    ck_assert_int_eq(evaporation_rate(&tables.lib, component("toluene"), 20, &rate, NULL), STATUS_OK);
    ck_assert_double_eq_tol(dry("toluene")->rate_90, rate, 1e-9 * rate);
}
END_TEST

START_TEST(random_blends_dry) {
    struct random random = {.state = 20};
    size_t followed = 0;
    for (size_t turn = 0; turn < 150; turn++) {
        struct blend blend = {.part_count = 0, .count = 2 + random_below(&random, 4)};
        for (size_t i = 0; i < blend.count; i++)
            blend.components[i] = &tables.lib.components[random_below(&random, tables.lib.component_count)];
        random_fractions(&random, blend.count, blend.volume_fractions);
        bool twice = false;
        for (size_t i = 0; i < blend.count; i++)
            for (size_t j = 0; j < i; j++)
                twice = twice || blend.components[i] == blend.components[j];
        struct evaporation_options options = {.temp_c = 20};
        struct error err = {0};
        if (twice)
            continue;
        enum status status = evaporation_follow(&tables.lib, &tables.unifac, &blend, &options, &drying, &err);
        if (status == STATUS_OK)
            assert_sound(&drying);
        else
            ck_assert_msg(status == STATUS_NO_DATA && err.text[0], "%s", err.text);
        followed += status == STATUS_OK;
    }
    ck_assert_uint_gt(followed, 60);
}
END_TEST

// --- extremes ---

START_TEST(ether_over_glycerol) {
    const struct evaporation *path = dry("diethyl-ether 50 + glycerol 50");
    assert_sound(path);
    ck_assert_double_gt(path->points[0].total_kpa / path->points[95].total_kpa, 1e6); // stiff indeed
    ck_assert_double_lt(path->tail[0], 1e-6);
    ck_assert_double_gt(path->time_95, 1e4);
    ck_assert(finding(path, FINDING_TAIL)->component == component("glycerol"));
}
END_TEST

// A trace changes nothing but is followed: the heavy one grows to a thousand times its share, the light one goes.
START_TEST(traces) {
    double plain = dry("toluene")->time_90;
    const struct evaporation *path = dry("toluene 100 + n-dodecane 1e-10 + diethyl-ether 1e-10");
    assert_sound(path);
    ck_assert_double_eq_tol(path->time_90, plain, 1e-5 * plain);
    double grown = path->points[EVAPORATION_POINTS - 1].x[1] / path->points[0].x[1];
    ck_assert_double_lt(grown, 1000);
    ck_assert_double_gt(grown, 950); // dodecane itself leaves at about 0.4 % of toluene's rate
    ck_assert_double_lt(path->tail[2], 1e-20);
}
END_TEST

START_TEST(outside_the_curves) {
    struct blend blend = blend_of("decalin 50 + toluene 50");
    const struct evaporation *path = dry_blend(&blend, 22, false);
    assert_sound(path);
    ck_assert(path->extrapolated);
    ck_assert_msg(strstr(path->sentence, "outside its range") != NULL, "%s", path->sentence);
    struct evaporation_options options = {.temp_c = 900};
    struct error err = {0};
    static struct evaporation untouched;
    untouched.count = 7;
    ck_assert_int_eq(evaporation_follow(&tables.lib, &tables.unifac, &blend, &options, &untouched, &err), STATUS_RANGE);
    ck_assert_uint_eq(untouched.count, 7);
}
END_TEST

static void refuse(const struct blend *blend, const char *words) {
    struct evaporation_options options = {.temp_c = 20};
    struct error err = {0};
    ck_assert_int_eq(evaporation_follow(&tables.lib, &tables.unifac, blend, &options, &drying, &err), STATUS_NO_DATA);
    ck_assert_msg(strstr(err.text, words) != NULL, "%s", err.text);
}

START_TEST(what_is_lacking_is_named) {
    struct blend blend = blend_of("acetic-acid 50 + pyridine 50");
    refuse(&blend, "no activity model covers");
    blend = blend_of("ethanol 50 + toluene 50");
    struct component other = *blend.components[0];
    struct properties properties = *other.properties;
    other.properties = &properties;
    blend.components[0] = &other;
    properties.antoine.a = NAN;
    properties.vapour_pressure_20c.value = NAN;
    refuse(&blend, "no vapour pressure of ethanol");
    properties.vapour_pressure_20c.value = 5.9;
    properties.formula = (struct formula_values){.c = 0};
    refuse(&blend, "no molecular formula for 'ethanol'");
}
END_TEST

// --- findings ---

START_TEST(a_slow_strong_tail) {
    const struct evaporation *path = dry("ethanol 90 + benzyl-alcohol 10");
    const struct finding *tail = finding(path, FINDING_TAIL);
    ck_assert_ptr_nonnull(tail);
    ck_assert_ptr_eq(tail->component, component("benzyl-alcohol"));
    ck_assert_double_gt(tail->to, 0.9);
    ck_assert_msg(strstr(tail->sentence, "benzyl-alcohol") && strstr(tail->sentence, ": a slow, strong tail"), "%s",
                  tail->sentence);
    char share[32];
    snprintf(share, sizeof share, "ends as %d %% ", (int)(100 * path->tail[1] + (tail->to < 0.995 ? 0.5 : 0)));
    ck_assert_msg(strstr(tail->sentence, share) != NULL, "%s: %s", share, tail->sentence);
    ck_assert_ptr_nonnull(finding(path, FINDING_LONG_TAIL));
    ck_assert_ptr_null(finding(path, FINDING_WEAKER)); // less polar than ethanol, but strong to the end
}
END_TEST

START_TEST(nothing_strong_remains) {
    const struct evaporation *path = dry("ethanol 30 + toluene 70");
    const struct finding *gone = finding(path, FINDING_STRONG_GONE);
    ck_assert_ptr_nonnull(gone);
    ck_assert_ptr_eq(gone->component, component("ethanol"));
    ck_assert_msg(strstr(gone->sentence, "ethanol leaves with the hydrocarbon; nothing strong remains") != NULL, "%s",
                  gone->sentence);
    const struct finding *weaker = finding(path, FINDING_WEAKER);
    ck_assert_ptr_nonnull(weaker);
    // its polar and hydrogen bonding part: the length of (delta_p, delta_h) of the mean by volume
    struct hansen ethanol = hansen_of_component(component("ethanol"));
    struct hansen toluene = hansen_of_component(component("toluene"));
    ck_assert_double_eq_tol(
        weaker->from,
        hypot(0.3 * ethanol.delta_p + 0.7 * toluene.delta_p, 0.3 * ethanol.delta_h + 0.7 * toluene.delta_h), 1e-9);
    path = dry("acetone 20 + white-spirit-dearomatised 80");
    gone = finding(path, FINDING_STRONG_GONE);
    ck_assert_ptr_nonnull(gone);
    ck_assert_msg(strstr(gone->sentence, "acetone leaves before the hydrocarbon") != NULL, "%s", gone->sentence);
}
END_TEST

// 100 % stands only where nothing else is left; below, the share is rounded as usual.
START_TEST(nearly_all_is_not_all) {
    size_t nearly = 0, clearly = 0;
    for (int ethanol = 5; ethanol < 90; ethanol += 10) {
        char notation[64], expected[64];
        snprintf(notation, sizeof notation, "ethanol %d + propan-1-ol %d", ethanol, 100 - ethanol);
        const struct evaporation *path = dry(notation);
        const struct finding *tail = finding(path, FINDING_TAIL);
        ck_assert_ptr_nonnull(tail);
        bool only_nearly = tail->to >= 0.995 && tail->to < 1;
        int shown = only_nearly ? 99 : (int)lround(100 * tail->to);
        snprintf(expected, sizeof expected, "ends as %d %% propan-1-ol", shown);
        ck_assert_msg(strstr(tail->sentence, expected) != NULL, "%s: %s", notation, tail->sentence);
        nearly += only_nearly;
        clearly += tail->to < 0.985;
    }
    ck_assert(nearly > 0 && clearly > 0);
}
END_TEST

START_TEST(weaker_stronger_midway) {
    const struct evaporation *path = dry("isooctane 60 + butan-1-ol 40"); // the hydrocarbon goes first
    const struct finding *stronger = finding(path, FINDING_STRONGER);
    ck_assert_ptr_nonnull(stronger);
    ck_assert_double_gt(stronger->to, stronger->from + 2);
    ck_assert_ptr_null(finding(path, FINDING_WEAKER));
    // pentane leaves first, then the alcohol, and the hydrocarbon of the tail stays
    path = dry("n-pentane 50 + propan-1-ol 25 + n-dodecane 25");
    const struct finding *midway = finding(path, FINDING_STRONGER_MIDWAY);
    ck_assert_ptr_nonnull(midway);
    ck_assert_double_gt(midway->to, midway->from + 2);
}
END_TEST

START_TEST(an_almost_constant_blend) {
    struct blend blend = blend_of("isooctane 50 + n-heptane 50");
    const struct evaporation *path = dry_blend(&blend, 20, false);
    double drift = fabs(path->tail[0] - path->points[0].x[0]);
    ck_assert_int_eq(finding(path, FINDING_CONSTANT) != NULL, drift <= 0.05);
    ck_assert_ptr_null(finding(dry("ethanol 30 + toluene 70"), FINDING_CONSTANT));
    blend = by_moles("ethyl-acetate", "methyl-acetate", 0.999);
    ck_assert_ptr_nonnull(finding(dry_blend(&blend, 20, false), FINDING_CONSTANT));
}
END_TEST

// Published pairs outrank the model, which has a gap for all of these: ethanol and octane mix (one), with dodecane and
// a third it is in doubt, methanol and hexane separate (data/miscibility.yaml); ethanol, white spirit and water
// separated in practice (20, 78 and 2 mL: a cleaning test of a conservator, in print).
START_TEST(splits_on_the_way) {
    const struct evaporation *path = dry("ethanol 30 + n-octane 70");
    ck_assert(path->points[0].two);
    ck_assert(!finding(path, FINDING_SPLITS) && !finding(path, FINDING_MAY_SPLIT));
    path = dry("ethanol 20 + n-dodecane 70 + acetone 10");
    ck_assert(!finding(path, FINDING_SPLITS) && finding(path, FINDING_MAY_SPLIT));
    ck_assert_ptr_nonnull(finding(dry("methanol 30 + n-hexane 70"), FINDING_SPLITS));
    path = dry("ethanol 20 + white-spirit 78 + water 2");
    const struct finding *splits = finding(path, FINDING_SPLITS);
    ck_assert_ptr_nonnull(splits);
    ck_assert_double_eq(splits->from, 0);
    ck_assert_double_lt(splits->to, 0.95); // the water and the ethanol are gone before the hydrocarbon
    ck_assert_msg(strstr(splits->sentence, "separates in two between 0 and") != NULL, "%s", splits->sentence);
    ck_assert_int_eq(path->points[99].verdict, PHASE_ONE);
}
END_TEST

// As long as there are two liquids the vapour pressure stays what it is while the lean one is used up.
START_TEST(pressure_over_two_liquids_stays) {
    const struct evaporation *path = dry("methanol 30 + n-hexane 70");
    ck_assert(path->points[10].two && path->points[30].two);
    ck_assert_double_eq_tol(path->points[30].total_kpa, path->points[10].total_kpa, 1e-5 * path->points[10].total_kpa);
}
END_TEST

START_TEST(out_of_memory_is_said) {
    struct blend blend = blend_of("ethanol 30 + toluene 70");
    struct evaporation_options options = {.temp_c = 20};
    struct error err = {0};
    drying.count = 7;
    memory_fail_at(1);
    ck_assert_int_eq(evaporation_follow(&tables.lib, &tables.unifac, &blend, &options, &drying, &err), STATUS_MEMORY);
    memory_fail_at(0);
    ck_assert_uint_eq(drying.count, 7);
    assert_sound(dry_blend(&blend, 20, false));
}
END_TEST

START_TEST(places_of_what_is_left) {
    const struct evaporation *path = dry("ethanol 30 + toluene 70");
    struct blend blend = blend_of("ethanol 30 + toluene 70"), toluene = blend_of("toluene");
    struct hansen start, end;
    struct teas point;
    ck_assert_int_eq(hansen_of_blend(&blend, &start, NULL), STATUS_OK);
    ck_assert_int_eq(hansen_of_blend(&toluene, &end, NULL), STATUS_OK);
    ck_assert_double_eq(path->points[0].hansen.delta_h, start.delta_h);
    ck_assert_double_eq_tol(path->points[99].hansen.delta_h, end.delta_h, 1e-6);
    ck_assert_int_eq(teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, &point, NULL, NULL), STATUS_OK);
    ck_assert_double_eq_tol(path->points[0].teas_fractions.fh, point.fh, 1e-9);
    ck_assert_int_eq(teas_of_blend(&blend, TEAS_OF_MEAN_HANSEN, &point, NULL, NULL), STATUS_OK);
    ck_assert_double_eq_tol(path->points[0].teas_hansen.fh, point.fh, 1e-9);
    ck_assert_double_eq_tol(path->points[0].volume_left, 1, 1e-12);
}
END_TEST

START_TEST(every_finding_has_a_word) {
    for (int kind = 0; kind < FINDING_KINDS; kind++)
        ck_assert_uint_gt(strlen(evaporation_finding_word((enum evaporation_finding)kind)), 3);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("evaporation");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_set_timeout(all, 120);
    tcase_add_test(all, ethanol_leaves_toluene);
    tcase_add_test(all, computed_drift_with_our_curves);
    tcase_add_test(all, diffusivity_matters);
    tcase_add_test(all, rates_of_neat_liquids);
    tcase_add_test(all, the_measure_measures_itself);
    tcase_add_test(all, random_blends_dry);
    tcase_add_test(all, ether_over_glycerol);
    tcase_add_test(all, traces);
    tcase_add_test(all, outside_the_curves);
    tcase_add_test(all, what_is_lacking_is_named);
    tcase_add_test(all, a_slow_strong_tail);
    tcase_add_test(all, nothing_strong_remains);
    tcase_add_test(all, nearly_all_is_not_all);
    tcase_add_test(all, weaker_stronger_midway);
    tcase_add_test(all, an_almost_constant_blend);
    tcase_add_test(all, splits_on_the_way);
    tcase_add_test(all, pressure_over_two_liquids_stays);
    tcase_add_test(all, out_of_memory_is_said);
    tcase_add_test(all, places_of_what_is_left);
    tcase_add_test(all, every_finding_has_a_word);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
