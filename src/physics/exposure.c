// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/exposure.h"

#include "base/memory.h"
#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const struct air_view ROOM_STAYS = {AIR_ROOM, false};
static const struct air_view ROOM_LEAVES = {AIR_ROOM, true};
static const struct air_view PERSON_STAYS = {AIR_PERSON, false};
static const struct air_view PERSON_LEAVES = {AIR_PERSON, true};

// Reference period of long-term limits (29 CFR 1910.1000(d)(1), EH40, TRGS 900, EU directives).
static const double DAY_MEAN_H = 8;

// The same of short-term limits.
static const double QUARTER_H = 0.25;

struct exposure_plan exposure_plan_usual(struct room room) {
    return (struct exposure_plan){.room = room, .temp_c = 20, .share = 1};
}

// --- the plan checked ---

static enum status check_plan(const struct exposure_plan *plan, struct error *err) {
    if (plan->task_count == 0)
        return error_set(err, STATUS_RANGE, "no task: nothing is used");
    if (plan->task_count > AIR_TASKS_MAX)
        return error_set(err, STATUS_RANGE, "%zu tasks in one day; at most %d can be planned", plan->task_count,
                         AIR_TASKS_MAX);
    if (!(plan->share > 0) || !isfinite(plan->share))
        return error_set(err, STATUS_RANGE, "a share of %g of the limits; it must be above 0", plan->share);
    if (!(plan->captured >= 0) || !(plan->captured < 1))
        return error_set(err, STATUS_RANGE, "a share of %g of the vapour captured; it must be from 0 to below 1",
                         plan->captured);
    if (!(plan->shift_h >= 0) || plan->shift_h > AIR_DAY_H)
        return error_set(err, STATUS_RANGE, "a shift of %g h; a day has %g h", plan->shift_h, AIR_DAY_H);
    for (size_t i = 0; i < plan->task_count; i++)
        if (!(plan->tasks[i].use_ml_h > 0) || !isfinite(plan->tasks[i].use_ml_h))
            return error_set(err, STATUS_RANGE, "%g mL per hour; the amount must be above 0", plan->tasks[i].use_ml_h);
    return STATUS_OK;
}

// Where nothing was said: 8 h, or to the end of the last task when that is later.
static double presence_h(const struct exposure_plan *plan) {
    double end_h = plan->shift_h > 0 ? plan->shift_h : DAY_MEAN_H;
    for (size_t i = 0; i < plan->task_count; i++)
        end_h = fmax(end_h, plan->tasks[i].start_h + plan->tasks[i].length_h);
    return end_h;
}

// --- the air ---

static bool listed(const struct exposure_air *air, const struct component *component) {
    for (size_t i = 0; i < air->count; i++)
        if (strcmp(air->components[i].component->id, component->id) == 0)
            return true;
    return false;
}

static enum status list_components(const struct exposure_plan *plan, struct exposure_air *air, struct error *err) {
    for (size_t t = 0; t < plan->task_count; t++) {
        const struct blend *blend = plan->tasks[t].blend;
        for (size_t i = 0; i < blend->count; i++) {
            if (listed(air, blend->components[i]))
                continue;
            if (air->count == BLEND_COMPONENTS_MAX)
                return error_set(err, STATUS_RANGE, "more than %d components in the blends of one day",
                                 BLEND_COMPONENTS_MAX);
            air->components[air->count++].component = blend->components[i];
        }
    }
    return STATUS_OK;
}

static double density_of(const struct component *component) {
    return component->properties ? component->properties->density_20c.value : NAN;
}

// What one task gives off of one component.
static struct air_task release_of(const struct exposure_task *task, const struct component *component,
                                  double density_g_cm3, double captured) {
    struct air_task release = {.start_h = task->start_h, .length_h = task->length_h};
    for (size_t i = 0; i < task->blend->count; i++) {
        if (strcmp(task->blend->components[i]->id, component->id) != 0)
            continue;
        double used_mg_h = generation_mg_h(task->use_ml_h * task->blend->volume_fractions[i], density_g_cm3);
        double most_mg_h = task->most_mg_h ? task->most_mg_h[i] : NAN;
        release.generation_mg_h = most_mg_h < used_mg_h ? most_mg_h : used_mg_h;
        if (most_mg_h < used_mg_h)
            release.release_h = most_mg_h > 0 ? task->length_h * used_mg_h / most_mg_h : 0;
        release.generation_mg_h *= 1 - captured;
    }
    return release;
}

// The weighted sum of all components' concentrations over the day, which is a curve like each of them because they
// share the room and the tasks; *ret_known is false where the tasks' vapour ends at other times for each of them.
static enum status joint_curve(const struct exposure_plan *plan, const struct exposure_air *air, const double *weights,
                               struct air_curve *ret, bool *ret_known, struct error *err) {
    struct air_day day = {.room = plan->room, .shift_h = air->shift_h, .task_count = plan->task_count};
    *ret_known = true;
    for (size_t t = 0; t < plan->task_count; t++) {
        *ret_known = *ret_known && !plan->tasks[t].most_mg_h;
        day.tasks[t] = (struct air_task){.start_h = plan->tasks[t].start_h, .length_h = plan->tasks[t].length_h};
        for (size_t i = 0; i < air->count; i++) {
            const struct exposure_component *entry = &air->components[i];
            if (!entry->unweighed && weights[i] > 0)
                day.tasks[t].generation_mg_h += weights[i] * release_of(&plan->tasks[t], entry->component,
                                                                        density_of(entry->component), plan->captured)
                                                                 .generation_mg_h;
        }
    }
    return *ret_known ? air_curve_make(&day, ret, err) : STATUS_OK;
}

static enum status solve_day(const struct exposure_plan *plan, double shift_h, double density_g_cm3,
                             struct exposure_component *entry, struct error *err) {
    struct air_day day = {.room = plan->room, .shift_h = shift_h, .task_count = plan->task_count};
    for (size_t t = 0; t < plan->task_count; t++) {
        day.tasks[t] = release_of(&plan->tasks[t], entry->component, density_g_cm3, plan->captured);
        entry->generation_mg_h = fmax(entry->generation_mg_h, day.tasks[t].generation_mg_h);
        entry->released_mg += day.tasks[t].generation_mg_h * fmax(day.tasks[t].length_h, day.tasks[t].release_h);
    }
    return air_curve_make(&day, &entry->curve, err);
}

static double day_mean(const struct air_curve *curve, struct air_view view) {
    return air_dose(curve, view, 0, curve->end_h) / DAY_MEAN_H;
}

static void read_curve(const struct exposure_plan *plan, struct exposure_component *entry) {
    const struct air_curve *curve = &entry->curve;
    double molar_volume = gas_molar_volume_l_mol(kelvin_from_celsius(plan->temp_c), ATMOSPHERE_KPA);
    entry->room_mg_m3 = air_highest(curve, ROOM_STAYS, NULL);
    entry->room_ppm = ppm_from_mg_m3(entry->room_mg_m3, entry->molar_mass_g_mol, molar_volume);
    entry->room_steady_mg_m3 = room_steady_mg_m3(&plan->room, entry->generation_mg_h);
    entry->room_8h_stays_mg_m3 = day_mean(curve, ROOM_STAYS);
    entry->room_8h_leaves_mg_m3 = day_mean(curve, ROOM_LEAVES);
    entry->room_8h_mg_m3 = plan->leaves ? entry->room_8h_leaves_mg_m3 : entry->room_8h_stays_mg_m3;
    entry->near_mg_m3 = air_highest(curve, PERSON_STAYS, NULL);
    entry->near_ppm = ppm_from_mg_m3(entry->near_mg_m3, entry->molar_mass_g_mol, molar_volume);
    entry->near_15min_mg_m3 = air_highest_mean(curve, plan->leaves ? PERSON_LEAVES : PERSON_STAYS, QUARTER_H, NULL);
    entry->twa_8h_stays_mg_m3 = day_mean(curve, PERSON_STAYS);
    entry->twa_8h_leaves_mg_m3 = day_mean(curve, PERSON_LEAVES);
    entry->twa_8h_mg_m3 = plan->leaves ? entry->twa_8h_leaves_mg_m3 : entry->twa_8h_stays_mg_m3;
}

// A missing vapour pressure does not stop the answer: it only takes away the check against saturation.
static void compare_with_saturation(const struct exposure_plan *plan, struct exposure_component *entry) {
    entry->p_kpa = NAN;
    entry->saturated_mg_m3 = NAN;
    struct error ignored;
    if (component_pressure_kpa(entry->component, plan->temp_c, &entry->p_kpa, &entry->p_source, &ignored) != STATUS_OK)
        return;
    entry->saturated_mg_m3 = saturated_mg_m3(entry->p_kpa, entry->molar_mass_g_mol, plan->temp_c);
    entry->above_saturation = entry->near_mg_m3 > entry->saturated_mg_m3;
}

static void leave_unknown(struct exposure_component *entry) {
    double *const figures[] = {&entry->generation_mg_h,      &entry->released_mg,
                               &entry->room_mg_m3,           &entry->room_ppm,
                               &entry->room_steady_mg_m3,    &entry->room_8h_stays_mg_m3,
                               &entry->room_8h_leaves_mg_m3, &entry->room_8h_mg_m3,
                               &entry->near_mg_m3,           &entry->near_ppm,
                               &entry->near_15min_mg_m3,     &entry->twa_8h_stays_mg_m3,
                               &entry->twa_8h_leaves_mg_m3,  &entry->twa_8h_mg_m3};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        *figures[i] = NAN;
}

// The curve of a component that cannot be weighed is that of clean air, so that the plan is checked all the same.
static enum status fill_component(const struct exposure_plan *plan, double shift_h, struct exposure_component *entry,
                                  struct error *err) {
    const struct properties *properties = entry->component->properties;
    double density_g_cm3 = density_of(entry->component);
    entry->molar_mass_g_mol = properties ? properties->molar_mass.value : NAN;
    entry->unweighed = isnan(density_g_cm3);
    enum status status = solve_day(plan, shift_h, entry->unweighed ? 0 : density_g_cm3, entry, err);
    if (status != STATUS_OK)
        return status;
    read_curve(plan, entry);
    if (entry->unweighed)
        leave_unknown(entry);
    compare_with_saturation(plan, entry);
    return STATUS_OK;
}

static enum status add_flammable_shares(const struct exposure_plan *plan, struct exposure_air *air, struct error *err) {
    double weights[BLEND_COMPONENTS_MAX] = {0};
    for (size_t i = 0; i < air->count; i++) {
        const struct exposure_component *entry = &air->components[i];
        const struct properties *properties = entry->component->properties;
        double limit_vol_pct = properties ? properties->lower_flammable_limit.value : NAN;
        if (isnan(limit_vol_pct) || isnan(entry->near_ppm)) {
            air->flammable_unknown += entry->component->family != FAMILY_WATER;
            continue;
        }
        double room_share = entry->room_ppm / 1e4 / limit_vol_pct; // ppm to vol%
        air->flammable_share_room += room_share;
        air->flammable_share_near += entry->near_ppm / 1e4 / limit_vol_pct;
        weights[i] = entry->room_mg_m3 > 0 ? room_share / entry->room_mg_m3 : 0;
    }
    struct air_curve joint;
    bool known = false;
    enum status status = joint_curve(plan, air, weights, &joint, &known, err);
    if (status == STATUS_OK && known) {
        air->flammable_share_room = air_highest(&joint, ROOM_STAYS, NULL);
        air->flammable_share_near = air_highest(&joint, PERSON_STAYS, NULL);
    }
    return status;
}

enum status exposure_air(const struct exposure_plan *plan, struct exposure_air *ret, struct error *err) {
    enum status status = check_plan(plan, err);
    if (status != STATUS_OK)
        return status;
    struct exposure_air air = {.shift_h = presence_h(plan)};
    air.rises_without_bound = room_fresh_air_m3_h(&plan->room) == 0 && plan->room.loss_per_h == 0;
    status = list_components(plan, &air, err);
    for (size_t i = 0; status == STATUS_OK && i < air.count; i++)
        status = fill_component(plan, air.shift_h, &air.components[i], err);
    if (status != STATUS_OK)
        return status;
    status = add_flammable_shares(plan, &air, err);
    if (status != STATUS_OK)
        return status;
    *ret = air;
    return STATUS_OK;
}

// --- one limit ---

static struct air_view view_of(const struct exposure_plan *plan, enum air_place place) {
    return (struct air_view){place, plan->leaves};
}

static bool reduced_for_shift(const struct exposure_plan *plan, double shift_h, enum limit_kind kind) {
    return plan->long_shift && kind == LIMIT_TWA_8H && shift_h > DAY_MEAN_H && shift_h < AIR_DAY_H;
}

static struct exposure_check check_mean(const struct exposure_plan *plan, const struct exposure_air *air,
                                        const struct air_curve *curve, const struct limit_value *limit) {
    struct exposure_check check = {.limit = *limit, .allowed_mg_m3 = limit->mg_m3};
    double base_h = limit_base_h(limit->kind, air->shift_h);
    if (reduced_for_shift(plan, air->shift_h, limit->kind)) {
        // Their reduced limit is meant for the mean over the real shift.
        base_h = air->shift_h;
        check.allowed_mg_m3 *= long_shift_factor(air->shift_h);
    }
    check.near_mg_m3 = air_dose(curve, view_of(plan, AIR_PERSON), 0, curve->end_h) / base_h;
    check.room_mg_m3 = air_dose(curve, view_of(plan, AIR_ROOM), 0, curve->end_h) / base_h;
    return check;
}

// Hours over which a limit for short times is averaged; 0 = at no moment.
static double window_of(const struct limit_value *limit) {
    return limit->kind == LIMIT_STEL_15MIN ? QUARTER_H : limit->period_min / 60.0;
}

static double highest_over(const struct air_curve *curve, struct air_view view, double window_h, double *ret_start_h) {
    return window_h > 0 ? air_highest_mean(curve, view, window_h, ret_start_h) : air_highest(curve, view, ret_start_h);
}

static struct exposure_check check_peak(const struct exposure_plan *plan, const struct air_curve *curve,
                                        const struct limit_value *limit) {
    struct exposure_check check = {.limit = *limit, .allowed_mg_m3 = limit->mg_m3};
    double window_h = window_of(limit);
    check.near_mg_m3 = highest_over(curve, view_of(plan, AIR_PERSON), window_h, &check.window_start_h);
    check.room_mg_m3 = highest_over(curve, view_of(plan, AIR_ROOM), window_h, NULL);
    return check;
}

// 0 where there is no such check.
static double fraction_of(const struct exposure_component_judgement *judged, int check) {
    return check >= 0 ? judged->checks[check].fraction : 0;
}

static void keep_worse(const struct exposure_component_judgement *judged, int check, int *worst) {
    if (*worst < 0 || fraction_of(judged, check) > fraction_of(judged, *worst))
        *worst = check;
}

static void add_check(struct exposure_component_judgement *judged, struct exposure_check check) {
    check.fraction = check.near_mg_m3 / check.allowed_mg_m3;
    check.room_fraction = check.room_mg_m3 / check.allowed_mg_m3;
    assert(judged->check_count < EXPOSURE_CHECKS_MAX);
    judged->checks[judged->check_count] = check;
    keep_worse(judged, (int)judged->check_count++, &judged->biting);
}

static void add_peak(const struct exposure_plan *plan, const struct air_curve *curve, const struct limit_value *limit,
                     struct exposure_component_judgement *judged) {
    add_check(judged, check_peak(plan, curve, limit));
    keep_worse(judged, (int)judged->check_count - 1, &judged->peak_check);
}

static void add_checks(const struct exposure_plan *plan, const struct exposure_air *air, const struct air_curve *curve,
                       struct exposure_component_judgement *judged) {
    const struct limit_set *limits = &judged->limits;
    if (limits->long_term.row)
        add_check(judged, check_mean(plan, air, curve, &limits->long_term));
    if (limits->short_term.row)
        add_peak(plan, curve, &limits->short_term, judged);
    for (size_t i = 0; i < limits->ceiling_count; i++)
        add_peak(plan, curve, &limits->ceilings[i], judged);
}

static void add_mean_fraction(const struct exposure_component *entry, struct exposure_component_judgement *judged) {
    const struct limit_value *limit = limit_set_for_mean(&judged->limits);
    if (!limit)
        return;
    if (limit == &judged->limits.long_term) {
        judged->mean_fraction = judged->checks[0].fraction;
        judged->room_mean_fraction = judged->checks[0].room_fraction;
    } else {
        judged->mean_fraction = entry->twa_8h_mg_m3 / limit->mg_m3;
        judged->room_mean_fraction = entry->room_8h_mg_m3 / limit->mg_m3;
    }
}

// --- one component ---

static unsigned flags_of(const struct component *component, const struct limit_set *limits) {
    const struct hazard *hazard = component->hazard;
    unsigned flags = 0;
    if (hazard) {
        flags |= hazard->carcinogen_category != CATEGORY_NONE ? EXPOSURE_CARCINOGEN : 0;
        flags |= hazard->mutagen_category != CATEGORY_NONE ? EXPOSURE_MUTAGEN : 0;
        flags |= hazard->reproductive_category != CATEGORY_NONE ? EXPOSURE_REPRODUCTIVE : 0;
        bool skin = hazard->skin_absorption && strncmp(hazard->skin_absorption, "yes", 3) == 0;
        flags |= skin ? EXPOSURE_SKIN : 0;
    }
    const struct limit *rows[] = {limits->long_term.row, limits->short_term.row, limits->idlh.row,
                                  limits->ceiling_count ? limits->ceilings[0].row : NULL};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        if (!rows[i])
            continue;
        flags |= limit_has_notation(rows[i], "skin") ? EXPOSURE_SKIN : 0;
        flags |= limit_has_notation(rows[i], "sensitiser") ? EXPOSURE_SENSITISER : 0;
        // Ca: NIOSH; carc: EH40; cancer hazard: 29 CFR 1910.1028.
        flags |= limit_has_notation(rows[i], "ca") || limit_has_notation(rows[i], "carc") ||
                         limit_has_notation(rows[i], "carcinogen") || limit_has_notation(rows[i], "cancer")
                     ? EXPOSURE_CARCINOGEN
                     : 0;
    }
    return flags;
}

// H317 (skin) and H334 (airways) are the sensitising statements of Regulation (EC) 1272/2008.
static unsigned sensitiser_flag(const struct component *component) {
    for (size_t i = 0; component->hazard && i < component->hazard->h_statements.count; i++) {
        const char *code = component->hazard->h_statements.items[i];
        if (strncmp(code, "H317", 4) == 0 || strncmp(code, "H334", 4) == 0)
            return EXPOSURE_SENSITISER;
    }
    return 0;
}

static void compare_with_senses(const struct exposure_component *entry, struct exposure_component_judgement *judged) {
    const struct limit_value *limit = limit_set_for_mean(&judged->limits);
    const struct hazard *hazard = entry->component->hazard;
    judged->vapour_hazard_ratio = limit ? entry->saturated_mg_m3 / limit->mg_m3 : NAN;
    judged->odour_ratio = limit && hazard ? limit->ppm / hazard->odour_threshold.value : NAN;
}

// What the other sets know: limits for a component that this set lacks, and the lowest mark of danger.
static enum status look_elsewhere(const struct library *lib, const struct exposure_component *entry,
                                  struct exposure_component_judgement *judged, struct error *err) {
    for (size_t i = 0; i < lib->authority_count; i++) {
        struct limit_set other = {0};
        enum status status = limit_set_of(lib, &lib->authorities[i], entry->component, &other, err);
        if (status == STATUS_NO_DATA)
            continue;
        if (status != STATUS_OK)
            return status;
        if (judged->unknown && limit_set_known(&other) && judged->elsewhere_count < EXPOSURE_AUTHORITIES_MAX)
            judged->elsewhere[judged->elsewhere_count++] = &lib->authorities[i];
        if (!other.idlh.row || (judged->idlh.row && judged->idlh.mg_m3 <= other.idlh.mg_m3))
            continue;
        judged->idlh = other.idlh;
        judged->idlh_of = &lib->authorities[i];
    }
    judged->idlh_fraction = judged->idlh.row ? entry->near_mg_m3 / judged->idlh.mg_m3 : NAN;
    return STATUS_OK;
}

static enum exposure_gap find_gap(const struct exposure_component *entry, const struct limit_set *limits,
                                  enum status found) {
    if (component_needs_no_limit(entry->component))
        return GAP_NONE;
    if (entry->unweighed)
        return GAP_NO_DENSITY;
    if (found == STATUS_NO_DATA)
        return GAP_NO_MOLAR_MASS;
    return limit_set_known(limits) ? GAP_NONE : GAP_NO_LIMIT;
}

static enum status judge_component(const struct library *lib, const struct exposure_plan *plan,
                                   const struct exposure_air *air, const struct exposure_component *entry,
                                   const struct authority *authority, struct exposure_component_judgement *judged,
                                   struct error *err) {
    struct error no_mass = {0};
    judged->limits = (struct limit_set){.authority = authority};
    enum status status = limit_set_of(lib, authority, entry->component, &judged->limits, &no_mass);
    if (status != STATUS_OK && status != STATUS_NO_DATA)
        return error_set(err, status, "%s", no_mass.text);
    judged->gap = find_gap(entry, &judged->limits, status);
    judged->unknown = judged->gap != GAP_NONE;
    judged->biting = -1;
    judged->peak_check = -1;
    if (!entry->unweighed) {
        add_checks(plan, air, &entry->curve, judged);
        add_mean_fraction(entry, judged);
    }
    judged->flags = flags_of(entry->component, &judged->limits) | sensitiser_flag(entry->component);
    compare_with_senses(entry, judged);
    const struct limit_value *guide = &judged->limits.guide;
    judged->excursion_guide = guide->row ? entry->near_15min_mg_m3 / guide->mg_m3 : NAN;
    return look_elsewhere(lib, entry, judged, err);
}

// --- the set ---

// The window of the limit for short times that is worst; NAN, which equals no window, where there is none.
static double peak_window_h(const struct exposure_component_judgement *judged) {
    return judged->peak_check >= 0 ? window_of(&judged->checks[judged->peak_check].limit) : NAN;
}

// Components whose decisive limit for short times is one over `window_h`: the sum of their fractions in the worst
// window that they share.
static enum status add_peaks_of_window(const struct exposure_plan *plan, const struct exposure_air *air,
                                       double window_h, struct exposure_judgement *set, struct error *err) {
    double weights[BLEND_COMPONENTS_MAX] = {0};
    double apart = 0;
    for (size_t i = 0; i < set->count; i++) {
        const struct exposure_component_judgement *judged = &set->components[i];
        if (judged->peak_check < 0 || peak_window_h(judged) != window_h)
            continue;
        weights[i] = 1 / judged->checks[judged->peak_check].allowed_mg_m3;
        apart += fraction_of(judged, judged->peak_check);
    }
    struct air_curve joint;
    bool known = false;
    enum status status = joint_curve(plan, air, weights, &joint, &known, err);
    if (status != STATUS_OK)
        return status;
    set->peak_index += known ? highest_over(&joint, view_of(plan, AIR_PERSON), window_h, NULL) : apart;
    return STATUS_OK;
}

static enum status add_peaks(const struct exposure_plan *plan, const struct exposure_air *air,
                             struct exposure_judgement *set, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < set->count; i++) {
        double window_h = peak_window_h(&set->components[i]);
        bool again = isnan(window_h);
        for (size_t k = 0; !again && k < i; k++)
            again = peak_window_h(&set->components[k]) == window_h;
        if (!again)
            status = add_peaks_of_window(plan, air, window_h, set, err);
    }
    return status;
}

static void sum_up(struct exposure_judgement *set) {
    for (size_t i = 0; i < set->count; i++) {
        const struct exposure_component_judgement *judged = &set->components[i], *worst = &set->components[set->bites];
        set->index += judged->mean_fraction;
        set->room_index += judged->room_mean_fraction;
        set->unknown_count += judged->unknown;
        if (judged->idlh_fraction > set->idlh_worst) { // never when NAN
            set->idlh_worst = judged->idlh_fraction;
            set->idlh_bites = i;
        }
        if (fraction_of(judged, judged->biting) > fraction_of(worst, worst->biting))
            set->bites = i;
    }
    set->worst = fmax(set->index, set->peak_index);
    set->above_idlh = set->idlh_worst > 1;
    set->complete = set->unknown_count == 0;
}

static double share_in_worst(const struct exposure_judgement *set, size_t i) {
    const struct exposure_component_judgement *judged = &set->components[i];
    return set->index >= set->peak_index ? judged->mean_fraction : fraction_of(judged, judged->peak_check);
}

static void conclude(const struct exposure_plan *plan, const struct exposure_air *air, struct exposure_judgement *set) {
    for (size_t i = 0; i < set->count; i++)
        if (share_in_worst(set, i) > share_in_worst(set, set->replace_first))
            set->replace_first = i;
    const double used_up[] = {[CAP_NONE] = 0,
                              [CAP_LIMITS] = set->worst / plan->share,
                              [CAP_IDLH] = set->idlh_worst,
                              [CAP_FLAMMABLE] = air->flammable_share_near / FLAMMABLE_ALARM_SHARE};
    for (int cap = CAP_LIMITS; cap <= CAP_FLAMMABLE; cap++)
        if (used_up[cap] > used_up[set->cap])
            set->cap = (enum exposure_cap)cap;
    set->allowed_factor = set->cap != CAP_NONE ? 1 / used_up[set->cap] : INFINITY;
    set->above_alarm = used_up[CAP_FLAMMABLE] > 1;
    if (set->worst > 1 || set->above_idlh || set->above_alarm)
        set->verdict = EXPOSURE_OVER;
    else
        set->verdict = set->complete ? EXPOSURE_WITHIN : EXPOSURE_NOT_JUDGED;
}

static void add_hydrocarbon_limit(const struct exposure_air *air, struct exposure_judgement *set) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    struct limit_set limits[BLEND_COMPONENTS_MAX];
    double released_mg[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < air->count; i++) {
        components[i] = air->components[i].component;
        limits[i] = set->components[i].limits;
        released_mg[i] = air->components[i].released_mg;
    }
    set->hydrocarbon_limit_mg_m3 =
        hydrocarbon_limit(set->authority, components, limits, released_mg, air->count, &set->hydrocarbon_count);
}

enum status exposure_judge(const struct library *lib, const struct exposure_plan *plan, const struct exposure_air *air,
                           const struct authority *authority, struct exposure_judgement *ret, struct error *err) {
    struct exposure_judgement set = {.authority = authority, .count = air->count};
    for (size_t i = 0; i < air->count; i++) {
        enum status status = judge_component(lib, plan, air, &air->components[i], authority, &set.components[i], err);
        if (status != STATUS_OK)
            return status;
    }
    enum status status = add_peaks(plan, air, &set, err);
    if (status != STATUS_OK)
        return status;
    sum_up(&set);
    conclude(plan, air, &set);
    add_hydrocarbon_limit(air, &set);
    *ret = set;
    return STATUS_OK;
}

// --- all sets ---

static void choose_sets(struct exposure_judgements *all) {
    bool over = false;
    for (size_t i = 0; i < all->count; i++) {
        if (all->sets[i].index > all->sets[all->strictest].index)
            all->strictest = i;
        if (all->sets[i].worst > all->sets[all->tightest].worst)
            all->tightest = i;
        over = over || all->sets[i].verdict == EXPOSURE_OVER;
    }
    all->verdict = over ? EXPOSURE_OVER : all->sets[all->strictest].verdict;
}

enum status exposure_judge_all(const struct library *lib, const struct exposure_plan *plan,
                               const struct exposure_air *air, struct exposure_judgements *ret, struct error *err) {
    if (lib->authority_count == 0)
        return error_set(err, STATUS_NO_DATA, "no authority in the table of limits");
    struct exposure_judgements all = {.count = lib->authority_count};
    all.sets = memory_new(all.count, sizeof *all.sets);
    if (!all.sets)
        return error_set(err, STATUS_MEMORY, "out of memory");
    for (size_t i = 0; i < all.count; i++) {
        enum status status = exposure_judge(lib, plan, air, &lib->authorities[i], &all.sets[i], err);
        if (status != STATUS_OK) {
            exposure_judgements_release(&all);
            return status;
        }
    }
    choose_sets(&all);
    *ret = all;
    return STATUS_OK;
}

void exposure_judgements_release(struct exposure_judgements *judgements) {
    if (!judgements)
        return;
    memory_free(judgements->sets);
    *judgements = (struct exposure_judgements){0};
}
