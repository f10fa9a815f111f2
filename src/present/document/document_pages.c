// SPDX-License-Identifier: GPL-3.0-or-later
// A document on pages of paper: what stands where, as pictures of lines and texts.
#include "present/document/paging.h"

#include <math.h>

#define MARGIN_SIDE 40.0
#define MARGIN_TOP 38.0
#define MARGIN_BOTTOM 48.0 // holds the foot of the page
#define FOOT_SIZE 7.5
#define SCALE_LEAST 0.6 // of the type of a single page: 7 pt then
#define SCALE_STEP 0.95

static const struct paging_sizes report_sizes = {.title = 18, .heading = 12.5, .text = 9.2, .small = 8, .table = 8};
static const struct paging_sizes sheet_sizes = {.title = 25, .heading = 16, .text = 14, .small = 11.5, .table = 13};

static double text_width(const struct paging *paging) {
    return paging->right - paging->left;
}

static struct paging_text whole_width(const struct paging *paging, double size, bool bold) {
    return (struct paging_text){.x = paging->left, .width = text_width(paging), .size = size, .bold = bold};
}

// --- blocks ---

static void draw_title(struct paging *paging) {
    const struct document_head *head = &paging->document->head;
    struct paging_text kind = whole_width(paging, paging->sizes.text, false);
    struct paging_text title = whole_width(paging, paging->sizes.title, true);
    kind.ink = INK_GREY;
    paging_flow(paging, head->subtitle, &kind);
    paging_flow(paging, head->title, &title);
    struct text words = {0};
    text_printf(&words, "%s", head->object);
    if (head->date[0]) {
        text_add(&words, " \u00B7 ");
        text_say(&words, "As of %s", head->date);
    }
    paging_flow(paging, text_bytes(&words), &kind);
    paging->failed |= words.failed;
    text_release(&words);
    paging->y += 4;
    paging_rule(paging, paging->y, 2, INK_BLACK);
}

// A thick bar and a frame, so that it cannot be overlooked in black and white; on every page that holds a part of it.
static void draw_caution_part(struct paging *paging, double from) {
    const struct pen frame = {.width = 0.8, .ink = INK_BLACK};
    struct picture *page = paging_page(paging);
    if (!page)
        return;
    picture_box(page, paging->left, from, text_width(paging), paging->y - from + 3,
                (struct picture_paint){&frame, false, INK_WHITE});
    picture_box(page, paging->left, from, 4, paging->y - from + 3, (struct picture_paint){NULL, true, INK_BLACK});
}

static void draw_caution(struct paging *paging, const char *text) {
    struct paging_text style = whole_width(paging, paging->sizes.text, true);
    struct text_lines lines;
    style.x += 12;
    style.width -= 18;
    if (!paging_wrap(paging, text, &style, &lines))
        return;
    double step = paging_line(style.size);
    paging->y += 3;
    paging_need(paging, fmin((double)lines.count, 8) * step + 8);
    double from = paging->y;
    paging->y += 3;
    for (size_t i = 0; i < lines.count && !paging->failed; i++) {
        if (paging->y + step + 4 > paging->bottom && paging->y > paging->top) {
            draw_caution_part(paging, from);
            paging_new_page(paging);
            from = paging->y;
            paging->y += 3;
        }
        paging_draw(paging, lines.items[i], lines.widths[i], paging->y, &style);
        paging->y += step;
    }
    draw_caution_part(paging, from);
    paging->y += 7;
}

static void draw_item(struct paging *paging, const char *text) {
    struct paging_text bullet = whole_width(paging, paging->sizes.text, true);
    struct paging_text style = whole_width(paging, paging->sizes.text, false);
    bullet.x += 3;
    style.x += 13;
    style.width -= 13;
    paging_need(paging, 2 * paging_line(style.size));
    paging_draw(paging, "\u2022", metric_width(paging->metric, "\u2022", bullet.size, true), paging->y, &bullet);
    paging_flow(paging, text, &style);
    paging->y += 1.5;
}

static void draw_paragraph(struct paging *paging, const struct document_paragraph *paragraph) {
    struct paging_text style = whole_width(paging, paging->sizes.text, paragraph->style == PARAGRAPH_STRONG);
    if (paragraph->style == PARAGRAPH_CAUTION) {
        draw_caution(paging, paragraph->text);
        return;
    }
    if (paragraph->style == PARAGRAPH_ITEM) {
        draw_item(paging, paragraph->text);
        return;
    }
    if (paragraph->style == PARAGRAPH_SMALL) {
        style.size = paging->sizes.small;
        style.ink = INK_GREY;
    }
    paging_flow(paging, paragraph->text, &style);
    paging->y += 3;
}

// Charts are laid out for paper and keep their size, their own margins reaching into those of the page; only what is
// wider or taller than the page shrinks.
static void draw_figure(struct paging *paging, const struct document_figure *figure) {
    struct paging_text caption = whole_width(paging, paging->sizes.small, true);
    double caption_height = 2 * paging_line(caption.size);
    if (!figure->picture) {
        caption.bold = false;
        paging_flow(paging, figure->alternative, &caption);
        return;
    }
    const struct picture *picture = figure->picture;
    double page_width = paging->left + paging->right;
    bool bleeds = picture->width > text_width(paging);
    double trim = bleeds ? page_sizes_of(SHEET_HALF)->margin - 6 : 0; // of the chart's own margin, above and below
    double most = paging->bottom - paging->top - caption_height + 2 * trim;
    double scale = fmin(fmin(1, page_width / picture->width), most / picture->height);
    double height = scale * picture->height - 2 * trim;
    paging_need(paging, height + caption_height);
    if (paging->failed)
        return;
    double x = bleeds ? 0.5 * (page_width - scale * picture->width) : paging->left;
    picture_place(paging_page(paging), picture, x, paging->y - trim, scale);
    paging->y += height + 3;
    paging_flow(paging, figure->caption, &caption);
    paging->y += 6;
}

static void draw_line(struct paging *paging, const struct document_line *line) {
    struct paging_text style = whole_width(paging, paging->sizes.text, false);
    double step = 2.1 * style.size;
    paging_need(paging, step);
    paging_draw(paging, line->label, 0, paging->y + step - paging_line(style.size), &style);
    paging->y += step;
    paging_rule(paging, paging->y, 0.6, INK_BLACK);
    paging->y += 4;
}

static void draw_block(struct paging *paging, const struct document_block *block) {
    switch (block->kind) {
    case DOCUMENT_PARAGRAPH:
        draw_paragraph(paging, &block->paragraph);
        break;
    case DOCUMENT_FACTS:
        paging_facts(paging, &block->facts);
        break;
    case DOCUMENT_TABLE:
        paging_table(paging, &block->table);
        break;
    case DOCUMENT_FIGURE:
        draw_figure(paging, &block->figure);
        break;
    case DOCUMENT_LINE:
        draw_line(paging, &block->line);
        break;
    }
}

// With a heading stands at least the beginning of its first block: facts are kept together, so as many lines as they
// are, up to what paging_facts keeps.
static double lines_after_heading(const struct document_section *section) {
    const struct document_block *first = section->first;
    if (first && first->kind == DOCUMENT_TABLE)
        return 15;
    return first && first->kind == DOCUMENT_FACTS ? fmin(15, fmax(4, (double)first->facts.count + 1)) : 4;
}

static void draw_section(struct paging *paging, const struct document_section *section) {
    struct document_pages *pages = paging->pages;
    struct paging_text heading = whole_width(paging, paging->sizes.heading, true);
    double before = 0.9 * paging->sizes.heading;
    paging_need(paging,
                before + paging_line(heading.size) + lines_after_heading(section) * paging_line(paging->sizes.text));
    if (paging->y > paging->top)
        paging->y += before;
    if (!paging->failed)
        pages->marks[pages->mark_count++] = (struct picture_mark){section->heading, pages->count - 1, paging->y};
    paging_flow(paging, section->heading, &heading);
    paging_rule(paging, paging->y + 1, 0.6, INK_BLACK);
    paging->y += 5;
    for (const struct document_block *block = section->first; block && !paging->failed; block = block->next)
        draw_block(paging, block);
}

// --- the foot ---

static void draw_foot(struct paging *paging, struct picture *page, size_t number) {
    const struct document_head *head = &paging->document->head;
    struct text left = {0};
    struct text right = {0};
    const char *object = head->object;
    size_t columns = 48;
    text_printf(&left, "%.*s%s \u00B7 ", (int)text_prefix(object, columns), object,
                text_columns(object) > columns ? "\u2026" : "");
    text_say(&left, "%s, tables of %s", head->program, head->data_version);
    text_say(&right, "page %zu of %zu", number, paging->pages->count);
    double width = metric_width(paging->metric, text_bytes(&right), FOOT_SIZE, false);
    double y = page->height - 0.5 * MARGIN_BOTTOM;
    struct picture_text words = {.text = text_bytes(&left), .x = paging->left, .y = y, .unit_x = 1, .size = FOOT_SIZE};
    picture_text(page, &words);
    words.text = text_bytes(&right);
    words.x = paging->right - width;
    picture_text(page, &words);
    paging->failed |= left.failed | right.failed | page->failed;
    text_release(&left);
    text_release(&right);
}

// --- all ---

static struct paging_sizes scaled(struct paging_sizes sizes, double scale) {
    return (struct paging_sizes){sizes.title * scale, sizes.heading * scale, sizes.text * scale, sizes.small * scale,
                                 sizes.table * scale};
}

static enum status lay_out(const struct document *document, const struct text_metric *metric, double scale,
                           struct document_pages *pages, struct error *err) {
    struct paging paging = {.document = document, .metric = metric, .pages = pages};
    pages->scale = scale;
    pages->marks = arena_new(&pages->arena, document_section_count(document) + 1, sizeof *pages->marks);
    paging.failed = !pages->marks || document->failed;
    paging.sizes = scaled(document->one_page ? sheet_sizes : report_sizes, scale);
    paging_new_page(&paging);
    if (!paging.failed) {
        paging.left = MARGIN_SIDE;
        paging.right = pages->items[0].width - MARGIN_SIDE;
        paging.top = paging.y = MARGIN_TOP;
        paging.bottom = pages->items[0].height - MARGIN_BOTTOM;
        draw_title(&paging);
    }
    for (const struct document_section *section = document->first; section && !paging.failed; section = section->next)
        draw_section(&paging, section);
    for (size_t i = 0; i < pages->count && !paging.failed; i++)
        draw_foot(&paging, &pages->items[i], i + 1);
    return paging.failed ? error_set(err, STATUS_MEMORY, "out of memory") : STATUS_OK;
}

void document_pages_release(struct document_pages *pages) {
    if (!pages)
        return;
    for (size_t i = 0; i < pages->count; i++)
        picture_release(&pages->items[i]);
    arena_release(&pages->arena);
    *pages = (struct document_pages){0};
}

enum status document_paginate(const struct document *document, const struct text_metric *metric,
                              struct document_pages *ret, struct error *err) {
    double least = document->one_page ? SCALE_LEAST : 1;
    for (double scale = 1; scale >= least; scale *= SCALE_STEP) {
        struct document_pages pages = {0};
        enum status status = lay_out(document, metric, scale, &pages, err);
        if (status == STATUS_OK && (!document->one_page || pages.count == 1)) {
            *ret = pages;
            return STATUS_OK;
        }
        document_pages_release(&pages);
        if (status != STATUS_OK)
            return status;
    }
    return error_set(err, STATUS_RANGE, "the sheet does not fit on one page; take the full report (without --sheet)");
}
