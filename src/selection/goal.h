// SPDX-License-Identifier: GPL-3.0-or-later
// What is asked for: what to remove, what to spare, from which bottles, within which bounds.
#ifndef MILDSOLVE_SELECTION_GOAL_H
#define MILDSOLVE_SELECTION_GOAL_H

#include "data/library.h"
#include "physics/blend.h"
#include "physics/hansen.h"

enum { GOAL_MATERIALS_MAX = 8, GOAL_BOTTLES_MAX = 200, GOAL_COMPONENTS_MAX = 5, GOAL_NAMES_MAX = 32 };

// A cross-linked target never dissolves. It is taken to leave a window where it swells at least this many times as much
// as every paint to spare: the assumptions of the film model move the sizes of swelling by factors of about two, so a
// smaller ratio is none.
#define GOAL_WINDOW_RATIO 2.0

// And at least so much, volume per dry volume: where film_band.h begins "low". What swells "as alkanes do" does not
// come off, however little the paint takes up (our choice).
#define GOAL_TARGET_LEAST 0.10

// Whether a target that swells so much leaves a window beside what takes up most of the paints to spare (NAN = none has
// a film: the least alone decides).
bool goal_leaves_window(double target_swelling, double spared_swelling);

struct goal {
    const struct material *remove[GOAL_MATERIALS_MAX];
    size_t remove_count;
    const struct material *spare[GOAL_MATERIALS_MAX];
    size_t spare_count;
    struct bottle_ref bottles[GOAL_BOTTLES_MAX]; // after the shelf filters
    size_t bottle_count;
    int components_most; // bottles in one blend, 1 to GOAL_COMPONENTS_MAX
    int steps;           // grid divisions of the whole: 20 = 5 %
    double margin;       // RED_remove must be at most 1 - margin
};

// Hazard classes that `--without` understands, besides names of bottles and components.
enum hazard_class {
    CLASS_CARCINOGEN,
    CLASS_MUTAGEN,
    CLASS_REPRODUCTIVE,
    CLASS_SENSITISER,
    CLASS_PEROXIDE_FORMER,
    CLASS_SKIN_ABSORBED,
    CLASS_RESTRICTED,
    CLASS_TOXIC,
    CLASS_CORROSIVE,
    CLASS_AROMATIC,
    CLASS_CHLORINATED
};
extern const char *const hazard_class_words[]; // NULL-terminated
int hazard_class_named(const char *name);      // of enum hazard_class; -1 when there is none

bool component_in_class(const struct component *component, enum hazard_class class);

// Are its hazard statements in the tables, be it an empty list? Of any other liquid component_in_class finds nothing
// but its family, which says nothing about it: not known is never harmless.
bool component_hazards_known(const struct component *component);
bool blend_hazards_known(const struct blend *blend); // of every component

// Statements H371 or H373, which no class holds; H370 and H372 are in CLASS_TOXIC.
bool component_may_damage_organs(const struct component *component);

// What must not be worked with while a pregnancy or breastfeeding is announced (the classes of case_option_fill), and by
// somebody who is sensitised, before it is known to what.
bool component_not_for_unborn(const struct component *component);
bool component_not_for_sensitised(const struct component *component);

// What people under 18 must not work with: Council Directive 94/33/EC, Annex, I.3, as amended by 2014/27/EU (from
// memory): acute toxicity 1 to 3, skin corrosion, sensitisers, carcinogens and mutagens of every category, reproductive
// toxicants, organ damage (H370 to H373). Reproductive toxicants of category 2, which it does not name, count here too.
// Its liquids of high flammability (H224, H225) do not: that list would hold most of a studio, and is told instead.
bool component_not_for_young(const struct component *component);

// Why the tool never proposes a component of its own accord: category 1 carcinogen, mutagen or reproductive toxicant,
// or set apart in the tables as a class that no distance or film model can judge. NULL when it may be proposed.
const char *component_unproposed(const struct component *component);

// What a filter did.
struct filter_count {
    const char *filter; // in words: "without reproductive"
    size_t bottles;     // bottles it took off the shelf
    size_t blends;      // blends it removed
    char names[160];    // of the bottles, shortened
};

enum { FILTERS_MAX = 16 };
struct filter_report {
    struct filter_count items[FILTERS_MAX];
    size_t count;
};

// The filter that removed most blends among those that took bottles; NULL when none did.
const struct filter_count *filter_that_took_most(const struct filter_report *report);

// Takes bottles off the goal's shelf. `without` holds names of bottles, components or hazard classes; `allowed` names
// components that may be proposed although the tool would not do so of its own accord.
struct shelf_rules {
    const char *const *without;
    size_t without_count;
    const struct component *const *allowed;
    size_t allowed_count;
};
enum status goal_filter_shelf(struct goal *goal, const struct library *lib, const struct shelf_rules *rules,
                              struct filter_report *report, struct error *err);

// Blends of k = `components` out of `bottles` bottles on a grid of `steps`, each at least one step:
// C(bottles, k) * C(steps - 1, k - 1). goal_blend_count: of all sizes up to components_most.
double goal_blends_of(size_t bottles, int components, int steps);
double goal_blend_count(size_t bottles, int components_most, int steps);

#endif
