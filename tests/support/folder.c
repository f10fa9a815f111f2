// SPDX-License-Identifier: GPL-3.0-or-later
#include "folder.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static void stop(const char *path) {
    perror(path);
    exit(2);
}

void folder_make(struct folder *ret) {
    const char *base = getenv("TMPDIR");
    *ret = (struct folder){0};
    snprintf(ret->path, sizeof ret->path, "%s/mildsolve-test-XXXXXX", base && *base ? base : "/tmp");
    if (!mkdtemp(ret->path))
        stop(ret->path);
}

const char *folder_file(const struct folder *folder, const char *file) {
    static char path[FOLDER_PATH_BYTES + 80];
    snprintf(path, sizeof path, "%s/%s", folder->path, file);
    return path;
}

static void remember(struct folder *folder, const char *file) {
    for (size_t i = 0; i < folder->count; i++)
        if (strcmp(folder->files[i], file) == 0)
            return;
    if (folder->count == FOLDER_FILES_MAX)
        exit(2);
    snprintf(folder->files[folder->count++], sizeof folder->files[0], "%s", file);
}

void folder_write_n(struct folder *folder, const char *file, const char *bytes, size_t length) {
    const char *path = folder_file(folder, file);
    FILE *stream = fopen(path, "wb");
    if (!stream || fwrite(bytes, 1, length, stream) != length || fclose(stream) != 0)
        stop(path);
    remember(folder, file);
}

void folder_write(struct folder *folder, const char *file, const char *bytes) {
    folder_write_n(folder, file, bytes, strlen(bytes));
}

void folder_remove(struct folder *folder) {
    for (size_t i = 0; i < folder->count; i++)
        unlink(folder_file(folder, folder->files[i]));
    rmdir(folder->path);
    *folder = (struct folder){0};
}
