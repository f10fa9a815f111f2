// SPDX-License-Identifier: GPL-3.0-or-later
// For tests of files: each works in an empty directory of its own, which is gone afterwards with all that is in it.
#ifndef MILDSOLVE_TESTS_SUPPORT_WORKPLACE_H
#define MILDSOLVE_TESTS_SUPPORT_WORKPLACE_H

#include <check.h>
#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static char workplace[64]; // its path

static inline void workplace_enter(void) {
    snprintf(workplace, sizeof workplace, "/tmp/mildsolve-work-XXXXXX");
    ck_assert_ptr_nonnull(mkdtemp(workplace));
    ck_assert_int_eq(chdir(workplace), 0);
}

static inline void workplace_leave(void) {
    char command[128];
    ck_assert_int_eq(chdir("/"), 0);
    snprintf(command, sizeof command, "rm -rf '%s'", workplace);
    ck_assert_int_eq(system(command), 0);
}

static inline void put(const char *path, const char *text) {
    FILE *file = fopen(path, "w");
    ck_assert_ptr_nonnull(file);
    fputs(text, file);
    fclose(file);
}

static inline size_t entries(void) {
    DIR *open = opendir(".");
    ck_assert_ptr_nonnull(open);
    size_t count = 0;
    for (struct dirent *entry = readdir(open); entry; entry = readdir(open))
        count += strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0;
    closedir(open);
    return count;
}

#endif
