// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/doubt_draw.h"

#include "base/memory.h"
#include "physics/film_fit.h"
#include "physics/film_series.h"
#include "physics/film_tilt.h"

#include <assert.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <gsl/gsl_statistics.h>
#include <math.h>
#include <string.h>

// --- quantities and their numbers ---

// Each quantity has a number of its own; the first SOBOL_MAX (the most that GSL's Sobol points have) are quasi-random.
enum { SOBOL_MAX = 40 };
enum { QUANTITY_ALPHA, QUANTITY_ENTROPIC, QUANTITY_MATERIALS };
enum { PART_D, PART_P, PART_H, PART_CHAIN, PART_RADIUS, PARTS };
enum { QUANTITY_PAIRS = 1 << 20 };

static size_t material_quantity(const struct doubt_plan *plan, size_t material, size_t part) {
    return QUANTITY_MATERIALS + PARTS * plan->materials[material].first + part;
}

// The pairs that meet most in the list come before the places of the components: activities move more than they do.
static size_t pair_quantity(const struct doubt_plan *plan, size_t larger, size_t smaller) {
    for (size_t i = 0; i < plan->pair_count; i++)
        if (plan->pairs[i][0] == larger && plan->pairs[i][1] == smaller)
            return QUANTITY_MATERIALS + PARTS * plan->count + i;
    return QUANTITY_PAIRS + larger * DOUBT_POOL_MAX + smaller;
}

static size_t component_quantity(const struct doubt_plan *plan, size_t place, size_t part) {
    return QUANTITY_MATERIALS + PARTS * plan->count + plan->pair_count + 3 * plan->component_turn[place] + part;
}

// --- numbers ---

// SplitMix64 (Steele, Lea & Flood, OOPSLA 2014, from memory) as a hash: no state, so that every sample can be drawn on
// its own.
static uint64_t scramble(uint64_t z) {
    z += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

double doubt_uniform(uint64_t seed, uint64_t sample, uint64_t quantity) {
    uint64_t bits = scramble(scramble(scramble(seed) ^ sample) ^ quantity);
    return ((double)(bits >> 12) + 0.5) / 4503599627370496.0; // 2^52: never 0 nor 1
}

static double uniform_of(const struct doubt_plan *plan, size_t sample, size_t quantity) {
    if (quantity >= plan->sobol_count)
        return doubt_uniform(plan->seed, sample, quantity);
    double moved = plan->sobol[sample * plan->sobol_count + quantity] + doubt_uniform(plan->seed, UINT64_MAX, quantity);
    moved -= floor(moved);
    return fmin(fmax(moved, 1e-12), 1 - 1e-12);
}

static double normal_of(const struct doubt_plan *plan, size_t sample, size_t quantity) {
    return gsl_cdf_ugaussian_Pinv(uniform_of(plan, sample, quantity));
}

static double triangular(double least, double peak, double most, double u) {
    double below = (peak - least) / (most - least);
    return u < below ? least + sqrt(u * (most - least) * (peak - least))
                     : most - sqrt((1 - u) * (most - least) * (most - peak));
}

double doubt_between(double least, double most, double share) {
    return least * pow(most / least, share);
}

// GSL's generator, with its state in memory of our own.
static enum status fill_sobol(struct doubt_plan *plan, struct error *err) {
    unsigned dimensions = (unsigned)plan->sobol_count;
    plan->sobol = memory_new(plan->samples * plan->sobol_count, sizeof *plan->sobol);
    void *state = memory_new(1, gsl_qrng_sobol->state_size(dimensions));
    if (plan->sobol && state && gsl_qrng_sobol->init_state(state, dimensions) == 0) {
        for (size_t i = 0; i < plan->samples; i++)
            gsl_qrng_sobol->get(state, dimensions, plan->sobol + i * plan->sobol_count);
        memory_free(state);
        return STATUS_OK;
    }
    memory_free(state);
    return error_set(err, STATUS_MEMORY, "out of memory for the points to sample");
}

// --- the plan: materials ---

static const double unfitted_factor = 2; // chains or strands of which nothing is known: the sizes move by about two
static const double chain_within = 1e-3; // of ln V_p; moves the first dissolving share by 0.03 percent

// An uncertainty that nobody stated is not zero: that of estimates is taken.
static enum status uncertainty_of(const struct library *lib, const char *quantity, enum sureness sure, double own,
                                  double value, const char *owner, double *ret, struct error *err) {
    assert(lib->loaded & TABLE_UNCERTAINTY);
    double found = library_uncertainty(lib, quantity, sure, own, value);
    if (isnan(found))
        found = library_uncertainty(lib, quantity, SURE_ESTIMATE, NAN, value);
    if (isnan(found))
        return error_set(err, STATUS_NO_DATA, "%s: no uncertainty is known for %s", owner, quantity);
    *ret = found;
    return STATUS_OK;
}

// What was learnt: the deviations of its draws.
static void set_learnt_uncertainties(struct doubt_material *item) {
    const struct material_draws *learnt = item->material->learnt;
    const double *rows = item->by_film ? learnt->film : learnt->red;
    double p = gsl_stats_sd(rows + 1, MATERIAL_DRAW, learnt->count);
    double h = gsl_stats_sd(rows + 2, MATERIAL_DRAW, learnt->count);
    item->centre_sd = sqrt(0.5 * (p * p + h * h));
    if (learnt->red)
        item->r0_sd = gsl_stats_sd(learnt->red + 3, MATERIAL_DRAW, learnt->count);
}

static bool is_learnt(const struct doubt_material *item) {
    const struct material_draws *learnt = item->material->learnt;
    return learnt && (item->by_film ? learnt->film : learnt->red);
}

static enum status set_uncertainties(const struct library *lib, struct doubt_material *item, struct error *err) {
    const struct sphere_values *sphere = &item->material->sphere;
    const struct film_values *film = &item->material->film_model;
    const char *id = item->material->id;
    if (is_learnt(item)) {
        set_learnt_uncertainties(item);
        return STATUS_OK;
    }
    bool own_centre = item->by_film && !isnan(film->delta_d);
    enum status status = own_centre ? uncertainty_of(lib, "sphere_centre", film->from.sure, NAN, film->delta_d, id,
                                                     &item->centre_sd, err)
                                    : uncertainty_of(lib, "sphere_centre", sphere->from.sure, sphere->uncertainty,
                                                     sphere->delta_d, id, &item->centre_sd, err);
    if (status == STATUS_OK && (!item->by_film || item->sphere_too))
        status = uncertainty_of(lib, "sphere_r0", sphere->from.sure, sphere->uncertainty_r0, sphere->r0, id,
                                &item->r0_sd, err);
    return status;
}

static void set_range(struct doubt_material *item) {
    const struct film_values *row = &item->material->film_model;
    bool network = item->film.network_mol_m3 > 0;
    double nominal = network ? item->film.network_mol_m3 : item->film.molar_volume_cm3_mol;
    double least = network ? row->network_least : row->molar_volume_least;
    double most = network ? row->network_most : row->molar_volume_most;
    item->least = isnan(least) ? nominal / unfitted_factor : least;
    item->most = isnan(most) ? nominal * unfitted_factor : most;
}

static enum status add_anchor_liquid(const struct doubt_request *request, struct liquid_list *list,
                                     const struct record_list *parts, size_t *ret_liquid, struct error *err) {
    const struct bottle_part *rows = parts->items;
    struct blend_part bottles[BLEND_BOTTLES_MAX];
    struct blend blend;
    if (parts->count > BLEND_BOTTLES_MAX)
        return error_set(err, STATUS_RANGE, "more than %d components in the liquid of an anchor", BLEND_BOTTLES_MAX);
    enum status status = STATUS_OK;
    for (size_t i = 0; i < parts->count && status == STATUS_OK; i++) {
        bottles[i] = (struct blend_part){.parts = rows[i].percent};
        status = library_component(request->lib, rows[i].component, &bottles[i].bottle.component, err);
    }
    if (status == STATUS_OK)
        status = blend_make(request->lib, bottles, parts->count, &blend, err);
    if (status == STATUS_OK)
        status = liquid_list_add(list, request->table, &blend, request->temp_k, err);
    if (status != STATUS_OK)
        return status;
    *ret_liquid = list->count - 1;
    const struct liquid_set *set = list->sets[list->liquids[*ret_liquid].set];
    return set->covered ? STATUS_OK : error_set(err, STATUS_NO_DATA, "no model covers a liquid of its anchor");
}

static double critical_chain(const struct doubt_plan *plan, const struct doubt_values *values, size_t material,
                             size_t liquid) {
    const struct liquid *item = &plan->list->liquids[liquid];
    const struct liquid_set *set = plan->list->sets[item->set];
    double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    const double *tilt = doubt_tilt(plan, values->sample, set, matrix);
    struct film film;
    doubt_film(plan, values, material, set, tilt, &film);
    memcpy(ln_activity, item->ln_activity, set->count * sizeof *ln_activity);
    if (tilt)
        film_tilt_add(tilt, set->count, item->x, ln_activity, NULL);
    double near = plan->materials[material].film.molar_volume_cm3_mol;
    return film_critical_chain_near(&film, ln_activity, near, chain_within);
}

bool doubt_anchor_range(const struct doubt_plan *plan, const struct doubt_values *values, size_t material,
                        double *ret_least, double *ret_most) {
    const struct doubt_material *item = &plan->materials[material];
    double fails = critical_chain(plan, values, material, item->fails);
    double dissolves = critical_chain(plan, values, material, item->dissolves);
    *ret_least = fmax(fails * exp(chain_within), FILM_CHAIN_LEAST);
    *ret_most = fmin(dissolves, FILM_CHAIN_MOST);
    return *ret_most > *ret_least;
}

static enum status add_anchor(const struct doubt_request *request, struct doubt_plan *plan, struct doubt_material *item,
                              struct error *err) {
    const struct film_values *row = &item->material->film_model;
    if (!item->by_film || row->anchor_fails.count == 0)
        return STATUS_OK;
    enum status status = add_anchor_liquid(request, plan->list, &row->anchor_fails, &item->fails, err);
    if (status == STATUS_OK)
        status = add_anchor_liquid(request, plan->list, &row->anchor_dissolves, &item->dissolves, err);
    if (status != STATUS_OK)
        return error_wrap(err, status, "film model of %s", item->material->id);
    item->anchored = true;
    return STATUS_OK;
}

// To remove: by the film, or by the sphere where the table ranks by RED. To spare: by the film wherever there is one,
// as the search does, with the sphere beside it where the table ranks by RED.
static enum status add_material(const struct doubt_request *request, struct doubt_plan *plan,
                                const struct material *material, bool remove, struct error *err) {
    struct doubt_material *item = &plan->materials[plan->count];
    *item = (struct doubt_material){
        .material = material, .sphere = hansen_of_sphere(&material->sphere), .r0 = material->sphere.r0};
    while (plan->materials[item->first].material != material)
        item->first++;
    const struct film_values *row = &material->film_model;
    bool has_sphere = !isnan(item->r0), has_film = !isnan(row->network_mol_m3) || !isnan(row->molar_volume_cm3_mol);
    if (!has_sphere && !has_film)
        return error_set(err, STATUS_NO_DATA, "%s has neither a film model nor a region", material->id);
    bool untrusted = row->rank_by == RANK_BY_RED && has_sphere;
    item->by_film = has_film && (!has_sphere || !request->by_red) && !(remove && untrusted);
    item->sphere_too = item->by_film && untrusted;
    enum status status = item->by_film ? film_parameters_of_material(material, &item->film, err) : STATUS_OK;
    if (status != STATUS_OK)
        return status;
    if (item->by_film)
        set_range(item);
    plan->count++;
    status = set_uncertainties(request->lib, item, err);
    return status == STATUS_OK ? add_anchor(request, plan, item, err) : status;
}

static enum status add_materials(const struct doubt_request *request, struct doubt_plan *plan, struct error *err) {
    const struct goal *goal = request->goal;
    enum status status = STATUS_OK;
    for (size_t i = 0; i < goal->remove_count && status == STATUS_OK; i++)
        status = add_material(request, plan, goal->remove[i], true, err);
    plan->remove_count = plan->count;
    for (size_t i = 0; i < goal->spare_count && status == STATUS_OK; i++)
        status = add_material(request, plan, goal->spare[i], false, err);
    return status;
}

// Where the table's chains stand between those of the anchor, with everything else at its nominal value.
static enum status set_positions(struct doubt_plan *plan, struct error *err) {
    unsigned vary = plan->vary;
    plan->vary = 0;
    struct doubt_values values;
    doubt_draw(plan, 0, &values);
    plan->vary = vary;
    for (size_t i = 0; i < plan->count; i++) {
        struct doubt_material *item = &plan->materials[i];
        double least, most;
        if (!item->anchored)
            continue;
        if (!doubt_anchor_range(plan, &values, i, &least, &most))
            return error_set(
                err, STATUS_RANGE,
                "film model of %s: no chain dissolves in the one liquid of its anchor and not in the other",
                item->material->id);
        double position = log(item->film.molar_volume_cm3_mol / least) / log(most / least);
        item->position = fmin(fmax(position, 0), 1);
    }
    return STATUS_OK;
}

// --- the plan: components ---

static enum status set_components(const struct library *lib, struct doubt_plan *plan, struct error *err) {
    const struct liquid_list *list = plan->list;
    for (size_t i = 0; i < list->pool_count; i++) {
        const struct component *component = list->pool[i];
        plan->component_sd[i] = 0;
        if (isnan(component->hansen.delta_d))
            continue; // its liquids are not judged
        enum status status = uncertainty_of(lib, "hansen", component->hansen.from.sure, component->hansen.uncertainty,
                                            component->hansen.delta_d, component->id, &plan->component_sd[i], err);
        if (status != STATUS_OK)
            return status;
        for (size_t j = 0; j < list->pool_count; j++)
            plan->component_turn[i] +=
                list->shares[j] > list->shares[i] || (j < i && list->shares[j] == list->shares[i]);
    }
    return STATUS_OK;
}

// Sum over the list of the products of volume fractions, for every pair (larger place first).
static void weigh_pairs(const struct liquid_list *list, double *weights) {
    for (size_t k = 0; k < list->count; k++) {
        const struct liquid *liquid = &list->liquids[k];
        const struct liquid_set *set = list->sets[liquid->set];
        for (size_t i = 0; i < set->count; i++)
            for (size_t j = 0; j < i; j++)
                weights[set->members[i] * DOUBT_POOL_MAX + set->members[j]] +=
                    liquid->volume_fractions[i] * liquid->volume_fractions[j];
    }
}

static enum status choose_pairs(struct doubt_plan *plan, struct error *err) {
    double *weights = memory_new(DOUBT_POOL_MAX * DOUBT_POOL_MAX, sizeof *weights);
    if (!weights)
        return error_set(err, STATUS_MEMORY, "out of memory for pairs of components");
    weigh_pairs(plan->list, weights);
    while (plan->pair_count < DOUBT_PAIRS_FIRST) {
        size_t most = 0;
        for (size_t i = 1; i < DOUBT_POOL_MAX * DOUBT_POOL_MAX; i++)
            most = weights[i] > weights[most] ? i : most;
        if (!(weights[most] > 0))
            break;
        weights[most] = 0;
        plan->pairs[plan->pair_count][0] = most / DOUBT_POOL_MAX;
        plan->pairs[plan->pair_count++][1] = most % DOUBT_POOL_MAX;
    }
    memory_free(weights);
    return STATUS_OK;
}

enum status doubt_plan_make(const struct doubt_request *request, struct liquid_list *list, struct doubt_plan *ret,
                            struct error *err) {
    struct doubt_plan plan = {.vary = request->vary,
                              .seed = request->seed,
                              .temp_k = request->temp_k,
                              .samples = request->samples * DOUBT_TRIES,
                              .list = list};
    enum status status = add_materials(request, &plan, err);
    if (status == STATUS_OK)
        status = set_components(request->lib, &plan, err);
    if (status == STATUS_OK)
        status = choose_pairs(&plan, err);
    if (status != STATUS_OK)
        return status;
    size_t quantities = QUANTITY_MATERIALS + PARTS * plan.count + plan.pair_count + 3 * list->pool_count;
    plan.sobol_count = quantities < SOBOL_MAX ? quantities : SOBOL_MAX;
    status = fill_sobol(&plan, err);
    if (status == STATUS_OK)
        status = set_positions(&plan, err);
    if (status == STATUS_OK)
        *ret = plan;
    else
        doubt_plan_release(&plan);
    return status;
}

void doubt_plan_release(struct doubt_plan *plan) {
    if (!plan)
        return;
    memory_free(plan->sobol);
    *plan = (struct doubt_plan){0};
}

// --- one sample ---

static struct hansen moved(struct hansen place, double d, double p, double h) {
    return (struct hansen){place.delta_d + d, place.delta_p + p, place.delta_h + h};
}

// One of the regions that tests left possible, in place of all that is varied around the tables' one: the shift of chi
// holds what alpha, the entropic part and the chains have wrong.
static void draw_learnt(const struct doubt_plan *plan, size_t index, struct doubt_values *values) {
    const struct doubt_material *item = &plan->materials[index];
    const struct material_draws *learnt = item->material->learnt;
    double u = uniform_of(plan, values->sample, material_quantity(plan, index, PART_D));
    size_t row = (size_t)(u * (double)learnt->count);
    bool vary = plan->vary & DOUBT_CENTRES;
    if (vary && learnt->red) {
        const double *red = learnt->red + row * MATERIAL_DRAW;
        values->materials[index].sphere = (struct hansen){red[0], red[1], red[2]};
        values->materials[index].r0 = red[3];
    }
    if (!item->by_film)
        return;
    struct film_parameters *film = &values->materials[index].film;
    *film = item->film;
    if (vary) {
        const double *row_of_film = learnt->film + row * MATERIAL_DRAW;
        film->centre = (struct hansen){row_of_film[0], row_of_film[1], row_of_film[2]};
        film->chi_shift = row_of_film[3];
    }
}

static void draw_material(const struct doubt_plan *plan, size_t index, double alpha, double entropic,
                          struct doubt_values *values) {
    const struct doubt_material *item = &plan->materials[index];
    size_t sample = values->sample;
    double sd = plan->vary & DOUBT_CENTRES ? item->centre_sd : 0;
    double d = 0.5 * sd * normal_of(plan, sample, material_quantity(plan, index, PART_D));
    double p = sd * normal_of(plan, sample, material_quantity(plan, index, PART_P));
    double h = sd * normal_of(plan, sample, material_quantity(plan, index, PART_H));
    values->materials[index].sphere = moved(item->sphere, d, p, h);
    double radius_sd = plan->vary & DOUBT_RADII ? item->r0_sd : 0;
    double radius = item->r0 + radius_sd * normal_of(plan, sample, material_quantity(plan, index, PART_RADIUS));
    values->materials[index].r0 = fmax(radius, 0.01 * item->r0);
    if (is_learnt(item)) {
        values->materials[index].sphere = item->sphere;
        values->materials[index].r0 = item->r0;
        draw_learnt(plan, index, values);
        return;
    }
    if (!item->by_film)
        return;
    struct film_parameters *film = &values->materials[index].film;
    *film = item->film;
    film->alpha = alpha;
    film->chi_entropic = entropic;
    film->centre = moved(item->film.centre, d, p, h);
    double u = uniform_of(plan, sample, material_quantity(plan, index, PART_CHAIN));
    if (item->film.network_mol_m3 > 0 && plan->vary & DOUBT_STRANDS)
        film->network_mol_m3 = doubt_between(item->least, item->most, u);
    if (item->film.network_mol_m3 == 0 && !item->anchored && plan->vary & DOUBT_CHAINS)
        film->molar_volume_cm3_mol = doubt_between(item->least, item->most, u);
}

// Whatever moves the critical chains of an anchor.
static const unsigned moves_chains =
    DOUBT_ALPHA | DOUBT_ENTROPIC | DOUBT_CENTRES | DOUBT_CHAINS | DOUBT_COMPONENTS | DOUBT_ACTIVITIES;

static bool meet_anchors(const struct doubt_plan *plan, struct doubt_values *values) {
    for (size_t i = 0; i < plan->count && plan->vary & moves_chains; i++) {
        const struct doubt_material *item = &plan->materials[i];
        double least, most;
        if (!item->anchored)
            continue;
        if (!doubt_anchor_range(plan, values, i, &least, &most))
            return false;
        double u = uniform_of(plan, values->sample, material_quantity(plan, i, PART_CHAIN));
        values->materials[i].film.molar_volume_cm3_mol =
            doubt_between(least, most, plan->vary & DOUBT_CHAINS ? u : item->position);
    }
    return true;
}

bool doubt_draw(const struct doubt_plan *plan, size_t sample, struct doubt_values *ret) {
    const struct film_ends *ends = &film_ends_usual;
    ret->sample = sample;
    double alpha = FILM_ALPHA, entropic = FILM_CHI_ENTROPIC;
    if (plan->vary & DOUBT_ALPHA)
        alpha = triangular(ends->alpha[0], FILM_ALPHA, ends->alpha[1], uniform_of(plan, sample, QUANTITY_ALPHA));
    if (plan->vary & DOUBT_ENTROPIC) {
        double u = uniform_of(plan, sample, QUANTITY_ENTROPIC);
        entropic = (1 - u) * ends->chi_entropic[0] + u * ends->chi_entropic[1];
    }
    for (size_t i = 0; i < plan->list->pool_count; i++) {
        double sd = plan->vary & DOUBT_COMPONENTS ? plan->component_sd[i] : 0, part[3];
        for (size_t k = 0; k < 3; k++)
            part[k] = sd > 0 ? sd * normal_of(plan, sample, component_quantity(plan, i, k)) : 0;
        ret->components[i] = moved(hansen_of_component(plan->list->pool[i]), part[0], part[1], part[2]);
    }
    for (size_t i = 0; i < plan->count; i++)
        draw_material(plan, i, alpha, entropic, ret);
    return meet_anchors(plan, ret);
}

void doubt_film(const struct doubt_plan *plan, const struct doubt_values *values, size_t material,
                const struct liquid_set *set, const double *tilt, struct film *ret) {
    struct hansen places[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < set->count; i++)
        places[i] = values->components[set->members[i]];
    *ret = set->film;
    film_vary(&values->materials[material].film, places, plan->temp_k, ret);
    ret->tilt = tilt;
}

static const double rough_guide_factor = 2; // estimate: nobody measured how wrong the rough guides are

const double *doubt_tilt(const struct doubt_plan *plan, size_t sample, const struct liquid_set *set, double *matrix) {
    if (!(plan->vary & DOUBT_ACTIVITIES))
        return NULL;
    double sd = FILM_TILT_SD * (set->activity.coverage.weak ? rough_guide_factor : 1);
    for (size_t i = 0; i < set->count; i++) {
        matrix[i * set->count + i] = 0;
        for (size_t j = 0; j < i; j++) { // members ascend: the same number for the pair in every set
            double value = sd * normal_of(plan, sample, pair_quantity(plan, set->members[i], set->members[j]));
            matrix[i * set->count + j] = value;
            matrix[j * set->count + i] = value;
        }
    }
    return matrix;
}
