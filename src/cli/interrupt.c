// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/interrupt.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

enum { BAR_COLUMNS = 40 };

// Signals reach a process, not an object; so this is state of the process, like the signals themselves.
static atomic_bool cancel;
static struct sigaction old_int, old_term;
static struct timespec begun;
static int shown = -1;

static void on_signal(int number) {
    if (atomic_exchange(&cancel, true)) {
        signal(number, SIG_DFL);
        raise(number);
    }
}

void interrupt_watch(void) {
    struct sigaction action;
    memset(&action, 0, sizeof action);
    action.sa_handler = on_signal;
    sigemptyset(&action.sa_mask);
    sigaction(SIGINT, &action, &old_int);
    sigaction(SIGTERM, &action, &old_term);
    clock_gettime(CLOCK_MONOTONIC, &begun);
    shown = -1;
}

void interrupt_done(void) {
    sigaction(SIGINT, &old_int, NULL);
    sigaction(SIGTERM, &old_term, NULL);
    if (shown >= 0)
        fprintf(stderr, "\r%*s\r", BAR_COLUMNS + 12, "");
    shown = -1;
}

const atomic_bool *interrupt_cancel(void) {
    return &cancel;
}

static double seconds_since_begin(void) {
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return (double)(now.tv_sec - begun.tv_sec) + 1e-9 * (double)(now.tv_nsec - begun.tv_nsec);
}

void interrupt_progress(void *context, double done) {
    (void)context;
    int percent = (int)(100 * done);
    if (percent == shown || seconds_since_begin() < 1 || !isatty(STDERR_FILENO))
        return;
    shown = percent;
    int filled = (int)(BAR_COLUMNS * done);
    fprintf(stderr, "\r[%.*s%*s] %3d %%", filled, "########################################", BAR_COLUMNS - filled, "",
            percent);
    fflush(stderr);
}
