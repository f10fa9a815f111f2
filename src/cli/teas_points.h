// SPDX-License-Identifier: GPL-3.0-or-later
// Bottles and blends as points of a Teas chart: every bottle once, and from each blend lines to its bottles.
#ifndef MILDSOLVE_CLI_TEAS_POINTS_H
#define MILDSOLVE_CLI_TEAS_POINTS_H

#include "cli/command.h"
#include "physics/teas.h"
#include "present/chart/teas_chart.h"

enum { TEAS_BOTTLES_MAX = 150, TEAS_BLENDS_MAX = REPEATS_MAX };

struct teas_points {
    struct bottle_ref bottles[TEAS_BOTTLES_MAX]; // in the order of their points
    size_t bottle_count;
    const struct blend *blends[TEAS_BLENDS_MAX];
    const char *names[TEAS_BLENDS_MAX];
    size_t parts[TEAS_BLENDS_MAX][BLEND_BOTTLES_MAX];
    size_t blend_count;
    struct teas_chart_point items[TEAS_BOTTLES_MAX + TEAS_BLENDS_MAX]; // bottles first
    size_t count;
};

// Returns the number of the bottle's point; a bottle that is there already keeps its own.
size_t teas_points_add_bottle(struct teas_points *points, const struct bottle_ref *bottle);

// The blend with its bottles. Blend and name must outlive the points; at most TEAS_BLENDS_MAX (asserted).
void teas_points_add_blend(struct teas_points *points, const struct blend *blend, const char *name);

// Fills the items, once all were added. STATUS_NO_DATA names the component without a place.
enum status teas_points_place(const struct library *lib, enum teas_rule rule, struct teas_points *points,
                              struct error *err);

#endif
