// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/row_filter.h"

#include <string.h>

static bool starts_with(const char *at, const char *end, const char *words) {
    size_t length = strlen(words);
    return (size_t)(end - at) >= length && memcmp(at, words, length) == 0;
}

// --- is it the layout that can be told line by line? ---

// Punctuation that means something to YAML. ALIEN is what our tables have only inside quotation marks: comments, block
// and single-quoted texts, anchors and tags begin with one of these.
enum meaning { ORDINARY, QUOTE, OPENS, CLOSES, ALIEN };
static const unsigned char meaning_of[256] = {
    ['"'] = QUOTE, ['['] = OPENS, ['{'] = OPENS,  [']'] = CLOSES, ['}'] = CLOSES, ['!'] = ALIEN,
    ['#'] = ALIEN, ['$'] = ALIEN, ['%'] = ALIEN,  ['&'] = ALIEN,  ['*'] = ALIEN,  ['\''] = ALIEN,
    [';'] = ALIEN, ['<'] = ALIEN, ['>'] = ALIEN,  ['?'] = ALIEN,  ['@'] = ALIEN,  ['`'] = ALIEN,
    ['|'] = ALIEN, ['~'] = ALIEN, ['\\'] = ALIEN, ['\t'] = ALIEN, ['\r'] = ALIEN, ['\0'] = ALIEN};

// Characters that YAML takes for line ends besides the usual one, within quotation marks too: U+000D, U+0085, U+2028,
// U+2029.
static bool has_rare_line_end(const char *bytes, size_t length) {
    static const char *const rare[] = {"\r", "\xC2\x85", "\xE2\x80\xA8", "\xE2\x80\xA9"};
    const char *end = bytes + length;
    for (size_t i = 0; i < sizeof rare / sizeof rare[0]; i++)
        for (const char *at = bytes; (at = memchr(at, rare[i][0], (size_t)(end - at))); at++)
            if (starts_with(at, end, rare[i]))
                return true;
    return false;
}

// The closing mark of the text that opens at `at`, or NULL.
static const char *closing_mark(const char *at, const char *end) {
    for (at++; at < end && *at != '"'; at++)
        if (*at == '\\' && ++at == end)
            return NULL;
    return at < end ? at : NULL;
}

static bool closes_what_it_opens(const char *at, const char *end) {
    int depth = 0;
    for (; at < end; at++) {
        while (at < end && meaning_of[(unsigned char)*at] == ORDINARY)
            at++;
        switch (at < end ? (enum meaning)meaning_of[(unsigned char)*at] : ORDINARY) {
        case ORDINARY:
            break;
        case OPENS:
            depth++;
            break;
        case CLOSES:
            if (--depth < 0)
                return false;
            break;
        case QUOTE:
            at = closing_mark(at, end);
            if (!at)
                return false;
            break;
        case ALIEN:
            return false;
        }
    }
    return depth == 0;
}

static const char *line_end(const char *at, const char *end) {
    const char *found = memchr(at, '\n', (size_t)(end - at));
    return found ? found : end;
}

static bool is_our_layout(const char *bytes, size_t length) {
    const char *end = bytes + length, *stop;
    for (const char *at = bytes; at < end; at = stop + 1) {
        stop = line_end(at, end);
        bool key = at < stop && *at >= 'a' && *at <= 'z';
        if (!key && !starts_with(at, stop, "  - ") && !starts_with(at, stop, "    "))
            return false;
        if (!closes_what_it_opens(at, stop))
            return false;
    }
    return !has_rare_line_end(bytes, length);
}

// --- is the row wanted? ---

static size_t run_of(const char *at, const char *end, const char *more) {
    size_t count = 0;
    while (at + count < end && ((at[count] >= 'a' && at[count] <= 'z') || (at[count] >= '0' && at[count] <= '9') ||
                                (at[count] && strchr(more, at[count]))))
        count++;
    return count;
}

static bool is_word(const char *at, size_t length, const char *word) {
    return strncmp(at, word, length) == 0 && word[length] == '\0';
}

// Only one spelling of a number counts; another one may mean the same.
static bool is_usual_number(const char *at, size_t length) {
    for (size_t i = 0; i < length; i++)
        if (at[i] < '0' || at[i] > '9')
            return false;
    return length > 0 && at[0] != '0';
}

// True also when the text does not tell.
static bool value_is_wanted(const struct row_filter *filter, const char *value, size_t length) {
    if (filter->numbers && !is_usual_number(value, length))
        return true;
    for (size_t i = 0; i < filter->word_count; i++)
        if (is_word(value, length, filter->words[i]))
            return true;
    return false;
}

static bool is_filter_field(const struct row_filter *filter, const char *key, size_t length) {
    for (size_t i = 0; i < ROW_FILTER_FIELDS && filter->fields[i]; i++)
        if (is_word(key, length, filter->fields[i]))
            return true;
    return false;
}

// Reads "key: value, key: value" from the head of a row for as long as the values are single words.
static bool row_is_wanted(const struct row_filter *filter, const char *at, const char *end) {
    at += strlen("  - ");
    if (at < end && *at == '{')
        at++;
    for (;;) {
        const char *key = at;
        size_t key_length = run_of(key, end, "_");
        at += key_length;
        if (key_length == 0 || !starts_with(at, end, ": "))
            return true;
        const char *value = at + 2;
        size_t length = run_of(value, end, "-");
        at = value + length;
        if (length == 0 || (at < end && *at != ',' && *at != '}'))
            return true;
        if (is_filter_field(filter, key, key_length) && !value_is_wanted(filter, value, length))
            return false;
        if (!starts_with(at, end, ", "))
            return true;
        at += 2;
    }
}

// --- taking out ---

enum { ROOM = 4 };

struct taking_out {
    const struct row_filter *filter;
    char *out;
    char *room; // an empty line of the list with room for "  []"
    bool in_list;
    bool skips; // the lines of a row that is not wanted
    size_t kept;
    size_t taken;
};

// A list of no rows is still a list.
static void end_list(struct taking_out *taking) {
    if (taking->in_list && taking->kept == 0 && taking->room)
        memcpy(taking->room, "  []", ROOM);
    taking->room = NULL;
    taking->in_list = taking->skips = false;
}

static void begin_row(struct taking_out *taking, const char *line, const char *stop) {
    taking->skips = !row_is_wanted(taking->filter, line, stop);
    taking->kept += !taking->skips;
    taking->taken += taking->skips;
}

static void take_line(struct taking_out *taking, const char *line, const char *stop) {
    if (*line != ' ') {
        end_list(taking);
        size_t length = strlen(taking->filter->list_key);
        taking->in_list = (size_t)(stop - line) == length + 1 && memcmp(line, taking->filter->list_key, length) == 0 &&
                          line[length] == ':';
        taking->kept = 0;
    } else if (taking->in_list && line[2] == '-') {
        begin_row(taking, line, stop);
    }
    if (!taking->skips) {
        memmove(taking->out, line, (size_t)(stop - line));
        taking->out += stop - line;
    } else if (!taking->room) { // the line taken out is longer
        taking->room = taking->out;
        memset(taking->out, ' ', ROOM);
        taking->out += ROOM;
    }
}

size_t row_filter_apply(const struct row_filter *filter, char *bytes, size_t *length) {
    if (!is_our_layout(bytes, *length))
        return 0;
    struct taking_out taking = {.filter = filter, .out = bytes};
    const char *end = bytes + *length, *stop;
    for (const char *at = bytes; at < end; at = stop + 1) {
        stop = line_end(at, end);
        take_line(&taking, at, stop);
        if (stop < end)
            *taking.out++ = '\n';
    }
    end_list(&taking);
    *length = (size_t)(taking.out - bytes);
    return taking.taken;
}
