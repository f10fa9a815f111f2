// SPDX-License-Identifier: GPL-3.0-or-later
// Several threads that share a row of pieces of work; what stops them and what they tell the person who waits.
#ifndef MILDSOLVE_SELECTION_CREW_H
#define MILDSOLVE_SELECTION_CREW_H

#include <stdatomic.h>
#include <stdbool.h>

enum { CREW_MAX = 64 };

// How a long computation is watched. All may be NULL.
struct watch {
    // Called from the thread that asked for the work, not more than about twenty times a second; done is 0 to 1.
    void (*progress)(void *context, double done);
    void *context;
    const atomic_bool *cancel; // set from anywhere: stop soon, with the best so far
};

bool watch_cancelled(const struct watch *watch);

// One stage of a longer computation: its 0 to 1 is `from` to `to` of the whole. The stage must outlive its watch.
struct watch_stage {
    const struct watch *whole;
    double from, to;
};
struct watch watch_of_stage(struct watch_stage *stage);

// Does pieces 0 to `pieces` - 1, each once, in any order, on up to `threads` threads (1 to CREW_MAX), the caller's own
// among them, and returns when all are done. `leader` is true on the caller's thread. Where the system gives fewer
// threads, those that there are do the work.
typedef void crew_work(void *context, int piece, bool leader);
void crew_run(int threads, int pieces, crew_work *work, void *context);

// Processors that can be used now, 1 to CREW_MAX.
int crew_processors(void);

#endif
