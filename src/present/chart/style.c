// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/style.h"

#include <assert.h>
#include <stdbool.h>

// Hues that stay apart for red-green and blue-yellow deficient sight, each dark enough to be copied (contrast with
// white at least 4.5 to 1, WCAG 2.1, 1.4.3).
static const struct {
    struct rgb colour;
    double grey;
} inks[INK_COUNT] = {
    [INK_BLACK] = {{0.00, 0.00, 0.00}, 0.00}, [INK_GREY] = {{0.40, 0.40, 0.40}, 0.40},
    [INK_PALE] = {{0.72, 0.72, 0.72}, 0.72},  [INK_WHITE] = {{1.00, 1.00, 1.00}, 1.00},
    [INK_BLUE] = {{0.00, 0.32, 0.62}, 0.30},  [INK_RUST] = {{0.68, 0.26, 0.00}, 0.30},
    [INK_GREEN] = {{0.00, 0.42, 0.30}, 0.30}, [INK_PLUM] = {{0.48, 0.16, 0.44}, 0.30},
    [INK_RED] = {{0.80, 0.00, 0.10}, 0.30}, // frames of hazard pictograms
};

struct rgb ink_colour(enum ink ink) {
    assert(ink < INK_COUNT);
    return inks[ink].colour;
}

struct rgb ink_as_grey(enum ink ink) {
    assert(ink < INK_COUNT);
    return (struct rgb){inks[ink].grey, inks[ink].grey, inks[ink].grey};
}

#define DIAGONAL 0.7071067811865476 // sqrt(1/2)

// No hatch runs along the grid (level and 60 degrees): 45, 135, 90 degrees, and 3:1 slopes.
static const struct hatch_style hatches[] = {
    {DIAGONAL, -DIAGONAL, 4.0, 0, {.width = 0.5}},
    {DIAGONAL, DIAGONAL, 4.0, 0, {.width = 0.5}},
    {0, 1, 4.0, 0, {.width = 1.2, .dashes = {0, 4.0}, .dash_count = 2}},
    {0, 1, 5.0, 0, {.width = 0.5}},
    {DIAGONAL, DIAGONAL, 5.5, 1, {.width = 0.5}},
    {DIAGONAL, -DIAGONAL, 3.5, 0, {.width = 0.8, .dashes = {3.0, 2.5}, .dash_count = 2}},
    {0.9486832980505138, 0.31622776601683794, 4.0, 0, {.width = 0.5}},
    {DIAGONAL, DIAGONAL, 3.5, 0, {.width = 0.8, .dashes = {3.0, 2.5}, .dash_count = 2}},
};

static const struct pen outlines[] = {
    {.width = 1.2},
    {.width = 1.2, .dashes = {6.0, 3.0}, .dash_count = 2},
    {.width = 1.2, .dashes = {7.0, 2.5, 1.5, 2.5}, .dash_count = 4},
    {.width = 1.2, .dashes = {2.2, 2.2}, .dash_count = 2},
};

enum { HATCHES = sizeof hatches / sizeof hatches[0], OUTLINES = sizeof outlines / sizeof outlines[0], AREA_INKS = 4 };

struct area_style area_style(size_t number) {
    assert(number < AREA_STYLES);
    static const enum ink area_inks[AREA_INKS] = {INK_BLUE, INK_RUST, INK_GREEN, INK_PLUM};
    struct area_style style = {outlines[(number + number / HATCHES) % OUTLINES], hatches[number % HATCHES]};
    style.outline.ink = area_inks[number % AREA_INKS];
    style.hatch.pen.ink = area_inks[number % AREA_INKS];
    return style;
}

static const struct pen line_pens[] = {
    {.width = 1.3},
    {.width = 1.2, .dashes = {4.5, 2.5}, .dash_count = 2},
    {.width = 1.7, .dashes = {0, 3.2}, .dash_count = 2},
    {.width = 1.2, .dashes = {8.0, 2.5, 1.5, 2.5}, .dash_count = 4},
    {.width = 1.2, .dashes = {11.0, 3.5}, .dash_count = 2},
    {.width = 1.2, .dashes = {2.0, 2.0}, .dash_count = 2},
    {.width = 1.2, .dashes = {8.0, 2.5, 3.5, 2.5}, .dash_count = 4},
};
static const struct mark_style line_marks[] = {
    {MARK_DISC, 2.0, INK_BLACK},
    {MARK_SQUARE_EMPTY, 2.2, INK_BLACK},
    {MARK_DIAMOND, 3.2, INK_BLACK},
    {MARK_SQUARE_FULL, 2.2, INK_BLACK},
};
enum { LINE_PENS = sizeof line_pens / sizeof line_pens[0] };

static_assert(LINE_STYLES == LINE_PENS * (1 + sizeof line_marks / sizeof line_marks[0]), "one style each");

struct line_style line_style(size_t number) {
    assert(number < LINE_STYLES);
    static const enum ink line_inks[] = {INK_BLUE, INK_GREEN, INK_PLUM, INK_RUST};
    struct line_style style = {.pen = line_pens[number % LINE_PENS], .marked = number >= LINE_PENS};
    style.pen.ink = line_inks[number % (sizeof line_inks / sizeof line_inks[0])];
    if (style.marked) {
        style.mark = line_marks[number / LINE_PENS - 1];
        style.mark.ink = style.pen.ink;
    }
    return style;
}

double mark_reach(struct mark_style style) {
    bool square = style.shape != MARK_DISC && style.shape != MARK_RING && style.shape != MARK_DIAMOND;
    return style.radius * (square ? 1.4142135623730951 : 1) + 0.5;
}
