// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/schema.h"

#include "base/language.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

const char *const sureness_words[] = {"unstated", "checked", "memory", "estimate", NULL};
static const char *const yes_no_words[] = {"no", "yes", NULL};

enum { PATH_SIZE = 256, SHOWN_VALUE = 60, REFS_CAP = 64 };

const char *sureness_word(enum sureness sure) {
    return sureness_words[sure];
}

// --- where in the file, for messages: put into words only when there is something to say ---

// One step of the way: words of the caller, a row with its id, a key, or an entry of a list.
struct path {
    const struct path *outer;
    const char *words;
    const char *record_name;
    const char *id;
    const char *key;
    size_t entry; // from 1
};

static size_t limited(int length) {
    size_t wanted = length > 0 ? (size_t)length : 0;
    return wanted < PATH_SIZE ? wanted : PATH_SIZE - 1;
}

// "component 'acetone', hansen.delta_d". As deep as the records are nested.
static size_t path_words(const struct path *path, char words[PATH_SIZE]) {
    if (path->id)
        return limited(snprintf(words, PATH_SIZE, "%s '%.*s'", say(path->record_name),
                                (int)text_prefix(path->id, SHOWN_VALUE), path->id));
    size_t at = 0;
    words[0] = '\0';
    if (path->outer)
        at = path_words(path->outer, words);
    size_t left = PATH_SIZE - at;
    if (path->words)
        at += (size_t)snprintf(words + at, left, "%s", path->words);
    else if (path->key)
        at += (size_t)snprintf(words + at, left, "%s%s", at == 0 ? "" : words[at - 1] == '\'' ? ", " : ".", path->key);
    else if (path->entry)
        at += (size_t)snprintf(words + at, left, "[%zu]", path->entry);
    return at < PATH_SIZE ? at : PATH_SIZE - 1;
}

// --- one field ---

struct place {
    const struct schema_reader *reader;
    const struct yaml_node *node;
    const struct field *field;
    const struct path *path;
};

static enum status read_record(const struct schema_reader *reader, const struct record *record,
                               const struct yaml_node *node, const struct path *outer, void *record_out);

static enum status wrong(const struct place *place, const char *rule) {
    const char *value = place->node->kind == YAML_SCALAR ? place->node->text
                        : place->node->kind == YAML_LIST ? say("[a list]")
                                                         : say("{a map}");
    int shown = (int)text_prefix(value, SHOWN_VALUE);
    char path[PATH_SIZE];
    path_words(place->path, path);
    faults_add(place->reader->faults, place->reader->file, place->node, "%s: '%.*s': %s", path, shown, value,
               say(rule));
    return STATUS_OK;
}

static void *target(const struct field *field, void *record_out) {
    return (char *)record_out + field->offset;
}

static enum status read_text(const struct place *place, const char **out) {
    if (place->node->kind != YAML_SCALAR)
        return wrong(place, "a text is expected");
    if (place->node->text[0] == '\0')
        return wrong(place, "is empty; leave the key out when nothing is known");
    *out = place->node->text;
    return STATUS_OK;
}

static enum status read_id(const struct place *place, const char **out) {
    if (place->node->kind != YAML_SCALAR || place->node->text[0] == '\0')
        return wrong(place, "an id is expected: letters a-z, digits and '-'");
    for (const char *at = place->node->text; *at; at++)
        if (!((*at >= 'a' && *at <= 'z') || (*at >= '0' && *at <= '9') || *at == '-'))
            return wrong(place, "an id has only letters a-z, digits and '-'");
    *out = place->node->text;
    return STATUS_OK;
}

static enum status wrong_word(const struct place *place, const char *const *words) {
    char rule[ERROR_TEXT_SIZE];
    size_t at = (size_t)snprintf(rule, sizeof rule, say("one of these is expected:"));
    for (size_t i = 0; words[i] && at < sizeof rule - 64; i++)
        at += (size_t)snprintf(rule + at, sizeof rule - at, "%s %s", i ? "," : "", words[i]);
    return wrong(place, rule);
}

static enum status read_word(const struct place *place, const char *const *words, int *out) {
    int i = place->node->kind == YAML_SCALAR ? word_index(place->node->text, words) : -1;
    if (i < 0)
        return wrong_word(place, words);
    *out = i;
    return STATUS_OK;
}

static enum status read_date(const struct place *place, struct date *out) {
    bool month_will_do = place->field->flags & FIELD_MONTH_WILL_DO;
    const char *text = place->node->kind == YAML_SCALAR ? place->node->text : "";
    if (month_will_do ? date_parse_month(text, out) : date_parse(text, out))
        return STATUS_OK;
    return wrong(place, month_will_do ? N_("a date is expected, year-month-day or year-month: 2026-03-04 or 2026-03")
                                      : N_("a date is expected, year-month-day: 2026-03-04"));
}

static enum status wrong_range(const struct place *place) {
    char rule[200];
    const char *unit = place->field->unit ? place->field->unit : "";
    snprintf(rule, sizeof rule, say("is outside the valid range %g to %g%s%s"), place->field->min, place->field->max,
             unit[0] ? " " : "", unit);
    return wrong(place, rule);
}

static enum status wrong_comma(const struct place *place, const char *typed) {
    char rule[200];
    snprintf(rule, sizeof rule, say("a number is expected, with a decimal point: %s"), typed);
    return wrong(place, rule);
}

static enum status read_number(const struct place *place, double *out) {
    double value;
    char typed[SCHEMA_NUMBER_BYTES];
    if (place->node->kind == YAML_SCALAR && schema_number_with_comma(place->node->text, typed))
        return wrong_comma(place, typed);
    if (place->node->kind != YAML_SCALAR || !schema_number(place->node->text, &value))
        return wrong(place, "a number is expected (decimal point, no unit, not NaN or infinite)");
    if (value < place->field->min || value > place->field->max)
        return wrong_range(place);
    *out = value;
    return STATUS_OK;
}

static enum status read_integer(const struct place *place, int *out) {
    double value = NAN;
    enum status status = read_number(place, &value);
    if (status != STATUS_OK || isnan(value))
        return status;
    if (value != floor(value))
        return wrong(place, "a whole number is expected");
    *out = (int)value;
    return STATUS_OK;
}

static enum status read_text_list(const struct place *place, struct text_list *out) {
    if (place->node->kind != YAML_LIST)
        return wrong(place, "a list of texts is expected: [one, two]");
    const char **items = arena_new(place->reader->arena, place->node->count, sizeof *items);
    if (!items)
        return STATUS_MEMORY;
    for (size_t i = 0; i < place->node->count; i++) {
        struct place item = *place;
        item.node = place->node->items[i];
        items[i] = "";
        enum status status = read_text(&item, &items[i]);
        if (status != STATUS_OK)
            return status;
    }
    *out = (struct text_list){.items = items, .count = place->node->count};
    return STATUS_OK;
}

static enum status read_number_list(const struct place *place, struct number_list *out) {
    if (place->node->kind != YAML_LIST)
        return wrong(place, "a list of numbers is expected: [1, 2]");
    double *items = arena_new(place->reader->arena, place->node->count, sizeof *items);
    if (!items)
        return STATUS_MEMORY;
    for (size_t i = 0; i < place->node->count; i++) {
        struct place item = *place;
        item.node = place->node->items[i];
        items[i] = NAN;
        enum status status = read_number(&item, &items[i]);
        if (status != STATUS_OK)
            return status;
    }
    *out = (struct number_list){.items = items, .count = place->node->count};
    return STATUS_OK;
}

static enum status read_tuples(const struct place *place, struct number_list *out) {
    size_t width = place->field->tuple;
    if (place->node->kind != YAML_LIST)
        return wrong(place, "a list of lists of numbers is expected");
    double *items = arena_new(place->reader->arena, place->node->count * width, sizeof *items);
    if (!items)
        return STATUS_MEMORY;
    for (size_t i = 0; i < place->node->count; i++) {
        struct place row = *place;
        row.node = place->node->items[i];
        if (row.node->kind != YAML_LIST || row.node->count != width)
            return wrong(&row, width == 2 ? N_("two numbers are expected: [1, 2]")
                                          : N_("three numbers are expected: [1, 2, 3]"));
        struct number_list numbers = {0};
        enum status status = read_number_list(&row, &numbers);
        if (status != STATUS_OK)
            return status;
        if (numbers.count == width)
            memcpy(items + i * width, numbers.items, width * sizeof *items);
    }
    *out = (struct number_list){.items = items, .count = place->node->count};
    return STATUS_OK;
}

static enum status read_refs(const struct place *place, struct provenance *out) {
    if (place->node->kind != YAML_LIST || place->node->count > REFS_CAP)
        return wrong(place, "a list of reference numbers is expected: [3, 7]");
    int *refs = arena_new(place->reader->arena, place->node->count, sizeof *refs);
    if (!refs)
        return STATUS_MEMORY;
    static const struct field number = {.unit = "", .min = 1, .max = REFERENCE_MAX};
    for (size_t i = 0; i < place->node->count; i++) {
        struct place item = *place;
        item.node = place->node->items[i];
        item.field = &number;
        enum status status = read_integer(&item, &refs[i]);
        if (status != STATUS_OK)
            return status;
    }
    out->refs = refs;
    out->ref_count = place->node->count;
    return STATUS_OK;
}

static enum status read_unit(const struct place *place) {
    if (place->node->kind == YAML_SCALAR && strcmp(place->node->text, place->field->unit) == 0)
        return STATUS_OK;
    char rule[160];
    snprintf(rule, sizeof rule, say("the unit of this value is '%s'"), place->field->unit);
    return wrong(place, rule);
}

static enum status read_quantity(const struct place *place, struct quantity *out) {
    const struct field *field = place->field;
    const struct field fields[] = {
        {.key = "value",
         .kind = FIELD_NUMBER,
         .offset = offsetof(struct quantity, value),
         .flags = FIELD_REQUIRED,
         .unit = field->unit,
         .min = field->min,
         .max = field->max},
        {.key = "unit", .kind = FIELD_UNIT, .flags = FIELD_REQUIRED, .unit = field->unit},
        {.key = "uncertainty",
         .kind = FIELD_NUMBER,
         .offset = offsetof(struct quantity, uncertainty),
         .unit = field->unit,
         .min = 0,
         .max = DBL_MAX},
        {.key = "cup", .kind = FIELD_TEXT, .offset = offsetof(struct quantity, cup)},
        PROVENANCE_FIELDS(struct quantity, from),
    };
    const struct record record = {.name = field->key,
                                  .size = sizeof(struct quantity),
                                  .fields = fields,
                                  .field_count = sizeof fields / sizeof fields[0],
                                  .id_offset = SIZE_MAX};
    // A quantity is one value with its source: the user's replaces ours whole, never half.
    struct schema_reader whole = *place->reader;
    whole.over = false;
    struct quantity fresh;
    size_t before = place->reader->faults->count;
    enum status status = read_record(&whole, &record, place->node, place->path, &fresh);
    if (status == STATUS_OK && place->reader->faults->count == before)
        *out = fresh;
    return status;
}

static enum status read_records(const struct place *place, struct record_list *out) {
    const struct record *record = place->field->record;
    if (place->node->kind == YAML_SCALAR && place->node->text[0] == '\0' && !place->node->quoted)
        return STATUS_OK; // "tests:" with nothing behind it yet
    if (place->node->kind != YAML_LIST)
        return wrong(place, "a list of entries ('- key: value') is expected");
    char *items = arena_new(place->reader->arena, place->node->count, record->size);
    if (!items)
        return STATUS_MEMORY;
    struct schema_reader fresh = *place->reader;
    fresh.over = false;
    for (size_t i = 0; i < place->node->count; i++) {
        struct path entry = {.outer = place->path, .entry = i + 1};
        enum status status = read_record(&fresh, record, place->node->items[i], &entry, items + i * record->size);
        if (status != STATUS_OK)
            return status;
    }
    *out = (struct record_list){.items = items, .count = place->node->count};
    return STATUS_OK;
}

// YAML spells a truth value "true" or "false" as well.
static enum status read_yes_no(const struct place *place, bool *out) {
    static const char *const true_false[] = {"false", "true", NULL};
    int word = place->node->kind == YAML_SCALAR ? word_index(place->node->text, true_false) : -1;
    if (word >= 0) {
        *out = word == 1;
        return STATUS_OK;
    }
    word = *out;
    enum status status = read_word(place, yes_no_words, &word);
    *out = word == 1;
    return status;
}

static enum status read_sure(const struct place *place, struct provenance *out) {
    int word = (int)out->sure;
    enum status status = read_word(place, sureness_words, &word);
    out->sure = (enum sureness)word;
    return status;
}

static bool has_source(const struct record *record) {
    for (size_t i = 0; i < record->field_count; i++)
        if (record->fields[i].kind == FIELD_REFS)
            return true;
    return false;
}

// A group given by the user is one value with its source, so it replaces ours whole. A group without a source is a
// bundle of lists (synonyms): what is given replaces ours, the rest stays.
static enum status read_group(const struct place *place, void *out) {
    struct schema_reader fresh = *place->reader;
    fresh.over = place->reader->over && !has_source(place->field->record);
    return read_record(&fresh, place->field->record, place->node, place->path, out);
}

static enum status read_field(const struct place *place, void *record_out) {
    void *out = target(place->field, record_out);
    switch (place->field->kind) {
    case FIELD_TEXT:
        return read_text(place, out);
    case FIELD_ID:
        return read_id(place, out);
    case FIELD_WORD:
        return read_word(place, place->field->words, out);
    case FIELD_NUMBER:
        return read_number(place, out);
    case FIELD_INTEGER:
        return read_integer(place, out);
    case FIELD_YES_NO:
        return read_yes_no(place, out);
    case FIELD_DATE:
        return read_date(place, out);
    case FIELD_TEXT_LIST:
        return read_text_list(place, out);
    case FIELD_NUMBER_LIST:
        return read_number_list(place, out);
    case FIELD_TUPLES:
        return read_tuples(place, out);
    case FIELD_GROUP:
        return read_group(place, out);
    case FIELD_RECORDS:
        return read_records(place, out);
    case FIELD_QUANTITY:
        return read_quantity(place, out);
    case FIELD_UNIT:
        return read_unit(place);
    case FIELD_REFS:
        return read_refs(place, out);
    case FIELD_SURE:
        return read_sure(place, out);
    case FIELD_NOTE:
        return read_text(place, &((struct provenance *)out)->note);
    }
    return STATUS_OK;
}

// --- one record ---

static void blank_field(const struct field *field, void *out) {
    switch (field->kind) {
    case FIELD_NUMBER:
        *(double *)out = NAN;
        break;
    case FIELD_QUANTITY:
        *(struct quantity *)out = (struct quantity){.value = NAN, .uncertainty = NAN};
        break;
    case FIELD_GROUP:
        schema_blank(field->record, out);
        break;
    default:
        break;
    }
}

void schema_blank(const struct record *record, void *record_out) {
    memset(record_out, 0, record->size);
    for (size_t i = 0; i < record->field_count; i++)
        blank_field(&record->fields[i], target(&record->fields[i], record_out));
}

static const struct field *field_named(const struct record *record, const char *key) {
    for (size_t i = 0; i < record->field_count; i++)
        if (strcmp(record->fields[i].key, key) == 0)
            return &record->fields[i];
    return NULL;
}

static const char *nearest_key(const struct record *record, const char *key) {
    struct near_name near = near_name_begin(key);
    for (size_t i = 0; i < record->field_count; i++)
        near_name_try(&near, record->fields[i].key);
    return near.best;
}

static void unknown_key(const struct schema_reader *reader, const struct record *record, const struct yaml_node *key,
                        const struct path *path) {
    const char *near = nearest_key(record, key->text);
    int shown = (int)text_prefix(key->text, SHOWN_VALUE);
    char words[PATH_SIZE];
    path_words(path, words);
    struct text known = {0};
    for (size_t i = 0; !near && i < record->field_count; i++)
        text_printf(&known, "%s%s", i ? ", " : "", record->fields[i].key);
    bool vowel = strchr("aeio", record->name[0]) != NULL; // "an object", "an authority"
    // "{x_mm: 0,5}" is for YAML the keys x_mm and 5.
    bool number = key->text[0] && key->text[strspn(key->text, "0123456789")] == '\0';
    if (number)
        faults_add(
            reader->faults, reader->file, key,
            N_("%s%sa number with a comma, which ends it here before '%.*s': write the decimal point, as in 12.5"),
            words, words[0] ? ": " : "", shown, key->text);
    else
        faults_add(
            reader->faults, reader->file, key,
            vowel ? N_("%s%skey '%.*s' is not known in an %s%s%s%s") : N_("%s%skey '%.*s' is not known in a %s%s%s%s"),
            words, words[0] ? ": " : "", shown, key->text, say(record->name),
            near ? say("; did you mean '") : say("; known are: "), near ? near : text_bytes(&known), near ? "'?" : "");
    reader->faults->lines.failed |= known.failed;
    text_release(&known);
}

// A record with an id is named by it alone; any other by the way to it.
static struct path path_of(const struct record *record, const struct path *outer, const struct yaml_node *node) {
    const struct yaml_node *id = record->id_offset == SIZE_MAX ? NULL : yaml_find(node, "id");
    if (!id || id->kind != YAML_SCALAR)
        return *outer;
    return (struct path){.record_name = record->name, .id = id->text};
}

static enum status read_pair(const struct schema_reader *reader, const struct record *record,
                             const struct yaml_pair *pair, const struct path *path, void *record_out) {
    const struct field *field = field_named(record, pair->key->text);
    if (!field) {
        unknown_key(reader, record, pair->key, path);
        return STATUS_OK;
    }
    struct path inner = {.outer = path, .key = field->key};
    struct place place = {.reader = reader, .node = pair->value, .field = field, .path = &inner};
    return read_field(&place, record_out);
}

static void check_required(const struct schema_reader *reader, const struct record *record,
                           const struct yaml_node *node, const struct path *path) {
    if (reader->over)
        return;
    for (size_t i = 0; i < record->field_count; i++) {
        if (!(record->fields[i].flags & FIELD_REQUIRED) || yaml_find(node, record->fields[i].key))
            continue;
        char words[PATH_SIZE];
        path_words(path, words);
        faults_add(reader->faults, reader->file, node, "%s%skey '%s' is missing", words, words[0] ? ": " : "",
                   record->fields[i].key);
    }
}

// Groups and quantities carry their own provenance; its `user` mark is set wherever a provenance field exists.
static void mark_user(const struct record *record, void *record_out) {
    for (size_t i = 0; i < record->field_count; i++)
        if (record->fields[i].kind == FIELD_REFS)
            ((struct provenance *)target(&record->fields[i], record_out))->user = true;
}

static enum status read_record(const struct schema_reader *reader, const struct record *record,
                               const struct yaml_node *node, const struct path *outer, void *record_out) {
    assert(record->field_count > 0);
    if (!reader->over)
        schema_blank(record, record_out);
    if (node->kind != YAML_MAP) {
        char words[PATH_SIZE];
        path_words(outer, words);
        faults_add(reader->faults, reader->file, node, "%s: a %s is a map of 'key: value' pairs", words,
                   say(record->name));
        return STATUS_OK;
    }
    struct path path = path_of(record, outer, node);
    for (size_t i = 0; i < node->count; i++) {
        enum status status = read_pair(reader, record, &node->pairs[i], &path, record_out);
        if (status != STATUS_OK)
            return status;
    }
    check_required(reader, record, node, &path);
    if (reader->user)
        mark_user(record, record_out);
    return STATUS_OK;
}

enum status schema_read(const struct schema_reader *reader, const struct record *record, const struct yaml_node *node,
                        const char *path, void *record_out) {
    struct path outer = {.words = path};
    return read_record(reader, record, node, &outer, record_out);
}
