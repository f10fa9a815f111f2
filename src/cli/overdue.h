// SPDX-License-Identifier: GPL-3.0-or-later
// Blends with a bottle of the case whose peroxide test is overdue (or that has no date to count from), as of the day of
// the call: marked wherever they are proposed.
#ifndef MILDSOLVE_CLI_OVERDUE_H
#define MILDSOLVE_CLI_OVERDUE_H

#include "cli/common.h"

// False without a case or a day (inv->as_of).
bool overdue_bottle(const struct invocation *inv, const struct bottle_ref *bottle);
bool overdue_blend(const struct invocation *inv, const struct blend *blend);

// What stands behind such a blend, in the language of people, and, where the case announces people against whom hazards
// count (case_announces_people), behind one with a component of which no hazards are known; "" behind any other.
const char *overdue_mark(const struct invocation *inv, const struct blend *blend);

// Its bottles: "methoxypropanol, propan-2-ol". Those that stand in the text already are left out.
void overdue_add_names(const struct invocation *inv, const struct blend *blend, struct text *names);

// "Test methoxypropanol for peroxides first, or do not use it. " of such a blend; nothing of any other.
void add_overdue(const struct invocation *inv, const struct blend *blend, struct text *out);

// What the mark means, below a list whose names were added; nothing without any.
void write_overdue(const struct text *names, struct text *out);

// test_for_peroxides[]: the bottles.
void json_overdue(const struct invocation *inv, const struct blend *blend, struct json *json);

#endif
