// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/picture_svg.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void text_add_escaped(struct text *out, const char *utf8) {
    for (; *utf8; utf8++) {
        switch (*utf8) {
        case '&':
            text_add(out, "&amp;");
            break;
        case '<':
            text_add(out, "&lt;");
            break;
        case '>':
            text_add(out, "&gt;");
            break;
        case '"':
            text_add(out, "&quot;");
            break;
        case '\'':
            text_add(out, "&#39;");
            break;
        default:
            text_add_n(out, (unsigned char)*utf8 < 0x20 || *utf8 == 0x7F ? " " : utf8, 1);
        }
    }
}

// CSS: 96 px and 72 pt to the inch.
static const double pixels_per_point = 96.0 / 72;

// Hundredths of a point, without the zeros behind: "12.5", "3", "-0.25".
static void add_length(struct text *out, double value) {
    char printed[32];
    long long hundredths = llround(value * 100);
    snprintf(printed, sizeof printed, "%s%lld.%02lld", hundredths < 0 ? "-" : "", llabs(hundredths) / 100,
             llabs(hundredths) % 100);
    size_t length = strlen(printed);
    while (printed[length - 1] == '0')
        length--;
    if (printed[length - 1] == '.')
        length--;
    text_add_n(out, printed, length);
}

static void add_attribute(struct text *out, const char *name, double value) {
    text_printf(out, " %s=\"", name);
    add_length(out, value);
    text_add(out, "\"");
}

static void add_colour(struct text *out, const char *name, bool painted, struct rgb colour) {
    if (!painted) {
        text_printf(out, " %s=\"none\"", name);
        return;
    }
    text_printf(out, " %s=\"#%02x%02x%02x\"", name, (unsigned)lround(255 * colour.red),
                (unsigned)lround(255 * colour.green), (unsigned)lround(255 * colour.blue));
}

// A dash of no length is a dot: only round ends show it.
static void add_paint(struct text *out, const struct picture_item *item) {
    add_colour(out, "fill", item->filled, item->fill);
    if (!item->stroked)
        return;
    add_colour(out, "stroke", true, item->stroke);
    add_attribute(out, "stroke-width", item->pen_width);
    if (item->dash_count == 0)
        return;
    text_add(out, " stroke-dasharray=\"");
    for (size_t i = 0; i < item->dash_count; i++) {
        text_add(out, i ? " " : "");
        add_length(out, item->dashes[i]);
    }
    text_add(out, item->dashes[0] == 0 ? "\" stroke-linecap=\"round\"" : "\"");
}

static void add_spot(struct text *out, struct spot spot) {
    add_length(out, spot.x);
    text_add(out, " ");
    add_length(out, spot.y);
}

static void add_path(struct text *out, const struct picture_item *item) {
    text_add(out, "<path d=\"");
    for (size_t i = 0; i < item->spot_count; i++) {
        text_add(out, i == 0 || (item->pairs && i % 2 == 0) ? "M" : "L");
        add_spot(out, item->spots[i]);
    }
    text_add(out, item->closed ? "Z\"" : "\"");
    add_paint(out, item);
    text_add(out, "/>\n");
}

static void add_disc(struct text *out, const struct picture_item *item) {
    text_add(out, "<circle");
    add_attribute(out, "cx", item->spots[0].x);
    add_attribute(out, "cy", item->spots[0].y);
    add_attribute(out, "r", item->radius);
    add_paint(out, item);
    text_add(out, "/>\n");
}

static void add_text(struct text *out, const struct picture_item *item) {
    text_add(out, "<text");
    if (item->unit_x == 1) {
        add_attribute(out, "x", item->spots[0].x);
        add_attribute(out, "y", item->spots[0].y);
    } else {
        text_printf(out, " transform=\"matrix(%.5f %.5f %.5f %.5f ", item->unit_x, item->unit_y, -item->unit_y,
                    item->unit_x);
        add_spot(out, item->spots[0]);
        text_add(out, ")\"");
    }
    add_attribute(out, "font-size", item->size);
    if (item->bold)
        text_add(out, " font-weight=\"bold\"");
    if (item->width > 0) {
        add_attribute(out, "textLength", item->width);
        text_add(out, " lengthAdjust=\"spacingAndGlyphs\"");
    }
    add_colour(out, "fill", true, item->fill);
    text_add(out, ">");
    text_add_escaped(out, item->text);
    text_add(out, "</text>\n");
}

void picture_svg(const struct picture *picture, const char *id, const char *title, const char *description,
                 struct text *out) {
    text_printf(out, "<svg role=\"img\" aria-labelledby=\"%s-title %s-desc\" viewBox=\"0 0 ", id, id);
    add_spot(out, (struct spot){picture->width, picture->height});
    text_add(out, "\"");
    add_attribute(out, "width", round(picture->width * pixels_per_point)); // HTML knows whole pixels only
    add_attribute(out, "height", round(picture->height * pixels_per_point));
    text_printf(out, " font-family=\"DejaVu Sans, Verdana, sans-serif\">\n<title id=\"%s-title\">", id);
    text_add_escaped(out, title);
    text_printf(out, "</title>\n<desc id=\"%s-desc\">", id);
    text_add_escaped(out, description);
    text_add(out, "</desc>\n");
    for (size_t i = 0; i < picture->count; i++) {
        const struct picture_item *item = &picture->items[i];
        if (item->kind == PICTURE_PATH)
            add_path(out, item);
        else if (item->kind == PICTURE_DISC)
            add_disc(out, item);
        else
            add_text(out, item);
    }
    text_add(out, "</svg>\n");
    out->failed |= picture->failed;
}
