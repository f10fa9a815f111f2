// SPDX-License-Identifier: GPL-3.0-or-later
// The one door to the allocator: every allocation of our own code goes through it, so that a test can
// make the n-th one fail.
#ifndef MILDSOLVE_BASE_MEMORY_H
#define MILDSOLVE_BASE_MEMORY_H

#include <stdbool.h>
#include <stddef.h>

// count * size bytes, zeroed; NULL when memory is exhausted or the product overflows.
void *memory_new(size_t count, size_t size);

// Resizes to count * size bytes (new bytes are not zeroed); NULL leaves the old block alone.
void *memory_resize(void *block, size_t count, size_t size);

// NULL-safe.
void memory_free(void *block);

// Makes the n-th following allocation fail (1 = the next), once; 0 switches it off; what failed before is forgotten.
// For tests; the program sets it from the environment variable MILDSOLVE_FAIL_ALLOCATION.
void memory_fail_at(unsigned long n);

// True when any allocation has failed since the process began: an answer put together since then may lack a part.
bool memory_ran_out(void);

// A library that allocates for itself could not; counts as one of ours that failed.
void memory_lacked(void);

// Allocations asked for since the process began (for the tests that fail every one in turn).
unsigned long memory_count(void);

#endif
