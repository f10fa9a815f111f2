// SPDX-License-Identifier: GPL-3.0-or-later
// The language in which people are spoken to. English stands in the source; catalogues of the other languages are in
// data/po and are read by gettext. JSON, ids, blend notation and the words of input files are never translated. Numbers
// in words for people get the decimal mark of the language (base/print_words.h); LC_NUMERIC stays "C".
//
// The choice is one for the whole process, made once before an answer is written, as gettext has it.
#ifndef MILDSOLVE_BASE_LANGUAGE_H
#define MILDSOLVE_BASE_LANGUAGE_H

#include "base/error.h"

extern const char *const language_codes[]; // "en" "de" "fr" "it" "es", NULL at the end

// Speaks `code` from now on, whether or not the machine has that locale. `catalogues` is the folder that holds
// <code>/LC_MESSAGES/mildsolve.mo; unused for English. STATUS_USAGE: no such language; STATUS_NOT_FOUND: no catalogue;
// STATUS_SYSTEM: the C library cannot read it. Not while other threads run.
enum status language_choose(const char *code, const char *catalogues, struct error *err);

// For language_choose: the code as it stands in the list, NULL when it is not there; and what is spoken from now on.
const char *language_known(const char *code);
void language_speak(const char *known);

// The code that was chosen, "en" at first.
const char *language_chosen(void);

// Between whole and fraction of a number in that language: '.' in English, ',' in the others. For what people read
// only.
char language_decimal_mark(void);

// The sentence in the chosen language, or itself when it has no translation. What writes formats and headings for
// people (text_say, error_set, page_*, sheet_*) asks by itself; words that are handed to them as arguments go
// through here. The text of a user never does.
const char *say(const char *english) __attribute__((format_arg(1)));

// Marks a text in a table of constants for the catalogues; it is translated where it is printed, by say().
#define N_(english) english

#endif
