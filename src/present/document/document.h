// SPDX-License-Identifier: GPL-3.0-or-later
// A document as its parts: sections with paragraphs, facts, tables and figures. Built once from answers, written by
// several writers (text, JSON, HTML, PDF) that know nothing of what it is about.
//
// Headings, labels, captions and formats are given in English and translated here (base/language.h); what is handed
// over as an argument or as a cell is not. Everything lives in the document's arena. A failed allocation is remembered
// in `failed`; further additions do nothing and return throw-away parts, so builders check once at the end. Texts given
// are copied, control characters in them become spaces.
#ifndef MILDSOLVE_PRESENT_DOCUMENT_DOCUMENT_H
#define MILDSOLVE_PRESENT_DOCUMENT_DOCUMENT_H

#include "base/arena.h"
#include "base/text.h"
#include "present/chart/chart_page.h"
#include "present/chart/picture.h"

#include <stdbool.h>
#include <stddef.h>

// What stands in a cell or behind a label.
struct document_value {
    const char *text; // as printed; "" = nothing
    double number;    // NAN = the value is words
    const char *unit; // of the number; NULL = none, or that of the column
    const char *sure; // in words how sure it is; NULL = says nothing of it
    const int *refs;  // numbers of the list of sources
    size_t ref_count;
};

enum paragraph_style {
    PARAGRAPH_PLAIN,
    PARAGRAPH_ITEM,    // of a list: paragraphs of this style that follow each other are one list
    PARAGRAPH_STRONG,  // the answer of a section
    PARAGRAPH_CAUTION, // must not be overlooked
    PARAGRAPH_SMALL    // how it was found, what it does not say
};

struct document_paragraph {
    enum paragraph_style style;
    const char *text;
};

struct document_fact {
    const char *key; // for programs: a-z, 0-9 and '_', with the unit of its number
    const char *label;
    struct document_value value;
};

struct document;

struct document_facts {
    struct document *document;
    const char *id;
    struct document_fact *items;
    size_t count, capacity;
};

struct document_column {
    const char *key; // as of a fact
    const char *heading;
    const char *unit; // of the numbers in it, NULL = none or different ones
    bool right;       // numbers stand to the right
    bool detail;      // on paper the cells stand below the row, behind the heading
};

enum { DOCUMENT_COLUMNS_MAX = 16 };

struct document_row {
    struct document_value *cells; // one a column
    const char *note;             // goes on below the row over all columns; NULL = none
};

struct document_table {
    struct document *document;
    const char *id;
    const char *caption;
    struct document_column columns[DOCUMENT_COLUMNS_MAX];
    size_t column_count;
    struct document_row *rows;
    size_t row_count, row_capacity;
    size_t filled;  // cells of the last row
    bool row_named; // the first column names the row
};

struct document_figure {
    const char *id;
    const char *caption;
    const char *alternative; // in words what it shows
    struct picture *picture; // NULL in documents that are written as text alone; released with the document
};

// Something to be filled in by hand.
struct document_line {
    const char *label;
};

enum document_kind { DOCUMENT_PARAGRAPH, DOCUMENT_FACTS, DOCUMENT_TABLE, DOCUMENT_FIGURE, DOCUMENT_LINE };

struct document_block {
    enum document_kind kind;
    union {
        struct document_paragraph paragraph;
        struct document_facts facts;
        struct document_table table;
        struct document_figure figure;
        struct document_line line;
    };
    struct document_block *next;
};

struct document_section {
    struct document *document;
    const char *id; // for programs and links
    const char *heading;
    struct document_block *first, *last;
    struct document_section *next;
};

// Set by whoever makes the document, as it is to be printed.
struct document_head {
    const char *title;
    const char *subtitle;     // what kind of document
    const char *object;       // short: number or title, for the foot of every page
    const char *date;         // YYYY-MM-DD, "" = none; also dates a PDF file
    const char *data_version; // of the tables
    const char *program;      // name and version
    const char *language;     // BCP 47: "en"
};

struct document {
    struct arena arena;
    struct document_head head;
    enum paper paper;
    bool one_page; // in large type, for the easel
    bool black_and_white;
    struct document_section *first, *last;
    bool failed;
    struct document_section spare_section; // what is thrown away once memory ran out
    struct document_block spare_block;
};

void document_begin(struct document *document, const struct document_head *head);
void document_release(struct document *document); // NULL-safe

struct document_section *document_section(struct document *document, const char *id, const char *heading);

void document_paragraph(struct document_section *section, enum paragraph_style style, const char *format, ...)
    __attribute__((format(printf, 3, 4)));
void document_line(struct document_section *section, const char *label);

struct document_facts *document_facts(struct document_section *section, const char *id);

// A fact in words. What is NULL or empty is for programs only: people read what is known.
void fact_words(struct document_facts *facts, const char *key, const char *label, const char *text);

// A fact with a number, printed with `digits` significant digits (0 = as it was stated) and its unit; one that is not
// finite is not known.
void fact_number(struct document_facts *facts, const char *key, const char *label, double number, int digits,
                 const char *unit);

bool facts_empty(const struct document_facts *facts); // nothing in it is known

struct document_table *document_table(struct document_section *section, const char *id, const char *caption);
void table_column(struct document_table *table, const char *key, const char *heading, const char *unit, bool right);
// A column for programs that would make the table too wide for paper.
void table_detail(struct document_table *table, const char *key, const char *heading, const char *unit);

// Cells from left to right; the row is full with the last column.
void table_words(struct document_table *table, const char *text);           // NULL = ""
void table_number(struct document_table *table, double number, int digits); // as of a fact
void table_decimals(struct document_table *table, double number, int decimals);
void table_share(struct document_table *table, double share); // 0 to 1: nearly never is not printed as never

// What goes on below the row that was filled last, over all columns. NULL or "" = nothing.
void table_note(struct document_table *table, const char *text);

// The table as it stands on paper: details are part of the notes, units follow the headings after `between` (NULL: they
// stay apart). Lives in `arena`. False when memory is exhausted.
bool table_on_paper(const struct document_table *table, const char *between, struct arena *arena,
                    struct document_table *ret);

// Caption and alternative as they are (document_say). Takes the picture over.
void document_figure(struct document_section *section, const char *id, const char *caption, const char *alternative,
                     struct picture *picture);

// A name that may be written from right to left, for the middle of a sentence: isolated, so that the words round it
// keep their places (Unicode Standard Annex 9). Lives in the document; never NULL.
const char *document_name(struct document *document, const char *name);

// Does the text hold letters that run from right to left?
bool document_right_to_left(const char *text);
bool document_begins_right_to_left(const char *text); // its first letter does

// Printable copy of at most `columns` columns, with an ellipsis where it was cut. Never NULL.
const char *document_short(struct document *document, const char *text, size_t columns);

// Text in the document's arena, as it is and in the chosen language; "" when memory ran out, which `failed` remembers.
const char *document_print(struct document *document, const char *format, ...) __attribute__((format(printf, 2, 3)));
const char *document_say(struct document *document, const char *format, ...) __attribute__((format(printf, 2, 3)));
// The same of a text that was put together, which is released; that it failed is remembered, too.
const char *document_take(struct document *document, struct text *words);

size_t document_section_count(const struct document *document);
size_t document_count(const struct document *document, enum document_kind kind);

#endif
