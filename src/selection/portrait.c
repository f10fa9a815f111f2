// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/portrait.h"

#include "base/memory.h"
#include "base/units.h"
#include "physics/film_mix.h"

#include <math.h>
#include <string.h>

static const struct hansen nowhere = {NAN, NAN, NAN};

static void place(struct portrait *portrait) {
    portrait->hansen = nowhere;
    portrait->teas = (struct teas){NAN, NAN, NAN};
    hansen_of_blend(&portrait->blend, &portrait->hansen, NULL);
    teas_of_blend(&portrait->blend, TEAS_MEAN_OF_FRACTIONS, &portrait->teas, NULL, NULL);
}

// --- drying ---

enum { PATH_STRIDE = 10 }; // points of the path that are 10 % apart (evaporation.h: one a percent)

static void take_path(const struct evaporation *path, struct portrait *portrait) {
    portrait->time_90 = path->time_90;
    portrait->time_95 = path->time_95;
    for (size_t i = 0; i < PORTRAIT_PATH; i++)
        if (i * PATH_STRIDE < path->count)
            portrait->path[i] = path->points[i * PATH_STRIDE].hansen;
    if (path->count <= EVAPORATION_TAIL)
        return;
    portrait->tail = path->points[EVAPORATION_TAIL].hansen;
    for (size_t i = 0; i < path->blend.count; i++)
        if (!portrait->last || path->tail_phi[i] > portrait->last_share) {
            portrait->last = path->blend.components[i];
            portrait->last_share = path->tail_phi[i];
        }
}

static enum status dry(const struct portrait_frame *frame, struct portrait *portrait, struct error *err) {
    struct evaporation *path = memory_new(1, sizeof *path);
    struct evaporation_options options = {.temp_c = frame->temp_c};
    struct retention retention;
    if (!path)
        return error_set(err, STATUS_MEMORY, "out of memory");
    portrait->time_90 = portrait->time_95 = NAN;
    portrait->tail = nowhere;
    for (size_t i = 0; i < PORTRAIT_PATH; i++)
        portrait->path[i] = nowhere;
    enum status status = evaporation_follow(frame->lib, frame->table, &portrait->blend, &options, path, NULL);
    if (status == STATUS_OK)
        take_path(path, portrait);
    memory_free(path);
    retention_of_blend(&portrait->blend, NULL, &retention);
    portrait->residue = retention.word;
    return status == STATUS_MEMORY ? error_set(err, STATUS_MEMORY, "out of memory") : STATUS_OK;
}

// --- films ---

struct liquid {
    struct activity_model activity;
    double ln_activity[BLEND_COMPONENTS_MAX];
};

static bool prepare_liquid(const struct portrait_frame *frame, const struct portrait *portrait, struct liquid *ret) {
    double x[BLEND_COMPONENTS_MAX];
    if (activity_prepare_blend(frame->table, &portrait->blend, kelvin_from_celsius(frame->temp_c), &ret->activity,
                               NULL) != STATUS_OK ||
        !activity_covers(&ret->activity) || blend_mole_fractions(&portrait->blend, x, NULL) != STATUS_OK)
        return false;
    if (portrait->phase == PHASE_TWO)
        return film_common_activities(&ret->activity, x, ret->ln_activity, NULL, NULL) == STATUS_OK;
    film_liquid_activities(&ret->activity, x, ret->ln_activity);
    return true;
}

static void film_of(const struct liquid *liquid, const struct material *material, struct film_result *ret) {
    struct film_parameters parameters;
    struct film film;
    if (film_parameters_of_material(material, &parameters, NULL) != STATUS_OK)
        film_no_result(FILM_NO_REGION, ret);
    else if (!liquid || film_prepare(&parameters, &liquid->activity, &film, NULL) != STATUS_OK)
        film_no_result(FILM_NOT_COVERED, ret);
    else
        film_of_activities(&film, liquid->ln_activity, NULL, ret);
}

static struct hansen mean_place(const struct blend *blend, const double *fractions) {
    struct hansen sum = {0};
    for (size_t i = 0; i < blend->count; i++) {
        struct hansen part = hansen_of_component(blend->components[i]);
        sum.delta_d += fractions[i] * part.delta_d;
        sum.delta_p += fractions[i] * part.delta_p;
        sum.delta_h += fractions[i] * part.delta_h;
    }
    return sum;
}

static void swell(const struct portrait_frame *frame, const struct liquid *liquid, struct portrait *portrait) {
    struct film_result most;
    film_no_result(FILM_NOT_COVERED, &most);
    for (size_t i = 0; i < frame->spare_count; i++) {
        struct film_result result;
        film_of(liquid, frame->spare[i], &result);
        if (!film_takes_up_more(&result, &most))
            continue;
        most = result;
        portrait->spared = frame->spare[i];
    }
    portrait->film = most.outcome;
    portrait->swelling = most.swelling;
    memcpy(portrait->inside, most.inside, sizeof portrait->inside);
    portrait->inside_place = most.outcome == FILM_BOUNDED ? mean_place(&portrait->blend, most.inside) : nowhere;
}

static void dissolve(const struct portrait_frame *frame, const struct liquid *liquid, struct portrait *portrait) {
    portrait->red_remove = NAN;
    portrait->dissolves = portrait->dissolves_judged = frame->remove_count > 0;
    for (size_t i = 0; i < frame->remove_count; i++) {
        struct film_result result;
        double red = hansen_red(portrait->hansen, &frame->remove[i]->sphere);
        portrait->red_remove = fmax(portrait->red_remove, red);
        film_of(liquid, frame->remove[i], &result);
        portrait->dissolves_judged &= film_is_known(result.outcome);
        portrait->dissolves &= result.outcome == FILM_WITHOUT_LIMIT;
    }
}

static enum status films(const struct portrait_frame *frame, struct portrait *portrait, struct error *err) {
    struct liquid *liquid = memory_new(1, sizeof *liquid);
    if (!liquid)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const struct liquid *covered = prepare_liquid(frame, portrait, liquid) ? liquid : NULL;
    swell(frame, covered, portrait);
    dissolve(frame, covered, portrait);
    memory_free(liquid);
    return STATUS_OK;
}

// --- phases, fire, health ---

static void judge_phase(const struct portrait_frame *frame, struct portrait *portrait) {
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    miscibility_judge_blend(frame->lib, frame->table, &portrait->blend, kelvin_from_celsius(frame->temp_c), &phase,
                            NULL);
    portrait->phase = phase.verdict;
}

static void judge_fire(const struct portrait_frame *frame, struct portrait *portrait) {
    struct flash flash;
    portrait->flash_point_c = NAN;
    portrait->flammable = GHS_UNKNOWN;
    if (flash_point_of_blend(frame->table, &portrait->blend, &flash, NULL) != STATUS_OK)
        return;
    portrait->flash_point_c = flash.display_c;
    ghs_flammable_of_blend(frame->table, &portrait->blend, &flash, &portrait->flammable, NULL, NULL);
}

static unsigned classes_of(const struct blend *blend) {
    unsigned classes = 0;
    for (size_t i = 0; i < blend->count; i++)
        for (int class = 0; hazard_class_words[class]; class ++)
            if (component_in_class(blend->components[i], (enum hazard_class) class))
                classes |= 1u << class;
    return classes;
}

static enum status add_hazard(const struct portrait_frame *frame, const struct vapour *vapour,
                              const struct authority *authority, struct portrait *portrait, struct error *err) {
    if (portrait->hazard_count == EXPOSURE_AUTHORITIES_MAX)
        return STATUS_OK;
    return vapour_hazard_of(frame->lib, vapour, authority, &portrait->hazards[portrait->hazard_count++], err);
}

static enum status judge_health(const struct portrait_frame *frame, struct portrait *portrait, struct error *err) {
    struct vapour vapour;
    portrait->burden = health_burden(&portrait->blend);
    portrait->classes = classes_of(&portrait->blend);
    portrait->hazards_known = blend_hazards_known(&portrait->blend);
    if (vapour_over_blend(frame->table, &portrait->blend, frame->temp_c, &vapour, NULL) != STATUS_OK)
        return STATUS_OK;
    if (frame->authority)
        return add_hazard(frame, &vapour, frame->authority, portrait, err);
    enum status status = STATUS_OK;
    for (size_t i = 0; i < frame->lib->authority_count && status == STATUS_OK; i++)
        status = add_hazard(frame, &vapour, &frame->lib->authorities[i], portrait, err);
    return status;
}

static enum status judge_air(const struct portrait_frame *frame, const struct exposure_plan *plan,
                             const struct exposure_air *air, struct air_index *ret, struct error *err) {
    struct exposure_judgements all = {0};
    struct exposure_judgement *one = memory_new(1, sizeof *one);
    const struct exposure_judgement *judged = one;
    enum status status = one ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
    if (status == STATUS_OK && frame->authority)
        status = exposure_judge(frame->lib, plan, air, frame->authority, one, err);
    else if (status == STATUS_OK)
        status = exposure_judge_all(frame->lib, plan, air, &all, err);
    if (status == STATUS_OK && all.count)
        judged = &all.sets[all.strictest];
    if (status == STATUS_OK)
        *ret = (struct air_index){.authority = judged->authority,
                                  .index = judged->worst,
                                  .complete = judged->complete,
                                  .verdict = all.count ? all.verdict : judged->verdict};
    exposure_judgements_release(&all);
    memory_free(one);
    return status;
}

static enum status breathe(const struct portrait_frame *frame, struct portrait *portrait, struct error *err) {
    if (!frame->plan)
        return STATUS_OK;
    struct exposure_plan plan = *frame->plan;
    struct exposure_air *air = memory_new(1, sizeof *air);
    if (!air)
        return error_set(err, STATUS_MEMORY, "out of memory");
    plan.tasks[0].blend = &portrait->blend;
    enum status status = exposure_air(&plan, air, err);
    if (status == STATUS_OK)
        status = judge_air(frame, &plan, air, &portrait->air, err);
    memory_free(air);
    return status == STATUS_NO_DATA ? STATUS_OK : status;
}

static bool worse_vapour(const struct vapour_hazard *a, const struct vapour_hazard *b) {
    if (a->complete != b->complete)
        return a->complete;
    return a->ratio > b->ratio;
}

const struct vapour_hazard *portrait_worst_vapour(const struct portrait *portrait) {
    const struct vapour_hazard *worst = NULL;
    for (size_t i = 0; i < portrait->hazard_count; i++)
        if (!isnan(portrait->hazards[i].ratio) && (!worst || worse_vapour(&portrait->hazards[i], worst)))
            worst = &portrait->hazards[i];
    return worst;
}

enum status portrait_of(const struct portrait_frame *frame, const struct blend *blend, struct portrait *ret,
                        struct error *err) {
    struct portrait portrait = {.blend = *blend};
    place(&portrait);
    judge_phase(frame, &portrait);
    enum status status = dry(frame, &portrait, err);
    if (status == STATUS_OK)
        status = films(frame, &portrait, err);
    if (status == STATUS_OK)
        status = judge_health(frame, &portrait, err);
    if (status == STATUS_OK)
        status = breathe(frame, &portrait, err);
    if (status != STATUS_OK)
        return status;
    judge_fire(frame, &portrait);
    *ret = portrait;
    return STATUS_OK;
}
