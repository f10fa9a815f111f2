// SPDX-License-Identifier: GPL-3.0-or-later
// Where the original and its replacements lie on the Teas chart.
#ifndef MILDSOLVE_CLI_DRAW_REPLACE_H
#define MILDSOLVE_CLI_DRAW_REPLACE_H

#include "cli/replace.h"

enum { DRAWN_ROWS = 4 }; // more would hide each other: they lie at one place

// The original is the first blend; its bottles and those of the first rows are drawn with it. Options of the page and
// of the areas. Errors as teas_chart_write.
enum status draw_replacements(struct replacing *replacing, const char *path, struct error *err);

#endif
