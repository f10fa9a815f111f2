// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/signal_hold.h"

#include <stddef.h>

void signal_hold_begin(struct signal_hold *hold) {
    sigset_t waiting;
    sigemptyset(&waiting);
    sigaddset(&waiting, SIGINT);
    sigaddset(&waiting, SIGTERM);
    sigaddset(&waiting, SIGHUP);
    hold->held = pthread_sigmask(SIG_BLOCK, &waiting, &hold->before) == 0;
}

void signal_hold_end(struct signal_hold *hold) {
    if (!hold->held)
        return;
    hold->held = false;
    pthread_sigmask(SIG_SETMASK, &hold->before, NULL);
}
