// SPDX-License-Identifier: GPL-3.0-or-later
#include "charts.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// Fractional parameters of Burke 1984 (from memory: AIC Book and Paper Group Annual 3, table of fractional parameters);
// the rest of the points is computed from Hansen parameters or invented. For a layout any numbers would do.
static const struct teas_chart_point shelf[] = {
    {TEAS_POINT_BOTTLE, "isooctane", {100, 0, 0}, true, NULL, 0},
    {TEAS_POINT_BOTTLE, "isododecane", {100, 0, 0}, true, NULL, 0},
    {TEAS_POINT_BOTTLE, "n-heptane", {100, 0, 0}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "cyclohexane", {94, 2, 4}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "white spirit, 17 % aromatics", {90, 4, 6}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "white spirit, dearomatised", {99.4, 0.2, 0.4}, true, NULL, 0},
    {TEAS_POINT_BOTTLE, "toluene", {80, 7, 13}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "xylenes", {83, 5, 12}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "acetone", {47, 32, 21}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "butanone", {53, 30, 17}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "ethyl acetate", {51, 18, 31}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "n-butyl acetate", {60, 13, 27}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "methyl isobutyl ketone", {58, 22, 20}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "ethanol 96 %", {35, 18.6, 46.4}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "propan-2-ol", {41, 18, 41}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "propan-1-ol", {40, 16, 44}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "butan-1-ol", {43, 15, 42}, false, NULL, 0},
    {TEAS_POINT_BOTTLE, "1-methoxy-2-propanol", {46.6, 18.8, 34.6}, true, NULL, 0},
    {TEAS_POINT_BOTTLE, "dimethyl carbonate", {54.7, 13.8, 31.5}, true, NULL, 0},
    {TEAS_POINT_BOTTLE, "water", {18, 28, 54}, false, NULL, 0},
};
enum { SHELF = sizeof shelf / sizeof shelf[0] };

static const double aged[] = {57, 15, 28, 53, 30, 17, 47, 32, 21, 36, 18, 46, 43, 15, 42};
static const double fresh[] = {94, 2, 4, 75, 20, 5, 59, 21, 20, 55, 19, 26, 60, 12, 28, 87, 3, 10};
static const double swelling[] = {80, 7, 13, 59, 21, 20, 48, 32, 20, 41, 32, 27, 55, 19, 26};
static const double shellac[] = {57, 15, 28, 56, 26, 18, 48, 32, 20, 41, 36, 23, 33, 28,
                                 39, 30, 22, 48, 36, 18, 46, 40, 16, 44, 43, 15, 42};

struct chart_page chart_page_case(enum paper paper, enum sheet_size sheet) {
    return (struct chart_page){.title = "Fishing Boats at Slack Water",
                               .object = "Fishing Boats at Slack Water, 1881",
                               .date = "2024-05-17",
                               .data_version = "tables 0.1.0",
                               .paper = paper,
                               .sheet = sheet};
}

void chart_empty(struct chart_case *chart, enum paper paper, enum sheet_size sheet) {
    memset(chart, 0, sizeof *chart);
    chart->input = (struct teas_chart_input){.page = chart_page_case(paper, sheet),
                                             .rule = "volume mean of published fractions",
                                             .points = chart->points,
                                             .areas = chart->areas};
}

static void add_area(struct chart_case *chart, const char *name, const double *corners, size_t count, int confidence) {
    chart->areas[chart->input.area_count++] = (struct teas_chart_area){name, corners, count, confidence};
}

static void add_point(struct chart_case *chart, struct teas_chart_point point) {
    chart->points[chart->input.point_count++] = point;
}

void chart_small(struct chart_case *chart, enum paper paper, enum sheet_size sheet) {
    static const size_t parts[] = {1, 0};
    chart_empty(chart, paper, sheet);
    add_point(chart, shelf[0]);
    add_point(chart, shelf[14]);
    add_point(chart, shelf[8]);
    add_point(chart, (struct teas_chart_point){
                         TEAS_POINT_BLEND, "propan-2-ol 30 + isooctane 70", {82.3, 5.4, 12.3}, true, parts, 2});
    add_area(chart, "dammar, aged", aged, 5, TEAS_CONFIDENCE_LOW);
}

void chart_shelf(struct chart_case *chart, enum paper paper, enum sheet_size sheet) {
    static const size_t parts[] = {0, 14, 8};
    static const struct teas_chart_point tests[] = {
        {TEAS_POINT_BLEND, "propan-2-ol 20 + acetone 10 + isooctane 70", {82.9, 6.8, 10.3}, true, parts, 3},
        {TEAS_POINT_TEST_NONE, "T1 isooctane", {100, 0, 0}, true, NULL, 0},
        {TEAS_POINT_TEST_PARTLY, "T4 propan-2-ol 20 + isooctane 80", {88.2, 3.6, 8.2}, true, NULL, 0},
        {TEAS_POINT_TEST_REMOVED, "T5 propan-2-ol 50 + isooctane 50", {70.5, 9, 20.5}, true, NULL, 0},
        {TEAS_POINT_TEST_STOP, "T6 toluene 60 + acetone 40", {66.8, 17, 16.2}, true, NULL, 0},
    };
    chart_empty(chart, paper, sheet);
    for (size_t i = 0; i < SHELF; i++)
        add_point(chart, shelf[i]);
    for (size_t i = 0; i < sizeof tests / sizeof tests[0]; i++)
        add_point(chart, tests[i]);
    add_area(chart, "dammar, aged", aged, 5, TEAS_CONFIDENCE_LOW);
    add_area(chart, "dammar, fresh", fresh, 6, TEAS_CONFIDENCE_MEDIUM);
    add_area(chart, "linseed oil film, swelling", swelling, 5, TEAS_CONFIDENCE_LOW);
    add_area(chart, "shellac, fresh", shellac, 9, TEAS_CONFIDENCE_MEDIUM);
}

void chart_crowd(struct chart_case *chart, enum paper paper, enum sheet_size sheet, size_t count, bool long_names) {
    chart_empty(chart, paper, sheet);
    unsigned state = 7;
    for (size_t i = 0; i < count; i++) {
        state = state * 1103515245u + 12345u; // ISO C's own example of a generator
        double fp = (double)(state >> 16 & 0x7FFFu) / 32768 * 45;
        state = state * 1103515245u + 12345u;
        double fh = (double)(state >> 16 & 0x7FFFu) / 32768 * 50;
        snprintf(chart->names[i], sizeof chart->names[i],
                 long_names ? "bottle %zu with a name that goes on and on" : "b%zu", i + 1);
        add_point(chart, (struct teas_chart_point){
                             TEAS_POINT_BOTTLE, chart->names[i], {100 - fp - fh, fp, fh}, false, NULL, 0});
    }
    add_area(chart, "dammar, aged", aged, 5, TEAS_CONFIDENCE_LOW);
}

void chart_many_areas(struct chart_case *chart, enum paper paper, enum sheet_size sheet) {
    chart_empty(chart, paper, sheet);
    for (size_t i = 0; i < CHART_AREAS; i++) {
        double fp = (double)(i % 6) * 9;
        double fh = (double)(i / 6) * 9;
        double *c = chart->corners[i];
        double rows[] = {100 - fp - fh, fp, fh, 88 - fp - fh, fp + 12, fh, 86 - fp - fh, fp, fh + 14};
        memcpy(c, rows, sizeof rows);
        snprintf(chart->names[i], sizeof chart->names[i], "material %zu", i + 1);
        add_area(chart, chart->names[i], c, 3, (int)(i % 4) - 1);
    }
}

void chart_scripts(struct chart_case *chart, enum paper paper, enum sheet_size sheet) {
    static const struct {
        const char *name;
        struct teas place;
    } rows[] = {
        {"\u0628\u0631\u0648\u0628\u0627\u0646\u0648\u0644", {41, 18, 41}}, // Arabic
        {"\u05D0\u05E6\u05D8\u05D5\u05DF", {47, 32, 21}},                   // Hebrew
        {"\u4E19\u916E (acetone)", {47, 32, 21}},                           // Chinese, on the same spot
        {"\u0438\u0437\u043E\u043E\u043A\u0442\u0430\u043D", {100, 0, 0}},  // Cyrillic
        {"Ethanol 96 % verg\u00E4llt mit 1 % Butanon, Handelsname aus dem Regal", {36, 18, 46}},
        {"e\u0301thanol\u202E turned\n\x1B[31m line", {60, 13, 27}}, // combining mark, direction override, escape
        {"\xFF\xFE junk", {18, 28, 54}},                             // no UTF-8
        {"", {55, 19, 26}},
        {NULL, {55, 19, 26}},
    };
    chart_empty(chart, paper, sheet);
    chart->input.page.title = "\u0645\u0648\u0636\u0648\u0639 \u0627\u0644\u0631\u0633\u0645";
    chart->input.page.object = "\u9759\u7269\u753B";
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        add_point(chart, (struct teas_chart_point){TEAS_POINT_BOTTLE, rows[i].name, rows[i].place, false, NULL, 0});
}

// --- golden files ---

static char *read_whole(const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    struct text text = {0};
    char part[4096];
    size_t got;
    while ((got = fread(part, 1, sizeof part, file)) > 0)
        text_add_n(&text, part, got);
    fclose(file);
    return text.bytes;
}

static void show_difference(const char *name, const char *expected, const char *text) {
    size_t line = 1;
    while (*expected && *expected == *text) {
        line += *expected == '\n';
        expected++;
        text++;
    }
    fprintf(stderr, "%s:%zu differs:\n  expected ...%.*s\n  now      ...%.*s\n", name, line,
            (int)strcspn(expected, "\n"), expected, (int)strcspn(text, "\n"), text);
}

bool golden_matches(const char *name, const char *text) {
    char path[4096];
    snprintf(path, sizeof path, "%s/%s", MILDSOLVE_TEST_GOLDEN, name);
    if (getenv("MILDSOLVE_UPDATE_GOLDEN")) {
        FILE *file = fopen(path, "wb");
        bool written = file && fputs(text, file) >= 0;
        return file && fclose(file) == 0 && written;
    }
    char *expected = read_whole(path);
    bool same = expected && strcmp(expected, text) == 0;
    if (!same)
        show_difference(name, expected ? expected : "", text);
    free(expected);
    return same;
}
