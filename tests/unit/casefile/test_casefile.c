// SPDX-License-Identifier: GPL-3.0-or-later
// What a case may say, and which line is wrong and how when it says something else.
#include "base/memory.h"
#include "casefile/casefile.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct arena arena;
static const struct date as_of = {.year = 2025, .month = 3, .day = 1};

static void open_tables(void) {
    tables_open(&lib, CASE_TABLES);
}

static void close_tables(void) {
    library_release(&lib);
}

static void drop(void) {
    arena_release(&arena);
}

static enum status parse(const char *bytes, struct casefile *ret, struct fault_list *faults, struct error *err) {
    return casefile_parse(&arena, "c.yaml", bytes, strlen(bytes), &lib, as_of, ret, faults, err);
}

static struct casefile good(const char *bytes) {
    struct casefile file = {0};
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_msg(parse(bytes, &file, &faults, &err) == STATUS_OK, "%s", err.text);
    ck_assert_msg(faults.count == 0, "%s", text_bytes(&faults.lines));
    faults_release(&faults);
    return file;
}

// Exactly the one fault, which begins with these words.
static void fault(const char *bytes, const char *words) {
    struct casefile file;
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_msg(parse(bytes, &file, &faults, &err) == STATUS_OK, "%s", err.text);
    const char *lines = text_bytes(&faults.lines);
    ck_assert_msg(strncmp(lines, words, strlen(words)) == 0, "expected '%s', got: %s", words, lines);
    ck_assert_msg(faults.count == 1, "%s", lines);
    faults_release(&faults);
}

static void refuse(const char *bytes, const char *words) {
    struct casefile file;
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_int_eq(parse(bytes, &file, &faults, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
    ck_assert_uint_eq(faults.count, 0);
}

#define HEAD "mildsolve_case: 1\nobject: {title: t, width_mm: 520, height_mm: 410, measured_from: lower left}\n"

START_TEST(the_least_case) {
    struct casefile file = good("mildsolve_case: 1\nobject:\n  title: Ferry\n");
    ck_assert_str_eq(file.object.title, "Ferry");
    ck_assert(isnan(file.object.width_mm));
    ck_assert_uint_eq(file.tests.count, 0);
    ck_assert_uint_eq(file.library.bottle_count, lib.bottle_count);
    ck_assert_ptr_null(case_working_blend(&file));
    good(HEAD "layers:\npassages:\nbottles:\ndecisions:\ntests:\n"); // a form not yet filled in
}
END_TEST

START_TEST(everything_is_read) {
    struct casefile file = good(
        HEAD
        "studio: {name: s, country: Germany, limits: de}\n"
        "layers: [{id: v, kind: varnish, material: dammar-aged, alternatives: [mastic-aged], confidence: medium, "
        "thickness_um: 25}]\n"
        "passages: [{id: sky, place: {x_mm: 1, y_mm: 2, width_mm: 3, height_mm: 4}, tone: light, body: thick, "
        "sensitive: [lean], layers: [v]}]\n"
        "room: {volume_m3: 92, air_changes_per_h: 2.5, air_changes_are: measured, arm: capture measured, "
        "arm_capture_percent: 60}\n"
        "people: {at_work: 2, flags: [pregnancy announced]}\n"
        "goals: {remove: [v], spare: [linseed-oil-film-aged], unsure: [pvac]}\n"
        "delivery: {method: gel, load_ml_per_h: 18, contact_s: 20}\n"
        "decisions: [{date: 2025-02-01, by: IW, decision: d, blend: isooctane 90 + acetone 10}]\n"
        "tests: [{id: T1, date: 2025-02-02, passage: sky, x_mm: 520, y_mm: 0, layer: v, blend: isooctane, delivery: "
        "swab through tissue, contact_s: 20, rolls: 6, result: partly removed, colour_on_swab: unsure, blanching: "
        "wet only, photo: '0211'}]\n");
    const struct case_layer *layer = case_layer(&file, "v");
    ck_assert_int_eq(layer->kind, LAYER_VARNISH);
    ck_assert_double_eq(layer->thickness_um, 25);
    const struct case_passage *passage = case_passage(&file, "sky");
    ck_assert_double_eq(passage->place.height_mm, 4);
    ck_assert_int_eq(file.room.arm, ARM_MEASURED);
    ck_assert_int_eq(file.delivery.method, DELIVERY_GEL);
    const struct case_test *test = case_test(&file, "T1");
    ck_assert_int_eq(test->delivery, DELIVERY_TISSUE);
    ck_assert_int_eq(test->result, RESULT_PARTLY_REMOVED);
    ck_assert_int_eq(test->blanching, BLANCHING_WET);
    ck_assert_int_eq(test->rolls, 6);
    ck_assert_uint_eq(test->mix.count, 1);
    ck_assert(case_test_stops(test)); // unsure counts as original
    ck_assert_str_eq(case_working_blend(&file), "isooctane 90 + acetone 10");
    ck_assert_ptr_null(case_layer(&file, "w"));
    ck_assert_ptr_null(case_passage(&file, "w"));
    ck_assert_ptr_null(case_test(&file, "w"));
}
END_TEST

START_TEST(no_case_no_case_of_ours) {
    refuse("table: components\n", "c.yaml:1:1: no key 'mildsolve_case' at the top");
    refuse("- 1\n", "no key 'mildsolve_case' at the top");
    refuse("mildsolve_case: 2\nobject: {title: t, from_the_future: 1}\n",
           "c.yaml:1:17: this case was written for a newer mildsolve (case version 2; this program knows version 1); "
           "nothing was changed");
    refuse("mildsolve_case: 1\nobject: {title: t\n", "c.yaml:3:1: not valid YAML");
    refuse("mildsolve_case: 1\nobject:\n  title: \"half ty", "not valid YAML");
    fault("mildsolve_case: one\nobject: {title: t}\n", "c.yaml:1:17: mildsolve_case: 'one': a number is expected");
    fault("mildsolve_case: 0\nobject: {title: t}\n", "c.yaml:1:17: mildsolve_case: '0': is outside the valid range");
    fault("mildsolve_case: 1\n", "c.yaml:1:1: key 'object' is missing");
}
END_TEST

START_TEST(keys_and_words) {
    fault(HEAD "bottels: []\n", "c.yaml:3:1: key 'bottels' is not known in a case; did you mean 'bottles'?");
    fault("mildsolve_case: 1\nobject: {title: t, owner: somebody}\n", "c.yaml:2:20: object: key 'owner' is not known");
    fault(HEAD "layers: [{id: v, kind: varnisch}]\n",
          "c.yaml:3:24: layer 'v', kind: 'varnisch': one of these is expected: other, dirt, varnish,");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, blend: isooctane, result: goen}]\n",
          "c.yaml:3:62: test 'T1', result: 'goen': one of these is expected: none, gloss change, softened, partly "
          "removed, removed");
    fault(
        HEAD "passages: [{id: p, sensitive: [red lake glaze]}]\n",
        "c.yaml:3:31: passage 'p', sensitive: 'red lake glaze' is not known; nearest: 'red-lake glaze'; one of these");
    fault(HEAD "people: {flags: [pregnant]}\n", "c.yaml:3:17: people, flags: 'pregnant' is not known");
    fault(HEAD "studio: {limits: dee}\n", "c.yaml:3:18: studio, limits: no limit set is called 'dee'");
    good(HEAD "studio: {limits: strictest}\n");
}
END_TEST

START_TEST(names_that_must_exist) {
    fault(HEAD "layers: [{id: v, kind: varnish, material: damar-aged}]\n",
          "c.yaml:3:43: layer 'v', material: no material is called 'damar-aged'; nearest: dammar-aged");
    fault(HEAD "layers: [{id: v, kind: varnish, alternatives: [mastik-aged]}]\n",
          "c.yaml:3:47: layer 'v', alternatives: no material is called 'mastik-aged'");
    fault(HEAD "passages: [{id: p, layers: [w]}]\n", "c.yaml:3:28: passage 'p', layers: this case has no layer 'w'");
    fault(HEAD "goals: {remove: [dammer-old]}\n", "c.yaml:3:17: goals, remove: ");
    fault(HEAD "goals: {remove: [pvac], spare: [pvac]}\n",
          "c.yaml:3:32: goals, spare: 'pvac' stands under remove and under spare");
    fault(HEAD
          "passages: [{id: sky}]\ntests: [{id: T1, date: 2025-02-02, passage: skv, blend: isooctane, result: none}]\n",
          "c.yaml:4:45: test 'T1', passage: this case has no passage 'skv'; nearest: 'sky'");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, layer: v, blend: isooctane, result: none}]\n",
          "c.yaml:3:43: test 'T1', layer: this case has no layer 'v'");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, blend: isoctan 3, result: none}]\n",
          "c.yaml:3:43: test 'T1', blend: no solvent or bottle is called 'isoctan'; nearest: n-octane, isooctane");
    fault(HEAD "decisions: [{date: 2025-02-02, by: a, decision: b, blend: 'acetone 1:2'}]\n",
          "c.yaml:3:59: decision, blend: ");
    fault(HEAD "layers: [{id: v, kind: varnish}, {id: v, kind: paint}]\n",
          "c.yaml:3:39: layer 'v', id: stands here for the second time (first in line 3)");
    fault(HEAD "tests:\n- {id: T1, date: 2025-02-02, blend: isooctane, result: none}\n"
               "- {id: T1, date: 2025-02-02, blend: isooctane, result: none}\n",
          "c.yaml:5:8: test 'T1', id: stands here for the second time (first in line 4)");
}
END_TEST

START_TEST(places_lie_on_the_picture) {
    good(HEAD "tests: [{id: T1, date: 2025-02-02, x_mm: 0, y_mm: 410, blend: isooctane, result: none}]\n");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, x_mm: 521, y_mm: 4, blend: isooctane, result: none}]\n",
          "c.yaml:3:42: test 'T1', x_mm: 521 mm is outside the picture, which is 520 mm wide");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, x_mm: 52, y_mm: 410.5, blend: isooctane, result: none}]\n",
          "c.yaml:3:52: test 'T1', y_mm: 410.5 mm is outside the picture, which is 410 mm high");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, x_mm: -1, y_mm: 4, blend: isooctane, result: none}]\n",
          "c.yaml:3:42: test 'T1', x_mm: '-1': is outside the valid range");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, x_mm: 1, blend: isooctane, result: none}]\n",
          "c.yaml:3:42: test 'T1', x_mm: a site needs both x_mm and y_mm");
    fault(HEAD "passages: [{id: p, place: {x_mm: 500, y_mm: 2, width_mm: 21}}]\n",
          "c.yaml:3:27: passage 'p', place: 521 mm is outside the picture");
    fault("mildsolve_case: 1\nobject: {title: t}\npassages: [{id: p, place: {x_mm: 5, y_mm: 2}}]\n",
          "c.yaml:3:27: passage 'p', place: measured from which corner?");
    // without a size nobody can tell
    good("mildsolve_case: 1\nobject: {title: t, measured_from: upper right}\npassages: [{id: p, place: {x_mm: 9000, "
         "y_mm: 2}}]\n");
}
END_TEST

START_TEST(days_have_been) {
    good(HEAD "tests: [{id: T1, date: 2025-03-01, blend: isooctane, result: none}]\n");
    fault(HEAD "tests: [{id: T1, date: 2025-03-02, blend: isooctane, result: none}]\n",
          "c.yaml:3:24: test 'T1', date: 2025-03-02 lies in the future: today is 2025-03-01");
    fault(HEAD "tests: [{id: T1, date: 02.03.2025, blend: isooctane, result: none}]\n",
          "c.yaml:3:24: test 'T1', date: '02.03.2025': a date is expected, year-month-day: 2026-03-04");
    fault(HEAD "tests: [{id: T1, date: 2025-02-30, blend: isooctane, result: none}]\n",
          "c.yaml:3:24: test 'T1', date: '2025-02-30': a date is expected");
    fault(HEAD "decisions: [{date: 2025-04-01, by: a, decision: b}]\n",
          "c.yaml:3:20: decision, date: 2025-04-01 lies in the future");
    fault(HEAD "bottles: [{id: acetone, opened: 2025-04}]\n",
          "c.yaml:3:33: bottle 'acetone', opened: 2025-04-01 lies in the future");
    fault(HEAD "bottles: [{id: acetone, received: 2025-01-10, opened: 2024-11-01}]\n",
          "c.yaml:3:55: bottle 'acetone', opened: the bottle was opened before it was received");
    good(HEAD "bottles: [{id: acetone, received: 2025-01-10, opened: 2025-01}]\n");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, blend: isooctane, result: none, withdrawn: true}]\n",
          "c.yaml:3:79: test 'T1', withdrawn: a withdrawn test needs withdrawn_on");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, blend: isooctane, result: none, withdrawn_on: 2025-02-03}]\n",
          "c.yaml:3:82: test 'T1', withdrawn_on: has a day, but the test is not withdrawn");
    fault(HEAD "tests: [{id: T1, date: 2025-02-02, blend: isooctane, result: none, withdrawn: yes, withdrawn_on: "
               "2025-02-01}]\n",
          "c.yaml:3:98: test 'T1', withdrawn_on: the test was withdrawn before it was made");
    struct casefile file;
    struct fault_list faults = {0};
    const char *later = HEAD "tests: [{id: T1, date: 2030-03-02, blend: isooctane, result: none}]\n";
    ck_assert_int_eq(casefile_parse(&arena, "c", later, strlen(later), &lib, (struct date){0}, &file, &faults, NULL),
                     STATUS_OK);
    ck_assert_uint_eq(faults.count, 0); // no day given: not judged
}
END_TEST

START_TEST(arms_that_were_not_measured_get_no_credit) {
    fault(HEAD "room: {arm: capture not measured, arm_capture_percent: 80}\n",
          "c.yaml:3:56: room, arm_capture_percent: counts only with 'arm: capture measured'");
    fault(HEAD "room: {arm: capture measured}\n",
          "c.yaml:3:13: room, arm: 'capture measured' needs arm_capture_percent");
}
END_TEST

// Text may be any printable Unicode; what could move a terminal's cursor may not come in by an escape.
START_TEST(text_is_text) {
    struct casefile file = good("mildsolve_case: 1\nobject: {title: \"\xE6\xB8\xA1\xE3\x81\x97 $(rm -rf x) %s {{7*7}} "
                                "\xF0\x9F\x8E\xA8 caf\xC3\xA9\"}\n");
    ck_assert_str_eq(file.object.title, "\xE6\xB8\xA1\xE3\x81\x97 $(rm -rf x) %s {{7*7}} \xF0\x9F\x8E\xA8 caf\xC3\xA9");
    fault("mildsolve_case: 1\nobject: {title: \"a\\e[31m\"}\n", "c.yaml:2:17: control character U+001B");
    fault("mildsolve_case: 1\nobject: {title: t, \"no\\ate\": x}\n", "c.yaml:2:20: control character U+0007");
    fault("mildsolve_case: 1\nobject: {title: \"a\\N\"}\n", "c.yaml:2:17: control character U+0085");
}
END_TEST

// --- bottles ---

static double share(const struct casefile *file, const char *bottle, const char *component) {
    struct bottle_ref ref;
    ck_assert_int_eq(library_bottle(&file->library, bottle, &ref, NULL), STATUS_OK);
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(&file->library, &ref, components, fractions);
    for (size_t i = 0; i < count; i++)
        if (strcmp(components[i]->id, component) == 0)
            return fractions[i];
    return 0;
}

START_TEST(bottles_of_the_case_are_bottles_of_every_blend) {
    struct casefile file = good(
        HEAD "bottles:\n"
             "- {id: acetone}\n"
             "- {id: shop-iso, content: isooctane}\n"
             "- {id: spirit, content: ethanol-96, water_percent: 5, denaturants: [{component: butanone, percent: 1}]}\n"
             "- {id: dry-spirit, content: ethanol-96, water_percent: 0}\n"
             "- {id: jar, content: propan-2-ol 30 + isooctane 70}\n"
             "- {id: dry-ipa, content: propan-2-ol, water_percent: 0}\n"
             "tests: [{id: T1, date: 2025-02-02, blend: spirit 20 + shop-iso 80, result: none}]\n");
    ck_assert_double_eq_tol(share(&file, "acetone", "acetone"), 1, 1e-12);
    ck_assert_double_eq_tol(share(&file, "shop-iso", "isooctane"), 1, 1e-12);
    ck_assert_double_eq_tol(share(&file, "spirit", "ethanol"), 0.94, 1e-12);
    ck_assert_double_eq_tol(share(&file, "spirit", "water"), 0.05, 1e-12);
    ck_assert_double_eq_tol(share(&file, "spirit", "butanone"), 0.01, 1e-12);
    ck_assert_double_eq_tol(share(&file, "dry-spirit", "ethanol"), 1, 1e-12);
    ck_assert_double_eq_tol(share(&file, "dry-spirit", "water"), 0, 1e-12);
    ck_assert_double_eq_tol(share(&file, "jar", "isooctane"), 0.7, 1e-12);
    const struct case_test *test = case_test(&file, "T1");
    ck_assert_uint_eq(test->mix.count, 4);
    ck_assert_double_eq_tol(test->mix.volume_fractions[0] + test->mix.volume_fractions[1] +
                                test->mix.volume_fractions[2] + test->mix.volume_fractions[3],
                            1, 1e-12);
    const struct case_bottle *bottles = file.bottles.items;
    ck_assert_ptr_nonnull(bottles[0].ref.component);
    ck_assert_str_eq(bottle_ref_id(&bottles[2].ref), "spirit");
    ck_assert(bottles[2].ref.bottle->user);
    struct bottle_ref ref;
    ck_assert_int_eq(library_bottle(&lib, "spirit", &ref, NULL) == STATUS_OK && ref.bottle == bottles[2].ref.bottle, 0);
}
END_TEST

START_TEST(bottles_that_cannot_be) {
    fault(HEAD "bottles: [{id: acetone, water_percent: 3}]\n",
          "c.yaml:3:16: bottle 'acetone', id: the tables already have 'acetone'");
    fault(HEAD "bottles: [{id: ethanol-96, content: ethanol-96, denaturants: [{component: butanone, percent: 1}]}]\n",
          "c.yaml:3:16: bottle 'ethanol-96', id: the tables already have 'ethanol-96'");
    fault(HEAD "bottles: [{id: acetone, content: toluene}]\n",
          "c.yaml:3:16: bottle 'acetone', id: the tables already have 'acetone'");
    fault(HEAD "bottles: [{id: mystery}]\n", "c.yaml:3:16: bottle 'mystery', id: no solvent or bottle is called");
    fault(HEAD "bottles: [{id: b, content: ethanl}]\n",
          "c.yaml:3:28: bottle 'b', content: no solvent or bottle is called 'ethanl'; nearest: ethanol");
    fault(HEAD
          "bottles: [{id: b, content: ethanol, denaturants: [{component: water, percent: 1}], water_percent: 2}]\n",
          "c.yaml:3:50: bottle 'b', denaturants: the same component is stated twice");
    fault(HEAD "bottles: [{id: b, content: water, water_percent: 2}]\n",
          "c.yaml:3:50: bottle 'b', water_percent: water and denaturants leave nothing for the content");
    fault(HEAD "bottles: [{id: b, content: ethanol, denaturants: [{component: butanonne, percent: 1}]}]\n",
          "c.yaml:3:50: bottle 'b', denaturants: no solvent is called");
    fault(HEAD "bottles: [{id: Eth 96, content: ethanol}]\n",
          "c.yaml:3:16: bottle 'Eth 96', id: 'Eth 96': an id has only");
}
END_TEST

// --- remarks ---

static void remark(const char *bytes, const char *words, bool expected) {
    struct casefile file = good(bytes);
    struct fault_list remarks = {0};
    casefile_remarks(&file, as_of, &remarks);
    bool found = strstr(text_bytes(&remarks.lines), words) != NULL;
    ck_assert_msg(found == expected, "%s '%s': %s", expected ? "lacks" : "has", words, text_bytes(&remarks.lines));
    faults_release(&remarks);
}

// 12 months opened, 18 unopened (Cornell EHS, Appendix J, from memory), counted on 2025-03-01.
START_TEST(peroxide_formers_past_their_time) {
    remark(HEAD "bottles: [{id: propan-2-ol, opened: 2024-02-28}]\n", "which forms peroxides", true);
    remark(HEAD "bottles: [{id: propan-2-ol, opened: 2024-03-01}]\n", "which forms peroxides", false);
    remark(HEAD "bottles: [{id: propan-2-ol, received: 2023-08-31}]\n", "its 18 months ended on 2025-02-28", true);
    remark(HEAD "bottles: [{id: propan-2-ol, received: 2023-09-01}]\n", "which forms peroxides", false);
    remark(HEAD "bottles: [{id: propan-2-ol, opened: 2020-01, peroxide_tested: 2024-06-01}]\n", "peroxides", false);
    remark(HEAD "bottles: [{id: propan-2-ol, opened: 2020-01, peroxide_tested: 2024-01-01}]\n",
           "its 12 months ended on 2025-01-01", true);
    remark(HEAD "bottles: [{id: propan-2-ol, opened: 2020-01, finished: 2021-01}]\n", "peroxides", false);
    remark(HEAD "bottles: [{id: propan-2-ol}]\n", "has no date", true);
    remark(HEAD "bottles: [{id: acetone, opened: 2001-01}]\n", "peroxides", false);
    remark(HEAD "bottles: [{id: jar, content: isooctane 95 + propan-2-ol 5, opened: 2001-01}]\n", "peroxides", false);
    remark(HEAD "bottles: [{id: jar, content: isooctane 70 + propan-2-ol 30, opened: 2001-01}]\n",
           "common laboratory practice: 12 months opened, 18 unopened", true);
}
END_TEST

START_TEST(water_of_opened_alcohols) {
    remark(HEAD "bottles: [{id: ethanol, opened: 2025-01}]\n", "takes up water from the air", true);
    remark(HEAD "bottles: [{id: ethanol, received: 2025-01}]\n", "water", false);
    remark(HEAD "bottles: [{id: acetone, opened: 2025-01}]\n", "water", false);
    remark(HEAD "bottles: [{id: e, content: ethanol, water_percent: 2, opened: 2025-01}]\n",
           "an opened alcohol with 2 % of water", true);
    remark(HEAD "bottles: [{id: e, content: ethanol, water_percent: 0, opened: 2025-01}]\n", "water", false);
    remark(HEAD "bottles: [{id: ethanol-96, opened: 2025-01}]\n", "takes up", false); // its grade states the water
}
END_TEST

#define TEST(id, more) "- {id: " id ", date: 2025-02-02, passage: p, blend: isooctane, " more "}\n"

START_TEST(what_the_tests_say_together) {
    const char *head = HEAD "passages: [{id: p, sensitive: [lean]}, {id: q, sensitive: [copper green]}]\ntests:\n";
    char bytes[2048];
    snprintf(bytes, sizeof bytes, "%s%s%s", head, TEST("T1", "contact_s: 30, result: none"),
             TEST("T2", "contact_s: 20, result: removed"));
    remark(bytes, "tests 'T1' (none) and 'T2' (removed) contradict each other", true);
    remark(bytes, "passage 'q' is sensitive (copper green) and has no test of its own yet", true);
    remark(bytes, "passage 'p' is sensitive", false);
    snprintf(bytes, sizeof bytes, "%s%s%s", head, TEST("T1", "contact_s: 20, result: none"),
             TEST("T2", "contact_s: 60, result: removed"));
    remark(bytes, "contradict", false); // longer contact did more
    snprintf(bytes, sizeof bytes, "%s%s%s", head, TEST("T1", "contact_s: 30, result: none"),
             TEST("T2", "contact_s: 20, result: gloss change"));
    remark(bytes, "contradict", false); // one word apart
    snprintf(bytes, sizeof bytes, "%s%s%s", head, TEST("T1", "contact_s: 30, result: none"),
             TEST("T2", "contact_s: 20, result: removed, withdrawn: true, withdrawn_on: 2025-02-03"));
    remark(bytes, "contradict", false);
    snprintf(bytes, sizeof bytes, "%s%s", head, TEST("T1", "result: none, colour_on_swab: original"));
    remark(bytes, "test 'T1' found original colour: STOP in passage 'p'", true);
    snprintf(bytes, sizeof bytes, "%s%s", head, TEST("T1", "result: none, colour_on_swab: unsure"));
    remark(bytes, "STOP", true);
    snprintf(bytes, sizeof bytes, "%s%s", head, TEST("T1", "result: none, colour_on_swab: overpaint"));
    remark(bytes, "STOP", false);
}
END_TEST

START_TEST(goals_become_materials) {
    struct casefile file = good(HEAD "layers: [{id: v, kind: varnish, material: dammar-aged}, {id: x, kind: paint}]\n"
                                     "goals: {remove: [v, dammar-aged], spare: [x], unsure: [pvac]}\n");
    const struct material *materials[4];
    size_t count = 0;
    struct error err = {0};
    ck_assert_int_eq(case_goal_materials(&file, &file.goals.remove, materials, 4, &count, &err), STATUS_OK);
    ck_assert_uint_eq(count, 1); // named twice
    ck_assert_str_eq(materials[0]->id, "dammar-aged");
    ck_assert_int_eq(case_goal_materials(&file, &file.goals.spare, materials, 4, &count, &err), STATUS_NO_DATA);
    ck_assert_ptr_nonnull(strstr(err.text, "layer 'x' has no material yet"));
    ck_assert_int_eq(case_goal_materials(&file, &file.goals.unsure, materials, 1, &count, &err), STATUS_INPUT);
}
END_TEST

START_TEST(every_failing_allocation_is_reported) {
    const char *bytes = HEAD "layers: [{id: v, kind: varnish, material: dammar-aged}]\n"
                             "bottles: [{id: b, content: ethanol, water_percent: 3}]\n"
                             "tests: [{id: T1, date: 2025-02-02, blend: b 3 + isooctane 7, result: none}]\n";
    for (unsigned long n = 1; n < 200; n++) {
        struct arena own = {0};
        struct casefile file;
        struct fault_list faults = {0};
        memory_fail_at(n);
        enum status status = casefile_parse(&own, "c", bytes, strlen(bytes), &lib, as_of, &file, &faults, NULL);
        memory_fail_at(0);
        ck_assert_uint_eq(faults.count, 0);
        faults_release(&faults);
        arena_release(&own);
        ck_assert(status == STATUS_MEMORY || status == STATUS_OK);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 2);
            return;
        }
    }
    ck_abort_msg("never succeeded");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("casefile");
    TCase *tests = tcase_create("case");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_add_test(tests, the_least_case);
    tcase_add_test(tests, everything_is_read);
    tcase_add_test(tests, no_case_no_case_of_ours);
    tcase_add_test(tests, keys_and_words);
    tcase_add_test(tests, names_that_must_exist);
    tcase_add_test(tests, places_lie_on_the_picture);
    tcase_add_test(tests, days_have_been);
    tcase_add_test(tests, arms_that_were_not_measured_get_no_credit);
    tcase_add_test(tests, text_is_text);
    tcase_add_test(tests, bottles_of_the_case_are_bottles_of_every_blend);
    tcase_add_test(tests, bottles_that_cannot_be);
    tcase_add_test(tests, peroxide_formers_past_their_time);
    tcase_add_test(tests, water_of_opened_alcohols);
    tcase_add_test(tests, what_the_tests_say_together);
    tcase_add_test(tests, goals_become_materials);
    tcase_add_test(tests, every_failing_allocation_is_reported);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
