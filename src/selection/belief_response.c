// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/belief_parts.h"

#include <gsl/gsl_math.h>
#include <math.h>

// All figures are estimates.
//   Words: 1.5 times the noise from one to the next.
//   By RED a target is partly removed at RED 1 and the noise is 10 % of RED, so that the words change at
//   RED 1.35, 1.16, 1, 0.86: a tenth more of alcohol in an alkane is about one word. By film partly removed at a
//   swelling of 2 (film_softening_words: softens much), the noise a factor of 1.8: the sizes of the model move by
//   factors of about two. The words change at 0.34, 0.83, 2, 4.8. Paint: in 2 of 22 paintings pigment began to come off
//   with toluene-acetone 40:60 to acetone (Lomax & Fisher, JAIC 29 (1990) 181, section 5), which swells oil paint about
//   once its volume and has RED 0.4 to 0.7: the levels meet that share with what is uncertain about region, passage and
//   site taken in. Contact and rolls: the noise's 0.6 and 0.4 for 2.7 times as much, give or take half of it: doubled
//   contact is as much as 4 % in RED.
static const double film_target_level = 0.6931471805599453; // ln 2
static const double film_target_sharpness = 1.7, film_paint_sharpness = 1.7, film_paint_level = 1.04;
static const double red_target_level = 0, red_target_sharpness = 10, red_paint_sharpness = 2, red_paint_level = 1.58;
static const double contact_mean = 0.6, contact_sd = 0.3, rolls_mean = 0.4, rolls_sd = 0.2;

void belief_response_set(enum belief_view view, bool spared, struct belief_response *ret) {
    bool film = view == BELIEF_FILM;
    if (spared)
        *ret = (struct belief_response){.level = film ? film_paint_level : red_paint_level,
                                        .ln_sharpness = log(film ? film_paint_sharpness : red_paint_sharpness),
                                        .cuts = {0},
                                        .cut_count = 1};
    else
        *ret = (struct belief_response){.level = film ? film_target_level : red_target_level,
                                        .ln_sharpness = log(film ? film_target_sharpness : red_target_sharpness),
                                        .cuts = {-3, -1.5, 0, 1.5},
                                        .cut_count = BELIEF_WORDS - 1};
}

double belief_sharpness(const struct belief_response *response, const double *z) {
    return exp(response->ln_sharpness + BELIEF_SHARPNESS_SD * z[COORDINATE_SHARPNESS]);
}

double belief_response(const struct belief_response *response, const double *z, double sharpness, double margin,
                       double ln_contact, double ln_rolls) {
    return sharpness * (margin - response->level) + (contact_mean + contact_sd * z[COORDINATE_CONTACT]) * ln_contact +
           (rolls_mean + rolls_sd * z[COORDINATE_ROLLS]) * ln_rolls;
}

double belief_above(double e, double cut, double noise) {
    return 0.5 * erfc((cut - e) / (noise * M_SQRT2));
}

void belief_word_probabilities(const struct belief_response *response, double e, double noise, double *ret) {
    double above = 1;
    for (size_t i = 0; i < response->cut_count; i++) {
        double next = belief_above(e, response->cuts[i], noise);
        ret[i] = above - next;
        above = next;
    }
    ret[response->cut_count] = above;
}

// --- likelihood ---

static double word_probability(const struct belief_response *response, double e, int word) {
    double from = word == 0 ? 1 : belief_above(e, response->cuts[word - 1], 1);
    double to = (size_t)word == response->cut_count ? 0 : belief_above(e, response->cuts[word], 1);
    return (1 - BELIEF_SLIP) * (from - to) + BELIEF_SLIP / (double)(response->cut_count + 1);
}

struct belief_reading belief_read(const struct belief_cloud *cloud, const double *z) {
    const struct belief_item *item = &cloud->plan->items[cloud->item];
    struct belief_reading reading = {.z = z, .sharpness = belief_sharpness(&item->response, z)};
    belief_parameters(item, z, reading.parameters);
    return reading;
}

// e of one test, passage and site included.
static double response_of(const struct belief_cloud *cloud, const struct belief_evidence *evidence,
                          const struct belief_reading *reading) {
    const struct belief_item *item = &cloud->plan->items[cloud->item];
    const double *z = reading->z;
    double margin = belief_margin(cloud->plan, evidence->liquid, cloud->item, reading->parameters);
    return belief_response(&item->response, z, reading->sharpness, margin, evidence->ln_contact, evidence->ln_rolls) +
           BELIEF_PASSAGE_SD * z[evidence->passage] + BELIEF_SITE_SD * z[evidence->site];
}

size_t belief_evidence_words(const struct belief_cloud *cloud, const struct belief_evidence *evidence,
                             const struct belief_reading *reading, double ret[BELIEF_WORDS]) {
    const struct belief_item *item = &cloud->plan->items[cloud->item];
    double e = response_of(cloud, evidence, reading);
    size_t count = item->response.cut_count + 1;
    for (size_t i = 0; i < count; i++)
        ret[i] = word_probability(&item->response, e, (int)i);
    if (item->spared) {
        ret[1] *= evidence->exposed;
        ret[0] = 1 - ret[1];
    }
    return count;
}

double belief_log_likelihood(const struct belief_cloud *cloud, const struct belief_evidence *evidence,
                             const struct belief_reading *reading) {
    const struct belief_item *item = &cloud->plan->items[cloud->item];
    double e = response_of(cloud, evidence, reading);
    double p = word_probability(&item->response, e, item->spared ? 1 : evidence->word);
    if (!item->spared)
        return log(p);
    return log(evidence->word ? evidence->exposed * p : 1 - evidence->exposed * p);
}
