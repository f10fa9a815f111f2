// SPDX-License-Identifier: GPL-3.0-or-later
#define _XOPEN_SOURCE 700 // realpath

#include "base/file_lock.h"

#include "base/memory.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <stdio.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

enum { POLL_MS = 2 };

static const char suffix[] = ".lock";

// realpath so that two names of one file (a link, "./x") meet at the same lock.
static enum status name_lock(struct file_lock *lock, const char *path, struct error *err) {
    char *real = realpath(path, NULL);
    if (!real)
        return error_set(err, errno == ENOENT ? STATUS_NOT_FOUND : STATUS_SYSTEM, "%s: cannot open: %s", path,
                         strerror(errno));
    size_t size = strlen(real) + sizeof suffix;
    lock->path = memory_new(size, 1);
    if (lock->path)
        snprintf(lock->path, size, "%s%s", real, suffix);
    free(real); // allocated by the C library
    return lock->path ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

static enum status refused(const struct file_lock *lock, struct error *err) {
    return error_set(err, STATUS_SYSTEM, "cannot lock with the side file '%s': %s", lock->path, strerror(errno));
}

// The last holder removes the side file; a lock taken on the removed one is worth nothing.
static bool still_named(const struct file_lock *lock) {
    struct stat held;
    struct stat named;
    return fstat(lock->descriptor, &held) == 0 && stat(lock->path, &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino;
}

// One try: *ret_busy when another process holds the lock.
static enum status try_lock(struct file_lock *lock, bool *ret_busy, struct error *err) {
    *ret_busy = false;
    lock->descriptor = open(lock->path, O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666);
    if (lock->descriptor < 0)
        return refused(lock, err);
    bool locked = flock(lock->descriptor, LOCK_EX | LOCK_NB) == 0;
    int code = locked ? 0 : errno;
    if (locked && still_named(lock)) {
        lock->held = true;
        return STATUS_OK;
    }
    close(lock->descriptor);
    *ret_busy = locked || code == EWOULDBLOCK || code == EINTR;
    errno = code;
    return *ret_busy ? STATUS_OK : refused(lock, err);
}

enum status file_lock_take(struct file_lock *lock, const char *path, unsigned wait_ms, struct error *err) {
    *lock = (struct file_lock){.descriptor = -1};
    enum status status = name_lock(lock, path, err);
    unsigned waited_ms = 0;
    bool busy = false;
    while (status == STATUS_OK) {
        signal_hold_begin(&lock->signals);
        status = try_lock(lock, &busy, err);
        if (!lock->held)
            signal_hold_end(&lock->signals); // Ctrl-C ends the waiting
        if (status != STATUS_OK || !busy)
            break;
        if (waited_ms >= wait_ms) {
            status = error_set(err, STATUS_SYSTEM,
                               "%s: another program has been writing it for %u seconds (%s); try again later", path,
                               wait_ms / 1000, lock->path);
            break;
        }
        nanosleep(&(struct timespec){.tv_nsec = POLL_MS * 1000000L}, NULL);
        waited_ms += POLL_MS;
    }
    if (status != STATUS_OK)
        file_lock_release(lock);
    return status;
}

void file_lock_release(struct file_lock *lock) {
    if (!lock)
        return;
    if (lock->held) {
        unlink(lock->path);
        close(lock->descriptor);
    }
    memory_free(lock->path);
    struct signal_hold signals = lock->signals;
    *lock = (struct file_lock){.descriptor = -1};
    signal_hold_end(&signals); // may end the process
}
