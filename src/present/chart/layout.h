// SPDX-License-Identifier: GPL-3.0-or-later
// What layouts of all charts are made of: texts that know their place, and paragraphs of them. Points (1/72 inch), y
// downwards from the upper left corner of the page.
#ifndef MILDSOLVE_PRESENT_CHART_LAYOUT_H
#define MILDSOLVE_PRESENT_CHART_LAYOUT_H

#include "base/error.h"
#include "present/chart/labels.h"
#include "present/chart/style.h"
#include "present/chart/wrap.h"

struct layout_text {
    const char *text;
    double x, y;           // where the baseline begins (left end, whatever the script)
    double unit_x, unit_y; // direction of the baseline
    double width, size;    // pt
    bool bold;
    enum ink ink;
};

struct layout_texts {
    struct layout_text *items;
    size_t count;
    size_t capacity;
};

// Black, at the origin, from left to right.
struct layout_text layout_text_make(const struct text_metric *metric, const char *text, double size, bool bold);

// False when memory is exhausted.
bool layout_texts_add(struct arena *arena, struct layout_texts *texts, struct layout_text text);

// Lines of one kind below each other.
struct layout_column {
    struct layout_texts *texts;
    double left, width;
    double y; // top of the next line
};

// Adds a text of any kind, made printable and wrapped to at most `most` lines. False when memory is exhausted.
bool layout_paragraph(struct arena *arena, const struct text_metric *metric, struct layout_column *column,
                      const char *text, double size, bool bold, size_t most);

// Room of the letters of an upright text.
struct box layout_text_box(const struct layout_text *text);

// Hatches a polygon in the style of an area, no deeper than `depth` pt from its outline. False when memory is
// exhausted.
bool area_hatch(struct arena *arena, size_t style, const struct spot *corners, size_t count, double depth,
                struct segment_list *ret);

enum status layout_no_memory(struct error *err);

#endif
