// SPDX-License-Identifier: GPL-3.0-or-later
// From the parts that all layouts share to lines and texts.
#ifndef MILDSOLVE_PRESENT_CHART_LAYOUT_DRAW_H
#define MILDSOLVE_PRESENT_CHART_LAYOUT_DRAW_H

#include "present/chart/chart_page.h"
#include "present/chart/legend.h"
#include "present/chart/mark_labels.h"
#include "present/chart/picture.h"

// An empty picture of the page's size, with its title, date and caption as description.
void picture_begin(struct picture *picture, const struct page_layout *page);

// Hands the picture over; STATUS_MEMORY, with everything released, when memory ran out on the way.
enum status picture_end(struct picture *picture, struct picture *ret, struct error *err);

void draw_page(struct picture *picture, const struct page_layout *page); // header and caption
void draw_text(struct picture *picture, const struct layout_text *text);
void draw_texts(struct picture *picture, const struct layout_texts *texts);
void draw_white(struct picture *picture, struct box box);
void draw_arrow_head(struct picture *picture, struct segment arrow, double length, enum ink ink);
void draw_arrow(struct picture *picture, struct segment arrow);
void draw_line_sample(struct picture *picture, size_t style, struct segment sample);
void draw_limit(struct picture *picture, struct segment limit, bool below);                         // of a graph
void draw_window(struct picture *picture, struct box box, const struct segment_list *hatch);        // a shaded stretch
void draw_span(struct picture *picture, struct segment span);                                       // on an axis
void draw_path_line(struct picture *picture, const struct spot *spots, size_t count, size_t style); // Teas chart
void draw_mark(struct picture *picture, struct mark_style style, struct spot at);
void draw_mark_label(struct picture *picture, const struct layout_label *label);
void draw_legend(struct picture *picture, const struct legend_entry *entries, size_t count);

#endif
