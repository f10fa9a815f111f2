// SPDX-License-Identifier: GPL-3.0-or-later
// The air chart of an assessed day.
#ifndef MILDSOLVE_CLI_DRAW_EXPOSURE_H
#define MILDSOLVE_CLI_DRAW_EXPOSURE_H

#include "cli/command.h"
#include "physics/exposure.h"
#include "present/chart/air_chart.h"

struct exposure_drawing {
    const char *question;         // in words
    const char *limit_set;        // in words
    double begins_h;              // of the clock, NAN = as --start says, or not known
    const char *capture_measured; // how an extraction arm was measured, NULL = no credit
    const struct exposure_plan *plan;
    const struct exposure_air *air;
    const struct exposure_judgement *judged;
};

// What the chart is drawn from; lives in the arena of the call. Errors as draw_exposure, but for the file.
enum status air_chart_of(const struct invocation *inv, const struct exposure_drawing *drawing,
                         struct air_chart_input *ret, struct error *err);

// Options of the page, and --start. Water is not drawn. STATUS_USAGE when nothing is left to draw; and as
// air_chart_write.
enum status draw_exposure(const struct invocation *inv, const struct exposure_drawing *drawing, const char *path,
                          struct error *err);

#endif
