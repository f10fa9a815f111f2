// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/replacement.h"

#include "base/memory.h"
#include "base/units.h"
#include "selection/shortlist.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

enum {
    POOL_ROWS = 512,  // sets of bottles for each number of bottles
    DECOY_ROWS = 256, // likewise, in the triangle
    POOL_MOST = POOL_ROWS * GOAL_COMPONENTS_MAX
};

static const double ra_class = 1.0; // MPa^0.5, the scatter between sources for one liquid

struct candidate {
    struct composition filling;
    struct blend blend;
    struct hansen place;
    double ra, triangle;
    const struct recipe_order *order; // of all
    bool portrayed;
    struct portrait portrait;
    struct likeness like;
};

struct finding_under_way {
    const struct replacement_request *request;
    struct replacement *result;
    struct recipe_order order;
    struct candidate *pool;
    size_t count;
    double share;         // of the volume that is filled anew
    struct hansen hansen; // what the filling should reach
    struct teas teas;
};

// --- the question ---

static bool whole(const struct replacement_request *request) {
    return request->bottle == SIZE_MAX;
}

static double share_of(const struct replacement_request *request) {
    if (whole(request))
        return 1;
    return request->original->parts[request->bottle].parts / blend_sum_of_parts(request->original);
}

static enum status aim(struct finding_under_way *way, struct error *err) {
    const struct replacement_request *request = way->request;
    way->share = share_of(request);
    way->hansen = way->result->original.hansen;
    way->teas = way->result->original.teas;
    if (whole(request))
        return STATUS_OK;
    const struct bottle_ref *bottle = &request->original->parts[request->bottle].bottle;
    enum status status = bottle_place(request->frame->lib, bottle, &way->hansen, err);
    return status == STATUS_OK ? bottle_teas(request->frame->lib, bottle, &way->teas, err) : status;
}

enum status replacement_blend(const struct replacement_request *request, const struct composition *filling,
                              struct blend *ret, struct error *err) {
    struct blend_part parts[BLEND_BOTTLES_MAX + GOAL_COMPONENTS_MAX];
    const struct goal *goal = request->goal;
    double share = share_of(request), sum = blend_sum_of_parts(request->original);
    size_t count = 0;
    for (size_t i = 0; i < request->original->part_count && !whole(request); i++)
        if (i != request->bottle) {
            parts[count] = request->original->parts[i];
            parts[count++].parts *= 100 / sum;
        }
    for (int i = 0; i < filling->count; i++)
        parts[count++] = (struct blend_part){.bottle = goal->bottles[filling->bottles[i]],
                                             .parts = share * percent_of_steps(goal, filling->steps[i])};
    return blend_make(request->frame->lib, parts, count, ret, err);
}

// --- the pool ---

static bool in_pool(const struct finding_under_way *way, const struct composition *filling) {
    for (size_t i = 0; i < way->count; i++)
        if (composition_compare(&way->pool[i].filling, filling) == 0)
            return true;
    return false;
}

static enum status add_candidate(struct finding_under_way *way, const struct composition *filling, struct error *err) {
    struct candidate *candidate = &way->pool[way->count];
    *candidate = (struct candidate){.filling = *filling, .order = &way->order};
    struct teas point;
    enum status status = replacement_blend(way->request, filling, &candidate->blend, err);
    if (status == STATUS_OK)
        status = hansen_of_blend(&candidate->blend, &candidate->place, err);
    if (status == STATUS_OK)
        status = teas_of_blend(&candidate->blend, TEAS_MEAN_OF_FRACTIONS, &point, NULL, err);
    if (status != STATUS_OK)
        return status;
    candidate->ra = hansen_distance(candidate->place, way->result->original.hansen);
    candidate->triangle = teas_distance(point, way->result->original.teas);
    way->count++;
    return STATUS_OK;
}

// Sets of at most so many bottles.
static enum status ask(const struct finding_under_way *way, enum nearest_space space, int bottles, size_t rows,
                       struct nearest_result *ret, struct error *err) {
    struct goal goal = *way->request->goal;
    goal.components_most = bottles;
    struct nearest_request request = {.goal = &goal,
                                      .lib = way->request->frame->lib,
                                      .space = space,
                                      .hansen = way->hansen,
                                      .teas = way->teas,
                                      .rows_most = rows,
                                      .threads = way->request->threads,
                                      .watch = way->request->watch};
    return nearest_find(&request, ret, err);
}

static void keep_nearest(struct finding_under_way *way, const struct nearest_result *found) {
    if (found->row_count == 0)
        return;
    way->result->nearest = found->rows[0].c;
    way->result->nearest_ra = way->share * found->rows[0].distance;
}

// A hair wider than asked for: the distance of the wholes is rounded in another order.
static double distance_most(const struct finding_under_way *way, double most) {
    return most / way->share * (1 + 1e-12);
}

static enum status take_within(struct finding_under_way *way, const struct nearest_result *found, struct error *err) {
    double most = distance_most(way, way->request->within);
    enum status status = STATUS_OK;
    size_t i = 0;
    for (; i < found->row_count && found->rows[i].distance <= most && status == STATUS_OK; i++)
        if (!in_pool(way, &found->rows[i].c))
            status = add_candidate(way, &found->rows[i].c, err);
    way->result->cut |= i == POOL_ROWS;
    return status;
}

// Blends of up to `bottles` bottles, so that the simple ones are not crowded out by the many of three.
static enum status gather(struct finding_under_way *way, int bottles, struct error *err) {
    struct nearest_result found = {0};
    enum status status = ask(way, NEAREST_HANSEN, bottles, POOL_ROWS, &found, err);
    if (status != STATUS_OK && status != STATUS_INTERRUPTED)
        return status;
    keep_nearest(way, &found);
    way->result->blends = found.blends;
    way->result->evaluated += found.evaluated;
    way->result->proved = found.proved;
    enum status taken = take_within(way, &found, err);
    nearest_result_release(&found);
    return taken == STATUS_OK ? status : taken;
}

static enum status gather_all(struct finding_under_way *way, struct error *err) {
    enum status status = STATUS_OK;
    for (int bottles = 1; bottles <= way->request->goal->components_most && status == STATUS_OK; bottles++)
        status = gather(way, bottles, err);
    way->result->within = way->count;
    if (way->result->nearest.count == 0 || (status != STATUS_OK && status != STATUS_INTERRUPTED))
        return status;
    enum status made = replacement_blend(way->request, &way->result->nearest, &way->result->nearest_blend, err);
    return made == STATUS_OK ? status : made;
}

// --- order ---

static int compare_numbers(double a, double b) {
    return (a > b) - (a < b);
}

// Of an array of pointers to candidates. By distance alone, in classes, simple blends first.
static int by_distance(const void *left, const void *right) {
    const struct candidate *a = *(struct candidate *const *)left, *b = *(struct candidate *const *)right;
    int order = compare_numbers(floor(a->ra / ra_class), floor(b->ra / ra_class));
    if (order == 0)
        order = a->filling.count - b->filling.count;
    if (order == 0)
        order = compare_numbers(a->ra, b->ra);
    return order ? order : recipe_compare(a->order, &a->filling, &b->filling);
}

static int by_likeness(const void *left, const void *right) {
    const struct candidate *a = *(struct candidate *const *)left, *b = *(struct candidate *const *)right;
    bool worse_a = a->like.match[RESPECT_HEALTH] == MATCH_WORSE, worse_b = b->like.match[RESPECT_HEALTH] == MATCH_WORSE;
    if (worse_a != worse_b)
        return worse_a - worse_b;
    return a->like.against != b->like.against ? a->like.against - b->like.against : by_distance(left, right);
}

// All of the pool, in this order; NULL when memory ran out. To be freed.
static struct candidate **sorted_pool(const struct finding_under_way *way, int (*compare)(const void *, const void *),
                                      struct error *err) {
    struct candidate **all = memory_new(way->count + 1, sizeof *all);
    if (!all) {
        error_set(err, STATUS_MEMORY, "out of memory");
        return NULL;
    }
    for (size_t i = 0; i < way->count; i++)
        all[i] = &way->pool[i];
    qsort(all, way->count, sizeof *all, compare);
    return all;
}

// --- which are alike ---

static bool near_identical(const struct candidate *a, const struct candidate *b) {
    return blends_near_identical(&a->blend, a->place, &b->blend, b->place);
}

static bool holds_all(const struct composition *a, const struct composition *b) {
    int found = 0;
    for (int i = 0; i < b->count; i++)
        for (int k = 0; k < a->count; k++)
            found += a->bottles[k] == b->bottles[i];
    return found == b->count;
}

// --- portraits ---

struct sitting {
    struct finding_under_way *way;
    struct candidate **seated;
    enum status status[REPLACEMENT_PORTRAITS_MAX];
    struct error errors[REPLACEMENT_PORTRAITS_MAX];
};

static void portray_one(void *context, int piece, bool leader) {
    struct sitting *sitting = context;
    const struct replacement_request *request = sitting->way->request;
    struct candidate *candidate = sitting->seated[piece];
    (void)leader;
    if (watch_cancelled(&request->watch))
        return;
    sitting->status[piece] =
        portrait_of(request->frame, &candidate->blend, &candidate->portrait, &sitting->errors[piece]);
    if (sitting->status[piece] != STATUS_OK)
        return;
    likeness_of(request->frame->lib, &sitting->way->result->original, &candidate->portrait, &candidate->like);
    candidate->portrayed = true;
}

static enum status portray(struct finding_under_way *way, struct candidate **seated, size_t count, struct error *err) {
    struct sitting *sitting = memory_new(1, sizeof *sitting);
    if (!sitting)
        return error_set(err, STATUS_MEMORY, "out of memory");
    sitting->way = way;
    sitting->seated = seated;
    crew_run(way->request->threads, (int)count, portray_one, sitting);
    enum status status = STATUS_OK;
    for (size_t i = 0; i < count && status == STATUS_OK; i++)
        if (sitting->status[i] != STATUS_OK)
            status = error_set(err, sitting->status[i], "%s", sitting->errors[i].text);
    memory_free(sitting);
    return status;
}

// Whose portrait is made: all, or, where they are too many, first one of each kind in order of distance, then the
// nearest of the others. Those chosen come first in `all`, which comes in that order.
static size_t choose(const struct finding_under_way *way, struct candidate **all) {
    size_t count = 0;
    if (way->count <= REPLACEMENT_PORTRAITS_MAX)
        return way->count;
    for (size_t i = 0; i < way->count && count < REPLACEMENT_PORTRAITS_MAX; i++) {
        bool known = false;
        for (size_t k = 0; k < count; k++)
            known |= near_identical(all[i], all[k]);
        if (known)
            continue;
        struct candidate *chosen = all[i];
        memmove(&all[count + 1], &all[count], (i - count) * sizeof all[0]);
        all[count++] = chosen;
    }
    return REPLACEMENT_PORTRAITS_MAX;
}

// --- the list ---

static size_t drop_splits(struct replacement *result, struct candidate **rows, size_t count) {
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        bool split = rows[i]->portrayed && rows[i]->portrait.phase == PHASE_TWO;
        result->split += split;
        if (rows[i]->portrayed && !split)
            rows[kept++] = rows[i];
    }
    return kept;
}

// Counts what brings nothing new where it belongs; `similar` by place in the list.
static size_t fold(struct candidate **rows, size_t count, size_t *similar) {
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        size_t k = 0;
        while (k < kept && !holds_all(&rows[i]->filling, &rows[k]->filling) && !near_identical(rows[i], rows[k]))
            k++;
        if (k < kept) {
            similar[k]++;
            continue;
        }
        similar[kept] = 0;
        rows[kept++] = rows[i];
    }
    return kept;
}

static enum status take_rows(struct finding_under_way *way, struct candidate **rows, size_t count, struct error *err) {
    size_t similar[REPLACEMENT_PORTRAITS_MAX];
    struct replacement *result = way->result;
    count = drop_splits(result, rows, count);
    qsort(rows, count, sizeof *rows, by_likeness);
    count = fold(rows, count, similar);
    result->listed = count;
    size_t shown = count < way->request->show ? count : way->request->show;
    result->rows = memory_new(shown ? shown : 1, sizeof *result->rows);
    if (!result->rows)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < shown; i++)
        result->rows[result->count++] = (struct replacement_row){
            .filling = rows[i]->filling, .portrait = rows[i]->portrait, .like = rows[i]->like, .similar = similar[i]};
    return STATUS_OK;
}

static enum status make_list(struct finding_under_way *way, struct error *err) {
    struct candidate **all = sorted_pool(way, by_distance, err);
    if (!all)
        return STATUS_MEMORY;
    size_t count = choose(way, all);
    way->result->portrayed = count;
    enum status status = portray(way, all, count, err);
    if (status == STATUS_OK)
        status = take_rows(way, all, count, err);
    memory_free(all);
    return status;
}

// --- near in the triangle only ---

static int by_triangle(const void *left, const void *right) {
    const struct candidate *a = *(struct candidate *const *)left, *b = *(struct candidate *const *)right;
    int order = compare_numbers(floor(a->triangle), floor(b->triangle));
    if (order == 0)
        order = a->filling.count - b->filling.count;
    if (order == 0)
        order = compare_numbers(a->triangle, b->triangle);
    return order ? order : recipe_compare(a->order, &a->filling, &b->filling);
}

static enum status gather_decoys(struct finding_under_way *way, int bottles, struct error *err) {
    struct nearest_result found = {0};
    enum status status = ask(way, NEAREST_TRIANGLE, bottles, DECOY_ROWS, &found, err);
    double most = distance_most(way, LIKE_TRIANGLE);
    for (size_t i = 0; status == STATUS_OK && i < found.row_count && found.rows[i].distance <= most; i++)
        if (!in_pool(way, &found.rows[i].c)) {
            status = add_candidate(way, &found.rows[i].c, err);
            if (status == STATUS_OK && way->pool[way->count - 1].ra <= way->request->within + ra_class)
                way->count--;
        }
    nearest_result_release(&found);
    return status;
}

static bool two_liquids(const struct finding_under_way *way, const struct blend *blend) {
    const struct portrait_frame *frame = way->request->frame;
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    miscibility_judge_blend(frame->lib, frame->table, blend, kelvin_from_celsius(frame->temp_c), &phase, NULL);
    return phase.verdict == PHASE_TWO;
}

static void take_decoys(struct finding_under_way *way, struct candidate *const *all) {
    struct replacement *result = way->result;
    for (size_t i = 0; i < way->count && result->decoy_count < REPLACEMENT_DECOYS_MAX; i++) {
        const struct candidate *candidate = all[i];
        bool known = false;
        for (size_t k = 0; k < result->decoy_count; k++)
            known |= holds_all(&candidate->filling, &result->decoys[k].filling);
        if (!known && !two_liquids(way, &candidate->blend))
            result->decoys[result->decoy_count++] = (struct replacement_decoy){.filling = candidate->filling,
                                                                               .blend = candidate->blend,
                                                                               .ra = candidate->ra,
                                                                               .triangle = candidate->triangle};
    }
}

static enum status find_decoys(struct finding_under_way *way, struct error *err) {
    enum status status = STATUS_OK;
    way->count = 0;
    for (int bottles = 1; bottles <= way->request->goal->components_most && status == STATUS_OK; bottles++)
        status = gather_decoys(way, bottles, err);
    if (status != STATUS_OK)
        return status;
    struct candidate **all = sorted_pool(way, by_triangle, err);
    if (!all)
        return STATUS_MEMORY;
    take_decoys(way, all);
    memory_free(all);
    return STATUS_OK;
}

// --- the whole ---

static enum status find_all(struct finding_under_way *way, struct error *err) {
    enum status status = gather_all(way, err); // after an interruption no portrait would be made any more
    if (status == STATUS_OK)
        status = make_list(way, err);
    if (status == STATUS_OK)
        status = find_decoys(way, err);
    if (status == STATUS_OK && watch_cancelled(&way->request->watch)) // while portraits were made
        status = error_set(err, STATUS_INTERRUPTED, "interrupted: the list holds the best so far");
    way->result->proved &= status == STATUS_OK;
    return status;
}

enum status replacement_find(const struct replacement_request *request, struct replacement *ret, struct error *err) {
    *ret = (struct replacement){.nearest_ra = NAN};
    struct finding_under_way way = {.request = request, .result = ret};
    struct hansen place;
    enum status status = hansen_of_blend(request->original, &place, err);
    if (status == STATUS_OK)
        status = portrait_of(request->frame, request->original, &ret->original, err);
    if (status == STATUS_OK)
        status = aim(&way, err);
    if (status != STATUS_OK)
        return status;
    recipe_order_make(request->goal, &way.order);
    way.pool = memory_new(POOL_MOST, sizeof *way.pool);
    if (!way.pool)
        return error_set(err, STATUS_MEMORY, "out of memory");
    status = find_all(&way, err);
    memory_free(way.pool);
    return status;
}

void replacement_release(struct replacement *replacement) {
    if (!replacement)
        return;
    memory_free(replacement->rows);
    *replacement = (struct replacement){0};
}
