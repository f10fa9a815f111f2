// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/crew.h"

#include <assert.h>
#include <pthread.h>
#include <stddef.h>
#include <unistd.h>

struct shift {
    crew_work *work;
    void *context;
    int pieces;
    atomic_int next;
};

bool watch_cancelled(const struct watch *watch) {
    return watch->cancel && atomic_load_explicit(watch->cancel, memory_order_relaxed);
}

static void stage_progress(void *context, double done) {
    const struct watch_stage *stage = context;
    stage->whole->progress(stage->whole->context, stage->from + (stage->to - stage->from) * done);
}

struct watch watch_of_stage(struct watch_stage *stage) {
    return (struct watch){
        .progress = stage->whole->progress ? stage_progress : NULL, .context = stage, .cancel = stage->whole->cancel};
}

static void work_off(struct shift *shift, bool leader) {
    for (;;) {
        int piece = atomic_fetch_add(&shift->next, 1);
        if (piece >= shift->pieces)
            return;
        shift->work(shift->context, piece, leader);
    }
}

static void *helper(void *context) {
    work_off(context, false);
    return NULL;
}

void crew_run(int threads, int pieces, crew_work *work, void *context) {
    assert(threads >= 1 && threads <= CREW_MAX && pieces >= 0);
    struct shift shift = {.work = work, .context = context, .pieces = pieces};
    pthread_t helpers[CREW_MAX];
    int started = 0;
    while (started < threads - 1 && started < pieces - 1 &&
           pthread_create(&helpers[started], NULL, helper, &shift) == 0)
        started++;
    work_off(&shift, true);
    for (int i = 0; i < started; i++)
        pthread_join(helpers[i], NULL);
}

int crew_processors(void) {
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1 ? 1 : count > CREW_MAX ? CREW_MAX : (int)count;
}
