// SPDX-License-Identifier: GPL-3.0-or-later
// What one row alone cannot show: ids that must exist, sums, sources.
#include "data/library_tables.h"

#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

// Rounded published fractions may miss 100 by a rounding each.
static const double teas_sum_tolerance = 1.5;
static const double composition_tolerance = 0.01;

struct checking {
    const struct library *lib;
    const struct row_index *index;
    struct fault_list *faults;
    size_t row;
};

static void complain(const struct checking *checking, const char *sentence, const char *what) {
    const struct row_place *place = &checking->index->places[checking->row];
    faults_add(checking->faults, place->file, place->node, "'%s': %s%s%s%s", place->key, sentence, what ? " '" : "",
               what ? what : "", what ? "'" : "");
}

static bool component_exists(const struct library *lib, const char *id) {
    for (size_t i = 0; i < lib->component_count; i++)
        if (strcmp(lib->components[i].id, id) == 0)
            return true;
    return false;
}

static bool bottle_exists(const struct library *lib, const char *id) {
    for (size_t i = 0; i < lib->bottle_count; i++)
        if (strcmp(lib->bottles[i].id, id) == 0)
            return true;
    return component_exists(lib, id);
}

static bool material_exists(const struct library *lib, const char *id) {
    for (size_t i = 0; i < lib->material_count; i++)
        if (strcmp(lib->materials[i].id, id) == 0)
            return true;
    return false;
}

static bool authority_exists(const struct library *lib, const char *id) {
    for (size_t i = 0; i < lib->authority_count; i++)
        if (strcmp(lib->authorities[i].id, id) == 0)
            return true;
    return false;
}

// CAS numbers end in a check digit: sum of i * digit_i from the right, modulo 10 (CAS, "Check Digit Verification").
static bool cas_is_right(const char *cas) {
    int digits[16];
    int count = 0;
    for (const char *at = cas; *at; at++) {
        if (*at >= '0' && *at <= '9' && count < 16)
            digits[count++] = *at - '0';
        else if (*at != '-')
            return false;
    }
    int sum = 0;
    for (int i = 0; i + 1 < count; i++)
        sum += digits[i] * (count - 1 - i);
    return count >= 5 && sum % 10 == digits[count - 1];
}

static void check_component(const struct checking *checking, const void *row) {
    const struct component *component = row;
    if (component->cas && !cas_is_right(component->cas))
        complain(checking, "the check digit of the CAS number does not fit:", component->cas);
    double sum = component->teas.fd + component->teas.fp + component->teas.fh;
    if (!isnan(sum) && fabs(sum - 100) > teas_sum_tolerance)
        complain(checking, "the Teas fractions fd, fp, fh must add up to 100", NULL);
}

static void check_owner(const struct checking *checking, const char *id) {
    if (!component_exists(checking->lib, id))
        complain(checking, "no component has the id", id);
}

static void check_properties(const struct checking *checking, const void *row) {
    const struct properties *properties = row;
    check_owner(checking, properties->id);
    if (properties->antoine.t_max <= properties->antoine.t_min)
        complain(checking, "the vapour pressure curve ends (t_max) before it begins (t_min)", NULL);
    if (properties->upper_flammable_limit.value <= properties->lower_flammable_limit.value)
        complain(checking, "the upper flammable limit is not above the lower one", NULL);
}

static void check_hazard(const struct checking *checking, const void *row) {
    check_owner(checking, ((const struct hazard *)row)->id);
}

static void check_limit(const struct checking *checking, const void *row) {
    const struct limit *limit = row;
    if (checking->lib->loaded & TABLE_COMPONENTS)
        check_owner(checking, limit->component);
    if (!authority_exists(checking->lib, limit->authority))
        complain(checking, "no authority has the id", limit->authority);
    if (isnan(limit->ppm) && isnan(limit->mg_m3))
        complain(checking, "a limit needs ppm or mg_m3", NULL);
}

static void check_vertices(const struct checking *checking, const struct teas_region *region) {
    if (region->vertices.count < 3)
        complain(checking, "a Teas area needs at least three corners:", region->id);
    for (size_t i = 0; i < region->vertices.count; i++) {
        const double *corner = region->vertices.items + 3 * i;
        if (fabs(corner[0] + corner[1] + corner[2] - 100) > teas_sum_tolerance)
            complain(checking, "a corner of the Teas area does not add up to 100:", region->id);
    }
}

static void check_material(const struct checking *checking, const void *row) {
    const struct material *material = row;
    if (isnan(material->sphere.r0) && !material->no_region)
        complain(checking, "give a sphere, or no_region with the reason why there is none", NULL);
    if (!isnan(material->sphere.r0) && material->no_region)
        complain(checking, "has a sphere and a no_region; keep one of the two", NULL);
    if (material->substitute && !material_exists(checking->lib, material->substitute))
        complain(checking, "no material has the id of the substitute", material->substitute);
    const struct teas_region *regions = material->regions.items;
    for (size_t i = 0; i < material->regions.count; i++)
        check_vertices(checking, &regions[i]);
}

static void check_bottle(const struct checking *checking, const void *row) {
    const struct bottle *bottle = row;
    const struct bottle_part *parts = bottle->composition.items;
    double sum = 0;
    for (size_t i = 0; i < bottle->composition.count; i++) {
        sum += parts[i].percent;
        check_owner(checking, parts[i].component);
    }
    if (fabs(sum - 100) > composition_tolerance)
        complain(checking, "the parts of the composition must add up to 100 percent", NULL);
    if (component_exists(checking->lib, bottle->id))
        complain(checking, "a component has the same id; a bottle needs its own", NULL);
}

static void check_shelf(const struct checking *checking, const void *row) {
    const struct shelf *shelf = row;
    for (size_t i = 0; i < shelf->bottles.count; i++)
        if (!bottle_exists(checking->lib, shelf->bottles.items[i]))
            complain(checking, "no bottle or component has the id", shelf->bottles.items[i]);
}

static void check_assignment(const struct checking *checking, const void *row) {
    if (checking->lib->loaded & TABLE_COMPONENTS)
        check_owner(checking, ((const struct unifac_assignment *)row)->component);
}

static void check_pair(const struct checking *checking, const void *row) {
    const struct miscible_pair *pair = row;
    if (checking->lib->loaded & TABLE_COMPONENTS) {
        check_owner(checking, pair->first);
        check_owner(checking, pair->second);
    }
    if (strcmp(pair->first, pair->second) == 0)
        complain(checking, "a pair is of two different components", NULL);
    for (size_t i = 0; i < checking->row; i++)
        if (strcmp(checking->lib->miscible_pairs[i].first, pair->second) == 0 &&
            strcmp(checking->lib->miscible_pairs[i].second, pair->first) == 0)
            complain(checking, "the same pair stands in the other order as well", NULL);
}

// --- sources: every value of our own tables names how sure it is and where it comes from ---

static bool reference_exists(const struct library *lib, int id) {
    for (size_t i = 0; i < lib->reference_count; i++)
        if (lib->references[i].id == id)
            return true;
    return false;
}

static void check_refs(const struct checking *checking, const struct provenance *from, const char *what) {
    for (size_t i = 0; i < from->ref_count; i++)
        if (!reference_exists(checking->lib, from->refs[i])) {
            char number[80];
            snprintf(number, sizeof number, "%d (%s)", from->refs[i], what);
            complain(checking, "no entry of references.yaml has the number", number);
        }
    if (!from->user && from->ref_count == 0)
        complain(checking, "no source (refs) is given for", what);
}

static void check_group_refs(const struct checking *checking, const struct field *field, const void *value) {
    const struct field *fields = field->record->fields;
    for (size_t i = 0; i < field->record->field_count; i++)
        if (fields[i].kind == FIELD_NUMBER &&
            isnan(*(const double *)(const void *)((const char *)value + fields[i].offset))) {
            if (fields[i].flags & FIELD_REQUIRED)
                return; // the group is absent
        }
    for (size_t i = 0; i < field->record->field_count; i++)
        if (fields[i].kind == FIELD_REFS)
            check_refs(checking, (const void *)((const char *)value + fields[i].offset), field->key);
}

static void check_sources(const struct checking *checking, const struct record *record, const void *row) {
    for (size_t i = 0; i < record->field_count; i++) {
        const struct field *field = &record->fields[i];
        const void *value = (const char *)row + field->offset;
        if (field->kind == FIELD_QUANTITY && !isnan(((const struct quantity *)value)->value))
            check_refs(checking, &((const struct quantity *)value)->from, field->key);
        else if (field->kind == FIELD_GROUP)
            check_group_refs(checking, field, value);
        else if (field->kind == FIELD_REFS)
            check_refs(checking, value, record->name);
    }
}

// --- all rows ---

static void check_sensitivity(const struct checking *checking, const void *row) {
    const struct sensitivity *sensitivity = row;
    for (size_t i = 0; i < sensitivity->families.count; i++) {
        size_t at = 0;
        while (family_words[at] && strcmp(family_words[at], sensitivity->families.items[i]) != 0)
            at++;
        if (!family_words[at])
            complain(checking, "no family of components is called", sensitivity->families.items[i]);
    }
}

static const struct {
    const struct record *record;
    void (*check)(const struct checking *checking, const void *row);
} row_checks[] = {
    {&component_record, check_component},
    {&properties_record, check_properties},
    {&hazard_record, check_hazard},
    {&limit_record, check_limit},
    {&material_record, check_material},
    {&bottle_record, check_bottle},
    {&shelf_record, check_shelf},
    {&sensitivity_record, check_sensitivity},
    {&unifac_assignment_record, check_assignment},
    {&miscible_pair_record, check_pair},
};

static void check_rows(struct checking *checking, const struct table_list *list) {
    for (size_t i = 0; i < sizeof row_checks / sizeof row_checks[0]; i++) {
        if (row_checks[i].record != list->record)
            continue;
        for (size_t row = 0; row < table_count(checking->lib, list); row++) {
            checking->row = row;
            row_checks[i].check(checking, (const char *)table_rows(checking->lib, list) + row * list->record->size);
        }
    }
}

static void check_row_sources(struct checking *checking, const struct table_list *list) {
    for (size_t row = 0; row < table_count(checking->lib, list); row++) {
        checking->row = row;
        check_sources(checking, list->record, (const char *)table_rows(checking->lib, list) + row * list->record->size);
    }
}

void library_cross_check(const struct library *lib, const struct table_index *index, struct fault_list *faults) {
    for (size_t i = 0; i < library_list_count; i++) {
        struct checking checking = {.lib = lib, .index = &index->rows[i], .faults = faults};
        if (!(library_lists[i].table & lib->loaded))
            continue;
        check_rows(&checking, &library_lists[i]);
        if (lib->loaded & TABLE_REFERENCES)
            check_row_sources(&checking, &library_lists[i]);
    }
}

enum status library_check(const struct data_directory *directories, size_t count, struct fault_list *faults,
                          struct error *err) {
    struct library lib;
    struct table_index index = {0};
    enum status status = library_read(&lib, &index, directories, count, TABLE_ALL, faults, err);
    library_release(&lib);
    return status;
}

// The `table:` key names the file whose lists it may hold: "components" is components.yaml.
static enum status file_for(struct arena *arena, const char *path, const struct yaml_node *root, const char **ret_file,
                            struct error *err) {
    const struct yaml_node *table = root->kind == YAML_MAP ? yaml_find(root, "table") : NULL;
    if (!table || table->kind != YAML_SCALAR)
        return error_set(err, STATUS_INPUT,
                         "%s:1:1: no key 'table' at the top; a table begins with, for example, 'table: components'",
                         path);
    for (size_t i = 0; i < library_list_count; i++) {
        size_t stem = strlen(library_lists[i].file) - strlen(".yaml");
        if (strlen(table->text) == stem && strncmp(table->text, library_lists[i].file, stem) == 0) {
            *ret_file = library_lists[i].file;
            return STATUS_OK;
        }
    }
    struct text known = {0};
    for (size_t i = 0; i < library_list_count; i++)
        if (i == 0 || strcmp(library_lists[i].file, library_lists[i - 1].file) != 0)
            text_printf(&known, "%s%.*s", i ? ", " : "", (int)(strlen(library_lists[i].file) - strlen(".yaml")),
                        library_lists[i].file);
    error_set(err, STATUS_INPUT, "%s:%d:%d: table '%.60s' is not known; one of these is expected: %s", path,
              table->line, table->column, table->text, text_bytes(&known));
    text_release(&known);
    (void)arena;
    return STATUS_INPUT;
}

enum status library_check_file(const char *path, const struct data_directory *directories, size_t count,
                               struct fault_list *faults, struct error *err) {
    struct arena arena = {0};
    const struct yaml_node *root;
    const char *file = NULL;
    enum status status = yaml_read_file(&arena, path, &yaml_default_limits, &root, err);
    if (status == STATUS_OK)
        status = file_for(&arena, path, root, &file, err);
    struct library lib = {0};
    struct table_index index = {0};
    if (status == STATUS_OK)
        status = library_read(&lib, &index, directories, count, TABLE_ALL, faults, err);
    if (status == STATUS_OK && faults->count == 0)
        status = library_read_file(&lib, &index, path, file, true, faults, err);
    if (status == STATUS_OK && faults->count == 0)
        library_cross_check(&lib, &index, faults);
    library_release(&lib);
    arena_release(&arena);
    return status;
}
