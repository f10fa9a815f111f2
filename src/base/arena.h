// SPDX-License-Identifier: GPL-3.0-or-later
// Memory that lives and dies together: everything read from one table, everything built for one answer.
#ifndef MILDSOLVE_BASE_ARENA_H
#define MILDSOLVE_BASE_ARENA_H

#include <stdarg.h>
#include <stddef.h>

struct arena_chunk;

// Zero-initialise to make an empty arena. Not for sharing between threads.
struct arena {
    struct arena_chunk *chunk;
    size_t used;  // bytes handed out, for the limits on what a file may cost
    size_t limit; // 0 = none; a request beyond it returns NULL
};

// count * size zeroed bytes, aligned for any type; NULL when memory or the limit is exhausted.
void *arena_new(struct arena *arena, size_t count, size_t size);

// Copies; NULL when memory is exhausted.
char *arena_text(struct arena *arena, const char *text);
char *arena_text_n(struct arena *arena, const char *text, size_t length);
char *arena_printf(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *arena_vprintf(struct arena *arena, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));
// For people, as text_say of base/text.h.
char *arena_say(struct arena *arena, const char *format, ...) __attribute__((format(printf, 2, 3)));
char *arena_vsay(struct arena *arena, const char *format, va_list arguments) __attribute__((format(printf, 2, 0)));

// Frees everything; the arena is empty and usable again. NULL-safe.
void arena_release(struct arena *arena);

#endif
