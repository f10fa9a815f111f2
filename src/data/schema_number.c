// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as people write them in tables and on the command line.
#include "data/schema.h"

#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

enum { NUMBER_LENGTH = SCHEMA_NUMBER_BYTES - 1, EXACT_DIGITS = 15, EXACT_PLACES = 22 };

// Digits of a number, gathered while its shape is checked.
struct decimal {
    uint64_t digits; // all of them as one whole number, as long as they are few
    int count;       // digits without leading zeros
    int places;      // of them after the point
};

static bool digits_at(const char **at, struct decimal *number, bool after_point) {
    const char *start = *at;
    for (; **at >= '0' && **at <= '9'; (*at)++) {
        if (number->count < EXACT_DIGITS)
            number->digits = 10 * number->digits + (uint64_t)(**at - '0');
        number->count += number->digits > 0;
        number->places += after_point;
    }
    return *at > start;
}

// *ret_plain: without an exponent.
static bool number_shape(const char *text, struct decimal *number, bool *ret_plain) {
    const char *at = text;
    if (*at == '-' || *at == '+')
        at++;
    bool whole = digits_at(&at, number, false);
    bool part = false;
    if (*at == '.') {
        at++;
        part = digits_at(&at, number, true);
    }
    if (!whole && !part)
        return false;
    *ret_plain = *at == '\0';
    if (*at == 'e' || *at == 'E') {
        struct decimal exponent = {0};
        at++;
        if (*at == '-' || *at == '+')
            at++;
        if (!digits_at(&at, &exponent, false))
            return false;
    }
    return *at == '\0';
}

// Up to 15 digits and a power of ten up to 10^22 are exact as doubles, so that one division rounds once, to the double
// nearest to the text (W. D. Clinger, How to Read Floating Point Numbers Accurately, PLDI 1990): the same as sscanf
// gives, at a tenth of the work. Not where intermediate results have more bits.
static bool exact_number(const char *text, const struct decimal *number, double *ret_value) {
    static const double power[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                                   1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    if (FLT_EVAL_METHOD != 0 || number->count > EXACT_DIGITS || number->places > EXACT_PLACES)
        return false;
    double value = (double)number->digits / power[number->places];
    *ret_value = text[0] == '-' ? -value : value;
    return true;
}

// LC_NUMERIC stays "C" in the whole program, so sscanf reads a decimal point.
bool schema_number(const char *text, double *ret_value) {
    struct decimal number = {0};
    bool plain;
    if (strnlen(text, NUMBER_LENGTH + 1) > NUMBER_LENGTH || !number_shape(text, &number, &plain))
        return false;
    if (plain && exact_number(text, &number, ret_value))
        return true;
    double value;
    if (sscanf(text, "%lf", &value) != 1 || !isfinite(value))
        return false;
    *ret_value = value;
    return true;
}

bool schema_number_with_comma(const char *text, char ret_typed[SCHEMA_NUMBER_BYTES]) {
    const char *comma = strchr(text, ',');
    double value;
    if (!comma || strnlen(text, NUMBER_LENGTH + 1) > NUMBER_LENGTH)
        return false;
    strcpy(ret_typed, text);
    ret_typed[comma - text] = '.';
    return schema_number(ret_typed, &value);
}
