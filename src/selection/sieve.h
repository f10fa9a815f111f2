// SPDX-License-Identifier: GPL-3.0-or-later
// A coarse picture of where a head finds a tail at all: space cut into cells, one bit each. Most heads are turned away
// with one addition and one look at a bit.
//
// A place is held as three whole numbers packed into 64 bits, so that the places of shares add up in one addition. A
// unit is 2^-20 of the widest range a blend can span along that axis; a share's place is rounded to a unit.
#ifndef MILDSOLVE_SELECTION_SIEVE_H
#define MILDSOLVE_SELECTION_SIEVE_H

#include "selection/tails.h"

enum { SIEVE_FIELD = 21, SIEVE_BITS_MOST = 19 };

struct sieve {
    const struct space *space;
    double units[3]; // units per unit of length, along each axis
    int share_most;
    uint64_t *places; // of t steps of bottle i, at [t * bottles + i], relative to t steps of the shelf's lowest corner
    uint64_t *cells;  // the bits
    // The cell of a packed place: (p >> shift[0] & mask[0]) | (p >> shift[1] & mask[1]) | (p >> shift[2] & mask[2]).
    int shift[3];
    uint64_t mask[3];
    int bits[3]; // of a cell's number along each axis
};

// For shares up to share_most. STATUS_MEMORY.
enum status sieve_init(struct sieve *sieve, const struct space *space, int share_most, struct error *err);
void sieve_release(struct sieve *sieve); // NULL-safe

// Draws the picture for heads of this sum: the cells in which some tail is near enough to bring a head into the region.
void sieve_draw(struct sieve *sieve, const struct region *region, const struct tails *tails, int head_sum);

// Places of t steps of every bottle.
static inline const uint64_t *sieve_places(const struct sieve *sieve, int steps) {
    return sieve->places + (size_t)steps * (size_t)sieve->space->bottles;
}

// False when no tail brings the head at this place (a sum of the places of its shares) into the region.
static inline bool sieve_passes(const struct sieve *sieve, uint64_t place) {
    uint64_t cell = (place >> sieve->shift[0] & sieve->mask[0]) | (place >> sieve->shift[1] & sieve->mask[1]) |
                    (place >> sieve->shift[2] & sieve->mask[2]);
    return sieve->cells[cell >> 6] >> (cell & 63) & 1;
}

#endif
