// SPDX-License-Identifier: GPL-3.0-or-later
// `replace`: everything between the options and the answer, and its writers.
#ifndef MILDSOLVE_CLI_REPLACE_H
#define MILDSOLVE_CLI_REPLACE_H

#include "cli/goal_options.h"
#include "cli/sensitive.h"
#include "physics/exposure.h"
#include "selection/replacement.h"

struct replacing {
    struct invocation *inv;
    struct blend original;
    struct goal goal; // bottles of the filling
    struct filter_report filters;
    struct unifac_table groups;
    struct portrait_frame frame;
    struct replacement_request request;
    struct replacement found;
    struct sensitive_passages sensitive;
    bool has_room;
    struct exposure_plan plan;
};

// True when the new blend endangers what the original did not.
bool newly_touched(const struct replacing *replacing, const struct replacement_row *row,
                   const struct sensitivity *sensitivity);

void write_replacements(const struct replacing *replacing, struct text *out);
void json_replacements(const struct replacing *replacing, struct text *out);

#endif
