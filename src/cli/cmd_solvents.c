// SPDX-License-Identifier: GPL-3.0-or-later
// solvents [NAME ...]: the tables of components and bottles, each value with unit, source and doubt.
#include "base/language.h"
#include "base/print_words.h"
#include "cli/notes.h"
#include "cli/table_values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// --- one component in full ---

static void write_synonyms(const struct synonyms *synonyms, struct text *out) {
    const struct text_list *lists[] = {&synonyms->en, &synonyms->de, &synonyms->fr, &synonyms->it, &synonyms->es};
    struct text words = {0};
    for (size_t i = 0; i < 5; i++)
        for (size_t j = 0; j < lists[i]->count; j++)
            text_printf(&words, "%s%s", words.length ? ", " : "", lists[i]->items[j]);
    if (words.length)
        page_paragraph_f(out, 2, 4, "also called: %s", text_bytes(&words));
    text_release(&words);
}

static void write_component_values(const struct component *component, struct cited *cited, struct text *out) {
    struct sheet sheet;
    struct table_value value;
    values_begin(&sheet);
    for (size_t i = 0; component_value(component, i, &value); i++)
        values_row(&sheet, cited, value.key, value.value, value.unit, value.from);
    sheet_write(&sheet, out);
    if (isnan(component->hansen.delta_d))
        page_paragraph(out, 2, 4, "no Hansen split is published; only the total parameter is known");
    if (isnan(component->teas.fd))
        page_paragraph(out, 2, 4, "no published Teas fractions known: charts use 100 delta / sum and say so");
}

static void write_component_notes(const struct component *component, struct text *out) {
    values_notes(out, "Hansen", &component->hansen.from);
    values_notes(out, "Teas", &component->teas.from);
    struct table_value value;
    for (size_t i = 0; component_value(component, i, &value); i++)
        if (value.quantity)
            values_notes(out, value.key, value.from);
    if (component->properties)
        values_notes(out, N_("vapour pressure curve"), &component->properties->antoine.from);
    for (size_t i = 0; i < component->conflicts.count; i++)
        page_paragraph_f(out, 2, 4, "sources disagree: %s", component->conflicts.items[i]);
    if (component->surrogate)
        page_paragraph_f(out, 2, 4, "solubility values are those of %s, standing in for it", component->surrogate);
    if (component->set_apart)
        page_paragraph_f(out, 2, 4, "never proposed unless allowed by name: %s", say(component->set_apart));
}

static void write_component(struct invocation *inv, const struct component *component, struct text *out) {
    struct cited cited = {0};
    char title[300];
    print_words(title, sizeof title, "%s: %s, CAS %s, %s%s", component->id, component->name,
                component->cas ? component->cas : say("not known"), say(family_words[component->family]),
                component->user ? say(", yours") : "");
    page_heading(out, title);
    write_synonyms(&component->synonyms, out);
    write_component_values(component, &cited, out);
    write_antoine(component, &cited, out);
    struct text notes = {0};
    write_component_notes(component, &notes);
    if (notes.length) {
        page_heading(out, "notes");
        text_add(out, text_bytes(&notes));
    }
    out->failed |= notes.failed;
    text_release(&notes);
    struct noted noted = {.components = {component}, .count = 1};
    if (component->hazard)
        cited_add(&cited, &component->hazard->from);
    write_notes(inv, &noted, out);
    write_cited(inv, &cited, out);
}

static void write_bottle(struct invocation *inv, const struct bottle *bottle, struct text *out) {
    struct cited cited = {0};
    struct text refs = {0};
    cited_add(&cited, &bottle->from);
    write_refs(&refs, &bottle->from);
    page_heading(out, bottle->name);
    page_paragraph_f(out, 2, 4, "bottle %s, composition %s %s", bottle->id, doubt_words(&bottle->from),
                     text_bytes(&refs));
    text_release(&refs);
    const struct bottle_part *parts = bottle->composition.items;
    for (size_t i = 0; i < bottle->composition.count; i++)
        page_paragraph_f(out, 4, 6, "%s %g %% by volume", parts[i].component, parts[i].percent);
    write_synonyms(&bottle->synonyms, out);
    values_notes(out, "note", &bottle->from);
    write_cited(inv, &cited, out);
}

// --- the list ---

static void write_component_list(const struct library *lib, struct text *out) {
    struct sheet sheet = {0};
    sheet_column(&sheet, "id", false);
    sheet_column(&sheet, "dD", true);
    sheet_column(&sheet, "dP", true);
    sheet_column(&sheet, "dH  ", true); // with the mark of doubt, so that the longest word of a name fits
    sheet_column(&sheet, "flash", true);
    sheet_column(&sheet, "name", false);
    for (size_t i = 0; i < lib->component_count; i++) {
        const struct component *component = &lib->components[i];
        const struct hansen_values *h = &component->hansen;
        char number[FIGURE_BYTES];
        sheet_cell(&sheet, "%s", component->id);
        sheet_cell(&sheet, "%s", figure(h->delta_d, 3, number));
        sheet_cell(&sheet, isnan(h->delta_p) ? "-" : "%.1f", h->delta_p);
        if (isnan(h->delta_h))
            sheet_cell(&sheet, "- %1s", doubt_mark(&h->from));
        else
            sheet_cell(&sheet, "%.1f %1s", h->delta_h, doubt_mark(&h->from));
        double flash = component->properties ? component->properties->flash_point.value : NAN;
        sheet_cell(&sheet, isnan(flash) ? "-" : "%.0f", flash);
        sheet_cell(&sheet, "%s", strcmp(component->name, component->id) == 0 ? "" : component->name);
    }
    sheet_write(&sheet, out);
}

static void write_bottle_list(const struct library *lib, struct text *out) {
    page_heading(out, "bottles (every solvent above is its own neat bottle too)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "id", false);
    sheet_column(&sheet, "composition, % by volume", false);
    for (size_t i = 0; i < lib->bottle_count; i++) {
        const struct bottle_part *parts = lib->bottles[i].composition.items;
        struct text words = {0};
        for (size_t j = 0; j < lib->bottles[i].composition.count; j++)
            text_printf(&words, "%s%s %g", j ? " + " : "", parts[j].component, parts[j].percent);
        sheet_cell(&sheet, "%s", lib->bottles[i].id);
        sheet_cell(&sheet, "%s", text_bytes(&words));
        text_release(&words);
    }
    sheet_write(&sheet, out);
    for (size_t i = 0; i < lib->shelf_count; i++) {
        const struct shelf *shelf = &lib->shelves[i];
        struct text words = {0};
        text_add_joined(&words, ", ", shelf->bottles.items, shelf->bottles.count);
        page_heading(out, shelf->name);
        page_paragraph_f(out, 2, 4, "shelf %s: %s", shelf->id, text_bytes(&words));
        text_release(&words);
    }
}

static void write_list(const struct library *lib, struct text *out) {
    page_paragraph(out, 0, 0,
                   "Hansen parameters dD, dP, dH in MPa^0.5 (no mark: checked; m: from memory; e: estimate; y: yours); "
                   "flash point in degC. `mildsolve solvents NAME` shows every value with its source.");
    text_add(out, "\n");
    write_component_list(lib, out);
    write_bottle_list(lib, out);
}

// --- JSON ---

static void json_component(const struct component *component, struct cited *cited, struct json *json) {
    json_object(json, NULL);
    json_text(json, "id", component->id);
    json_text(json, "name", component->name);
    json_text(json, "cas", component->cas);
    json_text(json, "family", say(family_words[component->family]));
    json_flag(json, "yours", component->user);
    json_synonyms(json, &component->synonyms);
    json_object(json, "hansen");
    json_number(json, "delta_d", component->hansen.delta_d);
    json_number(json, "delta_p", component->hansen.delta_p);
    json_number(json, "delta_h", component->hansen.delta_h);
    json_text(json, "unit", "MPa^0.5");
    json_provenance(json, "source", &component->hansen.from);
    json_close_object(json);
    json_object(json, "teas");
    json_number(json, "fd", component->teas.fd);
    json_number(json, "fp", component->teas.fp);
    json_number(json, "fh", component->teas.fh);
    json_text(json, "unit", "percent");
    json_provenance(json, "source", &component->teas.from);
    json_close_object(json);
    cited_add(cited, &component->hansen.from);
    cited_add(cited, &component->teas.from);
    struct table_value value;
    for (size_t i = 0; component_value(component, i, &value); i++) {
        if (!value.quantity)
            continue;
        json_quantity(json, value.key, value.quantity, value.unit);
        cited_add(cited, value.from);
    }
    json_texts(json, "conflicts", component->conflicts.items, component->conflicts.count);
    json_text(json, "grade", component->grade);
    json_text(json, "set_apart", component->set_apart);
    json_close_object(json);
}

static void json_bottle(const struct bottle *bottle, struct json *json) {
    const struct bottle_part *parts = bottle->composition.items;
    json_object(json, NULL);
    json_text(json, "id", bottle->id);
    json_text(json, "name", bottle->name);
    json_object(json, "composition_volume_percent");
    for (size_t i = 0; i < bottle->composition.count; i++)
        json_number(json, parts[i].component, parts[i].percent);
    json_close_object(json);
    json_provenance(json, "source", &bottle->from);
    json_close_object(json);
}

static enum status asked(struct invocation *inv, struct bottle_ref *ret, struct error *err) {
    for (size_t i = 0; i < inv->argument_count; i++) {
        enum status status = library_bottle(&inv->library, inv->arguments[i], &ret[i], err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

// Of all solvents when none was asked for.
static enum status read_rows(struct invocation *inv, const struct bottle_ref *refs, struct error *err) {
    const struct component *wanted[ARGUMENTS_MAX];
    size_t count = 0;
    for (size_t i = 0; i < inv->argument_count; i++)
        if (refs[i].component)
            wanted[count++] = refs[i].component;
    return library_add(&inv->library, inv->command->row_tables, inv->argument_count ? wanted : NULL, count, err);
}

static void write_json(struct invocation *inv, const struct bottle_ref *refs, size_t count) {
    struct json json;
    struct cited cited = {0};
    json_begin(&json, inv->out);
    json_list(&json, "solvents");
    for (size_t i = 0; i < (count ? 0 : inv->library.component_count); i++)
        json_component(&inv->library.components[i], &cited, &json);
    for (size_t i = 0; i < count; i++)
        if (refs[i].component)
            json_component(refs[i].component, &cited, &json);
    json_close_list(&json);
    json_list(&json, "bottles");
    for (size_t i = 0; i < (count ? 0 : inv->library.bottle_count); i++)
        json_bottle(&inv->library.bottles[i], &json);
    for (size_t i = 0; i < count; i++)
        if (refs[i].bottle)
            json_bottle(refs[i].bottle, &json);
    json_close_list(&json);
    json_cited(inv, &cited, &json);
    json_end(&json);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct bottle_ref refs[ARGUMENTS_MAX];
    enum status status = asked(inv, refs, err);
    if (status == STATUS_OK)
        status = read_rows(inv, refs, err);
    if (status != STATUS_OK)
        return status;
    if (inv->json)
        write_json(inv, refs, inv->argument_count);
    else if (inv->argument_count == 0)
        write_list(&inv->library, inv->out);
    for (size_t i = 0; !inv->json && i < inv->argument_count; i++) {
        if (refs[i].bottle)
            write_bottle(inv, refs[i].bottle, inv->out);
        else
            write_component(inv, refs[i].component, inv->out);
    }
    return STATUS_OK;
}

const struct command cmd_solvents = {
    .name = "solvents",
    .arguments = "[NAME ...]",
    .arguments_least = 0,
    .arguments_most = ARGUMENTS_MAX,
    .summary = "The tables of solvents and bottles; with a NAME every value with unit, source and doubt",
    .tables = TABLE_REFERENCES | TABLE_COMPONENTS | TABLE_STATEMENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS,
    .example = "mildsolve solvents acetone",
    .run = run,
};
