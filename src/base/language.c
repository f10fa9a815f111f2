// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"

#include <libintl.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define DOMAIN_NAME "mildsolve"
enum { PATH_BYTES = 4096 };

const char *const language_codes[] = {"en", "de", "fr", "it", "es", NULL};

static const char *chosen = "en";

// Not word_index() of text.h: text and errors stand on this file, and the drawing module holds it without text.
static const char *known_code(const char *code) {
    for (size_t i = 0; language_codes[i]; i++)
        if (strcmp(language_codes[i], code) == 0)
            return language_codes[i];
    return NULL;
}

// gettext asks LANGUAGE only outside the locale "C". C.UTF-8 is part of the C library, so no locale need be installed.
static bool catalogue_opened(const char *code, const char *catalogues) {
    return setenv("LANGUAGE", code, 1) == 0 && setlocale(LC_MESSAGES, "C.UTF-8") != NULL &&
           bindtextdomain(DOMAIN_NAME, catalogues) != NULL && bind_textdomain_codeset(DOMAIN_NAME, "UTF-8") != NULL &&
           textdomain(DOMAIN_NAME) != NULL;
}

enum status language_choose(const char *code, const char *catalogues, struct error *err) {
    const char *known = known_code(code);
    if (!known)
        return error_set(err, STATUS_USAGE, "language '%.20s' is not known; there are en, de, fr, it and es", code);
    if (strcmp(known, "en") == 0) {
        chosen = known;
        return STATUS_OK;
    }
    char path[PATH_BYTES];
    snprintf(path, sizeof path, "%s/%s/LC_MESSAGES/" DOMAIN_NAME ".mo", catalogues ? catalogues : ".", known);
    if (!catalogues || access(path, R_OK) != 0)
        return error_set(err, STATUS_NOT_FOUND, "the texts in language '%s' were not found; build or install them",
                         known);
    if (!catalogue_opened(known, catalogues))
        return error_set(err, STATUS_SYSTEM, "the C library cannot speak '%s' here", known);
    chosen = known;
    return STATUS_OK;
}

const char *language_chosen(void) {
    return chosen;
}

const char *say(const char *english) {
    if (chosen == language_codes[0] || !english || !english[0])
        return english;
    return gettext(english);
}
