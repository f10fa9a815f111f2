// SPDX-License-Identifier: GPL-3.0-or-later
// What swab tests say about this varnish and this paint: a region for each material with its doubt, before and after
// the tests (Bayes), as a seeded set of particles.
//
// One belief holds one view. By film each material has a centre and an additive shift of chi; by RED a centre and the
// logarithm of a radius. Both views are learnt from the same tests, each on its own: put together they would count
// every test twice.
//
// A test's result is an ordered category of a response curve (ordered probit; McCullagh, J. R. Stat. Soc. B 42 (1980)
// 109, from memory): with the margin m of the blend in the material (below),
//   e = k (m - level) + b_t ln(contact/20 s) + b_r ln(rolls/6) + passage + site + noise,   noise standard normal
//   gloss change from e = -3, softened from -1.5, partly removed from 0, removed from 1.5
// Tests in one passage share its effect, tests at one site share that of the site as well, so that neighbours do not
// count as independent. One result in fifty is taken to be a slip of the pen (any word).
//   margin by RED    -ln RED
//   margin by film   ln of the swelling, with the shift of chi; a film that dissolves counts as 10 (belief_margin.h)
// Original colour on the swab (unsure counts as original) is evidence about the paint: touched or not, by the same
// curve with one step. That no colour was seen says little where the varnish still stood between.
#ifndef MILDSOLVE_SELECTION_BELIEF_H
#define MILDSOLVE_SELECTION_BELIEF_H

#include "physics/unifac.h"
#include "selection/crew.h"
#include "selection/goal.h"

enum belief_view { BELIEF_FILM, BELIEF_RED };
extern const char *const belief_view_words[]; // film red

enum {
    BELIEF_WORDS = 5,        // result words, in the order of enum result
    BELIEF_TESTS_MAX = 512,  // in one belief
    BELIEF_PLACES_MAX = 256, // passages and sites with tests, together, for one material
    BELIEF_PARTICLES_MAX = 1 << 20
};
#define BELIEF_NONE ((size_t)-1) // no target, no passage: one that was never tested

// The reference of the covariates: a contact or a number of rolls that is not stated counts as these.
#define BELIEF_CONTACT_S 20.0
#define BELIEF_ROLLS 6

// --- the plan: materials and what the tables say of them ---

struct belief_plan;

// `remove` and `spare` as in a goal; a material without a region must have been replaced by its stand-in. The plan
// borrows the tables. STATUS_RANGE: no or too many materials, temperature out of range; STATUS_NO_DATA: a material has
// no sphere (RED) or no film (film); STATUS_MEMORY.
struct belief_materials {
    const struct library *lib; // with components, bottles, materials and uncertainties
    const struct unifac_table *table;
    const struct material *remove[GOAL_MATERIALS_MAX];
    size_t remove_count; // 1 or more
    const struct material *spare[GOAL_MATERIALS_MAX];
    size_t spare_count;
    double temp_k;
};
enum status belief_plan_make(const struct belief_materials *materials, enum belief_view view, struct belief_plan **ret,
                             struct error *err);
void belief_plan_release(struct belief_plan *plan); // NULL-safe

// --- a blend, made ready for many questions about one plan ---

// By film this costs up to 10 to 30 ms a material (the film is solved at many places of the centre, each when it is
// first asked for), by RED nothing. Keep it: it does not depend on what was learnt. Not for two threads at once.
struct belief_liquid;

// STATUS_NO_DATA names the component that the view does not cover; STATUS_MEMORY.
enum status belief_liquid_make(const struct belief_plan *plan, const struct blend *blend, struct belief_liquid **ret,
                               struct error *err);
void belief_liquid_release(struct belief_liquid *liquid); // NULL-safe

// --- tests ---

struct belief_test {
    const struct belief_liquid *liquid; // must live as long as the belief
    double contact_s;                   // NAN = not stated
    int rolls;                          // 0 = not stated
    int result;                         // enum result
    int colour;                         // enum colour
    size_t target;                      // place in `remove` of what it was aimed at; BELIEF_NONE = none of them
    size_t passage;                     // any number; equal ones share an effect
    size_t site;                        // any number; equal ones in one passage share an effect as well
};

// --- the belief ---

struct belief;

// The state before any test: `particles` (100 to BELIEF_PARTICLES_MAX) draws from the prior. 2000 do for a case, 500
// for a simulation. The same plan, number, seed and tests in the same order give the same belief. STATUS_RANGE,
// STATUS_MEMORY.
enum status belief_start(const struct belief_plan *plan, size_t particles, unsigned long seed, struct belief **ret,
                         struct error *err);
void belief_release(struct belief *belief); // NULL-safe

// Learns from tests: sequential Monte Carlo (Del Moral, Doucet & Jasra, J. R. Stat. Soc. B 68 (2006) 411, from memory):
// the likelihood is let in by degrees, each leaving at least half of the particles effective, each followed by
// resampling and Metropolis moves. May be called again with further tests. STATUS_RANGE: too many tests or places;
// STATUS_MEMORY; STATUS_INTERRUPTED when cancelled (the belief is then of no use). `watch` may be NULL.
enum status belief_learn(struct belief *belief, const struct belief_test *tests, size_t count,
                         const struct watch *watch, struct error *err);

// --- what it says of a blend ---

// The next test with it. Uncertainty of region, response curve, passage, site and test is all in.
struct belief_forecast {
    double p_words[BELIEF_WORDS]; // of the target asked for, or of the target least likely to come off
    double p_works;               // at least partly removed: every target, when all are asked for
    double p_removed;             // removed, likewise
    double p_touches;         // original colour on the swab if it is held against bare paint; 0 with nothing to spare
    double margin, margin_sd; // of that target: mean and standard deviation over the belief; 0 = its edge, and
                              // larger = stronger
    double paint;             // of the spared material most at risk: mean of its margin (-ln RED, or ln swelling)
    double paint_sd;
};

// `target`: place in `remove`, or BELIEF_NONE for all of them. `passage`: as in the tests, or BELIEF_NONE for one that
// was never tested. The site is always a new one. contact_s and rolls as in a test.
void belief_forecast(const struct belief *belief, const struct belief_liquid *liquid, size_t target, size_t passage,
                     double contact_s, int rolls, struct belief_forecast *ret);

// --- what it says of a material ---

// Places in remove, then in spare: material numbers.
size_t belief_material_count(const struct belief_plan *plan);
const struct material *belief_material(const struct belief_plan *plan, size_t material);

// The parameters of one material: delta_d, delta_p, delta_h (MPa^0.5), then ln radius (radius in MPa^0.5; RED) or shift
// of chi (film).
enum { BELIEF_DELTA_D, BELIEF_DELTA_P, BELIEF_DELTA_H, BELIEF_STRENGTH, BELIEF_PARAMETERS };

struct belief_interval {
    double mean, sd, median;
    double least, most; // 5 and 95 %: the middle 90 %
};
void belief_prior(const struct belief_plan *plan, size_t material, size_t parameter, struct belief_interval *ret);
enum status belief_posterior(const struct belief *belief, size_t material, size_t parameter,
                             struct belief_interval *ret, struct error *err); // STATUS_MEMORY

// The particles themselves: rows of BELIEF_PARAMETERS, equally weighted, in no order.
size_t belief_particles(const struct belief *belief);
void belief_particle(const struct belief *belief, size_t material, size_t particle, double ret[BELIEF_PARAMETERS]);

// --- how far it may be trusted ---

struct belief_diagnostics {
    double effective;    // effective sample size: of the parameter that has the least
    double r_hat;        // between independent runs: of the parameter that has the most; below 1.05 is well
    double log_evidence; // ln of the probability of the tests under the view
    size_t degrees;      // in which the likelihood was let in
    double acceptance;   // of the last moves
};
enum status belief_diagnose(const struct belief *belief, size_t material, struct belief_diagnostics *ret,
                            struct error *err); // STATUS_MEMORY

// Do the tests contradict the view, the tables or each other? Data sets for the same tests are drawn from the prior;
// p_value is the share of them that are as improbable as the tests' own (Box, J. R. Stat. Soc. A 143 (1980) 383, from
// memory). Where all is as the model has it, it is below 0.05 in one case of twenty.
struct belief_conflict {
    double p_value;
    size_t tests; // of this material; fewer than two contradict nothing
};
#define BELIEF_CONFLICT 0.1 // below this a warning is due
enum status belief_contradiction(const struct belief *belief, size_t material, struct belief_conflict *ret,
                                 struct error *err); // STATUS_MEMORY

// How a test's word lies to what all the others lead to expect: the probability of a word as far out or further, to its
// own side (0 to 1, around 0.5 is usual). Test i in the order in which this material's were learnt.
double belief_surprise(const struct belief *belief, size_t material, size_t test);
size_t belief_tests(const struct belief *belief, size_t material);

// The effect of a passage on a material's response, in units of the noise: above 0, tests there act more strongly than
// in the others. Its prior for a passage without tests.
enum status belief_passage(const struct belief *belief, size_t material, size_t passage, struct belief_interval *ret,
                           struct error *err); // STATUS_MEMORY

#endif
