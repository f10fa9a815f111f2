// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/drying_chart.h"

#include "base/language.h"
#include "present/chart/chart_file.h"
#include "present/chart/layout_draw.h"
#include "present/chart/layout_print.h"
#include "present/chart/teas_chart.h"

#include <math.h>

static const struct {
    int percent;
    const char *text;
} marked[] = {{0, "0"}, {20, "20"}, {40, "40"}, {60, "60"}, {80, "80"}, {90, "90"}, {95, "95"}};
enum { MARKS = sizeof marked / sizeof marked[0] };

static const double room_width = 240;       // of the graph beside the triangle, pt
static const double room_height_half = 196; // there
static const double room_height_full = 200; // and below it

const struct drying_chart_words *drying_chart_words_english(void) {
    static const struct drying_chart_words words = {
        .teas = NULL, // English, see set_words
        .graph = GRAPH_WORDS_ENGLISH,
        .blend = "Blend",
        .heading = "Drying, computed: the way of the liquid through the Teas chart, and what is left of it",
        .purpose = "Computed for a liquid in the open; a film lets go far more slowly. Does not prove safety.",
        .drying = "Drying",
        .path = "the liquid as it dries; numbers: % of the moles evaporated",
        .evaporated = "evaporated, % of the moles",
        .left = "of what is left, % by volume",
        .composition = "What is left",
        .two_liquids = "thick stretch of the axis: two liquids",
    };
    return &words;
}

struct drying {
    const struct drying_chart_input *input;
    const struct drying_chart_words *words;
    struct teas_chart_words teas_words;
    struct arena arena;
    struct teas_path_mark marks[MARKS];
    size_t mark_count;
    struct teas_chart_path path;
    double *percent; // evaporated
    struct graph_window *spans;
    size_t span_count;
    struct graph_stack stack;
    struct graph_panel panel;
};

// --- the path ---

static void add_mark(struct drying *drying, int percent, const char *text) {
    static const double near = 0.006; // of the fraction evaporated
    const struct drying_chart_input *input = drying->input;
    size_t best = 0;
    for (size_t i = 1; i < input->count; i++)
        if (fabs(input->evaporated[i] - percent / 100.0) < fabs(input->evaporated[best] - percent / 100.0))
            best = i;
    if (fabs(input->evaporated[best] - percent / 100.0) <= near)
        drying->marks[drying->mark_count++] = (struct teas_path_mark){best, text};
}

static void fill_path(struct drying *drying) {
    for (size_t i = 0; i < MARKS; i++)
        add_mark(drying, marked[i].percent, marked[i].text);
    drying->path = (struct teas_chart_path){.name = say(drying->words->path),
                                            .places = drying->input->places,
                                            .place_count = drying->input->count,
                                            .marks = drying->marks,
                                            .mark_count = drying->mark_count};
}

// --- what is left ---

// Neighbouring points with two liquids make one stretch.
static void fill_spans(struct drying *drying) {
    const struct drying_chart_input *input = drying->input;
    for (size_t i = 0; input->two && i + 1 < input->count; i++) {
        if (!input->two[i] || !input->two[i + 1])
            continue;
        if (drying->span_count && drying->spans[drying->span_count - 1].to == drying->percent[i])
            drying->spans[drying->span_count - 1].to = drying->percent[i + 1];
        else
            drying->spans[drying->span_count++] = (struct graph_window){drying->percent[i], drying->percent[i + 1]};
    }
}

static bool fill_panel(struct drying *drying) {
    const struct drying_chart_input *input = drying->input;
    drying->percent = arena_new(&drying->arena, input->count, sizeof *drying->percent);
    drying->spans = arena_new(&drying->arena, input->count, sizeof *drying->spans);
    if (!drying->percent || !drying->spans)
        return false;
    for (size_t i = 0; i < input->count; i++)
        drying->percent[i] = 100 * input->evaporated[i];
    fill_spans(drying);
    drying->stack = (struct graph_stack){.x = drying->percent,
                                         .count = input->count,
                                         .layers = input->volume_percent,
                                         .names = input->names,
                                         .layer_count = input->component_count,
                                         .first_style = input->area_count};
    drying->panel = (struct graph_panel){
        .heading = say(drying->words->composition),
        .note = drying->span_count ? say(drying->words->two_liquids) : NULL,
        .x = {.name = say(drying->words->evaporated), .low = 0, .high = 100},
        .y = {.name = say(drying->words->left), .low = 0, .high = 100},
        .stack = &drying->stack,
        .spans = drying->spans,
        .span_count = drying->span_count,
    };
    return true;
}

// --- the page ---

static enum status check(const struct drying_chart_input *input, struct error *err) {
    if (input->count < 2 || input->count > TEAS_PLACES_MAX)
        return error_set(err, STATUS_RANGE, "a drying chart of %zu points; 2 to %d are possible", input->count,
                         TEAS_PLACES_MAX);
    for (size_t i = 1; i < input->count; i++)
        if (!(input->evaporated[i] > input->evaporated[i - 1]))
            return error_set(err, STATUS_RANGE, "point %zu of a drying chart is not later than the one before", i + 1);
    if (input->component_count < 1 || input->component_count + input->area_count > AREA_STYLES)
        return error_set(err, STATUS_RANGE, "%zu components and %zu areas; a drying chart holds 1 to %d together",
                         input->component_count, input->area_count, AREA_STYLES);
    return STATUS_OK;
}

// Captions of the page, with what else there is to say: the blend first.
static bool fill_captions(struct drying *drying, struct chart_page *page) {
    const struct drying_chart_input *input = drying->input;
    const char **lines = arena_new(&drying->arena, CHART_CAPTIONS_MAX, sizeof *lines);
    if (!lines)
        return false;
    size_t count = 0;
    size_t skipped = graph_panel_skipped(&drying->panel);
    for (size_t i = 0; i < input->count; i++)
        skipped += isnan(input->places[i].fd) || isnan(input->places[i].fp) || isnan(input->places[i].fh);
    if (input->blend && input->blend[0])
        lines[count++] = arena_printf(&drying->arena, "%s: %s", say(drying->words->blend), input->blend);
    if (count && !lines[0])
        return false;
    if (input->models && input->models[0])
        lines[count++] = input->models;
    if (skipped)
        lines[count++] = arena_printf(&drying->arena, "%s %zu", say(drying->words->graph.skipped), skipped);
    if (skipped && !lines[count - 1])
        return false;
    for (size_t i = 0; i < page->caption_count && count < CHART_CAPTIONS_MAX; i++)
        lines[count++] = page->captions[i];
    page->captions = lines;
    page->caption_count = count;
    return true;
}

static enum status lay_teas(struct drying *drying, const struct text_metric *metric, struct teas_layout *ret,
                            struct error *err) {
    const struct drying_chart_input *input = drying->input;
    bool half = input->page.sheet == SHEET_HALF;
    struct teas_chart_input teas = {.page = input->page,
                                    .rule = input->rule,
                                    .areas = input->areas,
                                    .area_count = input->area_count,
                                    .paths = &drying->path,
                                    .path_count = 1,
                                    .room_width = half ? room_width : 0,
                                    .room_height = half ? room_height_half : room_height_full,
                                    .words = &drying->teas_words};
    if (!fill_captions(drying, &teas.page))
        return layout_no_memory(err);
    return teas_layout_make(&teas, metric, ret, err);
}

static enum status lay_out(struct drying *drying, const struct text_metric *metric, struct drying_layout *ret,
                           struct error *err) {
    fill_path(drying);
    if (!fill_panel(drying))
        return layout_no_memory(err);
    enum status status = graph_panel_check(&drying->panel, err);
    struct drying_layout layout;
    if (status == STATUS_OK)
        status = lay_teas(drying, metric, &layout.teas, err);
    if (status != STATUS_OK)
        return status;
    struct panel_work work = {.panel = &drying->panel,
                              .metric = metric,
                              .sizes = panel_sizes_of(drying->input->page.sheet),
                              .decimal_mark = language_decimal_mark(),
                              .arena = &layout.teas.arena,
                              .room = layout.teas.room};
    status = graph_panel_lay(&work, &layout.composition, err);
    if (status != STATUS_OK) {
        teas_layout_release(&layout.teas);
        return status;
    }
    *ret = layout;
    return STATUS_OK;
}

// The Teas chart's words under this chart's heading.
static void set_words(struct drying *drying) {
    drying->words = drying->input->words ? drying->input->words : drying_chart_words_english();
    drying->teas_words = drying->words->teas ? *drying->words->teas : *teas_chart_words_english();
    drying->teas_words.heading = say(drying->words->heading);
    drying->teas_words.paths = say(drying->words->drying);
    drying->teas_words.purpose = drying->teas_words.purpose_untested = say(drying->words->purpose);
}

enum status drying_layout_make(const struct drying_chart_input *input, const struct text_metric *metric,
                               struct drying_layout *ret, struct error *err) {
    enum status status = check(input, err);
    if (status != STATUS_OK)
        return status;
    struct drying drying = {.input = input};
    set_words(&drying);
    const char *title = input->page.title && input->page.title[0] ? NULL : input->blend;
    struct drying_chart_input titled = *input;
    if (title)
        titled.page.title = title;
    drying.input = &titled;
    status = lay_out(&drying, metric, ret, err);
    arena_release(&drying.arena);
    return status;
}

void drying_layout_release(struct drying_layout *layout) {
    if (layout)
        teas_layout_release(&layout->teas);
}

void drying_layout_text(const struct drying_layout *layout, struct text *out) {
    teas_layout_text(&layout->teas, out);
    graph_panel_print(&layout->composition, out);
}

enum status drying_picture(const struct drying_layout *layout, struct picture *ret, struct error *err) {
    struct picture picture;
    picture_begin(&picture, &layout->teas.page);
    draw_page(&picture, &layout->teas.page);
    teas_draw(&picture, &layout->teas);
    graph_panel_draw(&picture, &layout->composition);
    return picture_end(&picture, ret, err);
}

static enum status paint(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct drying_layout layout;
    enum status status = drying_layout_make(data, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = drying_picture(&layout, ret, err);
    drying_layout_release(&layout);
    return status;
}

enum status drying_chart_write(const struct drying_chart_input *input, const char *path, struct error *err) {
    struct drying_chart_input copy = *input;
    return chart_file_write(path, paint, &copy, err);
}
