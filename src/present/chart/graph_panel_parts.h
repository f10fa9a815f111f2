// SPDX-License-Identifier: GPL-3.0-or-later
// The steps of graph_panel_lay, shared by its files only. Each returns false when memory is exhausted.
#ifndef MILDSOLVE_PRESENT_CHART_GRAPH_PANEL_PARTS_H
#define MILDSOLVE_PRESENT_CHART_GRAPH_PANEL_PARTS_H

#include "present/chart/graph_panel.h"

struct panel_state {
    const struct panel_work *work;
    const struct graph_panel *panel;
    struct arena *arena;
    struct panel_layout *layout;
    struct graph_range x, y;
    double column_left; // of the text right of the panel
    double column_width;
    struct spot *ends; // of the lines, where their names belong
    bool *ended;       // the line has such an end
};

double panel_x(const struct panel_state *state, double value);
double panel_y(const struct panel_state *state, double value);

// Named stretches of the level axis (graph_zones.c).
bool panel_zones(struct panel_state *state);

// Curves, bands and shaded stretches (graph_curves.c).
bool panel_curves(struct panel_state *state);
bool panel_stack(struct panel_state *state);
bool panel_shades(struct panel_state *state);

// Names in the right column (graph_column.c). The first one measures before the plot has its size, the other places.
bool panel_column_measure(struct panel_state *state, double most);
bool panel_column_place(struct panel_state *state);

// Points with bars and numbers; names of bands (graph_points.c, graph_bands.c).
bool panel_points(struct panel_state *state);
bool panel_band_labels(struct panel_state *state);

// Cuts the piece to the box; false when nothing is left inside.
bool clip_to_box(struct box box, struct segment *segment);

// The values of a stack that can be drawn: all layers of that x.
bool stack_drawable(const struct graph_panel *panel, size_t i);

#endif
