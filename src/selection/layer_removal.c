// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/layer_removal.h"

#include "base/units.h"

#include <math.h>
#include <string.h>

const char *const removal_kind_words[] = {"found", "nothing", "no-figures", NULL};

// What stands for a layer, now or later; NULL = nothing to compute with.
static const struct material *stands_for(const struct library *lib, const struct material *material, bool aged) {
    return aged ? material_when_aged(lib, material) : material;
}

static void add_spare(struct layer_removal *removal, const struct material *material) {
    for (size_t i = 0; i < removal->spare_count; i++)
        if (removal->spare[i] == material)
            return;
    if (removal->spare_count < GOAL_MATERIALS_MAX)
        removal->spare[removal->spare_count++] = material;
}

// A lower layer whose aged state is not known is spared as it is when fresh: better than not at all.
static void spare_below(const struct removal_request *request, const struct stack *stack,
                        struct layer_removal *removal) {
    const struct material *own = stack->layers[removal->layer].material;
    for (size_t i = 0; i < removal->layer; i++) {
        const struct material *below = stack->layers[i].material;
        const struct material *now = stands_for(request->lib, below, removal->aged);
        const struct material *judged = material_with_region(request->lib, now ? now : below);
        if (materials_alike(request->lib, own, below) && below->film == FILM_DISSOLVES)
            removal->inseparable |= 1U << i;
        else if (!judged || !material_has_film(judged))
            removal->without |= 1U << i;
        else
            add_spare(removal, judged);
    }
}

static enum status search(const struct removal_request *request, struct layer_removal *removal, struct error *err) {
    struct goal goal = *request->shelf;
    goal.remove[0] = removal->target;
    goal.remove_count = 1;
    memcpy(goal.spare, removal->spare, sizeof removal->spare);
    goal.spare_count = removal->spare_count;
    struct ranking_request how = {.goal = &goal,
                                  .lib = request->lib,
                                  .table = request->table,
                                  .temp_k = kelvin_from_celsius(request->temp_c),
                                  .flash_least_c = NAN,
                                  .residue_most = RETENTION_VERY_LONG,
                                  .effort = request->effort,
                                  .prefer = PREFER_PAINT,
                                  .least_probability = request->least_probability,
                                  .show = request->show,
                                  .fold = true,
                                  .threads = request->threads,
                                  .watch = request->watch};
    enum status status = ranking_make(&how, &removal->ranking, err);
    removal->kind = removal->ranking.count > 0 ? REMOVAL_FOUND : REMOVAL_NOTHING;
    return status;
}

enum status layer_removal_find(const struct removal_request *request, const struct stack *stack, size_t layer,
                               bool aged, struct layer_removal *ret, struct error *err) {
    struct error own = {0};
    *ret = (struct layer_removal){.layer = layer, .aged = aged, .kind = REMOVAL_NO_FIGURES};
    const struct material *material = stack->layers[layer].material;
    const struct material *later = stands_for(request->lib, material, aged);
    ret->state = ageing_state_of(request->lib, material);
    ret->target = later ? material_with_region(request->lib, later) : NULL;
    ret->stand_in = ret->target && ret->target != later;
    spare_below(request, stack, ret);
    if (!ret->target) {
        error_set(&ret->why, STATUS_NO_DATA, "no region is published for %s in this state", material->id);
        return STATUS_OK;
    }
    enum status status = search(request, ret, &own);
    if (status == STATUS_NO_DATA || status == STATUS_RANGE) {
        ret->kind = REMOVAL_NO_FIGURES;
        ret->why = own;
        return STATUS_OK;
    }
    if (status != STATUS_OK)
        error_set(err, status, "%s", own.text);
    return status;
}

void layer_removal_release(struct layer_removal *removal) {
    if (removal)
        ranking_release(&removal->ranking);
}
