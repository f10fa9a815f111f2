// SPDX-License-Identifier: GPL-3.0-or-later
// How sure is a ranking? Every assumption and value is varied within its uncertainty, all at once, and the list is
// ranked anew each time.
//
// Quasi-random points (Sobol, GSL) for the quantities that matter most, the first 40, shifted by a seeded random vector
// (Cranley & Patterson, SIAM J. Numer. Anal. 13 (1976) 904, from memory), seeded random numbers for the rest; each is a
// function of seed, sample and quantity alone, so that the same seed gives the same answer on any number of threads.
// What varies:
//   alpha                 triangular from 0.5 over 0.6 to 1.0, the range of film_ends_usual with its base case
//   entropic part of chi  even from 0 to 0.34, likewise
//   centres               of film and sphere (one draw for both), normal, one standard deviation as in the tables, half
//                         of it in delta_d, which counts double in a distance
//   chains of a resin     such that in this very sample the published anchor is met: even in ln V_p between the chains
//                         that just stop dissolving in the liquid known to fail and in the one known to dissolve it.
//                         Where no chain does both, the sample is dropped and another drawn. Without an anchor even in
//                         ln V_p, over the range of the table or a factor of two to either side.
//   strands of a paint    even in the logarithm over the range of the table, or a factor of two to either side
//   radius of a sphere    normal (only where a material is judged by RED)
//   components            Hansen parts, normal, as in the tables
//   activities            film_tilt.h: a random term of the mixture's free energy for each pair of components, the same
//                         in liquid and film, twice as large where the activity model is a rough guide
// Keeping the chains while alpha and the entropic part change would be no doubt but an error: the V_p that meets the
// same evidence runs from 300 to 1800 cm3/mol for polystyrene, from 230 to 1700 for aged dammar.
//   what tests have said  one of the regions that they leave possible, in place of centres, radius, chains or strands,
//                         alpha and entropic part of that material
// A material that is to be removed and to be spared (oil paint over oil paint) is drawn once for both.
// Not varied: the form of the model, molar volumes, temperature, kinetics, what is in the bottles. So the doubt found
// is a lower bound.
#ifndef MILDSOLVE_SELECTION_DOUBT_H
#define MILDSOLVE_SELECTION_DOUBT_H

#include "physics/unifac.h"
#include "selection/crew.h"
#include "selection/goal.h"

enum { DOUBT_SAMPLES_MAX = 4096, DOUBT_BLENDS_MAX = 1024 };

// What may be varied.
enum doubt_source {
    DOUBT_ALPHA = 1 << 0,
    DOUBT_ENTROPIC = 1 << 1,
    DOUBT_CENTRES = 1 << 2,
    DOUBT_CHAINS = 1 << 3,
    DOUBT_STRANDS = 1 << 4,
    DOUBT_RADII = 1 << 5,
    DOUBT_COMPONENTS = 1 << 6,
    DOUBT_ACTIVITIES = 1 << 7,
    DOUBT_ALL = (1 << 8) - 1
};

struct doubt_request {
    const struct goal *goal;   // 1 or more materials to remove, any number to spare
    const struct library *lib; // with components, bottles, materials and uncertainties
    const struct unifac_table *table;
    const struct blend *blends; // 1 to DOUBT_BLENDS_MAX
    size_t count;
    double temp_k;
    size_t samples; // 1 to DOUBT_SAMPLES_MAX
    unsigned long seed;
    unsigned vary;            // bits of enum doubt_source; the others stay at their nominal values
    bool by_red;              // judge every material by its sphere instead of its film
    double least_probability; // see doubt_rank
    int threads;              // 1 to CREW_MAX; the answer does not depend on it
    struct watch watch;       // zero = neither progress nor cancelling
};

// One blend over all samples. Quantiles are 10, 50 and 90 %: least, median, most. NAN where there is nothing to say.
struct doubt_row {
    bool judged;        // false: not covered by the models, nothing below is known
    double p_dissolves; // every target that can dissolve does; NAN when none can
    double p_window;    // every cross-linked target leaves a window; NAN when no target is cross-linked
    double p_works;     // both at once
    double swelling_least, swelling_median, swelling_most; // of the spared material that swells most; see struct doubt
    double target_least, target_median, target_most;       // of the cross-linked target that swells least
    bool candidate; // works with at least the probability asked for: ranks are counted among these
    double rank_least, rank_median, rank_most; // by swelling among the candidates, from 1
    double p_mildest_five; // share of samples in which fewer than five candidates are milder; 0 where it dissolves what
                           // is to be spared
    // Share of samples in which what is to be spared is taken up without limit. A network cannot dissolve: only varied
    // activities do it, where they let the liquid split inside the film. Counted as the largest swelling, which is the
    // cautious side.
    double p_unbounded;
    size_t failed; // samples in which the solver gave up: left out of everything above
};

struct doubt {
    struct doubt_row *rows; // in the order of the request
    size_t count;
    size_t asked;
    size_t samples;           // used: fewer than asked when some were dropped, or when interrupted
    size_t dropped;           // no chain meets the anchors
    double error;             // doubt_error(0.5, samples): the largest standard error of any probability here
    bool by_distance;         // nothing to spare has a film: see swelling
    double least_probability; // as last ranked
    // samples rows of count. The volume taken up by the spared material that takes up most; INFINITY where it dissolves
    // or, if the table ranks it by RED, where the blend lies inside its sphere. With by_distance, -Ra in MPa^0.5 to the
    // nearest spared material, so that less is milder as well. NAN where not judged or the solver gave up.
    double *swelling;
    double *target;         // the same of the cross-linked target that swells least; NULL when there is none
    unsigned char *answers; // bits of enum doubt_answer
};

enum doubt_answer { DOUBT_DISSOLVES = 1, DOUBT_WINDOW = 2 };

// STATUS_RANGE: too many or no samples, blends, materials, components, or a temperature out of range; STATUS_NO_DATA: a
// material has neither film nor sphere, or no model covers its anchor; STATUS_MEMORY. STATUS_INTERRUPTED when
// cancelled: *ret then holds what was sampled so far, possibly nothing. Otherwise *ret is untouched.
enum status doubt_sample(const struct doubt_request *request, struct doubt *ret, struct error *err);
void doubt_release(struct doubt *doubt); // NULL-safe

// Counts candidates and ranks anew for another probability (0 to 1) that a blend must work with. STATUS_MEMORY.
enum status doubt_rank(struct doubt *doubt, double least_probability, struct error *err);

// One standard deviation of a share p found in `samples` independent samples: sqrt(p (1 - p)/samples). Quasi-random
// points do better, so it is an upper bound here.
double doubt_error(double p, size_t samples);

// Probability that blend a swells what is to be spared less than blend b does; where both are the same it counts half.
// NAN when no sample judges both.
double doubt_milder(const struct doubt *doubt, size_t a, size_t b);

// Two blends whose order is wrong in more than one of five samples cannot be told apart.
#define DOUBT_TIE 0.2

// Sorts the places of `count` rows by median swelling (NAN last, equal ones as they come) and numbers the ties from 1:
// a row belongs to the tie that was begun by a row above it as long as it is a tie with that first row.
void doubt_order(const struct doubt *doubt, size_t *places, size_t count, size_t *ret_ties);

#endif
