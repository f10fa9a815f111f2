// SPDX-License-Identifier: GPL-3.0-or-later
// Exposure limits of one authority at a time, and the sums that laws and guides make of them.
#ifndef MILDSOLVE_PHYSICS_LIMITS_H
#define MILDSOLVE_PHYSICS_LIMITS_H

#include "base/error.h"
#include "data/library.h"

// --- the limits of one component in one authority's set ---

enum limit_origin {
    LIMIT_OWN,       // the component's own row
    LIMIT_GROUP,     // the published value of its class (a notation that begins with "group")
    LIMIT_EXCURSION, // long-term limit times the authority's excursion factor (TRGS 900 no. 2.3)
    LIMIT_GUIDE      // three times the long-term limit where no short-term one is listed (EH40, from memory)
};

struct limit_value {
    const struct limit *row; // NULL = none; for LIMIT_EXCURSION and LIMIT_GUIDE the long-term row
    enum limit_origin origin;
    enum limit_kind kind; // what it is compared with
    int period_min;       // averaging time of a ceiling; 0 = at no moment
    double mg_m3;         // as printed, else from ppm at the authority's molar volume
    double ppm;           // as printed, else from mg/m3; NAN without a molar mass
    bool converted;       // mg_m3 was not printed
};

enum { LIMIT_CEILINGS_MAX = 4 };

struct limit_set {
    const struct authority *authority;
    struct limit_value long_term;  // 8-h or 10-h mean
    struct limit_value short_term; // 15-min mean
    struct limit_value guide;      // for the 15-min mean where no limit for short times is printed; row NULL otherwise
    struct limit_value ceilings[LIMIT_CEILINGS_MAX];
    size_t ceiling_count;
    struct limit_value idlh; // immediately dangerous to life or health: a danger mark, no limit for work
};

// Collects the rows of one authority for one component. Of several rows of a kind (glycerol mist) the lowest counts.
// Where only a long-term row with an excursion factor is printed, the 15-minute limit is factor times that row; a
// "momentary value factor =n=" makes a ceiling in the same way. In the UK's set the guide is the 15-minute
// limit. STATUS_NO_DATA when a row gives only ppm and the component has no molar mass or the authority no molar volume.
enum status limit_set_of(const struct library *lib, const struct authority *authority,
                         const struct component *component, struct limit_set *ret, struct error *err);

// True when there is something to judge by: a long-term, short-term or ceiling limit (IDLH alone is none).
bool limit_set_known(const struct limit_set *set);

// The limit that stands for a component in the additive index of day means: the long-term one, else the 15-minute one,
// else the lowest ceiling (a mean can't be allowed to pass what no shorter time may pass). NULL when none is known.
const struct limit_value *limit_set_for_mean(const struct limit_set *set);

// True when a row's notations contain this word ("skin"), case-insensitive, as a whole or at the beginning.
bool limit_has_notation(const struct limit *row, const char *word);

// Factor of the notation "excursion 2(II)" (TRGS 900), NAN when there is none.
double limit_excursion_factor(const struct limit *row);

// True for water: it has no limit and needs none.
bool component_needs_no_limit(const struct component *component);

// --- sums over components and over time ---

// E = (C1 T1 + C2 T2 + ...)/base, e.g. base 8 h (29 CFR 1910.1000(d)(1)(ii)) or 15 min.
double mean_over_time(const double *concentrations, const double *times, size_t count, double base);

// Em = C1/L1 + C2/L2 + ...; above 1 the limit of the mixture is passed (29 CFR 1910.1000(d)(2)(ii); TRGS 402; EH40).
double additive_index(const double *concentrations, const double *limits, size_t count);

// Reciprocal procedure for a liquid that evaporates whole, 1/L = sum of w_i/L_i, w mass fractions, L in mg/m3 (ACGIH
// TLVs and BEIs, appendix on mixtures; HSE EH40/2005 par. 86-89; TRGS 900 no. 2.9).
double reciprocal_limit(const double *mass_fractions, const double *limits_mg_m3, size_t count);

// Rounding of such a limit. EH40/2005: to the nearest 25 below 100, 50 up to 600, 200 above. TRGS 900 (amendment of
// 2019): to full 10 below 25, 25 up to 100, 50 above. A result that would round to nothing stays as it is.
double round_as_eh40(double limit_mg_m3);
double round_as_trgs900(double limit_mg_m3);

// Reciprocal limit of the hydrocarbons in a mixture by the procedure of this authority (UK and Germany only), rounded
// by its rule. `released_mg` weighs the components. *ret_count is the number of hydrocarbons, also when NAN. NAN when
// the authority has no such procedure, fewer than two hydrocarbons are there, or one of them has no value in the set.
// Terpenes do not enter; in Germany n-hexane and decalin stand outside (TRGS 900 no. 2.9).
double hydrocarbon_limit(const struct authority *authority, const struct component *const *components,
                         const struct limit_set *sets, const double *released_mg, size_t count, size_t *ret_count);

// Reduction of an 8-hour limit for a shift of `hours`: (8/h)(24 - h)/16, at most 1 (Brief and Scala, Am. Ind. Hyg.
// Assoc. J. 36 (1975) 467). Practice in the United States, not law. 0 < hours < 24.
double long_shift_factor(double hours);

// Hours over which the day's dose is averaged for a limit of this kind. For an 8-hour limit 8, however long the shift
// (29 CFR 1910.1000(d), EH40 and EN 689 divide the whole dose by 8). The NIOSH 10-hour mean holds for a working day of
// up to 10 h: its mean is taken over the shift, but over no less than 8 and no more than 10 hours, because hours at
// home must not dilute it.
double limit_base_h(enum limit_kind kind, double shift_h);

// --- measurements: the preliminary test of EN 689:2018 ---

enum compliance { COMPLIANCE_UNDECIDED, COMPLIANCE_YES, COMPLIANCE_NO };

// 3 results all below 0.10 of the limit, or 4 below 0.15, or 5 below 0.20: yes. Any above the limit: no. Else
// undecided.
enum compliance preliminary_test(const double *shares_of_limit, size_t count);

#endif
