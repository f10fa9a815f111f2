// SPDX-License-Identifier: GPL-3.0-or-later
// Choosing the language. Apart from language.c, because errors are told in the language that was chosen.
#include "base/language.h"

#include <libintl.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define DOMAIN_NAME "mildsolve"
enum { PATH_BYTES = 4096 };

// gettext asks LANGUAGE only outside the locale "C". C.UTF-8 is part of the C library, so no locale need be installed.
static bool catalogue_opened(const char *code, const char *catalogues) {
    return setenv("LANGUAGE", code, 1) == 0 && setlocale(LC_MESSAGES, "C.UTF-8") != NULL &&
           bindtextdomain(DOMAIN_NAME, catalogues) != NULL && bind_textdomain_codeset(DOMAIN_NAME, "UTF-8") != NULL &&
           textdomain(DOMAIN_NAME) != NULL;
}

enum status language_choose(const char *code, const char *catalogues, struct error *err) {
    const char *known = language_known(code);
    if (!known)
        return error_set(err, STATUS_USAGE, "language '%.20s' is not known; there are en, de, fr, it and es", code);
    if (strcmp(known, "en") == 0) {
        language_speak(known);
        return STATUS_OK;
    }
    char path[PATH_BYTES];
    snprintf(path, sizeof path, "%s/%s/LC_MESSAGES/" DOMAIN_NAME ".mo", catalogues ? catalogues : ".", known);
    if (!catalogues || access(path, R_OK) != 0)
        return error_set(err, STATUS_NOT_FOUND, "the texts in language '%s' were not found; build or install them",
                         known);
    if (!catalogue_opened(known, catalogues))
        return error_set(err, STATUS_SYSTEM, "the C library cannot speak '%s' here", known);
    language_speak(known);
    return STATUS_OK;
}
