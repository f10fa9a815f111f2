// SPDX-License-Identifier: GPL-3.0-or-later
// --explain: after the answer, how every figure of it came about (derivation.h): what it is, its equation and where
// that comes from, the values of the tables that went into it, constants, and what was assumed.
#ifndef MILDSOLVE_CLI_EXPLAIN_H
#define MILDSOLVE_CLI_EXPLAIN_H

#include "cli/common.h"

// For the option table of a command; where a row can be explained in full, its own option takes that number.
#define EXPLAIN_OPTION                                                                                                 \
    { .name = "--explain", .help = "also how every figure came about: equation, values, sources" }

struct explaining;
struct goal;

// NULL unless asked for with --explain, or when memory ran out (then so will explain_answer say, given the call).
struct explaining *explain_begin(struct invocation *inv);

// What the answer is about: its values are listed, each once. All do nothing for NULL.
void explain_component(struct explaining *explaining, const struct component *component);
void explain_bottle(struct explaining *explaining, const struct bottle_ref *bottle); // and what is in it
void explain_blend(struct explaining *explaining, const struct blend *blend);        // its bottles
void explain_reference(struct explaining *explaining);                     // the liquid whose rate of evaporation is 1
void explain_goal(struct explaining *explaining, const struct goal *goal); // its materials
void explain_material(struct explaining *explaining, const struct material *material);
void explain_authority(struct explaining *explaining, const struct authority *authority); // none named = all of them

// Writes it behind the answer of `inv`. `answer` is that answer in JSON, whose numbers are explained; it is released.
// Nothing is done unless --explain was given.
enum status explain_answer(struct explaining *explaining, struct text *answer, struct error *err);

#endif
