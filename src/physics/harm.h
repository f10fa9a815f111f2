// SPDX-License-Identifier: GPL-3.0-or-later
// Ways in which a blend can harm besides swelling. Each is a figure or warning of its own; they are never merged into
// one score, because a merged score would hide the one that matters on this picture.
#ifndef MILDSOLVE_PHYSICS_HARM_H
#define MILDSOLVE_PHYSICS_HARM_H

#include "physics/blend.h"
#include "physics/evaporation.h"
#include "physics/hansen.h"

// --- retention: how long the last of it stays ---

// In paint, solvents were followed for hours to weeks after swabbing (Getty Conservation Institute, project page on
// solvent retention); it follows vapour pressure, molar volume and affinity to the film. These three are given; the
// word is ours, from the vapour pressure of the slowest component alone: above 5 kPa at 20 degC short (light
// hydrocarbons, acetone), 0.7 to 5 medium (toluene, esters), 0.05 to 0.7 long (white spirit, glycol ethers), below very
// long (benzyl alcohol, glycols). A blend with a liquid that hydrogen-bonds (delta_h of at least 10) is never called
// short: the alcohols are of medium retention however fast they dry from a dish (Masschelein-Kleiner, IRPA 1981, from
// memory).
enum retention_word { RETENTION_SHORT, RETENTION_MEDIUM, RETENTION_LONG, RETENTION_VERY_LONG, RETENTION_UNKNOWN };
const char *retention_words(enum retention_word word);

struct retention {
    const struct component
        *slowest;               // of at least RETENTION_LEAST of the volume; NULL = no vapour pressure known at all
    double vapour_pressure_kpa; // at 20 degC
    double molar_volume_cm3_mol;
    double red_spare;  // of the slowest neat, against the material to spare: below 1 it likes the film. NAN = no region
    double tail_share; // of the slowest, by volume, in the last 5 % of the drying blend; NAN = not followed
    enum retention_word word;
};

#define RETENTION_LEAST 0.02

// By the pressures alone: the slowest of the liquids that the blend holds.
void retention_of_blend(const struct blend *blend, const struct material *spare, struct retention *ret);

// From the blend as it dries: the slowest of the liquids that are still there in the last 5 %. A path that ended before
// is judged as by retention_of_blend.
void retention_of_drying(const struct evaporation *path, const struct material *spare, struct retention *ret);

// --- leaching: what it takes out ---

// Extractable share of oil paint at equilibrium: 16 to 32 % by weight, higher seen (Stolow, quoted by Jones, Studies in
// Conservation 10 (1965) 119). Solvents differ more in speed than in what they take (Erhardt et al., MRS Proc. 712
// (2002)); at most 2 s of isooctane-ethanol 1:1 took fatty acids from the top of the paint only (Boon & van Och,
// ICOM-CC Edinburgh 1996). So no figure per blend is given, only this range and the contact time.
#define LEACHING_LEAST_PERCENT 16.0
#define LEACHING_MOST_PERCENT 32.0

// --- warnings of classes and passages ---

// Share by volume of the water in the blend.
double water_fraction(const struct blend *blend);

// Why this sensitivity is touched: the family with the largest share, or NULL when the blend stays below its threshold.
// *ret_share (may be NULL) is the volume fraction of all endangering components together.
const struct component *sensitivity_touched(const struct sensitivity *sensitivity, const struct blend *blend,
                                            double *ret_share);

// --- health, in three steps, for comparing blends (never a clearance) ---

// The heaviest hazard of any component of at least 1 % by volume, by its statements: 3 suspected or known carcinogen,
// mutagen or reproductive toxicant, damage to organs, toxic (H34x, H35x, H36x, H37x, H300-H301, H310-H311, H330-H331);
// 2 serious eye damage, corrosive, sensitiser, harmful (H314, H317, H318, H334, H302, H312, H332); 1 irritant, narcotic
// or aspiration hazard (H304, H315, H319, H335, H336, EUH066); 0 none known. The steps are ours; the statements those
// of Reg. (EC) 1272/2008.
int health_burden(const struct blend *blend);
const char *health_burden_words(int burden); // "heavy", "serious", "irritant", "none known"

#endif
