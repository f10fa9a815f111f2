// SPDX-License-Identifier: GPL-3.0-or-later
// Sequential Monte Carlo: the likelihood of new evidence is let in by degrees.
#include "selection/belief_parts.h"

#include "base/memory.h"

#include <gsl/gsl_linalg.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_statistics.h>
#include <math.h>
#include <string.h>

// --- one run ---

enum { SWEEPS_MOST = 40, SWEEPS_LEAST = 4 };
// Moves go on until the parameters' correlation with where they stood is below these: on the way, and at the end.
static const double remembered_between = 0.7, remembered_last = 0.3;
static const double effective_least = 0.5;

struct run {
    struct belief_cloud *cloud;
    size_t first, count; // particles of this run
    size_t from;         // evidence from here is being let in
    gsl_rng *rng;
    double let_in;   // 0 to 1
    double *fresh;   // ln likelihood of that evidence, of all particles of the run
    double *before;  // particles as they stood before the moves; scratch of resampling
    double *scratch; // weights
    size_t *origin;
    double *factor; // Cholesky factor of the proposal, width x width
    double *mean;
    double *proposal, *noise;
    double log_evidence;
    size_t degrees;
    double scale, acceptance;
};

static double *particle(const struct run *run, size_t i) {
    return run->cloud->z + (run->first + i) * run->cloud->width;
}

// Of the evidence that is being let in.
static double likelihood(const struct run *run, const double *z) {
    struct belief_reading reading = belief_read(run->cloud, z);
    double sum = 0;
    for (size_t i = run->from; i < run->cloud->evidence_count; i++)
        sum += belief_log_likelihood(run->cloud, &run->cloud->evidence[i], &reading);
    return sum;
}

// Weights for one more degree; returns the effective number of them as a share, and the mean weight's logarithm.
static double weigh(const struct run *run, double degree, double *ret_log_mean) {
    double most = -INFINITY, sum = 0, squares = 0;
    for (size_t i = 0; i < run->count; i++)
        most = fmax(most, degree * run->fresh[i]);
    for (size_t i = 0; i < run->count; i++) {
        double w = run->scratch[i] = exp(degree * run->fresh[i] - most);
        sum += w, squares += w * w;
    }
    *ret_log_mean = most + log(sum / (double)run->count);
    return sum * sum / (squares * (double)run->count);
}

// The largest degree that leaves enough particles effective.
static double next_degree(const struct run *run) {
    double low = 0, high = 1 - run->let_in, log_mean;
    if (weigh(run, high, &log_mean) >= effective_least)
        return high;
    for (int i = 0; i < 40; i++) {
        double middle = 0.5 * (low + high);
        if (weigh(run, middle, &log_mean) >= effective_least)
            low = middle;
        else
            high = middle;
    }
    return fmax(low, 1e-6);
}

// Systematic resampling by the weights in scratch (Kitagawa, J. Comput. Graph. Stat. 5 (1996) 1, from memory).
static void resample(struct run *run) {
    struct belief_cloud *cloud = run->cloud;
    size_t width = cloud->width, n = run->count;
    double sum = 0, reached = 0;
    for (size_t i = 0; i < n; i++)
        sum += run->scratch[i];
    double step = sum / (double)n, at = step * gsl_rng_uniform(run->rng);
    for (size_t i = 0, k = 0; i < n; i++, at += step) {
        while (k + 1 < n && reached + run->scratch[k] < at)
            reached += run->scratch[k++];
        run->origin[i] = k;
    }
    memcpy(run->before, particle(run, 0), n * width * sizeof *run->before);
    memcpy(run->scratch, run->fresh, n * sizeof *run->scratch);
    for (size_t i = 0; i < n; i++) {
        memcpy(particle(run, i), run->before + run->origin[i] * width, width * sizeof *run->before);
        run->fresh[i] = run->scratch[run->origin[i]];
    }
    memcpy(run->scratch, cloud->known + run->first, n * sizeof *run->scratch);
    for (size_t i = 0; i < n; i++) {
        cloud->known[run->first + i] = run->scratch[run->origin[i]];
        run->origin[i] = cloud->ancestor[run->first + run->origin[i]];
    }
    memcpy(cloud->ancestor + run->first, run->origin, n * sizeof *run->origin);
}

// Covariance of the particles, factorised.
static void shape_proposal(struct run *run) {
    size_t width = run->cloud->width, n = run->count;
    memset(run->mean, 0, width * sizeof *run->mean);
    memset(run->factor, 0, width * width * sizeof *run->factor);
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < width; j++)
            run->mean[j] += particle(run, i)[j] / (double)n;
    for (size_t i = 0; i < n; i++)
        for (size_t j = 0; j < width; j++)
            for (size_t k = 0; k <= j; k++)
                run->factor[j * width + k] +=
                    (particle(run, i)[j] - run->mean[j]) * (particle(run, i)[k] - run->mean[k]) / (double)n;
    for (size_t j = 0; j < width; j++) {
        for (size_t k = 0; k < j; k++)
            run->factor[k * width + j] = run->factor[j * width + k];
        run->factor[j * width + j] += 1e-4; // a few particles must not forbid a direction
    }
    gsl_matrix_view view = gsl_matrix_view_array(run->factor, width, width);
    gsl_linalg_cholesky_decomp1(&view.matrix);
}

static double square_length(const double *z, size_t width) {
    double sum = 0;
    for (size_t i = 0; i < width; i++)
        sum += z[i] * z[i];
    return sum;
}

// One Metropolis step of one particle; true when it moved. No likelihood is above 1, so that a gain only falls with
// every test added: what is lost after some tests needs no others.
static bool move(struct run *run, size_t i) {
    struct belief_cloud *cloud = run->cloud;
    size_t width = cloud->width;
    double *z = particle(run, i), scale = run->scale * (gsl_rng_uniform(run->rng) < 0.25 ? 0.2 : 1);
    for (size_t j = 0; j < width; j++)
        run->noise[j] = scale * gsl_ran_gaussian_ziggurat(run->rng, 1);
    for (size_t j = 0; j < width; j++) {
        run->proposal[j] = z[j];
        for (size_t k = 0; k <= j; k++)
            run->proposal[j] += run->factor[j * width + k] * run->noise[k];
    }
    struct belief_reading reading = belief_read(cloud, run->proposal);
    double prior = 0.5 * (square_length(z, width) - square_length(run->proposal, width));
    double known = 0, fresh = 0, least_gain = log(gsl_rng_uniform_pos(run->rng));
    for (size_t t = 0; t < cloud->evidence_count; t++) {
        *(t < run->from ? &known : &fresh) += belief_log_likelihood(cloud, &cloud->evidence[t], &reading);
        double gain = known - cloud->known[run->first + i] + run->let_in * (fresh - run->fresh[i]) + prior;
        if (!(least_gain < gain))
            return false;
    }
    memcpy(z, run->proposal, width * sizeof *z);
    cloud->known[run->first + i] = known;
    run->fresh[i] = fresh;
    return true;
}

// The largest correlation of a parameter with where it stood before the moves.
static double remembered(const struct run *run) {
    double most = 0;
    for (size_t j = 0; j < BELIEF_PARAMETERS; j++) {
        double together = gsl_stats_correlation(run->before + j, run->cloud->width, particle(run, 0) + j,
                                                run->cloud->width, run->count);
        most = fmax(most, isnan(together) ? 1 : together); // all at one place
    }
    return most;
}

static void move_all(struct run *run) {
    memcpy(run->before, particle(run, 0), run->count * run->cloud->width * sizeof *run->before);
    double enough = run->let_in < 1 ? remembered_between : remembered_last;
    for (int sweep = 1; sweep <= SWEEPS_MOST; sweep++) {
        size_t moved = 0;
        for (size_t i = 0; i < run->count; i++)
            moved += move(run, i);
        run->acceptance = (double)moved / (double)run->count;
        run->scale *= run->acceptance < 0.2 ? 0.8 : run->acceptance > 0.4 ? 1.2 : 1;
        if (sweep >= SWEEPS_LEAST && sweep % 4 == 0 && remembered(run) < enough)
            return;
    }
}

static enum status let_in(struct run *run, const struct watch *watch, struct error *err) {
    for (size_t i = 0; i < run->count; i++)
        run->fresh[i] = likelihood(run, particle(run, i));
    while (run->let_in < 1) {
        if (watch && watch_cancelled(watch))
            return error_set(err, STATUS_INTERRUPTED, "interrupted");
        double degree = next_degree(run), log_mean;
        weigh(run, degree, &log_mean);
        run->let_in = degree >= 1 - run->let_in ? 1 : run->let_in + degree;
        run->log_evidence += log_mean;
        run->degrees++;
        resample(run);
        shape_proposal(run);
        move_all(run);
    }
    for (size_t i = 0; i < run->count; i++)
        run->cloud->known[run->first + i] += run->fresh[i];
    return STATUS_OK;
}

static bool make_room(struct run *run) {
    size_t width = run->cloud->width, n = run->count;
    run->fresh = memory_new(n, sizeof *run->fresh);
    run->before = memory_new(n * width, sizeof *run->before);
    run->scratch = memory_new(n, sizeof *run->scratch);
    run->origin = memory_new(n, sizeof *run->origin);
    run->factor = memory_new(width * width, sizeof *run->factor);
    run->mean = memory_new(3 * width, sizeof *run->mean);
    run->proposal = run->mean + width;
    run->noise = run->mean + 2 * width;
    return run->rng && run->fresh && run->before && run->scratch && run->origin && run->factor && run->mean;
}

static void release_room(struct run *run) {
    belief_generator_release(run->rng);
    memory_free(run->fresh);
    memory_free(run->before);
    memory_free(run->scratch);
    memory_free(run->origin);
    memory_free(run->factor);
    memory_free(run->mean);
}

enum status belief_let_in(struct belief_cloud *cloud, size_t first, unsigned long seed, unsigned long stream,
                          const struct watch *watch, struct error *err) {
    enum status status = STATUS_OK;
    cloud->degrees = 0;
    cloud->acceptance = 1;
    for (size_t r = 0; r < BELIEF_RUNS && status == STATUS_OK; r++) {
        size_t begin = r * cloud->count / BELIEF_RUNS, end = (r + 1) * cloud->count / BELIEF_RUNS;
        struct run run = {.cloud = cloud,
                          .first = begin,
                          .count = end - begin,
                          .from = first,
                          .scale = 2.38 / sqrt((double)cloud->width), // Roberts, Gelman & Gilks 1997, from memory
                          .rng = belief_generator(seed, stream * BELIEF_RUNS + r)};
        status = make_room(&run) ? let_in(&run, watch, err) : error_set(err, STATUS_MEMORY, "out of memory to learn");
        cloud->log_evidence[r] += run.log_evidence;
        cloud->degrees = run.degrees > cloud->degrees ? run.degrees : cloud->degrees;
        cloud->acceptance = fmin(cloud->acceptance, run.acceptance);
        release_room(&run);
    }
    return status;
}
