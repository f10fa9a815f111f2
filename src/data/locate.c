// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/locate.h"

#include "base/text.h"
#include "data/library_tables.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { PATH_BYTES = 4096 };

static bool is_directory(const char *path) {
    struct stat status;
    return stat(path, &status) == 0 && S_ISDIR(status.st_mode);
}

// NULL when the system cannot tell.
static const char *program_directory(struct arena *arena) {
    char path[PATH_BYTES];
    ssize_t length = readlink("/proc/self/exe", path, sizeof path - 1);
    if (length <= 0)
        return NULL;
    path[length] = '\0';
    char *slash = strrchr(path, '/');
    if (!slash)
        return NULL;
    *slash = '\0';
    return arena_text(arena, path);
}

static const char *uninstalled(struct arena *arena, const char *program) {
    const char *note = arena_printf(arena, "%s/uninstalled-data", program);
    FILE *file = note ? fopen(note, "r") : NULL;
    if (!file)
        return NULL;
    char path[PATH_BYTES];
    bool read = fgets(path, sizeof path, file) != NULL;
    fclose(file);
    if (!read)
        return NULL;
    path[strcspn(path, "\n")] = '\0';
    return is_directory(path) ? arena_text(arena, path) : NULL;
}

static const char *shipped(struct arena *arena) {
    const char *program = program_directory(arena);
    if (!program)
        return NULL;
    const char *path = uninstalled(arena, program);
    if (path)
        return path;
    path = arena_printf(arena, "%s/../share/mildsolve", program);
    return path && is_directory(path) ? path : NULL;
}

static const char *users_own(struct arena *arena) {
    const char *base = getenv("XDG_DATA_HOME");
    const char *home = getenv("HOME");
    const char *path = base && base[0] == '/' ? arena_printf(arena, "%s/mildsolve", base)
                       : home                 ? arena_printf(arena, "%s/.local/share/mildsolve", home)
                                              : NULL;
    return path && is_directory(path) ? path : NULL;
}

enum status locate_data(struct arena *arena, const char *const *extra, size_t extra_count, struct data_directories *ret,
                        struct error *err) {
    struct data_directories found = {0};
    const char *path = shipped(arena);
    if (!path)
        return error_set(err, STATUS_NOT_FOUND,
                         "the tables were not found, neither in the source tree nor in ../share/mildsolve beside the "
                         "program; run the program from its build folder or install it");
    found.items[found.count++] = (struct data_directory){.path = path};
    path = users_own(arena);
    if (path)
        found.items[found.count++] = (struct data_directory){.path = path, .user = true};
    for (size_t i = 0; i < extra_count; i++) {
        if (found.count == DATA_DIRECTORIES_MAX)
            return error_set(err, STATUS_USAGE, "more than %d data directories", DATA_DIRECTORIES_MAX);
        if (!is_directory(extra[i]))
            return error_set(err, STATUS_NOT_FOUND, "--data %s: no such directory", extra[i]);
        found.items[found.count++] = (struct data_directory){.path = extra[i], .user = true};
    }
    *ret = found;
    return STATUS_OK;
}

static bool holds_a_table(const char *directory) {
    char path[PATH_BYTES];
    for (size_t i = 0; i < library_list_count; i++)
        if ((size_t)snprintf(path, sizeof path, "%s/%s", directory, library_lists[i].file) < sizeof path &&
            access(path, R_OK) == 0)
            return true;
    return false;
}

// components.yaml, properties.yaml, ...: each file once, though it may hold several lists.
static void add_file_names(struct text *out) {
    for (size_t i = 0; i < library_list_count; i++)
        if (i == 0 || strcmp(library_lists[i - 1].file, library_lists[i].file) != 0)
            text_printf(out, "%s%s", out->length ? ", " : "", library_lists[i].file);
}

enum status locate_check_own(const char *const *extra, size_t extra_count, struct error *err) {
    for (size_t i = 0; i < extra_count; i++) {
        struct text names = {0};
        if (holds_a_table(extra[i]))
            continue;
        add_file_names(&names);
        enum status status =
            names.failed ? error_set(err, STATUS_MEMORY, "out of memory")
                         : error_set(err, STATUS_INPUT,
                                     "--data %s: no table that can be read is in it, so nothing of yours would count; "
                                     "its files are called %s",
                                     extra[i], text_bytes(&names));
        text_release(&names);
        return status;
    }
    return STATUS_OK;
}

const char *locate_catalogues(struct arena *arena) {
    const char *program = program_directory(arena);
    if (!program)
        return NULL;
    const char *path = arena_printf(arena, uninstalled(arena, program) ? "%s/data/po" : "%s/../share/locale", program);
    return path && is_directory(path) ? path : NULL;
}
