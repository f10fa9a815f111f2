// SPDX-License-Identifier: GPL-3.0-or-later
// Which numbers an answer in JSON holds, by the keys that lead to them.
#ifndef MILDSOLVE_PRESENT_JSON_NUMBERS_H
#define MILDSOLVE_PRESENT_JSON_NUMBERS_H

#include "base/text.h"

enum { JSON_PATH_BYTES = 240 };

// Calls `visit` for every number in an answer that present/json.h wrote, in its order, with the keys that lead to it:
// "teas.mean_of_fractions.fd", "materials[].red". Longer paths are cut.
void json_each_number(const char *answer, void (*visit)(const char *path, void *context), void *context);

#endif
