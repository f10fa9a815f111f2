// SPDX-License-Identifier: GPL-3.0-or-later
// The window chart of a list by film.
#ifndef MILDSOLVE_CLI_DRAW_GENTLEST_H
#define MILDSOLVE_CLI_DRAW_GENTLEST_H

#include "cli/gentlest.h"
#include "present/chart/window_chart.h"

// What the chart is drawn from; lives in the arena of the call. Errors as draw_gentlest, but for the file.
enum status window_chart_of(const struct film_answer *answer, struct window_chart_input *ret, struct error *err);

// Options of the page. Rows that are set apart are beyond the model and not drawn; numbers and ties are those of the
// list. STATUS_USAGE when the list was not sampled, STATUS_NO_DATA when it has no row to draw; and as
// window_chart_write.
enum status draw_gentlest(const struct film_answer *answer, const char *path, struct error *err);

#endif
