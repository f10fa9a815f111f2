// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ranking.h"

#include "base/memory.h"
#include "base/units.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

// Below this probability a blend that still works is marked slow: one in ten assumptions says that it does not
// dissolve.
static const double edge_probability = 0.9;
// Without fitted range the cautious chains are twice as long (film model: V_p moves by factors of about two).
static const double cautious_factor = 2.0;

// --- candidates: the best of the nominal view and of a cautious one, so that no rival is lost ---

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

struct candidates {
    struct film_view nominal;
    struct film_row *rows;
    struct blend *blends;
    size_t count;
};

static bool same_composition(const struct composition *a, const struct composition *b) {
    if (a->count != b->count)
        return false;
    for (int i = 0; i < a->count; i++)
        if (a->bottles[i] != b->bottles[i] || a->steps[i] != b->steps[i])
            return false;
    return true;
}

static bool has_candidate(const struct candidates *candidates, const struct composition *c) {
    for (size_t i = 0; i < candidates->count; i++)
        if (same_composition(&candidates->rows[i].best, c))
            return true;
    return false;
}

// Bit i: bottle i of the goal is strong (mostly not a weak hydrocarbon) and in the composition. 200 bottles in four
// words.
struct strong_set {
    unsigned long long words[(GOAL_BOTTLES_MAX + 63) / 64];
};

static bool bottle_is_strong(const struct ranking_request *request, int bottle) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(request->lib, &request->goal->bottles[bottle], components, fractions);
    double strong = 0;
    for (size_t i = 0; i < count; i++)
        strong += component_is_weak(components[i]) ? 0 : fractions[i];
    return strong >= 0.5;
}

static struct strong_set strong_bottles(const struct ranking_request *request, const struct composition *c) {
    struct strong_set set = {0};
    for (int i = 0; i < c->count; i++)
        if (bottle_is_strong(request, c->bottles[i]))
            set.words[c->bottles[i] / 64] |= 1ull << (c->bottles[i] % 64);
    return set;
}

static int count_strong(const struct ranking_request *request, const struct composition *c) {
    int count = 0;
    for (int i = 0; i < c->count; i++)
        count += bottle_is_strong(request, c->bottles[i]);
    return count;
}

static bool includes(const struct strong_set *all, const struct strong_set *some) {
    for (size_t i = 0; i < sizeof all->words / sizeof all->words[0]; i++)
        if (some->words[i] & ~all->words[i])
            return false;
    return true;
}

// --- kinds: blends with the same strong bottles; the weak hydrocarbons may change places ---

struct kind {
    struct strong_set strong;
    int count;     // of strong bottles
    double figure; // the best of it
    const struct film_row *weakest;
};

enum { KINDS_MAX = 16, BEST_A_KIND = 3, LADDER_STEPS = 18 };

static int spare_diluents(const struct composition *c, int strong_bottles) {
    int weak = c->count - strong_bottles;
    return weak > 1 ? weak - 1 : 0;
}

static double figure_of(const struct film_row *row) {
    return isnan(row->target_swelling) ? row->swelling : row->swelling / row->target_swelling;
}

static bool same_set(const struct strong_set *a, const struct strong_set *b) {
    return includes(a, b) && includes(b, a);
}

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

static void note_row(const struct ranking_request *request, const struct film_row *row, struct kind *kinds,
                     size_t *count) {
    struct strong_set set = strong_bottles(request, &row->best);
    size_t i = 0;
    while (i < *count && !same_set(&kinds[i].strong, &set))
        i++;
    if (i == *count)
        kinds[(*count)++] = (struct kind){
            .strong = set, .count = count_strong(request, &row->best), .figure = INFINITY, .weakest = row};
    kinds[i].figure = fmin(kinds[i].figure, figure_of(row));
    if (is_weaker(row, kinds[i].weakest, kinds[i].count))
        kinds[i].weakest = row;
}

// More strong bottles must earn their place: a kind that is not milder than each of its parts by a class brings
// nothing.
static bool earns_its_place(const struct kind *kinds, size_t count, const struct kind *kind) {
    for (size_t i = 0; i < count; i++)
        if (&kinds[i] != kind && includes(&kind->strong, &kinds[i].strong) && kind->figure > kinds[i].figure / 1.25)
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
static enum status find_kinds(const struct ranking_request *request, const struct film_search_result *found,
                              struct kind **ret, size_t *ret_count, struct error *err) {
    struct kind *kinds = memory_new(found->row_count, sizeof *kinds);
    size_t count = 0;
    if (!kinds)
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    for (size_t i = 0; i < found->row_count; i++)
        note_row(request, &found->rows[i], kinds, &count);
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

static enum status add_candidate(const struct ranking_request *request, const struct film_row *row,
                                 const struct composition *c, struct candidates *candidates, struct error *err) {
    if (candidates->count == RANKING_CANDIDATES || has_candidate(candidates, c))
        return STATUS_OK;
    struct blend *blend = &candidates->blends[candidates->count];
    enum status status = composition_blend(request->goal, request->lib, c, blend, err);
    if (status != STATUS_OK)
        return status;
    struct film_search_request one = {
        .goal = request->goal, .lib = request->lib, .table = request->table, .view = &candidates->nominal};
    struct film_row *slot = &candidates->rows[candidates->count];
    *slot = *row;
    status = film_figures_of(&one, c, slot, err);
    if (status == STATUS_OK)
        candidates->count++;
    if (status == STATUS_NO_DATA) {
        error_clear(err);
        status = STATUS_OK; // not a candidate
    }
    return status;
}

// One step from the largest weak bottle to the largest strong one; false when nothing is left to give.
static bool one_step_stronger(const struct ranking_request *request, struct composition *c) {
    int from = -1;
    int to = -1;
    for (int i = 0; i < c->count; i++) {
        bool strong = bottle_is_strong(request, c->bottles[i]);
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
    enum status status = add_candidate(request, kind->weakest, &c, candidates, err);
    for (int step = 0; step < LADDER_STEPS && status == STATUS_OK && one_step_stronger(request, &c); step++)
        status = add_candidate(request, kind->weakest, &c, candidates, err);
    return status;
}

static enum status add_best(const struct ranking_request *request, const struct film_search_result *found,
                            const struct kind *kind, struct candidates *candidates, struct error *err) {
    size_t taken = 0;
    for (size_t i = 0; i < found->row_count && taken < BEST_A_KIND; i++) {
        struct strong_set set = strong_bottles(request, &found->rows[i].best);
        if (!same_set(&set, &kind->strong))
            continue;
        enum status status = add_candidate(request, &found->rows[i], &found->rows[i].best, candidates, err);
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
    enum status status = find_kinds(request, nominal, &kinds, &count, err);
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
        enum status status = add_candidate(request, &found->rows[i], &found->rows[i].best, candidates, err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

static enum status search_view(const struct ranking_request *request, const struct film_view *view,
                               struct film_search_result *ret, struct error *err) {
    struct film_search_request search = {.goal = request->goal,
                                         .lib = request->lib,
                                         .table = request->table,
                                         .view = view,
                                         .threads = request->threads,
                                         .watch = request->watch};
    return film_search(&search, ret, err);
}

static enum status find_candidates(const struct ranking_request *request, struct ranking *ranking,
                                   struct candidates *candidates, struct error *err) {
    struct film_view nominal = {0};
    struct film_search_result cautious_found = {0};
    enum status status = film_view_of_goal(request->goal, request->temp_k, &nominal, err);
    if (status == STATUS_OK)
        status = search_view(request, &nominal, &ranking->search, err);
    candidates->nominal = nominal;
    if (status == STATUS_OK && request->effort != DOUBT_EFFORT_NONE) {
        struct film_view cautious = cautious_view(request->goal, &nominal);
        status = search_view(request, &cautious, &cautious_found, err);
    }
    candidates->rows = memory_new(RANKING_CANDIDATES, sizeof *candidates->rows);
    candidates->blends = memory_new(RANKING_CANDIDATES, sizeof *candidates->blends);
    if (!candidates->rows || !candidates->blends)
        status = error_set(err, STATUS_MEMORY, "out of memory while ranking");
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        enum status added = STATUS_OK;
        if (request->fold)
            added = add_kinds(request, &ranking->search, &cautious_found, candidates, err);
        else
            added = add_sets(request, &cautious_found, RANKING_CANDIDATES * 2 / 3, candidates, err);
        if (added == STATUS_OK && !request->fold)
            added = add_sets(request, &ranking->search, RANKING_CANDIDATES, candidates, err);
        status = status == STATUS_OK ? added : status;
    }
    film_search_release(&cautious_found);
    return status;
}

// --- order ---

struct ordered {
    size_t place; // among the candidates
    size_t tie;
    int class;
    bool apart;       // beyond the model, allowed by name: below all others, never ranked on swelling
    double preferred; // less is better
    int strong_bottles;
    int spare_diluents; // weak bottles beyond the first
    double strong_share;
    double figure;
};

const char *const preference_words[] = {"paint", "residue", "health", "fire", "weak", NULL};

static int by_mildness(const void *a, const void *b) {
    const struct ordered *x = a;
    const struct ordered *y = b;
    if (x->apart != y->apart)
        return x->apart ? 1 : -1;
    if (x->preferred != y->preferred)
        return x->preferred < y->preferred ? -1 : 1;
    if (x->class != y->class)
        return x->class < y->class ? -1 : 1;
    if (x->strong_bottles != y->strong_bottles)
        return x->strong_bottles - y->strong_bottles;
    if (x->spare_diluents != y->spare_diluents)
        return x->spare_diluents - y->spare_diluents;
    if (x->strong_share != y->strong_share)
        return x->strong_share < y->strong_share ? -1 : 1;
    if (x->figure != y->figure)
        return x->figure < y->figure ? -1 : 1;
    return x->place < y->place ? -1 : x->place > y->place ? 1 : 0;
}

static enum status doubt_candidates(const struct ranking_request *request, const struct candidates *candidates,
                                    struct doubt *ret, struct error *err) {
    struct doubt_request doubt = {.goal = request->goal,
                                  .lib = request->lib,
                                  .table = request->table,
                                  .blends = candidates->blends,
                                  .count = candidates->count,
                                  .temp_k = request->temp_k,
                                  .samples =
                                      request->effort == DOUBT_EFFORT_FULL ? DOUBT_FULL_SAMPLES : DOUBT_QUICK_SAMPLES,
                                  .seed = 1,
                                  .vary = DOUBT_ALL,
                                  .least_probability = request->least_probability,
                                  .threads = request->threads,
                                  .watch = request->watch};
    return doubt_sample(&doubt, ret, err);
}

// Median swelling, by the target's where that is cross-linked.
static double median_figure(const struct doubt_row *row) {
    return isnan(row->target_median) ? row->swelling_median : row->swelling_median / row->target_median;
}

// A tie ends where the class changes and the samples agree on the order.
static void number_ties(const struct doubt *doubt, struct ordered *rows, size_t count) {
    size_t first = 0;
    size_t tie = 1;
    for (size_t i = 0; i < count; i++) {
        bool apart = rows[i].class != rows[first].class &&
                     fabs(doubt_milder(doubt, rows[first].place, rows[i].place) - 0.5) > 0.5 - DOUBT_TIE;
        if (apart) {
            first = i;
            tie++;
        }
        rows[i].tie = tie;
    }
}

// Liquids below this flash point are highly flammable (UN GHS 2.6).
static const double highly_flammable_c = 23;

static double preference_of(const struct ranking_request *request, const struct blend *blend) {
    struct retention retention;
    struct flash flash;
    switch (request->prefer) {
    case PREFER_RESIDUE:
        retention_of_blend(blend, NULL, &retention);
        return retention.word;
    case PREFER_HEALTH:
        return health_burden(blend);
    case PREFER_FIRE:
        if (flash_point_of_blend(request->table, blend, &flash, NULL) != STATUS_OK || isnan(flash.display_c))
            return 1;
        return flash.display_c < highly_flammable_c;
    case PREFER_WEAK:
        return strong_share_of(blend);
    default:
        return 0;
    }
}

static bool blend_is_apart(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (component_unproposed(blend->components[i]))
            return true;
    return false;
}

static struct ordered order_key(const struct ranking_request *request, const struct candidates *candidates,
                                size_t place, double figure) {
    int strong = count_strong(request, &candidates->rows[place].best);
    return (struct ordered){.place = place,
                            .apart = blend_is_apart(&candidates->blends[place]),
                            .preferred = preference_of(request, &candidates->blends[place]),
                            .class = film_class(figure),
                            .strong_bottles = strong,
                            .spare_diluents = spare_diluents(&candidates->rows[place].best, strong),
                            .strong_share = candidates->rows[place].strong_share,
                            .figure = figure};
}

// Without samples: the nominal figures, ties not known.
static size_t order_nominal(const struct ranking_request *request, const struct candidates *candidates,
                            struct ordered *ret) {
    for (size_t i = 0; i < candidates->count; i++)
        ret[i] = order_key(request, candidates, i, figure_of(&candidates->rows[i]));
    qsort(ret, candidates->count, sizeof *ret, by_mildness);
    return candidates->count;
}

static enum phase_verdict verdict_on(const struct ranking_request *request, const struct blend *blend) {
    struct phase_judgement phase;
    if (miscibility_judge_blend(request->lib, request->table, blend, request->temp_k, &phase, NULL) != STATUS_OK)
        return PHASE_TWO;
    return phase.verdict;
}

static bool is_doubtful(const struct ranking_request *request, const struct doubt_row *row) {
    return row->judged && row->p_works >= RANKING_DOUBTFUL && row->p_works < request->least_probability &&
           isfinite(median_figure(row));
}

static bool set_is_taken(const struct ranking_request *request, const struct ranking *ranking,
                         const struct composition *c) {
    struct strong_set set = strong_bottles(request, c);
    for (size_t i = 0; i < ranking->doubtful_count; i++) {
        struct strong_set other = strong_bottles(request, &ranking->doubtful[i]);
        if (same_set(&set, &other))
            return true;
    }
    return false;
}

// The weakest of each of the few weakest sets of strong bottles.
static void keep_doubtful(const struct ranking_request *request, const struct doubt *doubt,
                          const struct candidates *candidates, struct ranking *ranking) {
    while (ranking->doubtful_count < RANKING_DOUBTFUL_MOST) {
        size_t weakest = SIZE_MAX;
        for (size_t i = 0; i < candidates->count; i++)
            if (is_doubtful(request, &doubt->rows[i]) && !blend_is_apart(&candidates->blends[i]) &&
                (weakest == SIZE_MAX || candidates->rows[i].strong_share < candidates->rows[weakest].strong_share) &&
                !set_is_taken(request, ranking, &candidates->rows[i].best) &&
                verdict_on(request, &candidates->blends[i]) != PHASE_TWO)
                weakest = i;
        if (weakest == SIZE_MAX)
            return;
        ranking->doubtful[ranking->doubtful_count] = candidates->rows[weakest].best;
        ranking->doubtful_p[ranking->doubtful_count++] = doubt->rows[weakest].p_works;
    }
}

// Candidates that are likely enough to work, mildest first; returns their count.
static size_t order_doubted(const struct ranking_request *request, const struct doubt *doubt,
                            const struct candidates *candidates, struct ordered *ret, struct ranking *ranking) {
    size_t count = 0;
    for (size_t i = 0; i < candidates->count; i++) {
        double figure = median_figure(&doubt->rows[i]);
        if (doubt->rows[i].judged && doubt->rows[i].p_works > ranking->best_probability) {
            ranking->best_probability = doubt->rows[i].p_works;
            ranking->likeliest = candidates->rows[i].best;
        }
        if (doubt->rows[i].judged && doubt->rows[i].p_works >= request->least_probability && isfinite(figure))
            ret[count++] = order_key(request, candidates, i, figure);
        else
            ranking->too_unlikely++;
    }
    keep_doubtful(request, doubt, candidates, ranking);
    qsort(ret, count, sizeof *ret, by_mildness);
    number_ties(doubt, ret, count);
    return count;
}

// --- rows: filters that are only asked where a row would be shown, and folding ---

static enum status judge_row(const struct ranking_request *request, struct ranked_row *row, struct error *err) {
    const struct material *spared = row->row.spared;
    enum status status =
        miscibility_judge_blend(request->lib, request->table, &row->blend, request->temp_k, &row->phase, err);
    if (status != STATUS_OK || row->phase.verdict == PHASE_TWO)
        return status;
    status = flash_point_of_blend(request->table, &row->blend, &row->flash, err);
    if (status == STATUS_OK)
        status = ghs_flammable_of_blend(request->table, &row->blend, &row->flash, &row->flammable, NULL, err);
    retention_of_blend(&row->blend, spared, &row->retention);
    row->health = health_burden(&row->blend);
    return status;
}

// A row above that this one brings nothing to.
static struct ranked_row *row_for(const struct ranking_request *request, struct ranking *ranking,
                                  const struct composition *c) {
    struct strong_set set = strong_bottles(request, c);
    for (size_t i = 0; i < ranking->count; i++) {
        struct strong_set above = strong_bottles(request, &ranking->rows[i].row.best);
        if (includes(&set, &above))
            return &ranking->rows[i];
    }
    return NULL;
}

// The weakest of those that are likely enough and stay one liquid, with the same strong bottles as the row.
static void attach_weakest(const struct ranking_request *request, const struct candidates *candidates,
                           const struct doubt *doubt, const struct ordered *order, size_t count,
                           struct ranked_row *row) {
    struct strong_set set = strong_bottles(request, &row->row.best);
    double share = row->row.strong_share;
    for (size_t i = 0; i < count; i++) {
        size_t place = order[i].place;
        struct strong_set other = strong_bottles(request, &candidates->rows[place].best);
        if (candidates->rows[place].strong_share >= share || !same_set(&set, &other) || order[i].apart != row->apart)
            continue;
        enum phase_verdict verdict = verdict_on(request, &candidates->blends[place]);
        if (verdict == PHASE_TWO)
            continue;
        row->weakest_phase = verdict;
        share = candidates->rows[place].strong_share;
        row->weakest = candidates->rows[place].best;
        row->weakest_blend = candidates->blends[place];
        row->weakest_swelling = candidates->rows[place].swelling;
        if (doubt->rows)
            row->weakest_doubt = doubt->rows[place];
    }
}

static void fold_into(struct ranked_row *row, const struct composition *c) {
    row->similar++;
    if (row->like_count < sizeof row->like / sizeof row->like[0])
        row->like[row->like_count++] = *c;
}

static struct ranked_row fresh_row(const struct candidates *candidates, const struct doubt *doubt,
                                   const struct ordered *ordered) {
    struct ranked_row row = {.row = candidates->rows[ordered->place],
                             .blend = candidates->blends[ordered->place],
                             .apart = ordered->apart,
                             .doubted = doubt->rows != NULL};
    if (doubt->rows) {
        row.doubt = doubt->rows[ordered->place];
        row.tie = ordered->apart ? 0 : ordered->tie;
        row.edge = row.doubt.p_works < edge_probability;
    }
    return row;
}

// Filters that are only asked where a row would be shown; what is not known passes none of them.
static bool left_out(const struct ranking_request *request, const struct ranked_row *row, struct ranking *ranking) {
    if (row->phase.verdict == PHASE_TWO)
        ranking->split++;
    else if (!isnan(request->flash_least_c) && !(row->flash.display_c >= request->flash_least_c))
        ranking->too_flammable++;
    else if (request->residue_most != RETENTION_VERY_LONG && row->retention.word > request->residue_most)
        ranking->too_slow++;
    else
        return false;
    return true;
}

// Ties that lost all their rows to a filter leave no gap.
static void renumber_ties(struct ranking *ranking) {
    size_t number = 0;
    size_t before = 0;
    for (size_t i = 0; i < ranking->count; i++) {
        size_t tie = ranking->rows[i].tie;
        if (tie && tie != before)
            number++;
        before = tie;
        ranking->rows[i].tie = tie ? number : 0;
    }
}

static enum status fill_rows(const struct ranking_request *request, const struct candidates *candidates,
                             const struct doubt *doubt, const struct ordered *order, size_t count,
                             struct ranking *ranking, struct error *err) {
    for (size_t i = 0; i < count; i++) {
        struct ranked_row row = fresh_row(candidates, doubt, &order[i]);
        struct ranked_row *same = request->fold ? row_for(request, ranking, &row.row.best) : NULL;
        if (same) {
            if (verdict_on(request, &row.blend) == PHASE_TWO)
                ranking->split++;
            else
                fold_into(same, &row.row.best);
            continue;
        }
        if (ranking->count == request->show)
            continue;
        enum status status = judge_row(request, &row, err);
        if (status != STATUS_OK)
            return status;
        if (left_out(request, &row, ranking))
            continue;
        attach_weakest(request, candidates, doubt, order, count, &row);
        ranking->rows[ranking->count++] = row;
    }
    renumber_ties(ranking);
    return STATUS_OK;
}

// --- every respect at once ---

static bool at_least_as_good(const struct ranked_row *a, const struct ranked_row *b) {
    double swelling_a = a->doubted ? a->doubt.swelling_median : a->row.swelling;
    double swelling_b = b->doubted ? b->doubt.swelling_median : b->row.swelling;
    bool fire_a = !(a->flash.display_c >= highly_flammable_c);
    bool fire_b = !(b->flash.display_c >= highly_flammable_c);
    return (!a->doubted || a->doubt.p_works >= b->doubt.p_works) && film_class(swelling_a) <= film_class(swelling_b) &&
           a->retention.word <= b->retention.word && a->health <= b->health && fire_a <= fire_b;
}

// Within a tie, rows that another beats in every respect stand below those that none does.
static void unbeaten_first(struct ranking *ranking) {
    for (size_t i = 1; i < ranking->count; i++)
        for (size_t k = i; k > 0 && ranking->rows[k].tie && ranking->rows[k].tie == ranking->rows[k - 1].tie &&
                           ranking->rows[k - 1].beaten_by && !ranking->rows[k].beaten_by;
             k--) {
            struct ranked_row row = ranking->rows[k];
            ranking->rows[k] = ranking->rows[k - 1];
            ranking->rows[k - 1] = row;
        }
}

static void find_beaten(struct ranking *ranking) {
    for (size_t i = 0; i < ranking->count; i++)
        for (size_t k = 0; k < ranking->count && !ranking->rows[i].beaten_by; k++)
            if (k != i && ranking->rows[k].apart == ranking->rows[i].apart &&
                at_least_as_good(&ranking->rows[k], &ranking->rows[i]) &&
                !at_least_as_good(&ranking->rows[i], &ranking->rows[k]))
                ranking->rows[i].beaten_by = k + 1;
}

static enum status order_and_fill(const struct ranking_request *request, const struct candidates *candidates,
                                  struct ranking *ranking, struct error *err) {
    struct ordered *order = memory_new(RANKING_CANDIDATES, sizeof *order);
    struct doubt doubt = {0};
    enum status status = STATUS_OK;
    size_t count = 0;
    ranking->rows = memory_new(request->show, sizeof *ranking->rows);
    if (!order || !ranking->rows)
        status = error_set(err, STATUS_MEMORY, "out of memory while ranking");
    bool doubted = request->effort != DOUBT_EFFORT_NONE && candidates->count > 0;
    if (status == STATUS_OK && doubted)
        status = doubt_candidates(request, candidates, &doubt, err);
    if (status == STATUS_OK && doubted) {
        ranking->samples = doubt.samples;
        ranking->sampling_error = doubt.error;
        count = order_doubted(request, &doubt, candidates, order, ranking);
    } else if (status == STATUS_OK) {
        count = order_nominal(request, candidates, order);
    }
    if (status == STATUS_OK)
        status = fill_rows(request, candidates, &doubt, order, count, ranking, err);
    find_beaten(ranking);
    if (request->prefer == PREFER_PAINT) {
        unbeaten_first(ranking);
        for (size_t i = 0; i < ranking->count; i++)
            ranking->rows[i].beaten_by = 0;
        find_beaten(ranking);
    }
    doubt_release(&doubt);
    memory_free(order);
    return status;
}

enum status ranking_make(const struct ranking_request *request, struct ranking *ret, struct error *err) {
    struct ranking ranking = {0};
    struct candidates candidates = {0};
    enum status found = find_candidates(request, &ranking, &candidates, err);
    enum status status = found;
    ranking.candidates = candidates.count;
    ranking.complete = found == STATUS_OK;
    if (found == STATUS_OK || found == STATUS_INTERRUPTED) {
        struct error own = {0};
        status = order_and_fill(request, &candidates, &ranking, &own);
        if (status != STATUS_OK)
            error_set(err, status, "%s", own.text);
        else
            status = found;
    }
    memory_free(candidates.rows);
    memory_free(candidates.blends);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        *ret = ranking;
    else
        ranking_release(&ranking);
    return status;
}

void ranking_release(struct ranking *ranking) {
    if (!ranking)
        return;
    film_search_release(&ranking->search);
    memory_free(ranking->rows);
    *ranking = (struct ranking){0};
}
