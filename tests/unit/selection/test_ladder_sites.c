// SPDX-License-Identifier: GPL-3.0-or-later
// Pairs of bottles and sites out of a case; expectations by hand from the words of the case.
#include "selection/ladder_pairs.h"
#include "selection/ladder_sites.h"

#include "suite.h"
#include "tables.h"

#include <math.h>
#include <string.h>

static struct library lib;
static struct arena arena;

static void open_tables(void) {
    tables_open(&lib, CASE_TABLES | TABLE_PROPERTIES);
}

static void close_tables(void) {
    library_release(&lib);
}

static void drop(void) {
    arena_release(&arena);
}

static struct casefile read_case(const char *bytes) {
    struct casefile file = {0};
    struct fault_list faults = {0};
    struct error err = {0};
    enum status status =
        casefile_parse(&arena, "c.yaml", bytes, strlen(bytes), &lib, (struct date){0}, &file, &faults, &err);
    ck_assert_msg(status == STATUS_OK, "%s", err.text);
    ck_assert_msg(faults.count == 0, "%s", text_bytes(&faults.lines));
    faults_release(&faults);
    return file;
}

#define HEAD "mildsolve_case: 1\nobject: {title: t, width_mm: 520, height_mm: 410, measured_from: lower left}\n"
#define PASSAGES                                                                                                       \
    "passages:\n"                                                                                                      \
    "  - {id: sky, tone: light, place: {x_mm: 0, y_mm: 250, width_mm: 520, height_mm: 160}}\n"                         \
    "  - {id: boat, tone: dark, place: {x_mm: 100, y_mm: 50, width_mm: 100, height_mm: 80}}\n"                         \
    "  - {id: cap, tone: dark, sensitive: [red-lake glaze], place: {x_mm: 102, y_mm: 52, width_mm: 9, height_mm: "     \
    "6}}\n"
#define TESTS                                                                                                          \
    "tests:\n"                                                                                                         \
    "  - {id: T1, date: 2025-02-17, passage: sky, x_mm: 40, y_mm: 300, blend: isooctane, result: none}\n"              \
    "  - {id: T2, date: 2025-02-17, passage: sky, x_mm: 52, y_mm: 300, blend: propan-2-ol 10 + isooctane 90,"          \
    " result: none}\n"                                                                                                 \
    "  - {id: T3, date: 2025-02-17, passage: sky, x_mm: 64, y_mm: 300, blend: propan-2-ol 50 + isooctane 50,"          \
    " result: removed, withdrawn: true, withdrawn_on: 2025-02-18}\n"

static struct goal shelf(const char *list) {
    struct goal goal = {.components_most = 2, .steps = 20};
    struct error err = {0};
    ck_assert_int_eq(bottle_list_parse(&lib, list, goal.bottles, GOAL_BOTTLES_MAX, &goal.bottle_count, &err),
                     STATUS_OK);
    return goal;
}

static void pair(const struct goal *goal, const struct casefile *file, struct ladder *ret) {
    struct error err = {0};
    ck_assert_msg(ladder_pairs(goal, &lib, file, ret, &err) == STATUS_OK, "%s", err.text);
}

START_TEST(each_strong_bottle_is_a_direction) {
    static struct ladder ladder;
    struct goal goal = shelf("cyclohexane, white-spirit-dearomatised, isooctane, propan-2-ol, acetone, toluene");
    pair(&goal, NULL, &ladder);
    ck_assert_int_eq(ladder.count, 3);
    for (int d = 0; d < 3; d++) { // Hansen total 14.1; white spirit 15.8, cyclohexane 16.8
        ck_assert_str_eq(bottle_ref_id(&ladder.directions[d].weak), "isooctane");
        ck_assert_double_lt(ladder.directions[d].last_percent, 0);
    }
    ck_assert_int_eq(ladder.directions[0].way, WAY_HYDROGEN_BONDING); // Hansen dP 6.1, dH 16.4 over an alkane
    ck_assert_int_eq(ladder.directions[1].way, WAY_POLAR);            // dP 10.4, dH 7.0
    ck_assert_int_eq(ladder.directions[2].way, WAY_AROMATIC);         // dD 18.0 over 14.3, dP 1.4, dH 2.0
}
END_TEST

// Twice the dispersion counts against each of the two others, not against one: benzyl alcohol (18.4/6.3/13.7, Hansen)
// adds 8.6 of it to isooctane (14.1/0/0), less than of bonding; propylene carbonate (20.0/18.0/4.1) 11.8, less than of
// polarity.
START_TEST(what_a_strong_bottle_adds_most_names_its_way) {
    static struct ladder ladder;
    struct goal goal = shelf("isooctane, benzyl-alcohol, propylene-carbonate");
    pair(&goal, NULL, &ladder);
    ck_assert_int_eq(ladder.count, 2);
    ck_assert_int_eq(ladder.directions[0].way, WAY_HYDROGEN_BONDING);
    ck_assert_int_eq(ladder.directions[1].way, WAY_POLAR);
}
END_TEST

START_TEST(what_was_tested_counts) {
    static struct ladder ladder;
    struct casefile file = read_case(HEAD PASSAGES TESTS);
    struct goal goal = shelf("white-spirit-dearomatised, isooctane, propan-2-ol, acetone");
    pair(&goal, &file, &ladder);
    ck_assert_double_eq(ladder.directions[0].last_percent, 10); // the withdrawn one does not count
    ck_assert(ladder.directions[0].rungs[0].tested && ladder.directions[0].rungs[2].tested);
    ck_assert(!ladder.directions[0].rungs[10].tested);
    ck_assert_double_eq(ladder.directions[1].last_percent, 0); // the base was tested for acetone as well
}
END_TEST

// A share within half a percent of a rung is that rung.
START_TEST(a_share_beside_the_grid_is_no_rung) {
    static struct ladder ladder;
    struct casefile file = read_case(
        HEAD PASSAGES "tests:\n  - {id: T1, date: 2025-02-17, passage: sky, blend: propan-2-ol 10.4 + isooctane 89.6, "
                      "result: none}\n"
                      "  - {id: T2, date: 2025-02-17, passage: sky, blend: propan-2-ol 20.6 + isooctane 79.4, result: "
                      "none}\n");
    struct goal goal = shelf("isooctane, propan-2-ol");
    pair(&goal, &file, &ladder);
    ck_assert(ladder.directions[0].rungs[2].tested && !ladder.directions[0].rungs[4].tested);
    ck_assert_double_eq_tol(ladder.directions[0].last_percent, 20.6, 1e-9);
}
END_TEST

START_TEST(the_base_is_the_one_that_was_used) {
    static struct ladder ladder;
    struct casefile file =
        read_case(HEAD PASSAGES
                  "tests:\n  - {id: T1, date: 2025-02-17, passage: sky, blend: white-spirit-dearomatised 80 + acetone "
                  "20, result: none}\n");
    struct goal goal = shelf("isooctane, white-spirit-dearomatised, propan-2-ol, acetone");
    pair(&goal, &file, &ladder);
    ck_assert_str_eq(bottle_ref_id(&ladder.directions[0].weak), "white-spirit-dearomatised");
    ck_assert_str_eq(bottle_ref_id(&ladder.directions[1].weak), "white-spirit-dearomatised");
    ck_assert_double_eq(ladder.directions[1].last_percent, 20);
}
END_TEST

START_TEST(shelves_without_a_weak_or_a_strong_bottle) {
    static struct ladder ladder;
    struct error err = {0};
    struct goal goal = shelf("propan-2-ol, toluene, acetone");
    pair(&goal, NULL, &ladder);
    ck_assert_int_eq(ladder.count, 2);
    ck_assert_str_eq(bottle_ref_id(&ladder.directions[0].weak), "toluene");
    goal = shelf("isooctane, white-spirit-dearomatised");
    ck_assert_int_eq(ladder_pairs(&goal, &lib, NULL, &ladder, &err), STATUS_NO_DATA);
    goal = shelf("isooctane");
    ck_assert_int_eq(ladder_pairs(&goal, &lib, NULL, &ladder, &err), STATUS_NO_DATA);
}
END_TEST

static const struct ladder_site *site_in(const struct casefile *file, const struct ladder_site *sites, size_t count,
                                         const char *passage) {
    for (size_t i = 0; i < count; i++)
        if (strcmp(((const struct case_passage *)file->passages.items)[sites[i].passage].id, passage) == 0)
            return &sites[i];
    return NULL;
}

START_TEST(light_dark_and_sensitive) {
    static struct ladder ladder;
    struct casefile file = read_case(HEAD PASSAGES TESTS);
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct ladder_site sites[LADDER_SITES_MAX];
    pair(&goal, &file, &ladder);
    size_t count = ladder_sites(&file, &ladder.directions[0], 20, sites);
    ck_assert_uint_eq(count, 3);
    const struct ladder_site *sky = site_in(&file, sites, count, "sky");
    const struct ladder_site *boat = site_in(&file, sites, count, "boat");
    const struct ladder_site *cap = site_in(&file, sites, count, "cap");
    ck_assert_int_eq(sky->kind, SITE_LIGHT);
    ck_assert_double_eq(sky->done_percent, 10);
    ck_assert_double_eq(sky->next_percent, 20);
    ck_assert_int_eq(boat->kind, SITE_DARK); // sound before sensitive
    ck_assert_double_eq(boat->next_percent, 20);
    ck_assert_int_eq(cap->kind, SITE_SENSITIVE);
    ck_assert_double_eq(cap->next_percent, 0); // a sensitive passage has a climb of its own, from the base
    ck_assert_double_eq(sky->x_mm, 76);        // beside the last one, 12 mm on; a withdrawn test left its mark as well
    ck_assert_double_eq(sky->y_mm, 300);
    ck_assert(hypot(boat->x_mm - 106, boat->y_mm - 55) > 3); // not on the cap
    ck_assert(cap->x_mm > 102 && cap->x_mm < 111 && cap->y_mm > 52 && cap->y_mm < 58);
}
END_TEST

START_TEST(original_colour_stops_a_passage) {
    static struct ladder ladder;
    struct casefile file =
        read_case(HEAD PASSAGES "tests:\n  - {id: T1, date: 2025-02-17, passage: boat, x_mm: 150, y_mm: "
                                "90, blend: isooctane, result: none, colour_on_swab: unsure}\n");
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct ladder_site sites[LADDER_SITES_MAX];
    pair(&goal, &file, &ladder);
    size_t count = ladder_sites(&file, &ladder.directions[0], 10, sites);
    const struct ladder_site *cap = site_in(&file, sites, count, "cap");
    ck_assert_int_eq(cap->kind, SITE_DARK); // the boat is stopped: the cap is the dark passage left
    ck_assert(!cap->stopped);
    ck_assert_ptr_null(site_in(&file, sites, count, "boat"));
}
END_TEST

// The rule in words: what found colour elsewhere waits until it was approached where it did not.
START_TEST(original_colour_bars_rungs) {
    static struct ladder ladder;
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct casefile file = read_case(
        HEAD PASSAGES "tests:\n  - {id: T1, date: 2025-02-17, passage: sky, blend: propan-2-ol 40 + isooctane "
                      "60, result: none, colour_on_swab: original}\n");
    pair(&goal, &file, &ladder);
    const struct ladder_direction *direction = &ladder.directions[0];
    ck_assert_double_eq(direction->colour_percent, 40);
    ck_assert_double_lt(direction->last_percent, 0); // what was tested in a stopped passage is no step elsewhere
    ck_assert(!direction->rungs[7].barred && direction->rungs[8].barred && direction->rungs[20].barred);
    struct ladder_site sites[LADDER_SITES_MAX];
    size_t count = ladder_sites(&file, direction, 30, sites);
    ck_assert_double_eq(site_in(&file, sites, count, "boat")->next_percent, 0); // sound, yet a climb of its own
    file = read_case(HEAD PASSAGES "tests:\n  - {id: T1, date: 2025-02-17, passage: sky, blend: propan-2-ol 40 + "
                                   "isooctane 60, result: none, colour_on_swab: original}\n"
                                   "  - {id: T2, date: 2025-02-17, passage: boat, blend: propan-2-ol 30 + isooctane "
                                   "70, result: none}\n");
    pair(&goal, &file, &ladder);
    ck_assert(!direction->rungs[8].barred && direction->rungs[9].barred);
    file = read_case(HEAD PASSAGES "tests:\n  - {id: T1, date: 2025-02-17, passage: sky, blend: isooctane, result: "
                                   "none, colour_on_swab: original}\n");
    pair(&goal, &file, &ladder);
    ck_assert(direction->rungs[0].barred);
    count = ladder_sites(&file, direction, 30, sites);
    ck_assert(isnan(site_in(&file, sites, count, "boat")->next_percent));
}
END_TEST

// Spots 12 mm apart and 6 mm from the edge: three in a row of 36 mm, two rows in 30 mm; the next one follows the last
// test, and when all are taken there is none.
START_TEST(spots_fill_a_passage_row_by_row) {
    static struct ladder ladder;
    static const double spots[][2] = {{106, 206}, {118, 206}, {130, 206}, {106, 218}, {118, 218}, {130, 218}};
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct text bytes = {0};
    text_printf(&bytes, HEAD "passages:\n  - {id: boat, tone: dark, place: {x_mm: 100, y_mm: 200, width_mm: 36, "
                             "height_mm: 30}}\n");
    for (size_t made = 0; made <= 6; made++) {
        struct casefile file = read_case(text_bytes(&bytes));
        struct ladder_site sites[LADDER_SITES_MAX];
        pair(&goal, &file, &ladder);
        ck_assert_uint_eq(ladder_sites(&file, &ladder.directions[0], 10, sites), 1);
        if (made == 6) {
            ck_assert(isnan(sites[0].x_mm) && isnan(sites[0].y_mm));
            break;
        }
        ck_assert_double_eq_tol(sites[0].x_mm, spots[made][0], 1e-9);
        ck_assert_double_eq_tol(sites[0].y_mm, spots[made][1], 1e-9);
        text_printf(&bytes,
                    "%s  - {id: T%zu, date: 2025-02-17, passage: boat, x_mm: %g, y_mm: %g, blend: isooctane, result: "
                    "none}\n",
                    made ? "" : "tests:\n", made + 1, spots[made][0], spots[made][1]);
    }
    text_release(&bytes);
}
END_TEST

// A passage narrower than two edges is tested in its middle; one without a place has no spot.
START_TEST(spots_of_small_and_unplaced_passages) {
    static struct ladder ladder;
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct casefile file =
        read_case(HEAD "passages:\n  - {id: eye, tone: dark, place: {x_mm: 100, y_mm: 200, width_mm: "
                       "8, height_mm: 4}}\n  - {id: sky, tone: light}\n");
    struct ladder_site sites[LADDER_SITES_MAX];
    pair(&goal, &file, &ladder);
    ck_assert_uint_eq(ladder_sites(&file, &ladder.directions[0], 10, sites), 2);
    const struct ladder_site *eye = site_in(&file, sites, 2, "eye"), *sky = site_in(&file, sites, 2, "sky");
    ck_assert(eye->x_mm == 104 && eye->y_mm == 202);
    ck_assert(isnan(sky->x_mm) && !sky->ready);
}
END_TEST

// Open before stopped, sound before sensitive, then the one with most tests; a rung that was tested there is done.
START_TEST(of_several_passages_the_most_tested) {
    static struct ladder ladder;
    struct goal goal = shelf("isooctane, propan-2-ol");
    struct casefile file = read_case(
        HEAD
        "passages:\n  - {id: a, tone: light}\n  - {id: b, tone: light}\n  - {id: c, tone: light, sensitive: [lean]}\n"
        "tests:\n  - {id: T1, date: 2025-02-17, passage: b, blend: propan-2-ol 20 + isooctane 80, result: none}\n"
        "  - {id: T2, date: 2025-02-17, passage: c, blend: isooctane, result: none}\n"
        "  - {id: T3, date: 2025-02-17, passage: c, blend: propan-2-ol 10 + isooctane 90, result: none}\n");
    struct ladder_site sites[LADDER_SITES_MAX];
    pair(&goal, &file, &ladder);
    ck_assert_uint_eq(ladder_sites(&file, &ladder.directions[0], 20, sites), 2);
    const struct ladder_site *b = site_in(&file, sites, 2, "b"), *c = site_in(&file, sites, 2, "c");
    ck_assert(b->kind == SITE_LIGHT && b->ready && b->done_percent == 20);
    ck_assert(c->kind == SITE_SENSITIVE && !c->ready && c->done_percent == 10 && c->next_percent == 20);
    ladder_sites(&file, &ladder.directions[0], 30, sites);
    ck_assert_double_eq(site_in(&file, sites, 2, "c")->next_percent, 20); // its own climb: 10 % above its last
    ck_assert_str_eq(site_kind_words(SITE_SENSITIVE), "sensitive");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ladder_sites");
    TCase *tcase = tcase_create("ladder_sites");
    tcase_add_unchecked_fixture(tcase, open_tables, close_tables);
    tcase_add_checked_fixture(tcase, NULL, drop);
    tcase_add_test(tcase, each_strong_bottle_is_a_direction);
    tcase_add_test(tcase, what_a_strong_bottle_adds_most_names_its_way);
    tcase_add_test(tcase, what_was_tested_counts);
    tcase_add_test(tcase, a_share_beside_the_grid_is_no_rung);
    tcase_add_test(tcase, the_base_is_the_one_that_was_used);
    tcase_add_test(tcase, shelves_without_a_weak_or_a_strong_bottle);
    tcase_add_test(tcase, light_dark_and_sensitive);
    tcase_add_test(tcase, original_colour_stops_a_passage);
    tcase_add_test(tcase, original_colour_bars_rungs);
    tcase_add_test(tcase, spots_fill_a_passage_row_by_row);
    tcase_add_test(tcase, spots_of_small_and_unplaced_passages);
    tcase_add_test(tcase, of_several_passages_the_most_tested);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
