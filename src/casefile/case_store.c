// SPDX-License-Identifier: GPL-3.0-or-later
#include "casefile/case_store.h"

#include "base/file.h"
#include "base/file_lock.h"
#include "base/language.h"
#include "casefile/case_edit.h"

#include <stdio.h>
#include <string.h>

enum { LOCK_WAIT_MS = 30000 };

static enum status would_break(const struct casefile *old, const char *why, struct error *err) {
    return error_set(err, STATUS_INPUT,
                     "%s: the new text would not fit into this file (%s); nothing was changed. Put the list 'tests:' "
                     "at the end of the file, one key a line, and try again",
                     old->path, why);
}

static enum status would_break_at(const struct casefile *old, const struct fault_list *faults, struct error *err) {
    char first[ERROR_TEXT_SIZE / 2];
    const char *lines = text_bytes(&faults->lines);
    snprintf(first, sizeof first, "%.*s", (int)strcspn(lines, "\n"), lines);
    return would_break(old, first, err);
}

// The last check before anything touches the disk: the new text is read as any reader would.
static enum status check_new(struct arena *arena, const struct casefile *old, const struct text *bytes, size_t values,
                             const struct library *lib, struct date as_of, struct casefile *ret, struct error *err) {
    struct fault_list faults = {.most = 1};
    struct error inner = {0};
    char *copy = arena_text_n(arena, text_bytes(bytes), bytes->length);
    if (!copy)
        return error_set(err, STATUS_MEMORY, "%s: out of memory", old->path);
    enum status status = casefile_parse(arena, old->path, copy, bytes->length, lib, as_of, ret, &faults, &inner);
    size_t added = 0;
    if (status == STATUS_MEMORY)
        error_set(err, status, "%s", inner.text);
    else if (status != STATUS_OK)
        status = would_break(old, inner.text, err);
    else if (faults.count)
        status = would_break_at(old, &faults, err);
    else if (!case_extends(old->root, ret->root, &added) || added != values)
        status = would_break(old, say("something else would be read differently"), err);
    faults_release(&faults);
    return status;
}

enum status case_change(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                        case_changer *change, void *context, struct casefile *ret, struct error *err) {
    struct file_lock lock = {0};
    struct casefile old;
    struct casefile new;
    struct text bytes = {0};
    size_t values = 0;
    enum status status = file_lock_take(&lock, path, LOCK_WAIT_MS, err);
    if (status == STATUS_OK)
        status = casefile_open(arena, path, lib, as_of, &old, err);
    if (status == STATUS_OK)
        status = change(&old, &bytes, &values, context, err);
    if (status == STATUS_OK && bytes.failed)
        status = error_set(err, STATUS_MEMORY, "%s: out of memory", path);
    if (status == STATUS_OK)
        status = check_new(arena, &old, &bytes, values, lib, as_of, &new, err);
    if (status == STATUS_OK)
        status = file_replace(path, bytes.bytes, bytes.length, err);
    file_lock_release(&lock);
    text_release(&bytes);
    if (status == STATUS_OK)
        *ret = new;
    return status;
}
