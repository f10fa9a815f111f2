// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/film_search.h"

#include "base/memory.h"

#include <limits.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

bool material_by_red(const struct material *material) {
    return material->film_model.rank_by == RANK_BY_RED || !material_has_film(material);
}

static enum status view_of_spared(const struct goal *goal, struct film_view *view, struct error *err) {
    size_t films = 0;
    for (size_t i = 0; i < goal->spare_count; i++) {
        const struct material *material = goal->spare[i];
        view->spare_by_red[i] = !material_has_film(material);
        if (view->spare_by_red[i] && isnan(material->sphere.r0))
            return error_set(err, STATUS_NO_DATA, "neither a film model nor a sphere is known for %s", material->id);
        enum status status =
            view->spare_by_red[i] ? STATUS_OK : film_parameters_of_material(material, &view->spare[i], err);
        if (status != STATUS_OK)
            return status;
        films += !view->spare_by_red[i];
    }
    if (goal->spare_count > 0 && films == 0)
        return error_set(err, STATUS_NO_DATA,
                         "%s has no film model, so there is no swelling to rank by: ask with --by red, or spare the "
                         "paint below as well (--spare '%s, linseed-oil-film-young')",
                         goal->spare[0]->id, goal->spare[0]->id);
    return STATUS_OK;
}

enum status film_view_of_goal(const struct goal *goal, double temp_k, struct film_view *ret, struct error *err) {
    struct film_view view = {.temp_k = temp_k};
    for (size_t i = 0; i < goal->remove_count; i++) {
        const struct material *material = goal->remove[i];
        view.remove_by_red[i] = material_by_red(material);
        if (view.remove_by_red[i] && isnan(material->sphere.r0))
            return error_set(err, STATUS_NO_DATA, "neither a film model nor a sphere is known for %s", material->id);
        enum status status =
            material_has_film(material) ? film_parameters_of_material(material, &view.remove[i], err) : STATUS_OK;
        if (status != STATUS_OK)
            return status;
    }
    enum status status = view_of_spared(goal, &view, err);
    if (status == STATUS_OK)
        *ret = view;
    return status;
}

// --- one set of bottles ---

// Everything about a set that does not depend on the shares. Components of all its bottles, each once.
struct set_of_bottles {
    int count;
    int bottles[GOAL_COMPONENTS_MAX];
    size_t component_count;
    const struct component *components[BLEND_COMPONENTS_MAX];
    double moles[GOAL_COMPONENTS_MAX][BLEND_COMPONENTS_MAX]; // of each component in 1 cm3 of each bottle
    struct hansen places[GOAL_COMPONENTS_MAX];
    double strong[GOAL_COMPONENTS_MAX]; // share of strong liquids in each bottle
    struct activity_model activity;
    struct film remove[GOAL_MATERIALS_MAX];
    struct film spare[GOAL_MATERIALS_MAX];
};

struct found {
    struct film_row row; // working > 0 when anything works
    double evaluated, not_covered, failed;
};

static size_t component_place(struct set_of_bottles *set, const struct component *component) {
    for (size_t i = 0; i < set->component_count; i++)
        if (set->components[i] == component)
            return i;
    if (set->component_count == BLEND_COMPONENTS_MAX)
        return BLEND_COMPONENTS_MAX;
    set->components[set->component_count] = component;
    return set->component_count++;
}

static bool add_bottle(const struct film_search_request *request, struct set_of_bottles *set, int slot) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    const struct bottle_ref *bottle = &request->goal->bottles[set->bottles[slot]];
    size_t count = bottle_composition(request->lib, bottle, components, fractions);
    struct hansen mean = {0};
    for (size_t i = 0; i < count; i++) {
        size_t place = component_place(set, components[i]);
        if (place == BLEND_COMPONENTS_MAX || isnan(components[i]->molar_volume.value))
            return false;
        set->moles[slot][place] += fractions[i] / components[i]->molar_volume.value;
        mean.delta_d += fractions[i] * components[i]->hansen.delta_d;
        mean.delta_p += fractions[i] * components[i]->hansen.delta_p;
        mean.delta_h += fractions[i] * components[i]->hansen.delta_h;
    }
    set->places[slot] = mean;
    set->strong[slot] = strong_share(components, fractions, count);
    return true;
}

static bool prepare_films(const struct film_search_request *request, struct set_of_bottles *set) {
    const struct film_view *view = request->view;
    for (size_t i = 0; i < request->goal->remove_count; i++)
        if (!view->remove_by_red[i] &&
            film_prepare(&view->remove[i], &set->activity, &set->remove[i], NULL) != STATUS_OK)
            return false;
    for (size_t i = 0; i < request->goal->spare_count; i++)
        if (!view->spare_by_red[i] && film_prepare(&view->spare[i], &set->activity, &set->spare[i], NULL) != STATUS_OK)
            return false;
    return true;
}

// False: no model covers the set.
static bool prepare_set(const struct film_search_request *request, const struct composition *c,
                        struct set_of_bottles *set) {
    set->count = c->count;
    set->component_count = 0;
    memset(set->moles, 0, sizeof set->moles);
    for (int slot = 0; slot < c->count; slot++) {
        set->bottles[slot] = c->bottles[slot];
        if (!add_bottle(request, set, slot))
            return false;
    }
    if (activity_prepare(request->table, set->components, set->component_count, request->view->temp_k, &set->activity,
                         NULL) != STATUS_OK)
        return false;
    return activity_covers(&set->activity) && prepare_films(request, set);
}

// Neighbours on the grid start from each other's films.
struct warm {
    struct film_state remove[GOAL_MATERIALS_MAX];
    struct film_state spare[GOAL_MATERIALS_MAX];
};

static void activities_of(const struct set_of_bottles *set, const struct composition *c, double *ret_ln_activity) {
    double moles[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < set->component_count; i++) {
        moles[i] = 0;
        for (int slot = 0; slot < set->count; slot++)
            moles[i] += c->steps[slot] * set->moles[slot][i];
    }
    film_liquid_activities(&set->activity, moles, ret_ln_activity);
}

static double red_of(const struct goal *goal, const struct set_of_bottles *set, const struct composition *c,
                     const struct material *material) {
    return hansen_red(composition_mean(goal, set->places, c), &material->sphere);
}

enum answer { ANSWER_NO, ANSWER_YES, ANSWER_FAILED };

// Do all targets give way? *ret_target: the least swelling of a cross-linked one.
static enum answer removes(const struct film_search_request *request, const struct set_of_bottles *set,
                           const struct composition *c, const double *ln_activity, struct warm *warm,
                           double *ret_target) {
    const struct goal *goal = request->goal;
    *ret_target = INFINITY;
    for (size_t i = 0; i < goal->remove_count; i++) {
        if (request->view->remove_by_red[i]) {
            if (!(red_of(goal, set, c, goal->remove[i]) <= 1 - goal->margin))
                return ANSWER_NO;
            continue;
        }
        struct film_result result;
        film_of_activities(&set->remove[i], ln_activity, &warm->remove[i], &result);
        if (result.outcome == FILM_FAILED)
            return ANSWER_FAILED;
        if (goal->remove[i]->film == FILM_DISSOLVES && result.outcome != FILM_WITHOUT_LIMIT)
            return ANSWER_NO;
        if (goal->remove[i]->film == FILM_CROSS_LINKED && result.outcome == FILM_BOUNDED)
            *ret_target = fmin(*ret_target, result.swelling);
    }
    return ANSWER_YES;
}

// The spared material that takes up most; INFINITY when one dissolves.
static enum answer spares(const struct film_search_request *request, const struct set_of_bottles *set,
                          const struct composition *c, const double *ln_activity, struct warm *warm,
                          struct film_row *row) {
    const struct goal *goal = request->goal;
    row->swelling = 0;
    row->spared = goal->spare_count ? goal->spare[0] : NULL;
    for (size_t i = 0; i < goal->spare_count; i++) {
        if (request->view->spare_by_red[i]) {
            if (red_of(goal, set, c, goal->spare[i]) < 1)
                row->swelling = INFINITY;
            continue;
        }
        struct film_result result;
        film_of_activities(&set->spare[i], ln_activity, &warm->spare[i], &result);
        if (result.outcome == FILM_FAILED)
            return ANSWER_FAILED;
        double swelling = result.outcome == FILM_BOUNDED ? result.swelling : INFINITY;
        if (swelling > row->swelling) {
            row->swelling = swelling;
            row->spared = goal->spare[i];
        }
    }
    return isfinite(row->swelling) ? ANSWER_YES : ANSWER_NO;
}

static double worst_red(const struct film_search_request *request, const struct set_of_bottles *set,
                        const struct composition *c) {
    double worst = NAN;
    for (size_t i = 0; i < request->goal->remove_count; i++) {
        double red =
            isnan(request->goal->remove[i]->sphere.r0) ? NAN : red_of(request->goal, set, c, request->goal->remove[i]);
        worst = fmax(worst, red); // fmax leaves out NAN
    }
    return worst;
}

double film_figure_of_merit(const struct film_row *row) {
    return isnan(row->target_swelling) ? row->swelling : row->swelling / row->target_swelling;
}

int film_class(double figure) {
    return figure > 0 ? (int)floor(log(figure) / log(1.25)) : INT_MIN;
}

static bool nearly_equal(double x, double y) {
    return fabs(x - y) <= FILM_EQUAL * fmax(x, y);
}

// `exact` false: figures that differ by less than solving does count as equal.
static bool milder(const struct film_row *a, const struct film_row *b, bool exact) {
    double x = film_figure_of_merit(a);
    double y = exact || !nearly_equal(x, film_figure_of_merit(b)) ? film_figure_of_merit(b) : x;
    if (film_class(x) != film_class(y))
        return film_class(x) < film_class(y);
    if (a->strong_share != b->strong_share)
        return a->strong_share < b->strong_share;
    if (a->best.count != b->best.count)
        return a->best.count < b->best.count;
    return x != y ? x < y : composition_compare(&a->best, &b->best) < 0;
}

static void keep(struct film_row *best, const struct film_row *fresh) {
    struct film_row span = *best;
    bool first = best->working == 0;
    if (first || milder(fresh, best, false))
        *best = *fresh;
    for (int i = 0; i < fresh->best.count; i++) {
        int steps = fresh->best.steps[i];
        best->least_steps[i] = first || steps < span.least_steps[i] ? steps : span.least_steps[i];
        best->most_steps[i] = first || steps > span.most_steps[i] ? steps : span.most_steps[i];
    }
    bool weaker = first || fresh->strong_share < span.weakest_share ||
                  (fresh->strong_share == span.weakest_share && fresh->swelling < span.weakest_swelling &&
                   !nearly_equal(fresh->swelling, span.weakest_swelling));
    best->weakest = weaker ? fresh->best : span.weakest;
    best->weakest_share = weaker ? fresh->strong_share : span.weakest_share;
    best->weakest_swelling = weaker ? fresh->swelling : span.weakest_swelling;
    best->working = span.working + 1;
}

static double strong_share_on_grid(const struct film_search_request *request, const struct set_of_bottles *set,
                                   const struct composition *c) {
    double share = 0;
    for (int slot = 0; slot < set->count; slot++)
        share += c->steps[slot] * set->strong[slot];
    return share / request->goal->steps;
}

static void try_composition(const struct film_search_request *request, const struct set_of_bottles *set,
                            const struct composition *c, struct warm *warm, struct found *found) {
    double ln_activity[BLEND_COMPONENTS_MAX];
    struct film_row row = {.best = *c, .target_swelling = NAN, .strong_share = strong_share_on_grid(request, set, c)};
    double target = NAN;
    activities_of(set, c, ln_activity);
    found->evaluated++;
    enum answer answer = removes(request, set, c, ln_activity, warm, &target);
    if (answer == ANSWER_YES)
        answer = spares(request, set, c, ln_activity, warm, &row);
    if (answer == ANSWER_FAILED)
        found->failed++;
    if (answer != ANSWER_YES)
        return;
    row.target_swelling = isfinite(target) ? target : NAN;
    if (isfinite(target) && !goal_leaves_window(target, row.swelling))
        return;
    row.red_remove = worst_red(request, set, c);
    keep(&found->row, &row);
}

// Films by line of the grid: a line begins beside the begin of the line before it, not beside its end.
struct line_begins {
    struct warm at[GOAL_COMPONENTS_MAX]; // after which share i grows
};

static void keep_begins(const struct composition *c, const struct warm *warm, struct line_begins *begins) {
    for (int i = c->count - 3; i >= 0 && c->steps[i + 1] == 1; i--)
        begins->at[i] = *warm;
}

// Figures that do not depend on the way through the grid: solved from the dry film.
static void settle_row(const struct film_search_request *request, const struct set_of_bottles *set,
                       struct film_row *row) {
    struct warm cold = {0};
    double ln_activity[BLEND_COMPONENTS_MAX];
    double target;
    struct film_row weakest = *row;
    activities_of(set, &row->best, ln_activity);
    removes(request, set, &row->best, ln_activity, &cold, &target);
    row->target_swelling = isfinite(target) ? target : NAN;
    spares(request, set, &row->best, ln_activity, &cold, row);
    cold = (struct warm){0};
    activities_of(set, &row->weakest, ln_activity);
    spares(request, set, &row->weakest, ln_activity, &cold, &weakest);
    row->weakest_swelling = weakest.swelling;
}

static void search_set(const struct film_search_request *request, struct composition *c, struct set_of_bottles *set,
                       struct found *found) {
    int steps = request->goal->steps;
    *found = (struct found){0};
    composition_first_steps(c, steps);
    struct warm warm = {0};
    struct line_begins begins;
    int raised = c->count - 2;
    bool covered = prepare_set(request, c, set);
    do {
        if (raised < c->count - 2)
            warm = begins.at[raised];
        if (request->cold)
            warm = (struct warm){0};
        if (covered)
            try_composition(request, set, c, &warm, found);
        else
            found->not_covered++;
        keep_begins(c, &warm, &begins);
    } while (composition_next_steps(c, steps, &raised));
    if (found->row.working)
        settle_row(request, set, &found->row);
}

enum status film_figures_of(const struct film_search_request *request, const struct composition *c,
                            struct film_row *ret, struct error *err) {
    struct set_of_bottles *set = memory_new(1, sizeof *set);
    struct warm dry = {0};
    double ln_activity[BLEND_COMPONENTS_MAX];
    double target = NAN;
    enum answer spared = ANSWER_FAILED; // unless covered
    if (!set)
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    if (prepare_set(request, c, set)) {
        activities_of(set, c, ln_activity);
        enum answer removed = removes(request, set, c, ln_activity, &dry, &target);
        spared = spares(request, set, c, ln_activity, &dry, ret);
        ret->best = *c;
        ret->strong_share = strong_share_on_grid(request, set, c);
        ret->red_remove = worst_red(request, set, c);
        ret->target_swelling = removed == ANSWER_YES && isfinite(target) ? target : NAN;
    }
    memory_free(set);
    if (spared == ANSWER_FAILED)
        return error_set(err, STATUS_NO_DATA, "no model covers this blend, or the solver gave up");
    return STATUS_OK;
}

// --- all sets, by any number of threads ---

struct job {
    const struct film_search_request *request;
    struct composition *sets;
    struct found *found;
    size_t set_count;
    atomic_size_t next;
    atomic_bool out_of_memory;
};

static bool cancelled(const struct job *job) {
    return watch_cancelled(&job->request->watch);
}

// A piece of the crew's work is a thread's whole share, so that each has one set of bottles to work in.
static void work_sets(void *context, int piece, bool leader) {
    (void)piece;
    struct job *job = context;
    const struct watch *watch = &job->request->watch;
    struct set_of_bottles *set = memory_new(1, sizeof *set);
    if (!set) {
        atomic_store(&job->out_of_memory, true);
        return;
    }
    for (;;) {
        size_t i = atomic_fetch_add(&job->next, 1);
        if (i >= job->set_count || cancelled(job))
            break;
        search_set(job->request, &job->sets[i], set, &job->found[i]);
        if (leader && watch->progress)
            watch->progress(watch->context, (double)i / (double)job->set_count);
    }
    memory_free(set);
}

static size_t list_sets(const struct goal *goal, struct composition *ret) {
    size_t count = 0;
    for (int size = 1; size <= goal->components_most && size <= goal->steps && (size_t)size <= goal->bottle_count;
         size++) {
        struct composition c = {.count = size};
        for (int i = 0; i < size; i++)
            c.bottles[i] = i;
        do {
            if (ret)
                ret[count] = c;
            count++;
        } while (composition_next_bottles(&c, (int)goal->bottle_count));
    }
    return count;
}

static int by_mildness(const void *a, const void *b) {
    const struct film_row *x = a;
    const struct film_row *y = b;
    return milder(x, y, true) ? -1 : milder(y, x, true) ? 1 : 0;
}

static enum status gather(const struct job *job, struct film_search_result *ret, struct error *err) {
    struct film_search_result result = {.complete = !cancelled(job)};
    result.rows = memory_new(job->set_count, sizeof *result.rows);
    if (!result.rows)
        return error_set(err, STATUS_MEMORY, "out of memory while searching");
    for (size_t i = 0; i < job->set_count; i++) {
        result.evaluated += job->found[i].evaluated;
        result.not_covered += job->found[i].not_covered;
        result.failed += job->found[i].failed;
        result.working += (double)job->found[i].row.working;
        if (job->found[i].row.working)
            result.rows[result.row_count++] = job->found[i].row;
    }
    qsort(result.rows, result.row_count, sizeof *result.rows, by_mildness);
    result.blends = goal_blend_count(job->request->goal->bottle_count, job->request->goal->components_most,
                                     job->request->goal->steps);
    *ret = result;
    return STATUS_OK;
}

enum status film_search(const struct film_search_request *request, struct film_search_result *ret, struct error *err) {
    struct job job = {.request = request, .set_count = list_sets(request->goal, NULL)};
    if (job.set_count > 2000000)
        return error_set(err, STATUS_RANGE, "%zu sets of bottles are too many; use fewer bottles or --components",
                         job.set_count);
    job.sets = memory_new(job.set_count, sizeof *job.sets);
    job.found = memory_new(job.set_count, sizeof *job.found);
    enum status status = STATUS_OK;
    if (!job.sets || !job.found) {
        status = error_set(err, STATUS_MEMORY, "out of memory while searching");
    } else {
        list_sets(request->goal, job.sets);
        crew_run(request->threads, request->threads, work_sets, &job);
        if (atomic_load(&job.out_of_memory))
            status = error_set(err, STATUS_MEMORY, "out of memory while searching");
    }
    if (status == STATUS_OK)
        status = gather(&job, ret, err);
    if (status == STATUS_OK && cancelled(&job))
        status = error_set(err, STATUS_INTERRUPTED, "interrupted");
    memory_free(job.sets);
    memory_free(job.found);
    return status;
}

void film_search_release(struct film_search_result *result) {
    if (!result)
        return;
    memory_free(result->rows);
    *result = (struct film_search_result){0};
}
