// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/tests_so_far.h"

#include "base/language.h"
#include "present/page.h"
#include "selection/strong.h"

const struct case_test *test_that_worked(const struct casefile *file) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    const struct case_test *worked = NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (!tests[i].withdrawn && !case_test_stops(&tests[i]) && tests[i].result >= RESULT_PARTLY_REMOVED &&
            (!worked || strong_share_of(&tests[i].mix) <= strong_share_of(&worked->mix)))
            worked = &tests[i];
    return worked;
}

void write_stops(const struct casefile *file, struct text *out) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (case_test_stops(&tests[i]))
            page_paragraph_f(out, 0, 2,
                             "STOP: test %s (%s) found colour that is original or may be. No further test in passage "
                             "%s until that is decided.",
                             tests[i].id, tests[i].blend, tests[i].passage ? tests[i].passage : say("of that site"));
}

void write_tests_so_far(const struct casefile *file, struct text *out) {
    const struct case_test *worked = test_that_worked(file);
    size_t length = out->length;
    write_stops(file, out);
    if (out->length > length)
        page_paragraph(out, 0, 2, "Nothing of this list is to be used before that is decided.");
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
