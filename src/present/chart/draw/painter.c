// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/draw/painter.h"

#include <math.h>

// Free, with Latin, Greek, Cyrillic, Hebrew and Arabic letters; Pango takes other scripts from what the system has.
static const char font_families[] = "DejaVu Sans, sans-serif";

// Without hinting and rounding, letters stand at the same places at every resolution and in every format, so the layout
// computed once is right for all.
void painter_init(struct painter *painter) {
    painter->fonts = pango_cairo_font_map_new();
    painter->context = pango_font_map_create_context(painter->fonts);
    pango_cairo_context_set_resolution(painter->context, 72);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(painter->context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(painter->context, FALSE);
    painter->layout = pango_layout_new(painter->context);
    pango_layout_set_single_paragraph_mode(painter->layout, TRUE);
    painter->font = pango_font_description_from_string(font_families);
}

void painter_release(struct painter *painter) {
    pango_font_description_free(painter->font);
    g_object_unref(painter->layout);
    g_object_unref(painter->context);
    g_object_unref(painter->fonts);
}

static void set_text(struct painter *painter, const char *utf8, double size, bool bold) {
    pango_font_description_set_absolute_size(painter->font, size * PANGO_SCALE);
    pango_font_description_set_weight(painter->font, bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(painter->layout, painter->font);
    pango_layout_set_text(painter->layout, utf8, -1);
}

double painter_text_width(struct painter *painter, const char *utf8, double size, bool bold) {
    set_text(painter, utf8, size, bold);
    int width = 0;
    pango_layout_get_size(painter->layout, &width, NULL);
    return (double)width / PANGO_SCALE;
}

static void set_colour(cairo_t *cr, struct rgb colour) {
    cairo_set_source_rgb(cr, colour.red, colour.green, colour.blue);
}

static void draw_text(struct painter *painter, cairo_t *cr, const struct picture_item *item) {
    set_text(painter, item->text, item->size, item->bold);
    double baseline = (double)pango_layout_get_baseline(painter->layout) / PANGO_SCALE;
    cairo_save(cr);
    cairo_matrix_t turn;
    cairo_matrix_init(&turn, item->unit_x, item->unit_y, -item->unit_y, item->unit_x, item->spots[0].x,
                      item->spots[0].y);
    cairo_transform(cr, &turn);
    cairo_move_to(cr, 0, -baseline);
    set_colour(cr, item->fill);
    pango_cairo_show_layout(cr, painter->layout);
    cairo_restore(cr);
}

static void trace(cairo_t *cr, const struct picture_item *item) {
    cairo_new_path(cr);
    if (item->kind == PICTURE_DISC) {
        cairo_arc(cr, item->spots[0].x, item->spots[0].y, item->radius, 0, 2 * G_PI);
        return;
    }
    for (size_t i = 0; i < item->spot_count; i++) {
        if (i == 0 || (item->pairs && i % 2 == 0))
            cairo_move_to(cr, item->spots[i].x, item->spots[i].y);
        else
            cairo_line_to(cr, item->spots[i].x, item->spots[i].y);
    }
    if (item->closed)
        cairo_close_path(cr);
}

// A dash of no length is a dot: only round ends show it.
static void set_pen(cairo_t *cr, const struct picture_item *item) {
    bool dots = item->dash_count > 0 && item->dashes[0] == 0;
    cairo_set_line_width(cr, item->pen_width);
    cairo_set_line_cap(cr, dots ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_MITER);
    cairo_set_miter_limit(cr, 4);
    cairo_set_dash(cr, item->dashes, (int)item->dash_count, 0);
}

static void draw_item(struct painter *painter, cairo_t *cr, const struct picture_item *item) {
    if (item->kind == PICTURE_TEXT) {
        draw_text(painter, cr, item);
        return;
    }
    trace(cr, item);
    if (item->filled) {
        set_colour(cr, item->fill);
        cairo_fill_preserve(cr);
    }
    if (item->stroked) {
        set_colour(cr, item->stroke);
        set_pen(cr, item);
        cairo_stroke_preserve(cr);
    }
    cairo_new_path(cr);
}

// The rows that the item with its pen may touch, with a little to spare.
static void find_extent(const struct picture_item *item, double *ret_top, double *ret_bottom) {
    double top = INFINITY;
    double bottom = -INFINITY;
    for (size_t i = 0; i < item->spot_count; i++) {
        top = fmin(top, item->spots[i].y);
        bottom = fmax(bottom, item->spots[i].y);
    }
    double spare = 1 + item->radius + item->pen_width * 4; // mitres
    if (item->kind == PICTURE_TEXT) {
        double end = item->spots[0].y + item->unit_y * item->width;
        top = fmin(top, end);
        bottom = fmax(bottom, end);
        spare = 2 * item->size; // tall scripts and stacked accents
    }
    *ret_top = top - spare;
    *ret_bottom = bottom + spare;
}

void painter_draw(struct painter *painter, cairo_t *cr, const struct picture *picture, double top, double bottom) {
    for (size_t i = 0; i < picture->count; i++) {
        double item_top;
        double item_bottom;
        find_extent(&picture->items[i], &item_top, &item_bottom);
        if (item_top <= bottom && item_bottom >= top)
            draw_item(painter, cr, &picture->items[i]);
    }
}
