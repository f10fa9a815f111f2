// SPDX-License-Identifier: GPL-3.0-or-later
// The search by distance against trying everything, on invented shelves.
#include "properties.h"
#include "selection/search.h"
#include "shelf.h"

#include <stdlib.h>

enum { TRIED_MOST = 4096, ROWS_ASKED = 40 };

struct tried {
    double best[TRIED_MOST]; // of every set of bottles with a blend that passes
    size_t sets;
    double nearest_red; // least of the largest RED over all blends
    double passing;
    bool edge; // some blend lies on the edge of a region to the last digits
};

// One blend: the mean by hand, its RED to what is removed and Ra to what is spared.
static void try_blend(const struct goal *goal, const int *bottles, const int *steps, int count, struct tried *tried,
                      double *ret_best) {
    struct hansen mean = {0, 0, 0};
    for (int i = 0; i < count; i++) {
        struct hansen place = hansen_of_component(goal->bottles[bottles[i]].component);
        double share = (double)steps[i] / goal->steps;
        mean.delta_d += share * place.delta_d;
        mean.delta_p += share * place.delta_p;
        mean.delta_h += share * place.delta_h;
    }
    double red = 0, ra = INFINITY;
    for (size_t i = 0; i < goal->remove_count; i++)
        red = fmax(red, hansen_red(mean, &goal->remove[i]->sphere));
    for (size_t i = 0; i < goal->spare_count; i++)
        ra = fmin(ra, hansen_distance(mean, hansen_of_sphere(&goal->spare[i]->sphere)));
    tried->nearest_red = fmin(tried->nearest_red, red);
    tried->edge = tried->edge || fabs(red - (1 - goal->margin)) < 1e-9;
    if (red > 1 - goal->margin)
        return;
    tried->passing++;
    *ret_best = fmax(*ret_best, ra);
}

// All shares of one set, by counting in base `steps`.
static void try_set(const struct goal *goal, const int *bottles, int count, struct tried *tried) {
    int steps[GOAL_COMPONENTS_MAX];
    long codes = 1;
    double best = -1;
    for (int i = 1; i < count; i++)
        codes *= goal->steps;
    for (long code = 0; code < codes; code++) {
        long rest = code;
        int left = goal->steps;
        for (int i = 0; i < count - 1; i++) {
            steps[i] = (int)(rest % goal->steps) + 1;
            rest /= goal->steps;
            left -= steps[i];
        }
        steps[count - 1] = left;
        if (left >= 1)
            try_blend(goal, bottles, steps, count, tried, &best);
    }
    if (best >= 0)
        tried->best[tried->sets++] = best;
}

static int larger_first(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return x > y ? -1 : x < y;
}

static void try_everything(const struct goal *goal, struct tried *tried) {
    *tried = (struct tried){.nearest_red = INFINITY};
    for (unsigned mask = 1; mask < 1u << goal->bottle_count; mask++) {
        int bottles[GOAL_BOTTLES_MAX], count = 0;
        for (int i = 0; i < (int)goal->bottle_count; i++)
            if (mask >> i & 1)
                bottles[count++] = i;
        if (count <= goal->components_most)
            try_set(goal, bottles, count, tried);
    }
    qsort(tried->best, tried->sets, sizeof *tried->best, larger_first);
}

static void draw_goal(struct trial *trial, struct invented *ret) {
    struct random *random = &trial->random;
    static const int grids[] = {5, 8, 10, 20};
    int components_most = 1 + (int)random_below(random, 3);
    invented_start(ret, components_most, grids[random_below(random, components_most == 3 ? 3 : 4)],
                   random_uniform(random) < 0.5 ? 0 : 0.2 * random_uniform(random));
    size_t bottles = 1 + random_below(random, 6);
    for (size_t i = 0; i < bottles; i++) {
        char id[] = "bottle-a";
        id[7] = (char)('a' + i);
        invented_bottle(ret, id, random_place(random));
    }
    for (size_t i = 1 + random_below(random, 2); i > 0; i--)
        invented_remove(ret, random_place(random), 2 + 10 * random_uniform(random));
    for (size_t i = random_below(random, 3); i > 0; i--)
        invented_spare(ret, random_place(random), 2 + 10 * random_uniform(random));
    note(trial, "%zu bottles, up to %d in %d steps: ", bottles, components_most, ret->goal.steps);
}

static enum outcome same_list(struct trial *trial, const struct search_result *found, const struct tried *tried) {
    size_t expected = tried->sets < ROWS_ASKED ? tried->sets : ROWS_ASKED;
    REQUIRE(found->proved, "not proved");
    REQUIRE(found->row_count == expected, "%zu rows, %zu expected", found->row_count, expected);
    for (size_t i = 0; i < expected; i++)
        REQUIRE(alike(found->rows[i].score.ra_spare, tried->best[i], 1e-9, 1e-9),
                "row %zu has Ra %.12g, expected %.12g", i, found->rows[i].score.ra_spare, tried->best[i]);
    if (tried->sets == 0)
        REQUIRE(alike(found->nearest_red, tried->nearest_red, 1e-9, 1e-9), "nearest RED %.12g, expected %.12g",
                found->nearest_red, tried->nearest_red);
    return HELD;
}

static enum outcome search_is_everything_tried(struct trial *trial) {
    static struct invented invented;
    static struct tried tried;
    draw_goal(trial, &invented);
    try_everything(&invented.goal, &tried);
    if (tried.edge)
        return NOT_COVERED; // the last digits of the mean decide, and they may differ
    struct search_request request = {.goal = &invented.goal, .lib = trial->lib, .rows_most = ROWS_ASKED, .threads = 1};
    struct search_result found;
    struct error err = {0};
    REQUIRE(search_by_distance(&request, &found, &err) == STATUS_OK, "%s", err.text);
    enum outcome outcome = same_list(trial, &found, &tried);
    search_result_release(&found);
    return outcome;
}

static const struct law laws[] = {
    {"search", "the search by distance against trying every blend of an invented shelf", 6, search_is_everything_tried},
};
const struct law_list search_laws = LAWS(laws);
