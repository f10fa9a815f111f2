// SPDX-License-Identifier: GPL-3.0-or-later
// A blend as it dries: its path on the Teas chart, and beside it what is left of it, both marked with how much has
// evaporated.
#ifndef MILDSOLVE_PRESENT_CHART_DRYING_CHART_H
#define MILDSOLVE_PRESENT_CHART_DRYING_CHART_H

#include "present/chart/graph_layout.h"
#include "present/chart/teas_layout.h"

// Everything the chart says, so that it can speak another language. NULL fields are not allowed.
struct drying_chart_words {
    const struct teas_chart_words *teas; // for axes, areas, caption
    struct graph_words graph;
    const char *blend;             // before its notation in the caption
    const char *heading, *purpose; // in place of those of the Teas chart
    const char *drying, *path;     // of the legend: heading, and what the numbers on the path mean
    const char *evaporated;        // level axis
    const char *left;              // upright axis
    const char *composition;       // over the graph
    const char *two_liquids;       // under it, when a stretch of the axis is thick
};
const struct drying_chart_words *drying_chart_words_english(void);

struct drying_chart_input {
    struct chart_page page;
    const char *blend;                   // notation
    const char *rule;                    // mixing rule in words (teas_rule_words); one chart never mixes two
    const char *models;                  // how it was computed, with its doubts
    const double *evaporated;            // fraction of the moles, 0 to 1, ascending
    const struct teas *places;           // by `rule`; NAN where it has none
    const bool *two;                     // two liquids there; NULL = nowhere
    size_t count;                        // at least 2, at most TEAS_PLACES_MAX
    const char *const *names;            // of the components, from the one that stays longest
    const double *const *volume_percent; // of what is left, for each component `count` figures
    size_t component_count;              // with the areas 1 to AREA_STYLES
    const struct teas_chart_area *areas; // of materials, as on the Teas chart
    size_t area_count;
    const struct drying_chart_words *words; // NULL = English
};

struct drying_layout {
    struct teas_layout teas;         // with the page, header, legend and caption
    struct panel_layout composition; // its memory is that of `teas`
};

// STATUS_RANGE: counts out of range, values of `evaporated` that do not ascend; and as teas_layout_make and
// graph_panel_check. Release with drying_layout_release.
enum status drying_layout_make(const struct drying_chart_input *input, const struct text_metric *metric,
                               struct drying_layout *ret, struct error *err);
void drying_layout_release(struct drying_layout *layout);
void drying_layout_text(const struct drying_layout *layout, struct text *out);

// The picture of a layout. STATUS_MEMORY.
enum status drying_picture(const struct drying_layout *layout, struct picture *ret, struct error *err);

// Errors: of drying_layout_make and chart_file_write.
enum status drying_chart_write(const struct drying_chart_input *input, const char *path, struct error *err);

#endif
