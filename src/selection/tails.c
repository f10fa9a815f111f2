// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/tails.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

enum { CELLS_MOST = 64 }; // along one axis

static enum status make_room(struct tails *tails, struct error *err) {
    if (tails->count < tails->capacity)
        return STATUS_OK;
    size_t capacity = tails->capacity ? 2 * tails->capacity : 1024;
    struct tail *items = memory_resize(tails->items, capacity, sizeof *items);
    if (items)
        tails->items = items;
    struct tail *spare = memory_resize(tails->spare, capacity, sizeof *spare);
    if (spare)
        tails->spare = spare;
    if (!items || !spare)
        return error_set(err, STATUS_MEMORY, "out of memory");
    tails->capacity = capacity;
    return STATUS_OK;
}

// --- the window ---

enum { SLABS_USED = 2, WINDOW_AXES = DIRECTIONS + SLABS_USED };

// Where tails may lie, as ranges along the directions and along the normals of some slabs of the region.
struct window {
    int axes;
    double lo[WINDOW_AXES], hi[WINDOW_AXES];
    double place[GOAL_BOTTLES_MAX][WINDOW_AXES]; // of one step of each bottle, along each axis
    unsigned sides[GOAL_BOTTLES_MAX];            // of the window on which a tail of this bottle alone would lie
};

static void add_axis(const struct tails_wanted *wanted, double least, double most, double lowest, double highest,
                     struct window *window) {
    window->lo[window->axes] = least - wanted->rest * highest - 4 * wanted->space->slack;
    window->hi[window->axes++] = most - wanted->rest * lowest + 4 * wanted->space->slack;
}

static void add_direction(const struct tails_wanted *wanted, int direction, struct window *window) {
    const struct space *space = wanted->space;
    for (int i = 0; i < space->bottles; i++)
        window->place[i][window->axes] = space->place[i][direction];
    add_axis(wanted, wanted->region->lo[direction], wanted->region->hi[direction], space->lo[direction],
             space->hi[direction], window);
}

static void add_slab(const struct tails_wanted *wanted, const struct slab *slab, struct window *window) {
    const struct space *space = wanted->space;
    double lowest = INFINITY, highest = -INFINITY; // of one step of any bottle
    for (int i = 0; i < space->bottles; i++) {
        const double *place = space->place[i];
        double along = slab->normal[0] * place[0] + slab->normal[1] * place[1] + slab->normal[2] * place[2];
        window->place[i][window->axes] = along;
        lowest = fmin(lowest, along);
        highest = fmax(highest, along);
    }
    add_axis(wanted, slab->least, slab->most, lowest, highest, window);
}

// Two places beyond the same side have nothing between them inside (Cohen & Sutherland, in Newman & Sproull, Principles
// of Interactive Computer Graphics, 1979, from memory). One bit a side.
static unsigned sides_of(const struct window *window, int bottle, int sum) {
    unsigned sides = 0;
    for (int axis = 0; axis < window->axes; axis++) {
        double along = sum * window->place[bottle][axis];
        sides |= (along < window->lo[axis] ? 1u : 0u) << (2 * axis) | (along > window->hi[axis] ? 2u : 0u)
                                                                          << (2 * axis);
    }
    return sides;
}

static void open_window(const struct tails_wanted *wanted, struct window *ret) {
    const struct region *region = wanted->region;
    ret->axes = 0;
    for (int d = 0; d < DIRECTIONS; d++)
        add_direction(wanted, d, ret);
    for (int i = 0; i < region->slab_count && i < SLABS_USED; i++)
        add_slab(wanted, &region->slabs[i], ret);
    for (int i = 0; i < wanted->space->bottles; i++)
        ret->sides[i] = sides_of(ret, i, wanted->sum);
}

// The whole numbers t in [*least, *most] for which t steps of `first` and the rest of the sum of `second` may lie in
// the window; false when there are none. The range is widened against rounding, never narrowed.
static bool clip_line(const struct window *window, int first, int second, int sum, int *least, int *most) {
    double from = *least, to = *most;
    for (int axis = 0; axis < window->axes; axis++) {
        double base = sum * window->place[second][axis];
        double step = window->place[first][axis] - window->place[second][axis];
        if (fabs(step) < 1e-5) { // too small to divide by; moves less than 1e-3 over the whole range
            if (base + 1e-3 < window->lo[axis] || base - 1e-3 > window->hi[axis])
                return false;
            continue;
        }
        double inverse = 1 / step;
        double one = (window->lo[axis] - base) * inverse;
        double other = (window->hi[axis] - base) * inverse;
        double near = one < other ? one : other;
        double far = one < other ? other : one;
        from = near > from ? near : from;
        to = far < to ? far : to;
    }
    if (from > to + 1e-5)
        return false;
    // Quotients are off by less than 1e-6: a numerator within 1e-12 over a step of at least 1e-5.
    *least = (int)ceil(from - 1e-6);
    *most = (int)floor(to + 1e-6);
    return *least <= *most;
}

// --- gathering ---

static enum status keep(const struct tails_wanted *wanted, int first, int second, int t, struct tails *tails,
                        struct error *err) {
    enum status status = make_room(tails, err);
    if (status != STATUS_OK)
        return status;
    struct tail *tail = &tails->items[tails->count++];
    *tail =
        (struct tail){.bottles = {(uint8_t)first, (uint8_t)second}, .steps = {(uint8_t)t, (uint8_t)(wanted->sum - t)}};
    for (int axis = 0; axis < 3; axis++)
        tail->place[axis] =
            t * wanted->space->place[first][axis] + (wanted->sum - t) * wanted->space->place[second][axis];
    return STATUS_OK;
}

static enum status gather_lines(const struct tails_wanted *wanted, struct tails *tails, struct error *err) {
    struct window window;
    open_window(wanted, &window);
    enum status status = STATUS_OK;
    for (int first = 0; first < wanted->space->bottles; first++) {
        for (int second = first + 1; second < wanted->space->bottles; second++) {
            int least = wanted->share_least;
            int most = wanted->sum - wanted->share_least;
            if (window.sides[first] & window.sides[second] ||
                !clip_line(&window, first, second, wanted->sum, &least, &most))
                continue;
            for (int t = least; t <= most && status == STATUS_OK; t++)
                status = keep(wanted, first, second, t, tails, err);
        }
    }
    return status;
}

// --- filing ---

static void find_box(struct tails *tails) {
    for (int axis = 0; axis < 3; axis++) {
        double least = INFINITY, most = -INFINITY;
        for (size_t i = 0; i < tails->count; i++) {
            double x = tails->items[i].place[axis];
            least = x < least ? x : least;
            most = x > most ? x : most;
        }
        tails->lo[axis] = least;
        tails->hi[axis] = most;
    }
}

// About one tail a cell, cells about as wide as high as deep.
static void choose_cells(struct tails *tails) {
    double volume = 1;
    int axes = 0;
    for (int axis = 0; axis < 3; axis++)
        if (tails->hi[axis] - tails->lo[axis] > 1e-9) {
            volume *= tails->hi[axis] - tails->lo[axis];
            axes++;
        }
    double width = axes ? pow(volume / (double)tails->count, 1.0 / axes) : 1;
    for (int axis = 0; axis < 3; axis++) {
        double extent = tails->hi[axis] - tails->lo[axis];
        double cells = fmin(fmax(ceil(extent / width), 1), CELLS_MOST);
        tails->cells[axis] = extent > 1e-9 ? (int)cells : 1;
        tails->per_unit[axis] = extent > 1e-9 ? tails->cells[axis] / extent : 0;
    }
}

static enum status make_starts(struct tails *tails, size_t cells, struct error *err) {
    if (cells + 1 > tails->starts_capacity) {
        uint32_t *starts = memory_resize(tails->starts, cells + 1, sizeof *starts);
        if (!starts)
            return error_set(err, STATUS_MEMORY, "out of memory");
        tails->starts = starts;
        tails->starts_capacity = cells + 1;
    }
    memset(tails->starts, 0, (cells + 1) * sizeof *tails->starts);
    return STATUS_OK;
}

// Counting sort by cell.
static enum status file_by_cell(struct tails *tails, struct error *err) {
    size_t cells = (size_t)tails->cells[0] * (size_t)tails->cells[1] * (size_t)tails->cells[2];
    enum status status = make_starts(tails, cells, err);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < tails->count; i++) {
        struct tail *tail = &tails->items[i];
        int at = 0;
        for (int axis = 0; axis < 3; axis++)
            at = at * tails->cells[axis] + tails_cell(tails, axis, tail->place[axis]);
        tail->cell = (uint32_t)at;
        tails->starts[at]++;
    }
    uint32_t sum = 0;
    for (size_t cell = 0; cell <= cells; cell++) {
        uint32_t here = tails->starts[cell];
        tails->starts[cell] = sum;
        sum += here;
    }
    for (size_t i = 0; i < tails->count; i++)
        tails->spare[tails->starts[tails->items[i].cell]++] = tails->items[i];
    memmove(tails->starts + 1, tails->starts, cells * sizeof *tails->starts); // each start has become the next one's
    tails->starts[0] = 0;
    struct tail *filed = tails->spare;
    tails->spare = tails->items;
    tails->items = filed;
    return STATUS_OK;
}

enum status tails_gather(const struct tails_wanted *wanted, struct tails *tails, struct error *err) {
    tails->count = 0;
    if (wanted->region->empty)
        return STATUS_OK;
    enum status status = gather_lines(wanted, tails, err);
    if (status != STATUS_OK || tails->count == 0)
        return status;
    find_box(tails);
    choose_cells(tails);
    return file_by_cell(tails, err);
}

void tails_release(struct tails *tails) {
    memory_free(tails->items);
    memory_free(tails->spare);
    memory_free(tails->starts);
    *tails = (struct tails){0};
}
