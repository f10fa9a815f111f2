// SPDX-License-Identifier: GPL-3.0-or-later
// Classification of mixtures: worked examples, every generic limit exactly at its edge, specific limits, label
// elements, and the liquids of the tables against their own classification.
#include "base/memory.h"
#include "physics/classification.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// --- mixtures written as text ---

enum { PARTS_MAX = 12, CODES_MAX = 8, LIMITS_MAX = 4, WORD_SIZE = 16 };

struct part {
    struct component component;
    struct hazard hazard;
    char id[4];
    char words[CODES_MAX][WORD_SIZE];
    const char *codes[CODES_MAX];
    struct specific_limit limits[LIMITS_MAX];
    char limit_codes[LIMITS_MAX][WORD_SIZE];
};

struct mixture {
    size_t count;
    struct part parts[PARTS_MAX];
    const struct component *components[PARTS_MAX];
    double fractions[PARTS_MAX];
    struct classification_input input;
    struct arena arena;
    struct classification answer;
};

static void part_word(struct part *part, const char *word) {
    double from = NAN, below = NAN;
    char code[WORD_SIZE];
    if (sscanf(word, "oral=%lf", &part->hazard.acute_estimates.oral_mg_kg) == 1 ||
        sscanf(word, "vapour=%lf", &part->hazard.acute_estimates.vapour_mg_l) == 1 ||
        sscanf(word, "M=%lf", &part->hazard.m_factors.acute) == 1 ||
        sscanf(word, "Mc=%lf", &part->hazard.m_factors.chronic) == 1)
        return;
    if (sscanf(word, "%15[A-Z0-9]>%lf-%lf", code, &from, &below) >= 2) {
        size_t k = part->hazard.specific_limits.count++;
        strcpy(part->limit_codes[k], code);
        part->limits[k] = (struct specific_limit){part->limit_codes[k], from, below, {0}};
    } else if (strcmp(word, "1A") == 0) {
        part->hazard.sensitiser_category = SENSITISER_1A;
    } else if (strcmp(word, "1B") == 0) {
        part->hazard.sensitiser_category = SENSITISER_1B;
    } else if (strcmp(word, "acid") == 0) {
        part->component.family = FAMILY_ACID;
    } else if (strcmp(word, "?") == 0) {
        part->component.hazard = NULL;
    } else {
        size_t k = part->hazard.h_statements.count++;
        ck_assert_uint_lt(k, CODES_MAX);
        strcpy(part->words[k], word);
    }
}

// "4 H301; 96" : 4 % of a component with H301, 96 % of one without a code. Words: a code; oral=125, vapour=11
// (estimates); M=10, Mc=10 (factors); H314>25, H315>10-25 (specific limits); 1A, 1B (sensitisers); acid; ? (no hazard
// data).
static void mixture_read(struct mixture *mix, const char *text) {
    *mix = (struct mixture){.input = {.flash = FLASH_NONE, .boiling_c = NAN, .viscosity_40c_mm2_s = NAN}};
    char copy[512], *rest = copy, *one;
    snprintf(copy, sizeof copy, "%s", text);
    while ((one = strtok_r(rest, ";", &rest))) {
        struct part *part = &mix->parts[mix->count];
        part->component.hazard = &part->hazard;
        part->hazard.acute_estimates.oral_mg_kg = part->hazard.acute_estimates.dermal_mg_kg = NAN;
        part->hazard.acute_estimates.vapour_mg_l = NAN;
        part->hazard.m_factors.acute = part->hazard.m_factors.chronic = NAN;
        snprintf(part->id, sizeof part->id, "%c", (char)('a' + mix->count));
        part->component.id = part->id;
        char *words = one, *word = strtok_r(words, " ", &words);
        mix->fractions[mix->count] = atof(word) / 100;
        while ((word = strtok_r(words, " ", &words)))
            part_word(part, word);
        for (size_t k = 0; k < part->hazard.h_statements.count; k++)
            part->codes[k] = part->words[k];
        part->hazard.h_statements.items = part->codes;
        part->hazard.specific_limits.items = part->limits;
        mix->components[mix->count++] = &part->component;
    }
    mix->input.count = mix->count;
    mix->input.components = mix->components;
    mix->input.mass_fractions = mix->fractions;
}

static void mixture_classify(struct mixture *mix) {
    struct error err = {0};
    enum status status = classify(&mix->input, &mix->arena, &mix->answer, &err);
    ck_assert_msg(status == STATUS_OK, "%s", err.text);
}

static const char *codes_of(const struct classification *answer, char *ret, size_t size) {
    ret[0] = '\0';
    for (size_t i = 0; i < answer->count; i++)
        snprintf(ret + strlen(ret), size - strlen(ret), "%s%s", i ? " " : "", answer->statements[i].code);
    return ret;
}

static void assert_codes(const char *text, enum classification_rules rules, const char *expected) {
    struct mixture mix;
    char codes[256];
    mixture_read(&mix, text);
    mix.input.rules = rules;
    mixture_classify(&mix);
    ck_assert_msg(strcmp(codes_of(&mix.answer, codes, sizeof codes), expected) == 0,
                  "%s by %s: got '%s', expected '%s'", text, classification_rules_words[rules], codes, expected);
    arena_release(&mix.arena);
}

static void assert_eu(const char *text, const char *expected) {
    assert_codes(text, RULES_EU_CLP, expected);
}

static void assert_us(const char *text, const char *expected) {
    assert_codes(text, RULES_US_HCS, expected);
}

// --- worked examples ---

// Additivity of acute oral toxicity in the manner of the five-ingredient example of OSHA's Hazard Classification
// Guidance (OSHA 3844, 2016) after UN GHS 3.1.3.6.1 (ingredients from memory, page not seen; the second one made up to
// 100 %): 4 % of LD50 125, 3 % of 1500, 0.2 % of 10 mg/kg, the others not classified. 100 / (4/125 + 3/1500 + 0.2/10) =
// 1852 mg/kg: category 4.
START_TEST(acute_oral_example_osha_guidance) {
    struct mixture mix;
    mixture_read(&mix, "4 H301 oral=125; 91.9; 3 H302 oral=1500; 0.9; 0.2 H300 oral=10");
    mixture_classify(&mix);
    ck_assert(classification_has(&mix.answer, "H302"));
    ck_assert_ptr_nonnull(strstr(mix.answer.statements[0].reason, "1852 mg/kg"));
    arena_release(&mix.arena);
}
END_TEST

// ECHA, Guidance on the Application of the CLP Criteria, 3.2, example of a detergent-like mixture (from memory, page
// not seen): A 1.8 % irritant, B 0.5 % corrosive, C 5.4 % irritant, D 4 % not classified, E 2 % corrosive, water 86.3
// %. B is below 1 % and does not count; corrosives 2 % are below 5 but above 1 %: skin irritant; by table 3.3.3 also
// the eye.
START_TEST(skin_example_echa_guidance) {
    struct mixture mix;
    mixture_read(&mix, "1.8 H315; 0.5 H314; 5.4 H315; 4; 2 H314; 86.3");
    mixture_classify(&mix);
    char codes[256];
    ck_assert_str_eq(codes_of(&mix.answer, codes, sizeof codes), "H315 H319");
    ck_assert_uint_eq(mix.answer.statements[0].from, 1u << 0 | 1u << 2 | 1u << 4);
    arena_release(&mix.arena);
}
END_TEST

// UN GHS 1.3.3 and chapter 3.1, table 3.1.2; Annex I table 3.1.2 (from memory).
START_TEST(point_estimates_of_table_3_1_2) {
    static const double table[3][4] = {{0.5, 5, 100, 500}, {5, 50, 300, 1100}, {0.05, 0.5, 3, 11}};
    for (int route = 0; route < 3; route++)
        for (int category = 1; category <= 4; category++)
            ck_assert_double_eq(acute_point_estimate((enum hazard_class)(CLASS_ACUTE_ORAL + route), category),
                                table[route][category - 1]);
    ck_assert(isnan(acute_point_estimate(CLASS_SKIN, 1)) && isnan(acute_point_estimate(CLASS_ACUTE_ORAL, 5)));
}
END_TEST

// Annex VI entries of acetic acid, tetrahydrofuran and methanol (specific limits from memory), each solution in water.
START_TEST(specific_limits_of_annex_vi) {
    static const char acid[] = "H314 H314>25 H315>10-25 H319>10-25 acid";
    static const struct {
        double percent;
        const char *codes;
    } acetic[] = {{90, "H314 H318"}, {25, "H314 H318"}, {24.9, "H315 H319"}, {10, "H315 H319"}, {9.9, ""}};
    char text[256];
    for (size_t i = 0; i < 5; i++) {
        snprintf(text, sizeof text, "%.17g %s; %.17g", acetic[i].percent, acid, 100 - acetic[i].percent);
        assert_eu(text, acetic[i].codes);
    }
    assert_eu("25 H319 H335 H319>25 H335>25; 75", "H319 H335");
    assert_eu("24.9 H319 H335 H319>25 H335>25; 75.1", "");
    assert_eu("10 H370 H370>10 H371>3-10; 90", "H370");
    assert_eu("9.9 H370 H370>10 H371>3-10; 90.1", "H371");
    assert_eu("3 H370 H370>10 H371>3-10; 97", "H371");
    assert_eu("2.9 H370 H370>10 H371>3-10; 97.1", "");
    assert_us("2.9 H370 H370>10 H371>3-10; 97.1", "H370"); // the EU's limits are not those of HCS
    assert_eu("5 H373 H373>5; 95", "H373");
    assert_eu("4.9 H373 H373>5; 95.1", "");
    // Additivity with specific limits: 12.5/25 + 5/10 = 1 (Guidance 1.6.3.4).
    assert_eu("12.5 H319 H319>25; 5 H319; 82.5", "H319");
    assert_eu("12.4 H319 H319>25; 5 H319; 82.6", "");
    // Of several entries for a code the lowest counts.
    assert_eu("30 H314 H314>25-90 H314>90; 70", "H314 H318");
    assert_eu("30 H314 H314>90 H314>25-90; 70", "H314 H318");
    // A specific limit below the generic cut-off of 1 % counts.
    assert_eu("0.5 H315 H315>0.5; 99.5", "H315");
}
END_TEST

// --- the generic limits, at the edge and just below (own arithmetic; tables named in classification_health.c) ---

struct edge {
    const char *at, *codes_at;
    const char *below, *codes_below;
};

static void assert_edges(const struct edge *edges, size_t count, enum classification_rules rules) {
    for (size_t i = 0; i < count; i++) {
        assert_codes(edges[i].at, rules, edges[i].codes_at);
        assert_codes(edges[i].below, rules, edges[i].codes_below);
    }
}

START_TEST(edges_of_acute_toxicity) {
    static const struct edge edges[] = {
        {"25 H302; 75", "H302", "24.9 H302; 75.1", ""},         // 500/0.25 = 2000
        {"55 H312; 45", "H312", "54.9 H312; 45.1", ""},         // 1100/0.55 = 2000
        {"55 H332; 45", "H332", "54.9 H332; 45.1", ""},         // 11/0.55 = 20
        {"33.4 H301; 66.6", "H301", "33.3 H301; 66.7", "H302"}, // 100/0.334 = 299.4
        {"5 H301; 95", "H302", "4.9 H301; 95.1", ""},           // 100/0.05 = 2000
        {"30 H311; 70", "H311", "29.9 H311; 70.1", "H312"},     // 300/0.3 = 1000
        {"30 H331; 70", "H331", "29.9 H331; 70.1", "H332"},     // 3/0.3 = 10
        {"15 H331; 85", "H332", "14.9 H331; 85.1", ""},         // 3/0.15 = 20
        {"1 H300; 99", "H300", "0.9 H300; 99.1", "H301"},       // 0.5/0.01 = 50
        {"10 H330; 90", "H330", "2.4 H330; 97.6", "H331"},      // 0.05/0.024 = 2.08
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_EU_CLP);
    // Sums over components: 12.5/500 + 2.5/100 = 1/20 = 100/2000.
    assert_eu("12.5 H302; 2.5 H301; 85", "H302");
    assert_eu("12.4 H302; 2.5 H301; 85.1", "");
    // Category 4 counts from 1 %, category 3 from 0.1 %.
    assert_eu("0.9 H302 oral=1; 99.1", "");
    assert_eu("0.1 H301 oral=2; 99.9", "H302");
    assert_eu("0.09 H301 oral=1; 99.91", "");
}
END_TEST

// 3.1.3.6.2.3: above 10 % of unknown toxicity the rest is held against itself.
START_TEST(unknown_components_correct_the_sum) {
    assert_eu("20 H302; 10 ?; 70", "");     // 500/0.2 = 2500
    assert_eu("20 H302; 20 ?; 60", "H302"); // 80/(20/500) = 2000
    assert_eu("19.9 H302; 20 ?; 60.1", "");
    struct mixture mix;
    mixture_read(&mix, "20 H302; 20 ?; 60");
    mixture_classify(&mix);
    ck_assert_uint_eq(mix.answer.unknown, 1u << 1);
    ck_assert_double_eq_tol(mix.answer.unknown_percent, 20, 1e-12);
    ck_assert_ptr_nonnull(strstr(mix.answer.notes[0], "No hazard data"));
    arena_release(&mix.arena);
}
END_TEST

START_TEST(edges_of_skin_and_eye) {
    static const struct edge edges[] = {
        {"5 H314; 95", "H314 H318", "4.99 H314; 95.01", "H315 H318"},
        {"3 H314; 97", "H315 H318", "2.99 H314; 97.01", "H315 H319"},
        {"1 H314; 99", "H315 H319", "0.99 H314; 99.01", ""},
        {"10 H315; 90", "H315", "9.99 H315; 90.01", ""},
        {"3 H318; 97", "H318", "2.99 H318; 97.01", "H319"},
        {"1 H318; 99", "H319", "0.99 H318; 99.01", ""},
        {"10 H319; 90", "H319", "9.99 H319; 90.01", ""},
        {"4 H315; 6 H315; 90", "H315", "4 H315; 5.9 H315; 90.1", ""},
        {"2 H318; 1 H314; 97", "H315 H318", "1.9 H318; 1 H314; 97.1", "H315 H319"},
        // acids and bases: 1 % and 3 %, not additive in the table but never below its limits
        {"1 H314 acid; 99", "H314 H318", "0.99 H314 acid; 99.01", ""},
        {"3 H315 acid; 97", "H315", "2.99 H315 acid; 97.01", ""},
        {"3 H319 acid; 97", "H319", "2.99 H319 acid; 97.01", ""},
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_EU_CLP);
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_US_HCS);
    assert_us("10 H320; 90", "H320");
    assert_us("9.9 H320; 90.1", "");
    assert_eu("10 H320; 90", "");
}
END_TEST

START_TEST(edges_of_single_components_eu) {
    static const struct edge edges[] = {
        {"1 H317; 99", "H317", "0.99 H317; 99.01", "EUH208"},
        {"1 H317 1B; 99", "H317", "0.99 H317 1B; 99.01", "EUH208"},
        {"0.1 H317 1A; 99.9", "H317", "0.099 H317 1A; 99.901", "EUH208"},
        {"0.1 H317; 99.9", "EUH208", "0.099 H317; 99.901", ""},
        {"0.01 H317 1A; 99.99", "EUH208", "0.0099 H317 1A; 99.9901", ""},
        {"0.6 H317 H317>0.6; 99.4", "H317", "0.59 H317 H317>0.6; 99.41", "EUH208"},
        {"0.06 H317 H317>0.6; 99.94", "EUH208", "0.059 H317 H317>0.6; 99.941", ""},
        {"1 H334; 99", "H334", "0.99 H334; 99.01", "EUH208"},
        {"0.1 H340; 99.9", "H340", "0.099 H340; 99.901", ""},
        {"1 H341; 99", "H341", "0.99 H341; 99.01", ""},
        {"0.1 H350; 99.9", "H350", "0.099 H350; 99.901", ""},
        {"1 H351; 99", "H351", "0.99 H351; 99.01", ""},
        {"0.3 H360D; 99.7", "H360D", "0.29 H360D; 99.71", ""},
        {"3 H361f; 97", "H361f", "2.99 H361f; 97.01", ""},
        {"0.3 H362; 99.7", "H362", "0.29 H362; 99.71", ""},
        {"10 H370; 90", "H370", "9.99 H370; 90.01", "H371"},
        {"1 H370; 99", "H371", "0.99 H370; 99.01", ""},
        {"10 H371; 90", "H371", "9.99 H371; 90.01", ""},
        {"10 H372; 90", "H372", "9.99 H372; 90.01", "H373"},
        {"1 H372; 99", "H373", "0.99 H372; 99.01", ""},
        {"10 H373; 90", "H373", "9.99 H373; 90.01", ""},
        {"0.1 H420; 99.9", "H420", "0.099 H420; 99.901", ""},
        // not additive
        {"9 H373; 1 H372; 90", "H373", "9 H373; 0.9 H372; 90.1", ""},
        {"5 H373; 95", "", "9.9 H373; 9.9 H373; 80.2", ""},
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_EU_CLP);
}
END_TEST

// The reason names the limit that was met: of several the lowest, of an estimate the end of its category (CLP Annex I
// table 3.1.1, from memory; up to 5, 50, 300 and 2000 mg/kg by mouth).
START_TEST(reasons_name_the_limit) {
    static const struct {
        const char *text, *reason;
    } cases[] = {{"0.6 H351 H351>0.5; 2 H351; 97.4", "from 0.5 %"},
                 {"2 H351; 0.6 H351 H351>0.5; 97.4", "from 0.5 %"},
                 {"100 H300 oral=4.9", "at most 5 "},
                 {"100 H300 oral=49", "at most 50 "},
                 {"100 H301 oral=299", "at most 300 "},
                 {"100 H302 oral=1999", "at most 2000 "},
                 {"100 H330 vapour=0.49", "at most 0.5 "},
                 {"100 H332 vapour=19", "at most 20 "}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        struct mixture mix;
        mixture_read(&mix, cases[i].text);
        mixture_classify(&mix);
        ck_assert_uint_ge(mix.answer.count, 1);
        ck_assert_msg(strstr(mix.answer.statements[0].reason, cases[i].reason) != NULL, "%s: %s", cases[i].text,
                      mix.answer.statements[0].reason);
        arena_release(&mix.arena);
    }
}
END_TEST

// HCS table A.6.1 (from memory): from 0.1 to 1 % a suspected carcinogen goes on the data sheet, the label is optional.
START_TEST(the_optional_warning_of_hcs) {
    static const struct {
        const char *text;
        enum classification_rules rules;
        bool told;
    } cases[] = {
        {"2 H351; 98", RULES_US_HCS, true}, {"2 H351; 98", RULES_EU_CLP, false}, {"2 H341; 98", RULES_US_HCS, false}};
    for (size_t i = 0; i < 3; i++) {
        struct mixture mix;
        bool told = false;
        mixture_read(&mix, cases[i].text);
        mix.input.rules = cases[i].rules;
        mixture_classify(&mix);
        for (size_t k = 0; k < mix.answer.note_count; k++)
            told = told || strstr(mix.answer.notes[k], "the label warning is optional");
        ck_assert_int_eq(told, cases[i].told);
        arena_release(&mix.arena);
    }
}
END_TEST

START_TEST(edges_of_single_components_us) {
    static const struct edge edges[] = {
        {"0.1 H317; 99.9", "H317", "0.099 H317; 99.901", ""},
        {"1 H317 1B; 99", "H317", "0.99 H317 1B; 99.01", ""},
        {"0.1 H317 1A; 99.9", "H317", "0.099 H317 1A; 99.901", ""},
        {"0.1 H340; 99.9", "H340", "0.099 H340; 99.901", ""},
        {"1 H341; 99", "H341", "0.99 H341; 99.01", ""},
        {"0.1 H351; 99.9", "H351", "0.099 H351; 99.901", ""},
        {"0.1 H360D; 99.9", "H360D", "0.099 H360D; 99.901", ""},
        {"0.1 H361d; 99.9", "H361d", "0.099 H361d; 99.901", ""},
        {"1 H370; 99", "H370", "0.99 H370; 99.01", ""},
        {"1 H371; 99", "H371", "0.99 H371; 99.01", ""},
        {"1 H372; 99", "H372", "0.99 H372; 99.01", ""},
        {"1 H373; 99", "H373", "0.99 H373; 99.01", ""},
        {"100 H420", "", "100 H410", ""},
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_US_HCS);
}
END_TEST

// 3.7: letters of several components joined.
START_TEST(reproductive_letters_join) {
    assert_eu("50 H360D; 50 H360F", "H360FD");
    assert_eu("50 H360D; 50 H361f", "H360Df");
    assert_eu("50 H360F; 50 H361d", "H360Fd");
    assert_eu("50 H361f; 50 H361d", "H361fd");
    assert_eu("50 H360FD; 50 H361d", "H360FD");
    assert_eu("50 H361; 50 H361d", "H361");
    assert_eu("50 H360D; 50 H361", "H360Df");
    assert_eu("50 H360; 50 H360D", "H360");
    assert_eu("1 H360D; 1 H361f; 98", "H360D"); // the second below 3 %
}
END_TEST

START_TEST(edges_of_category_3_and_aspiration) {
    static const struct edge edges[] = {
        {"20 H335; 80", "H335", "19.9 H335; 80.1", ""},
        {"20 H336; 80", "H336", "19.9 H336; 80.1", ""},
        {"12 H336; 8 H336; 80", "H336", "12 H336; 7.9 H336; 80.1", ""},
        {"12 H336; 19 H335; 69", "", "12 H335; 8 H336; 80", ""}, // additive within an effect only
        {"10 H304; 90", "H304", "9.9 H304; 90.1", ""},
        {"6 H304; 4 H304; 90", "H304", "6 H304; 3.9 H304; 90.1", ""},
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_EU_CLP);
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_US_HCS);
    // 3.8.3.4.5 with specific limits: 10/25 + 12/20 = 1.
    assert_eu("10 H335 H335>25; 12 H335; 78", "H335");
    assert_eu("9.9 H335 H335>25; 12 H335; 78.1", "");
}
END_TEST

START_TEST(aspiration_hazard_stands_unless_the_viscosity_is_known_and_high) {
    static const struct {
        double viscosity;
        bool stands;
        const char *words;
    } cases[] = {{NAN, true, "not known, so H304 stands"}, {20.5, true, "20.5 mm2/s"}, {20.6, false, ""}};
    for (size_t i = 0; i < 3; i++) {
        struct mixture mix;
        mixture_read(&mix, "50 H304; 50");
        mix.input.viscosity_40c_mm2_s = cases[i].viscosity;
        mixture_classify(&mix);
        ck_assert(classification_has(&mix.answer, "H304") == cases[i].stands);
        if (cases[i].stands)
            ck_assert_ptr_nonnull(strstr(mix.answer.statements[0].reason, cases[i].words));
        else
            ck_assert_ptr_nonnull(strstr(mix.answer.notes[0], "H304 does not apply"));
        arena_release(&mix.arena);
    }
}
END_TEST

// Annex I tables 4.1.1 and 4.1.2 (from memory), own arithmetic.
START_TEST(edges_of_water_hazards) {
    static const struct edge edges[] = {
        {"25 H400; 75", "H400", "24.9 H400; 75.1", ""},
        {"25 H410; 75", "H410", "24.9 H410; 75.1", "H411"},
        {"2.5 H410; 97.5", "H411", "2.4 H410; 97.6", "H412"},
        {"0.25 H410; 99.75", "H412", "0.24 H410; 99.76", ""},
        {"25 H411; 75", "H411", "24.9 H411; 75.1", "H412"},
        {"2.5 H411; 97.5", "H412", "2.4 H411; 97.6", ""},
        {"25 H412; 75", "H412", "24.9 H412; 75.1", ""},
        {"25 H413; 75", "H413", "24.9 H413; 75.1", ""},
        {"2 H410; 5 H411; 93", "H411", "2 H410; 4.9 H411; 93.1", "H412"}, // 20 + 5
        {"2.5 H400 M=10; 97.5", "H400", "2.4 H400 M=10; 97.6", ""},
        {"2.5 H410 Mc=10; 97.5", "H410", "2.4 H410 Mc=10; 97.6", "H411"},
        {"0.025 H410 Mc=10; 99.975", "H412", "0.009 H410 Mc=10; 99.991", ""}, // cut-off 0.1 % / M
        {"15 H413; 10 H412; 75", "H413", "15 H413; 9.9 H412; 75.1", ""},
    };
    assert_edges(edges, sizeof edges / sizeof edges[0], RULES_EU_CLP);
    // Categories 2 to 4 count from 1 % of a component.
    assert_eu("24 H412; 1 H412; 75", "H412");
    assert_eu("24.1 H412; 0.9 H412; 75", "");
}
END_TEST

START_TEST(flammable_liquids_by_flash_and_boiling_point) {
    static const struct {
        double flash_c, boiling_c;
        const char *eu, *us;
    } cases[] = {
        {22.9, 35, "H224", "H224"}, {22.9, 35.1, "H225", "H225"}, {-40, NAN, "H225", "H225"}, {23, 20, "H226", "H226"},
        {60, 150, "H226", "H226"},  {60.1, 150, "", "H227"},      {93, 200, "", "H227"},      {93.1, 200, "", ""},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        for (int rules = RULES_EU_CLP; rules <= RULES_US_HCS; rules++) {
            struct mixture mix;
            char codes[64];
            mixture_read(&mix, "50 H225; 50");
            mix.input.rules = (enum classification_rules)rules;
            mix.input.flash = FLASH_KNOWN;
            mix.input.flash_c = cases[i].flash_c;
            mix.input.boiling_c = cases[i].boiling_c;
            mixture_classify(&mix);
            ck_assert_str_eq(codes_of(&mix.answer, codes, sizeof codes),
                             rules == RULES_EU_CLP ? cases[i].eu : cases[i].us);
            arena_release(&mix.arena);
        }
}
END_TEST

// Without a boiling point, category 1 only where a component has it.
START_TEST(flammable_liquid_of_unknown_boiling_point) {
    static const char *const texts[] = {"10 H224; 90 H225", "10 H225; 90 H226"};
    for (size_t i = 0; i < 2; i++) {
        struct mixture mix;
        mixture_read(&mix, texts[i]);
        mix.input.flash = FLASH_KNOWN;
        mix.input.flash_c = 0;
        mixture_classify(&mix);
        ck_assert(classification_has(&mix.answer, i == 0 ? "H224" : "H225"));
        ck_assert_ptr_nonnull(strstr(mix.answer.notes[0], "No initial boiling point"));
        arena_release(&mix.arena);
    }
}
END_TEST

START_TEST(without_a_flash_point_the_most_flammable_component_stands) {
    struct mixture mix;
    mixture_read(&mix, "1 H224; 49 H226; 50");
    mix.input.flash = FLASH_NOT_KNOWN;
    mixture_classify(&mix);
    ck_assert(mix.answer.count == 1 && classification_has(&mix.answer, "H224"));
    ck_assert_ptr_nonnull(strstr(mix.answer.statements[0].reason, "no flash point"));
    ck_assert_str_eq(mix.answer.precautions[0], "P210");
    arena_release(&mix.arena);
}
END_TEST

START_TEST(supplementary_statements_are_carried) {
    assert_eu("10 EUH066; 90", "EUH066");
    assert_eu("9.9 EUH066; 90.1", "");
    assert_eu("50 EUH066 H315; 50", "H315"); // Annex II 1.2.4: not beside an irritant classification
    assert_eu("1 EUH019; 99", "EUH019");
    assert_us("1 EUH019; 99", "EUH019");
    assert_us("50 EUH066; 50", "");
    assert_eu("50 H314 EUH071; 50", "H314 H318 EUH071");
    assert_eu("2 H319 EUH071; 98", "");
    assert_eu("50 H332 EUH071; 50", "");
    assert_eu("100 H330 EUH071", "H330 EUH071");
    assert_eu("100 H331 EUH071", "H331 EUH071");
    assert_eu("100 H332 EUH071", "H332 EUH071");
    assert_eu("1 H290; 99", "H290");
    assert_eu("5 H206; 95", "H206"); // a code without a rule here
}
END_TEST

// --- label elements ---

static void label_of(const char *text, enum classification_rules rules, struct mixture *mix) {
    mixture_read(mix, text);
    mix->input.rules = rules;
    mixture_classify(mix);
}

static void assert_pictograms(const char *text, enum classification_rules rules, const char *expected) {
    struct mixture mix;
    char got[16] = "";
    label_of(text, rules, &mix);
    for (int i = 0; i < 10; i++)
        if (mix.answer.pictograms[i])
            snprintf(got + strlen(got), sizeof got - strlen(got), "%d", i);
    ck_assert_msg(strcmp(got, expected) == 0, "%s: pictograms %s, expected %s", text, got, expected);
    arena_release(&mix.arena);
}

// Art. 26(1) (from memory).
START_TEST(pictograms_by_precedence) {
    assert_pictograms("100 H301 H336", RULES_EU_CLP, "6");
    assert_pictograms("100 H301 H336", RULES_US_HCS, "67"); // HCS C.2.1.2: for acute toxicity only
    assert_pictograms("100 H301 H312", RULES_US_HCS, "6");
    assert_pictograms("100 H318 H315", RULES_EU_CLP, "5");
    assert_pictograms("100 H318 H315 H302", RULES_EU_CLP, "57");
    assert_pictograms("100 H334 H317 H319", RULES_EU_CLP, "8");
    assert_pictograms("100 H304 H317", RULES_EU_CLP, "78");
    assert_pictograms("100 H411", RULES_EU_CLP, "9");
    assert_pictograms("100 H412", RULES_EU_CLP, "");
    assert_pictograms("100 H420", RULES_EU_CLP, "7");
}
END_TEST

START_TEST(signal_word_is_the_graver) {
    static const struct {
        const char *text;
        enum hazard_signal signal;
    } cases[] = {{"100", SIGNAL_NONE},
                 {"100 H412", SIGNAL_NONE},
                 {"100 H319", SIGNAL_WARNING},
                 {"100 H319 H304", SIGNAL_DANGER}};
    for (size_t i = 0; i < 4; i++) {
        struct mixture mix;
        label_of(cases[i].text, RULES_EU_CLP, &mix);
        ck_assert_int_eq(mix.answer.signal, cases[i].signal);
        arena_release(&mix.arena);
    }
}
END_TEST

START_TEST(covered_statements_are_left_off) {
    struct mixture mix;
    label_of("100 H314 H400 H410", RULES_EU_CLP, &mix);
    for (size_t i = 0; i < mix.answer.count; i++) {
        const struct classified_statement *s = &mix.answer.statements[i];
        bool covered = strcmp(s->code, "H318") == 0 || strcmp(s->code, "H400") == 0;
        ck_assert_msg((s->left_off != NULL) == covered, "%s", s->code);
    }
    ck_assert_uint_eq(mix.answer.count, 4);
    arena_release(&mix.arena);
}
END_TEST

// Art. 28(3): six as a rule; the stated order decides.
START_TEST(at_most_six_precautions_the_most_urgent_first) {
    struct mixture mix;
    label_of("100 H304 H301 H314 H317 H350 H370 H410", RULES_EU_CLP, &mix);
    static const char *const expected[] = {"P301+P310", "P331", "P260", "P280", "P305+P351+P338", "P201"};
    ck_assert_uint_eq(mix.answer.precaution_count, 6);
    for (size_t i = 0; i < 6; i++)
        ck_assert_str_eq(mix.answer.precautions[i], expected[i]);
    ck_assert_uint_gt(mix.answer.precaution_more_count, 5);
    for (size_t i = 0; i < mix.answer.precaution_more_count; i++)
        ck_assert_str_ne(mix.answer.precautions_more[i], "P261"); // P260 is the stricter
    arena_release(&mix.arena);
    label_of("100 H336 H317 H400", RULES_EU_CLP, &mix);
    static const char *const lighter[] = {"P261", "P280", "P304+P340", "P302+P352", "P271", "P273"};
    for (size_t i = 0; i < 6; i++)
        ck_assert_str_eq(mix.answer.precautions[i], lighter[i]);
    arena_release(&mix.arena);
    label_of("100 H315", RULES_EU_CLP, &mix);
    ck_assert_str_eq(mix.answer.precautions[1], "P302+P352");
    arena_release(&mix.arena);
    label_of("100 H319", RULES_EU_CLP, &mix);
    ck_assert_str_eq(mix.answer.precautions[0], "P280");
    ck_assert_str_eq(mix.answer.precautions[1], "P305+P351+P338");
    ck_assert_str_eq(mix.answer.precautions[2], "P264");
    ck_assert_uint_eq(mix.answer.precaution_count, 3);
    arena_release(&mix.arena);
}
END_TEST

// Art. 18(3)(b): at most four, the gravest first; irritants and water hazards alone are not named.
START_TEST(named_components) {
    struct mixture mix;
    label_of("10 H304; 20 H336; 5 H350; 15 H304; 10 H372; 30 H315; 10 H411", RULES_EU_CLP, &mix);
    static const size_t expected[] = {2, 4, 3, 0};
    ck_assert_uint_eq(mix.answer.named_count, 4);
    for (size_t i = 0; i < 4; i++)
        ck_assert_uint_eq(mix.answer.named[i], expected[i]);
    arena_release(&mix.arena);
    label_of("50 H315; 50 H411", RULES_EU_CLP, &mix);
    ck_assert_uint_eq(mix.answer.named_count, 0);
    arena_release(&mix.arena);
}
END_TEST

START_TEST(what_was_assumed_is_said) {
    struct mixture mix;
    label_of("40 H315; 40 H319 H319>25; 10 H410; 5 H400 M=1; 5 H400", RULES_EU_CLP, &mix);
    ck_assert_uint_eq(mix.answer.limits_assumed, 1u << 0);
    ck_assert_uint_eq(mix.answer.factors_assumed, 1u << 2 | 1u << 4);
    ck_assert_str_eq(mix.answer.notes[0], "Specific limits not checked, generic ones used: a 40 %.");
    ck_assert_str_eq(mix.answer.notes[1], "M-factors not entered, 1 used: c 10 %, e 5 %.");
    arena_release(&mix.arena);
}
END_TEST

START_TEST(fractions_that_are_no_composition_are_refused) {
    static const char *const texts[] = {"50 H315; 49 H315", "-1 H315; 101 H315", "nan H315"};
    for (size_t i = 0; i < 3; i++) {
        struct mixture mix;
        struct error err = {0};
        mixture_read(&mix, texts[i]);
        mix.answer.count = 77;
        ck_assert_int_eq(classify(&mix.input, &mix.arena, &mix.answer, &err), STATUS_RANGE);
        ck_assert_uint_eq(mix.answer.count, 77); // untouched
        arena_release(&mix.arena);
    }
}
END_TEST

// As many components and remarks as a blend can have.
START_TEST(the_fullest_blend_has_room) {
    struct mixture mix;
    mixture_read(&mix, "100 H300 H310 H330 H314 H334 H317 H290");
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    for (size_t i = 0; i < BLEND_COMPONENTS_MAX; i++) {
        components[i] = mix.components[0];
        fractions[i] = 1.0 / BLEND_COMPONENTS_MAX;
    }
    mix.input.count = BLEND_COMPONENTS_MAX;
    mix.input.components = components;
    mix.input.mass_fractions = fractions;
    mixture_classify(&mix);
    ck_assert_uint_ge(mix.answer.note_count, 3 * BLEND_COMPONENTS_MAX); // "category 1 or 2; 1 is assumed"
    ck_assert_uint_eq(mix.answer.named_count, NAMED_MAX);
    arena_release(&mix.arena);
}
END_TEST

START_TEST(every_failing_allocation_is_reported) {
    for (unsigned long n = 1;; n++) {
        struct mixture mix;
        struct error err = {0};
        mixture_read(&mix, "20 H304 H336; 20 H361d; 20 H317 EUH066; 20 H410; 20 ?");
        memory_fail_at(n);
        enum status status = classify(&mix.input, &mix.arena, &mix.answer, &err);
        memory_fail_at(0);
        arena_release(&mix.arena);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 5);
            break;
        }
        ck_assert_int_eq(status, STATUS_MEMORY);
    }
}
END_TEST

// --- the tables ---

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_STATEMENTS);
}

static void close_tables(void) {
    library_release(&lib);
}

static struct classification_input neat_input(const struct component *const *component) {
    static const double one = 1;
    return (struct classification_input){.rules = RULES_EU_CLP,
                                         .count = 1,
                                         .components = component,
                                         .mass_fractions = &one,
                                         .boiling_c = NAN,
                                         .viscosity_40c_mm2_s = NAN};
}

static bool in_list(const struct text_list *list, const char *code) {
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->items[i], code) == 0)
            return true;
    return false;
}

// A neat liquid of the tables has its own codes (Annex VI, read; suppliers, partly from memory), pictograms and signal
// word (computed in the collected file by Art. 26). What the rules add or drop: H318 of a corrosive, which the lists
// omit; EUH066 beside H315.
START_TEST(neat_liquids_have_their_own_classification) {
    size_t checked = 0;
    for (size_t n = 0; n < lib.component_count; n++) {
        const struct component *component = &lib.components[n];
        const struct hazard *hazard = component->hazard;
        struct classification_input input = neat_input(&component);
        struct arena arena = {0};
        struct classification answer;
        ck_assert_int_eq(classify(&input, &arena, &answer, NULL), STATUS_OK);
        for (size_t i = 0; i < hazard->h_statements.count; i++) {
            const char *code = hazard->h_statements.items[i];
            bool covered = strcmp(code, "EUH066") == 0 && classification_has(&answer, "H315");
            ck_assert_msg(classification_has(&answer, code) || covered, "%s: lost %s", component->id, code);
            checked++;
        }
        for (size_t i = 0; i < answer.count; i++) {
            bool implied = strcmp(answer.statements[i].code, "H318") == 0 && answer.statements[i].left_off;
            ck_assert_msg(in_list(&hazard->h_statements, answer.statements[i].code) || implied, "%s: gained %s",
                          component->id, answer.statements[i].code);
        }
        for (int i = 1; i < 10; i++) {
            char name[8];
            snprintf(name, sizeof name, "GHS%02d", i);
            ck_assert_msg(answer.pictograms[i] == in_list(&hazard->pictograms, name), "%s: %s", component->id, name);
        }
        ck_assert_msg((int)answer.signal == hazard->signal_word, "%s: signal word", component->id);
        arena_release(&arena);
    }
    ck_assert_uint_gt(checked, 300);
}
END_TEST

// Note P: a petroleum cut is a carcinogen only while its benzene content is not known.
START_TEST(note_p_counts_when_the_benzene_content_is_not_known) {
    const struct component *component = tables_component(&lib, "white-spirit");
    struct classification_input input = neat_input(&component);
    for (int unknown = 0; unknown < 2; unknown++) {
        struct arena arena = {0};
        struct classification answer;
        input.benzene_content_unknown = unknown;
        ck_assert_int_eq(classify(&input, &arena, &answer, NULL), STATUS_OK);
        ck_assert(classification_has(&answer, "H350") == (unknown == 1));
        ck_assert(classification_has(&answer, "H340") == (unknown == 1));
        bool told = false;
        for (size_t i = 0; i < answer.note_count; i++)
            told = told || strstr(answer.notes[i], "Note P");
        ck_assert(told);
        arena_release(&arena);
    }
}
END_TEST

// Mass, not volume: 50 : 50 by volume of dichloromethane and isooctane is 66 % by mass of the first (densities 1.33,
// 0.69).
START_TEST(a_blend_is_judged_by_mass) {
    struct blend blend = tables_blend(&lib, "dichloromethane 8 + isooctane 92");
    struct classification_input input = {.flash = FLASH_NONE, .boiling_c = NAN, .viscosity_40c_mm2_s = NAN};
    struct arena arena = {0};
    struct classification answer;
    ck_assert_int_eq(classify_blend(&blend, &input, &arena, &answer, NULL), STATUS_OK);
    ck_assert(classification_has(&answer, "H373")); // 8 % by volume is 14 % by mass, above 10
    arena_release(&arena);
}
END_TEST

static bool some_component_has(const struct blend *blend, enum hazard_class class) {
    for (size_t i = 0; i < blend->count; i++)
        for (size_t k = 0; k < blend->components[i]->hazard->h_statements.count; k++) {
            const struct hazard_code *code = hazard_code_find(blend->components[i]->hazard->h_statements.items[k]);
            bool same = code->class == class || (class == CLASS_EYE && code->class == CLASS_SKIN) ||
                        (class == CLASS_SUPPLEMENTAL && code->class == CLASS_SKIN_SENSITISER);
            if (same)
                return true;
        }
    return false;
}

// Laws: no class appears that no component has; every code and precaution has a wording, every statement a reason; the
// answer never depends on the order of the components.
START_TEST(random_blends_keep_the_laws) {
    struct random random = {20261125};
    for (int n = 0; n < 3000; n++) {
        struct blend blend = {.count = 1 + random_below(&random, 5)};
        double fractions[BLEND_COMPONENTS_MAX], turned[BLEND_COMPONENTS_MAX];
        const struct component *others[BLEND_COMPONENTS_MAX];
        random_fractions(&random, blend.count, fractions);
        for (size_t i = 0; i < blend.count; i++) {
            blend.components[i] = &lib.components[random_below(&random, lib.component_count)];
            others[blend.count - 1 - i] = blend.components[i];
            turned[blend.count - 1 - i] = fractions[i];
        }
        struct classification_input input = {.rules = n % 3 ? RULES_EU_CLP : RULES_US_HCS,
                                             .count = blend.count,
                                             .components = blend.components,
                                             .mass_fractions = fractions,
                                             .boiling_c = NAN,
                                             .viscosity_40c_mm2_s = NAN};
        struct arena arena = {0};
        struct classification answer, other;
        ck_assert_int_eq(classify(&input, &arena, &answer, NULL), STATUS_OK);
        input.components = others;
        input.mass_fractions = turned;
        ck_assert_int_eq(classify(&input, &arena, &other, NULL), STATUS_OK);
        char codes[256], other_codes[256];
        ck_assert_str_eq(codes_of(&answer, codes, sizeof codes), codes_of(&other, other_codes, sizeof other_codes));
        for (size_t i = 0; i < answer.count; i++) {
            const struct classified_statement *s = &answer.statements[i];
            ck_assert_msg(some_component_has(&blend, s->kind->class), "%s from nowhere", s->code);
            ck_assert_msg(library_statement(&lib, s->code) != NULL, "no wording for %s", s->code);
            ck_assert(s->from != 0 && strlen(s->reason) > 10);
        }
        for (size_t i = 0; i < answer.precaution_count; i++)
            ck_assert_ptr_nonnull(library_statement(&lib, answer.precautions[i]));
        for (size_t i = 0; i < answer.precaution_more_count; i++)
            ck_assert_ptr_nonnull(library_statement(&lib, answer.precautions_more[i]));
        ck_assert_uint_le(answer.precaution_count, PRECAUTIONS_MAX);
        arena_release(&arena);
    }
}
END_TEST

static Suite *classification_suite(void) {
    Suite *suite = suite_create("classification");
    TCase *rules = tcase_create("rules");
    tcase_add_test(rules, acute_oral_example_osha_guidance);
    tcase_add_test(rules, skin_example_echa_guidance);
    tcase_add_test(rules, point_estimates_of_table_3_1_2);
    tcase_add_test(rules, specific_limits_of_annex_vi);
    tcase_add_test(rules, edges_of_acute_toxicity);
    tcase_add_test(rules, unknown_components_correct_the_sum);
    tcase_add_test(rules, edges_of_skin_and_eye);
    tcase_add_test(rules, edges_of_single_components_eu);
    tcase_add_test(rules, edges_of_single_components_us);
    tcase_add_test(rules, reasons_name_the_limit);
    tcase_add_test(rules, the_optional_warning_of_hcs);
    tcase_add_test(rules, reproductive_letters_join);
    tcase_add_test(rules, edges_of_category_3_and_aspiration);
    tcase_add_test(rules, aspiration_hazard_stands_unless_the_viscosity_is_known_and_high);
    tcase_add_test(rules, edges_of_water_hazards);
    tcase_add_test(rules, flammable_liquids_by_flash_and_boiling_point);
    tcase_add_test(rules, flammable_liquid_of_unknown_boiling_point);
    tcase_add_test(rules, without_a_flash_point_the_most_flammable_component_stands);
    tcase_add_test(rules, supplementary_statements_are_carried);
    suite_add_tcase(suite, rules);
    TCase *label = tcase_create("label");
    tcase_add_test(label, pictograms_by_precedence);
    tcase_add_test(label, signal_word_is_the_graver);
    tcase_add_test(label, covered_statements_are_left_off);
    tcase_add_test(label, at_most_six_precautions_the_most_urgent_first);
    tcase_add_test(label, named_components);
    tcase_add_test(label, what_was_assumed_is_said);
    tcase_add_test(label, fractions_that_are_no_composition_are_refused);
    tcase_add_test(label, the_fullest_blend_has_room);
    tcase_add_test(label, every_failing_allocation_is_reported);
    suite_add_tcase(suite, label);
    TCase *tables = tcase_create("tables");
    tcase_add_unchecked_fixture(tables, open_tables, close_tables);
    tcase_add_test(tables, neat_liquids_have_their_own_classification);
    tcase_add_test(tables, note_p_counts_when_the_benzene_content_is_not_known);
    tcase_add_test(tables, a_blend_is_judged_by_mass);
    tcase_add_test(tables, random_blends_keep_the_laws);
    suite_add_tcase(suite, tables);
    return suite;
}

int main(void) {
    return suite_run(classification_suite());
}
