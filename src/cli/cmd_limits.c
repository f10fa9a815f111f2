// SPDX-License-Identifier: GPL-3.0-or-later
// limits [NAME ...]: exposure limits of every authority, as printed by it.
#include "cli/values.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

struct asking {
    struct invocation *inv;
    const struct component *components[ARGUMENTS_MAX];
    size_t count;
    const char *authority; // id, NULL = all
};

static bool wanted(const struct asking *asking, const struct limit *limit) {
    if (asking->authority && strcmp(limit->authority, asking->authority) != 0)
        return false;
    if (asking->count == 0)
        return true;
    for (size_t i = 0; i < asking->count; i++)
        if (strcmp(asking->components[i]->id, limit->component) == 0)
            return true;
    return false;
}

// As printed by the authority, without zeros of our own; '-' where it is blank.
static void printed_figure(double value, struct sheet *sheet) {
    sheet_cell(sheet, isnan(value) ? "-" : "%.9g", value);
}

static void write_row(const struct limit *limit, struct sheet *sheet) {
    struct text notations = {0};
    text_add_joined(&notations, "; ", limit->notations.items, limit->notations.count);
    sheet_cell(sheet, "%s", limit->authority);
    sheet_cell(sheet, "%s", limit_kind_words[limit->kind]);
    printed_figure(limit->ppm, sheet);
    printed_figure(limit->mg_m3, sheet);
    if (limit->year)
        sheet_cell(sheet, "%d", limit->year);
    else
        sheet_cell(sheet, "-");
    sheet_cell(sheet, "%s%s%s", doubt_words(&limit->from), notations.length ? "; " : "", text_bytes(&notations));
    text_release(&notations);
}

// Returns how many limits of the component were written.
static size_t write_component(const struct asking *asking, const char *id, struct cited *cited, struct text *out) {
    const struct library *lib = &asking->inv->library;
    size_t rows = 0;
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "set", false);
    sheet_column(&sheet, "kind", false);
    sheet_column(&sheet, "ppm", true);
    sheet_column(&sheet, "mg/m3", true);
    sheet_column(&sheet, "year", true);
    sheet_column(&sheet, "how sure; notations", false);
    for (size_t i = 0; i < lib->limit_count; i++)
        if (strcmp(lib->limits[i].component, id) == 0 && wanted(asking, &lib->limits[i])) {
            write_row(&lib->limits[i], &sheet);
            rows++;
            cited_add(cited, &lib->limits[i].from);
        }
    if (rows == 0) {
        sheet_release(&sheet);
        return 0;
    }
    page_heading(out, id);
    sheet_write(&sheet, out);
    return rows;
}

static void write_text(const struct asking *asking, struct text *out) {
    const struct library *lib = &asking->inv->library;
    struct cited cited = {0};
    size_t rows = 0;
    for (size_t i = 0; asking->count == 0 && i < lib->component_count; i++)
        rows += write_component(asking, lib->components[i].id, &cited, out);
    for (size_t i = 0; i < asking->count; i++) {
        size_t found = write_component(asking, asking->components[i]->id, &cited, out);
        if (found == 0) {
            page_heading(out, asking->components[i]->id);
            page_paragraph(out, 2, 2,
                           "No limit is known in these tables. That is never a sign that there is no hazard.");
        }
        rows += found;
    }
    if (asking->count && rows)
        write_cited(asking->inv, &cited, out);
    text_add(out, "\n");
    page_paragraph(
        out, 0, 0,
        "ppm and mg/m3 stand as the authority printed them; '-' is blank there. Year = of the document in which the "
        "figure was read. Limits change and differ by country; local law and the supplier's safety data sheet win.");
}

static void write_json(const struct asking *asking, struct text *out) {
    const struct library *lib = &asking->inv->library;
    struct cited cited = {0};
    struct json json;
    json_begin(&json, out);
    json_list(&json, "limits");
    for (size_t i = 0; i < lib->limit_count; i++) {
        const struct limit *limit = &lib->limits[i];
        if (!wanted(asking, limit))
            continue;
        cited_add(&cited, &limit->from);
        json_object(&json, NULL);
        json_text(&json, "component", limit->component);
        json_text(&json, "authority", limit->authority);
        json_text(&json, "kind", limit_kind_words[limit->kind]);
        json_number(&json, "ppm", limit->ppm);
        json_number(&json, "mg_m3", limit->mg_m3);
        json_integer(&json, "period_min", limit->period_min);
        json_integer(&json, "year", limit->year);
        json_texts(&json, "notations", limit->notations.items, limit->notations.count);
        json_provenance(&json, "source", &limit->from);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_list(&json, "authorities");
    for (size_t i = 0; i < lib->authority_count; i++) {
        json_object(&json, NULL);
        json_text(&json, "id", lib->authorities[i].id);
        json_text(&json, "name", lib->authorities[i].name);
        json_text(&json, "kind", authority_kind_words[lib->authorities[i].kind]);
        json_text(&json, "edition", lib->authorities[i].edition);
        json_number(&json, "molar_volume_l_mol", lib->authorities[i].molar_volume.value);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_cited(asking->inv, &cited, &json);
    json_end(&json);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct asking asking = {.inv = inv};
    for (size_t i = 0; i < inv->argument_count; i++) {
        enum status status = library_component(&inv->library, inv->arguments[i], &asking.components[i], err);
        if (status != STATUS_OK)
            return status;
    }
    asking.count = inv->argument_count;
    enum status status = library_add(&inv->library, inv->command->row_tables, asking.count ? asking.components : NULL,
                                     asking.count, err);
    if (status != STATUS_OK)
        return status;
    const char *set = option_value(inv, "--limits");
    if (set) {
        const struct authority *authority;
        status = library_authority(&inv->library, set, &authority, err);
        if (status != STATUS_OK)
            return status;
        asking.authority = authority->id;
    }
    if (inv->json)
        write_json(&asking, inv->out);
    else
        write_text(&asking, inv->out);
    return STATUS_OK;
}

static const struct option options[] = {
    {.name = "--limits", .argument = "SET", .help = "one authority: us-osha, us-niosh, us-epa, eu, uk, de"},
};

const struct command cmd_limits = {
    .name = "limits",
    .arguments = "[NAME ...]",
    .arguments_least = 0,
    .arguments_most = ARGUMENTS_MAX,
    .summary = "Exposure limits of every authority for a solvent, with year, source and notations",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_REFERENCES | TABLE_COMPONENTS,
    .row_tables = TABLE_LIMITS,
    .example = "mildsolve limits toluene",
    .run = run,
};
