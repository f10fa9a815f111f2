// SPDX-License-Identifier: GPL-3.0-or-later
// Finding rows by the names people use.
#include "base/language.h"
#include "data/library_tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// A row with names: id first, then whatever else it is called.
struct named {
    const char *id;
    const char *name;
    const char *cas;
    const struct synonyms *synonyms;
};

static bool list_has(const struct text_list *list, const char *name) {
    for (size_t i = 0; i < list->count; i++)
        if (name_compare(list->items[i], name) == 0)
            return true;
    return false;
}

static bool synonyms_have(const struct synonyms *synonyms, const char *name) {
    return synonyms &&
           (list_has(&synonyms->en, name) || list_has(&synonyms->de, name) || list_has(&synonyms->fr, name) ||
            list_has(&synonyms->it, name) || list_has(&synonyms->es, name));
}

static bool is_called(const struct named *named, const char *name) {
    return name_compare(named->id, name) == 0 || (named->name && name_compare(named->name, name) == 0) ||
           (named->cas && strcmp(named->cas, name) == 0) || synonyms_have(named->synonyms, name);
}

// Rows that one name may stand for, as if they were one list.
struct named_rows {
    const char *kind;    // for messages: what was looked for,
    const char *one;     // what the rows are when a name fits several of them,
    const char *command; // and what lists them
    struct named (*row)(const struct library *lib, size_t i);
    size_t count;
};

static struct named component_row(const struct library *lib, size_t i) {
    const struct component *row = &lib->components[i];
    return (struct named){row->id, row->name, row->cas, &row->synonyms};
}

static struct named material_row(const struct library *lib, size_t i) {
    const struct material *row = &lib->materials[i];
    return (struct named){row->id, row->name, NULL, &row->synonyms};
}

// Bottles of the table first, then every component as its own neat bottle.
static struct named bottle_row(const struct library *lib, size_t i) {
    if (i >= lib->bottle_count)
        return component_row(lib, i - lib->bottle_count);
    const struct bottle *row = &lib->bottles[i];
    return (struct named){row->id, row->name, NULL, &row->synonyms};
}

// --- the nearest names, for messages ---

enum { NEAREST = 3 };

struct nearest {
    const char *ids[NEAREST];
    size_t distances[NEAREST];
    size_t count;
};

static void nearest_put(struct nearest *nearest, const char *id, size_t distance) {
    for (size_t i = 0; i < nearest->count; i++)
        if (strcmp(nearest->ids[i], id) == 0) {
            if (distance < nearest->distances[i])
                nearest->distances[i] = distance;
            return;
        }
    size_t at = nearest->count;
    while (at > 0 && nearest->distances[at - 1] > distance)
        at--;
    if (at >= NEAREST)
        return;
    size_t last = nearest->count < NEAREST ? nearest->count : NEAREST - 1;
    for (size_t i = last; i > at; i--) {
        nearest->ids[i] = nearest->ids[i - 1];
        nearest->distances[i] = nearest->distances[i - 1];
    }
    nearest->ids[at] = id;
    nearest->distances[at] = distance;
    if (nearest->count < NEAREST)
        nearest->count++;
}

static void nearest_try(struct nearest *nearest, const char *id, const char *candidate, const char *name) {
    size_t length = strlen(name);
    size_t limit = name_slips(name);
    size_t distance = name_distance(candidate, name, limit);
    if (distance > limit && length >= 3 && strstr(candidate, name))
        distance = limit;
    if (distance <= limit)
        nearest_put(nearest, id, distance);
}

static void nearest_list(struct nearest *nearest, const char *id, const struct text_list *list, const char *name) {
    for (size_t i = 0; i < list->count; i++)
        nearest_try(nearest, id, list->items[i], name);
}

static void nearest_row(struct nearest *nearest, const struct named *row, const char *name) {
    nearest_try(nearest, row->id, row->id, name);
    if (row->name)
        nearest_try(nearest, row->id, row->name, name);
    if (!row->synonyms)
        return;
    nearest_list(nearest, row->id, &row->synonyms->en, name);
    nearest_list(nearest, row->id, &row->synonyms->de, name);
    nearest_list(nearest, row->id, &row->synonyms->fr, name);
    nearest_list(nearest, row->id, &row->synonyms->it, name);
    nearest_list(nearest, row->id, &row->synonyms->es, name);
}

static enum status unknown(const char *kind, const char *command, const char *name, const struct nearest *nearest,
                           struct error *err) {
    char near[256] = "";
    size_t at = 0;
    for (size_t i = 0; i < nearest->count && at < sizeof near; i++)
        at += (size_t)snprintf(near + at, sizeof near - at, "%s%s", i ? ", " : "", nearest->ids[i]);
    int shown = (int)text_prefix(name, 60);
    if (nearest->count)
        return error_set(err, STATUS_UNKNOWN_NAME, "no %s is called '%.*s'; nearest: %s", say(kind), shown, name, near);
    return error_set(err, STATUS_UNKNOWN_NAME, "no %s is called '%.*s'; `mildsolve %s` lists them", say(kind), shown,
                     name, command);
}

static enum status several(const char *kind, const char *name, const char *first, const char *second,
                           struct error *err) {
    return error_set(err, STATUS_INPUT, "the name '%.*s' stands for more than one %s: %s and %s; use the id",
                     (int)text_prefix(name, 60), name, say(kind), first, second);
}

// --- lookups: an id wins over any other name ---

static enum status unknown_row(const struct library *lib, const struct named_rows *rows, const char *name,
                               struct error *err) {
    if (!err) // nobody will read the words
        return STATUS_UNKNOWN_NAME;
    struct nearest nearest = {0};
    for (size_t i = 0; i < rows->count; i++) {
        struct named row = rows->row(lib, i);
        nearest_row(&nearest, &row, name);
    }
    return unknown(rows->kind, rows->command, name, &nearest, err);
}

static enum status find_row(const struct library *lib, const struct named_rows *rows, const char *name, size_t *ret,
                            struct error *err) {
    for (size_t i = 0; i < rows->count; i++)
        if (name_compare(rows->row(lib, i).id, name) == 0) {
            *ret = i;
            return STATUS_OK;
        }
    size_t found = rows->count;
    for (size_t i = 0; i < rows->count; i++) {
        struct named row = rows->row(lib, i);
        if (!is_called(&row, name))
            continue;
        if (found < rows->count)
            return several(rows->one, name, rows->row(lib, found).id, row.id, err);
        found = i;
    }
    if (found == rows->count)
        return unknown_row(lib, rows, name, err);
    *ret = found;
    return STATUS_OK;
}

enum status library_component(const struct library *lib, const char *name, const struct component **ret,
                              struct error *err) {
    const struct named_rows rows = {N_("solvent"), "component", "solvents", component_row, lib->component_count};
    size_t i = 0;
    enum status status = find_row(lib, &rows, name, &i, err);
    if (status == STATUS_OK)
        *ret = &lib->components[i];
    return status;
}

enum status library_material(const struct library *lib, const char *name, const struct material **ret,
                             struct error *err) {
    const struct named_rows rows = {N_("material"), "material", "materials", material_row, lib->material_count};
    size_t i = 0;
    enum status status = find_row(lib, &rows, name, &i, err);
    if (status == STATUS_OK)
        *ret = &lib->materials[i];
    return status;
}

enum status library_bottle(const struct library *lib, const char *name, struct bottle_ref *ret, struct error *err) {
    const struct named_rows rows = {N_("solvent or bottle"), "bottle", "solvents", bottle_row,
                                    lib->bottle_count + lib->component_count};
    size_t i = 0;
    enum status status = find_row(lib, &rows, name, &i, err);
    if (status == STATUS_OK && i < lib->bottle_count)
        *ret = (struct bottle_ref){.bottle = &lib->bottles[i]};
    else if (status == STATUS_OK)
        *ret = (struct bottle_ref){.component = &lib->components[i - lib->bottle_count]};
    return status;
}

bool bottle_ref_same(const struct bottle_ref *a, const struct bottle_ref *b) {
    return a->bottle == b->bottle && a->component == b->component;
}

const char *bottle_ref_id(const struct bottle_ref *ref) {
    return ref->bottle ? ref->bottle->id : ref->component->id;
}

const char *bottle_ref_name(const struct bottle_ref *ref) {
    return ref->bottle ? ref->bottle->name : ref->component->name;
}

bool library_knows_bottle(const struct library *lib, const char *name) {
    struct bottle_ref ref;
    return library_bottle(lib, name, &ref, NULL) == STATUS_OK;
}

bool library_knows_material(const struct library *lib, const char *name) {
    const struct material *material;
    return library_material(lib, name, &material, NULL) == STATUS_OK;
}

// Rows of a few, all of which an unknown name is answered with; their ids are read with `id`.
static enum status find_of_few(const struct library *lib, const char *kind,
                               const char *(*id)(const struct library *, size_t), size_t count, const char *name,
                               size_t *ret, struct error *err) {
    for (size_t i = 0; i < count; i++)
        if (name_compare(id(lib, i), name) == 0) {
            *ret = i;
            return STATUS_OK;
        }
    struct text known = {0};
    for (size_t i = 0; i < count; i++)
        text_printf(&known, "%s%s", i ? ", " : "", id(lib, i));
    error_set(err, STATUS_UNKNOWN_NAME, "no %s is called '%.60s'; one of these is expected: %s", say(kind), name,
              text_bytes(&known));
    text_release(&known);
    return STATUS_UNKNOWN_NAME;
}

static const char *authority_id(const struct library *lib, size_t i) {
    return lib->authorities[i].id;
}

enum status library_authority(const struct library *lib, const char *name, const struct authority **ret,
                              struct error *err) {
    size_t i = 0;
    enum status status = find_of_few(lib, N_("limit set"), authority_id, lib->authority_count, name, &i, err);
    if (status == STATUS_OK)
        *ret = &lib->authorities[i];
    return status;
}

static const char *shelf_id(const struct library *lib, size_t i) {
    return lib->shelves[i].id;
}

enum status library_shelf(const struct library *lib, const char *name, const struct shelf **ret, struct error *err) {
    size_t i = 0;
    enum status status = find_of_few(lib, N_("shelf"), shelf_id, lib->shelf_count, name, &i, err);
    if (status == STATUS_OK)
        *ret = &lib->shelves[i];
    return status;
}

enum status library_sensitivity(const struct library *lib, const char *name, const struct sensitivity **ret,
                                struct error *err) {
    struct nearest nearest = {0};
    for (size_t i = 0; i < lib->sensitivity_count; i++) {
        const struct sensitivity *row = &lib->sensitivities[i];
        struct named names = {row->id, row->name, NULL, NULL};
        if (is_called(&names, name) || list_has(&row->also, name)) {
            *ret = row;
            return STATUS_OK;
        }
        nearest_row(&nearest, &names, name);
    }
    return unknown("sensitivity", "materials", name, &nearest, err);
}

const struct reference *library_reference(const struct library *lib, int id) {
    for (size_t i = 0; i < lib->reference_count; i++)
        if (lib->references[i].id == id)
            return &lib->references[i];
    return NULL;
}

const struct statement *library_statement(const struct library *lib, const char *code) {
    for (size_t i = 0; i < lib->statement_count; i++)
        if (strcmp(lib->statements[i].code, code) == 0)
            return &lib->statements[i];
    return NULL;
}

double library_uncertainty(const struct library *lib, const char *quantity, enum sureness sure, double own,
                           double value) {
    if (!isnan(own))
        return own;
    for (size_t i = 0; i < lib->uncertainty_count; i++) {
        const struct default_uncertainty *row = &lib->uncertainties[i];
        if (row->sure == (int)sure && strcmp(row->quantity, quantity) == 0)
            return row->relative ? fabs(value) * row->value / 100 : row->value;
    }
    return NAN;
}
