// SPDX-License-Identifier: GPL-3.0-or-later
// The choice of the activity model, its fall-back, and both against measured limiting activity coefficients
// (tests/reference/activity-checks.csv, sources in its rows).
#include "physics/activity.h"

#include "csv.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;

static void setup(void) {
    tables_open_unifac(&lib, TABLE_COMPONENTS, &table);
}

static void teardown(void) {
    tables_close_unifac(&lib, &table);
}

static void prepare(const char *const *ids, size_t count, double temp_k, struct activity_model *ret) {
    tables_activity(&lib, &table, ids, count, temp_k, ret);
}

static void prepare_pair(const char *first, const char *second, struct activity_model *ret) {
    const char *const ids[] = {first, second};
    prepare(ids, 2, 298.15, ret);
}

static void assert_says(const struct activity_model *model, const char *words) {
    ck_assert_msg(strstr(model->coverage.sentence, words) != NULL, "'%s' not in: %s", words, model->coverage.sentence);
}

// --- which model serves ---

START_TEST(the_chain_of_models) {
    static const struct {
        const char *first, *second;
        enum activity_serves serves;
        const char *says;
    } cases[] = {
        {"ethanol", "isooctane", ACTIVITY_DORTMUND, "modified UNIFAC"},
        {"octamethylcyclotetrasiloxane", "n-hexane", ACTIVITY_ORIGINAL, "no groups for octamethylcyclotetrasiloxane"},
        {"propylene-carbonate", "toluene", ACTIVITY_FLORY_HUGGINS, "estimate"},
        {"dimethyl-carbonate", "acetone", ACTIVITY_FLORY_HUGGINS, "CARBONAT"}, // a pair without parameters
        {"propylene-carbonate", "water", ACTIVITY_NOT_COVERED, "nothing of water"},
        {"tetrachloroethylene", "water", ACTIVITY_NOT_COVERED, "CLCC"},
        // Original UNIFAC gives 2e-4 for D4 in ethanol, and D4 has no Hansen split to fall back on.
        {"octamethylcyclotetrasiloxane", "ethanol", ACTIVITY_NOT_COVERED, "can't be"},
    };
    for (size_t n = 0; n < sizeof cases / sizeof cases[0]; n++) {
        struct activity_model model;
        prepare_pair(cases[n].first, cases[n].second, &model);
        ck_assert_msg(model.coverage.serves == cases[n].serves, "%s + %s: %s", cases[n].first, cases[n].second,
                      model.coverage.sentence);
        assert_says(&model, cases[n].says);
        ck_assert(model.coverage.weak == (cases[n].serves == ACTIVITY_FLORY_HUGGINS));
    }
}
END_TEST

START_TEST(acids_with_bases_are_blocked) {
    static const char *const acids[] = {"formic-acid", "acetic-acid"};
    static const char *const bases[] = {"pyridine",          "n-butylamine",      "morpholine",
                                        "dimethylformamide", "dimethylacetamide", "n-methylpyrrolidone",
                                        "dimethyl-sulfoxide"};
    for (size_t a = 0; a < 2; a++)
        for (size_t b = 0; b < 7; b++) {
            const char *const ids[] = {"ethanol", bases[b], acids[a]};
            struct activity_model model;
            prepare(ids, 3, 298.15, &model);
            ck_assert_msg(!activity_covers(&model) && model.coverage.blocked, "%s + %s", acids[a], bases[b]);
            ck_assert_uint_eq(model.coverage.first, 2);
            ck_assert_uint_eq(model.coverage.second, 1);
            assert_says(&model, bases[b]);
        }
}
END_TEST

START_TEST(doubts_are_named) {
    struct activity_model model;
    const char *const ids[] = {"gamma-butyrolactone", "glycerol", "white-spirit", "dipropylene-glycol-methyl-ether"};
    static const int status[] = {ASSIGNMENT_UNRELIABLE, ASSIGNMENT_PROVISIONAL, ASSIGNMENT_SURROGATE, ASSIGNMENT_BUILT};
    prepare(ids, 4, 298.15, &model);
    ck_assert(model.coverage.weak);
    for (size_t i = 0; i < 4; i++) {
        ck_assert_int_eq(model.coverage.status[i], status[i]);
        assert_says(&model, ids[i]);
    }
    prepare_pair("ethanol", "white-spirit", &model);
    ck_assert(!model.coverage.weak);
}
END_TEST

START_TEST(one_component_needs_no_model) {
    struct activity_model model;
    const char *const ids[] = {"decamethylcyclopentasiloxane"};
    double x[] = {0.3}, ln_gamma[1], derivatives[1];
    prepare(ids, 1, 298.15, &model);
    ck_assert(activity_covers(&model));
    activity_derivatives(&model, x, ln_gamma, derivatives);
    ck_assert_double_eq(ln_gamma[0], 0);
    ck_assert_double_lt(fabs(derivatives[0]), 1e-12);
}
END_TEST

// How good its groups are is told all the same: those of the modified table, else those of the original one.
START_TEST(one_component_has_the_status_of_its_groups) {
    size_t seen[2] = {0};
    for (size_t i = 0; i < lib.component_count; i++) {
        const char *id = lib.components[i].id;
        const struct unifac_species *modified = unifac_species_find(&table, UNIFAC_DORTMUND, id);
        const struct unifac_species *original = unifac_species_find(&table, UNIFAC_ORIGINAL, id);
        const struct unifac_species *expected = modified ? modified : original;
        struct activity_model model;
        prepare(&id, 1, 298.15, &model);
        ck_assert_int_eq(model.coverage.status[0], expected ? expected->assignment->status : ASSIGNMENT_NONE);
        seen[0] += modified != NULL;
        seen[1] += !modified && original;
    }
    ck_assert(seen[0] > 50 && seen[1] > 0);
}
END_TEST

START_TEST(ranges_are_refused) {
    const struct component *many[BLEND_COMPONENTS_MAX + 1];
    struct activity_model model = {.count = 77};
    struct error err = {0};
    for (size_t i = 0; i <= BLEND_COMPONENTS_MAX; i++)
        many[i] = &lib.components[i];
    ck_assert_int_eq(activity_prepare(&table, many, 0, 298, &model, &err), STATUS_RANGE);
    ck_assert_int_eq(activity_prepare(&table, many, BLEND_COMPONENTS_MAX + 1, 298, &model, &err), STATUS_RANGE);
    ck_assert_int_eq(activity_prepare(&table, many, 2, 20, &model, &err), STATUS_RANGE);
    ck_assert_int_eq(activity_prepare(&table, many, 2, NAN, &model, &err), STATUS_RANGE);
    ck_assert_uint_eq(model.count, 77);
}
END_TEST

// --- measured limiting activity coefficients ---

struct errors {
    size_t count;
    double sum;
};

static void add(struct errors *errors, double error) {
    errors->count++;
    errors->sum += error;
}

static double mean(const struct errors *errors) {
    return errors->sum / (double)errors->count;
}

// Goal for the whole chain: mean |ln| at most 0.35.
START_TEST(limiting_activity_coefficients) {
    struct csv csv;
    struct errors all = {0}, sure = {0}, by_model[4] = {{0}};
    csv_read(reference_path("activity-checks.csv"), &csv);
    for (size_t at = 0; at < csv.rows; at++) {
        if (strcmp(csv_text(&csv, at, "kind"), "experimental-limiting") != 0)
            continue;
        char system[128];
        snprintf(system, sizeof system, "%s", csv_text(&csv, at, "system"));
        char *solvent = strchr(system, '/');
        *solvent++ = '\0';
        const char *const ids[] = {system, solvent};
        struct activity_model model;
        double x[] = {0, 1}, ln_gamma[2];
        ck_assert_double_eq(csv_number(&csv, at, "x1"), 0);
        prepare(ids, 2, csv_number(&csv, at, "T_K"), &model);
        ck_assert_msg(activity_covers(&model), "%s", model.coverage.sentence);
        activity_ln_gamma(&model, x, ln_gamma);
        double error = fabs(ln_gamma[0] - log(csv_number(&csv, at, "gamma1")));
        add(&all, error);
        add(&by_model[model.coverage.serves], error);
        if (!model.coverage.weak)
            add(&sure, error);
        if (error > 0.7)
            printf("limiting activity coefficient of %s in %s: measured %s, computed %.3g%s\n", ids[0], ids[1],
                   csv_text(&csv, at, "gamma1"), exp(ln_gamma[0]), model.coverage.weak ? ", with a warning" : "");
        ck_assert_msg(error < 0.7 || model.coverage.weak, "%s in %s is off by %.2f without a warning", ids[0], ids[1],
                      error);
    }
    printf("limiting activity coefficients: mean |ln| %.3f (%zu values); without a warning %.3f (%zu)\n", mean(&all),
           all.count, mean(&sure), sure.count);
    ck_assert_uint_eq(all.count, 32);
    ck_assert_double_le(mean(&all), 0.35);
    ck_assert_uint_eq(by_model[ACTIVITY_DORTMUND].count, 32);
    csv_release(&csv);
}
END_TEST

// --- the fall-back ---

// Dimethyl carbonate in propylene carbonate at x = 0.276 boils at 78.25 degC and 24.94 kPa (Goldberg, Herdegen &
// Braeuer, J. Chem. Eng. Data (2026), row txy19 of evaporation-checks.csv). The trial of this fall-back gave 2.0 there
// where 1.32 is measured: it exaggerates, which is why its figures are called an estimate.
START_TEST(flory_huggins_of_a_trial) {
    const struct component *pair[] = {tables_component(&lib, "dimethyl-carbonate"),
                                      tables_component(&lib, "propylene-carbonate")};
    struct flory_mixture mixture;
    struct error err = {0};
    double x[] = {0.276, 0.724}, ln_gamma[2];
    ck_assert_int_eq(flory_prepare(pair, 2, 273.15 + 78.25, &mixture, NULL, &err), STATUS_OK);
    flory_ln_gamma(&mixture, x, ln_gamma);
    ck_assert_msg(fabs(exp(ln_gamma[0]) - 2.0) < 0.05, "gamma %.3f", exp(ln_gamma[0]));
}
END_TEST

static double difference(const struct flory_mixture *mixture, const double *x, size_t i, size_t j, double step) {
    double sum = 0;
    static const double weights[] = {4.0 / 5, -1.0 / 5, 4.0 / 105, -1.0 / 280};
    for (int k = 1; k <= 4; k++)
        for (int sign = -1; sign <= 1; sign += 2) {
            double n[BLEND_COMPONENTS_MAX], ln_gamma[BLEND_COMPONENTS_MAX];
            memcpy(n, x, mixture->count * sizeof *n);
            n[j] += sign * k * step;
            flory_ln_gamma(mixture, n, ln_gamma);
            sum += sign * weights[k - 1] * ln_gamma[i];
        }
    return sum / step;
}

START_TEST(flory_huggins_keeps_the_laws) {
    struct random random = {31};
    const char *const ids[] = {"propylene-carbonate", "ethanol", "toluene", "n-heptane"};
    const struct component *components[4];
    struct flory_mixture mixture;
    struct error err = {0};
    for (size_t i = 0; i < 4; i++)
        components[i] = tables_component(&lib, ids[i]);
    ck_assert_int_eq(flory_prepare(components, 4, 293.15, &mixture, NULL, &err), STATUS_OK);
    for (int n = 0; n < 100; n++) {
        double x[4], ln_gamma[4], d[16];
        random_fractions(&random, 4, x);
        for (size_t i = 0; i < 4; i++)
            x[i] += 0.1;
        flory_derivatives(&mixture, x, ln_gamma, d);
        for (size_t j = 0; j < 4; j++) {
            double gibbs_duhem = 0;
            for (size_t i = 0; i < 4; i++) {
                gibbs_duhem += x[i] * d[i * 4 + j];
                ck_assert_double_lt(fabs(d[i * 4 + j] - d[j * 4 + i]), 1e-12);
                ck_assert_double_lt(fabs(d[i * 4 + j] - difference(&mixture, x, i, j, 2e-3)), 1e-9);
            }
            ck_assert_double_lt(fabs(gibbs_duhem), 1e-10);
        }
    }
    for (size_t i = 0; i < 4; i++) {
        double x[4] = {0}, ln_gamma[4];
        x[i] = 1;
        flory_ln_gamma(&mixture, x, ln_gamma);
        ck_assert_double_lt(fabs(ln_gamma[i]), 1e-14);
    }
}
END_TEST

START_TEST(flory_huggins_names_what_it_lacks) {
    const struct component *pair[] = {tables_component(&lib, "toluene"),
                                      tables_component(&lib, "octamethylcyclotetrasiloxane")};
    struct flory_mixture mixture = {.count = 9};
    struct error err = {0};
    size_t lacks = SIZE_MAX;
    ck_assert_int_eq(flory_prepare(pair, 2, 298.15, &mixture, &lacks, &err), STATUS_NO_DATA);
    ck_assert_uint_eq(lacks, 1);
    ck_assert_ptr_nonnull(strstr(err.text, "octamethylcyclotetrasiloxane"));
    ck_assert_uint_eq(mixture.count, 9);
}
END_TEST

START_TEST(temperature_can_change) {
    struct activity_model model, again;
    struct error err = {0};
    const char *const ids[] = {"ethanol", "toluene"};
    double x[] = {0.3, 0.7}, a[2], b[2];
    prepare(ids, 2, 298.15, &model);
    prepare(ids, 2, 340, &again);
    ck_assert_int_eq(activity_set_temperature(&model, 340, &err), STATUS_OK);
    activity_ln_gamma(&model, x, a);
    activity_ln_gamma(&again, x, b);
    ck_assert_mem_eq(a, b, sizeof a);
    ck_assert_int_eq(activity_set_temperature(&model, 1000, &err), STATUS_RANGE);
    ck_assert_double_eq(model.temp_k, 340);
}
END_TEST

// Every pair of the table, counted: what is covered, by what. A change of the tables that loses pairs shows here.
START_TEST(coverage_of_all_pairs) {
    size_t counts[4] = {0};
    struct error err = {0};
    for (size_t i = 0; i < lib.component_count; i++)
        for (size_t j = 0; j < i; j++) {
            const struct component *pair[] = {&lib.components[i], &lib.components[j]};
            struct activity_model model;
            ck_assert_msg(activity_prepare(&table, pair, 2, 298.15, &model, &err) == STATUS_OK, "%s", err.text);
            counts[model.coverage.serves]++;
            ck_assert_uint_gt(strlen(model.coverage.sentence), 10);
            if (!activity_covers(&model))
                continue;
            double x[] = {0.5, 0.5}, ln_gamma[2];
            activity_ln_gamma(&model, x, ln_gamma);
            ck_assert(isfinite(ln_gamma[0]) && isfinite(ln_gamma[1]));
        }
    size_t pairs = lib.component_count * (lib.component_count - 1) / 2;
    printf("pairs: %zu, modified UNIFAC %zu, original %zu, Hansen distances %zu, not covered %zu\n", pairs, counts[0],
           counts[1], counts[2], counts[3]);
    ck_assert_uint_ge(counts[ACTIVITY_DORTMUND] * 100, pairs * 82); // 82.8 % by the published tables alone
}
END_TEST

int main(void) {
    Suite *suite = suite_create("activity");
    TCase *tests = tcase_create("activity");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_add_test(tests, the_chain_of_models);
    tcase_add_test(tests, acids_with_bases_are_blocked);
    tcase_add_test(tests, doubts_are_named);
    tcase_add_test(tests, one_component_needs_no_model);
    tcase_add_test(tests, one_component_has_the_status_of_its_groups);
    tcase_add_test(tests, ranges_are_refused);
    tcase_add_test(tests, limiting_activity_coefficients);
    tcase_add_test(tests, flory_huggins_of_a_trial);
    tcase_add_test(tests, flory_huggins_keeps_the_laws);
    tcase_add_test(tests, flory_huggins_names_what_it_lacks);
    tcase_add_test(tests, temperature_can_change);
    tcase_add_test(tests, coverage_of_all_pairs);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
