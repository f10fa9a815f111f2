// SPDX-License-Identifier: GPL-3.0-or-later
// From the numbers of a layout to lines and texts; every place is already decided.
#include "present/chart/teas_chart.h"

#include <math.h>
#include <string.h>

static const struct pen grid_pen = {.width = HAIRLINE, .ink = INK_PALE};
static const struct pen side_pen = {.width = 1.0, .ink = INK_BLACK};
static const struct pen tick_pen = {.width = 0.7, .ink = INK_BLACK};
static const struct pen arrow_pen = {.width = 0.8, .ink = INK_BLACK};
static const struct pen link_pen = {.width = 0.9, .ink = INK_BLACK};
static const struct pen leader_pen = {.width = 0.5, .ink = INK_BLACK};
static const struct pen rule_pen = {.width = 0.5, .ink = INK_BLACK};
static const double mark_line = 1.1; // pt, outline of hollow marks
static const double halo = 0.9;      // white round a disc, so that it stays apart from what lies under it

static void draw_text(struct picture *picture, const struct layout_text *text) {
    struct picture_text item = {text->text, text->x,     text->y,    text->unit_x, text->unit_y,
                                text->size, text->width, text->bold, text->ink};
    picture_text(picture, &item);
}

static void draw_texts(struct picture *picture, const struct layout_texts *texts) {
    for (size_t i = 0; i < texts->count; i++)
        draw_text(picture, &texts->items[i]);
}

static void draw_white(struct picture *picture, struct box box) {
    picture_box(picture, box.x, box.y, box.width, box.height, (struct picture_paint){NULL, true, INK_WHITE});
}

static void draw_arrow(struct picture *picture, struct segment arrow) {
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

static void draw_triangle(struct picture *picture, const struct teas_layout *layout) {
    struct spot corners[] = {layout->dispersion, layout->polar, layout->hydrogen_bonding};
    picture_segments(picture, layout->grid.items, layout->grid.count, &grid_pen);
    picture_segments(picture, layout->ticks.items, layout->ticks.count, &tick_pen);
    picture_path(picture, corners, 3, true, (struct picture_paint){&side_pen, false, INK_BLACK});
    draw_texts(picture, &layout->scale);
    for (size_t i = 0; i < 3; i++) {
        draw_text(picture, &layout->axes[i].name);
        draw_arrow(picture, layout->axes[i].arrow);
    }
}

static void draw_area(struct picture *picture, const struct layout_area *area) {
    struct area_style style = area_style(area->style);
    picture_segments(picture, area->hatch.items, area->hatch.count, &style.hatch.pen);
    picture_path(picture, area->corners, area->corner_count, true,
                 (struct picture_paint){&style.outline, false, INK_BLACK});
}

static void draw_letter(struct picture *picture, const struct layout_area *area) {
    if (!area->lettered)
        return;
    struct pen frame = {.width = 0.7, .ink = area_style(area->style).outline.ink};
    if (area->has_leader)
        picture_segments(picture, &area->leader, 1, &leader_pen);
    picture_box(picture, area->box.x, area->box.y, area->box.width, area->box.height,
                (struct picture_paint){&frame, true, INK_WHITE});
    draw_text(picture, &area->letter);
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

static void draw_mark(struct picture *picture, enum teas_point_kind kind, struct spot at) {
    struct mark_style style = teas_mark_style(kind);
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

static void draw_label(struct picture *picture, const struct layout_label *label) {
    if (!label->placed)
        return;
    if (label->has_leader)
        picture_segments(picture, &label->leader, 1, &leader_pen);
    draw_white(picture, label->box);
    draw_text(picture, &label->number);
    if (label->has_name)
        draw_text(picture, &label->name);
}

static void draw_entry(struct picture *picture, const struct layout_entry *entry) {
    if (entry->symbol == LEGEND_AREA) {
        struct area_style style = area_style(entry->style);
        picture_segments(picture, entry->hatch.items, entry->hatch.count, &style.hatch.pen);
        picture_segments(picture, &entry->edge, 1, &style.outline);
    }
    if (entry->symbol == LEGEND_POINT)
        draw_mark(picture, entry->kind,
                  (struct spot){entry->swatch.x + entry->swatch.width / 2, entry->swatch.y + entry->swatch.height / 2});
    if (entry->symbol != LEGEND_HEADING)
        draw_text(picture, &entry->number);
    draw_texts(picture, &entry->lines);
}

// The whole caption as one paragraph, for programs that read files and for people who cannot see pictures.
static void describe(struct picture *picture, const struct teas_layout *layout) {
    struct text words = {0};
    for (size_t i = 0; i < layout->caption.count; i++)
        text_printf(&words, "%s%s", i ? " " : "", layout->caption.items[i].text);
    picture->description = arena_text(&picture->arena, text_bytes(&words));
    const char *heading = layout->header.count ? layout->header.items[layout->header.count - 1].text : "";
    picture->title = arena_text(&picture->arena, layout->title[0] ? layout->title : heading);
    picture->date = arena_text(&picture->arena, layout->date);
    if (words.failed || !picture->description || !picture->title || !picture->date)
        picture->failed = true;
    text_release(&words);
}

enum status teas_picture(const struct teas_layout *layout, struct picture *ret, struct error *err) {
    struct picture picture = {.width = layout->width,
                              .height = layout->height,
                              .dpi = layout->dpi,
                              .black_and_white = layout->black_and_white};
    describe(&picture, layout);
    draw_texts(&picture, &layout->header);
    draw_triangle(&picture, layout);
    for (size_t i = 0; i < layout->area_count; i++)
        draw_area(&picture, &layout->areas[i]);
    picture_segments(&picture, layout->links.items, layout->links.count, &link_pen);
    for (size_t i = 0; i < layout->label_count; i++)
        draw_label(&picture, &layout->labels[i]);
    for (size_t i = 0; i < layout->area_count; i++)
        draw_letter(&picture, &layout->areas[i]);
    for (size_t i = 0; i < layout->mark_count; i++)
        draw_mark(&picture, layout->marks[i].kind, layout->marks[i].at);
    for (size_t i = 0; i < layout->entry_count; i++)
        draw_entry(&picture, &layout->entries[i]);
    picture_segments(&picture, &layout->caption_rule, 1, &rule_pen);
    draw_texts(&picture, &layout->caption);
    if (picture.failed) {
        picture_release(&picture);
        return error_set(err, STATUS_MEMORY, "out of memory while drawing the chart");
    }
    *ret = picture;
    return STATUS_OK;
}
