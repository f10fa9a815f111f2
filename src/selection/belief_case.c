// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_case.h"

#include "base/memory.h"
#include "base/text.h"

#include <math.h>
#include <string.h>

// --- materials ---

static const struct material *with_region(const struct library *lib, const struct material *material) {
    const struct material *stand_in;
    if (!isnan(material->sphere.r0) || !material->substitute ||
        library_material(lib, material->substitute, &stand_in, NULL) != STATUS_OK)
        return material;
    return stand_in;
}

static size_t put_stand_ins(const struct library *lib, const struct material **materials, size_t count) {
    size_t kept = 0;
    for (size_t i = 0; i < count; i++) {
        const struct material *material = with_region(lib, materials[i]);
        bool again = false;
        for (size_t j = 0; j < kept; j++)
            again = again || materials[j] == material;
        if (!again)
            materials[kept++] = material;
    }
    return kept;
}

enum status belief_case_materials(const struct casefile *file, const struct unifac_table *table, double temp_k,
                                  struct belief_materials *ret, struct error *err) {
    struct belief_materials found = {.lib = &file->library, .table = table, .temp_k = temp_k};
    const struct case_goals *goals = &file->goals;
    enum status status =
        case_goal_materials(file, &goals->remove, found.remove, GOAL_MATERIALS_MAX, &found.remove_count, err);
    if (status == STATUS_OK)
        status = case_goal_materials(file, &goals->spare, found.spare, GOAL_MATERIALS_MAX, &found.spare_count, err);
    if (status == STATUS_OK)
        status = case_goal_materials(file, &goals->unsure, found.spare, GOAL_MATERIALS_MAX, &found.spare_count, err);
    if (status == STATUS_OK && found.remove_count == 0)
        status =
            error_set(err, STATUS_NO_DATA,
                      "%s: goals.remove names no layer or material, so there is nothing to learn about", file->path);
    if (status != STATUS_OK)
        return status;
    found.remove_count = put_stand_ins(found.lib, found.remove, found.remove_count);
    found.spare_count = put_stand_ins(found.lib, found.spare, found.spare_count);
    *ret = found;
    return STATUS_OK;
}

// --- tests ---

size_t belief_case_passage(const struct casefile *file, const char *id) {
    const struct case_passage *passages = file->passages.items;
    for (size_t i = 0; id && i < file->passages.count; i++)
        if (strcmp(passages[i].id, id) == 0)
            return i;
    return BELIEF_NONE;
}

static bool near(const struct case_test *a, const struct case_test *b) {
    if (!text_same(a->passage, b->passage))
        return false;
    if (isnan(a->x_mm) || isnan(b->x_mm) || isnan(a->y_mm) || isnan(b->y_mm))
        return isnan(a->x_mm + a->y_mm) && isnan(b->x_mm + b->y_mm);
    return hypot(a->x_mm - b->x_mm, a->y_mm - b->y_mm) <= BELIEF_SITE_MM;
}

void belief_case_sites(const struct casefile *file, size_t *ret_sites) {
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++) {
        ret_sites[i] = i;
        for (size_t j = 0; j < i; j++) {
            size_t from = ret_sites[j], to = ret_sites[i];
            if (!near(&tests[i], &tests[j]) || from == to)
                continue;
            for (size_t k = 0; k <= i; k++) // two rows that meet are one
                if (ret_sites[k] == to)
                    ret_sites[k] = from;
        }
    }
}

// What a test was aimed at; a test without a layer, at the first material to remove.
static size_t target_of(const struct casefile *file, const struct belief_materials *materials,
                        const struct case_test *test) {
    const struct case_layer *layer = test->layer ? case_layer(file, test->layer) : NULL;
    const struct material *material;
    if (!test->layer)
        return 0;
    if (!layer || !layer->material || library_material(&file->library, layer->material, &material, NULL) != STATUS_OK)
        return BELIEF_NONE;
    material = with_region(&file->library, material);
    for (size_t i = 0; i < materials->remove_count; i++)
        if (materials->remove[i] == material)
            return i;
    return BELIEF_NONE;
}

static bool same_mix(const struct blend *a, const struct blend *b) {
    bool same = a->count == b->count;
    for (size_t i = 0; same && i < a->count; i++)
        same = a->components[i] == b->components[i] && a->volume_fractions[i] == b->volume_fractions[i];
    return same;
}

// The liquid of an earlier test with the same blend, or a new one.
static enum status liquid_of(struct belief_case *learnt, const struct blend *mix, const struct belief_liquid **ret,
                             struct error *err) {
    for (size_t i = 0; i < learnt->count; i++)
        if (same_mix(&learnt->sources[i]->mix, mix)) {
            *ret = learnt->tests[i].liquid;
            return STATUS_OK;
        }
    enum status status = belief_liquid_make(learnt->plan, mix, &learnt->liquids[learnt->liquid_count], err);
    if (status == STATUS_OK)
        *ret = learnt->liquids[learnt->liquid_count++];
    return status;
}

static enum status add_test(struct belief_case *learnt, const struct case_test *test, size_t site, struct error *err) {
    struct belief_left_out *left_out = &learnt->left_out[learnt->left_out_count];
    const struct belief_liquid *liquid = NULL;
    enum status status = liquid_of(learnt, &test->mix, &liquid, &left_out->why);
    if (status == STATUS_NO_DATA || status == STATUS_RANGE) {
        left_out->test = test;
        learnt->left_out_count++;
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        return error_set(err, status, "%s", left_out->why.text);
    learnt->sources[learnt->count] = test;
    size_t passage = belief_case_passage(learnt->file, test->passage);
    learnt->tests[learnt->count] = (struct belief_test){
        .liquid = liquid,
        .contact_s = test->contact_s,
        .rolls = test->rolls,
        .result = test->result,
        .colour = test->colour_on_swab,
        .target = target_of(learnt->file, &learnt->materials, test),
        .passage = passage == BELIEF_NONE ? learnt->file->passages.count : passage,
        .site = site,
    };
    learnt->count++;
    return STATUS_OK;
}

size_t belief_case_particles(const struct casefile *file) {
    const size_t usual = 2000, least = 500, tests_without_haste = 20;
    size_t tests = case_tests_standing(file);
    size_t fewer = tests > tests_without_haste ? usual * tests_without_haste / tests : usual;
    return fewer > least ? fewer : least;
}

static enum status collect(struct belief_case *learnt, struct error *err) {
    const struct case_test *tests = learnt->file->tests.items;
    size_t count = learnt->file->tests.count, *sites = memory_new(count + 1, sizeof *sites);
    learnt->liquids = memory_new(count + 1, sizeof(struct belief_liquid *));
    learnt->tests = memory_new(count + 1, sizeof *learnt->tests);
    learnt->sources = memory_new(count + 1, sizeof(struct case_test *));
    learnt->left_out = memory_new(count + 1, sizeof *learnt->left_out);
    bool room = sites && learnt->liquids && learnt->tests && learnt->sources && learnt->left_out;
    enum status status = room ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory for the tests");
    if (room)
        belief_case_sites(learnt->file, sites);
    size_t standing = case_tests_standing(learnt->file), seen = 0;
    learnt->older = standing > BELIEF_CASE_TESTS_MAX ? standing - BELIEF_CASE_TESTS_MAX : 0;
    for (size_t i = 0; i < count && status == STATUS_OK; i++)
        if (!tests[i].withdrawn && seen++ >= learnt->older)
            status = add_test(learnt, &tests[i], sites[i], err);
    memory_free(sites);
    return status;
}

enum status belief_case_learn(const struct casefile *file, const struct belief_materials *materials,
                              enum belief_view view, size_t particles, unsigned long seed, const struct watch *watch,
                              struct belief_case *ret, struct error *err) {
    struct belief_case learnt = {.file = file, .materials = *materials};
    enum status status = belief_plan_make(materials, view, &learnt.plan, err);
    if (status == STATUS_OK)
        status = belief_start(learnt.plan, particles, seed, &learnt.prior, err);
    if (status == STATUS_OK)
        status = belief_start(learnt.plan, particles, seed, &learnt.belief, err);
    if (status == STATUS_OK)
        status = collect(&learnt, err);
    if (status == STATUS_OK)
        status = belief_learn(learnt.belief, learnt.tests, learnt.count, watch, err);
    if (status == STATUS_OK)
        *ret = learnt;
    else
        belief_case_release(&learnt);
    return status;
}

void belief_case_release(struct belief_case *learnt) {
    if (!learnt)
        return;
    for (size_t i = 0; i < learnt->liquid_count; i++)
        belief_liquid_release(learnt->liquids[i]);
    memory_free(learnt->liquids);
    memory_free(learnt->tests);
    memory_free(learnt->sources);
    memory_free(learnt->left_out);
    belief_release(learnt->belief);
    belief_release(learnt->prior);
    belief_plan_release(learnt->plan);
    *learnt = (struct belief_case){0};
}
