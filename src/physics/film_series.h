// SPDX-License-Identifier: GPL-3.0-or-later
// A test series from a weak liquid to a strong one: at which share of the strong one the film first dissolves, and how
// far that step moves with the assumptions.
#ifndef MILDSOLVE_PHYSICS_FILM_SERIES_H
#define MILDSOLVE_PHYSICS_FILM_SERIES_H

#include "physics/film.h"

// The assumptions at their ends, one at a time.
struct film_ends {
    double alpha[2];
    double chi_entropic[2];
    double molar_volume[2];           // cm3/mol
    double delta_d, delta_p, delta_h; // to either side of the centre, MPa^0.5
    double ln_activity;               // to either side, of the activity of the strong liquid's main component
};

// alpha 0.5 to 1, entropic part 0 to 0.34, V_p 400 to 1200, centre 2 (1 in delta_d, which counts double in a distance);
// activities 2.5 %, the mean error of total pressures by the Dortmund model over 13 measured isotherms (ThermoML).
extern const struct film_ends film_ends_usual;

// Shares are volume percent of the strong liquid; FILM_SHARE_NONE: no step dissolves.
enum { FILM_SHARE_NONE = 101 };

struct film_threshold {
    int nominal; // first step that dissolves
    int closes;  // first step after it that doesn't dissolve any more, or FILM_SHARE_NONE
    // Steps between which the activity of the strong liquid's main component lies within struct film_ends of that at
    // the first dissolving step: far apart where it is flat. Print them as a range, never the nominal step alone.
    int flat_least, flat_most;
    int least, most; // over all of struct film_ends and the row above
};

// Steps of `step` percent, 1 to 50, from the weak liquid alone (0) to the strong one alone (100 when it is a step).
// STATUS_NO_DATA: not covered; STATUS_RANGE: step, parameters, too many components.
enum status film_first_dissolving(const struct unifac_table *table, const struct blend *weak,
                                  const struct blend *strong, const struct film_parameters *parameters,
                                  const struct film_ends *ends, int step, double temp_k, struct film_threshold *ret,
                                  struct error *err);

// The same share not in steps but in percent to 1e-6 (NAN when no share dissolves), for calibration: the first
// dissolving step of 1 % is refined by bisection.
enum status film_critical_share(const struct unifac_table *table, const struct blend *weak, const struct blend *strong,
                                const struct film_parameters *parameters, double temp_k, double *ret_percent,
                                struct error *err);

// Both liquids in one set: components of weak and strong, each once, and the activities at a share.
struct film_series {
    struct activity_model activity;
    double weak[BLEND_COMPONENTS_MAX]; // mole numbers in 1 cm3
    double strong[BLEND_COMPONENTS_MAX];
};
enum status film_series_prepare(const struct unifac_table *table, const struct blend *weak, const struct blend *strong,
                                double temp_k, struct film_series *ret, struct error *err);
void film_series_activities(const struct film_series *series, double share_percent, double *ret_ln_activity);

#endif
