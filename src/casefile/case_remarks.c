// SPDX-License-Identifier: GPL-3.0-or-later
// What is not wrong in a case but should be known before the next test.
#include "base/language.h"
#include "base/print_words.h"
#include "base/text.h"
#include "casefile/case_parts.h"

#include <math.h>
#include <stdio.h>

// How long a bottle of a peroxide former is kept without a test: common laboratory practice, as in Cornell University
// EHS, Laboratory Safety Manual, Appendix J (from memory).
enum { OPENED_MONTHS = 12, UNOPENED_MONTHS = 18 };
static const char *const peroxide_source =
    N_("common laboratory practice: 12 months opened, 18 unopened; Cornell University EHS, Appendix J");

// Shares below these do not make a bottle a peroxide former or an alcohol: a denaturant of 1 % is neither. Ours.
static const double peroxide_share = 0.1;
static const double alcohol_share = 0.5;

struct composition {
    size_t count;
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
};

static struct composition composition_of(const struct casefile *file, const struct case_bottle *bottle) {
    struct composition mix = {0};
    if (bottle->ref.bottle || bottle->ref.component)
        mix.count = bottle_composition(&file->library, &bottle->ref, mix.components, mix.fractions);
    return mix;
}

static const struct component *peroxide_former(const struct composition *mix) {
    const struct component *former = NULL;
    double most = peroxide_share;
    for (size_t i = 0; i < mix->count; i++) {
        const struct hazard *hazard = mix->components[i]->hazard;
        if (hazard && hazard->peroxide_former && mix->fractions[i] >= most) {
            former = mix->components[i];
            most = mix->fractions[i];
        }
    }
    return former;
}

// The day from which the bottle counts: a test that found no peroxides sets it anew.
static struct date counted_from(const struct case_bottle *bottle) {
    struct date from = date_is_set(bottle->opened) ? bottle->opened : bottle->received;
    if (date_is_set(bottle->peroxide_tested) && (!date_is_set(from) || date_compare(bottle->peroxide_tested, from) > 0))
        from = bottle->peroxide_tested;
    return from;
}

bool case_bottle_peroxide_until(const struct casefile *file, const struct case_bottle *bottle, struct date *ret_from,
                                struct date *ret_until) {
    struct composition mix = composition_of(file, bottle);
    struct date from = counted_from(bottle);
    if (!peroxide_former(&mix) || !date_is_set(from))
        return false;
    *ret_from = from;
    *ret_until = date_add_months(from, date_is_set(bottle->opened) ? OPENED_MONTHS : UNOPENED_MONTHS);
    return true;
}

const char *case_bottle_peroxide_remark(const struct casefile *file, const struct case_bottle *bottle,
                                        struct date as_of, char buffer[CASE_REMARK_BYTES]) {
    buffer[0] = '\0';
    struct composition mix = composition_of(file, bottle);
    const struct component *former = peroxide_former(&mix);
    if (!former || date_is_set(bottle->finished) || !date_is_set(as_of))
        return buffer;
    struct date from = counted_from(bottle);
    if (!date_is_set(from)) {
        print_words(buffer, CASE_REMARK_BYTES,
                    "holds %s, which forms peroxides, and has no date: write 'opened' or 'received', and test it for "
                    "peroxides (%s)",
                    former->id, say(peroxide_source));
        return buffer;
    }
    bool opened = date_is_set(bottle->opened);
    int months = opened ? OPENED_MONTHS : UNOPENED_MONTHS;
    struct date end = date_add_months(from, months);
    char since[DATE_BYTES];
    char until[DATE_BYTES];
    if (date_compare(as_of, end) > 0)
        print_words(
            buffer, CASE_REMARK_BYTES,
            "holds %s, which forms peroxides; %s %s, its %d months ended on %s. Test it for peroxides or give it "
            "to waste; do not use it as it is, and let none of it dry up (%s)",
            former->id, opened ? say("open or last tested") : say("received or last tested"), date_write(from, since),
            months, date_write(end, until), say(peroxide_source));
    return buffer;
}

const char *case_bottle_water_remark(const struct casefile *file, const struct case_bottle *bottle,
                                     char buffer[CASE_REMARK_BYTES]) {
    buffer[0] = '\0';
    if (!date_is_set(bottle->opened) || date_is_set(bottle->finished))
        return buffer;
    struct composition mix = composition_of(file, bottle);
    double alcohol = 0;
    double water = 0;
    for (size_t i = 0; i < mix.count; i++) {
        alcohol += mix.components[i]->family == FAMILY_ALCOHOL ? mix.fractions[i] : 0;
        water += mix.components[i]->family == FAMILY_WATER ? mix.fractions[i] : 0;
    }
    if (alcohol < alcohol_share)
        return buffer;
    if (!isnan(bottle->water_percent) && water > 0)
        print_words(
            buffer, CASE_REMARK_BYTES,
            "an opened alcohol with %.3g %% of water: the water counts as a component of every blend made from it",
            100 * water);
    else if (water == 0)
        print_words(buffer, CASE_REMARK_BYTES,
                    "an opened alcohol takes up water from the air, and none is stated: it counts as dry. State "
                    "water_percent (0 when known to be dry); some 5 %% were enough to split a blend with a hydrocarbon "
                    "(Hook, JAIC 27 (1988) 100)");
    return buffer;
}

static void remark_bottles(const struct casefile *file, struct date as_of, struct fault_list *remarks) {
    const struct case_bottle *bottles = file->bottles.items;
    for (size_t i = 0; i < file->bottles.count; i++) {
        char sentence[CASE_REMARK_BYTES];
        const struct yaml_node *node = case_entry_node(file, "bottles", i);
        if (case_bottle_peroxide_remark(file, &bottles[i], as_of, sentence)[0])
            faults_add(remarks, file->path, node, "bottle '%s' %s", bottles[i].id, sentence);
        if (!(bottles[i].water_percent == 0) && case_bottle_water_remark(file, &bottles[i], sentence)[0])
            faults_add(remarks, file->path, node, "bottle '%s': %s", bottles[i].id, sentence);
    }
}

static void remark_places(const struct casefile *file, struct fault_list *remarks) {
    const struct case_object *object = &file->object;
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        if (!isnan(tests[i].x_mm) && (isnan(object->width_mm) || isnan(object->height_mm))) {
            faults_add(remarks, file->path, yaml_find(file->root, "object"),
                       "object: without width_mm and height_mm nobody can check that the sites lie on the picture");
            return;
        }
}

static void remark_room(const struct casefile *file, struct fault_list *remarks) {
    if (file->room.arm == ARM_NOT_MEASURED)
        faults_add(remarks, file->path, case_key_node(yaml_find(file->root, "room"), "arm"),
                   "room: the capture of the arm was not measured, so it gets no credit in any air check");
}

static void remark_goals(const struct casefile *file, struct fault_list *remarks) {
    const struct yaml_node *node = yaml_find(file->root, "goals");
    for (size_t i = 0; i < file->goals.remove.count; i++) {
        const struct case_layer *layer = case_layer(file, file->goals.remove.items[i]);
        if (layer && !layer->material)
            faults_add(remarks, file->path, case_key_node(node, "remove"),
                       "goals: layer '%s' has no material, so no blend can be ranked for it", layer->id);
    }
    for (size_t i = 0; i < file->goals.unsure.count; i++)
        faults_add(remarks, file->path, case_key_node(node, "unsure"),
                   "goals: '%s' is undecided and counts as to be spared", file->goals.unsure.items[i]);
}

static void remark_passages(const struct casefile *file, struct fault_list *remarks) {
    const struct case_passage *passages = file->passages.items;
    for (size_t i = 0; i < file->passages.count; i++)
        if (passages[i].sensitive.count && case_tests_in(file, passages[i].id) == 0)
            faults_add(remarks, file->path, case_entry_node(file, "passages", i),
                       "passage '%s' is sensitive (%s%s) and has no test of its own yet", passages[i].id,
                       passages[i].sensitive.items[0], passages[i].sensitive.count > 1 ? say(" and more") : "");
}

// --- tests ---

static bool same_mix(const struct blend *a, const struct blend *b) {
    if (a->count != b->count)
        return false;
    for (size_t i = 0; i < a->count; i++) {
        bool found = false;
        for (size_t j = 0; j < b->count; j++)
            found |=
                a->components[i] == b->components[j] && fabs(a->volume_fractions[i] - b->volume_fractions[j]) < 1e-9;
        if (!found)
            return false;
    }
    return true;
}

// True when `a` had no more contact than `b` as far as both are known.
static bool no_more_contact(const struct case_test *a, const struct case_test *b) {
    bool known = false;
    if (!isnan(a->contact_s) && !isnan(b->contact_s)) {
        known = true;
        if (a->contact_s > b->contact_s)
            return false;
    }
    if (a->rolls && b->rolls) {
        known = true;
        if (a->rolls > b->rolls)
            return false;
    }
    return known;
}

// The same blend in the same way in the same passage on the same layer, less of it, did at least two words more.
static bool contradict(const struct case_test *a, const struct case_test *b) {
    return a->result >= b->result + 2 && no_more_contact(a, b) && a->delivery == b->delivery && a->passage &&
           text_same(a->passage, b->passage) && text_same(a->layer, b->layer) && same_mix(&a->mix, &b->mix);
}

// Against the latest earlier test that it contradicts: of hundreds of tests one line each.
static const struct case_test *contradicted(const struct case_test *tests, size_t i) {
    for (size_t j = i; j-- > 0;)
        if (!tests[i].withdrawn && !tests[j].withdrawn &&
            (contradict(&tests[i], &tests[j]) || contradict(&tests[j], &tests[i])))
            return &tests[j];
    return NULL;
}

static void remark_tests(const struct casefile *file, struct fault_list *remarks) {
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++) {
        const struct case_test *test = &tests[i];
        const struct yaml_node *node = case_entry_node(file, "tests", i);
        if (case_test_stops(test))
            faults_add(remarks, file->path, node, "test '%s' found %s: STOP in %s%s%s until you have decided", test->id,
                       test->colour_on_swab == COLOUR_UNSURE ? say("colour that may be original")
                                                             : say("original colour"),
                       test->passage ? say("passage '") : say("this place"), test->passage ? test->passage : "",
                       test->passage ? "'" : "");
        const struct case_test *other = contradicted(tests, i);
        if (other)
            faults_add(remarks, file->path, node,
                       "tests '%s' (%s) and '%s' (%s) contradict each other: the same blend on the same layer of the "
                       "same passage, and no longer contact did more",
                       other->id, say(result_words[other->result]), test->id, say(result_words[test->result]));
    }
}

void casefile_remarks(const struct casefile *file, struct date as_of, struct fault_list *remarks) {
    remark_places(file, remarks);
    remark_bottles(file, as_of, remarks);
    remark_room(file, remarks);
    remark_goals(file, remarks);
    remark_passages(file, remarks);
    remark_tests(file, remarks);
}
