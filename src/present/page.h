// SPDX-License-Identifier: GPL-3.0-or-later
// Text for people: aligned tables and wrapped paragraphs that fit a terminal of 80 columns.
#ifndef MILDSOLVE_PRESENT_PAGE_H
#define MILDSOLVE_PRESENT_PAGE_H

#include "base/text.h"

enum { PAGE_COLUMNS = 80, SHEET_COLUMNS_MAX = 12, CELL_BYTES = 240 };

// Words, formats and headings are given in English and written in the chosen language (base/language.h). The text of a
// user goes through page_paragraph_f with "%s", which is translated for nobody.

// Wraps at spaces and line feeds; first line indented by `first` spaces, the others by `rest`. Ends with a newline.
// Control characters (terminal escapes in user text) are shown as '?'.
void page_paragraph(struct text *out, size_t first, size_t rest, const char *words);
void page_paragraph_f(struct text *out, size_t first, size_t rest, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

// A heading, with an empty line before it when text stands above.
void page_heading(struct text *out, const char *words);

// A table filled cell by cell, row by row, and written with columns as wide as needed; the last column takes what is
// left of the page and wraps.
struct sheet {
    size_t columns;
    const char *headings[SHEET_COLUMNS_MAX];
    bool right[SHEET_COLUMNS_MAX]; // numbers stand to the right
    size_t indent;
    size_t rows;
    size_t filled; // cells of the row being filled
    char *cells;   // rows x columns x CELL_BYTES
    size_t row_capacity;
    bool failed;
};

void sheet_column(struct sheet *sheet, const char *heading, bool right);
void sheet_cell(struct sheet *sheet, const char *format, ...) __attribute__((format(printf, 2, 3)));
void sheet_write(struct sheet *sheet, struct text *out); // and releases the cells
void sheet_release(struct sheet *sheet);

// A number with `digits` significant digits, never in exponent form: "1.23", "0.0451", "1210"; "-" when not finite.
enum { FIGURE_BYTES = 40 };
const char *figure(double value, int digits, char buffer[FIGURE_BYTES]);

// An index or a share of a limit, to be printed with two decimals: what is above 1 never prints as 1.00.
double index_shown(double index);

// Air changes that are needed, to be printed with one decimal: rounded up.
double air_shown(double changes_per_h);

#endif
