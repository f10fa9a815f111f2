// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/miscibility.h"

#include "base/language.h"
#include "base/print_words.h"
#include "physics/miscible_pair.h"

#include <assert.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

// The limits of the rules in the header.
static const double d_deep = -0.15;      // below: a gap that is believed
static const double d_clear = 0.10;      // from here on: clearly one phase
static const double model_margin = 0.02; // of volume, for the model alone
static const double pair_margin = 0.10;  // of volume, for published pairs
static const double middle_low = 0.2, middle_high = 0.8;
static const double nearly_whole = 0.9; // a pair that makes up the blend
// A phase in equilibrium lies on its own limit of stability: only a clear fall below the plane counts.
static const double third_liquid_distance = -1e-6;
static const double notable_share = 0.05; // of each component of a pair in a larger blend

const char *phase_verdict_word(enum phase_verdict verdict) {
    static const char *const words[] = {"one", "may-separate", "two"};
    return words[verdict];
}

struct judging {
    const struct library *lib;
    const struct activity_model *model;
    size_t count; // components present
    size_t places[BLEND_COMPONENTS_MAX];
    double x[BLEND_COMPONENTS_MAX];
    double phi[BLEND_COMPONENTS_MAX];
    struct phase_judgement out;
};

static void tell(struct judging *judging, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void tell(struct judging *judging, const char *format, ...) {
    size_t used = strlen(judging->out.sentence);
    va_list arguments;
    va_start(arguments, format);
    vprint_words(judging->out.sentence + used, sizeof judging->out.sentence - used, format, arguments);
    va_end(arguments);
}

// Starts the sentence again: a later rule decided.
static void decide(struct judging *judging, enum phase_verdict verdict, enum phase_ground ground,
                   const struct miscible_pair *pair) {
    judging->out.verdict = verdict;
    judging->out.ground = ground;
    judging->out.pair = pair;
    judging->out.sentence[0] = '\0';
}

static const char *name_of(const struct judging *judging, size_t place) {
    return judging->model->components[place]->id;
}

// --- composition ---

static enum status set_composition(struct judging *judging, const double *x, struct error *err) {
    size_t count = judging->model->count;
    enum status status = stability_normalise(x, count, judging->x, err);
    if (status != STATUS_OK)
        return status;
    double volume = 0;
    for (size_t i = 0; i < count; i++) {
        double each = judging->model->components[i]->molar_volume.value;
        if (judging->x[i] > 0 && !(each > 0))
            return error_set(err, STATUS_NO_DATA, "no molar volume known for %s", judging->model->components[i]->id);
        judging->phi[i] = judging->x[i] > 0 ? judging->x[i] * each : 0;
        volume += judging->phi[i];
        if (judging->x[i] > 0)
            judging->places[judging->count++] = i;
    }
    for (size_t i = 0; i < count; i++)
        judging->phi[i] /= volume;
    return STATUS_OK;
}

// Raises one component by a part of the volume, at the cost of all others alike. False when there is no room.
static bool raised(const struct judging *judging, size_t place, double by, double *ret_x) {
    double others = 1 - judging->phi[place];
    if (!(by < others))
        return false;
    for (size_t i = 0; i < judging->model->count; i++) {
        double phi = i == place ? judging->phi[i] + by : judging->phi[i] * (others - by) / others;
        ret_x[i] = phi > 0 ? phi / judging->model->components[i]->molar_volume.value : 0;
    }
    return true;
}

static bool splits_when_raised(const struct judging *judging, size_t place, double by) {
    double x[BLEND_COMPONENTS_MAX];
    struct stability stability;
    struct error ignored;
    return raised(judging, place, by, x) &&
           (stability_test(judging->model, x, &stability, &ignored) != STATUS_OK || !stability.stable);
}

// --- the model alone (rule c) ---

// Smallest D on the straight line, in mole fractions, from one phase to the other.
static double depth_of_gap(const struct activity_model *model, const struct phase_split *split) {
    enum { POINTS = 32 };
    double least = INFINITY;
    for (int n = 1; n < POINTS; n++) {
        double z[BLEND_COMPONENTS_MAX], share = (double)n / POINTS;
        for (size_t i = 0; i < model->count; i++)
            z[i] = (1 - share) * split->x[0][i] + share * split->x[1][i];
        least = fmin(least, stability_least_eigenvalue(model, z, NULL));
    }
    return least;
}

static bool in_deep_gap(const struct activity_model *model, const double *x) {
    struct stability stability;
    struct phase_split split;
    struct error ignored;
    return stability_test(model, x, &stability, &ignored) == STATUS_OK && !stability.stable &&
           phase_split_find(model, x, &stability, &split, &ignored) == STATUS_OK &&
           depth_of_gap(model, &split) < d_deep;
}

// Whether half of any one component would still be enough for the gap.
static bool stays_when_halved(const struct judging *judging) {
    for (size_t k = 0; k < judging->count; k++) {
        double x[BLEND_COMPONENTS_MAX];
        memcpy(x, judging->x, sizeof x);
        x[judging->places[k]] /= 2;
        if (!in_deep_gap(judging->model, x))
            return false;
    }
    return true;
}

// "62 % of the volume with ethanol 70, water 10"
static void say_phase(struct judging *judging, int phase) {
    const struct phase_split *split = &judging->out.split;
    bool said[BLEND_COMPONENTS_MAX] = {false};
    tell(judging, "%.0f %% of the volume with", 100 * split->volume_share[phase]);
    for (int n = 0; n < 3; n++) {
        size_t most = BLEND_COMPONENTS_MAX;
        for (size_t k = 0; k < judging->count; k++) {
            size_t i = judging->places[k];
            if (!said[i] && (most == BLEND_COMPONENTS_MAX || split->phi[phase][i] > split->phi[phase][most]))
                most = i;
        }
        if (most == BLEND_COMPONENTS_MAX || (n > 0 && split->phi[phase][most] < 0.005))
            return;
        said[most] = true;
        tell(judging, "%s %s %.0f", n ? "," : "", name_of(judging, most), 100 * split->phi[phase][most]);
    }
}

// Either of the two liquids unstable in turn.
static bool splits_again(const struct judging *judging) {
    for (int phase = 0; phase < 2; phase++) {
        struct stability stability;
        struct error ignored;
        if (stability_test(judging->model, judging->out.split.x[phase], &stability, &ignored) == STATUS_OK &&
            stability.distance < third_liquid_distance)
            return true;
    }
    return false;
}

static void judge_unstable(struct judging *judging) {
    struct phase_judgement *out = &judging->out;
    struct error err = {0};
    enum status status = phase_split_find(judging->model, judging->x, &out->stability, &out->split, &err);
    if (status != STATUS_OK) {
        bool deep = out->stability.least_eigenvalue < d_deep;
        decide(judging, deep ? PHASE_TWO : PHASE_MAY_SEPARATE, PHASE_BY_MODEL, NULL);
        tell(judging, "the model finds it unstable, but %s", err.text);
        return;
    }
    out->split_found = true;
    out->gap_depth = depth_of_gap(judging->model, &out->split);
    out->third_liquid = judging->count > 2 && splits_again(judging);
    bool deep = out->gap_depth < d_deep;
    bool sure = out->stability.least_eigenvalue < d_deep || (deep && stays_when_halved(judging));
    decide(judging, sure ? PHASE_TWO : PHASE_MAY_SEPARATE, PHASE_BY_MODEL, NULL);
    tell(judging, "by the model two liquids, ");
    say_phase(judging, 0);
    tell(judging, " and ");
    say_phase(judging, 1);
    if (!deep)
        tell(judging, "; so shallow a gap (D %.2f) is often a fault of the model", out->gap_depth);
    else if (!sure)
        tell(judging, "; but near the edge of the gap");
    if (out->third_liquid)
        tell(judging, "; a third liquid may form");
}

static void judge_stable(struct judging *judging) {
    double d = judging->out.stability.least_eigenvalue;
    if (d < d_clear) {
        decide(judging, PHASE_MAY_SEPARATE, PHASE_BY_MODEL, NULL);
        tell(judging, "by the model one liquid, but near its limit of stability (D %.2f)", d);
        return;
    }
    for (size_t k = 0; k < judging->count; k++)
        if (splits_when_raised(judging, judging->places[k], model_margin)) {
            decide(judging, PHASE_MAY_SEPARATE, PHASE_BY_MODEL, NULL);
            tell(judging, "by the model one liquid, but two with %.0f %% more %s", 100 * model_margin,
                 name_of(judging, judging->places[k]));
            return;
        }
    decide(judging, PHASE_ONE, PHASE_BY_MODEL, NULL);
    tell(judging, "by the model one liquid (D %.2f)", d);
}

static enum status judge_by_model(struct judging *judging, struct error *err) {
    struct phase_judgement *out = &judging->out;
    if (!out->covered) {
        decide(judging, PHASE_MAY_SEPARATE, PHASE_BY_NOTHING, NULL);
        tell(judging, "cannot be judged: %s", judging->model->coverage.sentence);
        return STATUS_OK;
    }
    enum status status = stability_test(judging->model, judging->x, &out->stability, err);
    if (status != STATUS_OK)
        return status;
    if (out->stability.stable)
        judge_stable(judging);
    else
        judge_unstable(judging);
    if (judging->model->coverage.weak)
        tell(judging, "; %s", judging->model->coverage.sentence);
    return STATUS_OK;
}

// --- published pairs (rules a and b) ---

struct pair_view {
    size_t i, j; // places
    const struct miscible_pair *row;
    enum published published;
    double share;    // phi_i + phi_j
    double fraction; // phi_i of the pair's volume
};

static struct pair_view view_pair(const struct judging *judging, size_t i, size_t j) {
    struct pair_view view = {.i = i, .j = j};
    view.row = miscible_pair_find(judging->lib, judging->model->components[i]->id, judging->model->components[j]->id);
    view.published = miscible_pair_at(view.row, judging->model->temp_k);
    view.share = judging->phi[i] + judging->phi[j];
    view.fraction = judging->phi[i] / view.share;
    return view;
}

static void decide_by_pair(struct judging *judging, const struct pair_view *view, enum phase_verdict verdict,
                           const char *why) {
    static const char *const extent_words[] = {"hardly miscible", "partly miscible", "partly miscible"};
    decide(judging, verdict, PHASE_BY_PUBLISHED, view->row);
    tell(judging, "%s and %s are published as %s, %s", name_of(judging, view->i), name_of(judging, view->j),
         say(extent_words[view->row->miscible]), say(why));
    if (judging->out.split_found) {
        tell(judging, ": ");
        say_phase(judging, 0);
        tell(judging, " and ");
        say_phase(judging, 1);
        if (judging->out.third_liquid)
            tell(judging, "; a third liquid may form");
    }
}

// Whether the two liquids keep the components of the pair apart.
static bool split_parts_them(const struct judging *judging, const struct pair_view *view) {
    const struct phase_split *split = &judging->out.split;
    double i = split->phi[1][view->i] - split->phi[0][view->i];
    double j = split->phi[1][view->j] - split->phi[0][view->j];
    return judging->count == 2 || !judging->out.split_found || i * j < 0;
}

// Published as separating, no gap in the model (or no model).
static void raise_without_gap(struct judging *judging, const struct pair_view *view) {
    bool middle = view->fraction >= middle_low && view->fraction <= middle_high;
    bool notable = judging->phi[view->i] >= notable_share && judging->phi[view->j] >= notable_share;
    const char *blind = judging->out.covered ? N_("though the model sees no gap") : N_("and no model tells how far");
    if (middle && view->share >= nearly_whole)
        decide_by_pair(judging, view, PHASE_TWO, blind);
    else if (judging->out.verdict == PHASE_ONE && (judging->count == 2 || notable))
        decide_by_pair(judging, view, PHASE_MAY_SEPARATE, blind);
    else if (judging->out.ground == PHASE_BY_NOTHING && judging->count == 2)
        decide_by_pair(judging, view, PHASE_MAY_SEPARATE, blind);
}

// A stable blend of just these two: by the distance from the gap.
static void judge_distance(struct judging *judging, const struct pair_view *view, const struct pair_gap *gap) {
    double phi = judging->phi[view->i];
    double outside = phi < gap->low ? gap->low - phi : phi - gap->high;
    if (outside >= pair_margin)
        decide_by_pair(judging, view, PHASE_ONE, "but this lies outside the gap by 10 % of volume or more");
    else
        decide_by_pair(judging, view, PHASE_MAY_SEPARATE, "and this lies within 10 % of volume of the gap");
}

// In a larger blend the pair is raised by a tenth of its volume, at most by thrice the component's own amount.
static bool near_the_pairs_gap(const struct judging *judging, const struct pair_view *view) {
    double by = pair_margin * view->share;
    return splits_when_raised(judging, view->i, fmin(by, 3 * judging->phi[view->i])) ||
           splits_when_raised(judging, view->j, fmin(by, 3 * judging->phi[view->j]));
}

static enum status raise_for_pair(struct judging *judging, const struct pair_view *view, struct error *err) {
    struct pair_gap gap = {0};
    if (judging->out.covered && !judging->out.stability.stable) {
        bool deep = judging->out.verdict == PHASE_TWO, alone = view->share >= nearly_whole;
        if (split_parts_them(judging, view))
            decide_by_pair(judging, view, deep || alone ? PHASE_TWO : PHASE_MAY_SEPARATE,
                           "and this lies inside the model's gap");
        return STATUS_OK;
    }
    if (judging->out.covered) {
        enum status status = pair_gap_find(judging->model, view->i, view->j, &gap, err);
        if (status != STATUS_OK && status != STATUS_ITERATIONS)
            return status;
    }
    if (!gap.exists)
        raise_without_gap(judging, view);
    else if (judging->count == 2)
        judge_distance(judging, view, &gap);
    else if (judging->out.verdict == PHASE_ONE && near_the_pairs_gap(judging, view))
        decide_by_pair(judging, view, PHASE_MAY_SEPARATE, "and not much more of either splits this blend by the model");
    return STATUS_OK;
}

static void judge_whole_pair(struct judging *judging, const struct pair_view *view) {
    bool differs = judging->out.verdict != PHASE_ONE && judging->out.ground == PHASE_BY_MODEL;
    if (view->published == PUBLISHED_MISCIBLE) {
        decide(judging, PHASE_ONE, PHASE_BY_PUBLISHED, view->row);
        tell(judging, "%s and %s are published as miscible in all proportions%s", name_of(judging, view->i),
             name_of(judging, view->j), differs ? say("; the model's gap is known to be false") : "");
    } else {
        decide(judging, PHASE_MAY_SEPARATE, PHASE_BY_PUBLISHED, view->row);
        tell(judging, "%s and %s are near a published critical temperature: either may be found",
             name_of(judging, view->i), name_of(judging, view->j));
    }
}

// Rule a for larger blends: every pair between which the model has a gap is published as miscible.
static enum status cap_false_gap(struct judging *judging, struct error *err) {
    struct pair_view known = {0};
    for (size_t k = 0; k < judging->count; k++)
        for (size_t l = 0; l < k; l++) {
            struct pair_gap gap = {0};
            enum status status = pair_gap_find(judging->model, judging->places[k], judging->places[l], &gap, err);
            if (status != STATUS_OK && status != STATUS_ITERATIONS)
                return status;
            if (status == STATUS_OK && !gap.exists)
                continue;
            struct pair_view view = view_pair(judging, judging->places[k], judging->places[l]);
            if (view.published != PUBLISHED_MISCIBLE)
                return STATUS_OK;
            known = view;
        }
    if (!known.row)
        return STATUS_OK; // no pair has a gap: the split is of the blend as a whole
    decide(judging, PHASE_MAY_SEPARATE, PHASE_BY_PUBLISHED, known.row);
    tell(judging, "the model has two liquids only because of its false gap between %s and %s, published as miscible",
         name_of(judging, known.i), name_of(judging, known.j));
    return STATUS_OK;
}

// No model, more than two components: one phase only if every pair is published as miscible.
static void judge_by_pairs_alone(struct judging *judging) {
    for (size_t k = 0; k < judging->count; k++)
        for (size_t l = 0; l < k; l++)
            if (view_pair(judging, judging->places[k], judging->places[l]).published != PUBLISHED_MISCIBLE)
                return;
    decide(judging, PHASE_ONE, PHASE_BY_PUBLISHED, NULL);
    tell(judging, "every two of its components are published as miscible in all proportions");
}

static enum status judge_by_published(struct judging *judging, struct error *err) {
    enum status status = STATUS_OK;
    if (judging->out.verdict == PHASE_TWO && judging->out.covered && judging->count > 2)
        status = cap_false_gap(judging, err);
    if (!judging->out.covered && judging->count > 2)
        judge_by_pairs_alone(judging);
    for (size_t k = 0; k < judging->count && status == STATUS_OK; k++)
        for (size_t l = 0; l < k && status == STATUS_OK; l++) {
            struct pair_view view = view_pair(judging, judging->places[l], judging->places[k]);
            if (view.published == PUBLISHED_SEPARATES)
                status = raise_for_pair(judging, &view, err);
            else if (judging->count == 2 && view.published != PUBLISHED_NOTHING)
                judge_whole_pair(judging, &view);
        }
    return status;
}

// --- the verdict ---

enum status miscibility_judge(const struct library *lib, const struct activity_model *model, const double *x,
                              struct phase_judgement *ret, struct error *err) {
    struct judging judging = {.lib = lib, .model = model};
    assert(!lib || (lib->loaded & TABLE_MISCIBILITY));
    judging.out.gap_depth = NAN;
    judging.out.covered = activity_covers(model);
    enum status status = set_composition(&judging, x, err);
    if (status != STATUS_OK)
        return status;
    if (judging.count == 1) {
        decide(&judging, PHASE_ONE, PHASE_BY_ITSELF, NULL);
        tell(&judging, "one component by itself");
        judging.out.stability = (struct stability){.stable = true, .least_eigenvalue = 1};
    } else {
        status = judge_by_model(&judging, err);
        if (status == STATUS_OK && lib)
            status = judge_by_published(&judging, err);
    }
    if (status == STATUS_OK)
        *ret = judging.out;
    return status;
}

enum status miscibility_judge_blend(const struct library *lib, const struct unifac_table *table,
                                    const struct blend *blend, double temp_k, struct phase_judgement *ret,
                                    struct error *err) {
    struct activity_model model;
    double x[BLEND_COMPONENTS_MAX];
    enum status status = blend_mole_fractions(blend, x, err);
    if (status == STATUS_OK)
        status = activity_prepare_blend(table, blend, temp_k, &model, err);
    if (status == STATUS_OK)
        status = miscibility_judge(lib, &model, x, ret, err);
    return status;
}
