// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of a belief: its materials, the margin of a blend in them, the response curve, the particles.
#ifndef MILDSOLVE_SELECTION_BELIEF_PARTS_H
#define MILDSOLVE_SELECTION_BELIEF_PARTS_H

#include "physics/film.h"
#include "selection/belief.h"

#include <gsl/gsl_rng.h>

enum { BELIEF_ITEMS_MAX = 2 * GOAL_MATERIALS_MAX };

// --- the response curve ---

// What is not certain about a response besides the material: means and standard deviations of normal priors, in units
// of the noise. Estimates (belief_response.c says whence).
struct belief_response {
    double level;                  // of the margin at which a target is partly removed, or original colour comes off
    double ln_sharpness;           // ln k
    double cuts[BELIEF_WORDS - 1]; // of e, ascending: each word from here
    size_t cut_count;              // words less one; 1 for paint
};

// Coordinates of a particle, all standard normal before any test: the parameters, then these, then the effects of
// passages and sites.
enum { COORDINATE_CONTACT = BELIEF_PARAMETERS, COORDINATE_ROLLS, COORDINATE_SHARPNESS, COORDINATES };

#define BELIEF_SHARPNESS_SD 0.25
#define BELIEF_PASSAGE_SD 0.5
#define BELIEF_SITE_SD 0.5
#define BELIEF_SLIP 0.02

void belief_response_set(enum belief_view view, bool spared, struct belief_response *ret);

double belief_sharpness(const struct belief_response *response, const double *z); // k
// e without passage and site.
double belief_response(const struct belief_response *response, const double *z, double sharpness, double margin,
                       double ln_contact, double ln_rolls);
// Probability of each word when e is known but for noise of this standard deviation (1, or more with unknown effects).
void belief_word_probabilities(const struct belief_response *response, double e, double noise, double *ret);
double belief_above(double e, double cut, double noise); // that e + noise is above the cut

// --- materials ---

struct belief_item {
    const struct material *material;
    bool spared;
    double mean[BELIEF_PARAMETERS], sd[BELIEF_PARAMETERS];
    struct film_parameters film; // by film
    struct belief_response response;
};

struct belief_plan {
    enum belief_view view;
    struct belief_materials given;
    struct belief_item items[BELIEF_ITEMS_MAX];
    size_t count;
};

void belief_parameters(const struct belief_item *item, const double *z, double ret[BELIEF_PARAMETERS]);

// --- margins ---

// ln of the swelling of one liquid in one film over chi of its components: along the first axis chi of the first of
// them (a shift of all moves along it), along the others what chi of a further one is above that.
enum { FORM_AXES_MAX = 3 };
struct belief_axis {
    double first, step;
    size_t count;
};
struct belief_filling; // how a table is filled (belief_table.c)
struct belief_form {
    size_t axes;
    struct hansen places[FORM_AXES_MAX];
    double weights[FORM_AXES_MAX]; // alpha V/(RT), 1/MPa
    struct belief_axis axis[FORM_AXES_MAX];
    double *table; // first axis fastest; NAN where nobody asked yet
    struct belief_filling *filling;
};

struct belief_liquid {
    const struct belief_plan *plan;
    struct hansen place;
    // By film:
    struct activity_model *activity;
    double ln_activity[BLEND_COMPONENTS_MAX];
    size_t item_count;
    struct belief_form forms[BELIEF_ITEMS_MAX];
};

double belief_margin(const struct belief_plan *plan, const struct belief_liquid *liquid, size_t item,
                     const double parameters[BELIEF_PARAMETERS]);

// --- particles ---

// One test as evidence about one material.
struct belief_evidence {
    const struct belief_liquid *liquid;
    double ln_contact, ln_rolls; // over the reference
    int word;                    // of a target: enum result; of paint: 1 = original colour
    double exposed;              // of paint: how likely the blend reached it
    size_t passage, site;        // coordinates of their effects
};

struct belief_place {
    size_t passage, site; // site BELIEF_NONE: the passage itself
};

// The particles of one material.
struct belief_cloud {
    const struct belief_plan *plan;
    size_t item;
    size_t count;                // particles, in BELIEF_RUNS independent runs one after the other
    size_t width;                // coordinates of a particle
    double *z;                   // rows of width
    double *known;               // ln likelihood of the evidence learnt
    size_t *ancestor;            // number of the first particle that each comes from
    struct belief_place *places; // whose effects are the coordinates from COORDINATES on
    size_t place_count;
    struct belief_evidence *evidence;
    size_t evidence_count, evidence_capacity;
    double log_evidence[4];
    size_t degrees;
    double acceptance;
};

enum { BELIEF_RUNS = 4 };

struct belief {
    const struct belief_plan *plan;
    size_t particles;
    unsigned long seed, lessons;
    struct belief_cloud clouds[BELIEF_ITEMS_MAX];
};

// A particle read once for many tests.
struct belief_reading {
    const double *z;
    double parameters[BELIEF_PARAMETERS];
    double sharpness;
};
struct belief_reading belief_read(const struct belief_cloud *cloud, const double *z);

// The probability of each word of one test at a particle, as people write them down (slips included). Returns the
// number of words.
size_t belief_evidence_words(const struct belief_cloud *cloud, const struct belief_evidence *evidence,
                             const struct belief_reading *reading, double ret[BELIEF_WORDS]);

double belief_log_likelihood(const struct belief_cloud *cloud, const struct belief_evidence *evidence,
                             const struct belief_reading *reading);

// Mean, deviation and quantiles; sorts the values.
void belief_interval_of(double *values, size_t count, struct belief_interval *ret);

// Coordinate of a passage's effect, BELIEF_NONE when it has no tests.
size_t belief_known_passage(const struct belief_cloud *cloud, size_t passage);

// A generator of GSL with its state in our own memory. NULL when memory ran out.
gsl_rng *belief_generator(unsigned long seed, unsigned long stream);
void belief_generator_release(gsl_rng *rng);

// Lets in the evidence from `first` on. STATUS_MEMORY, STATUS_INTERRUPTED.
enum status belief_let_in(struct belief_cloud *cloud, size_t first, unsigned long seed, unsigned long stream,
                          const struct watch *watch, struct error *err);

#endif
