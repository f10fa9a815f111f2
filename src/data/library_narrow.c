// SPDX-License-Identifier: GPL-3.0-or-later
// Of tables with rows for every component only those of some components: which rows of which list that is.
#include "data/library_tables.h"
#include "data/row_filter.h"

#include <string.h>
#include <unistd.h>

// A row belongs to the components named by its fields, or to the main groups.
static const struct narrow_list {
    const struct record *record;
    const char *fields[ROW_FILTER_FIELDS];
    bool by_group;
} narrow_lists[] = {
    {&properties_record, {"id"}, false},
    {&hazard_record, {"id"}, false},
    {&limit_record, {"component"}, false},
    {&miscible_pair_record, {"first", "second"}, false},
    {&unifac_assignment_record, {"component"}, false},
    {&unifac_interaction_record, {"m", "n"}, true},
};

static const struct narrow_list *narrow_list_of(const struct record *record) {
    for (size_t i = 0; i < sizeof narrow_lists / sizeof narrow_lists[0]; i++)
        if (narrow_lists[i].record == record)
            return &narrow_lists[i];
    return NULL;
}

static bool is_among(const char *word, const char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(words[i], word) == 0)
            return true;
    return false;
}

// --- the main groups of the components, of both models together: a pair too many does no harm ---

struct group_words {
    const char **words;
    size_t count;
};

static bool add_main_group(struct library *lib, int main_group, struct group_words *groups) {
    const char *word = arena_printf(&lib->arena, "%d", main_group);
    if (word && !is_among(word, groups->words, groups->count))
        groups->words[groups->count++] = word;
    return word != NULL;
}

static bool add_groups_of(struct library *lib, const struct unifac_assignment *row, struct group_words *groups) {
    for (size_t i = 0; i < lib->unifac_group_count; i++) {
        const struct unifac_group *group = &lib->unifac_groups[i];
        for (size_t k = 0; group->model == row->model && k < row->groups.count; k++)
            if (row->groups.items[2 * k] == group->subgroup && !add_main_group(lib, group->main_group, groups))
                return false;
    }
    return true;
}

static bool groups_of(struct library *lib, const struct wanted_rows *wanted, struct group_words *ret) {
    ret->words = arena_new(&lib->arena, lib->unifac_group_count, sizeof *ret->words);
    bool good = ret->words != NULL;
    for (size_t i = 0; good && i < lib->unifac_assignment_count; i++) {
        const struct unifac_assignment *row = &lib->unifac_assignments[i];
        if (is_among(row->component, wanted->components, wanted->count))
            good = add_groups_of(lib, row, ret);
    }
    return good;
}

// --- one file ---

// A row of the user's may change one of ours, which must be there to be changed.
static bool users_have(struct library *lib, const char *file, bool *ret) {
    *ret = false;
    for (size_t i = 0; i < lib->directory_count && !*ret; i++) {
        if (!lib->directories[i].user)
            continue;
        const char *path = arena_printf(&lib->arena, "%s/%s", lib->directories[i].path, file);
        if (!path)
            return false;
        *ret = access(path, F_OK) == 0;
    }
    return true;
}

static bool narrow_list(struct library *lib, const struct table_list *list, const struct narrow_list *narrow,
                        const struct wanted_rows *wanted, char *bytes, size_t *length) {
    struct row_filter filter = {.list_key = list->list_key,
                                .fields = {narrow->fields[0], narrow->fields[1]},
                                .numbers = narrow->by_group,
                                .words = wanted->components,
                                .word_count = wanted->count};
    if (narrow->by_group) {
        struct group_words groups = {0};
        if (!groups_of(lib, wanted, &groups))
            return false;
        filter.words = groups.words;
        filter.word_count = groups.count;
    }
    row_filter_apply(&filter, bytes, length);
    return true;
}

bool library_narrow(struct library *lib, const struct wanted_rows *wanted, const char *file, char *bytes,
                    size_t *length) {
    bool whole;
    if (!users_have(lib, file, &whole))
        return false;
    for (size_t i = 0; i < library_list_count && !whole; i++) {
        const struct table_list *list = &library_lists[i];
        const struct narrow_list *narrow = strcmp(list->file, file) == 0 ? narrow_list_of(list->record) : NULL;
        if (narrow && !narrow_list(lib, list, narrow, wanted, bytes, length))
            return false;
    }
    return true;
}

bool library_narrows(const struct table_list *list) {
    return narrow_list_of(list->record) != NULL;
}
