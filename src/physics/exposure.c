// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/exposure.h"

#include "base/memory.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

static const struct air_view ROOM_STAYS = {AIR_ROOM, false};
static const struct air_view ROOM_LEAVES = {AIR_ROOM, true};
static const struct air_view PERSON_STAYS = {AIR_PERSON, false};
static const struct air_view PERSON_LEAVES = {AIR_PERSON, true};

// Reference period of long-term limits (29 CFR 1910.1000(d)(1), EH40, TRGS 900, EU directives).
static const double DAY_MEAN_H = 8;

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

static double volume_fraction(const struct blend *blend, const struct component *component) {
    for (size_t i = 0; i < blend->count; i++)
        if (strcmp(blend->components[i]->id, component->id) == 0)
            return blend->volume_fractions[i];
    return 0;
}

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

static enum status needed_value(const struct component *component, const struct quantity *quantity, const char *what,
                                double *ret, struct error *err) {
    if (!quantity || isnan(quantity->value))
        return error_set(err, STATUS_NO_DATA, "no %s for '%s', so its vapour cannot be weighed", what, component->id);
    *ret = quantity->value;
    return STATUS_OK;
}

static enum status solve_day(const struct exposure_plan *plan, double shift_h, struct exposure_component *entry,
                             struct error *err) {
    const struct properties *properties = entry->component->properties;
    double density_g_cm3 = NAN;
    enum status status =
        needed_value(entry->component, properties ? &properties->density_20c : NULL, "density", &density_g_cm3, err);
    if (status != STATUS_OK)
        return status;
    struct air_day day = {.room = plan->room, .shift_h = shift_h, .task_count = plan->task_count};
    for (size_t t = 0; t < plan->task_count; t++) {
        const struct exposure_task *task = &plan->tasks[t];
        double use_ml_h = task->use_ml_h * volume_fraction(task->blend, entry->component);
        double generation = generation_mg_h(use_ml_h, density_g_cm3);
        day.tasks[t] = (struct air_task){task->start_h, task->length_h, generation};
        entry->generation_mg_h = fmax(entry->generation_mg_h, generation);
        entry->released_mg += generation * task->length_h;
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
    entry->near_15min_mg_m3 = air_highest_mean(curve, plan->leaves ? PERSON_LEAVES : PERSON_STAYS, 0.25, NULL);
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

static enum status fill_component(const struct exposure_plan *plan, double shift_h, struct exposure_component *entry,
                                  struct error *err) {
    const struct properties *properties = entry->component->properties;
    enum status status = needed_value(entry->component, properties ? &properties->molar_mass : NULL, "molar mass",
                                      &entry->molar_mass_g_mol, err);
    if (status != STATUS_OK)
        return status;
    status = solve_day(plan, shift_h, entry, err);
    if (status != STATUS_OK)
        return status;
    read_curve(plan, entry);
    compare_with_saturation(plan, entry);
    return STATUS_OK;
}

static void add_flammable_shares(struct exposure_air *air) {
    for (size_t i = 0; i < air->count; i++) {
        const struct exposure_component *entry = &air->components[i];
        double limit_vol_pct = entry->component->properties->lower_flammable_limit.value;
        if (isnan(limit_vol_pct)) {
            air->flammable_unknown += entry->component->family != FAMILY_WATER;
            continue;
        }
        air->flammable_share_room += entry->room_ppm / 1e4 / limit_vol_pct; // ppm to vol%
        air->flammable_share_near += entry->near_ppm / 1e4 / limit_vol_pct;
    }
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
    add_flammable_shares(&air);
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

static struct exposure_check check_window(const struct exposure_plan *plan, const struct air_curve *curve,
                                          const struct limit_value *limit, double window_h) {
    struct exposure_check check = {.limit = *limit, .allowed_mg_m3 = limit->mg_m3};
    check.near_mg_m3 = air_highest_mean(curve, view_of(plan, AIR_PERSON), window_h, &check.window_start_h);
    check.room_mg_m3 = air_highest_mean(curve, view_of(plan, AIR_ROOM), window_h, NULL);
    return check;
}

static struct exposure_check check_moment(const struct exposure_plan *plan, const struct air_curve *curve,
                                          const struct limit_value *limit) {
    struct exposure_check check = {.limit = *limit, .allowed_mg_m3 = limit->mg_m3};
    check.near_mg_m3 = air_highest(curve, view_of(plan, AIR_PERSON), &check.window_start_h);
    check.room_mg_m3 = air_highest(curve, view_of(plan, AIR_ROOM), NULL);
    return check;
}

static void add_check(struct exposure_component_judgement *judged, struct exposure_check check) {
    check.fraction = check.near_mg_m3 / check.allowed_mg_m3;
    check.room_fraction = check.room_mg_m3 / check.allowed_mg_m3;
    if (judged->biting < 0 || check.fraction > judged->checks[judged->biting].fraction)
        judged->biting = (int)judged->check_count;
    judged->checks[judged->check_count++] = check;
}

static void add_checks(const struct exposure_plan *plan, const struct exposure_air *air, const struct air_curve *curve,
                       struct exposure_component_judgement *judged) {
    const struct limit_set *limits = &judged->limits;
    judged->biting = -1;
    if (limits->long_term.row)
        add_check(judged, check_mean(plan, air, curve, &limits->long_term));
    size_t long_terms = judged->check_count;
    if (limits->short_term.row)
        add_check(judged, check_window(plan, curve, &limits->short_term, 15 / 60.0));
    for (size_t i = 0; i < limits->ceiling_count; i++) {
        const struct limit_value *ceiling = &limits->ceilings[i];
        add_check(judged, ceiling->period_min > 0 ? check_window(plan, curve, ceiling, ceiling->period_min / 60.0)
                                                  : check_moment(plan, curve, ceiling));
    }
    for (size_t i = long_terms; i < judged->check_count; i++)
        judged->peak_fraction = fmax(judged->peak_fraction, judged->checks[i].fraction);
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
    bool guided = judged->limits.long_term.row && !judged->limits.short_term.row && !judged->limits.ceiling_count;
    judged->excursion_guide = guided ? entry->near_15min_mg_m3 / (3 * judged->limits.long_term.mg_m3) : NAN;
}

// What the other sets know: limits for a component that this set lacks, and the lowest mark of danger.
static enum status look_elsewhere(const struct library *lib, const struct exposure_component *entry,
                                  struct exposure_component_judgement *judged, struct error *err) {
    double idlh_mg_m3 = INFINITY;
    for (size_t i = 0; i < lib->authority_count; i++) {
        struct limit_set other = {0};
        enum status status = limit_set_of(lib, &lib->authorities[i], entry->component, &other, err);
        if (status != STATUS_OK)
            return status;
        if (judged->unknown && limit_set_known(&other) && judged->elsewhere_count < EXPOSURE_AUTHORITIES_MAX)
            judged->elsewhere[judged->elsewhere_count++] = &lib->authorities[i];
        if (other.idlh.row)
            idlh_mg_m3 = fmin(idlh_mg_m3, other.idlh.mg_m3);
    }
    judged->idlh_fraction = isfinite(idlh_mg_m3) ? entry->near_mg_m3 / idlh_mg_m3 : NAN;
    return STATUS_OK;
}

static enum status judge_component(const struct library *lib, const struct exposure_plan *plan,
                                   const struct exposure_air *air, const struct exposure_component *entry,
                                   const struct authority *authority, struct exposure_component_judgement *judged,
                                   struct error *err) {
    enum status status = limit_set_of(lib, authority, entry->component, &judged->limits, err);
    if (status != STATUS_OK)
        return status;
    judged->unknown = !limit_set_known(&judged->limits) && !component_needs_no_limit(entry->component);
    add_checks(plan, air, &entry->curve, judged);
    add_mean_fraction(entry, judged);
    judged->flags = flags_of(entry->component, &judged->limits) | sensitiser_flag(entry->component);
    compare_with_senses(entry, judged);
    return look_elsewhere(lib, entry, judged, err);
}

// --- the set ---

static double biting_fraction(const struct exposure_component_judgement *judged) {
    return judged->biting >= 0 ? judged->checks[judged->biting].fraction : 0;
}

static void sum_up(struct exposure_judgement *set) {
    for (size_t i = 0; i < set->count; i++) {
        const struct exposure_component_judgement *judged = &set->components[i];
        set->index += judged->mean_fraction;
        set->room_index += judged->room_mean_fraction;
        set->peak_index += judged->peak_fraction;
        set->unknown_count += judged->unknown;
        set->idlh_worst = fmax(set->idlh_worst, judged->idlh_fraction); // fmax passes over NAN
        if (biting_fraction(judged) > biting_fraction(&set->components[set->bites]))
            set->bites = i;
    }
    set->worst = fmax(set->index, set->peak_index);
    set->above_idlh = set->idlh_worst > 1;
    set->complete = set->unknown_count == 0;
}

static double share_in_worst(const struct exposure_judgement *set, size_t i) {
    return set->index >= set->peak_index ? set->components[i].mean_fraction : set->components[i].peak_fraction;
}

static void conclude(const struct exposure_plan *plan, struct exposure_judgement *set) {
    for (size_t i = 0; i < set->count; i++)
        if (share_in_worst(set, i) > share_in_worst(set, set->replace_first))
            set->replace_first = i;
    double used_up = fmax(set->worst / plan->share, set->idlh_worst);
    set->allowed_factor = used_up > 0 ? 1 / used_up : INFINITY;
    if (set->worst > 1 || set->above_idlh)
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
    sum_up(&set);
    conclude(plan, &set);
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

// --- what would help ---

// A day's air and judgement take 100 kB together: kept off the stack while they are made again and again.
struct trial {
    struct exposure_plan plan;
    struct exposure_air air;
    struct exposure_judgement set;
};

static enum status allowed_at(const struct library *lib, const struct authority *authority, struct trial *trial,
                              double air_changes_per_h, double *ret_factor, struct error *err) {
    trial->plan.room.air_changes_per_h = air_changes_per_h;
    enum status status = exposure_air(&trial->plan, &trial->air, err);
    if (status == STATUS_OK)
        status = exposure_judge(lib, &trial->plan, &trial->air, authority, &trial->set, err);
    if (status == STATUS_OK)
        *ret_factor = trial->set.allowed_factor;
    return status;
}

static enum status bisect_air_changes(const struct library *lib, const struct authority *authority, struct trial *trial,
                                      double *ret_air_changes_per_h, struct error *err) {
    double low = 0, high = EXPOSURE_MOST_AIR_CHANGES;
    while (high - low > 1e-6 * high) {
        double middle = low + (high - low) / 2, factor = NAN;
        enum status status = allowed_at(lib, authority, trial, middle, &factor, err);
        if (status != STATUS_OK)
            return status;
        if (factor < 1)
            low = middle;
        else
            high = middle;
    }
    *ret_air_changes_per_h = high;
    return STATUS_OK;
}

static enum status find_air_changes(const struct library *lib, const struct authority *authority, struct trial *trial,
                                    enum exposure_need *ret_need, double *ret_air_changes_per_h, struct error *err) {
    double sealed = NAN, most = NAN;
    enum status status = allowed_at(lib, authority, trial, 0, &sealed, err);
    if (status == STATUS_OK)
        status = allowed_at(lib, authority, trial, EXPOSURE_MOST_AIR_CHANGES, &most, err);
    if (status != STATUS_OK)
        return status;
    if (sealed >= 1 || most < 1) {
        *ret_need = sealed >= 1 ? NEED_NONE : NEED_IMPOSSIBLE;
        *ret_air_changes_per_h = sealed >= 1 ? 0 : INFINITY;
        return STATUS_OK;
    }
    status = bisect_air_changes(lib, authority, trial, ret_air_changes_per_h, err);
    if (status == STATUS_OK)
        *ret_need = NEED_FOUND;
    return status;
}

enum status exposure_air_changes_needed(const struct library *lib, const struct exposure_plan *plan,
                                        const struct authority *authority, enum exposure_need *ret_need,
                                        double *ret_air_changes_per_h, struct error *err) {
    struct trial *trial = memory_new(1, sizeof *trial);
    if (!trial)
        return error_set(err, STATUS_MEMORY, "out of memory");
    trial->plan = *plan;
    enum status status = find_air_changes(lib, authority, trial, ret_need, ret_air_changes_per_h, err);
    memory_free(trial);
    return status;
}
