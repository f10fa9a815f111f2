// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/values.h"

#include "base/language.h"

#include <math.h>
#include <stdlib.h>

void cited_add(struct cited *cited, const struct provenance *from) {
    for (size_t i = 0; i < from->ref_count; i++) {
        size_t at = 0;
        while (at < cited->count && cited->ids[at] != from->refs[i])
            at++;
        if (at == cited->count && cited->count < CITED_MAX)
            cited->ids[cited->count++] = from->refs[i];
    }
}

void values_begin(struct sheet *sheet) {
    *sheet = (struct sheet){.indent = 2};
    sheet_column(sheet, "value", false);
    sheet_column(sheet, "figure", true);
    sheet_column(sheet, "unit", false);
    sheet_column(sheet, "how sure", false);
    sheet_column(sheet, "sources", false);
}

void values_row(struct sheet *sheet, struct cited *cited, const char *name, double value, const char *unit,
                const struct provenance *from) {
    if (!isfinite(value))
        return;
    struct text refs = {0};
    write_refs(&refs, from);
    cited_add(cited, from);
    sheet_cell(sheet, "%s", say(name));
    sheet_cell(sheet, "%.10g", value); // as it stands in the table
    sheet_cell(sheet, "%s", unit);
    sheet_cell(sheet, "%s", doubt_words(from));
    sheet_cell(sheet, "%s", text_bytes(&refs));
    text_release(&refs);
}

void values_notes(struct text *out, const char *name, const struct provenance *from) {
    if (from->note)
        page_paragraph_f(out, 2, 4, "%s: %s", say(name), from->note);
}

static int by_number(const void *a, const void *b) {
    return *(const int *)a - *(const int *)b;
}

void write_cited(const struct invocation *inv, struct cited *cited, struct text *out) {
    bool any = false;
    for (size_t i = 0; i < cited->count; i++)
        any |= library_reference(&inv->library, cited->ids[i]) != NULL;
    if (!any) // a row of the user's own may cite nothing
        return;
    qsort(cited->ids, cited->count, sizeof cited->ids[0], by_number);
    page_heading(out, "sources");
    for (size_t i = 0; i < cited->count; i++) {
        const struct reference *reference = library_reference(&inv->library, cited->ids[i]);
        if (reference)
            page_paragraph_f(out, 2, 7, "%d  %s (seen: %s%s)", reference->id, reference->cite,
                             say(reference_seen_words[reference->seen]), reference->user ? say("; yours") : "");
    }
}

void json_cited(const struct invocation *inv, const struct cited *cited, struct json *json) {
    json_list(json, "references");
    for (size_t i = 0; i < cited->count; i++) {
        const struct reference *reference = library_reference(&inv->library, cited->ids[i]);
        if (!reference)
            continue;
        json_object(json, NULL);
        json_integer(json, "id", reference->id);
        json_text(json, "cite", reference->cite);
        json_text(json, "seen", say(reference_seen_words[reference->seen]));
        json_close_object(json);
    }
    json_close_list(json);
}

void json_quantity(struct json *json, const char *key, const struct quantity *quantity, const char *unit) {
    if (isnan(quantity->value)) {
        json_null(json, key);
        return;
    }
    json_object(json, key);
    json_number(json, "value", quantity->value);
    json_text(json, "unit", unit);
    json_number(json, "uncertainty", quantity->uncertainty);
    if (quantity->cup)
        json_text(json, "cup", quantity->cup);
    json_provenance(json, "source", &quantity->from);
    json_close_object(json);
}

void json_synonyms(struct json *json, const struct synonyms *synonyms) {
    json_object(json, "synonyms");
    json_texts(json, "en", synonyms->en.items, synonyms->en.count);
    json_texts(json, "de", synonyms->de.items, synonyms->de.count);
    json_texts(json, "fr", synonyms->fr.items, synonyms->fr.count);
    json_texts(json, "it", synonyms->it.items, synonyms->it.count);
    json_texts(json, "es", synonyms->es.items, synonyms->es.count);
    json_close_object(json);
}
