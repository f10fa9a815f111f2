// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/page.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/memory.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { WORDS_BYTES = 8192, LAST_COLUMN_LEAST = 12, FIRST_COLUMN_LEAST = 16 };

static void add_visible(struct text *out, const char *words, size_t length) {
    for (size_t i = 0; i < length;) {
        size_t control = utf8_control(words + i, length - i);
        size_t whole = control ? control : utf8_sequence((const unsigned char *)words + i, length - i, NULL);
        text_add_n(out, control ? "?" : words + i, control ? 1 : whole);
        i += whole;
    }
}

// Bytes of the next line of at most `width` columns: up to the last space that fits, or in a word longer than
// that up to its last hyphen, or cut.
static size_t line_bytes(const char *words, size_t width) {
    size_t fits = text_prefix(words, width);
    size_t newline = strcspn(words, "\n");
    if (newline <= fits)
        return newline;
    if (words[fits] == '\0' || words[fits] == ' ')
        return fits;
    size_t at = fits;
    while (at > 0 && words[at] != ' ')
        at--;
    if (at > 0)
        return at;
    for (at = fits; at > 0 && words[at - 1] != '-'; at--)
        ;
    return at > 0 ? at : fits;
}

static const char *skip_spaces(const char *words) {
    return words + strspn(words, " ");
}

// Wraps between the columns `first` (`rest` from the second line on) and `right_edge`. `begun`: the first line already
// stands at column `first`, so it gets no spaces.
static void wrap(struct text *out, bool begun, size_t first, size_t rest, size_t right_edge, const char *words) {
    size_t indent = first;
    words = skip_spaces(words);
    do {
        size_t bytes = line_bytes(words, right_edge > indent + 8 ? right_edge - indent : 8);
        size_t shown = bytes;
        while (shown > 0 && words[shown - 1] == ' ')
            shown--;
        if (shown && !begun)
            text_add_repeated(out, " ", indent);
        begun = false;
        add_visible(out, words, shown);
        text_add(out, "\n");
        words += bytes;
        words = skip_spaces(*words == '\n' ? words + 1 : words);
        indent = rest;
    } while (*words);
}

void page_paragraph(struct text *out, size_t first, size_t rest, const char *words) {
    wrap(out, false, first, rest, PAGE_COLUMNS, say(words));
}

void page_paragraph_f(struct text *out, size_t first, size_t rest, const char *format, ...) {
    char words[WORDS_BYTES];
    va_list arguments;
    va_start(arguments, format);
    vprint_words(words, sizeof words, format, arguments);
    va_end(arguments);
    wrap(out, false, first, rest, PAGE_COLUMNS, words);
}

void page_heading(struct text *out, const char *words) {
    if (out->length)
        text_add(out, "\n");
    page_paragraph(out, 0, 0, words);
}

void sheet_column(struct sheet *sheet, const char *heading, bool right) {
    assert(sheet->columns < SHEET_COLUMNS_MAX && sheet->rows == 0);
    sheet->headings[sheet->columns] = say(heading);
    sheet->right[sheet->columns] = right;
    sheet->columns++;
}

static char *cell_at(const struct sheet *sheet, size_t row, size_t column) {
    return sheet->cells + (row * sheet->columns + column) * CELL_BYTES;
}

static bool make_row(struct sheet *sheet) {
    if (sheet->rows < sheet->row_capacity)
        return true;
    size_t capacity = sheet->row_capacity ? sheet->row_capacity * 2 : 16;
    char *cells = memory_resize(sheet->cells, capacity * sheet->columns, CELL_BYTES);
    if (!cells)
        return false;
    sheet->cells = cells;
    sheet->row_capacity = capacity;
    return true;
}

void sheet_cell(struct sheet *sheet, const char *format, ...) {
    if (sheet->failed || !make_row(sheet)) {
        sheet->failed = true;
        return;
    }
    va_list arguments;
    va_start(arguments, format);
    vprint_words(cell_at(sheet, sheet->rows, sheet->filled), CELL_BYTES, format, arguments);
    va_end(arguments);
    if (++sheet->filled == sheet->columns) {
        sheet->filled = 0;
        sheet->rows++;
    }
}

static void column_widths(const struct sheet *sheet, size_t widths[SHEET_COLUMNS_MAX]) {
    assert(sheet->columns > 0);
    size_t taken = sheet->indent;
    for (size_t column = 0; column < sheet->columns; column++) {
        widths[column] = text_columns(sheet->headings[column]);
        for (size_t row = 0; row < sheet->rows; row++) {
            size_t width = text_columns(cell_at(sheet, row, column));
            if (width > widths[column])
                widths[column] = width;
        }
        if (column + 1 < sheet->columns)
            taken += widths[column] + 2;
    }
    size_t last = sheet->columns - 1;
    size_t left = taken + LAST_COLUMN_LEAST < PAGE_COLUMNS ? PAGE_COLUMNS - taken : LAST_COLUMN_LEAST;
    if (widths[last] > left)
        widths[last] = left;
    // Still too wide: names in the first column go on below.
    size_t over = taken + widths[last] > PAGE_COLUMNS ? taken + widths[last] - PAGE_COLUMNS : 0;
    if (last > 0 && !sheet->right[0] && widths[0] > FIRST_COLUMN_LEAST)
        widths[0] -= over < widths[0] - FIRST_COLUMN_LEAST ? over : widths[0] - FIRST_COLUMN_LEAST;
}

static void write_cell(struct text *out, const char *cell, size_t width, bool right, bool last) {
    size_t columns = text_columns(cell);
    size_t gap = width > columns ? width - columns : 0;
    if (right)
        text_add_repeated(out, " ", gap);
    add_visible(out, cell, strlen(cell));
    if (!right && !last)
        text_add_repeated(out, " ", gap);
}

// Without the spaces that an empty last cell leaves.
static void end_line(struct text *out) {
    while (out->length && out->bytes[out->length - 1] == ' ')
        out->bytes[--out->length] = '\0';
    text_add(out, "\n");
}

static void write_rest_of_name(struct text *out, const char *rest, size_t indent, size_t width) {
    if (*rest)
        wrap(out, false, indent + 2, indent + 2, indent + width, rest);
}

static void write_row(const struct sheet *sheet, struct text *out, const size_t *widths, size_t row, bool heading) {
    size_t before = sheet->indent;
    const char *rest = "";
    text_add_repeated(out, " ", sheet->indent);
    for (size_t column = 0; column < sheet->columns; column++) {
        const char *cell = heading ? sheet->headings[column] : cell_at(sheet, row, column);
        bool last = column + 1 == sheet->columns;
        if (last && text_columns(cell) > widths[column]) {
            wrap(out, true, before, before, before + widths[column], cell);
            break;
        }
        if (column == 0 && text_columns(cell) > widths[0]) {
            size_t bytes = line_bytes(cell, widths[0]);
            rest = skip_spaces(cell + bytes);
            add_visible(out, cell, bytes);
            text_add_repeated(out, " ", widths[0] - (text_columns(cell) - text_columns(cell + bytes)));
        } else {
            write_cell(out, cell, widths[column], sheet->right[column], last);
        }
        if (last)
            end_line(out);
        else
            text_add(out, "  ");
        before += widths[column] + 2;
    }
    write_rest_of_name(out, rest, sheet->indent, widths[0]);
}

void sheet_write(struct sheet *sheet, struct text *out) {
    if (sheet->failed) {
        out->failed = true;
    } else if (sheet->columns) {
        assert(sheet->filled == 0); // a cell forgotten in a row would move all that follow
        size_t widths[SHEET_COLUMNS_MAX] = {0};
        column_widths(sheet, widths);
        write_row(sheet, out, widths, 0, true);
        for (size_t row = 0; row < sheet->rows; row++)
            write_row(sheet, out, widths, row, false);
    }
    sheet_release(sheet);
}

void sheet_release(struct sheet *sheet) {
    memory_free(sheet->cells);
    *sheet = (struct sheet){0};
}

const char *figure(double value, int digits, char buffer[FIGURE_BYTES]) {
    if (!isfinite(value) || fabs(value) > 1e15) {
        snprintf(buffer, FIGURE_BYTES, "%s", isfinite(value) ? say("very large") : "-");
        return buffer;
    }
    double magnitude = fabs(value);
    int exponent = magnitude > 1e-9 ? (int)floor(log10(magnitude)) : 0;
    int decimals = digits - 1 - exponent;
    double step = pow(10, decimals);
    double rounded = decimals < 0 ? round(value * step) / step : value;
    print_words(buffer, FIGURE_BYTES, "%.*f", decimals < 0 ? 0 : decimals > 8 ? 8 : decimals, rounded);
    return buffer;
}

double index_shown(double index) {
    return index > 1 ? fmax(index, 1.01) : index;
}

double air_shown(double changes_per_h) {
    return ceil(10 * changes_per_h - 1e-9) / 10;
}
