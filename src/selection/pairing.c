// SPDX-License-Identifier: GPL-3.0-or-later
// Method. A blend lies at the sum of its shares' places. Its shares, ordered by size and then by bottle, are parted
// into the two largest, the tail, and the rest, the head; each blend has exactly one such parting. For every size of
// blends and every sum of the head's shares:
//   1. the region is the set of places whose key is at least that of the N-th best set known so far (balls);
//   2. the tails that any head of that sum could bring into the region are gathered and filed by place;
//   3. every head looks up the tails that bring it into the region. Only they are scored.
// Left out are only heads and tails whose reach (a box around the places of all their completions) misses the region.
// So the cost grows with the number of heads, pairs for blends of four, not with the number of blends.
//
// Bounds on the shares: with k bottles and a head of sum h, a tail of sum t = steps - h, the smaller share of the tail
// is at least the mean of the head's, h/(k - 2), and no head's share exceeds the smaller of the tail's, at most t/2.
//
// The same answer from any number of threads: the work is cut into pieces that depend on the task only, each starts
// with the same list, and their lists are merged in order.
#include "selection/hunt.h"

#include <math.h>

enum {
    PIECES = 8,           // of a round that is worth several threads
    PIECES_WORTH = 40000, // heads
    SAMPLE_WORTH = 20000  // heads; so many, and a sample of them goes first, to raise the threshold
};

// --- rounds ---

// Heads of a round, before any bound.
static double head_count(const struct hunt *hunt, int size, int head_sum) {
    return goal_blends_of((size_t)hunt->space.bottles, size - 2, head_sum);
}

static enum status start_pieces(struct round *round, struct error *err) {
    struct hunt *hunt = round->hunt;
    for (int i = 0; i < round->pieces; i++) {
        struct piece *piece = &round->piece[i];
        *piece = (struct piece){.round = round, .region = round->region};
        enum status status = best_list_init(&piece->best, hunt->best->wanted, hunt->best->order, err);
        if (status != STATUS_OK)
            return status;
        best_list_copy(&piece->best, hunt->best);
    }
    return STATUS_OK;
}

static void end_pieces(struct round *round) {
    for (int i = 0; i < round->pieces; i++) {
        if (round->piece[i].best.hits)
            best_list_merge(round->hunt->best, &round->piece[i].best);
        round->hunt->evaluated += round->piece[i].evaluated;
        best_list_release(&round->piece[i].best);
    }
    best_list_settle(round->hunt->best);
}

static enum status walk_heads(struct round *round, struct error *err) {
    struct hunt *hunt = round->hunt;
    struct piece pieces[PIECES] = {0};
    round->piece = pieces;
    round->pieces = head_count(hunt, round->size, round->head_sum) >= PIECES_WORTH ? PIECES : 1;
    enum status status = start_pieces(round, err);
    if (status == STATUS_OK)
        crew_run(hunt->pairing->threads, round->pieces, hunt_heads, round);
    end_pieces(round);
    return status;
}

static enum status run_round(struct hunt *hunt, int size, int head_sum, enum heads heads, struct error *err) {
    struct round round = {.hunt = hunt, .size = size, .head_sum = head_sum, .heads = heads};
    const struct space *space = &hunt->space;
    int tail_sum = space->steps - head_sum;
    round.share_most = tail_sum / 2;
    region_make(hunt->goal, space, hunt->pairing->aim, hunt->best->threshold, &round.region);
    struct tails_wanted wanted = {.space = space,
                                  .region = &round.region,
                                  .sum = tail_sum,
                                  .rest = head_sum,
                                  .share_least = (head_sum + size - 3) / (size - 2)};
    enum status status = tails_gather(&wanted, &hunt->tails, err);
    if (status != STATUS_OK || hunt->tails.count == 0)
        return status;
    for (int axis = 0; axis < 3; axis++) {
        round.lo[axis] = round.region.lo[axis] - hunt->tails.hi[axis] - space->slack;
        round.hi[axis] = round.region.hi[axis] - hunt->tails.lo[axis] + space->slack;
    }
    if (size > 3)
        sieve_draw(&hunt->sieve, &round.region, &hunt->tails, head_sum);
    return walk_heads(&round, err);
}

static int head_sum_most(const struct hunt *hunt, int size) {
    return hunt->space.steps * (size - 2) / size; // the tail's mean share is at least the blend's
}

// Of the sample only the small sums are walked: they have the fewest tails, and raise the threshold enough.
static int sampled_sum_most(const struct hunt *hunt, int size) {
    return (size - 2 + head_sum_most(hunt, size)) / 2;
}

static void begin_progress(struct hunt *hunt, int size, int head_sum, enum heads heads) {
    struct progress *progress = &hunt->progress;
    double count = head_count(hunt, size, head_sum);
    double share = heads == HEADS_SAMPLE ? 1.0 / HEADS_SAMPLED : heads == HEADS_REST ? 1 - 1.0 / HEADS_SAMPLED : 1;
    progress->before += progress->here;
    progress->here = count * share;
    progress->units = (unsigned)hunt->space.bottles;
    atomic_store(&progress->units_done, 0);
}

static enum status run_rounds(struct hunt *hunt, int size, bool sample, bool sampled, struct error *err) {
    int sampled_most = sampled_sum_most(hunt, size);
    int most = sample ? sampled_most : head_sum_most(hunt, size);
    enum status status = STATUS_OK;
    for (int head_sum = size - 2; head_sum <= most && status == STATUS_OK; head_sum++) {
        enum heads heads = sample ? HEADS_SAMPLE : sampled && head_sum <= sampled_most ? HEADS_REST : HEADS_ALL;
        begin_progress(hunt, size, head_sum, heads);
        status = run_round(hunt, size, head_sum, heads, err);
        if (watch_cancelled(hunt->pairing->watch))
            break;
    }
    return status;
}

static double heads_of_size(const struct hunt *hunt, int size) {
    double sum = 0;
    for (int head_sum = size - 2; head_sum <= head_sum_most(hunt, size); head_sum++)
        sum += head_count(hunt, size, head_sum);
    return sum;
}

static enum status search_size(struct hunt *hunt, int size, struct error *err) {
    bool sample = size > 3 && heads_of_size(hunt, size) >= SAMPLE_WORTH;
    enum status status = sample ? run_rounds(hunt, size, true, false, err) : STATUS_OK;
    if (status == STATUS_OK && !watch_cancelled(hunt->pairing->watch))
        status = run_rounds(hunt, size, false, sample, err);
    return status;
}

// --- one bottle and two ---

// Blends of a bottle and the next ones.
static void score_pairs(struct piece *piece, int first) {
    const struct space *space = &piece->round->hunt->space;
    for (int second = first + 1; second < space->bottles; second++) {
        double base[3], step[3];
        for (int axis = 0; axis < 3; axis++) {
            base[axis] = space->steps * space->place[second][axis];
            step[axis] = space->place[first][axis] - space->place[second][axis];
        }
        int least = 1, most = space->steps - 1;
        if (!region_chord(&piece->region, base, step, &least, &most))
            continue;
        for (int t = least; t <= most; t++) {
            double x[3] = {base[0] + t * step[0], base[1] + t * step[1], base[2] + t * step[2]};
            if (region_holds(&piece->region, x))
                hunt_score(piece, (int[]){first, second}, (int[]){t, space->steps - t}, 2);
        }
    }
}

static void search_small(struct hunt *hunt, int sizes) {
    struct round round = {.hunt = hunt};
    struct piece piece = {.round = &round, .best = *hunt->best};
    region_make(hunt->goal, &hunt->space, hunt->pairing->aim, -INFINITY, &piece.region);
    for (int i = 0; i < hunt->space.bottles && sizes >= 1; i++)
        hunt_score(&piece, &i, &hunt->space.steps, 1);
    for (int i = 0; i < hunt->space.bottles && sizes >= 2; i++)
        score_pairs(&piece, i);
    best_list_settle(&piece.best);
    *hunt->best = piece.best;
    hunt->evaluated += piece.evaluated;
}

// --- the whole ---

// Across the thin side of the region near the best blend so far: away from the spared material that it is nearest to,
// or towards the material that it is farthest from.
static struct hansen way_forward(const struct hunt *hunt) {
    const struct goal *goal = hunt->goal;
    if (hunt->best->count == 0)
        return (struct hansen){1, 0, 0};
    struct composition c;
    hit_unpack(&hunt->best->hits[0], &c);
    struct hansen place = composition_position(goal, hunt->pairing->bottle_places, &c);
    bool nearest = hunt->pairing->aim == AIM_NEAREST;
    const struct material *const *materials = nearest ? goal->remove : goal->spare;
    size_t count = nearest ? goal->remove_count : goal->spare_count;
    struct hansen from = place;
    double least = INFINITY;
    for (size_t i = 0; i < count; i++) {
        double score = nearest ? -hansen_red(place, &materials[i]->sphere)
                               : hansen_distance(place, hansen_of_sphere(&materials[i]->sphere));
        if (score < least) {
            least = score;
            from = hansen_of_sphere(&materials[i]->sphere);
        }
    }
    return (struct hansen){place.delta_d - from.delta_d, place.delta_p - from.delta_p, place.delta_h - from.delta_h};
}

static double box_volume(const struct hunt *hunt, const struct space *space) {
    struct region region;
    region_make(hunt->goal, space, hunt->pairing->aim, hunt->best->threshold, &region);
    double volume = region.empty ? 0 : 1;
    for (int axis = 0; axis < 3; axis++)
        volume *= region.hi[axis] - region.lo[axis] + 1e-6;
    return volume;
}

// Axes along which the box around the region is small: those of Hansen space, or some that point forward.
static void choose_axes(struct hunt *hunt) {
    struct hansen forward = way_forward(hunt);
    const struct hansen *places = hunt->pairing->bottle_places;
    double least = INFINITY;
    struct space best = hunt->space;
    for (int second = -1; second < 3; second++) {
        struct space space;
        space_make(hunt->goal, places, second < 0 ? NULL : &forward, second < 0 ? 0 : second, &space);
        double volume = box_volume(hunt, &space);
        if (volume < least) {
            least = volume;
            best = space;
        }
    }
    hunt->space = best;
}

static enum status search_larger(struct hunt *hunt, int sizes, int *ret_done, struct error *err) {
    enum status status = STATUS_OK;
    for (int size = 3; size <= sizes && status == STATUS_OK; size++) {
        choose_axes(hunt);
        status = sieve_init(&hunt->sieve, &hunt->space, hunt->space.steps / 2, err);
        if (status == STATUS_OK)
            status = search_size(hunt, size, err);
        sieve_release(&hunt->sieve);
        if (watch_cancelled(hunt->pairing->watch))
            break;
        *ret_done = size;
    }
    return status;
}

enum status pairing_search(const struct pairing *pairing, struct best_list *best, struct pairing_outcome *ret,
                           struct error *err) {
    struct hunt hunt = {.pairing = pairing, .goal = pairing->goal, .best = best};
    space_make(pairing->goal, pairing->bottle_places, NULL, 0, &hunt.space);
    int sizes = hunt.space.bottles < hunt.space.steps ? hunt.space.bottles : hunt.space.steps;
    if (sizes > pairing->goal->components_most)
        sizes = pairing->goal->components_most;
    for (int size = 3; size <= sizes; size++)
        hunt.progress.all += heads_of_size(&hunt, size);
    search_small(&hunt, sizes);
    int done = sizes < 2 ? sizes : 2;
    enum status status = STATUS_OK;
    if (sizes >= 3 && status == STATUS_OK && !watch_cancelled(pairing->watch))
        status = search_larger(&hunt, sizes, &done, err);
    tails_release(&hunt.tails);
    *ret = (struct pairing_outcome){.evaluated = hunt.evaluated, .complete = done == sizes, .sizes_done = done};
    return status;
}
