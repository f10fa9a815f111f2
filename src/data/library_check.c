// SPDX-License-Identifier: GPL-3.0-or-later
// `check`: every fault of all tables, or of one file on top of them.
#include "base/language.h"
#include "data/library_tables.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

// --- which table a file is ---

// The file that holds the table of a name: "components" is components.yaml; NULL when there is none.
static const char *file_of_table(const char *table) {
    for (size_t i = 0; i < library_list_count; i++)
        if (table_is_in(library_lists[i].file, table))
            return library_lists[i].file;
    return NULL;
}

static void unknown_table(const char *path, const struct yaml_node *table, struct fault_list *faults) {
    struct text known = {0};
    for (size_t i = 0; i < library_list_count; i++)
        if (i == 0 || strcmp(library_lists[i].file, library_lists[i - 1].file) != 0)
            text_printf(&known, "%s%.*s", i ? ", " : "", (int)table_name_length(library_lists[i].file),
                        library_lists[i].file);
    faults_add(faults, path, table, "table: '%.60s': is not known; one of these is expected: %s", table->text,
               text_bytes(&known));
    faults->lines.failed |= known.failed;
    text_release(&known);
}

// NULL, and a fault, when the file is no table.
static const char *file_for(const char *path, const struct yaml_node *root, struct fault_list *faults) {
    const struct yaml_node *table = root->kind == YAML_MAP ? yaml_find(root, "table") : NULL;
    if (!table || table->kind != YAML_SCALAR) {
        faults_add(faults, path, root,
                   "no key 'table' at the top; a table begins with, for example, 'table: components', a case with "
                   "'mildsolve_case: 1'");
        return NULL;
    }
    const char *file = file_of_table(table->text);
    if (!file)
        unknown_table(path, table, faults);
    return file;
}

static bool same_file(const char *a, const char *b) {
    struct stat first, second;
    return stat(a, &first) == 0 && stat(b, &second) == 0 && first.st_dev == second.st_dev &&
           first.st_ino == second.st_ino;
}

// True when the file is read anyway, as the table `file` of one of the directories.
static bool is_read_anyway(struct arena *arena, const char *path, const char *file,
                           const struct data_directory *directories, size_t count) {
    for (size_t i = 0; i < count; i++) {
        const char *own = arena_printf(arena, "%s/%s", directories[i].path, file);
        if (own && same_file(own, path))
            return true;
    }
    return false;
}

// The directories and, on top of them, the one that the file stands in: what its rows name may stand in the tables
// beside it. NULL without memory.
static const struct data_directory *with_own_directory(struct arena *arena, const char *path,
                                                       const struct data_directory *directories, size_t count) {
    struct data_directory *all = arena_new(arena, count + 1, sizeof *all);
    const char *slash = strrchr(path, '/');
    const char *own = slash ? arena_printf(arena, "%.*s", (int)(slash - path), path) : ".";
    if (!all || !own)
        return NULL;
    for (size_t i = 0; i < count; i++)
        all[i] = directories[i];
    all[count] = (struct data_directory){.path = own, .user = true};
    return all;
}

// --- names of the user's rows that stand for something else already ---

struct naming {
    const struct library *lib;
    const struct row_place *place; // of the row
    const struct record *record;
    const char *id;
    struct fault_list *faults;
};

// An id wins over other names, and a name that two rows have is refused when it is used: either way the row is not
// found by it.
static void check_name(const struct naming *naming, const char *name) {
    struct bottle_ref ref = {0};
    const struct material *material = NULL;
    bool is_material = naming->record == &material_record;
    enum status status = is_material ? library_material(naming->lib, name, &material, NULL)
                                     : library_bottle(naming->lib, name, &ref, NULL);
    const char *found = status != STATUS_OK ? NULL : is_material ? material->id : bottle_ref_id(&ref);
    if (found && strcmp(found, naming->id) == 0)
        return;
    faults_add(naming->faults, naming->place->file, naming->place->node,
               "%s '%s': another row is called '%.60s' too, so this row is not found by that name",
               say(naming->record->name), naming->id, name);
}

static void check_names(const struct naming *naming, const char *name, const struct synonyms *synonyms) {
    const struct text_list *lists[] = {&synonyms->en, &synonyms->de, &synonyms->fr, &synonyms->it, &synonyms->es};
    if (name)
        check_name(naming, name);
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
        for (size_t k = 0; k < lists[i]->count; k++)
            check_name(naming, lists[i]->items[k]);
}

static bool is_shipped(const struct library *lib, const char *file) {
    size_t length = strlen(lib->directories[0].path);
    return strncmp(file, lib->directories[0].path, length) == 0 && file[length] == '/';
}

static void check_row_names(const struct naming *naming, size_t row) {
    struct naming one = *naming;
    if (naming->record == &component_record) {
        const struct component *component = &naming->lib->components[row];
        one.id = component->id;
        check_names(&one, component->name, &component->synonyms);
    } else if (naming->record == &material_record) {
        const struct material *material = &naming->lib->materials[row];
        one.id = material->id;
        check_names(&one, material->name, &material->synonyms);
    } else if (naming->record == &bottle_record) {
        const struct bottle *bottle = &naming->lib->bottles[row];
        one.id = bottle->id;
        check_names(&one, bottle->name, &bottle->synonyms);
    }
}

static void check_all_names(const struct library *lib, struct fault_list *faults) {
    for (size_t i = 0; i < library_list_count; i++)
        for (size_t row = 0; row < lib->index->rows[i].count; row++) {
            const struct row_place *place = &lib->index->rows[i].places[row];
            struct naming naming = {.lib = lib, .place = place, .record = library_lists[i].record, .faults = faults};
            if (!is_shipped(lib, place->file))
                check_row_names(&naming, row);
        }
}

// --- one file, or all ---

static enum status check_tree(struct arena *arena, const char *path, const struct yaml_node *root,
                              const struct data_directory *directories, size_t count, struct fault_list *faults,
                              struct error *err) {
    const char *file = file_for(path, root, faults);
    if (!file)
        return STATUS_OK;
    if (is_read_anyway(arena, path, file, directories, count))
        return library_check(directories, count, faults, err);
    const struct data_directory *all = with_own_directory(arena, path, directories, count);
    if (!all)
        return error_set(err, STATUS_MEMORY, "out of memory");
    bool read_with_them = is_read_anyway(arena, path, file, all, count + 1);
    struct library lib;
    size_t before = faults->count;
    enum status status = library_begin(&lib, all, count + 1, err);
    if (status == STATUS_OK)
        status = library_read(&lib, TABLE_ALL, NULL, faults, err);
    if (status == STATUS_OK && faults->count == before && !read_with_them)
        status = library_read_file(&lib, path, file, true, NULL, faults, err);
    if (status == STATUS_OK && faults->count == before)
        library_cross_check(&lib, TABLE_ALL, faults);
    if (status == STATUS_OK && faults->count == before)
        check_all_names(&lib, faults);
    library_release(&lib);
    return status;
}

enum status library_check_file(const char *path, const struct data_directory *directories, size_t count,
                               struct fault_list *faults, struct error *err) {
    struct arena arena = {0};
    const struct yaml_node *root;
    struct error own = {0};
    enum status status = yaml_read_file(&arena, path, &yaml_default_limits, &root, &own);
    if (status == STATUS_OK) {
        status = check_tree(&arena, path, root, directories, count, faults, err);
    } else if (status == STATUS_INPUT) {
        faults_add_line(faults, own.text);
        status = STATUS_OK;
    } else {
        error_set(err, status, "%s", own.text);
    }
    arena_release(&arena);
    return status;
}

// --- files of the user's directories that nothing reads ---

enum { STRAYS_MAX = 64 };

static bool is_yaml(const char *name) {
    const char *dot = strrchr(name, '.');
    return dot && (strcmp(dot, ".yaml") == 0 || strcmp(dot, ".yml") == 0);
}

static bool is_table_file(const char *name) {
    for (size_t i = 0; i < library_list_count; i++)
        if (strcmp(library_lists[i].file, name) == 0)
            return true;
    return false;
}

// The list key ("components") that stands at the top; NULL when none does.
static const struct yaml_node *list_key_of(const struct yaml_node *root, const char **ret_file) {
    for (size_t i = 0; i < library_list_count; i++) {
        const struct yaml_node *rows = yaml_find(root, library_lists[i].list_key);
        if (rows && rows->kind == YAML_LIST) {
            *ret_file = library_lists[i].file;
            return rows;
        }
    }
    return NULL;
}

// A table under another name is never read; say so, for its owner believes it is. Files that are no tables are left
// alone: the directory is the user's.
static void check_stray(struct arena *arena, const char *path, struct fault_list *faults) {
    const struct yaml_node *root;
    enum status status = yaml_read_file(arena, path, &yaml_default_limits, &root, NULL);
    faults->lines.failed |= status == STATUS_MEMORY;
    if (status != STATUS_OK || root->kind != YAML_MAP)
        return;
    const struct yaml_node *table = yaml_find(root, "table");
    const char *file = table && table->kind == YAML_SCALAR ? file_of_table(table->text) : NULL;
    const struct yaml_node *rows = file ? NULL : list_key_of(root, &file);
    if (rows)
        faults_add(faults, path, rows, "this file is never read; such rows are read from %s", file);
    else if (file)
        faults_add(faults, path, table, "table: '%s': this file is never read; the table '%s' is read from %s",
                   table->text, table->text, file);
}

static int by_name(const void *a, const void *b) {
    return strcmp(*(const char *const *)a, *(const char *const *)b);
}

// Files of other programs only, such as a CSV: its owner believes that they are read.
static void no_table(const char *directory, struct fault_list *faults) {
    struct text line = {0};
    text_say(&line,
             "%s: no table is in it; a table has one of the names that `man mildsolve-data` lists, such as "
             "components.yaml",
             directory);
    faults_add_line(faults, text_bytes(&line));
    faults->lines.failed |= line.failed;
    text_release(&line);
}

static void check_strays(const char *directory, struct fault_list *faults) {
    DIR *stream = opendir(directory);
    if (!stream)
        return;
    struct arena arena = {0};
    const char *paths[STRAYS_MAX];
    size_t count = 0;
    size_t tables = 0;
    size_t others = 0;
    size_t before = faults->count;
    for (struct dirent *entry = readdir(stream); entry && count < STRAYS_MAX; entry = readdir(stream)) {
        tables += is_table_file(entry->d_name);
        others += entry->d_name[0] != '.';
        if (!is_yaml(entry->d_name) || is_table_file(entry->d_name))
            continue;
        const char *path = arena_printf(&arena, "%s/%s", directory, entry->d_name);
        if (path)
            paths[count++] = path;
        else
            faults->lines.failed = true;
    }
    closedir(stream);
    qsort(paths, count, sizeof paths[0], by_name);
    for (size_t i = 0; i < count; i++)
        check_stray(&arena, paths[i], faults);
    if (tables == 0 && others > 0 && faults->count == before)
        no_table(directory, faults);
    arena_release(&arena);
}

enum status library_check(const struct data_directory *directories, size_t count, struct fault_list *faults,
                          struct error *err) {
    struct library lib;
    enum status status = library_begin(&lib, directories, count, err);
    if (status == STATUS_OK)
        status = library_read(&lib, TABLE_ALL, NULL, faults, err);
    if (status == STATUS_OK && faults->count == 0)
        check_all_names(&lib, faults);
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        if (directories[i].user)
            check_strays(directories[i].path, faults);
    library_release(&lib);
    return status;
}
