// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_band.h"

#include "base/language.h"

static const double bounds[] = {0.10, 0.35, 0.70, 1.10};

enum film_band film_band(double swelling) {
    int band = BAND_VERY_LOW;
    while (band < BAND_VERY_HIGH && swelling >= bounds[band])
        band++;
    return (enum film_band)band;
}

double film_band_from(enum film_band band) {
    return band == BAND_VERY_LOW ? 0 : bounds[band - 1];
}

const char *film_band_words(enum film_band band) {
    static const char *const words[] = {"very low", "low", "moderate", "high", "very high"};
    return say(words[band]);
}

const char *film_band_anchor(enum film_band band) {
    static const char *const words[] = {"as alkanes do", "as neat ethanol or propan-2-ol do", "as toluene does",
                                        "as tetrahydrofuran does", "as dichloromethane does"};
    return say(words[band]);
}

const char *film_softening_words(double swelling) {
    return swelling < 0.5 ? say("swells a little") : swelling < 2 ? say("softens") : say("softens much");
}
