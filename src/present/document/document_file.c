// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/file.h"
#include "present/document/document_write.h"

#include <assert.h>
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

enum status document_file_write(const struct document *document, enum document_format format,
                                const struct canvas *canvas, const char *path, size_t *ret_pages, struct error *err) {
    if (ret_pages)
        *ret_pages = 0;
    if (format != DOCUMENT_PDF)
        return write_text(document, format, path, err);
    (void)canvas;
    return error_set(err, STATUS_USAGE, "PDF is not written yet; name a file that ends in .html, .txt or .json");
}
