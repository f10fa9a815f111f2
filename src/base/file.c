// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file.h"

#include "base/language.h"
#include "base/memory.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum {
    LINKS_MAX = 16,         // links followed before we call it a loop
    TEMPORARY_TRIES = 1000, // names tried beside the target
    LINK_TEXT_MAX = 4096
};

// The symbolic names people search for, in words; the rest as the system says it.
static const char *reason(int code) {
    switch (code) {
    case ENOENT:
        return N_("the directory does not exist");
    case ENOTDIR:
        return N_("a part of the path is not a directory");
    case EACCES:
    case EPERM:
        return N_("permission denied");
    case EROFS:
        return N_("the disk is read-only");
    case ENOSPC:
    case EDQUOT:
        return N_("no space left on the disk");
    case ENAMETOOLONG:
        return N_("the name is too long");
    case ELOOP:
        return N_("the symbolic links go round in a circle");
    default:
        return strerror(code);
    }
}

static enum status refused(const struct file_replacement *file, const char *why, struct error *err) {
    return error_set(err, STATUS_SYSTEM, "cannot write '%s': %s", file->shown, say(why));
}

static enum status no_memory(struct error *err) {
    return error_set(err, STATUS_MEMORY, "out of memory");
}

static char *copy_of(const char *text, size_t length) {
    char *copy = memory_new(length + 1, 1);
    if (copy)
        memcpy(copy, text, length);
    return copy;
}

// Bytes of the directory part of a path, with its slash; 0 when there is none.
static size_t directory_length(const char *path) {
    const char *slash = strrchr(path, '/');
    return slash ? (size_t)(slash - path) + 1 : 0;
}

// One step along a link: file->target becomes what it names, relative to the link's own directory.
static enum status follow_link(struct file_replacement *file, struct error *err) {
    char text[LINK_TEXT_MAX];
    ssize_t length = readlink(file->target, text, sizeof text);
    if (length < 0)
        return refused(file, reason(errno), err);
    if ((size_t)length == sizeof text)
        return refused(file, reason(ENAMETOOLONG), err);
    size_t before = text[0] == '/' ? 0 : directory_length(file->target);
    char *next = memory_new(before + (size_t)length + 1, 1);
    if (!next)
        return no_memory(err);
    memcpy(next, file->target, before);
    memcpy(next + before, text, (size_t)length);
    memory_free(file->target);
    file->target = next;
    return STATUS_OK;
}

// What stands at the target now decides the permissions of the new file, or forbids it.
static enum status accept_target(struct file_replacement *file, const struct stat *info, struct error *err) {
    if (S_ISDIR(info->st_mode))
        return refused(file, "it is a directory", err);
    if (!S_ISREG(info->st_mode))
        return refused(file, "it is not an ordinary file", err);
    if (access(file->target, W_OK) != 0)
        return refused(file, "the file is write-protected", err);
    file->mode = (unsigned)info->st_mode & 0777u;
    return STATUS_OK;
}

static enum status find_target(struct file_replacement *file, struct error *err) {
    for (int links = 0; links < LINKS_MAX; links++) {
        struct stat info;
        if (lstat(file->target, &info) != 0) {
            if (errno == ENOENT) // nothing there yet; opening the temporary file judges the directory
                return STATUS_OK;
            return refused(file, reason(errno), err);
        }
        if (!S_ISLNK(info.st_mode))
            return accept_target(file, &info, err);
        enum status status = follow_link(file, err);
        if (status != STATUS_OK)
            return status;
    }
    return refused(file, reason(ELOOP), err);
}

// A hidden name in the same directory, because only within one file system is a rename all or nothing.
static enum status open_temporary(struct file_replacement *file, struct error *err) {
    size_t directory = directory_length(file->target);
    if (file->target[directory] == '\0')
        return refused(file, "it names a directory, not a file", err);
    enum { TAIL = 48 };
    size_t size = directory + TAIL;
    file->temporary = memory_new(size, 1);
    if (!file->temporary)
        return no_memory(err);
    memcpy(file->temporary, file->target, directory);
    // One that may be written but not read cannot be flushed; the file is none the less replaced whole.
    file->directory = open(directory ? file->temporary : ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    file->flushable = file->directory >= 0;
    for (int attempt = 0; attempt < TEMPORARY_TRIES; attempt++) {
        snprintf(file->temporary + directory, TAIL, ".mildsolve-%ld-%d.part", (long)getpid(), attempt);
        file->descriptor = open(file->temporary, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
        if (file->descriptor >= 0) {
            file->open = true;
            file->exists = true;
            return STATUS_OK;
        }
        if (errno != EEXIST)
            return refused(file, reason(errno), err);
    }
    return refused(file, "too many unfinished files lie beside it", err);
}

enum status file_replace_begin(struct file_replacement *file, const char *path, struct error *err) {
    *file = (struct file_replacement){.descriptor = -1};
    file->shown = copy_of(path, strlen(path));
    file->target = copy_of(path, strlen(path));
    enum status status = file->shown && file->target ? STATUS_OK : no_memory(err);
    if (status == STATUS_OK && path[0] == '\0')
        status = refused(file, "the file name is empty", err);
    if (status == STATUS_OK)
        status = find_target(file, err);
    signal_hold_begin(&file->signals);
    if (status == STATUS_OK)
        status = open_temporary(file, err);
    if (status != STATUS_OK)
        file_replace_release(file);
    return status;
}

enum status file_replace_write(struct file_replacement *file, const void *bytes, size_t size, struct error *err) {
    const char *from = bytes;
    while (size > 0) {
        ssize_t written = write(file->descriptor, from, size);
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            return refused(file, reason(errno), err);
        from += written;
        size -= (size_t)written;
    }
    return STATUS_OK;
}

static bool flushed(int descriptor) {
    while (fsync(descriptor) != 0)
        if (errno != EINTR)
            return false;
    return true;
}

// The new name is on the disk only when its directory is. By then the file is replaced, so a failure here says so.
static enum status flush_directory(const struct file_replacement *file, struct error *err) {
    if (!file->flushable || flushed(file->directory) || errno == EINVAL) // some file systems cannot
        return STATUS_OK;
    return error_set(err, STATUS_SYSTEM, "'%s' is written, but its directory could not be flushed to the disk: %s",
                     file->shown, reason(errno));
}

// Some disks report that they are full only here, so each of the three steps is asked.
static enum status finish(struct file_replacement *file, struct error *err) {
    if (memory_ran_out()) // what the file holds may lack a part, as an answer would
        return no_memory(err);
    if (file->mode && fchmod(file->descriptor, file->mode) != 0)
        return refused(file, reason(errno), err);
    if (!flushed(file->descriptor))
        return refused(file, reason(errno), err);
    file->open = false;
    if (close(file->descriptor) != 0 && errno != EINTR) // closed all the same, and flushed before
        return refused(file, reason(errno), err);
    if (rename(file->temporary, file->target) != 0)
        return refused(file, reason(errno), err);
    file->exists = false;
    return flush_directory(file, err);
}

enum status file_replace_commit(struct file_replacement *file, struct error *err) {
    enum status status = finish(file, err);
    file_replace_release(file);
    return status;
}

void file_replace_release(struct file_replacement *file) {
    if (!file)
        return;
    if (file->open)
        close(file->descriptor);
    if (file->flushable)
        close(file->directory);
    if (file->exists)
        unlink(file->temporary);
    memory_free(file->shown);
    memory_free(file->target);
    memory_free(file->temporary);
    struct signal_hold signals = file->signals;
    *file = (struct file_replacement){.descriptor = -1};
    signal_hold_end(&signals); // may end the process
}

enum status file_replace(const char *path, const void *bytes, size_t size, struct error *err) {
    struct file_replacement file;
    enum status status = file_replace_begin(&file, path, err);
    if (status != STATUS_OK)
        return status;
    status = file_replace_write(&file, bytes, size, err);
    if (status == STATUS_OK)
        return file_replace_commit(&file, err);
    file_replace_release(&file);
    return status;
}
