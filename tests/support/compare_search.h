// SPDX-License-Identifier: GPL-3.0-or-later
// The fast search against the exhaustive one, in every row and to the last bit.
#ifndef MILDSOLVE_TESTS_COMPARE_SEARCH_H
#define MILDSOLVE_TESTS_COMPARE_SEARCH_H

#include "selection/search.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

static inline bool same_bits(double a, double b) {
    return memcmp(&a, &b, sizeof a) == 0;
}

static inline bool same_composition(const struct composition *a, const struct composition *b) {
    return a->count == b->count && memcmp(a->bottles, b->bottles, sizeof a->bottles[0] * (size_t)a->count) == 0 &&
           memcmp(a->steps, b->steps, sizeof a->steps[0] * (size_t)a->count) == 0;
}

static inline const char *recipe_of(const struct goal *goal, const struct composition *c) {
    static char words[256];
    struct text out = {0};
    composition_recipe(goal, c, &out);
    snprintf(words, sizeof words, "%s", text_bytes(&out));
    text_release(&out);
    return words;
}

static inline void compare_rows(const struct search_request *request, struct search_result *found,
                                const struct search_result *expected, const char *name) {
    ck_assert_msg(found->row_count == expected->row_count, "%s: %zu rows, expected %zu", name, found->row_count,
                  expected->row_count);
    for (size_t i = 0; i < expected->row_count; i++) {
        struct search_row *row = &found->rows[i];
        const struct search_row *right = &expected->rows[i];
        ck_assert_msg(same_composition(&row->best, &right->best), "%s: row %zu is %s with %.17g", name, i,
                      recipe_of(request->goal, &row->best), row->score.ra_spare);
        ck_assert_msg(same_bits(row->score.ra_spare, right->score.ra_spare) &&
                          same_bits(row->score.red_remove, right->score.red_remove),
                      "%s: row %zu scores %.17g, expected %.17g", name, i, row->score.ra_spare, right->score.ra_spare);
        if (i >= 3)
            continue;
        ck_assert_int_eq(search_span(request->goal, request->lib, row, NULL), STATUS_OK);
        ck_assert_msg(row->passing == right->passing &&
                          memcmp(row->least_steps, right->least_steps, sizeof row->least_steps) == 0 &&
                          memcmp(row->most_steps, right->most_steps, sizeof row->most_steps) == 0,
                      "%s: the span of row %zu differs", name, i);
    }
}

static inline void compare_results(const struct search_request *request, struct search_result *found,
                                   const struct search_result *expected, const char *name) {
    compare_rows(request, found, expected, name);
    ck_assert_msg(
        found->proved && found->blends == expected->evaluated && found->evaluated + found->excluded == found->blends,
        "%s: %g evaluated and %g excluded of %g", name, found->evaluated, found->excluded, expected->evaluated);
    ck_assert_msg(same_composition(&found->nearest, &expected->nearest), "%s: another nearest: %s", name,
                  recipe_of(request->goal, &found->nearest));
    ck_assert_msg(isnan(found->nearest_red) == isnan(expected->nearest_red) &&
                      (isnan(found->nearest_red) || same_bits(found->nearest_red, expected->nearest_red)),
                  "%s: nearest RED %.17g, expected %.17g", name, found->nearest_red, expected->nearest_red);
}

static inline void compare_searches(const struct search_request *request, const char *name) {
    struct search_result found, expected;
    struct error err = {0};
    ck_assert_msg(search_by_distance(request, &found, &err) == STATUS_OK, "%s: %s", name, err.text);
    ck_assert_int_eq(search_exhaustive(request, &expected, NULL), STATUS_OK);
    compare_results(request, &found, &expected, name);
    search_result_release(&found);
    search_result_release(&expected);
}

#endif
