// SPDX-License-Identifier: GPL-3.0-or-later
// The charts of layers: the section, and the windows of the layers on one Teas chart with the carriers.
#ifndef MILDSOLVE_CLI_DRAW_LAYERS_H
#define MILDSOLVE_CLI_DRAW_LAYERS_H

#include "cli/layers.h"

// Draws what --chart and --section ask for.
enum status draw_layers(const struct layers_answer *answer, struct error *err);

#endif
