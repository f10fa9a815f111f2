// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/arena.h"

#include "base/memory.h"
#include "base/print_words.h"

#include <stdalign.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_CHUNK = 16 * 1024, LARGEST_CHUNK = 1024 * 1024 };

struct arena_chunk {
    struct arena_chunk *next;
    size_t size;
    size_t used;
    alignas(max_align_t) unsigned char bytes[];
};

static size_t rounded(size_t bytes) {
    const size_t step = alignof(max_align_t);
    return (bytes + step - 1) / step * step;
}

// Chunks double in size, so a table of n bytes costs O(log n) calls of the allocator.
static struct arena_chunk *add_chunk(struct arena *arena, size_t bytes) {
    size_t size = arena->chunk ? arena->chunk->size * 2 : FIRST_CHUNK;
    if (size > LARGEST_CHUNK)
        size = LARGEST_CHUNK;
    if (size < bytes)
        size = bytes;
    if (size > SIZE_MAX - sizeof(struct arena_chunk))
        return NULL;
    struct arena_chunk *chunk = memory_new(1, sizeof *chunk + size);
    if (!chunk)
        return NULL;
    chunk->size = size;
    chunk->next = arena->chunk;
    arena->chunk = chunk;
    return chunk;
}

void *arena_new(struct arena *arena, size_t count, size_t size) {
    if (size && count > (SIZE_MAX / 2) / size)
        return NULL;
    size_t wanted = count * size;
    size_t bytes = rounded(wanted > 0 ? wanted : 1);
    if (arena->limit && (bytes > arena->limit || arena->used > arena->limit - bytes))
        return NULL;
    struct arena_chunk *chunk = arena->chunk;
    if (!chunk || chunk->size - chunk->used < bytes)
        chunk = add_chunk(arena, bytes);
    if (!chunk)
        return NULL;
    void *block = chunk->bytes + chunk->used;
    chunk->used += bytes;
    arena->used += bytes;
    return block;
}

char *arena_text_n(struct arena *arena, const char *text, size_t length) {
    char *copy = arena_new(arena, length + 1, 1);
    if (copy)
        memcpy(copy, text, length);
    return copy;
}

char *arena_text(struct arena *arena, const char *text) {
    return arena_text_n(arena, text, strlen(text));
}

static char *printed(struct arena *arena, printer *print, const char *format, va_list arguments) {
    va_list again;
    va_copy(again, arguments);
    int length = print(NULL, 0, format, again);
    va_end(again);
    char *text = length < 0 ? NULL : arena_new(arena, (size_t)length + 1, 1);
    if (text)
        print(text, (size_t)length + 1, format, arguments);
    return text;
}

char *arena_vprintf(struct arena *arena, const char *format, va_list arguments) {
    return printed(arena, vsnprintf, format, arguments);
}

char *arena_vsay(struct arena *arena, const char *format, va_list arguments) {
    return printed(arena, vprint_words, format, arguments);
}

char *arena_printf(struct arena *arena, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_vprintf(arena, format, arguments);
    va_end(arguments);
    return text;
}

char *arena_say(struct arena *arena, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    char *text = arena_vsay(arena, format, arguments);
    va_end(arguments);
    return text;
}

void arena_release(struct arena *arena) {
    if (!arena)
        return;
    struct arena_chunk *chunk = arena->chunk;
    while (chunk) {
        struct arena_chunk *next = chunk->next;
        memory_free(chunk);
        chunk = next;
    }
    *arena = (struct arena){.limit = arena->limit};
}
