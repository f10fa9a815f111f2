// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/document/paging.h"

#include <math.h>
#include <string.h>

// --- pages ---

struct picture *paging_page(struct paging *paging) {
    return paging->failed ? NULL : &paging->pages->items[paging->pages->count - 1];
}

static bool make_room(struct document_pages *pages) {
    if (pages->count < pages->capacity)
        return true;
    size_t capacity = pages->capacity ? pages->capacity * 2 : 16;
    struct picture *items = arena_new(&pages->arena, capacity, sizeof *items);
    if (!items)
        return false;
    if (pages->count)
        memcpy(items, pages->items, pages->count * sizeof *items);
    pages->items = items;
    pages->capacity = capacity;
    return true;
}

void paging_new_page(struct paging *paging) {
    const struct document_head *head = &paging->document->head;
    struct page_layout paper;
    const struct chart_page page = {
        .paper = paging->document->paper, .sheet = SHEET_FULL, .black_and_white = paging->document->black_and_white};
    page_layout_begin(&page, &paper);
    if (paging->failed || !make_room(paging->pages)) {
        paging->failed = true;
        return;
    }
    paging->pages->items[paging->pages->count++] = (struct picture){.width = paper.width,
                                                                    .height = paper.height,
                                                                    .dpi = paper.dpi,
                                                                    .black_and_white = paper.black_and_white,
                                                                    .title = head->title,
                                                                    .description = head->subtitle,
                                                                    .date = head->date};
    paging->y = paging->top;
}

void paging_need(struct paging *paging, double height) {
    if (paging->y + height > paging->bottom && paging->y > paging->top)
        paging_new_page(paging);
}

// --- text ---

double paging_line(double size) {
    return 1.28 * size;
}

bool paging_wrap(struct paging *paging, const char *text, const struct paging_text *style, struct text_lines *ret) {
    if (!paging->failed && text_wrap(&paging->pages->arena, paging->metric, text, style->size, style->bold,
                                     style->width, strlen(text) + 1, ret))
        return true;
    paging->failed = true;
    return false;
}

void paging_draw(struct paging *paging, const char *line, double line_width, double top,
                 const struct paging_text *style) {
    struct picture *page = paging_page(paging);
    if (!page || !line[0])
        return;
    bool right = style->right || document_begins_right_to_left(line);
    struct picture_text text = {.text = line,
                                .x = style->x + (right ? fmax(style->width - line_width, 0) : 0),
                                .y = top + 0.5 * (paging_line(style->size) - style->size) + TEXT_ASCENT * style->size,
                                .unit_x = 1,
                                .size = style->size,
                                .width = line_width,
                                .bold = style->bold,
                                .ink = style->ink};
    picture_text(page, &text);
}

void paging_rule(struct paging *paging, double y, double width_pt, enum ink ink) {
    const struct segment line = {{paging->left, y}, {paging->right, y}};
    const struct pen pen = {.width = width_pt, .ink = ink};
    struct picture *page = paging_page(paging);
    if (page)
        picture_segments(page, &line, 1, &pen);
}

// At least two lines stand at the foot of a page and at the head of the next.
static size_t lines_together(size_t line, size_t count) {
    if (line == 0)
        return count < 4 ? count : 2;
    return line + 2 == count ? 2 : 1;
}

void paging_flow(struct paging *paging, const char *text, const struct paging_text *style) {
    struct text_lines lines;
    if (!paging_wrap(paging, text, style, &lines))
        return;
    double step = paging_line(style->size);
    for (size_t i = 0; i < lines.count && !paging->failed; i++) {
        paging_need(paging, step * (double)lines_together(i, lines.count));
        paging_draw(paging, lines.items[i], lines.widths[i], paging->y, style);
        paging->y += step;
    }
}
