// SPDX-License-Identifier: GPL-3.0-or-later
// Vapour pressure from Antoine constants, saturated air, vapour hazard ratio.
#include "base/units.h"
#include "physics/vapour_pressure.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

// Acetone: Poling, Prausnitz, O'Connell, The Properties of Gases and Liquids, 5th ed., in kPa and degC (through the
// open data set `chemicals`).
static struct properties acetone_properties(void) {
    return (struct properties){.molar_mass = {.value = 58.08},
                               .antoine = {.a = 6.21840, .b = 1197.010, .c = 228.060, .t_min = -25.8, .t_max = 77.5},
                               .vapour_pressure_20c = {.value = 24.66},
                               .vapour_pressure_25c = {.value = 30.73}};
}

static void assert_close(double got, double expected, double relative) {
    ck_assert_msg(fabs(got - expected) <= relative * fabs(expected), "got %.12g, expected %.12g within %g", got,
                  expected, relative);
}

// Against an equation independent of the Antoine constants (Huber et al., Ind. Eng. Chem. Res. 61 (2022) 15449: 24.66
// and 30.73 kPa) and the boiling point 56.1 degC (CRC Handbook, 95th ed.) at one atmosphere. Tolerance 1 %.
START_TEST(acetone_meets_independent_figures) {
    struct properties properties = acetone_properties();
    double p_kpa;
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 20, &p_kpa, NULL, NULL), STATUS_OK);
    assert_close(p_kpa, 24.66, 0.01);
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 25, &p_kpa, NULL, NULL), STATUS_OK);
    assert_close(p_kpa, 30.73, 0.01);
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 56.1, &p_kpa, NULL, NULL), STATUS_OK);
    assert_close(p_kpa, ATMOSPHERE_KPA, 0.01);
}
END_TEST

START_TEST(outside_the_range_is_said) {
    struct properties properties = acetone_properties();
    struct error err;
    double p_kpa = -1;
    bool extrapolated = false;
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 90, &p_kpa, NULL, &err), STATUS_RANGE);
    ck_assert_str_eq(err.text,
                     "90 degC is outside the range -25.8 to 77.5 degC of the vapour pressure curve of 'acetone'");
    ck_assert_double_eq(p_kpa, -1);
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 90, &p_kpa, &extrapolated, &err), STATUS_OK);
    ck_assert(extrapolated);
    ck_assert_double_gt(p_kpa, ATMOSPHERE_KPA);
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 20, &p_kpa, &extrapolated, &err), STATUS_OK);
    ck_assert(!extrapolated);
}
END_TEST

START_TEST(below_the_pole_there_is_no_answer) {
    struct properties properties = acetone_properties();
    struct error err;
    double p_kpa = -1;
    bool extrapolated;
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", -230, &p_kpa, &extrapolated, &err),
                     STATUS_RANGE);
    ck_assert_str_eq(err.text, "-230 degC is below what the vapour pressure curve of 'acetone' can give");
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", NAN, &p_kpa, &extrapolated, &err),
                     STATUS_RANGE);
    properties.antoine.b = NAN;
    ck_assert_int_eq(antoine_pressure_kpa(&properties.antoine, "acetone", 20, &p_kpa, &extrapolated, &err),
                     STATUS_NO_DATA);
    ck_assert_str_eq(err.text, "no vapour pressure curve for 'acetone'");
    ck_assert_double_eq(p_kpa, -1);
}
END_TEST

START_TEST(a_listed_figure_beats_an_extrapolation) {
    struct properties properties = acetone_properties();
    struct component component = {.id = "acetone", .properties = &properties};
    enum pressure_source source;
    double p_kpa;
    struct error err;
    ck_assert_int_eq(component_pressure_kpa(&component, 20, &p_kpa, &source, &err), STATUS_OK);
    ck_assert_int_eq(source, PRESSURE_CURVE);
    properties.antoine.t_min = 30;
    ck_assert_int_eq(component_pressure_kpa(&component, 20, &p_kpa, &source, &err), STATUS_OK);
    ck_assert_int_eq(source, PRESSURE_LISTED);
    ck_assert_double_eq(p_kpa, 24.66);
    ck_assert_int_eq(component_pressure_kpa(&component, 25, &p_kpa, &source, &err), STATUS_OK);
    ck_assert_double_eq(p_kpa, 30.73);
    ck_assert_int_eq(component_pressure_kpa(&component, 22, &p_kpa, &source, &err), STATUS_OK);
    ck_assert_int_eq(source, PRESSURE_EXTRAPOLATED);
    properties.antoine.a = NAN;
    ck_assert_int_eq(component_pressure_kpa(&component, 20, &p_kpa, &source, &err), STATUS_OK);
    ck_assert_int_eq(source, PRESSURE_LISTED);
    ck_assert_int_eq(component_pressure_kpa(&component, 22, &p_kpa, &source, &err), STATUS_NO_DATA);
    component.properties = NULL;
    ck_assert_int_eq(component_pressure_kpa(&component, 20, &p_kpa, &source, &err), STATUS_NO_DATA);
}
END_TEST

// Vapour hazard ratio = saturated ppm / limit ppm (Pitt, IChemE Symp. Ser. 151 (2006); Gerin, Ann. Occup. Hyg. 53
// (2009) 391; definitions checked, ratios computed). Pressures: NIOSH Pocket Guide, 20 degC (from memory but for
// dichloromethane and tetrahydrofuran). Tolerance 0.1 %.
START_TEST(vapour_hazard_ratio_worked_examples) {
    static const struct {
        double p_mmhg, saturated_ppm, limit_ppm, ratio;
    } rows[] = {{21, 27632, 200, 138.2}, {78, 102632, 200, 513.2}, {350, 460526, 25, 18421}, {132, 173684, 50, 3473.7},
                {10, 13158, 50, 263.2},  {16, 21053, 20, 1052.6},  {6, 7895, 1, 7894.7}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double ppm = saturated_ppm(rows[i].p_mmhg * KPA_PER_MMHG);
        assert_close(ppm, rows[i].saturated_ppm, 1e-3);
        assert_close(ppm / rows[i].limit_ppm, rows[i].ratio, 1e-3);
    }
}
END_TEST

// p M/(R T), and the same by way of ppm and the molar volume at that temperature.
START_TEST(saturated_air_two_ways) {
    double direct = saturated_mg_m3(24.66, 58.08, 20);
    double volume = gas_molar_volume_l_mol(kelvin_from_celsius(20), ATMOSPHERE_KPA);
    assert_close(direct, mg_m3_from_ppm(saturated_ppm(24.66), 58.08, volume), 1e-12);
    assert_close(direct, 24660.0 * 58.08 / (GAS_CONSTANT * 293.15) * 1000, 1e-12);
}
END_TEST

static Suite *vapour_pressure_suite(void) {
    Suite *suite = suite_create("vapour_pressure");
    TCase *curve = tcase_create("curve");
    tcase_add_test(curve, acetone_meets_independent_figures);
    tcase_add_test(curve, outside_the_range_is_said);
    tcase_add_test(curve, below_the_pole_there_is_no_answer);
    tcase_add_test(curve, a_listed_figure_beats_an_extrapolation);
    suite_add_tcase(suite, curve);
    TCase *air = tcase_create("saturated");
    tcase_add_test(air, vapour_hazard_ratio_worked_examples);
    tcase_add_test(air, saturated_air_two_ways);
    suite_add_tcase(suite, air);
    return suite;
}

int main(void) {
    return suite_run(vapour_pressure_suite());
}
