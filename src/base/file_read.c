// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file_read.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static enum status read_stream(FILE *file, const char *path, size_t limit, struct text *ret_bytes, struct error *err) {
    char block[16384];
    for (;;) {
        size_t got = fread(block, 1, sizeof block, file);
        text_add_n(ret_bytes, block, got);
        if (ret_bytes->failed)
            return error_set(err, STATUS_MEMORY, "%s: out of memory while reading", path);
        if (ret_bytes->length > limit)
            return error_set(err, STATUS_INPUT, "%s:1:1: longer than %zu bytes, the most a data file may have", path,
                             limit);
        if (got < sizeof block)
            break;
    }
    if (ferror(file))
        return error_set(err, STATUS_SYSTEM, "%s: cannot read: %s", path, strerror(errno));
    return STATUS_OK;
}

// Pipes, devices and directories are refused: a pipe that nobody writes into would be waited for without end, and
// O_NONBLOCK keeps the opening itself from waiting. NULL with the fault in err.
static FILE *open_ordinary(const char *path, enum status *ret_status, struct error *err) {
    int descriptor = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    struct stat info;
    FILE *file = NULL;
    if (descriptor < 0 || fstat(descriptor, &info) != 0)
        *ret_status = error_set(err, errno == ENOENT ? STATUS_NOT_FOUND : STATUS_SYSTEM, "%s: cannot open: %s", path,
                                strerror(errno));
    else if (S_ISDIR(info.st_mode))
        *ret_status = error_set(err, STATUS_SYSTEM, "%s: is a directory; a file is expected", path);
    else if (!S_ISREG(info.st_mode))
        *ret_status = error_set(err, STATUS_INPUT, "%s: not an ordinary file; pipes and devices are not read", path);
    else if (!(file = fdopen(descriptor, "rb")))
        *ret_status = error_set(err, STATUS_MEMORY, "%s: out of memory while reading", path);
    if (!file && descriptor >= 0)
        close(descriptor);
    return file;
}

enum status file_read(const char *path, size_t limit, struct text *ret_bytes, struct error *err) {
    enum status status = STATUS_OK;
    FILE *file = open_ordinary(path, &status, err);
    if (!file)
        return status;
    status = read_stream(file, path, limit, ret_bytes, err);
    fclose(file);
    return status;
}
