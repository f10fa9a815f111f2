// SPDX-License-Identifier: GPL-3.0-or-later
#include "tables.h"

#include <stdio.h>
#include <stdlib.h>

const char *tables_directory(void) {
    const char *path = getenv("MILDSOLVE_TEST_DATA");
    return path ? path : MILDSOLVE_TEST_DATA;
}

void tables_open(struct library *ret, unsigned tables) {
    struct data_directory directory = {.path = tables_directory()};
    struct error err = {0};
    if (library_open(ret, &directory, 1, tables, &err) != STATUS_OK) {
        fprintf(stderr, "the tables cannot be read: %s\n", err.text);
        exit(2);
    }
}

const struct component *tables_component(const struct library *lib, const char *id) {
    const struct component *component;
    struct error err = {0};
    if (library_component(lib, id, &component, &err) != STATUS_OK) {
        fprintf(stderr, "%s\n", err.text);
        exit(2);
    }
    return component;
}

const char *reference_path(const char *file) {
    static char path[1024];
    const char *directory = getenv("MILDSOLVE_TEST_REFERENCE");
    snprintf(path, sizeof path, "%s/%s", directory ? directory : MILDSOLVE_TEST_REFERENCE, file);
    return path;
}
