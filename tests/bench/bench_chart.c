// SPDX-License-Identifier: GPL-3.0-or-later
// How long a whole process takes that draws a chart at 300 dpi: start, module, layout, drawing, file on disk.
#include "charts.h"
#include "graphs.h"
#include "present/chart/chart_file.h"
#include "present/chart/teas_chart.h"
#include "stopwatch.h"

#include <spawn.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { RUNS = 9 };

extern char **environ;

static enum status paint_graph(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct graph_layout layout;
    enum status status = graph_layout_make(data, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = graph_picture(&layout, ret, err);
    graph_layout_release(&layout);
    return status;
}

// Two panels of eight lines and twenty-five points with error bars.
static int draw_graph(const char *path) {
    static struct graph_case graph;
    struct error err = {0};
    graph_case_empty(&graph, PAPER_A4, SHEET_FULL);
    graph_case_lines(&graph, 8, false);
    graph_case_points(&graph, 25);
    graph.panels[1] = graph.panels[0];
    graph.input.panel_count = 2;
    if (chart_file_write(path, paint_graph, &graph.input, &err) == STATUS_OK)
        return 0;
    fprintf(stderr, "%s\n", err.text);
    return 1;
}

static int draw(const char *kind, const char *path) {
    static struct chart_case chart;
    struct error err = {0};
    if (strcmp(kind, "graphs") == 0)
        return draw_graph(path);
    chart_shelf(&chart, PAPER_A4, strcmp(kind, "full") == 0 ? SHEET_FULL : SHEET_HALF);
    if (teas_chart_write(&chart.input, path, NULL, &err) == STATUS_OK)
        return 0;
    fprintf(stderr, "%s\n", err.text);
    return 1;
}

static int by_number(const void *a, const void *b) {
    double x = *(const double *)a;
    double y = *(const double *)b;
    return (x > y) - (x < y);
}

// Median time of a child process that draws, in ms; negative when it failed.
static double time_of(char *program, char *kind, char *path) {
    double times[RUNS];
    for (int i = 0; i < RUNS; i++) {
        char *const arguments[] = {program, kind, path, NULL};
        double start = seconds(CLOCK_MONOTONIC);
        pid_t child;
        int status = 1;
        if (posix_spawn(&child, program, NULL, NULL, arguments, environ) != 0 || waitpid(child, &status, 0) < 0 ||
            status != 0)
            return -1;
        times[i] = 1e3 * (seconds(CLOCK_MONOTONIC) - start);
    }
    unlink(path);
    qsort(times, RUNS, sizeof times[0], by_number);
    return times[RUNS / 2];
}

int main(int argc, char **argv) {
    static const struct {
        const char *kind, *suffix;
        double goal_ms;
    } goals[] = {
        {"half", "png", 200}, {"full", "png", 300}, {"full", "svg", 300}, {"full", "pdf", 300}, {"graphs", "png", 300}};
    if (argc == 3)
        return draw(argv[1], argv[2]);
    bool missed = false;
    for (size_t i = 0; i < sizeof goals / sizeof goals[0]; i++) {
        char kind[8];
        char path[64];
        snprintf(kind, sizeof kind, "%s", goals[i].kind);
        snprintf(path, sizeof path, "/tmp/mildsolve-bench-%ld.%s", (long)getpid(), goals[i].suffix);
        double ms = time_of(argv[0], kind, path);
        printf("%s A4 as %s: %.0f ms (goal %.0f ms)\n", kind, goals[i].suffix, ms, goals[i].goal_ms);
        missed = missed || ms < 0 || ms > goals[i].goal_ms;
    }
    return missed;
}
