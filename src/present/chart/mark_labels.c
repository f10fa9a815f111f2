// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/mark_labels.h"

#include <stdlib.h>

static const double same_spot = 1.5;  // pt; marks nearer than that share a label
static const double box_margin = 1.0; // white round the text of a label
static const double name_gap = 3;     // between number and name

struct disc *mark_discs(struct arena *arena, const struct layout_mark *marks, size_t count) {
    struct disc *discs = arena_new(arena, count, sizeof *discs);
    for (size_t i = 0; discs && i < count; i++)
        discs[i] = (struct disc){marks[i].at, mark_reach(marks[i].style)};
    return discs;
}

// --- marks on the same spot ---

struct mark_group {
    const struct layout_mark *first, *last;
    size_t *numbers;
    size_t count;
};

static void join_group(struct mark_group *groups, size_t *count, const struct layout_mark *mark, size_t *numbers) {
    for (size_t i = 0; i < *count; i++) {
        double dx = groups[i].first->at.x - mark->at.x;
        double dy = groups[i].first->at.y - mark->at.y;
        if (groups[i].first->kind == mark->kind && dx * dx + dy * dy < same_spot * same_spot) {
            groups[i].numbers[groups[i].count++] = mark->number;
            groups[i].last = mark;
            return;
        }
    }
    groups[*count] = (struct mark_group){mark, mark, numbers, 1};
    numbers[0] = mark->number;
    ++*count;
}

static struct mark_group *find_groups(struct arena *arena, const struct layout_mark *marks, size_t n,
                                      size_t *ret_count) {
    struct mark_group *groups = arena_new(arena, n, sizeof *groups);
    size_t *numbers = arena_new(arena, n * n, sizeof *numbers);
    if (!groups || !numbers)
        return NULL;
    *ret_count = 0;
    for (size_t i = 0; i < n; i++)
        join_group(groups, ret_count, &marks[i], numbers + i * n);
    return groups;
}

void text_add_numbers(struct text *out, const size_t *numbers, size_t count) {
    for (size_t i = 0; i < count;) {
        size_t run = 1;
        while (i + run < count && numbers[i + run] == numbers[i] + run)
            run++;
        size_t shown = run >= 3 ? run : 1;
        text_printf(out, "%s%zu", out->length ? ", " : "", numbers[i]);
        if (shown > 1)
            text_printf(out, "\u2013%zu", numbers[i + run - 1]);
        i += shown;
    }
}

static const char *group_text(struct arena *arena, const struct mark_group *group) {
    const char *own = group->first->text;
    if (own && group->count > 1)
        return arena_printf(arena, "%s\u2013%s", own, group->last->text);
    if (own)
        return own;
    struct text text = {0};
    text_add_numbers(&text, group->numbers, group->count);
    const char *copy = text.failed ? NULL : arena_text(arena, text_bytes(&text));
    text_release(&text);
    return copy;
}

// --- labels ---

static bool prepare_label(struct arena *arena, const struct text_metric *metric, const struct mark_group *group,
                          const struct label_style *style, struct layout_label *label, struct label_wish *wish) {
    const struct layout_mark *mark = group->first;
    const char *numbers = group_text(arena, group);
    const char *name = group->count == 1 && mark->name ? mark->name : "";
    if (!numbers)
        return false;
    double size = style->size;
    label->kind = mark->kind;
    label->numbers = group->numbers;
    label->number_count = group->count;
    label->number = layout_text_make(metric, numbers, size, true);
    label->name = layout_text_make(metric, name, size, false);
    label->has_name = name[0] && label->name.width <= style->name_width;
    *wish = (struct label_wish){.point = mark->at, .radius = mark_reach(mark->style), .priority = mark->priority};
    double short_width = label->number.width + 2 * box_margin;
    if (label->has_name) {
        wish->sizes[0].width = short_width + name_gap + label->name.width;
        wish->sizes[0].height = size * (TEXT_ASCENT + TEXT_DESCENT);
        wish->variants = 1;
    }
    wish->sizes[wish->variants].width = short_width;
    wish->sizes[wish->variants].height = size * CAPITAL_HEIGHT + 2 * box_margin;
    wish->variants++;
    return true;
}

static void finish_label(struct layout_label *label, const struct label_place *place) {
    label->placed = place->placed;
    label->has_name = label->has_name && place->placed && place->variant == 0;
    label->box = place->box;
    label->has_leader = place->has_leader;
    label->leader = place->leader;
    double size = label->number.size;
    label->number.x = place->box.x + box_margin;
    label->number.y = place->box.y + (label->has_name ? size * TEXT_ASCENT : size * CAPITAL_HEIGHT + box_margin);
    label->name.x = label->number.x + label->number.width + name_gap;
    label->name.y = label->number.y;
}

bool mark_labels_place(struct arena *arena, const struct text_metric *metric, const struct label_field *field,
                       const struct layout_mark *marks, size_t count, const struct label_style *style,
                       struct layout_label **ret, size_t *ret_count) {
    size_t groups_count = 0;
    struct mark_group *groups = find_groups(arena, marks, count, &groups_count);
    struct layout_label *labels = arena_new(arena, count, sizeof *labels);
    struct label_wish *wishes = arena_new(arena, count, sizeof *wishes);
    struct label_place *places = arena_new(arena, count, sizeof *places);
    if (!groups || !labels || !wishes || !places)
        return false;
    for (size_t i = 0; i < groups_count; i++)
        if (!prepare_label(arena, metric, &groups[i], style, &labels[i], &wishes[i]))
            return false;
    if (!labels_place(field, wishes, groups_count, places))
        return false;
    for (size_t i = 0; i < groups_count; i++)
        finish_label(&labels[i], &places[i]);
    *ret = labels;
    *ret_count = groups_count;
    return true;
}

static int by_size(const void *a, const void *b) {
    size_t x = *(const size_t *)a;
    size_t y = *(const size_t *)b;
    return (x > y) - (x < y);
}

size_t *mark_labels_missing(struct arena *arena, const struct layout_label *labels, size_t count, size_t *ret_count) {
    size_t most = 0;
    for (size_t i = 0; i < count; i++)
        most += labels[i].number_count;
    size_t *numbers = arena_new(arena, most, sizeof *numbers);
    size_t found = 0;
    for (size_t i = 0; numbers && i < count; i++)
        for (size_t n = 0; n < labels[i].number_count; n++)
            if (!labels[i].placed)
                numbers[found++] = labels[i].numbers[n];
    if (numbers)
        qsort(numbers, found, sizeof *numbers, by_size);
    *ret_count = found;
    return numbers;
}
