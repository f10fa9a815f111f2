// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/graph_panel.h"
#include "present/chart/layout_print.h"

// Lines have many spots: their number and the ends say enough.
static void print_run(struct text *out, const char *what, const struct panel_run *run) {
    text_printf(out, "%s style %zu, %zu spots,", what, run->style, run->count);
    print_spot(out, run->spots[0]);
    text_add(out, " to");
    print_spot(out, run->spots[run->count - 1]);
    text_add(out, "\n");
}

static void print_name(struct text *out, const struct panel_label *label) {
    if (!label->placed) {
        text_printf(out, "no room for '%s'\n", label->name);
        return;
    }
    print_texts(out, "end", &label->lines);
    if (label->has_sample) {
        text_printf(out, "  style %zu", label->style);
        print_segment(out, " sample", label->sample);
    }
    if (label->has_leader)
        print_segment(out, "  leader", label->leader);
}

static void print_mark(struct text *out, const struct layout_mark *mark) {
    text_printf(out, "mark %zu %s", mark->number, shape_word(mark->style.shape));
    print_spot(out, mark->at);
    text_add(out, "\n");
}

static void print_band(struct text *out, const struct panel_band *band) {
    text_printf(out, "band %zu of %zu corners\n", band->style, band->corner_count);
    print_hatch(out, &band->hatch);
}

static void print_axes(struct text *out, const struct panel_layout *layout) {
    print_texts(out, "heading", &layout->heading);
    print_box(out, "plot", layout->plot);
    print_texts(out, "level axis", &layout->x_name);
    print_texts(out, "upright axis", &layout->y_name);
    print_texts(out, "scale", &layout->scale);
    print_segments(out, "tick", &layout->ticks);
    print_segments(out, "grid", &layout->grid);
    print_segments(out, "zone edge", &layout->zones);
    print_texts(out, "zone", &layout->zone_names);
}

void graph_panel_print(const struct panel_layout *layout, struct text *out) {
    print_axes(out, layout);
    for (size_t i = 0; i < layout->window_count; i++)
        print_box(out, "window", layout->windows[i].box);
    print_segments(out, "span", &layout->spans);
    for (size_t i = 0; i < layout->limit_count; i++)
        print_segment(out, layout->limits[i].below ? "lower limit" : "limit", layout->limits[i].line);
    for (size_t i = 0; i < layout->band_count; i++)
        print_band(out, &layout->bands[i]);
    for (size_t i = 0; i < layout->edge_count; i++)
        print_run(out, "edge", &layout->edges[i]);
    for (size_t i = 0; i < layout->run_count; i++)
        print_run(out, "line", &layout->runs[i]);
    text_printf(out, "%zu marks on lines\n", layout->line_mark_count);
    print_segments(out, "bar", &layout->bars);
    for (size_t i = 0; i < layout->mark_count; i++)
        print_mark(out, &layout->marks[i]);
    for (size_t i = 0; i < layout->label_count; i++)
        print_label(out, &layout->labels[i]);
    for (size_t i = 0; i < layout->band_label_count; i++)
        print_label(out, &layout->band_labels[i]);
    for (size_t i = 0; i < layout->column_count; i++)
        print_name(out, &layout->column[i]);
}
