// SPDX-License-Identifier: GPL-3.0-or-later
// Seconds of a clock: CLOCK_MONOTONIC for waiting, CLOCK_PROCESS_CPUTIME_ID for work.
#ifndef MILDSOLVE_TESTS_STOPWATCH_H
#define MILDSOLVE_TESTS_STOPWATCH_H

#include <time.h>

static inline double seconds(clockid_t clock) {
    struct timespec now;
    clock_gettime(clock, &now);
    return (double)now.tv_sec + 1e-9 * (double)now.tv_nsec;
}

#endif
