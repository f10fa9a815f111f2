// SPDX-License-Identifier: GPL-3.0-or-later
// A page of graphs as numbers: header, one or several panels, legend, caption.
#ifndef MILDSOLVE_PRESENT_CHART_GRAPH_LAYOUT_H
#define MILDSOLVE_PRESENT_CHART_GRAPH_LAYOUT_H

#include "present/chart/chart_page.h"
#include "present/chart/graph_panel.h"
#include "present/chart/legend.h"

// What graphs say of themselves, so that they can speak another language. NULL fields are not allowed.
struct graph_words {
    struct chart_page_words page;
    const char *unlabelled; // before what found no room in a panel
    const char *undrawn;    // before the numbers of points without a figure or beyond the axes
    const char *skipped;    // before the number of values of lines and bands that are no numbers
};
#define GRAPH_WORDS_ENGLISH                                                                                            \
    {                                                                                                                  \
        .page = CHART_PAGE_WORDS_ENGLISH, .unlabelled = "No room in the chart for the names or numbers:",              \
        .undrawn = "Not drawn, without a figure or beyond the axes:",                                                  \
        .skipped = "Values left out, because they are no numbers:"                                                     \
    }

struct graph_input {
    struct chart_page page;
    const char *heading; // under the title: what kind of chart this is
    const char *models;  // of the caption: by what it was computed; "" = nothing to say
    const char *purpose; // of the caption, in bold: what the chart is not
    const struct graph_panel *panels;
    size_t panel_count; // 1 to GRAPH_PANELS_MAX, from left to right and then downwards
    const struct legend_item *legend;
    size_t legend_count; // 0 = no legend
    const struct graph_words *words;
};

enum { GRAPH_PANELS_MAX = 12 };

struct graph_layout {
    struct arena arena;
    struct page_layout page;
    struct panel_layout *panels;
    size_t panel_count;
    size_t unlabelled_count; // names and numbers without room; the caption has them
    struct box legend;
    struct legend_entry *entries;
    size_t entry_count;
};

// Sizes of text in a panel.
struct panel_sizes panel_sizes_of(enum sheet_size sheet);

// Computes the layout. STATUS_RANGE: of graph_panel_check and chart_page_check; or more panels and legend entries than
// the sheet holds (the sentence names the larger sheet). Release with graph_layout_release.
enum status graph_layout_make(const struct graph_input *input, const struct text_metric *metric,
                              struct graph_layout *ret, struct error *err);
void graph_layout_release(struct graph_layout *layout);

// The layout as text.
void graph_layout_text(const struct graph_layout *layout, struct text *out);

// The picture of a layout. STATUS_MEMORY.
enum status graph_picture(const struct graph_layout *layout, struct picture *ret, struct error *err);

#endif
