// SPDX-License-Identifier: GPL-3.0-or-later
// --case of a command with a goal: the tests of the case change the regions of what is to be removed and spared.
#ifndef MILDSOLVE_CLI_GOAL_LEARNT_H
#define MILDSOLVE_CLI_GOAL_LEARNT_H

#include "cli/goal_options.h"
#include "physics/unifac.h"
#include "present/json.h"

// For the option table of a command that also has CASE_OPTION.
#define TABLES_ONLY_OPTION                                                                                             \
    { .name = "--tables-only", .help = "with --case: regions as in the tables, whatever its tests say" }

// Replaces the materials of the goal by what the tests of the case say of them; nothing without a case, without tests
// that stand, or with --tables-only. Says so on standard error. Statuses of belief_case_learn.
enum status goal_learn(struct invocation *inv, struct goal *goal, const struct unifac_table *table, double temp_k,
                       struct error *err);

// The key "learnt": what the regions are that were learnt; an empty list when none was.
void json_learnt(const struct goal *goal, struct json *json);

#endif
