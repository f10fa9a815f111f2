// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/faults.h"

#include "base/language.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

void faults_add(struct fault_list *faults, const char *file, const struct yaml_node *at, const char *format, ...) {
    faults->count++;
    if (faults->most && faults->count > faults->most)
        return;
    char sentence[ERROR_TEXT_SIZE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(sentence, sizeof sentence, say(format), arguments);
    va_end(arguments);
    for (char *byte = sentence; *byte; byte++)
        if ((unsigned char)*byte < 0x20 || *byte == 0x7F)
            *byte = '?';
    if (at && at->line > 0)
        text_printf(&faults->lines, "%s:%d:%d: %s\n", file, at->line, at->column, sentence);
    else
        text_printf(&faults->lines, "%s: %s\n", file, sentence);
}

void faults_add_line(struct fault_list *faults, const char *line) {
    faults->count++;
    if (!faults->most || faults->count <= faults->most)
        text_printf(&faults->lines, "%s\n", line);
}

void faults_release(struct fault_list *faults) {
    text_release(&faults->lines);
    faults->count = 0;
}

enum status faults_error(const struct fault_list *faults, const char *path, struct error *err) {
    if (faults->lines.failed)
        return error_set(err, STATUS_MEMORY, "%s%sout of memory while reading%s", path ? path : "", path ? ": " : "",
                         path ? "" : say(" the tables"));
    const char *lines = text_bytes(&faults->lines);
    int first = (int)strcspn(lines, "\n");
    if (faults->count == 1)
        return error_set(err, STATUS_INPUT, "%.*s", first, lines);
    return error_set(err, STATUS_INPUT, "%.*s (and %zu more; `mildsolve check%s%s` lists them)", first, lines,
                     faults->count - 1, path ? " " : "", path ? path : "");
}
