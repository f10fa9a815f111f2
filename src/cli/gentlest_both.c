// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest: what its two views write alike.
#include "cli/gentlest.h"

#include "base/language.h"
#include "base/print_words.h"

#include <stdio.h>

const char *shelf_words(const struct goal *goal, char words[SHELF_WORDS]) {
    int most = goal->components_most;
    if (goal->bottle_count == 0)
        return say("no bottle");
    if (goal->bottle_count == 1 || most == 1)
        return say("neat bottles only");
    if ((size_t)most > goal->bottle_count)
        most = (int)goal->bottle_count;
    print_words(words, SHELF_WORDS, "blends of up to %d of %zu bottles", most, goal->bottle_count);
    return words;
}

void write_filter_counts(const struct filter_report *filters, struct text *out) {
    for (size_t i = 0; i < filters->count; i++) {
        const struct filter_count *filter = &filters->items[i];
        page_paragraph_f(out, 2, 4, "%s: bottles off the shelf %zu%s%s%s, blends fewer %zu", filter->filter,
                         filter->bottles, filter->bottles ? " (" : "", filter->names, filter->bottles ? ")" : "",
                         filter->blends);
    }
}

void json_filter_counts(const struct filter_report *filters, struct json *json) {
    for (size_t i = 0; i < filters->count; i++) {
        const struct filter_count *filter = &filters->items[i];
        json_object(json, NULL);
        json_text(json, "filter", filter->filter);
        json_integer(json, "bottles", (long long)filter->bottles);
        json_text(json, "names", filter->names);
        json_integer(json, "blends", (long long)filter->blends);
        json_close_object(json);
    }
}

bool row_touches(const struct ranked_row *row, const struct sensitivity *sensitivity, bool weakest) {
    const struct blend *blend = weakest ? &row->weakest.blend : &row->blend;
    return blend->count > 0 && sensitivity_touched(sensitivity, blend, NULL);
}

void json_composition(const struct goal *goal, const struct composition *c, struct json *json, const char *key) {
    struct text recipe = {0};
    composition_recipe(goal, c, &recipe);
    json_text(json, key, text_bytes(&recipe));
    text_release(&recipe);
}
