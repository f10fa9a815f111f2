// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/people_bar.h"

#include "base/language.h"
#include "selection/goal.h"

// `format` takes the ids of the components that `barred` names.
static void add_reason(const struct blend *blend, bool (*barred)(const struct component *), const char *format,
                       struct text *out) {
    struct text list = {0};
    for (size_t i = 0; i < blend->count; i++)
        if (barred(blend->components[i]))
            text_printf(&list, "%s%s", list.length ? ", " : "", blend->components[i]->id);
    if (list.length && out->length)
        text_add(out, "; ");
    if (list.length)
        text_say(out, format, text_bytes(&list));
    out->failed |= list.failed;
    text_release(&list);
}

void add_people_bar(const struct casefile *file, const struct blend *blend, struct text *out) {
    if (!file)
        return;
    if (case_has_flag(file, "pregnancy announced") || case_has_flag(file, "breastfeeding"))
        add_reason(blend, component_not_for_unborn, N_("while a pregnancy or breastfeeding is announced (%s)"), out);
    if (case_has_flag(file, "sensitised"))
        add_reason(blend, component_not_for_sensitised,
                   N_("while somebody who is sensitised works there, before it is known to what (%s)"), out);
    if (case_has_flag(file, "under 18"))
        add_reason(blend, component_not_for_young, N_("by somebody under 18 (%s)"), out);
}

bool people_barred(const struct casefile *file, const struct blend *blend) {
    struct text reason = {0};
    add_people_bar(file, blend, &reason);
    bool barred = reason.length > 0;
    text_release(&reason);
    return barred;
}
