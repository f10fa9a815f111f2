// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/hunt.h"

#include <math.h>

enum {
    COLUMNS_DIRECT = 32, // columns of cells that are looked through without asking the region first
    TAILS_DIRECT = 4     // tails of a column
};

// --- scoring what was found ---

static double key_of(const struct hunt *hunt, const struct composition *c) {
    struct distance_score score =
        composition_score(hunt->goal, composition_position(hunt->goal, hunt->pairing->bottle_places, c));
    if (hunt->pairing->aim == AIM_NEAREST)
        return -score.red_remove;
    return composition_passes(hunt->goal, &score) ? score.ra_spare : -INFINITY;
}

static void add_share(struct composition *c, int bottle, int steps) {
    int at = c->count++;
    for (; at > 0 && c->bottles[at - 1] > bottle; at--) {
        c->bottles[at] = c->bottles[at - 1];
        c->steps[at] = c->steps[at - 1];
    }
    c->bottles[at] = bottle;
    c->steps[at] = steps;
}

void hunt_score(struct piece *piece, const int *bottles, const int *steps, int count) {
    struct hunt *hunt = piece->round->hunt;
    struct composition c = {0};
    for (int i = 0; i < count; i++)
        add_share(&c, hunt->space.bottle[bottles[i]], steps[i]);
    piece->evaluated++;
    double key = key_of(hunt, &c);
    if (key == -INFINITY)
        return;
    struct hit hit;
    hit_pack(&c, key, &hit);
    double threshold = piece->best.threshold;
    best_list_offer(&piece->best, &hit);
    if (piece->best.threshold > threshold)
        region_tighten(hunt->goal, &hunt->space, hunt->pairing->aim, piece->best.threshold, &piece->region);
}

static bool share_before(int steps, int bottle, int other_steps, int other_bottle) {
    return steps < other_steps || (steps == other_steps && bottle < other_bottle);
}

// Head and tail as one blend, when this is its one parting.
static void join(struct piece *piece, const struct tail *tail) {
    int head_count = piece->round->size - 2;
    for (int i = 0; i < head_count; i++)
        for (int k = 0; k < 2; k++)
            if (piece->bottles[i] == tail->bottles[k] ||
                !share_before(piece->steps[i], piece->bottles[i], tail->steps[k], tail->bottles[k]))
                return;
    for (int k = 0; k < 2; k++) {
        piece->bottles[head_count + k] = tail->bottles[k];
        piece->steps[head_count + k] = tail->steps[k];
    }
    hunt_score(piece, piece->bottles, piece->steps, head_count + 2);
}

// --- looking up the tails of a head ---

struct cells {
    int from[3], to[3]; // inclusive
};

static void look_through(struct piece *piece, const double head[3], const struct cells *cells) {
    const struct tails *tails = &piece->round->hunt->tails;
    for (int i = cells->from[0]; i <= cells->to[0]; i++)
        for (int j = cells->from[1]; j <= cells->to[1]; j++) {
            size_t column = ((size_t)i * (size_t)tails->cells[1] + (size_t)j) * (size_t)tails->cells[2];
            uint32_t end = tails->starts[column + (size_t)cells->to[2] + 1];
            for (uint32_t at = tails->starts[column + (size_t)cells->from[2]]; at < end; at++) {
                const struct tail *tail = &tails->items[at];
                double x[3] = {head[0] + tail->place[0], head[1] + tail->place[1], head[2] + tail->place[2]};
                if (region_holds(&piece->region, x))
                    join(piece, tail);
            }
        }
}

// Box that the blends of the head with the tails of these cells lie in.
static bool cells_may_meet(const struct piece *piece, const double head[3], const struct cells *cells) {
    const struct tails *tails = &piece->round->hunt->tails;
    double slack = piece->round->hunt->space.slack;
    double lo[3], hi[3];
    for (int axis = 0; axis < 3; axis++) {
        double width = (tails->hi[axis] - tails->lo[axis]) / tails->cells[axis];
        lo[axis] = head[axis] + tails->lo[axis] + cells->from[axis] * width - slack;
        hi[axis] = head[axis] + tails->lo[axis] + (cells->to[axis] + 1) * width + slack;
    }
    return region_may_meet(&piece->region, lo, hi);
}

static int columns(const struct cells *cells) {
    return (cells->to[0] - cells->from[0] + 1) * (cells->to[1] - cells->from[1] + 1);
}

// Tails in a run of cells of one column.
static uint32_t tails_in(const struct tails *tails, const struct cells *cells) {
    size_t column =
        ((size_t)cells->from[0] * (size_t)tails->cells[1] + (size_t)cells->from[1]) * (size_t)tails->cells[2];
    return tails->starts[column + (size_t)cells->to[2] + 1] - tails->starts[column + (size_t)cells->from[2]];
}

// Which axis to halve the cells along; -1 when they are few enough to look through.
static int axis_to_halve(const struct tails *tails, const struct cells *cells) {
    int width = cells->to[0] - cells->from[0];
    int height = cells->to[1] - cells->from[1];
    if (width > 0 || height > 0)
        return width >= height ? 0 : 1;
    return cells->to[2] > cells->from[2] && tails_in(tails, cells) > TAILS_DIRECT ? 2 : -1;
}

// Many cells, as when the region is a wide shell: halve until a part misses the region or is small. No more than
// 3 * 6 halvings follow each other (64 cells an axis), each leaves one other half to do.
static void look_through_many(struct piece *piece, const double head[3], const struct cells *all) {
    const struct tails *tails = &piece->round->hunt->tails;
    struct cells left[24];
    int count = 0;
    left[count++] = *all;
    while (count > 0) {
        struct cells cells = left[--count];
        int axis = axis_to_halve(tails, &cells);
        if (axis < 0 && tails_in(tails, &cells) == 0)
            continue;
        if (!cells_may_meet(piece, head, &cells))
            continue;
        if (axis < 0) {
            look_through(piece, head, &cells);
            continue;
        }
        int middle = (cells.from[axis] + cells.to[axis]) / 2;
        left[count] = cells;
        left[count++].to[axis] = middle;
        left[count] = cells;
        left[count++].from[axis] = middle + 1;
    }
}

static void place_head(const struct piece *piece, double ret[3]) {
    const struct space *space = &piece->round->hunt->space;
    for (int axis = 0; axis < 3; axis++) {
        ret[axis] = 0;
        for (int i = 0; i < piece->round->size - 2; i++)
            ret[axis] += piece->steps[i] * space->place[piece->bottles[i]][axis];
    }
}

static void look_up(struct piece *piece) {
    const struct tails *tails = &piece->round->hunt->tails;
    const struct round *round = piece->round;
    double head[3];
    place_head(piece, head);
    struct cells cells;
    for (int axis = 0; axis < 3; axis++) {
        double lo = round->region.lo[axis] - head[axis];
        double hi = round->region.hi[axis] - head[axis];
        if (lo > tails->hi[axis] || hi < tails->lo[axis])
            return;
        cells.from[axis] = tails_cell(tails, axis, lo);
        cells.to[axis] = tails_cell(tails, axis, hi);
    }
    if (columns(&cells) <= COLUMNS_DIRECT)
        look_through(piece, head, &cells);
    else
        look_through_many(piece, head, &cells);
}

// --- walking the heads ---

static void tick(struct hunt *hunt, bool leader) {
    struct progress *progress = &hunt->progress;
    const struct watch *watch = hunt->pairing->watch;
    unsigned done = atomic_fetch_add_explicit(&progress->units_done, 1, memory_order_relaxed) + 1;
    if (!leader || !watch->progress)
        return;
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    double waited = difftime(now.tv_sec, progress->last.tv_sec) + 1e-9 * (double)(now.tv_nsec - progress->last.tv_nsec);
    if (waited < 0.05)
        return;
    progress->last = now;
    double share = progress->units ? fmin((double)done / progress->units, 1) : 1;
    watch->progress(watch->context, (progress->before + share * progress->here) / progress->all);
}

// The first place in [from, bottles) along the first axis that is not below `least` (for one step).
static int first_not_below(const struct space *space, double least, int from) {
    int to = space->bottles;
    while (from < to) {
        int middle = (from + to) / 2;
        if (space->place[middle][0] < least)
            from = middle + 1;
        else
            to = middle;
    }
    return from;
}

struct partners {
    int from, to; // from, and below to
    int stride;
};

// The bottles after `first` of which `steps` steps bring a head, `part` of it already placed along the first axis,
// where heads must lie; in the sample: those whose number adds up with the first one's to a multiple of HEADS_SAMPLED.
static struct partners partners_of(const struct round *round, double part, int first, int steps) {
    const struct space *space = &round->hunt->space;
    struct partners partners = {.stride = 1};
    partners.from = first_not_below(space, (round->lo[0] - part) / steps - space->slack, first + 1);
    partners.to = first_not_below(space, (round->hi[0] - part) / steps + space->slack, partners.from);
    if (round->heads == HEADS_SAMPLE) {
        partners.from += HEADS_SAMPLED - 1 - (first + partners.from + HEADS_SAMPLED - 1) % HEADS_SAMPLED;
        partners.stride = HEADS_SAMPLED;
    }
    return partners;
}

// In the rest, the sample is left out.
static bool taken(const struct round *round, int first, int second) {
    return round->heads != HEADS_REST || (first + second) % HEADS_SAMPLED != 0;
}

// The part of a head that is chosen first: its place along the first axis, and packed.
struct part {
    double along;
    uint64_t packed;
};

// Heads whose last two bottles come after `before` bottles already chosen, the first of the two being `first`; of `sum`
// steps together.
static void walk_pairs(struct piece *piece, struct part part, int sum, int first, int before) {
    const struct round *round = piece->round;
    const struct sieve *sieve = &round->hunt->sieve;
    piece->bottles[before] = first;
    int least = sum - round->share_most > 1 ? sum - round->share_most : 1;
    int most = sum - 1 < round->share_most ? sum - 1 : round->share_most;
    for (int t = least; t <= most; t++) {
        double along = part.along + t * round->hunt->space.place[first][0];
        uint64_t packed = part.packed + sieve_places(sieve, t)[first];
        const uint64_t *others = sieve_places(sieve, sum - t);
        struct partners partners = partners_of(round, along, first, sum - t);
        piece->steps[before] = t;
        piece->steps[before + 1] = sum - t;
        for (int second = partners.from; second < partners.to; second += partners.stride)
            if (sieve_passes(sieve, packed + others[second]) && taken(round, first, second)) {
                piece->bottles[before + 1] = second;
                look_up(piece);
            }
    }
}

// True when a head that begins with this part, `left` steps of other bottles to come, may still lie where heads must.
static bool may_become_head(const struct round *round, const double part[3], int left) {
    const struct space *space = &round->hunt->space;
    for (int axis = 0; axis < 3; axis++)
        if (part[axis] + left * space->lo[axis] > round->hi[axis] + space->slack ||
            part[axis] + left * space->hi[axis] < round->lo[axis] - space->slack)
            return false;
    return true;
}

static void walk_triples(struct piece *piece, int bottle) {
    const struct sieve *sieve = &piece->round->hunt->sieve;
    const struct round *round = piece->round;
    const struct space *space = &round->hunt->space;
    piece->bottles[0] = bottle;
    for (int t = 1; t <= round->share_most && t <= round->head_sum - 2; t++) {
        double base[3];
        for (int axis = 0; axis < 3; axis++)
            base[axis] = t * space->place[bottle][axis];
        if (!may_become_head(round, base, round->head_sum - t))
            continue;
        piece->steps[0] = t;
        for (int first = bottle + 1; first < space->bottles; first++) {
            if (watch_cancelled(round->hunt->pairing->watch))
                return;
            struct part part = {base[0], sieve_places(sieve, t)[bottle]};
            walk_pairs(piece, part, round->head_sum - t, first, 1);
        }
    }
}

static void walk_single(struct piece *piece, int bottle) {
    const struct round *round = piece->round;
    piece->bottles[0] = bottle;
    piece->steps[0] = round->head_sum;
    if (round->heads != HEADS_SAMPLE)
        look_up(piece);
}

void hunt_heads(void *context, int number, bool leader) {
    struct round *round = context;
    struct piece *piece = &round->piece[number];
    for (int bottle = number; bottle < round->hunt->space.bottles; bottle += round->pieces) {
        if (watch_cancelled(round->hunt->pairing->watch))
            return;
        if (round->size == 3)
            walk_single(piece, bottle);
        else if (round->size == 4)
            walk_pairs(piece, (struct part){0}, round->head_sum, bottle, 0);
        else
            walk_triples(piece, bottle);
        tick(round->hunt, leader);
    }
}
