// SPDX-License-Identifier: GPL-3.0-or-later
// A document as one self-contained HTML file.
#include "base/language.h"
#include "present/chart/picture_svg.h"
#include "present/document/document_write.h"
#include "present/document/html_style.h"

#include <string.h>

// Text that may run from right to left says so itself; the rest stays as the page is.
static void add_direction(struct text *out, const char *text) {
    text_add(out, document_right_to_left(text) ? " dir=\"auto\">" : ">");
}

static void add_element(struct text *out, const char *name, const char *attributes, const char *text) {
    text_printf(out, "<%s%s", name, attributes);
    add_direction(out, text);
    text_add_escaped(out, text);
    text_printf(out, "</%s>\n", name);
}

static void write_style(const struct document *document, struct text *out) {
    text_add(out, "<style>\n");
    text_add(out, html_style);
    text_add(out, document->black_and_white ? html_style_grey : html_style_colours);
    text_add(out, document->one_page ? html_style_one_page : "");
    text_printf(out, html_style_page, document->paper == PAPER_A4 ? "A4" : "letter");
    text_add(out, "</style>\n");
}

static void write_head(const struct document *document, struct text *out) {
    const struct document_head *head = &document->head;
    text_add(out, "<!DOCTYPE html>\n<html lang=\"");
    text_add_escaped(out, head->language);
    text_add(out, "\">\n<head>\n<meta charset=\"utf-8\">\n"
                  "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
                  "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"generator\" content=\"");
    text_add_escaped(out, head->program);
    text_add(out, "\">\n<title>");
    text_add_escaped(out, head->title);
    text_add(out, "</title>\n");
    write_style(document, out);
    text_add(out, "</head>\n");
}

static void write_top(const struct document *document, struct text *out) {
    const struct document_head *head = &document->head;
    text_add(out, "<body>\n<a class=\"skip\" href=\"#text\">");
    text_add_escaped(out, say("Skip to the text"));
    text_add(out, "</a>\n<header>\n");
    add_element(out, "p", " class=\"kind\"", head->subtitle);
    add_element(out, "h1", "", head->title);
    if (head->date[0]) {
        text_add(out, "<p class=\"small\">");
        text_say(out, "As of %s", head->date); // a date has nothing to escape
        text_add(out, "</p>\n");
    }
    text_add(out, "</header>\n");
}

static void write_contents(const struct document *document, struct text *out) {
    if (document->one_page)
        return;
    text_add(out, "<nav aria-labelledby=\"contents\">\n");
    add_element(out, "h2", " id=\"contents\"", say("Contents"));
    text_add(out, "<ol>\n");
    for (const struct document_section *section = document->first; section; section = section->next) {
        text_printf(out, "<li><a href=\"#%s\">", section->id);
        text_add_escaped(out, section->heading);
        text_add(out, "</a></li>\n");
    }
    text_add(out, "</ol>\n</nav>\n");
}

// --- blocks ---

static void write_paragraph(const struct document_paragraph *paragraph, struct text *out) {
    static const char *const classes[] = {"", "", " class=\"answer\"", " class=\"caution\"", " class=\"small\""};
    add_element(out, paragraph->style == PARAGRAPH_ITEM ? "li" : "p", classes[paragraph->style], paragraph->text);
}

static void add_value(struct text *out, const struct document_value *value) {
    text_add_escaped(out, value->text);
    if (!value->sure)
        return;
    text_add(out, " <span class=\"sure\">(");
    text_add_escaped(out, value->sure);
    for (size_t i = 0; i < value->ref_count; i++)
        text_printf(out, "%s%d", i ? ", " : " [", value->refs[i]);
    text_add(out, value->ref_count ? "])</span>" : ")</span>");
}

static void write_facts(const struct document_facts *facts, struct text *out) {
    if (facts_empty(facts))
        return;
    text_add(out, "<dl>\n");
    for (size_t i = 0; i < facts->count; i++) {
        if (!facts->items[i].value.text[0])
            continue;
        add_element(out, "dt", "", facts->items[i].label);
        text_add(out, "<dd");
        add_direction(out, facts->items[i].value.text);
        add_value(out, &facts->items[i].value);
        text_add(out, "</dd>\n");
    }
    text_add(out, "</dl>\n");
}

static void write_heads(const struct document_table *table, struct text *out) {
    text_add(out, "<thead>\n<tr>\n");
    for (size_t i = 0; i < table->column_count; i++) {
        const struct document_column *column = &table->columns[i];
        text_printf(out, "<th scope=\"col\"%s>", column->right ? " class=\"number\"" : "");
        text_add_escaped(out, column->heading);
        if (column->unit) {
            text_add(out, " <span class=\"unit\">");
            text_add_escaped(out, column->unit);
            text_add(out, "</span>");
        }
        text_add(out, "</th>\n");
    }
    text_add(out, "</tr>\n</thead>\n");
}

// A word longer than this may be broken, so that no table grows wider than paper.
enum { WORD_MOST = 26 };

static bool has_long_word(const char *text) {
    for (; *text; text += strcspn(text, " ") + strspn(text + strcspn(text, " "), " "))
        if (strcspn(text, " ") > WORD_MOST)
            return true;
    return false;
}

static const char *cell_class(const struct document_column *column, const char *text) {
    return column->right ? " class=\"number\"" : has_long_word(text) ? " class=\"long\"" : "";
}

static void write_row(const struct document_table *table, const struct document_row *row, struct text *out) {
    text_add(out, row->note ? "<tr class=\"noted\">\n" : "<tr>\n");
    for (size_t i = 0; i < table->column_count; i++) {
        bool name = i == 0 && table->row_named;
        text_printf(out, "<%s%s", name ? "th scope=\"row\"" : "td", cell_class(&table->columns[i], row->cells[i].text));
        add_direction(out, row->cells[i].text);
        add_value(out, &row->cells[i]);
        text_add(out, name ? "</th>\n" : "</td>\n");
    }
    text_add(out, "</tr>\n");
    if (!row->note)
        return;
    text_printf(out, "<tr class=\"note\"><td colspan=\"%zu\"%s", table->column_count,
                has_long_word(row->note) ? " class=\"long\"" : "");
    add_direction(out, row->note);
    text_add_escaped(out, row->note);
    text_add(out, "</td></tr>\n");
}

// A table that is wider than the window is moved inside a region that the keyboard reaches.
static void write_table(const struct document_section *section, const struct document_table *given, struct text *out) {
    struct arena arena = {0};
    struct document_table paper;
    const struct document_table *table = &paper;
    if (!table_on_paper(given, NULL, &arena, &paper)) {
        out->failed = true;
        arena_release(&arena);
        return;
    }
    text_printf(out, "<div class=\"wide\" role=\"group\" tabindex=\"0\" aria-labelledby=\"%s%s\">\n<table>\n",
                table->caption[0] ? table->id : section->id, table->caption[0] ? "-table" : "-heading");
    if (table->caption[0]) {
        text_printf(out, "<caption id=\"%s-table\">", table->id);
        text_add_escaped(out, table->caption);
        text_add(out, "</caption>\n");
    }
    write_heads(table, out);
    text_add(out, "<tbody>\n");
    for (size_t i = 0; i < table->row_count; i++)
        write_row(table, &table->rows[i], out);
    text_add(out, "</tbody>\n</table>\n</div>\n");
    arena_release(&arena);
}

static void write_figure(const struct document_figure *figure, struct text *out) {
    text_printf(out, "<figure id=\"%s\" tabindex=\"0\">\n", figure->id);
    if (figure->picture)
        picture_svg(figure->picture, figure->id, figure->caption, figure->alternative, out);
    else
        add_element(out, "p", "", figure->alternative);
    add_element(out, "figcaption", "", figure->caption);
    text_add(out, "</figure>\n");
}

static void write_block(const struct document_section *section, const struct document_block *block, struct text *out) {
    switch (block->kind) {
    case DOCUMENT_PARAGRAPH:
        write_paragraph(&block->paragraph, out);
        break;
    case DOCUMENT_FACTS:
        write_facts(&block->facts, out);
        break;
    case DOCUMENT_TABLE:
        write_table(section, &block->table, out);
        break;
    case DOCUMENT_FIGURE:
        write_figure(&block->figure, out);
        break;
    case DOCUMENT_LINE:
        add_element(out, "p", " class=\"by-hand\"", block->line.label);
        break;
    }
}

static bool is_item(const struct document_block *block) {
    return block && block->kind == DOCUMENT_PARAGRAPH && block->paragraph.style == PARAGRAPH_ITEM;
}

static void write_section(const struct document_section *section, struct text *out) {
    text_printf(out, "<section id=\"%s\" aria-labelledby=\"%s-heading\">\n<h2 id=\"%s-heading\">", section->id,
                section->id, section->id);
    text_add_escaped(out, section->heading);
    text_add(out, "</h2>\n");
    const struct document_block *before = NULL;
    for (const struct document_block *block = section->first; block; block = block->next) {
        if (is_item(block) && !is_item(before))
            text_add(out, "<ul>\n");
        write_block(section, block, out);
        if (is_item(block) && !is_item(block->next))
            text_add(out, "</ul>\n");
        before = block;
    }
    text_add(out, "</section>\n");
}

void document_html(const struct document *document, struct text *out) {
    write_head(document, out);
    write_top(document, out);
    write_contents(document, out);
    text_add(out, "<main id=\"text\">\n");
    for (const struct document_section *section = document->first; section; section = section->next)
        write_section(section, out);
    text_add(out, "</main>\n<footer>\n<p class=\"small\">");
    text_add_escaped(out, document->head.program);
    text_add(out, ". ");
    text_say(out, "Tables of %s.", document->head.data_version);
    text_add(out, "</p>\n</footer>\n</body>\n</html>\n");
    out->failed |= document->failed;
}
