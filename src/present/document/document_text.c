// SPDX-License-Identifier: GPL-3.0-or-later
// A document for a terminal or a plain file.
#include "present/document/column_fit.h"
#include "present/document/document_write.h"
#include "present/page.h"

#include <math.h>
#include <string.h>

enum { GAP = 2, INDENT = 2, LABEL_MOST = 26, WORD_MOST = 24 };

// A text of this size is as many points wide as it has columns by metric_fixed.
static const double column_size = 2;

static void rule(struct text *out, const char *unit, const char *text) {
    size_t columns = text_columns(text);
    text_add_repeated(out, unit, columns < PAGE_COLUMNS ? columns : PAGE_COLUMNS);
    text_add(out, "\n");
}

static void write_head(const struct document *document, struct text *out) {
    const struct document_head *head = &document->head;
    page_paragraph(out, 0, 0, head->title);
    rule(out, "=", head->title);
    page_paragraph(out, 0, 0, head->subtitle);
    if (head->date[0])
        page_paragraph_f(out, 0, 0, "As of %s", head->date);
}

static void write_paragraph(const struct document_paragraph *paragraph, struct text *out) {
    const char *mark = paragraph->style == PARAGRAPH_ITEM ? "- " : paragraph->style == PARAGRAPH_CAUTION ? "! " : "";
    struct text words = {0};
    text_add(&words, mark);
    text_add(&words, paragraph->text);
    page_paragraph(out, INDENT, INDENT + strlen(mark), text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

// --- rows ---

static void write_lines(const struct text_lines *lines, const double *widths, const bool *right, size_t count,
                        struct text *out) {
    size_t height = 0;
    for (size_t i = 0; i < count; i++)
        height = lines[i].count > height ? lines[i].count : height;
    for (size_t line = 0; line < height; line++) {
        struct text row = {0};
        size_t at = INDENT;
        text_add_repeated(&row, " ", INDENT);
        for (size_t i = 0; i < count; i++) {
            const char *cell = line < lines[i].count ? lines[i].items[line] : "";
            size_t width = (size_t)floor(widths[i] + 1e-6);
            size_t columns = text_columns(cell);
            size_t before = right && right[i] && width > columns ? width - columns : 0;
            if (cell[0]) {
                text_add_repeated(&row, " ",
                                  at > text_columns(text_bytes(&row)) ? at - text_columns(text_bytes(&row)) : 0);
                text_add_repeated(&row, " ", before);
                text_add(&row, cell);
            }
            at += width + GAP;
        }
        text_add(out, text_bytes(&row));
        text_add(out, "\n");
        out->failed |= row.failed;
        text_release(&row);
    }
}

static bool wrap_cell(struct arena *arena, const char *text, double width, struct text_lines *ret) {
    struct text_metric metric = metric_fixed();
    return text_wrap(arena, &metric, text, column_size, false, fmax(floor(width + 1e-6), 1), strlen(text) + 1, ret);
}

// --- tables ---

static bool write_row(const struct document_table *table, const struct column_fit *fit, const struct document_row *row,
                      struct arena *arena, struct text *out) {
    struct text_lines lines[DOCUMENT_COLUMNS_MAX];
    bool right[DOCUMENT_COLUMNS_MAX];
    for (size_t i = 0; i < table->column_count; i++) {
        right[i] = table->columns[i].right;
        if (!wrap_cell(arena, row ? row->cells[i].text : table->columns[i].heading, fit->widths[i], &lines[i]))
            return false;
    }
    write_lines(lines, fit->widths, right, table->column_count, out);
    if (row && row->note)
        page_paragraph(out, INDENT + GAP, INDENT + GAP, row->note);
    return true;
}

static void write_record(const struct document_table *table, const struct document_row *row, struct text *out) {
    struct text words = {0};
    text_add(&words, row->cells[0].text);
    for (size_t i = 1; i < table->column_count; i++)
        if (row->cells[i].text[0])
            text_printf(&words, "%s%s: %s", i > 1 ? "; " : "  ", table->columns[i].heading, row->cells[i].text);
    if (row->note)
        text_printf(&words, ". %s", row->note);
    page_paragraph(out, INDENT, INDENT + 4, text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

static bool write_table(const struct document_table *given, struct arena *arena, struct text *out) {
    struct text_metric metric = metric_fixed();
    struct column_measure measure = {.metric = &metric, .size = column_size, .word_most = WORD_MOST};
    struct document_table table;
    struct column_fit fit;
    if (!table_on_paper(given, ", ", arena, &table) || !column_fit_measure(&table, &measure, arena, &fit))
        return false;
    if (table.caption[0])
        page_paragraph(out, INDENT, INDENT, table.caption);
    double width = PAGE_COLUMNS - INDENT - GAP * (double)(table.column_count - 1);
    if (!column_fit_share(&fit, table.column_count, width)) {
        for (size_t i = 0; i < table.row_count; i++)
            write_record(&table, &table.rows[i], out);
        return true;
    }
    if (!write_row(&table, &fit, NULL, arena, out))
        return false;
    for (size_t i = 0; i < table.row_count; i++)
        if (!write_row(&table, &fit, &table.rows[i], arena, out))
            return false;
    return true;
}

static bool write_facts(const struct document_facts *facts, struct arena *arena, struct text *out) {
    double widths[2] = {0};
    for (size_t i = 0; i < facts->count; i++)
        if (facts->items[i].value.text[0])
            widths[0] = fmax(widths[0], fmin((double)text_columns(facts->items[i].label), LABEL_MOST));
    widths[1] = PAGE_COLUMNS - INDENT - GAP - widths[0];
    for (size_t i = 0; i < facts->count; i++) {
        struct text_lines lines[2];
        if (!facts->items[i].value.text[0])
            continue;
        if (!wrap_cell(arena, facts->items[i].label, widths[0], &lines[0]) ||
            !wrap_cell(arena, facts->items[i].value.text, widths[1], &lines[1]))
            return false;
        write_lines(lines, widths, NULL, 2, out);
    }
    return true;
}

static bool write_block(const struct document_block *block, struct arena *arena, struct text *out) {
    switch (block->kind) {
    case DOCUMENT_PARAGRAPH:
        write_paragraph(&block->paragraph, out);
        return true;
    case DOCUMENT_FACTS:
        return write_facts(&block->facts, arena, out);
    case DOCUMENT_TABLE:
        return write_table(&block->table, arena, out);
    case DOCUMENT_FIGURE:
        page_paragraph_f(out, INDENT, INDENT, "Figure: %s. %s", block->figure.caption, block->figure.alternative);
        return true;
    case DOCUMENT_LINE:
        page_paragraph_f(out, INDENT, INDENT, "%s ______________________________", block->line.label);
        return true;
    }
    return true;
}

// Facts, tables and figures stand apart; paragraphs follow each other.
static bool apart(const struct document_block *before, const struct document_block *block) {
    return before && (before->kind != DOCUMENT_PARAGRAPH || block->kind != DOCUMENT_PARAGRAPH) &&
           !(before->kind == DOCUMENT_LINE && block->kind == DOCUMENT_LINE);
}

void document_text(const struct document *document, struct text *out) {
    struct arena arena = {0};
    write_head(document, out);
    for (const struct document_section *section = document->first; section; section = section->next) {
        page_heading(out, section->heading);
        rule(out, "-", section->heading);
        const struct document_block *before = NULL;
        for (const struct document_block *block = section->first; block; block = block->next) {
            if (apart(before, block))
                text_add(out, "\n");
            out->failed |= !write_block(block, &arena, out);
            before = block;
        }
    }
    out->failed |= document->failed;
    arena_release(&arena);
}
