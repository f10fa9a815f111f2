// SPDX-License-Identifier: GPL-3.0-or-later
// The writers of a document, and the file.
#ifndef MILDSOLVE_PRESENT_DOCUMENT_DOCUMENT_WRITE_H
#define MILDSOLVE_PRESENT_DOCUMENT_DOCUMENT_WRITE_H

#include "base/text.h"
#include "present/chart/canvas.h"
#include "present/document/document.h"

enum document_format { DOCUMENT_TEXT, DOCUMENT_JSON, DOCUMENT_HTML, DOCUMENT_PDF };
extern const char *const document_format_words[]; // txt json html pdf NULL

// By the suffix of the path (.txt .json .html .htm .pdf, upper case too). STATUS_USAGE names them.
enum status document_format_of(const char *path, enum document_format *ret, struct error *err);

// Do documents of this kind hold pictures? Then the builder needs a canvas to measure with.
bool document_format_draws(enum document_format format);

// For a terminal or a plain file: 80 columns; a table that is too wide becomes one paragraph of labels for each row.
void document_text(const struct document *document, struct text *out);

// One object; every number as a number, null where the document has words only.
void document_json(const struct document *document, struct text *out);

// One self-contained file: no script, nothing from outside; pictures as inline SVG, ids prefixed by the figure's id.
void document_html(const struct document *document, struct text *out);

// Pages of the document's paper as pictures, for document_file_write and tests.
struct document_pages {
    struct arena arena;
    struct picture *items;
    size_t count, capacity;
    struct picture_mark *marks; // where sections begin
    size_t mark_count;
    double scale; // of the type, below 1 when one page needed it
};

// STATUS_RANGE when a document of one page does not fit on it in the smallest type, STATUS_MEMORY.
enum status document_paginate(const struct document *document, const struct text_metric *metric,
                              struct document_pages *ret, struct error *err);
void document_pages_release(struct document_pages *pages); // NULL-safe

// Writes the file whole or not at all. `canvas` may be NULL for formats that do not draw. *ret_pages (may be NULL): of
// a PDF, else 0. Errors: STATUS_SYSTEM, STATUS_MEMORY, and of document_paginate.
enum status document_file_write(const struct document *document, enum document_format format,
                                const struct canvas *canvas, const char *path, size_t *ret_pages, struct error *err);

#endif
