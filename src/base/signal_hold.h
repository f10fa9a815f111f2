// SPDX-License-Identifier: GPL-3.0-or-later
// Lets a file be ended before the process is: Ctrl-C (SIGINT), a request to end (SIGTERM) and a closed terminal
// (SIGHUP) wait until what is being written stands whole or is cleared away.
#ifndef MILDSOLVE_BASE_SIGNAL_HOLD_H
#define MILDSOLVE_BASE_SIGNAL_HOLD_H

#include <signal.h>
#include <stdbool.h>

// Zero-initialise.
struct signal_hold {
    sigset_t before;
    bool held;
};

// From now on the three wait. Holds may be nested, the last begun ended first. For the thread that calls
// and those that it begins; none begun before may run, as it would take the signal.
void signal_hold_begin(struct signal_hold *hold);

// Those that came meanwhile take effect here. Harmless when nothing is held.
void signal_hold_end(struct signal_hold *hold);

#endif
