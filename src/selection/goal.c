// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/goal.h"

#include "base/language.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *const hazard_class_words[] = {"carcinogen",      "mutagen",       "reproductive", "sensitiser",
                                          "peroxide-former", "skin-absorbed", "restricted",   "toxic",
                                          "corrosive",       "aromatic",      "chlorinated",  NULL};

int hazard_class_named(const char *name) {
    for (int i = 0; hazard_class_words[i]; i++)
        if (name_compare(hazard_class_words[i], name) == 0)
            return i;
    return -1;
}

static bool has_statement(const struct hazard *hazard, const char *code) {
    for (size_t i = 0; i < hazard->h_statements.count; i++)
        if (strncmp(hazard->h_statements.items[i], code, strlen(code)) == 0)
            return true;
    return false;
}

static bool is_toxic(const struct hazard *hazard) {
    static const char *const codes[] = {"H300", "H301", "H310", "H311", "H330", "H331", "H370", "H372"};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++)
        if (has_statement(hazard, codes[i]))
            return true;
    return false;
}

static bool says_yes(const char *words) {
    return words && strncmp(words, "no", 2) != 0;
}

bool component_in_class(const struct component *component, enum hazard_class class) {
    const struct hazard *hazard = component->hazard;
    if (class == CLASS_AROMATIC)
        return component->family == FAMILY_AROMATIC;
    if (class == CLASS_CHLORINATED)
        return component->family == FAMILY_CHLORINATED;
    if (!hazard)
        return false;
    switch (class) {
    case CLASS_CARCINOGEN:
        return hazard->carcinogen_category != CATEGORY_NONE;
    case CLASS_MUTAGEN:
        return hazard->mutagen_category != CATEGORY_NONE;
    case CLASS_REPRODUCTIVE:
        return hazard->reproductive_category != CATEGORY_NONE;
    case CLASS_SENSITISER:
        return says_yes(hazard->sensitiser);
    case CLASS_PEROXIDE_FORMER:
        return hazard->peroxide_former != 0;
    case CLASS_SKIN_ABSORBED:
        return says_yes(hazard->skin_absorption);
    case CLASS_RESTRICTED:
        return hazard->restricted;
    case CLASS_TOXIC:
        return is_toxic(hazard);
    default:
        return has_statement(hazard, "H314");
    }
}

bool component_hazards_known(const struct component *component) {
    return component->hazard && component->hazard->h_statements.items;
}

bool blend_hazards_known(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (!component_hazards_known(blend->components[i]))
            return false;
    return true;
}

bool component_may_damage_organs(const struct component *component) {
    const struct hazard *hazard = component->hazard;
    return hazard && (has_statement(hazard, "H371") || has_statement(hazard, "H373"));
}

bool component_not_for_unborn(const struct component *component) {
    return component_in_class(component, CLASS_REPRODUCTIVE) || component_in_class(component, CLASS_CARCINOGEN) ||
           component_in_class(component, CLASS_MUTAGEN) || component_in_class(component, CLASS_TOXIC);
}

bool component_not_for_sensitised(const struct component *component) {
    return component_in_class(component, CLASS_SENSITISER);
}

bool component_not_for_young(const struct component *component) {
    static const enum hazard_class classes[] = {CLASS_REPRODUCTIVE, CLASS_CARCINOGEN, CLASS_MUTAGEN,
                                                CLASS_TOXIC,        CLASS_CORROSIVE,  CLASS_SENSITISER};
    for (size_t i = 0; i < sizeof classes / sizeof classes[0]; i++)
        if (component_in_class(component, classes[i]))
            return true;
    return component_may_damage_organs(component);
}

static bool bottle_in_class(const struct library *lib, const struct bottle_ref *bottle, enum hazard_class class) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(lib, bottle, components, fractions);
    for (size_t i = 0; i < count; i++)
        if (component_in_class(components[i], class))
            return true;
    return false;
}

static bool bottle_contains(const struct library *lib, const struct bottle_ref *bottle,
                            const struct component *component) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(lib, bottle, components, fractions);
    for (size_t i = 0; i < count; i++)
        if (components[i] == component)
            return true;
    return false;
}

static bool category_one(int category) {
    return category == CATEGORY_1A || category == CATEGORY_1B;
}

const char *component_unproposed(const struct component *component) {
    const struct hazard *hazard = component->hazard;
    if (hazard && category_one(hazard->carcinogen_category))
        return say("carcinogen, category 1");
    if (hazard && category_one(hazard->mutagen_category))
        return say("mutagen, category 1");
    if (hazard && category_one(hazard->reproductive_category))
        return say("toxic to reproduction, category 1");
    return say(component->set_apart);
}

bool goal_leaves_window(double target_swelling, double spared_swelling) {
    return target_swelling >= fmax(GOAL_TARGET_LEAST, GOAL_WINDOW_RATIO * spared_swelling);
}

// --- blends on the grid ---

static double choose(double n, int k) {
    double product = 1;
    for (int i = 0; i < k; i++)
        product = product * (n - i) / (i + 1);
    return n < k ? 0 : product;
}

double goal_blends_of(size_t bottles, int components, int steps) {
    return choose((double)bottles, components) * choose(steps - 1, components - 1);
}

double goal_blend_count(size_t bottles, int components_most, int steps) {
    double sum = 0;
    for (int k = 1; k <= components_most; k++)
        sum += goal_blends_of(bottles, k, steps);
    return sum;
}

// --- taking bottles off the shelf ---

struct shelf_filter {
    const struct library *lib;
    const struct component *component; // taken off when the bottle contains it
    const struct bottle_ref *bottle;   // taken off when it is this one
    int class;                         // taken off when in this hazard class, -1 = none
    bool unproposed;                   // taken off when the tool would not propose it
    const struct shelf_rules *rules;
};

static bool allowed(const struct shelf_rules *rules, const char *component_id) {
    for (size_t i = 0; i < rules->allowed_count; i++)
        if (strcmp(rules->allowed[i]->id, component_id) == 0)
            return true;
    return false;
}

// One component that may be proposed does not excuse another in the same bottle.
static bool holds_unallowed(const struct shelf_filter *filter, const struct bottle_ref *bottle) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(filter->lib, bottle, components, fractions);
    for (size_t i = 0; i < count; i++)
        if (component_unproposed(components[i]) && !allowed(filter->rules, components[i]->id))
            return true;
    return false;
}

static bool takes_off(const struct shelf_filter *filter, const struct bottle_ref *bottle) {
    if (filter->unproposed)
        return holds_unallowed(filter, bottle);
    if (filter->class >= 0)
        return bottle_in_class(filter->lib, bottle, (enum hazard_class)filter->class);
    if (filter->component)
        return bottle_contains(filter->lib, bottle, filter->component);
    return bottle_ref_same(filter->bottle, bottle);
}

static void add_name(struct filter_count *count, const char *id) {
    size_t at = strlen(count->names);
    int length = snprintf(count->names + at, sizeof count->names - at, "%s%s", at ? ", " : "", id);
    if (at + (size_t)length >= sizeof count->names)
        snprintf(count->names + sizeof count->names - 4, 4, "...");
}

static void apply(struct goal *goal, const struct shelf_filter *filter, const char *words,
                  struct filter_report *report) {
    struct filter_count count = {.filter = words};
    double before = goal_blend_count(goal->bottle_count, goal->components_most, goal->steps);
    size_t kept = 0;
    for (size_t i = 0; i < goal->bottle_count; i++) {
        if (takes_off(filter, &goal->bottles[i])) {
            count.bottles++;
            add_name(&count, bottle_ref_id(&goal->bottles[i]));
        } else {
            goal->bottles[kept++] = goal->bottles[i];
        }
    }
    goal->bottle_count = kept;
    count.blends = (size_t)(before - goal_blend_count(kept, goal->components_most, goal->steps));
    if (report->count < FILTERS_MAX)
        report->items[report->count++] = count;
}

static enum status unknown_without(const struct error *name_err, struct error *err) {
    char classes[256] = "";
    size_t at = 0;
    for (int i = 0; hazard_class_words[i] && at < sizeof classes; i++)
        at += (size_t)snprintf(classes + at, sizeof classes - at, "%s%s", i ? ", " : "", hazard_class_words[i]);
    return error_set(err, STATUS_UNKNOWN_NAME, "--without: %s; hazard classes are: %s", name_err->text, classes);
}

static enum status apply_without(struct goal *goal, const struct library *lib, const char *name,
                                 struct filter_report *report, struct error *err) {
    struct shelf_filter filter = {.lib = lib, .class = hazard_class_named(name)};
    struct bottle_ref bottle = {0};
    if (filter.class < 0) {
        struct error name_err = {0};
        if (library_bottle(lib, name, &bottle, &name_err) != STATUS_OK)
            return unknown_without(&name_err, err);
        filter.component = bottle.component;
        filter.bottle = &bottle;
    }
    apply(goal, &filter, name, report);
    return STATUS_OK;
}

enum status goal_filter_shelf(struct goal *goal, const struct library *lib, const struct shelf_rules *rules,
                              struct filter_report *report, struct error *err) {
    struct shelf_filter never = {.lib = lib, .class = -1, .unproposed = true, .rules = rules};
    apply(goal, &never, say("never proposed unless allowed by name"), report);
    for (size_t i = 0; i < rules->without_count; i++) {
        enum status status = apply_without(goal, lib, rules->without[i], report, err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

const struct filter_count *filter_that_took_most(const struct filter_report *report) {
    const struct filter_count *most = NULL;
    for (size_t i = 0; i < report->count; i++)
        if (report->items[i].bottles && (!most || report->items[i].blends > most->blends))
            most = &report->items[i];
    return most;
}
