// SPDX-License-Identifier: GPL-3.0-or-later
// A document for programs.
#include "present/document/document_write.h"
#include "present/json.h"

#include <math.h>

static const char *const styles[] = {"plain", "item", "answer", "caution", "small"};

static void json_refs(struct json *json, const struct document_value *value) {
    json_list(json, "refs");
    for (size_t i = 0; i < value->ref_count; i++)
        json_integer(json, NULL, value->refs[i]);
    json_close_list(json);
}

static void write_facts(const struct document_facts *facts, struct json *json) {
    json_object(json, "facts");
    for (size_t i = 0; i < facts->count; i++) {
        const struct document_fact *fact = &facts->items[i];
        json_object(json, fact->key);
        json_text(json, "label", fact->label);
        json_text(json, "text", fact->value.text[0] ? fact->value.text : NULL);
        json_number(json, "number", fact->value.number);
        json_text(json, "unit", fact->value.unit);
        json_text(json, "sure", fact->value.sure);
        json_refs(json, &fact->value);
        json_close_object(json);
    }
    json_close_object(json);
}

static void write_cell(const struct document_column *column, const struct document_value *value, struct json *json) {
    if (!isnan(value->number))
        json_number(json, column->key, value->number);
    else if (value->text[0])
        json_text(json, column->key, value->text);
    else
        json_null(json, column->key);
}

static void write_table(const struct document_table *table, struct json *json) {
    json_text(json, "caption", table->caption);
    json_list(json, "columns");
    for (size_t i = 0; i < table->column_count; i++) {
        json_object(json, NULL);
        json_text(json, "key", table->columns[i].key);
        json_text(json, "heading", table->columns[i].heading);
        json_text(json, "unit", table->columns[i].unit);
        json_close_object(json);
    }
    json_close_list(json);
    json_list(json, "rows");
    for (size_t row = 0; row < table->row_count; row++) {
        json_object(json, NULL);
        for (size_t i = 0; i < table->column_count; i++)
            write_cell(&table->columns[i], &table->rows[row].cells[i], json);
        json_text(json, "row_note", table->rows[row].note);
        json_close_object(json);
    }
    json_close_list(json);
}

static void write_block(const struct document_block *block, struct json *json) {
    static const char *const kinds[] = {"paragraph", "facts", "table", "figure", "line"};
    json_object(json, NULL);
    json_text(json, "kind", kinds[block->kind]);
    switch (block->kind) {
    case DOCUMENT_PARAGRAPH:
        json_text(json, "style", styles[block->paragraph.style]);
        json_text(json, "text", block->paragraph.text);
        break;
    case DOCUMENT_FACTS:
        json_text(json, "id", block->facts.id);
        write_facts(&block->facts, json);
        break;
    case DOCUMENT_TABLE:
        json_text(json, "id", block->table.id);
        write_table(&block->table, json);
        break;
    case DOCUMENT_FIGURE:
        json_text(json, "id", block->figure.id);
        json_text(json, "caption", block->figure.caption);
        json_text(json, "alternative_text", block->figure.alternative);
        break;
    case DOCUMENT_LINE:
        json_text(json, "label", block->line.label);
        break;
    }
    json_close_object(json);
}

void document_json(const struct document *document, struct text *out) {
    const struct document_head *head = &document->head;
    struct json json;
    json_begin(&json, out);
    json_text(&json, "title", head->title);
    json_text(&json, "subtitle", head->subtitle);
    json_text(&json, "object", head->object);
    json_text(&json, "as_of", head->date[0] ? head->date : NULL);
    json_text(&json, "language", head->language);
    json_text(&json, "data_version", head->data_version);
    json_text(&json, "program", head->program);
    json_list(&json, "sections");
    for (const struct document_section *section = document->first; section; section = section->next) {
        json_object(&json, NULL);
        json_text(&json, "id", section->id);
        json_text(&json, "heading", section->heading);
        json_list(&json, "blocks");
        for (const struct document_block *block = section->first; block; block = block->next)
            write_block(block, &json);
        json_close_list(&json);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_end(&json);
    out->failed |= document->failed;
}
