// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/strong.h"

enum { WORD_BITS = 64, WORDS = sizeof((struct bottle_set *)0)->words / sizeof((struct bottle_set *)0)->words[0] };

bool component_is_weak(const struct component *component) {
    return component->family == FAMILY_ALKANE || component->family == FAMILY_CYCLOALKANE ||
           component->family == FAMILY_PETROLEUM_CUT || component->family == FAMILY_SILOXANE;
}

double strong_share(const struct component *const *components, const double *volume_fractions, size_t count) {
    double share = 0;
    for (size_t i = 0; i < count; i++)
        if (!component_is_weak(components[i]))
            share += volume_fractions[i];
    return share;
}

double strong_share_of(const struct blend *blend) {
    return strong_share(blend->components, blend->volume_fractions, blend->count);
}

static void set_bottle(struct bottle_set *set, int bottle) {
    set->words[bottle / WORD_BITS] |= 1ull << (bottle % WORD_BITS);
}

struct bottle_set strong_bottles_of_goal(const struct goal *goal, const struct library *lib) {
    struct bottle_set set = {0};
    for (size_t i = 0; i < goal->bottle_count; i++) {
        const struct component *components[BLEND_COMPONENTS_MAX];
        double fractions[BLEND_COMPONENTS_MAX];
        size_t count = bottle_composition(lib, &goal->bottles[i], components, fractions);
        if (strong_share(components, fractions, count) >= 0.5)
            set_bottle(&set, (int)i);
    }
    return set;
}

bool bottle_set_has(const struct bottle_set *set, int bottle) {
    return set->words[bottle / WORD_BITS] >> (bottle % WORD_BITS) & 1;
}

struct bottle_set bottles_of(const struct composition *c, const struct bottle_set *all) {
    struct bottle_set set = {0};
    for (int i = 0; i < c->count; i++)
        if (bottle_set_has(all, c->bottles[i]))
            set_bottle(&set, c->bottles[i]);
    return set;
}

int bottle_set_count(const struct bottle_set *set) {
    int count = 0;
    for (int i = 0; i < GOAL_BOTTLES_MAX; i++)
        count += bottle_set_has(set, i);
    return count;
}

int spare_diluents(const struct composition *c, int strong_bottles) {
    int weak = c->count - strong_bottles;
    return weak > 1 ? weak - 1 : 0;
}

bool bottle_set_includes(const struct bottle_set *all, const struct bottle_set *some) {
    for (size_t i = 0; i < WORDS; i++)
        if (some->words[i] & ~all->words[i])
            return false;
    return true;
}

bool bottle_set_same(const struct bottle_set *a, const struct bottle_set *b) {
    return bottle_set_includes(a, b) && bottle_set_includes(b, a);
}
