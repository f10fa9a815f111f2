// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/composition.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SHARE_TEXT = 32 };

enum status bottle_place(const struct library *lib, const struct bottle_ref *bottle, struct hansen *ret,
                         struct error *err) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend blend;
    enum status status = blend_make(lib, &part, 1, &blend, err);
    return status == STATUS_OK ? hansen_of_blend(&blend, ret, err) : status;
}

enum status shelf_places(const struct goal *goal, const struct library *lib, struct hansen ret[GOAL_BOTTLES_MAX],
                         struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < goal->bottle_count && status == STATUS_OK; i++)
        status = bottle_place(lib, &goal->bottles[i], &ret[i], err);
    return status;
}

double percent_of_steps(const struct goal *goal, int steps) {
    return 100.0 * steps / goal->steps;
}

enum status composition_blend(const struct goal *goal, const struct library *lib, const struct composition *c,
                              struct blend *ret, struct error *err) {
    struct blend_part parts[GOAL_COMPONENTS_MAX];
    for (int i = 0; i < c->count; i++)
        parts[i] =
            (struct blend_part){.bottle = goal->bottles[c->bottles[i]], .parts = percent_of_steps(goal, c->steps[i])};
    return blend_make(lib, parts, (size_t)c->count, ret, err);
}

struct hansen composition_position(const struct goal *goal, const struct hansen *bottle_places,
                                   const struct composition *c) {
    struct hansen places[GOAL_COMPONENTS_MAX];
    for (int i = 0; i < c->count; i++)
        places[i] = bottle_places[c->bottles[i]];
    return composition_mean(goal, places, c);
}

struct hansen composition_mean(const struct goal *goal, const struct hansen *places, const struct composition *c) {
    struct hansen sum = {0};
    for (int i = 0; i < c->count; i++) {
        sum.delta_d += c->steps[i] * places[i].delta_d;
        sum.delta_p += c->steps[i] * places[i].delta_p;
        sum.delta_h += c->steps[i] * places[i].delta_h;
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

bool composition_passes(const struct goal *goal, const struct distance_score *score) {
    return score->red_remove <= 1 - goal->margin;
}

// --- which bottles, in numbers, and how much of each ---

int composition_compare(const struct composition *a, const struct composition *b) {
    if (a->count != b->count)
        return a->count < b->count ? -1 : 1;
    for (int i = 0; i < a->count; i++)
        if (a->bottles[i] != b->bottles[i])
            return a->bottles[i] < b->bottles[i] ? -1 : 1;
    for (int i = 0; i < a->count; i++)
        if (a->steps[i] != b->steps[i])
            return a->steps[i] < b->steps[i] ? -1 : 1;
    return 0;
}

bool composition_next_bottles(struct composition *c, int bottles) {
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

void composition_first_steps(struct composition *c, int steps) {
    for (int i = 0; i < c->count; i++)
        c->steps[i] = i + 1 < c->count ? 1 : steps - (c->count - 1);
}

bool composition_next_steps(struct composition *c, int steps, int *ret_raised) {
    for (int i = c->count - 2; i >= 0; i--) {
        int before = 0;
        for (int j = 0; j <= i; j++)
            before += c->steps[j];
        if (before + 1 + (c->count - 1 - i) > steps)
            continue;
        c->steps[i]++;
        if (ret_raised)
            *ret_raised = i;
        for (int j = i + 1; j < c->count - 1; j++)
            c->steps[j] = 1;
        c->steps[c->count - 1] = steps - before - 1 - (c->count - 2 - i);
        return true;
    }
    return false;
}

// --- recipe texts and their order ---

static void share_text(const struct goal *goal, int steps, char ret[SHARE_TEXT]) {
    snprintf(ret, SHARE_TEXT, "%g", percent_of_steps(goal, steps));
}

void composition_recipe(const struct goal *goal, const struct composition *c, struct text *out) {
    for (int i = 0; i < c->count; i++) {
        char share[SHARE_TEXT];
        share_text(goal, c->steps[i], share);
        text_printf(out, "%s%s %s", i ? " + " : "", bottle_ref_id(&goal->bottles[c->bottles[i]]), share);
    }
}

// Insertion sort of the bottles by id; those of one id share a rank.
static void rank_ids(const struct goal *goal, struct recipe_order *order) {
    const char *ids[GOAL_BOTTLES_MAX];
    size_t bottles[GOAL_BOTTLES_MAX];
    for (size_t i = 0; i < goal->bottle_count; i++) {
        const char *id = bottle_ref_id(&goal->bottles[i]);
        size_t at = i;
        for (; at > 0 && strcmp(ids[at - 1], id) > 0; at--) {
            ids[at] = ids[at - 1];
            bottles[at] = bottles[at - 1];
        }
        ids[at] = id;
        bottles[at] = i;
    }
    unsigned char rank = 0;
    for (size_t i = 0; i < goal->bottle_count; i++) {
        if (i > 0 && strcmp(ids[i - 1], ids[i]) != 0)
            rank = (unsigned char)i;
        order->id_rank[bottles[i]] = rank;
    }
}

static void rank_shares(const struct goal *goal, struct recipe_order *order) {
    char texts[GOAL_STEPS_MAX + 1][SHARE_TEXT];
    for (int i = 1; i <= goal->steps; i++)
        share_text(goal, i, texts[i]);
    for (int i = 1; i <= goal->steps; i++)
        for (int j = 1; j <= goal->steps; j++)
            if (strcmp(texts[j], texts[i]) < 0)
                order->share_rank[i]++;
}

void recipe_order_make(const struct goal *goal, struct recipe_order *ret) {
    assert(goal->steps >= 1 && goal->steps <= GOAL_STEPS_MAX);
    *ret = (struct recipe_order){0};
    rank_ids(goal, ret);
    rank_shares(goal, ret);
}

int recipe_compare(const struct recipe_order *order, const struct composition *a, const struct composition *b) {
    for (int i = 0; i < a->count && i < b->count; i++) {
        int difference = order->id_rank[a->bottles[i]] - order->id_rank[b->bottles[i]];
        if (difference == 0)
            difference = order->share_rank[a->steps[i]] - order->share_rank[b->steps[i]];
        if (difference != 0)
            return difference;
    }
    if (a->count != b->count)
        return a->count - b->count;
    for (int i = 0; i < a->count; i++)
        if (a->bottles[i] != b->bottles[i])
            return a->bottles[i] - b->bottles[i];
    return 0;
}

bool composition_better(const struct recipe_order *order, const struct distance_score *a, const struct composition *ca,
                        const struct distance_score *b, const struct composition *cb) {
    if (a->ra_spare != b->ra_spare)
        return a->ra_spare > b->ra_spare;
    return recipe_compare(order, ca, cb) < 0;
}
