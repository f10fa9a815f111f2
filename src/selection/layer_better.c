// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/layer_better.h"

#include "base/memory.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

const char *const better_kind_words[] = {"carrier", "resin", "order", NULL};

enum { CARRIERS_TRIED = 4, KEPT_OF_A_KIND = 2 };

static const int carrier_steps = 10; // a carrier is thinned by tenths

struct seeking {
    const struct better_request *request;
    struct pair_request nominal; // without samples, to turn most away quickly
    const struct stack *stack;
    struct planned_coat *coat; // room for one
    struct better_list *list;
};

// --- judging a stack anew ---

static enum status worst_pairs(const struct pair_request *request, const struct stack *stack, size_t upper,
                               size_t lower, struct planned_coat *coat, enum touch *worst, struct error *err) {
    struct layer_pair pair;
    enum status status = layer_pair_judge(request, stack, upper, lower, coat, &pair, err);
    if (status == STATUS_OK && pair.touch > *worst)
        *worst = pair.touch;
    return status;
}

// The worst word of the pairs that touch and hold this layer, as upper or as lower one.
static enum status worst_with(const struct pair_request *request, const struct stack *stack, size_t layer,
                              struct planned_coat *coat, enum touch *ret, struct error *err) {
    enum touch worst = TOUCH_LEAVES;
    for (size_t upper = layer; upper < stack->count; upper++) {
        enum status status = STATUS_OK;
        if (!stack->layers[upper].planned || (upper > layer && !stack_touches(stack, upper, layer)))
            continue;
        status = planned_coat_make(request, &stack->layers[upper], coat, err);
        for (size_t lower = 0; status == STATUS_OK && lower < upper; lower++)
            if ((upper == layer || lower == layer) && stack_touches(stack, upper, lower))
                status = worst_pairs(request, stack, upper, lower, coat, &worst, err);
        if (status != STATUS_OK)
            return status;
    }
    *ret = worst;
    return STATUS_OK;
}

// --- what is kept ---

// Another resin of whose ageing nothing is known: it may turn out to be the next one that nobody can take off.
static bool is_unknown_resin(const struct better *item) {
    return item->kind == BETTER_RESIN && !item->ageing_known;
}

// No unknown resin, then nothing worse than swelling, then a resin whose ageing is known, then one that comes off
// later, then the milder word.
static bool is_better(const struct better *a, const struct better *b) {
    if (is_unknown_resin(a) != is_unknown_resin(b))
        return is_unknown_resin(b);
    if ((a->worst <= TOUCH_SWELLS) != (b->worst <= TOUCH_SWELLS))
        return a->worst <= TOUCH_SWELLS;
    if (a->ageing_known != b->ageing_known)
        return a->ageing_known;
    if ((a->later == REMOVAL_FOUND) != (b->later == REMOVAL_FOUND))
        return a->later == REMOVAL_FOUND;
    return a->worst < b->worst;
}

// Best first; where two are equal the first found stays first.
static void keep(struct better_list *list, const struct better *found) {
    size_t same = 0;
    for (size_t i = 0; i < list->count; i++)
        same += list->items[i].kind == found->kind && list->items[i].layer == found->layer;
    if (same == KEPT_OF_A_KIND) {
        size_t last = list->count;
        while (!(list->items[last - 1].kind == found->kind && list->items[last - 1].layer == found->layer))
            last--;
        if (!is_better(found, &list->items[last - 1]))
            return;
        memmove(&list->items[last - 1], &list->items[last], (list->count - last) * sizeof *found);
        list->count--;
    }
    if (list->count == BETTER_MAX)
        list->count -= is_better(found, &list->items[BETTER_MAX - 1]) ? 1 : 0;
    if (list->count == BETTER_MAX)
        return;
    size_t at = list->count++;
    for (; at > 0 && is_better(found, &list->items[at - 1]); at--)
        list->items[at] = list->items[at - 1];
    list->items[at] = *found;
}

// Does the aged layer come off? That depends on the resins alone, so it is asked once for several carriers.
static enum status ask_later(struct seeking *seeking, const struct stack *changed, struct better *found,
                             struct error *err) {
    struct layer_removal removal = {0};
    enum status status = layer_removal_find(&seeking->request->removals, changed, found->layer, true, &removal, err);
    found->later = removal.kind;
    found->ageing_known = removal.state != NULL;
    found->asked = true;
    layer_removal_release(&removal);
    return status;
}

static enum status consider(struct seeking *seeking, const struct stack *changed, struct better *found,
                            enum touch below, struct error *err) {
    enum status status = worst_with(&seeking->nominal, changed, found->layer, seeking->coat, &found->worst, err);
    if (status != STATUS_OK || found->worst >= below)
        return status;
    status = worst_with(&seeking->request->pairs, changed, found->layer, seeking->coat, &found->worst, err);
    if (status != STATUS_OK || found->worst >= below)
        return status;
    if (!found->asked)
        status = ask_later(seeking, changed, found, err);
    if (status == STATUS_OK)
        keep(seeking->list, found);
    return status;
}

// --- carriers and resins ---

static void spare_touched(const struct library *lib, const struct stack *stack, size_t layer, struct goal *goal) {
    for (size_t lower = 0; lower < layer && goal->spare_count < GOAL_MATERIALS_MAX; lower++) {
        const struct material *judged = material_with_region(lib, stack->layers[lower].material);
        bool known = judged && material_has_film(judged);
        bool again = false;
        for (size_t i = 0; i < goal->spare_count; i++)
            again |= goal->spare[i] == judged;
        if (known && !again && stack_touches(stack, layer, lower))
            goal->spare[goal->spare_count++] = judged;
    }
}

// Blends that dissolve the resin of the layer and spare what it touches.
static enum status carriers_for(const struct better_request *request, const struct stack *stack, size_t layer,
                                struct ranking *ret, struct error *err) {
    struct goal goal = *request->removals.shelf;
    struct error own = {0};
    goal.remove[0] = stack->layers[layer].material;
    goal.remove_count = 1;
    goal.spare_count = 0;
    goal.steps = goal.steps < carrier_steps ? goal.steps : carrier_steps;
    spare_touched(request->pairs.lib, stack, layer, &goal);
    struct ranking_request how = {.goal = &goal,
                                  .lib = request->pairs.lib,
                                  .table = request->pairs.table,
                                  .temp_k = kelvin_from_celsius(request->pairs.temp_c),
                                  .flash_least_c = NAN,
                                  .residue_most = RETENTION_LONG, // what never leaves is no carrier
                                  .effort = DOUBT_EFFORT_NONE,    // the pairs are doubted afterwards
                                  .prefer = PREFER_PAINT,
                                  .show = CARRIERS_TRIED,
                                  .fold = true,
                                  .threads = request->removals.threads,
                                  .watch = request->removals.watch};
    enum status status = ranking_make(&how, ret, &own);
    if (status == STATUS_NO_DATA || status == STATUS_RANGE)
        return STATUS_OK;
    return status == STATUS_OK ? status : error_set(err, status, "%s", own.text);
}

// One bottle alone is what most people thin with. It need not be likely to dissolve the resin: film or sphere says so.
static enum status try_single_bottles(struct seeking *seeking, struct stack *changed, struct better *found,
                                      enum touch below, struct error *err) {
    const struct goal *shelf = seeking->request->removals.shelf;
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < shelf->bottle_count; i++) {
        struct blend_part part = {.bottle = shelf->bottles[i], .parts = 100};
        struct retention retention;
        status = blend_make(seeking->request->pairs.lib, &part, 1, &found->carrier, err);
        if (status != STATUS_OK)
            return status;
        changed->layers[found->layer].carrier = found->carrier;
        retention_of_blend(&found->carrier, NULL, &retention);
        status = planned_coat_make(&seeking->request->pairs, &changed->layers[found->layer], seeking->coat, err);
        if (status == STATUS_OK && seeking->coat->resin_known && seeking->coat->resin_dissolves &&
            retention.word <= RETENTION_LONG)
            status = consider(seeking, changed, found, below, err);
    }
    return status;
}

static enum status try_carriers(struct seeking *seeking, const struct stack *stack, size_t layer, enum better_kind kind,
                                enum touch below, struct error *err) {
    struct ranking ranking = {0};
    struct stack changed = *stack;
    struct better found = {.kind = kind, .layer = layer, .material = stack->layers[layer].material};
    enum status status = try_single_bottles(seeking, &changed, &found, below, err);
    if (status == STATUS_OK)
        status = carriers_for(seeking->request, stack, layer, &ranking, err);
    for (size_t i = 0; status == STATUS_OK && i < ranking.count; i++) {
        found.carrier = ranking.rows[i].blend;
        changed.layers[layer].carrier = found.carrier;
        status = consider(seeking, &changed, &found, below, err);
    }
    ranking_release(&ranking);
    return status;
}

// A resin that is known to cross-link, or to need ever stronger blends, is never proposed to the next conservator.
static bool ages_badly(const struct library *lib, const struct material *material) {
    const struct ageing_state *state = ageing_state_of(lib, material);
    return state && state->change >= AGEING_STRONG;
}

// Resins that are put on as varnish or binder, as they come.
static bool may_stand_here(const struct library *lib, const struct material *material, const struct stack *stack,
                           size_t layer) {
    bool retouching = stack->layers[layer].role == ROLE_RETOUCHING;
    bool kind = material->kind == MATERIAL_SYNTHETIC_VARNISH ||
                material->kind == (retouching ? MATERIAL_RETOUCH_BINDER : MATERIAL_NATURAL_RESIN);
    if (!kind || material->age == MATERIAL_AGED || material->film != FILM_DISSOLVES || isnan(material->sphere.r0) ||
        ages_badly(lib, material) || material->not_proposed)
        return false;
    for (size_t i = 0; i < stack->count; i++)
        if (materials_alike(lib, material, stack->layers[i].material))
            return false;
    return true;
}

static enum status try_resins(struct seeking *seeking, size_t layer, enum touch below, struct error *err) {
    const struct library *lib = seeking->request->pairs.lib;
    struct stack changed = *seeking->stack;
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < lib->material_count; i++) {
        if (!may_stand_here(lib, &lib->materials[i], seeking->stack, layer))
            continue;
        changed.layers[layer].material = &lib->materials[i];
        seeking->list->resins_tried++;
        status = try_carriers(seeking, &changed, layer, BETTER_RESIN, below, err);
    }
    return status;
}

// --- order ---

// Resin, carrier and strength change places; what the layers are for stays.
static void change_places(struct stack *stack, size_t a, size_t b) {
    struct stack_layer kept = stack->layers[a];
    stack->layers[a] = stack->layers[b];
    stack->layers[b] = kept;
    stack->layers[b].role = stack->layers[a].role;
    stack->layers[a].role = kept.role;
}

static enum status try_orders(struct seeking *seeking, size_t layer, enum touch below, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t other = 0; status == STATUS_OK && other < layer; other++) {
        struct stack changed = *seeking->stack;
        if (!changed.layers[other].planned || changed.layers[other].material == changed.layers[layer].material)
            continue;
        change_places(&changed, layer, other);
        enum touch second = TOUCH_LEAVES;
        struct better found = {.kind = BETTER_ORDER, .layer = layer, .other = other};
        found.material = changed.layers[layer].material;
        found.carrier = changed.layers[layer].carrier;
        status = worst_with(&seeking->request->pairs, &changed, other, seeking->coat, &second, err);
        if (status == STATUS_OK && second < below)
            status = consider(seeking, &changed, &found, below, err);
    }
    return status;
}

static enum status try_all(struct seeking *seeking, size_t layer, enum touch below, struct error *err) {
    enum status status = try_carriers(seeking, seeking->stack, layer, BETTER_CARRIER, below, err);
    if (status == STATUS_OK)
        status = try_orders(seeking, layer, below, err);
    return status == STATUS_OK ? try_resins(seeking, layer, below, err) : status;
}

enum status better_find(const struct better_request *request, const struct stack *stack, const enum touch *worst_of,
                        enum touch from, struct better_list *ret, struct error *err) {
    struct better_list list = {0};
    struct seeking seeking = {
        .request = request, .stack = stack, .list = &list, .coat = memory_new(1, sizeof *seeking.coat)};
    seeking.nominal = request->pairs;
    seeking.nominal.samples = 0;
    enum status status = seeking.coat ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t layer = stack->count; status == STATUS_OK && layer-- > 0;)
        if (stack->layers[layer].planned && worst_of[layer] >= from)
            status = try_all(&seeking, layer, worst_of[layer], err);
    memory_free(seeking.coat);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        *ret = list;
    return status;
}
