// SPDX-License-Identifier: GPL-3.0-or-later
// Where no swab test stands yet: what to test first, before anything of a computed list.
#ifndef MILDSOLVE_CLI_FIRST_TEST_H
#define MILDSOLVE_CLI_FIRST_TEST_H

#include "cli/common.h"
#include "physics/unifac.h"
#include "selection/goal.h"

struct first_test {
    bool asked;         // no swab test stands: it is worth saying
    struct blend first; // the weak liquid of the row's direction alone; else the weakest blend that the row names
    struct blend next;  // the first step up in that direction; of no part where it separates, or there is none
};

// `row`: the first of the list; `weakest`: the weakest blend of its strong liquids that still works, NULL = not known.
// The direction is that of the ladder (ladder_pairs.h) toward the largest strong bottle of the row. STATUS_MEMORY.
enum status first_test_find(struct invocation *inv, const struct goal *goal, const struct unifac_table *table,
                            double temp_k, const struct blend *row, const struct blend *weakest, struct first_test *ret,
                            struct error *err);

// One paragraph; nothing where it isn't asked.
void write_first_test(const struct invocation *inv, const struct first_test *test, struct text *out);

// What to test, as one sentence alone.
void add_first_test(const struct invocation *inv, const struct first_test *test, struct text *out);

// first_test: recipe, then, command; null where it isn't asked.
void json_first_test(const struct invocation *inv, const struct first_test *test, struct json *json);

#endif
