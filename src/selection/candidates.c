// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/candidates.h"

#include "base/memory.h"

#include <math.h>
#include <stdlib.h>

// Without fitted range the cautious chains are twice as long (film model: V_p moves by factors of about two).
static const double cautious_factor = 2.0;

// The resin at the end at which it needs most.
static struct film_view cautious_view(const struct goal *goal, const struct film_view *nominal) {
    struct film_view view = *nominal;
    for (size_t i = 0; i < goal->remove_count; i++) {
        double most = goal->remove[i]->film_model.molar_volume_most;
        if (isfinite(view.remove[i].molar_volume_cm3_mol) && view.remove[i].molar_volume_cm3_mol > 0)
            view.remove[i].molar_volume_cm3_mol =
                isfinite(most) ? most : view.remove[i].molar_volume_cm3_mol * cautious_factor;
    }
    return view;
}

// --- kinds: blends with the same strong bottles; the weak hydrocarbons may change places ---

struct kind {
    struct bottle_set strong;
    int count;     // of strong bottles
    double figure; // the best of it
    const struct film_row *weakest;
};

enum { KINDS_MAX = 16, BEST_A_KIND = 3, LADDER_STEPS = 18 };

// One diluent is better than two; then the smaller strong share, then less swelling.
static bool is_weaker(const struct film_row *a, const struct film_row *b, int strong_bottles) {
    int spare_a = spare_diluents(&a->weakest, strong_bottles);
    int spare_b = spare_diluents(&b->weakest, strong_bottles);
    if (spare_a != spare_b)
        return spare_a < spare_b;
    if (a->weakest_share != b->weakest_share)
        return a->weakest_share < b->weakest_share;
    return a->weakest_swelling < b->weakest_swelling;
}

static void note_row(const struct bottle_set *strong, const struct film_row *row, struct kind *kinds, size_t *count) {
    struct bottle_set set = bottles_of(&row->best, strong);
    size_t i = 0;
    while (i < *count && !bottle_set_same(&kinds[i].strong, &set))
        i++;
    if (i == *count)
        kinds[(*count)++] =
            (struct kind){.strong = set, .count = bottle_set_count(&set), .figure = INFINITY, .weakest = row};
    kinds[i].figure = fmin(kinds[i].figure, film_figure_of_merit(row));
    if (is_weaker(row, kinds[i].weakest, kinds[i].count))
        kinds[i].weakest = row;
}

// More strong bottles must earn their place: a kind that is not milder than each of its parts by a class brings
// nothing.
static bool earns_its_place(const struct kind *kinds, size_t count, const struct kind *kind) {
    for (size_t i = 0; i < count; i++)
        if (&kinds[i] != kind && bottle_set_includes(&kind->strong, &kinds[i].strong) &&
            kind->figure > kinds[i].figure / 1.25)
            return false;
    return true;
}

static int by_figure(const void *a, const void *b) {
    const struct kind *x = a;
    const struct kind *y = b;
    if (x->figure != y->figure)
        return x->figure < y->figure ? -1 : 1;
    return x->count - y->count;
}

// The kinds worth sampling, mildest first. *ret is allocated, for the caller to free.
static enum status find_kinds(const struct bottle_set *strong, const struct film_search_result *found,
                              struct kind **ret, size_t *ret_count, struct error *err) {
    struct kind *kinds = memory_new(found->row_count, sizeof *kinds);
    size_t count = 0;
    if (!kinds)
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    for (size_t i = 0; i < found->row_count; i++)
        note_row(strong, &found->rows[i], kinds, &count);
    struct kind *kept = memory_new(count, sizeof *kept);
    if (!kept) {
        memory_free(kinds);
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    }
    for (size_t i = 0; i < count; i++)
        if (earns_its_place(kinds, count, &kinds[i]))
            kept[(*ret_count)++] = kinds[i];
    qsort(kept, *ret_count, sizeof *kept, by_figure);
    memory_free(kinds);
    *ret = kept;
    return STATUS_OK;
}

// One step from the largest weak bottle to the largest strong one; false when nothing is left to give.
static bool one_step_stronger(const struct bottle_set *all_strong, struct composition *c) {
    int from = -1;
    int to = -1;
    for (int i = 0; i < c->count; i++) {
        bool strong = bottle_set_has(all_strong, c->bottles[i]);
        if (strong && (to < 0 || c->steps[i] > c->steps[to]))
            to = i;
        if (!strong && c->steps[i] > 1 && (from < 0 || c->steps[i] > c->steps[from]))
            from = i;
    }
    if (from < 0 || to < 0)
        return false;
    c->steps[from]--;
    c->steps[to]++;
    return true;
}

// From the weakest that works nominally upwards, so that the weakest that works surely is among the candidates.
static enum status add_ladder(const struct ranking_request *request, const struct kind *kind,
                              struct candidates *candidates, struct error *err) {
    struct composition c = kind->weakest->weakest;
    enum status status = candidates_add(request, kind->weakest, &c, candidates, err);
    for (int step = 0; step < LADDER_STEPS && status == STATUS_OK && one_step_stronger(&candidates->strong, &c); step++)
        status = candidates_add(request, kind->weakest, &c, candidates, err);
    return status;
}

static enum status add_best(const struct ranking_request *request, const struct film_search_result *found,
                            const struct kind *kind, struct candidates *candidates, struct error *err) {
    size_t taken = 0;
    for (size_t i = 0; i < found->row_count && taken < BEST_A_KIND; i++) {
        struct bottle_set set = bottles_of(&found->rows[i].best, &candidates->strong);
        if (!bottle_set_same(&set, &kind->strong))
            continue;
        enum status status = candidates_add(request, &found->rows[i], &found->rows[i].best, candidates, err);
        if (status != STATUS_OK)
            return status;
        taken++;
    }
    return STATUS_OK;
}

static enum status add_kinds(const struct ranking_request *request, const struct film_search_result *nominal,
                             const struct film_search_result *cautious, struct candidates *candidates,
                             struct error *err) {
    struct kind *kinds = NULL;
    size_t count = 0;
    enum status status = find_kinds(&candidates->strong, nominal, &kinds, &count, err);
    for (size_t i = 0; i < count && i < KINDS_MAX && status == STATUS_OK; i++) {
        status = add_best(request, cautious, &kinds[i], candidates, err);
        if (status == STATUS_OK)
            status = add_best(request, nominal, &kinds[i], candidates, err);
        if (status == STATUS_OK)
            status = add_ladder(request, &kinds[i], candidates, err);
    }
    memory_free(kinds);
    return status;
}

// Every set of bottles for itself.
static enum status add_sets(const struct ranking_request *request, const struct film_search_result *found, size_t most,
                            struct candidates *candidates, struct error *err) {
    for (size_t i = 0; i < found->row_count && candidates->count < most; i++) {
        enum status status = candidates_add(request, &found->rows[i], &found->rows[i].best, candidates, err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static enum status search_view(const struct ranking_request *request, const struct film_view *view, double from,
                               double to, struct film_search_result *ret, struct error *err) {
    struct watch_stage stage = {&request->watch, from, to};
    struct film_search_request search = {.goal = request->goal,
                                         .lib = request->lib,
                                         .table = request->table,
                                         .view = view,
                                         .threads = request->threads,
                                         .watch = watch_of_stage(&stage)};
    return film_search(&search, ret, err);
}

// The sets of bottles of both searches become blends to sample.
static enum status add_found(const struct ranking_request *request, const struct film_search_result *nominal,
                             const struct film_search_result *cautious, struct candidates *candidates,
                             struct error *err) {
    if (request->fold)
        return add_kinds(request, nominal, cautious, candidates, err);
    enum status status = add_sets(request, cautious, RANKING_CANDIDATES * 2 / 3, candidates, err);
    return status == STATUS_OK ? add_sets(request, nominal, RANKING_CANDIDATES, candidates, err) : status;
}

enum status candidates_find(const struct ranking_request *request, struct film_search_result *ret_nominal,
                            struct candidates *ret, struct error *err) {
    struct film_search_result cautious_found = {0};
    ret->strong = strong_bottles_of_goal(request->goal, request->lib);
    enum status status = film_view_of_goal(request->goal, request->temp_k, &ret->nominal, err);
    if (status == STATUS_OK)
        status = search_view(request, &ret->nominal, 0, RANKING_STAGE_NOMINAL, ret_nominal, err);
    if (status == STATUS_OK && request->effort != DOUBT_EFFORT_NONE) {
        struct film_view cautious = cautious_view(request->goal, &ret->nominal);
        status = search_view(request, &cautious, RANKING_STAGE_NOMINAL, RANKING_STAGE_CAUTIOUS, &cautious_found, err);
    }
    ret->rows = memory_new(RANKING_CANDIDATES, sizeof *ret->rows);
    ret->blends = memory_new(RANKING_CANDIDATES, sizeof *ret->blends);
    if (!ret->rows || !ret->blends)
        status = error_set(err, STATUS_MEMORY, "out of memory while ranking");
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        enum status added = add_found(request, ret_nominal, &cautious_found, ret, err);
        status = status == STATUS_OK ? added : status;
    }
    if (status == STATUS_OK && request->effort == DOUBT_EFFORT_FULL && request->goal->bottle_count > 0)
        status = candidates_add_ends(request, ret_nominal, ret, err);
    film_search_release(&cautious_found);
    return status;
}

void candidates_release(struct candidates *candidates) {
    memory_free(candidates->rows);
    memory_free(candidates->blends);
    *candidates = (struct candidates){0};
}
