// SPDX-License-Identifier: GPL-3.0-or-later
// The Teas chart as numbers: what goes where on the page, in points (1/72 inch), y downwards from the upper left
// corner. Nothing here draws; the same input and the same text widths give the same layout on every machine.
//
// Orientation: pure dispersion lies lower left, pure polar lower right, pure hydrogen bonding at the top. So the
// chart reads like any graph with its origin lower left: hydrocarbons start there, more polar liquids lie further
// right, more hydrogen-bonding ones higher up. Each side carries one scale, named in words, with an arrow towards
// larger values, and its tick marks slant the way its grid lines run.
#ifndef MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_H
#define MILDSOLVE_PRESENT_CHART_TEAS_LAYOUT_H

#include "base/text.h"
#include "physics/teas.h"
#include "present/chart/chart_page.h"
#include "present/chart/legend.h"
#include "present/chart/mark_labels.h"

// --- what goes in ---

// In the order of the numbers on the chart and of the legend; the shape of the mark carries the kind.
enum teas_point_kind {
    TEAS_POINT_BOTTLE,
    TEAS_POINT_BLEND,
    TEAS_POINT_TEST_NONE,    // swab test: no effect
    TEAS_POINT_TEST_PARTLY,  // gloss change, softened or partly removed
    TEAS_POINT_TEST_REMOVED, // removed
    TEAS_POINT_TEST_STOP,    // colour on the swab
    TEAS_POINT_KINDS
};

struct mark_style teas_mark_style(enum teas_point_kind kind);
struct mark_style teas_path_mark_style(void);

enum teas_confidence { TEAS_CONFIDENCE_LOW, TEAS_CONFIDENCE_MEDIUM, TEAS_CONFIDENCE_HIGH, TEAS_CONFIDENCES };

struct teas_chart_area {
    const char *name;
    const double *corners; // corner_count rows of fd, fp, fh (percent), as in struct teas_region
    size_t corner_count;   // 3 to TEAS_CORNERS_MAX
    int confidence;        // enum teas_confidence, or -1 when none is stated
};

struct teas_chart_point {
    enum teas_point_kind kind;
    const char *name; // of a bottle; notation of a blend; number and notation of a test (the result is added)
    struct teas place;
    bool computed;       // not from published fractions: marked in the legend and explained in the caption
    const size_t *parts; // of a blend: the bottles in it, as indices into the points; lines are drawn between them
    size_t part_count;
};

// How a liquid moves through the triangle, for example as it dries: a line with an arrow and numbered marks on it.
// Places with a NAN part are left out; the line goes on at the next one.
struct teas_chart_path {
    const char *name; // for the legend
    const struct teas *places;
    size_t place_count; // at most TEAS_PLACES_MAX
    const struct teas_path_mark *marks;
    size_t mark_count; // at most TEAS_PATH_MARKS_MAX
};

struct teas_path_mark {
    size_t place;     // index
    const char *text; // short, for example "20"
};

// Everything the chart says of itself, so that it can speak another language. NULL fields are not allowed.
struct teas_chart_words {
    struct chart_page_words page;
    const char *heading; // under the title: what kind of chart this is
    const char *dispersion, *polar, *hydrogen_bonding;
    const char *areas, *bottles, *blends, *tests; // headings of the legend
    const char *paths;                            // likewise
    const char *results[TEAS_POINT_KINDS];        // of tests, behind their names; "" for bottles and blends
    const char *confidences[TEAS_CONFIDENCES];    // in brackets behind an area's name
    const char *rule;                             // before its value in the caption
    const char *computed;                         // what the mark `computed_mark` means
    const char *computed_mark;
    const char *unlabelled;       // before the numbers that found no room in the chart
    const char *purpose;          // "plots tests, does not prove safety" in this language
    const char *purpose_untested; // the same of a chart without a test
};
const struct teas_chart_words *teas_chart_words_english(void);

struct teas_chart_input {
    struct chart_page page;
    const char *rule; // mixing rule in words (teas_rule_words); one chart never mixes two
    const struct teas_chart_area *areas;
    size_t area_count; // at most AREA_STYLES
    const struct teas_chart_point *points;
    size_t point_count; // at most TEAS_POINTS_MAX
    const struct teas_chart_path *paths;
    size_t path_count; // at most TEAS_PATHS_MAX
    // Room kept free for another panel, pt: beside the triangle and over the legend on the half sheet, between triangle
    // and legend on the full sheet, where it is as wide as the page. 0 = none.
    double room_width, room_height;
    const struct teas_chart_words *words; // NULL = English
};

enum {
    TEAS_POINTS_MAX = 200,
    TEAS_CORNERS_MAX = 200,
    TEAS_PATHS_MAX = 8,
    TEAS_PLACES_MAX = 1000,
    TEAS_PATH_MARKS_MAX = 20,
    TEAS_PATH_KIND = TEAS_POINT_KINDS // `kind` of the marks on the first path, the others follow
};

// --- what comes out ---

struct layout_axis {
    struct layout_text name;
    struct segment arrow; // from, to: towards larger values
};

struct layout_area {
    size_t style; // area_style(style)
    struct spot *corners;
    size_t corner_count;
    struct segment_list hatch;
    bool lettered;
    struct box box; // round the letter, white
    struct layout_text letter;
    bool has_leader;
    struct segment leader;
};

struct layout_path {
    size_t style; // line_style(style)
    struct spot *spots;
    size_t spot_count;
    bool has_head;
    struct segment head; // an arrow, at the end or between the marks
};

struct teas_layout {
    struct arena arena;
    struct page_layout page;
    struct spot dispersion, polar, hydrogen_bonding; // corners
    struct segment_list grid;
    struct segment_list ticks;
    struct layout_texts scale;
    struct layout_axis axes[3];
    struct layout_area *areas;
    size_t area_count;
    struct segment_list links; // between the bottles of a blend
    struct layout_path *paths;
    size_t path_count;
    struct layout_mark *marks; // in drawing order: points, then marks of paths
    size_t mark_count;
    struct layout_label *labels;
    size_t label_count;
    size_t unlabelled_count; // labels and letters without room; the caption names them
    struct box room;         // kept free, 0 wide when none was asked for
    struct box legend;
    struct legend_entry *entries;
    size_t entry_count;
};

// Computes the layout. STATUS_RANGE: a point or corner outside the triangle (fractions that are not within 1 percent of
// the sum 100, or below 0), too many points, areas, paths or lines, a resolution out of range; or more entries than the
// legend holds (the sentence names the larger sheet). Release with teas_layout_release.
enum status teas_layout_make(const struct teas_chart_input *input, const struct text_metric *metric,
                             struct teas_layout *ret, struct error *err);
void teas_layout_release(struct teas_layout *layout);

// The layout as text, one thing per line, numbers rounded to 0.1 pt: for tests and for the curious.
void teas_layout_text(const struct teas_layout *layout, struct text *out);

#endif
