// SPDX-License-Identifier: GPL-3.0-or-later
// Lists of names in which a comma may be part of a name ("2,2,4-trimethylpentane").
#include "physics/blend.h"

#include <stdio.h>
#include <string.h>

enum { NAME_BYTES = 160, PIECES_MAX = 256 };

typedef enum status name_taker(const struct library *lib, const char *name, void *list, struct error *err);
typedef bool name_knower(const struct library *lib, const char *name);

static void copy_trimmed(const char *start, const char *end, char name[NAME_BYTES]) {
    while (start < end && (*start == ' ' || *start == '\t'))
        start++;
    while (end > start && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    snprintf(name, NAME_BYTES, "%.*s", (int)(end - start), start);
}

// The longest run of pieces from `start` that is a known name as it stands; else the piece up to the first comma.
static const char *end_of_name(const struct library *lib, const char *start, name_knower *knows) {
    const char *first = start + strcspn(start, ",");
    const char *best = NULL;
    const char *end = first;
    for (int pieces = 0; pieces < 6; pieces++) {
        char name[NAME_BYTES];
        if (end - start < NAME_BYTES) {
            copy_trimmed(start, end, name);
            if (name[0] && knows(lib, name))
                best = end;
        }
        if (*end == '\0')
            break;
        end = end + 1 + strcspn(end + 1, ",");
    }
    return best ? best : first;
}

static enum status take_names(const struct library *lib, const char *list, name_knower *knows, name_taker *take,
                              void *out, struct error *err) {
    const char *start = list;
    for (int pieces = 0; pieces < PIECES_MAX; pieces++) {
        const char *end = end_of_name(lib, start, knows);
        char name[NAME_BYTES];
        copy_trimmed(start, end, name);
        if (name[0] == '\0')
            return error_set(err, STATUS_INPUT,
                             "an empty name in the list '%.80s'; names are separated by single commas", list);
        enum status status = take(lib, name, out, err);
        if (status != STATUS_OK)
            return status;
        if (*end == '\0')
            return STATUS_OK;
        start = end + 1;
    }
    return error_set(err, STATUS_INPUT, "more than %d names in one list", PIECES_MAX);
}

struct bottle_sink {
    struct bottle_ref *items;
    size_t most;
    size_t *count;
};

static enum status take_bottle(const struct library *lib, const char *name, void *out, struct error *err) {
    struct bottle_sink *sink = out;
    struct bottle_ref ref;
    enum status status = library_bottle(lib, name, &ref, err);
    if (status != STATUS_OK)
        return status;
    if (*sink->count == sink->most)
        return error_set(err, STATUS_INPUT, "more than %zu bottles in the list", sink->most);
    sink->items[(*sink->count)++] = ref;
    return STATUS_OK;
}

enum status bottle_list_parse(const struct library *lib, const char *list, struct bottle_ref *ret, size_t most,
                              size_t *ret_count, struct error *err) {
    struct bottle_sink sink = {.items = ret, .most = most, .count = ret_count};
    return take_names(lib, list, library_knows_bottle, take_bottle, &sink, err);
}

struct material_sink {
    const struct material **items;
    size_t most;
    size_t *count;
};

static enum status take_material(const struct library *lib, const char *name, void *out, struct error *err) {
    struct material_sink *sink = out;
    const struct material *material;
    enum status status = library_material(lib, name, &material, err);
    if (status != STATUS_OK)
        return status;
    if (*sink->count == sink->most)
        return error_set(err, STATUS_INPUT, "more than %zu materials in the list", sink->most);
    sink->items[(*sink->count)++] = material;
    return STATUS_OK;
}

enum status material_list_parse(const struct library *lib, const char *list, const struct material **ret, size_t most,
                                size_t *ret_count, struct error *err) {
    struct material_sink sink = {.items = ret, .most = most, .count = ret_count};
    return take_names(lib, list, library_knows_material, take_material, &sink, err);
}
