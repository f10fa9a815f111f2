// SPDX-License-Identifier: GPL-3.0-or-later
// One fuzzing target: bytes in, no fault of ours, whatever they are. What a user may type wrong is an answer, not a
// fault; a broken law aborts. The same file is linked with a fuzzer's main or with replay.c, which runs stored inputs.
#ifndef MILDSOLVE_TESTS_FUZZ_TARGET_H
#define MILDSOLVE_TESTS_FUZZ_TARGET_H

#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length);

// A law of the program, asked for in every build.
#define LAW(holds)                                                                                                     \
    do {                                                                                                               \
        if (!(holds)) {                                                                                                \
            fprintf(stderr, "%s:%d: broken: %s\n", __FILE__, __LINE__, #holds);                                        \
            abort();                                                                                                   \
        }                                                                                                              \
    } while (0)

// The bytes as a text of just their length, so that a read beyond it is seen; to be freed.
static inline char *input_text(const uint8_t *bytes, size_t length) {
    char *text = malloc(length + 1);
    LAW(text);
    if (length)
        memcpy(text, bytes, length);
    text[length] = '\0';
    return text;
}

// The bytes as a file, for what reads files only.
static inline void write_input(const char *path, const uint8_t *bytes, size_t length) {
    FILE *file = fopen(path, "wb");
    LAW(file && fwrite(bytes, 1, length, file) == length && fclose(file) == 0);
}

#endif
