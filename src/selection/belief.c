// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief.h"

#include "base/memory.h"
#include "casefile/casefile.h"
#include "selection/belief_parts.h"

#include <assert.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_sort.h>
#include <gsl/gsl_statistics.h>
#include <math.h>
#include <string.h>

// Streams of random numbers: those of start and widening, then those of lessons.
enum { STREAM_START = 0, STREAM_LESSONS = 1000 };

// --- the start ---

static enum status start_cloud(struct belief *belief, size_t item, struct error *err) {
    struct belief_cloud *cloud = &belief->clouds[item];
    *cloud = (struct belief_cloud){
        .plan = belief->plan, .item = item, .count = belief->particles, .width = COORDINATES, .acceptance = NAN};
    cloud->z = memory_new(cloud->count * cloud->width, sizeof *cloud->z);
    cloud->known = memory_new(cloud->count, sizeof *cloud->known);
    cloud->ancestor = memory_new(cloud->count, sizeof *cloud->ancestor);
    cloud->places = memory_new(BELIEF_PLACES_MAX, sizeof *cloud->places);
    gsl_rng *rng = belief_generator(belief->seed, STREAM_START + item);
    bool room = cloud->z && cloud->known && cloud->ancestor && cloud->places && rng;
    for (size_t i = 0; room && i < cloud->count * cloud->width; i++)
        cloud->z[i] = gsl_ran_gaussian_ziggurat(rng, 1);
    for (size_t i = 0; room && i < cloud->count; i++)
        cloud->ancestor[i] = i;
    belief_generator_release(rng);
    return room ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory for %zu particles", cloud->count);
}

enum status belief_start(const struct belief_plan *plan, size_t particles, unsigned long seed, struct belief **ret,
                         struct error *err) {
    if (particles < 100 || particles > BELIEF_PARTICLES_MAX)
        return error_set(err, STATUS_RANGE, "%zu particles: 100 to %d are possible", particles, BELIEF_PARTICLES_MAX);
    struct belief *belief = memory_new(1, sizeof *belief);
    if (!belief)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *belief = (struct belief){.plan = plan, .particles = particles, .seed = seed};
    enum status status = STATUS_OK;
    for (size_t i = 0; i < plan->count && status == STATUS_OK; i++)
        status = start_cloud(belief, i, err);
    if (status == STATUS_OK)
        *ret = belief;
    else
        belief_release(belief);
    return status;
}

void belief_release(struct belief *belief) {
    if (!belief)
        return;
    for (size_t i = 0; i < belief->plan->count; i++) {
        struct belief_cloud *cloud = &belief->clouds[i];
        memory_free(cloud->z);
        memory_free(cloud->known);
        memory_free(cloud->ancestor);
        memory_free(cloud->places);
        memory_free(cloud->evidence);
    }
    memory_free(belief);
}

// --- tests as evidence ---

// How likely a blend reached what lies below, by the result: estimates. Where the varnish still stands, clean swabs say
// nothing about the paint.
static const double exposed_by_result[BELIEF_WORDS] = {0.02, 0.05, 0.25, 0.7, 0.95};

static size_t place_number(struct belief_cloud *cloud, size_t passage, size_t site) {
    size_t i = 0;
    while (i < cloud->place_count && (cloud->places[i].passage != passage || cloud->places[i].site != site))
        i++;
    if (i < BELIEF_PLACES_MAX && i == cloud->place_count)
        cloud->places[cloud->place_count++] = (struct belief_place){passage, site};
    return i;
}

static enum status add_evidence(struct belief_cloud *cloud, const struct belief_test *test, int word,
                                struct error *err) {
    if (cloud->evidence_count == cloud->evidence_capacity) {
        size_t capacity = cloud->evidence_capacity ? 2 * cloud->evidence_capacity : 16;
        void *more = memory_resize(cloud->evidence, capacity, sizeof *cloud->evidence);
        if (!more)
            return error_set(err, STATUS_MEMORY, "out of memory for the tests");
        cloud->evidence = more;
        cloud->evidence_capacity = capacity;
    }
    size_t passage = place_number(cloud, test->passage, BELIEF_NONE);
    size_t site = place_number(cloud, test->passage, test->site);
    if (passage == BELIEF_PLACES_MAX || site == BELIEF_PLACES_MAX)
        return error_set(err, STATUS_RANGE, "tests at more than %d passages and sites", BELIEF_PLACES_MAX);
    cloud->evidence[cloud->evidence_count++] = (struct belief_evidence){
        .liquid = test->liquid,
        .ln_contact = test->contact_s > 0 ? log(test->contact_s / BELIEF_CONTACT_S) : 0,
        .ln_rolls = test->rolls > 0 ? log((double)test->rolls / BELIEF_ROLLS) : 0,
        .word = word,
        .exposed = exposed_by_result[test->result],
        .passage = COORDINATES + passage,
        .site = COORDINATES + site,
    };
    return STATUS_OK;
}

static enum status add_test(struct belief *belief, const struct belief_test *test, struct error *err) {
    assert(test->liquid->plan == belief->plan && test->result >= 0 && test->result < BELIEF_WORDS);
    size_t targets = belief->plan->given.remove_count;
    enum status status = STATUS_OK;
    if (test->target < targets)
        status = add_evidence(&belief->clouds[test->target], test, test->result, err);
    if (test->colour == COLOUR_NOT_LOOKED)
        return status;
    int original = test->colour == COLOUR_ORIGINAL || test->colour == COLOUR_UNSURE;
    for (size_t i = targets; i < belief->plan->count && status == STATUS_OK; i++)
        status = add_evidence(&belief->clouds[i], test, original, err);
    return status;
}

// --- learning ---

// Effects of passages and sites that are new, drawn from their prior.
static enum status widen(struct belief_cloud *cloud, unsigned long seed, unsigned long stream, struct error *err) {
    size_t width = COORDINATES + cloud->place_count;
    if (width == cloud->width)
        return STATUS_OK;
    double *wider = memory_new(cloud->count * width, sizeof *wider);
    gsl_rng *rng = belief_generator(seed, stream);
    for (size_t i = 0; wider && rng && i < cloud->count; i++) {
        memcpy(wider + i * width, cloud->z + i * cloud->width, cloud->width * sizeof *wider);
        for (size_t j = cloud->width; j < width; j++)
            wider[i * width + j] = gsl_ran_gaussian_ziggurat(rng, 1);
    }
    bool room = wider && rng;
    belief_generator_release(rng);
    if (!room) {
        memory_free(wider);
        return error_set(err, STATUS_MEMORY, "out of memory to learn");
    }
    memory_free(cloud->z);
    cloud->z = wider;
    cloud->width = width;
    return STATUS_OK;
}

static enum status learn_cloud(struct belief *belief, size_t item, size_t first, const struct watch *watch,
                               struct error *err) {
    struct belief_cloud *cloud = &belief->clouds[item];
    if (cloud->evidence_count == first)
        return STATUS_OK;
    unsigned long stream = STREAM_LESSONS + 2 * (belief->lessons * BELIEF_ITEMS_MAX + item);
    enum status status = widen(cloud, belief->seed, stream * BELIEF_RUNS, err);
    if (status == STATUS_OK)
        status = belief_let_in(cloud, first, belief->seed, stream + 1, watch, err);
    if (watch && watch->progress)
        watch->progress(watch->context, (double)(item + 1) / (double)belief->plan->count);
    return status;
}

enum status belief_learn(struct belief *belief, const struct belief_test *tests, size_t count,
                         const struct watch *watch, struct error *err) {
    size_t first[BELIEF_ITEMS_MAX];
    enum status status = STATUS_OK;
    for (size_t i = 0; i < belief->plan->count; i++)
        first[i] = belief->clouds[i].evidence_count;
    for (size_t i = 0; i < count && status == STATUS_OK; i++)
        status = add_test(belief, &tests[i], err);
    for (size_t i = 0; i < belief->plan->count && status == STATUS_OK; i++) {
        if (belief->clouds[i].evidence_count > BELIEF_TESTS_MAX)
            status = error_set(err, STATUS_RANGE, "more than %d tests to learn from", BELIEF_TESTS_MAX);
        else
            status = learn_cloud(belief, i, first[i], watch, err);
    }
    belief->lessons++;
    return status;
}

// --- forecasts ---

struct outlook {
    double p_words[BELIEF_WORDS];
    double margin, margin_sd;
};

size_t belief_known_passage(const struct belief_cloud *cloud, size_t passage) {
    for (size_t i = 0; i < cloud->place_count; i++)
        if (passage != BELIEF_NONE && cloud->places[i].passage == passage && cloud->places[i].site == BELIEF_NONE)
            return COORDINATES + i;
    return BELIEF_NONE;
}

static void look_ahead(const struct belief_cloud *cloud, const struct belief_liquid *liquid, size_t passage,
                       double ln_contact, double ln_rolls, struct outlook *ret) {
    const struct belief_item *item = &cloud->plan->items[cloud->item];
    size_t effect = belief_known_passage(cloud, passage);
    double noise =
        sqrt(1 + BELIEF_SITE_SD * BELIEF_SITE_SD + (effect == BELIEF_NONE ? BELIEF_PASSAGE_SD * BELIEF_PASSAGE_SD : 0));
    double sum = 0, squares = 0, n = (double)cloud->count;
    *ret = (struct outlook){0};
    for (size_t i = 0; i < cloud->count; i++) {
        const double *z = cloud->z + i * cloud->width;
        double parameters[BELIEF_PARAMETERS], p[BELIEF_WORDS];
        belief_parameters(item, z, parameters);
        double margin = belief_margin(cloud->plan, liquid, cloud->item, parameters);
        double e =
            belief_response(&item->response, z, belief_sharpness(&item->response, z), margin, ln_contact, ln_rolls) +
            (effect == BELIEF_NONE ? 0 : BELIEF_PASSAGE_SD * z[effect]);
        belief_word_probabilities(&item->response, e, noise, p);
        for (size_t k = 0; k <= item->response.cut_count; k++)
            ret->p_words[k] += p[k] / n;
        sum += margin, squares += margin * margin;
    }
    ret->margin = sum / n;
    ret->margin_sd = sqrt(fmax(squares / n - ret->margin * ret->margin, 0));
}

void belief_forecast(const struct belief *belief, const struct belief_liquid *liquid, size_t target, size_t passage,
                     double contact_s, int rolls, struct belief_forecast *ret) {
    const struct belief_plan *plan = belief->plan;
    double ln_contact = contact_s > 0 ? log(contact_s / BELIEF_CONTACT_S) : 0;
    double ln_rolls = rolls > 0 ? log((double)rolls / BELIEF_ROLLS) : 0, least = INFINITY, spared = 1, most = -1;
    struct belief_forecast forecast = {.p_works = 1, .p_removed = 1, .paint = NAN, .paint_sd = NAN};
    struct outlook outlook;
    assert(liquid->plan == plan && (target == BELIEF_NONE || target < plan->given.remove_count));
    for (size_t i = 0; i < plan->given.remove_count; i++) {
        if (target != BELIEF_NONE && i != target)
            continue;
        look_ahead(&belief->clouds[i], liquid, passage, ln_contact, ln_rolls, &outlook);
        double works = outlook.p_words[RESULT_PARTLY_REMOVED] + outlook.p_words[RESULT_REMOVED];
        forecast.p_works *= works;
        forecast.p_removed *= outlook.p_words[RESULT_REMOVED];
        if (works >= least)
            continue;
        least = works;
        memcpy(forecast.p_words, outlook.p_words, sizeof forecast.p_words);
        forecast.margin = outlook.margin - plan->items[i].response.level;
        forecast.margin_sd = outlook.margin_sd;
    }
    for (size_t i = plan->given.remove_count; i < plan->count; i++) {
        look_ahead(&belief->clouds[i], liquid, passage, ln_contact, ln_rolls, &outlook);
        spared *= 1 - outlook.p_words[1];
        if (outlook.p_words[1] <= most)
            continue;
        most = outlook.p_words[1];
        forecast.paint = outlook.margin;
        forecast.paint_sd = outlook.margin_sd;
    }
    forecast.p_touches = 1 - spared;
    *ret = forecast;
}

// --- what it says of a material ---

static const double reach_90 = 1.6448536269514722; // 95 % of the normal distribution

void belief_prior(const struct belief_plan *plan, size_t material, size_t parameter, struct belief_interval *ret) {
    assert(material < plan->count && parameter < BELIEF_PARAMETERS);
    double mean = plan->items[material].mean[parameter], sd = plan->items[material].sd[parameter];
    *ret = (struct belief_interval){mean, sd, mean, mean - reach_90 * sd, mean + reach_90 * sd};
}

size_t belief_particles(const struct belief *belief) {
    return belief->particles;
}

void belief_particle(const struct belief *belief, size_t material, size_t particle, double ret[BELIEF_PARAMETERS]) {
    const struct belief_cloud *cloud = &belief->clouds[material];
    assert(material < belief->plan->count && particle < cloud->count);
    belief_parameters(&belief->plan->items[material], cloud->z + particle * cloud->width, ret);
}

void belief_interval_of(double *values, size_t count, struct belief_interval *ret) {
    gsl_sort(values, 1, count);
    *ret = (struct belief_interval){
        .mean = gsl_stats_mean(values, 1, count),
        .sd = gsl_stats_sd(values, 1, count),
        .median = gsl_stats_quantile_from_sorted_data(values, 1, count, 0.5),
        .least = gsl_stats_quantile_from_sorted_data(values, 1, count, 0.05),
        .most = gsl_stats_quantile_from_sorted_data(values, 1, count, 0.95),
    };
}

enum status belief_posterior(const struct belief *belief, size_t material, size_t parameter,
                             struct belief_interval *ret, struct error *err) {
    size_t n = belief->particles;
    double *values = memory_new(n, sizeof *values), parameters[BELIEF_PARAMETERS];
    if (!values)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < n; i++) {
        belief_particle(belief, material, i, parameters);
        values[i] = parameters[parameter];
    }
    belief_interval_of(values, n, ret);
    memory_free(values);
    return STATUS_OK;
}

enum status belief_passage(const struct belief *belief, size_t material, size_t passage, struct belief_interval *ret,
                           struct error *err) {
    const struct belief_cloud *cloud = &belief->clouds[material];
    size_t effect = belief_known_passage(cloud, passage);
    if (effect == BELIEF_NONE) {
        *ret = (struct belief_interval){0, BELIEF_PASSAGE_SD, 0, -reach_90 * BELIEF_PASSAGE_SD,
                                        reach_90 * BELIEF_PASSAGE_SD};
        return STATUS_OK;
    }
    double *values = memory_new(cloud->count, sizeof *values);
    if (!values)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < cloud->count; i++)
        values[i] = BELIEF_PASSAGE_SD * cloud->z[i * cloud->width + effect];
    belief_interval_of(values, cloud->count, ret);
    memory_free(values);
    return STATUS_OK;
}

// --- diagnostics ---

// Effective number for one coordinate: the variance of the mean is that between families, particles with a common
// ancestor (Chan & Lai, Ann. Stat. 41 (2013) 2877; Lee & Whiteley, Biometrika 105 (2018) 609; from memory).
static double effective_number(const struct belief_cloud *cloud, size_t coordinate, double *families) {
    double mean = 0, square = 0, between = 0, n = (double)cloud->count;
    for (size_t i = 0; i < cloud->count; i++)
        mean += cloud->z[i * cloud->width + coordinate] / n;
    memset(families, 0, cloud->count * sizeof *families);
    for (size_t i = 0; i < cloud->count; i++) {
        double away = cloud->z[i * cloud->width + coordinate] - mean;
        families[cloud->ancestor[i]] += away;
        square += away * away;
    }
    for (size_t i = 0; i < cloud->count; i++)
        between += families[i] * families[i];
    return between > 0 ? fmin(square / between, 1) * n : 0;
}

// Gelman & Rubin, Stat. Sci. 7 (1992) 457 (from memory), over the independent runs.
static double r_hat(const struct belief_cloud *cloud, size_t coordinate) {
    double within = 0, means[BELIEF_RUNS];
    for (size_t r = 0; r < BELIEF_RUNS; r++) {
        size_t begin = r * cloud->count / BELIEF_RUNS, end = (r + 1) * cloud->count / BELIEF_RUNS;
        const double *first = cloud->z + begin * cloud->width + coordinate;
        means[r] = gsl_stats_mean(first, cloud->width, end - begin);
        within += gsl_stats_variance(first, cloud->width, end - begin) / BELIEF_RUNS;
    }
    return within > 0 ? sqrt(1 + gsl_stats_variance(means, 1, BELIEF_RUNS) / within) : 1;
}

enum status belief_diagnose(const struct belief *belief, size_t material, struct belief_diagnostics *ret,
                            struct error *err) {
    const struct belief_cloud *cloud = &belief->clouds[material];
    double *families = memory_new(cloud->count, sizeof *families), most = -INFINITY, sum = 0;
    if (!families)
        return error_set(err, STATUS_MEMORY, "out of memory");
    struct belief_diagnostics found = {
        .effective = (double)cloud->count, .degrees = cloud->degrees, .acceptance = cloud->acceptance};
    for (size_t j = 0; j < BELIEF_PARAMETERS; j++) {
        found.effective = fmin(found.effective, effective_number(cloud, j, families));
        found.r_hat = fmax(found.r_hat, r_hat(cloud, j));
    }
    for (size_t r = 0; r < BELIEF_RUNS; r++)
        most = fmax(most, cloud->log_evidence[r]);
    for (size_t r = 0; r < BELIEF_RUNS; r++)
        sum += exp(cloud->log_evidence[r] - most) / BELIEF_RUNS;
    found.log_evidence = most + log(sum);
    *ret = found;
    memory_free(families);
    return STATUS_OK;
}
