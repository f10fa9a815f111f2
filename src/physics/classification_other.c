// SPDX-License-Identifier: GPL-3.0-or-later
// Fire, water life, and the statements that are carried over without a sum.
#include "base/language.h"
#include "base/print_words.h"
#include "physics/classification_parts.h"
#include "physics/flash.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

// --- flammable liquids ---

// 2.6.2, table 2.6.1 (HCS B.6.2, table B.6.1, which also has category 4).
static const char *const flammable_codes[] = {NULL, "H224", "H225", "H226", "H227"};

static const char *flammable_section(const struct mixing *mix) {
    return is_us(mix) ? "HCS B.6.2, table B.6.1" : "CLP 2.6.2, table 2.6.1";
}

static int most_flammable(const struct mixing *mix, uint32_t *ret_from) {
    for (int category = 1; category <= 4; category++) {
        struct tally tally = {0};
        for (size_t i = 0; i < mix->input->count; i++)
            if (component_code(mix, i, CLASS_FLAMMABLE, category))
                tally_add(&tally, i, percent_of(mix, i));
        *ret_from = tally.from;
        if (tally.from)
            return category;
    }
    return 0;
}

static int category_by_flash(struct mixing *mix) {
    enum ghs_flammable category = ghs_flammable_category(mix->input->flash_c, mix->input->boiling_c);
    switch (category) {
    case GHS_NOT_FLAMMABLE:
        return 0;
    case GHS_FLAMMABLE_4:
        return is_us(mix) ? 4 : 0;
    case GHS_UNKNOWN:
        break;
    default:
        return (int)(category - GHS_FLAMMABLE_1) + 1;
    }
    uint32_t from;
    add_note(mix, "No initial boiling point: category 1 only where a component has it.");
    return most_flammable(mix, &from) == 1 ? 1 : 2;
}

static uint32_t flammable_components(const struct mixing *mix) {
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        for (int category = 1; category <= 4; category++)
            if (component_code(mix, i, CLASS_FLAMMABLE, category))
                tally_add(&tally, i, percent_of(mix, i));
    return tally.from;
}

static void classify_without_flash(struct mixing *mix) {
    uint32_t from;
    int category = most_flammable(mix, &from);
    if (category)
        add_statement(mix, flammable_codes[category], from,
                      "%s: no flash point of the blend is known, so its most flammable component's category stands",
                      names_of(mix, from));
    else if (mix->ret->unknown)
        add_note(mix, "Neither a flash point of the blend nor the category of every component is known.");
}

void classify_flammable(struct mixing *mix) {
    const struct classification_input *input = mix->input;
    if (input->flash == FLASH_NONE)
        return;
    if (input->flash == FLASH_NOT_KNOWN) {
        classify_without_flash(mix);
        return;
    }
    int category = category_by_flash(mix);
    if (category == 0)
        return;
    uint32_t from = flammable_components(mix);
    if (isnan(input->boiling_c) || category > 2)
        add_statement(mix, flammable_codes[category], from, "flash point %.0f degC (%s)", input->flash_c,
                      flammable_section(mix));
    else
        add_statement(mix, flammable_codes[category], from, "flash point %.0f degC, boils from %.0f degC (%s)",
                      input->flash_c, input->boiling_c, flammable_section(mix));
}

// --- water life ---

static double factor(double entered) {
    return isnan(entered) ? 1 : entered;
}

// Components of category 1 count from 0.1 % / M, others from 1 % (table 1.1 and 4.1.3.1).
static void tally_water(const struct mixing *mix, size_t i, double m, double cut_off, struct tally *tally) {
    if (reaches(percent_of(mix, i), cut_off / m))
        tally_add(tally, i, m * percent_of(mix, i));
}

static void classify_aquatic_acute(struct mixing *mix) {
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (component_code(mix, i, CLASS_AQUATIC_ACUTE, 1))
            tally_water(mix, i, factor(mix->input->components[i]->hazard->m_factors.acute), 0.1, &tally);
    if (reaches(tally.sum, 25))
        add_statement(mix, "H400", tally.from,
                      "%s: sum with M-factors %.3g %%, at least 25 %% (CLP 4.1.3.5.5, table 4.1.1)",
                      names_of(mix, tally.from), tally.sum);
}

static void tally_chronic(const struct mixing *mix, struct tally tallies[5]) {
    for (size_t i = 0; i < mix->input->count; i++)
        for (int category = 1; category <= 4; category++) {
            if (!component_code(mix, i, CLASS_AQUATIC_CHRONIC, category))
                continue;
            double m = category == 1 ? factor(mix->input->components[i]->hazard->m_factors.chronic) : 1;
            tally_water(mix, i, m, category == 1 ? 0.1 : 1, &tallies[category]);
            if (category == 1 && (tallies[1].from & UINT32_C(1) << i))
                tally_add(&tallies[0], i, percent_of(mix, i));
        }
}

// tallies[1] with M-factors, tallies[0] the same components without.
static void classify_aquatic_chronic(struct mixing *mix) {
    static const char *const codes[] = {NULL, "H410", "H411", "H412", "H413"};
    struct tally t[5] = {0};
    tally_chronic(mix, t);
    const struct tally sums[] = {
        {0, 0},
        {t[1].sum, t[1].from},
        {10 * t[1].sum + t[2].sum, t[1].from | t[2].from},
        {100 * t[1].sum + 10 * t[2].sum + t[3].sum, t[1].from | t[2].from | t[3].from},
        {t[0].sum + t[2].sum + t[3].sum + t[4].sum, t[1].from | t[2].from | t[3].from | t[4].from},
    };
    for (int category = 1; category <= 4; category++) {
        if (!reaches(sums[category].sum, 25))
            continue;
        add_statement(mix, codes[category], sums[category].from,
                      "%s: weighted sum %.3g %%, at least 25 %% (CLP 4.1.3.5.5, table 4.1.2)",
                      names_of(mix, sums[category].from), sums[category].sum);
        return;
    }
}

void classify_aquatic(struct mixing *mix) {
    if (is_us(mix))
        return;
    classify_aquatic_acute(mix);
    classify_aquatic_chronic(mix);
}

// --- carried over ---

static uint32_t components_with(const struct mixing *mix, const char *code, double least_percent, double *ret_percent) {
    struct tally tally = {0};
    for (size_t i = 0; i < mix->input->count; i++)
        if (component_has(mix, i, code) && reaches(percent_of(mix, i), least_percent))
            tally_add(&tally, i, percent_of(mix, i));
    *ret_percent = tally.sum;
    return tally.from;
}

static bool toxic_by_inhalation(const struct classification *ret) {
    return classification_has(ret, "H330") || classification_has(ret, "H331") || classification_has(ret, "H332");
}

// Own choice: from 1 %, since the texts give no limit.
static void carry(struct mixing *mix, const char *code, const char *words) {
    double percent;
    uint32_t from = components_with(mix, code, 1, &percent);
    if (from)
        add_statement(mix, code, from, "%s: %s", names_of(mix, from), say(words));
}

// Annex II 1.2.4 has no limit and spares what is irritant already; 10 % in all is common practice.
static void carry_dry_skin(struct mixing *mix) {
    double percent;
    uint32_t from = components_with(mix, "EUH066", 0, &percent);
    if (is_us(mix) || !reaches(percent, 10))
        return;
    if (classification_has(mix->ret, "H314") || classification_has(mix->ret, "H315"))
        add_note(mix, "EUH066 is left off because the skin is covered by a graver statement (CLP Annex II 1.2.4).");
    else
        add_statement(mix, "EUH066", from, "%s: %.3g %%, carried over from 10 %% (common practice; CLP Annex II 1.2.4)",
                      names_of(mix, from), percent);
}

// Annex II 2.8 and table 3.4.6: a tenth of the limit of the sensitiser's category or of its specific limit.
static double elicitation_percent(const struct mixing *mix, size_t i, const char *code) {
    double specific = specific_from(mix, i, code);
    if (!isnan(specific))
        return specific / 10;
    return mix->input->components[i]->hazard->sensitiser_category == SENSITISER_1A ? 0.01 : 0.1;
}

static uint32_t leads_to(const struct classification *ret, const char *code) {
    for (size_t k = 0; k < ret->count; k++)
        if (strcmp(ret->statements[k].code, code) == 0)
            return ret->statements[k].from;
    return 0;
}

static void carry_allergy(struct mixing *mix) {
    static const char *const codes[] = {"H317", "H334"};
    struct tally tally = {0};
    for (size_t k = 0; k < 2; k++)
        for (size_t i = 0; i < mix->input->count; i++)
            if (component_has(mix, i, codes[k]) && !(leads_to(mix->ret, codes[k]) & UINT32_C(1) << i) &&
                reaches(percent_of(mix, i), elicitation_percent(mix, i, codes[k])))
                tally_add(&tally, i, percent_of(mix, i));
    if (tally.from && !is_us(mix))
        add_statement(mix, "EUH208", tally.from,
                      "%s: may set off an allergy that is there already (CLP Annex II 2.8, table 3.4.6)",
                      names_of(mix, tally.from));
}

// Codes of the user's tables for which there is no rule here.
static void carry_unknown(struct mixing *mix) {
    for (size_t i = 0; i < mix->input->count; i++) {
        const struct hazard *hazard = mix->input->components[i]->hazard;
        for (size_t k = 0; hazard && k < hazard->h_statements.count; k++) {
            const char *code = hazard->h_statements.items[k];
            if (hazard_code_find(code) || classification_has(mix->ret, code))
                continue;
            if (mix->ret->count < STATEMENTS_MAX && strlen(code) < CODE_SIZE)
                carry(mix, code, "carried over; this program has no mixture rule for it");
            else if (mix->ret->note_count < NOTES_MAX)
                add_note(mix, "'%s' of %s has no mixture rule here and is not on the label.", code,
                         mix->input->components[i]->id);
        }
    }
}

void classify_carried(struct mixing *mix) {
    const char *beside = is_us(mix) ? say("; not a statement of HCS, printed as supplementary information") : "";
    char words[160];
    carry(mix, "H290", "carried over, a mixture must be tested (own choice: from 1 %)");
    print_words(words, sizeof words, "carried over from 1 %% (common practice; CLP Annex II 1.1.5)%s", beside);
    carry(mix, "EUH019", words);
    carry_dry_skin(mix);
    print_words(words, sizeof words, "carried over (common practice; CLP Annex II 1.2.6)%s", beside);
    if (classification_has(mix->ret, "H314") || toxic_by_inhalation(mix->ret))
        carry(mix, "EUH071", words);
    carry_allergy(mix);
    carry_unknown(mix);
}
