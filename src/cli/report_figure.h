// SPDX-License-Identifier: GPL-3.0-or-later
// What the report's figures share.
#ifndef MILDSOLVE_CLI_REPORT_FIGURE_H
#define MILDSOLVE_CLI_REPORT_FIGURE_H

#include "cli/report.h"
#include "cli/page_options.h"
#include "present/chart/graph_layout.h"
#include "present/chart/teas_chart.h"

// Paper and colour of the document; no title, because the caption of the figure says it.
void report_set_page(const struct report *report, struct chart_page *page, enum sheet_size sheet);

// The picture of a layout that was `made`, which is released.
enum status report_graph(enum status made, struct graph_layout *layout, struct picture *ret, struct error *err);

enum status report_teas_picture(const struct report *report, const struct teas_chart_input *input, struct picture *ret,
                                struct error *err);

// Takes the picture over. A figure that cannot be drawn leaves its reason.
void report_add_figure(struct report *report, struct document_section *section, const char *id, enum status status,
                       const char *caption, const char *alternative, struct picture *picture, const struct error *err);

#endif
