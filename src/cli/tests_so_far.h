// SPDX-License-Identifier: GPL-3.0-or-later
// What the swab tests of a case say before any model does: where to stop, and what has worked.
#ifndef MILDSOLVE_CLI_TESTS_SO_FAR_H
#define MILDSOLVE_CLI_TESTS_SO_FAR_H

#include "base/text.h"
#include "casefile/casefile.h"

// The weakest test that stands, took off at least part of the layer and found no original colour; of equals the
// latest. NULL without one; `file` may be NULL.
const struct case_test *test_that_worked(const struct casefile *file);

// One paragraph for every test that found original colour; nothing without. `file` may be NULL.
void write_stops(const struct casefile *file, struct text *out);

// Above a list that is only computed: the stops, and the test that worked.
void write_tests_so_far(const struct casefile *file, struct text *out);

#endif
