// SPDX-License-Identifier: GPL-3.0-or-later
// The end of main() of a test program.
#ifndef MILDSOLVE_TESTS_SUITE_H
#define MILDSOLVE_TESTS_SUITE_H

#include <check.h>
#include <stdlib.h>

static inline int suite_run_as(Suite *suite, enum fork_status processes) {
    SRunner *runner = srunner_create(suite);
    srunner_set_fork_status(runner, processes);
    srunner_run_all(runner, CK_ENV); // CK_VERBOSITY says how much is printed
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}

// Runs the suite and frees it; returns the exit status of the program.
static inline int suite_run(Suite *suite) {
    return suite_run_as(suite, CK_FORK_GETENV);
}

// For tests that change the directory, the user or the limits of their process: each in its own, whatever CK_FORK says.
static inline int suite_run_in_processes(Suite *suite) {
    return suite_run_as(suite, CK_FORK);
}

#endif
