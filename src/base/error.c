// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/error.h"

#include "base/language.h"

#include <stdio.h>
#include <string.h>

void error_clear(struct error *err) {
    if (err) {
        err->status = STATUS_OK;
        err->text[0] = '\0';
    }
}

// vsnprintf may cut in the middle of a UTF-8 sequence; a terminal would show rubbish, so drop the stump.
static void drop_cut_sequence(char *text, size_t size) {
    size_t length = strnlen(text, size);
    if (length + 1 < size)
        return;
    size_t start = length;
    while (start > 0 && ((unsigned char)text[start - 1] & 0xC0) == 0x80)
        start--;
    if (start > 0 && (unsigned char)text[start - 1] >= 0xC0)
        text[start - 1] = '\0';
}

enum status error_set(struct error *err, enum status status, const char *format, ...) {
    if (!err)
        return status;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(err->text, sizeof err->text, say(format), arguments);
    va_end(arguments);
    drop_cut_sequence(err->text, sizeof err->text);
    err->status = status;
    return status;
}

enum status error_wrap(struct error *err, enum status status, const char *format, ...) {
    if (!err)
        return status;
    char inner[ERROR_TEXT_SIZE];
    memcpy(inner, err->text, sizeof inner);
    va_list arguments;
    va_start(arguments, format);
    int written = vsnprintf(err->text, sizeof err->text, say(format), arguments);
    va_end(arguments);
    if (written > 0 && (size_t)written < sizeof err->text - 1) {
        size_t at = (size_t)written;
        snprintf(err->text + at, sizeof err->text - at, ": %s", inner);
    }
    drop_cut_sequence(err->text, sizeof err->text);
    if (err->status == STATUS_OK)
        err->status = status;
    return err->status;
}

const char *status_name(enum status status) {
    switch (status) {
#define X(code, name, exit_status)                                                                                     \
    case code:                                                                                                         \
        return name;
        STATUS_LIST(X)
#undef X
    }
    return "unknown status";
}

int status_exit(enum status status) {
    switch (status) {
#define X(code, name, exit_status)                                                                                     \
    case code:                                                                                                         \
        return exit_status;
        STATUS_LIST(X)
#undef X
    }
    return 3;
}
