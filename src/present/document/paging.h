// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of document_paginate: a pen that walks down pages. Only this folder includes it. Points, y downwards.
#ifndef MILDSOLVE_PRESENT_DOCUMENT_PAGING_H
#define MILDSOLVE_PRESENT_DOCUMENT_PAGING_H

#include "present/document/document_write.h"

// Sizes of type, pt, before the scale of a document that must fit on one page.
struct paging_sizes {
    double title, heading, text, small, table;
};

struct paging {
    const struct document *document;
    const struct text_metric *metric;
    struct document_pages *pages;
    struct paging_sizes sizes;
    double left, right, top, bottom; // of the text on every page
    double y;                        // upper edge of what comes next
    bool failed;                     // memory ran out
};

// Text of one kind.
struct paging_text {
    double x, width;
    double size;
    bool bold;
    enum ink ink;
    bool right; // lines end at the right edge
};

struct picture *paging_page(struct paging *paging); // the page being filled; never NULL unless failed
void paging_new_page(struct paging *paging);
void paging_need(struct paging *paging,
                 double height); // a new page unless there is room, or nothing stands on this one
double paging_line(double size); // distance of baselines

// Wraps to any number of lines. False when memory ran out.
bool paging_wrap(struct paging *paging, const char *text, const struct paging_text *style, struct text_lines *ret);

// Draws one line whose upper edge is `top`. A line that runs from right to left ends at the right edge.
void paging_draw(struct paging *paging, const char *line, double line_width, double top,
                 const struct paging_text *style);
void paging_rule(struct paging *paging, double y, double width_pt, enum ink ink); // over the width of the text

// Text that flows over pages; moves y.
void paging_flow(struct paging *paging, const char *text, const struct paging_text *style);

void paging_table(struct paging *paging, const struct document_table *table);
void paging_facts(struct paging *paging, const struct document_facts *facts);

#endif
