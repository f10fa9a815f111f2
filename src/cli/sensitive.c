// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/sensitive.h"

#include "casefile/casefile.h"

#include <string.h>

static void add(struct sensitive_passages *list, const struct sensitivity *sensitivity, const char *passage) {
    for (size_t i = 0; i < list->count; i++)
        if (list->items[i].sensitivity == sensitivity && list->items[i].passage == passage)
            return;
    if (list->count < SENSITIVE_MAX)
        list->items[list->count++] = (struct sensitive_passage){sensitivity, passage};
}

static enum status from_option(struct invocation *inv, struct sensitive_passages *list, struct error *err) {
    const char *start = option_value(inv, "--sensitive");
    while (start) {
        size_t length = strcspn(start, ",");
        const char *name = arena_text_n(inv->arena, start + strspn(start, " "),
                                        length > strspn(start, " ") ? length - strspn(start, " ") : 0);
        const struct sensitivity *sensitivity;
        if (!name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        enum status status = library_sensitivity(&inv->library, name, &sensitivity, err);
        if (status != STATUS_OK)
            return status;
        add(list, sensitivity, NULL);
        start = start[length] == ',' ? start + length + 1 : NULL;
    }
    return STATUS_OK;
}

static void from_case(const struct invocation *inv, struct sensitive_passages *list) {
    const struct case_passage *passages = inv->casefile->passages.items;
    for (size_t i = 0; i < inv->casefile->passages.count; i++)
        for (size_t k = 0; k < passages[i].sensitive.count; k++) {
            const struct sensitivity *sensitivity;
            if (library_sensitivity(&inv->library, passages[i].sensitive.items[k], &sensitivity, NULL) == STATUS_OK)
                add(list, sensitivity, passages[i].id);
        }
}

enum status sensitive_collect(struct invocation *inv, struct sensitive_passages *ret, struct error *err) {
    *ret = (struct sensitive_passages){0};
    enum status status = from_option(inv, ret, err);
    if (status == STATUS_OK && inv->casefile)
        from_case(inv, ret);
    return status;
}
