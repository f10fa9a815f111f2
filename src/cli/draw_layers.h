// SPDX-License-Identifier: GPL-3.0-or-later
// The charts of layers: the section, and the windows of the layers on one Teas chart with the carriers.
#ifndef MILDSOLVE_CLI_DRAW_LAYERS_H
#define MILDSOLVE_CLI_DRAW_LAYERS_H

#include "cli/layers.h"
#include "present/chart/section_chart.h"
#include "present/chart/teas_chart.h"

// The inputs of the two charts, with the page as the options of the call ask; they live in the arena of the call.
// STATUS_INPUT: too many stacks for one drawing. STATUS_USAGE, STATUS_MEMORY.
enum status layers_section_of(const struct layers_answer *answer, struct section_chart_input *ret, struct error *err);
enum status layers_windows_of(const struct layers_answer *answer, struct teas_chart_input *ret, struct error *err);

// Draws what --chart and --section ask for.
enum status draw_layers(const struct layers_answer *answer, struct error *err);

#endif
