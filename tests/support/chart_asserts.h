// SPDX-License-Identifier: GPL-3.0-or-later
// What the tests of every chart ask of its layout.
#ifndef MILDSOLVE_TESTS_SUPPORT_CHART_ASSERTS_H
#define MILDSOLVE_TESTS_SUPPORT_CHART_ASSERTS_H

#include "base/memory.h"
#include "charts.h"

#include <check.h>
#include <string.h>

typedef enum status (*lay_out_function)(void); // lays out the chart of the test

// Refused as out of range, in these words.
static inline void assert_layout_refused(lay_out_function lay_out, struct error *err, const char *words) {
    error_clear(err);
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    ck_assert_msg(strstr(err->text, words) != NULL, "'%s' lacks '%s'", err->text, words);
}

// Each allocation of the layout fails once, is reported, and the next try may go on: more than `least` of them, fewer
// than `most`. The layout of the last try stays.
static inline void assert_failed_allocations_reported(lay_out_function lay_out, unsigned long least,
                                                      unsigned long most) {
    unsigned long n = 1;
    for (; n < most; n++) {
        memory_fail_at(n);
        enum status status = lay_out();
        memory_fail_at(0);
        if (status == STATUS_OK)
            break;
        ck_assert_int_eq(status, STATUS_MEMORY);
    }
    ck_assert_uint_gt(n, least);
    ck_assert_uint_lt(n, most);
}

static inline void assert_golden(const char *name, const struct text *text) {
    ck_assert(!text->failed);
    ck_assert_msg(golden_matches(name, text->bytes), "the layout is not that of tests/golden/%s", name);
}

#endif
