// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/nearest.h"

#include "base/memory.h"
#include "selection/pairing.h"

#include <assert.h>
#include <math.h>

enum status bottle_teas(const struct library *lib, const struct bottle_ref *bottle, struct teas *ret,
                        struct error *err) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend blend;
    enum status status = blend_make(lib, &part, 1, &blend, err);
    return status == STATUS_OK ? teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, ret, NULL, err) : status;
}

static struct hansen triangle_as_space(struct teas point) {
    return (struct hansen){point.fd / sqrt(8), point.fp / sqrt(2), point.fh / sqrt(2)};
}

static enum status places_of(const struct nearest_request *request, struct hansen ret[GOAL_BOTTLES_MAX],
                             struct error *err) {
    if (request->space == NEAREST_HANSEN)
        return shelf_places(request->goal, request->lib, ret, err);
    enum status status = STATUS_OK;
    for (size_t i = 0; i < request->goal->bottle_count && status == STATUS_OK; i++) {
        struct teas point;
        status = bottle_teas(request->lib, &request->goal->bottles[i], &point, err);
        if (status == STATUS_OK)
            ret[i] = triangle_as_space(point);
    }
    return status;
}

static enum status take_rows(const struct goal *goal, const struct hansen *places, const struct best_list *best,
                             struct nearest_result *result, struct error *err) {
    result->rows = memory_new(best->count, sizeof *result->rows);
    if (!result->rows)
        return error_set(err, STATUS_MEMORY, "out of memory");
    result->row_count = best->count;
    for (size_t i = 0; i < best->count; i++) {
        struct nearest_row *row = &result->rows[i];
        hit_unpack(&best->hits[i], &row->c);
        row->distance = composition_score(goal, composition_position(goal, places, &row->c)).red_remove;
    }
    return STATUS_OK;
}

static enum status hunt(const struct nearest_request *request, const struct goal *goal, const struct hansen *places,
                        struct nearest_result *result, struct error *err) {
    struct recipe_order order;
    struct best_list best;
    struct pairing_outcome outcome;
    struct pairing pairing = {.goal = goal,
                              .bottle_places = places,
                              .aim = AIM_NEAREST,
                              .threads = request->threads,
                              .watch = &request->watch};
    recipe_order_make(goal, &order);
    enum status status = best_list_init(&best, request->rows_most, &order, err);
    if (status != STATUS_OK)
        return status;
    status = pairing_search(&pairing, &best, &outcome, err);
    if (status == STATUS_OK)
        status = take_rows(goal, places, &best, result, err);
    best_list_release(&best);
    result->blends = goal_blend_count(goal->bottle_count, goal->components_most, goal->steps);
    result->evaluated = outcome.evaluated;
    result->proved = outcome.complete;
    return status;
}

enum status nearest_find(const struct nearest_request *request, struct nearest_result *ret, struct error *err) {
    assert(request->rows_most >= 1 && request->rows_most <= SEARCH_ROWS_MAX);
    struct hansen places[GOAL_BOTTLES_MAX];
    enum status status = places_of(request, places, err);
    if (status != STATUS_OK)
        return status;
    // A sphere of radius 1 round the place: its RED is the distance.
    struct hansen aim = request->space == NEAREST_HANSEN ? request->hansen : triangle_as_space(request->teas);
    const struct material sphere = {
        .id = "", .sphere = {.delta_d = aim.delta_d, .delta_p = aim.delta_p, .delta_h = aim.delta_h, .r0 = 1}};
    struct goal goal = *request->goal;
    goal.remove[0] = &sphere;
    goal.remove_count = 1;
    goal.spare_count = 0;
    struct nearest_result result = {.proved = false};
    status = hunt(request, &goal, places, &result, err);
    if (status != STATUS_OK)
        return status;
    *ret = result;
    return result.proved ? STATUS_OK
                         : error_set(err, STATUS_INTERRUPTED, "interrupted: the list holds the best so far");
}

void nearest_result_release(struct nearest_result *result) {
    if (!result)
        return;
    memory_free(result->rows);
    *result = (struct nearest_result){0};
}
