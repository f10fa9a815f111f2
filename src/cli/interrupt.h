// SPDX-License-Identifier: GPL-3.0-or-later
// Ctrl-C and progress during long computations.
#ifndef MILDSOLVE_CLI_INTERRUPT_H
#define MILDSOLVE_CLI_INTERRUPT_H

#include <stdatomic.h>
#include <stdbool.h>

// From now on SIGINT and SIGTERM set the flag instead of ending the process; a second one ends it. Progress is shown on
// standard error when it is a terminal and the work takes more than a second.
void interrupt_watch(void);
void interrupt_done(void); // wipes the bar, restores the signals
const atomic_bool *interrupt_cancel(void);
void interrupt_progress(void *context, double done);

#endif
