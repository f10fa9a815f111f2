// SPDX-License-Identifier: GPL-3.0-or-later
// Bytes as a blend, a film, a room and a day: whatever they are, no figure is NAN or negative where theory has none,
// fractions sum to one, and nothing leaves the liquid that was not in it.
#include "physics/evaporation.h"
#include "physics/exposure.h"
#include "physics/film_mix.h"
#include "physics/miscibility.h"
#include "tables.h"
#include "target.h"

#include <math.h>
#include <string.h>

struct source {
    const uint8_t *bytes;
    size_t left;
};

static unsigned next(struct source *source) {
    if (!source->left)
        return 0;
    source->left--;
    return *source->bytes++;
}

// Log-uniform between `least` and `most`.
static double between(struct source *source, double least, double most) {
    unsigned step = next(source) | next(source) << 8;
    return least * pow(most / least, step / 65535.0);
}

static struct library lib;
static struct unifac_table unifac;

static void open_tables(void) {
    if (!lib.directories)
        tables_open_unifac(&lib, TABLE_ALL & ~TABLE_REFERENCES, &unifac);
}

static bool read_blend(struct source *source, struct blend *ret) {
    struct blend_part parts[4];
    size_t count = 1 + next(source) % 4;
    for (size_t i = 0; i < count; i++) {
        parts[i].bottle = (struct bottle_ref){.component = &lib.components[next(source) % lib.component_count]};
        parts[i].parts = between(source, 1e-3, 1e3);
    }
    struct error err = {0};
    return blend_make(&lib, parts, count, ret, &err) == STATUS_OK;
}

static void check_sum(const double *shares, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++) {
        LAW(shares[i] >= 0 && shares[i] <= 1 + 1e-9);
        sum += shares[i];
    }
    LAW(fabs(sum - 1) < 1e-6);
}

static void dry(const struct blend *blend, double temp_c) {
    static struct evaporation path;
    struct evaporation_options options = {.temp_c = temp_c};
    struct error err = {0};
    if (evaporation_follow(&lib, &unifac, blend, &options, &path, &err) != STATUS_OK) {
        LAW(err.text[0]);
        return;
    }
    LAW(path.count >= 1 && path.sentence[0]);
    for (size_t i = 0; i < path.count; i++) {
        const struct evaporation_point *point = &path.points[i];
        check_sum(point->x, blend->count);
        check_sum(point->phi, blend->count);
        LAW(point->volume_left >= 0 && point->volume_left <= 1 + 1e-9 && point->total_kpa >= 0);
        LAW(i == 0 || (point->time >= point[-1].time && point->volume_left <= point[-1].volume_left + 1e-9));
    }
}

static void breathe(struct source *source, const struct blend *blend) {
    static struct exposure_air air;
    struct room room = room_usual(between(source, 5, 2000), between(source, 0.01, 50));
    struct exposure_plan plan = exposure_plan_usual(room);
    plan.task_count = 1 + next(source) % 3;
    for (size_t i = 0; i < plan.task_count; i++)
        plan.tasks[i] = (struct exposure_task){.start_h = (double)i * 2.5,
                                               .length_h = between(source, 0.05, 2.5),
                                               .use_ml_h = between(source, 0.1, 2000),
                                               .blend = blend};
    struct error err = {0};
    if (exposure_air(&plan, &air, &err) != STATUS_OK) {
        LAW(err.text[0]);
        return;
    }
    for (size_t i = 0; i < air.count; i++) {
        const struct exposure_component *c = &air.components[i];
        LAW(c->room_mg_m3 >= 0 && isfinite(c->room_mg_m3) && c->near_mg_m3 >= c->room_mg_m3 * (1 - 1e-9));
        LAW(c->twa_8h_leaves_mg_m3 <= c->twa_8h_stays_mg_m3 * (1 + 1e-9));
        LAW(c->near_15min_mg_m3 <= c->near_mg_m3 * (1 + 1e-9) && c->near_15min_mg_m3 >= 0);
    }
    struct exposure_judgements judgements = {0};
    if (exposure_judge_all(&lib, &plan, &air, &judgements, &err) == STATUS_OK)
        LAW(judgements.count > 0);
    exposure_judgements_release(&judgements);
}

// Phases of one liquid hold all of it, and their activities are equal.
static void check_phases(const struct blend *blend, const struct activity_model *model, const double *x) {
    struct phase_judgement judgement;
    struct error err = {0};
    if (miscibility_judge(&lib, model, x, &judgement, &err) != STATUS_OK) {
        LAW(err.text[0]);
        return;
    }
    LAW(judgement.sentence[0] && judgement.verdict <= PHASE_TWO);
    if (!judgement.split_found)
        return;
    const struct phase_split *split = &judgement.split;
    LAW(split->mismatch < 1e-4 && split->gain <= 0);
    for (size_t i = 0; i < blend->count; i++)
        LAW(fabs(split->mole_share[0] * split->x[0][i] + split->mole_share[1] * split->x[1][i] - x[i]) < 1e-6);
}

// Films of every material in turn; what is inside sums to one and the swelling is positive.
static void swell(struct source *source, const struct blend *blend, double temp_c) {
    static struct activity_model model;
    double x[BLEND_COMPONENTS_MAX], ln_activity[BLEND_COMPONENTS_MAX];
    struct error err = {0};
    if (activity_prepare_blend(&unifac, blend, temp_c + 273.15, &model, &err) != STATUS_OK ||
        !activity_covers(&model) || blend_mole_fractions(blend, x, &err) != STATUS_OK)
        return;
    check_phases(blend, &model, x);
    struct film_parameters parameters = {
        .centre = {between(source, 14, 20), between(source, 1, 15), between(source, 1, 20)},
        .alpha = between(source, 0.3, 1.2),
        .chi_entropic = between(source, 0.05, 0.5),
        .molar_volume_cm3_mol = INFINITY};
    if (next(source) % 2)
        parameters.network_mol_m3 = between(source, 10, 100000);
    else
        parameters.molar_volume_cm3_mol = between(source, 50, 1e7);
    struct film film;
    if (film_prepare(&parameters, &model, &film, &err) != STATUS_OK) {
        LAW(err.text[0]);
        return;
    }
    struct film_result result;
    film_liquid_activities(&model, x, ln_activity);
    film_of_activities(&film, ln_activity, NULL, &result);
    LAW(result.outcome == FILM_BOUNDED || result.outcome == FILM_WITHOUT_LIMIT || result.outcome == FILM_FAILED);
    if (result.outcome != FILM_BOUNDED)
        return;
    LAW(result.swelling > 0 && isfinite(result.swelling) && result.polymer_fraction > 0);
    check_sum(result.inside, blend->count);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    open_tables();
    struct source source = {bytes, length};
    struct blend blend;
    double temp_c = 5 + 30 * (next(&source) / 255.0);
    if (!read_blend(&source, &blend))
        return 0;
    switch (next(&source) % 8) { // a path of drying costs as much as hundreds of films
    case 0:
        dry(&blend, temp_c);
        break;
    case 1:
        breathe(&source, &blend);
        break;
    default:
        swell(&source, &blend, temp_c);
    }
    return 0;
}
