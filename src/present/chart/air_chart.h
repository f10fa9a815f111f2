// SPDX-License-Identifier: GPL-3.0-or-later
// Vapour in the air of a room over a day of work: a panel for each component, because each has limits of its own.
#ifndef MILDSOLVE_PRESENT_CHART_AIR_CHART_H
#define MILDSOLVE_PRESENT_CHART_AIR_CHART_H

#include "present/chart/graph_layout.h"

enum air_limit_kind { AIR_LIMIT_8H, AIR_LIMIT_10H, AIR_LIMIT_15MIN, AIR_LIMIT_CEILING, AIR_LIMIT_KINDS };

enum air_limit_origin {
    AIR_LIMIT_OWN,
    AIR_LIMIT_OF_GROUP,  // the published value of the component's class
    AIR_LIMIT_BY_FACTOR, // an excursion factor times the long-term limit
    AIR_LIMIT_ORIGINS
};

struct air_chart_limit {
    enum air_limit_kind kind;
    double mg_m3;
    enum air_limit_origin origin;
};

struct air_chart_component {
    const char *name;
    const double *near_mg_m3, *room_mg_m3; // at the hours of the input
    double mean_8h_mg_m3;                  // of the person; NAN = not shown
    double window_start_h;                 // where the worst 15 minutes begin; NAN = not shown
    double window_mean_mg_m3;
    const struct air_chart_limit *limits;
    size_t limit_count; // 0: the panel says that none was found
};

struct air_chart_task {
    double from_h, to_h;
};

// Everything the chart says, so that it can speak another language. NULL fields are not allowed.
struct air_chart_words {
    struct graph_words graph;
    const char *heading;
    const char *concentration;        // upright axis
    const char *hours, *clock;        // level axis: hours from the beginning of the work, or time of day
    const char *near, *room;          // of the legend
    const char *mean_8h, *mean_15min; // before the figures under the name of a component
    const char *window, *task, *limit;
    const char *limit_kinds[AIR_LIMIT_KINDS];
    const char *limit_origins[AIR_LIMIT_ORIGINS]; // behind the figure, "" = nothing
    const char *of;                               // "8-h mean 87 of 192": between a figure and its limit
    const char *no_limit;                         // instead of limits
    const char *limits;                           // before the name of the limit set in the caption
    const char *purpose;
};
const struct air_chart_words *air_chart_words_english(void);

struct air_chart_input {
    struct chart_page page;
    const char *question;  // blend, amount, room: stands first in the caption
    const char *limit_set; // whose limits
    const char *models;    // how it was computed, with the assumptions
    const double *hours;   // from the beginning of the work, ascending
    size_t hour_count;     // at least 2
    const struct air_chart_component *components;
    size_t component_count; // 1 to GRAPH_PANELS_MAX
    const struct air_chart_task *tasks;
    size_t task_count;                   // at most AIR_CHART_TASKS_MAX
    double begins_h;                     // time of day at hour 0; NAN = not known, the axis counts hours of work
    const struct air_chart_words *words; // NULL = English
};

enum { AIR_CHART_TASKS_MAX = 24, AIR_CHART_LIMITS_MAX = 8 };

// STATUS_RANGE: counts out of range; and as graph_layout_make.
enum status air_chart_layout(const struct air_chart_input *input, const struct text_metric *metric,
                             struct graph_layout *ret, struct error *err);

// Errors: of air_chart_layout and chart_file_write.
enum status air_chart_write(const struct air_chart_input *input, const char *path, struct error *err);

#endif
