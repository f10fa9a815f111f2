// SPDX-License-Identifier: GPL-3.0-or-later
// From a chart's input to its file, the same way for every kind of chart.
#ifndef MILDSOLVE_PRESENT_CHART_CHART_FILE_H
#define MILDSOLVE_PRESENT_CHART_CHART_FILE_H

#include "present/chart/picture.h"
#include "present/chart/wrap.h"

// Lays out and draws the chart that `data` describes; *ret is released by the caller.
typedef enum status chart_painter(void *data, const struct text_metric *metric, struct picture *ret, struct error *err);

// Writes the picture to `path` as PNG, SVG or PDF by its suffix; an existing file is replaced whole or not at all.
// Errors: of the painter, canvas_open and canvas_write. The suffix is looked at before anything is computed.
enum status chart_file_write(const char *path, chart_painter *paint, void *data, struct error *err);

#endif
