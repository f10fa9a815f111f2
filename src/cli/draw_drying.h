// SPDX-License-Identifier: GPL-3.0-or-later
// The drying chart of a path that was followed.
#ifndef MILDSOLVE_CLI_DRAW_DRYING_H
#define MILDSOLVE_CLI_DRAW_DRYING_H

#include "cli/command.h"
#include "physics/evaporation.h"

// Options of the page, --rule and --material, for which the materials are read. STATUS_NO_DATA when the path has not
// even two points; and as drying_chart_write.
enum status draw_drying(struct invocation *inv, const struct evaporation *path, const char *file, struct error *err);

#endif
