// SPDX-License-Identifier: GPL-3.0-or-later
// What a person breathes, against limits.
#include "draw.h"
#include "physics/exposure_help.h"
#include "physics/release.h"

#include <string.h>

static const struct exposure_component *entry_of(const struct exposure_air *air, const struct component *component) {
    for (size_t i = 0; i < air->count; i++)
        if (air->components[i].component == component)
            return &air->components[i];
    return NULL;
}

// Every gram that is used is given off, less what is caught; and the figures of one component are in order.
static enum outcome what_is_used_is_breathed(struct trial *trial) {
    static struct exposure_air air;
    struct blend blend = draw_blend(trial, 4);
    struct exposure_plan plan = draw_plan(trial, &blend);
    struct error err = {0};
    if (random_uniform(&trial->random) < 0.3)
        plan.captured = 0.9 * random_uniform(&trial->random);
    REQUIRE(exposure_air(&plan, &air, &err) == STATUS_OK, "%s", err.text);
    REQUIRE(air.count == blend.count, "%zu of %zu components", air.count, blend.count);
    double used_ml = 0;
    for (size_t i = 0; i < plan.task_count; i++)
        used_ml += plan.tasks[i].use_ml_h * plan.tasks[i].length_h;
    for (size_t i = 0; i < blend.count; i++) {
        const struct exposure_component *c = entry_of(&air, blend.components[i]);
        REQUIRE(c, "%s is not in the air", blend.components[i]->id);
        if (c->unweighed)
            continue;
        double density = blend.components[i]->properties->density_20c.value;
        double mg = used_ml * blend.volume_fractions[i] * density * 1000 * (1 - plan.captured);
        REQUIRE(alike(c->released_mg, mg, 1e-9, 0), "%.12g mg of %s given off, %.12g used", c->released_mg,
                blend.components[i]->id, mg);
        REQUIRE(c->room_mg_m3 > 0 && isfinite(c->near_mg_m3) && at_least(c->near_mg_m3, c->room_mg_m3, 1e-9),
                "room %g, near %g", c->room_mg_m3, c->near_mg_m3);
        REQUIRE(c->near_15min_mg_m3 >= 0 && at_least(c->near_mg_m3, c->near_15min_mg_m3, 1e-9), "15 min above highest");
        REQUIRE(at_least(c->twa_8h_stays_mg_m3, c->twa_8h_leaves_mg_m3, 1e-9) && c->twa_8h_leaves_mg_m3 >= 0,
                "leaving is worse than staying");
    }
    REQUIRE(air.flammable_share_room >= 0 && at_least(air.flammable_share_near, air.flammable_share_room, 1e-9),
            "flammable share %g near, %g in the room", air.flammable_share_near, air.flammable_share_room);
    return HELD;
}

static bool judge(struct trial *trial, const struct exposure_plan *plan, const struct authority *authority,
                  struct exposure_judgement *ret) {
    static struct exposure_air air;
    return exposure_air(plan, &air, NULL) == STATUS_OK &&
           exposure_judge(trial->lib, plan, &air, authority, ret, NULL) == STATUS_OK;
}

static const struct authority *draw_authority(struct trial *trial) {
    const struct authority *one = &trial->lib->authorities[random_below(&trial->random, trial->lib->authority_count)];
    note(trial, "%s: ", one->id);
    return one;
}

static enum outcome same_judgement(struct trial *trial, const struct exposure_judgement *a,
                                   const struct exposure_judgement *b, double precision, const char *why) {
    REQUIRE(alike(a->index, b->index, precision, 1e-12) && alike(a->room_index, b->room_index, precision, 1e-12) &&
                alike(a->peak_index, b->peak_index, precision, 1e-12),
            "%s: index %.12g and %.12g, peaks %.12g and %.12g", why, a->index, b->index, a->peak_index, b->peak_index);
    REQUIRE(alike(a->allowed_factor, b->allowed_factor, precision, 0), "%s: factor %.12g and %.12g", why,
            a->allowed_factor, b->allowed_factor);
    REQUIRE(a->complete == b->complete && a->unknown_count == b->unknown_count, "%s: other gaps", why);
    REQUIRE(alike(a->hydrocarbon_limit_mg_m3, b->hydrocarbon_limit_mg_m3, precision, 0) &&
                a->hydrocarbon_count == b->hydrocarbon_count,
            "%s: limit of the hydrocarbons %g and %g", why, a->hydrocarbon_limit_mg_m3, b->hydrocarbon_limit_mg_m3);
    bool edge = fabs(a->worst - 1) < 1e-6 || fabs(a->idlh_worst - 1) < 1e-6 || fabs(a->allowed_factor - 1) < 1e-6;
    REQUIRE(a->verdict == b->verdict || edge, "%s: verdict %d and %d", why, (int)a->verdict, (int)b->verdict);
    return HELD;
}

static enum outcome exposure_is_of_the_liquid(struct trial *trial) {
    static struct exposure_judgement one, two;
    struct blend blend = draw_blend(trial, 4);
    struct rewritten other;
    if (!rewrite_blend(trial, &blend, &other))
        return NOT_COVERED;
    struct exposure_plan plan = draw_plan(trial, &blend), again = plan;
    const struct authority *authority = draw_authority(trial);
    for (size_t i = 0; i < again.task_count; i++)
        again.tasks[i].blend = &other.blend;
    if (!judge(trial, &plan, authority, &one))
        return NOT_COVERED;
    REQUIRE(judge(trial, &again, authority, &two), "only one of the two is answered");
    return same_judgement(trial, &one, &two, 1e-8, "the same liquid");
}

// Tasks in another order in the list, and one task told as two, one following the other.
static enum outcome tasks_are_of_the_day(struct trial *trial) {
    static struct exposure_judgement one, two;
    struct blend blend = draw_blend(trial, 3);
    struct exposure_plan plan = draw_plan(trial, &blend), again = plan;
    const struct authority *authority = draw_authority(trial);
    size_t count = plan.task_count, cut = random_below(&trial->random, count);
    for (size_t i = 0; i < count; i++)
        again.tasks[count - 1 - i] = plan.tasks[i];
    struct exposure_task *first = &again.tasks[cut], *second = &again.tasks[again.task_count++];
    *second = *first;
    first->length_h *= 0.05 + 0.9 * random_uniform(&trial->random);
    second->start_h = first->start_h + first->length_h;
    second->length_h -= first->length_h;
    if (!judge(trial, &plan, authority, &one))
        return NOT_COVERED;
    REQUIRE(judge(trial, &again, authority, &two), "only one of the two is answered");
    return same_judgement(trial, &one, &two, 1e-6, "the same day");
}

// No figure of the judgement is lower in `more`.
static enum outcome no_lower(struct trial *trial, const struct exposure_judgement *more,
                             const struct exposure_judgement *less, const char *why) {
    REQUIRE(at_least(more->index, less->index, 1e-8) && at_least(more->room_index, less->room_index, 1e-8) &&
                at_least(more->peak_index, less->peak_index, 1e-6),
            "%s: index %.12g, should not be below %.12g; peaks %.12g and %.12g", why, more->index, less->index,
            more->peak_index, less->peak_index);
    REQUIRE(at_least(less->allowed_factor, more->allowed_factor, 1e-6) || isinf(less->allowed_factor),
            "%s: more may be used", why);
    return HELD;
}

static enum outcome more_use_is_worse(struct trial *trial) {
    static struct exposure_judgement one, other;
    struct blend blend = draw_blend(trial, 3);
    struct exposure_plan plan = draw_plan(trial, &blend), changed = plan;
    const struct authority *authority = draw_authority(trial);
    double factor = 1 + 9 * random_uniform(&trial->random);
    if (!judge(trial, &plan, authority, &one))
        return NOT_COVERED;
    REQUIRE(one.index >= 0 && one.peak_index >= 0 && one.room_index >= 0 && one.allowed_factor > 0, "below 0");
    // All tasks: in proportion.
    for (size_t i = 0; i < changed.task_count; i++)
        changed.tasks[i].use_ml_h *= factor;
    REQUIRE(judge(trial, &changed, authority, &other), "more is refused");
    REQUIRE(alike(other.index, factor * one.index, 1e-8, 0) &&
                alike(other.peak_index, factor * one.peak_index, 1e-6, 0),
            "index %.12g, %.12g times as much %.12g", one.index, factor, other.index);
    REQUIRE(alike(other.allowed_factor * factor, one.allowed_factor, 1e-6, 0), "factor %.12g and %.12g",
            one.allowed_factor, other.allowed_factor);
    // The allowed factor just reaches what is allowed.
    if (isfinite(one.allowed_factor)) {
        for (size_t i = 0; i < changed.task_count; i++)
            changed.tasks[i].use_ml_h = plan.tasks[i].use_ml_h * one.allowed_factor;
        REQUIRE(judge(trial, &changed, authority, &other) && alike(other.allowed_factor, 1, 1e-6, 0),
                "the factor misses its mark: %.12g", other.allowed_factor);
    }
    changed = plan;
    changed.room.air_changes_per_h *= factor;
    REQUIRE(judge(trial, &changed, authority, &other), "more air is refused");
    PART(no_lower(trial, &one, &other, "less air"));
    // Less of one liquid's task, the rest as it was.
    changed = plan;
    changed.tasks[0].use_ml_h *= factor;
    REQUIRE(judge(trial, &changed, authority, &other), "more of one is refused");
    PART(no_lower(trial, &other, &one, "more in one task"));
    changed = plan;
    changed.leaves = !plan.leaves;
    REQUIRE(judge(trial, &changed, authority, &other), "leaving is refused");
    return plan.leaves ? no_lower(trial, &other, &one, "staying") : no_lower(trial, &one, &other, "staying");
}

// The answer over all sets is that of single ones; no sum of sets, no gap passed over.
static enum outcome all_sets_together(struct trial *trial) {
    static struct exposure_air air;
    struct exposure_judgements all = {0};
    struct blend blend = draw_blend(trial, 3);
    struct exposure_plan plan = draw_plan(trial, &blend);
    struct error err = {0};
    if (exposure_air(&plan, &air, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(exposure_judge_all(trial->lib, &plan, &air, &all, &err) == STATUS_OK, "%s", err.text);
    enum outcome outcome = HELD;
    bool over = false;
    for (size_t i = 0; i < all.count && outcome == HELD; i++) {
        const struct exposure_judgement *set = &all.sets[i];
        double sum = 0;
        size_t unknown = 0;
        for (size_t k = 0; k < set->count; k++) {
            sum += set->components[k].mean_fraction;
            unknown += set->components[k].unknown;
        }
        over = over || set->verdict == EXPOSURE_OVER;
        if (!alike(sum, set->index, 1e-9, 0) || set->unknown_count != unknown)
            outcome = broken(trial, "%s: fractions sum to %.12g, index %.12g", set->authority->id, sum, set->index);
        if (set->verdict == EXPOSURE_WITHIN && (unknown || set->worst > 1 || set->above_idlh || set->above_alarm))
            outcome = broken(trial, "%s: within, with %zu unknown and an index of %g", set->authority->id, unknown,
                             set->worst);
        if (set->index > all.sets[all.strictest].index || set->worst > all.sets[all.tightest].worst)
            outcome = broken(trial, "%s is stricter than the strictest", set->authority->id);
    }
    if (outcome == HELD && over != (all.verdict == EXPOSURE_OVER))
        outcome = broken(trial, "one set is over, the answer %d", (int)all.verdict);
    exposure_judgements_release(&all);
    return outcome;
}

static bool factor_of(struct trial *trial, const struct exposure_plan *plan, const struct authority *authority,
                      double *ret) {
    static struct exposure_judgement set;
    if (!judge(trial, plan, authority, &set))
        return false;
    *ret = set.allowed_factor;
    return true;
}

// The air and the hours that are called enough are enough, and hardly less is not.
static enum outcome help_just_suffices(struct trial *trial) {
    struct blend blend = draw_blend(trial, 3);
    struct exposure_plan plan = draw_plan(trial, &blend), changed = plan;
    const struct authority *authority = draw_authority(trial);
    enum exposure_need need;
    double changes, hours, worked = 0, enough, little;
    if (exposure_air_changes_needed(trial->lib, &plan, authority, &need, &changes, NULL) != STATUS_OK)
        return NOT_COVERED;
    if (need == NEED_IMPOSSIBLE)
        changes = EXPOSURE_MOST_AIR_CHANGES;
    changed.room.air_changes_per_h = changes;
    REQUIRE(factor_of(trial, &changed, authority, &enough), "the air needed is refused");
    REQUIRE((enough >= 1) == (need != NEED_IMPOSSIBLE), "need %d of %g changes, factor there %.12g", (int)need, changes,
            enough);
    changed.room.air_changes_per_h = changes * (1 - 1e-5);
    if (need == NEED_FOUND)
        REQUIRE(factor_of(trial, &changed, authority, &little) && little < 1, "less than %.9g changes will do",
                changes);
    if (exposure_hours_possible(trial->lib, &plan, authority, &need, &hours, NULL) != STATUS_OK || need != NEED_FOUND)
        return HELD;
    for (size_t i = 0; i < plan.task_count; i++)
        worked += plan.tasks[i].length_h;
    for (int longer = 0; longer < 2; longer++) {
        changed = plan;
        for (size_t i = 0; i < plan.task_count; i++)
            changed.tasks[i].length_h *= hours * (longer ? 1.001 : 1) / worked + (longer ? 2.0 / 3600 / worked : 0);
        REQUIRE(factor_of(trial, &changed, authority, longer ? &little : &enough), "the hours possible are refused");
    }
    // A shorter task releases less, but its 8-hour mean may count the same hours of presence.
    REQUIRE(enough >= 1 - 1e-9 && little < 1, "%.9g of %.9g h possible, factor there %.12g, beyond it %.12g", hours,
            worked, enough, little);
    return HELD;
}

// A wet surface gives off in proportion to its size, each component no more than the neat liquid would.
static enum outcome surfaces_give_off(struct trial *trial) {
    struct blend blend = draw_blend(trial, 3);
    double small[BLEND_COMPONENTS_MAX], large[BLEND_COMPONENTS_MAX];
    double m2 = random_between(&trial->random, 1e-4, 4), factor = 1 + 10 * random_uniform(&trial->random);
    double temp_c = 10 + 20 * random_uniform(&trial->random);
    if (release_most_mg_h(trial->unifac, &blend, m2, temp_c, small, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(release_most_mg_h(trial->unifac, &blend, m2 * factor, temp_c, large, NULL) == STATUS_OK, "refused");
    for (size_t i = 0; i < blend.count; i++)
        REQUIRE(!(small[i] < 0) && !isinf(small[i]) && alike(large[i], factor * small[i], 1e-9, 0),
                "%s: %g and %g mg/h", blend.components[i]->id, small[i], large[i]);
    return HELD;
}

static const struct law laws[] = {
    {"exposure-balance", "all that is used and not caught is given off; figures in order", 4, what_is_used_is_breathed},
    {"exposure-rewritten", "order, scaling and splitting of bottles leave the index alone", 2.5,
     exposure_is_of_the_liquid},
    {"exposure-tasks", "tasks in another order, or one told as two, leave the index alone", 2, tasks_are_of_the_day},
    {"exposure-monotone", "use in proportion; less air, staying longer: no lower index", 2, more_use_is_worse},
    {"exposure-sets", "the answer over all sets is that of single ones", 1, all_sets_together},
    {"exposure-help", "the air and the hours called enough just suffice", 0.4, help_just_suffices},
    {"release", "a wet surface gives off in proportion to its size", 3, surfaces_give_off},
};
const struct law_list exposure_laws = LAWS(laws);
