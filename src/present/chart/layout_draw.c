// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/layout_draw.h"

#include "base/text.h"

#include <math.h>

static const struct pen arrow_pen = {.width = 0.8, .ink = INK_BLACK};
static const struct pen leader_pen = {.width = 0.5, .ink = INK_BLACK};
static const struct pen rule_pen = {.width = 0.5, .ink = INK_BLACK};
static const struct pen limit_pen = {.width = 1.0, .ink = INK_RUST};
static const struct pen stroke_pen = {.width = 0.6, .ink = INK_RUST};
static const struct pen window_pen = {.width = 0.5, .ink = INK_GREY};
static const struct pen span_pen = {.width = 3.6, .ink = INK_BLACK};
static const double mark_line = 1.1; // pt, outline of hollow marks
static const double axis_head = 5;   // pt, of the arrows of axes
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

// Unit vector of a segment.
static struct spot direction_of(struct segment segment) {
    double dx = segment.to.x - segment.from.x;
    double dy = segment.to.y - segment.from.y;
    double size = sqrt(dx * dx + dy * dy);
    return (struct spot){dx / size, dy / size};
}

static struct spot foot_of_head(struct segment arrow, double length) {
    struct spot d = direction_of(arrow);
    return (struct spot){arrow.to.x - d.x * length, arrow.to.y - d.y * length};
}

void draw_arrow_head(struct picture *picture, struct segment arrow, double length, enum ink ink) {
    double half = 0.4 * length;
    struct spot d = direction_of(arrow);
    struct spot foot = foot_of_head(arrow, length);
    struct spot head[] = {
        arrow.to, {foot.x - d.y * half, foot.y + d.x * half}, {foot.x + d.y * half, foot.y - d.x * half}};
    picture_path(picture, head, 3, true, (struct picture_paint){NULL, true, ink});
}

void draw_arrow(struct picture *picture, struct segment arrow) {
    struct segment shaft = {arrow.from, foot_of_head(arrow, axis_head)};
    picture_segments(picture, &shaft, 1, &arrow_pen);
    draw_arrow_head(picture, arrow, axis_head, INK_BLACK);
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
    if (style.shape == MARK_RING) {
        picture_disc(picture, at, r, (struct picture_paint){&pen, true, INK_WHITE});
    } else if (style.shape == MARK_DISC) {
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

void draw_mark_label(struct picture *picture, const struct layout_label *label) {
    if (!label->placed)
        return;
    if (label->has_leader)
        picture_segments(picture, &label->leader, 1, &leader_pen);
    draw_white(picture, label->box);
    draw_text(picture, &label->number);
    if (label->has_name)
        draw_text(picture, &label->name);
}

// Short strokes point to the side that is not wanted.
void draw_limit(struct picture *picture, struct segment limit, bool below) {
    static const double distance = 5; // between the strokes
    double rise = below ? -4 : 4;
    static const double slant = 2.4;
    for (double x = limit.from.x + 1; x + slant <= limit.to.x; x += distance) {
        struct segment stroke = {{x, limit.from.y}, {x + slant, limit.from.y - rise}};
        picture_segments(picture, &stroke, 1, &stroke_pen);
    }
    picture_segments(picture, &limit, 1, &limit_pen);
}

void draw_window(struct picture *picture, struct box box, const struct segment_list *hatch) {
    struct segment sides[] = {{{box.x, box.y}, {box.x, box.y + box.height}},
                              {{box.x + box.width, box.y}, {box.x + box.width, box.y + box.height}}};
    picture_segments(picture, hatch->items, hatch->count, &window_pen);
    picture_segments(picture, sides, 2, &window_pen);
}

void draw_span(struct picture *picture, struct segment span) {
    picture_segments(picture, &span, 1, &span_pen);
}

void draw_line_sample(struct picture *picture, size_t style, struct segment sample) {
    struct line_style line = line_style(style);
    picture_segments(picture, &sample, 1, &line.pen);
    if (line.marked)
        draw_mark(picture, line.mark, (struct spot){(sample.from.x + sample.to.x) / 2, sample.from.y});
}

// Black, beside the coloured outlines of areas.
void draw_path_line(struct picture *picture, const struct spot *spots, size_t count, size_t style) {
    struct pen pen = line_style(style).pen;
    pen.width = 1.6;
    pen.ink = INK_BLACK;
    picture_path(picture, spots, count, false, (struct picture_paint){&pen, false, INK_WHITE});
}

static void draw_symbol(struct picture *picture, const struct legend_entry *entry) {
    struct spot middle = {entry->swatch.x + entry->swatch.width / 2, entry->swatch.y + entry->swatch.height / 2};
    struct area_style area = area_style(entry->symbol == LEGEND_AREA ? entry->style : 0);
    switch (entry->symbol) {
    case LEGEND_HEADING:
        break;
    case LEGEND_AREA:
        picture_segments(picture, entry->hatch.items, entry->hatch.count, &area.hatch.pen);
        picture_segments(picture, &entry->edge, 1, &area.outline);
        break;
    case LEGEND_POINT:
        draw_mark(picture, entry->mark, middle);
        break;
    case LEGEND_LINE:
        draw_line_sample(picture, entry->style, entry->edge);
        break;
    case LEGEND_PATH:
        draw_path_line(picture, (struct spot[]){entry->edge.from, entry->edge.to}, 2, entry->style);
        draw_mark(picture, entry->mark, middle);
        break;
    case LEGEND_LIMIT:
        draw_limit(picture, entry->edge, false);
        break;
    case LEGEND_WINDOW:
        draw_window(picture, entry->swatch, &entry->hatch);
        break;
    case LEGEND_SPAN:
        draw_span(picture, entry->edge);
        break;
    }
}

static void draw_entry(struct picture *picture, const struct legend_entry *entry) {
    draw_symbol(picture, entry);
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
