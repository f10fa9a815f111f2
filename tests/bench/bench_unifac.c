// SPDX-License-Identifier: GPL-3.0-or-later
// Ternary activity evaluations per second on one core, with the composition changing at every call, against the
// equations written down plainly (tests/bench/plain_unifac.c) in the same run. Both must agree.
#include "physics/unifac.h"
#include "plain_unifac.h"
#include "random.h"
#include "stopwatch.h"
#include "tables.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { COMPOSITIONS = 4096, ROUNDS = 5 };

// Goals: evaluations per second, and times the plain implementation.
static const double goal_rate = 5e6, goal_factor = 4;
static const double temp_k = 298.15;

static const char *const blends[][3] = {{"ethanol", "toluene", "isooctane"},
                                        {"propan-2-ol", "acetone", "white-spirit"},
                                        {"ethyl-acetate", "ethanol", "water"}};

struct race {
    struct unifac_mixture mixture;
    struct plain_unifac plain;
    struct plain_prepared prepared;
    double x[COMPOSITIONS][3];
};

static void fill_compositions(struct race *race) {
    struct random random = {20251125};
    for (size_t n = 0; n < COMPOSITIONS; n++)
        random_fractions(&random, 3, race->x[n]);
}

typedef void evaluate(const struct race *race, const double *x, double *ret);

static void ours(const struct race *race, const double *x, double *ret) {
    unifac_ln_gamma(&race->mixture, x, ret);
}

static void ours_derivatives(const struct race *race, const double *x, double *ret) {
    double derivatives[9];
    unifac_derivatives(&race->mixture, x, ret, derivatives);
    ret[0] += derivatives[0];
}

static void textbook(const struct race *race, const double *x, double *ret) {
    plain_unifac_ln_gamma(&race->plain, temp_k, x, ret);
}

static void textbook_prepared(const struct race *race, const double *x, double *ret) {
    plain_unifac_ln_gamma_prepared(&race->plain, &race->prepared, x, ret);
}

// Best of some rounds, evaluations per second. The sum keeps the calls alive.
static double rate(const struct race *race, evaluate *function, size_t calls, double *ret_sum) {
    double best = 0;
    for (int round = 0; round < ROUNDS; round++) {
        double start = seconds(CLOCK_PROCESS_CPUTIME_ID), sum = 0;
        for (size_t n = 0; n < calls; n++) {
            double ln_gamma[3];
            function(race, race->x[n % COMPOSITIONS], ln_gamma);
            sum += ln_gamma[0] + ln_gamma[1] + ln_gamma[2];
        }
        double found = (double)calls / (seconds(CLOCK_PROCESS_CPUTIME_ID) - start);
        best = found > best ? found : best;
        *ret_sum = sum;
    }
    return best;
}

static double worst_difference(const struct race *race) {
    double worst = 0;
    for (size_t n = 0; n < COMPOSITIONS; n++) {
        double a[3], b[3], c[3];
        ours(race, race->x[n], a);
        textbook(race, race->x[n], b);
        textbook_prepared(race, race->x[n], c);
        for (size_t i = 0; i < 3; i++)
            worst = fmax(worst, fmax(fabs(a[i] - b[i]), fabs(a[i] - c[i])));
    }
    return worst;
}

static void prepare(struct race *race, const struct library *lib, const struct unifac_table *table,
                    const char *const *ids) {
    const struct component *components[3];
    struct error err = {0};
    for (size_t i = 0; i < 3; i++)
        components[i] = tables_component(lib, ids[i]);
    stop_unless(unifac_prepare(table, UNIFAC_DORTMUND, components, 3, temp_k, &race->mixture, NULL, &err), &err);
    plain_unifac_make(lib, UNIFAC_DORTMUND, ids, 3, &race->plain);
    plain_unifac_prepare(&race->plain, temp_k, &race->prepared);
    fill_compositions(race);
}

static bool run(struct race *race, const char *const *ids, size_t calls) {
    double sum = 0;
    double mine = rate(race, ours, calls, &sum), derivatives = rate(race, ours_derivatives, calls, &sum);
    double plain = rate(race, textbook, calls / 16, &sum);
    double prepared = rate(race, textbook_prepared, calls / 8, &sum);
    double difference = worst_difference(race);
    printf("%s + %s + %s (%zu main groups, %zu subgroups)\n", ids[0], ids[1], ids[2], race->mixture.main_count,
           race->plain.groups);
    printf("  ours %.2f million/s (%.0f ns); with derivatives %.2f million/s\n", mine / 1e6, 1e9 / mine,
           derivatives / 1e6);
    printf("  plain %.3f million/s: %.1f times; plain with Psi and pure groups prepared %.3f million/s: %.1f times\n",
           plain / 1e6, mine / plain, prepared / 1e6, mine / prepared);
    printf("  largest difference in ln gamma %.1e\n", difference);
    return mine >= goal_rate && mine >= goal_factor * plain && difference < 1e-10;
}

// `--count`: only our evaluations, for an instruction counter (valgrind --tool=callgrind).
int main(int argc, char **argv) {
    static struct race race;
    struct library lib;
    struct unifac_table table;
    bool reached = true;
    tables_open_unifac(&lib, TABLE_COMPONENTS, &table);
    size_t calls = 2000000;
    for (size_t b = 0; b < sizeof blends / sizeof blends[0]; b++) {
        prepare(&race, &lib, &table, blends[b]);
        if (argc > 1 && strcmp(argv[1], "--count") == 0) {
            double sum = 0;
            rate(&race, ours, 10000, &sum);
            printf("%s + %s + %s: %d evaluations\n", blends[b][0], blends[b][1], blends[b][2], 10000 * ROUNDS);
        } else {
            reached = run(&race, blends[b], calls) && reached;
        }
    }
    printf("goals (%.0f million/s, %.0f times plain): %s\n", goal_rate / 1e6, goal_factor,
           reached ? "reached" : "missed");
    tables_close_unifac(&lib, &table);
    return reached ? 0 : 1;
}
