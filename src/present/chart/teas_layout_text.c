// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/teas_layout.h"

#include <math.h>

// 0.1 pt, and no minus sign before a zero.
static double rounded(double value) {
    double tenth = round(value * 10) / 10;
    return tenth == 0 ? 0 : tenth;
}

static void add_number(struct text *out, double value) {
    text_printf(out, " %.1f", rounded(value));
}

static void add_spot(struct text *out, struct spot spot) {
    add_number(out, spot.x);
    add_number(out, spot.y);
}

static void add_segment(struct text *out, const char *what, struct segment segment) {
    text_add(out, what);
    add_spot(out, segment.from);
    add_spot(out, segment.to);
    text_add(out, "\n");
}

static void add_box(struct text *out, const char *what, struct box box) {
    text_add(out, what);
    add_number(out, box.x);
    add_number(out, box.y);
    add_number(out, box.width);
    add_number(out, box.height);
    text_add(out, "\n");
}

static void add_text(struct text *out, const char *what, const struct layout_text *text) {
    text_add(out, what);
    add_spot(out, (struct spot){text->x, text->y});
    text_printf(out, " size %.1f%s", rounded(text->size), text->bold ? " bold" : "");
    if (text->unit_x != 1) {
        text_add(out, " towards");
        add_spot(out, (struct spot){text->unit_x, text->unit_y});
    }
    text_printf(out, " '%s'\n", text->text);
}

static void add_texts(struct text *out, const char *what, const struct layout_texts *texts) {
    for (size_t i = 0; i < texts->count; i++)
        add_text(out, what, &texts->items[i]);
}

static void add_segments(struct text *out, const char *what, const struct segment_list *list) {
    for (size_t i = 0; i < list->count; i++)
        add_segment(out, what, list->items[i]);
}

// Hatch lines are many: their number and the ends of the first and last say enough.
static void add_hatch(struct text *out, const struct segment_list *hatch) {
    text_printf(out, "  hatch %zu lines\n", hatch->count);
    if (hatch->count == 0)
        return;
    add_segment(out, "    first", hatch->items[0]);
    add_segment(out, "    last", hatch->items[hatch->count - 1]);
}

static void add_area(struct text *out, const struct layout_area *area) {
    text_printf(out, "area %zu\n", area->style);
    for (size_t i = 0; i < area->corner_count; i++) {
        text_add(out, "  corner");
        add_spot(out, area->corners[i]);
        text_add(out, "\n");
    }
    add_hatch(out, &area->hatch);
    if (!area->lettered)
        return;
    add_box(out, "  box", area->box);
    add_text(out, "  letter", &area->letter);
    if (area->has_leader)
        add_segment(out, "  leader", area->leader);
}

static const char *shape_word(enum mark_shape shape) {
    switch (shape) {
    case MARK_DISC:
        return "disc";
    case MARK_DIAMOND:
        return "diamond";
    case MARK_SQUARE_EMPTY:
        return "empty square";
    case MARK_SQUARE_HALF:
        return "half square";
    case MARK_SQUARE_FULL:
        return "full square";
    case MARK_SQUARE_CROSSED:
        return "crossed square";
    }
    return "";
}

static void add_label(struct text *out, const struct layout_label *label) {
    if (!label->placed) {
        text_printf(out, "no room for '%s'\n", label->number.text);
        return;
    }
    add_box(out, "label", label->box);
    add_text(out, "  number", &label->number);
    if (label->has_name)
        add_text(out, "  name", &label->name);
    if (label->has_leader)
        add_segment(out, "  leader", label->leader);
}

static void add_entry(struct text *out, const struct layout_entry *entry) {
    static const char *const words[] = {"legend heading\n", "legend area", "legend point"};
    text_add(out, words[entry->symbol]);
    if (entry->symbol == LEGEND_AREA)
        add_box(out, "", entry->swatch);
    if (entry->symbol == LEGEND_POINT)
        text_printf(out, " %s\n", shape_word(teas_mark_style(entry->kind).shape));
    if (entry->symbol != LEGEND_HEADING)
        add_text(out, "  number", &entry->number);
    add_texts(out, "  line", &entry->lines);
}

static void add_triangle(struct text *out, const struct teas_layout *layout) {
    text_add(out, "triangle");
    add_spot(out, layout->dispersion);
    add_spot(out, layout->polar);
    add_spot(out, layout->hydrogen_bonding);
    text_add(out, "\n");
    for (size_t i = 0; i < 3; i++) {
        add_text(out, "axis", &layout->axes[i].name);
        add_segment(out, "  arrow", layout->axes[i].arrow);
    }
    add_texts(out, "scale", &layout->scale);
    add_segments(out, "tick", &layout->ticks);
    add_segments(out, "grid", &layout->grid);
}

void teas_layout_text(const struct teas_layout *layout, struct text *out) {
    text_add(out, "page");
    add_spot(out, (struct spot){layout->width, layout->height});
    text_printf(out, " dpi %d%s\n", layout->dpi, layout->black_and_white ? " black and white" : "");
    add_texts(out, "header", &layout->header);
    add_triangle(out, layout);
    for (size_t i = 0; i < layout->area_count; i++)
        add_area(out, &layout->areas[i]);
    add_segments(out, "link", &layout->links);
    for (size_t i = 0; i < layout->mark_count; i++) {
        text_printf(out, "mark %zu %s", layout->marks[i].number,
                    shape_word(teas_mark_style(layout->marks[i].kind).shape));
        add_spot(out, layout->marks[i].at);
        text_add(out, "\n");
    }
    for (size_t i = 0; i < layout->label_count; i++)
        add_label(out, &layout->labels[i]);
    add_box(out, "legend", layout->legend);
    for (size_t i = 0; i < layout->entry_count; i++)
        add_entry(out, &layout->entries[i]);
    add_segment(out, "caption rule", layout->caption_rule);
    add_texts(out, "caption", &layout->caption);
}
