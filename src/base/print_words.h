// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers as people write them in their language: with its decimal mark. LC_NUMERIC stays "C", so that no locale need
// be installed and nothing that programs read or a person types (JSON, tables, notation, options) can change with it.
#ifndef MILDSOLVE_BASE_PRINT_WORDS_H
#define MILDSOLVE_BASE_PRINT_WORDS_H

#include <stdarg.h>
#include <stddef.h>

// As snprintf and vsnprintf, for people: the format in the chosen language (base/language.h), and what its conversions
// a, e, f and g write has the decimal mark of that language. Strings and the format's own letters stay as they are: a
// number that is to be typed (an option's value, blend notation) is printed by snprintf and handed over as %s.
int print_words(char *to, size_t room, const char *english, ...) __attribute__((format(printf, 3, 4)));
int vprint_words(char *to, size_t room, const char *english, va_list arguments) __attribute__((format(printf, 3, 0)));

// The same of a format as it is and with `mark` between whole and fraction. At most PRINT_ARGUMENTS_MOST arguments, in
// order or by position ("%2$s", as catalogues may have it); no %n, no wide characters, no long double.
enum { PRINT_ARGUMENTS_MOST = 32 };
int vprint_marked(char *to, size_t room, char mark, const char *format, va_list arguments)
    __attribute__((format(printf, 4, 0)));

// What text.h and arena.h print with: one of these, or vsnprintf.
typedef int printer(char *to, size_t room, const char *format, va_list arguments);

#endif
