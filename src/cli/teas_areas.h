// SPDX-License-Identifier: GPL-3.0-or-later
// What commands with a Teas chart share: --rule, the areas of --material, and the marks of tests.
#ifndef MILDSOLVE_CLI_TEAS_AREAS_H
#define MILDSOLVE_CLI_TEAS_AREAS_H

#include "casefile/casefile.h"
#include "cli/command.h"
#include "present/chart/teas_layout.h"

// For the option table of a command.
// clang-format off
#define TEAS_OPTIONS                                                                                                   \
    {.name = "--material", .argument = "LIST", .help = "materials whose areas are drawn"},                             \
    {.name = "--rule",                                                                                                 \
     .argument = "RULE",                                                                                               \
     .help = "fractions: volume mean of published fractions (default); hansen: fractions of the mean Hansen parameters"}
// clang-format on

enum { TEAS_AREA_NOTES_MAX = 6 };

struct teas_areas {
    struct teas_chart_area items[AREA_STYLES];
    size_t count;
    const char *notes[TEAS_AREA_NOTES_MAX]; // for the caption: materials without an area
    size_t note_count;
};

enum status read_teas_rule(const struct invocation *inv, enum teas_rule *ret, struct error *err);

// STATUS_USAGE when areas are asked for under the rule they are not drawn by; STATUS_INPUT when there are too many.
enum status read_teas_areas(const struct invocation *inv, enum teas_rule rule, struct teas_areas *ret,
                            struct error *err);

// The mark of a test tells its result.
enum teas_point_kind teas_kind_of_test(const struct case_test *test);

#endif
