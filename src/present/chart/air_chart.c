// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/air_chart.h"

#include "base/language.h"
#include "present/chart/chart_file.h"

#include <math.h>
#include <string.h>

#define MEAN_8H_HOURS 8.0
#define WINDOW_H 0.25

const struct air_chart_words *air_chart_words_english(void) {
    static const struct air_chart_words words = {
        .graph = GRAPH_WORDS_ENGLISH,
        .heading = "Vapour in the air while working, computed, in milligrams per cubic metre",
        .concentration = "mg/m\u00B3",
        .hours = "hours from the start of work",
        .clock = "time of day",
        .near = "near the work (arm's length)",
        .room = "room, well mixed",
        .mean_8h = "8-h mean",
        .mean_15min = "worst 15\u00A0min",
        .window = "worst 15 min and their mean",
        .task = "work going on",
        .limit = "limit",
        .limit_kinds = {"8\u00A0h", "10\u00A0h", "15\u00A0min", "ceiling"},
        .limit_origins = {"", " (group)", " (by factor)"},
        .of = "of",
        .no_limit = "no limit found in this set (never zero hazard)",
        .limits = "Limits",
        .purpose =
            "Computed, not measured. Does not prove safety; the data sheet, local rules and qualified advice come "
            "first.",
    };
    return &words;
}

// Everything a panel points to.
struct air_panel {
    double mean_x[2], mean_y[2];
    double window_x[2], window_y[2];
    struct graph_line lines[4];
    struct graph_limit limits[AIR_CHART_LIMITS_MAX];
    struct graph_window window;
};

struct airing {
    const struct air_chart_input *input;
    const struct air_chart_words *words;
    struct arena *arena;
    double shift_h;
    double *hours; // shifted to the time of day
    struct graph_window spans[AIR_CHART_TASKS_MAX];
    struct graph_panel panels[GRAPH_PANELS_MAX];
    struct air_panel parts[GRAPH_PANELS_MAX];
};

// So many significant figures at most, never in exponent form, no zeros at the end of a fraction.
static const char *figure_text(struct airing *airing, double value, int figures) {
    int digits = figures - 1 - (int)floor(log10(fmax(fabs(value), 1e-9)));
    digits = digits < 0 ? 0 : digits > 6 ? 6 : digits;
    char *text = arena_printf(airing->arena, "%.*f", digits, value);
    char *dot = text ? strchr(text, '.') : NULL;
    if (!dot)
        return text;
    char *end = text + strlen(text);
    while (end[-1] == '0')
        *--end = '\0';
    if (end[-1] == '.')
        end[-1] = '\0';
    *dot = *dot ? language_decimal_mark() : '\0';
    return text;
}

static const struct air_chart_limit *limit_of(const struct air_chart_component *component, enum air_limit_kind kind) {
    for (size_t i = 0; i < component->limit_count; i++)
        if (component->limits[i].kind == kind)
            return &component->limits[i];
    return NULL;
}

// "8-h mean 87 of 192" or, without such a limit, "8-h mean 87".
static const char *mean_text(struct airing *airing, const char *what, double value,
                             const struct air_chart_limit *limit) {
    const char *figure = figure_text(airing, value, 3);
    if (!figure || !limit)
        return figure ? arena_printf(airing->arena, "%s %s", what, figure) : NULL;
    const char *allowed = figure_text(airing, limit->mg_m3, 4);
    return allowed ? arena_printf(airing->arena, "%s %s %s %s", what, figure, say(airing->words->of), allowed) : NULL;
}

// "8-h mean 87 of 192 · worst 15 min 215 of 384"
static const char *panel_note(struct airing *airing, const struct air_chart_component *component) {
    const struct air_chart_words *words = airing->words;
    const char *parts[] = {"", "", component->limit_count ? "" : say(words->no_limit)};
    if (!isnan(component->mean_8h_mg_m3))
        parts[0] = mean_text(airing, say(words->mean_8h), component->mean_8h_mg_m3, limit_of(component, AIR_LIMIT_8H));
    if (!isnan(component->window_start_h))
        parts[1] = mean_text(airing, say(words->mean_15min), component->window_mean_mg_m3,
                             limit_of(component, AIR_LIMIT_15MIN));
    const char *text = "";
    for (size_t i = 0; text && i < 3; i++) {
        if (!parts[i])
            return NULL;
        if (parts[i][0])
            text = arena_printf(airing->arena, "%s%s%s", text, text[0] ? " \u00B7 " : "", parts[i]);
    }
    return text;
}

static void add_line(struct graph_panel *panel, struct air_panel *part, struct graph_line line) {
    part->lines[panel->line_count++] = line;
}

static bool fill_limits(struct airing *airing, const struct air_chart_component *component, struct graph_panel *panel,
                        struct air_panel *part) {
    for (size_t i = 0; i < component->limit_count; i++) {
        const struct air_chart_limit *limit = &component->limits[i];
        const char *figure = figure_text(airing, limit->mg_m3, 4);
        const char *name =
            figure ? arena_printf(airing->arena, "%s:\u00A0%s%s", say(airing->words->limit_kinds[limit->kind]), figure,
                                  say(airing->words->limit_origins[limit->origin]))
                   : NULL;
        if (!name)
            return false;
        part->limits[i] = (struct graph_limit){.value = limit->mg_m3, .name = name};
    }
    panel->limits = part->limits;
    panel->limit_count = component->limit_count;
    return true;
}

static void fill_means(struct airing *airing, const struct air_chart_component *component, struct graph_panel *panel,
                       struct air_panel *part) {
    const struct air_chart_input *input = airing->input;
    double begin = airing->hours[0];
    double end = fmin(airing->shift_h + MEAN_8H_HOURS, airing->hours[input->hour_count - 1]);
    if (!isnan(component->mean_8h_mg_m3)) {
        part->mean_x[0] = begin;
        part->mean_x[1] = end;
        part->mean_y[0] = part->mean_y[1] = component->mean_8h_mg_m3;
        add_line(panel, part,
                 (struct graph_line){.x = part->mean_x, .y = part->mean_y, .count = 2, .style = LINE_DOTTED});
    }
    if (!isnan(component->window_start_h)) {
        double from = component->window_start_h + airing->shift_h;
        part->window = (struct graph_window){from, from + WINDOW_H};
        part->window_x[0] = from;
        part->window_x[1] = from + WINDOW_H;
        part->window_y[0] = part->window_y[1] = component->window_mean_mg_m3;
        add_line(panel, part,
                 (struct graph_line){.x = part->window_x, .y = part->window_y, .count = 2, .style = LINE_SOLID});
        panel->windows = &part->window;
        panel->window_count = 1;
    }
}

static bool fill_panel(struct airing *airing, size_t index) {
    const struct air_chart_input *input = airing->input;
    const struct air_chart_component *component = &input->components[index];
    struct graph_panel *panel = &airing->panels[index];
    struct air_panel *part = &airing->parts[index];
    bool clock = !isnan(input->begins_h);
    panel->heading = component->name;
    panel->note = panel_note(airing, component);
    if (!panel->note)
        return false;
    panel->x = (struct graph_axis){.name = clock ? say(airing->words->clock) : say(airing->words->hours),
                                   .scale = clock ? GRAPH_CLOCK : GRAPH_HOURS,
                                   .low = airing->hours[0],
                                   .high = airing->hours[input->hour_count - 1]};
    panel->y = (struct graph_axis){.name = say(airing->words->concentration), .low = 0, .high = NAN};
    panel->lines = part->lines;
    add_line(panel, part,
             (struct graph_line){
                 .x = airing->hours, .y = component->room_mg_m3, .count = input->hour_count, .style = LINE_DASHED});
    add_line(panel, part,
             (struct graph_line){
                 .x = airing->hours, .y = component->near_mg_m3, .count = input->hour_count, .style = LINE_SOLID});
    fill_means(airing, component, panel, part);
    panel->spans = airing->spans;
    panel->span_count = input->task_count;
    return fill_limits(airing, component, panel, part);
}

static bool fill_all(struct airing *airing) {
    const struct air_chart_input *input = airing->input;
    airing->shift_h = isnan(input->begins_h) ? 0 : input->begins_h;
    airing->hours = arena_new(airing->arena, input->hour_count, sizeof *airing->hours);
    if (!airing->hours)
        return false;
    for (size_t i = 0; i < input->hour_count; i++)
        airing->hours[i] = input->hours[i] + airing->shift_h;
    for (size_t i = 0; i < input->task_count; i++)
        airing->spans[i] =
            (struct graph_window){input->tasks[i].from_h + airing->shift_h, input->tasks[i].to_h + airing->shift_h};
    for (size_t i = 0; i < input->component_count; i++)
        if (!fill_panel(airing, i))
            return false;
    return true;
}

static size_t fill_legend(const struct air_chart_words *words, const struct air_chart_input *input,
                          struct legend_item *items) {
    size_t count = 0;
    bool limits = false;
    for (size_t i = 0; i < input->component_count; i++)
        limits = limits || input->components[i].limit_count > 0;
    items[count++] =
        (struct legend_item){.symbol = LEGEND_LINE, .style = LINE_SOLID, .number = "", .text = say(words->near)};
    items[count++] =
        (struct legend_item){.symbol = LEGEND_LINE, .style = LINE_DASHED, .number = "", .text = say(words->room)};
    items[count++] =
        (struct legend_item){.symbol = LEGEND_LINE, .style = LINE_DOTTED, .number = "", .text = say(words->mean_8h)};
    items[count++] = (struct legend_item){.symbol = LEGEND_WINDOW, .number = "", .text = say(words->window)};
    items[count++] = (struct legend_item){.symbol = LEGEND_SPAN, .number = "", .text = say(words->task)};
    if (limits)
        items[count++] = (struct legend_item){.symbol = LEGEND_LIMIT, .number = "", .text = say(words->limit)};
    return count;
}

static enum status check(const struct air_chart_input *input, struct error *err) {
    if (input->component_count < 1 || input->component_count > GRAPH_PANELS_MAX)
        return error_set(err, STATUS_RANGE, "%zu components; one air chart holds 1 to %d", input->component_count,
                         GRAPH_PANELS_MAX);
    if (input->task_count > AIR_CHART_TASKS_MAX)
        return error_set(err, STATUS_RANGE, "%zu tasks; one air chart holds at most %d", input->task_count,
                         AIR_CHART_TASKS_MAX);
    if (input->hour_count < 2 || !(input->hours[0] < input->hours[input->hour_count - 1]))
        return error_set(err, STATUS_RANGE, "an air chart needs at least two hours, in their order");
    for (size_t i = 0; i < input->component_count; i++)
        if (input->components[i].limit_count > AIR_CHART_LIMITS_MAX)
            return error_set(err, STATUS_RANGE, "%zu limits of '%s'; one panel holds at most %d",
                             input->components[i].limit_count, input->components[i].name, AIR_CHART_LIMITS_MAX);
    return STATUS_OK;
}

// What was asked, whose limits these are, how it was computed; then the page's own captions.
static bool fill_captions(struct airing *airing, struct chart_page *page) {
    const struct air_chart_input *input = airing->input;
    const char **lines = arena_new(airing->arena, page->caption_count + 3, sizeof *lines);
    const char *limits = arena_printf(airing->arena, "%s: %s", say(airing->words->limits),
                                      given_or(input->limit_set, say(airing->words->graph.page.not_given)));
    if (!lines || !limits)
        return false;
    size_t count = 0;
    if (input->question && input->question[0])
        lines[count++] = input->question;
    lines[count++] = limits;
    if (input->models && input->models[0])
        lines[count++] = input->models;
    for (size_t i = 0; i < page->caption_count; i++)
        lines[count++] = page->captions[i];
    page->captions = lines;
    page->caption_count = count;
    return true;
}

static enum status lay_out(struct airing *airing, const struct text_metric *metric, struct graph_layout *ret,
                           struct error *err) {
    const struct air_chart_input *input = airing->input;
    const struct air_chart_words *words = airing->words;
    struct legend_item items[6];
    struct graph_input graph = {.page = input->page,
                                .heading = say(words->heading),
                                .models = "",
                                .purpose = say(words->purpose),
                                .panels = airing->panels,
                                .panel_count = input->component_count,
                                .legend = items,
                                .legend_count = fill_legend(words, input, items),
                                .words = &words->graph};
    if (!fill_captions(airing, &graph.page) || !fill_all(airing))
        return layout_no_memory(err);
    return graph_layout_make(&graph, metric, ret, err);
}

enum status air_chart_layout(const struct air_chart_input *input, const struct text_metric *metric,
                             struct graph_layout *ret, struct error *err) {
    enum status status = check(input, err);
    if (status != STATUS_OK)
        return status;
    struct arena arena = {0};
    struct airing *airing = arena_new(&arena, 1, sizeof *airing);
    if (!airing)
        return layout_no_memory(err);
    airing->arena = &arena;
    airing->input = input;
    airing->words = input->words ? input->words : air_chart_words_english();
    status = lay_out(airing, metric, ret, err);
    arena_release(&arena);
    return status;
}

static enum status paint(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct graph_layout layout;
    enum status status = air_chart_layout(data, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = graph_picture(&layout, ret, err);
    graph_layout_release(&layout);
    return status;
}

enum status air_chart_write(const struct air_chart_input *input, const char *path, struct error *err) {
    struct air_chart_input copy = *input;
    return chart_file_write(path, paint, &copy, err);
}
