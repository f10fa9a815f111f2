// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file_read.h"

#include <errno.h>
#include <stdio.h>
#include <string.h>

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

enum status file_read(const char *path, size_t limit, struct text *ret_bytes, struct error *err) {
    FILE *file = fopen(path, "rb");
    if (!file)
        return error_set(err, errno == ENOENT ? STATUS_NOT_FOUND : STATUS_SYSTEM, "%s: cannot open: %s", path,
                         strerror(errno));
    enum status status = read_stream(file, path, limit, ret_bytes, err);
    fclose(file);
    return status;
}
