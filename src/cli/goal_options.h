// SPDX-License-Identifier: GPL-3.0-or-later
// The options that say what is wanted: materials, bottles, what to leave out, the grid.
#ifndef MILDSOLVE_CLI_GOAL_OPTIONS_H
#define MILDSOLVE_CLI_GOAL_OPTIONS_H

#include "cli/common.h"
#include "selection/goal.h"

// clang-format off
#define SHELF_OPTIONS                                                                                                  \
    {.name = "--bottles", .argument = "LIST", .help = "the bottles at hand (default: the shelf 'studio')"},            \
    {.name = "--shelf", .argument = "NAME", .help = "a shelf of the tables instead of --bottles"}

#define FILTER_OPTIONS                                                                                                 \
    {.name = "--without",                                                                                              \
     .argument = "LIST",                                                                                               \
     .help = "leave out bottles, components or hazard classes (carcinogen, mutagen, reproductive, sensitiser, "        \
             "peroxide-former, skin-absorbed, restricted, toxic, corrosive, aromatic, chlorinated)",                   \
     .repeats = true},                                                                                                 \
    {.name = "--allow",                                                                                                \
     .argument = "LIST",                                                                                               \
     .help = "components that may be proposed although the tool never does so by itself",                              \
     .repeats = true}

#define GRID_OPTIONS                                                                                                   \
    {.name = "--components", .argument = "N", .help = "bottles in one blend at most, 1 to 5 (default 3)"},             \
    {.name = "--step", .argument = "PERCENT", .help = "grid of the shares: 10, 5, 2.5 or 1 (default 5)"}

#define MATERIAL_OPTIONS                                                                                               \
    {.name = "--remove", .argument = "LIST", .help = "materials to take off; the hardest one counts"},                 \
    {.name = "--spare", .argument = "LIST", .help = "materials to leave alone; the most endangered one counts"}

#define GOAL_OPTIONS                                                                                                   \
    MATERIAL_OPTIONS,                                                                                                  \
    SHELF_OPTIONS,                                                                                                     \
    FILTER_OPTIONS,                                                                                                    \
    GRID_OPTIONS,                                                                                                      \
    {.name = "--margin",                                                                                               \
     .argument = "SHARE",                                                                                              \
     .help = "how far inside the varnish sphere: RED at most 1 - SHARE (default 0.1)"}
// clang-format on

extern const double goal_margin_usual; // of --margin

// Fills the goal, filters the shelf, and reports what the filters did.
// Distances need a sphere of every material; STATUS_NO_DATA names one that has only a film model.
enum status goal_needs_spheres(const struct goal *goal, struct error *err);

enum status goal_from_options(struct invocation *inv, struct goal *ret, struct filter_report *report,
                              struct error *err);

// The parts of it, for commands that need only some. goal_materials_option: --remove (needed) or --spare (default:
// young oil paint, with a note); each has a region. goal_bottles_option: --bottles or --shelf, each bottle once.
// goal_step_option: goal->steps. goal_filter_options: --without and --allow, on the bottles of the goal.
enum status goal_materials_option(struct invocation *inv, const char *option, const struct material **ret,
                                  size_t *count, struct error *err);
enum status goal_bottles_option(struct invocation *inv, struct goal *goal, struct error *err);
enum status goal_step_option(struct invocation *inv, struct goal *goal, struct error *err);
enum status goal_filter_options(struct invocation *inv, struct goal *goal, struct filter_report *report,
                                struct error *err);

#endif
