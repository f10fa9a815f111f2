// SPDX-License-Identifier: GPL-3.0-or-later
// What the samples say: quantiles, ranks, ties.
#include "selection/doubt.h"

#include "base/memory.h"

#include <gsl/gsl_sort.h>
#include <math.h>

enum { MILDEST = 5 };

double doubt_error(double p, size_t samples) {
    return samples ? sqrt(p * (1 - p) / (double)samples) : NAN;
}

// --- quantiles ---

struct quantiles {
    double least, median, most;
};

// 10, 50 and 90 %: the smallest value that so many of them do not exceed. Never between two values, since some may be
// infinite. Sorts the values.
static struct quantiles quantiles_of(double *values, size_t count) {
    if (count == 0)
        return (struct quantiles){NAN, NAN, NAN};
    gsl_sort(values, 1, count);
    size_t low = (count + 9) / 10, middle = (count + 1) / 2, high = (9 * count + 9) / 10;
    return (struct quantiles){values[low - 1], values[middle - 1], values[high - 1]};
}

// A column of a table of samples, without what was not judged.
static size_t column(const struct doubt *doubt, const double *table, size_t row, double *ret) {
    size_t count = 0;
    for (size_t k = 0; k < doubt->samples; k++) {
        double value = table[k * doubt->count + row];
        if (!isnan(value))
            ret[count++] = value;
    }
    return count;
}

// --- ranks ---

struct ranking {
    struct doubt *doubt;
    double *values; // room for a sample or a row
    size_t *places; // candidates
    size_t *sorted; // order of the values
    double *ranks;  // samples rows of count, NAN = not ranked
    size_t candidates;
};

// Ranks of the candidates in one sample; equal ones share their mean rank.
static void rank_sample(struct ranking *ranking, size_t sample) {
    const struct doubt *doubt = ranking->doubt;
    const double *swelling = doubt->swelling + sample * doubt->count;
    double *ranks = ranking->ranks + sample * doubt->count;
    size_t places[DOUBT_BLENDS_MAX], count = 0;
    for (size_t i = 0; i < doubt->count; i++)
        ranks[i] = NAN;
    for (size_t i = 0; i < ranking->candidates; i++)
        if (!isnan(swelling[ranking->places[i]])) {
            places[count] = ranking->places[i];
            ranking->values[count++] = swelling[ranking->places[i]];
        }
    gsl_sort_index(ranking->sorted, ranking->values, 1, count);
    for (size_t i = 0; i < count;) {
        size_t end = i + 1;
        while (end < count && ranking->values[ranking->sorted[end]] == ranking->values[ranking->sorted[i]])
            end++;
        for (size_t j = i; j < end; j++)
            ranks[places[ranking->sorted[j]]] = 0.5 * (double)(i + 1 + end);
        bool mildest = i < MILDEST && ranking->values[ranking->sorted[i]] < INFINITY;
        for (size_t j = i; j < end && mildest; j++)
            doubt->rows[places[ranking->sorted[j]]].p_mildest_five += 1;
        i = end;
    }
}

static double infinite_share(const double *values, size_t count) {
    size_t infinite = 0;
    for (size_t i = 0; i < count; i++)
        infinite += values[i] == INFINITY;
    return count ? (double)infinite / (double)count : NAN;
}

static void rank_rows(struct ranking *ranking) {
    struct doubt *doubt = ranking->doubt;
    for (size_t i = 0; i < doubt->count; i++) {
        struct doubt_row *row = &doubt->rows[i];
        size_t count = column(doubt, ranking->ranks, i, ranking->values);
        row->p_mildest_five = count ? row->p_mildest_five / (double)count : NAN;
        struct quantiles q = quantiles_of(ranking->values, count);
        row->rank_least = q.least, row->rank_median = q.median, row->rank_most = q.most;
        count = column(doubt, doubt->swelling, i, ranking->values);
        q = quantiles_of(ranking->values, count);
        row->p_unbounded = infinite_share(ranking->values, count);
        row->swelling_least = q.least, row->swelling_median = q.median, row->swelling_most = q.most;
        count = doubt->target ? column(doubt, doubt->target, i, ranking->values) : 0;
        q = quantiles_of(ranking->values, count);
        row->target_least = q.least, row->target_median = q.median, row->target_most = q.most;
    }
}

static void choose_candidates(struct ranking *ranking, double least_probability) {
    struct doubt *doubt = ranking->doubt;
    doubt->least_probability = least_probability;
    for (size_t i = 0; i < doubt->count; i++) {
        struct doubt_row *row = &doubt->rows[i];
        row->p_mildest_five = 0;
        row->candidate = row->judged && row->p_works >= least_probability;
        if (row->candidate)
            ranking->places[ranking->candidates++] = i;
    }
}

enum status doubt_rank(struct doubt *doubt, double least_probability, struct error *err) {
    if (!(least_probability >= 0 && least_probability <= 1))
        return error_set(err, STATUS_RANGE, "probability %g is not 0 to 1", least_probability);
    size_t longest = doubt->count > doubt->samples ? doubt->count : doubt->samples;
    struct ranking ranking = {
        .doubt = doubt,
        .values = memory_new(longest, sizeof *ranking.values),
        .places = memory_new(doubt->count, sizeof *ranking.places),
        .sorted = memory_new(doubt->count, sizeof *ranking.sorted),
        .ranks = memory_new(doubt->count * (doubt->samples + 1), sizeof *ranking.ranks),
    };
    bool room = ranking.values && ranking.places && ranking.sorted && ranking.ranks;
    if (room) {
        choose_candidates(&ranking, least_probability);
        for (size_t k = 0; k < doubt->samples; k++)
            rank_sample(&ranking, k);
        rank_rows(&ranking);
    }
    memory_free(ranking.values);
    memory_free(ranking.places);
    memory_free(ranking.sorted);
    memory_free(ranking.ranks);
    return room ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory for ranking %zu blends", doubt->count);
}

// --- ties ---

double doubt_milder(const struct doubt *doubt, size_t a, size_t b) {
    double milder = 0;
    size_t both = 0;
    for (size_t k = 0; k < doubt->samples; k++) {
        double left = doubt->swelling[k * doubt->count + a], right = doubt->swelling[k * doubt->count + b];
        if (isnan(left) || isnan(right))
            continue;
        both++;
        milder += left < right ? 1 : left == right ? 0.5 : 0;
    }
    return both ? milder / (double)both : NAN;
}

// NAN counts as larger than everything.
static bool swells_more(const struct doubt *doubt, size_t a, size_t b) {
    double left = doubt->rows[a].swelling_median, right = doubt->rows[b].swelling_median;
    return isnan(right) ? false : isnan(left) || left > right;
}

static bool are_tied(const struct doubt *doubt, size_t a, size_t b) {
    double milder = doubt_milder(doubt, a, b);
    return milder >= DOUBT_TIE && milder <= 1 - DOUBT_TIE;
}

void doubt_order(const struct doubt *doubt, size_t *places, size_t count, size_t *ret_ties) {
    for (size_t i = 1; i < count; i++) {
        size_t place = places[i], at = i;
        for (; at > 0 && swells_more(doubt, places[at - 1], place); at--)
            places[at] = places[at - 1];
        places[at] = place;
    }
    size_t first = 0;
    for (size_t i = 0; i < count; i++) {
        bool same = i > 0 && are_tied(doubt, places[first], places[i]);
        if (!same)
            first = i;
        ret_ties[i] = i == 0 ? 1 : ret_ties[i - 1] + !same;
    }
}
