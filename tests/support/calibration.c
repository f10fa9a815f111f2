// SPDX-License-Identifier: GPL-3.0-or-later
#include "calibration.h"

#include "casefile/casefile.h"
#include "cli/learn.h"
#include "films.h"
#include "tables.h"
#include "varnishes.h"

#include <stdio.h>

const char *const calibration_truth_words[] = {"own view", "other view", "one in ten mislabelled", NULL};

// Ten tests as a conservator sets them, mildest first in three pairs of bottles, in three passages; then four more
// blends for which the next result is foretold.
static const char *const notations[] = {
    "isooctane",
    "propan-2-ol 20 + isooctane 80",
    "propan-2-ol 40 + isooctane 60",
    "propan-2-ol 60 + isooctane 40",
    "ethanol 10 + isooctane 90",
    "ethanol 25 + isooctane 75",
    "acetone 20 + isooctane 80",
    "acetone 40 + isooctane 60",
    "acetone 60 + isooctane 40",
    "ethyl-acetate 50 + isooctane 50",
    "toluene 50 + acetone 50",
    "ethyl-acetate",
    "propan-2-ol 50 + toluene 50",
    "ethanol 50 + isooctane 50",
};
enum { TESTS = 10, BLENDS = 14, PASSAGES = 3, NEXT_SITE = 40, PARTICLES = 800 };

struct bench {
    struct library lib;
    struct unifac_table groups;
    struct belief_plan *plans[2];
    struct belief_liquid *liquids[2][BLENDS];
    struct error err;
    struct random random;
};

static void open_bench(struct bench *bench) {
    tables_open_unifac(&bench->lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &bench->groups);
    struct belief_materials materials = {.lib = &bench->lib,
                                         .table = &bench->groups,
                                         .remove = {tables_material(&bench->lib, "dammar-aged")},
                                         .remove_count = 1,
                                         .spare = {tables_material(&bench->lib, "linseed-oil-film-young")},
                                         .spare_count = 1,
                                         .temp_k = FILMS_TEMP_K};
    for (int view = 0; view < 2; view++) {
        stop_unless(belief_plan_make(&materials, (enum belief_view)view, &bench->plans[view], &bench->err),
                    &bench->err);
        for (size_t i = 0; i < BLENDS; i++) {
            struct blend blend = tables_blend(&bench->lib, notations[i]);
            stop_unless(belief_liquid_make(bench->plans[view], &blend, &bench->liquids[view][i], &bench->err),
                        &bench->err);
        }
    }
}

static void close_bench(struct bench *bench) {
    for (int view = 0; view < 2; view++) {
        for (size_t i = 0; i < BLENDS; i++)
            belief_liquid_release(bench->liquids[view][i]);
        belief_plan_release(bench->plans[view]);
    }
    tables_close_unifac(&bench->lib, &bench->groups);
}

static struct belief *learn(struct bench *bench, int view, const struct belief_test *tests, size_t count,
                            unsigned long seed) {
    struct belief *belief = NULL;
    stop_unless(belief_start(bench->plans[view], PARTICLES, seed, &belief, &bench->err), &bench->err);
    stop_unless(belief_learn(belief, tests, count, NULL, &bench->err), &bench->err);
    return belief;
}

// The smallest set of words that holds 90 %; the word on its edge belongs to it by lot, so that the share is 90 %.
static bool in_smallest_set(const double *p_words, int word, struct random *random) {
    bool taken[BELIEF_WORDS] = {false};
    for (double left = 0.9;;) {
        int best = -1;
        for (int i = 0; i < BELIEF_WORDS; i++)
            if (!taken[i] && (best < 0 || p_words[i] > p_words[best]))
                best = i;
        taken[best] = true;
        bool edge = p_words[best] >= left;
        if (best == word)
            return !edge || random_uniform(random) < left / p_words[best];
        left -= p_words[best];
        if (edge)
            return false;
    }
}

static void score_regions(const struct belief *belief, const struct varnish *truth, struct calibration *ret,
                          struct error *err) {
    double parameters[BELIEF_PARAMETERS];
    for (size_t m = 0; m < 2; m++) {
        varnish_parameters(truth, m, parameters);
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
            struct belief_interval interval;
            stop_unless(belief_posterior(belief, m, i, &interval, err), err);
            (m ? ret->paint_covered : ret->target_covered)[i] +=
                parameters[i] >= interval.least && parameters[i] <= interval.most;
        }
    }
}

static void score_next(struct bench *bench, int view, const struct belief *belief, const struct belief *before,
                       const struct varnish *truth, struct belief_liquid *const *true_liquids,
                       struct calibration *ret) {
    for (size_t i = TESTS; i < BLENDS; i++) {
        struct belief_forecast after, prior;
        int result, colour;
        belief_forecast(belief, bench->liquids[view][i], 0, 0, 20, 6, &after);
        belief_forecast(before, bench->liquids[view][i], 0, 0, 20, 6, &prior);
        varnish_test(truth, 0, true_liquids[i], 0, NEXT_SITE, 20, 6, &bench->random, &result, &colour);
        double worked = result >= RESULT_PARTLY_REMOVED;
        ret->brier += (after.p_works - worked) * (after.p_works - worked) / (BLENDS - TESTS);
        ret->brier_prior += (prior.p_works - worked) * (prior.p_works - worked) / (BLENDS - TESTS);
        ret->next_covered += in_smallest_set(after.p_words, result, &bench->random) / (double)(BLENDS - TESTS);
    }
}

static void score_warnings(struct bench *bench, const struct belief *belief, const struct belief *other,
                           struct calibration *ret) {
    struct belief_conflict conflict;
    struct belief_diagnostics own, others;
    stop_unless(belief_contradiction(belief, 0, &conflict, &bench->err), &bench->err);
    stop_unless(belief_diagnose(belief, 0, &own, &bench->err), &bench->err);
    stop_unless(belief_diagnose(other, 0, &others, &bench->err), &bench->err);
    bool odd = false;
    for (size_t i = 0; i < TESTS; i++)
        odd = odd || belief_surprise(belief, 0, i) < LEARN_ODD;
    bool model = conflict.p_value < BELIEF_CONFLICT;
    bool view = exp(others.log_evidence - own.log_evidence) > LEARN_OTHER_RATIO;
    ret->warned_odd += odd, ret->warned_model += model, ret->warned_view += view;
    ret->warned += odd || model || view;
}

static void one_varnish(struct bench *bench, int view, enum calibration_truth kind, unsigned long seed,
                        struct calibration *ret) {
    int true_view = kind == TRUTH_OF_OTHER_VIEW ? 1 - view : view;
    struct varnish truth;
    struct belief_test tests[2][TESTS];
    varnish_draw(bench->plans[true_view], &bench->random, &truth);
    size_t wrong = kind == TRUTH_MISLABELLED ? random_below(&bench->random, TESTS) : TESTS;
    for (size_t i = 0; i < TESTS; i++) {
        int result, colour;
        varnish_test(&truth, 0, bench->liquids[true_view][i], i % PASSAGES, i % PASSAGES, 20, 6, &bench->random,
                     &result, &colour);
        if (i == wrong)
            result = (result + 1 + (int)random_below(&bench->random, BELIEF_WORDS - 1)) % BELIEF_WORDS;
        for (int v = 0; v < 2; v++)
            tests[v][i] = (struct belief_test){.liquid = bench->liquids[v][i],
                                               .contact_s = 20,
                                               .rolls = 6,
                                               .result = result,
                                               .colour = colour,
                                               .passage = i % PASSAGES,
                                               .site = i % PASSAGES};
    }
    struct belief *belief = learn(bench, view, tests[view], TESTS, seed);
    struct belief *other = learn(bench, 1 - view, tests[1 - view], TESTS, seed);
    struct belief *before = learn(bench, view, NULL, 0, seed);
    score_regions(belief, &truth, ret, &bench->err);
    score_next(bench, view, belief, before, &truth, bench->liquids[true_view], ret);
    score_warnings(bench, belief, other, ret);
    belief_release(belief);
    belief_release(other);
    belief_release(before);
}

void calibrate(enum belief_view view, enum calibration_truth truth, size_t varnishes, struct calibration *ret) {
    static struct bench bench; // large
    bench.random.state = 20261125 + 10 * (uint64_t)truth + (uint64_t)view;
    open_bench(&bench);
    *ret = (struct calibration){.varnishes = varnishes};
    for (size_t k = 0; k < varnishes; k++)
        one_varnish(&bench, (int)view, truth, k + 1, ret);
    close_bench(&bench);
    double *const sums[] = {&ret->next_covered, &ret->brier,      &ret->brier_prior, &ret->warned,
                            &ret->warned_model, &ret->warned_odd, &ret->warned_view};
    for (size_t i = 0; i < sizeof sums / sizeof sums[0]; i++)
        *sums[i] /= (double)varnishes;
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        ret->target_covered[i] /= (double)varnishes, ret->paint_covered[i] /= (double)varnishes;
}

void calibration_print(enum belief_view view, enum calibration_truth truth, const struct calibration *found) {
    const double *t = found->target_covered, *p = found->paint_covered;
    if (truth == TRUTH_OF_OTHER_VIEW)
        printf("(the fourth figure of varnish and paint says nothing: the views measure strength differently)\n");
    printf("by %s, %s, %zu varnishes: 90 %% sets cover: varnish %.2f %.2f %.2f %.2f, paint %.2f %.2f %.2f %.2f, next "
           "result %.3f; Brier %.3f, of the prior %.3f; warned %.2f (model %.2f, odd test %.2f, other view %.2f)\n",
           belief_view_words[view], calibration_truth_words[truth], found->varnishes, t[0], t[1], t[2], t[3], p[0],
           p[1], p[2], p[3], found->next_covered, found->brier, found->brier_prior, found->warned, found->warned_model,
           found->warned_odd, found->warned_view);
    fflush(stdout);
}
