// SPDX-License-Identifier: GPL-3.0-or-later
// UNIFAC against published and measured figures (tests/reference/activity-checks.csv, sources in its rows) and
// against the laws every activity model obeys.
#include "physics/unifac.h"

#include "base/memory.h"
#include "csv.h"
#include "plain_unifac.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SYSTEM_MAX = 4, TWINS = 2 };

static struct library lib;
static struct unifac_table table;
static struct component outsiders[8]; // components of textbook rows that the tables lack, by their groups
static size_t outsider_count;
static struct component twins[TWINS]; // ethanol and toluene under a second name

// --- components the tables lack ---

static int subgroup_of(int model, const char *name) {
    for (size_t i = 0; i < lib.unifac_group_count; i++)
        if (lib.unifac_groups[i].model == model && strcmp(lib.unifac_groups[i].name, name) == 0)
            return lib.unifac_groups[i].subgroup;
    ck_abort_msg("no subgroup %s", name);
}

enum { EXTRA_ROWS = 16 };

static void make_room_for_assignments(void) {
    struct unifac_assignment *rows = arena_new(&lib.arena, lib.unifac_assignment_count + EXTRA_ROWS, sizeof *rows);
    memcpy(rows, lib.unifac_assignments, lib.unifac_assignment_count * sizeof *rows);
    lib.unifac_assignments = rows;
}

static void add_assignment(int model, const char *id, const double *groups, size_t count) {
    double *items = arena_new(&lib.arena, 2 * count, sizeof *items);
    memcpy(items, groups, 2 * count * sizeof *items);
    lib.unifac_assignments[lib.unifac_assignment_count++] = (struct unifac_assignment){
        .component = arena_text(&lib.arena, id), .model = model, .groups = {.items = items, .count = count}};
}

// "propionic acid (CH3, CH2, COOH)" or "diethylamine (2 CH3, 1 CH2, 1 CH2NH)"
static void add_outsider(const char *name) {
    double groups[16];
    size_t count = 0;
    char list[128];
    snprintf(list, sizeof list, "%s", strchr(name, '(') + 1);
    for (char *next = NULL, *part = strtok_r(list, ",)", &next); part; part = strtok_r(NULL, ",)", &next)) {
        char *group = part;
        double number = strtod(part, &group);
        group += strspn(group, " ");
        groups[2 * count] = subgroup_of(UNIFAC_ORIGINAL, group);
        groups[2 * count++ + 1] = number > 0 ? number : 1;
    }
    add_assignment(UNIFAC_ORIGINAL, name, groups, count);
    outsiders[outsider_count++].id = arena_text(&lib.arena, name);
}

static void add_twin(size_t place, const char *id, const char *name) {
    for (int model = 0; model < 2; model++)
        for (size_t i = 0; i < lib.unifac_assignment_count; i++) {
            const struct unifac_assignment *row = &lib.unifac_assignments[i];
            if (row->model == model && strcmp(row->component, id) == 0) {
                add_assignment(model, name, row->groups.items, row->groups.count);
                break;
            }
        }
    twins[place].id = name;
}

static void setup(void) {
    struct error err = {0};
    tables_open(&lib, TABLE_UNIFAC | TABLE_COMPONENTS);
    make_room_for_assignments();
    outsider_count = 0;
    add_outsider("diethylamine (2 CH3, 1 CH2, 1 CH2NH)");
    add_outsider("propionic acid (CH3, CH2, COOH)");
    add_twin(0, "ethanol", "ethanol-again");
    add_twin(1, "toluene", "toluene-again");
    ck_assert_msg(unifac_table_make(&lib, &table, &err) == STATUS_OK, "%s", err.text);
}

static void teardown(void) {
    tables_close_unifac(&lib, &table);
}

// --- rows of the reference file ---

struct row {
    const char *kind, *model, *system, *note;
    size_t count;
    const struct component *components[SYSTEM_MAX];
    double temp_k, x[SYSTEM_MAX], gamma[SYSTEM_MAX];
    const char *printed[SYSTEM_MAX];
};

static const struct component *find(const char *name) {
    for (size_t i = 0; i < outsider_count; i++)
        if (strcmp(outsiders[i].id, name) == 0)
            return &outsiders[i];
    return tables_component(&lib, name);
}

static void read_row(const struct csv *csv, size_t at, struct row *ret) {
    *ret = (struct row){.kind = csv_text(csv, at, "kind"),
                        .model = csv_text(csv, at, "model"),
                        .system = csv_text(csv, at, "system"),
                        .note = csv_text(csv, at, "note"),
                        .temp_k = csv_number(csv, at, "T_K")};
    char system[256], column[16];
    snprintf(system, sizeof system, "%s", ret->system);
    for (char *next = NULL, *name = strtok_r(system, "/", &next); name; name = strtok_r(NULL, "/", &next)) {
        size_t i = ret->count++;
        ret->components[i] = find(name);
        snprintf(column, sizeof column, "x%zu", i + 1);
        ret->x[i] = csv_number(csv, at, column);
        snprintf(column, sizeof column, "gamma%zu", i + 1);
        ret->gamma[i] = csv_number(csv, at, column);
        ret->printed[i] = csv_text(csv, at, column);
    }
}

static enum unifac_model model_of(const struct row *row) {
    return strcmp(row->model, "original") == 0 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND;
}

static void evaluate(const struct row *row, double *ret_gamma) {
    struct unifac_mixture mixture;
    struct error err = {0};
    enum status status =
        unifac_prepare(&table, model_of(row), row->components, row->count, row->temp_k, &mixture, NULL, &err);
    ck_assert_msg(status == STATUS_OK, "%s: %s", row->system, err.text);
    unifac_ln_gamma(&mixture, row->x, ret_gamma);
    for (size_t i = 0; i < row->count; i++)
        ret_gamma[i] = exp(ret_gamma[i]);
}

// Runs of an independent open implementation from the same parameters (tolerance: the digits it gave).
START_TEST(reference_runs_agree) {
    struct csv csv;
    csv_read(reference_path("activity-checks.csv"), &csv);
    size_t checked = 0;
    double worst = 0;
    for (size_t at = 0; at < csv.rows; at++) {
        struct row row;
        read_row(&csv, at, &row);
        if (strcmp(row.kind, "reference-run") != 0)
            continue;
        double gamma[SYSTEM_MAX];
        evaluate(&row, gamma);
        for (size_t i = 0; i < row.count; i++, checked++) {
            double off = fabs(gamma[i] / row.gamma[i] - 1);
            worst = fmax(worst, off);
            ck_assert_msg(off < 1e-5, "%s %s gamma%zu: %.8g, reference %.8g", row.model, row.system, i + 1, gamma[i],
                          row.gamma[i]);
        }
    }
    ck_assert_uint_ge(checked, 220);
    printf("reference runs: %zu activity coefficients, largest relative difference %.1e\n", checked, worst);
    csv_release(&csv);
}
END_TEST

// Rows that another table of parameters produced: they must not fit, or the reason is wrong.
static const struct {
    const char *system, *reason;
} misfits[] = {
    {"ethanol/benzene", "the textbook used an older parameter table"},
    {"benzene/cyclohexane/acetone/ethanol", "the 2006 table has other values for acetone and ring CH2"},
};

static const char *misfit_reason(const char *system) {
    for (size_t i = 0; i < sizeof misfits / sizeof misfits[0]; i++)
        if (strcmp(misfits[i].system, system) == 0)
            return misfits[i].reason;
    return NULL;
}

// Half a unit of the last digit that was printed.
static double half_last_digit(const char *printed) {
    const char *point = strchr(printed, '.');
    return 0.5 * pow(10, point ? -(double)strlen(point + 1) : 0);
}

START_TEST(textbook_rows_agree_to_the_printed_digits) {
    struct csv csv;
    csv_read(reference_path("activity-checks.csv"), &csv);
    size_t checked = 0, misfitting = 0;
    for (size_t at = 0; at < csv.rows; at++) {
        struct row row;
        read_row(&csv, at, &row);
        if (strcmp(row.kind, "textbook") != 0 && strcmp(row.kind, "published-program") != 0)
            continue;
        double gamma[SYSTEM_MAX];
        bool fits = true;
        evaluate(&row, gamma);
        for (size_t i = 0; i < row.count; i++)
            fits = fits && fabs(gamma[i] - row.gamma[i]) <= half_last_digit(row.printed[i]) * 1.000001;
        const char *reason = misfit_reason(row.system);
        ck_assert_msg(fits == !reason, "%s %s: %.9g %.9g, printed %s %s", row.model, row.system, gamma[0], gamma[1],
                      row.printed[0], row.printed[1]);
        checked++;
        misfitting += reason != NULL;
    }
    ck_assert_uint_eq(misfitting, sizeof misfits / sizeof misfits[0]);
    printf("textbook rows: %zu, of which %zu do not fit for a known reason\n", checked, misfitting);
    csv_release(&csv);
}
END_TEST

// --- random mixtures ---

struct sample {
    size_t count;
    double temp_k;
    const struct component *components[BLEND_COMPONENTS_MAX];
    double x[BLEND_COMPONENTS_MAX];
    struct unifac_mixture mixture;
};

enum { SAMPLES = 200 };

static bool already(const struct sample *sample, const struct component *component) {
    for (size_t i = 0; i < sample->count; i++)
        if (sample->components[i] == component)
            return true;
    return false;
}

// 2 to 8 components of the tables that the model covers, 250 to 400 K.
static void draw(struct random *random, enum unifac_model model, struct sample *ret) {
    struct error err = {0};
    *ret = (struct sample){.temp_k = 250 + 150 * random_uniform(random)};
    size_t wanted = 2 + random_below(random, 7);
    while (ret->count < wanted) {
        const struct component *candidate = &lib.components[random_below(random, lib.component_count)];
        if (already(ret, candidate))
            continue;
        ret->components[ret->count] = candidate;
        if (unifac_prepare(&table, model, ret->components, ret->count + 1, ret->temp_k, &ret->mixture, NULL, &err) ==
            STATUS_OK)
            ret->count++;
        else if (ret->count > 1 && random_uniform(random) < 0.02)
            break;
    }
    enum status status =
        unifac_prepare(&table, model, ret->components, ret->count, ret->temp_k, &ret->mixture, NULL, &err);
    ck_assert_int_eq(status, STATUS_OK);
    random_fractions(random, ret->count, ret->x);
}

static double size_of(double value) {
    return fmax(1, fabs(value));
}

// sum_i x_i d ln gamma_i / d n_j = 0 for every j (Gibbs-Duhem), with the derivatives symmetric.
START_TEST(gibbs_duhem_holds) {
    struct random random = {11};
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s;
        double ln_gamma[BLEND_COMPONENTS_MAX], d[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
        draw(&random, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, &s);
        unifac_derivatives(&s.mixture, s.x, ln_gamma, d);
        for (size_t j = 0; j < s.count; j++) {
            double sum = 0, size = 1;
            for (size_t i = 0; i < s.count; i++) {
                sum += s.x[i] * d[i * s.count + j];
                size = fmax(size, fabs(s.x[i] * d[i * s.count + j]));
                ck_assert_double_eq(d[i * s.count + j], d[j * s.count + i]);
            }
            ck_assert_double_lt(fabs(sum) / size, 1e-10);
        }
    }
}
END_TEST

// Central difference of eighth order; the error of the step is far below that of rounding.
static double difference(const struct sample *s, size_t i, size_t j, double step) {
    static const double weights[] = {4.0 / 5, -1.0 / 5, 4.0 / 105, -1.0 / 280};
    double sum = 0;
    for (int k = 1; k <= 4; k++)
        for (int sign = -1; sign <= 1; sign += 2) {
            double n[BLEND_COMPONENTS_MAX], ln_gamma[BLEND_COMPONENTS_MAX];
            memcpy(n, s->x, sizeof n);
            n[j] += sign * k * step;
            unifac_ln_gamma(&s->mixture, n, ln_gamma);
            sum += sign * weights[k - 1] * ln_gamma[i];
        }
    return sum / step;
}

START_TEST(derivatives_are_those_of_ln_gamma) {
    struct random random = {12};
    double worst = 0;
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s;
        double ln_gamma[BLEND_COMPONENTS_MAX], d[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
        draw(&random, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, &s);
        for (size_t i = 0; i < s.count; i++)
            s.x[i] = 0.2 + s.x[i]; // away from the edge, so that the steps stay inside; mole numbers
        unifac_derivatives(&s.mixture, s.x, ln_gamma, d);
        for (size_t i = 0; i < s.count; i++)
            for (size_t j = 0; j < s.count; j++) {
                double value = d[i * s.count + j];
                worst = fmax(worst, fabs(difference(&s, i, j, 4e-3) - value) / size_of(value));
            }
    }
    printf("derivatives: largest relative difference from finite differences %.1e\n", worst);
    ck_assert_double_lt(worst, 1e-9);
}
END_TEST

START_TEST(amounts_only_scale) {
    struct random random = {13};
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s;
        double a[BLEND_COMPONENTS_MAX], b[BLEND_COMPONENTS_MAX], moles[BLEND_COMPONENTS_MAX];
        draw(&random, UNIFAC_DORTMUND, &s);
        for (size_t i = 0; i < s.count; i++)
            moles[i] = 37.5 * s.x[i];
        unifac_ln_gamma(&s.mixture, s.x, a);
        unifac_ln_gamma(&s.mixture, moles, b);
        for (size_t i = 0; i < s.count; i++)
            ck_assert_double_lt(fabs(a[i] - b[i]) / size_of(a[i]), 1e-12);
    }
}
END_TEST

START_TEST(a_pure_component_has_ln_gamma_zero) {
    struct random random = {14};
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s;
        draw(&random, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, &s);
        for (size_t i = 0; i < s.count; i++) {
            double x[BLEND_COMPONENTS_MAX] = {0}, ln_gamma[BLEND_COMPONENTS_MAX];
            x[i] = 1;
            unifac_ln_gamma(&s.mixture, x, ln_gamma);
            ck_assert_double_eq(ln_gamma[i], 0);
            for (size_t j = 0; j < s.count; j++)
                ck_assert(isfinite(ln_gamma[j]));
            // Raoult's law: ln gamma vanishes with the square of the impurity.
            for (size_t j = 0; j < s.count; j++)
                x[j] = i == j ? 1 - 1e-8 : 1e-8 / (double)(s.count - 1);
            unifac_ln_gamma(&s.mixture, x, ln_gamma);
            ck_assert_double_lt(fabs(ln_gamma[i]), 1e-10);
        }
    }
}
END_TEST

START_TEST(a_trace_behaves_as_none) {
    struct random random = {15};
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s;
        double none[BLEND_COMPONENTS_MAX], trace[BLEND_COMPONENTS_MAX];
        draw(&random, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, &s);
        s.x[0] = 0;
        unifac_ln_gamma(&s.mixture, s.x, none);
        s.x[0] = 1e-15;
        unifac_ln_gamma(&s.mixture, s.x, trace);
        for (size_t i = 0; i < s.count; i++)
            ck_assert_double_lt(fabs(none[i] - trace[i]) / size_of(none[i]), 1e-10);
        s.x[0] = 1e-12;
        unifac_ln_gamma(&s.mixture, s.x, trace);
        for (size_t i = 0; i < s.count; i++)
            ck_assert(isfinite(trace[i]));
    }
}
END_TEST

START_TEST(the_order_of_components_does_not_matter) {
    struct random random = {16};
    for (int n = 0; n < SAMPLES; n++) {
        struct sample s, turned;
        struct error err = {0};
        draw(&random, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, &s);
        turned = s;
        for (size_t i = 0; i < s.count; i++) {
            turned.components[i] = s.components[s.count - 1 - i];
            turned.x[i] = s.x[s.count - 1 - i];
        }
        ck_assert_int_eq(unifac_prepare(&table, n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND, turned.components,
                                        turned.count, s.temp_k, &turned.mixture, NULL, &err),
                         STATUS_OK);
        double a[BLEND_COMPONENTS_MAX], b[BLEND_COMPONENTS_MAX];
        unifac_ln_gamma(&s.mixture, s.x, a);
        unifac_ln_gamma(&turned.mixture, turned.x, b);
        for (size_t i = 0; i < s.count; i++)
            ck_assert_double_lt(fabs(a[i] - b[s.count - 1 - i]) / size_of(a[i]), 1e-12);
    }
}
END_TEST

// Ethanol as ethanol and "ethanol-again": both halves have the ln gamma of the whole.
START_TEST(a_component_may_be_split_in_two) {
    struct random random = {17};
    const struct component *whole[] = {find("ethanol"), find("toluene"), find("isooctane")};
    const struct component *split[] = {whole[0], whole[1], whole[2], &twins[0], &twins[1]};
    for (int model = 0; model < 2; model++) {
        struct unifac_mixture three, five;
        struct error err = {0};
        ck_assert_int_eq(unifac_prepare(&table, (enum unifac_model)model, whole, 3, 298.15, &three, NULL, &err), 0);
        ck_assert_int_eq(unifac_prepare(&table, (enum unifac_model)model, split, 5, 298.15, &five, NULL, &err), 0);
        for (int n = 0; n < SAMPLES; n++) {
            double x[3], parts[5], a[3], b[5];
            random_fractions(&random, 3, x);
            for (size_t i = 0; i < 2; i++) {
                double share = random_uniform(&random);
                parts[i] = x[i] * share;
                parts[3 + i] = x[i] * (1 - share);
            }
            parts[2] = x[2];
            unifac_ln_gamma(&three, x, a);
            unifac_ln_gamma(&five, parts, b);
            for (size_t i = 0; i < 5; i++)
                ck_assert_double_lt(fabs(b[i] - a[i % 3]), 1e-12);
        }
    }
}
END_TEST

// The equations written down subgroup by subgroup, without any rearrangement, give the same.
START_TEST(the_plain_equations_agree) {
    struct random random = {18};
    double worst = 0;
    for (int n = 0; n < SAMPLES; n++) {
        enum unifac_model model = n % 2 ? UNIFAC_ORIGINAL : UNIFAC_DORTMUND;
        struct sample s;
        struct plain_unifac plain;
        const char *ids[BLEND_COMPONENTS_MAX];
        double a[BLEND_COMPONENTS_MAX], b[BLEND_COMPONENTS_MAX];
        draw(&random, model, &s);
        for (size_t i = 0; i < s.count; i++)
            ids[i] = s.components[i]->id;
        plain_unifac_make(&lib, (int)model, ids, s.count, &plain);
        unifac_ln_gamma(&s.mixture, s.x, a);
        plain_unifac_ln_gamma(&plain, s.temp_k, s.x, b);
        for (size_t i = 0; i < s.count; i++)
            worst = fmax(worst, fabs(a[i] - b[i]) / size_of(a[i]));
    }
    ck_assert_double_lt(worst, 1e-10);
}
END_TEST

// --- temperature, coverage ---

START_TEST(another_temperature_is_the_same_as_preparing_again) {
    struct random random = {19};
    for (int n = 0; n < 50; n++) {
        struct sample s;
        struct unifac_mixture again;
        struct error err = {0};
        draw(&random, UNIFAC_DORTMUND, &s);
        ck_assert_int_eq(unifac_prepare(&table, UNIFAC_DORTMUND, s.components, s.count, 310, &again, NULL, &err), 0);
        ck_assert_int_eq(unifac_set_temperature(&s.mixture, 310, &err), STATUS_OK);
        double a[BLEND_COMPONENTS_MAX], b[BLEND_COMPONENTS_MAX];
        unifac_ln_gamma(&s.mixture, s.x, a);
        unifac_ln_gamma(&again, s.x, b);
        ck_assert_mem_eq(a, b, s.count * sizeof *a);
        ck_assert_int_eq(unifac_set_temperature(&s.mixture, -1, &err), STATUS_RANGE);
        ck_assert_int_eq(unifac_set_temperature(&s.mixture, NAN, &err), STATUS_RANGE);
        unifac_ln_gamma(&s.mixture, s.x, b);
        ck_assert_mem_eq(a, b, s.count * sizeof *a);
    }
}
END_TEST

START_TEST(what_is_missing_is_named) {
    struct unifac_mixture mixture = {.count = 99};
    struct unifac_gap gap;
    struct error err = {0};
    // No parameters between CCL3 and H2O in the public table; never zero.
    const struct component *pair[] = {find("trichloroethane-111"), find("water")};
    ck_assert_int_eq(unifac_prepare(&table, UNIFAC_DORTMUND, pair, 2, 298.15, &mixture, &gap, &err), STATUS_NO_DATA);
    ck_assert_uint_eq(gap.first, 0);
    ck_assert_uint_eq(gap.second, 1);
    ck_assert_str_eq(gap.main_first, "CCL3");
    ck_assert_str_eq(gap.main_second, "H2O");
    ck_assert_ptr_nonnull(strstr(err.text, "trichloroethane-111"));
    ck_assert_uint_eq(mixture.count, 99);
    const struct component *cyclic[] = {find("ethanol"), find("propylene-carbonate")};
    ck_assert_int_eq(unifac_prepare(&table, UNIFAC_ORIGINAL, cyclic, 2, 298.15, &mixture, &gap, &err), STATUS_NO_DATA);
    ck_assert_uint_eq(gap.first, 1);
    ck_assert_uint_eq(gap.second, 1);
    ck_assert_ptr_null(gap.main_first);
}
END_TEST

START_TEST(faults_while_indexing_are_returned) {
    struct unifac_table fresh;
    struct error err = {0};
    enum status status = STATUS_MEMORY;
    unsigned long n = 0;
    while (status != STATUS_OK) {
        memory_fail_at(++n);
        status = unifac_table_make(&lib, &fresh, &err);
        ck_assert(status == STATUS_OK || (status == STATUS_MEMORY && !fresh.arena.chunk));
        ck_assert_uint_lt(n, 100);
    }
    memory_fail_at(0);
    ck_assert_uint_gt(n, 2);
    unifac_table_release(&fresh);
    struct unifac_assignment *row = &lib.unifac_assignments[0], kept = *row;
    static const double unknown[] = {9998, 1};
    row->groups = (struct number_list){.items = unknown, .count = 1};
    ck_assert_int_eq(unifac_table_make(&lib, &fresh, &err), STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(err.text, "9998"));
    ck_assert_ptr_nonnull(strstr(err.text, kept.component));
    *row = kept;
}
END_TEST

static Suite *make_suite(void) {
    Suite *suite = suite_create("unifac");
    TCase *outside = tcase_create("outside figures");
    tcase_add_unchecked_fixture(outside, setup, teardown);
    tcase_add_test(outside, reference_runs_agree);
    tcase_add_test(outside, textbook_rows_agree_to_the_printed_digits);
    suite_add_tcase(suite, outside);
    TCase *laws = tcase_create("laws");
    tcase_add_unchecked_fixture(laws, setup, teardown);
    tcase_set_timeout(laws, 60);
    tcase_add_test(laws, gibbs_duhem_holds);
    tcase_add_test(laws, derivatives_are_those_of_ln_gamma);
    tcase_add_test(laws, amounts_only_scale);
    tcase_add_test(laws, a_pure_component_has_ln_gamma_zero);
    tcase_add_test(laws, a_trace_behaves_as_none);
    tcase_add_test(laws, the_order_of_components_does_not_matter);
    tcase_add_test(laws, a_component_may_be_split_in_two);
    tcase_add_test(laws, the_plain_equations_agree);
    tcase_add_test(laws, another_temperature_is_the_same_as_preparing_again);
    tcase_add_test(laws, what_is_missing_is_named);
    tcase_add_test(laws, faults_while_indexing_are_returned);
    suite_add_tcase(suite, laws);
    return suite;
}

int main(void) {
    return suite_run(make_suite());
}
