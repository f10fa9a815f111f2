// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/doubt.h"

#include "base/memory.h"
#include "physics/film_tilt.h"
#include "selection/doubt_draw.h"

#include <assert.h>
#include <math.h>
#include <string.h>

struct sampling {
    const struct doubt_request *request;
    struct liquid_list list;
    struct doubt_plan plan;
    struct doubt doubt;
    bool can_dissolve, cross_linked; // some material to remove
    bool needs_activities;           // some material is judged by its film
    unsigned char *outcome;          // of each piece of a round, enum sample_outcome
    unsigned char *failed;           // samples rows of count
    // A round draws as many points as samples are still missing; the rows of those that were used move together after
    // it. So the samples are the first points that meet the anchors, whichever thread drew them.
    size_t first;       // number of the round's first point
    atomic_size_t done; // pieces of the round
    double shown;       // progress
};

enum sample_outcome { SAMPLE_MISSING, SAMPLE_USED, SAMPLE_DROPPED };

// --- one blend in one sample ---

struct judging {
    const struct sampling *sampling;
    const struct doubt_values *values;
    const struct liquid_set *set;
    const double *tilt;
    double matrix[BLEND_COMPONENTS_MAX * BLEND_COMPONENTS_MAX];
    struct film films[DOUBT_MATERIALS_MAX];
    struct film_state states[DOUBT_MATERIALS_MAX]; // of the liquid before, of the same set
};

// What one material makes of one liquid.
struct material_answer {
    bool failed;
    double swelling; // NAN where judged by the sphere
    double ra, red;
};

static void enter_set(struct judging *judging, const struct liquid_set *set) {
    const struct doubt_plan *plan = &judging->sampling->plan;
    judging->set = set;
    if (!set->covered)
        return;
    judging->tilt = doubt_tilt(plan, judging->values->sample, set, judging->matrix);
    for (size_t i = 0; i < plan->count; i++) {
        judging->states[i].known = false;
        if (plan->materials[i].by_film)
            doubt_film(plan, judging->values, i, set, judging->tilt, &judging->films[i]);
    }
}

static struct hansen mean_place(const struct judging *judging, const struct liquid *liquid) {
    struct hansen mean = {0, 0, 0};
    for (size_t i = 0; i < judging->set->count; i++) {
        const struct hansen *place = &judging->values->components[judging->set->members[i]];
        mean.delta_d += liquid->volume_fractions[i] * place->delta_d;
        mean.delta_p += liquid->volume_fractions[i] * place->delta_p;
        mean.delta_h += liquid->volume_fractions[i] * place->delta_h;
    }
    return mean;
}

static struct material_answer ask_film(struct judging *judging, size_t material, const double *ln_activity) {
    struct film_result result;
    film_of_activities(&judging->films[material], ln_activity, &judging->states[material], &result);
    return (struct material_answer){
        .failed = result.outcome == FILM_FAILED,
        .swelling = result.outcome == FILM_WITHOUT_LIMIT ? INFINITY : result.swelling,
        .ra = NAN,
        .red = NAN,
    };
}

static struct material_answer ask(struct judging *judging, size_t material, struct hansen place,
                                  const double *ln_activity) {
    const struct doubt_material *item = &judging->sampling->plan.materials[material];
    struct material_answer answer = {.swelling = NAN, .ra = NAN, .red = NAN};
    if (item->by_film)
        answer = ask_film(judging, material, ln_activity);
    if (item->by_film && !item->sphere_too)
        return answer;
    answer.ra = hansen_distance(place, judging->values->materials[material].sphere);
    answer.red = answer.ra / judging->values->materials[material].r0;
    return answer;
}

// The materials to spare, as one figure (struct doubt, swelling) and for the windows.
struct spared {
    bool failed;
    double swelling; // of films: the largest
    bool inside;     // one of the spheres
    double nearest;  // Ra
};

static struct spared ask_spared(struct judging *judging, struct hansen place, const double *ln_activity) {
    const struct doubt_plan *plan = &judging->sampling->plan;
    struct spared spared = {.swelling = 0, .nearest = INFINITY};
    for (size_t i = plan->remove_count; i < plan->count; i++) {
        struct material_answer answer = ask(judging, i, place, ln_activity);
        spared.failed = spared.failed || answer.failed;
        spared.swelling = fmax(spared.swelling, answer.swelling); // fmax passes over NAN
        spared.inside = spared.inside || answer.red < 1;
        spared.nearest = fmin(spared.nearest, answer.ra);
    }
    return spared;
}

// Does a cross-linked target swell enough beyond what is to be spared? By its sphere: inside it, outside all others.
static bool leaves_window(const struct material_answer *target, const struct spared *spared) {
    if (!isnan(target->swelling))
        return !spared->inside && spared->swelling < INFINITY && goal_leaves_window(target->swelling, spared->swelling);
    return target->red < 1 && !spared->inside;
}

struct blend_answer {
    bool failed;
    unsigned answers; // of enum doubt_answer
    double swelling, target;
};

static struct blend_answer judge(struct judging *judging, const struct liquid *liquid) {
    const struct sampling *sampling = judging->sampling;
    const struct doubt_plan *plan = &sampling->plan;
    double ln_activity[BLEND_COMPONENTS_MAX];
    memcpy(ln_activity, liquid->ln_activity, judging->set->count * sizeof *ln_activity);
    if (judging->tilt)
        film_tilt_add(judging->tilt, judging->set->count, liquid->x, ln_activity, NULL);
    struct hansen place = mean_place(judging, liquid);
    struct spared spared = ask_spared(judging, place, ln_activity);
    struct blend_answer ret = {.failed = spared.failed, .answers = DOUBT_DISSOLVES | DOUBT_WINDOW, .target = INFINITY};
    for (size_t i = 0; i < plan->remove_count; i++) {
        const struct doubt_material *item = &plan->materials[i];
        struct material_answer answer = ask(judging, i, place, ln_activity);
        ret.failed = ret.failed || answer.failed;
        bool network = item->material->film == FILM_CROSS_LINKED;
        if (network && !leaves_window(&answer, &spared))
            ret.answers &= ~(unsigned)DOUBT_WINDOW;
        if (network)
            ret.target = fmin(ret.target, item->by_film ? answer.swelling : -answer.ra);
        else if (!(answer.swelling == INFINITY || answer.red < 1))
            ret.answers &= ~(unsigned)DOUBT_DISSOLVES;
    }
    ret.swelling = sampling->doubt.by_distance ? -spared.nearest : spared.inside ? INFINITY : spared.swelling;
    return ret;
}

// --- one sample ---

static void note(struct sampling *sampling, size_t row, size_t blend, const struct blend_answer *answer) {
    struct doubt *doubt = &sampling->doubt;
    size_t cell = row * doubt->count + blend;
    doubt->swelling[cell] = answer->failed ? NAN : answer->swelling;
    if (doubt->target)
        doubt->target[cell] = answer->failed ? NAN : answer->target;
    doubt->answers[cell] = (unsigned char)(answer->failed ? 0 : answer->answers);
    sampling->failed[cell] = answer->failed;
}

static bool can_judge(const struct sampling *sampling, const struct liquid_set *set) {
    if (sampling->needs_activities)
        return set->covered;
    for (size_t i = 0; i < set->count; i++)
        if (isnan(sampling->list.pool[set->members[i]]->hansen.delta_d))
            return false;
    return true;
}

static void sample_all(struct sampling *sampling, const struct doubt_values *values, size_t row) {
    struct judging judging = {.sampling = sampling, .values = values};
    for (size_t k = 0; k < sampling->doubt.count; k++) {
        size_t blend = sampling->list.order[k];
        const struct liquid *liquid = &sampling->list.liquids[blend];
        const struct liquid_set *set = sampling->list.sets[liquid->set];
        struct blend_answer answer = {.swelling = NAN, .target = NAN};
        if (set != judging.set)
            enter_set(&judging, set);
        if (can_judge(sampling, set))
            answer = judge(&judging, liquid);
        note(sampling, row, blend, &answer);
    }
}

static void show_progress(struct sampling *sampling, size_t done) {
    const struct watch *watch = &sampling->request->watch;
    double now = (double)(sampling->doubt.samples + done) / (double)sampling->doubt.asked;
    if (!watch->progress || now <= sampling->shown) // a round in which points were dropped starts further back
        return;
    sampling->shown = now;
    watch->progress(watch->context, now);
}

static void one_sample(void *context, int piece, bool leader) {
    struct sampling *sampling = context;
    if (watch_cancelled(&sampling->request->watch))
        return;
    struct doubt_values values;
    bool met = doubt_draw(&sampling->plan, sampling->first + (size_t)piece, &values);
    if (met)
        sample_all(sampling, &values, sampling->doubt.samples + (size_t)piece);
    sampling->outcome[piece] = met ? SAMPLE_USED : SAMPLE_DROPPED;
    size_t done = atomic_fetch_add(&sampling->done, 1) + 1;
    if (leader)
        show_progress(sampling, done);
}

static void move_row(struct sampling *sampling, size_t from, size_t to) {
    struct doubt *doubt = &sampling->doubt;
    size_t length = doubt->count;
    memmove(doubt->swelling + to * length, doubt->swelling + from * length, length * sizeof *doubt->swelling);
    if (doubt->target)
        memmove(doubt->target + to * length, doubt->target + from * length, length * sizeof *doubt->target);
    memmove(doubt->answers + to * length, doubt->answers + from * length, length);
    memmove(sampling->failed + to * length, sampling->failed + from * length, length);
}

// False when the round was cancelled.
static bool one_round(struct sampling *sampling) {
    struct doubt *doubt = &sampling->doubt;
    size_t left = sampling->plan.samples - sampling->first, pieces = doubt->asked - doubt->samples;
    if (pieces > left)
        pieces = left;
    memset(sampling->outcome, SAMPLE_MISSING, pieces);
    atomic_store(&sampling->done, 0);
    crew_run(sampling->request->threads, (int)pieces, one_sample, sampling);
    sampling->first += pieces;
    bool complete = true;
    size_t base = doubt->samples;
    for (size_t i = 0; i < pieces; i++) {
        complete = complete && sampling->outcome[i] != SAMPLE_MISSING;
        doubt->dropped += sampling->outcome[i] == SAMPLE_DROPPED;
        if (sampling->outcome[i] == SAMPLE_USED)
            move_row(sampling, base + i, doubt->samples++);
    }
    return complete;
}

// --- the whole ---

static enum status check_request(const struct doubt_request *request, struct error *err) {
    if (request->count < 1 || request->count > DOUBT_BLENDS_MAX)
        return error_set(err, STATUS_RANGE, "%zu blends to sample: 1 to %d are possible", request->count,
                         DOUBT_BLENDS_MAX);
    if (request->samples < 1 || request->samples > DOUBT_SAMPLES_MAX)
        return error_set(err, STATUS_RANGE, "%zu samples: 1 to %d are possible", request->samples, DOUBT_SAMPLES_MAX);
    if (request->goal->remove_count < 1)
        return error_set(err, STATUS_RANGE, "no material to remove is named");
    if (!(request->least_probability >= 0 && request->least_probability <= 1))
        return error_set(err, STATUS_RANGE, "probability %g is not 0 to 1", request->least_probability);
    return STATUS_OK;
}

static void characterise(struct sampling *sampling) {
    const struct doubt_plan *plan = &sampling->plan;
    bool spared_film = plan->count == plan->remove_count;
    for (size_t i = 0; i < plan->count; i++) {
        const struct doubt_material *item = &plan->materials[i];
        bool network = item->material->film == FILM_CROSS_LINKED;
        sampling->needs_activities = sampling->needs_activities || item->by_film;
        spared_film = spared_film || (i >= plan->remove_count && item->by_film);
        sampling->cross_linked = sampling->cross_linked || (i < plan->remove_count && network);
        sampling->can_dissolve = sampling->can_dissolve || (i < plan->remove_count && !network);
    }
    sampling->doubt.by_distance = !spared_film;
}

static enum status prepare_list(struct sampling *sampling, struct error *err) {
    const struct doubt_request *request = sampling->request;
    enum status status = liquid_list_init(&sampling->list, request->count + 2 * DOUBT_MATERIALS_MAX, err);
    for (size_t i = 0; i < request->count && status == STATUS_OK; i++)
        status = liquid_list_add(&sampling->list, request->table, &request->blends[i], request->temp_k, err);
    if (status == STATUS_OK)
        liquid_list_sort(&sampling->list, request->count);
    return status;
}

static enum status prepare_cells(struct sampling *sampling, struct error *err) {
    struct doubt *doubt = &sampling->doubt;
    doubt->count = sampling->request->count;
    doubt->asked = sampling->request->samples;
    size_t cells = doubt->asked * doubt->count;
    doubt->rows = memory_new(doubt->count, sizeof *doubt->rows);
    doubt->swelling = memory_new(cells, sizeof *doubt->swelling);
    doubt->answers = memory_new(cells, sizeof *doubt->answers);
    doubt->target = sampling->cross_linked ? memory_new(cells, sizeof *doubt->target) : NULL;
    sampling->failed = memory_new(cells, sizeof *sampling->failed);
    sampling->outcome = memory_new(doubt->asked, sizeof *sampling->outcome);
    if (!doubt->rows || !doubt->swelling || !doubt->answers || (sampling->cross_linked && !doubt->target) ||
        !sampling->failed || !sampling->outcome)
        return error_set(err, STATUS_MEMORY, "out of memory for %zu samples of %zu blends", doubt->asked, doubt->count);
    return STATUS_OK;
}

// Shares and quantiles of each row are those of the samples that judged it.
static void count_answers(struct sampling *sampling) {
    struct doubt *doubt = &sampling->doubt;
    for (size_t i = 0; i < doubt->count; i++) {
        struct doubt_row *row = &doubt->rows[i];
        const struct liquid_set *set = sampling->list.sets[sampling->list.liquids[i].set];
        row->judged = can_judge(sampling, set);
        size_t judged = 0, dissolves = 0, window = 0, works = 0;
        for (size_t k = 0; k < doubt->samples && row->judged; k++) {
            unsigned answers = doubt->answers[k * doubt->count + i];
            bool failed = sampling->failed[k * doubt->count + i];
            row->failed += failed;
            judged += !failed;
            dissolves += (answers & DOUBT_DISSOLVES) != 0;
            window += (answers & DOUBT_WINDOW) != 0;
            works += answers == (DOUBT_DISSOLVES | DOUBT_WINDOW);
        }
        double all = judged ? (double)judged : NAN;
        row->p_dissolves = sampling->can_dissolve ? (double)dissolves / all : NAN;
        row->p_window = sampling->cross_linked ? (double)window / all : NAN;
        row->p_works = (double)works / all;
    }
}

static enum status prepare(struct sampling *sampling, struct error *err) {
    enum status status = check_request(sampling->request, err);
    if (status == STATUS_OK)
        status = prepare_list(sampling, err);
    if (status == STATUS_OK)
        status = doubt_plan_make(sampling->request, &sampling->list, &sampling->plan, err);
    if (status != STATUS_OK)
        return status;
    characterise(sampling);
    return prepare_cells(sampling, err);
}

static enum status sample(struct sampling *sampling, struct error *err) {
    const struct doubt_request *request = sampling->request;
    enum status status = prepare(sampling, err);
    if (status != STATUS_OK)
        return status;
    bool complete = true;
    while (complete && sampling->doubt.samples < sampling->doubt.asked && sampling->first < sampling->plan.samples)
        complete = one_round(sampling);
    sampling->doubt.error = doubt_error(0.5, sampling->doubt.samples);
    count_answers(sampling);
    status = doubt_rank(&sampling->doubt, request->least_probability, err);
    if (status != STATUS_OK || complete)
        return status;
    return error_set(err, STATUS_INTERRUPTED, "interrupted after %zu of %zu samples", sampling->doubt.samples,
                     sampling->doubt.asked);
}

enum status doubt_sample(const struct doubt_request *request, struct doubt *ret, struct error *err) {
    struct sampling sampling = {.request = request};
    enum status status = sample(&sampling, err);
    doubt_plan_release(&sampling.plan);
    liquid_list_release(&sampling.list);
    memory_free(sampling.outcome);
    memory_free(sampling.failed);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED)
        *ret = sampling.doubt;
    else
        doubt_release(&sampling.doubt);
    return status;
}

void doubt_release(struct doubt *doubt) {
    if (!doubt)
        return;
    memory_free(doubt->rows);
    memory_free(doubt->swelling);
    memory_free(doubt->target);
    memory_free(doubt->answers);
    *doubt = (struct doubt){0};
}
