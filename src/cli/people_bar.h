// SPDX-License-Identifier: GPL-3.0-or-later
// What the people of a case must not work with, whatever a test of it found.
#ifndef MILDSOLVE_CLI_PEOPLE_BAR_H
#define MILDSOLVE_CLI_PEOPLE_BAR_H

#include "base/text.h"
#include "casefile/casefile.h"

// Does the blend hold what the flags of the people leave out (the same classes as case_option_fill)? `file` may be
// NULL.
bool people_barred(const struct casefile *file, const struct blend *blend);

// "while a pregnancy or breastfeeding is announced (toluene)", in the chosen language; nothing where it is not barred.
void add_people_bar(const struct casefile *file, const struct blend *blend, struct text *out);

#endif
