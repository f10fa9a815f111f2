// SPDX-License-Identifier: GPL-3.0-or-later
// --explain from within: what was collected, for its two writers.
#ifndef MILDSOLVE_CLI_EXPLAINING_H
#define MILDSOLVE_CLI_EXPLAINING_H

#include "cli/derivation.h"
#include "cli/explain.h"

// Things without order, each once, in the arena.
struct gathered {
    const void **items;
    size_t count, capacity;
};

// A quantity that the answer prints, and the keys it stands under.
struct explained {
    const struct derivation *derivation;
    struct gathered paths; // const char *, each once
};

// A value of the tables that an equation took: a number, or words.
struct listed_value {
    const char *of;  // id of the liquid, material or bottle
    const char *key; // as `solvents` and `materials` call it
    double value;
    const char *words; // instead of the number, else NULL
    const char *unit;
    const struct provenance *from;
};

struct explaining {
    struct invocation *inv;
    struct gathered components, materials, bottles, authorities;
    struct gathered quantities; // struct explained *
    struct gathered values;     // struct listed_value *
    struct gathered without;    // const char *: keys that derivation.h has no line for
    unsigned uses;              // of all quantities
};

// Every value that `uses` asks for, into `values` (explain_values.c).
void explain_list_values(struct explaining *explaining);

void gather(struct explaining *explaining, struct gathered *gathered, const void *item); // as it is
bool gathered_has(const struct gathered *gathered, const void *item);

// Does the option, which wasn't given, stand for something that its help names?
bool explain_default(const struct invocation *inv, const struct option *option);

void write_explanation_text(struct explaining *explaining, struct text *out); // explain_text.c
void write_explanation_json(struct explaining *explaining, struct text *out); // explain_json.c; into the open answer

#endif
