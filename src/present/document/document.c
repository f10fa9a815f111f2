// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/document/document.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/text.h"
#include "present/chart/wrap.h"
#include "present/page.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

// --- memory ---

// Room for one more item; NULL when memory is exhausted.
static void *grown(struct document *document, void *items, size_t count, size_t *capacity, size_t size) {
    if (count < *capacity)
        return items;
    size_t more = *capacity ? *capacity * 2 : 8;
    void *bigger = document->failed ? NULL : arena_new(&document->arena, more, size);
    if (!bigger) {
        document->failed = true;
        return NULL;
    }
    if (count)
        memcpy(bigger, items, count * size);
    *capacity = more;
    return bigger;
}

static const char *kept(struct document *document, const char *copy) {
    document->failed |= copy == NULL;
    return copy ? copy : "";
}

static const char *keep(struct document *document, const char *text) {
    return document->failed ? "" : kept(document, text_printable(&document->arena, text));
}

// As keep, but isolated names inside stay so.
static const char *keep_sentence(struct document *document, const char *text) {
    char *copy = document->failed ? NULL : arena_text(&document->arena, text);
    for (char *at = copy; at && *at; at++)
        if ((unsigned char)*at < 0x20 || *at == 0x7F)
            *at = ' ';
    return kept(document, copy);
}

static const char *keep_words(struct document *document, const char *format, va_list arguments) {
    return kept(document, document->failed ? NULL : arena_vsay(&document->arena, format, arguments));
}

const char *document_print(struct document *document, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *copy = kept(document, document->failed ? NULL : arena_vprintf(&document->arena, format, arguments));
    va_end(arguments);
    return copy;
}

const char *document_say(struct document *document, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *copy = keep_words(document, format, arguments);
    va_end(arguments);
    return copy;
}

const char *document_take(struct document *document, struct text *words) {
    const char *copy = document_print(document, "%s", text_bytes(words));
    document->failed |= words->failed;
    text_release(words);
    return copy;
}

// --- names ---

// Hebrew, Arabic and their neighbours, with their presentation forms.
static bool right_to_left(unsigned code) {
    return (code >= 0x0590 && code <= 0x08FF) || (code >= 0xFB1D && code <= 0xFDFF) ||
           (code >= 0xFE70 && code <= 0xFEFE) || (code >= 0x10800 && code <= 0x10FFF) ||
           (code >= 0x1E800 && code <= 0x1EFFF);
}

bool document_right_to_left(const char *text) {
    while (*text) {
        unsigned code;
        text += utf8_next(text, &code);
        if (right_to_left(code))
            return true;
    }
    return false;
}

// Latin, Greek, Cyrillic and what else has a direction: letters, to which marks and figures do not belong.
static bool is_letter(unsigned code) {
    return (code >= 'A' && code <= 'Z') || (code >= 'a' && code <= 'z') || (code >= 0xC0 && code < 0x2000) ||
           code >= 0x2E80;
}

bool document_begins_right_to_left(const char *text) {
    while (*text) {
        unsigned code;
        text += utf8_next(text, &code);
        if (right_to_left(code))
            return true;
        if (is_letter(code))
            return false;
    }
    return false;
}

const char *document_name(struct document *document, const char *name) {
    static const char first_strong_isolate[] = "\u2068"; // NOLINT(misc-misleading-bidirectional): closed by the next
    static const char pop_isolate[] = "\u2069";
    const char *copy = keep(document, name);
    return document_right_to_left(copy) ? document_print(document, "%s%s%s", first_strong_isolate, copy, pop_isolate)
                                        : copy;
}

const char *document_short(struct document *document, const char *text, size_t columns) {
    const char *copy = keep(document, text);
    if (text_columns(copy) <= columns)
        return copy;
    return document_print(document, "%.*s\u2026", (int)text_prefix(copy, columns - 1), copy);
}

// --- parts ---

void document_begin(struct document *document, const struct document_head *head) {
    *document = (struct document){0};
    document->head = (struct document_head){.title = keep(document, head->title),
                                            .subtitle = keep(document, head->subtitle),
                                            .object = keep(document, head->object),
                                            .date = keep(document, head->date),
                                            .data_version = keep(document, head->data_version),
                                            .program = keep(document, head->program),
                                            .language = keep(document, head->language)};
}

static void release_pictures(const struct document_section *section) {
    for (struct document_block *block = section->first; block; block = block->next)
        if (block->kind == DOCUMENT_FIGURE)
            picture_release(block->figure.picture);
}

void document_release(struct document *document) {
    if (!document)
        return;
    for (struct document_section *section = document->first; section; section = section->next)
        release_pictures(section);
    arena_release(&document->arena);
    *document = (struct document){0};
}

struct document_section *document_section(struct document *document, const char *id, const char *heading) {
    struct document_section *section = document->failed ? NULL : arena_new(&document->arena, 1, sizeof *section);
    if (!section) {
        document->failed = true;
        document->spare_section = (struct document_section){.document = document, .id = "", .heading = ""};
        return &document->spare_section;
    }
    *section = (struct document_section){.document = document, .id = id, .heading = keep(document, say(heading))};
    if (document->last)
        document->last->next = section;
    else
        document->first = section;
    document->last = section;
    return section;
}

static struct document_block *add_block(struct document_section *section, enum document_kind kind) {
    struct document *document = section->document;
    struct document_block *block = document->failed ? NULL : arena_new(&document->arena, 1, sizeof *block);
    if (!block) {
        document->failed = true;
        document->spare_block = (struct document_block){.kind = kind};
        return &document->spare_block;
    }
    block->kind = kind;
    if (section->last)
        section->last->next = block;
    else
        section->first = block;
    section->last = block;
    return block;
}

void document_paragraph(struct document_section *section, enum paragraph_style style, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    const char *text = keep_sentence(section->document, keep_words(section->document, format, arguments));
    va_end(arguments);
    add_block(section, DOCUMENT_PARAGRAPH)->paragraph = (struct document_paragraph){style, text};
}

void document_line(struct document_section *section, const char *label) {
    const char *copy = keep(section->document, say(label));
    add_block(section, DOCUMENT_LINE)->line = (struct document_line){copy};
}

void document_figure(struct document_section *section, const char *id, const char *caption, const char *alternative,
                     struct picture *picture) {
    struct document *document = section->document;
    struct document_figure figure = {
        .id = id, .caption = keep_sentence(document, caption), .alternative = keep_sentence(document, alternative)};
    if (picture)
        figure.picture = document->failed ? NULL : arena_new(&document->arena, 1, sizeof *figure.picture);
    document->failed |= picture && !figure.picture;
    struct document_block *block = add_block(section, DOCUMENT_FIGURE);
    if (document->failed) {
        picture_release(picture);
        figure.picture = NULL;
    } else if (picture) {
        *figure.picture = *picture;
        *picture = (struct picture){0};
    }
    block->figure = figure;
}

// --- facts ---

struct document_facts *document_facts(struct document_section *section, const char *id) {
    struct document_facts *facts = &add_block(section, DOCUMENT_FACTS)->facts;
    *facts = (struct document_facts){.document = section->document, .id = id};
    return facts;
}

static struct document_value *add_fact(struct document_facts *facts, const char *key, const char *label) {
    struct document *document = facts->document;
    struct document_fact *items = grown(document, facts->items, facts->count, &facts->capacity, sizeof *items);
    if (!items)
        return NULL;
    facts->items = items;
    struct document_fact *fact = &items[facts->count++];
    *fact =
        (struct document_fact){.key = key, .label = keep(document, say(label)), .value = {.text = "", .number = NAN}};
    return &fact->value;
}

void fact_words(struct document_facts *facts, const char *key, const char *label, const char *text) {
    struct document_value *value = add_fact(facts, key, label);
    if (value && text)
        value->text = keep(facts->document, text);
}

// A number as a person wrote it has no zeros behind that were not there.
static const char *digits_of(double number, int digits, char printed[FIGURE_BYTES]) {
    if (digits > 0)
        return figure(number, digits, printed);
    print_words(printed, FIGURE_BYTES, "%.10g", number);
    return printed;
}

void fact_number(struct document_facts *facts, const char *key, const char *label, double number, int digits,
                 const char *unit) {
    char printed[FIGURE_BYTES];
    struct document_value *value = add_fact(facts, key, label);
    if (!value)
        return;
    value->unit = unit;
    if (!isfinite(number))
        return;
    value->number = number;
    value->text = unit ? document_print(facts->document, "%s\u00A0%s", digits_of(number, digits, printed), unit)
                       : keep(facts->document, digits_of(number, digits, printed));
}

bool facts_empty(const struct document_facts *facts) {
    for (size_t i = 0; i < facts->count; i++)
        if (facts->items[i].value.text[0])
            return false;
    return true;
}

// --- tables ---

struct document_table *document_table(struct document_section *section, const char *id, const char *caption) {
    struct document_table *table = &add_block(section, DOCUMENT_TABLE)->table;
    *table = (struct document_table){
        .document = section->document, .id = id, .caption = keep(section->document, say(caption)), .row_named = true};
    return table;
}

void table_column(struct document_table *table, const char *key, const char *heading, const char *unit, bool right) {
    assert(table->column_count < DOCUMENT_COLUMNS_MAX && table->row_count == 0);
    const char *copy = keep(table->document, say(heading));
    table->columns[table->column_count++] = (struct document_column){key, copy, unit, right, false};
}

void table_detail(struct document_table *table, const char *key, const char *heading, const char *unit) {
    table_column(table, key, heading, unit, false);
    table->columns[table->column_count - 1].detail = true;
}

static struct document_row *open_row(struct document_table *table) {
    struct document *document = table->document;
    if (table->row_count && table->filled < table->column_count)
        return &table->rows[table->row_count - 1];
    struct document_row *rows = grown(document, table->rows, table->row_count, &table->row_capacity, sizeof *rows);
    if (!rows)
        return NULL;
    table->rows = rows;
    struct document_value *cells = arena_new(&document->arena, table->column_count, sizeof *cells);
    if (!cells) {
        document->failed = true;
        return NULL;
    }
    for (size_t i = 0; i < table->column_count; i++)
        cells[i] = (struct document_value){.text = "", .number = NAN};
    rows[table->row_count++] = (struct document_row){.cells = cells};
    table->filled = 0;
    return &rows[table->row_count - 1];
}

static struct document_value *add_cell(struct document_table *table) {
    struct document_row *row = table->document->failed ? NULL : open_row(table);
    return row ? &row->cells[table->filled++] : NULL;
}

void table_words(struct document_table *table, const char *text) {
    struct document_value *cell = add_cell(table);
    if (cell)
        cell->text = keep(table->document, text);
}

static void add_number(struct document_table *table, double number, const char *printed) {
    struct document_value *cell = add_cell(table);
    if (!cell || !isfinite(number))
        return;
    cell->number = number;
    cell->text = keep(table->document, printed);
}

void table_number(struct document_table *table, double number, int digits) {
    char printed[FIGURE_BYTES];
    add_number(table, number, isfinite(number) ? digits_of(number, digits, printed) : "");
}

void table_decimals(struct document_table *table, double number, int decimals) {
    char printed[FIGURE_BYTES] = "";
    if (isfinite(number) && fabs(number) < 1e15)
        print_words(printed, sizeof printed, "%.*f", decimals, number);
    add_number(table, number, printed);
}

void table_share(struct document_table *table, double share) {
    char printed[FIGURE_BYTES];
    print_words(printed, sizeof printed, "%s%.2f",
                share < 0.005   ? "<"
                : share > 0.995 ? ">"
                                : "",
                fmin(fmax(share, 0.01), 0.99));
    add_number(table, share, printed);
}

void table_note(struct document_table *table, const char *text) {
    if (text && text[0] && table->row_count && !table->document->failed)
        table->rows[table->row_count - 1].note = keep_sentence(table->document, text);
}

static const char *note_on_paper(const struct document_table *table, const struct document_row *row,
                                 struct arena *arena) {
    struct text words = {0};
    for (size_t i = 0; i < table->column_count; i++) {
        const struct document_column *column = &table->columns[i];
        if (column->detail && row->cells[i].text[0])
            text_printf(&words, "%s%s: %s%s%s", words.length ? " \u00B7 " : "", column->heading, row->cells[i].text,
                        column->unit ? "\u00A0" : "", column->unit ? column->unit : "");
    }
    if (row->note)
        text_printf(&words, "%s%s", words.length ? " \u00B7 " : "", row->note);
    const char *copy = words.failed ? NULL : arena_text(arena, text_bytes(&words));
    text_release(&words);
    return copy;
}

static bool columns_on_paper(const struct document_table *table, const char *between, struct arena *arena,
                             struct document_table *paper) {
    paper->column_count = 0;
    for (size_t i = 0; i < table->column_count; i++) {
        if (table->columns[i].detail)
            continue;
        struct document_column *column = &paper->columns[paper->column_count++];
        *column = table->columns[i];
        if (between && column->unit)
            column->heading = arena_printf(arena, "%s%s%s", column->heading, between, column->unit);
        if (!column->heading)
            return false;
    }
    return true;
}

bool table_on_paper(const struct document_table *table, const char *between, struct arena *arena,
                    struct document_table *ret) {
    struct document_table paper = *table;
    if (!columns_on_paper(table, between, arena, &paper))
        return false;
    paper.rows = arena_new(arena, table->row_count + 1, sizeof *paper.rows);
    for (size_t row = 0; paper.rows && row < table->row_count; row++) {
        struct document_value *cells = arena_new(arena, paper.column_count, sizeof *cells);
        const char *note = note_on_paper(table, &table->rows[row], arena);
        if (!cells || !note)
            return false;
        for (size_t i = 0, at = 0; i < table->column_count; i++)
            if (!table->columns[i].detail)
                cells[at++] = table->rows[row].cells[i];
        paper.rows[row] = (struct document_row){cells, note[0] ? note : NULL};
    }
    if (paper.rows)
        *ret = paper;
    return paper.rows != NULL;
}

size_t document_section_count(const struct document *document) {
    size_t count = 0;
    for (const struct document_section *section = document->first; section; section = section->next)
        count++;
    return count;
}

size_t document_count(const struct document *document, enum document_kind kind) {
    size_t count = 0;
    for (const struct document_section *section = document->first; section; section = section->next)
        for (const struct document_block *block = section->first; block; block = block->next)
            count += block->kind == kind;
    return count;
}
