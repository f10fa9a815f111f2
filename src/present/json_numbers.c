// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/json_numbers.h"

#include "present/json.h"

#include <stdbool.h>
#include <string.h>

// Where the reading is: the path so far, and its length at every bracket that is open.
struct reading {
    char path[JSON_PATH_BYTES];
    size_t length;
    size_t open[JSON_DEPTH_MAX + 1];
    size_t depth;
};

static void extend(struct reading *reading, const char *more, size_t length) {
    size_t room = JSON_PATH_BYTES - 1 - reading->length;
    size_t taken = length < room ? length : room;
    memcpy(reading->path + reading->length, more, taken);
    reading->length += taken;
    reading->path[reading->length] = '\0';
}

static void cut(struct reading *reading) {
    reading->length = reading->open[reading->depth];
    reading->path[reading->length] = '\0';
}

// The byte behind a string whose opening quotation mark stands at `at`.
static const char *string_end(const char *at) {
    for (at++; *at && *at != '"'; at++)
        if (*at == '\\' && at[1])
            at++;
    return *at ? at + 1 : at;
}

static void take_key(struct reading *reading, const char *from, const char *end) {
    cut(reading);
    if (reading->length)
        extend(reading, ".", 1);
    extend(reading, from + 1, (size_t)(end - from) - 2);
}

static void enter(struct reading *reading, bool list) {
    if (list)
        extend(reading, "[]", 2);
    if (reading->depth < JSON_DEPTH_MAX)
        reading->depth++;
    reading->open[reading->depth] = reading->length;
}

static void leave(struct reading *reading) {
    if (reading->depth)
        reading->depth--;
    cut(reading);
}

static bool begins_number(char c) {
    return c == '-' || (c >= '0' && c <= '9');
}

void json_each_number(const char *answer, void (*visit)(const char *path, void *context), void *context) {
    struct reading reading = {0};
    for (const char *at = answer; *at;) {
        if (*at == '"') {
            const char *end = string_end(at);
            if (*end == ':')
                take_key(&reading, at, end);
            at = end;
        } else if (begins_number(*at)) {
            visit(reading.path, context);
            at += strcspn(at, ",\n]} ");
        } else {
            if (*at == '{' || *at == '[')
                enter(&reading, *at == '[');
            else if (*at == '}' || *at == ']')
                leave(&reading);
            at++;
        }
    }
}
