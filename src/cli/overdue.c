// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/overdue.h"

#include "base/language.h"
#include "casefile/casefile.h"
#include "present/page.h"
#include "selection/goal.h"

#include <string.h>

// The bottle of the case; NULL when it is none of it, or there is no case.
static const struct case_bottle *case_bottle_of(const struct casefile *file, const struct bottle_ref *bottle) {
    const struct case_bottle *bottles = file ? file->bottles.items : NULL;
    for (size_t i = 0; file && i < file->bottles.count; i++)
        if (strcmp(bottles[i].id, bottle_ref_id(bottle)) == 0)
            return &bottles[i];
    return NULL;
}

bool overdue_bottle(const struct invocation *inv, const struct bottle_ref *bottle) {
    char sentence[CASE_REMARK_BYTES];
    const struct case_bottle *found = case_bottle_of(inv->casefile, bottle);
    return found && case_bottle_peroxide_remark(inv->casefile, found, inv->as_of, sentence)[0];
}

bool overdue_blend(const struct invocation *inv, const struct blend *blend) {
    for (size_t i = 0; i < blend->part_count; i++)
        if (overdue_bottle(inv, &blend->parts[i].bottle))
            return true;
    return false;
}

// A bottle without a date is not overdue: nobody can tell how long it has stood.
static bool any_dated(const struct invocation *inv, const struct blend *blend) {
    struct date from, until;
    for (size_t i = 0; i < blend->part_count; i++)
        if (overdue_bottle(inv, &blend->parts[i].bottle) &&
            case_bottle_peroxide_until(inv->casefile, case_bottle_of(inv->casefile, &blend->parts[i].bottle), &from,
                                       &until))
            return true;
    return false;
}

const char *overdue_mark(const struct invocation *inv, const struct blend *blend) {
    bool unknown = case_announces_people(inv->casefile) && !blend_hazards_known(blend);
    if (!overdue_blend(inv, blend))
        return unknown ? say(" (hazards not known)") : "";
    if (any_dated(inv, blend))
        return unknown ? say(" (hazards not known; peroxide test overdue)") : say(" (peroxide test overdue)");
    return unknown ? say(" (hazards not known; no date: test for peroxides)") : say(" (no date: test for peroxides)");
}

static bool stands_in(const struct text *names, const char *id) {
    size_t length = strlen(id);
    for (const char *at = text_bytes(names); (at = strstr(at, id)) != NULL; at += length)
        if ((at == text_bytes(names) || at[-1] == ' ') && (at[length] == ',' || at[length] == '\0'))
            return true;
    return false;
}

void overdue_add_names(const struct invocation *inv, const struct blend *blend, struct text *names) {
    for (size_t i = 0; i < blend->part_count; i++) {
        const char *id = bottle_ref_id(&blend->parts[i].bottle);
        if (overdue_bottle(inv, &blend->parts[i].bottle) && !stands_in(names, id))
            text_printf(names, "%s%s", names->length ? ", " : "", id);
    }
}

void add_overdue(const struct invocation *inv, const struct blend *blend, struct text *out) {
    struct text names = {0};
    overdue_add_names(inv, blend, &names);
    if (names.length)
        text_say(out, "Test for peroxides before use, or do not use: %s. ", text_bytes(&names));
    out->failed |= names.failed;
    text_release(&names);
}

void write_overdue(const struct text *names, struct text *out) {
    out->failed |= names->failed;
    if (names->length)
        page_paragraph_f(out, 0, 0, "Where marked: test these bottles for peroxides first, or do not use them: %s.",
                         text_bytes(names));
}

void json_overdue(const struct invocation *inv, const struct blend *blend, struct json *json) {
    json_list(json, "test_for_peroxides");
    for (size_t i = 0; i < blend->part_count; i++)
        if (overdue_bottle(inv, &blend->parts[i].bottle))
            json_text(json, NULL, bottle_ref_id(&blend->parts[i].bottle));
    json_close_list(json);
}
