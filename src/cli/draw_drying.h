// SPDX-License-Identifier: GPL-3.0-or-later
// The drying chart of a path that was followed.
#ifndef MILDSOLVE_CLI_DRAW_DRYING_H
#define MILDSOLVE_CLI_DRAW_DRYING_H

#include "cli/command.h"
#include "physics/evaporation.h"
#include "present/chart/drying_chart.h"

// What the chart is drawn from; lives in the arena of the call. Errors as draw_drying, but for the file.
enum status drying_chart_of(struct invocation *inv, const struct evaporation *path, struct drying_chart_input *ret,
                            struct error *err);

// Options of the page, --rule and --material, for which the materials are read. STATUS_NO_DATA when the path has not
// even two points; and as drying_chart_write.
enum status draw_drying(struct invocation *inv, const struct evaporation *path, const char *file, struct error *err);

#endif
