// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ranking.h"

#include "base/memory.h"
#include "base/units.h"
#include "physics/evaporation.h"
#include "selection/candidates.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

// Below this probability a blend that still works is marked slow: one in ten assumptions says that it does not
// dissolve.
static const double edge_probability = 0.9;
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
    struct watch_stage stage = {&request->watch,
                                request->effort == DOUBT_EFFORT_FULL ? RANKING_STAGE_ENDS : RANKING_STAGE_CAUTIOUS, 1};
    struct doubt_request doubt = {.goal = request->goal,
                                  .lib = request->lib,
                                  .table = request->table,
                                  .blends = candidates->blends,
                                  .count = candidates->count,
                                  .temp_k = request->temp_k,
                                  .samples =
                                      request->effort == DOUBT_EFFORT_FULL ? DOUBT_FULL_SAMPLES : DOUBT_QUICK_SAMPLES,
                                  .seed = request->seed,
                                  .vary = DOUBT_ALL,
                                  .least_probability = request->least_probability,
                                  .threads = request->threads,
                                  .watch = watch_of_stage(&stage)};
    return doubt_sample(&doubt, ret, err);
}

// Median swelling, by the target's where that is cross-linked.
static double median_figure(const struct doubt_row *row, double published_least) {
    double swelling = fmax(row->swelling_median, published_least);
    return isnan(row->target_median) ? swelling : swelling / row->target_median;
}

static struct published highest_class(const struct goal *goal, const struct blend *blend) {
    struct published highest = {0};
    for (size_t i = 0; i < goal->spare_count; i++) {
        struct published one = published_swelling_of(goal->spare[i], blend);
        if (one.swelling && (!highest.swelling || one.swelling->class > highest.swelling->class))
            highest = one;
    }
    return highest;
}

static double published_least(const struct ranking_request *request, const struct blend *blend) {
    return highest_class(request->goal, blend).least;
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

// Below this flash point liquids are highly flammable (UN GHS 2.6); one that is not known counts as such.
static bool is_highly_flammable(double flash_c) {
    return !(flash_c >= 23);
}

// From the drying tail; by the pressures alone where the path cannot be followed.
static enum status residue_of(const struct ranking_request *request, const struct blend *blend,
                              const struct material *spared, struct retention *ret, struct error *err) {
    struct evaporation *path = memory_new(1, sizeof *path);
    struct evaporation_options options = {.temp_c = celsius_from_kelvin(request->temp_k)};
    if (!path)
        return error_set(err, STATUS_MEMORY, "out of memory while ranking");
    if (evaporation_follow(request->lib, request->table, blend, &options, path, NULL) == STATUS_OK)
        retention_of_drying(path, spared, ret);
    else
        retention_of_blend(blend, spared, ret);
    memory_free(path);
    return STATUS_OK;
}

// --- what is asked of candidates, each answer found once ---

struct answers {
    bool has_verdict, has_flash, has_residue;
    enum phase_verdict verdict;
    double flash_c;              // NAN = not known
    enum retention_word residue; // by the drying tail, which costs most
};

struct judging {
    const struct ranking_request *request;
    const struct candidates *candidates;
    struct answers *answers; // of each candidate
};

// What cannot be judged counts as two liquids.
static enum phase_verdict verdict_on(const struct judging *judging, size_t place) {
    struct answers *answers = &judging->answers[place];
    if (!answers->has_verdict) {
        struct phase_judgement phase;
        bool judged =
            miscibility_judge_blend(judging->request->lib, judging->request->table, &judging->candidates->blends[place],
                                    judging->request->temp_k, &phase, NULL) == STATUS_OK;
        answers->verdict = judged ? phase.verdict : PHASE_TWO;
        answers->has_verdict = true;
    }
    return answers->verdict;
}

static double flash_of(const struct judging *judging, size_t place) {
    struct answers *answers = &judging->answers[place];
    if (!answers->has_flash) {
        struct flash flash;
        bool known = flash_point_of_blend(judging->request->table, &judging->candidates->blends[place], &flash, NULL) ==
                     STATUS_OK;
        answers->flash_c = known ? flash.display_c : NAN;
        answers->has_flash = true;
    }
    return answers->flash_c;
}

static enum retention_word residue_word_of(const struct judging *judging, size_t place) {
    struct answers *answers = &judging->answers[place];
    if (!answers->has_residue) {
        struct retention retention;
        bool known =
            residue_of(judging->request, &judging->candidates->blends[place], NULL, &retention, NULL) == STATUS_OK;
        answers->residue = known ? retention.word : RETENTION_UNKNOWN;
        answers->has_residue = true;
    }
    return answers->residue;
}

enum filter { FILTER_NONE, FILTER_SPLIT, FILTER_FLASH, FILTER_RESIDUE };

// The filter that keeps a blend out of the list, and from being named beside its rows; what is not known passes none.
static enum filter filter_on(const struct judging *judging, size_t place) {
    const struct ranking_request *request = judging->request;
    if (verdict_on(judging, place) == PHASE_TWO)
        return FILTER_SPLIT;
    if (!isnan(request->flash_least_c) && !(flash_of(judging, place) >= request->flash_least_c))
        return FILTER_FLASH;
    if (request->residue_most != RETENTION_VERY_LONG && residue_word_of(judging, place) > request->residue_most)
        return FILTER_RESIDUE;
    return FILTER_NONE;
}

static double preference_of(const struct judging *judging, size_t place) {
    const struct blend *blend = &judging->candidates->blends[place];
    switch (judging->request->prefer) {
    case PREFER_RESIDUE:
        return residue_word_of(judging, place);
    case PREFER_HEALTH:
        return health_burden(blend);
    case PREFER_FIRE:
        return is_highly_flammable(flash_of(judging, place));
    case PREFER_WEAK:
        return strong_share_of(blend);
    default:
        return 0;
    }
}

// --- the order of the candidates ---

static bool blend_is_apart(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (component_unproposed(blend->components[i]))
            return true;
    return false;
}

static struct ordered order_key(const struct judging *judging, size_t place, double figure) {
    const struct candidates *candidates = judging->candidates;
    struct bottle_set set = bottles_of(&candidates->rows[place].best, &candidates->strong);
    int strong = bottle_set_count(&set);
    return (struct ordered){.place = place,
                            .apart = blend_is_apart(&candidates->blends[place]),
                            .preferred = preference_of(judging, place),
                            .class = film_class(figure),
                            .strong_bottles = strong,
                            .spare_diluents = spare_diluents(&candidates->rows[place].best, strong),
                            .strong_share = candidates->rows[place].strong_share,
                            .figure = figure};
}

static double nominal_figure(const struct judging *judging, size_t place) {
    struct film_row row = judging->candidates->rows[place];
    row.swelling = fmax(row.swelling, published_least(judging->request, &judging->candidates->blends[place]));
    return film_figure_of_merit(&row);
}

// Without samples: the nominal figures, ties not known.
static size_t order_nominal(const struct judging *judging, struct ordered *ret) {
    size_t count = judging->candidates->count;
    for (size_t i = 0; i < count; i++)
        ret[i] = order_key(judging, i, nominal_figure(judging, i));
    qsort(ret, count, sizeof *ret, by_mildness);
    return count;
}

static bool is_doubtful(const struct ranking_request *request, const struct doubt_row *row) {
    return row->judged && row->p_works >= RANKING_DOUBTFUL && row->p_works < request->least_probability &&
           isfinite(median_figure(row, 0));
}

static bool set_is_taken(const struct bottle_set *strong, const struct ranking *ranking, const struct composition *c) {
    struct bottle_set set = bottles_of(c, strong);
    for (size_t i = 0; i < ranking->doubtful_count; i++) {
        struct bottle_set other = bottles_of(&ranking->doubtful[i], strong);
        if (bottle_set_same(&set, &other))
            return true;
    }
    return false;
}

// The weakest of each of the few weakest sets of strong bottles.
static void keep_doubtful(const struct judging *judging, const struct doubt *doubt, struct ranking *ranking) {
    const struct candidates *candidates = judging->candidates;
    while (ranking->doubtful_count < RANKING_DOUBTFUL_MOST) {
        size_t weakest = SIZE_MAX;
        for (size_t i = 0; i < candidates->count; i++)
            if (is_doubtful(judging->request, &doubt->rows[i]) && !blend_is_apart(&candidates->blends[i]) &&
                (weakest == SIZE_MAX || candidates->rows[i].strong_share < candidates->rows[weakest].strong_share) &&
                !set_is_taken(&candidates->strong, ranking, &candidates->rows[i].best) &&
                filter_on(judging, i) == FILTER_NONE)
                weakest = i;
        if (weakest == SIZE_MAX)
            return;
        ranking->doubtful[ranking->doubtful_count] = candidates->rows[weakest].best;
        ranking->doubtful_p[ranking->doubtful_count++] = doubt->rows[weakest].p_works;
    }
}

// Candidates that are likely enough to work, mildest first; returns their count.
static size_t order_doubted(const struct judging *judging, const struct doubt *doubt, struct ordered *ret,
                            struct ranking *ranking) {
    const struct ranking_request *request = judging->request;
    const struct candidates *candidates = judging->candidates;
    size_t count = 0;
    for (size_t i = 0; i < candidates->count; i++) {
        double figure = median_figure(&doubt->rows[i], published_least(request, &candidates->blends[i]));
        if (doubt->rows[i].judged && doubt->rows[i].p_works > ranking->best_probability) {
            ranking->best_probability = doubt->rows[i].p_works;
            ranking->likeliest = candidates->rows[i].best;
        }
        if (doubt->rows[i].judged && doubt->rows[i].p_works >= request->least_probability && isfinite(figure))
            ret[count++] = order_key(judging, i, figure);
        else
            ranking->too_unlikely++;
    }
    keep_doubtful(judging, doubt, ranking);
    qsort(ret, count, sizeof *ret, by_mildness);
    number_ties(doubt, ret, count);
    return count;
}

// --- rows: filters that are only asked where a row would be shown, and folding ---

static enum status judge_row(const struct ranking_request *request, const struct film_view *view,
                             struct ranked_row *row, struct error *err) {
    const struct material *spared = row->row.spared;
    enum status status =
        miscibility_judge_blend(request->lib, request->table, &row->blend, request->temp_k, &row->phase, err);
    if (status != STATUS_OK || row->phase.verdict == PHASE_TWO)
        return status;
    status = split_films_of(request->goal, request->table, view, &row->blend, &row->phase, &row->split, err);
    if (status == STATUS_OK)
        status = flash_point_of_blend(request->table, &row->blend, &row->flash, err);
    if (status == STATUS_OK)
        status = ghs_flammable_of_blend(request->table, &row->blend, &row->flash, &row->flammable, NULL, err);
    if (status == STATUS_OK)
        status = residue_of(request, &row->blend, spared, &row->retention, err);
    row->published = highest_class(request->goal, &row->blend);
    row->health = health_burden(&row->blend);
    return status;
}

// Those of a row that has been judged; of two liquids nothing more is asked.
static struct answers answers_of_row(const struct ranked_row *row) {
    bool whole = row->phase.verdict != PHASE_TWO;
    return (struct answers){.has_verdict = true,
                            .has_flash = whole,
                            .has_residue = whole,
                            .verdict = row->phase.verdict,
                            .flash_c = row->flash.display_c,
                            .residue = row->retention.word};
}

// A row above that this one brings nothing to.
static struct ranked_row *row_for(const struct bottle_set *strong, struct ranking *ranking,
                                  const struct composition *c) {
    struct bottle_set set = bottles_of(c, strong);
    for (size_t i = 0; i < ranking->count; i++) {
        struct bottle_set above = bottles_of(&ranking->rows[i].row.best, strong);
        if (bottle_set_includes(&set, &above))
            return &ranking->rows[i];
    }
    return NULL;
}

// The weakest of those that are likely enough and stay one liquid, with the same strong bottles as the row.
static void attach_weakest(const struct judging *judging, const struct doubt *doubt, const struct ordered *order,
                           size_t count, struct ranked_row *row) {
    const struct candidates *candidates = judging->candidates;
    struct bottle_set set = bottles_of(&row->row.best, &candidates->strong);
    double share = row->row.strong_share;
    size_t weakest = SIZE_MAX;
    for (size_t i = 0; i < count; i++) {
        size_t place = order[i].place;
        struct bottle_set other = bottles_of(&candidates->rows[place].best, &candidates->strong);
        if (candidates->rows[place].strong_share >= share || !bottle_set_same(&set, &other) ||
            order[i].apart != row->apart || filter_on(judging, place) != FILTER_NONE)
            continue;
        share = candidates->rows[place].strong_share;
        weakest = place;
    }
    if (weakest == SIZE_MAX)
        return;
    row->weakest = (struct weakest_blend){
        .composition = candidates->rows[weakest].best,
        .blend = candidates->blends[weakest],
        .phase = verdict_on(judging, weakest),
        .swelling = candidates->rows[weakest].swelling,
        .published = published_least(judging->request, &candidates->blends[weakest]),
        .flash_c = flash_of(judging, weakest),
    };
    if (doubt->rows)
        row->weakest.doubt = doubt->rows[weakest];
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

// Filters are only asked where a row would be shown.
static bool is_left_out(const struct judging *judging, size_t place, struct ranking *ranking) {
    enum filter filter = filter_on(judging, place);
    ranking->split += filter == FILTER_SPLIT;
    ranking->too_flammable += filter == FILTER_FLASH;
    ranking->too_slow += filter == FILTER_RESIDUE;
    return filter != FILTER_NONE;
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

static enum status fill_rows(const struct judging *judging, const struct doubt *doubt, const struct ordered *order,
                             size_t count, struct ranking *ranking, struct error *err) {
    const struct ranking_request *request = judging->request;
    const struct candidates *candidates = judging->candidates;
    for (size_t i = 0; i < count; i++) {
        struct ranked_row row = fresh_row(candidates, doubt, &order[i]);
        struct ranked_row *same = request->fold ? row_for(&candidates->strong, ranking, &row.row.best) : NULL;
        if (same) {
            if (verdict_on(judging, order[i].place) == PHASE_TWO)
                ranking->split++;
            else
                fold_into(same, &row.row.best);
            continue;
        }
        if (ranking->count == request->show)
            continue;
        enum status status = judge_row(request, &candidates->nominal, &row, err);
        if (status != STATUS_OK)
            return status;
        judging->answers[order[i].place] = answers_of_row(&row);
        if (is_left_out(judging, order[i].place, ranking))
            continue;
        attach_weakest(judging, doubt, order, count, &row);
        ranking->rows[ranking->count++] = row;
    }
    renumber_ties(ranking);
    return STATUS_OK;
}

// --- every respect at once ---

double ranked_swelling(const struct ranked_row *row) {
    return fmax(row->doubted ? row->doubt.swelling_median : row->row.swelling, row->published.least);
}

double ranked_weakest_swelling(const struct ranked_row *row) {
    const struct weakest_blend *weakest = &row->weakest;
    return fmax(row->doubted ? weakest->doubt.swelling_median : weakest->swelling, weakest->published);
}

static bool at_least_as_good(const struct ranked_row *a, const struct ranked_row *b) {
    double swelling_a = ranked_swelling(a);
    double swelling_b = ranked_swelling(b);
    bool fire_a = is_highly_flammable(a->flash.display_c);
    bool fire_b = is_highly_flammable(b->flash.display_c);
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

static bool beats(const struct ranked_row *a, const struct ranked_row *b) {
    return a->apart == b->apart && at_least_as_good(a, b) && !at_least_as_good(b, a);
}

static void find_beaten(struct ranking *ranking) {
    for (size_t i = 0; i < ranking->count; i++) {
        size_t k = 0;
        while (k < ranking->count && !beats(&ranking->rows[k], &ranking->rows[i]))
            k++;
        ranking->rows[i].beaten_by = k < ranking->count ? k + 1 : 0;
    }
}

static enum status order_and_fill(const struct ranking_request *request, const struct candidates *candidates,
                                  struct ranking *ranking, struct error *err) {
    struct ordered *order = memory_new(RANKING_CANDIDATES, sizeof *order);
    struct judging judging = {request, candidates, memory_new(RANKING_CANDIDATES, sizeof *judging.answers)};
    struct doubt doubt = {0};
    enum status status = STATUS_OK;
    size_t count = 0;
    ranking->rows = memory_new(request->show, sizeof *ranking->rows);
    if (!order || !judging.answers || !ranking->rows)
        status = error_set(err, STATUS_MEMORY, "out of memory while ranking");
    bool doubted = request->effort != DOUBT_EFFORT_NONE && candidates->count > 0;
    if (status == STATUS_OK && doubted)
        status = doubt_candidates(request, candidates, &doubt, err);
    if (status == STATUS_OK && doubted) {
        ranking->samples = doubt.samples;
        ranking->seed = request->seed;
        ranking->sampling_error = doubt.error;
        count = order_doubted(&judging, &doubt, order, ranking);
    } else if (status == STATUS_OK) {
        count = order_nominal(&judging, order);
    }
    if (status == STATUS_OK)
        status = fill_rows(&judging, &doubt, order, count, ranking, err);
    find_beaten(ranking);
    if (request->prefer == PREFER_PAINT) {
        unbeaten_first(ranking);
        find_beaten(ranking); // the numbers of the rows have changed
    }
    doubt_release(&doubt);
    memory_free(judging.answers);
    memory_free(order);
    return status;
}

enum status ranking_make(const struct ranking_request *request, struct ranking *ret, struct error *err) {
    struct ranking ranking = {0};
    struct candidates candidates = {0};
    enum status found = candidates_find(request, &ranking.search, &candidates, err);
    enum status status = found;
    ranking.candidates = candidates.count;
    ranking.ends_cases = candidates.ends_cases;
    ranking.ends_step_percent = candidates.ends_step_percent;
    ranking.ends_components = candidates.ends_components;
    ranking.complete = found == STATUS_OK;
    if (found == STATUS_OK || found == STATUS_INTERRUPTED) {
        struct error own = {0};
        status = order_and_fill(request, &candidates, &ranking, &own);
        if (status != STATUS_OK)
            error_set(err, status, "%s", own.text);
        else
            status = found;
    }
    candidates_release(&candidates);
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
