// SPDX-License-Identifier: GPL-3.0-or-later
// A format is read twice: for the types of its arguments, which may stand in any order, then to print it. Each
// conversion is left to snprintf; only the decimal point of what it wrote is exchanged.
#include "base/print_words.h"

#include "base/language.h"

#include <assert.h>
#include <limits.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { FLAGS_MOST = 6, SPEC_BYTES = 48, NONE = -1 };

enum type {
    TYPE_NONE,
    TYPE_INT,
    TYPE_LONG,
    TYPE_LONG_LONG,
    TYPE_SIZE,
    TYPE_MAX,
    TYPE_DIFFERENCE,
    TYPE_DOUBLE,
    TYPE_POINTER
};

union argument {
    int whole;
    long whole_long;
    long long whole_long_long;
    size_t size;
    intmax_t whole_max;
    ptrdiff_t difference;
    double number;
    const void *pointer;
};

// "%-8.*f" in parts. Widths and precisions are numbers or places of arguments.
struct conversion {
    const char *flags;
    size_t flag_count;
    int width, width_place; // NONE: not given
    int precision, precision_place;
    const char *length; // "", "hh", "l", "z", ...
    size_t length_bytes;
    char letter;
    int place; // of its argument; NONE of %%
};

struct arguments {
    enum type types[PRINT_ARGUMENTS_MOST];
    union argument values[PRINT_ARGUMENTS_MOST];
    int count;
    int next; // place of the next argument in order
};

struct output {
    char *to;
    size_t room;
    size_t length; // that it would have with room enough
};

// --- reading a format ---

static int read_number(const char **at) {
    int number = NONE;
    for (; **at >= '0' && **at <= '9'; (*at)++) {
        assert(number < INT_MAX / 10 - 1);
        number = (number < 0 ? 0 : 10 * number) + (**at - '0');
    }
    return number;
}

// The place of "2$", or NONE with nothing read.
static int read_position(const char **at) {
    const char *behind = *at;
    int number = read_number(&behind);
    if (number == NONE || *behind != '$')
        return NONE;
    assert(number >= 1);
    *at = behind + 1;
    return number - 1;
}

static int place_of(struct arguments *arguments, int position, enum type type) {
    int place = position == NONE ? arguments->next++ : position;
    assert(place < PRINT_ARGUMENTS_MOST);
    arguments->types[place] = type;
    if (place >= arguments->count)
        arguments->count = place + 1;
    return place;
}

// A width or precision: "12", "*" or "*2$".
static int read_extent(const char **at, struct arguments *arguments, int *ret_place) {
    *ret_place = NONE;
    if (**at != '*')
        return read_number(at);
    (*at)++;
    int position = read_position(at);
    *ret_place = place_of(arguments, position, TYPE_INT);
    return NONE;
}

static enum type whole_type_of(const char *length) {
    switch (length[0]) {
    case 'l':
        return length[1] == 'l' ? TYPE_LONG_LONG : TYPE_LONG;
    case 'z':
        return TYPE_SIZE;
    case 'j':
        return TYPE_MAX;
    case 't':
        return TYPE_DIFFERENCE;
    default: // "hh" and "h" are handed over as int
        return TYPE_INT;
    }
}

static enum type type_of(char letter, const char *length) {
    assert(letter && strchr("aefgAEFGspcdiouxX", letter)); // a conversion that this printer does not know
    if (strchr("aefgAEFG", letter))
        return TYPE_DOUBLE;
    if (letter == 's' || letter == 'p')
        return TYPE_POINTER;
    return letter == 'c' ? TYPE_INT : whole_type_of(length);
}

// `at` stands behind the '%'; returns what stands behind the conversion.
static const char *read_conversion(const char *at, struct arguments *arguments, struct conversion *ret) {
    int position = read_position(&at);
    *ret = (struct conversion){.flags = at, .precision = NONE, .precision_place = NONE, .place = NONE};
    ret->flag_count = strspn(at, "-+ #0'");
    assert(ret->flag_count <= FLAGS_MOST);
    at += ret->flag_count;
    ret->width = read_extent(&at, arguments, &ret->width_place);
    if (*at == '.') {
        at++;
        ret->precision = read_extent(&at, arguments, &ret->precision_place);
        if (ret->precision == NONE && ret->precision_place == NONE)
            ret->precision = 0;
    }
    ret->length = at;
    ret->length_bytes = strspn(at, "hlzjt");
    at += ret->length_bytes;
    ret->letter = *at;
    if (ret->letter != '%')
        ret->place = place_of(arguments, position, type_of(ret->letter, ret->length));
    return at + 1;
}

static const char *next_conversion(const char *format, size_t *ret_literal) {
    *ret_literal = strcspn(format, "%");
    return format[*ret_literal] ? format + *ret_literal + 1 : NULL;
}

static void read_types(const char *format, struct arguments *arguments) {
    struct conversion conversion;
    size_t literal;
    for (const char *at = next_conversion(format, &literal); at; at = next_conversion(at, &literal))
        at = read_conversion(at, arguments, &conversion);
}

// --- arguments ---

// A place that the format does not use has no type to step over it by: msgfmt refuses such a translation.
static void fetch(struct arguments *arguments, va_list list) {
    for (int i = 0; i < arguments->count; i++) {
        union argument *value = &arguments->values[i];
        assert(arguments->types[i] != TYPE_NONE);
        switch (arguments->types[i]) {
        case TYPE_NONE:
            break;
        case TYPE_INT:
            value->whole = va_arg(list, int);
            break;
        case TYPE_LONG:
            value->whole_long = va_arg(list, long);
            break;
        case TYPE_LONG_LONG:
            value->whole_long_long = va_arg(list, long long);
            break;
        case TYPE_SIZE:
            value->size = va_arg(list, size_t);
            break;
        case TYPE_MAX:
            value->whole_max = va_arg(list, intmax_t);
            break;
        case TYPE_DIFFERENCE:
            value->difference = va_arg(list, ptrdiff_t);
            break;
        case TYPE_DOUBLE:
            value->number = va_arg(list, double);
            break;
        case TYPE_POINTER:
            value->pointer = va_arg(list, const void *);
            break;
        }
    }
}

// --- printing ---

static void add_bytes(struct output *out, const char *bytes, size_t count) {
    size_t left = out->length < out->room ? out->room - out->length : 0;
    if (left)
        memcpy(out->to + out->length, bytes, count < left ? count : left);
    out->length += count;
}

// "%-8.3f" with the numbers that '*' stood for. A negative width is the flag '-', a negative precision is none.
static void write_spec(const struct conversion *conversion, const struct arguments *arguments, char spec[SPEC_BYTES]) {
    int width = conversion->width_place == NONE ? conversion->width : arguments->values[conversion->width_place].whole;
    int precision = conversion->precision_place == NONE ? conversion->precision
                                                        : arguments->values[conversion->precision_place].whole;
    bool given = conversion->width_place != NONE || width != NONE;
    int at = snprintf(spec, SPEC_BYTES, "%%%.*s", (int)conversion->flag_count, conversion->flags);
    if (given)
        at += snprintf(spec + at, SPEC_BYTES - (size_t)at, "%d", width);
    if (precision >= 0)
        at += snprintf(spec + at, SPEC_BYTES - (size_t)at, ".%d", precision);
    snprintf(spec + at, SPEC_BYTES - (size_t)at, "%.*s%c", (int)conversion->length_bytes, conversion->length,
             conversion->letter);
}

static int print_one(char *to, size_t room, const char *spec, enum type type, const union argument *value) {
    switch (type) {
    case TYPE_INT:
        return snprintf(to, room, spec, value->whole);
    case TYPE_LONG:
        return snprintf(to, room, spec, value->whole_long);
    case TYPE_LONG_LONG:
        return snprintf(to, room, spec, value->whole_long_long);
    case TYPE_SIZE:
        return snprintf(to, room, spec, value->size);
    case TYPE_MAX:
        return snprintf(to, room, spec, value->whole_max);
    case TYPE_DIFFERENCE:
        return snprintf(to, room, spec, value->difference);
    case TYPE_DOUBLE:
        return snprintf(to, room, spec, value->number);
    case TYPE_POINTER:
        return snprintf(to, room, spec, value->pointer);
    case TYPE_NONE:
        break;
    }
    return -1;
}

static bool add_conversion(struct output *out, const struct conversion *conversion, const struct arguments *arguments,
                           char mark) {
    if (conversion->letter == '%') {
        add_bytes(out, "%", 1);
        return true;
    }
    char spec[SPEC_BYTES];
    write_spec(conversion, arguments, spec);
    char *to = out->length < out->room ? out->to + out->length : NULL;
    enum type type = arguments->types[conversion->place];
    int length = print_one(to, to ? out->room - out->length : 0, spec, type, &arguments->values[conversion->place]);
    if (length < 0)
        return false;
    char *point = to && type == TYPE_DOUBLE ? strchr(to, '.') : NULL;
    if (point)
        *point = mark;
    out->length += (size_t)length;
    return true;
}

int vprint_marked(char *to, size_t room, char mark, const char *format, va_list arguments) {
    struct arguments read = {0};
    struct conversion conversion;
    struct output out = {.to = to, .room = room};
    size_t literal;
    read_types(format, &read);
    fetch(&read, arguments);
    read.next = 0;
    for (const char *at = next_conversion(format, &literal); at; at = next_conversion(at, &literal)) {
        add_bytes(&out, format, literal);
        at = format = read_conversion(at, &read, &conversion);
        if (!add_conversion(&out, &conversion, &read, mark))
            return -1;
    }
    add_bytes(&out, format, literal);
    if (room)
        to[out.length < room ? out.length : room - 1] = '\0';
    return out.length > INT_MAX ? -1 : (int)out.length;
}

int vprint_words(char *to, size_t room, const char *english, va_list arguments) {
    char mark = language_decimal_mark();
    if (mark == '.')
        return vsnprintf(to, room, say(english), arguments);
    return vprint_marked(to, room, mark, say(english), arguments);
}

int print_words(char *to, size_t room, const char *english, ...) {
    va_list arguments;
    va_start(arguments, english);
    int length = vprint_words(to, room, english, arguments);
    va_end(arguments);
    return length;
}
