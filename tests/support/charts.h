// SPDX-License-Identifier: GPL-3.0-or-later
// Charts to lay out and draw, and texts to compare with files in tests/golden/.
#ifndef MILDSOLVE_TESTS_SUPPORT_CHARTS_H
#define MILDSOLVE_TESTS_SUPPORT_CHARTS_H

#include "present/chart/teas_layout.h"

enum { CHART_POINTS = TEAS_POINTS_MAX, CHART_AREAS = AREA_STYLES };

struct chart_case {
    struct teas_chart_input input;
    struct teas_chart_point points[CHART_POINTS];
    struct teas_chart_area areas[CHART_AREAS];
    char names[CHART_POINTS][96];
    double corners[CHART_AREAS][9];
};

struct chart_page chart_page_case(enum paper paper, enum sheet_size sheet); // a page of an invented object

// Each fills the case; input.points and input.areas point into it, so it must not be copied.
void chart_empty(struct chart_case *chart, enum paper paper, enum sheet_size sheet);
void chart_small(struct chart_case *chart, enum paper paper, enum sheet_size sheet); // 3 bottles, 1 blend, 1 area
void chart_shelf(struct chart_case *chart, enum paper paper,
                 enum sheet_size sheet); // 20 bottles, blend, tests, 4 areas
// `count` bottles strewn over the part of the triangle that liquids occupy; long names when wanted.
void chart_crowd(struct chart_case *chart, enum paper paper, enum sheet_size sheet, size_t count, bool long_names);
void chart_many_areas(struct chart_case *chart, enum paper paper, enum sheet_size sheet); // 26
void chart_scripts(struct chart_case *chart, enum paper paper, enum sheet_size sheet); // Arabic, Hebrew, Chinese, junk

// Compares with tests/golden/NAME; on a difference prints the first differing line and returns false. With the
// environment variable MILDSOLVE_UPDATE_GOLDEN set, writes the file instead.
bool golden_matches(const char *name, const char *text);

#endif
