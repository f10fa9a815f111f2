// SPDX-License-Identifier: GPL-3.0-or-later
// The printer of words against the C library's own: the same bytes but for the decimal mark.
#include "base/arena.h"
#include "base/error.h"
#include "base/language.h"
#include "base/print_words.h"
#include "base/text.h"
#include "suite.h"

#include <float.h>
#include <inttypes.h>
#include <limits.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

enum { BYTES = 600 };

static char got[BYTES];
static char expected[BYTES];

static void check(char mark, size_t room, const char *format, ...) __attribute__((format(printf, 3, 4)));
static void check(char mark, size_t room, const char *format, ...) {
    va_list arguments;
    memset(got, '#', sizeof got);
    memset(expected, '#', sizeof expected);
    va_start(arguments, format);
    int length = vprint_marked(got, room, mark, format, arguments);
    va_end(arguments);
    va_start(arguments, format);
    int length_expected = vsnprintf(expected, room, format, arguments);
    va_end(arguments);
    ck_assert_msg(length == length_expected, "'%s': length %d instead of %d", format, length, length_expected);
    ck_assert_msg(memcmp(got, expected, sizeof got) == 0, "'%s': '%.*s' instead of '%.*s'", format, 300, got, 300,
                  expected);
}

#define SAME(...) check('.', sizeof got, __VA_ARGS__)

START_TEST(as_the_c_library_prints) {
    SAME("%s", "");
    SAME("no conversion, 100 %%");
    SAME("%%%s%%", "x");
    SAME("%s|%10s|%-10s|%.2s|%*s|%-*s|%.*s", "a.b", "c.d", "e.f", "g.hi", 7, "j", -7, "k", 2, "l.m");
    SAME("%d|%5d|%-5d|%05d|%+d|% d|%.3d|%i", 1, -2, 3, 4, 5, 6, 7, INT_MIN);
    SAME("%u|%x|%X|%#x|%o|%c", UINT_MAX, 255u, 255u, 255u, 8u, 'c');
    SAME("%hd|%hhd|%ld|%lld|%zu|%zd|%jd|%td", (short)-3, (signed char)-4, LONG_MIN, LLONG_MAX, SIZE_MAX, (ssize_t)-1,
         INTMAX_MIN, (ptrdiff_t)-5);
    SAME("%lu|%llu|%ju", ULONG_MAX, ULLONG_MAX, UINTMAX_MAX);
    SAME("%p", (const void *)got);
    SAME("%s: %.1f mL of %s in %zu steps of %g %%", "recipe", 12.25, "a.b", (size_t)3, 2.5);
}
END_TEST

START_TEST(numbers_as_the_c_library_prints) {
    static const double numbers[] = {0,    -0.0,    1,       -1.5,     0.1, 2.0 / 3,  12345.678, 1e-7,     999999.5,
                                     1e15, 1.25e21, DBL_MAX, -DBL_MIN, NAN, INFINITY, -INFINITY, 0.000123, 100};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        double x = numbers[i];
        SAME("%f|%g|%e|%a", x, x, x, x);
        SAME("%F|%G|%E|%A", x, x, x, x);
        SAME("%.0f|%.1f|%.3g|%#.0f|%+.2f|% .1f", x, x, x, x, x, x);
        SAME("%12.3g|%-12.3g|%012.2f|%+-12.1e|", x, x, x, x);
        SAME("%*.*f|%.*g|%-*.1f|%.*f", 14, 3, x, 4, x, 12, x, -1, x);
        SAME("%.10g%s%.2f", x, ".", x);
    }
}
END_TEST

// Catalogues may say "%2$s ... %1$s".
START_TEST(arguments_by_position) {
    SAME("%2$s takes %1$.2f of %3$d", 1.25, "acetone", 7);
    SAME("%1$g %1$.3f %2$s", 0.5, "again");
    SAME("%3$*1$.*2$f|%4$-6s|", 9, 2, 1.125, "x");
}
END_TEST

START_TEST(too_little_room_is_as_with_the_c_library) {
    for (size_t room = 0; room <= 40; room++) {
        check('.', room, "%s and %.3f, then %d %%%s", "first", 12.5, 42, "last");
        check('.', room, "%8.2f", 3.25);
    }
    ck_assert_int_eq(print_words(NULL, 0, "%.2f and %s", 1.5, "x"), 10);
}
END_TEST

static const char *marked(const char *format, ...) __attribute__((format(printf, 1, 2)));
static const char *marked(const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    int length = vprint_marked(got, sizeof got, ',', format, arguments);
    va_end(arguments);
    ck_assert_int_eq(length, (int)strlen(got));
    return got;
}

START_TEST(only_numbers_get_the_comma) {
    ck_assert_str_eq(marked("%.1f MPa^0.5, %s", 12.5, "--step 2.5"), "12,5 MPa^0.5, --step 2.5");
    ck_assert_str_eq(marked("%g/%g/%g", 15.5, 10.4, 7.0), "15,5/10,4/7");
    ck_assert_str_eq(marked("%.3e|%+.2f|%8.2f|%-8.2f|", 1234.5, 0.25, 3.25, 3.25),
                     "1,234e+03|+0,25|    3,25|3,25    |");
    ck_assert_str_eq(marked("%d.%02d", 3, 7), "3.07"); // two whole numbers, such as hours and minutes
    ck_assert_str_eq(marked("%s %.0f. %s", "1.2", 3.0, "4.5"), "1.2 3. 4.5");
    ck_assert_str_eq(marked("%f %f", (double)NAN, -(double)INFINITY), "nan -inf");
}
END_TEST

START_TEST(a_comma_without_room_is_none) {
    for (size_t room = 1; room <= 6; room++) {
        char to[8];
        memset(to, '#', sizeof to);
        ck_assert_int_eq(print_words(to, room, "a%.2f", 1.25), 5);
        ck_assert_str_eq(to, room == 1   ? ""
                             : room == 2 ? "a"
                             : room == 3 ? "a1"
                             : room == 4 ? "a1,"
                             : room == 5 ? "a1,2"
                                         : "a1,25");
        ck_assert_int_eq(to[room], '#');
    }
}
END_TEST

START_TEST(what_is_for_people_speaks_the_language) {
    struct text text = {0};
    text_say(&text, "%.1f; ", 12.5);
    text_printf(&text, "acetone %g", 12.5); // notation
    ck_assert_str_eq(text_bytes(&text), "12,5; acetone 12.5");
    text_release(&text);
    struct arena arena = {0};
    ck_assert_str_eq(arena_say(&arena, "%.2f", 0.25), "0,25");
    ck_assert_str_eq(arena_printf(&arena, "%.2f", 0.25), "0.25");
    arena_release(&arena);
    struct error err = {0}; // it says what may be typed
    error_set(&err, STATUS_RANGE, "%g to %g", 0.05, 1.0);
    ck_assert_str_eq(err.text, "0.05 to 1");
}
END_TEST

START_TEST(the_mark_of_each_language) {
    for (size_t i = 0; language_codes[i]; i++) {
        language_speak(language_codes[i]);
        ck_assert_int_eq(language_decimal_mark(), strcmp(language_codes[i], "en") == 0 ? '.' : ',');
        print_words(got, sizeof got, "%.1f", 0.5);
        ck_assert_str_eq(got, strcmp(language_codes[i], "en") == 0 ? "0.5" : "0,5");
    }
}
END_TEST

static void speak_german(void) {
    language_speak(language_known("de"));
}

static void speak_english(void) {
    language_speak(language_known("en"));
}

int main(void) {
    Suite *suite = suite_create("print_words");
    TCase *tests = tcase_create("as the C library");
    tcase_add_test(tests, as_the_c_library_prints);
    tcase_add_test(tests, numbers_as_the_c_library_prints);
    tcase_add_test(tests, arguments_by_position);
    tcase_add_test(tests, too_little_room_is_as_with_the_c_library);
    suite_add_tcase(suite, tests);
    tests = tcase_create("with a comma");
    tcase_add_checked_fixture(tests, speak_german, speak_english);
    tcase_add_test(tests, only_numbers_get_the_comma);
    tcase_add_test(tests, a_comma_without_room_is_none);
    tcase_add_test(tests, what_is_for_people_speaks_the_language);
    tcase_add_test(tests, the_mark_of_each_language);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
