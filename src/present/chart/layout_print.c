// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/layout_print.h"

#include <math.h>

// 0.1 pt, and no minus sign before a zero.
static double rounded(double value) {
    double tenth = round(value * 10) / 10;
    return tenth == 0 ? 0 : tenth;
}

static void print_number(struct text *out, double value) {
    text_printf(out, " %.1f", rounded(value));
}

void print_spot(struct text *out, struct spot spot) {
    print_number(out, spot.x);
    print_number(out, spot.y);
}

void print_segment(struct text *out, const char *what, struct segment segment) {
    text_add(out, what);
    print_spot(out, segment.from);
    print_spot(out, segment.to);
    text_add(out, "\n");
}

void print_box(struct text *out, const char *what, struct box box) {
    text_add(out, what);
    print_number(out, box.x);
    print_number(out, box.y);
    print_number(out, box.width);
    print_number(out, box.height);
    text_add(out, "\n");
}

void print_text(struct text *out, const char *what, const struct layout_text *text) {
    text_add(out, what);
    print_spot(out, (struct spot){text->x, text->y});
    text_printf(out, " size %.1f%s", rounded(text->size), text->bold ? " bold" : "");
    if (text->unit_x != 1) {
        text_add(out, " towards");
        print_spot(out, (struct spot){text->unit_x, text->unit_y});
    }
    text_printf(out, " '%s'\n", text->text);
}

void print_texts(struct text *out, const char *what, const struct layout_texts *texts) {
    for (size_t i = 0; i < texts->count; i++)
        print_text(out, what, &texts->items[i]);
}

void print_segments(struct text *out, const char *what, const struct segment_list *list) {
    for (size_t i = 0; i < list->count; i++)
        print_segment(out, what, list->items[i]);
}

void print_hatch(struct text *out, const struct segment_list *hatch) {
    text_printf(out, "  hatch %zu lines\n", hatch->count);
    if (hatch->count == 0)
        return;
    print_segment(out, "    first", hatch->items[0]);
    print_segment(out, "    last", hatch->items[hatch->count - 1]);
}

const char *shape_word(enum mark_shape shape) {
    switch (shape) {
    case MARK_DISC:
        return "disc";
    case MARK_RING:
        return "ring";
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

void print_label(struct text *out, const struct layout_label *label) {
    if (!label->placed) {
        text_printf(out, "no room for '%s'\n", label->number.text);
        return;
    }
    print_box(out, "label", label->box);
    print_text(out, "  number", &label->number);
    if (label->has_name)
        print_text(out, "  name", &label->name);
    if (label->has_leader)
        print_segment(out, "  leader", label->leader);
}

static void print_entry(struct text *out, const struct legend_entry *entry) {
    static const char *const words[] = {"heading", "area", "point", "line", "path", "limit", "window", "span"};
    text_printf(out, "legend %s", words[entry->symbol]);
    if (entry->symbol == LEGEND_POINT)
        text_printf(out, " %s", shape_word(entry->mark.shape));
    if (entry->symbol == LEGEND_LINE || entry->symbol == LEGEND_PATH)
        text_printf(out, " style %zu", entry->style);
    if (entry->symbol == LEGEND_AREA)
        print_box(out, "", entry->swatch);
    else
        text_add(out, "\n");
    if (entry->number.text[0])
        print_text(out, "  number", &entry->number);
    print_texts(out, "  line", &entry->lines);
}

void print_legend(struct text *out, struct box box, const struct legend_entry *entries, size_t count) {
    print_box(out, "legend", box);
    for (size_t i = 0; i < count; i++)
        print_entry(out, &entries[i]);
}

void print_page_head(struct text *out, const struct page_layout *page) {
    text_add(out, "page");
    print_spot(out, (struct spot){page->width, page->height});
    text_printf(out, " dpi %d%s\n", page->dpi, page->black_and_white ? " black and white" : "");
    print_texts(out, "header", &page->header);
}

void print_page_foot(struct text *out, const struct page_layout *page) {
    print_segment(out, "caption rule", page->caption_rule);
    print_texts(out, "caption", &page->caption);
}
