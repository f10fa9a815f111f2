// SPDX-License-Identifier: GPL-3.0-or-later
// Do the tests contradict the model?
#include "base/memory.h"
#include "selection/belief_parts.h"

#include <assert.h>
#include <gsl/gsl_randist.h>
#include <math.h>
#include <stdint.h>

enum { DRAWS = 3000, DATA_SETS = 400, STREAM_CONFLICT = 500 };

// ln probability of each word of each test at each draw from the prior, and data sets drawn from the same.
struct checking {
    const struct belief_cloud *cloud;
    gsl_rng *rng;
    double *ln_words; // DRAWS rows of tests x BELIEF_WORDS
    double *z;
    int *words;
};

static double *words_at(const struct checking *checking, size_t draw, size_t test) {
    return checking->ln_words + (draw * checking->cloud->evidence_count + test) * BELIEF_WORDS;
}

static void draw_prior(struct checking *checking) {
    const struct belief_cloud *cloud = checking->cloud;
    for (size_t n = 0; n < DRAWS; n++) {
        for (size_t j = 0; j < cloud->width; j++)
            checking->z[j] = gsl_ran_gaussian_ziggurat(checking->rng, 1);
        struct belief_reading reading = belief_read(cloud, checking->z);
        for (size_t t = 0; t < cloud->evidence_count; t++) {
            double *row = words_at(checking, n, t);
            size_t count = belief_evidence_words(cloud, &cloud->evidence[t], &reading, row);
            for (size_t k = 0; k < count; k++)
                row[k] = log(row[k]);
        }
    }
}

// ln of the mean over the draws, without the one that the data came from (SIZE_MAX = none).
static double log_probability(const struct checking *checking, const int *words, size_t left_out) {
    double most = -INFINITY, sum = 0;
    for (size_t n = 0; n < DRAWS; n++) {
        double ln = 0;
        for (size_t t = 0; t < checking->cloud->evidence_count; t++)
            ln += words_at(checking, n, t)[words[t]];
        if (n == left_out)
            continue;
        if (ln > most) {
            sum = sum * exp(most - ln) + 1;
            most = ln;
        } else {
            sum += exp(ln - most);
        }
    }
    return most + log(sum / (DRAWS - (left_out < DRAWS)));
}

static void draw_words(struct checking *checking, size_t draw) {
    for (size_t t = 0; t < checking->cloud->evidence_count; t++) {
        double u = gsl_rng_uniform(checking->rng), *row = words_at(checking, draw, t);
        int last = (int)checking->cloud->plan->items[checking->cloud->item].response.cut_count, word = 0;
        for (; word < last && u >= exp(row[word]); word++)
            u -= exp(row[word]);
        checking->words[t] = word;
    }
}

static double share_as_improbable(struct checking *checking) {
    const struct belief_cloud *cloud = checking->cloud;
    for (size_t t = 0; t < cloud->evidence_count; t++)
        checking->words[t] = cloud->evidence[t].word;
    double own = log_probability(checking, checking->words, SIZE_MAX);
    size_t as_improbable = 0;
    for (size_t k = 0; k < DATA_SETS; k++) {
        size_t draw = k * (DRAWS / DATA_SETS);
        draw_words(checking, draw);
        as_improbable += log_probability(checking, checking->words, draw) <= own;
    }
    return ((double)as_improbable + 1) / (DATA_SETS + 1);
}

enum status belief_contradiction(const struct belief *belief, size_t material, struct belief_conflict *ret,
                                 struct error *err) {
    const struct belief_cloud *cloud = &belief->clouds[material];
    if (cloud->evidence_count < 2) {
        *ret = (struct belief_conflict){.p_value = 1, .tests = cloud->evidence_count};
        return STATUS_OK;
    }
    struct checking checking = {
        .cloud = cloud,
        .rng = belief_generator(belief->seed, STREAM_CONFLICT + material),
        .ln_words = memory_new(DRAWS * cloud->evidence_count * BELIEF_WORDS, sizeof *checking.ln_words),
        .z = memory_new(cloud->width, sizeof *checking.z),
        .words = memory_new(cloud->evidence_count, sizeof *checking.words),
    };
    bool room = checking.rng && checking.ln_words && checking.z && checking.words;
    if (room) {
        draw_prior(&checking);
        *ret = (struct belief_conflict){.p_value = share_as_improbable(&checking), .tests = cloud->evidence_count};
    }
    belief_generator_release(checking.rng);
    memory_free(checking.ln_words);
    memory_free(checking.z);
    memory_free(checking.words);
    return room ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

size_t belief_tests(const struct belief *belief, size_t material) {
    return belief->clouds[material].evidence_count;
}

// The others' posterior is that of all with the test's own likelihood taken out again (Gelfand, Dey & Chang 1992, from
// memory).
double belief_surprise(const struct belief *belief, size_t material, size_t test) {
    const struct belief_cloud *cloud = &belief->clouds[material];
    const struct belief_evidence *evidence = &cloud->evidence[test];
    double below = 0, above = 0, total = 0, words[BELIEF_WORDS];
    assert(test < cloud->evidence_count);
    for (size_t i = 0; i < cloud->count; i++) {
        struct belief_reading reading = belief_read(cloud, cloud->z + i * cloud->width);
        size_t count = belief_evidence_words(cloud, evidence, &reading, words);
        double weight = 1 / words[evidence->word];
        total += weight;
        for (size_t k = 0; k < count; k++) {
            below += (int)k <= evidence->word ? weight * words[k] : 0;
            above += (int)k >= evidence->word ? weight * words[k] : 0;
        }
    }
    return fmin(below, above) / total;
}
