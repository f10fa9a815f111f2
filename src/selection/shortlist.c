// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/shortlist.h"

#include <math.h>
#include <string.h>

enum { FAMILIES = FAMILY_WATER + 1 };

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
