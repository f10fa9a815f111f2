// SPDX-License-Identifier: GPL-3.0-or-later
// JSON for programs (RFC 8259): two-space indent, keys in the order written, never localised.
#ifndef MILDSOLVE_PRESENT_JSON_H
#define MILDSOLVE_PRESENT_JSON_H

#include "base/text.h"

#include <stdbool.h>

enum { JSON_DEPTH_MAX = 16 };

struct json {
    struct text *out;
    int depth;
    bool has_members[JSON_DEPTH_MAX];
};

void json_begin(struct json *json, struct text *out);  // opens the top object
void json_end(struct json *json);                      // closes it and ends the line
void json_reopen(struct json *json, struct text *out); // takes the end back, so that more members can follow
void json_object(struct json *json, const char *key);  // key NULL inside a list
void json_list(struct json *json, const char *key);
void json_close_object(struct json *json);
void json_close_list(struct json *json);
void json_text(struct json *json, const char *key, const char *value);                        // NULL -> null
void json_texts(struct json *json, const char *key, const char *const *values, size_t count); // a list of them
void json_number(struct json *json, const char *key, double value); // NAN and infinity -> null; 10 digits
void json_integer(struct json *json, const char *key, long long value);
void json_flag(struct json *json, const char *key, bool value);
void json_null(struct json *json, const char *key);

#endif
