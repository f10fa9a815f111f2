// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"

#include <libintl.h>
#include <stddef.h>
#include <string.h>

const char *const language_codes[] = {"en", "de", "fr", "it", "es", NULL};

static const char *chosen = "en";

// Not word_index() of text.h: text and errors stand on this file, and the drawing module holds it without text.
const char *language_known(const char *code) {
    for (size_t i = 0; language_codes[i]; i++)
        if (strcmp(language_codes[i], code) == 0)
            return language_codes[i];
    return NULL;
}

void language_speak(const char *known) {
    chosen = known;
}

const char *language_chosen(void) {
    return chosen;
}

char language_decimal_mark(void) {
    return chosen == language_codes[0] || strcmp(chosen, language_codes[0]) == 0 ? '.' : ',';
}

const char *say(const char *english) {
    if (chosen == language_codes[0] || !english || !english[0])
        return english;
    return gettext(english);
}
