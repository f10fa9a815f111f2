// SPDX-License-Identifier: GPL-3.0-or-later
// The options that say what is wanted: materials, bottles, what to leave out, the grid.
#ifndef MILDSOLVE_CLI_GOAL_OPTIONS_H
#define MILDSOLVE_CLI_GOAL_OPTIONS_H

#include "cli/common.h"
#include "selection/goal.h"

#define GOAL_OPTIONS                                                                                                   \
    {.name = "--remove", .argument = "LIST", .help = "materials to take off; the hardest one counts"},                 \
        {.name = "--spare", .argument = "LIST", .help = "materials to leave alone; the most endangered one counts"},   \
        {.name = "--bottles", .argument = "LIST", .help = "the bottles at hand (default: the shelf 'studio')"},        \
        {.name = "--shelf", .argument = "NAME", .help = "a shelf of the tables instead of --bottles"},                 \
        {.name = "--without",                                                                                          \
         .argument = "LIST",                                                                                           \
         .help = "leave out bottles, components or hazard classes (carcinogen, mutagen, reproductive, sensitiser, "    \
                 "peroxide-former, skin-absorbed, restricted, toxic, corrosive, aromatic, chlorinated)",               \
         .repeats = true},                                                                                             \
        {.name = "--allow",                                                                                            \
         .argument = "LIST",                                                                                           \
         .help = "components that may be proposed although the tool never does so by itself",                          \
         .repeats = true},                                                                                             \
        {.name = "--components", .argument = "N", .help = "bottles in one blend at most, 1 to 5 (default 3)"},         \
        {.name = "--step", .argument = "PERCENT", .help = "grid of the shares: 10, 5, 2.5 or 1 (default 5)"}, {        \
        .name = "--margin", .argument = "SHARE",                                                                       \
        .help = "how far inside the varnish sphere: RED at most 1 - SHARE (default 0.1)"                               \
    }

// Fills the goal, filters the shelf, and reports what the filters did.
enum status goal_from_options(struct invocation *inv, struct goal *ret, struct filter_report *report,
                              struct error *err);

#endif
