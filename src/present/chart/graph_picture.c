// SPDX-License-Identifier: GPL-3.0-or-later
// A panel from numbers to lines and texts, from the ground upwards.
#include "present/chart/graph_panel.h"
#include "present/chart/layout_draw.h"

static const struct pen grid_pen = {.width = HAIRLINE, .ink = INK_PALE};
static const struct pen frame_pen = {.width = 0.9, .ink = INK_BLACK};
static const struct pen tick_pen = {.width = 0.7, .ink = INK_BLACK};
static const struct pen zone_pen = {.width = 0.7, .ink = INK_BLACK, .dashes = {2.5, 2.5}, .dash_count = 2};
static const struct pen edge_pen = {.width = 1.1, .ink = INK_BLACK};
static const struct pen bar_pen = {.width = 0.7, .ink = INK_GREY};
static const struct pen leader_pen = {.width = 0.5, .ink = INK_BLACK};
static const struct picture_paint white = {NULL, true, INK_WHITE};

static void draw_ground(struct picture *picture, const struct panel_layout *layout) {
    for (size_t i = 0; i < layout->window_count; i++)
        draw_window(picture, layout->windows[i].box, &layout->windows[i].hatch);
    for (size_t i = 0; i < layout->band_count; i++) {
        struct pen pen = area_style(layout->bands[i].style).hatch.pen;
        picture_segments(picture, layout->bands[i].hatch.items, layout->bands[i].hatch.count, &pen);
    }
    picture_segments(picture, layout->grid.items, layout->grid.count, &grid_pen);
    picture_segments(picture, layout->zones.items, layout->zones.count, &zone_pen);
}

static void draw_frame(struct picture *picture, const struct panel_layout *layout) {
    struct box p = layout->plot;
    picture_box(picture, p.x, p.y, p.width, p.height, (struct picture_paint){&frame_pen, false, INK_WHITE});
    picture_segments(picture, layout->ticks.items, layout->ticks.count, &tick_pen);
    for (size_t i = 0; i < layout->spans.count; i++)
        draw_span(picture, layout->spans.items[i]);
    draw_texts(picture, &layout->heading);
    draw_texts(picture, &layout->x_name);
    draw_texts(picture, &layout->y_name);
    draw_texts(picture, &layout->scale);
    draw_texts(picture, &layout->zone_names);
}

static void draw_lines(struct picture *picture, const struct panel_layout *layout) {
    for (size_t i = 0; i < layout->edge_count; i++)
        picture_path(picture, layout->edges[i].spots, layout->edges[i].count, false,
                     (struct picture_paint){&edge_pen, false, INK_WHITE});
    for (size_t i = 0; i < layout->limit_count; i++)
        draw_limit(picture, layout->limits[i].line, layout->limits[i].below);
    for (size_t i = 0; i < layout->run_count; i++) {
        struct pen pen = line_style(layout->runs[i].style).pen;
        picture_path(picture, layout->runs[i].spots, layout->runs[i].count, false,
                     (struct picture_paint){&pen, false, INK_WHITE});
    }
    for (size_t i = 0; i < layout->line_mark_count; i++)
        draw_mark(picture, layout->line_marks[i].style, layout->line_marks[i].at);
}

static void draw_band_label(struct picture *picture, const struct layout_label *label) {
    if (!label->placed || !label->number.text[0])
        return;
    if (label->has_leader) {
        picture_segments(picture, &label->leader, 1, &leader_pen);
        picture_disc(picture, label->leader.from, 2.0, white);
        picture_disc(picture, label->leader.from, 1.3, (struct picture_paint){NULL, true, INK_BLACK});
    }
    draw_white(picture, label->box);
    draw_text(picture, &label->number);
}

static void draw_name(struct picture *picture, const struct panel_label *label) {
    if (!label->placed)
        return;
    if (label->has_leader)
        picture_segments(picture, &label->leader, 1, &leader_pen);
    if (label->has_sample)
        draw_line_sample(picture, label->style, label->sample);
    draw_texts(picture, &label->lines);
}

void graph_panel_draw(struct picture *picture, const struct panel_layout *layout) {
    draw_ground(picture, layout);
    draw_lines(picture, layout);
    draw_frame(picture, layout);
    picture_segments(picture, layout->bars.items, layout->bars.count, &bar_pen);
    for (size_t i = 0; i < layout->label_count; i++)
        draw_mark_label(picture, &layout->labels[i]);
    for (size_t i = 0; i < layout->mark_count; i++)
        draw_mark(picture, layout->marks[i].style, layout->marks[i].at);
    for (size_t i = 0; i < layout->band_label_count; i++)
        draw_band_label(picture, &layout->band_labels[i]);
    for (size_t i = 0; i < layout->column_count; i++)
        draw_name(picture, &layout->column[i]);
}
