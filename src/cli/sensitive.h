// SPDX-License-Identifier: GPL-3.0-or-later
// Passages that need a test of their own: from --sensitive and from the case.
#ifndef MILDSOLVE_CLI_SENSITIVE_H
#define MILDSOLVE_CLI_SENSITIVE_H

#include "cli/common.h"
#include "physics/harm.h"

enum { SENSITIVE_MAX = 32 };

struct sensitive_passage {
    const struct sensitivity *sensitivity;
    const char *passage; // id in the case, NULL = named on the command line
};

struct sensitive_passages {
    struct sensitive_passage items[SENSITIVE_MAX];
    size_t count;
};

#define SENSITIVE_OPTION                                                                                               \
    {                                                                                                                  \
        .name = "--sensitive", .argument = "LIST",                                                                     \
        .help =                                                                                                        \
            "what lies below besides sound paint: lake-glaze, copper-green-glaze, bituminous-brown, lean-dark, "       \
            "young-oil-paint, zinc-white, lead-soaps, water-sensitive, wax-lining, glue-lining, synthetic-retouching"  \
    }

// STATUS_UNKNOWN_NAME for a name on the command line that no sensitivity has; words of the case that no table knows are
// left out.
enum status sensitive_collect(struct invocation *inv, struct sensitive_passages *ret, struct error *err);

#endif
