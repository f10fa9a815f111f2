// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/search.h"

#include "base/memory.h"
#include "selection/pairing.h"

#include <assert.h>
#include <math.h>

// One search by distance under way.
struct asking {
    const struct search_request *request;
    struct hansen places[GOAL_BOTTLES_MAX];
    struct recipe_order order;
};

static enum status hunt(const struct asking *asking, enum aim aim, struct best_list *best, struct pairing_outcome *ret,
                        struct error *err) {
    struct pairing pairing = {.goal = asking->request->goal,
                              .bottle_places = asking->places,
                              .aim = aim,
                              .threads = asking->request->threads,
                              .watch = &asking->request->watch};
    return pairing_search(&pairing, best, ret, err);
}

static enum status take_rows(const struct asking *asking, const struct best_list *best, struct search_result *result,
                             struct error *err) {
    result->rows = memory_new(best->count, sizeof *result->rows);
    if (!result->rows)
        return error_set(err, STATUS_MEMORY, "out of memory");
    result->row_count = best->count;
    for (size_t i = 0; i < best->count; i++) {
        struct search_row *row = &result->rows[i];
        hit_unpack(&best->hits[i], &row->best);
        row->score = composition_score(asking->request->goal,
                                       composition_position(asking->request->goal, asking->places, &row->best));
    }
    return STATUS_OK;
}

static enum status find_rows(const struct asking *asking, struct search_result *result, struct error *err) {
    struct best_list best;
    struct pairing_outcome outcome;
    enum status status = best_list_init(&best, asking->request->rows_most, &asking->order, err);
    if (status != STATUS_OK)
        return status;
    status = hunt(asking, AIM_GENTLEST, &best, &outcome, err);
    if (status == STATUS_OK)
        status = take_rows(asking, &best, result, err);
    best_list_release(&best);
    if (status != STATUS_OK)
        return status;
    result->evaluated = outcome.evaluated;
    result->proved = outcome.complete;
    result->sizes_proved = outcome.sizes_done;
    result->excluded = outcome.complete ? result->blends - outcome.evaluated : 0;
    return STATUS_OK;
}

static enum status find_nearest(const struct asking *asking, struct search_result *result, struct error *err) {
    struct best_list best;
    struct pairing_outcome outcome;
    enum status status = best_list_init(&best, 1, &asking->order, err);
    if (status != STATUS_OK)
        return status;
    status = hunt(asking, AIM_NEAREST, &best, &outcome, err);
    if (status == STATUS_OK && best.count == 1) {
        hit_unpack(&best.hits[0], &result->nearest);
        result->nearest_red = -best.hits[0].key;
        result->proved = outcome.complete;
    }
    best_list_release(&best);
    return status;
}

enum status search_by_distance(const struct search_request *request, struct search_result *ret, struct error *err) {
    assert(request->rows_most >= 1 && request->rows_most <= SEARCH_ROWS_MAX);
    const struct goal *goal = request->goal;
    struct asking asking = {.request = request};
    enum status status = shelf_places(goal, request->lib, asking.places, err);
    if (status != STATUS_OK)
        return status;
    recipe_order_make(goal, &asking.order);
    struct search_result result = {.blends = goal_blend_count(goal->bottle_count, goal->components_most, goal->steps),
                                   .nearest_red = NAN,
                                   .too_weak = NAN,
                                   .sets = NAN};
    status = find_rows(&asking, &result, err);
    if (status == STATUS_OK && result.row_count == 0 && result.proved)
        status = find_nearest(&asking, &result, err);
    if (status != STATUS_OK) {
        search_result_release(&result);
        return status;
    }
    *ret = result;
    if (!result.proved)
        return error_set(err, STATUS_INTERRUPTED, "interrupted: the list holds the best so far");
    return STATUS_OK;
}

void search_result_release(struct search_result *result) {
    if (!result)
        return;
    memory_free(result->rows);
    result->rows = NULL;
    result->row_count = 0;
}
