// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/layout.h"

#include <string.h>

enum status layout_no_memory(struct error *err) {
    return error_set(err, STATUS_MEMORY, "out of memory while laying out the chart");
}

struct layout_text layout_text_make(const struct text_metric *metric, const char *text, double size, bool bold) {
    return (struct layout_text){.text = text,
                                .unit_x = 1,
                                .width = metric_width(metric, text, size, bold),
                                .size = size,
                                .bold = bold,
                                .ink = INK_BLACK};
}

bool layout_texts_add(struct arena *arena, struct layout_texts *texts, struct layout_text text) {
    if (texts->count == texts->capacity) {
        size_t capacity = texts->capacity ? texts->capacity * 2 : 8;
        struct layout_text *items = arena_new(arena, capacity, sizeof *items);
        if (!items)
            return false;
        if (texts->count)
            memcpy(items, texts->items, texts->count * sizeof *items);
        texts->items = items;
        texts->capacity = capacity;
    }
    texts->items[texts->count++] = text;
    return true;
}

bool layout_paragraph(struct arena *arena, const struct text_metric *metric, struct layout_column *column,
                      const char *text, double size, bool bold, size_t most) {
    struct text_lines lines;
    const char *clean = text_printable(arena, text);
    if (!clean || !text_wrap(arena, metric, clean, size, bold, column->width, most, &lines))
        return false;
    for (size_t i = 0; i < lines.count; i++) {
        struct layout_text line = layout_text_make(metric, lines.items[i], size, bold);
        line.x = column->left;
        line.y = column->y + size * LINE_ASCENT;
        column->y += size * LINE_STEP;
        if (!layout_texts_add(arena, column->texts, line))
            return false;
    }
    return true;
}

struct box layout_text_box(const struct layout_text *text) {
    return (struct box){text->x, text->y - text->size * 0.76, text->width, text->size * 0.8};
}

bool area_hatch(struct arena *arena, size_t style, const struct spot *corners, size_t count, double depth,
                struct segment_list *ret) {
    struct hatch_style hatch = area_style(style).hatch;
    return hatch_polygon(arena, corners, count, hatch.unit_x, hatch.unit_y, hatch.spacing, depth, ret) &&
           (!hatch.crossed ||
            hatch_polygon(arena, corners, count, hatch.unit_x, -hatch.unit_y, hatch.spacing, depth, ret));
}
