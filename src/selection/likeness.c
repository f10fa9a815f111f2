// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/likeness.h"

#include <math.h>

const char *const respect_words[] = {"triangle",       "drying_speed", "drying_path", "tail",
                                     "paint_swelling", "film_content", "varnish",     "phase",
                                     "fire",           "health",       NULL};
const char *const match_words[] = {"alike", "better", "worse", "differs", "unknown", "not-asked", NULL};

static enum match near(double distance, double most) {
    return isnan(distance) ? MATCH_UNKNOWN : distance <= most ? MATCH_ALIKE : MATCH_DIFFERS;
}

static enum match speed(double ratio) {
    if (isnan(ratio))
        return MATCH_UNKNOWN;
    return ratio <= LIKE_SPEED && ratio >= 1 / LIKE_SPEED ? MATCH_ALIKE : MATCH_DIFFERS;
}

// --- places ---

static double share_in(const struct blend *blend, const struct component *component) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i] == component)
            return blend->volume_fractions[i];
    return 0;
}

// Of each of the three parts, u the same for all three.
static double place_variance(const struct library *lib, const struct blend *old, const struct blend *new) {
    double sum = 0;
    const struct blend *const both[] = {old, new};
    for (int which = 0; which < 2; which++)
        for (size_t i = 0; i < both[which]->count; i++) {
            const struct component *component = both[which]->components[i];
            const struct hansen_values *values = &component->hansen;
            if (which == 1 && share_in(old, component) > 0)
                continue;
            double u = library_uncertainty(lib, "hansen", values->from.sure, values->uncertainty, values->delta_d);
            double w = share_in(new, component) - share_in(old, component);
            sum += w * w * u * u;
        }
    return sum;
}

static double distance_uncertainty(const struct library *lib, const struct portrait *old, const struct portrait *new,
                                   double ra) {
    double variance = place_variance(lib, &old->blend, &new->blend);
    double at_zero = sqrt(6 * variance);
    double d = new->hansen.delta_d - old->hansen.delta_d, p = new->hansen.delta_p - old->hansen.delta_p;
    double h = new->hansen.delta_h - old->hansen.delta_h;
    return ra > at_zero ? sqrt(variance * (16 * d * d + p * p + h * h)) / ra : at_zero;
}

static void compare_paths(const struct portrait *old, const struct portrait *new, struct likeness *like) {
    like->path_ra = 0;
    like->path_gone = 0;
    for (int i = 0; i < PORTRAIT_PATH; i++) {
        double ra = hansen_distance(old->path[i], new->path[i]);
        if (!(ra <= like->path_ra)) { // NAN too
            like->path_ra = ra;
            like->path_gone = 100 / PORTRAIT_PATH * i;
        }
        if (isnan(ra))
            return;
    }
}

// What stays longer is worse wherever it lies.
static enum match tail(const struct portrait *old, const struct portrait *new, double ra) {
    if (isnan(ra) || old->residue == RETENTION_UNKNOWN || new->residue == RETENTION_UNKNOWN)
        return MATCH_UNKNOWN;
    return new->residue > old->residue ? MATCH_WORSE : near(ra, LIKE_RA);
}

static enum match swelling(const struct portrait *old, const struct portrait *new, double ratio) {
    if (!film_is_known(old->film) || !film_is_known(new->film))
        return MATCH_UNKNOWN;
    if (old->film != new->film)
        return new->film == FILM_WITHOUT_LIMIT ? MATCH_WORSE : MATCH_BETTER;
    if (isnan(ratio)) // both without limit
        return MATCH_ALIKE;
    return ratio > LIKE_SWELLING ? MATCH_WORSE : ratio < 1 / LIKE_SWELLING ? MATCH_BETTER : MATCH_ALIKE;
}

static enum match varnish(const struct portrait *old, const struct portrait *new) {
    if (isnan(old->red_remove))
        return MATCH_NOT_ASKED;
    if (!old->dissolves_judged || !new->dissolves_judged)
        return MATCH_UNKNOWN;
    if (old->dissolves == new->dissolves)
        return MATCH_ALIKE;
    return new->dissolves ? MATCH_DIFFERS : MATCH_WORSE;
}

static enum match phase(const struct portrait *old, const struct portrait *new) {
    return new->phase > old->phase ? MATCH_WORSE : new->phase < old->phase ? MATCH_BETTER : MATCH_ALIKE;
}

// 0 for what does not burn, 4 for category 1.
static int fierceness(enum ghs_flammable category) {
    return category == GHS_NOT_FLAMMABLE ? 0 : GHS_UNKNOWN - (int)category;
}

static enum match fire(const struct portrait *old, const struct portrait *new) {
    if (old->flammable == GHS_UNKNOWN || new->flammable == GHS_UNKNOWN)
        return MATCH_UNKNOWN;
    int before = fierceness(old->flammable), after = fierceness(new->flammable);
    return after > before ? MATCH_WORSE : after < before ? MATCH_BETTER : MATCH_ALIKE;
}

// The set by which the new blend does worst. A missing limit is never taken for a low hazard.
static void compare_vapours(const struct portrait *old, const struct portrait *new, struct likeness *like) {
    like->hazard = NAN;
    like->hazard_set = -1;
    for (size_t i = 0; i < old->hazard_count && i < new->hazard_count; i++) {
        const struct vapour_hazard *before = &old->hazards[i], *after = &new->hazards[i];
        double ratio = after->ratio / before->ratio;
        if (!before->complete || isnan(ratio) || (!after->complete && ratio <= LIKE_HAZARD))
            continue;
        if (like->hazard_set < 0 || ratio > like->hazard) {
            like->hazard = ratio;
            like->hazard_set = (int)i;
        }
    }
}

static double compare_indices(const struct air_index *old, const struct air_index *new) {
    double ratio = old->authority && new->authority ? new->index / old->index : NAN;
    return old->complete && isfinite(ratio) && (new->complete || ratio > LIKE_HAZARD) ? ratio : NAN;
}

// What no gain elsewhere makes up for, and what weighs like a step of the burden.
static const unsigned never_new =
    1u << CLASS_CARCINOGEN | 1u << CLASS_MUTAGEN | 1u << CLASS_REPRODUCTIVE | 1u << CLASS_RESTRICTED;
static const unsigned grave = 1u << CLASS_CARCINOGEN | 1u << CLASS_MUTAGEN | 1u << CLASS_REPRODUCTIVE |
                              1u << CLASS_RESTRICTED | 1u << CLASS_SENSITISER | 1u << CLASS_TOXIC |
                              1u << CLASS_CORROSIVE;

// What a component of unknown hazards may be in, too, has not gone; its family is known.
static unsigned classes_gone(const struct portrait *old, const struct portrait *new) {
    unsigned gone = old->classes & ~new->classes;
    return new->hazards_known ? gone : gone &(1u << CLASS_AROMATIC | 1u << CLASS_CHLORINATED);
}

static enum match health(const struct portrait *old, const struct portrait *new, const struct likeness *like) {
    bool worse = new->burden > old->burden || like->hazard > LIKE_HAZARD || like->index > LIKE_HAZARD ||
                 (like->classes_new & grave);
    bool better = (new->hazards_known &&new->burden < old->burden) || like->hazard < 1 / LIKE_HAZARD ||
                  like->index < 1 / LIKE_HAZARD || (like->classes_gone & grave);
    if (like->classes_new & never_new)
        return MATCH_WORSE;
    if (worse)
        return better ? MATCH_DIFFERS : MATCH_WORSE;
    if (like->hazard_set < 0 || !new->hazards_known)
        return MATCH_UNKNOWN;
    return better ? MATCH_BETTER : MATCH_ALIKE;
}

static int count_against(const enum match match[RESPECTS]) {
    int count = 0;
    for (int i = 0; i < RESPECTS; i++)
        count += match[i] == MATCH_WORSE || match[i] == MATCH_DIFFERS || match[i] == MATCH_UNKNOWN;
    return count;
}

void likeness_of(const struct library *lib, const struct portrait *old, const struct portrait *new,
                 struct likeness *ret) {
    struct likeness like = {.ra = hansen_distance(old->hansen, new->hansen),
                            .triangle = teas_distance(old->teas, new->teas),
                            .speed = new->time_90 / old->time_90,
                            .tail_ra = hansen_distance(old->tail, new->tail),
                            .swelling = new->swelling / old->swelling,
                            .inside_ra = hansen_distance(old->inside_place, new->inside_place),
                            .classes_gone = classes_gone(old, new),
                            .classes_new = new->classes & ~old->classes};
    like.ra_uncertainty = distance_uncertainty(lib, old, new, like.ra);
    compare_paths(old, new, &like);
    compare_vapours(old, new, &like);
    like.index = compare_indices(&old->air, &new->air);
    bool both_without = old->film == FILM_WITHOUT_LIMIT && new->film == FILM_WITHOUT_LIMIT;
    like.match[RESPECT_TRIANGLE] = near(like.triangle, LIKE_TRIANGLE);
    like.match[RESPECT_SPEED] = speed(like.speed);
    like.match[RESPECT_PATH] = near(like.path_ra, LIKE_RA);
    like.match[RESPECT_TAIL] = tail(old, new, like.tail_ra);
    like.match[RESPECT_SWELLING] = swelling(old, new, like.swelling);
    like.match[RESPECT_INSIDE] = both_without ? MATCH_NOT_ASKED : near(like.inside_ra, LIKE_RA);
    like.match[RESPECT_VARNISH] = varnish(old, new);
    like.match[RESPECT_PHASE] = phase(old, new);
    like.match[RESPECT_FIRE] = fire(old, new);
    like.match[RESPECT_HEALTH] = health(old, new, &like);
    like.against = count_against(like.match);
    *ret = like;
}
