// SPDX-License-Identifier: GPL-3.0-or-later
#include "draw.h"

#include "physics/miscibility.h"

#include <string.h>

static struct bottle_ref draw_bottle(struct trial *trial) {
    const struct library *lib = trial->lib;
    if (random_uniform(&trial->random) < 0.15)
        return (struct bottle_ref){.bottle = &lib->bottles[random_below(&trial->random, lib->bottle_count)]};
    return (struct bottle_ref){.component = &lib->components[random_below(&trial->random, lib->component_count)]};
}

// As people write them, or anything.
static double draw_parts(struct random *random) {
    double kind = random_uniform(random);
    if (kind < 0.5)
        return 5 * (double)(1 + random_below(random, 19));
    if (kind < 0.8)
        return (double)(1 + random_below(random, 100));
    return random_between(random, 1e-3, 1e3);
}

static void note_blend(struct trial *trial, const struct blend *blend) {
    for (size_t i = 0; i < blend->part_count; i++)
        note(trial, "%s%s %.17g", i ? " + " : "", bottle_ref_id(&blend->parts[i].bottle), blend->parts[i].parts);
    note(trial, ": ");
}

struct blend draw_blend(struct trial *trial, size_t most) {
    struct blend_part parts[BLEND_BOTTLES_MAX];
    struct blend blend;
    for (;;) {
        size_t count = 1 + random_below(&trial->random, most);
        for (size_t i = 0; i < count; i++)
            parts[i] = (struct blend_part){draw_bottle(trial), draw_parts(&trial->random)};
        if (blend_make(trial->lib, parts, count, &blend, NULL) == STATUS_OK) // not when a bottle stands twice
            break;
    }
    note_blend(trial, &blend);
    return blend;
}

void draw_components(struct trial *trial, size_t count, const struct component **ret) {
    for (size_t i = 0; i < count;) {
        ret[i] = &trial->lib->components[random_below(&trial->random, trial->lib->component_count)];
        bool twice = false;
        for (size_t j = 0; j < i; j++)
            twice = twice || ret[i] == ret[j];
        i += !twice;
    }
}

// --- the same in other words ---

static void shuffle(struct random *random, struct blend_part *parts, size_t count) {
    for (size_t i = count; i > 1; i--) {
        size_t j = random_below(random, i);
        struct blend_part kept = parts[i - 1];
        parts[i - 1] = parts[j];
        parts[j] = kept;
    }
}

// A second bottle of what is in `bottle`.
static struct bottle_ref second_bottle(const struct bottle_ref *bottle, struct rewritten *ret) {
    if (bottle->bottle)
        ret->twin = *bottle->bottle;
    else
        ret->twin_part = (struct bottle_part){bottle->component->id, 100};
    if (!bottle->bottle)
        ret->twin =
            (struct bottle){.id = "second-bottle", .name = "second bottle", .composition = {&ret->twin_part, 1}};
    return (struct bottle_ref){.bottle = &ret->twin};
}

bool rewrite_blend(struct trial *trial, const struct blend *blend, struct rewritten *ret) {
    struct blend_part parts[BLEND_BOTTLES_MAX];
    size_t count = blend->part_count;
    if (count == BLEND_BOTTLES_MAX)
        return false;
    memcpy(parts, blend->parts, sizeof parts);
    size_t shared = random_below(&trial->random, count);
    double share = 0.01 + 0.98 * random_uniform(&trial->random);
    parts[count] = (struct blend_part){second_bottle(&parts[shared].bottle, ret), parts[shared].parts * (1 - share)};
    parts[shared].parts *= share;
    count++;
    double factor = random_uniform(&trial->random) < 0.5 ? 10 : random_between(&trial->random, 1e-3, 1e3);
    for (size_t i = 0; i < count; i++)
        parts[i].parts *= factor;
    shuffle(&trial->random, parts, count);
    if (blend_make(trial->lib, parts, count, &ret->blend, NULL) != STATUS_OK || ret->blend.count != blend->count)
        return false;
    for (size_t i = 0; i < blend->count; i++)
        for (size_t j = 0; j < blend->count; j++)
            if (ret->blend.components[j] == blend->components[i])
                ret->place[i] = j;
    return true;
}

bool double_component(struct trial *trial, const struct blend *blend, struct doubled *ret) {
    if (blend->count == BLEND_COMPONENTS_MAX)
        return false;
    ret->blend = *blend;
    ret->of = random_below(&trial->random, blend->count);
    ret->with = ret->blend.count++;
    ret->twin = *blend->components[ret->of];
    ret->blend.components[ret->with] = &ret->twin;
    double share = 0.01 + 0.98 * random_uniform(&trial->random);
    ret->blend.volume_fractions[ret->with] = blend->volume_fractions[ret->of] * share;
    ret->blend.volume_fractions[ret->of] = blend->volume_fractions[ret->of] * (1 - share);
    return true;
}

bool three_liquids(struct trial *trial, const struct blend *blend, const double *x, double temp_k) {
    static struct activity_model model;
    struct phase_judgement judged;
    return activity_prepare_blend(trial->unifac, blend, temp_k, &model, NULL) == STATUS_OK &&
           miscibility_judge(NULL, &model, x, &judged, NULL) == STATUS_OK && judged.third_liquid;
}

// --- rooms and days ---

struct room draw_room(struct trial *trial) {
    struct random *random = &trial->random;
    struct room room = room_usual(random_between(random, 8, 2000), random_between(random, 0.05, 30));
    if (random_uniform(random) < 0.5)
        room.mixing_factor = 0.1 + 0.9 * random_uniform(random);
    if (random_uniform(random) < 0.3)
        room.loss_per_h = random_between(random, 0.01, 5);
    if (random_uniform(random) < 0.5)
        room.near_flow_m3_h = random_between(random, 10, 3000);
    if (random_uniform(random) < 0.5)
        room.near_volume_m3 = random_between(random, 0.1, fmin(5, 0.5 * room.volume_m3));
    return room;
}

struct exposure_plan draw_plan(struct trial *trial, const struct blend *blend) {
    struct random *random = &trial->random;
    struct exposure_plan plan = exposure_plan_usual(draw_room(trial));
    plan.temp_c = 10 + 20 * random_uniform(random);
    plan.leaves = random_uniform(random) < 0.5;
    plan.task_count = 1 + random_below(random, 4);
    for (size_t i = 0; i < plan.task_count; i++)
        plan.tasks[i] = (struct exposure_task){.start_h = 6 * random_uniform(random),
                                               .length_h = random_between(random, 0.02, 4),
                                               .use_ml_h = random_between(random, 0.1, 3000),
                                               .blend = blend};
    return plan;
}
