// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/draw/module.h"

#include "present/chart/draw/painter.h"
static enum status open_session(const struct draw_host *host, struct draw_session **ret, struct error *err) {
    struct draw_session *session = host->memory_new(1, sizeof *session);
    if (!session)
        return error_set(err, STATUS_MEMORY, "out of memory");
    session->host = host;
    painter_init(&session->painter);
    *ret = session;
    return STATUS_OK;
}

static void close_session(struct draw_session *session) {
    if (!session)
        return;
    painter_release(&session->painter);
    session->host->memory_free(session);
}

static double text_width(void *session, const char *utf8, double size, bool bold) {
    return painter_text_width(&((struct draw_session *)session)->painter, utf8, size, bold);
}

// The only name the module shows.
__attribute__((visibility("default"))) const struct draw_module *mildsolve_draw_module(void);

const struct draw_module *mildsolve_draw_module(void) {
    static const struct draw_module module = {
        .version = DRAW_MODULE_VERSION,
        .open = open_session,
        .close = close_session,
        .text_width = text_width,
        .png = draw_png,
        .svg = draw_svg,
        .pdf = draw_pdf,
        .pdf_pages = draw_pdf_pages,
    };
    return &module;
}
