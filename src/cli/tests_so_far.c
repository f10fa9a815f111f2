// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tests_so_far.h"

#include "base/language.h"
#include "cli/people_bar.h"
#include "present/page.h"
#include "selection/strong.h"

#include <math.h>

static const struct case_test *weakest_that_worked(const struct casefile *file, bool barred) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    const struct case_test *worked = NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (!tests[i].withdrawn && !case_test_stops(&tests[i]) && tests[i].result >= RESULT_PARTLY_REMOVED &&
            people_barred(file, &tests[i].mix) == barred &&
            (!worked || strong_share_of(&tests[i].mix) <= strong_share_of(&worked->mix)))
            worked = &tests[i];
    return worked;
}

const struct case_test *test_that_worked(const struct casefile *file) {
    return weakest_that_worked(file, false);
}

const struct case_test *test_that_worked_barred(const struct casefile *file) {
    return weakest_that_worked(file, true);
}

void write_worked_barred(const struct casefile *file, struct text *out) {
    const struct case_test *worked = test_that_worked_barred(file);
    struct text bar = {0};
    if (!worked)
        return;
    add_people_bar(file, &worked->mix, &bar);
    page_paragraph_f(out, 0, 2, "Test %s: %s, with %s. Not again %s; go on with something else.", worked->id,
                     say(result_words[worked->result]), worked->blend, text_bytes(&bar));
    out->failed |= bar.failed;
    text_release(&bar);
}

void add_test_place(const struct case_test *test, const char *passage, struct text *out) {
    if (passage)
        text_say(out, "in %s", passage);
    else if (!isnan(test->x_mm) && !isnan(test->y_mm))
        text_say(out, "at the site %g, %g mm", test->x_mm, test->y_mm);
    else
        text_say(out, "at an unnamed site");
}

static void write_stop(const struct case_test *test, struct text *out) {
    struct text place = {0};
    add_test_place(test, test->passage, &place);
    if (test->passage)
        page_paragraph_f(out, 0, 2,
                         "STOP: test %s (%s) found colour that is original or may be. No further test in passage "
                         "%s until that is decided.",
                         test->id, test->blend, test->passage);
    else
        page_paragraph_f(out, 0, 2,
                         "STOP %s: test %s (%s) found colour that is original or may be. No further test there until "
                         "that is decided.",
                         text_bytes(&place), test->id, test->blend);
    out->failed |= place.failed;
    text_release(&place);
}

void write_stops(const struct casefile *file, struct text *out) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (case_test_stops(&tests[i]))
            write_stop(&tests[i], out);
}

void write_tests_so_far(const struct casefile *file, struct text *out) {
    const struct case_test *worked = test_that_worked(file);
    write_stops(file, out);
    if (case_any_stop(file))
        page_paragraph(out, 0, 2, "Nothing of this list is to be used before that is decided.");
    write_worked_barred(file, out);
    if (worked && worked->layer)
        page_paragraph_f(out, 0, 2,
                         "Test %s on layer %s: %s, with %s. What was tested outranks this list, which is computed; for "
                         "the next swab ask mildsolve ladder.",
                         worked->id, worked->layer, say(result_words[worked->result]), worked->blend);
    else if (worked)
        page_paragraph_f(out, 0, 2,
                         "Test %s: %s, with %s. What was tested outranks this list, which is computed; for the next "
                         "swab ask mildsolve ladder.",
                         worked->id, say(result_words[worked->result]), worked->blend);
}
