// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/goal_learnt.h"

#include "cli/interrupt.h"
#include "selection/belief_case.h"
#include "selection/belief_material.h"

#include <string.h>

enum { SEED = 1 };

static struct belief_materials materials_of(const struct invocation *inv, const struct goal *goal,
                                            const struct unifac_table *table, double temp_k) {
    struct belief_materials materials = {.lib = &inv->library,
                                         .table = table,
                                         .remove_count = goal->remove_count,
                                         .spare_count = goal->spare_count,
                                         .temp_k = temp_k};
    memcpy(materials.remove, goal->remove, sizeof goal->remove);
    memcpy(materials.spare, goal->spare, sizeof goal->spare);
    return materials;
}

// A view that knows nothing of the materials leaves them as the tables have them.
static enum status learn(const struct invocation *inv, const struct belief_materials *materials, enum belief_view view,
                         struct belief_case *ret, struct error *err) {
    struct watch watch = {.progress = interrupt_progress, .cancel = interrupt_cancel()};
    interrupt_watch();
    enum status status =
        belief_case_learn(inv->casefile, materials, view, belief_case_particles(inv->casefile), SEED, &watch, ret, err);
    interrupt_done();
    return status == STATUS_NO_DATA ? STATUS_OK : status;
}

static enum status replace(struct invocation *inv, struct goal *goal, const struct belief_case *film,
                           const struct belief_case *red, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < goal->remove_count + goal->spare_count && status == STATUS_OK; i++) {
        bool remove = i < goal->remove_count;
        status = belief_material_learnt(inv->arena, film->belief, red->belief, i,
                                        remove ? &goal->remove[i] : &goal->spare[i - goal->remove_count], err);
    }
    return status;
}

static void tell(struct invocation *inv, const struct belief_case *learnt) {
    struct belief_conflict conflict;
    page_paragraph_f(inv->talk, 0, 2,
                     "note: the regions are those that the tests of %s leave (used: %zu; see mildsolve learn); "
                     "--tables-only takes them as the tables have them",
                     inv->casefile->path, learnt->count);
    for (size_t i = 0; i < learnt->materials.remove_count; i++)
        if (belief_contradiction(learnt->belief, i, &conflict, NULL) == STATUS_OK && conflict.p_value < BELIEF_CONFLICT)
            page_paragraph_f(
                inv->talk, 0, 2,
                "note: the tests contradict what the tables say of %s; see mildsolve learn before you go by "
                "this list",
                learnt->materials.remove[i]->id);
}

enum status goal_learn(struct invocation *inv, struct goal *goal, const struct unifac_table *table, double temp_k,
                       struct error *err) {
    bool tables_only = option_known(inv, "--tables-only") && option_given(inv, "--tables-only");
    if (!inv->casefile || tables_only || case_tests_standing(inv->casefile) == 0)
        return STATUS_OK;
    struct belief_materials materials = materials_of(inv, goal, table, temp_k);
    struct belief_case film = {0}, red = {0};
    enum status status = learn(inv, &materials, BELIEF_FILM, &film, err);
    if (status == STATUS_OK)
        status = learn(inv, &materials, BELIEF_RED, &red, err);
    if (status == STATUS_OK && (film.belief || red.belief)) {
        status = replace(inv, goal, &film, &red, err);
        tell(inv, film.belief ? &film : &red);
    }
    belief_case_release(&film);
    belief_case_release(&red);
    return status;
}

static void json_material(const struct material *material, const char *goal, struct json *json) {
    if (!material->learnt)
        return;
    json_object(json, NULL);
    json_text(json, "id", material->id);
    json_text(json, "goal", goal);
    json_object(json, "red_sphere");
    json_number(json, "delta_d", material->sphere.delta_d);
    json_number(json, "delta_p", material->sphere.delta_p);
    json_number(json, "delta_h", material->sphere.delta_h);
    json_number(json, "r0", material->sphere.r0);
    json_close_object(json);
    json_object(json, "film_centre");
    json_number(json, "delta_d", material->film_model.delta_d);
    json_number(json, "delta_p", material->film_model.delta_p);
    json_number(json, "delta_h", material->film_model.delta_h);
    json_number(json, "chi_shift", material->film_model.chi_shift);
    json_close_object(json);
    json_close_object(json);
}

void json_learnt(const struct goal *goal, struct json *json) {
    json_list(json, "learnt");
    for (size_t i = 0; i < goal->remove_count; i++)
        json_material(goal->remove[i], "remove", json);
    for (size_t i = 0; i < goal->spare_count; i++)
        json_material(goal->spare[i], "spare", json);
    json_close_list(json);
}
