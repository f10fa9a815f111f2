// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/memory.h"

#include <stdatomic.h>
#include <stdint.h>
#include <stdlib.h>

// Process-wide on purpose: the only mutable state of the program, and only for counting and failing allocations.
static atomic_ulong allocations;
static atomic_ulong fail_at;
static atomic_bool ran_out;

static int must_fail(void) {
    unsigned long number = atomic_fetch_add_explicit(&allocations, 1, memory_order_relaxed) + 1;
    return atomic_load_explicit(&fail_at, memory_order_relaxed) == number;
}

static void *kept(void *block) {
    if (!block)
        atomic_store_explicit(&ran_out, true, memory_order_relaxed);
    return block;
}

void *memory_new(size_t count, size_t size) {
    return kept(must_fail() ? NULL : calloc(count ? count : 1, size ? size : 1));
}

void *memory_resize(void *block, size_t count, size_t size) {
    if (must_fail() || (size && count > SIZE_MAX / size))
        return kept(NULL);
    size_t bytes = count * size;
    return kept(realloc(block, bytes ? bytes : 1));
}

void memory_free(void *block) {
    free(block);
}

void memory_fail_at(unsigned long n) {
    unsigned long now = atomic_load(&allocations);
    atomic_store(&fail_at, n ? now + n : 0);
    atomic_store(&ran_out, false);
}

void memory_lacked(void) {
    kept(NULL);
}

unsigned long memory_count(void) {
    return atomic_load(&allocations);
}

bool memory_ran_out(void) {
    return atomic_load(&ran_out);
}
