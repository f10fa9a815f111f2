// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/shortlist.h"

#include "base/memory.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { FAMILIES = FAMILY_WATER + 1, ROWS_FIRST = 256, ROWS_FACTOR = 8, WAITING_MAX = 512 };

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

bool blends_near_identical(const struct blend *a, struct hansen place_a, const struct blend *b, struct hansen place_b) {
    return hansen_distance(place_a, place_b) < SHORTLIST_RA && blend_family_overlap(a, b) >= SHORTLIST_OVERLAP;
}

static struct shortlist_row *near_identical(struct shortlist *list, const struct blend *blend, struct hansen place) {
    for (size_t i = 0; i < list->count; i++) {
        struct shortlist_row *row = &list->rows[i];
        if (blends_near_identical(&row->blend, row->place, blend, place))
            return row;
    }
    return NULL;
}

static void fold_into(struct shortlist_row *row, const struct composition *c) {
    row->similar++;
    if (row->like_count < sizeof row->like / sizeof row->like[0])
        row->like[row->like_count++] = *c;
}

// --- one liquid or two ---

// A list being made. Sets whose best composition is two liquids wait, with their best that is not, until it is their
// turn in the order.
struct listing {
    const struct shortlist_request *request;
    struct recipe_order order;
    struct shortlist *list;
    struct waiting {
        struct search_row row;
        struct composition split;
    } * waiting; // WAITING_MAX, best first
    size_t waiting_count;
    bool overflowed; // more than WAITING_MAX waited
};

// What cannot be judged may separate.
static struct phase_judgement judge(const struct shortlist_request *request, const struct blend *blend) {
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    if (request->table)
        miscibility_judge_blend(request->lib, request->table, blend, request->temp_k, &phase, NULL);
    return phase;
}

static bool not_two(void *context, const struct composition *c) {
    const struct shortlist_request *request = context;
    struct blend blend;
    if (watch_cancelled(&request->watch))
        return true;
    return composition_blend(request->goal, request->lib, c, &blend, NULL) == STATUS_OK &&
           judge(request, &blend).verdict != PHASE_TWO;
}

static void wait_in_order(struct listing *listing, const struct search_row *row, const struct composition *split) {
    size_t at = listing->waiting_count;
    while (at > 0 && composition_better(&listing->order, &row->score, &row->best, &listing->waiting[at - 1].row.score,
                                        &listing->waiting[at - 1].row.best))
        at--;
    listing->overflowed |= listing->waiting_count == WAITING_MAX;
    if (at == WAITING_MAX)
        return;
    listing->waiting_count += listing->waiting_count < WAITING_MAX;
    memmove(&listing->waiting[at + 1], &listing->waiting[at],
            (listing->waiting_count - 1 - at) * sizeof listing->waiting[0]);
    listing->waiting[at] = (struct waiting){.row = *row, .split = *split};
}

// The other shares of a set whose best is two liquids.
static enum status try_other_shares(struct listing *listing, const struct search_row *row, struct error *err) {
    const struct shortlist_request *request = listing->request;
    struct shortlist *list = listing->list;
    struct search_row found;
    bool any = false, all = false;
    enum status status = search_best_of_set(request->goal, request->lib, &row->best, not_two,
                                            (void *)(uintptr_t)request, &found, &any, &all, err);
    if (status != STATUS_OK || watch_cancelled(&request->watch))
        return status;
    if (any) {
        wait_in_order(listing, &found, &row->best);
        return STATUS_OK;
    }
    if (list->split_sets < SHORTLIST_SPLITS)
        list->splits[list->split_sets] = row->best;
    list->split_sets++;
    list->split_sets_given_up += !all;
    return STATUS_OK;
}

// --- the list ---

static bool is_full(const struct listing *listing) {
    return listing->list->count == listing->request->show || listing->list->count == SHORTLIST_MAX;
}

// Lists a row, folds it, or lets it wait for better shares; `split` NULL = its shares are the set's best.
static enum status place_row(struct listing *listing, const struct search_row *found, const struct composition *split,
                             struct error *err) {
    const struct shortlist_request *request = listing->request;
    struct shortlist_row row = {.row = *found};
    enum status status = composition_blend(request->goal, request->lib, &found->best, &row.blend, err);
    if (status == STATUS_OK)
        status = hansen_of_blend(&row.blend, &row.place, err);
    if (status != STATUS_OK)
        return status;
    struct shortlist_row *same = request->fold ? near_identical(listing->list, &row.blend, row.place) : NULL;
    if (is_full(listing)) { // only counted
        if (same && (same->like_count == sizeof same->like / sizeof same->like[0] ||
                     judge(request, &row.blend).verdict != PHASE_TWO))
            fold_into(same, &found->best);
        return STATUS_OK;
    }
    row.phase = judge(request, &row.blend);
    if (row.phase.verdict == PHASE_TWO)
        return try_other_shares(listing, found, err);
    if (split)
        row.split = *split;
    if (same)
        fold_into(same, &found->best);
    else
        listing->list->rows[listing->list->count++] = row;
    return STATUS_OK;
}

static enum status place_first_waiting(struct listing *listing, struct error *err) {
    struct waiting first = listing->waiting[0];
    listing->waiting_count--;
    memmove(&listing->waiting[0], &listing->waiting[1], listing->waiting_count * sizeof listing->waiting[0]);
    return place_row(listing, &first.row, &first.split, err);
}

// True when the first that waits comes before a row of the search.
static bool its_turn(const struct listing *listing, const struct search_row *next) {
    const struct search_row *first = &listing->waiting[0].row;
    return listing->waiting_count &&
           composition_better(&listing->order, &first->score, &first->best, &next->score, &next->best);
}

static enum status place_rows(struct listing *listing, const struct search_result *result, bool whole,
                              struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < result->row_count && status == STATUS_OK; i++) {
        while (status == STATUS_OK && its_turn(listing, &result->rows[i]))
            status = place_first_waiting(listing, err);
        if (status == STATUS_OK)
            status = place_row(listing, &result->rows[i], NULL, err);
        if (watch_cancelled(&listing->request->watch))
            break;
    }
    while (whole && listing->waiting_count && status == STATUS_OK)
        status = place_first_waiting(listing, err);
    return status;
}

enum status shortlist_make(const struct shortlist_request *request, const struct search_result *result, bool whole,
                           struct shortlist *ret, struct error *err) {
    *ret = (struct shortlist){0};
    struct listing listing = {.request = request, .list = ret};
    listing.waiting = memory_new(WAITING_MAX, sizeof *listing.waiting);
    if (!listing.waiting)
        return error_set(err, STATUS_MEMORY, "out of memory");
    recipe_order_make(request->goal, &listing.order);
    enum status status = place_rows(&listing, result, whole, err);
    ret->cut = !is_full(&listing) && (!whole || listing.overflowed);
    memory_free(listing.waiting);
    if (status == STATUS_OK && watch_cancelled(&request->watch))
        return error_set(err, STATUS_INTERRUPTED, "interrupted: the list holds the best so far");
    return status;
}

static enum status fill_spans(const struct shortlist_request *request, struct shortlist *list, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; i < list->count && status == STATUS_OK; i++)
        status = search_span(request->goal, request->lib, &list->rows[i].row, err);
    return status;
}

// Each search takes half of what is left of the bar, for how many there will be is not known.
static struct watch_stage next_part(const struct watch *whole, double from) {
    return (struct watch_stage){.whole = whole, .from = from, .to = (1 + from) / 2};
}

enum status shortlist_search(const struct shortlist_request *request, struct search_result *ret_result,
                             struct shortlist *ret, struct error *err) {
    struct search_request asked = {.goal = request->goal, .lib = request->lib, .threads = request->threads};
    struct watch_stage part = {.whole = &request->watch};
    for (asked.rows_most = request->fold ? ROWS_FIRST : request->show;; asked.rows_most *= ROWS_FACTOR) {
        if (asked.rows_most > SEARCH_ROWS_MAX)
            asked.rows_most = SEARCH_ROWS_MAX;
        part = next_part(&request->watch, part.to);
        asked.watch = watch_of_stage(&part);
        struct search_result result;
        enum status searched = search_by_distance(&asked, &result, err);
        if (searched != STATUS_OK && searched != STATUS_INTERRUPTED)
            return searched;
        bool all = searched == STATUS_OK && result.row_count < asked.rows_most;
        bool last = all || searched != STATUS_OK || asked.rows_most == SEARCH_ROWS_MAX;
        struct shortlist_request listed = *request;
        if (searched != STATUS_OK) // what was found until then is still listed
            listed.watch.cancel = NULL;
        enum status status = shortlist_make(&listed, &result, all, ret, err);
        if (status == STATUS_INTERRUPTED) {
            searched = status;
            status = STATUS_OK;
        }
        if (status == STATUS_OK)
            status = fill_spans(request, ret, err);
        if (status == STATUS_OK && (ret->count == request->show || last || searched != STATUS_OK)) {
            ret->cut |= ret->count < request->show && !all;
            *ret_result = result;
            return searched;
        }
        search_result_release(&result);
        if (status != STATUS_OK)
            return status;
    }
}
