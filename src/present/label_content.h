// SPDX-License-Identifier: GPL-3.0-or-later
// From a classification to the words of a label.
#ifndef MILDSOLVE_PRESENT_LABEL_CONTENT_H
#define MILDSOLVE_PRESENT_LABEL_CONTENT_H

#include "physics/classification.h"
#include "present/chart/label_layout.h"

struct label_request {
    const struct blend *blend;
    const char *name;     // NULL = the notation of the blend
    const char *date;     // NULL = a line to fill in by hand
    const char *initials; // the same
    const struct label_bottle *bottle;
    bool flash_contradicted;               // a stated flash point was disbelieved; then the two degC of which it is one
    double stated_flash_c, tables_flash_c; // not read otherwise
};

// In the language that was chosen (base/language.h). Texts live in `arena`. STATUS_MEMORY.
enum status label_content_make(const struct library *lib, const struct label_request *request,
                               const struct classification *classification, struct arena *arena,
                               struct label_content *ret, struct error *err);

// The official wording of a statement in a language (a code of base/language.h), in English where the table has none:
// for EUH208 with the names of the sensitisers, for a code without wording the code.
const char *statement_words(const struct library *lib, const struct blend *blend,
                            const struct classified_statement *statement, const char *language, struct arena *arena);

// The wording of a row in a language, in English where it has none.
const char *statement_in(const struct statement *row, const char *language);

// The first name that a component has in a language; its name in the table where there is none.
const char *component_in(const struct component *component, const char *language);

#endif
