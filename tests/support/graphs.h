// SPDX-License-Identifier: GPL-3.0-or-later
// What must be true of every graph, however full: nothing on anything, nothing off the page, nothing too small.
#ifndef MILDSOLVE_TESTS_SUPPORT_GRAPHS_H
#define MILDSOLVE_TESTS_SUPPORT_GRAPHS_H

#include "present/chart/graph_layout.h"

// The first fault in words, or NULL. The words stay until the next call.
const char *panel_fault(const struct panel_layout *panel, const struct page_layout *page);
const char *graph_fault(const struct graph_layout *layout);

// All caption lines in one.
bool caption_has(const struct page_layout *page, const char *words);

// A page to fill: one panel at first, named axes, invented figures. input and panels point into the case.
enum { GRAPH_CASE_SPOTS = 60 };

struct graph_case {
    struct graph_input input;
    struct graph_panel panels[GRAPH_PANELS_MAX];
    struct graph_line lines[LINE_STYLES];
    double xs[LINE_STYLES][GRAPH_CASE_SPOTS], ys[LINE_STYLES][GRAPH_CASE_SPOTS];
    char names[LINE_STYLES][64];
    struct graph_point points[GRAPH_POINTS_MAX];
};

void graph_case_empty(struct graph_case *graph, enum paper paper, enum sheet_size sheet);
// Waves of different heights in the first panel, so that lines cross and their ends crowd.
void graph_case_lines(struct graph_case *graph, size_t count, bool long_names);
// Points with bars, strewn from 0 to 100 both ways, in the first panel.
void graph_case_points(struct graph_case *graph, size_t count);

#endif
