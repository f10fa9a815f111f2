// SPDX-License-Identifier: GPL-3.0-or-later
// What the swab tests of a case say before any model does: where to stop, and what has worked.
#ifndef MILDSOLVE_CLI_TESTS_SO_FAR_H
#define MILDSOLVE_CLI_TESTS_SO_FAR_H

#include "base/text.h"
#include "casefile/casefile.h"

// The weakest test that stands, took off at least part of the layer and found no original colour, with a blend that the
// people of the case may work with; of equals the latest. NULL without one; `file` may be NULL.
const struct case_test *test_that_worked(const struct casefile *file);

// The same of the blends that they must not work with (people_bar.h).
const struct case_test *test_that_worked_barred(const struct casefile *file);

// One paragraph that such a test is not to be made again, and why; nothing without one.
void write_worked_barred(const struct casefile *file, struct text *out);

// Where a test was made: "in sky", of a test without a passage "at the site 60, 372 mm" or "at an unnamed site".
// `passage` is its passage as it is to be printed.
void add_test_place(const struct case_test *test, const char *passage, struct text *out);

// One paragraph for every test that found original colour; nothing without. `file` may be NULL.
void write_stops(const struct casefile *file, struct text *out);

// Above a list that is only computed: the stops, and the test that worked.
void write_tests_so_far(const struct casefile *file, struct text *out);

#endif
