// SPDX-License-Identifier: GPL-3.0-or-later
#include "ladder_trial.h"

#include "casefile/casefile.h"
#include "selection/ladder_judge.h"
#include "tables.h"
#include "varnishes.h"

#include <stdlib.h>
#include <string.h>

enum { SHARES = 101, PARTICLES = 500, ROLLS = 6 };

static const double contact_s = 20;
static const double shift_mpa05 = 2;

// The pair in one view.
struct pair {
    struct belief_plan *plan;
    struct belief_liquid *liquids[SHARES];
};

struct trial {
    const struct trial_request *request;
    struct library lib;
    struct unifac_table table;
    struct pair tool, target, film; // of the belief, of the varnish's truth, of the paint
    double p_works[SHARES];         // of this varnish
    double words[SHARES][BELIEF_WORDS];
    double paint[SHARES]; // swelling
    unsigned long varnish;
};

static void open_pair(struct trial *trial, enum belief_view view, struct pair *ret) {
    struct belief_materials materials = {.lib = &trial->lib,
                                         .table = &trial->table,
                                         .remove = {tables_material(&trial->lib, trial->request->remove)},
                                         .remove_count = 1,
                                         .spare = {tables_material(&trial->lib, trial->request->spare)},
                                         .spare_count = 1,
                                         .temp_k = 293.15};
    struct error err = {0};
    stop_unless(belief_plan_make(&materials, view, &ret->plan, &err), &err);
    for (int i = 0; i < SHARES; i++) {
        char notation[128];
        snprintf(notation, sizeof notation, "%s %d + %s %d", trial->request->strong, i, trial->request->weak, 100 - i);
        if (i == 0 || i == 100)
            snprintf(notation, sizeof notation, "%s", i ? trial->request->strong : trial->request->weak);
        struct blend blend = tables_blend(&trial->lib, notation);
        stop_unless(belief_liquid_make(ret->plan, &blend, &ret->liquids[i], &err), &err);
    }
}

static void close_pair(struct pair *pair) {
    for (int i = 0; i < SHARES; i++)
        belief_liquid_release(pair->liquids[i]);
    belief_plan_release(pair->plan);
}

// --- one varnish ---

// Parameters over the tables' uncertainty are what a varnish is drawn in.
static void shift(struct varnish *varnish, struct random *random) {
    double way[3];
    double length = 0;
    for (int k = 0; k < 3; k++) {
        way[k] = random_normal(random);
        length += way[k] * way[k];
    }
    for (int k = 0; k < 3; k++)
        varnish->z[0][k] += shift_mpa05 * way[k] / sqrt(length) / varnish->plan->items[0].sd[k];
}

static void look_at(struct trial *trial, struct random *random) {
    struct varnish varnish;
    struct varnish paint;
    varnish_draw(trial->target.plan, random, &varnish);
    varnish_draw(trial->film.plan, random, &paint);
    if (trial->request->truth == TRIAL_SHIFTED)
        shift(&varnish, random);
    double of_paint[BELIEF_PARAMETERS];
    varnish_parameters(&paint, 1, of_paint);
    for (int i = 0; i < SHARES; i++) {
        size_t site = (size_t)i % VARNISH_SITES;
        varnish_words(&varnish, 0, trial->target.liquids[i], 0, site, contact_s, ROLLS, trial->words[i]);
        varnish.sites[0][site] = 0; // what works is judged without the chance of the site
        double p[BELIEF_WORDS];
        varnish_words(&varnish, 0, trial->target.liquids[i], 0, site, contact_s, ROLLS, p);
        trial->p_works[i] = p[RESULT_PARTLY_REMOVED] + p[RESULT_REMOVED];
        trial->paint[i] = exp(belief_margin(trial->film.plan, trial->film.liquids[i], 1, of_paint));
    }
}

// The result of one blend on this varnish, the same whoever asks.
static int result_of(const struct trial *trial, int percent) {
    struct random random = {.state = (trial->request->seed * 1000003 + trial->varnish) * 131 + (unsigned)percent + 1};
    for (int i = 0; i < 8; i++)
        random_uniform(&random);
    double u = random_uniform(&random);
    int word = 0;
    for (; word < BELIEF_WORDS - 1 && u >= trial->words[percent][word]; word++)
        u -= trial->words[percent][word];
    return word;
}

// The weakest share that works more often than not; SHARES when there is none.
static int threshold_of(const struct trial *trial) {
    int i = 0;
    while (i < SHARES && trial->p_works[i] < 0.5)
        i++;
    return i;
}

struct climb {
    size_t tests;
    int last; // percent
    bool worked;
};

static struct climb climb_evenly(const struct trial *trial) {
    struct climb climb = {0};
    for (int percent = 0; percent <= 100 && !climb.worked; percent += LADDER_RISE_PERCENT) {
        climb.tests++;
        climb.last = percent;
        climb.worked = result_of(trial, percent) >= RESULT_PARTLY_REMOVED;
    }
    return climb;
}

// The rule, written down once more.
static bool against_rule(const struct ladder_direction *direction, int rung) {
    double last = direction->last_percent;
    if (rung * LADDER_STEP_PERCENT > (last < 0 ? 0 : last + 10) + 1e-9)
        return true;
    for (int i = 0; i < rung; i++)
        if (!direction->rungs[i].tested && !direction->rungs[i].idle && i * LADDER_STEP_PERCENT > last &&
            direction->rungs[i].p_works >= 0.3)
            return true;
    return false;
}

static struct climb climb_ladder(const struct trial *trial, size_t *broken) {
    struct ladder *ladder = calloc(1, sizeof *ladder);
    struct ladder_direction *direction = &ladder->directions[0];
    struct belief *belief;
    struct error err = {0};
    struct climb climb = {0};
    ladder->count = 1;
    ladder->touch_most = 1; // both series climb as far as they like
    direction->last_percent = -1;
    stop_unless(belief_start(trial->tool.plan, PARTICLES, trial->request->seed + trial->varnish, &belief, &err), &err);
    while (!climb.worked) {
        for (int i = 0; i < LADDER_RUNGS; i++)
            ladder_judge_rung(belief, trial->tool.liquids[i * LADDER_STEP_PERCENT], contact_s, ROLLS,
                              &direction->rungs[i]);
        ladder_arrange(ladder);
        int rung = ladder_step_of(ladder, 0).rung;
        if (rung == LADDER_NONE)
            break;
        *broken += against_rule(direction, rung);
        climb.last = rung * LADDER_STEP_PERCENT;
        climb.tests++;
        direction->rungs[rung].tested = true;
        direction->last_percent = climb.last;
        struct belief_test test = {.liquid = trial->tool.liquids[climb.last],
                                   .contact_s = contact_s,
                                   .rolls = ROLLS,
                                   .result = result_of(trial, climb.last),
                                   .colour = COLOUR_NOT_LOOKED,
                                   .target = 0,
                                   .passage = 0,
                                   .site = climb.tests};
        climb.worked = test.result >= RESULT_PARTLY_REMOVED;
        stop_unless(belief_learn(belief, &test, 1, NULL, &err), &err);
    }
    belief_release(belief);
    free(ladder);
    return climb;
}

// --- all of them ---

struct tally {
    size_t workable, hopeless, missed;
    double tests, tests_hopeless;
    double *overshoots;
};

static void count(struct tally *tally, const struct trial *trial, const struct climb *climb) {
    int threshold = threshold_of(trial);
    if (threshold == SHARES) {
        tally->hopeless++;
        tally->tests_hopeless += (double)climb->tests;
        return;
    }
    double over = trial->paint[climb->last] - trial->paint[threshold];
    tally->overshoots[tally->workable++] = climb->last > threshold && over > 0 ? over : 0;
    tally->tests += (double)climb->tests;
    tally->missed += !climb->worked;
}

static int ascending(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

static struct trial_series series_of(struct tally *tally) {
    struct trial_series series = {.tests_mean = tally->tests / (double)tally->workable,
                                  .tests_hopeless = tally->tests_hopeless / (double)tally->hopeless,
                                  .missed = (double)tally->missed / (double)tally->workable};
    qsort(tally->overshoots, tally->workable, sizeof *tally->overshoots, ascending);
    for (size_t i = 0; i < tally->workable; i++)
        series.overshoot_mean += tally->overshoots[i] / (double)tally->workable;
    series.overshoot_95 = tally->overshoots[(size_t)(0.95 * (double)(tally->workable - 1))];
    free(tally->overshoots);
    return series;
}

static enum belief_view other_view(enum belief_view view) {
    return view == BELIEF_FILM ? BELIEF_RED : BELIEF_FILM;
}

void trial_run(const struct trial_request *request, struct trial_result *ret) {
    static struct trial trial;
    struct tally even = {.overshoots = calloc(request->varnishes, sizeof(double))};
    struct tally ladder = {.overshoots = calloc(request->varnishes, sizeof(double))};
    struct random random = {.state = request->seed * 7919 + 17};
    memset(&trial, 0, sizeof trial);
    trial.request = request;
    *ret = (struct trial_result){0};
    tables_open_unifac(&trial.lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &trial.table);
    open_pair(&trial, request->view, &trial.tool);
    open_pair(&trial, request->truth == TRIAL_OTHER ? other_view(request->view) : request->view, &trial.target);
    open_pair(&trial, BELIEF_FILM, &trial.film);
    for (trial.varnish = 0; trial.varnish < request->varnishes; trial.varnish++) {
        look_at(&trial, &random);
        struct climb evenly = climb_evenly(&trial);
        struct climb adapted = climb_ladder(&trial, &ret->rule_broken);
        count(&even, &trial, &evenly);
        count(&ladder, &trial, &adapted);
        if (threshold_of(&trial) < SHARES) {
            ret->fewer += adapted.tests < evenly.tests;
            ret->more += adapted.tests > evenly.tests;
        }
    }
    ret->workable = even.workable;
    ret->fewer /= (double)even.workable;
    ret->more /= (double)even.workable;
    ret->even = series_of(&even);
    ret->ladder = series_of(&ladder);
    close_pair(&trial.tool);
    close_pair(&trial.target);
    close_pair(&trial.film);
    tables_close_unifac(&trial.lib, &trial.table);
}

void trial_heading(FILE *out) {
    fprintf(out, "%-30s %4s  %-13s %-15s %-15s %-13s %-13s %s\n", "pair; view; varnishes", "n", "tests",
            "overshoot mean", "overshoot 95 %", "ended without", "hopeless", "fewer/more tests");
    fprintf(out, "%-30s %4s  %-13s %-15s %-15s %-13s %-13s\n", "", "", "even ladder", "even  ladder", "even  ladder",
            "even ladder", "even ladder");
}

void trial_row(const struct trial_request *request, const struct trial_result *result, FILE *out) {
    static const char *const truths[] = {"prior", "shifted by 2", "other view"};
    char name[80];
    snprintf(name, sizeof name, "%s; %s; %s", request->strong, belief_view_words[request->view],
             truths[request->truth]);
    const struct trial_series *even = &result->even;
    const struct trial_series *ladder = &result->ladder;
    fprintf(out, "%-30s %4zu  %5.2f %6.2f  %6.3f %6.3f   %6.3f %6.3f   %5.2f %5.2f   %5.2f %5.2f   %.2f/%.2f\n", name,
            result->workable, even->tests_mean, ladder->tests_mean, even->overshoot_mean, ladder->overshoot_mean,
            even->overshoot_95, ladder->overshoot_95, even->missed, ladder->missed, even->tests_hopeless,
            ladder->tests_hopeless, result->fewer, result->more);
}
