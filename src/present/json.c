// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/json.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static void quote(struct text *out, const char *value) {
    text_add(out, "\"");
    size_t length;
    for (const char *at = value; *at; at += length) {
        unsigned code;
        length = utf8_next(at, &code);
        if (code == '"' || code == '\\')
            text_printf(out, "\\%c", (int)code);
        else if (code == '\n')
            text_add(out, "\\n");
        else if (utf8_control(at, length)) // a byte that is no UTF-8 becomes U+FFFD
            text_printf(out, "\\u%04x", code);
        else
            text_add_n(out, at, length);
    }
    text_add(out, "\"");
}

static void begin_value(struct json *json, const char *key) {
    assert(json->depth > 0);
    text_add(json->out, json->has_members[json->depth - 1] ? ",\n" : "\n");
    json->has_members[json->depth - 1] = true;
    text_add_repeated(json->out, "  ", (size_t)json->depth);
    if (key) {
        quote(json->out, key);
        text_add(json->out, ": ");
    }
}

static void open_bracket(struct json *json, const char *bracket) {
    assert(json->depth < JSON_DEPTH_MAX);
    text_add(json->out, bracket);
    json->has_members[json->depth++] = false;
}

static void close_bracket(struct json *json, const char *bracket) {
    json->depth--;
    if (json->has_members[json->depth]) {
        text_add(json->out, "\n");
        text_add_repeated(json->out, "  ", (size_t)json->depth);
    }
    text_add(json->out, bracket);
}

void json_begin(struct json *json, struct text *out) {
    *json = (struct json){.out = out};
    open_bracket(json, "{");
}

void json_end(struct json *json) {
    close_bracket(json, "}");
    text_add(json->out, "\n");
}

void json_reopen(struct json *json, struct text *out) {
    static const char end[] = "\n}\n";
    *json = (struct json){.out = out, .depth = 1, .has_members = {true}};
    if (out->failed)
        return;
    assert(out->length > sizeof end && strcmp(out->bytes + out->length - (sizeof end - 1), end) == 0);
    out->length -= sizeof end - 1;
    out->bytes[out->length] = '\0';
}

void json_object(struct json *json, const char *key) {
    begin_value(json, key);
    open_bracket(json, "{");
}

void json_list(struct json *json, const char *key) {
    begin_value(json, key);
    open_bracket(json, "[");
}

void json_close_object(struct json *json) {
    close_bracket(json, "}");
}

void json_close_list(struct json *json) {
    close_bracket(json, "]");
}

void json_text(struct json *json, const char *key, const char *value) {
    begin_value(json, key);
    if (value)
        quote(json->out, value);
    else
        text_add(json->out, "null");
}

void json_texts(struct json *json, const char *key, const char *const *values, size_t count) {
    json_list(json, key);
    for (size_t i = 0; i < count; i++)
        json_text(json, NULL, values[i]);
    json_close_list(json);
}

void json_number(struct json *json, const char *key, double value) {
    begin_value(json, key);
    if (isfinite(value))
        text_printf(json->out, "%.10g", value == 0 ? 0.0 : value);
    else
        text_add(json->out, "null");
}

void json_integer(struct json *json, const char *key, long long value) {
    begin_value(json, key);
    text_printf(json->out, "%lld", value);
}

void json_flag(struct json *json, const char *key, bool value) {
    begin_value(json, key);
    text_add(json->out, value ? "true" : "false");
}

void json_null(struct json *json, const char *key) {
    begin_value(json, key);
    text_add(json->out, "null");
}
