// SPDX-License-Identifier: GPL-3.0-or-later
#include "tables.h"

#include <stdio.h>
#include <stdlib.h>

const char *tables_directory(void) {
    const char *path = getenv("MILDSOLVE_TEST_DATA");
    return path ? path : MILDSOLVE_TEST_DATA;
}

void tables_with_folder(struct folder *ret_own, struct data_directory ret[2]) {
    folder_make(ret_own);
    ret[0] = (struct data_directory){.path = tables_directory()};
    ret[1] = (struct data_directory){.path = ret_own->path, .user = true};
}

void stop_unless(enum status status, const struct error *err) {
    if (status == STATUS_OK)
        return;
    fprintf(stderr, "%s\n", err->text);
    exit(2);
}

void tables_open(struct library *ret, unsigned tables) {
    struct data_directory directory = {.path = tables_directory()};
    struct error err = {0};
    if (library_open(ret, &directory, 1, tables, &err) != STATUS_OK) {
        fprintf(stderr, "the tables cannot be read: %s\n", err.text);
        exit(2);
    }
}

void tables_open_unifac(struct library *ret, unsigned tables, struct unifac_table *ret_unifac) {
    struct error err = {0};
    tables_open(ret, tables | TABLE_UNIFAC);
    stop_unless(unifac_table_make(ret, ret_unifac, &err), &err);
}

void tables_close_unifac(struct library *lib, struct unifac_table *unifac) {
    unifac_table_release(unifac);
    library_release(lib);
}

const struct component *tables_component(const struct library *lib, const char *id) {
    const struct component *component = NULL;
    struct error err = {0};
    stop_unless(library_component(lib, id, &component, &err), &err);
    return component;
}

const struct material *tables_material(const struct library *lib, const char *id) {
    const struct material *material = NULL;
    struct error err = {0};
    stop_unless(library_material(lib, id, &material, &err), &err);
    return material;
}

struct blend tables_blend(const struct library *lib, const char *notation) {
    struct blend blend = {0};
    struct error err = {0};
    stop_unless(blend_parse(lib, notation, &blend, NULL, &err), &err);
    return blend;
}

void tables_activity(const struct library *lib, const struct unifac_table *unifac, const char *const *ids, size_t count,
                     double temp_k, struct activity_model *ret) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    struct error err = {0};
    for (size_t i = 0; i < count; i++)
        components[i] = tables_component(lib, ids[i]);
    stop_unless(activity_prepare(unifac, components, count, temp_k, ret, &err), &err);
}

const char *reference_path(const char *file) {
    static char path[1024];
    const char *directory = getenv("MILDSOLVE_TEST_REFERENCE");
    snprintf(path, sizeof path, "%s/%s", directory ? directory : MILDSOLVE_TEST_REFERENCE, file);
    return path;
}
