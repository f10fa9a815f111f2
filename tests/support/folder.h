// SPDX-License-Identifier: GPL-3.0-or-later
// A folder of small files for one test.
#ifndef MILDSOLVE_TESTS_FOLDER_H
#define MILDSOLVE_TESTS_FOLDER_H

#include <stddef.h>

enum { FOLDER_PATH_BYTES = 256, FOLDER_FILES_MAX = 8 };

struct folder {
    char path[FOLDER_PATH_BYTES];
    char files[FOLDER_FILES_MAX][64];
    size_t count;
};

// Makes an empty folder under $TMPDIR or /tmp; ends the program when it cannot.
void folder_make(struct folder *ret);

// Writes (or replaces) a file in it.
void folder_write(struct folder *folder, const char *file, const char *bytes);
void folder_write_n(struct folder *folder, const char *file, const char *bytes, size_t length);

// Path of a file in it; static storage, overwritten by the next call.
const char *folder_file(const struct folder *folder, const char *file);

// Removes the files written, and the folder.
void folder_remove(struct folder *folder);

#endif
