// SPDX-License-Identifier: GPL-3.0-or-later
// exposure: the people who work there, by the case, against what is in the blends.
#include "base/language.h"
#include "casefile/casefile.h"
#include "cli/assessing.h"
#include "selection/goal.h"

static bool hazards_unknown(const struct component *component) {
    return !component_hazards_known(component);
}

// The components of all blends together of which this is true, each once.
static void add_those(const struct assessing *assessing, bool (*is)(const struct component *), struct text *out) {
    for (size_t i = 0; i < assessing->day->air.count; i++) {
        const struct component *component = assessing->day->air.components[i].component;
        if (is(component))
            text_printf(out, "%s%s", out->length ? ", " : "", component->id);
    }
}

// What is classified against those whom the case names; to be released.
struct against {
    struct text expecting, sensitised, young, unknown;
};

static void find_against(const struct assessing *assessing, struct against *ret) {
    const struct casefile *file = assessing->inv->casefile;
    *ret = (struct against){0};
    if (file && (case_has_flag(file, "pregnancy announced") || case_has_flag(file, "breastfeeding")))
        add_those(assessing, component_not_for_unborn, &ret->expecting);
    if (file && case_has_flag(file, "sensitised"))
        add_those(assessing, component_not_for_sensitised, &ret->sensitised);
    if (file && case_has_flag(file, "under 18"))
        add_those(assessing, component_not_for_young, &ret->young);
    add_those(assessing, hazards_unknown, &ret->unknown);
}

static void release_against(struct against *against) {
    text_release(&against->expecting);
    text_release(&against->sensitised);
    text_release(&against->young);
    text_release(&against->unknown);
}

enum people_judgement judge_people(const struct assessing *assessing) {
    struct against against;
    if (!case_announces_people(assessing->inv->casefile))
        return PEOPLE_NOT_ASKED;
    find_against(assessing, &against);
    enum people_judgement judgement = against.expecting.length || against.sensitised.length || against.young.length
                                          ? PEOPLE_EXCLUDED
                                      : against.unknown.length ? PEOPLE_NOT_JUDGED
                                                               : PEOPLE_NOTHING_AGAINST;
    release_against(&against);
    return judgement;
}

enum exposure_answer assessing_answer(const struct assessing *assessing) {
    enum people_judgement people = judge_people(assessing);
    if (people == PEOPLE_EXCLUDED)
        return ANSWER_NOT_FOR_PEOPLE;
    if (assessing->verdict == EXPOSURE_OVER)
        return ANSWER_OVER;
    return assessing->verdict == EXPOSURE_NOT_JUDGED || people == PEOPLE_NOT_JUDGED ? ANSWER_NOT_JUDGED : ANSWER_WITHIN;
}

const char *answer_for_people_words(enum exposure_answer answer) {
    return answer == ANSWER_NOT_FOR_PEOPLE
               ? N_("NOT FOR THE PEOPLE WHO WORK THERE, although within the limits of this set, on these assumptions.")
               : N_("CANNOT BE JUDGED for the people who work there, although within the limits of this set, on these "
                    "assumptions.");
}

// A sentence of its own, set off from what stands there already.
static void begin_sentence(struct text *out) {
    if (out->length)
        text_add(out, " ");
}

static void add_unknown_hazards(const struct assessing *assessing, const struct text *unknown, struct text *out) {
    if (!unknown->length)
        return;
    begin_sentence(out);
    if (case_announces_people(assessing->inv->casefile))
        text_say(out,
                 "The hazards of %s are not known: no index clears that for those who work there by the case "
                 "(pregnancy, breastfeeding, under 18 or sensitised). No work with it until its safety data sheet has "
                 "been read.",
                 text_bytes(unknown));
    else
        text_say(out,
                 "The hazards of %s are not known: no index clears that for anybody who is pregnant, breastfeeds, is "
                 "under 18 or sensitised. Read its safety data sheet, and put its statements into your own table of "
                 "hazards.",
                 text_bytes(unknown));
}

void add_people_warning(const struct assessing *assessing, struct text *out) {
    struct against against;
    find_against(assessing, &against);
    if (against.expecting.length)
        text_say(out,
                 "By the case a pregnancy or breastfeeding is announced: no work with %s in this room, whatever the "
                 "index.",
                 text_bytes(&against.expecting));
    if (against.sensitised.length)
        begin_sentence(out);
    if (against.sensitised.length)
        text_say(
            out,
            "By the case somebody who is sensitised works there: ask to what, and keep them away from %s, whatever "
            "the index.",
            text_bytes(&against.sensitised));
    if (against.young.length)
        begin_sentence(out);
    if (against.young.length)
        text_say(
            out,
            "By the case somebody under 18 works there: no work with %s for them, whatever the index, unless their "
            "training needs it and a competent person watches.",
            text_bytes(&against.young));
    add_unknown_hazards(assessing, &against.unknown, out);
    release_against(&against);
}
