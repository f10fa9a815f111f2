// SPDX-License-Identifier: GPL-3.0-or-later
// A finished page as a list of lines, discs and texts in drawing order: what every chart turns its layout into, and
// all that the drawing module knows. Points (1/72 inch), y downwards from the upper left corner.
#ifndef MILDSOLVE_PRESENT_CHART_PICTURE_H
#define MILDSOLVE_PRESENT_CHART_PICTURE_H

#include "base/arena.h"
#include "base/error.h"
#include "present/chart/hatch.h"
#include "present/chart/style.h"

enum picture_kind { PICTURE_PATH, PICTURE_DISC, PICTURE_TEXT };

struct picture_item {
    enum picture_kind kind;
    bool filled, stroked;
    struct rgb fill, stroke; // of a text: fill
    double pen_width;
    double dashes[DASHES_MAX];
    size_t dash_count;
    const struct spot *spots; // path: its corners; disc: the centre; text: where the baseline begins
    size_t spot_count;
    bool closed;
    bool pairs; // each two spots are a line of their own
    double radius;
    const char *text;
    double size, unit_x, unit_y, width;
    bool bold;
};

struct picture {
    struct arena arena;
    double width, height; // pt
    int dpi;              // of pixel formats
    bool black_and_white;
    const char *title;
    const char *description; // the caption in one paragraph
    const char *date;        // YYYY-MM-DD, or "" when unknown
    struct picture_item *items;
    size_t count;
    size_t capacity;
    bool failed; // memory ran out; further items are dropped, callers check once
};

// Where a part of a document of several pages begins, for the list beside the pages that a viewer shows.
struct picture_mark {
    const char *heading;
    size_t page; // from 0
    double y;
};

struct picture_paint {
    const struct pen *pen; // NULL = no line
    bool filled;
    enum ink fill;
};

// Spots are copied.
void picture_path(struct picture *picture, const struct spot *spots, size_t count, bool closed,
                  struct picture_paint paint);
void picture_segments(struct picture *picture, const struct segment *segments, size_t count, const struct pen *pen);
void picture_disc(struct picture *picture, struct spot centre, double radius, struct picture_paint paint);
void picture_box(struct picture *picture, double x, double y, double width, double height, struct picture_paint paint);

struct picture_text {
    const char *text; // copied
    double x, y, unit_x, unit_y, size, width;
    bool bold;
    enum ink ink;
};
void picture_text(struct picture *picture, const struct picture_text *text);

// Draws `from` into `picture`, `scale` times as large, its upper left corner at (x, y). Colours stay.
void picture_place(struct picture *picture, const struct picture *from, double x, double y, double scale);

void picture_release(struct picture *picture);

#endif
