// SPDX-License-Identifier: GPL-3.0-or-later
// Health and fire notes of the components of a list of blends, each component once.
#ifndef MILDSOLVE_CLI_NOTES_H
#define MILDSOLVE_CLI_NOTES_H

#include "cli/common.h"

enum { NOTED_MAX = 64 };

struct noted {
    const struct component *components[NOTED_MAX];
    size_t count;
};

void noted_add(struct noted *noted, const struct blend *blend);

// Of one component, in one paragraph without a line end.
void note_add(const struct library *lib, const struct component *component, struct text *out);

// "IARC group 2B, possibly carcinogenic to humans; ... . ": nothing of group 3, and without a group.
void add_iarc(const struct hazard *hazard, struct text *out);

// A line for each component of which several grades go by one name: which is meant.
void write_grades(const struct blend *blend, size_t first, struct text *out);

// One paragraph a component: hazard statements in words, flash point and lower flammable limit, health note, rules.
void write_notes(struct invocation *inv, const struct noted *noted, struct text *out);
void json_notes(const struct noted *noted, struct json *json, const char *key);

#endif
