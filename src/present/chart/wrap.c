// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/wrap.h"

#include "base/text.h"

#include <assert.h>
#include <string.h>

static const char ellipsis[] = "\u2026";

double metric_width(const struct text_metric *metric, const char *utf8, double size, bool bold) {
    return metric->width(metric->data, utf8, size, bold);
}

static double fixed_width(void *data, const char *utf8, double size, bool bold) {
    (void)data;
    return (bold ? 0.55 : 0.5) * size * (double)text_columns(utf8);
}

struct text_metric metric_fixed(void) {
    return (struct text_metric){.width = fixed_width};
}

// C0 and C1 controls, line and paragraph separators, and the marks that would turn the direction of what follows.
static bool unprintable(unsigned code) {
    return code < 0x20 || (code >= 0x7F && code < 0xA0) || code == 0x2028 || code == 0x2029 ||
           (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069) || code == 0xFEFF;
}

char *text_printable(struct arena *arena, const char *text) {
    static const char replacement[] = "\uFFFD";
    size_t length = text ? strlen(text) : 0;
    char *copy = arena_new(arena, length * (sizeof replacement - 1) + 1, 1);
    if (!copy)
        return NULL;
    size_t at = 0;
    for (size_t i = 0; i < length;) {
        unsigned code = 0;
        size_t bytes = utf8_sequence((const unsigned char *)text + i, length - i, &code);
        if (bytes == 0) {
            memcpy(copy + at, replacement, sizeof replacement - 1);
            at += sizeof replacement - 1;
            i++;
            continue;
        }
        if (code == ' ' || unprintable(code)) {
            if (at > 0 && copy[at - 1] != ' ')
                copy[at++] = ' ';
        } else {
            memcpy(copy + at, text + i, bytes);
            at += bytes;
        }
        i += bytes;
    }
    while (at > 0 && copy[at - 1] == ' ')
        at--;
    copy[at] = '\0';
    return copy;
}

struct wrapping {
    struct arena *arena;
    const struct text_metric *metric;
    double size;
    bool bold;
    double width;
    char *scratch; // as long as the text and an ellipsis
};

static double part_width(const struct wrapping *wrap, const char *text, size_t length, const char *tail) {
    memcpy(wrap->scratch, text, length);
    strcpy(wrap->scratch + length, tail);
    return metric_width(wrap->metric, wrap->scratch, wrap->size, wrap->bold);
}

// Bytes of the character at `text` together with the marks that sit on it.
static size_t cluster_length(const char *text) {
    size_t left = strlen(text);
    size_t length = utf8_sequence((const unsigned char *)text, left, NULL);
    while (length < left) {
        size_t next = utf8_sequence((const unsigned char *)text + length, left - length, NULL);
        char one[8] = {0};
        memcpy(one, text + length, next);
        if (text_columns(one) > 0)
            break;
        length += next;
    }
    return length;
}

// The longest beginning that fits with `tail` behind it, cut between characters; at least one of them, so that a
// line always takes something.
static size_t fitting_characters(const struct wrapping *wrap, const char *text, const char *tail) {
    size_t length = cluster_length(text);
    while (text[length]) {
        size_t longer = length + cluster_length(text + length);
        if (part_width(wrap, text, longer, tail) > wrap->width)
            break;
        length = longer;
    }
    return length;
}

// "30", "%" and "+" belong to the word before them, so a line does not begin with one.
static bool clings(char first) {
    return (first >= '0' && first <= '9') || first == '%' || first == '+';
}

// The longest beginning that fits, cut at a space; with `strict` only at one that may be cut. 0 when none fits.
static size_t fitting_words(const struct wrapping *wrap, const char *text, bool strict) {
    size_t fits = 0;
    for (size_t end = 0; text[end];) {
        end += strcspn(text + end, " ");
        if (part_width(wrap, text, end, "") > wrap->width)
            break;
        if (text[end] == '\0' || !strict || !clings(text[end + 1]))
            fits = end;
        if (text[end])
            end++;
    }
    return fits;
}

// A word that must be broken breaks behind its last hyphen, if that leaves more than half of the line.
static size_t after_hyphen(const char *text, size_t length) {
    for (size_t end = length; end > length / 2; end--)
        if (text[end - 1] == '-' && text[length])
            return end;
    return length;
}

static size_t fitting(const struct wrapping *wrap, const char *text) {
    size_t fits = fitting_words(wrap, text, true);
    if (fits == 0)
        fits = fitting_words(wrap, text, false);
    return fits > 0 ? fits : after_hyphen(text, fitting_characters(wrap, text, ""));
}

static bool add_line(const struct wrapping *wrap, struct text_lines *lines, const char *text, size_t length,
                     const char *tail) {
    while (length > 0 && text[length - 1] == ' ')
        length--;
    lines->widths[lines->count] = part_width(wrap, text, length, tail);
    const char *line = arena_text(wrap->arena, wrap->scratch);
    lines->items[lines->count] = line;
    if (line)
        lines->count++;
    return line != NULL;
}

static bool add_last_line(const struct wrapping *wrap, struct text_lines *lines, const char *text) {
    if (part_width(wrap, text, strlen(text), "") <= wrap->width)
        return add_line(wrap, lines, text, strlen(text), "");
    lines->shortened = true;
    return add_line(wrap, lines, text, fitting_characters(wrap, text, ellipsis), ellipsis);
}

bool text_wrap(struct arena *arena, const struct text_metric *metric, const char *text, double size, bool bold,
               double width, size_t most, struct text_lines *ret) {
    assert(most >= 1 && width > 0 && size > 0);
    struct wrapping wrap = {arena, metric, size, bold, width, arena_new(arena, strlen(text) + sizeof ellipsis, 1)};
    struct text_lines lines = {.items = arena_new(arena, most, sizeof *lines.items),
                               .widths = arena_new(arena, most, sizeof *lines.widths)};
    if (!wrap.scratch || !lines.items || !lines.widths)
        return false;
    while (lines.count + 1 < most && part_width(&wrap, text, strlen(text), "") > width) {
        size_t length = fitting(&wrap, text);
        if (!add_line(&wrap, &lines, text, length, ""))
            return false;
        text += length + strspn(text + length, " ");
    }
    bool finished = lines.count > 0 && *text == '\0';
    if (!finished && !add_last_line(&wrap, &lines, text))
        return false;
    *ret = lines;
    return true;
}
