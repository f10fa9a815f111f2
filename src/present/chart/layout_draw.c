// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/layout_draw.h"

#include "base/text.h"

#include <math.h>

static const struct pen arrow_pen = {.width = 0.8, .ink = INK_BLACK};
static const struct pen rule_pen = {.width = 0.5, .ink = INK_BLACK};
static const double mark_line = 1.1; // pt, outline of hollow marks
static const double halo = 0.9;      // white round a disc, so that it stays apart from what lies under it

void draw_text(struct picture *picture, const struct layout_text *text) {
    struct picture_text item = {text->text, text->x,     text->y,    text->unit_x, text->unit_y,
                                text->size, text->width, text->bold, text->ink};
    picture_text(picture, &item);
}

void draw_texts(struct picture *picture, const struct layout_texts *texts) {
    for (size_t i = 0; i < texts->count; i++)
        draw_text(picture, &texts->items[i]);
}

void draw_white(struct picture *picture, struct box box) {
    picture_box(picture, box.x, box.y, box.width, box.height, (struct picture_paint){NULL, true, INK_WHITE});
}

void draw_arrow(struct picture *picture, struct segment arrow) {
    static const double length = 5;
    static const double half = 2;
    double dx = arrow.to.x - arrow.from.x;
    double dy = arrow.to.y - arrow.from.y;
    double size = sqrt(dx * dx + dy * dy);
    dx /= size;
    dy /= size;
    struct spot foot = {arrow.to.x - dx * length, arrow.to.y - dy * length};
    struct segment shaft = {arrow.from, foot};
    struct spot head[] = {arrow.to, {foot.x - dy * half, foot.y + dx * half}, {foot.x + dy * half, foot.y - dx * half}};
    picture_segments(picture, &shaft, 1, &arrow_pen);
    picture_path(picture, head, 3, true, (struct picture_paint){NULL, true, INK_BLACK});
}

static void draw_square(struct picture *picture, struct spot at, const struct mark_style *style,
                        const struct pen *pen) {
    double r = style->radius;
    bool full = style->shape == MARK_SQUARE_FULL;
    struct picture_paint paint = {pen, true, full ? style->ink : INK_WHITE};
    picture_box(picture, at.x - r, at.y - r, 2 * r, 2 * r, paint);
    if (style->shape == MARK_SQUARE_HALF)
        picture_box(picture, at.x - r, at.y, 2 * r, r, (struct picture_paint){NULL, true, style->ink});
    if (style->shape == MARK_SQUARE_CROSSED) {
        struct segment cross[] = {{{at.x - r, at.y - r}, {at.x + r, at.y + r}},
                                  {{at.x - r, at.y + r}, {at.x + r, at.y - r}}};
        picture_segments(picture, cross, 2, pen);
    }
}

void draw_mark(struct picture *picture, struct mark_style style, struct spot at) {
    struct pen pen = {.width = mark_line, .ink = style.ink};
    double r = style.radius;
    if (style.shape == MARK_DISC) {
        picture_disc(picture, at, r + halo, (struct picture_paint){NULL, true, INK_WHITE});
        picture_disc(picture, at, r, (struct picture_paint){NULL, true, style.ink});
    } else if (style.shape == MARK_DIAMOND) {
        struct spot corners[] = {{at.x - r, at.y}, {at.x, at.y - r}, {at.x + r, at.y}, {at.x, at.y + r}};
        pen.width = 1.5;
        picture_path(picture, corners, 4, true, (struct picture_paint){&pen, true, INK_WHITE});
    } else {
        draw_square(picture, at, &style, &pen);
    }
}

static void draw_entry(struct picture *picture, const struct legend_entry *entry) {
    if (entry->symbol == LEGEND_AREA) {
        struct area_style style = area_style(entry->style);
        picture_segments(picture, entry->hatch.items, entry->hatch.count, &style.hatch.pen);
        picture_segments(picture, &entry->edge, 1, &style.outline);
    }
    if (entry->symbol == LEGEND_POINT)
        draw_mark(picture, entry->mark,
                  (struct spot){entry->swatch.x + entry->swatch.width / 2, entry->swatch.y + entry->swatch.height / 2});
    if (entry->symbol != LEGEND_HEADING)
        draw_text(picture, &entry->number);
    draw_texts(picture, &entry->lines);
}

void draw_legend(struct picture *picture, const struct legend_entry *entries, size_t count) {
    for (size_t i = 0; i < count; i++)
        draw_entry(picture, &entries[i]);
}

// The whole caption as one paragraph, for programs that read files and for people who cannot see pictures.
static void describe(struct picture *picture, const struct page_layout *page) {
    struct text words = {0};
    for (size_t i = 0; i < page->caption.count; i++)
        text_printf(&words, "%s%s", i ? " " : "", page->caption.items[i].text);
    picture->description = arena_text(&picture->arena, text_bytes(&words));
    const char *heading = page->header.count ? page->header.items[page->header.count - 1].text : "";
    picture->title = arena_text(&picture->arena, page->title[0] ? page->title : heading);
    picture->date = arena_text(&picture->arena, page->date);
    if (words.failed || !picture->description || !picture->title || !picture->date)
        picture->failed = true;
    text_release(&words);
}

void picture_begin(struct picture *picture, const struct page_layout *page) {
    *picture = (struct picture){
        .width = page->width, .height = page->height, .dpi = page->dpi, .black_and_white = page->black_and_white};
    describe(picture, page);
}

enum status picture_end(struct picture *picture, struct picture *ret, struct error *err) {
    if (picture->failed) {
        picture_release(picture);
        return error_set(err, STATUS_MEMORY, "out of memory while drawing the chart");
    }
    *ret = *picture;
    return STATUS_OK;
}

void draw_page(struct picture *picture, const struct page_layout *page) {
    draw_texts(picture, &page->header);
    picture_segments(picture, &page->caption_rule, 1, &rule_pen);
    draw_texts(picture, &page->caption);
}
