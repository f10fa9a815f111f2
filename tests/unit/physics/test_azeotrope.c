// SPDX-License-Identifier: GPL-3.0-or-later
// Azeotropes against published ones; the laws they obey.
#include "physics/azeotrope.h"

#include "base/units.h"
#include "errors.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct error_tables tables;
static struct vapour_liquid liquid;

static void open_tables(void) {
    error_tables_open(&tables);
}

static void close_tables(void) {
    error_tables_close(&tables);
}

static void prepare(const char *first, const char *second) {
    const struct component *pair[2] = {tables_component(&tables.lib, first), tables_component(&tables.lib, second)};
    ck_assert_int_eq(vapour_liquid_prepare(&tables.unifac, pair, 2, 298.15, &liquid, NULL), STATUS_OK);
}

// Every row off by more than `beyond` must be in the list, and every row of the list must be off.
static void assert_misfits(const struct errors *errors, double beyond, const char *const *listed, size_t count) {
    size_t found = 0;
    for (size_t i = 0; i < errors->count; i++) {
        bool known = false;
        for (size_t j = 0; j < count; j++)
            known = known || strcmp(errors->entries[i].name, listed[j]) == 0;
        bool off = !(fabs(errors->entries[i].error) <= beyond); // also those without figures
        ck_assert_msg(off == known, "%s: error %+.2f %s", errors->entries[i].name, errors->entries[i].error,
                      off ? "is not in the list of misfits" : "is in the list of misfits but fits");
        found += off;
    }
    ck_assert_uint_eq(found, count);
}

// tests/reference/azeotropes.csv (CRC, Lange, Horsley; most from memory). Water with tri- and tetrachloroethylene: no
// parameters; acetic acid with pyridine: acid with base. Methyl acetate and diethyl ether with water: published as
// azeotropes 0.8 and 0.4 K below the neat liquids, the model puts them just beyond the neat side.
START_TEST(published_azeotropes) {
    static struct errors temperature, mass, missed;
    errors_azeotropes(&tables, &temperature, &mass, &missed);
    static const char *const hot[] = {"pyridine + water", "tetrahydrofuran + water", "methanol + tetrahydrofuran",
                                      "butanone + cyclohexane"};
    static const char *const lean[] = {"cyclohexanol + water",  "methoxyethanol + water",
                                       "ethoxyethanol + water", "methanol + tetrachloroethylene",
                                       "propan-2-ol + toluene", "formic-acid + toluene"};
    static const char *const none[] = {"methyl-acetate + water", "diethyl-ether + water"};
    ck_assert_double_le(errors_mean_abs(&temperature), 1.5);
    ck_assert_double_le(errors_mean_abs(&mass), 4);
    assert_misfits(&temperature, 2, hot, sizeof hot / sizeof *hot);
    assert_misfits(&mass, 8, lean, sizeof lean / sizeof *lean);
    assert_misfits(&missed, 0, none, sizeof none / sizeof *none);
    ck_assert_uint_eq(temperature.count, 71);
    ck_assert_str_eq(temperature.left_out_names,
                     "trichloroethylene + water, tetrachloroethylene + water, acetic-acid + pyridine");
}
END_TEST

// At the azeotrope the vapour is the liquid, and it is found at its temperature as at its pressure.
static void check_laws(const char *first, const char *second, enum azeotrope_kind kind) {
    struct azeotrope by_pressure[AZEOTROPES_MAX], by_temperature[AZEOTROPES_MAX];
    size_t count = 0;
    double p[2];
    prepare(first, second);
    ck_assert_int_eq(azeotropes_at_pressure(&liquid, ATMOSPHERE_KPA, by_pressure, &count, NULL), STATUS_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(by_pressure[0].kind, kind);
    ck_assert_double_eq_tol(by_pressure[0].p_kpa, ATMOSPHERE_KPA, 1e-6);
    ck_assert_int_eq(azeotropes_at_temperature(&liquid, by_pressure[0].temp_k, by_temperature, &count, NULL),
                     STATUS_OK);
    ck_assert_uint_eq(count, 1);
    ck_assert_int_eq(by_temperature[0].kind, kind);
    ck_assert_double_eq_tol(by_temperature[0].x1, by_pressure[0].x1, 1e-5);
    ck_assert_double_eq_tol(by_temperature[0].p_kpa, ATMOSPHERE_KPA, 1e-4);
    const double x[2] = {by_temperature[0].x1, 1 - by_temperature[0].x1};
    ck_assert_int_eq(vapour_pressures(&liquid, x, p, NULL, NULL), STATUS_OK);
    ck_assert_double_eq_tol(p[0] / (p[0] + p[1]), x[0], 1e-6);
}

START_TEST(laws_of_each_kind) {
    check_laws("ethanol", "toluene", AZEOTROPE_MINIMUM);
    check_laws("toluene", "ethanol", AZEOTROPE_MINIMUM);
    check_laws("acetone", "chloroform", AZEOTROPE_MAXIMUM);
    check_laws("n-hexane", "water", AZEOTROPE_HETEROGENEOUS);
    check_laws("water", "n-hexane", AZEOTROPE_HETEROGENEOUS);
}
END_TEST

// Acetone and chloroform: highest boiling, 64.7 degC, 20.0 % acetone by mass (from memory: CRC Handbook, Lange).
START_TEST(highest_boiling) {
    struct azeotrope found[AZEOTROPES_MAX];
    size_t count = 0;
    prepare("acetone", "chloroform");
    ck_assert_int_eq(azeotropes_at_pressure(&liquid, ATMOSPHERE_KPA, found, &count, NULL), STATUS_OK);
    ck_assert_double_eq_tol(celsius_from_kelvin(found[0].temp_k), 64.7, 1.5);
    ck_assert_double_eq_tol(found[0].w1, 0.20, 0.04);
}
END_TEST

START_TEST(near_ideal_pairs_have_none) {
    static const char *const pairs[][2] = {
        {"benzene", "toluene"}, {"n-hexane", "n-heptane"}, {"methanol", "ethanol"}, {"methanol", "water"}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        struct azeotrope found[AZEOTROPES_MAX];
        size_t count = 7;
        prepare(pairs[i][0], pairs[i][1]);
        ck_assert_int_eq(azeotropes_at_pressure(&liquid, ATMOSPHERE_KPA, found, &count, NULL), STATUS_OK);
        ck_assert_uint_eq(count, 0);
    }
}
END_TEST

START_TEST(refusals) {
    struct azeotrope found[AZEOTROPES_MAX];
    size_t count = 7;
    struct error err = {0};
    prepare("acetic-acid", "pyridine");
    ck_assert_int_eq(azeotropes_at_pressure(&liquid, ATMOSPHERE_KPA, found, &count, &err), STATUS_NO_DATA);
    prepare("ethanol", "toluene");
    ck_assert_int_eq(azeotropes_at_temperature(&liquid, 1000, found, &count, &err), STATUS_RANGE);
    const struct component *one = tables_component(&tables.lib, "ethanol");
    ck_assert_int_eq(vapour_liquid_prepare(&tables.unifac, &one, 1, 298.15, &liquid, NULL), STATUS_OK);
    ck_assert_int_eq(azeotropes_at_pressure(&liquid, ATMOSPHERE_KPA, found, &count, &err), STATUS_RANGE);
    ck_assert_uint_eq(count, 7);
}
END_TEST

START_TEST(words) {
    ck_assert_str_eq(azeotrope_kind_word(AZEOTROPE_MINIMUM), "minimum");
    ck_assert_str_eq(azeotrope_kind_word(AZEOTROPE_MAXIMUM), "maximum");
    ck_assert_str_eq(azeotrope_kind_word(AZEOTROPE_HETEROGENEOUS), "heterogeneous");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("azeotrope");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_set_timeout(all, 60);
    tcase_add_test(all, published_azeotropes);
    tcase_add_test(all, laws_of_each_kind);
    tcase_add_test(all, highest_boiling);
    tcase_add_test(all, near_ideal_pairs_have_none);
    tcase_add_test(all, refusals);
    tcase_add_test(all, words);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
