// SPDX-License-Identifier: GPL-3.0-or-later
// A blend as it dries: what leaves first, what stays last, and how long it takes beside n-butyl acetate.
//
// Still air over the liquid, the gas film controls, the liquid is well mixed and at room temperature:
//   d n_i / d t = -A k_i p_i / (R T),  k_i ~ D_i^(2/3)  (D_i diffusivity of the vapour in air, diffusion.h; the
//   exponent
// of laminar flow over a surface: Sherwood & Pigford, Absorption and Extraction, 1952; ASTM D3539 uses the same idea),
// p_i the partial pressure with activities (vapour.h), from both liquids where the blend splits.
// Neglected: cooling by evaporation (fast liquids are really slower), depletion of a skin, water taken up from air,
// and everything that paint or varnish holds back: a film lets go far more slowly than a dish.
#ifndef MILDSOLVE_PHYSICS_EVAPORATION_H
#define MILDSOLVE_PHYSICS_EVAPORATION_H

#include "physics/drift.h"
#include "physics/hansen.h"
#include "physics/miscibility.h"
#include "physics/teas.h"
#include "physics/vapour.h"

enum {
    EVAPORATION_POINTS = 102, // 0 to 99 % by 1 %, 99.5 %, 99.9 %
    EVAPORATION_TAIL = 95,    // the point that is the last 5 %
    EVAPORATION_FINDINGS_MAX = 16,
    EVAPORATION_SENTENCE_SIZE = 1280
};

struct evaporation_point {
    double evaporated;                // fraction of the moles, 0 to 1
    double time;                      // 1 = the time the same volume of n-butyl acetate takes to evaporate wholly
    double x[BLEND_COMPONENTS_MAX];   // mole fractions of what is left
    double phi[BLEND_COMPONENTS_MAX]; // volume fractions of what is left
    double volume_left;               // of the volume at the start
    double total_kpa;                 // vapour pressure of what is left
    bool two;                         // two liquids by the model, which the pressures and rates then use
    enum phase_verdict verdict;       // one liquid or two, published pairs before the model (miscibility.h)
    struct hansen hansen;             // NAN parts where a component has no split
    struct teas teas_fractions;       // rule TEAS_MEAN_OF_FRACTIONS, NAN as above
    struct teas teas_hansen;          // rule TEAS_OF_MEAN_HANSEN
};

// What the path shows, with the rule that found it. A component is called strong when its polar and hydrogen bonding
// part together, sqrt(dP^2 + dH^2), is at least 10 MPa^0.5 (the alcohols, acetone, the dipolar aprotics; not esters,
// ethers, aromatics, nor water, which dissolves no resin), slow when its relative rate is below 0.3 and fast above 3
// (n-butyl acetate = 1; trade use, common practice). Own choice of limits.
enum evaporation_finding {
    FINDING_ONE_COMPONENT,   // nothing to separate
    FINDING_CONSTANT,        // no mole fraction moves by more than 0.05 up to the last 5 %
    FINDING_TAIL,            // one component is at least half of the last 5 % (by moles)
    FINDING_WEAKER,          // sqrt(dP^2+dH^2) of the mean falls by at least 2 MPa^0.5 from the start to the
                             // last 5 %, and to below 10
    FINDING_STRONGER,        // rises by at least 2
    FINDING_STRONGER_MIDWAY, // is at some point higher by at least 2 than at both ends
    FINDING_STRONG_GONE,     // a strong component of at least 2 % by volume falls below 1 % of the moles left, and no
                             // strong one is among the last 5 % with 1 % or more
    FINDING_SPLITS,          // the verdict is "two" somewhere on the way
    FINDING_MAY_SPLIT,       // the worst verdict on the way is "may separate"
    FINDING_LONG_TAIL,       // the last tenth takes at least as long as the first nine tenths
    FINDING_KINDS
};
const char *evaporation_finding_word(enum evaporation_finding kind);

struct finding {
    enum evaporation_finding kind;
    const struct component *component; // the one it is about, or NULL
    double from, to;                   // what the rule compared (mole fraction, MPa^0.5, fraction evaporated, time)
    char sentence[240];
};

struct evaporation {
    struct blend blend;
    double temp_c;
    size_t count; // points reached, EVAPORATION_POINTS when stop is DRIFT_COMPLETE
    struct evaporation_point points[EVAPORATION_POINTS];
    enum drift_stop stop;
    double tail[BLEND_COMPONENTS_MAX];     // mole fractions of the last 5 %, NAN when not reached
    double tail_phi[BLEND_COMPONENTS_MAX]; // the same by volume
    double time_50, time_90, time_95;      // of the moles; NAN when not reached
    double rate_90;                        // relative rate of evaporation: 0.9 / time_90, n-butyl acetate = 1
    size_t finding_count;
    struct finding findings[EVAPORATION_FINDINGS_MAX];
    bool extrapolated;                        // a vapour pressure curve is used outside its range
    bool weak;                                // the activities are only a rough guide
    char sentence[EVAPORATION_SENTENCE_SIZE]; // the models and every doubt by name, and why it stopped; never empty
};

struct evaporation_options {
    double temp_c;
    bool equal_transfer; // k_i all the same (the Rayleigh equation), as in published calculations
};

// `lib` opened with TABLE_MISCIBILITY lets published pairs decide on phases. STATUS_NO_DATA when the path can't be
// followed: a component without vapour pressure, formula or molar mass, or no activity model; STATUS_RANGE for the
// temperature; STATUS_MEMORY. A path that ends early is STATUS_OK with its stop.
enum status evaporation_follow(const struct library *lib, const struct unifac_table *table, const struct blend *blend,
                               const struct evaporation_options *options, struct evaporation *ret, struct error *err);

// The id of the component whose rate is 1 (evaporation_rate and evaporation_follow look it up in `lib`).
extern const char evaporation_reference_id[];

// Relative rate of evaporation of a neat component, volume for volume, n-butyl acetate = 1, at temp_c (the test
// methods, ASTM D3539 and DIN 53170, use 25 and 20 degC).
enum status evaporation_rate(const struct library *lib, const struct component *component, double temp_c,
                             double *ret_rate, struct error *err);

// Fills `findings` from the points; called by evaporation_follow.
void evaporation_find(const struct library *lib, struct evaporation *evaporation);

#endif
