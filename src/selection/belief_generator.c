// SPDX-License-Identifier: GPL-3.0-or-later

#include "selection/belief_parts.h"
#include "base/memory.h"

#include <gsl/gsl_randist.h>

gsl_rng *belief_generator(unsigned long seed, unsigned long stream) {
    gsl_rng *rng = memory_new(1, sizeof *rng);
    void *state = memory_new(1, gsl_rng_mt19937->size);
    if (!rng || !state) {
        memory_free(rng);
        memory_free(state);
        return NULL;
    }
    *rng = (gsl_rng){gsl_rng_mt19937, state};
    gsl_rng_set(rng, (seed * 2654435761u + stream * 40503u + 1) & 0xffffffffu); // multiplicative hash (Knuth)
    return rng;
}

void belief_generator_release(gsl_rng *rng) {
    if (rng)
        memory_free(rng->state);
    memory_free(rng);
}
