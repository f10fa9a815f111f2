// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"
#include "base/text.h"
#include "suite.h"

#include <string.h>

START_TEST(english_needs_no_catalogue) {
    struct error err = {0};
    ck_assert_int_eq(language_choose("en", NULL, &err), STATUS_OK);
    ck_assert_str_eq(say("volume parts"), "volume parts");
    ck_assert_str_eq(language_chosen(), "en");
}
END_TEST

START_TEST(unknown_languages_are_refused) {
    struct error err = {0};
    ck_assert_int_eq(language_choose("tlh", NULL, &err), STATUS_USAGE);
    ck_assert_ptr_nonnull(strstr(err.text, "en, de, fr, it and es"));
    ck_assert_str_eq(language_chosen(), "en");
}
END_TEST

START_TEST(a_missing_catalogue_is_said) {
    struct error err = {0};
    ck_assert_int_eq(language_choose("de", "/nowhere", &err), STATUS_NOT_FOUND);
    ck_assert_int_eq(language_choose("de", NULL, &err), STATUS_NOT_FOUND);
    ck_assert_str_eq(language_chosen(), "en");
}
END_TEST

// gettext answers the empty text with the header of the catalogue.
START_TEST(nothing_stays_nothing) {
    ck_assert_str_eq(say(""), "");
    ck_assert_ptr_null(say(NULL));
}
END_TEST

START_TEST(text_say_writes_as_text_printf_does) {
    struct text out = {0};
    text_say(&out, "%s and %d", "one", 2);
    text_say(&out, "; %.1f", 3.0);
    ck_assert_str_eq(text_bytes(&out), "one and 2; 3.0");
    text_release(&out);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("language");
    TCase *tests = tcase_create("texts");
    tcase_add_test(tests, english_needs_no_catalogue);
    tcase_add_test(tests, unknown_languages_are_refused);
    tcase_add_test(tests, a_missing_catalogue_is_said);
    tcase_add_test(tests, nothing_stays_nothing);
    tcase_add_test(tests, text_say_writes_as_text_printf_does);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
