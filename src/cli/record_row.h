// SPDX-License-Identifier: GPL-3.0-or-later
// A test as it is typed: from options to the row that is checked and written.
#ifndef MILDSOLVE_CLI_RECORD_ROW_H
#define MILDSOLVE_CLI_RECORD_ROW_H

#include "casefile/case_edit.h"
#include "cli/command.h"

// Options that fill a test, one a key.
#define RECORD_ROW_OPTIONS                                                                                             \
    {.name = "--blend", .argument = "BLEND", .help = "as mixed, in bottles of the case or of the tables"},             \
        {.name = "--result", .argument = "WORD", .help = "none, gloss change, softened, partly removed or removed"},   \
        {.name = "--passage", .argument = "ID", .help = "passage of the case"},                                        \
        {.name = "--site", .argument = "X,Y", .help = "mm from the corner that the case names"},                       \
        {.name = "--layer", .argument = "ID", .help = "layer of the case aimed at"},                                   \
        {.name = "--delivery",                                                                                         \
         .argument = "WORD",                                                                                           \
         .help = "swab, swab through tissue, gel or microfibre (default: delivery of the case)"},                      \
        {.name = "--load", .argument = "ML", .help = "liquid brought to the site"},                                    \
        {.name = "--contact", .argument = "SECONDS", .help = "contact time"},                                          \
        {.name = "--rolls", .argument = "N", .help = "rolls of the swab"},                                             \
        {.name = "--colour-on-swab",                                                                                   \
         .argument = "WORD",                                                                                           \
         .help = "not looked, none, varnish tint, overpaint, original, or unsure (counts as original)"},               \
        {.name = "--blanching", .argument = "WORD", .help = "not looked, none, wet only or after drying"},             \
        {.name = "--clearing", .argument = "TEXT", .help = "what it was cleared with"},                                \
        {.name = "--wet", .argument = "TEXT", .help = "note while wet"},                                               \
        {.name = "--dry", .argument = "TEXT", .help = "note after drying"},                                            \
        {.name = "--next-day", .argument = "TEXT", .help = "note on the next day"},                                    \
        {.name = "--uv", .argument = "TEXT", .help = "note in ultraviolet"},                                           \
        {.name = "--photo", .argument = "TEXT", .help = "number of the photo"}, {                                      \
        .name = "--id", .argument = "ID", .help = "of the test (default: the next free T number)"                      \
    }

// Fills the cells of all options that are given; "40, 25" of --site becomes two cells.
enum status record_row_read(struct invocation *inv, struct test_row *ret, struct error *err);

// The first option of a test that is given, or NULL.
const char *record_row_given(const struct invocation *inv);

#endif
