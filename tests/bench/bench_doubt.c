// SPDX-License-Identifier: GPL-3.0-or-later
// Sampling the doubt of a list: 256 samples of 200 blends of three bottles, the shortest list and the fewest samples
// that count as full. On all processors, and on one, whose answer must be the same to the last bit.
#include "doubts.h"
#include "stopwatch.h"

#include <stdio.h>
#include <string.h>

enum { BLENDS = 200, SAMPLES = 256 };

static const double limit_s = 30, goal_s = 5; // wall time on two processors

static double run(struct doubts *doubts, int threads, struct doubt *ret, double *ret_wall) {
    doubts->request.threads = threads;
    double wall = seconds(CLOCK_MONOTONIC), used = seconds(CLOCK_PROCESS_CPUTIME_ID);
    doubts_sample(doubts, ret);
    *ret_wall = seconds(CLOCK_MONOTONIC) - wall;
    return seconds(CLOCK_PROCESS_CPUTIME_ID) - used;
}

int main(void) {
    static struct doubts doubts;
    static const char *const names[] = {"isooctane", "ethanol", "propan-2-ol", "acetone", "toluene", "ethyl-acetate"};
    struct doubt all = {0}, one = {0};
    doubts_open(&doubts);
    doubts_fill(&doubts, names, sizeof names / sizeof *names, 6, BLENDS);
    doubts.request.samples = SAMPLES;
    double wall, wall_one;
    double used = run(&doubts, crew_processors(), &all, &wall);
    double used_one = run(&doubts, 1, &one, &wall_one);
    double cells = (double)all.samples * (double)all.count;
    printf("%zu samples of %zu blends, aged dammar and young oil film\n", all.samples, all.count);
    printf("%d threads: %.2f s, processor time %.2f s; 1 thread: %.2f s, %.2f s\n", crew_processors(), wall, used,
           wall_one, used_one);
    printf("%.1f us a blend and sample (two films); goal %.0f s, limit %.0f s\n", 1e6 * used_one / cells, goal_s,
           limit_s);
    bool same = all.samples == one.samples &&
                memcmp(all.swelling, one.swelling, all.samples * all.count * sizeof *all.swelling) == 0;
    if (!same)
        printf("FAULT: the answers differ\n");
    bool fast = wall <= limit_s;
    doubt_release(&all);
    doubt_release(&one);
    doubts_release(&doubts);
    return same && fast ? 0 : 1;
}
