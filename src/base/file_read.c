// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file_read.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static enum status read_all(int descriptor, const char *path, size_t limit, struct text *ret_bytes, struct error *err) {
    char block[16384];
    for (;;) {
        ssize_t got = read(descriptor, block, sizeof block);
        if (got < 0 && errno == EINTR)
            continue;
        if (got < 0)
            return error_set(err, STATUS_SYSTEM, "%s: cannot read: %s", path, strerror(errno));
        if (got == 0)
            return STATUS_OK;
        text_add_n(ret_bytes, block, (size_t)got);
        if (ret_bytes->failed)
            return error_set(err, STATUS_MEMORY, "%s: out of memory while reading", path);
        if (ret_bytes->length > limit)
            return error_set(err, STATUS_INPUT, "%s:1:1: longer than %zu bytes, the most a data file may have", path,
                             limit);
    }
}

// Pipes, devices and directories are refused: a pipe that nobody writes into would be waited for without end, and
// O_NONBLOCK keeps the opening itself from waiting.
static enum status accept_file(int descriptor, const char *path, struct error *err) {
    struct stat info;
    if (descriptor < 0 || fstat(descriptor, &info) != 0)
        return error_set(err, errno == ENOENT ? STATUS_NOT_FOUND : STATUS_SYSTEM, "%s: cannot open: %s", path,
                         strerror(errno));
    if (S_ISDIR(info.st_mode))
        return error_set(err, STATUS_SYSTEM, "%s: is a directory; a file is expected", path);
    if (!S_ISREG(info.st_mode))
        return error_set(err, STATUS_INPUT, "%s: not an ordinary file; pipes and devices are not read", path);
    return STATUS_OK;
}

enum status file_read(const char *path, size_t limit, struct text *ret_bytes, struct error *err) {
    int descriptor = open(path, O_RDONLY | O_NONBLOCK | O_CLOEXEC);
    enum status status = accept_file(descriptor, path, err);
    if (status == STATUS_OK)
        status = read_all(descriptor, path, limit, ret_bytes, err);
    if (descriptor >= 0)
        close(descriptor);
    return status;
}
