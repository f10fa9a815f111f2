// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/exposure_help.h"

#include "base/memory.h"
#include "physics/ventilation.h"

#include <math.h>

static const double SECOND_H = 1 / 3600.0;

// A day's air and judgement take more than 100 kB together: kept off the stack while they are made again and again.
struct trial {
    const struct library *lib;
    const struct authority *authority;
    const struct exposure_plan *asked;
    struct exposure_plan plan;
    struct exposure_air air;
    struct exposure_judgement set;
};

// Changes trial->plan, which is a copy of the plan that was asked about, to the value that is tried.
typedef void (*plan_change)(struct trial *trial, double value);

static enum status allowed_at(struct trial *trial, plan_change change, double value, double *ret_factor,
                              struct error *err) {
    trial->plan = *trial->asked;
    change(trial, value);
    enum status status = exposure_air(&trial->plan, &trial->air, err);
    if (status == STATUS_OK)
        status = exposure_judge(trial->lib, &trial->plan, &trial->air, trial->authority, &trial->set, err);
    if (status == STATUS_OK)
        *ret_factor = trial->set.allowed_factor;
    return status;
}

// Between a value that is over and one that is within; leaves the one that is within in *within.
static enum status bisect(struct trial *trial, plan_change change, double over, double *within, double width,
                          struct error *err) {
    while (fabs(*within - over) > width && fabs(*within - over) > 1e-6 * fabs(*within)) {
        double middle = over + (*within - over) / 2, factor = NAN;
        enum status status = allowed_at(trial, change, middle, &factor, err);
        if (status != STATUS_OK)
            return status;
        if (factor < 1)
            over = middle;
        else
            *within = middle;
    }
    return STATUS_OK;
}

// One of the questions of the header, asked of a trial.
typedef enum status (*help_search)(struct trial *trial, enum exposure_need *ret_need, double *ret_value,
                                   struct error *err);

static enum status search(help_search find, const struct library *lib, const struct exposure_plan *plan,
                          const struct authority *authority, enum exposure_need *ret_need, double *ret_value,
                          struct error *err) {
    struct trial *trial = memory_new(1, sizeof *trial);
    if (!trial)
        return error_set(err, STATUS_MEMORY, "out of memory");
    trial->lib = lib;
    trial->authority = authority;
    trial->asked = plan;
    enum status status = find(trial, ret_need, ret_value, err);
    memory_free(trial);
    return status;
}

// --- air ---

static void change_air(struct trial *trial, double air_changes_per_h) {
    trial->plan.room.air_changes_per_h = air_changes_per_h;
}

static enum status find_air_changes(struct trial *trial, enum exposure_need *ret_need, double *ret_air_changes_per_h,
                                    struct error *err) {
    double sealed = NAN, most = NAN;
    enum status status = allowed_at(trial, change_air, 0, &sealed, err);
    if (status == STATUS_OK)
        status = allowed_at(trial, change_air, EXPOSURE_MOST_AIR_CHANGES, &most, err);
    if (status != STATUS_OK)
        return status;
    *ret_need = sealed >= 1 ? NEED_NONE : most < 1 ? NEED_IMPOSSIBLE : NEED_FOUND;
    *ret_air_changes_per_h = sealed >= 1 ? 0 : most < 1 ? INFINITY : EXPOSURE_MOST_AIR_CHANGES;
    return *ret_need == NEED_FOUND ? bisect(trial, change_air, 0, ret_air_changes_per_h, 0, err) : STATUS_OK;
}

enum status exposure_air_changes_needed(const struct library *lib, const struct exposure_plan *plan,
                                        const struct authority *authority, enum exposure_need *ret_need,
                                        double *ret_air_changes_per_h, struct error *err) {
    return search(find_air_changes, lib, plan, authority, ret_need, ret_air_changes_per_h, err);
}

// --- pauses ---

static double end_of_work_h(const struct exposure_plan *plan) {
    double end_h = 0;
    for (size_t i = 0; i < plan->task_count; i++)
        end_h = fmax(end_h, plan->tasks[i].start_h + plan->tasks[i].length_h);
    return end_h;
}

// How many tasks are over when this one begins.
static size_t tasks_before(const struct exposure_plan *plan, size_t task) {
    size_t before = 0;
    for (size_t i = 0; i < plan->task_count; i++)
        before += plan->tasks[i].start_h + plan->tasks[i].length_h <= plan->tasks[task].start_h;
    return before;
}

static void change_pauses(struct trial *trial, double pause_h) {
    for (size_t i = 0; i < trial->asked->task_count; i++)
        trial->plan.tasks[i].start_h = trial->asked->tasks[i].start_h + pause_h * (double)tasks_before(trial->asked, i);
}

static size_t most_before(const struct exposure_plan *plan) {
    size_t most = 0;
    for (size_t i = 0; i < plan->task_count; i++)
        most = tasks_before(plan, i) > most ? tasks_before(plan, i) : most;
    return most;
}

// A longer pause is not always better (the person may then stay in the room for longer), so the first of a row of
// pauses that suffices is looked for, and refined.
static enum status find_pause(struct trial *trial, enum exposure_need *ret_need, double *ret_pause_h,
                              struct error *err) {
    enum { PAUSES = 48 };
    double factor = NAN;
    size_t pauses = most_before(trial->asked);
    enum status status = allowed_at(trial, change_pauses, 0, &factor, err);
    *ret_need = factor >= 1 ? NEED_NONE : NEED_IMPOSSIBLE;
    *ret_pause_h = 0;
    if (status != STATUS_OK || factor >= 1 || pauses == 0)
        return status;
    double longest_h = (AIR_DAY_H - end_of_work_h(trial->asked)) / (double)pauses * (1 - 1e-12);
    for (int i = 1; i <= PAUSES; i++) {
        *ret_pause_h = longest_h * i / PAUSES;
        status = allowed_at(trial, change_pauses, *ret_pause_h, &factor, err);
        if (status != STATUS_OK)
            return status;
        if (factor < 1)
            continue;
        *ret_need = NEED_FOUND;
        return bisect(trial, change_pauses, longest_h * (i - 1) / PAUSES, ret_pause_h, SECOND_H, err);
    }
    return STATUS_OK;
}

enum status exposure_pause_needed(const struct library *lib, const struct exposure_plan *plan,
                                  const struct authority *authority, enum exposure_need *ret_need, double *ret_pause_h,
                                  struct error *err) {
    return search(find_pause, lib, plan, authority, ret_need, ret_pause_h, err);
}

// --- hours ---

static double hours_of_work(const struct exposure_plan *plan) {
    double hours = 0;
    for (size_t i = 0; i < plan->task_count; i++)
        hours += plan->tasks[i].length_h;
    return hours;
}

static void change_hours(struct trial *trial, double hours) {
    for (size_t i = 0; i < trial->asked->task_count; i++)
        trial->plan.tasks[i].length_h = trial->asked->tasks[i].length_h * hours / hours_of_work(trial->asked);
}

static enum status find_hours(struct trial *trial, enum exposure_need *ret_need, double *ret_hours, struct error *err) {
    double factor = NAN, least_h = 1 / 60.0, all_h = hours_of_work(trial->asked);
    enum status status = allowed_at(trial, change_hours, all_h, &factor, err);
    *ret_need = NEED_NONE;
    *ret_hours = all_h;
    if (status != STATUS_OK || factor >= 1)
        return status;
    *ret_need = NEED_IMPOSSIBLE;
    *ret_hours = 0;
    if (all_h <= least_h)
        return STATUS_OK;
    status = allowed_at(trial, change_hours, least_h, &factor, err);
    if (status != STATUS_OK || factor < 1)
        return status;
    *ret_need = NEED_FOUND;
    *ret_hours = least_h;
    return bisect(trial, change_hours, all_h, ret_hours, SECOND_H, err);
}

enum status exposure_hours_possible(const struct library *lib, const struct exposure_plan *plan,
                                    const struct authority *authority, enum exposure_need *ret_need, double *ret_hours,
                                    struct error *err) {
    return search(find_hours, lib, plan, authority, ret_need, ret_hours, err);
}

// --- the air afterwards, and by the formula of the manuals ---

double exposure_airing_h(const struct exposure_plan *plan, const struct exposure_air *air,
                         const struct exposure_judgement *set, double share) {
    const struct air_view room = {AIR_ROOM, false};
    double longest_h = 0;
    for (size_t i = 0; i < air->count; i++) {
        const struct limit_value *limit = limit_set_for_mean(&set->components[i].limits);
        double left_mg_m3 = air_at(&air->components[i].curve, room, end_of_work_h(plan));
        if (limit && left_mg_m3 > share * limit->mg_m3)
            longest_h = fmax(longest_h, room_purge_h(&plan->room, left_mg_m3, share * limit->mg_m3));
    }
    return longest_h;
}

double exposure_dilution_air_m3_h(const struct exposure_air *air, const struct exposure_judgement *set,
                                  double mixing_k) {
    double flow_m3_h = 0;
    for (size_t i = 0; i < air->count; i++) {
        const struct limit_value *limit = limit_set_for_mean(&set->components[i].limits);
        if (limit && !air->components[i].unweighed)
            flow_m3_h += dilution_air_m3_h(air->components[i].generation_mg_h, limit->mg_m3, mixing_k);
    }
    return flow_m3_h;
}
