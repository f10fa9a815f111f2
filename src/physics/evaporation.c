// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/evaporation.h"

#include "base/language.h"
#include "base/print_words.h"
#include "base/units.h"
#include "physics/evaporation_parts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static const double precision = 1e-6;
static const size_t steps_most = 2000;

// --- the path ---

struct drying {
    struct vapour_liquid liquid;
    double k[BLEND_COMPONENTS_MAX];
    struct error why; // of the last evaluation that failed
};

static bool mobilities(const double *x, double *ret_g, void *context) {
    struct drying *drying = context;
    double c_kpa[BLEND_COMPONENTS_MAX];
    if (vapour_coefficients(&drying->liquid, x, c_kpa, NULL, &drying->why) != STATUS_OK)
        return false;
    for (size_t i = 0; i < drying->liquid.activity.count; i++)
        ret_g[i] = drying->k[i] * c_kpa[i];
    return true;
}

static enum status prepare(const struct unifac_table *table, const struct blend *blend,
                           const struct evaporation_options *options, struct drying *ret, struct error *err) {
    double temp_k = kelvin_from_celsius(options->temp_c);
    ret->why = (struct error){0};
    enum status status = vapour_liquid_prepare(table, blend->components, blend->count, temp_k, &ret->liquid, err);
    if (status == STATUS_OK)
        status = vapour_liquid_complete(&ret->liquid, err);
    for (size_t i = 0; status == STATUS_OK && i < blend->count; i++)
        status = evaporation_transfer(blend->components[i], temp_k, options->equal_transfer, &ret->k[i], err);
    return status;
}

static void wanted_points(double ret[EVAPORATION_POINTS]) {
    for (int i = 0; i < 100; i++)
        ret[i] = i / 100.0;
    ret[100] = 0.995;
    ret[101] = 0.999;
}

static double molar_volume(const struct blend *blend, const double *x) {
    double volume = 0;
    for (size_t i = 0; i < blend->count; i++)
        volume += x[i] * blend->components[i]->molar_volume.value;
    return volume;
}

// Where what is left sits; NAN without a split.
static void place_point(const struct blend *blend, struct evaporation_point *point) {
    struct blend left = *blend;
    memcpy(left.volume_fractions, point->phi, sizeof left.volume_fractions);
    if (hansen_of_blend(&left, &point->hansen, NULL) != STATUS_OK)
        point->hansen = (struct hansen){NAN, NAN, NAN};
    if (teas_of_blend(&left, TEAS_MEAN_OF_FRACTIONS, &point->teas_fractions, NULL, NULL) != STATUS_OK)
        point->teas_fractions = (struct teas){NAN, NAN, NAN};
    if (teas_of_blend(&left, TEAS_OF_MEAN_HANSEN, &point->teas_hansen, NULL, NULL) != STATUS_OK)
        point->teas_hansen = (struct teas){NAN, NAN, NAN};
}

// A liquid that cannot be judged, for want of a molar volume, would not have been followed.
static enum phase_verdict judge(const struct library *lib, const struct activity_model *model, const double *x) {
    struct phase_judgement judgement;
    double present[BLEND_COMPONENTS_MAX];
    vapour_present(model->count, x, present);
    enum status status = miscibility_judge(lib, model, present, &judgement, NULL);
    return status == STATUS_OK ? judgement.verdict : PHASE_MAY_SEPARATE;
}

static void fill_point(const struct drying *drying, const struct blend *blend, const struct drift_state *state,
                       double time_unit, double volume_start, struct evaporation_point *ret) {
    double p[BLEND_COMPONENTS_MAX];
    *ret = (struct evaporation_point){.evaporated = state->evaporated, .time = state->time * time_unit};
    memcpy(ret->x, state->x, sizeof ret->x);
    double volume = molar_volume(blend, state->x);
    for (size_t i = 0; i < blend->count; i++)
        ret->phi[i] = state->x[i] * blend->components[i]->molar_volume.value / volume;
    if (!(state->evaporated > 0)) // as it was mixed, to the last bit: other commands print the same figures of it
        memcpy(ret->phi, blend->volume_fractions, sizeof ret->phi);
    ret->volume_left = molar_volume(blend, state->n) / volume_start;
    ret->total_kpa = NAN;
    if (vapour_pressures(&drying->liquid, state->x, p, &ret->two, NULL) == STATUS_OK) {
        ret->total_kpa = 0;
        for (size_t i = 0; i < blend->count; i++)
            ret->total_kpa += p[i];
    }
    place_point(blend, ret);
}

static double time_at(const struct evaporation *evaporation, size_t point) {
    return point < evaporation->count ? evaporation->points[point].time : NAN;
}

static void fill_summary(struct evaporation *evaporation) {
    for (size_t i = 0; i < BLEND_COMPONENTS_MAX; i++) {
        bool reached = evaporation->count > EVAPORATION_TAIL;
        evaporation->tail[i] = reached ? evaporation->points[EVAPORATION_TAIL].x[i] : NAN;
        evaporation->tail_phi[i] = reached ? evaporation->points[EVAPORATION_TAIL].phi[i] : NAN;
    }
    evaporation->time_50 = time_at(evaporation, 50);
    evaporation->time_90 = time_at(evaporation, 90);
    evaporation->time_95 = time_at(evaporation, 95);
    evaporation->rate_90 = 0.9 / evaporation->time_90;
}

static void tell(struct evaporation *evaporation, const char *format, ...) __attribute__((format(printf, 2, 3)));
static void tell(struct evaporation *evaporation, const char *format, ...) {
    size_t used = strlen(evaporation->sentence);
    va_list arguments;
    va_start(arguments, format);
    vprint_words(evaporation->sentence + used, sizeof evaporation->sentence - used, format, arguments);
    va_end(arguments);
}

static void say_doubts(struct evaporation *evaporation, const struct drying *drying) {
    const struct activity_model *model = &drying->liquid.activity;
    size_t said = 0;
    tell(evaporation, "%s", model->coverage.sentence);
    for (size_t i = 0; i < model->count; i++)
        if (drying->liquid.source[i] == PRESSURE_EXTRAPOLATED)
            tell(evaporation, "%s%s", said++ ? ", " : say("; vapour pressure curve used outside its range for "),
                 model->components[i]->id);
    evaporation->extrapolated = said > 0;
    evaporation->weak = model->coverage.weak;
    if (evaporation->stop != DRIFT_COMPLETE)
        tell(evaporation, "; %s, at %.1f %% evaporated%s%s", drift_stop_words(evaporation->stop),
             evaporation->count ? 100 * evaporation->points[evaporation->count - 1].evaporated : 0,
             drying->why.text[0] ? ": " : "", drying->why.text);
}

enum status evaporation_follow(const struct library *lib, const struct unifac_table *table, const struct blend *blend,
                               const struct evaporation_options *options, struct evaporation *ret, struct error *err) {
    struct drying drying;
    struct drift_problem problem = {.count = blend->count,
                                    .mobilities = mobilities,
                                    .context = &drying,
                                    .precision = precision,
                                    .most = steps_most};
    struct drift_state states[EVAPORATION_POINTS];
    double wanted[EVAPORATION_POINTS], reference = NAN;
    size_t count = 0;
    enum drift_stop stop;
    enum status status = blend_mole_fractions(blend, problem.start, err);
    if (status == STATUS_OK)
        status = prepare(table, blend, options, &drying, err);
    if (status == STATUS_OK)
        status = evaporation_reference_rate(lib, options->temp_c, options->equal_transfer, &reference, err);
    wanted_points(wanted);
    if (status == STATUS_OK)
        status = drift_follow(&problem, wanted, EVAPORATION_POINTS, states, &count, &stop, err);
    if (status != STATUS_OK)
        return status;
    *ret = (struct evaporation){.blend = *blend, .temp_c = options->temp_c, .count = count, .stop = stop};
    double volume = molar_volume(blend, problem.start);
    for (size_t i = 0; i < count; i++) {
        fill_point(&drying, blend, &states[i], reference / volume, volume, &ret->points[i]);
        ret->points[i].verdict = judge(lib, &drying.liquid.activity, states[i].x);
    }
    fill_summary(ret);
    say_doubts(ret, &drying);
    evaporation_find(lib, ret);
    return STATUS_OK;
}
