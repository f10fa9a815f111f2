// SPDX-License-Identifier: GPL-3.0-or-later
// The list by film: its order, its filters and its counts against the rules of ranking.h, written down anew.
#include "selection/ranking.h"

#include "base/units.h"
#include "films.h"
#include "selection/candidates.h"
#include "selection/strong.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;
static struct goal goal;
static struct error err;

// A shelf with everything the order looks at: two alkanes, alcohols, a ketone, an aromatic, a slow liquid.
static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
    goal = (struct goal){.components_most = 2, .steps = 10};
    goal.remove[goal.remove_count++] = tables_material(&lib, "dammar-aged");
    goal.spare[goal.spare_count++] = tables_material(&lib, "linseed-oil-film-young");
    stop_unless(bottle_list_parse(&lib,
                                  "isooctane, n-heptane, ethanol, propan-2-ol, acetone, toluene, diacetone-alcohol",
                                  goal.bottles, GOAL_BOTTLES_MAX, &goal.bottle_count, &err),
                &err);
}

static void close_all(void) {
    tables_close_unifac(&lib, &table);
}

static struct ranking_request request_of(enum doubt_effort effort) {
    return (struct ranking_request){.goal = &goal,
                                    .lib = &lib,
                                    .table = &table,
                                    .temp_k = FILMS_TEMP_K,
                                    .flash_least_c = NAN,
                                    .residue_most = RETENTION_VERY_LONG,
                                    .effort = effort,
                                    .seed = 1,
                                    .least_probability = 0.6,
                                    .show = RANKING_SHOWN_MAX,
                                    .threads = 1};
}

static struct ranking ranked(const struct ranking_request *request) {
    struct ranking ranking;
    ck_assert_msg(ranking_make(request, &ranking, &err) == STATUS_OK, "%s", err.text);
    return ranking;
}

static int strong_count(const struct composition *c) {
    struct bottle_set strong = strong_bottles_of_goal(&goal, &lib), held = bottles_of(c, &strong);
    return bottle_set_count(&held);
}

static bool burns_readily(const struct ranked_row *row) {
    return !(row->flash.display_c >= 23); // UN GHS 2.6: categories 1 and 2
}

static double preferred(const struct ranked_row *row, enum preference prefer) {
    return prefer == PREFER_RESIDUE  ? (double)row->retention.word
           : prefer == PREFER_HEALTH ? row->health
           : prefer == PREFER_FIRE   ? burns_readily(row)
           : prefer == PREFER_WEAK   ? strong_share_of(&row->blend)
                                     : 0;
}

// Negative where a stands first: what is preferred, class of the swelling, strong bottles, weak ones beyond the first,
// strong share, swelling.
static double order_of(const struct ranked_row *a, const struct ranked_row *b, enum preference prefer) {
    const double differences[] = {preferred(a, prefer) - preferred(b, prefer),
                                  film_class(ranked_swelling(a)) - film_class(ranked_swelling(b)),
                                  strong_count(&a->row.best) - strong_count(&b->row.best),
                                  (a->row.best.count - strong_count(&a->row.best) > 1) -
                                      (b->row.best.count - strong_count(&b->row.best) > 1),
                                  a->row.strong_share - b->row.strong_share,
                                  ranked_swelling(a) - ranked_swelling(b)};
    for (size_t i = 0; i < 6; i++)
        if (fabs(differences[i]) > 1e-12)
            return differences[i];
    return 0;
}

static size_t folded(const struct ranking *ranking) {
    size_t sum = 0;
    for (size_t i = 0; i < ranking->count; i++)
        sum += ranking->rows[i].similar;
    return sum;
}

// Every candidate is shown, folded into a row, or counted where it was left out.
static void check_account(const struct ranking *ranking) {
    ck_assert_uint_eq(ranking->count + folded(ranking) + ranking->too_unlikely + ranking->split +
                          ranking->too_flammable + ranking->too_slow,
                      ranking->candidates);
}

START_TEST(each_preference_orders_by_its_own_figure) {
    for (int prefer = PREFER_PAINT; prefer <= PREFER_WEAK; prefer++) {
        struct ranking_request request = request_of(DOUBT_EFFORT_NONE);
        request.prefer = (enum preference)prefer;
        struct ranking ranking = ranked(&request);
        ck_assert_uint_gt(ranking.count, 10);
        ck_assert(ranking.complete && ranking.samples == 0 && ranking.too_unlikely == 0);
        for (size_t i = 0; i < ranking.count; i++) {
            ck_assert(!ranking.rows[i].doubted && ranking.rows[i].tie == 0);
            if (i > 0)
                ck_assert_msg(order_of(&ranking.rows[i - 1], &ranking.rows[i], request.prefer) <= 0,
                              "by %s: rows %zu and %zu", preference_words[prefer], i, i + 1);
        }
        check_account(&ranking);
        ranking_release(&ranking);
    }
}
END_TEST

// What stands beside a row is what the models say of its blend.
START_TEST(rows_hold_the_figures_of_their_blends) {
    struct ranking_request request = request_of(DOUBT_EFFORT_NONE);
    struct ranking ranking = ranked(&request);
    static struct evaporation path;
    for (size_t i = 0; i < ranking.count; i += 3) {
        const struct ranked_row *row = &ranking.rows[i];
        struct flash flash;
        struct retention retention;
        struct evaporation_options options = {.temp_c = celsius_from_kelvin(FILMS_TEMP_K)};
        ck_assert_int_eq(flash_point_of_blend(&table, &row->blend, &flash, NULL), STATUS_OK);
        ck_assert(flash.display_c == row->flash.display_c || (isnan(flash.display_c) && isnan(row->flash.display_c)));
        ck_assert_int_eq(evaporation_follow(&lib, &table, &row->blend, &options, &path, &err), STATUS_OK);
        retention_of_drying(&path, row->row.spared, &retention);
        ck_assert_int_eq(row->retention.word, retention.word);
        ck_assert_int_eq(row->health, health_burden(&row->blend));
        ck_assert_int_ne(row->phase.verdict, PHASE_TWO);
        ck_assert_double_eq_tol(row->row.strong_share, strong_share_of(&row->blend), 1e-9);
        ck_assert_double_ge(ranked_swelling(row), row->row.swelling);
    }
    ranking_release(&ranking);
}
END_TEST

static bool at_least_as_good(const struct ranked_row *a, const struct ranked_row *b) {
    return (!a->doubted || a->doubt.p_works >= b->doubt.p_works) &&
           film_class(ranked_swelling(a)) <= film_class(ranked_swelling(b)) && a->retention.word <= b->retention.word &&
           a->health <= b->health && burns_readily(a) <= burns_readily(b);
}

static bool beats(const struct ranked_row *a, const struct ranked_row *b) {
    return at_least_as_good(a, b) && !at_least_as_good(b, a);
}

START_TEST(a_beaten_row_names_the_first_that_beats_it) {
    for (int effort = DOUBT_EFFORT_NONE; effort <= DOUBT_EFFORT_QUICK; effort++) {
        struct ranking_request request = request_of((enum doubt_effort)effort);
        struct ranking ranking = ranked(&request);
        size_t beaten = 0;
        for (size_t i = 0; i < ranking.count; i++) {
            size_t by = 0;
            for (size_t k = 0; k < ranking.count && !by; k++)
                by = beats(&ranking.rows[k], &ranking.rows[i]) ? k + 1 : 0;
            ck_assert_uint_eq(ranking.rows[i].beaten_by, by);
            beaten += by > 0;
            // Of one tie, those that nothing beats stand first.
            if (i > 0 && ranking.rows[i].tie && ranking.rows[i].tie == ranking.rows[i - 1].tie)
                ck_assert(ranking.rows[i].beaten_by || !ranking.rows[i - 1].beaten_by);
        }
        ck_assert(beaten > 0 && beaten < ranking.count);
        ranking_release(&ranking);
    }
}
END_TEST

START_TEST(doubt_decides_what_is_listed) {
    struct ranking_request request = request_of(DOUBT_EFFORT_QUICK);
    request.fold = true;
    struct ranking ranking = ranked(&request);
    ck_assert_uint_gt(ranking.count, 3);
    ck_assert_uint_gt(ranking.too_unlikely, 0);
    ck_assert_uint_eq(ranking.samples, DOUBT_QUICK_SAMPLES);
    ck_assert_uint_eq(ranking.seed, 1);
    check_account(&ranking);
    size_t ties = 0;
    for (size_t i = 0; i < ranking.count; i++) {
        const struct ranked_row *row = &ranking.rows[i];
        ck_assert(row->doubted && row->doubt.p_works >= 0.6 && row->doubt.p_works <= ranking.best_probability);
        ck_assert(row->edge == (row->doubt.p_works < 0.9));
        ck_assert(row->tie == ties || row->tie == ties + 1); // numbered without a gap
        ties = row->tie;
        ck_assert_uint_ge(row->similar, row->like_count);
        if (row->weakest.blend.count == 0)
            continue;
        struct bottle_set strong = strong_bottles_of_goal(&goal, &lib);
        struct bottle_set own = bottles_of(&row->row.best, &strong),
                          its = bottles_of(&row->weakest.composition, &strong);
        ck_assert(bottle_set_same(&own, &its));
        ck_assert_double_lt(strong_share_of(&row->weakest.blend), row->row.strong_share);
        ck_assert_double_ge(row->weakest.doubt.p_works, 0.6);
        ck_assert_int_ne(row->weakest.phase, PHASE_TWO);
        ck_assert_double_ge(ranked_weakest_swelling(row), row->weakest.doubt.swelling_median);
    }
    ck_assert_uint_ge(ties, 1);
    for (size_t i = 0; i < ranking.doubtful_count; i++) { // weak blends that just fall short
        ck_assert(ranking.doubtful_p[i] >= RANKING_DOUBTFUL && ranking.doubtful_p[i] < 0.6);
        struct bottle_set strong = strong_bottles_of_goal(&goal, &lib);
        for (size_t k = 0; k < i; k++) {
            struct bottle_set a = bottles_of(&ranking.doubtful[i], &strong),
                              b = bottles_of(&ranking.doubtful[k], &strong);
            ck_assert(!bottle_set_same(&a, &b));
        }
    }
    ranking_release(&ranking);
}
END_TEST

// With `fold` each set of strong bottles stands once, and none that includes all of a row above.
START_TEST(folding_keeps_what_brings_something) {
    struct ranking_request request = request_of(DOUBT_EFFORT_NONE);
    request.fold = true;
    struct ranking ranking = ranked(&request);
    struct bottle_set strong = strong_bottles_of_goal(&goal, &lib);
    for (size_t i = 0; i < ranking.count; i++)
        for (size_t k = 0; k < i; k++) {
            struct bottle_set above = bottles_of(&ranking.rows[k].row.best, &strong);
            struct bottle_set here = bottles_of(&ranking.rows[i].row.best, &strong);
            ck_assert(!bottle_set_includes(&here, &above));
        }
    ck_assert_uint_gt(folded(&ranking), 0);
    check_account(&ranking);
    request.show = 2;
    struct ranking two = ranked(&request);
    ck_assert_uint_eq(two.count, 2);
    for (size_t i = 0; i < 2; i++)
        ck_assert_int_eq(composition_compare(&two.rows[i].row.best, &ranking.rows[i].row.best), 0);
    ranking_release(&two);
    ranking_release(&ranking);
}
END_TEST

START_TEST(filters_keep_rows_out) {
    struct ranking_request request = request_of(DOUBT_EFFORT_NONE);
    request.flash_least_c = 5;
    struct ranking ranking = ranked(&request);
    ck_assert_uint_gt(ranking.count, 0);
    ck_assert_uint_gt(ranking.too_flammable, 0);
    for (size_t i = 0; i < ranking.count; i++)
        ck_assert_double_ge(ranking.rows[i].flash.display_c, 5);
    check_account(&ranking);
    ranking_release(&ranking);
    request = request_of(DOUBT_EFFORT_NONE);
    request.residue_most = RETENTION_MEDIUM;
    ranking = ranked(&request);
    ck_assert_uint_gt(ranking.count, 0);
    ck_assert_uint_gt(ranking.too_slow, 0);
    for (size_t i = 0; i < ranking.count; i++)
        ck_assert_int_le(ranking.rows[i].retention.word, RETENTION_MEDIUM);
    check_account(&ranking);
    ranking_release(&ranking);
}
END_TEST

START_TEST(a_cancelled_ranking_says_so) {
    atomic_bool cancel = true;
    struct ranking ranking = {0};
    struct ranking_request request = request_of(DOUBT_EFFORT_NONE);
    request.watch.cancel = &cancel;
    ck_assert_int_eq(ranking_make(&request, &ranking, &err), STATUS_INTERRUPTED);
    ck_assert(!ranking.complete && ranking.rows != NULL); // with what was found so far
    ranking_release(&ranking);
    ck_assert_ptr_null(ranking.rows);
}
END_TEST

// What is allowed by name although no model judges it stands below all else and in no tie.
START_TEST(what_stands_apart_stands_last) {
    struct goal kept = goal;
    stop_unless(library_bottle(&lib, "benzyl-alcohol", &goal.bottles[goal.bottle_count++], &err), &err);
    struct ranking_request request = request_of(DOUBT_EFFORT_QUICK);
    struct ranking ranking = ranked(&request);
    size_t apart = 0;
    for (size_t i = 0; i < ranking.count; i++) {
        bool holds = false;
        for (size_t k = 0; k < ranking.rows[i].blend.count; k++)
            holds |= strcmp(ranking.rows[i].blend.components[k]->id, "benzyl-alcohol") == 0;
        ck_assert(ranking.rows[i].apart == holds);
        ck_assert(holds ? ranking.rows[i].tie == 0 : apart == 0 && ranking.rows[i].tie > 0);
        apart += holds;
    }
    ck_assert_uint_gt(apart, 0);
    ranking_release(&ranking);
    goal = kept;
}
END_TEST

// --- candidates.h ---

static bool is_candidate(const struct candidates *candidates, const struct composition *c) {
    size_t found = 0;
    for (size_t i = 0; i < candidates->count; i++)
        found += composition_compare(&candidates->rows[i].best, c) == 0;
    ck_assert_uint_le(found, 1); // each once
    return found == 1;
}

// The smallest strong share that works, of the sets with these strong bottles and at most one diluent.
static const struct film_row *weakest_of(const struct film_search_result *found, const struct bottle_set *strong,
                                         const struct bottle_set *kind, double *ret_figure) {
    const struct film_row *weakest = NULL;
    *ret_figure = INFINITY;
    for (size_t i = 0; i < found->row_count; i++) {
        const struct film_row *row = &found->rows[i];
        struct bottle_set own = bottles_of(&row->best, strong);
        if (!bottle_set_same(&own, kind))
            continue;
        *ret_figure = fmin(*ret_figure, film_figure_of_merit(row));
        if (spare_diluents(&row->weakest, bottle_set_count(kind)) == 0 &&
            (!weakest || row->weakest_share < weakest->weakest_share ||
             (row->weakest_share == weakest->weakest_share && row->weakest_swelling < weakest->weakest_swelling)))
            weakest = row;
    }
    return weakest;
}

// Two bottles: from the weakest that works every step up to the strong bottle's nine tenths is to be sampled, of a kind
// that is milder than what it is made of.
START_TEST(candidates_hold_the_way_up_from_the_weakest) {
    struct ranking_request request = request_of(DOUBT_EFFORT_QUICK);
    struct film_search_result nominal = {0};
    struct candidates candidates = {0};
    struct bottle_set strong = strong_bottles_of_goal(&goal, &lib);
    request.fold = true;
    ck_assert_int_eq(candidates_find(&request, &nominal, &candidates, &err), STATUS_OK);
    ck_assert(bottle_set_same(&candidates.strong, &strong));
    size_t kinds = 0;
    for (int bottle = 0; bottle < (int)goal.bottle_count; bottle++) {
        struct composition alone = {.count = 1, .bottles = {bottle}, .steps = {goal.steps}};
        struct bottle_set kind = bottles_of(&alone, &strong);
        double figure;
        const struct film_row *row = weakest_of(&nominal, &strong, &kind, &figure);
        if (bottle_set_count(&kind) == 0 || !row)
            continue;
        kinds++;
        struct composition c = row->weakest;
        int weak = bottle_set_has(&strong, c.bottles[0]);
        ck_assert(is_candidate(&candidates, &c));
        while (c.count == 2 && c.steps[weak] > 1) {
            c.steps[weak]--, c.steps[1 - weak]++;
            ck_assert(is_candidate(&candidates, &c));
        }
    }
    ck_assert_uint_ge(kinds, 3);
    for (size_t i = 0; i < candidates.count; i++) { // two strong bottles only where they beat either by a class
        struct bottle_set kind = bottles_of(&candidates.rows[i].best, &strong);
        double figure, part;
        weakest_of(&nominal, &strong, &kind, &figure);
        for (int k = 0; bottle_set_count(&kind) == 2 && k < candidates.rows[i].best.count; k++) {
            struct composition alone = {.count = 1, .bottles = {candidates.rows[i].best.bottles[k]}};
            struct bottle_set one = bottles_of(&alone, &strong);
            weakest_of(&nominal, &strong, &one, &part);
            ck_assert_double_le(figure, part / 1.25);
        }
        ck_assert_double_eq_tol(candidates.rows[i].strong_share, strong_share_of(&candidates.blends[i]), 1e-9);
    }
    film_search_release(&nominal);
    candidates_release(&candidates);
}
END_TEST

// A search at one end, without anything of candidates_ends.c: the materials as the case has them.
static enum status search_end(void *context, const struct ends_case *assumptions, size_t most, struct composition *ret,
                              size_t *ret_count, struct error *ret_err) {
    const struct film_view *nominal = context;
    struct film_view view = *nominal;
    struct material removed = *goal.remove[0], spared = *goal.spare[0];
    struct goal at_end = goal;
    at_end.remove[0] = &removed, at_end.spare[0] = &spared;
    removed.sphere = assumptions->remove_spheres[0], spared.sphere = assumptions->spare_spheres[0];
    view.remove[0] = assumptions->remove[0], view.spare[0] = assumptions->spare[0];
    struct film_search_request request = {.goal = &at_end, .lib = &lib, .table = &table, .view = &view, .threads = 1};
    struct film_search_result found = {0};
    enum status status = film_search(&request, &found, ret_err);
    for (*ret_count = 0; status == STATUS_OK && *ret_count < most && *ret_count < found.row_count; (*ret_count)++)
        ret[*ret_count] = found.rows[*ret_count].best;
    film_search_release(&found);
    return status;
}

// A resin that goes by its sphere: what only a wider radius or another centre lets in is a candidate too, and with it
// the whole list of the ends, here searched anew on the same grid.
START_TEST(candidates_hold_what_the_ends_find) {
    struct goal kept = goal;
    goal.remove[0] = tables_material(&lib, "ketone-resin-aged");
    ck_assert(material_by_red(goal.remove[0]));
    goal.components_most = 3;
    struct ranking_request request = request_of(DOUBT_EFFORT_FULL);
    struct film_search_result nominal = {0};
    struct candidates candidates = {0};
    struct ends_list list = {0};
    ck_assert_int_eq(candidates_find(&request, &nominal, &candidates, &err), STATUS_OK);
    ck_assert_double_eq(candidates.ends_step_percent, 10); // the grid of the goal: none was coarser
    ck_assert_int_eq(candidates.ends_components, 3);
    ck_assert_uint_lt(candidates.count, RANKING_CANDIDATES);
    struct ends_request ends = {.goal = &goal,
                                .lib = &lib,
                                .table = &table,
                                .temp_k = FILMS_TEMP_K,
                                .vary = DOUBT_ALL,
                                .least = ENDS_LIST_LEAST,
                                .search = search_end,
                                .context = &candidates.nominal};
    stop_unless(ends_list_make(&ends, &list, &err), &err);
    ck_assert_uint_eq(list.case_count, candidates.ends_cases);
    size_t outside = 0;
    for (size_t i = 0; i < list.count; i++) {
        ck_assert(is_candidate(&candidates, &list.rows[i].composition));
        for (size_t k = 0; k < candidates.count && list.rows[i].cases > 0; k++)
            if (composition_compare(&candidates.rows[k].best, &list.rows[i].composition) == 0)
                outside += candidates.rows[k].red_remove > 1;
    }
    ck_assert_uint_gt(outside, 0);
    ends_list_release(&list);
    film_search_release(&nominal);
    candidates_release(&candidates);
    goal = kept;
}
END_TEST

int main(void) {
    Suite *suite = suite_create("ranking");
    TCase *tests = tcase_create("rules of the list");
    tcase_add_unchecked_fixture(tests, open_all, close_all);
    tcase_set_timeout(tests, 120);
    tcase_add_test(tests, each_preference_orders_by_its_own_figure);
    tcase_add_test(tests, rows_hold_the_figures_of_their_blends);
    tcase_add_test(tests, a_beaten_row_names_the_first_that_beats_it);
    tcase_add_test(tests, doubt_decides_what_is_listed);
    tcase_add_test(tests, folding_keeps_what_brings_something);
    tcase_add_test(tests, filters_keep_rows_out);
    tcase_add_test(tests, a_cancelled_ranking_says_so);
    tcase_add_test(tests, what_stands_apart_stands_last);
    tcase_add_test(tests, candidates_hold_the_way_up_from_the_weakest);
    tcase_add_test(tests, candidates_hold_what_the_ends_find);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
