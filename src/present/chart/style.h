// SPDX-License-Identifier: GPL-3.0-or-later
// Pens, hatches and marks of the charts. Black and grey carry everything; colour only repeats it.
#ifndef MILDSOLVE_PRESENT_CHART_STYLE_H
#define MILDSOLVE_PRESENT_CHART_STYLE_H

#include <stddef.h>

// Each ink prints as its grey (0 black, 1 white) in a black-and-white chart, else as its colour.
enum ink { INK_BLACK, INK_GREY, INK_PALE, INK_WHITE, INK_BLUE, INK_RUST, INK_GREEN, INK_PLUM, INK_RED, INK_COUNT };

struct rgb {
    double red, green, blue; // sRGB, 0 to 1
};

struct rgb ink_colour(enum ink ink);
struct rgb ink_as_grey(enum ink ink);

enum { DASHES_MAX = 4 };

struct pen {
    double width; // pt
    enum ink ink;
    double dashes[DASHES_MAX]; // pt on, off, ...; dash_count 0 = unbroken
    size_t dash_count;
};

// Lines of one hatch; the second direction of a crossed one is (unit_y, unit_x) mirrored.
struct hatch_style {
    double unit_x, unit_y;
    double spacing; // pt
    int crossed;    // also the other diagonal
    struct pen pen;
};

struct area_style {
    struct pen outline;
    struct hatch_style hatch;
};

// One letter each.
enum { AREA_STYLES = 26 };

// Any two areas differ in hatch or in the dashes of the outline.
struct area_style area_style(size_t number);

// Depth of the hatched band along an outline, pt.
#define HATCH_DEPTH 7.0

enum mark_shape {
    MARK_DISC,
    MARK_RING,
    MARK_DIAMOND,
    MARK_SQUARE_EMPTY,
    MARK_SQUARE_HALF,
    MARK_SQUARE_FULL,
    MARK_SQUARE_CROSSED
};

struct mark_style {
    enum mark_shape shape;
    double radius; // pt: of the disc or ring, or half the side of the square, or half the diagonal of the diamond
    enum ink ink;
};

// Lines of graphs. Any two differ in dashes or in the marks set on them.
enum { LINE_STYLES = 35, LINE_SOLID = 0, LINE_DASHED = 1, LINE_DOTTED = 2 };

struct line_style {
    struct pen pen;
    int marked; // marks of this kind stand on the line
    struct mark_style mark;
};

struct line_style line_style(size_t number);

// How far a mark reaches from its middle, pt, with a little to spare.
double mark_reach(struct mark_style style);

// No text is smaller: a photocopy of a printed half page stays readable.
#define TEXT_SMALLEST 7.0

#define HAIRLINE 0.4 // pt, the thinnest line that copies

#endif
