// SPDX-License-Identifier: GPL-3.0-or-later
// Plain findings from a drying path. The rules are in the header; every number of them stands here once.
#include "base/language.h"
#include "base/print_words.h"
#include "physics/evaporation.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static const double polar_strong = 10; // MPa^0.5
static const double polar_change = 2;  // MPa^0.5, twice the usual doubt of one Hansen part
static const double rate_slow = 0.3, rate_fast = 3;
static const double share_main = 0.5;      // of the tail, by moles
static const double share_gone = 0.01;     // of what is left, by moles
static const double share_counts = 0.02;   // of the blend, by volume
static const double share_constant = 0.05; // change of a mole fraction
static const double lost_with = 1.0 / 3.0; // of the companion, while the strong one leaves

const char *evaporation_finding_word(enum evaporation_finding kind) {
    static const char *const words[] = {"one-component",   "constant",    "tail",   "weaker",    "stronger",
                                        "stronger-midway", "strong-gone", "splits", "may-split", "long-tail"};
    return words[kind];
}

// sqrt(dP^2 + dH^2), MPa^0.5: what the findings call strength.
static double polar_part(struct hansen hansen) {
    return sqrt(hansen.delta_p * hansen.delta_p + hansen.delta_h * hansen.delta_h);
}

// Water is no solvent of resins, whatever its place.
static bool is_strong(const struct component *component) {
    return component->family != FAMILY_WATER && polar_part(hansen_of_component(component)) >= polar_strong;
}

static struct finding *add(struct evaporation *evaporation, enum evaporation_finding kind,
                           const struct component *component, double from, double to, const char *format, ...)
    __attribute__((format(printf, 6, 7)));
static struct finding *add(struct evaporation *evaporation, enum evaporation_finding kind,
                           const struct component *component, double from, double to, const char *format, ...) {
    if (evaporation->finding_count == EVAPORATION_FINDINGS_MAX)
        return NULL;
    struct finding *finding = &evaporation->findings[evaporation->finding_count++];
    *finding = (struct finding){.kind = kind, .component = component, .from = from, .to = to};
    va_list arguments;
    va_start(arguments, format);
    vprint_words(finding->sentence, sizeof finding->sentence, format, arguments);
    va_end(arguments);
    return finding;
}

static const struct evaporation_point *start_of(const struct evaporation *evaporation) {
    return &evaporation->points[0];
}

static const struct evaporation_point *tail_of(const struct evaporation *evaporation) {
    return &evaporation->points[EVAPORATION_TAIL];
}

static size_t largest_in_tail(const struct evaporation *evaporation) {
    size_t largest = 0;
    for (size_t i = 1; i < evaporation->blend.count; i++)
        if (evaporation->tail[i] > evaporation->tail[largest])
            largest = i;
    return largest;
}

// --- the tail ---

static const char *kind_of_tail(const struct library *lib, const struct component *component, double temp_c) {
    double rate = NAN;
    if (evaporation_rate(lib, component, temp_c, &rate, NULL) != STATUS_OK)
        rate = NAN;
    bool strong = is_strong(component);
    if (rate < rate_slow)
        return strong ? say(": a slow, strong tail") : say(": a slow tail");
    if (rate > rate_fast)
        return strong ? say(": a strong tail that leaves fast") : say(": a tail that leaves fast");
    return strong ? say(": a strong tail") : "";
}

static void find_tail(const struct library *lib, struct evaporation *evaporation) {
    size_t largest = largest_in_tail(evaporation);
    const struct component *component = evaporation->blend.components[largest];
    double share = evaporation->tail[largest];
    if (share < share_main)
        return;
    double shown = share < 0.995 ? 100 * share : floor(100 * share); // 100 only where nothing else is left
    add(evaporation, FINDING_TAIL, component, start_of(evaporation)->x[largest], share,
        "ends as %.0f %% %s (moles of the last 5 %%)%s", shown, component->id,
        kind_of_tail(lib, component, evaporation->temp_c));
}

static void find_long_tail(struct evaporation *evaporation) {
    if (evaporation->count < EVAPORATION_POINTS)
        return;
    double last = evaporation->points[EVAPORATION_POINTS - 1].time - evaporation->time_90;
    if (last < evaporation->time_90)
        return;
    add(evaporation, FINDING_LONG_TAIL, evaporation->blend.components[largest_in_tail(evaporation)],
        evaporation->time_90, last, "the last tenth takes %.3g times as long as the first nine tenths",
        last / evaporation->time_90);
}

// --- strength ---

static void find_strength(struct evaporation *evaporation) {
    double from = polar_part(start_of(evaporation)->hansen);
    double to = polar_part(tail_of(evaporation)->hansen);
    double most = from, where = 0;
    for (size_t i = 0; i <= EVAPORATION_TAIL; i++) {
        double here = polar_part(evaporation->points[i].hansen);
        if (here > most) {
            most = here;
            where = evaporation->points[i].evaporated;
        }
    }
    if (from - to >= polar_change && to < polar_strong)
        add(evaporation, FINDING_WEAKER, NULL, from, to,
            "gets weaker as it dries: polar and hydrogen bonding part of the mean together %.1f at the start, %.1f "
            "MPa^0.5 in the last 5 %%",
            from, to);
    if (to - from >= polar_change)
        add(evaporation, FINDING_STRONGER, NULL, from, to,
            "gets stronger as it dries: polar and hydrogen bonding part of the mean together %.1f at the start, %.1f "
            "MPa^0.5 in the last 5 %%",
            from, to);
    if (most - fmax(from, to) >= polar_change)
        add(evaporation, FINDING_STRONGER_MIDWAY, NULL, fmax(from, to), most,
            "is strongest on the way: polar and hydrogen bonding part of the mean together %.1f MPa^0.5 when %.0f %% "
            "has evaporated",
            most, 100 * where);
}

static bool strong_in_tail(const struct evaporation *evaporation) {
    for (size_t i = 0; i < evaporation->blend.count; i++)
        if (evaporation->tail[i] >= share_gone && is_strong(evaporation->blend.components[i]))
            return true;
    return false;
}

static bool is_hydrocarbon(const struct component *component) {
    return component->family == FAMILY_ALKANE || component->family == FAMILY_CYCLOALKANE ||
           component->family == FAMILY_PETROLEUM_CUT || component->family == FAMILY_AROMATIC ||
           component->family == FAMILY_TERPENE;
}

static void find_gone(struct evaporation *evaporation, size_t i) {
    const struct component *component = evaporation->blend.components[i];
    size_t at = 0;
    while (at < evaporation->count && evaporation->points[at].x[i] >= share_gone)
        at++;
    if (at >= evaporation->count || start_of(evaporation)->phi[i] < share_counts || !is_strong(component))
        return;
    size_t companion = largest_in_tail(evaporation);
    const struct component *other = evaporation->blend.components[companion];
    const char *what = is_hydrocarbon(other) ? say("the hydrocarbon") : other->id;
    double evaporated = evaporation->points[at].evaporated;
    double lost = 1 - (1 - evaporated) * evaporation->points[at].x[companion] / start_of(evaporation)->x[companion];
    if (lost >= lost_with)
        add(evaporation, FINDING_STRONG_GONE, component, start_of(evaporation)->x[i], evaporated,
            "%s leaves with %s; nothing strong remains once %.0f %% has evaporated", component->id, what,
            100 * evaporated);
    else
        add(evaporation, FINDING_STRONG_GONE, component, start_of(evaporation)->x[i], evaporated,
            "%s leaves before %s; nothing strong remains once %.0f %% has evaporated", component->id, what,
            100 * evaporated);
}

// --- the liquid ---

// The first and last point of a verdict; false when it doesn't occur.
static bool find_verdict(const struct evaporation *evaporation, enum phase_verdict verdict, double *ret_from,
                         double *ret_to) {
    bool found = false;
    for (size_t i = 0; i < evaporation->count; i++) {
        if (evaporation->points[i].verdict != verdict)
            continue;
        if (!found)
            *ret_from = evaporation->points[i].evaporated;
        *ret_to = evaporation->points[i].evaporated;
        found = true;
    }
    return found;
}

static void find_split(struct evaporation *evaporation) {
    double from = 0, to = 0;
    bool two = find_verdict(evaporation, PHASE_TWO, &from, &to);
    if (!two && !find_verdict(evaporation, PHASE_MAY_SEPARATE, &from, &to))
        return;
    const char *what = two ? say("separates in two") : say("may separate in two");
    enum evaporation_finding kind = two ? FINDING_SPLITS : FINDING_MAY_SPLIT;
    if (from == to)
        add(evaporation, kind, NULL, from, to, "%s when about %.3g %% has evaporated", what, 100 * from);
    else
        add(evaporation, kind, NULL, from, to, "%s between %.3g and %.3g %% evaporated", what, 100 * from, 100 * to);
}

static bool is_constant(const struct evaporation *evaporation) {
    for (size_t point = 0; point <= EVAPORATION_TAIL; point++)
        for (size_t i = 0; i < evaporation->blend.count; i++)
            if (fabs(evaporation->points[point].x[i] - start_of(evaporation)->x[i]) > share_constant)
                return false;
    return true;
}

void evaporation_find(const struct library *lib, struct evaporation *evaporation) {
    evaporation->finding_count = 0;
    if (evaporation->blend.count == 1) {
        add(evaporation, FINDING_ONE_COMPONENT, evaporation->blend.components[0], 1, 1,
            "one component: it stays what it is to the end");
        return;
    }
    find_split(evaporation);
    if (evaporation->count <= EVAPORATION_TAIL)
        return;
    if (is_constant(evaporation))
        add(evaporation, FINDING_CONSTANT, NULL, 0, 0,
            "dries almost unchanged: no share moves by more than 5 %% of the moles");
    find_tail(lib, evaporation);
    find_strength(evaporation);
    for (size_t i = 0; i < evaporation->blend.count && !strong_in_tail(evaporation); i++)
        find_gone(evaporation, i);
    find_long_tail(evaporation);
}
