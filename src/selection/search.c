// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/search.h"

#include <math.h>
#include <string.h>

enum status bottle_place(const struct library *lib, const struct bottle_ref *bottle, struct hansen *ret,
                         struct error *err) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend blend;
    enum status status = blend_make(lib, &part, 1, &blend, err);
    return status == STATUS_OK ? hansen_of_blend(&blend, ret, err) : status;
}

enum status composition_blend(const struct goal *goal, const struct library *lib, const struct composition *c,
                              struct blend *ret, struct error *err) {
    struct blend_part parts[GOAL_COMPONENTS_MAX];
    for (int i = 0; i < c->count; i++)
        parts[i] =
            (struct blend_part){.bottle = goal->bottles[c->bottles[i]], .parts = 100.0 * c->steps[i] / goal->steps};
    return blend_make(lib, parts, (size_t)c->count, ret, err);
}

struct hansen composition_position(const struct goal *goal, const struct hansen *bottle_places,
                                   const struct composition *c) {
    struct hansen sum = {0};
    for (int i = 0; i < c->count; i++) {
        const struct hansen *place = &bottle_places[c->bottles[i]];
        sum.delta_d += c->steps[i] * place->delta_d;
        sum.delta_p += c->steps[i] * place->delta_p;
        sum.delta_h += c->steps[i] * place->delta_h;
    }
    return (struct hansen){sum.delta_d / goal->steps, sum.delta_p / goal->steps, sum.delta_h / goal->steps};
}

struct distance_score composition_score(const struct goal *goal, struct hansen place) {
    struct distance_score score = {.red_remove = 0, .ra_spare = INFINITY};
    for (size_t i = 0; i < goal->remove_count; i++)
        score.red_remove = fmax(score.red_remove, hansen_red(place, &goal->remove[i]->sphere));
    for (size_t i = 0; i < goal->spare_count; i++)
        score.ra_spare = fmin(score.ra_spare, hansen_distance(place, hansen_of_sphere(&goal->spare[i]->sphere)));
    return score;
}

static int compare_compositions(const struct composition *a, const struct composition *b) {
    if (a->count != b->count)
        return a->count < b->count ? -1 : 1;
    int order = memcmp(a->bottles, b->bottles, sizeof a->bottles[0] * (size_t)a->count);
    for (int i = 0; order == 0 && i < a->count; i++)
        order = a->steps[i] - b->steps[i];
    return order;
}

bool composition_better(const struct distance_score *a, const struct composition *ca, const struct distance_score *b,
                        const struct composition *cb) {
    if (a->ra_spare != b->ra_spare)
        return a->ra_spare > b->ra_spare;
    return compare_compositions(ca, cb) < 0;
}

// --- walking the grid ---

struct walk {
    const struct goal *goal;
    const struct hansen *places;
    size_t show;
    struct search_result *result;
    struct search_row set; // of the set of bottles being walked
};

static void widen_range(struct search_row *set, const struct composition *c) {
    for (int i = 0; i < c->count; i++) {
        if (set->passing == 0 || c->steps[i] < set->least_steps[i])
            set->least_steps[i] = c->steps[i];
        if (set->passing == 0 || c->steps[i] > set->most_steps[i])
            set->most_steps[i] = c->steps[i];
    }
    set->passing++;
}

static void take(struct walk *walk, const struct composition *c) {
    struct search_result *result = walk->result;
    struct distance_score score = composition_score(walk->goal, composition_position(walk->goal, walk->places, c));
    result->evaluated++;
    if (score.red_remove < result->nearest_red) {
        result->nearest_red = score.red_remove;
        result->nearest = *c;
    }
    if (score.red_remove > 1 - walk->goal->margin) {
        result->too_weak++;
        return;
    }
    bool better = walk->set.passing == 0 || composition_better(&score, c, &walk->set.score, &walk->set.best);
    widen_range(&walk->set, c);
    if (better) {
        walk->set.best = *c;
        walk->set.score = score;
    }
}

static void keep_row(struct search_result *result, const struct search_row *row, size_t show) {
    size_t at = result->row_count;
    while (at > 0 &&
           composition_better(&row->score, &row->best, &result->rows[at - 1].score, &result->rows[at - 1].best))
        at--;
    if (at >= show)
        return;
    size_t last = result->row_count < show ? result->row_count : show - 1;
    memmove(&result->rows[at + 1], &result->rows[at], (last - at) * sizeof result->rows[0]);
    result->rows[at] = *row;
    if (result->row_count < show)
        result->row_count++;
}

// Next composition of the same bottles in lexical order of steps; false after the last. Steps are at least 1.
static bool next_steps(struct composition *c, int steps) {
    for (int i = c->count - 2; i >= 0; i--) {
        int before = 0;
        for (int j = 0; j <= i; j++)
            before += c->steps[j];
        int rest_least = c->count - 1 - i;
        if (before + 1 + rest_least > steps)
            continue;
        c->steps[i]++;
        int left = steps - before - 1;
        for (int j = i + 1; j < c->count - 1; j++) {
            c->steps[j] = 1;
            left--;
        }
        c->steps[c->count - 1] = left;
        return true;
    }
    return false;
}

static void walk_set(struct walk *walk, struct composition *c) {
    int steps = walk->goal->steps;
    for (int i = 0; i < c->count; i++)
        c->steps[i] = i + 1 < c->count ? 1 : steps - (c->count - 1);
    walk->set = (struct search_row){0};
    do {
        take(walk, c);
    } while (next_steps(c, steps));
    if (walk->set.passing) {
        walk->result->sets++;
        keep_row(walk->result, &walk->set, walk->show);
    }
}

static bool next_bottles(struct composition *c, int bottles) {
    for (int i = c->count - 1; i >= 0; i--) {
        if (c->bottles[i] >= bottles - (c->count - i))
            continue;
        c->bottles[i]++;
        for (int j = i + 1; j < c->count; j++)
            c->bottles[j] = c->bottles[j - 1] + 1;
        return true;
    }
    return false;
}

static void walk_size(struct walk *walk, int count) {
    struct composition c = {.count = count};
    for (int i = 0; i < count; i++)
        c.bottles[i] = i;
    do {
        walk_set(walk, &c);
    } while (next_bottles(&c, (int)walk->goal->bottle_count));
}

enum status search_exhaustive(const struct goal *goal, const struct library *lib, size_t show,
                              struct search_result *ret, struct error *err) {
    struct hansen places[GOAL_BOTTLES_MAX];
    for (size_t i = 0; i < goal->bottle_count; i++) {
        enum status status = bottle_place(lib, &goal->bottles[i], &places[i], err);
        if (status != STATUS_OK)
            return status;
    }
    *ret = (struct search_result){.nearest_red = INFINITY, .proved = true};
    struct walk walk = {.goal = goal, .places = places, .show = show, .result = ret};
    for (int count = 1; count <= goal->components_most && count <= goal->steps; count++)
        if ((size_t)count <= goal->bottle_count)
            walk_size(&walk, count);
    return STATUS_OK;
}
