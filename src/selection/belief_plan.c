// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/memory.h"
#include "base/units.h"
#include "selection/belief_parts.h"

#include <assert.h>
#include <math.h>

const char *const belief_view_words[] = {"film", "red", NULL};

// Molar volume of a usual solvent, cm3/mol, by which a doubt of the radius becomes one of chi: half of the liquids of
// the tables lie between 75 and 125.
static const double usual_volume_cm3_mol = 90;

// An uncertainty that nobody stated is not zero: that of estimates is taken.
static enum status uncertainty_of(const struct library *lib, const char *quantity, const struct provenance *from,
                                  double own, double value, const struct material *material, double *ret,
                                  struct error *err) {
    double found = library_uncertainty(lib, quantity, from->sure, own, value);
    if (isnan(found))
        found = library_uncertainty(lib, quantity, SURE_ESTIMATE, NAN, value);
    if (isnan(found))
        return error_set(err, STATUS_NO_DATA, "%s: no uncertainty is known for %s", material->id, quantity);
    *ret = found;
    return STATUS_OK;
}

static void set_centre(struct belief_item *item, struct hansen centre, double sd) {
    item->mean[BELIEF_DELTA_D] = centre.delta_d;
    item->mean[BELIEF_DELTA_P] = centre.delta_p;
    item->mean[BELIEF_DELTA_H] = centre.delta_h;
    item->sd[BELIEF_DELTA_D] = sd / 2; // counts double in a distance
    item->sd[BELIEF_DELTA_P] = item->sd[BELIEF_DELTA_H] = sd;
}

// A radius sd more or less moves chi of a usual solvent at the edge of the sphere by alpha V/(RT) R0 sd/2, since chi
// holds Ra^2/4.
static double shift_sd(const struct film_parameters *film, double r0, double r0_sd, double temp_k) {
    return film->alpha * usual_volume_cm3_mol / (GAS_CONSTANT * temp_k) * r0 * r0_sd / 2;
}

static enum status set_by_red(const struct belief_materials *given, struct belief_item *item, double r0_sd,
                              struct error *err) {
    const struct sphere_values *sphere = &item->material->sphere;
    double sd;
    enum status status = uncertainty_of(given->lib, "sphere_centre", &sphere->from, sphere->uncertainty,
                                        sphere->delta_d, item->material, &sd, err);
    if (status != STATUS_OK)
        return status;
    set_centre(item, hansen_of_sphere(sphere), sd);
    item->mean[BELIEF_STRENGTH] = log(sphere->r0);
    item->sd[BELIEF_STRENGTH] = r0_sd / sphere->r0;
    return STATUS_OK;
}

static enum status set_by_film(const struct belief_materials *given, struct belief_item *item, double r0_sd,
                               struct error *err) {
    const struct material *material = item->material;
    bool own_centre = !isnan(material->film_model.delta_d);
    double sd;
    enum status status = film_parameters_of_material(material, &item->film, err);
    if (status == STATUS_OK)
        status = uncertainty_of(
            given->lib, "sphere_centre", own_centre ? &material->film_model.from : &material->sphere.from,
            own_centre ? NAN : material->sphere.uncertainty, item->film.centre.delta_d, material, &sd, err);
    if (status != STATUS_OK)
        return status;
    set_centre(item, item->film.centre, sd);
    item->mean[BELIEF_STRENGTH] = 0;
    item->sd[BELIEF_STRENGTH] = shift_sd(&item->film, material->sphere.r0, r0_sd, given->temp_k);
    return STATUS_OK;
}

static enum status add_item(struct belief_plan *plan, const struct material *material, bool spared, struct error *err) {
    struct belief_item *item = &plan->items[plan->count];
    double r0_sd;
    if (isnan(material->sphere.r0))
        return error_set(err, STATUS_NO_DATA, "%s has no region to learn about", material->id);
    *item = (struct belief_item){.material = material, .spared = spared};
    enum status status = uncertainty_of(plan->given.lib, "sphere_r0", &material->sphere.from,
                                        material->sphere.uncertainty_r0, material->sphere.r0, material, &r0_sd, err);
    if (status == STATUS_OK)
        status = plan->view == BELIEF_FILM ? set_by_film(&plan->given, item, r0_sd, err)
                                           : set_by_red(&plan->given, item, r0_sd, err);
    if (status != STATUS_OK)
        return status;
    belief_response_set(plan->view, spared, &item->response);
    plan->count++;
    return STATUS_OK;
}

static enum status check(const struct belief_materials *materials, struct error *err) {
    if (materials->remove_count < 1 || materials->remove_count > GOAL_MATERIALS_MAX)
        return error_set(err, STATUS_RANGE, "%zu materials to remove: 1 to %d are possible", materials->remove_count,
                         GOAL_MATERIALS_MAX);
    if (materials->spare_count > GOAL_MATERIALS_MAX)
        return error_set(err, STATUS_RANGE, "%zu materials to spare: up to %d are possible", materials->spare_count,
                         GOAL_MATERIALS_MAX);
    if (!(materials->temp_k >= ACTIVITY_TEMP_K_LEAST && materials->temp_k <= ACTIVITY_TEMP_K_MOST))
        return error_set(err, STATUS_RANGE, "temperature %g K is outside the models", materials->temp_k);
    return STATUS_OK;
}

enum status belief_plan_make(const struct belief_materials *materials, enum belief_view view, struct belief_plan **ret,
                             struct error *err) {
    enum status status = check(materials, err);
    if (status != STATUS_OK)
        return status;
    struct belief_plan *plan = memory_new(1, sizeof *plan);
    if (!plan)
        return error_set(err, STATUS_MEMORY, "out of memory");
    plan->view = view;
    plan->given = *materials;
    for (size_t i = 0; status == STATUS_OK && i < materials->remove_count; i++)
        status = add_item(plan, materials->remove[i], false, err);
    for (size_t i = 0; status == STATUS_OK && i < materials->spare_count; i++)
        status = add_item(plan, materials->spare[i], true, err);
    if (status == STATUS_OK)
        *ret = plan;
    else
        memory_free(plan);
    return status;
}

void belief_plan_release(struct belief_plan *plan) {
    memory_free(plan);
}

size_t belief_material_count(const struct belief_plan *plan) {
    return plan->count;
}

const struct material *belief_material(const struct belief_plan *plan, size_t material) {
    assert(material < plan->count);
    return plan->items[material].material;
}
