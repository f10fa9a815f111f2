// SPDX-License-Identifier: GPL-3.0-or-later
// Where values lie in a panel.
#include "present/chart/graph_panel_parts.h"

double panel_x(const struct panel_state *state, double value) {
    const struct box *plot = &state->layout->plot;
    return plot->x + plot->width * graph_position(&state->x, value);
}

double panel_y(const struct panel_state *state, double value) {
    const struct box *plot = &state->layout->plot;
    return plot->y + plot->height * (1 - graph_position(&state->y, value));
}

bool stack_drawable(const struct graph_panel *panel, size_t i) {
    const struct graph_stack *stack = panel->stack;
    bool drawable = graph_value_drawable(panel->x.scale, stack->x[i]);
    for (size_t k = 0; k < stack->layer_count; k++)
        drawable = drawable && stack->layers[k][i] >= 0 && stack->layers[k][i] <= GRAPH_VALUE_MAX;
    return drawable;
}
