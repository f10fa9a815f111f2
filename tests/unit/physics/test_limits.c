// SPDX-License-Identifier: GPL-3.0-or-later
// Limits: sums of laws and guides against their own examples, and one authority's set read from its rows.
#include "base/units.h"
#include "physics/limits.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static void assert_close(double got, double expected, double relative) {
    ck_assert_msg(fabs(got - expected) <= relative * fabs(expected), "got %.12g, expected %.12g within %g", got,
                  expected, relative);
}

// --- published sums ---

// 29 CFR 1910.1000(d)(1)(ii), the example printed there (checked). Exact.
START_TEST(day_mean_worked_example_29_cfr) {
    static const double ppm[] = {150, 75, 50}, hours[] = {2, 2, 4};
    double mean = mean_over_time(ppm, hours, 3, 8);
    ck_assert_double_eq(mean, 81.25);
    ck_assert_double_lt(mean, 100);
}
END_TEST

// 29 CFR 1910.1000(d)(2)(ii), the example printed there (checked). Exact.
START_TEST(mixture_worked_example_29_cfr) {
    static const double ppm[] = {500, 45, 40}, limits[] = {1000, 200, 200};
    ck_assert_double_eq_tol(additive_index(ppm, limits, 3), 0.925, 1e-15);
}
END_TEST

// 15-minute average, by the definition in 29 CFR 1910.1000 and EH40 (computed). Exact.
START_TEST(fifteen_minutes_worked_example) {
    static const double ppm[] = {300, 30}, minutes[] = {10, 5};
    ck_assert_double_eq(mean_over_time(ppm, minutes, 2, 15), 210);
}
END_TEST

// Brief and Scala, Am. Ind. Hyg. Assoc. J. 36 (1975) 467 (formula from memory). Tolerance 0.001.
START_TEST(long_shift_worked_example_brief_and_scala) {
    ck_assert_double_eq(long_shift_factor(8), 1);
    ck_assert_double_eq_tol(long_shift_factor(10), 0.700, 1e-3);
    ck_assert_double_eq_tol(long_shift_factor(12), 0.500, 1e-3);
    ck_assert_double_eq(long_shift_factor(4), 1);
}
END_TEST

// ACGIH, TLVs and BEIs, appendix on mixtures (from memory; the limits are those of that old example). Tolerance 0.01.
START_TEST(mixture_worked_example_acgih) {
    static const double ppm[] = {400, 150, 100}, limits[] = {500, 200, 200};
    ck_assert_double_eq_tol(additive_index(ppm, limits, 3), 2.05, 0.01);
}
END_TEST

// The same appendix: a liquid that evaporates whole (from memory). Tolerance 1 mg/m3; ppm 2 %.
START_TEST(evaporating_liquid_worked_example_acgih) {
    static const double shares[] = {0.5, 0.3, 0.2}, limits[] = {1640, 1910, 170};
    static const double molar_mass[] = {100.2, 133.4, 165.8}, mg_m3_printed[] = {305, 183, 122};
    double limit = reciprocal_limit(shares, limits, 3), ppm = 0;
    ck_assert_double_eq_tol(limit, 610.3, 1);
    for (int i = 0; i < 3; i++) {
        ck_assert_double_eq_tol(shares[i] * limit, mg_m3_printed[i], 1);
        ppm += ppm_from_mg_m3(shares[i] * limit, molar_mass[i], 24.45);
    }
    assert_close(ppm, 124, 0.02); // printed with older conversion factors
}
END_TEST

// HSE EH40/2005, 4th ed. 2020, par. 86-89: guidance values and printed example (checked), first mixture computed.
// Tolerance 1 mg/m3 before rounding.
START_TEST(hydrocarbon_solvent_worked_example_eh40) {
    static const double shares[] = {0.52, 0.27, 0.21}, limits[] = {1200, 800, 500};
    double limit = reciprocal_limit(shares, limits, 3);
    ck_assert_double_eq_tol(limit, 839.7, 1);
    ck_assert_double_eq(round_as_eh40(limit), 800);
    static const double printed_shares[] = {0.52, 0.27, 0.10, 0.01, 0.10};
    static const double printed_limits[] = {1200, 800, 500, 220, 125};
    limit = reciprocal_limit(printed_shares, printed_limits, 5);
    ck_assert_double_eq_tol(limit, 551, 1);
    ck_assert_double_eq(round_as_eh40(limit), 550);
}
END_TEST

// TRGS 900 no. 2.9 (group limits from memory, scheme checked): white spirit of 82 % aliphatics, 18 % aromatics.
// Tolerance 0.1.
START_TEST(hydrocarbon_solvent_worked_example_trgs_900) {
    static const double shares[] = {0.82, 0.18}, limits[] = {300, 50};
    double limit = reciprocal_limit(shares, limits, 2);
    ck_assert_double_eq_tol(limit, 157.9, 0.1);
    ck_assert_double_eq(round_as_trgs900(limit), 150);
}
END_TEST

// TRGS 402 assessment index (formula checked; numbers computed). Exact.
START_TEST(assessment_index_worked_example_trgs_402) {
    static const double mg_m3[] = {95, 300, 100}, limits[] = {380, 1200, 500};
    ck_assert_double_eq_tol(additive_index(mg_m3, limits, 3), 0.70, 1e-15);
}
END_TEST

// EN 689:2018+AC:2019, preliminary test (from memory).
START_TEST(preliminary_test_worked_example_en_689) {
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08, 0.09}, 3), COMPLIANCE_YES);
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08, 0.12}, 3), COMPLIANCE_UNDECIDED);
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08, 0.12, 0.14}, 4), COMPLIANCE_YES);
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08, 0.12, 0.14, 0.19}, 5), COMPLIANCE_YES);
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08, 1.1}, 3), COMPLIANCE_NO);
    ck_assert_int_eq(preliminary_test((double[]){0.05, 0.08}, 2), COMPLIANCE_UNDECIDED);
}
END_TEST

// ACGIH values quoted in a supplier's data sheet (acetone) and by NIOSH (dipropylene glycol methyl ether), 25 degC
// (checked). Tolerance 0.1 %.
START_TEST(ppm_and_mg_worked_example_25_degc) {
    static const double ppm_mass_mg[][3] = {
        {500, 58.08, 1188}, {750, 58.08, 1782}, {100, 148.2, 606}, {150, 148.2, 909}};
    for (size_t i = 0; i < 4; i++) {
        assert_close(mg_m3_from_ppm(ppm_mass_mg[i][0], ppm_mass_mg[i][1], 24.45), ppm_mass_mg[i][2], 1e-3);
        assert_close(ppm_from_mg_m3(ppm_mass_mg[i][2], ppm_mass_mg[i][1], 24.45), ppm_mass_mg[i][0], 1e-3);
    }
}
END_TEST

// EU and German table values at 20 degC: acetone 500 ppm = 1210 (EU) or 1200 mg/m3 (DE), toluene 50 ppm = 192 (EU, from
// memory). Tolerance 1 % (official values are rounded).
START_TEST(ppm_and_mg_worked_example_20_degc) {
    double exact = gas_molar_volume_l_mol(kelvin_from_celsius(20), ATMOSPHERE_KPA);
    assert_close(exact, 24.055, 1e-4);
    assert_close(mg_m3_from_ppm(500, 58.08, exact), 1207.2, 1e-4);
    assert_close(mg_m3_from_ppm(500, 58.08, exact), 1210, 0.01);
    assert_close(mg_m3_from_ppm(500, 58.08, 24.1), 1200, 0.01);
    assert_close(mg_m3_from_ppm(50, 92.14, exact), 192, 0.01);
}
END_TEST

// Test suite of the open data set `chemicals` (C. Bell) (checked). Tolerance 1e-9.
START_TEST(ppm_and_mg_worked_example_open_data_set) {
    double volume = gas_molar_volume_l_mol(298.15, ATMOSPHERE_KPA);
    assert_close(mg_m3_from_ppm(1, 40, volume), 1.6349617809430446, 1e-9);
    assert_close(ppm_from_mg_m3(1.635, 40, volume), 1.0000233761164334, 1e-9);
}
END_TEST

// The steps of the two rounding rules (EH40 as quoted above; TRGS 900, amendment of 2019, read).
START_TEST(rounding_steps) {
    ck_assert_double_eq(round_as_eh40(88), 100);
    ck_assert_double_eq(round_as_eh40(87), 75);
    ck_assert_double_eq(round_as_eh40(574), 550);
    ck_assert_double_eq(round_as_eh40(576), 600);
    ck_assert_double_eq(round_as_eh40(701), 800);
    ck_assert_double_eq(round_as_trgs900(24), 20);
    ck_assert_double_eq(round_as_trgs900(40), 50);
    ck_assert_double_eq(round_as_trgs900(170), 150);
    ck_assert_double_eq(round_as_trgs900(4), 4); // never to nothing
}
END_TEST

// An 8-h limit takes the whole dose over 8 h; the NIOSH mean is over the shift, 8 to 10 h.
START_TEST(reference_periods) {
    ck_assert_double_eq(limit_base_h(LIMIT_TWA_8H, 4), 8);
    ck_assert_double_eq(limit_base_h(LIMIT_TWA_8H, 12), 8);
    ck_assert_double_eq(limit_base_h(LIMIT_TWA_10H, 4), 8);
    ck_assert_double_eq(limit_base_h(LIMIT_TWA_10H, 9), 9);
    ck_assert_double_eq(limit_base_h(LIMIT_TWA_10H, 12), 10);
}
END_TEST

// --- sets ---

static struct properties weighing(double molar_mass) {
    return (struct properties){.molar_mass = {.value = molar_mass}};
}

#define NOTED(...)                                                                                                     \
    {                                                                                                                  \
        .items = (const char *const[]){__VA_ARGS__},                                                                   \
        .count = sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *)                                     \
    }

// Rows as published; sources as in the table of limits: 29 CFR 1910.1000 Tables Z-1 and Z-2, NIOSH 1994, EH40/2005
// (2020), TRGS 900, 40 CFR 751.
static struct limit rows[] = {
    {.component = "toluene", .authority = "us-osha", .kind = LIMIT_TWA_8H, .ppm = 200, .mg_m3 = NAN},
    {.component = "toluene", .authority = "us-osha", .kind = LIMIT_CEILING, .ppm = 300, .mg_m3 = NAN},
    {.component = "toluene", .authority = "us-osha", .kind = LIMIT_CEILING, .ppm = 500, .mg_m3 = NAN, .period_min = 10},
    {.component = "toluene", .authority = "us-niosh", .kind = LIMIT_TWA_10H, .ppm = 100, .mg_m3 = 375},
    {.component = "toluene", .authority = "us-niosh", .kind = LIMIT_STEL_15MIN, .ppm = 150, .mg_m3 = 560},
    {.component = "toluene", .authority = "us-niosh", .kind = LIMIT_IDLH, .ppm = 500, .mg_m3 = NAN},
    {.component = "toluene",
     .authority = "de",
     .kind = LIMIT_TWA_8H,
     .ppm = 50,
     .mg_m3 = 190,
     .notations = NOTED("skin", "Y", "excursion 2(II)")},
    {.component = "acetone",
     .authority = "de",
     .kind = LIMIT_TWA_8H,
     .ppm = 500,
     .mg_m3 = 1200,
     .notations = NOTED("Y", "excursion 2(I)")},
    {.component = "acetone", .authority = "de", .kind = LIMIT_STEL_15MIN, .ppm = 1000, .mg_m3 = 2400},
    {.component = "morpholine",
     .authority = "de",
     .kind = LIMIT_TWA_8H,
     .ppm = 5,
     .mg_m3 = 18,
     .notations = NOTED("skin", "Y", "excursion 1(I)", "momentary value factor =2=")},
    {.component = "tert-butyl-methyl-ether",
     .authority = "de",
     .kind = LIMIT_TWA_8H,
     .ppm = 50,
     .mg_m3 = 180,
     .notations = NOTED("Y", "excursion 1.5(I)")},
    {.component = "butan-1-ol",
     .authority = "uk",
     .kind = LIMIT_STEL_15MIN,
     .ppm = 50,
     .mg_m3 = 154,
     .notations = NOTED("Skin")},
    {.component = "dichloromethane",
     .authority = "us-niosh",
     .kind = LIMIT_IDLH,
     .ppm = 2300,
     .mg_m3 = NAN,
     .notations = NOTED("Ca")},
    {.component = "glycerol", .authority = "us-osha", .kind = LIMIT_TWA_8H, .ppm = NAN, .mg_m3 = 15},
    {.component = "glycerol", .authority = "us-osha", .kind = LIMIT_TWA_8H, .ppm = NAN, .mg_m3 = 5},
    {.component = "isooctane",
     .authority = "de",
     .kind = LIMIT_TWA_8H,
     .ppm = NAN,
     .mg_m3 = 700,
     .notations = NOTED("group limit C6-C8 aliphatics", "excursion 2(II)")},
};
static struct authority authorities[] = {{.id = "us-osha", .molar_volume = {.value = 24.45}},
                                         {.id = "us-niosh", .molar_volume = {.value = 24.45}},
                                         {.id = "uk", .molar_volume = {.value = 24.05526}},
                                         {.id = "de", .molar_volume = {.value = 24.1}}};
enum { OSHA, NIOSH, UK, DE };
static const struct library lib = {
    .limits = rows, .limit_count = sizeof rows / sizeof *rows, .authorities = authorities, .authority_count = 4};

static struct limit_set set_of(const char *id, double molar_mass, int authority) {
    struct properties properties = weighing(molar_mass);
    struct component component = {.id = id, .properties = &properties};
    struct limit_set set;
    struct error err;
    ck_assert_msg(limit_set_of(&lib, &authorities[authority], &component, &set, &err) == STATUS_OK, "%s", err.text);
    return set;
}

START_TEST(a_set_collects_its_rows) {
    struct limit_set set = set_of("toluene", 92.14, OSHA);
    assert_close(set.long_term.mg_m3, 200 * 92.14 / 24.45, 1e-12);
    ck_assert(set.long_term.converted);
    ck_assert_ptr_null(set.short_term.row);
    ck_assert_uint_eq(set.ceiling_count, 2);
    assert_close(set.ceilings[0].mg_m3, 300 * 92.14 / 24.45, 1e-12);
    ck_assert_int_eq(set.ceilings[1].period_min, 10);
    ck_assert_ptr_null(set.idlh.row);

    set = set_of("toluene", 92.14, NIOSH);
    ck_assert_int_eq(set.long_term.kind, LIMIT_TWA_10H);
    ck_assert_double_eq(set.long_term.mg_m3, 375); // as printed, not converted
    ck_assert(!set.long_term.converted);
    ck_assert_double_eq(set.short_term.mg_m3, 560);
    assert_close(set.idlh.mg_m3, 500 * 92.14 / 24.45, 1e-12);

    ck_assert_double_eq(set_of("glycerol", 92.09, OSHA).long_term.mg_m3, 5);
    assert_close(set_of("glycerol", 92.09, OSHA).long_term.ppm, 5 * 24.45 / 92.09, 1e-12);
}
END_TEST

START_TEST(idlh_alone_is_no_limit) {
    struct limit_set set = set_of("dichloromethane", 84.93, NIOSH);
    ck_assert(!limit_set_known(&set));
    ck_assert_ptr_nonnull(set.idlh.row);
    set = set_of("water", 18.02, NIOSH);
    ck_assert(!limit_set_known(&set));
}
END_TEST

START_TEST(a_short_term_limit_stands_in_for_the_mean) {
    struct limit_set set = set_of("butan-1-ol", 74.12, UK);
    ck_assert(limit_set_known(&set));
    ck_assert_ptr_eq(limit_set_for_mean(&set), &set.short_term);
    ck_assert(limit_has_notation(set.short_term.row, "skin"));
    ck_assert(!limit_has_notation(set.short_term.row, "ski"));
    // whatever is written large, and nothing else
    const char *notations[] = {"Carc. 2", "SKIN"};
    struct limit row = {.notations = {.items = notations, .count = 2}};
    ck_assert(limit_has_notation(&row, "carc") && limit_has_notation(&row, "CARC") && limit_has_notation(&row, "skin"));
    ck_assert(limit_has_notation(&row, "sKIn") && !limit_has_notation(&row, "ski") &&
              !limit_has_notation(&row, "car") && !limit_has_notation(&row, "zarc"));
}
END_TEST

// EH40, from memory: three times the long-term limit where no short-term one is listed, and only there.
START_TEST(british_peaks_without_a_limit) {
    const struct limit british_rows[] = {
        {.component = "n-hexane", .authority = "uk", .kind = LIMIT_TWA_8H, .ppm = 20, .mg_m3 = 72},
        {.component = "n-hexane", .authority = "eu", .kind = LIMIT_TWA_8H, .ppm = 20, .mg_m3 = 72},
        {.component = "toluene", .authority = "uk", .kind = LIMIT_TWA_8H, .ppm = 50, .mg_m3 = 191},
        {.component = "toluene", .authority = "uk", .kind = LIMIT_STEL_15MIN, .ppm = 100, .mg_m3 = 384},
    };
    struct limit copies[sizeof british_rows / sizeof *british_rows];
    memcpy(copies, british_rows, sizeof british_rows);
    const struct library british = {.limits = copies, .limit_count = sizeof british_rows / sizeof *british_rows};
    const struct authority uk = {.id = "uk"}, eu = {.id = "eu"};
    const struct component hexane = {.id = "n-hexane"}, toluene = {.id = "toluene"};
    struct limit_set set;
    struct error err;
    ck_assert_int_eq(limit_set_of(&british, &uk, &hexane, &set, &err), STATUS_OK);
    ck_assert_int_eq(set.short_term.origin, LIMIT_GUIDE);
    ck_assert_int_eq(set.short_term.kind, LIMIT_STEL_15MIN);
    ck_assert_double_eq(set.short_term.mg_m3, 216);
    ck_assert_int_eq(limit_set_of(&british, &uk, &toluene, &set, &err), STATUS_OK);
    ck_assert_int_eq(set.short_term.origin, LIMIT_OWN);
    ck_assert_double_eq(set.short_term.mg_m3, 384);
    ck_assert_int_eq(limit_set_of(&british, &eu, &hexane, &set, &err), STATUS_OK);
    ck_assert_ptr_null(set.short_term.row);
}
END_TEST

// TRGS 900 no. 2.3; the derived figure equals the one printed in data sheets (acetone 2400).
START_TEST(german_short_term_limits_from_excursion_factors) {
    struct limit_set acetone = set_of("acetone", 58.08, DE);
    ck_assert_int_eq(acetone.short_term.origin, LIMIT_OWN);
    ck_assert_double_eq(acetone.short_term.mg_m3,
                        acetone.long_term.mg_m3 * limit_excursion_factor(acetone.long_term.row));
    struct limit_set toluene = set_of("toluene", 92.14, DE);
    ck_assert_int_eq(toluene.short_term.origin, LIMIT_EXCURSION);
    ck_assert_int_eq(toluene.short_term.kind, LIMIT_STEL_15MIN);
    ck_assert_double_eq(toluene.short_term.mg_m3, 380);
    ck_assert_double_eq(set_of("tert-butyl-methyl-ether", 88.15, DE).short_term.mg_m3, 270);
    struct limit_set morpholine = set_of("morpholine", 87.12, DE);
    ck_assert_double_eq(morpholine.short_term.mg_m3, 18);
    ck_assert_uint_eq(morpholine.ceiling_count, 1);
    ck_assert_double_eq(morpholine.ceilings[0].mg_m3, 36);
    ck_assert_int_eq(morpholine.ceilings[0].period_min, 0);
}
END_TEST

START_TEST(group_values_are_marked) {
    ck_assert_int_eq(set_of("isooctane", 114.23, DE).long_term.origin, LIMIT_GROUP);
    ck_assert_int_eq(set_of("toluene", 92.14, DE).long_term.origin, LIMIT_OWN);
}
END_TEST

START_TEST(a_limit_in_ppm_needs_a_molar_mass) {
    struct component component = {.id = "toluene"};
    struct limit_set set = {.ceiling_count = 99};
    struct error err;
    ck_assert_int_eq(limit_set_of(&lib, &authorities[OSHA], &component, &set, &err), STATUS_NO_DATA);
    ck_assert_str_eq(err.text, "the limit of 'toluene' in set us-osha cannot be put in mg/m3: no molar mass");
    ck_assert_uint_eq(set.ceiling_count, 99);
}
END_TEST

// White spirit of 82 % aliphatics and 18 % aromatics again, by way of the sets; n-hexane stands outside in Germany, and
// other authorities have no such procedure.
START_TEST(hydrocarbons_together) {
    static struct limit aliphatics = {.mg_m3 = 300}, aromatics = {.mg_m3 = 50}, own = {.mg_m3 = 180};
    struct component parts[] = {{.id = "n-decane", .family = FAMILY_ALKANE},
                                {.id = "aromatic-naphtha-c9", .family = FAMILY_PETROLEUM_CUT},
                                {.id = "n-hexane", .family = FAMILY_ALKANE},
                                {.id = "ethanol", .family = FAMILY_ALCOHOL}};
    const struct component *components[] = {&parts[0], &parts[1], &parts[2], &parts[3]};
    struct limit_set sets[4] = {{.long_term = {.row = &aliphatics, .mg_m3 = 300}},
                                {.long_term = {.row = &aromatics, .mg_m3 = 50}},
                                {.long_term = {.row = &own, .mg_m3 = 180}},
                                {0}};
    static const double released[] = {82, 18, 50, 500};
    size_t count;
    ck_assert_double_eq(hydrocarbon_limit(&authorities[DE], components, sets, released, 4, &count), 150);
    ck_assert_uint_eq(count, 2);
    // 150/(82/300 + 18/50 + 50/180) = 164.6, to the nearest 50.
    ck_assert_double_eq(hydrocarbon_limit(&authorities[UK], components, sets, released, 4, &count), 150);
    ck_assert_uint_eq(count, 3);
    ck_assert_double_nan(hydrocarbon_limit(&authorities[OSHA], components, sets, released, 4, &count));
    sets[1].long_term.row = NULL;
    ck_assert_double_nan(hydrocarbon_limit(&authorities[DE], components, sets, released, 4, &count));
    ck_assert_uint_eq(count, 2); // wherever in the list the one without a value stands
}
END_TEST

static Suite *limits_suite(void) {
    Suite *suite = suite_create("limits");
    TCase *sums = tcase_create("published");
    tcase_add_test(sums, day_mean_worked_example_29_cfr);
    tcase_add_test(sums, mixture_worked_example_29_cfr);
    tcase_add_test(sums, fifteen_minutes_worked_example);
    tcase_add_test(sums, long_shift_worked_example_brief_and_scala);
    tcase_add_test(sums, mixture_worked_example_acgih);
    tcase_add_test(sums, evaporating_liquid_worked_example_acgih);
    tcase_add_test(sums, hydrocarbon_solvent_worked_example_eh40);
    tcase_add_test(sums, hydrocarbon_solvent_worked_example_trgs_900);
    tcase_add_test(sums, assessment_index_worked_example_trgs_402);
    tcase_add_test(sums, preliminary_test_worked_example_en_689);
    tcase_add_test(sums, ppm_and_mg_worked_example_25_degc);
    tcase_add_test(sums, ppm_and_mg_worked_example_20_degc);
    tcase_add_test(sums, ppm_and_mg_worked_example_open_data_set);
    tcase_add_test(sums, rounding_steps);
    tcase_add_test(sums, reference_periods);
    suite_add_tcase(suite, sums);
    TCase *sets = tcase_create("sets");
    tcase_add_test(sets, a_set_collects_its_rows);
    tcase_add_test(sets, idlh_alone_is_no_limit);
    tcase_add_test(sets, a_short_term_limit_stands_in_for_the_mean);
    tcase_add_test(sets, british_peaks_without_a_limit);
    tcase_add_test(sets, german_short_term_limits_from_excursion_factors);
    tcase_add_test(sets, group_values_are_marked);
    tcase_add_test(sets, a_limit_in_ppm_needs_a_molar_mass);
    tcase_add_test(sets, hydrocarbons_together);
    suite_add_tcase(suite, sets);
    return suite;
}

int main(void) {
    return suite_run(limits_suite());
}
