// SPDX-License-Identifier: GPL-3.0-or-later
// What the drawing module offers to the program, which opens it on demand: commands without pictures then load
// neither Cairo nor Pango. Nothing here depends on either.
#ifndef MILDSOLVE_PRESENT_CHART_DRAW_MODULE_H
#define MILDSOLVE_PRESENT_CHART_DRAW_MODULE_H

#include "base/error.h"
#include "present/chart/picture.h"

// To be raised with every change of the structs below, of struct picture or of struct error.
enum { DRAW_MODULE_VERSION = 2 };

#define DRAW_MODULE_ENTRY "mildsolve_draw_module"

// The program's own allocator, so that its tests can make an allocation of the module fail.
struct draw_host {
    void *(*memory_new)(size_t count, size_t size);
    void (*memory_free)(void *block);
};

// Where the bytes of a file go. A failure is passed on to the caller.
struct draw_sink {
    enum status (*write)(void *data, const void *bytes, size_t size, struct error *err);
    void *data;
};

struct draw_session; // fonts, once found, for measuring and for drawing

typedef enum status draw_function(struct draw_session *session, const struct picture *picture,
                                  const struct draw_sink *sink, struct error *err);

// Several pages in one file; title, description and date are those of the first.
struct draw_pages {
    const struct picture *items;
    size_t count; // at least 1
    const struct picture_mark *marks;
    size_t mark_count;
};
typedef enum status draw_pages_function(struct draw_session *session, const struct draw_pages *pages,
                                        const struct draw_sink *sink, struct error *err);

struct draw_module {
    unsigned version; // first in every version
    enum status (*open)(const struct draw_host *host, struct draw_session **ret, struct error *err);
    void (*close)(struct draw_session *session);                                   // NULL-safe
    double (*text_width)(void *session, const char *utf8, double size, bool bold); // pt
    draw_function *png;
    draw_function *svg;
    draw_function *pdf;
    draw_pages_function *pdf_pages;
};

typedef const struct draw_module *draw_module_entry(void);

#endif
