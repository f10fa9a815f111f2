// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/library.h"

#include "base/file_read.h"
#include "base/text.h"
#include "data/library_tables.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

size_t table_name_length(const char *file) {
    return strlen(file) - strlen(".yaml");
}

bool table_is_in(const char *file, const char *table) {
    size_t length = table_name_length(file);
    return strlen(table) == length && strncmp(table, file, length) == 0;
}

static void set_rows(struct library *lib, const struct table_list *list, void *rows, size_t count) {
    *(void **)(void *)((char *)lib + list->rows_offset) = rows;
    *(size_t *)(void *)((char *)lib + list->count_offset) = count;
}

// --- reading one file ---

struct file_reading {
    struct library *lib;
    const char *path;
    bool user;
    struct fault_list *faults;
    struct error *err;
};

static enum status no_memory(const struct file_reading *reading) {
    return error_set(reading->err, STATUS_MEMORY, "%s: out of memory while reading", reading->path);
}

static bool grow_rows(const struct file_reading *reading, const struct table_list *list, struct row_index *index,
                      size_t more) {
    struct library *lib = reading->lib;
    size_t count = table_count(lib, list);
    char *rows = arena_new(&lib->arena, count + more, list->record->size);
    struct row_place *places = arena_new(&lib->arena, count + more, sizeof *places);
    if (!rows || !places)
        return false;
    if (count) {
        memcpy(rows, table_rows(lib, list), count * list->record->size);
        memcpy(places, index->places, count * sizeof *places);
    }
    set_rows(lib, list, rows, count);
    index->places = places;
    return index_make_room(&lib->arena, index, count + more);
}

static void mark_row_user(const struct table_list *list, void *row) {
    if (list->record == &component_record)
        ((struct component *)row)->user = true;
    else if (list->record == &material_record)
        ((struct material *)row)->user = true;
    else if (list->record == &bottle_record)
        ((struct bottle *)row)->user = true;
    else if (list->record == &reference_record)
        ((struct reference *)row)->user = true;
}

// Rows that are one value with its source: the user's replaces ours whole, so that no half of a limit stays behind.
static bool is_one_value(const struct record *record) {
    return record == &limit_record || record == &unifac_group_record || record == &unifac_interaction_record ||
           record == &unifac_assignment_record || record == &miscible_pair_record || record == &uncertainty_record ||
           record == &ageing_state_record || record == &lifting_threshold_record ||
           record == &published_removal_record || record == &retained_carrier_record || record == &family_share_record;
}

// A hazard row has one source for many values: one that the user replaced is marked by its key, and the row stays ours
// unless its source was replaced too.
static enum status settle_hazard(struct arena *arena, const struct yaml_node *node, bool was_user,
                                 struct hazard *hazard) {
    const char **keys = arena_new(arena, hazard->yours.count + node->count + 1, sizeof *keys);
    size_t count = 0;
    if (!keys)
        return STATUS_MEMORY;
    for (; count < hazard->yours.count; count++)
        keys[count] = hazard->yours.items[count];
    for (size_t i = 0; i < node->count; i++) {
        const char *key = node->pairs[i].key->text;
        bool again = strcmp(key, "id") == 0;
        for (size_t k = 0; k < count; k++)
            again = again || strcmp(keys[k], key) == 0;
        if (!again)
            keys[count++] = key;
    }
    hazard->yours = (struct text_list){keys, count};
    if (!yaml_find(node, "sure") && !yaml_find(node, "refs"))
        hazard->from.user = was_user;
    return STATUS_OK;
}

// What the user's values make untrue of the rest of our row: a sphere ends "no region is published" and the other way
// round, and either ends the film fitted to ours; values of the user's own are no longer those of a surrogate.
static void settle_override(const struct table_list *list, const struct yaml_node *node, void *row) {
    if (node->kind != YAML_MAP)
        return;
    if (list->record == &component_record && yaml_find(node, "hansen") && !yaml_find(node, "surrogate"))
        ((struct component *)row)->surrogate = NULL;
    if (list->record != &material_record)
        return;
    struct material *material = row;
    if (yaml_find(node, "sphere") && !yaml_find(node, "no_region"))
        material->no_region = NULL;
    if (yaml_find(node, "no_region") && !yaml_find(node, "sphere"))
        material->sphere.r0 = NAN;
    // A film without a centre of its own was fitted around that of our sphere.
    if ((yaml_find(node, "sphere") || yaml_find(node, "no_region")) && !yaml_find(node, "film_model") &&
        isnan(material->film_model.delta_d))
        schema_blank(&film_record, &material->film_model);
}

// The numbers of the shipped list are what our own values point to; a user's number must not turn them round.
static bool takes_our_number(const struct file_reading *reading, const struct table_list *list, const void *row) {
    return reading->user && list->record == &reference_record && !((const struct reference *)row)->user;
}

static enum status read_row(const struct file_reading *reading, const struct table_list *list, struct row_index *index,
                            const struct yaml_node *node, size_t number) {
    struct library *lib = reading->lib;
    const char *key = index_key(&lib->arena, list, node);
    if (!key)
        return no_memory(reading);
    size_t *slot = index_slot(index, key);
    bool known = *slot != 0;
    bool nameless = key[0] == '\0' || key[0] == '|'; // a fault of its own, found below
    if (known && !nameless && index->places[*slot - 1].file == reading->path) {
        faults_add(reading->faults, reading->path, node, "%s '%s' stands here for the second time (first in line %d)",
                   list->record->name, key, index->places[*slot - 1].node->line);
        return STATUS_OK;
    }
    size_t row = known ? *slot - 1 : index->count;
    void *target = (char *)table_rows(lib, list) + row * list->record->size;
    if (known && takes_our_number(reading, list, target)) {
        faults_add(reading->faults, reading->path, node,
                   "reference '%s': belongs to the shipped list; number your own sources from %d on", key,
                   USERS_FIRST_REFERENCE);
        return STATUS_OK;
    }
    char path[64];
    snprintf(path, sizeof path, "%s[%zu]", list->list_key, number);
    struct schema_reader reader = {.arena = &lib->arena,
                                   .file = reading->path,
                                   .user = reading->user,
                                   .over = known && !is_one_value(list->record) && !nameless,
                                   .faults = reading->faults};
    const bool hazard = list->record == &hazard_record && reader.over && node->kind == YAML_MAP;
    const bool was_user = hazard && ((const struct hazard *)target)->from.user;
    if (schema_read(&reader, list->record, node, path, target) != STATUS_OK)
        return no_memory(reading);
    if (hazard && reading->user && settle_hazard(&lib->arena, node, was_user, target) != STATUS_OK)
        return no_memory(reading);
    if (reader.over)
        settle_override(list, node, target);
    if (!known) {
        if (reading->user)
            mark_row_user(list, target);
        index->count = row + 1;
        *slot = row + 1;
        set_rows(lib, list, table_rows(lib, list), row + 1);
    }
    index->places[row] = (struct row_place){.file = reading->path, .node = node, .key = key};
    return STATUS_OK;
}

static enum status read_list(const struct file_reading *reading, const struct table_list *list, struct row_index *index,
                             const struct yaml_node *rows) {
    if (rows->kind != YAML_LIST) {
        faults_add(reading->faults, reading->path, rows, "%s: a list of entries ('- key: value') is expected",
                   list->list_key);
        return STATUS_OK;
    }
    if (!grow_rows(reading, list, index, rows->count))
        return no_memory(reading);
    for (size_t i = 0; i < rows->count; i++) {
        enum status status = read_row(reading, list, index, rows->items[i], i + 1);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static bool known_top_key(const char *file, const char *key) {
    if (strcmp(key, "table") == 0 || strcmp(key, "version") == 0 || strcmp(key, "about") == 0)
        return true;
    for (size_t i = 0; i < library_list_count; i++)
        if (strcmp(library_lists[i].file, file) == 0 && strcmp(library_lists[i].list_key, key) == 0)
            return true;
    return false;
}

static void check_top(const struct file_reading *reading, const char *file, const struct yaml_node *root) {
    const struct yaml_node *table = yaml_find(root, "table");
    if (table && (table->kind != YAML_SCALAR || !table_is_in(file, table->text)))
        faults_add(reading->faults, reading->path, table, "table: the table in %s is '%.*s'", file,
                   (int)table_name_length(file), file);
    for (size_t i = 0; i < root->count; i++)
        if (!known_top_key(file, root->pairs[i].key->text))
            faults_add(reading->faults, reading->path, root->pairs[i].key, "key '%.60s' is not known at the top of %s",
                       root->pairs[i].key->text, file);
}

static void take_version(const struct file_reading *reading, const char *file, const struct yaml_node *root) {
    const struct yaml_node *version = yaml_find(root, "version");
    if (!reading->user && version && version->kind == YAML_SCALAR && strcmp(file, "components.yaml") == 0)
        reading->lib->version = version->text;
}

// Fills every list of one parsed file.
static enum status read_tree(const struct file_reading *reading, const char *file, const struct yaml_node *root) {
    if (root->kind != YAML_MAP) {
        faults_add(reading->faults, reading->path, root,
                   "a table file is a map with the keys table, version and its list");
        return STATUS_OK;
    }
    check_top(reading, file, root);
    take_version(reading, file, root);
    for (size_t i = 0; i < library_list_count; i++) {
        const struct table_list *list = &library_lists[i];
        const struct yaml_node *rows = strcmp(list->file, file) == 0 ? yaml_find(root, list->list_key) : NULL;
        if (!rows)
            continue;
        enum status status = read_list(reading, list, &reading->lib->index->rows[i], rows);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static enum status parse_file(struct library *lib, const char *path, const char *file, const struct wanted_rows *wanted,
                              const struct yaml_node **ret_root, struct error *err) {
    struct text bytes = {0};
    enum status status = file_read(path, yaml_default_limits.file_bytes, &bytes, err);
    if (status == STATUS_OK && wanted && bytes.length && !library_narrow(lib, wanted, file, bytes.bytes, &bytes.length))
        status = error_set(err, STATUS_MEMORY, "%s: out of memory while reading", path);
    if (status == STATUS_OK)
        status =
            yaml_read_memory(&lib->arena, path, text_bytes(&bytes), bytes.length, &yaml_default_limits, ret_root, err);
    text_release(&bytes);
    return status;
}

enum status library_read_file(struct library *lib, const char *path, const char *file, bool user,
                              const struct wanted_rows *wanted, struct fault_list *faults, struct error *err) {
    const struct yaml_node *root;
    struct error own = {0};
    enum status status = parse_file(lib, path, file, user ? NULL : wanted, &root, &own);
    if (status == STATUS_INPUT) {
        faults_add_line(faults, own.text);
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return error_set(err, status, "%s", own.text);
    struct file_reading reading = {.lib = lib, .path = path, .user = user, .faults = faults, .err = err};
    return read_tree(&reading, file, root);
}

// --- reading all directories ---

static bool first_with_file(size_t list) {
    for (size_t i = 0; i < list; i++)
        if (strcmp(library_lists[i].file, library_lists[list].file) == 0)
            return false;
    return true;
}

// One table from all directories that have it; the first must.
static enum status read_table(struct library *lib, const char *file, const struct wanted_rows *wanted,
                              struct fault_list *faults, struct error *err) {
    for (size_t i = 0; i < lib->directory_count; i++) {
        const struct data_directory *directory = &lib->directories[i];
        const char *path = arena_printf(&lib->arena, "%s/%s", directory->path, file);
        if (!path)
            return error_set(err, STATUS_MEMORY, "out of memory while opening the tables");
        enum status status = library_read_file(lib, path, file, directory->user, wanted, faults, err);
        if (status == STATUS_NOT_FOUND && i > 0) {
            error_clear(err);
            continue;
        }
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

// A row of one's own may state H350 and leave the category out: the code says as much. Which of 1A and 1B it is changes
// nothing that this program does; 1B is taken.
static void settle_category(const struct hazard *hazard, const char *known, const char *suspected, int *category) {
    for (size_t i = 0; i < hazard->h_statements.count && *category != CATEGORY_1B; i++) {
        const char *code = hazard->h_statements.items[i];
        if (strncmp(code, known, strlen(known)) == 0)
            *category = CATEGORY_1B;
        else if (strncmp(code, suspected, strlen(suspected)) == 0)
            *category = CATEGORY_2;
    }
}

static void settle_categories(struct hazard *hazard) {
    if (hazard->carcinogen_category == CATEGORY_NONE)
        settle_category(hazard, "H350", "H351", &hazard->carcinogen_category);
    if (hazard->mutagen_category == CATEGORY_NONE)
        settle_category(hazard, "H340", "H341", &hazard->mutagen_category);
    if (hazard->reproductive_category == CATEGORY_NONE)
        settle_category(hazard, "H360", "H361", &hazard->reproductive_category);
}

static void link_rows(struct library *lib) {
    for (size_t i = 0; i < lib->component_count; i++) {
        struct component *component = &lib->components[i];
        size_t row = index_find(lib->index, &properties_record, component->id);
        component->properties = row ? &lib->properties[row - 1] : NULL;
        row = index_find(lib->index, &hazard_record, component->id);
        component->hazard = row ? &lib->hazards[row - 1] : NULL;
        if (row)
            settle_categories(&lib->hazards[row - 1]);
    }
    for (size_t i = 0; i < lib->unifac_interaction_count; i++) {
        struct unifac_interaction *pair = &lib->unifac_interactions[i];
        pair->b = isnan(pair->b) ? 0 : pair->b;
        pair->c = isnan(pair->c) ? 0 : pair->c;
    }
}

enum status library_begin(struct library *lib, const struct data_directory *directories, size_t count,
                          struct error *err) {
    *lib = (struct library){0};
    struct data_directory *copies = arena_new(&lib->arena, count, sizeof *copies);
    lib->index = arena_new(&lib->arena, 1, sizeof *lib->index);
    bool good = copies && lib->index;
    for (size_t i = 0; good && i < count; i++) {
        copies[i] =
            (struct data_directory){.path = arena_text(&lib->arena, directories[i].path), .user = directories[i].user};
        good = copies[i].path != NULL;
    }
    if (!good)
        return error_set(err, STATUS_MEMORY, "out of memory while opening the tables");
    lib->directories = copies;
    lib->directory_count = count;
    return STATUS_OK;
}

enum status library_read(struct library *lib, unsigned tables, const struct wanted_rows *wanted,
                         struct fault_list *faults, struct error *err) {
    assert(!(tables & lib->loaded));
    for (size_t i = 0; i < library_list_count; i++) {
        const struct table_list *list = &library_lists[i];
        if (!(list->table & tables))
            continue;
        enum status status = first_with_file(i) ? read_table(lib, list->file, wanted, faults, err) : STATUS_OK;
        if (status != STATUS_OK)
            return status;
        if (wanted && library_narrows(list))
            lib->narrowed |= list->table;
    }
    lib->loaded |= tables;
    if (faults->count == 0) {
        link_rows(lib);
        library_cross_check(lib, tables & TABLE_REFERENCES ? lib->loaded : tables, faults);
    }
    return STATUS_OK;
}

// Reads with the first fault as the error; *lib is left empty after one.
static enum status read_or_release(struct library *lib, unsigned tables, const struct wanted_rows *wanted,
                                   struct error *err) {
    struct fault_list faults = {.most = 1};
    enum status status = library_read(lib, tables, wanted, &faults, err);
    if (status == STATUS_OK && faults.count)
        status = faults_error(&faults, NULL, err);
    faults_release(&faults);
    if (status != STATUS_OK)
        library_release(lib);
    return status;
}

enum status library_open(struct library *lib, const struct data_directory *directories, size_t count, unsigned tables,
                         struct error *err) {
    if (tables & (TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_BOTTLES))
        tables |= TABLE_COMPONENTS;
    enum status status = library_begin(lib, directories, count, err);
    if (status == STATUS_OK)
        return read_or_release(lib, tables, NULL, err);
    library_release(lib);
    return status;
}

enum status library_add(struct library *lib, unsigned tables, const struct component *const *wanted, size_t count,
                        struct error *err) {
    assert((lib->loaded & TABLE_COMPONENTS) && !(tables & lib->narrowed));
    tables &= ~lib->loaded;
    if (!wanted)
        return read_or_release(lib, tables, NULL, err);
    const char **ids = arena_new(&lib->arena, count, sizeof *ids);
    if (!ids) {
        library_release(lib);
        return error_set(err, STATUS_MEMORY, "out of memory while opening the tables");
    }
    for (size_t i = 0; i < count; i++)
        ids[i] = wanted[i]->id;
    struct wanted_rows rows = {.components = ids, .count = count};
    return read_or_release(lib, tables, &rows, err);
}

void library_release(struct library *lib) {
    arena_release(&lib->arena);
    *lib = (struct library){0};
}
