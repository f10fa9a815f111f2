// SPDX-License-Identifier: GPL-3.0-or-later
// Health hazards by the mixture rules (Annex I part 3; App. A).
#include "base/language.h"
#include "base/print_words.h"
#include "physics/classification_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// Generic cut-off values, Annex I table 1.1 (HCS: table A.1 of the classes): below them a component does not count.
static const double cut_off_grave = 0.1;  // acute toxicity categories 1 to 3
static const double cut_off_lesser = 1.0; // category 4, skin, eye

// --- acute toxicity ---

struct route {
    enum hazard_class class;
    const char *unit;
    double point_estimates[5]; // by category
    double ends[5];            // a mixture up to this estimate is in the category
    const char *codes[5];
};

// Annex I tables 3.1.1 and 3.1.2; HCS tables A.1.1 and A.1.2. Inhalation as vapour.
static const struct route routes[] = {
    {CLASS_ACUTE_ORAL, "mg/kg", {0, 0.5, 5, 100, 500}, {0, 5, 50, 300, 2000}, {"", "H300", "H300", "H301", "H302"}},
    {CLASS_ACUTE_DERMAL,
     "mg/kg",
     {0, 5, 50, 300, 1100},
     {0, 50, 200, 1000, 2000},
     {"", "H310", "H310", "H311", "H312"}},
    {CLASS_ACUTE_INHALATION, "mg/L", {0, 0.05, 0.5, 3, 11}, {0, 0.5, 2, 10, 20}, {"", "H330", "H330", "H331", "H332"}},
};
static const size_t route_count = sizeof routes / sizeof routes[0];

double acute_point_estimate(enum hazard_class route, int category) {
    for (size_t i = 0; i < route_count; i++)
        if (routes[i].class == route && category >= 1 && category <= 4)
            return routes[i].point_estimates[category];
    return NAN;
}

static int acute_category(const struct mixing *mix, size_t i, enum hazard_class class) {
    for (int category = 1; category <= 4; category++)
        if (component_code(mix, i, class, category))
            return category;
    return 0;
}

static double entered_estimate(const struct hazard *hazard, enum hazard_class class) {
    switch (class) {
    case CLASS_ACUTE_ORAL:
        return hazard->acute_estimates.oral_mg_kg;
    case CLASS_ACUTE_DERMAL:
        return hazard->acute_estimates.dermal_mg_kg;
    default:
        return hazard->acute_estimates.vapour_mg_l;
    }
}

// NAN for a component that is not classified by this route: presumed not acutely toxic (3.1.3.6.1 b).
static double estimate_of(const struct mixing *mix, size_t i, enum hazard_class class) {
    int category = acute_category(mix, i, class);
    if (category == 0 || !reaches(percent_of(mix, i), category == 4 ? cut_off_lesser : cut_off_grave))
        return NAN;
    double entered = entered_estimate(mix->input->components[i]->hazard, class);
    return isnan(entered) ? acute_point_estimate(class, category) : entered;
}

// 3.1.3.6.1 and 3.1.3.6.2.3 (HCS A.1.3.6): 100 / ATEmix = sum(C_i / ATE_i); where more than 10 % are of unknown
// toxicity, 100 less their share stands in place of 100.
static void classify_route(struct mixing *mix, const struct route *route) {
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++) {
        double estimate = estimate_of(mix, i, route->class);
        if (!isnan(estimate))
            tally_add(&tally, i, percent_of(mix, i) / estimate);
        if (!isnan(estimate) && acute_category(mix, i, route->class) == 1)
            add_note(mix, "%s: %s is category 1 or 2; 1 is assumed.", mix->input->components[i]->id, route->codes[1]);
    }
    if (tally.sum <= 0)
        return;
    double known = mix->ret->unknown_percent > 10 ? 100 - mix->ret->unknown_percent : 100;
    for (int category = 1; category <= 4; category++) {
        if (!reaches(tally.sum * route->ends[category], known))
            continue;
        add_statement(mix, route->codes[category], tally.from, "%s: ATE of the mixture %.*f %s, at most %g (%s)",
                      names_of(mix, tally.from), known / tally.sum < 100 ? 1 : 0, known / tally.sum, route->unit,
                      route->ends[category], is_us(mix) ? "HCS A.1.3.6.1, table A.1.1" : "CLP 3.1.3.6.1, table 3.1.1");
        return;
    }
}

void classify_acute(struct mixing *mix) {
    for (size_t i = 0; i < route_count; i++)
        classify_route(mix, &routes[i]);
}

// --- skin and eye ---

// By additivity each component counts with its share of the limit from which it alone would give the category, which
// for the generic limits is the same as tables 3.2.3 and 3.3.3: 5 % and 1 % of a corrosive, 10 % of an irritant; 3 %
// and 1 %, 10 % for the eye. Specific limits enter the same way (ECHA, Guidance on the Application of the CLP
// Criteria, 1.6.3.4).
struct contact_limits {
    double grave;  // percent from which the component gives category 1; NAN = never
    double lesser; // ... category 2; NAN = never
};

// "Acids and bases" of 3.2.3.3.4 and 3.3.3.3.4 (HCS A.2.4.3.4, A.3.4.3.4).
static bool beyond_additivity(const struct component *component) {
    return component->family == FAMILY_ACID || component->family == FAMILY_AMINE;
}

static double or_else(double entered, double generic) {
    return isnan(entered) ? generic : entered;
}

static struct contact_limits skin_limits(const struct mixing *mix, size_t i) {
    bool alone = beyond_additivity(mix->input->components[i]);
    double grave = specific_from(mix, i, "H314"), lesser = specific_from(mix, i, "H315");
    if (component_code(mix, i, CLASS_SKIN, 1))
        return (struct contact_limits){or_else(grave, alone ? 1 : 5), or_else(lesser, or_else(grave, 1))};
    if (component_code(mix, i, CLASS_SKIN, 2))
        return (struct contact_limits){grave, or_else(lesser, alone ? 3 : 10)};
    return (struct contact_limits){grave, lesser};
}

static struct contact_limits eye_limits(const struct mixing *mix, size_t i) {
    bool alone = beyond_additivity(mix->input->components[i]);
    double grave = or_else(specific_from(mix, i, "H318"), specific_from(mix, i, "H314"));
    double lesser = specific_from(mix, i, "H319");
    if (component_code(mix, i, CLASS_SKIN, 1) || component_code(mix, i, CLASS_EYE, 1))
        return (struct contact_limits){or_else(grave, alone ? 1 : 3), or_else(lesser, or_else(grave, 1))};
    if (component_code(mix, i, CLASS_EYE, 2))
        return (struct contact_limits){grave, or_else(lesser, alone ? 3 : 10)};
    return (struct contact_limits){grave, lesser};
}

struct contact {
    const char *grave_code, *lesser_code;
    const char *section_eu, *section_us;
    struct contact_limits (*limits)(const struct mixing *mix, size_t i);
};

// Below 1 % a component counts only where a specific limit is lower (3.2.3.3.1).
static void tally_share(const struct mixing *mix, size_t i, double limit, struct tally *tally) {
    if (!isnan(limit) && reaches(percent_of(mix, i), fmin(limit, cut_off_lesser)))
        tally_add(tally, i, percent_of(mix, i) / limit);
}

static void classify_contact(struct mixing *mix, const struct contact *contact) {
    struct tally grave = {0}, lesser = {0};
    for (size_t i = 0; i < mix->input->count; i++) {
        struct contact_limits limits = contact->limits(mix, i);
        tally_share(mix, i, limits.grave, &grave);
        tally_share(mix, i, limits.lesser, &lesser);
    }
    bool is_grave = reaches(grave.sum, 1);
    const struct tally *tally = is_grave ? &grave : &lesser;
    if (reaches(tally->sum, 1))
        add_statement(mix, is_grave ? contact->grave_code : contact->lesser_code, tally->from,
                      "%s: shares of their limits add up to %.2f, at least 1 (%s)", names_of(mix, tally->from),
                      tally->sum, is_us(mix) ? contact->section_us : contact->section_eu);
}

// Category 2B, which only HCS has: from 10 % in all (table A.3.3).
static void classify_eye_2b(struct mixing *mix) {
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (component_code(mix, i, CLASS_EYE, 3) && reaches(percent_of(mix, i), cut_off_lesser))
            tally_add(&tally, i, percent_of(mix, i));
    if (is_us(mix) && reaches(tally.sum, 10) && !classification_has(mix->ret, "H318") &&
        !classification_has(mix->ret, "H319"))
        add_statement(mix, "H320", tally.from, "%s: %.3g %% in all, at least 10 %% (HCS A.3.4.3, table A.3.3)",
                      names_of(mix, tally.from), tally.sum);
}

void classify_skin_and_eye(struct mixing *mix) {
    static const struct contact skin = {"H314", "H315", "CLP 3.2.3.3, tables 3.2.3 and 3.2.4",
                                        "HCS A.2.4.3, tables A.2.3 and A.2.4", skin_limits};
    static const struct contact eye = {"H318", "H319", "CLP 3.3.3.3, tables 3.3.3 and 3.3.4",
                                       "HCS A.3.4.3, tables A.3.3 and A.3.4", eye_limits};
    classify_contact(mix, &skin);
    classify_contact(mix, &eye);
    classify_eye_2b(mix);
}

// --- classes in which each component is held against a limit alone ---

struct single_rule {
    enum hazard_class class;
    int category;        // of the component
    const char *code;    // of the mixture
    double eu, us;       // percent; NAN = no such rule
    double sub_a, sub_b; // sensitisers of subcategories 1A, 1B; NAN = as above
    const char *section_eu, *section_us;
};

#define NO_SUBCATEGORY NAN, NAN
static const struct single_rule single_rules[] = {
    {CLASS_RESPIRATORY_SENSITISER, 1, "H334", 1, 0.1, 0.1, 1, "CLP 3.4.3.3, table 3.4.5", "HCS A.4.3, table A.4.5"},
    {CLASS_SKIN_SENSITISER, 1, "H317", 1, 0.1, 0.1, 1, "CLP 3.4.3.3, table 3.4.5", "HCS A.4.3, table A.4.5"},
    {CLASS_MUTAGEN, 1, "H340", 0.1, 0.1, NO_SUBCATEGORY, "CLP 3.5.3.1, table 3.5.2", "HCS A.5.3, table A.5.1"},
    {CLASS_MUTAGEN, 2, "H341", 1, 1, NO_SUBCATEGORY, "CLP 3.5.3.1, table 3.5.2", "HCS A.5.3, table A.5.1"},
    {CLASS_CARCINOGEN, 1, "H350", 0.1, 0.1, NO_SUBCATEGORY, "CLP 3.6.3.1, table 3.6.2", "HCS A.6.3, table A.6.1"},
    {CLASS_CARCINOGEN, 2, "H351", 1, 0.1, NO_SUBCATEGORY, "CLP 3.6.3.1, table 3.6.2", "HCS A.6.3, table A.6.1"},
    {CLASS_LACTATION, 1, "H362", 0.3, 0.1, NO_SUBCATEGORY, "CLP 3.7.3.1, table 3.7.2", "HCS A.7.3, table A.7.1"},
    {CLASS_SINGLE_EXPOSURE, 1, "H370", 10, 1, NO_SUBCATEGORY, "CLP 3.8.3.4, table 3.8.3", "HCS A.8.3.4, table A.8.2"},
    {CLASS_SINGLE_EXPOSURE, 1, "H371", 1, NAN, NO_SUBCATEGORY, "CLP 3.8.3.4, table 3.8.3", ""},
    {CLASS_SINGLE_EXPOSURE, 2, "H371", 10, 1, NO_SUBCATEGORY, "CLP 3.8.3.4, table 3.8.3", "HCS A.8.3.4, table A.8.2"},
    {CLASS_REPEATED_EXPOSURE, 1, "H372", 10, 1, NO_SUBCATEGORY, "CLP 3.9.3.4, table 3.9.4", "HCS A.9.3.4"},
    {CLASS_REPEATED_EXPOSURE, 1, "H373", 1, NAN, NO_SUBCATEGORY, "CLP 3.9.3.4, table 3.9.4", ""},
    {CLASS_REPEATED_EXPOSURE, 2, "H373", 10, 1, NO_SUBCATEGORY, "CLP 3.9.3.4, table 3.9.4", "HCS A.9.3.4"},
    {CLASS_OZONE, 1, "H420", 0.1, NAN, NO_SUBCATEGORY, "CLP 5.1.3.1, table 5.1", ""},
};

static double single_limit(const struct mixing *mix, size_t i, const struct single_rule *rule) {
    double plain = is_us(mix) ? rule->us : rule->eu;
    switch (mix->input->components[i]->hazard->sensitiser_category) {
    case SENSITISER_1A:
        return or_else(rule->sub_a, plain);
    case SENSITISER_1B:
        return or_else(rule->sub_b, plain);
    default:
        return plain;
    }
}

// Specific limits of a class take the place of its generic ones for that component.
static bool gives(const struct mixing *mix, size_t i, const struct single_rule *rule, double *ret_limit) {
    const char *code = component_code(mix, i, rule->class, rule->category);
    if (!code || isnan(is_us(mix) ? rule->us : rule->eu))
        return false;
    bool specific;
    const char *reached = specific_code(mix, i, rule->class, &specific);
    if (specific) {
        *ret_limit = specific_from(mix, i, rule->code);
        return reached && strcmp(reached, rule->code) == 0;
    }
    *ret_limit = single_limit(mix, i, rule);
    return reaches(percent_of(mix, i), *ret_limit);
}

// A graver category of the class was given already.
static bool graver_given(const struct mixing *mix, const struct single_rule *rule) {
    const struct hazard_code *mine = hazard_code_find(rule->code);
    for (size_t k = 0; k < mix->ret->count; k++) {
        const struct hazard_code *kind = mix->ret->statements[k].kind;
        if (kind && kind->class == rule->class && kind->category <= mine->category)
            return true;
    }
    return false;
}

// All rules that give the code of rule `first`; they stand together in the list.
static void apply_rules_of_code(struct mixing *mix, const struct single_rule *first, size_t count) {
    struct tally tally = {0};
    double lowest = INFINITY;
    for (size_t k = 0; k < count; k++)
        for (size_t i = 0; i < mix->input->count; i++) {
            double limit = NAN;
            if (!gives(mix, i, &first[k], &limit))
                continue;
            tally_add(&tally, i, percent_of(mix, i));
            lowest = fmin(lowest, limit);
        }
    if (!tally.from || graver_given(mix, first))
        return;
    const char *section = is_us(mix) ? first[count - 1].section_us : first->section_eu;
    add_statement(mix, first->code, tally.from, "%s: a single component from %g %% (%s)", names_of(mix, tally.from),
                  lowest, section);
    if (is_us(mix) && strcmp(first->code, "H351") == 0)
        add_note(mix, "H351: between 0.1 and 1 %% HCS asks for it on the data sheet, the label warning is optional.");
}

void classify_single_components(struct mixing *mix) {
    size_t all = sizeof single_rules / sizeof single_rules[0];
    for (size_t i = 0, count; i < all; i += count) {
        for (count = 1; i + count < all && strcmp(single_rules[i].code, single_rules[i + count].code) == 0;)
            count++;
        apply_rules_of_code(mix, &single_rules[i], count);
    }
}

// --- reproductive toxicity ---

// Letters behind H360 and H361: capitals known or presumed, small ones suspected; none: either may be meant.
struct reproduction {
    int fertility, development, either; // 0 none, 1 suspected, 2 known or presumed
};

static void raise(int *level, int to) {
    *level = *level > to ? *level : to;
}

static void reproduction_add(struct reproduction *all, const char *code) {
    int level = strncmp(code, "H360", 4) == 0 ? 2 : 1;
    const char *letters = code + 4;
    if (!*letters)
        raise(&all->either, level);
    for (; *letters; letters++) {
        bool fertility = *letters == 'F' || *letters == 'f';
        raise(fertility ? &all->fertility : &all->development, *letters >= 'a' ? 1 : 2);
    }
}

// One code for all: the letters of every component joined; an unlettered code of the gravest level stays unlettered.
static void reproduction_code(const struct reproduction *all, char ret[CODE_SIZE]) {
    int top = all->either;
    raise(&top, all->fertility);
    raise(&top, all->development);
    strcpy(ret, top == 2 ? "H360" : "H361");
    if (all->either == top)
        return;
    int fertility = all->fertility, development = all->development;
    raise(&fertility, all->either);
    raise(&development, all->either);
    // The order of the published combinations: FD, Fd, Df, fd.
    bool development_first = development > fertility;
    const char *letters[3] = {"", "f", "F"}, *letters_d[3] = {"", "d", "D"};
    strcat(ret, development_first ? letters_d[development] : letters[fertility]);
    strcat(ret, development_first ? letters[fertility] : letters_d[development]);
}

void classify_reproduction(struct mixing *mix) {
    struct reproduction all = {0};
    struct tally tally = {0};
    double lowest = INFINITY;
    for (size_t i = 0; i < mix->input->count; i++)
        for (int category = 1; category <= 2; category++) {
            const char *code = component_code(mix, i, CLASS_REPRODUCTIVE, category);
            double generic = is_us(mix) ? 0.1 : category == 1 ? 0.3 : 3;
            double limit = code ? or_else(specific_from(mix, i, code), generic) : NAN;
            if (!reaches(percent_of(mix, i), limit))
                continue;
            lowest = fmin(lowest, limit);
            reproduction_add(&all, code);
            tally_add(&tally, i, percent_of(mix, i));
        }
    if (!tally.from)
        return;
    char code[CODE_SIZE];
    reproduction_code(&all, code);
    add_statement(mix, code, tally.from, "%s: a single component from %g %% (%s)", names_of(mix, tally.from), lowest,
                  is_us(mix) ? "HCS A.7.3, table A.7.1" : "CLP 3.7.3.1, table 3.7.2");
}

// --- category 3 of single exposure ---

// 3.8.3.4.5 (HCS A.8.3.4.5): 20 % as a guide; additive within irritation of the airways and within narcosis, not
// between.
static void classify_effect(struct mixing *mix, enum hazard_class class, const char *code) {
    static const double guide = 20;
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (component_code(mix, i, class, 3))
            tally_share(mix, i, or_else(specific_from(mix, i, code), guide), &tally);
    if (reaches(tally.sum, 1))
        add_statement(mix, code, tally.from,
                      "%s: shares of their limits (%g %% as a guide) add up to %.2f, at least 1 (%s)",
                      names_of(mix, tally.from), guide, tally.sum, is_us(mix) ? "HCS A.8.3.4.5" : "CLP 3.8.3.4.5");
}

void classify_category_3(struct mixing *mix) {
    classify_effect(mix, CLASS_AIRWAY_IRRITATION, "H335");
    classify_effect(mix, CLASS_NARCOSIS, "H336");
}

// --- aspiration ---

// 3.10.3.3.1 (HCS A.10.3.3.1): 10 % and a kinematic viscosity of at most 20.5 mm2/s at 40 degC.
void classify_aspiration(struct mixing *mix) {
    static const double least_percent = 10, most_mm2_s = 20.5;
    double viscosity = mix->input->viscosity_40c_mm2_s;
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (component_code(mix, i, CLASS_ASPIRATION, 1))
            tally_share(mix, i, cut_off_lesser, &tally);
    if (!reaches(tally.sum * cut_off_lesser, least_percent))
        return;
    if (viscosity > most_mm2_s) {
        add_note(mix, "H304 does not apply: %s at 40 degC is above %g mm2/s.", say("the stated viscosity"), most_mm2_s);
        return;
    }
    char seen[128];
    if (isnan(viscosity))
        snprintf(seen, sizeof seen, "%s", say("the viscosity at 40 degC is not known, so H304 stands"));
    else
        print_words(seen, sizeof seen, "%g mm2/s at 40 degC, at most 20.5", viscosity);
    add_statement(mix, "H304", tally.from, "%s: %.3g %% in all, at least 10 %%; %s (%s)", names_of(mix, tally.from),
                  tally.sum * cut_off_lesser, seen, is_us(mix) ? "HCS A.10.3.3.1" : "CLP 3.10.3.3.1");
}
