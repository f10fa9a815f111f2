// SPDX-License-Identifier: GPL-3.0-or-later
// The report: what stands in the case about the object, its layers and passages, the goals and the bottles.
#include "base/language.h"
#include "cli/report.h"
#include "data/yaml.h"
#include "present/label_content.h"

#include <string.h>

const char *report_joined(struct report *report, const struct text_list *list) {
    struct text words = {0};
    text_add_joined(&words, ", ", list->items, list->count);
    return document_take(report->document, &words);
}

const char *report_notation(struct report *report, const struct blend *blend) {
    struct text words = {0};
    blend_write(blend, &words);
    return document_take(report->document, &words);
}

const char *report_words(struct report *report, const struct text_list *list) {
    struct text words = {0};
    for (size_t i = 0; i < list->count; i++)
        text_printf(&words, "%s%s", i ? ", " : "", say(list->items[i]));
    return document_take(report->document, &words);
}

const char *report_layer_name(struct report *report, const char *id) {
    const struct case_layer *layer = id ? case_layer(report->file, id) : NULL;
    if (layer && layer->name)
        return document_print(report->document, "%s (%s)", document_name(report->document, layer->name), layer->id);
    return id ? id : "";
}

// --- object and studio ---

void report_add_object(struct report *report) {
    const struct case_object *object = &report->file->object;
    const struct case_studio *studio = &report->file->studio;
    struct document_section *section = document_section(report->document, "object", "Object and studio");
    struct document_facts *facts = document_facts(section, "object");
    fact_words(facts, "title", "Title", object->title);
    fact_words(facts, "number", "Number", object->number);
    fact_words(facts, "maker", "Maker", object->maker);
    fact_words(facts, "date", "Date", object->date);
    fact_words(facts, "technique", "Technique", object->technique);
    fact_number(facts, "width_mm", "Width", object->width_mm, 0, "mm");
    fact_number(facts, "height_mm", "Height", object->height_mm, 0, "mm");
    fact_words(facts, "measured_from", "Places are measured from the corner",
               object->measured_from ? say(corner_words[object->measured_from]) : NULL);
    fact_words(facts, "object_note", "Note", object->note);
    fact_words(facts, "studio", "Studio", studio->name);
    fact_words(facts, "country", "Country", studio->country);
    fact_words(facts, "limit_set", "Limits of the air", studio->limits);
    fact_words(facts, "studio_note", "Note on the studio", studio->note);
    fact_words(facts, "case_note", "Note on the case", report->file->note);
    if (facts_empty(facts))
        document_paragraph(section, PARAGRAPH_PLAIN, "The case says nothing of the object.");
}

// --- layers ---

static const char *alternatives(struct report *report, const struct case_layer *layer) {
    if (layer->alternatives.count == 0)
        return layer->material;
    const char *others = report_joined(report, &layer->alternatives);
    return layer->material ? document_say(report->document, "%s, or %s", layer->material, others) : others;
}

void report_add_layers(struct report *report) {
    const struct case_layer *layers = report->file->layers.items;
    struct document_section *section = document_section(report->document, "layers", "Layers and evidence");
    if (report->file->layers.count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN, "The case names no layers.");
        return;
    }
    struct document_table *table = document_table(section, "layers", "From the top down");
    table_column(table, "layer", "Layer", NULL, false);
    table_column(table, "name", "Name", NULL, false);
    table_column(table, "kind", "Kind", NULL, false);
    table_column(table, "material", "Material", NULL, false);
    table_column(table, "evidence", "Evidence", NULL, false);
    table_column(table, "confidence", "Sure", NULL, false);
    table_detail(table, "thickness_um", "Thickness", "\u00B5m");
    table_detail(table, "date", "Date", NULL);
    for (size_t i = 0; i < report->file->layers.count; i++) {
        table_words(table, layers[i].id);
        table_words(table, layers[i].name);
        table_words(table, say(layer_kind_words[layers[i].kind]));
        table_words(table, alternatives(report, &layers[i]));
        table_words(table, layers[i].evidence);
        table_words(table, say(confidence_words[layers[i].confidence]));
        table_number(table, layers[i].thickness_um, 0);
        table_words(table, layers[i].date);
        table_note(table, layers[i].note);
    }
}

// --- passages ---

static void add_stated(struct document_table *table, const char *const *words, int index) {
    table_words(table, index ? say(words[index]) : "");
}

void report_add_passages(struct report *report) {
    const struct case_passage *passages = report->file->passages.items;
    if (report->file->passages.count == 0)
        return;
    struct document_section *section = document_section(report->document, "passages", "Passages");
    struct document_table *table = document_table(section, "passages", "Parts of the surface, each with its own risks");
    table_column(table, "passage", "Passage", NULL, false);
    table_column(table, "name", "Name", NULL, false);
    table_column(table, "tone", "Tone", NULL, false);
    table_column(table, "body", "Body", NULL, false);
    table_column(table, "colours", "Colours", NULL, false);
    table_column(table, "sensitive", "Sensitive", NULL, false);
    table_detail(table, "x_mm", "x", "mm");
    table_detail(table, "y_mm", "y", "mm");
    table_detail(table, "width_mm", "Width", "mm");
    table_detail(table, "height_mm", "Height", "mm");
    table_detail(table, "layers", "Layers", NULL);
    for (size_t i = 0; i < report->file->passages.count; i++) {
        const struct case_passage *passage = &passages[i];
        table_words(table, passage->id);
        table_words(table, passage->name);
        add_stated(table, tone_words, passage->tone);
        add_stated(table, body_words, passage->body);
        table_words(table, report_joined(report, &passage->colours));
        table_words(table, report_words(report, &passage->sensitive));
        table_number(table, passage->place.x_mm, 0);
        table_number(table, passage->place.y_mm, 0);
        table_number(table, passage->place.width_mm, 0);
        table_number(table, passage->place.height_mm, 0);
        table_words(table, report_joined(report, &passage->layers));
        table_note(table, passage->note);
    }
    const struct sensitive_passages *sensitive = &report->sensitive;
    for (size_t i = 0; i < sensitive->count; i++)
        document_paragraph(section, PARAGRAPH_ITEM, "%s: %s", sensitive->items[i].passage,
                           say(sensitive->items[i].sensitivity->warning));
}

// --- goals ---

static void add_goal(struct report *report, struct document_facts *facts, const char *key, const char *label,
                     const struct text_list *goal) {
    struct text words = {0};
    for (size_t i = 0; i < goal->count; i++) {
        const struct case_layer *layer = case_layer(report->file, goal->items[i]);
        text_printf(&words, "%s%s", i ? ", " : "", report_layer_name(report, goal->items[i]));
        if (layer && layer->material)
            text_printf(&words, ": %s", layer->material);
    }
    fact_words(facts, key, label, document_take(report->document, &words));
}

static void add_stand_ins(struct report *report, struct document_section *section) {
    for (size_t i = 0; i < report->material_count; i++)
        if (report->materials[i].stands_for)
            document_paragraph(section, PARAGRAPH_SMALL,
                               "No region is published for %s; its careful stand-in %s is taken in its place.",
                               report->materials[i].stands_for->id, report->materials[i].material->id);
}

void report_add_goals(struct report *report) {
    const struct case_goals *goals = &report->file->goals;
    const struct case_delivery *delivery = &report->file->delivery;
    struct document_section *section = document_section(report->document, "goals", "Goals and delivery");
    struct document_facts *facts = document_facts(section, "goals");
    add_goal(report, facts, "remove", "To be removed", &goals->remove);
    add_goal(report, facts, "spare", "To be left alone", &goals->spare);
    add_goal(report, facts, "unsure", "Undecided, so to be left alone", &goals->unsure);
    fact_words(facts, "goal_note", "Note", goals->note);
    fact_words(facts, "delivery", "Delivery", delivery->method ? say(delivery_words[delivery->method]) : NULL);
    fact_number(facts, "load_ml_per_h", "Used in an hour of work", delivery->load_ml_per_h, 0, "mL/h");
    fact_number(facts, "hours_per_day", "Work in a day", delivery->hours_per_day, 0, "h");
    fact_number(facts, "days", "Days", delivery->days, 0, NULL);
    fact_number(facts, "contact_s", "Contact", delivery->contact_s, 0, "s");
    fact_words(facts, "delivery_note", "Note on the delivery", delivery->note);
    if (facts_empty(facts))
        document_paragraph(section, PARAGRAPH_PLAIN, "The case names no goals.");
    add_stand_ins(report, section);
}

// --- bottles ---

static const char *denaturants(struct document *document, const struct case_bottle *bottle) {
    const struct case_denaturant *items = bottle->denaturants.items;
    struct text words = {0};
    for (size_t i = 0; i < bottle->denaturants.count; i++)
        text_say(&words, "%s%s %.3g %%", i ? ", " : "", items[i].component, items[i].percent);
    return document_take(document, &words);
}

static void bottle_columns(struct document_table *table) {
    table_column(table, "bottle", "Bottle", NULL, false);
    table_column(table, "grade", "Grade", NULL, false);
    table_column(table, "water_percent", "Water", "vol%", true);
    table_column(table, "received", "Received", NULL, false);
    table_column(table, "opened", "Opened", NULL, false);
    table_detail(table, "name", "Name", NULL);
    table_detail(table, "content", "Content", NULL);
    table_detail(table, "denaturants", "Denaturant, vol%", NULL);
    table_detail(table, "supplier", "Supplier", NULL);
    table_detail(table, "batch", "Batch", NULL);
    table_detail(table, "volume_ml", "Volume", "mL");
    table_detail(table, "peroxide_tested", "Tested for peroxides", NULL);
    table_detail(table, "finished", "Finished", NULL);
}

// A date that may be a month, as it stands in the file.
static const char *stated_date(const struct report *report, size_t bottle, const char *key) {
    const struct yaml_node *list = yaml_find(report->file->root, "bottles");
    const struct yaml_node *node = list && bottle < list->count ? yaml_find(list->items[bottle], key) : NULL;
    return node ? node->text : "";
}

// As the label has it: in the language of the report where the tables know a name.
static const char *bottle_name(const struct case_bottle *bottle) {
    if (bottle->name)
        return bottle->name;
    return bottle->ref.component ? component_in(bottle->ref.component, language_chosen())
                                 : bottle_ref_name(&bottle->ref);
}

static void add_bottle(struct report *report, struct document_table *table, size_t i) {
    const struct case_bottle *bottle = (const struct case_bottle *)report->file->bottles.items + i;
    table_words(table, bottle->id);
    table_words(table, bottle->grade);
    table_number(table, bottle->water_percent, 0);
    table_words(table, stated_date(report, i, "received"));
    table_words(table, stated_date(report, i, "opened"));
    table_words(table, bottle_name(bottle));
    table_words(table, bottle->content);
    table_words(table, denaturants(report->document, bottle));
    table_words(table, bottle->supplier);
    table_words(table, bottle->batch);
    table_number(table, bottle->volume_ml, 0);
    table_words(table, stated_date(report, i, "peroxide_tested"));
    table_words(table, stated_date(report, i, "finished"));
    table_note(table, bottle->note);
}

// Which white spirit is meant, of a bottle that is called no more than that.
static void add_grades(struct report *report, struct document_section *section, const struct case_bottle *bottle) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(&report->inv->library, &bottle->ref, components, fractions);
    for (size_t i = 0; i < count; i++)
        if (components[i]->grade)
            document_paragraph(section, PARAGRAPH_ITEM, "Bottle %s: %s", bottle->id, say(components[i]->grade));
}

void report_add_bottles(struct report *report) {
    const struct case_bottle *bottles = report->file->bottles.items;
    struct document_section *section = document_section(report->document, "bottles", "Bottles");
    if (report->file->bottles.count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN, "The case names no bottles.");
        return;
    }
    struct document_table *table = document_table(section, "bottles", "Bottles on the shelf");
    bottle_columns(table);
    for (size_t i = 0; i < report->file->bottles.count; i++)
        add_bottle(report, table, i);
    for (size_t i = 0; i < report->file->bottles.count; i++) {
        char sentence[CASE_REMARK_BYTES];
        if (case_bottle_peroxide_remark(report->file, &bottles[i], report->as_of, sentence)[0])
            document_paragraph(section, PARAGRAPH_CAUTION, "Bottle %s: %s", bottles[i].id, sentence);
        add_grades(report, section, &bottles[i]);
    }
}

// --- decisions and remarks ---

void report_add_decisions(struct report *report) {
    const struct case_decision *decisions = report->file->decisions.items;
    struct document_section *section = document_section(report->document, "decisions", "Decisions");
    if (report->file->decisions.count == 0) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No decision is noted.");
        return;
    }
    struct document_table *table = document_table(section, "decisions", "What was decided, when and by whom");
    table_column(table, "date", "Date", NULL, false);
    table_column(table, "by", "By", NULL, false);
    table_column(table, "decision", "Decision", NULL, false);
    table_column(table, "because", "Because", NULL, false);
    table_column(table, "blend", "Blend", NULL, false);
    for (size_t i = 0; i < report->file->decisions.count; i++) {
        char buffer[DATE_BYTES];
        table_words(table, date_write(decisions[i].date, buffer));
        table_words(table, decisions[i].by);
        table_words(table, decisions[i].decision);
        table_words(table, decisions[i].because);
        table_words(table, decisions[i].blend);
    }
}

// Lines of remarks begin with file:line:column, which says nothing on paper.
static const char *without_place(const char *line, const char *path) {
    size_t length = strlen(path);
    if (strncmp(line, path, length) != 0 || line[length] != ':')
        return line;
    line += length + 1;
    const char *end = line + strspn(line, "0123456789:");
    return end + strspn(end, " ");
}

void report_add_remarks(struct report *report) {
    struct fault_list remarks = {0};
    casefile_remarks(report->file, report->as_of, &remarks);
    if (remarks.count == 0) {
        faults_release(&remarks);
        return;
    }
    struct document_section *section = document_section(report->document, "remarks", "What the case should still say");
    for (const char *line = text_bytes(&remarks.lines); *line;) {
        size_t length = strcspn(line, "\n");
        const char *copy = document_print(report->document, "%.*s", (int)length, line);
        document_paragraph(section, PARAGRAPH_ITEM, "%s", without_place(copy, report->file->path));
        line += length + (line[length] == '\n');
    }
    report->document->failed |= remarks.lines.failed;
    faults_release(&remarks);
}
