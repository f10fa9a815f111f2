// SPDX-License-Identifier: GPL-3.0-or-later
// One fuzzing target: bytes in, no fault of ours, whatever they are. What a user may type wrong is an answer, not a
// fault; a broken law aborts. The same file is linked with a fuzzer's main or with replay.c, which runs stored inputs.
#ifndef MILDSOLVE_TESTS_FUZZ_TARGET_H
#define MILDSOLVE_TESTS_FUZZ_TARGET_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

// A law of the program, asked for in every build.
#define LAW(holds)                                                                                                     \
    do {                                                                                                               \
        if (!(holds)) {                                                                                                \
            fprintf(stderr, "%s:%d: broken: %s\n", __FILE__, __LINE__, #holds);                                        \
            abort();                                                                                                   \
        }                                                                                                              \
    } while (0)

#endif
