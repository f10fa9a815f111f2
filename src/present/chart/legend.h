// SPDX-License-Identifier: GPL-3.0-or-later
// Symbols, numbers and names in columns.
#ifndef MILDSOLVE_PRESENT_CHART_LEGEND_H
#define MILDSOLVE_PRESENT_CHART_LEGEND_H

#include "present/chart/layout.h"

enum legend_symbol {
    LEGEND_HEADING,
    LEGEND_AREA,
    LEGEND_POINT,
    LEGEND_LINE,   // of a graph
    LEGEND_PATH,   // on the Teas chart, with its marks
    LEGEND_LIMIT,  // a limit of a graph
    LEGEND_WINDOW, // a hatched stretch of a graph
    LEGEND_SPAN    // a thick stretch of a graph's axis
};

struct legend_item {
    enum legend_symbol symbol;
    size_t style;           // of an area or a line
    struct mark_style mark; // of a point, or of those on a path
    const char *number;     // or letter, printable; "" = none; NULL (memory was exhausted) makes legend_fill fail
    const char *text;       // of any kind; NULL as above
};

struct legend_entry {
    enum legend_symbol symbol;
    size_t style;
    struct mark_style mark;
    struct box swatch;   // room of the symbol
    struct segment edge; // of an area: a piece of its outline; of what has a line: that line
    struct segment_list hatch;
    struct layout_text number; // or letter; text "" in a heading
    struct layout_texts lines;
};

// One way to set a legend; later ones in a list are more crowded.
struct arrangement {
    size_t columns;
    size_t lines; // of one entry at most
    double size;  // of the text, pt
    double share; // below the chart: the chart's share of its largest size
    double width; // beside the chart: of one column, pt
};

struct legend {
    struct legend_entry *entries;
    size_t count;
    double column_width;
    double swatch_width, number_width; // set by legend_fill; the latter 0 when nothing has a number
    double line_step;
    double left, top; // of the first column
};

#define LEGEND_COLUMN_GAP 12.0

// Entries from items: symbols, numbers and wrapped names. False when memory is exhausted.
bool legend_fill(struct arena *arena, const struct text_metric *metric, const struct legend_item *items, size_t count,
                 const struct arrangement *how, struct legend *legend);

// Flows the entries into columns no taller than `most` and as level as possible. INFINITY when they do not fit, else
// the height of the tallest column.
double legend_flow(struct legend *legend, size_t columns, double most);

// From the corner of each entry to its symbol, number and lines. False when memory is exhausted.
bool legend_set(struct arena *arena, struct legend *legend);

#endif
