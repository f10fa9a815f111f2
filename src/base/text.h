// SPDX-License-Identifier: GPL-3.0-or-later
// Growing text, and the few questions we ask of UTF-8.
#ifndef MILDSOLVE_BASE_TEXT_H
#define MILDSOLVE_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

// Zero-initialise to start empty. A failed allocation is remembered in `failed`; further additions do
// nothing, so callers check once at the end.
struct text {
    char *bytes; // NUL-terminated once something was added, else NULL
    size_t length;
    size_t capacity;
    bool failed;
};

void text_add(struct text *text, const char *more);
void text_add_n(struct text *text, const char *more, size_t length);
void text_add_repeated(struct text *text, const char *unit, size_t times);
void text_add_joined(struct text *text, const char *between, const char *const *items, size_t count);
void text_printf(struct text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));
// For people: the format in the chosen language and numbers with its decimal mark (base/print_words.h). text_printf is
// for notation, files and JSON.
void text_say(struct text *text, const char *format, ...) __attribute__((format(printf, 2, 3)));

// The bytes, never NULL.
const char *text_bytes(const struct text *text);
void text_release(struct text *text);

// Columns that a UTF-8 text takes on a terminal: combining marks none, East Asian wide characters two.
size_t text_columns(const char *utf8);

// Bytes of the longest prefix of `utf8` that takes at most `columns` columns.
size_t text_prefix(const char *utf8, size_t columns);

// Length in bytes of the valid UTF-8 sequence at `bytes` (1 to 4; no overlong forms, surrogates or values
// above U+10FFFF), or 0 when it is not valid. `left` bytes may be read. *ret_code may be NULL.
size_t utf8_sequence(const unsigned char *bytes, size_t left, unsigned *ret_code);

// Reads the character at `utf8`, which is not at its end, and returns its length in bytes. A byte that is no UTF-8
// counts as U+FFFD.
size_t utf8_next(const char *utf8, unsigned *ret_code);

// Bytes at `bytes` that no terminal should get: a control character (C0, DEL, C1), which could move the cursor or
// change the colours, or a byte that is no UTF-8, which some terminals take for one. 0 at any other character or no
// bytes left.
size_t utf8_control(const char *bytes, size_t left);

// Each of these becomes '?', except the ends of lines; what remains is no longer. Returns its length.
size_t text_neutralise(char *bytes, size_t length);

// The same text, or none on both sides (NULL).
bool text_same(const char *a, const char *b);

// Comparison of names as people mean them: case of ASCII and Latin letters with accents does not count, hyphen and
// space are the same; returns as strcmp.
int name_compare(const char *a, const char *b);

// Number of single-character edits between two names, case folded (Levenshtein), at most `limit` + 1.
size_t name_distance(const char *a, const char *b, size_t limit);

// Edits in a name that still look like a slip of its writer: 1 below 4 characters, 2 below 9, then a third of them;
// none in a text too long for any name.
size_t name_slips(const char *name);

// Where a word stands in a list that NULL ends; -1 when it is none of them. Every letter counts.
int word_index(const char *word, const char *const *words);

// The nearest to a name that is none of the known ones: begin, try every known name, then read `best`, the first of the
// nearest, NULL when no difference looks like a slip.
struct near_name {
    const char *given;
    const char *best;
    size_t least; // edits that the next one must stay below
};
struct near_name near_name_begin(const char *given);
void near_name_try(struct near_name *near, const char *known);

#endif
