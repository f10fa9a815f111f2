// SPDX-License-Identifier: GPL-3.0-or-later
// The particles against posteriors computed in other ways: on a grid over all parameters that matter, and in closed
// form. The likelihoods here are written anew from the equations in belief.h, without any function of the particles.
#include "casefile/casefile.h"
#include "films.h"
#include "physics/film_shift.h"
#include "selection/belief.h"
#include "suite.h"
#include "tables.h"

#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table groups;
static struct error err;

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &groups);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &groups);
}

enum { BINS = 20, PARTICLES = 60000, EFFECTIVE_LEAST = 20000 };
static const double bin_reach =
    3; // bins go from -3 to 3 standard deviations of the prior; the outer ones hold the rest

static size_t bin_of(double z) {
    double at = (z + bin_reach) / (2 * bin_reach) * BINS;
    return at < 0 ? 0 : at >= BINS ? BINS - 1 : (size_t)at;
}

static double normal_above(double e, double cut, double sd) {
    return 0.5 * erfc((cut - e) / (sd * sqrt(2)));
}

// Probability that a test gives the word: noise, a slip in one of fifty, effects of passage and site of their own (each
// 0.5 of the noise) for one test alone at its place.
static double probability_of(int word, double e, double sd) {
    static const double cuts[] = {-INFINITY, -3, -1.5, 0, 1.5, INFINITY};
    return 0.98 * (normal_above(e, cuts[word], sd) - normal_above(e, cuts[word + 1], sd)) + 0.02 / 5;
}

struct trial {
    const char *blend;
    int word;
    double contact_s;
    int rolls;
};

// --- by RED: four parameters, sharpness, contact and rolls, on a grid ---

// Tests each in a passage of its own, so that their effects are noise (sd of it all sqrt(1 + 0.25 + 0.25)).
static const struct trial red_trials[] = {
    {"propan-2-ol 20 + isooctane 80", RESULT_GLOSS_CHANGE, 20, 6},
    {"propan-2-ol 40 + isooctane 60", RESULT_PARTLY_REMOVED, 20, 6},
    {"acetone 50 + isooctane 50", RESULT_SOFTENED, 20, 6},
};
enum { RED_TRIALS = 3 };

// Nodes at the middle of cells that are as wide as the bins and go on beyond them.
enum { NODES = 26, SHARP_NODES = 9 };
static const double node_reach = 3.9;

static double node(size_t i, size_t count) {
    return -node_reach + 2 * node_reach * ((double)i + 0.5) / (double)count;
}

static double red_likelihood(const struct hansen *places, const struct material *material, const double *z,
                             double ln_sharpness_z) {
    const struct sphere_values *sphere = &material->sphere;
    // Table uncertainties of aged dammar: 2 for the centre, stated in the row; 2 for the radius, of estimates.
    struct hansen centre = {sphere->delta_d + z[0], sphere->delta_p + 2 * z[1], sphere->delta_h + 2 * z[2]};
    double ln_r0 = log(sphere->r0) + 2 / sphere->r0 * z[3], product = 1;
    double sharpness = 10 * exp(0.25 * ln_sharpness_z); // noise of 10 % in RED
    for (size_t t = 0; t < RED_TRIALS; t++) {
        double e = sharpness * (ln_r0 - log(fmax(hansen_distance(places[t], centre), 0.1)));
        product *= probability_of(red_trials[t].word, e, sqrt(1.5));
    }
    return product;
}

static void grid_by_red(const struct hansen *places, const struct material *material,
                        double ret[BELIEF_PARAMETERS][BINS]) {
    double total = 0, z[4];
    memset(ret, 0, sizeof(double[BELIEF_PARAMETERS][BINS]));
    for (size_t a = 0; a < NODES; a++)
        for (size_t b = 0; b < NODES; b++)
            for (size_t c = 0; c < NODES; c++)
                for (size_t d = 0; d < NODES; d++) {
                    double weight = 0;
                    z[0] = node(a, NODES), z[1] = node(b, NODES), z[2] = node(c, NODES), z[3] = node(d, NODES);
                    double square = z[0] * z[0] + z[1] * z[1] + z[2] * z[2] + z[3] * z[3];
                    if (square > node_reach * node_reach)
                        continue; // 1 in 3000 of the prior
                    for (size_t s = 0; s < SHARP_NODES; s++) {
                        double sharp = node(s, SHARP_NODES);
                        weight += exp(-0.5 * sharp * sharp) * red_likelihood(places, material, z, sharp);
                    }
                    weight *= exp(-0.5 * square);
                    total += weight;
                    for (size_t i = 0; i < 4; i++)
                        ret[i][bin_of(z[i])] += weight;
                }
    for (size_t i = 0; i < 4; i++)
        for (size_t k = 0; k < BINS; k++)
            ret[i][k] /= total;
}

// --- the particles ---

static struct belief_plan *plan_of(enum belief_view view) {
    struct belief_materials materials = {.lib = &lib,
                                         .table = &groups,
                                         .remove = {tables_material(&lib, "dammar-aged")},
                                         .remove_count = 1,
                                         .temp_k = FILMS_TEMP_K};
    struct belief_plan *plan = NULL;
    stop_unless(belief_plan_make(&materials, view, &plan, &err), &err);
    return plan;
}

static struct belief *learn(const struct belief_plan *plan, const struct trial *trials, size_t count,
                            struct belief_liquid **ret_liquids) {
    struct belief_test tests[8];
    struct belief *belief = NULL;
    for (size_t t = 0; t < count; t++) {
        struct blend blend = tables_blend(&lib, trials[t].blend);
        stop_unless(belief_liquid_make(plan, &blend, &ret_liquids[t], &err), &err);
        tests[t] = (struct belief_test){.liquid = ret_liquids[t],
                                        .contact_s = trials[t].contact_s,
                                        .rolls = trials[t].rolls,
                                        .result = trials[t].word,
                                        .colour = COLOUR_NOT_LOOKED,
                                        .passage = t,
                                        .site = t};
    }
    stop_unless(belief_start(plan, PARTICLES, 3, &belief, &err), &err);
    stop_unless(belief_learn(belief, tests, count, NULL, &err), &err);
    return belief;
}

static void share_of_particles(const struct belief_plan *plan, const struct belief *belief,
                               double ret[BELIEF_PARAMETERS][BINS]) {
    memset(ret, 0, sizeof(double[BELIEF_PARAMETERS][BINS]));
    for (size_t n = 0; n < belief_particles(belief); n++) {
        double parameters[BELIEF_PARAMETERS];
        belief_particle(belief, 0, n, parameters);
        for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
            struct belief_interval prior;
            belief_prior(plan, 0, i, &prior);
            ret[i][bin_of((parameters[i] - prior.mean) / prior.sd)] += 1.0 / (double)belief_particles(belief);
        }
    }
}

static double total_variation(const double *a, const double *b) {
    double sum = 0;
    for (size_t k = 0; k < BINS; k++)
        sum += fabs(a[k] - b[k]) / 2;
    return sum;
}

static void check_effective(const struct belief *belief) {
    struct belief_diagnostics found;
    stop_unless(belief_diagnose(belief, 0, &found, &err), &err);
    ck_assert_double_ge(found.effective, EFFECTIVE_LEAST);
    ck_assert_double_le(found.r_hat, 1.01);
}

START_TEST(by_red_as_on_a_grid) {
    const struct material *material = tables_material(&lib, "dammar-aged");
    struct hansen places[RED_TRIALS];
    for (size_t t = 0; t < RED_TRIALS; t++) {
        struct blend blend = tables_blend(&lib, red_trials[t].blend);
        stop_unless(hansen_of_blend(&blend, &places[t], &err), &err);
    }
    static double expected[BELIEF_PARAMETERS][BINS], found[BELIEF_PARAMETERS][BINS];
    grid_by_red(places, material, expected);
    struct belief_liquid *liquids[RED_TRIALS];
    struct belief_plan *plan = plan_of(BELIEF_RED);
    struct belief *belief = learn(plan, red_trials, RED_TRIALS, liquids);
    check_effective(belief);
    share_of_particles(plan, belief, found);
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        ck_assert_msg(total_variation(expected[i], found[i]) < 0.02, "parameter %zu: %.4f", i,
                      total_variation(expected[i], found[i]));
    belief_release(belief);
    for (size_t t = 0; t < RED_TRIALS; t++)
        belief_liquid_release(liquids[t]);
    belief_plan_release(plan);
}
END_TEST

// In closed form: the evidence of one test is the probability of its word before it, and the words are all there is.
START_TEST(the_evidence_is_the_probability_foretold) {
    for (int view = 0; view < 2; view++) {
        struct belief_plan *plan = plan_of((enum belief_view)view);
        double sum = 0;
        for (int word = 0; word < BELIEF_WORDS; word++) {
            struct trial trial = {"propan-2-ol 40 + isooctane 60", word, 20, 6};
            struct belief_liquid *liquid;
            struct belief *belief = learn(plan, &trial, 1, &liquid), *before = NULL;
            struct belief_diagnostics found;
            struct belief_forecast forecast;
            stop_unless(belief_diagnose(belief, 0, &found, &err), &err);
            stop_unless(belief_start(plan, PARTICLES, 5, &before, &err), &err);
            belief_forecast(before, liquid, 0, BELIEF_NONE, 20, 6, &forecast);
            double expected = 0.98 * forecast.p_words[word] + 0.02 / 5;
            ck_assert_double_eq_tol(exp(found.log_evidence), expected, 0.006);
            sum += exp(found.log_evidence);
            belief_release(belief);
            belief_release(before);
            belief_liquid_release(liquid);
        }
        ck_assert_double_eq_tol(sum, 1, 0.01);
        belief_plan_release(plan);
    }
}
END_TEST

// --- by film, on a grid over the shift and the three parts of the centre, with films solved here ---

enum { UNEVEN = 61 };

static double ln_swelling(const struct film_parameters *parameters, const struct films_liquid *liquid, double shift) {
    struct film film = films_prepare(parameters, liquid);
    struct film_result result;
    film_shift_chi(&film, shift);
    film_of_activities(&film, liquid->ln_activity, NULL, &result);
    double swelling = result.outcome == FILM_BOUNDED ? result.swelling : 10;
    return log(fmin(fmax(swelling, 0.01), 10));
}

// Averaged over the unevenness of 0.1 in chi.
static double margin(const struct film_parameters *parameters, const struct films_liquid *liquid, double shift) {
    double sum = 0, weights = 0;
    for (int i = 0; i < UNEVEN; i++) {
        double at = 3 * (2.0 * i / (UNEVEN - 1) - 1), weight = exp(-0.5 * at * at);
        sum += weight * ln_swelling(parameters, liquid, shift + 0.1 * at);
        weights += weight;
    }
    return sum / weights;
}

// A neat liquid: its margin is a function of chi alone, chi of the exchange energy, so that a fine grid needs few
// films.
START_TEST(by_film_as_on_a_grid) {
    const struct trial trial = {"ethyl-acetate", RESULT_SOFTENED, 20, 6};
    struct films films = {.lib = lib, .table = groups};
    struct films_liquid liquid;
    films_liquid(&films, trial.blend, &liquid);
    struct film_parameters nominal = films_parameters(&films, "dammar-aged");
    struct belief_plan *plan = plan_of(BELIEF_FILM);
    struct belief_interval prior[BELIEF_PARAMETERS];
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        belief_prior(plan, 0, i, &prior[i]);

    // margin over chi, at the nominal centre: a shift of chi is all that a neat liquid sees of a change of place
    enum { TABLE = 400 };
    static double table[TABLE];
    struct film film = films_prepare(&nominal, &liquid);
    double chi0 = film.chi[0], first = -1.2 - chi0, step = 5.0 / TABLE;
    for (size_t i = 0; i < TABLE; i++)
        table[i] = margin(&nominal, &liquid, first + step * (double)i);

    static double expected[BELIEF_PARAMETERS][BINS], found[BELIEF_PARAMETERS][BINS];
    double total = 0, z[4];
    memset(expected, 0, sizeof expected);
    for (size_t a = 0; a < NODES; a++)
        for (size_t b = 0; b < NODES; b++)
            for (size_t c = 0; c < NODES; c++)
                for (size_t d = 0; d < NODES; d++) {
                    z[0] = node(a, NODES), z[1] = node(b, NODES), z[2] = node(c, NODES), z[3] = node(d, NODES);
                    double square = z[0] * z[0] + z[1] * z[1] + z[2] * z[2] + z[3] * z[3];
                    if (square > node_reach * node_reach)
                        continue;
                    struct film_parameters moved = nominal;
                    moved.centre =
                        (struct hansen){prior[0].mean + prior[0].sd * z[0], prior[1].mean + prior[1].sd * z[1],
                                        prior[2].mean + prior[2].sd * z[2]};
                    double chi = film_chi(&moved, hansen_of_component(liquid.blend.components[0]), film.volume[0],
                                          FILMS_TEMP_K) +
                                 prior[3].sd * z[3];
                    double at = fmin(fmax((chi - chi0 - first) / step, 0), TABLE - 1.001), weight = 0;
                    double m = table[(size_t)at] + (at - floor(at)) * (table[(size_t)at + 1] - table[(size_t)at]);
                    for (size_t s = 0; s < SHARP_NODES; s++) {
                        double sharp = node(s, SHARP_NODES), e = 1.7 * exp(0.25 * sharp) * (m - log(2));
                        weight += exp(-0.5 * sharp * sharp) * probability_of(trial.word, e, sqrt(1.5));
                    }
                    weight *= exp(-0.5 * square);
                    total += weight;
                    for (size_t i = 0; i < 4; i++)
                        expected[i][bin_of(z[i])] += weight;
                }
    for (size_t i = 0; i < 4; i++)
        for (size_t k = 0; k < BINS; k++)
            expected[i][k] /= total;

    struct belief_liquid *liquids[1];
    struct belief *belief = learn(plan, &trial, 1, liquids);
    check_effective(belief);
    share_of_particles(plan, belief, found);
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++)
        ck_assert_msg(total_variation(expected[i], found[i]) < 0.02, "parameter %zu: %.4f", i,
                      total_variation(expected[i], found[i]));
    belief_release(belief);
    belief_liquid_release(liquids[0]);
    belief_plan_release(plan);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("belief_posterior");
    TCase *tests = tcase_create("belief_posterior");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_set_timeout(tests, 500);
    tcase_add_test(tests, by_red_as_on_a_grid);
    tcase_add_test(tests, the_evidence_is_the_probability_foretold);
    tcase_add_test(tests, by_film_as_on_a_grid);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
