// SPDX-License-Identifier: GPL-3.0-or-later
// The report: the figures used with their sources, the versions of the tables, the cautions.
#include "base/language.h"
#include "cli/layers.h"
#include "cli/notes.h"
#include "cli/report.h"
#include "cli/table_values.h"

#include <math.h>
#include <stdlib.h>

// What of a liquid the sheets of a report rest on.
static const unsigned kinds_used = VALUE_HANSEN | VALUE_TEAS | VALUE_MOLAR_VOLUME | VALUE_DENSITY | VALUE_VAPOUR |
                                   VALUE_FLASH | VALUE_FLAMMABLE | VALUE_SPHERE | VALUE_FILM;

static void add_value(struct report *report, struct document_table *table, const char *of,
                      const struct table_value *value) {
    if (!isfinite(value->value) || !(value->kind & kinds_used))
        return;
    struct text refs = {0};
    write_refs(&refs, value->from);
    cited_add(&report->cited, value->from);
    table_words(table, of);
    table_words(table, say(value->words));
    table_number(table, value->value, 0); // as it stands in the table
    table_words(table, value->printed_unit);
    table_words(table, say(doubt_words(value->from)));
    table_words(table, document_take(report->document, &refs));
}

static void add_component(struct report *report, struct document_table *table, const struct component *component) {
    struct table_value value;
    for (size_t i = 0; component_value(component, i, &value); i++)
        add_value(report, table, component->id, &value);
}

static void add_material(struct report *report, struct document_table *table, const struct material *material) {
    struct table_value value;
    for (size_t i = 0; material_value(material, i, &value); i++)
        add_value(report, table, material->id, &value);
}

// Each component and material once.
struct used {
    struct noted liquids;
    const struct material *materials[REPORT_MATERIALS_MAX + 3 * STACKS_MAX * STACK_LAYERS_MAX];
    size_t material_count;
};

static void use_material(struct used *used, const struct material *material) {
    for (size_t i = 0; i < used->material_count; i++)
        if (used->materials[i] == material)
            return;
    if (material && used->material_count < sizeof used->materials / sizeof used->materials[0])
        used->materials[used->material_count++] = material;
}

// A layer is judged by its region, now and when it has aged.
static void use_planned(const struct report *report, struct used *used) {
    const struct library *lib = &report->inv->library;
    for (size_t i = 0; report->has_planned.there && i < report->planned->stack_count; i++) {
        const struct stack *stack = &report->planned->stacks[i].stack;
        for (size_t k = 0; k < stack->count; k++) {
            const struct stack_layer *layer = &stack->layers[k];
            if (layer->carrier.count)
                noted_add(&used->liquids, &layer->carrier);
            use_material(used, layer->material);
            use_material(used, material_with_region(lib, layer->material));
            use_material(used, material_when_aged(lib, layer->material));
        }
    }
}

void report_add_values(struct report *report) {
    struct used *used = arena_new(report->inv->arena, 1, sizeof *used);
    report->document->failed |= !used;
    if (!used)
        return;
    if (report->notation)
        noted_add(&used->liquids, &report->blend);
    for (size_t i = 0; i < report->material_count; i++)
        use_material(used, report->materials[i].material);
    use_planned(report, used);
    if (used->liquids.count + used->material_count == 0)
        return;
    struct document_section *section = document_section(report->document, "values", "Figures used");
    struct document_table *table = document_table(section, "values", "Of the liquids and of the materials");
    table_column(table, "of", "Of", NULL, false);
    table_column(table, "value", "Value", NULL, false);
    table_column(table, "figure", "Figure", NULL, true);
    table_column(table, "unit", "Unit", NULL, false);
    table_column(table, "sure", "How sure", NULL, false);
    table_column(table, "sources", "Sources", NULL, false);
    table->row_named = false;
    for (size_t i = 0; i < used->liquids.count; i++)
        add_component(report, table, used->liquids.components[i]);
    for (size_t i = 0; i < used->material_count; i++)
        add_material(report, table, used->materials[i]);
}

static int by_number(const void *a, const void *b) {
    return *(const int *)a - *(const int *)b;
}

void report_add_sources(struct report *report) {
    struct cited *cited = &report->cited;
    struct document_section *section = document_section(report->document, "sources", "Sources and versions");
    struct document_facts *facts = document_facts(section, "versions");
    fact_words(facts, "program", "Program", report->document->head.program);
    fact_words(facts, "data_version", "Version of the tables", report->inv->library.version);
    fact_number(facts, "case_version", "Version of the case file", report->file->version, 0, NULL);
    if (cited->count == 0)
        return;
    qsort(cited->ids, cited->count, sizeof cited->ids[0], by_number);
    struct document_table *table = document_table(section, "sources", "Sources of the figures");
    table_column(table, "id", "No.", NULL, true);
    table_column(table, "cite", "Source", NULL, false);
    table_column(table, "seen", "Seen", NULL, false);
    for (size_t i = 0; i < cited->count; i++) {
        const struct reference *reference = library_reference(&report->inv->library, cited->ids[i]);
        if (!reference)
            continue;
        table_decimals(table, reference->id, 0);
        table_words(table, reference->cite);
        table_words(table, say(reference_seen_words[reference->seen]));
    }
}

void report_add_cautions(struct report *report) {
    struct document_section *section = document_section(report->document, "cautions", "What this report does not say");
    document_paragraph(section, PARAGRAPH_CAUTION, "%s", say(caution_words));
    document_paragraph(
        section, PARAGRAPH_ITEM,
        "It cannot see the picture. Regions of aged varnish rest on few published anchors, those of paint "
        "on stand-ins; differences inside a tie are no differences.");
    document_paragraph(
        section, PARAGRAPH_ITEM,
        "The film model is an equilibrium with much liquid after a long time; a swab is a small dose and "
        "seconds long.");
    document_paragraph(
        section, PARAGRAPH_ITEM,
        "Exposure is computed, not measured. No index clears a carcinogen, a sensitiser or a reproductive "
        "toxicant. No limit found is never zero hazard.");
    document_line(section, "Date and signature");
}
