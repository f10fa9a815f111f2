// SPDX-License-Identifier: GPL-3.0-or-later
// The window: how well blends take off what is to go against what they do to the paint, each with its doubt. Mild and
// effective lie in the upper left.
#ifndef MILDSOLVE_PRESENT_CHART_WINDOW_CHART_H
#define MILDSOLVE_PRESENT_CHART_WINDOW_CHART_H

#include "present/chart/graph_layout.h"

struct window_chart_blend {
    const char *name;                             // notation
    size_t number;                                // as in the list that the chart goes with, from 1
    double swelling, swelling_low, swelling_high; // ends of the doubt NAN = not known
    double effect, effect_low, effect_high;
};

struct window_chart_band {
    const char *name;
    double from, to; // of swelling; infinite ends are those of the panel
};

// Everything the chart says, so that it can speak another language. NULL fields are not allowed.
struct window_chart_words {
    struct graph_words graph;
    const char *heading;
    const char *swelling, *effect; // axes, when the input names none
    const char *asked;             // at the line of what was asked for
    const char *blends;            // heading of the legend
    const char *reaches;           // appended to it: what a filled mark means
    const char *doubt;             // before the explanation of the bars in the caption
    const char *purpose;
};
const struct window_chart_words *window_chart_words_english(void);

struct window_chart_input {
    struct chart_page page;
    const char *swelling_name; // which paint, in which measure; NULL = the words' own
    const char *effect_name;   // which varnish, in which measure; NULL = the words' own
    bool swelling_log;
    double swelling_low, swelling_high; // ends of the axis, NAN = from the data
    double effect_low, effect_high;     // likewise; a probability in percent has 0 and 100
    double asked;                       // effect asked for; NAN = none
    const char *asked_figure;           // as printed, for example "80 %"; NULL = the figure is not printed
    const struct window_chart_blend *blends;
    size_t blend_count; // 1 to GRAPH_POINTS_MAX
    const struct window_chart_band *bands;
    size_t band_count;  // at most GRAPH_ZONES_MAX
    const char *doubt;  // what the bars are, for example "5 to 95 % of 256 samples"; NULL or "" = there are none
    const char *models; // how it was computed
    const struct window_chart_words *words; // NULL = English
};

// STATUS_RANGE: counts out of range; and as graph_layout_make.
enum status window_chart_layout(const struct window_chart_input *input, const struct text_metric *metric,
                                struct graph_layout *ret, struct error *err);

// Errors: of window_chart_layout and chart_file_write.
enum status window_chart_write(const struct window_chart_input *input, const char *path, struct error *err);

#endif
