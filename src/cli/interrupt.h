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
const volatile int *interrupt_flag(void);
const atomic_bool *interrupt_cancel(void); // the same, for several threads
void interrupt_progress(void *context, double done);

// Processors that can be used now, 1 to 64.
int interrupt_processors(void);

#endif
