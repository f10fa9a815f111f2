// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/draw/painter.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

// Cairo's bytes on their way to the sink.
struct stream {
    const struct draw_sink *sink;
    struct error *err;
    enum status status;
    const struct picture *picture;
    // SVG only:
    size_t tag_matched; // bytes of "<svg" seen so far
    bool head_done;     // title and description are in
    size_t id_matched;  // bytes of the name of the page's group seen so far
};

// Cairo is not told of a sink that fails: its PDF surfaces crash when the first bytes cannot be written and an outline
// is added. Nothing more is written, and the end says why.
static void pass(struct stream *stream, const void *bytes, size_t size) {
    if (stream->status == STATUS_OK && size > 0)
        stream->status = stream->sink->write(stream->sink->data, bytes, size, stream->err);
}

// Ends the file and closes the surface.
static enum status finish(cairo_surface_t *surface, cairo_t *cr, struct stream *stream) {
    cairo_status_t drawn = cairo_status(cr);
    cairo_destroy(cr);
    cairo_surface_finish(surface);
    if (drawn == CAIRO_STATUS_SUCCESS)
        drawn = cairo_surface_status(surface);
    cairo_surface_destroy(surface);
    if (stream->status == STATUS_OK && drawn != CAIRO_STATUS_SUCCESS)
        stream->status =
            error_set(stream->err, STATUS_SYSTEM, "cannot draw the picture: %s", cairo_status_to_string(drawn));
    return stream->status;
}

static enum status draw_on(cairo_surface_t *surface, struct draw_session *session, struct stream *stream) {
    cairo_t *cr = cairo_create(surface);
    painter_draw(&session->painter, cr, stream->picture, -INFINITY, INFINITY);
    cairo_show_page(cr);
    return finish(surface, cr, stream);
}

// --- SVG ---

static void pass_escaped(struct stream *stream, const char *text) {
    for (; *text; text++) {
        const char *entity = *text == '&' ? "&amp;" : *text == '<' ? "&lt;" : *text == '>' ? "&gt;" : NULL;
        pass(stream, entity ? entity : text, entity ? strlen(entity) : 1);
    }
}

static void pass_element(struct stream *stream, const char *name, const char *text) {
    char tag[32];
    pass(stream, tag, (size_t)snprintf(tag, sizeof tag, "<%s>", name));
    pass_escaped(stream, text);
    pass(stream, tag, (size_t)snprintf(tag, sizeof tag, "</%s>\n", name));
}

// One byte more of a word searched for in a stream; the words do not overlap themselves.
static size_t match(const char *word, size_t matched, unsigned char byte) {
    if (byte == (unsigned char)word[matched])
        return matched + 1;
    return byte == (unsigned char)word[0] ? 1 : 0;
}

static void pass_head(struct stream *stream) {
    stream->head_done = true;
    pass(stream, "\n", 1);
    pass_element(stream, "title", stream->picture->title);
    pass_element(stream, "desc", stream->picture->description);
}

// Cairo names neither what the picture is nor for whom it was made, but a screen reader asks for both; and it counts
// the pages of the whole process in the name of the page's group, which would make equal pictures differ. So title and
// description go in behind the opening tag, and the count is left out. The file comes in pieces of any size.
static cairo_status_t write_svg(void *data, const unsigned char *bytes, unsigned size) {
    static const char tag[] = "<svg";
    static const char id[] = "id=\"surface";
    struct stream *stream = data;
    size_t from = 0;
    for (size_t i = 0; i < size; i++) {
        if (stream->id_matched == sizeof id - 1) {
            if (bytes[i] >= '0' && bytes[i] <= '9') {
                pass(stream, bytes + from, i - from);
                from = i + 1;
                continue;
            }
            stream->id_matched = 0;
        }
        stream->id_matched = match(id, stream->id_matched, bytes[i]);
        if (stream->tag_matched < sizeof tag - 1) {
            stream->tag_matched = match(tag, stream->tag_matched, bytes[i]);
        } else if (!stream->head_done && bytes[i] == '>') {
            pass(stream, bytes + from, i + 1 - from);
            from = i + 1;
            pass_head(stream);
        }
    }
    pass(stream, bytes + from, size - from);
    return CAIRO_STATUS_SUCCESS;
}

enum status draw_svg(struct draw_session *session, const struct picture *picture, const struct draw_sink *sink,
                     struct error *err) {
    struct stream stream = {.sink = sink, .err = err, .picture = picture};
    cairo_surface_t *surface = cairo_svg_surface_create_for_stream(write_svg, &stream, picture->width, picture->height);
    cairo_svg_surface_restrict_to_version(surface, CAIRO_SVG_VERSION_1_1);
    return draw_on(surface, session, &stream);
}

// --- PDF ---

static cairo_status_t write_pdf(void *data, const unsigned char *bytes, unsigned size) {
    struct stream *stream = data;
    pass(stream, bytes, size);
    return CAIRO_STATUS_SUCCESS;
}

static bool is_iso_date(const char *date) {
    static const char pattern[] = "0000-00-00";
    for (size_t i = 0; pattern[i]; i++) {
        bool digit = date[i] >= '0' && date[i] <= '9';
        if (pattern[i] == '0' ? !digit : date[i] != pattern[i])
            return false;
    }
    return date[sizeof pattern - 1] == '\0';
}

// "" when neither the user nor SOURCE_DATE_EPOCH (reproducible-builds.org) says: the clock would make every file
// differ.
static void creation_date(const struct picture *picture, char *ret, size_t size) {
    ret[0] = '\0';
    if (is_iso_date(picture->date)) {
        snprintf(ret, size, "%sT00:00:00Z", picture->date);
        return;
    }
    const char *epoch = getenv("SOURCE_DATE_EPOCH");
    char *end = NULL;
    long long seconds = epoch ? strtoll(epoch, &end, 10) : 0;
    if (!epoch || end == epoch || *end || seconds < 0)
        return;
    time_t moment = (time_t)seconds;
    struct tm utc;
    if (gmtime_r(&moment, &utc))
        strftime(ret, size, "%Y-%m-%dT%H:%M:%SZ", &utc);
}

static void set_metadata(cairo_surface_t *surface, const struct picture *picture) {
    char date[32];
    creation_date(picture, date, sizeof date);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, picture->title);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, picture->description);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, "mildsolve");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
}

enum status draw_pdf_pages(struct draw_session *session, const struct draw_pages *pages, const struct draw_sink *sink,
                           struct error *err) {
    const struct picture *first = &pages->items[0];
    struct stream stream = {.sink = sink, .err = err, .picture = first};
    cairo_surface_t *surface = cairo_pdf_surface_create_for_stream(write_pdf, &stream, first->width, first->height);
    set_metadata(surface, first);
    for (size_t i = 0; i < pages->mark_count; i++) {
        char where[64]; // Cairo counts pages from 1 and measures from the upper edge
        snprintf(where, sizeof where, "page=%zu pos=[0 %.0f]", pages->marks[i].page + 1, pages->marks[i].y);
        cairo_pdf_surface_add_outline(surface, CAIRO_PDF_OUTLINE_ROOT, pages->marks[i].heading, where, 0);
    }
    cairo_t *cr = cairo_create(surface);
    for (size_t i = 0; i < pages->count; i++) {
        cairo_pdf_surface_set_size(surface, pages->items[i].width, pages->items[i].height);
        painter_draw(&session->painter, cr, &pages->items[i], -INFINITY, INFINITY);
        cairo_show_page(cr);
    }
    return finish(surface, cr, &stream);
}

enum status draw_pdf(struct draw_session *session, const struct picture *picture, const struct draw_sink *sink,
                     struct error *err) {
    const struct draw_pages one = {.items = picture, .count = 1};
    return draw_pdf_pages(session, &one, sink, err);
}
