// SPDX-License-Identifier: GPL-3.0-or-later
// When a blend can be set on fire: flash point, lower flammable limit of its vapour, hazard category.
#ifndef MILDSOLVE_PHYSICS_FLASH_H
#define MILDSOLVE_PHYSICS_FLASH_H

#include "physics/vapour.h"

// --- flash point by any activities (for the blend below and for checks with other data) ---

// ln of every component's activity at temp_c; false where there is none.
typedef bool (*flash_activities)(double temp_c, double *ret_ln_a, void *context);

struct flash_problem {
    size_t count;
    struct antoine_values antoine[BLEND_COMPONENTS_MAX];
    double flash_c[BLEND_COMPONENTS_MAX]; // of the neat component; NAN = not flammable, counts by its activities only
    flash_activities activities;
    void *context;
};

// The temperature at which sum_i a_i(T) psat_i(T) / psat_i(T_flash,i) = 1 over the flammable components (Liaw, Lee,
// Tang & Hsu, J. Loss Prev. Process Ind. 15 (2002) 429; aqueous: Liaw & Chiu, J. Hazard. Mater. 101 (2003) 83; partly
// miscible: Liaw, Lu, Gerbaud & Chen, J. Hazard. Mater. 153 (2008) 1165; all from memory). Curves are used outside
// their range too. STATUS_NO_ROOT when there is none below the temperature at which the blend's vapour fills all
// air (101.325 kPa) or below 327 degC, or nothing is flammable; STATUS_NO_DATA when a curve or the activities fail.
enum status flash_solve(const struct flash_problem *problem, double *ret_temp_c, struct error *err);

// --- a blend ---

enum { FLASH_SENTENCE_SIZE = 1280 };

// Traces below 0.1 %: of the liquid by volume, their own flash point is no bound of the blend's and they are left to
// the model; of the vapour's fuels, they do not need a known limit (own choice).
#define FLASH_TRACE_FRACTION 0.001

struct flash {
    bool flammable;                     // some component is
    double model_c;                     // by the equation above, closed cup; NAN = not known, or none below boiling
    double lowest_component_c;          // the lowest flash point in the blend, NAN = none known
    const struct component *lowest;     // whose
    double display_c;                   // the lower of the two: for every display and every rule; NAN = none known
    bool complete;                      // every flash point, curve and activity was there
    bool minimum;                       // the model lies below every component
    bool none_below_boiling;            // by the model the vapour never becomes rich enough
    bool weak;                          // the activities are only a rough guide
    char sentence[FLASH_SENTENCE_SIZE]; // for the person; never empty
};

// Chlorinated solvents and water without a flash point count as not flammable; any other component without one makes
// the answer incomplete. STATUS_NO_DATA only without molar volumes.
enum status flash_point_of_blend(const struct unifac_table *table, const struct blend *blend, struct flash *ret,
                                 struct error *err);

// The temperature at which the vapour over a neat component reaches its lower flammable limit in air, by its curve:
// a check of the tables. STATUS_NO_DATA, STATUS_NO_ROOT.
enum status flash_from_lower_limit(const struct component *component, double *ret_temp_c, struct error *err);

// --- the vapour ---

// Le Chatelier: 1 / sum_i(y_i / limit_i), y the shares of the fuels in all fuel (they are normalised here), in the unit
// of the limits (Crowl & Louvar, Chemical Process Safety, eq. for mixtures). NAN when a limit of a fuel with y > 0 is
// NAN, or there is no fuel.
double le_chatelier(const double *y, const double *limits, size_t count);

struct flammable_vapour {
    double lower_limit_vol_pct;      // of the blend's vapour in air; NAN = not known or nothing flammable
    double upper_limit_vol_pct;      // NAN as above
    double share_of_lower;           // saturated air over the blend: sum_i (p_i/P)/limit_i; above 1 it can be lit; NAN
    const struct component *unknown; // a fuel without lower limit, NULL = none
};

// At the temperature of `vapour`, at one atmosphere; the limits are those of room temperature.
void flammable_vapour_of(const struct vapour *vapour, struct flammable_vapour *ret);

// --- GHS ---

// Flammable liquids, UN GHS chapter 2.6, table 2.6.1: flash point below 23 degC and initial boiling point at most
// 35 degC: 1; above 35 degC: 2; flash point 23 to 60 degC: 3; above 60 to 93 degC: 4 (the EU's CLP regulation has no
// 4).
enum ghs_flammable {
    GHS_NOT_FLAMMABLE,
    GHS_FLAMMABLE_1,
    GHS_FLAMMABLE_2,
    GHS_FLAMMABLE_3,
    GHS_FLAMMABLE_4,
    GHS_UNKNOWN
};

// boiling_c may be NAN (not known): then below 23 degC the category is unknown.
enum ghs_flammable ghs_flammable_category(double flash_c, double boiling_c);
const char *ghs_flammable_statement(enum ghs_flammable category); // H224 H225 H226 H227, NULL otherwise

// The blend's category by the displayed flash point and its boiling point by the model (*ret_boiling_c, may be NULL,
// NAN when it can't be given). An incomplete flash point below 23 degC still decides; above, the category is unknown.
enum status ghs_flammable_of_blend(const struct unifac_table *table, const struct blend *blend,
                                   const struct flash *flash, enum ghs_flammable *ret, double *ret_boiling_c,
                                   struct error *err);

#endif
