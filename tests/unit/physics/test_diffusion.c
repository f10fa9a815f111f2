// SPDX-License-Identifier: GPL-3.0-or-later
// Diffusion volumes, molar masses from formulas, diffusivities against measurements.
#include "physics/diffusion.h"

#include "base/units.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES);
}

static void close_tables(void) {
    library_release(&lib);
}

// Rows whose listed molar mass is that of the grade, not of the compound that stands for it.
static bool is_cut(const struct component *component) {
    return component->family == FAMILY_PETROLEUM_CUT;
}

START_TEST(formulas_agree_with_the_listed_molar_masses) {
    for (size_t i = 0; i < lib.component_count; i++) {
        const struct component *component = &lib.components[i];
        ck_assert_msg(component->properties != NULL, "%s has no properties", component->id);
        double listed = component->properties->molar_mass.value;
        double own = formula_molar_mass(&component->properties->formula);
        ck_assert_msg(!isnan(own), "%s has no formula", component->id);
        if (!is_cut(component))
            ck_assert_msg(fabs(own - listed) <= 0.05, "%s: %g from the formula, %g listed", component->id, own, listed);
    }
}
END_TEST

static double volume_of(const char *id) {
    return diffusion_volume(tables_component(&lib, id));
}

// Sums by hand from the increments of Fuller, Ensley & Giddings 1969 (from memory: Poling et al. 2000, table 11-1).
START_TEST(volumes_by_hand) {
    ck_assert_double_eq_tol(volume_of("n-hexane"), 6 * 15.9 + 14 * 2.31, 1e-9);
    ck_assert_double_eq_tol(volume_of("toluene"), 7 * 15.9 + 8 * 2.31 - 18.3, 1e-9);
    ck_assert_double_eq_tol(volume_of("tetrahydrofuran"), 4 * 15.9 + 8 * 2.31 + 6.11 - 18.3, 1e-9);
    ck_assert_double_eq_tol(volume_of("dimethylformamide"), 3 * 15.9 + 7 * 2.31 + 4.54 + 6.11, 1e-9);
    ck_assert_double_eq_tol(volume_of("chloroform"), 15.9 + 2.31 + 3 * 21.0, 1e-9);
    ck_assert_double_eq_tol(volume_of("dimethyl-sulfoxide"), 2 * 15.9 + 6 * 2.31 + 6.11 + 22.9, 1e-9);
    ck_assert_double_eq_tol(volume_of("water"), 13.1, 1e-9);
}
END_TEST

// Measured diffusivities in air at 25 degC, cm2/s (from memory: Lugg, Anal. Chem. 40 (1968) 1072).
static const struct {
    const char *id;
    double cm2_s;
} measured[] = {{"acetone", 0.1049},           {"benzene", 0.0932},     {"butanone", 0.0903},
                {"n-butyl-acetate", 0.0672},   {"chloroform", 0.0888},  {"ethanol", 0.1181},
                {"ethyl-acetate", 0.0861},     {"n-hexane", 0.0732},    {"methanol", 0.1520},
                {"propan-1-ol", 0.0993},       {"propan-2-ol", 0.1013}, {"toluene", 0.0849},
                {"trichloroethylene", 0.0875}, {"water", 0.2490},       {"diethyl-ether", 0.0918}};

// The method's own mean error is about 4 %; single liquids up to 12 % here.
START_TEST(diffusivities_against_measurements) {
    double sum = 0;
    size_t count = sizeof measured / sizeof *measured;
    for (size_t i = 0; i < count; i++) {
        double got;
        const struct component *component = tables_component(&lib, measured[i].id);
        ck_assert_int_eq(diffusivity_in_air(component, kelvin_from_celsius(25), &got, NULL), STATUS_OK);
        double error = got / measured[i].cm2_s - 1;
        ck_assert_msg(fabs(error) <= 0.12, "%s: %.4f, measured %.4f cm2/s", measured[i].id, got, measured[i].cm2_s);
        sum += fabs(error);
    }
    ck_assert_msg(sum / (double)count <= 0.05, "mean error %.3f", sum / (double)count);
}
END_TEST

START_TEST(what_is_lacking_is_named) {
    struct component component = *tables_component(&lib, "acetone");
    struct properties properties = *component.properties;
    struct error err = {0};
    double d = 7;
    component.properties = &properties;
    properties.molar_mass.value = NAN;
    ck_assert_int_eq(diffusivity_in_air(&component, 298, &d, &err), STATUS_NO_DATA);
    ck_assert_str_eq(err.text, "no molar mass for 'acetone'; put molar_mass into your own properties.yaml");
    properties.formula = (struct formula_values){.rings = 1};
    ck_assert_int_eq(diffusivity_in_air(&component, 298, &d, &err), STATUS_NO_DATA);
    ck_assert_str_eq(err.text, "no molecular formula for 'acetone'; put formula, such as {c: 10, h: 14}, into your own "
                               "properties.yaml");
    ck_assert(isnan(formula_molar_mass(&properties.formula)));
    component.properties = NULL;
    ck_assert_int_eq(diffusivity_in_air(&component, 298, &d, &err), STATUS_NO_DATA);
    ck_assert_double_eq(d, 7);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("diffusion");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_add_test(all, formulas_agree_with_the_listed_molar_masses);
    tcase_add_test(all, volumes_by_hand);
    tcase_add_test(all, diffusivities_against_measurements);
    tcase_add_test(all, what_is_lacking_is_named);
    suite_add_tcase(suite, all);
    return suite_run(suite);
}
