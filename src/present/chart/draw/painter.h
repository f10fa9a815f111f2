// SPDX-License-Identifier: GPL-3.0-or-later
// Cairo and Pango behind the drawing module.
#ifndef MILDSOLVE_PRESENT_CHART_DRAW_PAINTER_H
#define MILDSOLVE_PRESENT_CHART_DRAW_PAINTER_H

#include "present/chart/draw/module.h"

#include <cairo.h>
#include <pango/pangocairo.h>

// One Pango layout serves every text in turn. User units are points.
struct painter {
    PangoFontMap *fonts;
    PangoContext *context;
    PangoLayout *layout;
    PangoFontDescription *font;
};

struct draw_session {
    const struct draw_host *host;
    struct painter painter;
};

void painter_init(struct painter *painter);
void painter_release(struct painter *painter);

double painter_text_width(struct painter *painter, const char *utf8, double size, bool bold);

// Draws the items that reach into the rows [top, bottom] (pt).
void painter_draw(struct painter *painter, cairo_t *cr, const struct picture *picture, double top, double bottom);

draw_function draw_png; // png.c
draw_function draw_svg; // vector.c
draw_function draw_pdf;
draw_pages_function draw_pdf_pages;

#endif
