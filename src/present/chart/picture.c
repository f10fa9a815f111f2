// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/picture.h"

#include <string.h>

enum { FIRST_CAPACITY = 256 };

static struct picture_item *add_item(struct picture *picture, enum picture_kind kind) {
    if (picture->failed)
        return NULL;
    if (picture->count == picture->capacity) {
        size_t capacity = picture->capacity ? picture->capacity * 2 : FIRST_CAPACITY;
        struct picture_item *items = arena_new(&picture->arena, capacity, sizeof *items);
        if (!items) {
            picture->failed = true;
            return NULL;
        }
        if (picture->count)
            memcpy(items, picture->items, picture->count * sizeof *items);
        picture->items = items;
        picture->capacity = capacity;
    }
    struct picture_item *item = &picture->items[picture->count++];
    *item = (struct picture_item){.kind = kind};
    return item;
}

static struct rgb shade(const struct picture *picture, enum ink ink) {
    return picture->black_and_white ? ink_as_grey(ink) : ink_colour(ink);
}

static void set_paint(const struct picture *picture, struct picture_item *item, struct picture_paint paint) {
    item->filled = paint.filled;
    if (paint.filled)
        item->fill = shade(picture, paint.fill);
    item->stroked = paint.pen != NULL;
    if (!paint.pen)
        return;
    item->stroke = shade(picture, paint.pen->ink);
    item->pen_width = paint.pen->width;
    item->dash_count = paint.pen->dash_count;
    memcpy(item->dashes, paint.pen->dashes, sizeof item->dashes);
}

static void set_spots(struct picture *picture, struct picture_item *item, const struct spot *spots, size_t count) {
    struct spot *copy = arena_new(&picture->arena, count, sizeof *copy);
    if (!copy) {
        picture->failed = true;
        return;
    }
    memcpy(copy, spots, count * sizeof *copy);
    item->spots = copy;
    item->spot_count = count;
}

void picture_path(struct picture *picture, const struct spot *spots, size_t count, bool closed,
                  struct picture_paint paint) {
    struct picture_item *item = count ? add_item(picture, PICTURE_PATH) : NULL;
    if (!item)
        return;
    item->closed = closed;
    set_paint(picture, item, paint);
    set_spots(picture, item, spots, count);
}

void picture_segments(struct picture *picture, const struct segment *segments, size_t count, const struct pen *pen) {
    struct picture_item *item = count ? add_item(picture, PICTURE_PATH) : NULL;
    if (!item)
        return;
    item->pairs = true;
    set_paint(picture, item, (struct picture_paint){.pen = pen});
    struct spot *spots = arena_new(&picture->arena, 2 * count, sizeof *spots);
    if (!spots) {
        picture->failed = true;
        return;
    }
    for (size_t i = 0; i < count; i++) {
        spots[2 * i] = segments[i].from;
        spots[2 * i + 1] = segments[i].to;
    }
    item->spots = spots;
    item->spot_count = 2 * count;
}

void picture_disc(struct picture *picture, struct spot centre, double radius, struct picture_paint paint) {
    struct picture_item *item = add_item(picture, PICTURE_DISC);
    if (!item)
        return;
    item->radius = radius;
    set_paint(picture, item, paint);
    set_spots(picture, item, &centre, 1);
}

void picture_box(struct picture *picture, double x, double y, double width, double height, struct picture_paint paint) {
    struct spot corners[] = {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
    picture_path(picture, corners, 4, true, paint);
}

void picture_text(struct picture *picture, const struct picture_text *text) {
    struct picture_item *item = text->text[0] ? add_item(picture, PICTURE_TEXT) : NULL;
    if (!item)
        return;
    item->fill = shade(picture, text->ink);
    item->size = text->size;
    item->unit_x = text->unit_x;
    item->unit_y = text->unit_y;
    item->width = text->width;
    item->bold = text->bold;
    item->text = arena_text(&picture->arena, text->text);
    if (!item->text)
        picture->failed = true;
    set_spots(picture, item, &(struct spot){text->x, text->y}, 1);
}

static void place_item(struct picture *picture, const struct picture_item *from, double x, double y, double scale) {
    struct picture_item *item = add_item(picture, from->kind);
    if (!item)
        return;
    *item = *from;
    item->pen_width *= scale;
    item->radius *= scale;
    item->size *= scale;
    item->width *= scale;
    for (size_t i = 0; i < item->dash_count; i++)
        item->dashes[i] *= scale;
    set_spots(picture, item, from->spots, from->spot_count);
    for (size_t i = 0; !picture->failed && i < item->spot_count; i++)
        ((struct spot *)item->spots)[i] = (struct spot){x + scale * from->spots[i].x, y + scale * from->spots[i].y};
    item->text = from->text ? arena_text(&picture->arena, from->text) : NULL;
    picture->failed |= from->text && !item->text;
}

void picture_place(struct picture *picture, const struct picture *from, double x, double y, double scale) {
    for (size_t i = 0; i < from->count; i++)
        place_item(picture, &from->items[i], x, y, scale);
    picture->failed |= from->failed;
}

void picture_release(struct picture *picture) {
    if (!picture)
        return;
    arena_release(&picture->arena);
    *picture = (struct picture){0};
}
