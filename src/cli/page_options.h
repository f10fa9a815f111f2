// SPDX-License-Identifier: GPL-3.0-or-later
// Options of the page that every chart shares: --size --paper --dpi --grey --title --object --date.
#ifndef MILDSOLVE_CLI_PAGE_OPTIONS_H
#define MILDSOLVE_CLI_PAGE_OPTIONS_H

#include "cli/command.h"
#include "present/chart/chart_page.h"

// For the option table of a command.
// clang-format off
#define PAGE_LOOK_OPTIONS                                                                                                   \
    {.name = "--size", .argument = "SIZE", .help = "half (default) or full page"},                                     \
    {.name = "--paper", .argument = "PAPER", .help = "a4 (default) or letter"},                                        \
    {.name = "--dpi", .argument = "DPI", .help = "resolution of PNG files (default 300)"},                             \
    {.name = "--grey", .help = "no colour at all"},                                                                    \
    {.name = "--title", .argument = "TEXT", .help = "over the chart"},                                                 \
    {.name = "--object", .argument = "TEXT", .help = "number or name of the object, for the caption"}

#define PAGE_OPTIONS                                                                                                   \
    PAGE_LOOK_OPTIONS, {.name = "--date", .argument = "DATE", .help = "date for the caption, for example 2026-11-25"}

// For a command that is `dated`: one day for the bottles and for the caption.
#define PAGE_OPTIONS_DATED                                                                                             \
    PAGE_LOOK_OPTIONS,                                                                                                 \
        {.name = "--date",                                                                                             \
         .argument = "DATE",                                                                                           \
         .help = "day on which bottles are judged (default today); in the caption of a chart, too"}
// clang-format on

// For commands that draw only when asked to.
#define CHART_OPTION(what)                                                                                             \
    { .name = "--chart", .argument = "FILE", .help = what }

// Does the call ask for a picture: --chart, or --section where the command has it?
bool picture_asked(const struct invocation *inv);

// Is the option about the chart only?
bool page_option(const char *name);

// STATUS_USAGE when an option that is about the chart only is given without --chart. --date is not, where the command
// is dated.
enum status page_options_check(const struct invocation *inv, struct error *err);

// Reads them, with the version of the tables. `fallback`: the size when none is given. The date is that of --date, or
// the day on which the bottles were judged (inv->as_of). Captions are left to the command.
enum status page_options(const struct invocation *inv, enum sheet_size fallback, struct chart_page *ret,
                         struct error *err);

#endif
