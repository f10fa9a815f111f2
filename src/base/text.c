// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/text.h"

#include "base/memory.h"
#include "base/print_words.h"

#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FIRST_CAPACITY = 256, NAME_LIMIT = 128, NAME_BYTES_MOST = 256 };

static bool make_room(struct text *text, size_t more) {
    if (text->failed)
        return false;
    if (more > SIZE_MAX / 4 || text->length > SIZE_MAX / 4) {
        text->failed = true;
        return false;
    }
    size_t needed = text->length + more + 1;
    if (needed <= text->capacity)
        return true;
    size_t capacity = text->capacity ? text->capacity * 2 : FIRST_CAPACITY;
    if (capacity < needed)
        capacity = needed;
    char *bytes = memory_resize(text->bytes, capacity, 1);
    if (!bytes) {
        text->failed = true;
        return false;
    }
    text->bytes = bytes;
    text->capacity = capacity;
    return true;
}

void text_add_n(struct text *text, const char *more, size_t length) {
    if (!make_room(text, length))
        return;
    memcpy(text->bytes + text->length, more, length);
    text->length += length;
    text->bytes[text->length] = '\0';
}

void text_add(struct text *text, const char *more) {
    text_add_n(text, more, strlen(more));
}

void text_add_repeated(struct text *text, const char *unit, size_t times) {
    for (size_t i = 0; i < times; i++)
        text_add(text, unit);
}

void text_add_joined(struct text *text, const char *between, const char *const *items, size_t count) {
    for (size_t i = 0; i < count; i++) {
        text_add(text, i ? between : "");
        text_add(text, items[i]);
    }
}

// The arguments are read twice, so the caller hands over two copies.
static void add_formatted(struct text *text, printer *print, const char *format, va_list to_measure, va_list to_write) {
    int length = print(NULL, 0, format, to_measure);
    if (length < 0 || !make_room(text, (size_t)length))
        return;
    print(text->bytes + text->length, (size_t)length + 1, format, to_write);
    text->length += (size_t)length;
}

void text_printf(struct text *text, const char *format, ...) {
    va_list to_measure, to_write;
    va_start(to_measure, format);
    va_start(to_write, format);
    add_formatted(text, vsnprintf, format, to_measure, to_write);
    va_end(to_write);
    va_end(to_measure);
}

void text_say(struct text *text, const char *format, ...) {
    va_list to_measure, to_write;
    va_start(to_measure, format);
    va_start(to_write, format);
    add_formatted(text, vprint_words, format, to_measure, to_write);
    va_end(to_write);
    va_end(to_measure);
}

const char *text_bytes(const struct text *text) {
    return text->bytes ? text->bytes : "";
}

void text_release(struct text *text) {
    if (!text)
        return;
    memory_free(text->bytes);
    *text = (struct text){0};
}

size_t utf8_sequence(const unsigned char *bytes, size_t left, unsigned *ret_code) {
    if (left == 0)
        return 0;
    unsigned lead = bytes[0];
    size_t length = lead < 0x80 ? 1 : lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF5 ? 4 : 0;
    if (length == 0 || length > left)
        return 0;
    static const unsigned char lead_mask[5] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    static const unsigned smallest[5] = {0, 0, 0x80, 0x800, 0x10000};
    unsigned code = lead & lead_mask[length];
    for (size_t i = 1; i < length; i++) {
        if ((bytes[i] & 0xC0u) != 0x80u)
            return 0;
        code = code << 6 | (bytes[i] & 0x3Fu);
    }
    if (code < smallest[length] || code > 0x10FFFF || (code >= 0xD800 && code <= 0xDFFF))
        return 0;
    if (ret_code)
        *ret_code = code;
    return length;
}

// Width without asking the locale, so that output is the same on every machine. Ranges: combining marks
// and zero-width characters; wide = CJK, Hangul, fullwidth forms, emoji (Unicode Standard Annex 11, main blocks).
static size_t code_columns(unsigned code) {
    static const unsigned none[][2] = {{0x0300, 0x036F}, {0x0483, 0x0489}, {0x0591, 0x05BD}, {0x064B, 0x065F},
                                       {0x200B, 0x200F}, {0x202A, 0x202E}, {0x2060, 0x2069}, {0x20D0, 0x20F0},
                                       {0xFE00, 0xFE0F}, {0xFE20, 0xFE2F}, {0xFEFF, 0xFEFF}};
    static const unsigned two[][2] = {{0x1100, 0x115F},   {0x2E80, 0x303E},   {0x3041, 0xA4CF},  {0xAC00, 0xD7A3},
                                      {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},   {0xFF00, 0xFF60},  {0xFFE0, 0xFFE6},
                                      {0x1F300, 0x1F64F}, {0x1F900, 0x1F9FF}, {0x20000, 0x3FFFD}};
    for (size_t i = 0; i < sizeof none / sizeof none[0]; i++)
        if (code >= none[i][0] && code <= none[i][1])
            return 0;
    for (size_t i = 0; i < sizeof two / sizeof two[0]; i++)
        if (code >= two[i][0] && code <= two[i][1])
            return 2;
    return 1;
}

size_t utf8_next(const char *utf8, unsigned *ret_code) {
    size_t length = utf8_sequence((const unsigned char *)utf8, strnlen(utf8, 4), ret_code);
    if (length == 0) {
        *ret_code = 0xFFFD;
        return 1;
    }
    return length;
}

size_t utf8_control(const char *bytes, size_t left) {
    unsigned code = 0;
    if (left == 0)
        return 0;
    size_t length = utf8_sequence((const unsigned char *)bytes, left, &code);
    if (length == 0)
        return 1;
    return code < 0x20 || (code >= 0x7F && code < 0xA0) ? length : 0;
}

size_t text_neutralise(char *bytes, size_t length) {
    size_t kept = 0;
    for (size_t i = 0; i < length;) {
        size_t control = bytes[i] == '\n' ? 0 : utf8_control(bytes + i, length - i);
        size_t whole = control ? control : utf8_sequence((const unsigned char *)bytes + i, length - i, NULL);
        memmove(bytes + kept, control ? "?" : bytes + i, control ? 1 : whole);
        kept += control ? 1 : whole;
        i += whole;
    }
    return kept;
}

size_t text_columns(const char *utf8) {
    size_t columns = 0;
    while (*utf8) {
        unsigned code;
        utf8 += utf8_next(utf8, &code);
        columns += code_columns(code);
    }
    return columns;
}

size_t text_prefix(const char *utf8, size_t columns) {
    size_t bytes = 0;
    size_t taken = 0;
    while (utf8[bytes]) {
        unsigned code;
        size_t length = utf8_next(utf8 + bytes, &code);
        size_t width = code_columns(code);
        if (taken + width > columns)
            break;
        taken += width;
        bytes += length;
    }
    return bytes;
}

// ASCII, Latin-1 and Latin Extended-A letters to lower case; enough for names in our five languages. Hyphen and space
// are one: "white spirit" and "white-spirit", "dammar aged" and "dammar-aged".
static unsigned folded(unsigned code) {
    if (code == '-')
        return ' ';
    if (code >= 'A' && code <= 'Z')
        return code + 32;
    if (code >= 0xC0 && code <= 0xDE && code != 0xD7)
        return code + 32;
    if (code >= 0x100 && code <= 0x137)
        return code | 1u;
    return code;
}

bool text_same(const char *a, const char *b) {
    return a && b ? strcmp(a, b) == 0 : a == b;
}

int name_compare(const char *a, const char *b) {
    for (;;) {
        unsigned x = 0;
        unsigned y = 0;
        if (*a)
            a += utf8_next(a, &x);
        if (*b)
            b += utf8_next(b, &y);
        x = folded(x);
        y = folded(y);
        if (x != y)
            return x < y ? -1 : 1;
        if (x == 0)
            return 0;
    }
}

static size_t name_codes(const char *name, unsigned codes[NAME_LIMIT]) {
    size_t count = 0;
    while (*name && count < NAME_LIMIT) {
        unsigned code;
        name += utf8_next(name, &code);
        codes[count++] = folded(code);
    }
    return count;
}

static size_t smallest_of(size_t a, size_t b, size_t c) {
    size_t least = a < b ? a : b;
    return least < c ? least : c;
}

size_t name_distance(const char *a, const char *b, size_t limit) {
    unsigned codes_a[NAME_LIMIT];
    unsigned codes_b[NAME_LIMIT];
    size_t count_a = name_codes(a, codes_a);
    size_t count_b = name_codes(b, codes_b);
    if (count_a > count_b + limit || count_b > count_a + limit)
        return limit + 1;
    size_t row[NAME_LIMIT + 1];
    for (size_t j = 0; j <= count_b; j++)
        row[j] = j;
    for (size_t i = 1; i <= count_a; i++) {
        size_t diagonal = row[0], least = i;
        row[0] = i;
        for (size_t j = 1; j <= count_b; j++) {
            size_t above = row[j];
            size_t change = codes_a[i - 1] == codes_b[j - 1] ? 0 : 1;
            row[j] = smallest_of(above + 1, row[j - 1] + 1, diagonal + change);
            diagonal = above;
            least = row[j] < least ? row[j] : least;
        }
        if (least > limit) // no later row has less
            return limit + 1;
    }
    return row[count_b] > limit ? limit + 1 : row[count_b];
}

size_t name_slips(const char *name) {
    if (strnlen(name, NAME_BYTES_MOST + 1) > NAME_BYTES_MOST)
        return 0;
    size_t characters = text_columns(name);
    return characters < 4 ? 1 : characters < 9 ? 2 : characters / 3;
}

int word_index(const char *word, const char *const *words) {
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], word) == 0)
            return i;
    return -1;
}

struct near_name near_name_begin(const char *given) {
    return (struct near_name){.given = given, .least = name_slips(given) + 1};
}

void near_name_try(struct near_name *near, const char *known) {
    size_t distance = name_distance(near->given, known, near->least);
    if (distance < near->least) {
        near->least = distance;
        near->best = known;
    }
}
