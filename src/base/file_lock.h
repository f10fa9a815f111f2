// SPDX-License-Identifier: GPL-3.0-or-later
// One writer at a time. The lock is on a side file (FILE.lock), because a lock on a file that is then replaced by a
// rename would protect nobody.
#ifndef MILDSOLVE_BASE_FILE_LOCK_H
#define MILDSOLVE_BASE_FILE_LOCK_H

#include "base/error.h"
#include "base/signal_hold.h"

// Zero-initialise; holds nothing until file_lock_take returns STATUS_OK.
struct file_lock {
    char *path;
    int descriptor;
    bool held;
    struct signal_hold signals; // while it is held, so that none leaves the side file behind
};

// Takes the lock of the file at `path` (symbolic links followed), waiting up to wait_ms for another writer. The lock
// falls by itself when the process ends, however it ends; signals that would end it wait until the lock is released.
// STATUS_NOT_FOUND when there is no such file, STATUS_SYSTEM when the side file cannot be made or the wait was too
// long.
enum status file_lock_take(struct file_lock *lock, const char *path, unsigned wait_ms, struct error *err);

// Removes the side file and lets the next writer in. NULL-safe, harmless when nothing is held.
void file_lock_release(struct file_lock *lock);

#endif
