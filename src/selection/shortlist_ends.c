// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/shortlist_ends.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/memory.h"
#include "physics/film_series.h"
#include "selection/doubt_draw.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

// --- the cases ---

struct cases {
    const struct doubt_plan *plan;
    struct doubt_values base;
    struct ends_case *items;
    size_t count, unmet;
};

// Copies the values into the shape that a search reads.
static void write_case(const struct cases *cases, const struct doubt_values *values, struct ends_case *ret) {
    const struct doubt_plan *plan = cases->plan;
    for (size_t i = 0; i < plan->count; i++) {
        bool remove = i < plan->remove_count;
        size_t place = remove ? i : i - plan->remove_count;
        struct sphere_values sphere = plan->materials[i].material->sphere;
        sphere.delta_d = values->materials[i].sphere.delta_d;
        sphere.delta_p = values->materials[i].sphere.delta_p;
        sphere.delta_h = values->materials[i].sphere.delta_h;
        sphere.r0 = values->materials[i].r0;
        *(remove ? &ret->remove_spheres[place] : &ret->spare_spheres[place]) = sphere;
        if (plan->materials[i].by_film)
            *(remove ? &ret->remove[place] : &ret->spare[place]) = values->materials[i].film;
    }
}

// Chains follow their anchor; those of `moved` (SIZE_MAX = none) stand at `share` of the way instead of where the table
// has them. False when no chain meets an anchor.
static bool follow_anchors(const struct cases *cases, size_t moved, double share, struct doubt_values *values) {
    for (size_t i = 0; i < cases->plan->count; i++) {
        double least, most;
        if (!cases->plan->materials[i].anchored)
            continue;
        if (!doubt_anchor_range(cases->plan, values, i, &least, &most))
            return false;
        double position = i == moved ? share : cases->plan->materials[i].position;
        values->materials[i].film.molar_volume_cm3_mol = doubt_between(least, most, position);
    }
    return true;
}

static void add_case(struct cases *cases, const char *name, struct doubt_values *values, size_t moved, double share) {
    assert(cases->count < ENDS_CASES_MAX);
    bool base = cases->count == 0; // the tables as they are
    if (!base && !follow_anchors(cases, moved, share, values)) {
        cases->unmet++;
        return;
    }
    struct ends_case *item = &cases->items[cases->count];
    item->number = cases->count++;
    snprintf(item->name, sizeof item->name, "%s", name);
    write_case(cases, values, item);
}

static void add_shared(struct cases *cases, bool alpha, double value) {
    struct doubt_values values = cases->base;
    char name[96];
    bool changed = false;
    for (size_t i = 0; i < cases->plan->count; i++) {
        struct film_parameters *film = &values.materials[i].film;
        double *parameter = alpha ? &film->alpha : &film->chi_entropic;
        if (!cases->plan->materials[i].by_film || *parameter == value)
            continue;
        *parameter = value;
        changed = true;
    }
    print_words(name, sizeof name, "%s %g", alpha ? "alpha" : say("entropic part of chi"), value);
    if (changed)
        add_case(cases, name, &values, SIZE_MAX, 0);
}

static double *part_of(struct hansen *place, int part) {
    return part == 0 ? &place->delta_d : part == 1 ? &place->delta_p : &place->delta_h;
}

static void add_centres(struct cases *cases, size_t material) {
    static const char *const words[] = {"delta_d", "delta_p", "delta_h"};
    const struct doubt_material *item = &cases->plan->materials[material];
    for (int part = 0; part < 3; part++)
        for (int side = -1; side <= 1; side += 2) {
            struct doubt_values values = cases->base;
            char name[96];
            double shift = side * (part == 0 ? 0.5 : 1) * item->centre_sd;
            *part_of(&values.materials[material].sphere, part) += shift;
            if (item->by_film)
                *part_of(&values.materials[material].film.centre, part) += shift;
            print_words(name, sizeof name, "%.60s, %s %+g", item->material->id, words[part], shift);
            add_case(cases, name, &values, SIZE_MAX, 0);
        }
}

static void add_size(struct cases *cases, size_t material, int end) {
    const struct doubt_material *item = &cases->plan->materials[material];
    struct doubt_values values = cases->base;
    struct film_parameters *film = &values.materials[material].film;
    char name[96];
    bool network = item->film.network_mol_m3 > 0;
    *(network ? &film->network_mol_m3 : &film->molar_volume_cm3_mol) = end ? item->most : item->least;
    snprintf(name, sizeof name, "%.60s, %s %s", item->material->id, end ? say("most") : say("least"),
             network ? say("strands") : say("chains"));
    add_case(cases, name, &values, item->anchored ? material : SIZE_MAX, end);
}

static void add_radius(struct cases *cases, size_t material, int side) {
    const struct doubt_material *item = &cases->plan->materials[material];
    struct doubt_values values = cases->base;
    char name[96];
    values.materials[material].r0 = fmax(item->r0 + side * item->r0_sd, 0.01 * item->r0);
    print_words(name, sizeof name, "%.60s, radius %+g", item->material->id, side * item->r0_sd);
    add_case(cases, name, &values, SIZE_MAX, 0);
}

static void add_cases(struct cases *cases, unsigned vary) {
    struct doubt_values base = cases->base;
    add_case(cases, say("base case"), &base, SIZE_MAX, 0);
    for (int end = 0; end < 2; end++) {
        if (vary & DOUBT_ALPHA)
            add_shared(cases, true, film_ends_usual.alpha[end]);
        if (vary & DOUBT_ENTROPIC)
            add_shared(cases, false, film_ends_usual.chi_entropic[end]);
    }
    for (size_t i = 0; i < cases->plan->count; i++) {
        const struct doubt_material *item = &cases->plan->materials[i];
        bool network = item->by_film && item->film.network_mol_m3 > 0;
        if (vary & DOUBT_CENTRES)
            add_centres(cases, i);
        for (int end = 0; end < 2; end++) {
            if (item->by_film && vary & (unsigned)(network ? DOUBT_STRANDS : DOUBT_CHAINS))
                add_size(cases, i, end);
            if ((!item->by_film || item->sphere_too) && vary & DOUBT_RADII)
                add_radius(cases, i, 2 * end - 1);
        }
    }
}

// --- the list ---

struct merging {
    const struct ends_request *request;
    struct ends_list *list;
    struct composition *found; // case by case, request->least each
    size_t *counts;
    size_t capacity; // of the list's rows
};

static struct ends_row *find_row(const struct ends_list *list, const struct composition *c) {
    for (size_t i = 0; i < list->count; i++)
        if (composition_compare(&list->rows[i].composition, c) == 0)
            return &list->rows[i];
    return NULL;
}

static void merge_place(struct merging *merging, size_t place) {
    struct ends_list *list = merging->list;
    for (size_t k = 0; k < list->case_count; k++) {
        if (place >= merging->counts[k])
            continue;
        const struct composition *c = &merging->found[k * merging->request->least + place];
        struct ends_row *row = find_row(list, c);
        if (!row && list->count == merging->capacity)
            continue;
        if (!row) {
            row = &list->rows[list->count++];
            *row = (struct ends_row){.composition = *c, .best_case = k, .place = place};
        }
        row->cases++;
    }
}

// Composition with one step moved, if that is one.
static bool neighbour(const struct composition *c, int from, int to, struct composition *ret) {
    *ret = *c;
    ret->steps[from]--;
    ret->steps[to]++;
    return from != to && ret->steps[from] >= 1;
}

static void add_neighbours(struct merging *merging, const struct composition *c) {
    struct ends_list *list = merging->list;
    for (int from = 0; from < c->count; from++)
        for (int to = 0; to < c->count; to++) {
            struct composition moved;
            if (list->count < merging->request->least && neighbour(c, from, to, &moved) && !find_row(list, &moved))
                list->rows[list->count++] = (struct ends_row){.composition = moved, .best_case = SIZE_MAX};
        }
}

static void merge(struct merging *merging) {
    struct ends_list *list = merging->list;
    size_t least = merging->request->least;
    for (size_t place = 0; place < least && list->count < least; place++)
        merge_place(merging, place);
    list->found = list->count;
    for (size_t i = 0; i < list->count && list->count < least; i++) { // the neighbours' neighbours too
        const struct composition c = list->rows[i].composition;
        add_neighbours(merging, &c);
    }
    list->short_of = list->count < least;
}

static enum status search_cases(struct merging *merging, const struct cases *cases, struct error *err) {
    const struct ends_request *request = merging->request;
    enum status status = STATUS_OK;
    for (size_t k = 0; k < cases->count && status == STATUS_OK; k++) {
        if (watch_cancelled(&request->watch))
            return error_set(err, STATUS_INTERRUPTED, "interrupted after %zu of %zu searches", k, cases->count);
        status = request->search(request->context, &cases->items[k], request->least,
                                 merging->found + k * request->least, &merging->counts[k], err);
        assert(merging->counts[k] <= request->least);
        if (request->watch.progress)
            request->watch.progress(request->watch.context, (double)(k + 1) / (double)cases->count);
    }
    return status;
}

static enum status make_room(struct merging *merging, const struct cases *cases, struct error *err) {
    struct ends_list *list = merging->list;
    list->case_count = cases->count;
    list->unmet = cases->unmet;
    size_t whole_place = merging->request->least + cases->count; // a place is merged to its end
    merging->capacity = whole_place < DOUBT_BLENDS_MAX ? whole_place : DOUBT_BLENDS_MAX;
    list->rows = memory_new(merging->capacity, sizeof *list->rows);
    list->names = memory_new(cases->count, sizeof *list->names);
    merging->found = memory_new(cases->count * merging->request->least, sizeof *merging->found);
    merging->counts = memory_new(cases->count, sizeof *merging->counts);
    if (!list->rows || !list->names || !merging->found || !merging->counts)
        return error_set(err, STATUS_MEMORY, "out of memory for a list of blends");
    for (size_t k = 0; k < cases->count; k++)
        memcpy(list->names[k], cases->items[k].name, sizeof list->names[k]);
    return STATUS_OK;
}

static enum status run_cases(const struct ends_request *request, const struct cases *cases, struct ends_list *list,
                             struct error *err) {
    struct merging merging = {.request = request, .list = list};
    enum status status = make_room(&merging, cases, err);
    if (status == STATUS_OK)
        status = search_cases(&merging, cases, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        merge(&merging);
    memory_free(merging.found);
    memory_free(merging.counts);
    return status;
}

static enum status plan_cases(const struct ends_request *request, struct liquid_list *liquids, struct doubt_plan *plan,
                              struct cases *cases, struct error *err) {
    struct doubt_request asked = {.goal = request->goal,
                                  .lib = request->lib,
                                  .table = request->table,
                                  .temp_k = request->temp_k,
                                  .samples = 1,
                                  .by_red = request->by_red};
    enum status status = liquid_list_init(liquids, 2 * DOUBT_MATERIALS_MAX, err);
    if (status == STATUS_OK)
        status = doubt_plan_make(&asked, liquids, plan, err);
    cases->items = status == STATUS_OK ? memory_new(ENDS_CASES_MAX, sizeof *cases->items) : NULL;
    if (status == STATUS_OK && !cases->items)
        status = error_set(err, STATUS_MEMORY, "out of memory for the ends of the assumptions");
    if (status != STATUS_OK)
        return status;
    cases->plan = plan;
    doubt_draw(plan, 0, &cases->base); // nothing varies
    add_cases(cases, request->vary);
    return STATUS_OK;
}

enum status ends_list_make(const struct ends_request *request, struct ends_list *ret, struct error *err) {
    if (request->least < 1 || request->least > DOUBT_BLENDS_MAX)
        return error_set(err, STATUS_RANGE, "a list of %zu blends: 1 to %d are possible", request->least,
                         DOUBT_BLENDS_MAX);
    struct liquid_list liquids = {0};
    struct doubt_plan plan = {0};
    struct cases cases = {0};
    struct ends_list list = {0};
    enum status status = plan_cases(request, &liquids, &plan, &cases, err);
    if (status == STATUS_OK)
        status = run_cases(request, &cases, &list, err);
    memory_free(cases.items);
    doubt_plan_release(&plan);
    liquid_list_release(&liquids);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        *ret = list;
    else
        ends_list_release(&list);
    return status;
}

void ends_list_release(struct ends_list *list) {
    if (!list)
        return;
    memory_free(list->rows);
    memory_free(list->names);
    *list = (struct ends_list){0};
}

enum status ends_list_blends(const struct ends_list *list, const struct goal *goal, const struct library *lib,
                             struct blend *ret, struct error *err) {
    for (size_t i = 0; i < list->count; i++) {
        const struct composition *c = &list->rows[i].composition;
        struct blend_part parts[GOAL_COMPONENTS_MAX];
        for (int k = 0; k < c->count; k++)
            parts[k] = (struct blend_part){goal->bottles[c->bottles[k]], c->steps[k]};
        enum status status = blend_make(lib, parts, (size_t)c->count, &ret[i], err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}
