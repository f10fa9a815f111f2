// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/window_chart.h"

#include "base/language.h"
#include "present/chart/chart_file.h"

#include <math.h>

static const struct mark_style reaching = {MARK_DISC, 2.8, INK_BLUE};
static const struct mark_style short_of_it = {MARK_RING, 2.8, INK_BLUE};

const struct window_chart_words *window_chart_words_english(void) {
    static const struct window_chart_words words = {
        .graph = GRAPH_WORDS_ENGLISH,
        .heading = "The window, computed: effective upwards, mild to the left",
        .swelling = "swelling of the paint",
        .effect = "effect on the varnish",
        .asked = "asked for",
        .blends = "Blends",
        .reaches = "filled: as effective as asked for",
        .doubt = "Bars",
        .purpose = "Computed, not tested. Proposes tests, does not prove safety.",
    };
    return &words;
}

struct windowing {
    const struct window_chart_input *input;
    const struct window_chart_words *words;
    struct arena arena;
    struct graph_point *points;
    struct legend_item *items;
    struct graph_zone zones[GRAPH_ZONES_MAX];
    struct graph_limit asked;
    struct graph_panel panel;
};

static bool reaches(const struct window_chart_input *input, const struct window_chart_blend *blend) {
    return isnan(input->asked) || blend->effect >= input->asked;
}

static bool fill_points(struct windowing *windowing) {
    const struct window_chart_input *input = windowing->input;
    const struct window_chart_words *words = windowing->words;
    windowing->points = arena_new(&windowing->arena, input->blend_count, sizeof *windowing->points);
    windowing->items = arena_new(&windowing->arena, input->blend_count + 1, sizeof *windowing->items);
    if (!windowing->points || !windowing->items)
        return false;
    bool asked = !isnan(input->asked);
    windowing->items[0] = (struct legend_item){
        .symbol = LEGEND_HEADING,
        .number = "",
        .text = asked ? arena_printf(&windowing->arena, "%s (%s)", say(words->blends), say(words->reaches))
                      : say(words->blends)};
    for (size_t i = 0; i < input->blend_count; i++) {
        const struct window_chart_blend *blend = &input->blends[i];
        struct mark_style mark = reaches(input, blend) ? reaching : short_of_it;
        windowing->points[i] = (struct graph_point){.x = blend->swelling,
                                                    .y = blend->effect,
                                                    .x_low = blend->swelling_low,
                                                    .x_high = blend->swelling_high,
                                                    .y_low = blend->effect_low,
                                                    .y_high = blend->effect_high,
                                                    .mark = mark,
                                                    .number = blend->number};
        windowing->items[i + 1] = (struct legend_item){.symbol = LEGEND_POINT,
                                                       .mark = mark,
                                                       .number = arena_printf(&windowing->arena, "%zu", blend->number),
                                                       .text = blend->name ? blend->name : ""};
    }
    return true;
}

// "asked for 80 %"
static bool fill_asked(struct windowing *windowing) {
    const struct window_chart_input *input = windowing->input;
    const char *figure = input->asked_figure ? input->asked_figure : "";
    if (isnan(input->asked))
        return true;
    const char *name =
        arena_printf(&windowing->arena, "%s%s%s", say(windowing->words->asked), figure[0] ? " " : "", figure);
    windowing->asked = (struct graph_limit){.value = input->asked, .name = name, .below = true};
    windowing->panel.limits = &windowing->asked;
    windowing->panel.limit_count = 1;
    return name != NULL;
}

static bool fill_panel(struct windowing *windowing) {
    const struct window_chart_input *input = windowing->input;
    struct graph_panel *panel = &windowing->panel;
    panel->x = (struct graph_axis){.name = given_or(input->swelling_name, say(windowing->words->swelling)),
                                   .scale = input->swelling_log ? GRAPH_LOG : GRAPH_LINEAR,
                                   .low = input->swelling_low,
                                   .high = input->swelling_high};
    panel->y = (struct graph_axis){.name = given_or(input->effect_name, say(windowing->words->effect)),
                                   .low = input->effect_low,
                                   .high = input->effect_high};
    if (!fill_points(windowing))
        return false;
    panel->points = windowing->points;
    panel->point_count = input->blend_count;
    for (size_t i = 0; i < input->band_count; i++)
        windowing->zones[i] = (struct graph_zone){input->bands[i].from, input->bands[i].to, input->bands[i].name};
    panel->zones = windowing->zones;
    panel->zone_count = input->band_count;
    return fill_asked(windowing);
}

static const char *models_words(struct windowing *windowing) {
    const struct window_chart_input *input = windowing->input;
    const char *models = input->models ? input->models : "";
    bool bars = input->doubt && input->doubt[0];
    return arena_printf(&windowing->arena, "%s%s%s%s%s", bars ? say(windowing->words->doubt) : "", bars ? ": " : "",
                        bars ? input->doubt : "", bars && models[0] ? " \u00B7 " : "", models);
}

static enum status check(const struct window_chart_input *input, struct error *err) {
    if (input->blend_count < 1 || input->blend_count > GRAPH_POINTS_MAX)
        return error_set(err, STATUS_RANGE, "%zu blends; a window chart holds 1 to %d", input->blend_count,
                         GRAPH_POINTS_MAX);
    if (input->band_count > GRAPH_ZONES_MAX)
        return error_set(err, STATUS_RANGE, "%zu bands; a window chart holds at most %d", input->band_count,
                         GRAPH_ZONES_MAX);
    return STATUS_OK;
}

static enum status lay_out(struct windowing *windowing, const struct text_metric *metric, struct graph_layout *ret,
                           struct error *err) {
    const struct window_chart_words *words = windowing->words;
    const char *models = models_words(windowing);
    if (!models || !fill_panel(windowing))
        return layout_no_memory(err);
    struct graph_input graph = {.page = windowing->input->page,
                                .heading = say(words->heading),
                                .models = models,
                                .purpose = say(words->purpose),
                                .panels = &windowing->panel,
                                .panel_count = 1,
                                .legend = windowing->items,
                                .legend_count = windowing->input->blend_count + 1,
                                .words = &words->graph};
    return graph_layout_make(&graph, metric, ret, err);
}

enum status window_chart_layout(const struct window_chart_input *input, const struct text_metric *metric,
                                struct graph_layout *ret, struct error *err) {
    enum status status = check(input, err);
    if (status != STATUS_OK)
        return status;
    struct windowing windowing = {.input = input, .words = input->words ? input->words : window_chart_words_english()};
    status = lay_out(&windowing, metric, ret, err);
    arena_release(&windowing.arena);
    return status;
}

static enum status paint(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct graph_layout layout;
    enum status status = window_chart_layout(data, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = graph_picture(&layout, ret, err);
    graph_layout_release(&layout);
    return status;
}

enum status window_chart_write(const struct window_chart_input *input, const char *path, struct error *err) {
    struct window_chart_input copy = *input;
    return chart_file_write(path, paint, &copy, err);
}
