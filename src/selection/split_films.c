// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/split_films.h"

#include "base/memory.h"

#include <math.h>

// The film in a liquid of these activities; false when it cannot be solved.
static bool solve(const struct film_parameters *parameters, const struct activity_model *activity,
                  const double *ln_activity, struct film_result *ret) {
    struct film film;
    if (film_prepare(parameters, activity, &film, NULL) != STATUS_OK)
        return false;
    film_of_activities(&film, ln_activity, NULL, ret);
    return film_is_known(ret->outcome);
}

static bool solve_spared(const struct goal *goal, const struct film_view *view, const struct activity_model *activity,
                         const double *ln_activity, struct split_films *films) {
    films->swelling = NAN;
    for (size_t i = 0; i < goal->spare_count; i++) {
        struct film_result result;
        if (view->spare_by_red[i])
            continue;
        if (!solve(&view->spare[i], activity, ln_activity, &result))
            return false;
        films->swelling = fmax(films->swelling, result.outcome == FILM_BOUNDED ? result.swelling : INFINITY);
    }
    return true;
}

static bool solve_targets(const struct goal *goal, const struct film_view *view, const struct activity_model *activity,
                          const double *ln_activity, struct split_films *films) {
    films->works = true;
    for (size_t i = 0; i < goal->remove_count; i++) {
        struct film_result result;
        if (view->remove_by_red[i])
            continue;
        if (!solve(&view->remove[i], activity, ln_activity, &result))
            return false;
        bool dissolves = result.outcome == FILM_WITHOUT_LIMIT;
        bool window = dissolves || goal_leaves_window(result.swelling, films->swelling);
        films->works = films->works && (goal->remove[i]->film == FILM_CROSS_LINKED ? window : dissolves);
    }
    return true;
}

enum status split_films_of(const struct goal *goal, const struct unifac_table *table, const struct film_view *view,
                           const struct blend *blend, const struct phase_judgement *phase, struct split_films *ret,
                           struct error *err) {
    struct split_films films = {.swelling = NAN};
    *ret = films;
    if (phase->verdict == PHASE_ONE || !phase->split_found)
        return STATUS_OK;
    struct activity_model *activity = memory_new(1, sizeof *activity);
    double ln_activity[BLEND_COMPONENTS_MAX];
    if (!activity)
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    if (activity_prepare_blend(table, blend, view->temp_k, activity, NULL) == STATUS_OK && activity_covers(activity)) {
        film_liquid_activities(activity, phase->split.x[0], ln_activity);
        films.known = solve_spared(goal, view, activity, ln_activity, &films) &&
                      solve_targets(goal, view, activity, ln_activity, &films);
    }
    memory_free(activity);
    *ret = films;
    return STATUS_OK;
}
