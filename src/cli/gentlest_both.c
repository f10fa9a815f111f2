// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest: what its two views write alike.
#include "cli/gentlest.h"

void write_filter_counts(const struct filter_report *filters, struct text *out) {
    for (size_t i = 0; i < filters->count; i++) {
        const struct filter_count *filter = &filters->items[i];
        page_paragraph_f(out, 2, 4, "%s: %zu bottle%s off the shelf%s%s%s, %zu blends fewer", filter->filter,
                         filter->bottles, filter->bottles == 1 ? "" : "s", filter->bottles ? " (" : "", filter->names,
                         filter->bottles ? ")" : "", filter->blends);
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
    const struct blend *blend = weakest ? &row->weakest_blend : &row->blend;
    return blend->count > 0 && sensitivity_touched(sensitivity, blend, NULL);
}

void json_composition(const struct goal *goal, const struct composition *c, struct json *json, const char *key) {
    struct text recipe = {0};
    composition_recipe(goal, c, &recipe);
    json_text(json, key, text_bytes(&recipe));
    text_release(&recipe);
}
