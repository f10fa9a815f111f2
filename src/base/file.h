// SPDX-License-Identifier: GPL-3.0-or-later
// Files written whole or not at all: beside the target first, then renamed over it.
#ifndef MILDSOLVE_BASE_FILE_H
#define MILDSOLVE_BASE_FILE_H

#include "base/error.h"
#include "base/signal_hold.h"

#include <stddef.h>

// A file on its way to `target`. Zero-initialise, or start with file_replace_begin.
//
// A symbolic link stays a link: the file it names is replaced (or made, if its directory exists), because people
// link one folder of a shared disk into another and expect the file to arrive there. An existing target keeps its
// permissions; one that is write-protected, a directory or no ordinary file is refused.
//
// Until file_replace_commit returns STATUS_OK the old file stays as it was. All failures are STATUS_SYSTEM and name
// the target as the user spelt it. Signals that would end the process wait from begin to commit or release.
struct file_replacement {
    char *shown;  // the path as given
    char *target; // links followed
    char *temporary;
    int descriptor;
    int directory;
    bool open;
    bool flushable; // the directory could be opened, to be flushed after the rename
    bool exists;    // the temporary file
    unsigned mode;
    struct signal_hold signals; // none may leave the temporary file behind
};

// Makes the temporary file. Nothing to release after a failure (releasing is harmless).
enum status file_replace_begin(struct file_replacement *file, const char *path, struct error *err);

enum status file_replace_write(struct file_replacement *file, const void *bytes, size_t size, struct error *err);

// Flushes to the disk, renames and flushes the directory, unless an allocation has failed since the process began; when
// only the last fails the new file stands already, and the sentence says so. The file is released whatever the outcome.
enum status file_replace_commit(struct file_replacement *file, struct error *err);

// Drops the temporary file if there is one. NULL-safe, safe after commit.
void file_replace_release(struct file_replacement *file);

// begin, write, commit in one.
enum status file_replace(const char *path, const void *bytes, size_t size, struct error *err);

#endif
