// SPDX-License-Identifier: GPL-3.0-or-later
// Status codes for the program, sentences for the person.
#ifndef MILDSOLVE_BASE_ERROR_H
#define MILDSOLVE_BASE_ERROR_H

#include <stdarg.h>
#include <stdbool.h>

// One list of codes and names: X(enumerator, name, exit status).
#define STATUS_LIST(X)                                                                                                 \
    X(STATUS_OK, "ok", 0)                                                                                              \
    X(STATUS_NEGATIVE, "the answer is no or cannot be judged", 1)                                                      \
    X(STATUS_USAGE, "bad command line", 2)                                                                             \
    X(STATUS_INPUT, "bad input", 2)                                                                                    \
    X(STATUS_UNKNOWN_NAME, "unknown name", 2)                                                                          \
    X(STATUS_RANGE, "value out of range", 2)                                                                           \
    X(STATUS_NO_DATA, "no data", 2)                                                                                    \
    X(STATUS_NOT_FOUND, "file not found", 2)                                                                           \
    X(STATUS_NO_ROOT, "no solution in the interval", 2)                                                                \
    X(STATUS_ITERATIONS, "iteration limit reached", 3)                                                                 \
    X(STATUS_MEMORY, "out of memory", 3)                                                                               \
    X(STATUS_SYSTEM, "the system failed", 3)                                                                           \
    X(STATUS_INTERRUPTED, "interrupted", 130)

enum status {
#define X(code, name, exit_status) code,
    STATUS_LIST(X)
#undef X
};

enum { ERROR_TEXT_SIZE = 1024 };

// The sentence that goes with a status other than STATUS_OK. Cleared by error_clear; never allocated.
struct error {
    enum status status;
    char text[ERROR_TEXT_SIZE];
};

void error_clear(struct error *err);

// Writes the sentence (cut at ERROR_TEXT_SIZE - 1 bytes, on a UTF-8 boundary) and returns `status`, so
// that callers write `return error_set(err, STATUS_RANGE, "...", ...)`. err may be NULL. Numbers in it keep the decimal
// point in every language: it speaks of what was typed or may be.
enum status error_set(struct error *err, enum status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

// Puts "<context>: " before the sentence already in err; returns err's status (or `status` if err is NULL).
enum status error_wrap(struct error *err, enum status status, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

const char *status_name(enum status status);

// Exit status of the process for a status: 0, 1, 2, 3 or 130.
int status_exit(enum status status);

#endif
