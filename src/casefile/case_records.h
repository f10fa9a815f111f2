// SPDX-License-Identifier: GPL-3.0-or-later
// Descriptions of the records of a case file, for its reader, for `record` and for the manual's test.
#ifndef MILDSOLVE_CASEFILE_CASE_RECORDS_H
#define MILDSOLVE_CASEFILE_CASE_RECORDS_H

#include "data/schema.h"

extern const struct record case_record, case_test_record;

// A field of a test by its key; SIZE_MAX when a test has no such key.
size_t case_test_field(const char *key);

#endif
