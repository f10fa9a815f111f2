// SPDX-License-Identifier: GPL-3.0-or-later
// A coat of varnish while it is wet: resin dissolved in a carrier, thinning out as the carrier evaporates, and what it
// does to a film below it in that time.
//
// Resin of w g in 100 mL fills v = w/(100 rho) of the volume, rho = COAT_RESIN_DENSITY. With the share V of the carrier
// left, the resin's volume fraction is phi_r = v/(v + (1 - v) V). The carrier leaves along the path of evaporation.h,
// as if the resin did not hold it back (it does, later: see the words on retained carrier).
// The coat counts as wet until phi_r = COAT_SET: a solution of half resin is a stiff gel.
// Dissolved resin lowers the activities of its carrier. They are those of the resin's own film (film.h) at that amount
// of carrier, so that the layer below is in equilibrium with the wet coat as it is, resin included:
//   ln a_i = film_activities(n_i), n_i = phi_i (1 - phi_r)/(phi_r V_i) mol per cm3 of resin.
// Not in it: that two resins may mingle where both are wet, and the brush.
//
// Time. 0.70 mL of n-butyl acetate on a filter paper of 9 cm (110 um) lose nine tenths in 470 s (ASTM D3539, from
// memory), which is 4.7 s for each um of the whole; the test blows air over the paper, so in a room it takes up to
// three times as long (estimate). Thickness of one wet coat: brush 30 to 100 um (60 mL on half a square metre are 120
// um, less what stays in the brush), spray 10 to 40 um (common practice, no source). A wet spray arrives as it was
// mixed and is judged so; for the shortest time half of its carrier is taken to be gone when it arrives (estimate).
#ifndef MILDSOLVE_PHYSICS_WET_COAT_H
#define MILDSOLVE_PHYSICS_WET_COAT_H

#include "physics/evaporation.h"
#include "physics/film.h"

#define COAT_RESIN_DENSITY 1.1 // g/cm3: natural resins 1.06 to 1.08, acrylics 1.1 to 1.2 (estimate)
#define COAT_SET 0.5
#define COAT_PERCENT_USUAL 15.0 // where none is stated; ours, the middle of usual recipes of 10 to 25
#define COAT_SPRAYED_LEFT 0.5   // of the carrier, when a dry spray arrives
#define COAT_SECONDS_PER_UM (470.0 / 0.9 / 110.0)
#define COAT_SLOWEST_AIR 3.0

enum { COAT_POINTS_MAX = EVAPORATION_POINTS };

struct coat_point {
    size_t path; // point of the evaporation path
    double resin_fraction;
    double ln_activity[BLEND_COMPONENTS_MAX]; // with the resin, in the order of the blend; set when the coat is covered
};

struct wet_coat {
    struct evaporation path; // of the carrier
    bool sprayed;
    struct coat_point points[COAT_POINTS_MAX]; // from arriving to setting
    size_t count;
    bool resin_counted; // the activities hold the resin: it has a film
    double seconds_least, seconds_most;
    struct activity_model activity; // of the carrier
    bool covered;                   // by an activity model
};

struct wet_coat_request {
    const struct library *lib;
    const struct unifac_table *table;
    const struct blend *carrier;
    const struct material *resin;
    double percent_w_v; // NAN = COAT_PERCENT_USUAL
    bool sprayed;
    double temp_c;
};

// *ret is large (about 100 kB). STATUS_NO_DATA: the carrier's drying cannot be followed; other statuses of
// evaporation_follow. Not covered by an activity model is no failure: then only places are known.
enum status wet_coat_follow(const struct wet_coat_request *request, struct wet_coat *ret, struct error *err);

// The film of a layer below under the coat: the worst of its points. `neat` true: as if there were no resin.
void wet_coat_film(const struct wet_coat *coat, const struct film_parameters *below, bool neat,
                   struct film_result *ret);

// The carrier's composition at a point of the coat, as a blend of its neat components.
enum status wet_coat_blend(const struct library *lib, const struct wet_coat *coat, size_t point, struct blend *ret,
                           struct error *err);

// The largest share by volume (0 to 1) of a family in the carrier while the coat is wet.
// What the table of ageing says of cuts is counted.
double wet_coat_family_share(const struct library *lib, const struct wet_coat *coat, int family);

#endif
