// SPDX-License-Identifier: GPL-3.0-or-later
// A film of polymer or resin in equilibrium with a blend: each component's chemical potential is equal inside and
// outside. Paint is a network that swells; a resin is not cross-linked and may be taken up without limit.
//
// Per cm3 of dry polymer: n_i moles of component i, W = sum n_i V_i the volume taken up (the swelling), and
//   phi_p = 1/(1 + W), phi_i = n_i V_i phi_p; inside, without the polymer: phi'_i = n_i V_i/W, x'_i = n_i/sum n.
// From G/RT = sum n ln phi + (1 - phi_p) sum n_i [ln gamma_i(x') - ln(phi'_i/x'_i)] + phi_p sum chi_i n_i
//             + n_e [3/2 (phi_p^(-2/3) - 1) + 1/2 ln phi_p]            (sum n ln phi includes the polymer, 1/V_p moles)
// follows by d/dn_i
//   ln a_i = ln phi_i + 1 - V_i (sum_j phi_j/V_j + phi_p/V_p)                       Flory-Huggins, combinatorial
//     + (1 - phi_p) [ln gamma_i(x') - ln(phi'_i/x'_i) - (1 - phi'_i/x'_i)]          solvents among themselves: the
//     + phi_p V_i sum_j (phi_j/V_j) [ln gamma_j(x') - ln(phi'_j/x'_j)]              same model as in the liquid
//     + phi_p chi_i - phi_p V_i sum_j chi_j phi_j/V_j                               solvents with polymer
//     + V_i n_e (phi_p^(1/3) - phi_p/2)                                             elastic, networks only
//   chi_i = chi_s + shift + alpha V_i/(RT) [(dD_i-dD_p)^2 + (dP_i-dP_p)^2/4 + (dH_i-dH_p)^2/4]
// One component: the equation of Flory and Rehner (J. Chem. Phys. 11 (1943) 521, from memory) with one chi; phi_p -> 0:
// the liquid itself. chi_s = 0.34 is the entropic part (Blanks & Prausnitz, Ind. Eng. Chem. Fundam. 3 (1964) 1, from
// memory), alpha = 0.6 from Lindvig, Michelsen & Kontogeorgis, Fluid Phase Equilib. 203 (2002) 247 (from memory).
// The equilibrium is that with a large reservoir of liquid, reached after a long time. Neglected: kinetics, specific
// acid-base action, water on metal soaps, glass transition, pigment other than as a filler that takes up nothing.
//
// Nearly every bounded film has a second, larger root, where the film is not stable. The film is the first root met
// coming from the dry film, at which the matrix d ln a_i/d n_j is positive definite.
#ifndef MILDSOLVE_PHYSICS_FILM_H
#define MILDSOLVE_PHYSICS_FILM_H

#include "base/error.h"
#include "physics/activity.h"
#include "physics/hansen.h"

// The two assumptions on chi that the sizes rest on (sources above).
#define FILM_ALPHA 0.6
#define FILM_CHI_ENTROPIC 0.34

// Below this polymer fraction film and liquid are taken to have merged: no root before it means "without limit".
#define FILM_POLYMER_LEAST 0.005

struct film_parameters {
    struct hansen centre;        // of the polymer, MPa^0.5
    double alpha;                // weight of the Hansen distance in chi, above 0 to 2
    double chi_entropic;         // chi_s, 0 to 1
    double network_mol_m3;       // n_e, elastic strands per dry volume, 10 to 100000; 0 = not cross-linked
    double molar_volume_cm3_mol; // V_p, 50 to 1e9; INFINITY = network
    double pigment;              // volume fraction of pigment in the dry film, 0 to 0.9
    double chi_shift;            // added to chi of every component, -2 to 2: learnt from tests, 0 in the tables
};

// STATUS_RANGE names what is absurd; a network without strands, and a chain without molar volume, are.
enum status film_parameters_check(const struct film_parameters *parameters, struct error *err);

// A film and a set of components at one temperature: all that doesn't depend on composition. Plain data, only read by
// the solver (several threads may share it); the activity model must outlive it.
struct film {
    const struct activity_model *activity; // NULL only for one component (ln gamma = 0)
    size_t count;
    double volume[BLEND_COMPONENTS_MAX];    // V_i, cm3/mol at 25 degC
    double ln_volume[BLEND_COMPONENTS_MAX]; // ln V_i
    double chi[BLEND_COMPONENTS_MAX];
    double dry[BLEND_COMPONENTS_MAX]; // ln a_i - ln phi_i in the limit of the dry film
    double chains;                    // 1/V_p, mol/cm3
    double strands;                   // n_e, mol/cm3
    double pigment;
    const double *tilt; // NULL, or t_ij of film_tilt.h, rows of count: must be in ln_activity of the liquid as well
};

// chi of a liquid of molar volume `volume` (cm3/mol) and `liquid` in this polymer at temp_k.
double film_chi(const struct film_parameters *parameters, struct hansen liquid, double volume, double temp_k);

// STATUS_RANGE: absurd parameters; STATUS_NO_DATA: a component without Hansen split or molar volume, or a set that no
// activity model covers. Temperature is the activity model's.
enum status film_prepare(const struct film_parameters *parameters, const struct activity_model *activity,
                         struct film *ret, struct error *err);

// The same set of components, prepared before, with another polymer and other places of the components (in the order of
// the set): for sampling. The parameters must be such that film_parameters_check finds nothing (asserted).
void film_vary(const struct film_parameters *parameters, const struct hansen *liquids, double temp_k,
               struct film *film);

// One liquid known only by its Hansen place and molar volume (cm3/mol); no activity model. STATUS_RANGE as above or for
// a volume that isn't above 0.
enum status film_prepare_single(const struct film_parameters *parameters, struct hansen liquid, double volume,
                                double temp_k, struct film *ret, struct error *err);

// ln a_i of the liquid, one phase, also inside a gap of the model: ln(x_i gamma_i), of mole fractions or mole numbers;
// -INFINITY where there is none.
void film_liquid_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity);

// The equations above: ln a_i inside for n_i (mol per cm3 of dry polymer, > 0), and, unless NULL, the matrix
// d ln a_i/d n_j (cm3/mol, symmetric, rows of count).
void film_activities(const struct film *film, const double *moles, double *ret_ln_activity, double *ret_matrix);

// The same for a caller that has ln n_i at hand.
void film_activities_ln(const struct film *film, const double *moles, const double *ln_moles, double *ret_ln_activity,
                        double *ret_matrix);

enum film_outcome {
    FILM_BOUNDED,       // a stable film with a finite swelling
    FILM_WITHOUT_LIMIT, // no root before FILM_POLYMER_LEAST: the film dissolves (limit of stability)
    FILM_NO_REGION,     // the material has no film parameters
    FILM_NOT_COVERED,   // a component lies outside the model
    FILM_FAILED         // the solver gave up; say so
};
const char *film_outcome_word(enum film_outcome outcome); // bounded without-limit no-region not-covered failed
bool film_is_known(enum film_outcome outcome);            // bounded or without limit

// Where a film is; also the start for a neighbouring blend of the same film and set. Zeroed = no start.
struct film_state {
    bool known;
    double moles[BLEND_COMPONENTS_MAX]; // n_i, mol per cm3 of dry polymer; 0 for absent components
    double slope;                       // d ln W / d ln a at the root when all activities rise together
    // A stable point on the way from the dry film that was walked last, for a neighbour that is taken up without limit.
    bool has_way;
    double way[BLEND_COMPONENTS_MAX]; // ln n_i, mol per cm3 of dry polymer; -INFINITY for absent components
    double way_lambda;                // see film_path.h
};

// How a film was found, for tests and timing.
struct film_effort {
    unsigned evaluations;
    bool cold; // the path from the dry film was followed
};

// Solves for ln activities of the liquid (-INFINITY = absent; at least one finite). `state` may hold a neighbour's film
// and receives this one's; without root it is set to unknown. The root is the same from every start: a warm root is
// accepted only when the stable branch through it leads back to the dry film, else the path is followed: from a point
// of the neighbour's path, when the stable branch through that leads back to the dry film, or from there. `effort` may
// be NULL. Returns FILM_BOUNDED, FILM_WITHOUT_LIMIT or FILM_FAILED.
enum film_outcome film_solve(const struct film *film, const double *ln_activity, struct film_state *state,
                             struct film_effort *effort);

struct film_result {
    enum film_outcome outcome;
    double swelling;                     // volume taken up per dry volume of film, its pigment included; NAN without
    double polymer_fraction;             // phi_p of the swollen binder, NAN without
    double inside[BLEND_COMPONENTS_MAX]; // volume fractions of what was taken up, in the order of the set, sum 1; NAN
                                         // without
    double slope;                        // d ln swelling / d ln activity; large = on an edge: print a range
};

// Film in equilibrium with given activities, as film_solve; `state` may be NULL. A liquid that has split is in
// equilibrium with either of its phases: give the activities of one.
void film_of_activities(const struct film *film, const double *ln_activity, struct film_state *state,
                        struct film_result *ret);

// The same for a liquid of one phase, x in mole fractions or mole numbers.
void film_of_liquid(const struct film *film, const double *x, struct film_state *state, struct film_result *ret);

// Does the film `a` take up more than `b`? Without limit is most; what is not known is less than anything known.
bool film_takes_up_more(const struct film_result *a, const struct film_result *b);

// A result without figures, for materials and blends the model says nothing of.
void film_no_result(enum film_outcome outcome, struct film_result *ret);

// Has it a film model?
bool material_has_film(const struct material *material);

// The film of a material, from its row: the parameters that the row doesn't give are FILM_ALPHA, FILM_CHI_ENTROPIC and
// the centre of its sphere. STATUS_NO_DATA when the material has no film model (FILM_NO_REGION), STATUS_RANGE when its
// figures are absurd.
enum status film_parameters_of_material(const struct material *material, struct film_parameters *ret,
                                        struct error *err);

#endif
