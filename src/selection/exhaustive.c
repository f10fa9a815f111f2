// SPDX-License-Identifier: GPL-3.0-or-later
// Every composition scored one by one: the reference for the faster search, the span of one set, and what passes.
#include "base/memory.h"
#include "selection/search.h"

#include <assert.h>
#include <math.h>
#include <string.h>

struct walk {
    const struct goal *goal;
    struct hansen places[GOAL_BOTTLES_MAX];
    struct recipe_order order;
    size_t rows_most;
    struct search_result *result;
    struct search_row set; // of the set of bottles being walked
};

// --- one set ---

static void widen_span(struct search_row *set, const struct composition *c) {
    for (int i = 0; i < c->count; i++) {
        if (set->passing == 0 || c->steps[i] < set->least_steps[i])
            set->least_steps[i] = c->steps[i];
        if (set->passing == 0 || c->steps[i] > set->most_steps[i])
            set->most_steps[i] = c->steps[i];
    }
    set->passing++;
}

static void keep_nearest(struct walk *walk, const struct distance_score *score, const struct composition *c) {
    struct search_result *result = walk->result;
    if (result->nearest.count > 0 &&
        (score->red_remove > result->nearest_red ||
         (score->red_remove == result->nearest_red && recipe_compare(&walk->order, c, &result->nearest) >= 0)))
        return;
    result->nearest_red = score->red_remove;
    result->nearest = *c;
}

static void take(struct walk *walk, const struct composition *c) {
    struct distance_score score = composition_score(walk->goal, composition_position(walk->goal, walk->places, c));
    walk->result->evaluated++;
    keep_nearest(walk, &score, c);
    if (!composition_passes(walk->goal, &score)) {
        walk->result->too_weak++;
        return;
    }
    bool better =
        walk->set.passing == 0 || composition_better(&walk->order, &score, c, &walk->set.score, &walk->set.best);
    widen_span(&walk->set, c);
    if (better) {
        walk->set.best = *c;
        walk->set.score = score;
    }
}

// --- all sets ---

static void keep_row(struct walk *walk) {
    struct search_result *result = walk->result;
    const struct search_row *row = &walk->set;
    size_t at = result->row_count;
    while (at > 0 && composition_better(&walk->order, &row->score, &row->best, &result->rows[at - 1].score,
                                        &result->rows[at - 1].best))
        at--;
    if (at >= walk->rows_most)
        return;
    size_t last = result->row_count < walk->rows_most ? result->row_count : walk->rows_most - 1;
    memmove(&result->rows[at + 1], &result->rows[at], (last - at) * sizeof result->rows[0]);
    result->rows[at] = *row;
    if (result->row_count < walk->rows_most)
        result->row_count++;
}

static void walk_set(struct walk *walk, struct composition *c) {
    walk->set = (struct search_row){0};
    composition_first_steps(c, walk->goal->steps);
    do {
        take(walk, c);
    } while (composition_next_steps(c, walk->goal->steps, NULL));
    if (walk->set.passing == 0)
        return;
    walk->result->sets++;
    if (walk->rows_most)
        keep_row(walk);
}

static void walk_all(struct walk *walk) {
    const struct goal *goal = walk->goal;
    for (int count = 1; count <= goal->components_most && count <= goal->steps; count++) {
        if ((size_t)count > goal->bottle_count)
            return;
        struct composition c = {.count = count};
        for (int i = 0; i < count; i++)
            c.bottles[i] = i;
        do {
            walk_set(walk, &c);
        } while (composition_next_bottles(&c, (int)goal->bottle_count));
    }
}

static enum status start(struct walk *walk, const struct library *lib, struct error *err) {
    recipe_order_make(walk->goal, &walk->order);
    return shelf_places(walk->goal, lib, walk->places, err);
}

enum status search_exhaustive(const struct search_request *request, struct search_result *ret, struct error *err) {
    assert(request->rows_most >= 1 && request->rows_most <= SEARCH_ROWS_MAX);
    const struct goal *goal = request->goal;
    struct search_result result = {.nearest_red = NAN, .proved = true, .sizes_proved = goal->components_most};
    result.blends = goal_blend_count(goal->bottle_count, goal->components_most, goal->steps);
    struct walk walk = {.goal = goal, .rows_most = request->rows_most, .result = &result};
    enum status status = start(&walk, request->lib, err);
    if (status != STATUS_OK)
        return status;
    result.rows = memory_new(request->rows_most, sizeof *result.rows);
    if (!result.rows)
        return error_set(err, STATUS_MEMORY, "out of memory");
    walk_all(&walk);
    if (result.row_count > 0) {
        result.nearest_red = NAN;
        result.nearest = (struct composition){0};
    }
    *ret = result;
    return STATUS_OK;
}

enum status search_span(const struct goal *goal, const struct library *lib, struct search_row *row, struct error *err) {
    struct search_result ignored = {0};
    struct walk walk = {.goal = goal, .result = &ignored};
    enum status status = start(&walk, lib, err);
    if (status != STATUS_OK)
        return status;
    struct composition c = row->best;
    walk_set(&walk, &c);
    memcpy(row->least_steps, walk.set.least_steps, sizeof row->least_steps);
    memcpy(row->most_steps, walk.set.most_steps, sizeof row->most_steps);
    row->passing = walk.set.passing;
    return STATUS_OK;
}

// --- one set, best first ---

enum { OFFERED_AT_ONCE = 256 };

// The best compositions of a set that come after `after` (NULL: from the first), in order.
struct offers {
    const struct search_row *after;
    struct search_row *rows; // OFFERED_AT_ONCE
    size_t count;
};

static bool row_before(const struct walk *walk, const struct search_row *a, const struct search_row *b) {
    return composition_better(&walk->order, &a->score, &a->best, &b->score, &b->best);
}

static void keep_offer(const struct walk *walk, const struct search_row *row, struct offers *offers) {
    size_t at = offers->count;
    while (at > 0 && row_before(walk, row, &offers->rows[at - 1]))
        at--;
    if (at >= OFFERED_AT_ONCE)
        return;
    offers->count += offers->count < OFFERED_AT_ONCE;
    memmove(&offers->rows[at + 1], &offers->rows[at], (offers->count - 1 - at) * sizeof offers->rows[0]);
    offers->rows[at] = *row;
}

static void find_offers(const struct walk *walk, const struct composition *set, struct offers *offers) {
    struct search_row row = {.best = *set};
    offers->count = 0;
    composition_first_steps(&row.best, walk->goal->steps);
    do {
        row.score = composition_score(walk->goal, composition_position(walk->goal, walk->places, &row.best));
        if (composition_passes(walk->goal, &row.score) && (!offers->after || row_before(walk, offers->after, &row)))
            keep_offer(walk, &row, offers);
    } while (composition_next_steps(&row.best, walk->goal->steps, NULL));
}

enum status search_best_of_set(const struct goal *goal, const struct library *lib, const struct composition *set,
                               search_accept *accept, void *context, struct search_row *ret, bool *ret_found,
                               bool *ret_all, struct error *err) {
    struct walk walk = {.goal = goal};
    struct search_row last;
    struct offers offers = {.rows = memory_new(OFFERED_AT_ONCE, sizeof *offers.rows)};
    enum status status = offers.rows ? start(&walk, lib, err) : error_set(err, STATUS_MEMORY, "out of memory");
    bool found = false, all = false;
    for (size_t offered = 0; status == STATUS_OK && !found && !all && offered < SEARCH_OFFERED_MOST;) {
        find_offers(&walk, set, &offers);
        all = offers.count < OFFERED_AT_ONCE;
        for (size_t i = 0; i < offers.count && !found; i++) {
            found = accept(context, &offers.rows[i].best);
            last = offers.rows[i];
        }
        offers.after = &last;
        offered += offers.count;
    }
    if (found)
        *ret = last;
    memory_free(offers.rows);
    *ret_found = found;
    *ret_all = all;
    return status;
}

enum status search_count_passing(const struct goal *goal, const struct library *lib, struct search_result *result,
                                 struct error *err) {
    if (goal_blend_count(goal->bottle_count, goal->components_most, goal->steps) > SEARCH_COUNTED_MOST)
        return STATUS_OK;
    struct search_result counted = {0};
    struct walk walk = {.goal = goal, .result = &counted};
    enum status status = start(&walk, lib, err);
    if (status != STATUS_OK)
        return status;
    walk_all(&walk);
    result->too_weak = counted.too_weak;
    result->sets = counted.sets;
    return STATUS_OK;
}
