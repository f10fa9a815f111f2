// SPDX-License-Identifier: GPL-3.0-or-later
// What a wet surface gives off.
#include "physics/release.h"

#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;

static void setup(void) {
    tables_open_unifac(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES, &table);
}

static void teardown(void) {
    tables_close_unifac(&lib, &table);
}

static enum status release_of(const struct blend *blend, double wet_m2, double *ret_mg_h, struct error *err) {
    return release_most_mg_h(&table, blend, wet_m2, 25, ret_mg_h, err);
}

// Toluene: 3.79 kPa at 25 degC and 92.14 g/mol (CRC Handbook, from memory): 1464 * 3790 * 92.14 micrograms an hour and
// m2, that is 511 g; of 200 cm2 the fiftieth part.
START_TEST(a_neat_liquid_by_hand) {
    struct blend blend = tables_blend(&lib, "toluene");
    double mg_h[BLEND_COMPONENTS_MAX];
    struct error err = {0};
    ck_assert_int_eq(release_of(&blend, 0.02, mg_h, &err), STATUS_OK);
    ck_assert_double_eq_tol(mg_h[0], 10225, 0.01 * 10225);
    double twice[BLEND_COMPONENTS_MAX];
    ck_assert_int_eq(release_of(&blend, 0.04, twice, &err), STATUS_OK);
    ck_assert_double_eq_tol(twice[0], 2 * mg_h[0], 1e-9 * mg_h[0]);
}
END_TEST

START_TEST(what_is_not_known_is_no_figure_and_no_fault) {
    struct blend blend = tables_blend(&lib, "ethanol 50 + toluene 50");
    struct component without = *blend.components[0];
    double mg_h[BLEND_COMPONENTS_MAX];
    struct error err = {0};
    without.properties = NULL;
    blend.components[0] = &without;
    ck_assert_int_eq(release_of(&blend, 0.02, mg_h, &err), STATUS_OK);
    ck_assert(isnan(mg_h[0]) && mg_h[1] > 0);
    without.molar_volume.value = NAN; // now there are no mole fractions, and so no activities
    ck_assert_int_eq(release_of(&blend, 0.02, mg_h, &err), STATUS_OK);
    ck_assert(isnan(mg_h[0]) && isnan(mg_h[1]));
}
END_TEST

START_TEST(a_surface_that_is_none) {
    static const double none[] = {0, -1, NAN, INFINITY};
    struct blend blend = tables_blend(&lib, "toluene");
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++) {
        double mg_h[BLEND_COMPONENTS_MAX];
        struct error err = {0};
        ck_assert_int_eq(release_of(&blend, none[i], mg_h, &err), STATUS_RANGE);
        ck_assert_msg(strstr(err.text, "above 0") != NULL, "%s", err.text);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("release");
    TCase *tests = tcase_create("release");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_add_test(tests, a_neat_liquid_by_hand);
    tcase_add_test(tests, what_is_not_known_is_no_figure_and_no_fault);
    tcase_add_test(tests, a_surface_that_is_none);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
