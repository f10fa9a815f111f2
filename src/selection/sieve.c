// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/sieve.h"

#include "base/memory.h"

#include <math.h>
#include <string.h>

enum {
    UNITS = 1 << 20,                    // the widest range of a blend
    WORDS = 1 << (SIEVE_BITS_MOST - 6), // of the picture
    ROUNDED = GOAL_COMPONENTS_MAX       // units that a head's rounded place may be off, generously
};

enum status sieve_init(struct sieve *sieve, const struct space *space, int share_most, struct error *err) {
    *sieve = (struct sieve){.space = space, .share_most = share_most};
    sieve->places = memory_new((size_t)(share_most + 1) * (size_t)space->bottles, sizeof *sieve->places);
    sieve->cells = memory_new(WORDS, sizeof *sieve->cells);
    if (!sieve->places || !sieve->cells) {
        sieve_release(sieve);
        return error_set(err, STATUS_MEMORY, "out of memory");
    }
    for (int axis = 0; axis < 3; axis++) {
        double range = (space->hi[axis] - space->lo[axis]) * space->steps;
        sieve->units[axis] = range > 1e-6 ? (UNITS - 2 * ROUNDED) / range : 0; // a flat axis tells nothing apart
    }
    for (int t = 0; t <= share_most; t++)
        for (int i = 0; i < space->bottles; i++) {
            uint64_t place = 0;
            for (int axis = 0; axis < 3; axis++) {
                double along = t * (space->place[i][axis] - space->lo[axis]) * sieve->units[axis];
                place |= (uint64_t)llround(fmax(along, 0)) << (SIEVE_FIELD * axis);
            }
            sieve->places[(size_t)t * (size_t)space->bottles + (size_t)i] = place;
        }
    return STATUS_OK;
}

void sieve_release(struct sieve *sieve) {
    if (!sieve)
        return;
    memory_free(sieve->places);
    memory_free(sieve->cells);
    *sieve = (struct sieve){0};
}

// Bits for cells of 2^width units along an axis on which heads span `units`.
static int bits_for(uint64_t units, int width) {
    int bits = 0;
    while (units >> width >> bits)
        bits++;
    return bits;
}

// Units that the heads of one tail span, with what rounding may add.
static uint64_t span_of(const struct sieve *sieve, const struct region *region, int axis) {
    return (uint64_t)((region->hi[axis] - region->lo[axis]) * sieve->units[axis]) + 2 * ROUNDED + 4;
}

// Cells of at least half the span along each axis (so that a tail's heads lie in three cells, see spread_cells), made
// wider as long as there are too many. First from half the span to the whole, when two cells hold the heads: that sets
// the fewest bits in vain.
static void choose_cells(struct sieve *sieve, const struct region *region, int head_sum, int ret_width[3]) {
    uint64_t heads[3]; // what all heads span
    int sum = 0;
    for (int axis = 0; axis < 3; axis++) {
        double range = (sieve->space->hi[axis] - sieve->space->lo[axis]) * head_sum;
        heads[axis] = (uint64_t)(range * sieve->units[axis]) + 2 * ROUNDED;
        ret_width[axis] = bits_for(span_of(sieve, region, axis), 1);
        sieve->bits[axis] = bits_for(heads[axis], ret_width[axis]);
        sum += sieve->bits[axis];
    }
    while (sum > SIEVE_BITS_MOST) {
        int widen = 0;
        for (int axis = 1; axis < 3; axis++) {
            bool half = span_of(sieve, region, axis) >> ret_width[axis] > 0;
            bool half_before = span_of(sieve, region, widen) >> ret_width[widen] > 0;
            if (sieve->bits[axis] > 0 &&
                (half > half_before || (half == half_before && sieve->bits[axis] > sieve->bits[widen])))
                widen = axis;
        }
        ret_width[widen]++;
        sum -= sieve->bits[widen];
        sieve->bits[widen] = bits_for(heads[widen], ret_width[widen]);
        sum += sieve->bits[widen];
    }
}

static void place_fields(struct sieve *sieve, const int width[3]) {
    int below = 0; // bits of the axes before
    for (int axis = 0; axis < 3; axis++) {
        sieve->shift[axis] = SIEVE_FIELD * axis + width[axis] - below;
        sieve->mask[axis] = (((uint64_t)1 << sieve->bits[axis]) - 1) << below;
        below += sieve->bits[axis];
    }
}

// The bit of the lowest cell in which a head can be that this tail brings into the region; false when there is none.
static bool lowest_cell(const struct sieve *sieve, const struct region *region, const struct tail *tail, int head_sum,
                        const int width[3], uint64_t *ret) {
    uint64_t cell = 0;
    int below = 0;
    for (int axis = 0; axis < 3; axis++) {
        double corner = head_sum * sieve->space->lo[axis] + sieve->space->slack;
        double low = (region->lo[axis] - tail->place[axis] - corner) * sieve->units[axis] - ROUNDED - 1;
        double high = (region->hi[axis] - tail->place[axis] - corner) * sieve->units[axis] + ROUNDED + 1;
        if (high < 0)
            return false;
        uint64_t at = low > 0 ? (uint64_t)low >> width[axis] : 0;
        if (at >> sieve->bits[axis])
            return false;
        cell |= at << below;
        below += sieve->bits[axis];
    }
    *ret = cell;
    return true;
}

// Every bit also sets the one `distance` further on.
static void spread(uint64_t *cells, size_t words, unsigned distance) {
    size_t skip = distance >> 6;
    unsigned bits = distance & 63;
    for (size_t i = words; i-- > skip;) {
        uint64_t from = cells[i - skip] << bits;
        if (bits && i > skip)
            from |= cells[i - skip - 1] >> (64 - bits);
        cells[i] |= from;
    }
}

// A tail's heads span at most two cells along each axis, so they lie in three cells from the lowest on; in two where
// they span at most one. A carry into the next row only sets bits too many.
static void spread_cells(struct sieve *sieve, const struct region *region, const int width[3], size_t words) {
    int below = 0;
    for (int axis = 0; axis < 3; axis++) {
        int more = span_of(sieve, region, axis) >> width[axis] > 0 ? 2 : 1;
        for (int i = 0; i < more && sieve->bits[axis] > 0; i++)
            spread(sieve->cells, words, 1u << below);
        below += sieve->bits[axis];
    }
}

void sieve_draw(struct sieve *sieve, const struct region *region, const struct tails *tails, int head_sum) {
    int width[3];
    choose_cells(sieve, region, head_sum, width);
    place_fields(sieve, width);
    int bits = sieve->bits[0] + sieve->bits[1] + sieve->bits[2];
    size_t words = bits > 6 ? (size_t)1 << (bits - 6) : 1;
    memset(sieve->cells, 0, words * sizeof *sieve->cells);
    for (size_t i = 0; i < tails->count; i++) {
        uint64_t cell;
        if (lowest_cell(sieve, region, &tails->items[i], head_sum, width, &cell))
            sieve->cells[cell >> 6] |= (uint64_t)1 << (cell & 63);
    }
    spread_cells(sieve, region, width, words);
}
