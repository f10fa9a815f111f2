// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file.h"
#include "present/document/document_write.h"

#include <string.h>
#include <strings.h>

const char *const document_format_words[] = {"txt", "json", "html", "pdf", NULL};

enum status document_format_of(const char *path, enum document_format *ret, struct error *err) {
    static const char *const suffixes[] = {".txt", ".json", ".html", ".pdf"};
    const char *slash = strrchr(path, '/');
    const char *dot = strrchr(slash ? slash + 1 : path, '.');
    for (int i = 0; dot && i < 4; i++)
        if (strcasecmp(dot, suffixes[i]) == 0 || (i == DOCUMENT_HTML && strcasecmp(dot, ".htm") == 0)) {
            *ret = (enum document_format)i;
            return STATUS_OK;
        }
    return error_set(err, STATUS_USAGE,
                     "cannot tell the kind of document from '%s'; the name must end in .pdf, .html, .txt or .json",
                     path);
}

bool document_format_draws(enum document_format format) {
    return format == DOCUMENT_HTML || format == DOCUMENT_PDF;
}

static enum status write_text(const struct document *document, enum document_format format, const char *path,
                              struct error *err) {
    struct text out = {0};
    if (format == DOCUMENT_TEXT)
        document_text(document, &out);
    else if (format == DOCUMENT_JSON)
        document_json(document, &out);
    else
        document_html(document, &out);
    enum status status = out.failed ? error_set(err, STATUS_MEMORY, "out of memory")
                                    : file_replace(path, text_bytes(&out), out.length, err);
    text_release(&out);
    return status;
}

static enum status write_pages(const struct document *document, const struct canvas *canvas, const char *path,
                               size_t *ret_pages, struct error *err) {
    struct text_metric metric = canvas_metric(canvas);
    struct document_pages pages;
    enum status status = document_paginate(document, &metric, &pages, err);
    if (status != STATUS_OK)
        return status;
    const struct draw_pages drawn = {
        .items = pages.items, .count = pages.count, .marks = pages.marks, .mark_count = pages.mark_count};
    status = canvas_write_pages(canvas, &drawn, path, err);
    if (status == STATUS_OK && ret_pages)
        *ret_pages = pages.count;
    document_pages_release(&pages);
    return status;
}

enum status document_file_write(const struct document *document, enum document_format format,
                                const struct canvas *canvas, const char *path, size_t *ret_pages, struct error *err) {
    if (ret_pages)
        *ret_pages = 0;
    return format == DOCUMENT_PDF ? write_pages(document, canvas, path, ret_pages, err)
                                  : write_text(document, format, path, err);
}
