// SPDX-License-Identifier: GPL-3.0-or-later
// Swelling in words. The order of liquids and these bands are what the film model can carry; percentages with decimals
// are not.
#ifndef MILDSOLVE_PHYSICS_FILM_BAND_H
#define MILDSOLVE_PHYSICS_FILM_BAND_H

// Volume taken up per dry volume of oil paint (network 1500 mol/m3, centre of the published short-oil alkyd). The
// bounds are ours; each band is named by liquids whose swelling class is published or recalled in
// tests/reference/paint-swelling.csv:
//   very low   below 0.10: alkanes, white spirit (low, Phenix, JAIC 41 (2002) 61, section 5, and recalled)
//   low        0.10 to 0.35: methanol, ethanol, propan-2-ol (low to moderate, same section); cyclohexane (low,
//     recalled)
//   moderate   0.35 to 0.70: toluene, xylenes, n-butyl and ethyl acetate (moderate, recalled)
//   high       0.70 to 1.10: tetrahydrofuran (high, recalled); the model puts acetone and butanone here, too, which are
//     recalled as moderate
//   very high  above 1.10: dichloromethane (high, recalled)
enum film_band { BAND_VERY_LOW, BAND_LOW, BAND_MODERATE, BAND_HIGH, BAND_VERY_HIGH };

enum film_band film_band(double swelling);
double film_band_from(enum film_band band);        // the least swelling in it; 0 for BAND_VERY_LOW
const char *film_band_words(enum film_band band);  // "very low" ... "very high"
const char *film_band_anchor(enum film_band band); // liquids that lie in it: "as alkanes do"

// A resin that does not dissolve, roughly: "swells a little" (below half its volume), "softens", "softens much" (above
// twice).
const char *film_softening_words(double swelling);

#endif
