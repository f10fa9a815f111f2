// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_pairs.h"

#include "physics/hansen.h"
#include "physics/harm.h"
#include "selection/composition.h"
#include "selection/strong.h"

#include <assert.h>
#include <math.h>

// Hansen parts are known to about this much.
static const double same_mpa05 = 0.3;

static const double share_slack = 1e-6; // percent: shares are written in parts

// The strong liquid goes in the direction in which it adds most; a part of the distance, so delta_d counts double.
static enum ladder_way way_between(struct hansen weak, struct hansen strong) {
    double dispersion = 2 * (strong.delta_d - weak.delta_d);
    double polar = strong.delta_p - weak.delta_p;
    double bonding = strong.delta_h - weak.delta_h;
    if (!hansen_known(weak) || !hansen_known(strong))
        return WAY_UNKNOWN;
    if (dispersion > polar && dispersion > bonding)
        return WAY_AROMATIC;
    return polar > bonding ? WAY_POLAR : WAY_HYDROGEN_BONDING;
}

static struct hansen place_of(const struct library *lib, const struct bottle_ref *bottle) {
    struct hansen place = {NAN, NAN, NAN};
    bottle_place(lib, bottle, &place, NULL);
    return place;
}

static bool holds(const struct blend *blend, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < blend->part_count; i++)
        if (bottle_ref_same(&blend->parts[i].bottle, bottle))
            return true;
    return false;
}

// Tests that stand in which the bottle was used, together with `other` unless that is NULL.
static size_t uses(const struct casefile *file, const struct bottle_ref *bottle, const struct bottle_ref *other) {
    size_t count = 0;
    const struct case_test *tests = file ? file->tests.items : NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (!tests[i].withdrawn && holds(&tests[i].mix, bottle) && (!other || holds(&tests[i].mix, other)))
            count++;
    return count;
}

// kPa of its slowest part; 0 when not known.
static double vapour_pressure(const struct library *lib, const struct bottle_ref *bottle) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend neat;
    struct retention retention;
    if (blend_make(lib, &part, 1, &neat, NULL) != STATUS_OK)
        return 0;
    retention_of_blend(&neat, NULL, &retention);
    return isnan(retention.vapour_pressure_kpa) ? 0 : retention.vapour_pressure_kpa;
}

static double polar_part(struct hansen place) {
    return hansen_known(place) ? hypot(place.delta_p, place.delta_h) : INFINITY;
}

struct shelf_view {
    const struct goal *goal;
    const struct library *lib;
    const struct casefile *file;
    struct bottle_set strong; // the others are bases
};

static struct shelf_view look_at_shelf(const struct goal *goal, const struct library *lib,
                                       const struct casefile *file) {
    struct shelf_view view = {goal, lib, file, strong_bottles_of_goal(goal, lib)};
    int mildest = -1;
    for (int i = 0; i < (int)goal->bottle_count; i++) {
        if (!bottle_set_has(&view.strong, i))
            return view;
        if (mildest < 0 ||
            polar_part(place_of(lib, &goal->bottles[i])) < polar_part(place_of(lib, &goal->bottles[mildest])))
            mildest = i;
    }
    if (mildest >= 0)
        view.strong.words[mildest / 64] &= ~(1ull << (mildest % 64));
    return view;
}

static bool better_base(const struct shelf_view *view, const struct bottle_ref *strong, const struct bottle_ref *a,
                        const struct bottle_ref *b) {
    size_t a_uses = uses(view->file, a, strong);
    size_t b_uses = uses(view->file, b, strong);
    if (a_uses == b_uses) {
        a_uses = uses(view->file, a, NULL);
        b_uses = uses(view->file, b, NULL);
    }
    if (a_uses != b_uses)
        return a_uses > b_uses;
    double a_total = hansen_total(place_of(view->lib, a));
    double b_total = hansen_total(place_of(view->lib, b));
    if (fabs(a_total - b_total) > same_mpa05)
        return a_total < b_total;
    return vapour_pressure(view->lib, a) > vapour_pressure(view->lib, b);
}

static const struct bottle_ref *base_for(const struct shelf_view *view, const struct bottle_ref *strong) {
    const struct bottle_ref *base = NULL;
    for (int i = 0; i < (int)view->goal->bottle_count; i++)
        if (!bottle_set_has(&view->strong, i) && (!base || better_base(view, strong, &view->goal->bottles[i], base)))
            base = &view->goal->bottles[i];
    assert(base); // look_at_shelf leaves one bottle at least that is not strong
    return base;
}

double ladder_share_of(const struct ladder_direction *direction, const struct blend *blend) {
    double strong = 0;
    double all = 0;
    for (size_t i = 0; i < blend->part_count; i++) {
        const struct blend_part *part = &blend->parts[i];
        bool is_strong = bottle_ref_same(&part->bottle, &direction->strong);
        if (!is_strong && !bottle_ref_same(&part->bottle, &direction->weak))
            return NAN;
        strong += is_strong ? part->parts : 0;
        all += part->parts;
    }
    return all > 0 ? 100 * strong / all : NAN;
}

static void mark_tests(struct ladder_direction *direction, const struct casefile *file) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    direction->last_percent = -1;
    direction->colour_percent = -1;
    for (size_t i = 0; file && i < file->tests.count; i++) {
        double share = tests[i].withdrawn ? NAN : ladder_share_of(direction, &tests[i].mix);
        if (isnan(share))
            continue;
        if (case_test_stops(&tests[i]) && (direction->colour_percent < 0 || share < direction->colour_percent))
            direction->colour_percent = share;
        if (case_passage_stopped(file, tests[i].passage))
            continue;
        direction->last_percent = fmax(direction->last_percent, share);
        long rung = lround(share / LADDER_STEP_PERCENT);
        if (fabs(share - (double)(rung * LADDER_STEP_PERCENT)) < 0.5)
            direction->rungs[rung].tested = true;
    }
}

static void bar_rungs(struct ladder_direction *direction, const struct casefile *file) {
    double colour = direction->colour_percent;
    bool all = file && case_every_passage_stopped(file);
    bool near = direction->last_percent >= 0 && direction->last_percent >= colour - LADDER_RISE_PERCENT;
    for (int i = 0; i < LADDER_RUNGS; i++) {
        double percent = i * (double)LADDER_STEP_PERCENT;
        bool too_high = near ? percent > colour + share_slack : percent > colour - share_slack;
        direction->rungs[i].barred = all || (colour >= 0 && direction->last_percent < colour && too_high);
    }
}

// Was every passage that is not stopped tested with at least this share?
static bool tested_everywhere(const struct ladder_direction *direction, const struct casefile *file, double percent) {
    const struct case_passage *passages = file->passages.items;
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->passages.count; i++) {
        bool done = case_passage_stopped(file, passages[i].id);
        for (size_t k = 0; k < file->tests.count && !done; k++)
            done = case_test_in(&tests[k], passages[i].id) &&
                   ladder_share_of(direction, &tests[k].mix) >= percent - share_slack; // never of a NAN
        if (!done)
            return false;
    }
    return true;
}

const struct case_test *ladder_begin_again(struct ladder_direction *direction, const struct casefile *file,
                                           const struct case_test *worked) {
    const struct case_test *tests = file->tests.items;
    const struct case_test *further = NULL;
    double from = ladder_share_of(direction, &worked->mix);
    double least = INFINITY;
    for (size_t i = 0; i < file->tests.count; i++) {
        double share = ladder_share_of(direction, &tests[i].mix);
        bool counts = !tests[i].withdrawn && tests[i].result >= RESULT_PARTLY_REMOVED &&
                      !case_passage_stopped(file, tests[i].passage) && share > from + share_slack;
        if (!counts || share >= least)
            continue;
        least = share;
        further = &tests[i];
    }
    if (!further || tested_everywhere(direction, file, least))
        return NULL;
    direction->last_percent = from;
    for (int i = 0; i < LADDER_RUNGS; i++)
        direction->rungs[i].tested &= i * (double)LADDER_STEP_PERCENT <= from + share_slack;
    return further;
}

enum status ladder_pairs(const struct goal *goal, const struct library *lib, const struct casefile *file,
                         struct ladder *ret, struct error *err) {
    ret->count = 0;
    if (goal->bottle_count < 2)
        return error_set(err, STATUS_NO_DATA,
                         "a ladder needs at least two bottles that may be proposed, a weak and a strong one");
    struct shelf_view view = look_at_shelf(goal, lib, file);
    for (int i = 0; i < (int)goal->bottle_count && ret->count < LADDER_DIRECTIONS_MAX; i++) {
        if (!bottle_set_has(&view.strong, i))
            continue;
        struct ladder_direction *direction = &ret->directions[ret->count++];
        *direction = (struct ladder_direction){.strong = goal->bottles[i]};
        direction->weak = *base_for(&view, &direction->strong);
        direction->way = way_between(place_of(lib, &direction->weak), place_of(lib, &direction->strong));
        mark_tests(direction, file);
        bar_rungs(direction, file);
    }
    return ret->count ? STATUS_OK
                      : error_set(err, STATUS_NO_DATA,
                                  "all of these bottles are weak hydrocarbons; a ladder needs a strong one as well");
}

enum status ladder_blend(const struct ladder_direction *direction, const struct library *lib, int rung,
                         struct blend *ret, struct error *err) {
    int strong = rung * LADDER_STEP_PERCENT;
    struct blend_part parts[2];
    size_t count = 0;
    if (strong > 0)
        parts[count++] = (struct blend_part){.bottle = direction->strong, .parts = strong};
    if (strong < 100)
        parts[count++] = (struct blend_part){.bottle = direction->weak, .parts = 100 - strong};
    return blend_make(lib, parts, count, ret, err);
}
