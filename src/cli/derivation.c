// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/derivation.h"

#include "base/language.h"
#include "base/units.h"
#include "physics/exposure.h"
#include "physics/film.h"
#include "physics/room.h"

#include <string.h>

const struct derivations *const derivation_tables[DERIVATION_TABLES] = {&derivations_place, &derivations_air,
                                                                        &derivations_drying, &derivations_choice};

// Steps back over the brackets of a list that end here.
static size_t before_brackets(const char *path, size_t end) {
    while (end >= 2 && path[end - 1] == ']')
        end -= 2;
    return end;
}

// Do the last parts of the path, up to `end`, read as the key? Compared from the end, where a star stands for one whole
// part.
static bool fits_up_to(const char *path, size_t end, const char *key, size_t length) {
    size_t at = before_brackets(path, end);
    while (length > 0 && at > 0) {
        if (key[length - 1] == '*') {
            while (at > 0 && path[at - 1] != '.')
                at--;
        } else if (key[length - 1] == path[at - 1]) {
            at--;
        } else {
            return false;
        }
        length--;
        if (length > 0 && key[length - 1] == '.' && at > 0 && path[at - 1] == '.') {
            at = before_brackets(path, at - 1);
            length--;
        }
    }
    return length == 0 && (at == 0 || path[at - 1] == '.');
}

// A fact of a report has its number one level deeper.
static bool fits(const char *path, const char *key, size_t length) {
    static const char fact[] = ".number";
    size_t end = strlen(path), deeper = sizeof fact - 1;
    return fits_up_to(path, end, key, length) ||
           (end > deeper && strcmp(path + end - deeper, fact) == 0 && fits_up_to(path, end - deeper, key, length));
}

// The longest of the keys that fits; 0 = none.
static size_t longest_fit(const char *path, const char *keys) {
    size_t longest = 0;
    for (const char *key = keys; *key;) {
        size_t length = strcspn(key, " ");
        if (length > longest && fits(path, key, length))
            longest = length;
        key += length;
        key += *key == ' ';
    }
    return longest;
}

static bool holds_for(const struct derivation *derivation, const char *command) {
    size_t length = strlen(command);
    const char *at = derivation->commands;
    while (at && !(strncmp(at, command, length) == 0 && (at[length] == ' ' || at[length] == '\0'))) {
        at = strchr(at, ' ');
        at = at ? at + 1 : NULL;
    }
    return !derivation->commands || at;
}

const struct derivation *derivation_of(const char *command, const char *path) {
    const struct derivation *best = NULL;
    size_t longest = 0;
    for (size_t t = 0; t < DERIVATION_TABLES; t++) {
        for (size_t i = 0; i < derivation_tables[t]->count; i++) {
            const struct derivation *derivation = &derivation_tables[t]->items[i];
            if (!holds_for(derivation, command))
                continue;
            size_t length = longest_fit(path, derivation->keys);
            if (length == 0)
                continue;
            bool own = derivation->commands && (!best || !best->commands);
            bool general = !derivation->commands && best && best->commands;
            if (own || (!general && length > longest)) {
                best = derivation;
                longest = length;
            }
        }
    }
    return best;
}

const struct assumption assumptions[] = {
    {VALUE_MOLAR_VOLUME, N_("Volumes become moles by the molar volumes at 25 degC; volumes add up on mixing.")},
    {VALUE_VAPOUR, N_("The vapour is an ideal gas over a liquid of the stated temperature.")},
    {VALUE_FILM, N_("The film is in equilibrium with much liquid after a long time; a swab is a small dose and seconds "
                    "long.")},
    {USES_ROOM, N_("All that is used evaporates during its task, unless --rate model says otherwise; an extraction arm "
                   "counts only when it was measured.")},
    {USES_ROOM, N_("The room is well mixed beyond a near field round the work that also holds the face.")},
    {USES_LIMITS, N_("Limits of different authorities are never summed; a component without a limit is never counted "
                     "as zero.")},
};
const size_t assumption_count = sizeof assumptions / sizeof assumptions[0];

const struct constant constants[] = {
    {USES_GAS, N_("gas constant R"), GAS_CONSTANT, "J/(mol K)", "CODATA 2018"},
    {USES_GAS, N_("0 degC"), ZERO_CELSIUS_K, "K", N_("definition")},
    {USES_GAS, N_("standard atmosphere"), ATMOSPHERE_KPA, "kPa", N_("definition")},
    {VALUE_FILM, N_("weight alpha of the Hansen distance in chi"), FILM_ALPHA, "",
     "Lindvig, Michelsen & Kontogeorgis, Fluid Phase Equilib. 203 (2002) 247 (from memory)"},
    {VALUE_FILM, N_("entropic part of chi"), FILM_CHI_ENTROPIC, "",
     "Blanks & Prausnitz, Ind. Eng. Chem. Fundam. 3 (1964) 1 (from memory)"},
    {VALUE_FILM, N_("polymer fraction below which a film counts as dissolved"), FILM_POLYMER_LEAST, "",
     N_("own choice")},
    {USES_ROOM, N_("air between near field and room"), NEAR_FLOW_M3_H, "m3/h", N_("common practice")},
    {USES_ROOM, N_("radius of the near field"), NEAR_RADIUS_M, "m", N_("common practice")},
    {USES_ROOM, N_("alarm of flammable vapour, share of the lower limit"), FLAMMABLE_ALARM_SHARE, "",
     "29 CFR 1910.146"},
};
const size_t constant_count = sizeof constants / sizeof constants[0];
