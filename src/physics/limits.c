// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/limits.h"

#include "base/language.h"
#include "base/units.h"

#include <assert.h>
#include <math.h>
#include <string.h>

// --- notations ---

static bool begins_with(const char *text, const char *word) {
    size_t length = strlen(word);
    if (strlen(text) < length)
        return false;
    for (size_t i = 0; i < length; i++) {
        char a = text[i], b = word[i];
        a = a >= 'A' && a <= 'Z' ? (char)(a - 'A' + 'a') : a;
        b = b >= 'A' && b <= 'Z' ? (char)(b - 'A' + 'a') : b;
        if (a != b)
            return false;
    }
    char after = text[length];
    return !((after >= 'a' && after <= 'z') || (after >= 'A' && after <= 'Z'));
}

static const char *find_notation(const struct limit *row, const char *word) {
    for (size_t i = 0; i < row->notations.count; i++)
        if (begins_with(row->notations.items[i], word))
            return row->notations.items[i];
    return NULL;
}

bool limit_has_notation(const struct limit *row, const char *word) {
    return find_notation(row, word) != NULL;
}

// Digits with at most one point, after `at`; NAN when there is no number. Not strtod, which follows the locale.
static double number_in(const char *at) {
    double value = 0, place = 0;
    size_t digits = 0;
    for (; (*at >= '0' && *at <= '9') || (*at == '.' && place == 0); at++) {
        if (*at == '.') {
            place = 1;
            continue;
        }
        value = value * 10 + (*at - '0');
        place *= 10;
        digits++;
    }
    return digits ? value / (place > 0 ? place : 1) : NAN;
}

// The number that follows a notation's words, e.g. "excursion " or "momentary value factor =".
static double number_after(const struct limit *row, const char *words, size_t skip) {
    const char *notation = find_notation(row, words);
    return notation && strlen(notation) > skip ? number_in(notation + skip) : NAN;
}

double limit_excursion_factor(const struct limit *row) {
    return number_after(row, "excursion", strlen("excursion "));
}

static double momentary_factor(const struct limit *row) {
    return number_after(row, "momentary value factor", strlen("momentary value factor ="));
}

// --- one component's set ---

static double molar_mass(const struct component *component) {
    return component->properties ? component->properties->molar_mass.value : NAN;
}

static enum status read_value(const struct authority *authority, const struct component *component,
                              const struct limit *row, struct limit_value *ret, struct error *err) {
    double mass = molar_mass(component), volume = authority->molar_volume.value;
    struct limit_value value = {.row = row,
                                .origin = limit_has_notation(row, "group") ? LIMIT_GROUP : LIMIT_OWN,
                                .kind = (enum limit_kind)row->kind,
                                .period_min = row->period_min,
                                .mg_m3 = row->mg_m3,
                                .ppm = row->ppm};
    if (isnan(value.mg_m3)) {
        if (isnan(value.ppm) || isnan(mass) || isnan(volume))
            return error_set(err, STATUS_NO_DATA, "the limit of '%s' in set %s cannot be put in mg/m3: %s",
                             component->id, authority->id,
                             isnan(mass) ? say("no molar mass") : say("neither mg/m3, nor ppm with a molar volume"));
        value.mg_m3 = mg_m3_from_ppm(value.ppm, mass, volume);
        value.converted = true;
    } else if (isnan(value.ppm)) {
        value.ppm = ppm_from_mg_m3(value.mg_m3, mass, volume);
    }
    *ret = value;
    return STATUS_OK;
}

static void keep_lower(struct limit_value *kept, const struct limit_value *value) {
    if (!kept->row || value->mg_m3 < kept->mg_m3)
        *kept = *value;
}

// Ceilings with the same period are one; should a set ever print more periods than fit, the lowest of the last slot
// stays, which is the stricter reading.
static void keep_ceiling(struct limit_set *set, const struct limit_value *value) {
    for (size_t i = 0; i < set->ceiling_count; i++) {
        if (set->ceilings[i].period_min == value->period_min) {
            keep_lower(&set->ceilings[i], value);
            return;
        }
    }
    if (set->ceiling_count < LIMIT_CEILINGS_MAX)
        set->ceilings[set->ceiling_count++] = *value;
    else
        keep_lower(&set->ceilings[LIMIT_CEILINGS_MAX - 1], value);
}

static void keep_value(struct limit_set *set, const struct limit_value *value) {
    switch (value->kind) {
    case LIMIT_TWA_8H:
    case LIMIT_TWA_10H:
        keep_lower(&set->long_term, value);
        return;
    case LIMIT_STEL_15MIN:
        keep_lower(&set->short_term, value);
        return;
    case LIMIT_CEILING:
        keep_ceiling(set, value);
        return;
    case LIMIT_IDLH:
        keep_lower(&set->idlh, value);
        return;
    }
    assert(false && "a kind that limit_kind does not name");
}

static struct limit_value multiplied(const struct limit_value *long_term, double factor, enum limit_origin origin,
                                     enum limit_kind kind) {
    struct limit_value value = *long_term;
    value.origin = origin;
    value.kind = kind;
    value.mg_m3 *= factor;
    value.ppm *= factor;
    return value;
}

static void add_excursions(struct limit_set *set) {
    if (!set->long_term.row)
        return;
    double factor = limit_excursion_factor(set->long_term.row);
    if (!set->short_term.row && factor > 0)
        set->short_term = multiplied(&set->long_term, factor, LIMIT_EXCURSION, LIMIT_STEL_15MIN);
    double momentary = momentary_factor(set->long_term.row);
    if (momentary > 0) {
        struct limit_value ceiling = multiplied(&set->long_term, momentary, LIMIT_EXCURSION, LIMIT_CEILING);
        keep_ceiling(set, &ceiling);
    }
}

// EH40: where no short-term limit is listed, a figure of three times the long-term limit should be used (from memory).
// A limit in its own set, guidance beside the others.
static void add_guide(struct limit_set *set) {
    const double guide_factor = 3;
    if (!set->long_term.row || set->short_term.row || set->ceiling_count)
        return;
    set->guide = multiplied(&set->long_term, guide_factor, LIMIT_GUIDE, LIMIT_STEL_15MIN);
    if (strcmp(set->authority->id, "uk") == 0)
        set->short_term = set->guide;
}

enum status limit_set_of(const struct library *lib, const struct authority *authority,
                         const struct component *component, struct limit_set *ret, struct error *err) {
    struct limit_set set = {.authority = authority};
    for (size_t i = 0; i < lib->limit_count; i++) {
        const struct limit *row = &lib->limits[i];
        if (strcmp(row->component, component->id) != 0 || strcmp(row->authority, authority->id) != 0)
            continue;
        struct limit_value value = {0};
        enum status status = read_value(authority, component, row, &value, err);
        if (status != STATUS_OK)
            return status;
        keep_value(&set, &value);
    }
    add_excursions(&set);
    add_guide(&set);
    *ret = set;
    return STATUS_OK;
}

bool limit_set_known(const struct limit_set *set) {
    return limit_set_for_mean(set) != NULL;
}

const struct limit_value *limit_set_for_mean(const struct limit_set *set) {
    if (set->long_term.row)
        return &set->long_term;
    if (set->short_term.row)
        return &set->short_term;
    const struct limit_value *lowest = NULL;
    for (size_t i = 0; i < set->ceiling_count; i++)
        if (!lowest || set->ceilings[i].mg_m3 < lowest->mg_m3)
            lowest = &set->ceilings[i];
    return lowest;
}

bool component_needs_no_limit(const struct component *component) {
    return component->family == FAMILY_WATER;
}

// --- sums ---

double mean_over_time(const double *concentrations, const double *times, size_t count, double base) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += concentrations[i] * times[i];
    return sum / base;
}

double additive_index(const double *concentrations, const double *limits, size_t count) {
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += concentrations[i] / limits[i];
    return sum;
}

double reciprocal_limit(const double *mass_fractions, const double *limits_mg_m3, size_t count) {
    return 1 / additive_index(mass_fractions, limits_mg_m3, count);
}

// Rounding in steps: `step` counts up to `below`.
struct rounding {
    double below;
    double step;
};

static double round_in_steps(double limit_mg_m3, const struct rounding *rules) {
    while (limit_mg_m3 > rules->below)
        rules++;
    double rounded = round(limit_mg_m3 / rules->step) * rules->step;
    return rounded > 0 ? rounded : limit_mg_m3;
}

double round_as_eh40(double limit_mg_m3) {
    static const struct rounding rules[] = {{100, 25}, {600, 50}, {INFINITY, 200}};
    return round_in_steps(limit_mg_m3, rules);
}

double round_as_trgs900(double limit_mg_m3) {
    static const struct rounding rules[] = {{25, 10}, {100, 25}, {INFINITY, 50}};
    return round_in_steps(limit_mg_m3, rules);
}

// The authorities that publish a reciprocal procedure for hydrocarbon solvents.
struct reciprocal_procedure {
    const char *authority;
    double (*rounded)(double limit_mg_m3);
    const char *outside[3]; // hydrocarbons that the procedure leaves out
};

static const struct reciprocal_procedure *find_procedure(const char *authority) {
    static const struct reciprocal_procedure procedures[] = {
        {"uk", round_as_eh40, {NULL}},
        {"de", round_as_trgs900, {"n-hexane", "decalin", NULL}},
    };
    for (size_t i = 0; i < sizeof procedures / sizeof *procedures; i++)
        if (strcmp(procedures[i].authority, authority) == 0)
            return &procedures[i];
    return NULL;
}

static bool enters(const struct reciprocal_procedure *procedure, const struct component *component) {
    for (const char *const *outside = procedure->outside; *outside; outside++)
        if (strcmp(*outside, component->id) == 0)
            return false;
    switch (component->family) {
    case FAMILY_ALKANE:
    case FAMILY_CYCLOALKANE:
    case FAMILY_PETROLEUM_CUT:
    case FAMILY_AROMATIC:
        return true;
    default:
        return false;
    }
}

double hydrocarbon_limit(const struct authority *authority, const struct component *const *components,
                         const struct limit_set *sets, const double *released_mg, size_t count, size_t *ret_count) {
    *ret_count = 0;
    const struct reciprocal_procedure *procedure = find_procedure(authority->id);
    double released = 0, parts = 0;
    for (size_t i = 0; procedure && i < count; i++) {
        if (!enters(procedure, components[i]) || !(released_mg[i] > 0))
            continue;
        released += released_mg[i];
        parts += sets[i].long_term.row ? released_mg[i] / sets[i].long_term.mg_m3 : NAN;
        (*ret_count)++;
    }
    return *ret_count >= 2 && !isnan(parts) ? procedure->rounded(released / parts) : NAN;
}

double long_shift_factor(double hours) {
    assert(hours > 0 && hours < 24);
    return fmin(1, 8 / hours * (24 - hours) / 16);
}

double limit_base_h(enum limit_kind kind, double shift_h) {
    return kind == LIMIT_TWA_10H ? fmin(fmax(shift_h, 8), 10) : 8;
}

// --- EN 689 ---

enum compliance preliminary_test(const double *shares_of_limit, size_t count) {
    double highest = 0;
    for (size_t i = 0; i < count; i++)
        highest = fmax(highest, shares_of_limit[i]);
    if (highest > 1)
        return COMPLIANCE_NO;
    // From memory: EN 689:2018+AC:2019, 5.5.2.
    if ((count >= 3 && highest < 0.10) || (count >= 4 && highest < 0.15) || (count >= 5 && highest < 0.20))
        return COMPLIANCE_YES;
    return COMPLIANCE_UNDECIDED;
}
