// SPDX-License-Identifier: GPL-3.0-or-later
// Tables and facts on pages: headings repeated, rows kept together where a page can hold them, never cut.
#include "present/document/column_fit.h"
#include "present/document/paging.h"

#include <math.h>

#define GAP 7.0     // between columns, pt
#define PADDING 2.2 // over and under the text of a row
#define WORD_MOST 110.0

struct laying {
    struct paging *paging;
    struct document_table table; // as on paper
    struct column_fit fit;
    double size;
    struct text_lines head[DOCUMENT_COLUMNS_MAX];
    double head_height;
};

static double height_of(const struct text_lines *cells, size_t count, double size) {
    size_t most = 0;
    for (size_t i = 0; i < count; i++)
        most = cells[i].count > most ? cells[i].count : most;
    return (double)most * paging_line(size);
}

static struct paging_text style_of(const struct laying *laying, size_t column, bool bold) {
    double x = laying->paging->left;
    for (size_t i = 0; i < column; i++)
        x += laying->fit.widths[i] + GAP;
    return (struct paging_text){.x = x,
                                .width = laying->fit.widths[column] + 0.01,
                                .size = laying->size,
                                .bold = bold || (column == 0 && laying->table.row_named),
                                .right = laying->table.columns[column].right};
}

static bool wrap_cells(struct laying *laying, const struct document_row *row, struct text_lines *ret) {
    for (size_t i = 0; i < laying->table.column_count; i++) {
        struct paging_text style = style_of(laying, i, !row);
        const char *text = row ? row->cells[i].text : laying->table.columns[i].heading;
        if (!paging_wrap(laying->paging, text, &style, &ret[i]))
            return false;
    }
    return true;
}

static void draw_cells(struct laying *laying, const struct text_lines *cells, size_t line, bool head) {
    for (size_t i = 0; i < laying->table.column_count; i++) {
        struct paging_text style = style_of(laying, i, head);
        if (line < cells[i].count)
            paging_draw(laying->paging, cells[i].items[line], cells[i].widths[line], laying->paging->y, &style);
    }
}

static void draw_head(struct laying *laying) {
    struct paging *paging = laying->paging;
    double step = paging_line(laying->size);
    for (size_t line = 0; (double)line * step < laying->head_height - 0.1; line++) {
        draw_cells(laying, laying->head, line, true);
        paging->y += step;
    }
    paging->y += PADDING;
    paging_rule(paging, paging->y, 1.0, INK_BLACK);
}

static void draw_caption(struct laying *laying, const char *caption) {
    struct paging *paging = laying->paging;
    const struct paging_text style = {
        .x = paging->left, .width = paging->right - paging->left, .size = paging->sizes.text, .bold = true};
    if (!caption[0])
        return;
    paging_flow(paging, caption, &style);
    paging->y += PADDING;
}

static void go_on(struct laying *laying) {
    struct text caption = {0};
    paging_new_page(laying->paging);
    if (laying->table.caption[0])
        text_say(&caption, "%s (continued)", laying->table.caption);
    draw_caption(laying, text_bytes(&caption));
    laying->paging->failed |= caption.failed;
    text_release(&caption);
    draw_head(laying);
}

static double room(const struct laying *laying) {
    return laying->paging->bottom - laying->paging->y;
}

// A line of a row too tall for any page may have to begin a new one.
static void need_line(struct laying *laying) {
    if (room(laying) < paging_line(laying->size))
        go_on(laying);
}

// A row as lines of text.
struct row_lines {
    struct text_lines cells[DOCUMENT_COLUMNS_MAX];
    struct text_lines note;
    struct paging_text below; // of the note
    double cells_height, height;
};

static bool wrap_row(struct laying *laying, const struct document_row *row, struct row_lines *ret) {
    struct paging *paging = laying->paging;
    *ret = (struct row_lines){.below = {.x = paging->left + 2 * GAP,
                                        .width = paging->right - paging->left - 2 * GAP,
                                        .size = laying->size,
                                        .ink = INK_GREY}};
    if (!wrap_cells(laying, row, ret->cells) || (row->note && !paging_wrap(paging, row->note, &ret->below, &ret->note)))
        return false;
    ret->cells_height = height_of(ret->cells, laying->table.column_count, laying->size);
    ret->height = ret->cells_height + (double)ret->note.count * paging_line(laying->size) + 2 * PADDING;
    return true;
}

// What a row may ask for: one that is taller than a sixth of a page goes on over pages.
static double room_wanted(const struct laying *laying, const struct row_lines *lines) {
    const struct paging *paging = laying->paging;
    double whole_page = paging->bottom - paging->top - laying->head_height - 4 * paging_line(paging->sizes.text);
    return fmin(lines->height, whole_page / 6);
}

static void draw_row(struct laying *laying, const struct document_row *row) {
    struct paging *paging = laying->paging;
    struct row_lines lines;
    if (!wrap_row(laying, row, &lines))
        return;
    double step = paging_line(laying->size);
    if (room(laying) < room_wanted(laying, &lines))
        go_on(laying);
    else if (row != laying->table.rows)
        paging_rule(paging, paging->y, HAIRLINE, INK_GREY);
    paging->y += PADDING;
    for (size_t line = 0; (double)line * step < lines.cells_height - 0.1 && !paging->failed; line++) {
        need_line(laying);
        draw_cells(laying, lines.cells, line, false);
        paging->y += step;
    }
    for (size_t line = 0; line < lines.note.count && !paging->failed; line++) {
        need_line(laying);
        paging_draw(paging, lines.note.items[line], lines.note.widths[line], paging->y, &lines.below);
        paging->y += step;
    }
    paging->y += PADDING;
}

// Caption and headings never stand at the foot of a page without a row.
static void need_beginning(struct laying *laying) {
    struct paging *paging = laying->paging;
    struct row_lines first;
    double height = laying->head_height + 3 * PADDING;
    if (laying->table.caption[0])
        height += 2 * paging_line(paging->sizes.text);
    if (laying->table.row_count && wrap_row(laying, &laying->table.rows[0], &first))
        height += room_wanted(laying, &first);
    paging_need(paging, height);
}

static bool prepare(struct laying *laying, const struct document_table *table) {
    struct paging *paging = laying->paging;
    struct arena *arena = &paging->pages->arena;
    const struct column_measure measure = {
        .metric = paging->metric, .size = laying->size, .bold_head = true, .word_most = WORD_MOST};
    if (!table_on_paper(table, " ", arena, &laying->table) ||
        !column_fit_measure(&laying->table, &measure, arena, &laying->fit)) {
        paging->failed = true;
        return false;
    }
    column_fit_share(&laying->fit, laying->table.column_count,
                     paging->right - paging->left - GAP * (double)(laying->table.column_count - 1));
    if (!wrap_cells(laying, NULL, laying->head))
        return false;
    laying->head_height = height_of(laying->head, laying->table.column_count, laying->size);
    return true;
}

void paging_table(struct paging *paging, const struct document_table *table) {
    struct laying *laying = arena_new(&paging->pages->arena, 1, sizeof *laying);
    if (!laying || table->column_count == 0) {
        paging->failed |= !laying;
        return;
    }
    *laying = (struct laying){.paging = paging, .size = paging->sizes.table};
    if (!prepare(laying, table))
        return;
    paging->y += 2 * PADDING;
    need_beginning(laying);
    draw_caption(laying, laying->table.caption);
    draw_head(laying);
    for (size_t i = 0; i < laying->table.row_count && !paging->failed; i++)
        draw_row(laying, &laying->table.rows[i]);
    paging->y += 2 * PADDING;
}

// --- facts ---

static double label_width(const struct paging *paging, const struct document_facts *facts) {
    double widest = 0;
    for (size_t i = 0; i < facts->count; i++)
        if (facts->items[i].value.text[0])
            widest = fmax(widest, metric_width(paging->metric, facts->items[i].label, paging->sizes.text, false));
    return fmin(widest + 0.01, 0.36 * (paging->right - paging->left));
}

static void draw_fact(struct paging *paging, const struct document_fact *fact, double width) {
    struct text_lines label, value;
    const struct paging_text left = {.x = paging->left, .width = width, .size = paging->sizes.text, .ink = INK_GREY};
    const struct paging_text right = {.x = paging->left + width + GAP,
                                      .width = paging->right - paging->left - width - GAP,
                                      .size = paging->sizes.text};
    if (!paging_wrap(paging, fact->label, &left, &label) || !paging_wrap(paging, fact->value.text, &right, &value))
        return;
    double step = paging_line(paging->sizes.text);
    size_t count = label.count > value.count ? label.count : value.count;
    paging_need(paging, step * (double)(count < 6 ? count : 6));
    for (size_t i = 0; i < count && !paging->failed; i++) {
        paging_need(paging, step);
        if (i < label.count)
            paging_draw(paging, label.items[i], label.widths[i], paging->y, &left);
        if (i < value.count)
            paging_draw(paging, value.items[i], value.widths[i], paging->y, &right);
        paging->y += step;
    }
}

void paging_facts(struct paging *paging, const struct document_facts *facts) {
    double width = label_width(paging, facts);
    double height = paging_line(paging->sizes.text) * (double)facts->count; // more, where one needs several lines
    if (height < 0.3 * (paging->bottom - paging->top))
        paging_need(paging, height);
    for (size_t i = 0; i < facts->count && !paging->failed; i++)
        if (facts->items[i].value.text[0])
            draw_fact(paging, &facts->items[i], width);
    paging->y += PADDING;
}
