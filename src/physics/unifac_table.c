// SPDX-License-Identifier: GPL-3.0-or-later
// The parameters of both models, from rows of the library to indexed arrays.
#include "physics/unifac.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

struct building {
    const struct library *lib;
    struct arena *arena;
    struct unifac_parameters *parameters;
    int *main_ids;
    const char **main_names;
    struct unifac_coefficients *pairs;
    struct unifac_species *species;
    struct error *err;
};

static enum status no_memory(struct error *err) {
    return error_set(err, STATUS_MEMORY, "out of memory while indexing the groups");
}

static const char *model_word(const struct building *building) {
    return unifac_model_words[building->parameters->model];
}

static bool main_index(const struct building *building, int id, size_t *ret) {
    for (size_t i = 0; i < building->parameters->main_count; i++)
        if (building->main_ids[i] == id) {
            *ret = i;
            return true;
        }
    return false;
}

static enum status collect_mains(struct building *building) {
    const struct library *lib = building->lib;
    building->main_ids = arena_new(building->arena, lib->unifac_group_count, sizeof *building->main_ids);
    building->main_names = arena_new(building->arena, lib->unifac_group_count, sizeof *building->main_names);
    if (!building->main_ids || !building->main_names)
        return no_memory(building->err);
    for (size_t i = 0; i < lib->unifac_group_count; i++) {
        const struct unifac_group *group = &lib->unifac_groups[i];
        size_t known = 0;
        if (group->model != building->parameters->model || main_index(building, group->main_group, &known))
            continue;
        building->main_ids[building->parameters->main_count] = group->main_group;
        building->main_names[building->parameters->main_count++] = group->main_name;
    }
    building->parameters->main_ids = building->main_ids;
    building->parameters->main_names = building->main_names;
    return STATUS_OK;
}

// Within a main group Psi is 1 by definition. A pair of main groups that no subgroup belongs to is of no use and
// is passed over.
static enum status collect_pairs(struct building *building) {
    size_t mains = building->parameters->main_count;
    building->pairs = arena_new(building->arena, mains * mains, sizeof *building->pairs);
    if (!building->pairs)
        return no_memory(building->err);
    for (size_t i = 0; i < mains; i++)
        building->pairs[i * mains + i].known = true;
    for (size_t i = 0; i < building->lib->unifac_interaction_count; i++) {
        const struct unifac_interaction *row = &building->lib->unifac_interactions[i];
        size_t m = 0, n = 0;
        if (row->model != building->parameters->model || row->m == row->n || !main_index(building, row->m, &m) ||
            !main_index(building, row->n, &n))
            continue;
        building->pairs[m * mains + n] =
            (struct unifac_coefficients){.a = row->a, .b = row->b, .c = row->c, .known = true};
    }
    building->parameters->pairs = building->pairs;
    return STATUS_OK;
}

static const struct unifac_group *find_group(const struct building *building, double subgroup) {
    for (size_t i = 0; i < building->lib->unifac_group_count; i++) {
        const struct unifac_group *group = &building->lib->unifac_groups[i];
        if (group->model == building->parameters->model && (double)group->subgroup == subgroup)
            return group;
    }
    return NULL;
}

static void add_area(struct unifac_area *areas, struct unifac_species *species, size_t main, double area) {
    size_t at = 0;
    while (at < species->area_count && areas[at].main != main)
        at++;
    if (at == species->area_count)
        areas[species->area_count++] = (struct unifac_area){.main = main};
    areas[at].area += area;
}

static enum status sum_groups(const struct building *building, struct unifac_species *species,
                              struct unifac_area *areas) {
    const struct unifac_assignment *assignment = species->assignment;
    for (size_t i = 0; i < assignment->groups.count; i++) {
        double subgroup = assignment->groups.items[2 * i];
        double number = assignment->groups.items[2 * i + 1];
        const struct unifac_group *group = find_group(building, subgroup);
        size_t main = 0;
        if (!group || !main_index(building, group->main_group, &main))
            return error_set(building->err, STATUS_INPUT, "%s: the %s groups have no subgroup %g",
                             assignment->component, model_word(building), subgroup);
        species->r += number * group->r;
        species->q += number * group->q;
        if (number * group->q > 0)
            add_area(areas, species, main, number * group->q);
    }
    if (assignment->groups.count && !(species->r > 0 && species->q > 0))
        return error_set(building->err, STATUS_INPUT, "%s: its %s groups add up to no volume or no surface",
                         assignment->component, model_word(building));
    return STATUS_OK;
}

static int compare_species(const void *a, const void *b) {
    const struct unifac_species *first = a, *second = b;
    return strcmp(first->assignment->component, second->assignment->component);
}

static enum status collect_species(struct building *building) {
    size_t rows = building->lib->unifac_assignment_count;
    building->species = arena_new(building->arena, rows, sizeof *building->species);
    if (rows && !building->species)
        return no_memory(building->err);
    size_t count = 0;
    for (size_t i = 0; i < rows; i++) {
        const struct unifac_assignment *row = &building->lib->unifac_assignments[i];
        if (row->model != building->parameters->model || row->groups.count == 0)
            continue;
        struct unifac_species *species = &building->species[count++];
        struct unifac_area *areas = arena_new(building->arena, row->groups.count, sizeof *areas);
        if (!areas)
            return no_memory(building->err);
        species->assignment = row;
        species->areas = areas;
        enum status status = sum_groups(building, species, areas);
        if (status != STATUS_OK)
            return status;
    }
    if (count)
        qsort(building->species, count, sizeof *building->species, compare_species);
    building->parameters->species = building->species;
    building->parameters->species_count = count;
    return STATUS_OK;
}

static enum status build_model(struct building *building) {
    enum status status = collect_mains(building);
    if (status == STATUS_OK)
        status = collect_pairs(building);
    if (status == STATUS_OK)
        status = collect_species(building);
    return status;
}

enum status unifac_table_make(const struct library *lib, struct unifac_table *ret, struct error *err) {
    assert(lib->unifac_group_count && "open the library with TABLE_UNIFAC");
    *ret = (struct unifac_table){0};
    for (int model = UNIFAC_DORTMUND; model <= UNIFAC_ORIGINAL; model++) {
        ret->models[model].model = model;
        struct building building = {.lib = lib, .arena = &ret->arena, .parameters = &ret->models[model], .err = err};
        enum status status = build_model(&building);
        if (status != STATUS_OK) {
            unifac_table_release(ret);
            return status;
        }
    }
    return STATUS_OK;
}

void unifac_table_release(struct unifac_table *table) {
    if (!table)
        return;
    arena_release(&table->arena);
    *table = (struct unifac_table){0};
}

const struct unifac_species *unifac_species_find(const struct unifac_table *table, enum unifac_model model,
                                                 const char *component_id) {
    const struct unifac_parameters *parameters = &table->models[model];
    size_t low = 0, high = parameters->species_count;
    while (low < high) {
        size_t middle = low + (high - low) / 2;
        int order = strcmp(component_id, parameters->species[middle].assignment->component);
        if (order == 0)
            return &parameters->species[middle];
        if (order < 0)
            high = middle;
        else
            low = middle + 1;
    }
    return NULL;
}
