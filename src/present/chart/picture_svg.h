// SPDX-License-Identifier: GPL-3.0-or-later
// A picture as SVG inside an HTML page: texts stay texts, which a reader can search, copy and hear, and nothing refers
// to anything by an id but the names of the picture itself.
#ifndef MILDSOLVE_PRESENT_CHART_PICTURE_SVG_H
#define MILDSOLVE_PRESENT_CHART_PICTURE_SVG_H

#include "base/text.h"
#include "present/chart/picture.h"

// The <svg> element. Its ids begin with `id`, which must be one word that no other element of the page has. Texts are
// given the width they were laid out with, so that another font than the one measured fits as well.
void picture_svg(const struct picture *picture, const char *id, const char *title, const char *description,
                 struct text *out);

// Text for the inside of an element or a quoted attribute: & < > " ' become entities, what is no character of XML 1.0
// becomes a space.
void text_add_escaped(struct text *out, const char *utf8);

#endif
