// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/shortlist.h"

#include <math.h>
#include <string.h>

enum { FAMILIES = FAMILY_WATER + 1, ROWS_FIRST = 256, ROWS_FACTOR = 8 };

static void family_shares(const struct blend *blend, double shares[FAMILIES]) {
    memset(shares, 0, FAMILIES * sizeof shares[0]);
    for (size_t i = 0; i < blend->count; i++)
        shares[blend->components[i]->family] += blend->volume_fractions[i];
}

double blend_family_overlap(const struct blend *a, const struct blend *b) {
    double shares_a[FAMILIES];
    double shares_b[FAMILIES];
    family_shares(a, shares_a);
    family_shares(b, shares_b);
    double overlap = 0;
    for (int i = 0; i < FAMILIES; i++)
        overlap += fmin(shares_a[i], shares_b[i]);
    return overlap;
}

static struct shortlist_row *near_identical(struct shortlist *list, const struct blend *blend, struct hansen place) {
    for (size_t i = 0; i < list->count; i++) {
        struct shortlist_row *row = &list->rows[i];
        if (hansen_distance(row->place, place) < SHORTLIST_RA &&
            blend_family_overlap(&row->blend, blend) >= SHORTLIST_OVERLAP)
            return row;
    }
    return NULL;
}

static void fold_into(struct shortlist_row *row, const struct composition *c) {
    row->similar++;
    if (row->like_count < sizeof row->like / sizeof row->like[0])
        row->like[row->like_count++] = *c;
}

enum status shortlist_make(const struct goal *goal, const struct library *lib, const struct search_result *result,
                           size_t show, bool fold, struct shortlist *ret, struct error *err) {
    ret->count = 0;
    ret->cut = false;
    for (size_t i = 0; i < result->row_count; i++) {
        struct blend blend;
        struct hansen place;
        enum status status = composition_blend(goal, lib, &result->rows[i].best, &blend, err);
        if (status == STATUS_OK)
            status = hansen_of_blend(&blend, &place, err);
        if (status != STATUS_OK)
            return status;
        struct shortlist_row *same = fold ? near_identical(ret, &blend, place) : NULL;
        if (same)
            fold_into(same, &result->rows[i].best);
        else if (ret->count < show && ret->count < SHORTLIST_MAX)
            ret->rows[ret->count++] = (struct shortlist_row){.row = &result->rows[i], .blend = blend, .place = place};
    }
    return STATUS_OK;
}

static enum status fill_spans(const struct search_request *request, struct search_result *result,
                              const struct shortlist *list, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < list->count && status == STATUS_OK; i++)
        status = search_span(request->goal, request->lib, &result->rows[list->rows[i].row - result->rows], err);
    return status;
}

enum status shortlist_search(const struct search_request *request, size_t show, bool fold,
                             struct search_result *ret_result, struct shortlist *ret, struct error *err) {
    struct search_request asked = *request;
    for (asked.rows_most = fold ? ROWS_FIRST : show;; asked.rows_most *= ROWS_FACTOR) {
        if (asked.rows_most > SEARCH_ROWS_MAX)
            asked.rows_most = SEARCH_ROWS_MAX;
        struct search_result result;
        enum status searched = search_by_distance(&asked, &result, err);
        if (searched != STATUS_OK && searched != STATUS_INTERRUPTED)
            return searched;
        enum status status = shortlist_make(request->goal, request->lib, &result, show, fold, ret, err);
        if (status == STATUS_OK)
            status = fill_spans(request, &result, ret, err);
        bool all = result.row_count < asked.rows_most;
        if (status == STATUS_OK &&
            (ret->count == show || all || searched != STATUS_OK || asked.rows_most == SEARCH_ROWS_MAX)) {
            ret->cut = ret->count < show && !all;
            *ret_result = result;
            return searched;
        }
        search_result_release(&result);
        if (status != STATUS_OK)
            return status;
    }
}
