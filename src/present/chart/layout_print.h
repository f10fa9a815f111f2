// SPDX-License-Identifier: GPL-3.0-or-later
// Layouts as text, one thing per line, numbers rounded to 0.1 pt: for tests and for the curious.
#ifndef MILDSOLVE_PRESENT_CHART_LAYOUT_PRINT_H
#define MILDSOLVE_PRESENT_CHART_LAYOUT_PRINT_H

#include "base/text.h"
#include "present/chart/chart_page.h"
#include "present/chart/legend.h"
#include "present/chart/mark_labels.h"

// " 12.5", rounded to 0.1 without a minus sign before a zero; a spot is two of them.
void print_spot(struct text *out, struct spot spot);

// `what`, the numbers, a newline.
void print_segment(struct text *out, const char *what, struct segment segment);
void print_box(struct text *out, const char *what, struct box box);
void print_text(struct text *out, const char *what, const struct layout_text *text);

void print_segments(struct text *out, const char *what, const struct segment_list *list);
void print_texts(struct text *out, const char *what, const struct layout_texts *texts);

// Hatch lines are many: their number and the ends of the first and last say enough.
void print_hatch(struct text *out, const struct segment_list *hatch);

void print_label(struct text *out, const struct layout_label *label);

const char *shape_word(enum mark_shape shape);

void print_page_head(struct text *out, const struct page_layout *page); // size, header
void print_page_foot(struct text *out, const struct page_layout *page); // caption
void print_legend(struct text *out, struct box box, const struct legend_entry *entries, size_t count);

#endif
