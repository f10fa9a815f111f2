// SPDX-License-Identifier: GPL-3.0-or-later
// One page of graphs for a test program: the case, its layout, and what every test does with them.
#ifndef MILDSOLVE_TESTS_SUPPORT_GRAPH_FIXTURE_H
#define MILDSOLVE_TESTS_SUPPORT_GRAPH_FIXTURE_H

#include "graphs.h"

#include <check.h>

static struct graph_case graph;
static struct graph_layout layout;
static struct text_metric metric;
static struct error err;

static inline void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    graph_case_empty(&graph, PAPER_A4, SHEET_HALF);
}

static inline void end(void) {
    graph_layout_release(&layout);
}

static inline enum status lay_out(void) {
    return graph_layout_make(&graph.input, &metric, &layout, &err);
}

static inline void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
}

static inline void assert_sound(void) {
    const char *fault = graph_fault(&layout);
    ck_assert_msg(fault == NULL, "%s", fault);
}

static const struct {
    enum paper paper;
    enum sheet_size sheet;
} sheets[] = {{PAPER_A4, SHEET_FULL}, {PAPER_A4, SHEET_HALF}, {PAPER_LETTER, SHEET_FULL}, {PAPER_LETTER, SHEET_HALF}};
enum { SHEETS = sizeof sheets / sizeof sheets[0] };

static inline void set_sheet(int number) {
    graph.input.page.paper = sheets[number].paper;
    graph.input.page.sheet = sheets[number].sheet;
}

#endif
