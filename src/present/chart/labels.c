// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/labels.h"

#include <math.h>
#include <stdlib.h>

// Costs in pt: what a step further away is worth.
static const double gap = 1.2;            // between mark and label
static const double cost_of_shorter = 14; // the number alone instead of number and name
static const double cost_of_leader = 10;  // any leader at all
static const double cost_of_distance = 0.6;
static const double cost_of_crowd = 0.6; // per pt nearer than `wide` to the mark of another label
static const double cost_unplaced = 10000;
static const double crowded = 30; // neighbours within this distance make a point hard to label

static const double leader_lengths[] = {9, 15, 22, 30, 40, 52, 66, 82, 100, 120};
enum { LEADER_LENGTHS = sizeof leader_lengths / sizeof leader_lengths[0] };

// Unit vectors of 16 directions, the well readable ones first: right, left, then round. sin and cos of 22.5 degrees
// are written out so that every machine has the same.
#define S1 0.3826834323650898
#define C1 0.9238795325112867
#define S2 0.7071067811865476
static const struct {
    double x, y, cost;
} directions[] = {
    {1, 0, 0},    {-1, 0, 2},  {S2, -S2, 1},  {S2, S2, 1},  {-S2, -S2, 3}, {-S2, S2, 3}, {0, -1, 2},    {0, 1, 2},
    {C1, -S1, 1}, {C1, S1, 1}, {-C1, -S1, 3}, {-C1, S1, 3}, {S1, -C1, 2},  {S1, C1, 2},  {-S1, -C1, 3}, {-S1, C1, 3},
};
enum { DIRECTIONS = 16, ORDERS = 4, ROUNDS = 6 };

bool boxes_overlap(struct box a, struct box b) {
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}

bool box_inside(struct box inner, struct box outer) {
    return inner.x >= outer.x && inner.y >= outer.y && inner.x + inner.width <= outer.x + outer.width &&
           inner.y + inner.height <= outer.y + outer.height;
}

// Clips the parameter range [*low, *high] of start + t * step to [from, to].
static bool clip_axis(double start, double step, double from, double to, double *low, double *high) {
    if (step == 0)
        return start > from && start < to;
    double a = (from - start) / step;
    double b = (to - start) / step;
    *low = fmax(*low, fmin(a, b));
    *high = fmin(*high, fmax(a, b));
    return *low < *high;
}

bool box_meets_segment(struct box box, struct segment segment) {
    if (fmin(segment.from.x, segment.to.x) >= box.x + box.width || fmax(segment.from.x, segment.to.x) <= box.x ||
        fmin(segment.from.y, segment.to.y) >= box.y + box.height || fmax(segment.from.y, segment.to.y) <= box.y)
        return false; // nearly all of them
    double low = 0;
    double high = 1;
    return clip_axis(segment.from.x, segment.to.x - segment.from.x, box.x, box.x + box.width, &low, &high) &&
           clip_axis(segment.from.y, segment.to.y - segment.from.y, box.y, box.y + box.height, &low, &high);
}

double lines_under(const struct label_field *field, struct box box) {
    double sum = 0;
    for (size_t i = 0; i < field->line_count; i++)
        if (box_meets_segment(box, field->lines[i].segment))
            sum += field->lines[i].weight;
    return sum;
}

// The box whose edge lies `reach` pt from the point in the direction: it is moved out until it just clears the disc of
// that radius, so labels on slanted directions sit at their corner.
static struct box box_towards(struct spot point, double reach, size_t direction, double width, double height) {
    double x = directions[direction].x;
    double y = directions[direction].y;
    double side = x > 0.2 ? 0 : x < -0.2 ? -width : -width / 2;
    double rise = y > 0.2 ? 0 : y < -0.2 ? -height : -height / 2;
    return (struct box){point.x + x * reach + side, point.y + y * reach + rise, width, height};
}

static struct spot nearest_in_box(struct box box, struct spot p) {
    return (struct spot){fmin(box.x + box.width, fmax(box.x, p.x)), fmin(box.y + box.height, fmax(box.y, p.y))};
}

static struct segment leader_to(const struct label_wish *wish, struct box box) {
    struct spot to = nearest_in_box(box, wish->point);
    double dx = to.x - wish->point.x;
    double dy = to.y - wish->point.y;
    double length = sqrt(dx * dx + dy * dy);
    double share = length > 0 ? wish->radius / length : 0;
    return (struct segment){{wish->point.x + dx * share, wish->point.y + dy * share}, to};
}

bool box_meets_disc(struct box box, struct disc disc) {
    struct spot nearest = nearest_in_box(box, disc.centre);
    double dx = nearest.x - disc.centre.x;
    double dy = nearest.y - disc.centre.y;
    return dx * dx + dy * dy < disc.radius * disc.radius;
}

bool label_field_free(const struct label_field *field, struct box box) {
    if (!box_inside(box, field->bounds))
        return false;
    for (size_t i = 0; i < field->taken_count; i++)
        if (boxes_overlap(box, field->taken[i]))
            return false;
    for (size_t i = 0; i < field->mark_count; i++)
        if (box_meets_disc(box, field->marks[i]))
            return false;
    return true;
}

static double distance_between(struct spot a, struct spot b) {
    return sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

// --- the candidates of one label ---

// A place that only other labels can spoil.
struct candidate {
    struct label_place place;
    double cost;
    size_t index; // ties are settled by the order of making
};

static double outside_cost(const struct label_field *field, struct box box) {
    struct spot middle = {box.x + box.width / 2, box.y + box.height / 2};
    bool inside = field->ground_count == 0 || polygon_contains(field->ground, field->ground_count, middle);
    return inside ? 0 : field->outside_cost;
}

struct candidates {
    struct candidate *items; // cheapest first
    size_t count;
};

// Marks that overlap this one cannot be avoided by its leader and do not count.
static bool leader_clears_field(const struct label_field *field, const struct label_wish *own, struct segment leader) {
    for (size_t i = 0; i < field->taken_count; i++)
        if (box_meets_segment(field->taken[i], leader))
            return false;
    for (size_t i = 0; i < field->mark_count; i++) {
        const struct disc *mark = &field->marks[i];
        if (distance_between(mark->centre, own->point) >= mark->radius + own->radius &&
            segment_distance(leader, mark->centre) < mark->radius)
            return false;
    }
    return true;
}

// A label that nearly touches the marks of others may be read as theirs.
static double crowding_cost(const struct label_wish *wishes, size_t count, size_t self, struct box box) {
    static const double wide = 6;
    double cost = 0;
    for (size_t i = 0; i < count; i++) {
        if (i == self)
            continue;
        double distance = distance_between(nearest_in_box(box, wishes[i].point), wishes[i].point) - wishes[i].radius;
        if (distance < wide)
            cost += cost_of_crowd * (wide - distance);
    }
    return cost;
}

// Step 0 touches the mark, the others stand at the end of a leader.
static struct label_place place_at(const struct label_wish *wish, size_t variant, size_t step, size_t direction) {
    double width = wish->sizes[variant].width;
    double height = wish->sizes[variant].height;
    double reach = wish->radius + (step == 0 ? gap : leader_lengths[step - 1]);
    struct label_place place = {.placed = true, .variant = variant, .has_leader = step > 0};
    place.box = box_towards(wish->point, reach, direction, width, height);
    if (step > 0)
        place.leader = leader_to(wish, place.box);
    return place;
}

static int by_cost(const void *a, const void *b) {
    const struct candidate *x = a;
    const struct candidate *y = b;
    if (x->cost < y->cost || x->cost > y->cost)
        return x->cost < y->cost ? -1 : 1;
    return (x->index > y->index) - (x->index < y->index);
}

static bool find_candidates(struct arena *scratch, const struct label_field *field, const struct label_wish *wishes,
                            size_t count, size_t self, struct candidates *ret) {
    const struct label_wish *wish = &wishes[self];
    ret->count = 0;
    ret->items = arena_new(scratch, wish->variants * (LEADER_LENGTHS + 1) * DIRECTIONS, sizeof *ret->items);
    if (!ret->items)
        return false;
    for (size_t variant = 0; variant < wish->variants; variant++) {
        for (size_t step = 0; step <= LEADER_LENGTHS; step++) {
            for (size_t d = 0; d < DIRECTIONS; d++) {
                struct label_place place = place_at(wish, variant, step, d);
                if (!label_field_free(field, place.box) ||
                    (place.has_leader && !leader_clears_field(field, wish, place.leader)))
                    continue;
                double cost = (double)variant * cost_of_shorter + directions[d].cost + lines_under(field, place.box) +
                              outside_cost(field, place.box) + crowding_cost(wishes, count, self, place.box);
                if (step > 0)
                    cost += cost_of_leader + cost_of_distance * leader_lengths[step - 1];
                ret->items[ret->count] = (struct candidate){place, cost, ret->count};
                ret->count++;
            }
        }
    }
    qsort(ret->items, ret->count, sizeof *ret->items, by_cost);
    return true;
}

// --- placing ---

struct placing {
    const struct candidates *candidates;
    size_t count;
    struct label_place *places; // so far
    double *costs;
};

static bool clash(const struct label_place *a, const struct label_place *b) {
    return boxes_overlap(a->box, b->box) || (a->has_leader && box_meets_segment(b->box, a->leader)) ||
           (b->has_leader && box_meets_segment(a->box, b->leader)) ||
           (a->has_leader && b->has_leader && segments_cross(a->leader, b->leader));
}

// Number of placed labels in the way, up to 2; *ret_first is one of them.
static int obstacles(const struct placing *placing, size_t self, const struct label_place *place, size_t *ret_first) {
    int found = 0;
    for (size_t i = 0; i < placing->count && found < 2; i++) {
        if (i == self || !placing->places[i].placed || !clash(place, &placing->places[i]))
            continue;
        *ret_first = i;
        found++;
    }
    return found;
}

static void put(struct placing *placing, size_t self, const struct candidate *candidate) {
    placing->places[self] = candidate ? candidate->place : (struct label_place){0};
    placing->costs[self] = candidate ? candidate->cost : cost_unplaced;
}

static void place_one(struct placing *placing, size_t self) {
    const struct candidates *own = &placing->candidates[self];
    size_t other;
    size_t i = 0;
    while (i < own->count && obstacles(placing, self, &own->items[i].place, &other) > 0)
        i++;
    put(placing, self, i < own->count ? &own->items[i] : NULL);
}

// Takes the place and lets the label that stood in the way look for another; false, and nothing changed, when it finds
// none.
static bool swap_in(struct placing *placing, size_t self, size_t other, const struct candidate *candidate) {
    struct label_place place = placing->places[other];
    double cost = placing->costs[other];
    put(placing, self, candidate);
    place_one(placing, other);
    if (placing->places[other].placed)
        return true;
    placing->places[other] = place;
    placing->costs[other] = cost;
    put(placing, self, NULL);
    return false;
}

// For a label without place: somebody else moves, if that is all it takes.
static void make_room(struct placing *placing, size_t self) {
    const struct candidates *own = &placing->candidates[self];
    for (size_t i = 0; i < own->count; i++) {
        size_t other;
        if (obstacles(placing, self, &own->items[i].place, &other) == 1 &&
            swap_in(placing, self, other, &own->items[i]))
            return;
    }
}

// --- the orders tried ---

struct ranked {
    size_t index;
    int priority;
    double key;
};

static int by_rank(const void *a, const void *b) {
    const struct ranked *x = a;
    const struct ranked *y = b;
    if (x->priority != y->priority)
        return x->priority > y->priority ? -1 : 1;
    if (x->key < y->key || x->key > y->key)
        return x->key < y->key ? -1 : 1;
    return (x->index > y->index) - (x->index < y->index);
}

static double neighbours(const struct label_wish *wishes, size_t count, size_t self) {
    double found = 0;
    for (size_t i = 0; i < count; i++) {
        if (distance_between(wishes[i].point, wishes[self].point) < crowded)
            found += 1;
    }
    return found;
}

static void rank(const struct label_wish *wishes, size_t count, int order, struct ranked *ret) {
    for (size_t i = 0; i < count; i++) {
        const struct spot *p = &wishes[i].point;
        double keys[ORDERS] = {-neighbours(wishes, count, i), p->x, -p->y, neighbours(wishes, count, i)};
        ret[i] = (struct ranked){i, wishes[i].priority, keys[order]};
    }
    qsort(ret, count, sizeof *ret, by_rank);
}

static double total(const double *costs, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += costs[i];
    return sum;
}

// In the given order, then again while it helps: a label moves when the later ones left it a better place.
static double place_in_order(struct placing *placing, const struct ranked *ranks) {
    for (size_t i = 0; i < placing->count; i++)
        put(placing, i, NULL);
    double sum = INFINITY;
    for (int round = 0; round < ROUNDS; round++) {
        for (size_t i = 0; i < placing->count; i++)
            place_one(placing, ranks[i].index);
        for (size_t i = 0; i < placing->count; i++)
            if (!placing->places[i].placed)
                make_room(placing, i);
        double now = total(placing->costs, placing->count);
        if (now >= sum)
            break;
        sum = now;
    }
    return total(placing->costs, placing->count);
}

// All memory but `ret` goes again: the candidates are many and of no use to anyone else.
static bool place_all(struct arena *scratch, const struct label_field *field, const struct label_wish *wishes,
                      size_t count, struct label_place *ret) {
    struct candidates *candidates = arena_new(scratch, count, sizeof *candidates);
    struct ranked *ranks = arena_new(scratch, count, sizeof *ranks);
    struct placing placing = {candidates, count, arena_new(scratch, count, sizeof *placing.places),
                              arena_new(scratch, count, sizeof *placing.costs)};
    if (!candidates || !ranks || !placing.places || !placing.costs)
        return false;
    for (size_t i = 0; i < count; i++)
        if (!find_candidates(scratch, field, wishes, count, i, &candidates[i]))
            return false;
    double best = INFINITY;
    for (int order = 0; order < ORDERS; order++) {
        rank(wishes, count, order, ranks);
        double sum = place_in_order(&placing, ranks);
        if (sum >= best)
            continue;
        best = sum;
        for (size_t i = 0; i < count; i++)
            ret[i] = placing.places[i];
    }
    return true;
}

bool labels_place(const struct label_field *field, const struct label_wish *wishes, size_t count,
                  struct label_place *ret) {
    struct arena scratch = {0};
    bool done = place_all(&scratch, field, wishes, count, ret);
    arena_release(&scratch);
    return done;
}
