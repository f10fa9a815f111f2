// SPDX-License-Identifier: GPL-3.0-or-later
// The Teas chart as a file.
#ifndef MILDSOLVE_PRESENT_CHART_TEAS_CHART_H
#define MILDSOLVE_PRESENT_CHART_TEAS_CHART_H

#include "present/chart/picture.h"
#include "present/chart/teas_layout.h"

// Writes the chart to `path` as PNG, SVG or PDF by its suffix; an existing file is replaced whole or not at all.
// Errors: of teas_layout_make, canvas_open and canvas_write. *ret_unlabelled (may be NULL): labels that stand in the
// legend only, for a remark to the user.
enum status teas_chart_write(const struct teas_chart_input *input, const char *path, size_t *ret_unlabelled,
                             struct error *err);

// Everything but header and caption.
void teas_draw(struct picture *picture, const struct teas_layout *layout);

// The picture of a layout. STATUS_MEMORY.
enum status teas_picture(const struct teas_layout *layout, struct picture *ret, struct error *err);

#endif
