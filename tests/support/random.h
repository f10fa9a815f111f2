// SPDX-License-Identifier: GPL-3.0-or-later
// Seeded numbers for property tests: xorshift64* (Vigna, ACM Trans. Math. Softw. 42 (2016) 30).
#ifndef MILDSOLVE_TESTS_RANDOM_H
#define MILDSOLVE_TESTS_RANDOM_H

#include <math.h>
#include <stddef.h>
#include <stdint.h>

struct random {
    uint64_t state; // never 0
};

// 0 <= u < 1
static inline double random_uniform(struct random *random) {
    random->state ^= random->state >> 12;
    random->state ^= random->state << 25;
    random->state ^= random->state >> 27;
    return (double)((random->state * 2685821657736338717u) >> 11) / 9007199254740992.0;
}

static inline size_t random_below(struct random *random, size_t count) {
    return (size_t)(random_uniform(random) * (double)count);
}

// Fractions that sum to 1, uniform over the simplex.
static inline void random_fractions(struct random *random, size_t count, double *ret) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += ret[i] = -log(1 - random_uniform(random));
    for (size_t i = 0; i < count; i++)
        ret[i] /= sum;
}

#endif
