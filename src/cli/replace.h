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

// Everything but the drawing and writing, from the arguments and options of the call; *ret zeroed before, and to be
// released whatever the outcome. As replacement_find, and STATUS_USAGE.
enum status replacing_make(struct invocation *inv, struct replacing *ret, struct error *err);
void replacing_release(struct replacing *replacing);

// True when the new blend endangers what the original did not.
bool newly_touched(const struct replacing *replacing, const struct replacement_row *row,
                   const struct sensitivity *sensitivity);

// MPa^0.5; farther away than that is no likeness, and no --within.
#define WITHIN_MOST 40.0

// Whole sentences in the chosen language, added to `out`.
void replacing_add_original(const struct replacing *replacing, struct text *out);
void replacing_add_change(const struct replacing *replacing, const struct replacement_row *row, struct text *out);
void replacing_add_nearest(const struct replacing *replacing, struct text *out); // when nothing was found

void replacing_swelling(const struct portrait *portrait, char words[CELL_BYTES]); // band of the paint

void write_replacements(const struct replacing *replacing, struct text *out);
void json_replacements(const struct replacing *replacing, struct text *out);

#endif
