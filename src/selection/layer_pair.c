// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/layer_pair.h"

#include "base/units.h"

#include <math.h>
#include <string.h>

const char *const touch_words[] = {"leaves it", "swells it",        "softens it", "may lift it",
                                   "lifts it",  "cannot be judged", NULL};

double retention_days(enum retention_word word) {
    static const double days[] = {1, 7, 30, 90, 90};
    return days[word];
}

static void at_least(struct layer_pair *pair, enum touch touch, unsigned reason) {
    if (pair->touch < touch)
        pair->touch = touch;
    pair->reasons |= reason;
}

// --- the coat ---

static void judge_own_resin(const struct stack_layer *layer, struct planned_coat *coat) {
    struct hansen place;
    struct film_parameters parameters;
    struct film_result film;
    double red =
        hansen_of_blend(&layer->carrier, &place, NULL) == STATUS_OK ? hansen_red(place, &layer->material->sphere) : NAN;
    coat->resin_known = !isnan(red);
    coat->resin_dissolves = red <= 1;
    if (!coat->followed || film_parameters_of_material(layer->material, &parameters, NULL) != STATUS_OK)
        return;
    wet_coat_film(&coat->coat, &parameters, true, &film);
    coat->resin_known |= film_is_known(film.outcome);
    coat->resin_dissolves |= film.outcome == FILM_WITHOUT_LIMIT;
}

enum status planned_coat_make(const struct pair_request *request, const struct stack_layer *layer,
                              struct planned_coat *ret, struct error *err) {
    struct wet_coat_request how = {.lib = request->lib,
                                   .table = request->table,
                                   .carrier = &layer->carrier,
                                   .resin = layer->material,
                                   .percent_w_v = layer->percent_w_v,
                                   .sprayed = layer->method == COAT_SPRAY,
                                   .temp_c = request->temp_c};
    memset(ret, 0, sizeof *ret);
    enum status status = miscibility_judge_blend(request->lib, request->table, &layer->carrier,
                                                 kelvin_from_celsius(request->temp_c), &ret->phase, err);
    if (status == STATUS_NO_DATA)
        ret->phase = (struct phase_judgement){.verdict = PHASE_MAY_SEPARATE, .ground = PHASE_BY_NOTHING};
    else if (status != STATUS_OK)
        return status;
    status = wet_coat_follow(&how, &ret->coat, &ret->why);
    if (status == STATUS_MEMORY)
        return error_set(err, status, "%s", ret->why.text);
    ret->followed = status == STATUS_OK && ret->coat.count > 0;
    judge_own_resin(layer, ret);
    return STATUS_OK;
}

// --- the lower layer under it ---

static void place(const struct planned_coat *coat, const struct stack_layer *upper, struct layer_pair *pair) {
    struct hansen liquid;
    pair->red = pair->red_least = NAN;
    if (hansen_of_blend(&upper->carrier, &liquid, NULL) != STATUS_OK)
        return;
    pair->red = pair->red_least = hansen_red(liquid, &pair->judged->sphere);
    for (size_t i = 0; coat->followed && i < coat->coat.count; i++)
        pair->red_least = fmin(pair->red_least, hansen_red(coat->coat.path.points[coat->coat.points[i].path].hansen,
                                                           &pair->judged->sphere));
}

static void films(const struct planned_coat *coat, struct layer_pair *pair) {
    struct film_parameters parameters;
    film_no_result(FILM_NO_REGION, &pair->neat);
    film_no_result(FILM_NO_REGION, &pair->wet);
    if (film_parameters_of_material(pair->judged, &parameters, NULL) != STATUS_OK || !coat->followed)
        return;
    wet_coat_film(&coat->coat, &parameters, true, &pair->neat);
    wet_coat_film(&coat->coat, &parameters, false, &pair->wet);
    pair->resin_counted = coat->coat.resin_counted;
}

// The carrier as it arrives, half way and when it sets.
enum { SAMPLED_POINTS = 3 };

static enum status doubted(const struct pair_request *request, const struct planned_coat *coat, struct layer_pair *pair,
                           struct error *err) {
    struct goal goal = {.remove = {pair->judged}, .remove_count = 1};
    struct blend blends[SAMPLED_POINTS];
    struct doubt doubt = {0};
    struct error own = {0};
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < SAMPLED_POINTS; i++)
        status = wet_coat_blend(request->lib, &coat->coat, i * (coat->coat.count - 1) / (SAMPLED_POINTS - 1),
                                &blends[i], err);
    if (status != STATUS_OK)
        return status;
    struct doubt_request how = {.goal = &goal,
                                .lib = request->lib,
                                .table = request->table,
                                .blends = blends,
                                .count = SAMPLED_POINTS,
                                .temp_k = kelvin_from_celsius(request->temp_c),
                                .samples = request->samples,
                                .seed = 1,
                                .vary = DOUBT_ALL,
                                .least_probability = PAIR_LIKELY,
                                .threads = request->threads};
    status = doubt_sample(&how, &doubt, &own);
    if (status == STATUS_NO_DATA || status == STATUS_RANGE)
        return STATUS_OK; // then it is not known
    if (status != STATUS_OK)
        return error_set(err, status, "%s", own.text);
    for (size_t i = 0; i < doubt.count; i++) {
        const struct doubt_row *row = &doubt.rows[i];
        if (!row->judged)
            continue;
        pair->p_dissolves = fmax(pair->p_dissolves, row->p_dissolves); // fmax leaves out NAN
        pair->swelling_least = fmax(pair->swelling_least, row->target_least);
        pair->swelling_most = fmax(pair->swelling_most, row->target_most);
    }
    doubt_release(&doubt);
    return STATUS_OK;
}

// --- the words ---

static void word_of_paint(struct layer_pair *pair) {
    if (!film_is_known(pair->neat.outcome)) {
        if (isnan(pair->red_least))
            at_least(pair, TOUCH_NOT_JUDGED, PAIR_NOT_COVERED);
        else if (pair->red_least < 1)
            at_least(pair, TOUCH_SOFTENS, 0);
        return;
    }
    double swelling = pair->neat.outcome == FILM_BOUNDED ? pair->neat.swelling : INFINITY;
    if (film_band(swelling) >= BAND_HIGH)
        at_least(pair, TOUCH_SOFTENS, 0);
    else if (film_band(swelling) > BAND_VERY_LOW)
        at_least(pair, TOUCH_SWELLS, 0);
}

static void word_of_swelling(const struct film_result *film, bool sprayed, struct layer_pair *pair) {
    if (film->outcome == FILM_WITHOUT_LIMIT || film->swelling >= PAIR_DRAGS)
        at_least(pair, sprayed ? TOUCH_SWELLS : TOUCH_SOFTENS, 0);
    else if (film->swelling >= PAIR_SWELLS)
        at_least(pair, TOUCH_SWELLS, 0);
}

static void word_of_resin(bool sprayed, struct layer_pair *pair) {
    bool by_film = pair->judged->film_model.rank_by == RANK_BY_FILM && pair->neat.outcome != FILM_NO_REGION;
    bool film = pair->neat.outcome == FILM_WITHOUT_LIMIT, sphere = pair->red_least < 1;
    bool film_known = film_is_known(pair->neat.outcome);
    if (!film_known && isnan(pair->red_least)) {
        at_least(pair, TOUCH_NOT_JUDGED, PAIR_NOT_COVERED);
        return;
    }
    double p = !isnan(pair->p_dissolves) ? pair->p_dissolves : (by_film ? film : sphere) ? 1 : 0;
    if (p >= PAIR_LIKELY)
        at_least(pair, TOUCH_LIFTS, 0);
    else if (p >= PAIR_POSSIBLE)
        at_least(pair, TOUCH_MAY_LIFT, 0);
    if (film_known && !isnan(pair->red_least) && film != sphere)
        at_least(pair, TOUCH_MAY_LIFT, PAIR_VIEWS_DISAGREE);
    word_of_swelling(&pair->wet, sprayed, pair);
}

static void word_of_threshold(const struct library *lib, const struct material *below, const struct planned_coat *coat,
                              bool sprayed, struct layer_pair *pair) {
    for (size_t i = 0; i < lib->lifting_threshold_count; i++) {
        const struct lifting_threshold *row = &lib->lifting_thresholds[i];
        if (strcmp(row->material, below->id) != 0 || !coat->followed)
            continue;
        pair->threshold = row;
        pair->family_percent = 100 * wet_coat_family_share(lib, &coat->coat, row->family);
        if (pair->family_percent >= row->to_percent)
            at_least(pair, TOUCH_LIFTS, PAIR_PUBLISHED_THRESHOLD);
        else if (pair->family_percent >= row->from_percent)
            at_least(pair, TOUCH_MAY_LIFT, PAIR_PUBLISHED_THRESHOLD);
        else if (pair->family_percent >= row->from_percent / 2)
            at_least(pair, sprayed ? TOUCH_SWELLS : TOUCH_SOFTENS, PAIR_NEAR_THRESHOLD);
    }
}

static void word_of_retention(const struct library *lib, const struct stack_layer *lower, struct layer_pair *pair) {
    struct retention retention;
    pair->retained = RETENTION_UNKNOWN;
    if (lower->carrier.count == 0)
        return;
    retention_of_blend(&lower->carrier, NULL, &retention);
    pair->retained = retention.word;
    double needed = retention_days(retention.word);
    for (size_t i = 0; i < lib->retained_carrier_count; i++)
        if (strcmp(lib->retained_carriers[i].material, lower->material->id) == 0) {
            pair->published_retained = &lib->retained_carriers[i];
            needed = fmax(needed, lib->retained_carriers[i].days);
        }
    if (lower->drying_days >= needed || pair->touch >= TOUCH_SOFTENS)
        return; // what is not stated is not long enough
    pair->touch = (enum touch)(pair->touch + 1);
    pair->reasons |= PAIR_CARRIER_RETAINED;
}

static double resin_distance(const struct stack_layer *upper, const struct material *lower) {
    if (isnan(upper->material->sphere.r0) || isnan(lower->sphere.r0))
        return NAN;
    return hansen_distance(hansen_of_sphere(&upper->material->sphere), hansen_of_sphere(&lower->sphere));
}

static void blank(const struct stack *stack, size_t upper, size_t lower, struct layer_pair *pair) {
    *pair = (struct layer_pair){.upper = upper,
                                .lower = lower,
                                .touches = stack_touches(stack, upper, lower),
                                .red = NAN,
                                .red_least = NAN,
                                .p_dissolves = NAN,
                                .swelling_least = NAN,
                                .swelling_most = NAN,
                                .family_percent = NAN,
                                .retained = RETENTION_UNKNOWN,
                                .resin_ra = NAN};
    film_no_result(FILM_NO_REGION, &pair->neat);
    film_no_result(FILM_NO_REGION, &pair->wet);
}

enum status layer_pair_judge(const struct pair_request *request, const struct stack *stack, size_t upper, size_t lower,
                             const struct planned_coat *coat, struct layer_pair *ret, struct error *err) {
    const struct stack_layer *above = &stack->layers[upper], *below = &stack->layers[lower];
    bool sprayed = above->method == COAT_SPRAY;
    blank(stack, upper, lower, ret);
    ret->judged = material_with_region(request->lib, below->material);
    if (coat->phase.verdict == PHASE_TWO)
        at_least(ret, TOUCH_NOT_JUDGED, PAIR_SPLITS);
    if (!ret->judged) { // then only what is published of thresholds can tell
        word_of_threshold(request->lib, below->material, coat, sprayed, ret);
        if (!ret->threshold)
            at_least(ret, TOUCH_NOT_JUDGED, PAIR_NO_REGION);
        return STATUS_OK;
    }
    if (ret->judged != below->material)
        ret->reasons |= PAIR_STAND_IN;
    ret->resin_ra = resin_distance(above, ret->judged);
    place(coat, above, ret);
    films(coat, ret);
    if (ret->touch == TOUCH_NOT_JUDGED)
        return STATUS_OK;
    enum status status = coat->followed && request->samples > 0 ? doubted(request, coat, ret, err) : STATUS_OK;
    if (status != STATUS_OK)
        return status;
    if (ret->judged->film == FILM_CROSS_LINKED)
        word_of_paint(ret);
    else
        word_of_resin(sprayed, ret);
    word_of_threshold(request->lib, ret->judged, coat, sprayed, ret);
    if (ret->judged->film == FILM_DISSOLVES && materials_alike(request->lib, above->material, below->material))
        at_least(ret, TOUCH_LIFTS, PAIR_SAME_RESIN);
    if (ret->judged->film == FILM_DISSOLVES && ret->touch != TOUCH_NOT_JUDGED)
        word_of_retention(request->lib, below, ret);
    return STATUS_OK;
}
