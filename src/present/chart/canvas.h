// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures to files. Opens the drawing module on demand.
#ifndef MILDSOLVE_PRESENT_CHART_CANVAS_H
#define MILDSOLVE_PRESENT_CHART_CANVAS_H

#include "base/signal_hold.h"
#include "present/chart/draw/module.h"
#include "present/chart/wrap.h"

struct canvas {
    const struct draw_module *module; // stays loaded until the process ends
    struct draw_session *session;
    struct signal_hold signals; // wait until it is closed, so that no unfinished file is left behind
};

// Looks for the module in `directory`, or when that is NULL beside the program, then in its build directory, then where
// it is installed. STATUS_SYSTEM when there is none that fits.
enum status canvas_open(struct canvas *canvas, const char *directory, struct error *err);
void canvas_close(struct canvas *canvas); // NULL-safe

// Text widths as the module will draw them; valid until canvas_close.
struct text_metric canvas_metric(const struct canvas *canvas);

// STATUS_USAGE when the suffix of `path` is none of .png .svg .pdf (upper case too); the sentence names them.
enum status canvas_check_suffix(const char *path, struct error *err);

// Writes by suffix, beside the target and renamed (see base/file.h): STATUS_USAGE, STATUS_SYSTEM, STATUS_MEMORY.
// PDF and SVG bytes depend on the picture alone; a PDF is dated by the picture, else by SOURCE_DATE_EPOCH, else not.
enum status canvas_write(const struct canvas *canvas, const struct picture *picture, const char *path,
                         struct error *err);

// One PDF of several pages, in the same way. STATUS_SYSTEM, STATUS_MEMORY.
enum status canvas_write_pages(const struct canvas *canvas, const struct draw_pages *pages, const char *path,
                               struct error *err);

#endif
