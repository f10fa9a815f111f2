// SPDX-License-Identifier: GPL-3.0-or-later
// How much water a blend bears before it clouds.
#include "base/print_words.h"
#include "physics/miscibility.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

const char cloud_water_id[] = "water";
static const double most_water = 0.5;   // of volume
static const double precision = 0.01;   // of the figure
static const double least_water = 1e-5; // of volume; less is not told apart from none

struct watering {
    const struct library *lib;
    struct activity_model model;      // the blend's components and water
    size_t water;                     // its place
    double dry[BLEND_COMPONENTS_MAX]; // volume fractions of the blend without its water
};

// Two liquids by the model, or by the verdict, at a volume fraction of water.
typedef enum status question(const struct watering *watering, const double *x, bool *ret, struct error *err);

static enum status model_splits(const struct watering *watering, const double *x, bool *ret, struct error *err) {
    struct stability stability;
    enum status status = stability_test(&watering->model, x, &stability, err);
    if (status == STATUS_OK)
        *ret = !stability.stable;
    return status;
}

static enum status verdict_is_two(const struct watering *watering, const double *x, bool *ret, struct error *err) {
    struct phase_judgement judgement;
    enum status status = miscibility_judge(watering->lib, &watering->model, x, &judgement, err);
    if (status == STATUS_OK)
        *ret = judgement.verdict == PHASE_TWO;
    return status;
}

static enum status ask(const struct watering *watering, double water, question *is_two, bool *ret, struct error *err) {
    double x[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < watering->model.count; i++) {
        double phi = i == watering->water ? water : watering->dry[i] * (1 - water);
        x[i] = phi / watering->model.components[i]->molar_volume.value;
    }
    return is_two(watering, x, ret, err);
}

static enum status halve(const struct watering *watering, question *is_two, double low, double high, double *ret,
                         struct error *err) {
    while (high - low > precision * high && high > least_water) {
        bool two = false;
        enum status status = ask(watering, (low + high) / 2, is_two, &two, err);
        if (status != STATUS_OK)
            return status;
        if (two)
            high = (low + high) / 2;
        else
            low = (low + high) / 2;
    }
    *ret = high;
    return STATUS_OK;
}

// The lowest water content from `present` on at which the answer is yes; NAN when it is no up to the limit.
static enum status first_water(const struct watering *watering, question *is_two, double present, double *ret,
                               struct error *err) {
    double low = present, high = present;
    while (true) {
        bool two = false;
        enum status status = ask(watering, high, is_two, &two, err);
        if (status != STATUS_OK)
            return status;
        if (two)
            break;
        if (high >= most_water) {
            *ret = NAN;
            return STATUS_OK;
        }
        low = high;
        high = fmin(most_water, high < 1e-3 ? high + 2e-4 : 1.2 * high);
    }
    if (low == high) {
        *ret = present;
        return STATUS_OK;
    }
    return halve(watering, is_two, low, high, ret, err);
}

static enum status find_water_component(const struct library *lib, const struct blend *blend,
                                        const struct component **ret, struct error *err) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i]->family == FAMILY_WATER) {
            *ret = blend->components[i];
            return STATUS_OK;
        }
    return library_component(lib, cloud_water_id, ret, err);
}

// Puts water among the components; *ret_present is what the blend holds.
static enum status prepare(const struct unifac_table *table, const struct blend *blend, double temp_k,
                           struct watering *watering, double *ret_present, struct error *err) {
    const struct component *components[BLEND_COMPONENTS_MAX], *water = NULL;
    size_t count = 0;
    double present = 0;
    enum status status = find_water_component(watering->lib, blend, &water, err);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i] == water) {
            present = blend->volume_fractions[i];
        } else {
            watering->dry[count] = blend->volume_fractions[i];
            components[count++] = blend->components[i];
        }
    if (count == 0 || count == BLEND_COMPONENTS_MAX)
        return error_set(err, STATUS_RANGE, "water can be added to 1 to %d other components, not %zu",
                         BLEND_COMPONENTS_MAX - 1, count);
    for (size_t i = 0; i < count; i++)
        watering->dry[i] /= 1 - present;
    watering->water = count;
    components[count++] = water;
    *ret_present = present;
    for (size_t i = 0; i < count; i++)
        if (!(components[i]->molar_volume.value > 0))
            return error_set(err, STATUS_NO_DATA, "no molar volume known for %s", components[i]->id);
    return activity_prepare(table, components, count, temp_k, &watering->model, err);
}

static void tell(struct cloud_water *found) {
    char *out = found->sentence;
    size_t size = sizeof found->sentence;
    double first = found->first_percent, sure = found->sure_percent;
    if (isnan(first) && isnan(sure))
        print_words(out, size, "stays one liquid up to %.0f %% of water by the model", 100 * most_water);
    else if (found->present_percent > 0 && sure <= found->present_percent)
        print_words(out, size, "separates with the water it already holds (%.2g %% of volume)", found->present_percent);
    else if (sure <= found->present_percent)
        print_words(out, size, "separates even without water");
    else if (isnan(sure))
        print_words(out, size, "may cloud from %.2g %% of water (of volume) on", first);
    else if (isnan(first) || sure <= first)
        print_words(out, size, "clouds from about %.2g %% of water (of volume) on", sure);
    else if (first <= found->present_percent)
        print_words(out, size, "may cloud as it is, separates from about %.2g %% of water (of volume) on", sure);
    else
        print_words(out, size, "begins to cloud between %.2g and %.2g %% of water (of volume)", first, sure);
}

enum status miscibility_cloud_water(const struct library *lib, const struct unifac_table *table,
                                    const struct blend *blend, double temp_k, struct cloud_water *ret,
                                    struct error *err) {
    assert(lib && "water is looked up in the library");
    struct watering watering = {.lib = lib};
    double present = 0, first = NAN, sure = NAN;
    enum status status = prepare(table, blend, temp_k, &watering, &present, err);
    if (status != STATUS_OK)
        return status;
    struct cloud_water found = {.judged = activity_covers(&watering.model),
                                .present_percent = 100 * present,
                                .first_percent = NAN,
                                .sure_percent = NAN};
    if (!found.judged) {
        print_words(found.sentence, sizeof found.sentence, "how much water it bears cannot be judged: %s",
                    watering.model.coverage.sentence);
    } else {
        status = first_water(&watering, model_splits, present, &first, err);
        if (status == STATUS_OK)
            status = first_water(&watering, verdict_is_two, present, &sure, err);
        if (status != STATUS_OK)
            return status;
        found.first_percent = 100 * first;
        found.sure_percent = 100 * sure;
        tell(&found);
    }
    *ret = found;
    return STATUS_OK;
}
