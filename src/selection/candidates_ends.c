// SPDX-License-Identifier: GPL-3.0-or-later
// Candidates that only another assumption would have found.
#include "base/memory.h"
#include "selection/candidates.h"

#include <string.h>

// Blends that all searches at the ends may look at together, and the finest grid of one: what keeps the whole of a
// full doubt within half a minute on two cores. (A blend costs 5 to 15 us with its films.)
static const double blends_most = 1200000;
enum { COARSE_STEPS_MOST = 10, COARSE_STEPS_LEAST = 5 };

// About this many cases: five for all, seven a material.
static double cases_about(const struct goal *goal) {
    return 5.0 + 7.0 * (double)(goal->remove_count + goal->spare_count);
}

// The goal on a coarser grid, with fewer bottles in a blend where there are too many of them. Each coarse step is a
// whole number of steps of the goal.
static struct goal coarse_goal(const struct goal *goal) {
    struct goal coarse = *goal;
    coarse.steps = goal->steps < COARSE_STEPS_MOST ? goal->steps : COARSE_STEPS_MOST;
    while (cases_about(goal) * goal_blend_count(coarse.bottle_count, coarse.components_most, coarse.steps) >
           blends_most) {
        if (coarse.components_most > 2)
            coarse.components_most--;
        else if (coarse.steps > COARSE_STEPS_LEAST)
            coarse.steps = COARSE_STEPS_LEAST;
        else
            break;
    }
    return coarse;
}

struct ends_searching {
    const struct ranking_request *request;
    const struct film_search_result *nominal;
    const struct film_view *view;
    struct goal goal; // coarse; its materials are the copies
    struct material remove[GOAL_MATERIALS_MAX], spare[GOAL_MATERIALS_MAX];
};

// The base case was searched before, on the whole grid.
static size_t take_nominal(const struct film_search_result *nominal, size_t most, struct composition *ret) {
    size_t count = nominal->row_count < most ? nominal->row_count : most;
    for (size_t i = 0; i < count; i++)
        ret[i] = nominal->rows[i].best;
    return count;
}

static size_t take_coarse(const struct film_search_result *found, int finer, size_t most, struct composition *ret) {
    size_t count = found->row_count < most ? found->row_count : most;
    for (size_t i = 0; i < count; i++) {
        ret[i] = found->rows[i].best;
        for (int k = 0; k < ret[i].count; k++)
            ret[i].steps[k] *= finer;
    }
    return count;
}

static enum status search_case(void *context, const struct ends_case *assumptions, size_t most, struct composition *ret,
                               size_t *ret_count, struct error *err) {
    struct ends_searching *searching = context;
    if (assumptions->number == 0) {
        *ret_count = take_nominal(searching->nominal, most, ret);
        return STATUS_OK;
    }
    struct film_view view = *searching->view;
    for (size_t i = 0; i < searching->goal.remove_count; i++) {
        searching->remove[i].sphere = assumptions->remove_spheres[i];
        view.remove[i] = assumptions->remove[i];
    }
    for (size_t i = 0; i < searching->goal.spare_count; i++) {
        searching->spare[i].sphere = assumptions->spare_spheres[i];
        view.spare[i] = assumptions->spare[i];
    }
    struct film_search_request request = {.goal = &searching->goal,
                                          .lib = searching->request->lib,
                                          .table = searching->request->table,
                                          .view = &view,
                                          .threads = searching->request->threads,
                                          .watch = {.cancel = searching->request->watch.cancel}};
    struct film_search_result found = {0};
    enum status status = film_search(&request, &found, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        *ret_count = take_coarse(&found, searching->request->goal->steps / searching->goal.steps, most, ret);
    film_search_release(&found);
    return status;
}

// A blend of the list starts from the nominal row of its set of bottles, or from nothing where that does not work.
static struct film_row row_of_set(const struct film_search_result *nominal, const struct composition *c) {
    for (size_t i = 0; i < nominal->row_count; i++) {
        const struct composition *best = &nominal->rows[i].best;
        if (best->count == c->count && memcmp(best->bottles, c->bottles, (size_t)c->count * sizeof *c->bottles) == 0)
            return nominal->rows[i];
    }
    struct film_row row = {.best = *c, .weakest = *c};
    memcpy(row.least_steps, c->steps, sizeof c->steps);
    memcpy(row.most_steps, c->steps, sizeof c->steps);
    return row;
}

static enum status add_list(const struct ranking_request *request, const struct film_search_result *nominal,
                            const struct ends_list *list, struct candidates *candidates, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < list->count && status == STATUS_OK; i++) {
        const struct composition *c = &list->rows[i].composition;
        struct film_row row = row_of_set(nominal, c);
        status = candidates_add(request, &row, c, candidates, err);
    }
    return status;
}

static struct ends_searching *start_search(const struct ranking_request *request,
                                           const struct film_search_result *nominal, const struct film_view *view,
                                           struct error *err) {
    struct ends_searching *searching = memory_new(1, sizeof *searching);
    if (!searching) {
        error_set(err, STATUS_MEMORY, "out of memory while ranking");
        return NULL;
    }
    *searching = (struct ends_searching){
        .request = request, .nominal = nominal, .view = view, .goal = coarse_goal(request->goal)};
    for (size_t i = 0; i < request->goal->remove_count; i++) {
        searching->remove[i] = *request->goal->remove[i];
        searching->goal.remove[i] = &searching->remove[i];
    }
    for (size_t i = 0; i < request->goal->spare_count; i++) {
        searching->spare[i] = *request->goal->spare[i];
        searching->goal.spare[i] = &searching->spare[i];
    }
    return searching;
}

enum status candidates_add_ends(const struct ranking_request *request, const struct film_search_result *nominal,
                                struct candidates *candidates, struct error *err) {
    struct ends_searching *searching = start_search(request, nominal, &candidates->nominal, err);
    if (!searching)
        return STATUS_MEMORY;
    struct ends_list list = {0};
    struct watch_stage stage = {&request->watch, RANKING_STAGE_CAUTIOUS, RANKING_STAGE_ENDS};
    struct ends_request ends = {.goal = request->goal,
                                .lib = request->lib,
                                .table = request->table,
                                .temp_k = request->temp_k,
                                .vary = DOUBT_ALL,
                                .least = ENDS_LIST_LEAST,
                                .search = search_case,
                                .context = searching,
                                .watch = watch_of_stage(&stage)};
    enum status status = ends_list_make(&ends, &list, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        candidates->ends_cases = list.case_count;
        candidates->ends_step_percent = percent_of_steps(&searching->goal, 1);
        candidates->ends_components = searching->goal.components_most;
        enum status added = add_list(request, nominal, &list, candidates, err);
        status = status == STATUS_OK ? added : status;
    }
    ends_list_release(&list);
    memory_free(searching);
    return status;
}
